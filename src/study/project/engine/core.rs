//! The radiator's core, measured with a rule.

use crate::heat::{Fin, Louvres, Matrix, MatrixDoubt};
use crate::quantity::si::{Angle, Area, Length, Ratio};
use crate::quantity::{DEGREE, Estimate, Kind, Measured};
use crate::study::project::RadiatorMetal;
use crate::study::{Count, Field, Label, Visitor, defaults};

/// Which way the tubes run.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum TubesRun {
    /// From a tank above to one below.
    Down,
    /// From a tank at one side to one at the other.
    Across,
}
crate::choice!(TubesRun {
    Down: "down", "Down, tanks above and below";
    Across: "across", "Across, tanks at the sides";
});

/// What the fins are.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum FinKind {
    /// With louvres cut into them.
    Louvred,
    /// Without cuts.
    Plain,
}
crate::choice!(FinKind {
    Louvred: "louvred", "Corrugated with louvres";
    Plain: "plain", "Corrugated, plain";
});

/// A core's sizes.
#[derive(Clone, Debug, PartialEq)]
pub struct CoreInputs {
    /// Width of the finned core.
    pub width: Length,
    /// Height of the finned core.
    pub height: Length,
    /// Depth of the finned core, along the air.
    pub depth: Length,
    /// Which way the tubes run.
    pub tubes_run: TubesRun,
    /// Rows of tubes behind one another.
    pub rows: u32,
    /// Outside width of a tube, along the air.
    pub tube_width: Length,
    /// Outside thickness of a tube.
    pub tube_thickness: Length,
    /// From tube to tube in a row.
    pub tube_pitch: Length,
    /// Wall of a tube.
    pub tube_wall: Length,
    /// From fin to fin.
    pub fin_pitch: Length,
    /// Thickness of a fin.
    pub fin_thickness: Length,
    /// What the fins are.
    pub fin: FinKind,
    /// Pitch of the louvres.
    pub louvre_pitch: Option<Estimate<Length>>,
    /// Their angle.
    pub louvre_angle: Option<Estimate<Angle>>,
    /// Their length over that of the fin.
    pub louvre_length: Option<Estimate<Ratio>>,
    /// True heat transfer of the air side over the correlation's.
    pub air_side: Option<Estimate<Ratio>>,
    /// The same of the coolant side.
    pub coolant_side: Option<Estimate<Ratio>>,
    /// Further resistance of scale, dust and bond.
    pub fouling: Option<Estimate<Ratio>>,
}

static CORE: Label = Label::new(
    "core",
    "Core",
    "Measured with a rule. What it is made of stands with the cooling system, as the radiator's metal.",
);
static WIDTH: Field =
    Field::new("width", "Width of the core", Kind::Length, (0.1, 1.5), "Fins only, without tanks.", "measure the core");
static HEIGHT: Field = Field::new(
    "height",
    "Height of the core",
    Kind::Length,
    (0.1, 1.5),
    "Fins only, without tanks.",
    "measure the core",
);
static DEPTH: Field = Field::new(
    "depth",
    "Depth of the core",
    Kind::SmallLength,
    (0.01, 0.15),
    "Along the air, fins only.",
    "16 to 75 mm is usual",
);
static RUN: Label = Label::new("tubes_run", "Tubes run", "The coolant passes the core once.");
static ROWS: Count = Count {
    label: Label::new("rows", "Rows of tubes", "Behind one another; look in at the filler neck, or between the fins."),
    low: 1,
    high: 6,
};
static TUBE_WIDTH: Field = Field::new(
    "tube_width",
    "Width of a tube",
    Kind::SmallLength,
    (0.006, 0.1),
    "Outside, along the air: 25 mm is an inch tube.",
    "12 to 40 mm is usual",
);
static TUBE_THICKNESS: Field = Field::new(
    "tube_thickness",
    "Thickness of a tube",
    Kind::SmallLength,
    (0.001, 0.008),
    "Outside, across the air.",
    "about 2 mm is usual",
);
static TUBE_PITCH: Field = Field::new(
    "tube_pitch",
    "Tube to tube",
    Kind::SmallLength,
    (0.004, 0.03),
    "Middle to middle in a row: measure over ten and divide.",
    "7 to 14 mm is usual",
);
static TUBE_WALL: Field = Field::new(
    "tube_wall",
    "Wall of a tube",
    Kind::SmallLength,
    (0.1e-3, 1e-3),
    "Aluminium about 0.3 to 0.4 mm, brass about 0.15 mm.",
    "",
);
static FIN_PITCH: Field = Field::new(
    "fin_pitch",
    "Fin to fin",
    Kind::SmallLength,
    (0.7e-3, 6e-3),
    "25.4 mm over the fins per inch: 14 fins per inch are 1.8 mm.",
    "count the fins over 50 mm",
);
static FIN_THICKNESS: Field = Field::new(
    "fin_thickness",
    "Thickness of a fin",
    Kind::SmallLength,
    (0.03e-3, 0.3e-3),
    "Aluminium about 0.1 mm, copper about 0.06 mm.",
    "",
);
static FIN: Label =
    Label::new("fin", "Fins", "Louvres are small cuts that stand open; they carry about twice as much.");
