//! What a core may be, and what follows from its sizes.

use super::HeatError;
use crate::note::{Note, Weight};
use crate::quantity::si::{Angle, Area, Length, Ratio, ThermalConductivity};
use crate::quantity::{Amount, DEGREE, Kind, Measured, Range};
use crate::scribe::{Scribe, Step};
use crate::source::DEFINITION;

const fn size(what: &'static str, low: f64, high: f64, hint: &'static str) -> Range {
    Range::new(what, Kind::SmallLength, low, high, hint)
}
const FACE: Range = Range::new("side of the core", Kind::Length, 0.05, 3.0, "measure the finned core");
const DEPTH: Range = size("depth of the core", 5e-3, 0.3, "16 to 75 mm is usual");
const TUBE_WIDTH: Range = size("width of a tube along the air", 4e-3, 0.15, "12 to 40 mm is usual");
const TUBE_THICKNESS: Range = size("thickness of a tube", 0.6e-3, 12e-3, "about 2 mm is usual");
const TUBE_PITCH: Range = size("pitch of the tubes", 2e-3, 50e-3, "7 to 14 mm is usual");
const TUBE_WALL: Range = size("wall of a tube", 0.05e-3, 2e-3, "0.15 to 0.4 mm is usual");
const FIN_PITCH: Range = size("distance from fin to fin", 0.4e-3, 10e-3, "25.4 mm over the fins per inch");
const FIN_THICKNESS: Range = size("thickness of a fin", 0.02e-3, 1e-3, "0.05 to 0.15 mm is usual");
/// Pitches of louvres.
pub const LOUVRE_PITCH: Range = size("pitch of the louvres", 0.3e-3, 5e-3, "0.8 to 1.5 mm is usual");
/// Angles of louvres.
pub const LOUVRE_ANGLE: Range =
    Range::new("angle of the louvres", Kind::Angle, 5.0 * DEGREE, 45.0 * DEGREE, "20° to 30° is usual");
/// Lengths of louvres over that of the fin.
pub const LOUVRE_LENGTH: Range =
    Range::new("length of the louvres over that of the fin", Kind::Share, 0.3, 1.0, "75 to 90 % is usual");
/// Conductivities of a core's metals.
pub const CONDUCTIVITY: Range = Range::new(
    "conductivity of the metal",
    Kind::Conductivity,
    10.0,
    450.0,
    "aluminium alloy about 180, copper 380, brass 110 W/(m·K)",
);

/// The cuts in a fin that turn the air from one passage into the next.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Louvres {
    /// Pitch along the air.
    pub pitch: Length,
    /// Angle to the air.
    pub angle: Angle,
    /// Length of a louvre over the length of the fin between two tubes.
    pub length_share: Ratio,
}

/// The kind of fin.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Fin {
    /// Corrugated strip without cuts.
    Plain,
    /// Corrugated strip with louvres.
    Louvred(Louvres),
}

/// A core of flat tubes in rows with corrugated fins between them, all fins as deep as the core.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Matrix {
    /// Side of the face across the tubes.
    pub across: Length,
    /// Side of the face along the tubes: the length of a tube.
    pub tube_length: Length,
    /// Depth along the air.
    pub depth: Length,
    /// Rows of tubes behind one another.
    pub rows: u32,
    /// Outside width of a tube, along the air.
    pub tube_width: Length,
    /// Outside thickness of a tube, across the air.
    pub tube_thickness: Length,
    /// From the middle of a tube to that of its neighbour in the row.
    pub tube_pitch: Length,
    /// Wall of a tube.
    pub tube_wall: Length,
    /// From one fin to the next: one over the fins per length.
    pub fin_pitch: Length,
    /// Thickness of a fin.
    pub fin_thickness: Length,
    /// What the fins are.
    pub fin: Fin,
    /// Conductivity of the tubes' metal.
    pub tube_conductivity: ThermalConductivity,
    /// Conductivity of the fins' metal.
    pub fin_conductivity: ThermalConductivity,
}

