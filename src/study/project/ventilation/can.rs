//! The catch can.

use crate::crankcase::oil::CanInside;
use crate::quantity::si::{Area, Length, Pressure, Ratio, Velocity, Volume};
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
    /// A can of the same kind in the second breather's line.
    pub in_both: bool,
    /// Loss at the inlet, on the velocity in the hose.
    pub inlet_loss: Option<Estimate<Ratio>>,
    /// Loss at the outlet, on the velocity there.
    pub outlet_loss: Option<Estimate<Ratio>>,
    /// A drain hose with a check to the sump.
    pub drain: CanDrainInputs,
    /// Volume up to its outlet.
    pub volume: Option<Volume>,
    /// What is inside.
    pub inside: CanInside,
    /// Area that the gas has inside.
    pub area: Area,
    /// Mesh: depth of the pack.
    pub mesh_depth: Option<Length>,
    /// Whether it drains into the sump by itself.
    pub drains: bool,
    /// Place of its wall between air and oil.
    pub wall_share: Option<Estimate<Ratio>>,
    /// Mean speed of the car, idling counted.
    pub mean_speed: Velocity,
    /// Distance between two looks at it.
    pub service: Length,
}

/// A drain hose from the can to the sump.
#[derive(Clone, Debug, PartialEq)]
pub struct CanDrainInputs {
    /// Whether there is one.
    pub known: bool,
    /// Height of the can's floor above the oil in the sump, or above the drain's open end in the block.
    pub height: Length,
    /// What opens the check at its end.
    pub check_opening: Option<Estimate<Pressure>>,
}

static CAN: Label = Label::new("catch_can", "Catch can", "Keeps oil off the exhaust; it does not lower the pressure.");
static PLACE: Label = Label::new("place", "Catch can", "Where it sits.");
static BORE: Field =
    Field::new("bore", "Bore of its fittings", Kind::Length, (0.003, 0.06), "Smaller of inlet and outlet.", "");
static IN_BOTH: Label =
    Label::new("in_both_lines", "One in each line", "The second breather has a can of the same kind.");
static INLET_LOSS: Field = Field::new(
    "inlet_loss",
    "Loss at its inlet",
    Kind::Number,
    (0.0, 20.0),
    "Loss coefficient on the velocity in the hose, beyond that of a hose that ends in the open.",
    "0 for a wide can, 2 where the gas strikes a wall",
);
static OUTLET_LOSS: Field = Field::new(
    "outlet_loss",
    "Loss at its outlet",
    Kind::Number,
    (0.0, 20.0),
    "Loss coefficient on the velocity in the outlet.",
    "0.5 for a flush edge",
);
static DRAIN: Label =
    Label::new("drain", "Drain hose to the sump", "Brings back what the can caught, by its own weight.");
static DRAIN_KNOWN: Label =
    Label::new("known", "Drains by a hose to the sump", "With a check, so that no gas rises in it.");
static DRAIN_HEIGHT: Field = Field::new(
    "height",
    "Height of the drain",
    Kind::Length,
    (0.01, 1.5),
    "From the can's floor down to the oil in the sump, or to the drain's open end.",
    "",
);
static DRAIN_CHECK: Field = Field::new(
    "check_opening",
    "Its check opens at",
    Kind::SmallPressureDifference,
    (0.0, 10e3),
    "Pressure difference that lifts the check; 0 without one.",
    "",
);
static MESH_DEPTH: Field = Field::new(
    "mesh_depth",
    "Depth of the pack",
    Kind::SmallLength,
    (1e-3, 0.3),
    "Along the way of the gas; with it the program tells what the mesh costs.",
    "20 to 100 mm",
);
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

impl Default for CanDrainInputs {
    fn default() -> Self {
        Self { known: false, height: Length::from_base(0.3), check_opening: None }
    }
}

impl CanDrainInputs {
    fn visit(&mut self, visitor: &mut impl Visitor) {
        visitor.optional_group(&DRAIN, &DRAIN_KNOWN, &mut self.known, |v| {
            v.quantity(&DRAIN_HEIGHT, &mut self.height);
            v.estimate(&DRAIN_CHECK, &mut self.check_opening, defaults::check_opening());
        });
    }
}

impl Default for CanInputs {
    fn default() -> Self {
        Self {
            place: CanPlace::None,
            bore: Length::from_base(0.016),
            in_both: false,
            inlet_loss: None,
            outlet_loss: None,
            drain: CanDrainInputs::default(),
            volume: None,
            inside: CanInside::Baffled,
            area: Area::from_base(3e-3),
            mesh_depth: None,
            drains: false,
            wall_share: None,
            mean_speed: Velocity::from_base(60.0 / 3.6),
            service: Length::from_base(5e6),
        }
    }
}

impl CanInputs {
    pub(super) fn visit(&mut self, two_breathers: bool, visitor: &mut impl Visitor) {
        visitor.group(&CAN, |v| {
            v.choice(&PLACE, &mut self.place);
            if self.place != CanPlace::None {
                v.quantity(&BORE, &mut self.bore);
                if two_breathers && self.place == CanPlace::BreatherLine {
                    v.later(|v| v.switch(&IN_BOTH, &mut self.in_both));
                }
                v.estimate(&INLET_LOSS, &mut self.inlet_loss, defaults::can_inlet_loss());
                v.estimate(&OUTLET_LOSS, &mut self.outlet_loss, defaults::can_outlet_loss());
                self.visit_what_collects(v);
                self.drain.visit(v);
            }
        });
    }

    /// What collects is asked about only of a can whose volume is known.
    fn visit_what_collects(&mut self, v: &mut impl Visitor) {
        v.optional(&VOLUME, &mut self.volume, "not known");
        if self.volume.is_some() {
            v.quantity(&AREA, &mut self.area);
            v.switch(&DRAINS, &mut self.drains);
            v.estimate(&WALL, &mut self.wall_share, defaults::can_wall_share());
            v.quantity(&MEAN_SPEED, &mut self.mean_speed);
            v.quantity(&SERVICE, &mut self.service);
            // Last, as what hangs on a choice is not asked for before it is made.
            v.choice(&INSIDE, &mut self.inside);
            if self.inside == CanInside::Mesh {
                v.optional(&MESH_DEPTH, &mut self.mesh_depth, "not counted");
            }
        }
    }
}
