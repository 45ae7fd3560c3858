//! One description of every input, walked by whoever needs it.
//!
//! A [`Project`](super::Project) shows each of its inputs to a [`Visitor`] together with a [`Field`] that tells its key in a
//! file, its words on screen and the range it may take. Reading a file, writing one, checking ranges, drawing the input
//! boxes and listing differences are five visitors over the same walk, so an input is described in one place only.

use crate::quantity::{Estimate, Kind, Measured, Range};

/// One quantity a person may enter.
#[derive(Debug, PartialEq)]
pub struct Field {
    /// Its key in a project file: `glycol_share`.
    pub key: &'static str,
    /// Its words on screen, without a unit: "Glycol share". The same words stand in `range.what`.
    pub label: &'static str,
    /// A sentence of help: where to find the value, what it does.
    pub help: &'static str,
    /// Kind, allowed range and what to do about a value outside.
    pub range: Range,
}

impl Field {
    /// A field; `low` and `high` in the coherent SI unit.
    #[must_use]
    pub const fn new(
        key: &'static str,
        label: &'static str,
        kind: Kind,
        (low, high): (f64, f64),
        help: &'static str,
        hint: &'static str,
    ) -> Self {
        Self { key, label, help, range: Range::new(label, kind, low, high, hint) }
    }
}

/// An input that is no quantity: a choice, a text, a switch.
#[derive(Debug, PartialEq)]
pub struct Label {
    /// Its key in a project file.
    pub key: &'static str,
    /// Its words on screen.
    pub label: &'static str,
    /// A sentence of help.
    pub help: &'static str,
}

impl Label {
    /// A label.
    #[must_use]
    pub const fn new(key: &'static str, label: &'static str, help: &'static str) -> Self {
        Self { key, label, help }
    }
}

/// A whole number a person may enter.
#[derive(Debug, PartialEq)]
pub struct Count {
    /// Key, words and help.
    pub label: Label,
    /// The least allowed.
    pub low: u32,
    /// The most allowed.
    pub high: u32,
}

/// One of a few words.
pub trait Choice: Copy + PartialEq + 'static {
    /// All of them, in the order shown.
    const ALL: &'static [Self];
    /// The word in a file: `recovery-tank`.
    fn word(self) -> &'static str;
    /// The words on screen: "Recovery tank behind a two-way cap".
    fn name(self) -> &'static str;
}

/// Makes a `Choice` of a plain enum: `choice!(Condition { RunIn: "run-in", "Run in, healthy"; … })`.
#[macro_export]
macro_rules! choice {
    ($type:ty { $($variant:ident: $word:literal, $name:literal;)* }) => {
        impl $crate::study::Choice for $type {
            const ALL: &'static [Self] = &[$(Self::$variant),*];
            fn word(self) -> &'static str { match self { $(Self::$variant => $word),* } }
            fn name(self) -> &'static str { match self { $(Self::$variant => $name),* } }
        }
    };
}

/// Somebody who walks over all inputs of a project.
pub trait Visitor: Sized {
    /// Inputs that belong together, a table in a file: `[tank]`.
    fn group(&mut self, label: &'static Label, body: impl FnOnce(&mut Self));
    /// Inputs that belong together and may all be absent: a table that a file may lack. `known` tells the switch that says
    /// whether they are there; a file says it by the table itself.
    fn optional_group(
        &mut self,
        label: &'static Label,
        known: &'static Label,
        value: &mut bool,
        body: impl FnOnce(&mut Self),
    ) {
        self.group(label, |visitor| {
            visitor.switch(known, value);
            if *value {
                body(visitor);
            }
        });
    }
    /// Inputs that files from before them lack: they then keep the value of a blank project.
    fn later(&mut self, body: impl FnOnce(&mut Self)) {
        body(self);
    }
    /// A quantity that must be known.
    fn quantity<Q: Measured>(&mut self, field: &'static Field, value: &mut Q);
    /// A quantity that may be absent; `absent` says what that means ("not measured").
    fn optional<Q: Measured>(&mut self, field: &'static Field, value: &mut Option<Q>, absent: &'static str);
    /// A quantity with a spread, or unknown: then the program's own default is used and said.
    fn estimate<Q: Measured>(&mut self, field: &'static Field, value: &mut Option<Estimate<Q>>, default: Estimate<Q>);
    /// One of a few words.
    fn choice<C: Choice>(&mut self, label: &'static Label, value: &mut C);
    /// One of a few words that a file from before it was asked for may lack: then it is the usual one.
    fn choice_or<C: Choice>(&mut self, label: &'static Label, value: &mut C, _usual: C) {
        self.choice(label, value);
    }
    /// Free text.
    fn text(&mut self, label: &'static Label, value: &mut String);
    /// A whole number.
    fn count(&mut self, count: &'static Count, value: &mut u32);
    /// Yes or no.
    fn switch(&mut self, label: &'static Label, value: &mut bool);
    /// Several readings of one quantity, such as one for each cylinder.
    fn readings<Q: Measured>(&mut self, field: &'static Field, value: &mut Vec<Q>);
    /// A table of two columns, such as dip height and volume.
    fn pairs<A: Measured, B: Measured>(
        &mut self,
        label: &'static Label,
        columns: (&'static Field, &'static Field),
        value: &mut Vec<(A, B)>,
    );
    /// A list of things of several inputs each, such as hose runs: an array of tables in a file.
    fn list<T: Default>(&mut self, label: &'static Label, value: &mut Vec<T>, item: impl Fn(&mut T, &mut Self));
}