/// What follows from the sizes, in m and m².
pub(super) struct Sizes {
    /// Tubes side by side in one row.
    pub tubes: f64,
    /// Length of a fin between two tubes.
    pub fin_length: f64,
    /// Both sides of all fins.
    pub fin_surface: f64,
    /// Outside of the tubes between the fins.
    pub tube_surface: f64,
    /// Narrowest free area over that of the face.
    pub free_share: f64,
    /// Section of all tubes.
    pub flow_area: f64,
    /// Inside of all tubes.
    pub wet_surface: f64,
    /// Hydraulic diameter of a tube.
    pub tube_diameter: f64,
    /// Inside thickness of a tube over its inside width.
    pub tube_aspect: f64,
}

impl Sizes {
    pub(super) fn air_surface(&self) -> f64 {
        self.fin_surface + self.tube_surface
    }

    pub(super) fn write(&self, matrix: &Matrix, scribe: &mut impl Scribe) {
        scribe.step(|| {
            Step::new("Tubes side by side", "N", "N = whole part of B/p_t", &DEFINITION)
                .with("B", matrix.across)
                .with_amount("p_t", Amount::of_kind(matrix.tube_pitch, Kind::SmallLength))
                .gives_amount(Amount::number(self.tubes))
        });
        scribe.step(|| {
            Step::new("Surface on the air side", "A_a", "A_a = 2·N·L·[(p_t − t)·T/p_f + n·w·(1 − δ/p_f)]", &DEFINITION)
                .with_number("N", self.tubes)
                .with("L", matrix.tube_length)
                .with_amount("p_t", Amount::of_kind(matrix.tube_pitch, Kind::SmallLength))
                .with_amount("t", Amount::of_kind(matrix.tube_thickness, Kind::SmallLength))
                .with_amount("T", Amount::of_kind(matrix.depth, Kind::SmallLength))
                .with_amount("p_f", Amount::of_kind(matrix.fin_pitch, Kind::SmallLength))
                .with_number("n", f64::from(matrix.rows))
                .with_amount("w", Amount::of_kind(matrix.tube_width, Kind::SmallLength))
                .with_amount("δ", Amount::of_kind(matrix.fin_thickness, Kind::SmallLength))
                .gives_amount(Amount::new(self.air_surface(), Kind::Area))
        });
        scribe.step(|| {
            Step::new("Free share of the face", "σ", "σ = (1 − t/p_t)·(1 − δ/p_f)", &DEFINITION)
                .gives_amount(Amount::new(self.free_share, Kind::Share))
        });
    }
}

impl Matrix {
    /// The face: across times along.
    #[must_use]
    pub fn face(&self) -> Area {
        Area::from_base(self.across.base() * self.tube_length.base())
    }

    /// Passes the core through if every size lies in range and they fit each other.
    ///
    /// # Errors
    /// A size out of range, or two that do not fit.
    pub fn check(&self) -> Result<&Self, HeatError> {
        self.sizes().map(|_| self)
    }