static LOUVRE_PITCH: Field = Field::new(
    "louvre_pitch",
    "Louvre to louvre",
    Kind::SmallLength,
    (0.5e-3, 3e-3),
    "Along the air.",
    "0.8 to 1.5 mm is usual",
);
static LOUVRE_ANGLE: Field = Field::new(
    "louvre_angle",
    "Angle of the louvres",
    Kind::Angle,
    (8.0 * DEGREE, 40.0 * DEGREE),
    "To the air.",
    "20° to 30° is usual",
);
static LOUVRE_LENGTH: Field = Field::new(
    "louvre_length",
    "Louvre over fin length",
    Kind::Share,
    (0.4, 1.0),
    "Between two tubes.",
    "75 to 90 % is usual",
);
static AIR_SIDE: Field = Field::new(
    "air_side",
    "Air side over the correlation",
    Kind::Number,
    (0.5, 1.5),
    "How the true heat transfer to the air may stand to the published correlation.",
    "",
);
static COOLANT_SIDE: Field = Field::new(
    "coolant_side",
    "Coolant side over the correlation",
    Kind::Number,
    (0.5, 1.5),
    "The same of the coolant's side.",
    "",
);
static FOULING: Field = Field::new(
    "fouling",
    "Scale, dust and bond",
    Kind::Share,
    (0.0, 1.0),
    "Further resistance over that of a clean core.",
    "a core clogged with dirt or scale may have 50 % and more",
);

impl Default for CoreInputs {
    fn default() -> Self {
        let millimetres = |value: f64| Length::from_base(value * 1e-3);
        Self {
            width: millimetres(620.0),
            height: millimetres(450.0),
            depth: millimetres(56.0),
            tubes_run: TubesRun::Across,
            rows: 2,
            tube_width: millimetres(25.0),
            tube_thickness: millimetres(2.0),
            tube_pitch: millimetres(10.0),
            tube_wall: millimetres(0.4),
            fin_pitch: millimetres(1.8),
            fin_thickness: millimetres(0.1),
            fin: FinKind::Louvred,
            louvre_pitch: None,
            louvre_angle: None,
            louvre_length: None,
            air_side: None,
            coolant_side: None,
            fouling: None,
        }
    }
}

impl CoreInputs {
    /// Width times height.
    #[must_use]
    pub fn face(&self) -> Area {
        Area::from_base(self.width.base() * self.height.base())
    }

    /// The core in the words of the physics.
    #[must_use]
    pub fn matrix(&self, metal: RadiatorMetal) -> Matrix {
        let (across, tube_length) = match self.tubes_run {
            TubesRun::Down => (self.width, self.height),
            TubesRun::Across => (self.height, self.width),
        };
        let (tube, fin) = match metal {
            RadiatorMetal::Aluminium => (defaults::aluminium_conductivity(), defaults::aluminium_conductivity()),
            RadiatorMetal::CopperBrass => (defaults::brass_conductivity(), defaults::copper_conductivity()),
        };
        let louvres = Louvres {
            pitch: self.louvre_pitch.unwrap_or_else(defaults::louvre_pitch).likely,
            angle: self.louvre_angle.unwrap_or_else(defaults::louvre_angle).likely,
            length_share: self.louvre_length.unwrap_or_else(defaults::louvre_length).likely,
        };
        Matrix {
            across,
            tube_length,
            depth: self.depth,
            rows: self.rows,
            tube_width: self.tube_width,
            tube_thickness: self.tube_thickness,
            tube_pitch: self.tube_pitch,
            tube_wall: self.tube_wall,
            fin_pitch: self.fin_pitch,
            fin_thickness: self.fin_thickness,
            fin: if self.fin == FinKind::Plain { Fin::Plain } else { Fin::Louvred(louvres) },
            tube_conductivity: tube.likely,
            fin_conductivity: fin.likely,
        }
    }

    /// How far the true core may lie from the correlations.
    #[must_use]
    pub fn doubt(&self) -> MatrixDoubt {
        MatrixDoubt {
            air: self.air_side.unwrap_or_else(defaults::core_air_side),
            coolant: self.coolant_side.unwrap_or_else(defaults::core_coolant_side),
            fouling: self.fouling.unwrap_or_else(defaults::core_fouling),
        }
    }

    pub(super) fn visit(&mut self, visitor: &mut impl Visitor) {
        visitor.group(&CORE, |v| {
            v.quantity(&WIDTH, &mut self.width);
            v.quantity(&HEIGHT, &mut self.height);
            v.quantity(&DEPTH, &mut self.depth);
            v.choice(&RUN, &mut self.tubes_run);
            v.count(&ROWS, &mut self.rows);
            v.quantity(&TUBE_WIDTH, &mut self.tube_width);
            v.quantity(&TUBE_THICKNESS, &mut self.tube_thickness);
            v.quantity(&TUBE_PITCH, &mut self.tube_pitch);
            v.quantity(&TUBE_WALL, &mut self.tube_wall);
            v.quantity(&FIN_PITCH, &mut self.fin_pitch);
            v.quantity(&FIN_THICKNESS, &mut self.fin_thickness);
            v.choice(&FIN, &mut self.fin);
            if self.fin == FinKind::Louvred {
                v.estimate(&LOUVRE_PITCH, &mut self.louvre_pitch, defaults::louvre_pitch());
                v.estimate(&LOUVRE_ANGLE, &mut self.louvre_angle, defaults::louvre_angle());
                v.estimate(&LOUVRE_LENGTH, &mut self.louvre_length, defaults::louvre_length());
            }
            v.estimate(&AIR_SIDE, &mut self.air_side, defaults::core_air_side());
            v.estimate(&COOLANT_SIDE, &mut self.coolant_side, defaults::core_coolant_side());
            v.estimate(&FOULING, &mut self.fouling, defaults::core_fouling());
        });
    }
}
