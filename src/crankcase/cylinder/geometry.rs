//! The size of the engine.

use super::BlowByError;
use crate::quantity::si::{Area, Length, Ratio, Volume};
use crate::quantity::{DEGREE, Kind, Measured, Range};
use std::f64::consts::PI;

/// Bores the program knows.
pub static BORE: Range = Range::new("bore", Kind::Length, 0.03, 0.2, "measure across the cylinder");
/// Strokes the program knows.
pub static STROKE: Range = Range::new("stroke", Kind::Length, 0.03, 0.25, "the full travel of the piston");
/// Rod lengths the program knows.
pub static ROD: Range = Range::new("connecting rod", Kind::Length, 0.04, 0.5, "the length between the eye centres");
/// Compression ratios the program knows.
pub static COMPRESSION: Range =
    Range::new("compression ratio", Kind::Number, 4.0, 26.0, "the largest volume divided by the smallest");
/// The most cylinders of one engine.
pub const MOST_CYLINDERS: u32 = 16;
/// The shortest rod, as a multiple of the stroke; the slider crank jams at one half.
const LEAST_ROD: f64 = 1.1;

/// The size of the engine.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Geometry {
    /// Cylinder diameter.
    pub bore: Length,
    /// Travel of the piston.
    pub stroke: Length,
    /// Connecting rod between centres.
    pub rod: Length,
    /// Largest over smallest cylinder volume.
    pub compression_ratio: Ratio,
    /// How many cylinders.
    pub cylinders: u32,
}

impl Geometry {
    /// Whether the program can reckon with it.
    ///
    /// # Errors
    /// A value outside its range, a rod shorter than 1.1 strokes, or no cylinders.
    pub fn check(&self) -> Result<(), BlowByError> {
        BORE.check(self.bore)?;
        STROKE.check(self.stroke)?;
        ROD.check(self.rod)?;
        COMPRESSION.check(self.compression_ratio)?;
        if !(1..=MOST_CYLINDERS).contains(&self.cylinders) {
            let (what, cylinders, most) = ("number of cylinders", self.cylinders, MOST_CYLINDERS);
            return Err(BlowByError::Cylinders { what, cylinders, most });
        }
        let (rod, stroke) = (self.rod.base(), self.stroke.base());
        if rod < LEAST_ROD * stroke {
            let (rod_mm, stroke_mm) = (rod * 1e3, stroke * 1e3);
            return Err(BlowByError::RodTooShort { rod_mm, stroke_mm, least: LEAST_ROD });
        }
        Ok(())
    }

    /// Area of the piston seen from above, `πB²/4`.
    #[must_use]
    pub fn piston_area(&self) -> Area {
        PI / 4.0 * self.bore * self.bore
    }

    /// Swept volume of one cylinder, `πB²S/4`.
    #[must_use]
    pub fn swept(&self) -> Volume {
        self.piston_area() * self.stroke
    }

    /// Swept volume of the engine.
    #[must_use]
    pub fn displacement(&self) -> Volume {
        self.swept() * f64::from(self.cylinders)
    }

    /// Volume above the piston at dead centre, `V_c = V_d/(CR − 1)`, one cylinder.
    #[must_use]
    pub fn clearance(&self) -> Volume {
        self.swept() / (self.compression_ratio - Ratio::from_base(1.0))
    }

    /// The number of cylinders as a factor.
    pub(crate) fn count(&self) -> f64 {
        f64::from(self.cylinders)
    }
}

/// The slider crank with its constants worked out; SI, angles by sine and cosine.
#[derive(Clone, Copy, Debug)]
pub(super) struct SliderCrank {
    clearance: f64,
    piston: f64,
    throw: f64,
    rod: f64,
}

/// Volume and its slope at one angle.
#[derive(Clone, Copy, Debug)]
pub(super) struct Volumetric {
    /// m³.
    pub volume: f64,
    /// 1/m³.
    pub inverse: f64,
    /// m³ per degree.
    pub slope: f64,
}

impl SliderCrank {
    pub fn new(geometry: &Geometry) -> Self {
        Self {
            clearance: geometry.clearance().base(),
            piston: geometry.piston_area().base(),
            throw: geometry.stroke.base() / 2.0,
            rod: geometry.rod.base(),
        }
    }

    /// `V = V_c + πB²/4 [a(1 − cosθ) + l − √(l² − a² sin²θ)]` and `dV/dθ`.
    #[inline]
    pub fn at(&self, sine: f64, cosine: f64) -> Volumetric {
        let across = self.throw * sine;
        let along = (self.rod * self.rod - across * across).sqrt();
        let volume = self.clearance + self.piston * (self.throw * (1.0 - cosine) + self.rod - along);
        let slope = self.piston * across * (1.0 + self.throw * cosine / along) * DEGREE;
        Volumetric { volume, inverse: 1.0 / volume, slope }
    }

    /// The same at an angle in degrees.
    pub fn at_degrees(&self, degrees: f64) -> Volumetric {
        let (sine, cosine) = degrees.to_radians().sin_cos();
        self.at(sine, cosine)
    }
}
