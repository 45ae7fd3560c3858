//! The element of a breather.

use crate::quantity::{Estimate, Kind, LinearResistance, QuadraticResistance};
use crate::study::{Field, Label, Visitor, defaults};

/// A breather element.
#[derive(Clone, Debug, PartialEq)]
pub struct ElementInputs {
    /// Pressure per flow.
    pub linear: Option<Estimate<LinearResistance>>,
    /// Pressure per flow squared.
    pub quadratic: Option<Estimate<QuadraticResistance>>,
}

static ELEMENT: Label =
    Label::new("element", "Breather element", "Its resistance: pressure = linear · flow + quadratic · flow².");
static LINEAR: Field =
    Field::new("linear", "Linear resistance", Kind::LinearResistance, (0.0, 1e8), "Zero for an open pipe.", "");
static QUADRATIC: Field = Field::new(
    "quadratic",
    "Quadratic resistance",
    Kind::QuadraticResistance,
    (0.0, 1e12),
    "Zero for an open pipe.",
    "",
);

impl ElementInputs {
    pub(super) fn visit(&mut self, visitor: &mut impl Visitor) {
        visitor.group(&ELEMENT, |v| {
            v.estimate(&LINEAR, &mut self.linear, defaults::element_linear());
            v.estimate(&QUADRATIC, &mut self.quadratic, defaults::element_quadratic());
        });
    }
}
