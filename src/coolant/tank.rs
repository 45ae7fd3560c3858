//! The overflow tank's shape: volume against height of the liquid, and back.

use super::CoolantError;
use crate::numeric::{MonotoneCubic, bracketed_root};
use crate::quantity::si::{Length, Volume};
use crate::quantity::{Kind, Measured, Range};
use crate::scribe::{Scribe, Step};
use crate::source::coolant::{DIP_TABLE, GEOMETRY};
use std::f64::consts::PI;

const SIDE: Range = Range::new(
    "side of the tank",
    Kind::Length,
    0.01,
    2.0,
    "measure the inside of the tank; the smallest allowed is 10 mm",
);
const TABLE_HEIGHT: Range = Range::new("height in the dip table", Kind::Length, 0.0, 2.0, "measure from the floor up");
const TABLE_VOLUME: Range = Range::new("volume in the dip table", Kind::Volume, 0.0, 0.2, "a tank holds up to 200 L");
/// Rows closer than 0.01 mm or 0.01 mL are a slip of the pen, and no curve goes through them.
const TABLE_STEPS: (f64, f64) = (1e-5, 1e-8);
/// Fewer rows do not show the shape of a tank.
const TABLE_ROWS: usize = 4;

/// The inside of a tank. Heights count from its lowest point.
#[derive(Clone, Debug, PartialEq)]
#[allow(missing_docs)]
pub enum TankShape {
    /// A cylinder standing on its flat end: V = π R² h.
    UprightCylinder { diameter: Length, height: Length },
    /// A cylinder lying on its side, flat ends: V = L [R² acos((R − h)/R) − (R − h) √(2 R h − h²)].
    LyingCylinder { diameter: Length, length: Length },
    /// A box: V = L B h.
    Box { length: Length, width: Length, height: Length },
    /// A box whose sides lean straight from bottom to top:
    /// V = l₀ b₀ h + (l₀ δb + b₀ δl) h²/2 + δl δb h³/3 with δl = (l₁ − l₀)/H, δb = (b₁ − b₀)/H.
    TaperedBox { bottom_length: Length, bottom_width: Length, top_length: Length, top_width: Length, height: Length },
    /// Any shape, measured by pouring: heights and volumes, both rising in every row, at least four rows.
    /// Between rows a monotone cubic; outside the rows nothing is known.
    DipTable(Vec<(Length, Volume)>),
}

/// A tank whose shape has been checked.
#[derive(Clone, Debug, PartialEq)]
pub struct Tank {
    shape: TankShape,
    table: Option<MonotoneCubic>,
}

impl Tank {
    /// Checks a shape. Sides may run from 10 mm to 2 m.
    ///
    /// # Errors
    /// A side out of range, or a dip table that is too short or does not rise.
    pub fn new(shape: TankShape) -> Result<Self, CoolantError> {
        let sides: &[Length] = match &shape {
            TankShape::UprightCylinder { diameter, height } => &[*diameter, *height],
            TankShape::LyingCylinder { diameter, length } => &[*diameter, *length],
            TankShape::Box { length, width, height } => &[*length, *width, *height],
            TankShape::TaperedBox { bottom_length, bottom_width, top_length, top_width, height } => {
                &[*bottom_length, *bottom_width, *top_length, *top_width, *height]
            }
            TankShape::DipTable(_) => &[],
        };
        for side in sides {
            SIDE.check(*side)?;
        }
        let table = if let TankShape::DipTable(rows) = &shape { Some(table(rows)?) } else { None };
        Ok(Self { shape, table })
    }

    /// The shape given.
    #[must_use]
    pub const fn shape(&self) -> &TankShape {
        &self.shape
    }

    /// The smaller way across the top, where a hole may be drilled; `None` where only a dip table is known.
    #[must_use]
    pub fn across_top(&self) -> Option<Length> {
        let smaller = |a: Length, b: Length| if a < b { a } else { b };
        match &self.shape {
            TankShape::UprightCylinder { diameter, .. } => Some(*diameter),
            TankShape::LyingCylinder { diameter, length } => Some(smaller(*diameter, *length)),
            TankShape::Box { length, width, .. } => Some(smaller(*length, *width)),
            TankShape::TaperedBox { top_length, top_width, .. } => Some(smaller(*top_length, *top_width)),
            TankShape::DipTable(_) => None,
        }
    }

    /// The height of the inside, m.
    #[must_use]
    pub fn height(&self) -> Length {
        match &self.shape {
            TankShape::UprightCylinder { height, .. }
            | TankShape::Box { height, .. }
            | TankShape::TaperedBox { height, .. } => *height,
            TankShape::LyingCylinder { diameter, .. } => *diameter,
            TankShape::DipTable(_) => Length::from_base(self.table.as_ref().map_or(0.0, |table| table.ends().1)),
        }
    }

    /// The lowest height anything is known of: zero, or the first row of a dip table.
    #[must_use]
    pub fn lowest(&self) -> Length {
        Length::from_base(self.table.as_ref().map_or(0.0, |table| table.ends().0))
    }

    /// All the tank holds.
    #[must_use]
    pub fn capacity(&self) -> Volume {
        Volume::from_base(self.base_volume(self.height().base()))
    }

    /// The volume below the lowest height: zero, or the first row of a dip table.
    #[must_use]
    pub fn lowest_volume(&self) -> Volume {
        Volume::from_base(self.base_volume(self.lowest().base()))
    }

