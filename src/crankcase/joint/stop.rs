//! Hard stops: the height to which the stack is pressed, and what the gasket says to it.

use super::figures::STOP;
use super::window::{compare, peak};
use super::{Bedding, Contact, Joint, JointError, Safety, Stack};
use crate::quantity::si::{Force, Length, Pressure, Ratio};
use crate::quantity::{Estimate, Measured, Stiffness};
use crate::scribe::Silent;

/// Least and most compression that a hard stop may leave the gaskets with, shares of their thickness.
pub(super) const STOP_LEAST: f64 = 0.02;
pub(super) const STOP_MOST: f64 = 0.5;

impl Stack {
    /// The most by which the gaskets are taken to be pressed together without stops: half of them, as with the lowest stop
    /// allowed. Soft gaskets stiffen long before, and what is pressed further is crushed.
    #[must_use]
    pub fn pressed_at_most(&self) -> Length {
        Length::from_base(STOP_MOST * self.gasket_thickness().base())
    }
}

/// What a hard stop does.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct StopCheck {
    /// Load that brings the cover to the stop.
    pub closes: Estimate<Force>,
    /// Contact stress of the gasket at the stop, half-way between screws.
    pub stress: Estimate<Pressure>,
    /// Whether the stress half-way seats the gasket.
    pub seats: Safety,
    /// Whether the gasket survives at the screw.
    pub spares: Safety,
}

/// What stands in the way where no torque is right.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Obstacle {
    /// The flange bows off the gasket between the screws.
    Bow,
    /// The hard stop is so high that the gasket is not pressed enough.
    StopTooHigh,
    /// The hard stop is so low that the gasket is crushed.
    StopTooLow,
    /// What seats the gasket is more than thread, screw or gasket bear.
    Load,
    /// All that the joint bears is less than a key can be set to.
    TooFine,
}

/// What stands in the way; `None` where a torque is right, at the likely figures at least.
pub(super) fn obstacle(
    safety: Safety,
    stop: Option<&StopCheck>,
    bedding: Option<&Bedding>,
    too_fine: bool,
) -> Option<Obstacle> {
    if safety != Safety::NoWindow {
        return None;
    }
    let lifts = bedding.is_some_and(|bedding| bedding.contact == Contact::Lost);
    Some(match stop {
        None if lifts => Obstacle::Bow,
        None if too_fine => Obstacle::TooFine,
        None => Obstacle::Load,
        // Where the flange lifts, no stop is to blame for it; where it does not, a lower one presses the middle more.
        Some(stop) if stop.seats == Safety::NoWindow && lifts => Obstacle::Bow,
        Some(stop) if stop.seats == Safety::NoWindow => Obstacle::StopTooHigh,
        Some(stop) if stop.spares == Safety::NoWindow => Obstacle::StopTooLow,
        Some(_) if too_fine => Obstacle::TooFine,
        Some(_) => Obstacle::Load,
    })
}

/// What a hard stop of this height does.
pub(super) fn stop_check(
    joint: &Joint,
    height: Length,
    seating: &Estimate<Pressure>,
    crush: &Estimate<Pressure>,
    bedding: Option<&Bedding>,
) -> Result<StopCheck, JointError> {
    let height = STOP.check(height)?;
    let free = joint.stack.free_thickness();
    let travel = free.base() - height.base();
    let share = travel / joint.stack.gasket_thickness().base();
    if !(STOP_LEAST..=STOP_MOST).contains(&share) {
        return Err(JointError::StopHeight { stop: height, free, least: STOP_LEAST, most: STOP_MOST });
    }
    let stiffness = joint.stack.stiffness(&mut Silent)?;
    let closes = stiffness.map(|k: Stiffness| Force::from_base(k.base() * travel));
    let area = joint.stack.area.base();
    let at = |force: Force, share: f64| Pressure::from_base(force.base() / area * share);
    let middle = |of: fn(&Bedding) -> Ratio| bedding.map_or(1.0, |bedding| of(bedding).base().max(0.0));
    let stress = Estimate {
        low: at(closes.low, middle(|b| b.midspan.low)),
        likely: at(closes.likely, middle(|b| b.midspan.likely)),
        high: at(closes.high, middle(|b| b.midspan.high)),
    };
    let peak = peak(bedding);
    let worst = Estimate {
        low: at(closes.low, peak.low.base()),
        likely: at(closes.likely, peak.likely.base()),
        high: at(closes.high, peak.high.base()),
    };
    // Stops carry the screws; between them the flange bows as it does without.
    let lifts = bedding.is_some_and(|bedding| bedding.contact == Contact::Lost);
    let seats = if lifts { Safety::NoWindow } else { compare(seating, &stress) };
    Ok(StopCheck { closes, stress, seats, spares: compare(&worst, crush) })
}
