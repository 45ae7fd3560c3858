//! What a project shows, as text by path: two projects show the same when their records are equal.

use coldmark::quantity::{Estimate, Measured};
use coldmark::study::{Choice, Count, Field, Label, Project, Visitor};
use std::collections::BTreeMap;

/// Every input shown, by its dotted path; quantities by the bits of their SI number.
pub fn record(project: &Project) -> BTreeMap<String, String> {
    let mut recorder = Recorder::default();
    project.clone().visit(&mut recorder);
    recorder.found
}

#[derive(Default)]
struct Recorder {
    path: Vec<String>,
    found: BTreeMap<String, String>,
}

impl Recorder {
    fn note(&mut self, key: &str, value: String) {
        let path = self.path.iter().map(String::as_str).chain([key]).collect::<Vec<_>>().join(".");
        assert_eq!(self.found.insert(path.clone(), value), None, "{path} is shown twice");
    }
}

fn bits<Q: Measured>(value: Q) -> String {
    format!("{:016x}", value.base().to_bits())
}

impl Visitor for Recorder {
    fn group(&mut self, label: &'static Label, body: impl FnOnce(&mut Self)) {
        self.path.push(label.key.to_owned());
        body(self);
        self.path.pop();
    }
    fn quantity<Q: Measured>(&mut self, field: &'static Field, value: &mut Q) {
        self.note(field.key, bits(*value));
    }
    fn optional<Q: Measured>(&mut self, field: &'static Field, value: &mut Option<Q>, _: &'static str) {
        self.note(field.key, format!("{:?}", value.map(bits)));
    }
    fn estimate<Q: Measured>(&mut self, field: &'static Field, value: &mut Option<Estimate<Q>>, _: Estimate<Q>) {
        self.note(field.key, format!("{:?}", value.map(|e| [bits(e.low), bits(e.likely), bits(e.high)])));
    }
    fn choice<C: Choice>(&mut self, label: &'static Label, value: &mut C) {
        self.note(label.key, value.word().to_owned());
    }
    fn text(&mut self, label: &'static Label, value: &mut String) {
        self.note(label.key, value.clone());
    }
    fn count(&mut self, count: &'static Count, value: &mut u32) {
        self.note(count.label.key, value.to_string());
    }
    fn switch(&mut self, label: &'static Label, value: &mut bool) {
        self.note(label.key, value.to_string());
    }
    fn readings<Q: Measured>(&mut self, field: &'static Field, value: &mut Vec<Q>) {
        self.note(field.key, format!("{:?}", value.iter().map(|&q| bits(q)).collect::<Vec<_>>()));
    }
    fn pairs<A: Measured, B: Measured>(
        &mut self,
        label: &'static Label,
        _: (&'static Field, &'static Field),
        value: &mut Vec<(A, B)>,
    ) {
        self.note(label.key, format!("{:?}", value.iter().map(|&(a, b)| (bits(a), bits(b))).collect::<Vec<_>>()));
    }
    fn list<T: Default>(&mut self, label: &'static Label, value: &mut Vec<T>, item: impl Fn(&mut T, &mut Self)) {
        self.note(label.key, value.len().to_string());
        for (row, one) in value.iter_mut().enumerate() {
            self.path.push(format!("{}[{}]", label.key, row + 1));
            item(one, self);
            self.path.pop();
        }
    }
}
