//! How deep the end of the tube stays when the surface tilts.
//!
//! In the frame of the tank the surface of a liquid at rest is a plane square to apparent gravity:
//! z = z₀ + x·tan θx + y·tan θy. Slosh while the plane settles is not modelled; that is why the tube belongs at mid-plan, low.

use super::{CoolantError, Tank, TankShape, defaults, tank::segment};
use crate::numeric::bracketed_root;
use crate::quantity::si::{Acceleration, Length, Ratio, Volume};
use crate::quantity::{GRAVITY, Kind, Measured, Range};
use crate::scribe::{Scribe, Silent, Step};
use crate::source::coolant::TILTED_SURFACE;
use std::f64::consts::PI;

/// Panels of the integrals over a tank; more change the answer by less than a hundredth of a millimetre.
const PANELS: u32 = 600;

pub(super) const PUSH: Range = Range::new(
    "acceleration of the car",
    Kind::Acceleration,
    -3.0 * GRAVITY,
    3.0 * GRAVITY,
    "a road car reaches about 1 g",
);
const GRADE: Range = Range::new("road grade", Kind::Share, -1.0, 1.0, "write the rise per distance, such as 10 %");
const PLACE: Range = Range::new("place of the tube", Kind::Length, -2.0, 2.0, "measure from the middle of the plan");
const END: Range = Range::new("height of the tube's end", Kind::Length, 0.0, 2.0, "measure from the lowest point");

/// Which way the tank's length lies in the car.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum LengthLies {
    /// Along the car.
    #[default]
    Along,
    /// Across the car.
    Across,
}

/// A steady push on the car, and the road's grade.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Tilt {
    /// Forward acceleration; braking is negative.
    pub forward: Acceleration,
    /// Acceleration to the right, as in a right-hand bend.
    pub right: Acceleration,
    /// Rise of the road per distance, nose up positive.
    pub grade: Ratio,
}

impl Tilt {
    /// Standing level.
    #[must_use]
    pub fn level() -> Self {
        Self::push(0.0, 0.0)
    }

    /// The usual tests: fore and aft, to each side, and hard braking, on a level road.
    #[must_use]
    pub fn usual() -> [Self; 5] {
        let along = defaults::tilt_fore_aft().likely().base();
        let aside = defaults::tilt_lateral().likely().base();
        let braking = defaults::tilt_braking().likely().base();
        [(along, 0.0), (-along, 0.0), (0.0, aside), (0.0, -aside), (-braking, 0.0)].map(|(f, r)| Self::push(f, r))
    }

    /// From accelerations in m/s².
    fn push(forward: f64, right: f64) -> Self {
        let base = Acceleration::from_base;
        Self { forward: base(forward), right: base(right), grade: Ratio::from_base(0.0) }
    }
}

/// The tube that returns the coolant, and how the tank is mounted.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct DipTube {
    /// Along the tank's length from the middle, positive to the front (or to the right when the length lies across).
    pub along: Length,
    /// Across the tank's length from the middle, positive to the right (or to the rear when the length lies across).
    pub across: Length,
    /// Height of the open end above the tank's lowest point.
    pub end: Length,
    /// Which way the tank's length lies in the car.
    pub length_lies: LengthLies,
}

/// How deep the tube's end is under the surface.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Cover {
    /// Depth of the end below the surface; zero or less means the tube draws air.
    Known(Length),
    /// Not known, and why.
    NotKnown(&'static str),
}

const TABLE_ONLY_LEVEL: &str =
    "a dip table says how much the tank holds but not where; measure the tank as a box or a cylinder to see it tilted";

