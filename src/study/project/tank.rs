//! The tank: how it is joined to the system, its shape, its dip tube and its vent.

use crate::quantity::si::{Acceleration, Length, Pressure, Ratio, ThermodynamicTemperature, Volume};
use crate::quantity::{Estimate, GRAVITY, Kind, Measured};
use crate::study::{Field, Label, Visitor, defaults};

/// How the tank is joined to the system.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum TankArrangement {
    /// Open to the air, behind a cap with a vacuum valve: coolant goes and comes back.
    RecoveryTank,
    /// Part of the pressurised system, with an air cushion under the cap.
    HeaderTank,
    /// Catches what the cap lets go; nothing comes back.
    CatchOnly,
}
crate::choice!(TankArrangement {
    RecoveryTank: "recovery-tank", "Recovery tank: coolant goes and comes back";
    HeaderTank: "header-tank", "Pressurised header tank with an air cushion";
    CatchOnly: "catch-only", "Catch-only can: nothing comes back";
});

/// The shape of the tank's inside.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum ShapeKind {
    /// A cylinder standing up.
    UprightCylinder,
    /// A cylinder lying down, flat ends.
    LyingCylinder,
    /// A box.
    Box,
    /// A box whose sides slope.
    TaperedBox,
    /// Measured: volume against height.
    DipTable,
}
crate::choice!(ShapeKind {
    UprightCylinder: "upright-cylinder", "Upright cylinder";
    LyingCylinder: "lying-cylinder", "Lying cylinder";
    Box: "box", "Box";
    TaperedBox: "tapered-box", "Tapered box";
    DipTable: "dip-table", "Measured dip table";
});

/// How the tank breathes.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum VentKind {
    /// A hole in the lid.
    Hole,
    /// A tube.
    Tube,
    /// None: the lid is sealed.
    Sealed,
}
crate::choice!(VentKind {
    Hole: "hole", "A hole";
    Tube: "tube", "A tube or hose";
    Sealed: "sealed", "None: the lid seals";
});

/// The tank.
#[derive(Clone, Debug, PartialEq)]
pub struct TankInputs {
    /// How it is joined to the system.
    pub arrangement: TankArrangement,
    /// Shape of the inside.
    pub shape: ShapeKind,
    /// Inside diameter of a cylinder.
    pub diameter: Length,
    /// Inside length along the car: lying cylinder, box, tapered box at the floor.
    pub length: Length,
    /// Inside width across the car: box, tapered box at the floor.
    pub width: Length,
    /// Inside height: upright cylinder, boxes.
    pub height: Length,
    /// Inside length at the top of a tapered box.
    pub top_length: Length,
    /// Inside width at the top of a tapered box.
    pub top_width: Length,
    /// Measured height and volume.
    pub dips: Vec<(Length, Volume)>,
    /// Height of the cold level above the floor; unknown: where the program puts the mark.
    pub cold_level: Option<Length>,
    /// Air above the coolant at fill, header tank.
    pub cushion: Volume,
    /// End of the dip tube above the floor.
    pub tube_end: Length,
    /// Dip tube ahead of the middle of the tank.
    pub tube_ahead: Length,
    /// Dip tube to the right of the middle.
    pub tube_right: Length,
    /// Height of the filler neck above the tank's floor.
    pub neck_height: Length,
    /// Bore of the hose from the neck.
    pub hose_bore: Length,
    /// Length of that hose.
    pub hose_length: Length,
    /// How the tank breathes.
    pub vent: VentKind,
    /// Diameter of the vent hole, or bore of the vent tube.
    pub vent_diameter: Length,
    /// Length of the vent tube.
    pub vent_length: Length,
    /// Gauge pressure the tank's walls and lid may see.
    pub allowed_pressure: Option<Estimate<Pressure>>,
    /// Cornering to reckon with.
    pub cornering: Acceleration,
    /// Braking and accelerating to reckon with.
    pub braking: Acceleration,
    /// Temperature of the coolant in the tank, hot engine.
    pub tank_temperature: Option<Estimate<ThermodynamicTemperature>>,
    /// Share of the fill kept in the tank against small leaks.
    pub leak_reserve: Option<Estimate<Ratio>>,
    /// Share of the fill that may surge up after a hot stop.
    pub surge: Option<Estimate<Ratio>>,
}

static TANK: Label = Label::new("tank", "Overflow tank", "Where the coolant goes when it swells.");
static ARRANGEMENT: Label = Label::new("arrangement", "Joined as", "How the tank is joined to the system.");
static SHAPE: Label = Label::new("shape", "Inside shape", "Measure the inside.");
const INSIDE: &str = "Inside measure.";
static DIAMETER: Field =
    Field::new("diameter", "Inside diameter", Kind::Length, (0.03, 0.6), INSIDE, "measure the inside of the tank");
