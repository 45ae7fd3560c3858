//! Where a value may lie, checked at one gate.

use super::{Amount, Estimate, Kind, Measured, UnitSystem};

/// The values an input or a correlation may take, ends included, in the coherent SI unit.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Range {
    /// What is limited, in words: "coolant temperature".
    pub what: &'static str,
    /// What kind of quantity it is.
    pub kind: Kind,
    /// The lowest value allowed.
    pub low: f64,
    /// The highest value allowed.
    pub high: f64,
    /// What to do about a value outside.
    pub hint: &'static str,
}

impl Range {
    /// A range in the coherent SI unit of `kind`.
    #[must_use]
    pub const fn new(what: &'static str, kind: Kind, low: f64, high: f64, hint: &'static str) -> Self {
        Self { what, kind, low, high, hint }
    }

    /// Passes a value through if it lies inside.
    ///
    /// # Errors
    /// [`OutOfRange`] with the value and both ends, also for a value that is not a number.
    pub fn check<Q: Measured>(&self, value: Q) -> Result<Q, OutOfRange> {
        self.check_base(value.base()).map(|_| value)
    }

    /// As [`Range::check`], for a number in the coherent SI unit.
    ///
    /// # Errors
    /// As [`Range::check`].
    pub fn check_base(&self, base: f64) -> Result<f64, OutOfRange> {
        // "70 %" is a seventy that was multiplied: the last bit of a conversion refuses nobody.
        let (low, high) = (self.low - 1e-12 * self.low.abs(), self.high + 1e-12 * self.high.abs());
        if base >= low && base <= high { Ok(base) } else { Err(OutOfRange { range: *self, value: base }) }
    }

    /// "3 mm to 40 mm", for a hint beside an input.
    #[must_use]
    pub fn show(&self, system: UnitSystem) -> String {
        let low = Amount::new(self.low, self.kind);
        format!("{} to {}", low.show(system), Amount::new(self.high, self.kind).show(system))
    }

    /// Passes an estimate whose three values are allowed and rise.
    ///
    /// # Errors
    /// [`OutOfRange`] for the first value outside, [`NotOrdered`] when they do not rise.
    pub fn check_estimate<Q, E>(&self, estimate: &Estimate<Q>) -> Result<(), E>
    where
        Q: Measured,
        E: From<OutOfRange> + From<NotOrdered>,
    {
        let values = [estimate.low, estimate.likely, estimate.high];
        for value in values {
            self.check(value)?;
        }
        if values.map(|value| value.base()).is_sorted() {
            return Ok(());
        }
        let [low, likely, high] = values.map(|value| Amount::of_kind(value, self.kind));
        Err(NotOrdered { what: self.what, low, likely, high }.into())
    }
}

/// An estimate whose values do not rise.
#[derive(Clone, Copy, Debug, PartialEq, thiserror::Error)]
#[error(
    "{what} is not in order: low {}, likely {}, high {}; enter them rising",
    low.show(UnitSystem::Si), likely.show(UnitSystem::Si), high.show(UnitSystem::Si)
)]
pub struct NotOrdered {
    /// Which figure.
    pub what: &'static str,
    /// Its low value.
    pub low: Amount,
    /// Its likely value.
    pub likely: Amount,
    /// Its high value.
    pub high: Amount,
}

/// A value outside its range. The message names the value, the range in both unit systems' words, and what to do.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct OutOfRange {
    /// The range it missed.
    pub range: Range,
    /// The value, in the coherent SI unit.
    pub value: f64,
}

impl OutOfRange {
    /// The sentence in the units a person reads in.
    #[must_use]
    pub fn say(&self, system: UnitSystem) -> String {
        let value = Amount::new(self.value, self.range.kind).show_input(system);
        let sentence = format!("{} is {value}, outside {}", self.range.what, self.range.show(system));
        if self.range.hint.is_empty() { sentence } else { format!("{sentence}; {}", self.range.hint) }
    }
}

impl std::fmt::Display for OutOfRange {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.write_str(&self.say(UnitSystem::Si))
    }
}

impl std::error::Error for OutOfRange {}
