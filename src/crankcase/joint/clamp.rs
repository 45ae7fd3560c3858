//! Torque and clamp load.

use super::JointError;
use super::error::in_order;
use super::figures::{DIAMETER, FORCE, NUT_FACTOR, TORQUE};
use crate::quantity::si::{Force, Length, Ratio, Torque};
use crate::quantity::{Amount, Estimate, Kind, Measured};
use crate::scribe::{Scribe, Step};
use crate::source::Assumed;
use crate::source::crankcase::joint as source;

/// The state of thread and underside of the head; it decides how much of the torque becomes clamp load.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Finish {
    /// Clean and dry.
    Dry,
    /// Oiled, or wet with engine oil as a cover screw often is.
    Oiled,
    /// Plated, rusty or rough, or with a dried sealant.
    Plated,
    /// Not known: anything from oiled to rough.
    NotKnown,
}

impl Finish {
    /// Every state.
    pub const ALL: [Self; 4] = [Self::Dry, Self::Oiled, Self::Plated, Self::NotKnown];

    /// The factor `K` in `T = K d F`, with its scatter of 25 to 30 %.
    #[must_use]
    pub fn nut_factor(self) -> Assumed<Ratio> {
        let [low, likely, high] = match self {
            Self::Dry => [0.15, 0.20, 0.25],
            Self::Oiled => [0.11, 0.15, 0.19],
            Self::Plated => [0.20, 0.27, 0.35],
            Self::NotKnown => [0.11, 0.20, 0.35],
        };
        Assumed::new([low, likely, high], NUT_FACTOR, &source::NUT_FACTOR)
    }
}

/// Clamp load of a torque, `F = T/(K d)`: low with the high factor, high with the low one.
///
/// # Errors
/// A torque outside 0 to 100 N·m, a diameter outside 2 to 20 mm, a factor outside 0.05 to 0.6 or not in order.
pub fn clamp_load(
    torque: Torque,
    nut_factor: &Estimate<Ratio>,
    diameter: Length,
    scribe: &mut impl Scribe,
) -> Result<Estimate<Force>, JointError> {
    let torque = TORQUE.check(torque)?;
    let diameter = DIAMETER.check(diameter)?;
    in_order(nut_factor, &NUT_FACTOR)?;
    let load = |factor: Ratio| Force::from_base(torque.base() / (factor.base() * diameter.base()));
    let force = Estimate { low: load(nut_factor.high), likely: load(nut_factor.likely), high: load(nut_factor.low) };
    scribe.step(|| {
        Step::new("clamp load of one screw", "F", "F = T/(K d)", &source::NUT_FACTOR)
            .with("T", torque)
            .with("K", nut_factor.likely)
            .with_amount("d", Amount::of_kind(diameter, Kind::SmallLength))
            .gives(force.likely)
    });
    Ok(force)
}

/// Torque for a clamp load, `T = K d F`, low and high with the ends of the factor alone.
///
/// # Errors
/// A load outside 0 to 200 kN, a diameter outside 2 to 20 mm, a factor outside 0.05 to 0.6 or not in order.
pub fn torque_for(
    force: Force,
    nut_factor: &Estimate<Ratio>,
    diameter: Length,
    scribe: &mut impl Scribe,
) -> Result<Estimate<Torque>, JointError> {
    let force = FORCE.check(force)?;
    let diameter = DIAMETER.check(diameter)?;
    in_order(nut_factor, &NUT_FACTOR)?;
    let torque = nut_factor.map(|factor: Ratio| Torque::from_base(factor.base() * diameter.base() * force.base()));
    scribe.step(|| {
        Step::new("torque for a clamp load", "T", "T = K d F", &source::NUT_FACTOR)
            .with("K", nut_factor.likely)
            .with_amount("d", Amount::of_kind(diameter, Kind::SmallLength))
            .with("F", force)
            .gives(torque.likely)
    });
    Ok(torque)
}
