//! A value and what is known of its spread.

use super::{Amount, Kind, Measured, UnitSystem};

/// Low, likely and high. An exact value has all three equal.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Estimate<Q> {
    /// The lowest value worth reckoning with.
    pub low: Q,
    /// The value to expect.
    pub likely: Q,
    /// The highest value worth reckoning with.
    pub high: Q,
}

impl<Q: Measured> Estimate<Q> {
    /// Three values in order; `None` when they are not, or are not numbers.
    #[must_use]
    pub fn new(low: Q, likely: Q, high: Q) -> Option<Self> {
        (low.base() <= likely.base() && likely.base() <= high.base()).then_some(Self { low, likely, high })
    }

    /// A value known without spread.
    #[must_use]
    pub const fn exact(value: Q) -> Self {
        Self { low: value, likely: value, high: value }
    }

    /// The three values of any order, put in order; for results whose dependence may run either way.
    #[must_use]
    pub fn sorted(a: Q, likely: Q, b: Q) -> Self {
        let (mut low, mut high) = if a.base() <= b.base() { (a, b) } else { (b, a) };
        if likely.base() < low.base() {
            low = likely;
        }
        if likely.base() > high.base() {
            high = likely;
        }
        Self { low, likely, high }
    }

    /// Whether the three values are one.
    #[must_use]
    pub fn is_exact(&self) -> bool {
        self.low == self.high
    }

    /// The estimate after a function applied to each value, put in order.
    #[must_use]
    pub fn map<R: Measured>(&self, apply: impl Fn(Q) -> R) -> Estimate<R> {
        Estimate::sorted(apply(self.low), apply(self.likely), apply(self.high))
    }

    /// For reading: "0.601 L (0.48 to 0.69 L)", or the value alone when exact.
    #[must_use]
    pub fn show(&self, kind: Kind, system: UnitSystem) -> String {
        let amount = |q: Q| Amount::of_kind(q, kind);
        if self.is_exact() {
            return amount(self.likely).show(system);
        }
        let low = amount(self.low).show_number(system);
        format!("{} ({low} to {})", amount(self.likely).show(system), amount(self.high).show(system))
    }

    /// For a file: reads back as exactly this estimate.
    #[must_use]
    pub fn exact_text(&self, kind: Kind, system: UnitSystem) -> String {
        let text = |q: Q| Amount::of_kind(q, kind).exact_text(system);
        if self.is_exact() {
            return text(self.likely);
        }
        format!("{} ({} to {})", text(self.likely), text(self.low), text(self.high))
    }
}
