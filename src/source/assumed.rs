//! A figure the program assumes until a person knows better: low, likely, high, what it may be, and where it is from.

use super::Source;
use crate::quantity::{Estimate, Measured, OutOfRange, Range};

/// An editable default. Its range is the gate for whatever a person puts in its place.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Assumed<Q> {
    /// Low, likely and high.
    pub estimate: Estimate<Q>,
    /// What a value in its place may be.
    pub range: Range,
    /// Where the three values come from.
    pub source: &'static Source,
}

impl<Q: Measured> Assumed<Q> {
    /// Three values in order, in the coherent SI unit.
    #[must_use]
    pub fn new([low, likely, high]: [f64; 3], range: Range, source: &'static Source) -> Self {
        let estimate = Estimate { low: Q::from_base(low), likely: Q::from_base(likely), high: Q::from_base(high) };
        Self { estimate, range, source }
    }

    /// The value to expect.
    #[must_use]
    pub fn likely(&self) -> Q {
        self.estimate.likely
    }

    /// Passes a value through if it may stand in place of this figure.
    ///
    /// # Errors
    /// [`OutOfRange`] with the value and both ends.
    pub fn check(&self, value: Q) -> Result<Q, OutOfRange> {
        self.range.check(value)
    }

    /// Whether the three values are in order and allowed; a test asks it of every default.
    #[cfg(test)]
    pub(crate) fn is_sound(&self) -> bool {
        let Estimate { low, likely, high } = self.estimate;
        self.range.low <= low.base()
            && low.base() <= likely.base()
            && likely.base() <= high.base()
            && high.base() <= self.range.high
    }
}

/// Declares a table of assumed figures, a function each: `name: Type = [low, likely, high], range, source;`, the numbers
/// in the coherent SI unit.
macro_rules! assumed {
    ($($(#[$doc:meta])* $name:ident: $type:ty = $values:expr, $range:expr, $source:expr;)*) => {
        $(
            $(#[$doc])*
            #[must_use]
            pub fn $name() -> $crate::source::Assumed<$type> {
                $crate::source::Assumed::new($values, $range, &$source)
            }
        )*

        /// Every name of the table with whether its figures are in order and allowed.
        #[cfg(test)]
        pub(crate) fn soundness() -> Vec<(&'static str, bool)> {
            vec![$((stringify!($name), $name().is_sound())),*]
        }
    };
}
pub(crate) use assumed;
