//! What the builder left open and the program took a default for.

use crate::quantity::{Estimate, Measured};
use crate::study::{Choice, Count, Field, Label, Project, Taken, Visitor};

/// The visitor that lists the defaults in use.
#[derive(Default)]
pub(super) struct Takes {
    path: Vec<&'static str>,
    taken: Vec<Taken>,
}

impl Takes {
    /// Every default in use, in the order of a project file.
    pub fn of(project: &Project) -> Vec<Taken> {
        let mut takes = Self::default();
        project.clone().visit(&mut takes);
        takes.taken
    }
}

impl Visitor for Takes {
    fn group(&mut self, label: &'static Label, body: impl FnOnce(&mut Self)) {
        self.path.push(label.key);
        body(self);
        self.path.pop();
    }

    fn estimate<Q: Measured>(&mut self, field: &'static Field, value: &mut Option<Estimate<Q>>, default: Estimate<Q>) {
        if value.is_none() {
            let path = self.path.iter().copied().chain([field.key]).collect::<Vec<_>>().join(".");
            self.taken.push(Taken {
                path,
                label: field.label,
                spread: [default.low.base(), default.likely.base(), default.high.base()],
                kind: field.range.kind,
            });
        }
    }

    fn quantity<Q: Measured>(&mut self, _field: &'static Field, _value: &mut Q) {}
    fn optional<Q: Measured>(&mut self, _field: &'static Field, _value: &mut Option<Q>, _absent: &'static str) {}
    fn choice<C: Choice>(&mut self, _label: &'static Label, _value: &mut C) {}
    fn text(&mut self, _label: &'static Label, _value: &mut String) {}
    fn count(&mut self, _count: &'static Count, _value: &mut u32) {}
    fn switch(&mut self, _label: &'static Label, _value: &mut bool) {}
    fn readings<Q: Measured>(&mut self, _field: &'static Field, _value: &mut Vec<Q>) {}
    fn pairs<A: Measured, B: Measured>(
        &mut self,
        _label: &'static Label,
        _columns: (&'static Field, &'static Field),
        _value: &mut Vec<(A, B)>,
    ) {
    }
    fn list<T: Default>(&mut self, _label: &'static Label, _value: &mut Vec<T>, _item: impl Fn(&mut T, &mut Self)) {}
}