/// How deep the end of the tube lies below the surface of `volume` of liquid under a steady tilt.
///
/// tan θ = (a + g sin γ)/(g cos γ) with grade tan γ. A box or an upright cylinder whose surface touches neither floor nor
/// lid keeps its height at mid-plan (exact); a lying cylinder pushed across its axis keeps its depth square to the
/// surface (exact); everything else keeps its volume, integrated over slices.
///
/// # Errors
/// A figure out of range, more liquid than the tank holds, or a tube whose end is not inside the tank.
pub fn cover(
    tank: &Tank,
    volume: Volume,
    tube: &DipTube,
    tilt: &Tilt,
    scribe: &mut impl Scribe,
) -> Result<Cover, CoolantError> {
    let (x, y, end) = (PLACE.check(tube.along)?.base(), PLACE.check(tube.across)?.base(), END.check(tube.end)?.base());
    let (slope_x, slope_y) = slopes(tilt, tube.length_lies)?;
    let level = tank.height_at(volume, &mut Silent)?.base();
    let Some(column) = column(tank, x, y) else {
        if slope_x != 0.0 || slope_y != 0.0 {
            return Ok(Cover::NotKnown(TABLE_ONLY_LEVEL));
        }
        return Ok(Cover::Known(Length::from_base(level - end)));
    };
    let (floor, roof) = column?;
    if end < floor || end > roof {
        return Err(CoolantError::TubeOutside { why: "the end is below the floor or above the lid there" });
    }
    let middle = surface_at_middle(tank, volume.base(), level, slope_x, slope_y)?;
    let surface = (middle + slope_x * x + slope_y * y).min(roof);
    let depth = Length::from_base(surface - end);
    scribe.step(|| {
        Step::new("cover of the tube's end under tilt", "c", "c = z₀ + x tan θx + y tan θy − e", &TILTED_SURFACE)
            .with("z₀", Length::from_base(middle))
            .with("x", tube.along)
            .with_number("tan θx", slope_x)
            .with("y", tube.across)
            .with_number("tan θy", slope_y)
            .with("e", tube.end)
            .gives(depth)
    });
    Ok(Cover::Known(depth))
}

/// The least volume of liquid that keeps the tube's end `wanted` deep when level and under every tilt given.
///
/// # Errors
/// As [`cover`]; also when even a full tank does not, or the tank is known by a dip table only.
pub fn volume_for_cover(
    tank: &Tank,
    tube: &DipTube,
    tilts: &[Tilt],
    wanted: Length,
    scribe: &mut impl Scribe,
) -> Result<Volume, CoolantError> {
    let wanted_depth = END.check(wanted)?.base();
    let (x, y, end) = (PLACE.check(tube.along)?.base(), PLACE.check(tube.across)?.base(), END.check(tube.end)?.base());
    let (floor, roof) = column(tank, x, y).ok_or(CoolantError::TiltNotKnown { why: TABLE_ONLY_LEVEL })??;
    if end < floor || end > roof {
        return Err(CoolantError::TubeOutside { why: "the end is below the floor or above the lid there" });
    }
    // Brim-full the liquid stands at the lid, however the tank leans.
    if roof - end < wanted_depth {
        return Err(CoolantError::CoverImpossible { reached: roof - end, wanted: wanted_depth });
    }
    let mut volume = tank.lowest_volume().base();
    for tilt in tilts.iter().chain([&Tilt::level()]) {
        let (slope_x, slope_y) = slopes(tilt, tube.length_lies)?;
        // The plane that passes just so deep above the tube's end; what lies below it is the least that does.
        let middle = end + wanted_depth - slope_x * x - slope_y * y;
        volume = volume.max(volume_below(tank, middle, slope_x, slope_y));
    }
    let volume = Volume::from_base(volume);
    scribe.step(|| {
        Step::new("least liquid that keeps the tube covered", "V_tilt", "least V with c(V) ≥ c_least", &TILTED_SURFACE)
            .with("c_least", wanted)
            .with("e", tube.end)
            .with_number("tilts tried", tilts.len() as f64)
            .gives(volume)
    });
    Ok(volume)
}

/// Slopes of the surface along and across the tank's length.
fn slopes(tilt: &Tilt, lies: LengthLies) -> Result<(f64, f64), CoolantError> {
    let forward = PUSH.check(tilt.forward)?.base() / GRAVITY;
    let right = PUSH.check(tilt.right)?.base() / GRAVITY;
    let grade = GRADE.check(tilt.grade)?.base();
    // On a grade only g·cos γ stands square to the road; 1/cos γ = √(1 + tan² γ).
    let steeper = (1.0 + grade * grade).sqrt();
    // Pushed forward, or nose up, the surface falls towards the front.
    let to_front = -(forward * steeper + grade);
    let to_right = -right * steeper;
    Ok(match lies {
        LengthLies::Along => (to_front, to_right),
        LengthLies::Across => (to_right, -to_front),
    })
}