static LENGTH: Field = Field::new(
    "length",
    "Inside length",
    Kind::Length,
    (0.03, 1.0),
    "Along the car.",
    "measure the inside of the tank",
);
static WIDTH: Field =
    Field::new("width", "Inside width", Kind::Length, (0.03, 1.0), "Across the car.", "measure the inside of the tank");
static HEIGHT: Field =
    Field::new("height", "Inside height", Kind::Length, (0.03, 1.0), INSIDE, "measure the inside of the tank");
static TOP_LENGTH: Field = Field::new(
    "top_length",
    "Inside length at the top",
    Kind::Length,
    (0.03, 1.0),
    "Along the car.",
    "measure the inside of the tank",
);
static TOP_WIDTH: Field = Field::new(
    "top_width",
    "Inside width at the top",
    Kind::Length,
    (0.03, 1.0),
    "Across the car.",
    "measure the inside of the tank",
);
static DIPS: Label = Label::new("dips", "Dip table", "Pour in a measured volume, read the height, row by row.");
static DIP_HEIGHT: Field = Field::new("height", "height", Kind::Length, (0.0, 1.0), "Above the floor.", "");
static DIP_VOLUME: Field = Field::new("volume", "volume", Kind::Volume, (0.0, 60e-3), "Poured in so far.", "");
static COLD_LEVEL: Field = Field::new(
    "cold_level",
    "Cold level",
    Kind::Length,
    (0.0, 1.0),
    "Height of the coolant above the floor of the tank, engine cold.",
    "it must lie inside the tank",
);
static CUSHION: Field = Field::new(
    "cushion",
    "Air cushion at fill",
    Kind::Volume,
    (0.05e-3, 20e-3),
    "Air left above the coolant when filled cold.",
    "a header tank needs air above the coolant",
);
static TUBE_END: Field = Field::new(
    "tube_end",
    "Dip tube above floor",
    Kind::Length,
    (0.001, 0.5),
    "From the floor of the tank to the open end of the dip tube.",
    "3 mm or more keeps it from sucking dirt",
);
static TUBE_AHEAD: Field = Field::new(
    "tube_ahead",
    "Dip tube ahead of middle",
    Kind::Length,
    (-0.5, 0.5),
    "Towards the front of the car; negative behind the middle.",
    "it must lie inside the tank",
);
static TUBE_RIGHT: Field = Field::new(
    "tube_right",
    "Dip tube right of middle",
    Kind::Length,
    (-0.5, 0.5),
    "Towards the right of the car; negative to the left.",
    "it must lie inside the tank",
);
static NECK_HEIGHT: Field = Field::new(
    "neck_height",
    "Filler neck above tank floor",
    Kind::Length,
    (-1.0, 2.0),
    "How high the cooling vacuum must lift the coolant; negative if the neck sits lower.",
    "measure from the floor of the tank to the seat of the cap",
);
static HOSE_BORE: Field = Field::new(
    "hose_bore",
    "Overflow hose bore",
    Kind::Length,
    (0.002, 0.03),
    "From the neck to the tank; it also bounds the steam that can reach the tank.",
    "usual ones are 6 to 10 mm",
);
static HOSE_LENGTH: Field =
    Field::new("hose_length", "Overflow hose length", Kind::Distance, (0.05, 10.0), "From the neck to the tank.", "");
static VENT: Label = Label::new("vent", "Tank vent", "How air leaves the tank as coolant comes in.");
static VENT_DIAMETER: Field = Field::new(
    "vent_diameter",
    "Vent bore",
    Kind::Length,
    (0.0005, 0.05),
    "Diameter of the hole, or bore of the tube.",
    "for no vent at all choose the sealed lid",
);
static VENT_LENGTH: Field =
    Field::new("vent_length", "Vent tube length", Kind::Distance, (0.01, 5.0), "Length of the vent tube.", "");
static ALLOWED: Field = Field::new(
    "allowed_pressure",
    "Pressure the tank may see",
    Kind::PressureDifference,
    (100.0, 100e3),
    "Above the air, unless the maker gives a proof figure.",
    "thin plastic takes about 2 kPa, a lidded fabricated can about 10 kPa",
);
static CORNERING: Field = Field::new(
    "cornering",
    "Cornering",
    Kind::Acceleration,
    (0.0, 2.0 * GRAVITY),
    "Sideways acceleration the dip tube must stay covered at.",
    "road tyres reach about 0.8 g",
);
static BRAKING: Field = Field::new(
    "braking",
    "Braking",
    Kind::Acceleration,
    (0.0, 2.0 * GRAVITY),
    "Braking the dip tube must stay covered at.",
    "road tyres reach about 0.8 g",
);
static TANK_TEMPERATURE: Field = Field::new(
    "tank_temperature",
    "Coolant in the tank at",
    Kind::Temperature,
    (273.15, 383.15),
    "Temperature of the coolant in the tank with the engine hot.",
    "",
);
static LEAK_RESERVE: Field = Field::new(
    "leak_reserve",
    "Reserve against leaks",
    Kind::Share,
    (0.0, 0.3),
    "Share of the fill kept in the tank when cold.",
    "",
);
static SURGE: Field = Field::new(
    "surge",
    "Surge after a hot stop",
    Kind::Share,
    (0.0, 0.3),
    "Share of the fill that may rise into the tank for a while after a hot stop.",
    "",
);

