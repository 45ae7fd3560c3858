//! Blow-by read off a flow meter on the running engine.

use crate::quantity::si::{AngularVelocity, Power, VolumeRate};
use crate::quantity::{AbsolutePressure, Kind, Measured, RPM};
use crate::study::{Field, Label, Visitor};

/// A meter's reading and what the engine did then.
#[derive(Clone, Debug, PartialEq)]
pub struct MeteredInputs {
    /// Whether it was measured.
    pub known: bool,
    /// What the meter showed, at the temperature of the gas.
    pub flow: VolumeRate,
    /// Engine speed then.
    pub rpm: AngularVelocity,
    /// Manifold pressure then; none is wide open, as at full throttle.
    pub manifold: Option<AbsolutePressure>,
    /// Brake power then, of a diesel; none is full load at that speed.
    pub power: Option<Power>,
}

static GROUP: Label = Label::new(
    "metered",
    "Measured by a meter",
    "Flow meter on the breather, the valve's line plugged so that all gas goes through the meter, and nothing else open.",
);
static KNOWN: Label = Label::new("known", "Blow-by measured", "Whether a flow meter was read; best of all there is.");
static FLOW: Field = Field::new(
    "flow",
    "Flow by the meter",
    Kind::GasVolumeFlow,
    (0.02e-3 / 60.0, 1000e-3 / 60.0),
    "As the meter shows it, at the temperature of the gas; the PCV valve's line plugged.",
    "",
);
static SPEED: Field = Field::new(
    "rpm",
    "Engine speed then",
    Kind::RotationalSpeed,
    (30.0, 1300.0),
    "Held steady while the meter was read.",
    "enter 300 to 12000 rpm",
);
static MANIFOLD: Field = Field::new(
    "manifold_pressure",
    "Manifold pressure then, absolute",
    Kind::AbsolutePressure,
    (10e3, 350e3),
    "From a gauge: ambient pressure less the reading of a vacuum gauge, or plus that of a boost gauge.",
    "a gauge reading must be taken off the ambient pressure, or added to it, first",
);
static POWER: Field = Field::new(
    "power",
    "Brake power then",
    Kind::Power,
    (0.0, 800e3),
    "A diesel's manifold does not tell its load.",
    "zero with the car standing",
);

impl Default for MeteredInputs {
    fn default() -> Self {
        Self {
            known: false,
            flow: VolumeRate::from_base(60e-3 / 60.0),
            rpm: AngularVelocity::from_base(4800.0 * RPM),
            manifold: None,
            power: None,
        }
    }
}

impl MeteredInputs {
    pub(super) fn visit(&mut self, diesel: bool, visitor: &mut impl Visitor) {
        let mut known = self.known;
        visitor.optional_group(&GROUP, &KNOWN, &mut known, |v| {
            v.quantity(&FLOW, &mut self.flow);
            v.quantity(&SPEED, &mut self.rpm);
            v.optional(&MANIFOLD, &mut self.manifold, "wide open");
            if diesel {
                v.optional(&POWER, &mut self.power, "full load at that speed");
            }
        });
        self.known = known;
    }
}