    pub(super) fn sizes(&self) -> Result<Sizes, HeatError> {
        let across = FACE.check(self.across)?.base();
        let length = FACE.check(self.tube_length)?.base();
        let depth = DEPTH.check(self.depth)?.base();
        let width = TUBE_WIDTH.check(self.tube_width)?.base();
        let thickness = TUBE_THICKNESS.check(self.tube_thickness)?.base();
        let pitch = TUBE_PITCH.check(self.tube_pitch)?.base();
        let wall = TUBE_WALL.check(self.tube_wall)?.base();
        let fin_pitch = FIN_PITCH.check(self.fin_pitch)?.base();
        let fin = FIN_THICKNESS.check(self.fin_thickness)?.base();
        CONDUCTIVITY.check(self.tube_conductivity)?;
        CONDUCTIVITY.check(self.fin_conductivity)?;
        if let Fin::Louvred(louvres) = &self.fin {
            LOUVRE_PITCH.check(louvres.pitch)?;
            LOUVRE_ANGLE.check(louvres.angle)?;
            LOUVRE_LENGTH.check(louvres.length_share)?;
        }
        let rows = f64::from(self.rows);
        let unfit = |what, why| Err(HeatError::CoreDoesNotFit { what, why });
        if !(1..=8).contains(&self.rows) {
            return unfit("rows of tubes", "a core has 1 to 8 rows");
        }
        if pitch < thickness + 1e-3 {
            return unfit("tube pitch", "there must be a millimetre at least between two tubes for the fins");
        }
        if rows * width > depth * 1.02 {
            return unfit("tube width", "the rows of tubes together must not be deeper than the core");
        }
        if 2.0 * wall > 0.8 * thickness {
            return unfit("tube wall", "two walls must leave a fifth of the tube's thickness at least for the coolant");
        }
        if width < 1.5 * thickness {
            return unfit("tube width", "a flat tube is at least half as wide again along the air as it is thick");
        }
        if fin > 0.5 * fin_pitch {
            return unfit("fin thickness", "the fins must leave half of the distance between them at least to the air");
        }
        if across < pitch {
            return unfit("tube pitch", "one tube at least must fit across the face");
        }
        // A hair more, so that a pitch that fits just so is not lost to rounding.
        let tubes = (across / pitch + 1e-9).floor();
        let fin_length = pitch - thickness;
        // A flat tube has round ends: a rectangle and a circle.
        let (inside, thin) = (width - 2.0 * wall, thickness - 2.0 * wall);
        let quarter = std::f64::consts::FRAC_PI_4;
        let section = (inside - thin) * thin + quarter * thin * thin;
        let edge = 2.0 * (inside - thin) + 4.0 * quarter * thin;
        let parallel = tubes * rows;
        Ok(Sizes {
            tubes,
            fin_length,
            fin_surface: 2.0 * tubes * length * fin_length * depth / fin_pitch,
            tube_surface: 2.0 * tubes * length * rows * width * (1.0 - fin / fin_pitch),
            free_share: (1.0 - thickness / pitch) * (1.0 - fin / fin_pitch),
            flow_area: parallel * section,
            wet_surface: parallel * edge * length,
            tube_diameter: 4.0 * section / edge,
            tube_aspect: thin / inside,
        })
    }

    /// Which sizes lie outside the cores that the louvred fins' correlation was made from.
    pub(super) fn outside_tests(&self) -> Vec<Note> {
        let Fin::Louvred(louvres) = &self.fin else { return Vec::new() };
        let millimetres = |length: Length| length.base() * 1e3;
        let tested = [
            ("fin pitch", millimetres(self.fin_pitch), 0.51, 3.33),
            ("fin length between the tubes", millimetres(self.tube_pitch - self.tube_thickness), 2.84, 25.0),
            (
                "louvre length",
                millimetres(self.tube_pitch - self.tube_thickness) * louvres.length_share.base(),
                2.13,
                18.5,
            ),
            ("core depth", millimetres(self.depth), 15.6, 57.4),
            ("tube pitch", millimetres(self.tube_pitch), 7.51, 25.0),
            ("louvre pitch", millimetres(louvres.pitch), 0.5, 3.0),
            ("louvre angle", louvres.angle.base() / DEGREE, 8.4, 35.0),
        ];
        let out: Vec<_> = tested
            .iter()
            .filter(|(_, value, low, high)| value < low || value > high)
            .map(|(what, value, low, high)| format!("{what} {value:.2} (tested {low} to {high})"))
            .collect();
        if out.is_empty() {
            return Vec::new();
        }
        let text = format!(
            "The core lies outside those the correlation of louvred fins was made from, in mm and degrees: {}. Its \
             conductance is less sure than the spread says.",
            out.join(", ")
        );
        vec![Note::new("radiator-core-outside-tests", Weight::Weak, text)]
    }
}