impl Default for TankInputs {
    fn default() -> Self {
        let millimetres = |mm: f64| Length::from_base(mm * 1e-3);
        Self {
            arrangement: TankArrangement::RecoveryTank,
            shape: ShapeKind::UprightCylinder,
            diameter: millimetres(114.0),
            length: millimetres(200.0),
            width: millimetres(100.0),
            height: millimetres(180.0),
            top_length: millimetres(220.0),
            top_width: millimetres(120.0),
            dips: vec![
                (millimetres(0.0), Volume::from_base(0.0)),
                (millimetres(40.0), Volume::from_base(0.4e-3)),
                (millimetres(80.0), Volume::from_base(0.85e-3)),
                (millimetres(150.0), Volume::from_base(1.7e-3)),
            ],
            cold_level: None,
            cushion: Volume::from_base(0.9e-3),
            tube_end: millimetres(8.0),
            tube_ahead: millimetres(0.0),
            tube_right: millimetres(0.0),
            neck_height: millimetres(300.0),
            hose_bore: millimetres(8.0),
            hose_length: Length::from_base(0.8),
            vent: VentKind::Hole,
            vent_diameter: millimetres(6.0),
            vent_length: Length::from_base(0.3),
            allowed_pressure: None,
            cornering: Acceleration::from_base(0.8 * GRAVITY),
            braking: Acceleration::from_base(0.8 * GRAVITY),
            tank_temperature: None,
            leak_reserve: None,
            surge: None,
        }
    }
}

impl TankInputs {
    pub(super) fn visit(&mut self, visitor: &mut impl Visitor) {
        visitor.group(&TANK, |v| {
            v.choice(&ARRANGEMENT, &mut self.arrangement);
            v.choice(&SHAPE, &mut self.shape);
            self.visit_shape(v);
            if self.arrangement == TankArrangement::HeaderTank {
                v.quantity(&CUSHION, &mut self.cushion);
            } else {
                self.visit_open_tank(v);
            }
            v.estimate(&SURGE, &mut self.surge, defaults::surge());
        });
    }

    fn visit_shape(&mut self, v: &mut impl Visitor) {
        match self.shape {
            ShapeKind::UprightCylinder => {
                v.quantity(&DIAMETER, &mut self.diameter);
                v.quantity(&HEIGHT, &mut self.height);
            }
            ShapeKind::LyingCylinder => {
                v.quantity(&DIAMETER, &mut self.diameter);
                v.quantity(&LENGTH, &mut self.length);
            }
            ShapeKind::Box | ShapeKind::TaperedBox => {
                v.quantity(&LENGTH, &mut self.length);
                v.quantity(&WIDTH, &mut self.width);
                if self.shape == ShapeKind::TaperedBox {
                    v.quantity(&TOP_LENGTH, &mut self.top_length);
                    v.quantity(&TOP_WIDTH, &mut self.top_width);
                }
                v.quantity(&HEIGHT, &mut self.height);
            }
            ShapeKind::DipTable => v.pairs(&DIPS, (&DIP_HEIGHT, &DIP_VOLUME), &mut self.dips),
        }
    }

    fn visit_open_tank(&mut self, v: &mut impl Visitor) {
        v.optional(&COLD_LEVEL, &mut self.cold_level, "where the cold mark belongs");
        if self.arrangement == TankArrangement::RecoveryTank {
            v.quantity(&TUBE_END, &mut self.tube_end);
            v.quantity(&TUBE_AHEAD, &mut self.tube_ahead);
            v.quantity(&TUBE_RIGHT, &mut self.tube_right);
            v.quantity(&NECK_HEIGHT, &mut self.neck_height);
            v.quantity(&CORNERING, &mut self.cornering);
            v.quantity(&BRAKING, &mut self.braking);
            v.estimate(&LEAK_RESERVE, &mut self.leak_reserve, defaults::leak_reserve());
        }
        v.quantity(&HOSE_BORE, &mut self.hose_bore);
        v.quantity(&HOSE_LENGTH, &mut self.hose_length);
        v.choice(&VENT, &mut self.vent);
        if self.vent != VentKind::Sealed {
            v.quantity(&VENT_DIAMETER, &mut self.vent_diameter);
        }
        if self.vent == VentKind::Tube {
            v.quantity(&VENT_LENGTH, &mut self.vent_length);
        }
        v.estimate(&ALLOWED, &mut self.allowed_pressure, defaults::allowed_pressure());
        v.estimate(&TANK_TEMPERATURE, &mut self.tank_temperature, defaults::tank_temperature());
    }
}
