//! Whether a leak is the ventilation's or the joint's.

use super::figures::{CRANKCASE, times_by_pressure};
use super::{JointError, Spot};
use crate::note::{Note, Weight};
use crate::quantity::si::Ratio;
use crate::quantity::{Amount, Estimate, GaugePressure, Kind, Measured};
use crate::scribe::{Scribe, Step};
use crate::source::Source;
use crate::source::crankcase::joint as source;

/// What makes a spot leak.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Cause {
    /// Crankcase pressure drives it: mend the ventilation first.
    Ventilation,
    /// Pressure and head both count: mend both, the ventilation first.
    Both,
    /// Pressure does not drive it: mend the joint.
    Joint,
    /// Air is drawn in: no oil can come out by pressure; what is seen is old, splashed or from elsewhere.
    DrawsAir,
}

/// What makes a spot leak, and why it is said.
#[derive(Clone, Debug, PartialEq)]
pub struct LeakCause {
    /// The cause.
    pub cause: Cause,
    /// How many times faster the spot leaks with the crankcase pressure than by its oil alone, `1 + p/(ρ g h)`; `None`
    /// without oil over the spot, or when nothing is pushed out.
    pub times: Option<Ratio>,
    /// The reason, as a sentence.
    pub reason: String,
    /// Cautions about hot oil.
    pub notes: Vec<Note>,
}

/// Whether the pressure or the joint makes a spot leak, from the crankcase pressure.
///
/// The slot law is linear, so gap, width and viscosity fall out: what counts is the pressure against the head of oil.
/// `threshold` is how many times faster the leak must be before pressure is named ([`super::figures::times_by_pressure`]): from its
/// likely value on it is the ventilation, below its low value the joint, between them both.
///
/// # Errors
/// A figure outside its range, or thresholds not in order.
pub fn leak_cause(
    spot: &Spot,
    crankcase: GaugePressure,
    threshold: &Estimate<Ratio>,
    scribe: &mut impl Scribe,
) -> Result<LeakCause, JointError> {
    spot.check()?;
    let crankcase = CRANKCASE.check(crankcase)?;
    super::error::in_order(threshold, &times_by_pressure().range)?;
    let (pressure, head) = (crankcase.base(), spot.head_pressure());
    let drive = pressure + head;
    scribe.step(|| {
        Step::new("what drives the spot", "Δp", "Δp = p + ρ g h", &crate::source::DEFINITION)
            .with_amount("p", Amount::of_kind(crankcase, Kind::CrankcasePressure))
            .with("ρ", spot.density)
            .with_amount("h", Amount::of_kind(spot.head, Kind::SmallLength))
            .gives_amount(Amount::new(drive, Kind::SmallPressureDifference))
    });
    let show = |pascals: f64| Amount::new(pascals, Kind::CrankcasePressure).show(crate::quantity::UnitSystem::Si);
    let made = |cause, times: Option<Ratio>, reason: String| LeakCause { cause, times, reason, notes: cautions() };
    if drive < 0.0 || (drive == 0.0 && pressure < 0.0) {
        let reason = format!(
            "The crankcase stands at {}, and the oil over the spot presses with {} only: air is drawn in there. It may \
             whistle, it does not drip; oil that still appears comes from elsewhere or from when the engine stands.",
            show(pressure),
            show(head)
        );
        return Ok(made(Cause::DrawsAir, None, reason));
    }
    if drive == 0.0 {
        let reason = "The crankcase stands at the pressure of the air outside and no oil stands over the spot, so nothing \
                      drives a leak; oil that appears is splashed or creeps through the gasket: the joint.";
        return Ok(made(Cause::Joint, None, reason.to_owned()));
    }
    if head == 0.0 {
        let reason = format!(
            "No oil stands over the spot; what comes out is pushed by the crankcase's {} alone. Lower the pressure first.",
            show(pressure)
        );
        return Ok(made(Cause::Ventilation, None, reason));
    }
    let times = Ratio::from_base(drive / head);
    scribe.step(|| {
        Step::new("leak with the pressure over leak without", "n", "n = 1 + p/(ρ g h)", &source::LEAK_FIGURES)
            .with_amount("p", Amount::of_kind(crankcase, Kind::CrankcasePressure))
            .with("ρ", spot.density)
            .with_amount("h", Amount::of_kind(spot.head, Kind::SmallLength))
            .gives(times)
    });
    let many = Amount::of(times).show(crate::quantity::UnitSystem::Si);
    let (cause, reason) = if times.base() >= threshold.likely.base() {
        let reason = format!(
            "With {} in the crankcase the spot leaks {many} times as fast as by the oil over it alone. Lower the pressure \
             before blaming the gasket.",
            show(pressure)
        );
        (Cause::Ventilation, reason)
    } else if times.base() >= threshold.low.base() {
        let reason = format!(
            "With {} in the crankcase the spot leaks {many} times as fast as by the oil over it alone: pressure and joint \
             both count.",
            show(pressure)
        );
        (Cause::Both, reason)
    } else {
        let reason = format!(
            "At {} the pressure does not drive this leak: the oil over the spot runs out through a gap in the joint.",
            show(pressure)
        );
        (Cause::Joint, reason)
    };
    Ok(made(cause, Some(times), reason))
}