    /// The volume of liquid standing at a height.
    ///
    /// # Errors
    /// A height outside the tank or its dip table.
    pub fn volume_at(&self, height: Length, scribe: &mut impl Scribe) -> Result<Volume, CoolantError> {
        let range = Range::new(
            "liquid height in the tank",
            Kind::Length,
            self.lowest().base(),
            self.height().base(),
            "the level must lie inside the tank, or inside the rows of its dip table",
        );
        let h = range.check(height)?.base();
        let volume = Volume::from_base(self.base_volume(h));
        scribe.step(|| self.step("volume of liquid at a level", "V").with("h", height).gives(volume));
        Ok(volume)
    }

    /// The height at which a volume of liquid stands; the inverse of [`Tank::volume_at`], to 10⁻⁹ m.
    ///
    /// # Errors
    /// A volume the tank does not hold, or below the first row of a dip table.
    pub fn height_at(&self, volume: Volume, scribe: &mut impl Scribe) -> Result<Length, CoolantError> {
        let range = Range::new(
            "volume of liquid in the tank",
            Kind::Volume,
            self.lowest_volume().base(),
            self.capacity().base(),
            "the liquid must fit in the tank; use a larger tank or less liquid",
        );
        let v = range.check(volume)?.base();
        let h = match &self.shape {
            TankShape::UprightCylinder { diameter, .. } => v / (PI * diameter.base() * diameter.base() / 4.0),
            TankShape::Box { length, width, .. } => v / (length.base() * width.base()),
            _ => {
                let (low, high) = (self.lowest().base(), self.height().base());
                bracketed_root(|h| self.base_volume(h) - v, low, high, 1e-10)
                    .map_err(CoolantError::unsolved("the level in the tank"))?
                    .at
            }
        };
        // A division may end a last bit above the lid.
        let height = Length::from_base(h.min(self.height().base()));
        scribe.step(|| self.step("level of a volume of liquid", "h").with("V", volume).gives(height));
        Ok(height)
    }

    /// Volume in m³ at a height in m known to lie inside.
    pub(super) fn base_volume(&self, h: f64) -> f64 {
        match &self.shape {
            TankShape::UprightCylinder { diameter, .. } => PI * diameter.base() * diameter.base() / 4.0 * h,
            TankShape::LyingCylinder { diameter, length } => {
                let radius = diameter.base() / 2.0;
                length.base() * segment(radius, radius - h)
            }
            TankShape::Box { length, width, .. } => length.base() * width.base() * h,
            TankShape::TaperedBox { bottom_length, bottom_width, top_length, top_width, height } => {
                let (l0, b0) = (bottom_length.base(), bottom_width.base());
                let dl = (top_length.base() - l0) / height.base();
                let db = (top_width.base() - b0) / height.base();
                l0 * b0 * h + (l0 * db + b0 * dl) * h * h / 2.0 + dl * db * h * h * h / 3.0
            }
            // The table exists whenever the shape is one, and the height has been checked.
            TankShape::DipTable(_) => self.table.as_ref().and_then(|table| table.at(h).ok()).unwrap_or(f64::NAN),
        }
    }

    fn step(&self, meaning: &'static str, symbol: &'static str) -> Step {
        let (equation, source) = match &self.shape {
            TankShape::UprightCylinder { .. } => ("V = π R² h", &GEOMETRY),
            TankShape::LyingCylinder { .. } => ("V = L [R² acos((R − h)/R) − (R − h) √(2 R h − h²)]", &GEOMETRY),
            TankShape::Box { .. } => ("V = L B h", &GEOMETRY),
            TankShape::TaperedBox { .. } => ("V = l₀ b₀ h + (l₀ δb + b₀ δl) h²/2 + δl δb h³/3", &GEOMETRY),
            TankShape::DipTable(_) => ("V(h) through the measured rows", &DIP_TABLE),
        };
        let step = Step::new(meaning, symbol, equation, source);
        match &self.shape {
            TankShape::UprightCylinder { diameter, .. } => step.with("D", *diameter),
            TankShape::LyingCylinder { diameter, length } => step.with("D", *diameter).with("L", *length),
            TankShape::Box { length, width, .. } => step.with("L", *length).with("B", *width),
            TankShape::TaperedBox { bottom_length, bottom_width, top_length, top_width, height } => step
                .with("l₀", *bottom_length)
                .with("b₀", *bottom_width)
                .with("l₁", *top_length)
                .with("b₁", *top_width)
                .with("H", *height),
            TankShape::DipTable(_) => step,
        }
    }
}

/// The part of a circle's area (m²) below a chord lying `below_centre` m under the centre (negative: above it).
pub(super) fn segment(radius: f64, below_centre: f64) -> f64 {
    // A chord outside the circle cuts off nothing or all of it.
    let d = below_centre.clamp(-radius, radius);
    radius * radius * (d / radius).acos() - d * (radius * radius - d * d).max(0.0).sqrt()
}

fn table(rows: &[(Length, Volume)]) -> Result<MonotoneCubic, CoolantError> {
    if rows.len() < TABLE_ROWS {
        return Err(CoolantError::TableTooShort { rows: rows.len(), least: TABLE_ROWS });
    }
    let mut points: Vec<(f64, f64)> = Vec::with_capacity(rows.len());
    for (number, &(height, volume)) in (1..).zip(rows) {
        let point = (TABLE_HEIGHT.check(height)?.base(), TABLE_VOLUME.check(volume)?.base());
        if points.last().is_some_and(|last| !(point.0 - last.0 >= TABLE_STEPS.0 && point.1 - last.1 >= TABLE_STEPS.1)) {
            return Err(CoolantError::TableNotRising { row: number });
        }
        points.push(point);
    }
    Ok(MonotoneCubic::new(&points)?)
}
