//! Every input against its range, all faults at once.

use super::visit::{Choice, Count, Field, Label, Visitor};
use crate::quantity::{Estimate, Measured};

/// One fault of a project: where, and what to do.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Problem {
    /// The path of the input: `tank.vent_hole`.
    pub path: String,
    /// The sentence a person reads.
    pub message: String,
}

impl std::fmt::Display for Problem {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        if self.path.is_empty() { f.write_str(&self.message) } else { write!(f, "{}: {}", self.path, self.message) }
    }
}

/// All faults found; never empty.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Problems(pub Vec<Problem>);

impl std::fmt::Display for Problems {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        for (i, problem) in self.0.iter().enumerate() {
            if i > 0 {
                f.write_str("\n")?;
            }
            write!(f, "{problem}")?;
        }
        Ok(())
    }
}

impl std::error::Error for Problems {}

/// The visitor that checks ranges.
#[derive(Default)]
pub struct Checker {
    path: Vec<String>,
    /// What was found.
    pub problems: Vec<Problem>,
}

impl Checker {
    /// Adds a fault at a key of the present group.
    pub fn fault(&mut self, key: &str, message: impl Into<String>) {
        let path = self.path.iter().map(String::as_str).chain([key]).collect::<Vec<_>>().join(".");
        self.problems.push(Problem { path, message: message.into() });
    }

    fn check<Q: Measured>(&mut self, field: &'static Field, value: Q) {
        if let Err(outside) = field.range.check(value) {
            self.fault(field.key, outside.to_string());
        }
    }
}

impl Visitor for Checker {
    fn group(&mut self, label: &'static Label, body: impl FnOnce(&mut Self)) {
        self.path.push(label.key.to_owned());
        body(self);
        self.path.pop();
    }

    fn quantity<Q: Measured>(&mut self, field: &'static Field, value: &mut Q) {
        self.check(field, *value);
    }

    fn optional<Q: Measured>(&mut self, field: &'static Field, value: &mut Option<Q>, _absent: &'static str) {
        if let Some(value) = *value {
            self.check(field, value);
        }
    }

    fn estimate<Q: Measured>(&mut self, field: &'static Field, value: &mut Option<Estimate<Q>>, _default: Estimate<Q>) {
        if let Some(value) = *value {
            let count = self.problems.len();
            for part in [value.low, value.likely, value.high] {
                self.check(field, part);
                if self.problems.len() > count {
                    break;
                }
            }
            if Estimate::new(value.low, value.likely, value.high).is_none() && self.problems.len() == count {
                self.fault(field.key, format!("{}: low, likely and high must rise", field.label));
            }
        }
    }

    fn choice<C: Choice>(&mut self, _label: &'static Label, _value: &mut C) {}

    fn text(&mut self, label: &'static Label, value: &mut String) {
        // A title that fills a screen or carries control characters helps nobody.
        if value.chars().count() > 2000 {
            self.fault(label.key, format!("{} is longer than 2000 characters; shorten it", label.label));
        }
    }

    fn count(&mut self, count: &'static Count, value: &mut u32) {
        if !(count.low..=count.high).contains(value) {
            let message = format!("{} is {value}, outside {} to {}", count.label.label, count.low, count.high);
            self.fault(count.label.key, message);
        }
    }

    fn switch(&mut self, _label: &'static Label, _value: &mut bool) {}

    fn readings<Q: Measured>(&mut self, field: &'static Field, value: &mut Vec<Q>) {
        for reading in value {
            self.check(field, *reading);
        }
    }

    fn pairs<A: Measured, B: Measured>(
        &mut self,
        label: &'static Label,
        columns: (&'static Field, &'static Field),
        value: &mut Vec<(A, B)>,
    ) {
        for (row, (a, b)) in value.iter().enumerate() {
            let faults = [columns.0.range.check(*a).err(), columns.1.range.check(*b).err()];
            for outside in faults.into_iter().flatten() {
                self.fault(label.key, format!("row {}: {outside}", row + 1));
            }
        }
    }

    fn list<T: Default>(&mut self, label: &'static Label, value: &mut Vec<T>, item: impl Fn(&mut T, &mut Self)) {
        for (row, one) in value.iter_mut().enumerate() {
            self.path.push(format!("{}[{}]", label.key, row + 1));
            item(one, self);
            self.path.pop();
        }
    }
}