/// Floor and lid (m) of the tank at a place in its plan; `None` where the shape does not tell.
fn column(tank: &Tank, x: f64, y: f64) -> Option<Result<(f64, f64), CoolantError>> {
    let outside = Err(CoolantError::TubeOutside { why: "the place is outside the tank's plan" });
    let height = tank.height().base();
    Some(match tank.shape() {
        TankShape::UprightCylinder { diameter, .. } => {
            if x.hypot(y) > diameter.base() / 2.0 {
                outside
            } else {
                Ok((0.0, height))
            }
        }
        TankShape::LyingCylinder { diameter, length } => {
            let radius = diameter.base() / 2.0;
            if x.abs() > length.base() / 2.0 || y.abs() > radius {
                outside
            } else {
                let half = (radius * radius - y * y).max(0.0).sqrt();
                Ok((radius - half, radius + half))
            }
        }
        TankShape::Box { length, width, .. } => {
            if x.abs() > length.base() / 2.0 || y.abs() > width.base() / 2.0 {
                outside
            } else {
                Ok((0.0, height))
            }
        }
        TankShape::TaperedBox { bottom_length, bottom_width, top_length, top_width, .. } => {
            // A leaning wall bounds the heights at which the place is inside.
            let mut span = (0.0_f64, height);
            for (at, bottom, top) in
                [(x.abs(), bottom_length.base(), top_length.base()), (y.abs(), bottom_width.base(), top_width.base())]
            {
                let (low, high) = (bottom / 2.0, top / 2.0);
                if at > low.max(high) {
                    return Some(outside);
                }
                if at > low {
                    span.0 = span.0.max(height * (at - low) / (high - low));
                } else if at > high {
                    span.1 = span.1.min(height * (low - at) / (low - high));
                }
            }
            if span.0 > span.1 { outside } else { Ok(span) }
        }
        TankShape::DipTable(_) => return None,
    })
}

/// Height (m) of the tilted surface at mid-plan for a volume (m³) that stands at `level` when level.
fn surface_at_middle(tank: &Tank, volume: f64, level: f64, sx: f64, sy: f64) -> Result<f64, CoolantError> {
    if sx == 0.0 && sy == 0.0 {
        return Ok(level);
    }
    let height = tank.height().base();
    let reach = match tank.shape() {
        TankShape::UprightCylinder { diameter, .. } => sx.hypot(sy) * diameter.base() / 2.0,
        TankShape::LyingCylinder { diameter, length } => {
            if sx == 0.0 {
                let radius = diameter.base() / 2.0;
                return Ok(radius - (radius - level) * (1.0 + sy * sy).sqrt());
            }
            sx.abs() * length.base() / 2.0 + diameter.base() / 2.0 * (1.0 + sy * sy).sqrt()
        }
        TankShape::Box { length, width, .. } => (sx.abs() * length.base() + sy.abs() * width.base()) / 2.0,
        TankShape::TaperedBox { bottom_length, bottom_width, top_length, top_width, .. } => {
            let length = bottom_length.base().max(top_length.base());
            let width = bottom_width.base().max(top_width.base());
            (sx.abs() * length + sy.abs() * width) / 2.0
        }
        TankShape::DipTable(_) => return Ok(level),
    };
    let keeps_middle = matches!(tank.shape(), TankShape::UprightCylinder { .. } | TankShape::Box { .. });
    if keeps_middle && level >= reach && level + reach <= height {
        return Ok(level);
    }
    let (low, high) = (-reach, height + reach);
    let below = |z: f64| volume_below(tank, z, sx, sy);
    // Rounding must not lose the bracket of an empty or a brim-full tank.
    if volume <= below(low) {
        return Ok(low);
    }
    if volume >= below(high) {
        return Ok(high);
    }
    let root = bracketed_root(|z| below(z) - volume, low, high, 1e-9);
    Ok(root.map_err(CoolantError::unsolved("the tilted surface"))?.at)
}

/// Volume (m³) of the tank below the plane z = z₀ + sx·x + sy·y.
fn volume_below(tank: &Tank, z0: f64, sx: f64, sy: f64) -> f64 {
    let height = tank.height().base();
    match tank.shape() {
        TankShape::UprightCylinder { diameter, .. } => {
            let (radius, slope) = (diameter.base() / 2.0, sx.hypot(sy));
            // What lies between floor and lid is what lies above the floor less what lies above the lid.
            wedge(radius, slope, z0) - wedge(radius, slope, z0 - height)
        }
        TankShape::LyingCylinder { diameter, length } => {
            let radius = diameter.base() / 2.0;
            let lean = (1.0 + sy * sy).sqrt();
            let half = length.base() / 2.0;
            simpson(-half, half, |x| segment(radius, (radius - (z0 + sx * x)) / lean))
        }
        TankShape::Box { length, width, .. } => {
            let (a, b) = (length.base() / 2.0, width.base() / 2.0);
            corner(a, b, sx.abs(), sy.abs(), z0) - corner(a, b, sx.abs(), sy.abs(), z0 - height)
        }
        TankShape::TaperedBox { bottom_length, bottom_width, top_length, top_width, .. } => {
            let lean =
                |bottom: Length, top: Length, z: f64| (bottom.base() + (top.base() - bottom.base()) * z / height) / 2.0;
            let a = bottom_length.base().max(top_length.base()) / 2.0;
            let b = bottom_width.base().max(top_width.base()) / 2.0;
            by_layers(tank, z0, sx.abs() * a + sy.abs() * b, |z| {
                let (a, b) = (lean(*bottom_length, *top_length, z), lean(*bottom_width, *top_width, z));
                clipped(a, b, sx.abs(), sy.abs(), z - z0)
            })
        }
        TankShape::DipTable(_) => f64::NAN,
    }
}

