//! The valve by the measures of its plunger and spring.

use crate::crankcase::element::SpringPlunger;
use crate::quantity::si::{Force, Length, Ratio};
use crate::quantity::{Estimate, Kind, Measured, Stiffness};
use crate::study::{Field, Visitor, defaults};

/// A plunger in its seat and the spring behind it.
#[derive(Clone, Debug, PartialEq)]
pub struct SpringInputs {
    /// Bore of the seat.
    pub seat_bore: Length,
    /// Diameter of the plunger's thick end.
    pub thick: Length,
    /// Diameter of its thin end.
    pub thin: Length,
    /// Travel from rest to drawn home.
    pub travel: Length,
    /// Force of the spring at rest.
    pub preload: Force,
    /// Rate of the spring.
    pub rate: Stiffness,
    /// Discharge coefficient of the ring between plunger and seat.
    pub discharge: Option<Estimate<Ratio>>,
}

static SEAT: Field =
    Field::new("seat_bore", "Bore of the seat", Kind::SmallLength, (0.002, 0.02), "Where the cone sits.", "");
static THICK: Field = Field::new(
    "plunger_thick",
    "Plunger, thick end",
    Kind::SmallLength,
    (0.001, 0.02),
    "In the seat when drawn home; its clearance is the opening at idle, so measure to 0.01 mm.",
    "it must be narrower than the seat",
);
static THIN: Field = Field::new(
    "plunger_thin",
    "Plunger, thin end",
    Kind::SmallLength,
    (0.0, 0.02),
    "In the seat at rest; zero when the tip stands clear of it.",
    "it must not be wider than the thick end",
);
static TRAVEL: Field =
    Field::new("travel", "Travel", Kind::SmallLength, (0.0005, 0.02), "From rest to drawn home.", "");
static PRELOAD: Field = Field::new(
    "preload",
    "Spring force at rest",
    Kind::Force,
    (0.0, 20.0),
    "What just begins to move the plunger; 0.1 N is the weight of 10 g.",
    "",
);
static RATE: Field =
    Field::new("spring_rate", "Spring rate", Kind::Stiffness, (10.0, 20e3), "Force for each millimetre of travel.", "");
static DISCHARGE: Field = Field::new(
    "ring_discharge",
    "Discharge coefficient of the ring",
    Kind::Number,
    (0.3, 1.0),
    "Of the ring between plunger and seat.",
    "",
);

impl Default for SpringInputs {
    fn default() -> Self {
        let usual = SpringPlunger::default();
        Self {
            seat_bore: usual.seat_bore,
            thick: usual.thick,
            thin: usual.thin,
            travel: usual.travel,
            preload: usual.preload,
            rate: usual.rate,
            discharge: None,
        }
    }
}

impl SpringInputs {
    /// The valve in the physics' words, tight on backfire.
    pub(crate) fn valve(&self) -> SpringPlunger {
        SpringPlunger {
            seat_bore: self.seat_bore,
            thick: self.thick,
            thin: self.thin,
            travel: self.travel,
            preload: self.preload,
            rate: self.rate,
            discharge: self.discharge.unwrap_or_else(defaults::ring_discharge).likely,
            backfire_area: Measured::from_base(0.0),
        }
    }

    pub(super) fn visit(&mut self, visitor: &mut impl Visitor) {
        visitor.quantity(&SEAT, &mut self.seat_bore);
        visitor.quantity(&THICK, &mut self.thick);
        visitor.quantity(&THIN, &mut self.thin);
        visitor.quantity(&TRAVEL, &mut self.travel);
        visitor.quantity(&PRELOAD, &mut self.preload);
        visitor.quantity(&RATE, &mut self.rate);
        visitor.estimate(&DISCHARGE, &mut self.discharge, defaults::ring_discharge());
    }
}
