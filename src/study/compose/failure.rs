//! What if a part of the ventilation fails: the valve stuck open, stuck shut, the breather blocked.

use super::context::Context;
use super::crankcase;
use super::valve::around;
use crate::crankcase::arrangement::{Boundary, Stuck, Ventilation};
use crate::quantity::Measured;
use crate::quantity::si::{MassRate, Ratio};
use crate::scribe::{Scribe, Silent};
use crate::study::{
    CrankcaseCase, Duty, DutyAnswers, Failure, FailureAnswers, FailureDuty, FlowPath, Problems, Stands, State,
};

/// Every failure this ventilation can have, at every duty.
pub(super) fn answers(
    context: &Context<'_>,
    ventilation: &Ventilation,
    duties: &[DutyAnswers; 5],
    scribe: &mut impl Scribe,
) -> Result<Vec<FailureAnswers>, Problems> {
    let mut all = Vec::with_capacity(3);
    for failure in Failure::ALL {
        let Some(failed) = failed(ventilation, failure) else { continue };
        let mut five = Vec::with_capacity(5);
        for duty in duties {
            five.push(at_duty(&failed, failure, duty, &around(context, duties, duty), scribe));
        }
        let five: Result<[FailureDuty; 5], _> = five.try_into();
        let five = five.map_err(|_| super::problem("duty", "there are not five duty points"))?;
        let idle_share = (failure == Failure::StuckOpen).then(|| idle_share(&five, duties)).flatten();
        all.push(FailureAnswers { failure, duties: five, idle_share });
    }
    Ok(all)
}

/// The ventilation with the failure; none where it cannot have it.
fn failed(ventilation: &Ventilation, failure: Failure) -> Option<Ventilation> {
    let mut changed = ventilation.clone();
    match failure {
        Failure::StuckOpen | Failure::StuckShut => {
            changed.valve.as_ref()?;
            changed.valve_stuck = Some(if failure == Failure::StuckOpen { Stuck::Open } else { Stuck::Shut });
        }
        Failure::BreatherBlocked => {
            changed.breather.take()?;
        }
    }
    Some(changed)
}

/// Whether anything but the leak of a shut valve leads out.
fn leads_out(ventilation: &Ventilation) -> bool {
    let breathes = ventilation.breather.is_some() || ventilation.second_breather.is_some();
    breathes || (ventilation.valve.is_some() && ventilation.valve_stuck != Some(Stuck::Shut))
}

fn at_duty(
    failed: &Ventilation,
    failure: Failure,
    duty: &DutyAnswers,
    at: &Boundary,
    scribe: &mut impl Scribe,
) -> FailureDuty {
    let which = duty.duty;
    let title = format!("What if, {}: {}", failure.name(), which.name());
    scribe.chapter(failure.working(which), &title);
    let stands = if leads_out(failed) { stands(failed, failure, duty, at, scribe) } else { Stands::NoWayOut };
    let state = match &stands {
        Stands::At { high, deepest } => duty.judged(high.gauge, deepest.gauge),
        Stands::NoWayOut => State::DoesNotHold,
        Stands::NotKnown(_) => State::NotKnown,
    };
    FailureDuty { duty: which, stands, state }
}

/// The crankcase at the high blow-by and at its deepest. The one the failure is feared for is written down.
fn stands(
    failed: &Ventilation,
    failure: Failure,
    duty: &DutyAnswers,
    at: &Boundary,
    scribe: &mut impl Scribe,
) -> Stands {
    let draws = failure == Failure::StuckOpen;
    let high = solved(failed, at, duty, duty.blow_by.forward.high, !draws, scribe);
    // With nothing to come in past the valve, only what passes down alone has a steady state.
    let sealed = failed.breather.is_none() && failed.second_breather.is_none();
    let blow_by = &duty.blow_by;
    let least = if sealed && blow_by.net.low.base() <= 0.0 { blow_by.forward.low } else { blow_by.net.low };
    let deepest = solved(failed, at, duty, least, draws, scribe);
    match (high, deepest) {
        (Ok(high), Ok(deepest)) => Stands::At { high: Box::new(high), deepest: Box::new(deepest) },
        (Err(why), _) | (_, Err(why)) => Stands::NotKnown(why),
    }
}

fn solved(
    failed: &Ventilation,
    at: &Boundary,
    duty: &DutyAnswers,
    blow_by: MassRate,
    written: bool,
    scribe: &mut impl Scribe,
) -> Result<CrankcaseCase, String> {
    let at = Boundary { blow_by, ..*at };
    let when = duty.duty.name();
    let case = if written {
        crankcase::one_case(failed, &at, when, scribe)
    } else {
        crankcase::one_case(failed, &at, when, &mut Silent)
    };
    case.map_err(|problems| problems.to_string())
}

/// Share of the idling engine's gas that a valve stuck open passes.
fn idle_share(five: &[FailureDuty; 5], duties: &[DutyAnswers; 5]) -> Option<Ratio> {
    let (idle, air) = (&five[Duty::Idle.index()], duties[Duty::Idle.index()].air.base());
    let Stands::At { deepest, .. } = &idle.stands else { return None };
    let passes = deepest.flow(FlowPath::Valve)?.out.base();
    (air > 0.0).then(|| Ratio::from_base(passes / air))
}