/// Volume (m³) of an endless upright cylinder above its floor and below the plane z = z₀ + s·u, s ≥ 0: the
/// cylindrical wedge, ∫ (z₀ + s·u)·2√(R² − u²) du from where the plane meets the floor.
fn wedge(radius: f64, slope: f64, z0: f64) -> f64 {
    let reach = slope * radius;
    if z0 >= reach {
        return PI * radius * radius * z0;
    }
    if z0 <= -reach {
        return 0.0;
    }
    let from = -z0 / slope;
    let root = ((radius - from) * (radius + from)).max(0.0).sqrt();
    let area = radius * radius * (from / radius).clamp(-1.0, 1.0).acos() - from * root;
    z0 * area + slope * 2.0 / 3.0 * root.powi(3)
}

/// Volume (m³) of an endless box |x| ≤ a, |y| ≤ b above its floor and below the plane z = z₀ + p·x + q·y, for p, q ≥ 0:
/// the integral of [`clipped`] upwards from the floor.
fn corner(a: f64, b: f64, p: f64, q: f64, z0: f64) -> f64 {
    let small = 1e-7 * p.max(q);
    let square = |t: f64| t.max(0.0).powi(2) / 2.0;
    let cube = |t: f64| t.max(0.0).powi(3) / 6.0;
    if z0 >= a * p + b * q {
        4.0 * a * b * z0
    } else if z0 <= -(a * p + b * q) {
        0.0
    } else if q <= small {
        2.0 * b * (square(z0 + a * p) - square(z0 - a * p)) / p
    } else if p <= small {
        2.0 * a * (square(z0 + b * q) - square(z0 - b * q)) / q
    } else {
        let (long, wide) = (a * p, b * q);
        (cube(z0 + long + wide) - cube(z0 + long - wide) - cube(z0 - long + wide) + cube(z0 - long - wide)) / (p * q)
    }
}

/// Fully wet below the plane's lowest point, layer by layer up to its highest.
fn by_layers(tank: &Tank, z0: f64, reach: f64, wet_area: impl Fn(f64) -> f64) -> f64 {
    let height = tank.height().base();
    let (low, high) = ((z0 - reach).clamp(0.0, height), (z0 + reach).clamp(0.0, height));
    tank.base_volume(low) + simpson(low, high, wet_area)
}

/// Area (m²) of the rectangle |x| ≤ a, |y| ≤ b where p·x + q·y ≥ c, for p, q ≥ 0.
fn clipped(a: f64, b: f64, p: f64, q: f64, c: f64) -> f64 {
    let small = 1e-7 * p.max(q);
    let strip = |half: f64, slope: f64| (half - c / slope).clamp(0.0, 2.0 * half);
    if p == 0.0 && q == 0.0 {
        return if c <= 0.0 { 4.0 * a * b } else { 0.0 };
    }
    if q <= small {
        return 2.0 * b * strip(a, p);
    }
    if p <= small {
        return 2.0 * a * strip(b, q);
    }
    let half_square = |t: f64| t.max(0.0).powi(2) / 2.0;
    let corners = half_square(a * p + b * q - c) - half_square(a * p - b * q - c) - half_square(b * q - a * p - c)
        + half_square(-a * p - b * q - c);
    (corners / (p * q)).clamp(0.0, 4.0 * a * b)
}

/// Simpson's rule over an even number of panels.
fn simpson(low: f64, high: f64, function: impl Fn(f64) -> f64) -> f64 {
    if high <= low {
        return 0.0;
    }
    let step = (high - low) / f64::from(PANELS);
    let inner: f64 =
        (1..PANELS).map(|i| if i % 2 == 1 { 4.0 } else { 2.0 } * function(low + f64::from(i) * step)).sum();
    (function(low) + inner + function(high)) * step / 3.0
}

#[cfg(test)]
mod tests;