/// A look at the spot.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Observation {
    /// Crankcase pressure at the time.
    pub crankcase: GaugePressure,
    /// Whether fresh oil came out.
    pub leaks: bool,
}

/// What two looks at the same spot show.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Trial {
    /// The leak stopped when the pressure fell: it was pressure.
    Pressure,
    /// It leaks at or below the pressure outside: it is the joint.
    Joint,
    /// It stopped below the pressure outside, where any leak stops, and what was there before was too little to drive it.
    Masked,
    /// It goes on, but the crankcase is still above the pressure outside: lower it and look again.
    Undecided,
    /// It did not leak either time.
    NoLeak,
    /// It began to leak when the pressure fell, which neither explains: look for another source.
    Elsewhere,
}

impl Trial {
    /// What a person reads.
    #[must_use]
    pub const fn words(self) -> &'static str {
        match self {
            Self::Pressure => "The leak stopped when the pressure fell: it was pressure. Mend the ventilation.",
            Self::Joint => "It leaks without pressure behind it: it is the joint.",
            Self::Masked => {
                "The leak stopped, but a crankcase below the air outside stops any leak, and the pressure before was too small \
                 to tell: look again with the crankcase just at the air outside, or first under a load that raises it more; \
                 never plug an outlet."
            }
            Self::Undecided => {
                "The leak goes on, but the crankcase still stands above the air outside. Lower it to zero or below and look \
                 again."
            }
            Self::NoLeak => "Nothing leaked either time; look again under the load that showed the leak.",
            Self::Elsewhere => {
                "The leak began when the pressure fell, which neither explains: look for another source."
            }
        }
    }

    /// Where the rule comes from.
    #[must_use]
    pub fn source() -> &'static Source {
        &source::LEAK_TRIAL
    }
}

/// What a trial shows: the same spot before and after the crankcase pressure was lowered. Wipe the joint dry and give
/// each look the same time at the same engine speed (common practice, no source).
///
/// Below the air outside oil no longer comes out of any gap. So a leak that stops there was pressure only if the pressure
/// before made it as much faster as [`leak_cause`] asks of the ventilation, `1 + p/(ρ g h)` at the likely threshold; and a
/// leak with no pressure behind it is the joint, whatever a depression hides.
///
/// # Errors
/// A figure outside its range, thresholds not in order, or a second pressure that is not lower.
pub fn trial(
    spot: &Spot,
    before: &Observation,
    after: &Observation,
    threshold: &Estimate<Ratio>,
) -> Result<Trial, JointError> {
    spot.check()?;
    super::error::in_order(threshold, &times_by_pressure().range)?;
    let first = CRANKCASE.check(before.crankcase)?;
    let second = CRANKCASE.check(after.crankcase)?;
    if second.base() >= first.base() {
        let amount = |pressure| Amount::of_kind(pressure, Kind::CrankcasePressure);
        return Err(JointError::TrialOrder { before: amount(first), after: amount(second) });
    }
    Ok(match (before.leaks, after.leaks) {
        (true, false) if first.base() <= 0.0 => Trial::Joint,
        (true, false) if second.base() >= 0.0 => Trial::Pressure,
        (true, false) if first.base() < (threshold.likely.base() - 1.0) * spot.head_pressure() => Trial::Masked,
        (true, false) => Trial::Pressure,
        (true, true) if second.base() <= 0.0 => Trial::Joint,
        (true, true) => Trial::Undecided,
        (false, true) => Trial::Elsewhere,
        (false, false) => Trial::NoLeak,
    })
}

fn cautions() -> Vec<Note> {
    vec![Note::new(
        "hot-oil-leak",
        Weight::Danger,
        "Oil on a hot exhaust burns. Stop at any smell of hot oil; look for leaks with hair, sleeves and hands clear of \
         fan, belts and exhaust.",
    )]
}
