//! What the seals and covers may see.

use crate::quantity::si::Pressure;
use crate::quantity::{Estimate, GaugePressure, Kind};
use crate::study::{Field, Label, Visitor, defaults};

/// What the seals and covers may see.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct LimitInputs {
    /// Crankcase gauge pressure not to be passed at full throttle and on a hill.
    pub load: Option<Estimate<GaugePressure>>,
    /// Crankcase gauge pressure not to be passed at idle, cruise and overrun.
    pub light: Option<Estimate<GaugePressure>>,
    /// Depression of the crankcase not to be passed.
    pub depression: Option<Estimate<Pressure>>,
}

static LIMITS: Label =
    Label::new("limits", "Crankcase pressure limits", "What the seals and covers of this engine may see.");
static LOAD: Field = Field::new(
    "under_load",
    "Under load",
    Kind::CrankcasePressure,
    (100.0, 10e3),
    "At full throttle and on a hill.",
    "",
);
static LIGHT: Field =
    Field::new("light_load", "At light load", Kind::CrankcasePressure, (0.0, 5e3), "At idle, cruise and overrun.", "");
static DEPRESSION: Field = Field::new(
    "depression",
    "Depression",
    Kind::CrankcasePressure,
    (500.0, 20e3),
    "Below ambient; deeper than this draws seals inward and oil upward.",
    "",
);

impl LimitInputs {
    pub(super) fn visit(&mut self, visitor: &mut impl Visitor) {
        visitor.group(&LIMITS, |v| {
            v.estimate(&LOAD, &mut self.load, defaults::limit_load());
            v.estimate(&LIGHT, &mut self.light, defaults::limit_light());
            v.estimate(&DEPRESSION, &mut self.depression, defaults::limit_depression());
        });
    }
}
