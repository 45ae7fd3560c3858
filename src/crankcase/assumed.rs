//! A figure the program assumes until a person knows better: low, likely, high, what it may be, and where it is from.

use crate::quantity::{Estimate, Measured, OutOfRange, Range};
use crate::source::Source;
use std::marker::PhantomData;

/// A named default. Its range is the gate for whatever a person puts in its place.
#[derive(Clone, Copy, Debug)]
pub struct Assumed<Q> {
    low: f64,
    likely: f64,
    high: f64,
    /// What a value in its place may be.
    pub range: Range,
    /// Where the three values come from.
    pub source: &'static Source,
    quantity: PhantomData<fn() -> Q>,
}

impl<Q: Measured> Assumed<Q> {
    /// Three values in order, in the coherent SI unit.
    #[must_use]
    pub const fn new(low: f64, likely: f64, high: f64, range: Range, source: &'static Source) -> Self {
        Self { low, likely, high, range, source, quantity: PhantomData }
    }

    /// The three values.
    #[must_use]
    pub fn estimate(&self) -> Estimate<Q> {
        Estimate { low: Q::from_base(self.low), likely: Q::from_base(self.likely), high: Q::from_base(self.high) }
    }

    /// The value to expect.
    #[must_use]
    pub fn likely(&self) -> Q {
        Q::from_base(self.likely)
    }

    /// Passes a value through if it may stand in place of this figure.
    ///
    /// # Errors
    /// [`OutOfRange`] with the value and both ends.
    pub fn check(&self, value: Q) -> Result<Q, OutOfRange> {
        self.range.check(value)
    }

    /// Passes three values through if each may stand in place of this figure.
    ///
    /// # Errors
    /// [`OutOfRange`] with the first value that may not.
    pub fn check_all(&self, estimate: &Estimate<Q>) -> Result<(), OutOfRange> {
        for value in [estimate.low, estimate.likely, estimate.high] {
            self.range.check(value)?;
        }
        Ok(())
    }

    /// Whether the three values are in order and allowed; a test asks it of every default.
    #[must_use]
    pub fn is_sound(&self) -> bool {
        self.range.low <= self.low
            && self.low <= self.likely
            && self.likely <= self.high
            && self.high <= self.range.high
    }
}
