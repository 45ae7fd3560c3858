//! The catch can.

use crate::crankcase::oil::CanInside;
use crate::quantity::si::{Area, Length, Ratio, Velocity, Volume};
use crate::quantity::{Estimate, Kind, Measured};
use crate::study::{Field, Label, Visitor, defaults};

/// Where the catch can sits.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum CanPlace {
    /// None fitted.
    None,
    /// Between cover and breather.
    BreatherLine,
    /// Between cover and valve.
    ValveLine,
}
crate::choice!(CanPlace {
    None: "none", "No catch can";
    BreatherLine: "breather-line", "In the breather line";
    ValveLine: "valve-line", "In the valve line, sealed";
});

crate::choice!(CanInside {
    Open: "open", "Nothing";
    Baffled: "baffled", "Walls that turn the gas";
    Mesh: "mesh", "A pack of knitted mesh";
});

/// The catch can.
#[derive(Clone, Debug, PartialEq)]
pub struct CanInputs {
    /// Where it sits.
    pub place: CanPlace,
    /// Inlet and outlet bore.
    pub bore: Length,
    /// Volume up to its outlet.
    pub volume: Option<Volume>,
    /// What is inside.
    pub inside: CanInside,
    /// Area that the gas has inside.
    pub area: Area,
    /// Whether it drains into the sump by itself.
    pub drains: bool,
    /// Place of its wall between air and oil.
    pub wall_share: Option<Estimate<Ratio>>,
    /// Mean speed of the car, idling counted.
    pub mean_speed: Velocity,
    /// Distance between two looks at it.
    pub service: Length,
}

static CAN: Label = Label::new("catch_can", "Catch can", "Keeps oil off the exhaust; it does not lower the pressure.");
static PLACE: Label = Label::new("place", "Catch can", "Where it sits.");
static BORE: Field =
    Field::new("bore", "Bore of its fittings", Kind::Length, (0.003, 0.06), "Smaller of inlet and outlet.", "");
static VOLUME: Field = Field::new(
    "volume",
    "Volume of the can",
    Kind::Volume,
    (0.05e-3, 20e-3),
    "Up to the outlet. With it the program tells what collects, and when to drain.",
    "",
);
static INSIDE: Label = Label::new("inside", "Inside the can", "What makes the gas let go of its oil.");
static AREA: Field = Field::new(
    "area",
    "Area inside the can",
    Kind::SmallArea,
    (100e-6, 0.1),
    "Across the way of the gas: of a round can, that of its inside circle.",
    "some 20 to 80 cm²",
);
static DRAINS: Label = Label::new("drains_to_sump", "Drains into the sump", "By a hose or a valve of its own.");
static WALL: Field = Field::new(
    "wall_share",
    "Wall of the can, from air to oil",
    Kind::Number,
    (0.0, 1.0),
    "0 is as cold as the air, 1 as warm as the oil; 0.1 in the wind, 0.6 close to the engine.",
    "",
);
static MEAN_SPEED: Field = Field::new(
    "mean_speed",
    "Mean speed of the car",
    Kind::RoadSpeed,
    (2.0, 80.0),
    "Over hundreds of kilometres, idling counted: distance over hours of running.",
    "about 60 km/h in mixed driving",
);
static SERVICE: Field = Field::new(
    "service",
    "Distance between looks at the can",
    Kind::RoadDistance,
    (10e3, 50e6),
    "How far you drive before you drain it.",
    "5000 to 15000 km",
);

impl Default for CanInputs {
    fn default() -> Self {
        Self {
            place: CanPlace::None,
            bore: Length::from_base(0.016),
            volume: None,
            inside: CanInside::Baffled,
            area: Area::from_base(3e-3),
            drains: false,
            wall_share: None,
            mean_speed: Velocity::from_base(60.0 / 3.6),
            service: Length::from_base(5e6),
        }
    }
}

impl CanInputs {
    pub(super) fn visit(&mut self, visitor: &mut impl Visitor) {
        visitor.group(&CAN, |v| {
            v.choice(&PLACE, &mut self.place);
            if self.place != CanPlace::None {
                v.quantity(&BORE, &mut self.bore);
                self.visit_what_collects(v);
            }
        });
    }

    /// What collects is asked about only of a can whose volume is known.
    fn visit_what_collects(&mut self, v: &mut impl Visitor) {
        v.optional(&VOLUME, &mut self.volume, "not known");
        if self.volume.is_some() {
            v.choice(&INSIDE, &mut self.inside);
            v.quantity(&AREA, &mut self.area);
            v.switch(&DRAINS, &mut self.drains);
            v.estimate(&WALL, &mut self.wall_share, defaults::can_wall_share());
            v.quantity(&MEAN_SPEED, &mut self.mean_speed);
            v.quantity(&SERVICE, &mut self.service);
        }
    }
}
