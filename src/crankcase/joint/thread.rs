//! Screw threads: limits of size, tensile stress area, shear areas, holes for wire thread inserts.

use super::JointError;
use super::figures::LENGTH_OF_THREAD;
use crate::quantity::si::{Area, Length, Ratio};
use crate::quantity::{Amount, Kind, Measured};
use crate::scribe::{Scribe, Step};
use crate::source::Source;
use crate::source::crankcase::joint as source;
use std::f64::consts::PI;

const INCH: f64 = 0.0254;
const MM: f64 = 1e-3;
/// Height of the fundamental triangle of a 60° thread over its pitch, `√3/2`.
const TRIANGLE: f64 = 0.866_025_403_784_438_6;

/// Which standard a thread follows; it decides the form of the tensile stress area.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum ThreadStandard {
    /// ASME B1.1, classes 2A and 2B.
    Unified,
    /// ISO 965-1, 6g and 6H.
    Metric,
}

impl ThreadStandard {
    /// Where the limits of size come from.
    #[must_use]
    pub fn source(self) -> &'static Source {
        match self {
            Self::Unified => &source::UNIFIED_THREADS,
            Self::Metric => &source::METRIC_THREADS,
        }
    }
}

/// What is tapped in the parent metal.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Hole {
    /// The screw's own thread.
    Plain,
    /// A larger thread that holds a wire thread insert.
    WireInsert,
}

/// Basic size of the tapped hole that takes a wire thread insert.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct InsertHole {
    /// Major diameter, `D + 1.29904 P`.
    pub major: Length,
    /// Pitch diameter, `D + 0.64952 P`.
    pub pitch_diameter: Length,
}

/// A screw thread with the limits of size that its strength depends on: minimum material of screw and hole.
#[derive(Debug, PartialEq)]
pub struct Thread {
    /// The designation, as on a drawing.
    pub name: &'static str,
    /// The standard.
    pub standard: ThreadStandard,
    /// Basic major diameter, pitch; least major and pitch diameter of the screw, greatest pitch and minor diameter of
    /// the hole; m.
    major: f64,
    pitch: f64,
    screw_major: f64,
    screw_pitch: f64,
    hole_pitch: f64,
    hole_minor: f64,
}

/// Limits printed in inches: basic major, threads to the inch, then the four limits.
const fn unified(name: &'static str, major: f64, threads: f64, [a, b, c, d]: [f64; 4]) -> Thread {
    Thread {
        name,
        standard: ThreadStandard::Unified,
        major: major * INCH,
        pitch: INCH / threads,
        screw_major: a * INCH,
        screw_pitch: b * INCH,
        hole_pitch: c * INCH,
        hole_minor: d * INCH,
    }
}

/// Limits printed in millimetres: basic major, pitch, then the four limits.
const fn metric(name: &'static str, major: f64, pitch: f64, [a, b, c, d]: [f64; 4]) -> Thread {
    Thread {
        name,
        standard: ThreadStandard::Metric,
        major: major * MM,
        pitch: pitch * MM,
        screw_major: a * MM,
        screw_pitch: b * MM,
        hole_pitch: c * MM,
        hole_minor: d * MM,
    }
}

static NO_10_24: Thread = unified("10-24 UNC 2A/2B", 0.190, 24.0, [0.1818, 0.1586, 0.1672, 0.156]);
static NO_10_32: Thread = unified("10-32 UNF 2A/2B", 0.190, 32.0, [0.1831, 0.1658, 0.1736, 0.164]);
static QUARTER_20: Thread = unified("1/4-20 UNC 2A/2B", 0.25, 20.0, [0.2408, 0.2127, 0.2224, 0.207]);
static FIVE_SIXTEENTHS_18: Thread = unified("5/16-18 UNC 2A/2B", 0.3125, 18.0, [0.3026, 0.2712, 0.2817, 0.265]);
static M5: Thread = metric("M5×0.8 6g/6H", 5.0, 0.8, [4.826, 4.361, 4.605, 4.334]);
static M6: Thread = metric("M6×1 6g/6H", 6.0, 1.0, [5.794, 5.212, 5.500, 5.153]);
static M8: Thread = metric("M8×1.25 6g/6H", 8.0, 1.25, [7.760, 7.042, 7.348, 6.912]);

