//! A line from a cover to where the gas goes.

use crate::quantity::Kind;
use crate::quantity::Measured;
use crate::quantity::si::Length;
use crate::study::{Count, Field, Label, Visitor};

/// A line from a cover to where the gas goes.
#[derive(Clone, Debug, PartialEq)]
pub struct LineInputs {
    /// Bore of the hose.
    pub bore: Length,
    /// Length of the hose.
    pub length: Length,
    /// Bends of 90°.
    pub bends: u32,
    /// Smallest bore of a barb or fitting, if narrower than the hose.
    pub barb: Option<Length>,
}

static BORE: Field =
    Field::new("bore", "Hose bore", Kind::Length, (0.002, 0.06), "Inside diameter.", "measure the inside of the hose");
static LENGTH: Field =
    Field::new("length", "Hose length", Kind::Distance, (0.02, 10.0), "Along the hose.", "measure along the hose");
static BENDS: Count =
    Count { label: Label::new("bends", "Bends of 90°", "Count two 45° bends as one."), low: 0, high: 20 };
static BARB: Field = Field::new(
    "barb",
    "Smallest fitting bore",
    Kind::Length,
    (0.001, 0.06),
    "Barbs are often 2 to 3 mm narrower than the hose; the tightest spot rules.",
    "it must not be wider than the hose",
);

impl Default for LineInputs {
    fn default() -> Self {
        Self { bore: Length::from_base(0.016), length: Length::from_base(0.6), bends: 2, barb: None }
    }
}

impl LineInputs {
    pub(super) fn visit(&mut self, label: &'static Label, visitor: &mut impl Visitor) {
        visitor.group(label, |v| {
            v.quantity(&BORE, &mut self.bore);
            v.quantity(&LENGTH, &mut self.length);
            v.count(&BENDS, &mut self.bends);
            v.optional(&BARB, &mut self.barb, "none narrower than the hose");
        });
    }
}
