//! What if a part of the ventilation fails: the valve stuck open, stuck shut, the breather blocked.

use super::context::Context;
use super::crankcase;
use super::valve::around;
use crate::crankcase::arrangement::{
    Boundary, BreatherLine, Inline, Stuck, Ventilation, VentilationError, defaults, solve_one,
};
use crate::crankcase::network::NetworkError;
use crate::quantity::si::{MassRate, Ratio};
use crate::quantity::{AbsolutePressure, Amount, Measured};
use crate::scribe::{Scribe, Silent, Step};
use crate::source::DEFINITION;
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
    let lets_out = |line: &BreatherLine| !matches!(line.inline, Some(Inline::CheckInwards(_)));
    let breathes = ventilation.breather.iter().chain(&ventilation.second_breather).any(lets_out);
    breathes || (ventilation.valve.is_some() && ventilation.valve_stuck != Some(Stuck::Shut))
}

fn at_duty(
    failed: &Ventilation,
    failure: Failure,
    duty: &DutyAnswers,
    at: &Boundary,
    scribe: &mut impl Scribe,
) -> FailureDuty {
    let (which, boosted) = (duty.duty, at.manifold > at.ambient);
    scribe.chapter(failure.working(which), &format!("What if, {}: {}", failure.name(), which.name()));
    if !leads_out(failed) {
        scribe.step(|| {
            Step::new("ways out of the crankcase left", "n", "breathers and valves that are open", &DEFINITION)
                .gives_amount(Amount::number(0.0))
        });
        return FailureDuty { duty: which, boosted, stands: Stands::NoWayOut, state: State::DoesNotHold };
    }
    let found = feared(failed, failure, duty, at, scribe);
    if found.is_err() {
        scribe.step(|| {
            let equation = "no pressure balances the flows within what seals bear and the figures reach";
            Step::new("blow-by for which no pressure is found, high end", "ṁ", equation, &DEFINITION)
                .gives(duty.blow_by.forward.high)
        });
    }
    match found {
        Ok(case) => {
            let state = duty.judged(case.gauge);
            FailureDuty { duty: which, boosted, stands: Stands::At(Box::new(case)), state }
        }
        Err(Unsolved::NoWayOut) => {
            FailureDuty { duty: which, boosted, stands: Stands::NoWayOut, state: State::DoesNotHold }
        }
        Err(Unsolved::NoWayIn) => {
            FailureDuty { duty: which, boosted, stands: Stands::NoWayIn, state: State::DoesNotHold }
        }
        Err(Unsolved::Fault(why)) => {
            FailureDuty { duty: which, boosted, stands: Stands::NotKnown(why), state: State::NotKnown }
        }
    }
}

/// The crankcase where the failure is feared: at its deepest, or at the high blow-by. What is given is written down.
fn feared<S: Scribe>(
    failed: &Ventilation,
    failure: Failure,
    duty: &DutyAnswers,
    at: &Boundary,
    scribe: &mut S,
) -> Result<CrankcaseCase, Unsolved> {
    let blow_by = &duty.blow_by;
    // With nothing to come in past the valve, only what passes down alone has a steady state.
    let sealed = failed.breather.is_none() && failed.second_breather.is_none();
    let least = if sealed && blow_by.net.low.base() <= 0.0 { blow_by.forward.low } else { blow_by.net.low };
    let most = blow_by.forward.high;
    let flow = match failure {
        // Boost blows in, a manifold under the air draws.
        Failure::StuckOpen if at.manifold > at.ambient => most,
        Failure::StuckOpen => least,
        Failure::StuckShut => most,
        Failure::BreatherBlocked => {
            let deepest = solved(failed, at, duty, least, &mut Silent)?;
            let highest = solved(failed, at, duty, most, &mut Silent)?;
            let worse = |case: &CrankcaseCase| (duty.judged(case.gauge), case.gauge.base().abs());
            let (deep, high) = (worse(&deepest), worse(&highest));
            let draws = deep.0.cmp(&high.0).then(deep.1.total_cmp(&high.1)).is_gt();
            if !S::WRITES {
                return Ok(if draws { deepest } else { highest });
            }
            if draws { least } else { most }
        }
    };
    solved(failed, at, duty, flow, scribe)
}

fn solved(
    failed: &Ventilation,
    at: &Boundary,
    duty: &DutyAnswers,
    blow_by: MassRate,
    scribe: &mut impl Scribe,
) -> Result<CrankcaseCase, Unsolved> {
    let at = Boundary { blow_by, ..*at };
    let outcome = solve_one(failed, &at, scribe).map_err(|error| unsolved(&error, &at, duty))?;
    Ok(crankcase::case_of(&outcome, &at))
}

/// Why there is no pressure.
enum Unsolved {
    /// What is left passes too little at any pressure that seals bear.
    NoWayOut,
    /// More is drawn out than comes in at any depression.
    NoWayIn,
    /// Anything else.
    Fault(String),
}

fn unsolved(error: &VentilationError, at: &Boundary, duty: &DutyAnswers) -> Unsolved {
    let beyond =
        |pressure: AbsolutePressure| pressure.base() - at.ambient.base() > defaults::far_beyond_seals().likely().base();
    match error {
        VentilationError::Network(
            NetworkError::NoBalance { highest: pressure, .. } | NetworkError::BeyondReach { pressure, .. },
        ) if beyond(*pressure) => Unsolved::NoWayOut,
        VentilationError::Network(NetworkError::DrawnEmpty { .. }) => Unsolved::NoWayIn,
        _ => Unsolved::Fault(format!("{}: {error}", duty.duty.name())),
    }
}

/// Share of the idling engine's gas that a valve stuck open passes.
fn idle_share(five: &[FailureDuty; 5], duties: &[DutyAnswers; 5]) -> Option<Ratio> {
    let (idle, air) = (&five[Duty::Idle.index()], duties[Duty::Idle.index()].air.base());
    let passes = idle.case()?.flow(FlowPath::Valve)?.out.base();
    (air > 0.0).then(|| Ratio::from_base(passes / air))
}