impl Thread {
    /// 10-24 UNC, classes 2A and 2B.
    pub const NO_10_24: &'static Self = &NO_10_24;
    /// 10-32 UNF, classes 2A and 2B.
    pub const NO_10_32: &'static Self = &NO_10_32;
    /// 1/4-20 UNC, classes 2A and 2B.
    pub const QUARTER_20: &'static Self = &QUARTER_20;
    /// 5/16-18 UNC, classes 2A and 2B.
    pub const FIVE_SIXTEENTHS_18: &'static Self = &FIVE_SIXTEENTHS_18;
    /// M5×0.8, 6g and 6H.
    pub const M5: &'static Self = &M5;
    /// M6×1, 6g and 6H.
    pub const M6: &'static Self = &M6;
    /// M8×1.25, 6g and 6H.
    pub const M8: &'static Self = &M8;
    /// Every thread known.
    pub const ALL: [&'static Self; 7] = [&NO_10_24, &NO_10_32, &QUARTER_20, &FIVE_SIXTEENTHS_18, &M5, &M6, &M8];

    /// Basic major diameter `D`.
    #[must_use]
    pub fn diameter(&self) -> Length {
        Length::from_base(self.major)
    }

    /// Pitch `P`.
    #[must_use]
    pub fn pitch(&self) -> Length {
        Length::from_base(self.pitch)
    }

    /// Least major diameter of the screw, `D_s,min`.
    #[must_use]
    pub fn screw_major_least(&self) -> Length {
        Length::from_base(self.screw_major)
    }

    /// Least pitch diameter of the screw, `E_s,min`.
    #[must_use]
    pub fn screw_pitch_diameter_least(&self) -> Length {
        Length::from_base(self.screw_pitch)
    }

    /// Greatest pitch diameter of the hole, `E_n,max`.
    #[must_use]
    pub fn hole_pitch_diameter_most(&self) -> Length {
        Length::from_base(self.hole_pitch)
    }

    /// Greatest minor diameter of the hole, `K_n,max`.
    #[must_use]
    pub fn hole_minor_most(&self) -> Length {
        Length::from_base(self.hole_minor)
    }

    /// Tensile stress area of the screw, `A_t = π/4 (D − 0.9743 P)²` (unified) or `π/4 (D − 0.9382 P)²` (metric).
    #[must_use]
    pub fn stress_area(&self, scribe: &mut impl Scribe) -> Area {
        let (share, equation) = match self.standard {
            ThreadStandard::Unified => (0.9743, "A_t = π/4 (D − 0.9743 P)²"),
            ThreadStandard::Metric => (0.9382, "A_t = π/4 (D − 0.9382 P)²"),
        };
        let diameter = self.major - share * self.pitch;
        let area = Area::from_base(PI / 4.0 * diameter * diameter);
        scribe.step(|| {
            Step::new("tensile stress area of the screw", "A_t", equation, &source::THREAD_AREAS)
                .with_amount("D", small(self.major))
                .with_amount("P", small(self.pitch))
                .gives(area)
        });
        area
    }

    /// Shear area of the parent metal at its worst limits, over a length that carries:
    /// `AS_n = (π/P) L_e D_s,min [P/2 + (D_s,min − E_n,max)/√3]`. With a wire thread insert it is that area times
    /// [`Thread::insert_gain`]: the limits of the insert's hole are not known, so like is compared with like.
    ///
    /// # Errors
    /// A length outside 0.2 to 80 mm.
    pub fn hole_shear_area(&self, hole: Hole, engaged: Length, scribe: &mut impl Scribe) -> Result<Area, JointError> {
        let engaged = LENGTH_OF_THREAD.check(engaged)?;
        let plain = internal(self.pitch, engaged.base(), self.screw_major, self.hole_pitch);
        let plain = Area::from_base(plain);
        scribe.step(|| {
            Step::new(
                "shear area of the tapped metal",
                "AS_n",
                "AS_n = (π/P) L_e D_s,min [P/2 + (D_s,min − E_n,max)/√3]",
                &source::THREAD_AREAS,
            )
            .with_amount("P", small(self.pitch))
            .with_amount("L_e", Amount::of_kind(engaged, Kind::SmallLength))
            .with_amount("D_s,min", small(self.screw_major))
            .with_amount("E_n,max", small(self.hole_pitch))
            .gives(plain)
        });
        if hole == Hole::Plain {
            return Ok(plain);
        }
        let gain = self.insert_gain();
        let larger = Area::from_base(plain.base() * gain.base());
        scribe.step(|| {
            Step::new(
                "shear area of the tapped metal round a wire thread insert",
                "AS_n,insert",
                "AS_n,insert = AS_n (D + 1.299 P)/D",
                &source::WIRE_INSERT,
            )
            .with("AS_n", plain)
            .with("(D + 1.299 P)/D", gain)
            .gives(larger)
        });
        Ok(larger)
    }

    /// Shear area of the screw's thread at its worst limits:
    /// `AS_s = (π/P) L_e K_n,max [P/2 + (E_s,min − K_n,max)/√3]`.
    ///
    /// # Errors
    /// A length outside 0.2 to 80 mm.
    pub fn screw_shear_area(&self, engaged: Length, scribe: &mut impl Scribe) -> Result<Area, JointError> {
        let engaged = LENGTH_OF_THREAD.check(engaged)?;
        // The same form with the minor diameter of the hole as the cylinder of shear.
        let height = self.pitch / 2.0 + (self.screw_pitch - self.hole_minor) / (2.0 * TRIANGLE);
        let area = Area::from_base(PI / self.pitch * engaged.base() * self.hole_minor * height);
        scribe.step(|| {
            Step::new(
                "shear area of the screw's thread",
                "AS_s",
                "AS_s = (π/P) L_e K_n,max [P/2 + (E_s,min − K_n,max)/√3]",
                &source::THREAD_AREAS,
            )
            .with_amount("P", small(self.pitch))
            .with_amount("L_e", Amount::of_kind(engaged, Kind::SmallLength))
            .with_amount("K_n,max", small(self.hole_minor))
            .with_amount("E_s,min", small(self.screw_pitch))
            .gives(area)
        });
        Ok(area)
    }

    /// Shear area of the parent metal round a wire thread insert from the *basic* sizes of its hole. Larger than what
    /// is sure, since limits of size are left out; do not divide it by an area at minimum material.
    ///
    /// # Errors
    /// A length outside 0.2 to 80 mm.
    pub fn insert_shear_area_basic(&self, engaged: Length) -> Result<Area, JointError> {
        let engaged = LENGTH_OF_THREAD.check(engaged)?.base();
        let hole = self.insert_hole();
        Ok(Area::from_base(internal(self.pitch, engaged, hole.major.base(), hole.pitch_diameter.base())))
    }

    /// The tapped hole for a wire thread insert, basic size.
    #[must_use]
    pub fn insert_hole(&self) -> InsertHole {
        // 1.29904 = 1.5 H/P and 0.64952 = 0.75 H/P.
        InsertHole {
            major: Length::from_base(self.major + 1.299_04 * self.pitch),
            pitch_diameter: Length::from_base(self.major + 0.649_52 * self.pitch),
        }
    }

    /// How much more metal a wire thread insert shears than the plain thread, like for like: `(D + 1.299 P)/D`, the
    /// ratio of the two cylinders of shear, 1.2 to 1.26.
    #[must_use]
    pub fn insert_gain(&self) -> Ratio {
        Ratio::from_base(self.insert_hole().major.base() / self.major)
    }
}

/// `(π/P) L D [P/2 + (D − E)/√3]`.
fn internal(pitch: f64, engaged: f64, major: f64, pitch_diameter: f64) -> f64 {
    PI / pitch * engaged * major * (pitch / 2.0 + (major - pitch_diameter) / (2.0 * TRIANGLE))
}

fn small(metres: f64) -> Amount {
    Amount::new(metres, Kind::SmallLength)
}
