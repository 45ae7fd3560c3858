//! A project written as text a person can read and mend.

use super::read::{FORMAT, FORMAT_KEY};
use crate::quantity::{Amount, Estimate, Kind, Measured, UnitSystem};
use crate::study::{Choice, Count, Field, Label, Project, Visitor};
use std::fmt::Write as _;

/// The text of a project file; quantities in the units of `system`, each of which reads back as the same number.
#[must_use]
pub fn write_project(project: &Project, system: UnitSystem) -> String {
    let mut writer = Writer { text: format!("{FORMAT_KEY} = {FORMAT}\n"), system, path: Vec::new(), pending: None };
    // A visitor changes what it walks over; this one walks over a copy and leaves it as it was.
    project.clone().visit(&mut writer);
    writer.text
}

struct Writer {
    text: String,
    system: UnitSystem,
    path: Vec<String>,
    /// A heading held back until the group writes its first line.
    pending: Option<String>,
}

impl Writer {
    fn line(&mut self, key: &str, value: &str) {
        if let Some(heading) = self.pending.take() {
            self.text.push_str(&heading);
        }
        // Writing to a String cannot fail.
        let _ = writeln!(self.text, "{key} = {value}");
    }

    fn quantity_text(&self, base: f64, kind: Kind) -> String {
        let text = Amount::new(base, kind).exact_text(self.system);
        if kind == Kind::Number { text } else { quoted(&text) }
    }
}

/// A TOML basic string.
fn quoted(text: &str) -> String {
    toml::Value::String(text.to_owned()).to_string()
}

impl Visitor for Writer {
    fn group(&mut self, label: &'static Label, body: impl FnOnce(&mut Self)) {
        self.path.push(label.key.to_owned());
        self.pending = Some(format!("\n# {}\n[{}]\n", label.label, self.path.join(".")));
        body(self);
        if let Some(heading) = self.pending.take() {
            self.text.push_str(&heading);
        }
        self.path.pop();
    }

    fn optional_group(
        &mut self,
        label: &'static Label,
        _known: &'static Label,
        value: &mut bool,
        body: impl FnOnce(&mut Self),
    ) {
        // The table itself says that it is known.
        if *value {
            self.group(label, body);
        }
    }

    fn quantity<Q: Measured>(&mut self, field: &'static Field, value: &mut Q) {
        let text = self.quantity_text(value.base(), field.range.kind);
        self.line(field.key, &text);
    }

    fn optional<Q: Measured>(&mut self, field: &'static Field, value: &mut Option<Q>, _absent: &'static str) {
        if let Some(value) = value {
            self.quantity(field, value);
        }
    }

    fn estimate<Q: Measured>(&mut self, field: &'static Field, value: &mut Option<Estimate<Q>>, _default: Estimate<Q>) {
        if let Some(value) = value {
            let text = value.exact_text(field.range.kind, self.system);
            let bare = field.range.kind == Kind::Number && value.is_exact();
            let text = if bare { text } else { quoted(&text) };
            self.line(field.key, &text);
        }
    }

    fn choice<C: Choice>(&mut self, label: &'static Label, value: &mut C) {
        self.line(label.key, &quoted(value.word()));
    }

    fn text(&mut self, label: &'static Label, value: &mut String) {
        let text = quoted(value);
        self.line(label.key, &text);
    }

    fn count(&mut self, count: &'static Count, value: &mut u32) {
        self.line(count.label.key, &value.to_string());
    }

    fn switch(&mut self, label: &'static Label, value: &mut bool) {
        self.line(label.key, if *value { "true" } else { "false" });
    }

    fn readings<Q: Measured>(&mut self, field: &'static Field, value: &mut Vec<Q>) {
        if !value.is_empty() {
            let texts = value.iter().map(|q| self.quantity_text(q.base(), field.range.kind)).collect::<Vec<_>>();
            self.line(field.key, &format!("[{}]", texts.join(", ")));
        }
    }

    fn pairs<A: Measured, B: Measured>(
        &mut self,
        label: &'static Label,
        columns: (&'static Field, &'static Field),
        value: &mut Vec<(A, B)>,
    ) {
        let mut text = String::from("[\n");
        for (a, b) in value {
            let (a, b) = (
                self.quantity_text(a.base(), columns.0.range.kind),
                self.quantity_text(b.base(), columns.1.range.kind),
            );
            let _ = writeln!(text, "    [{a}, {b}],");
        }
        text.push(']');
        self.line(label.key, &text);
    }

    fn list<T: Default>(&mut self, label: &'static Label, value: &mut Vec<T>, item: impl Fn(&mut T, &mut Self)) {
        // Lists come last in their group, so that their tables do not swallow its other keys.
        for one in value {
            self.path.push(label.key.to_owned());
            let heading = format!("\n[[{}]]\n", self.path.join("."));
            if let Some(before) = self.pending.take() {
                self.text.push_str(&before);
            }
            self.text.push_str(&heading);
            item(one, self);
            self.path.pop();
        }
    }
}
