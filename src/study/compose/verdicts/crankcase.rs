//! Verdict on the crankcase pressure; those on valve and breather lie beside it.

mod breather;
mod can_drain;
mod mend;
mod oil;
mod port;
mod stuck;
mod valve;
mod wet;

pub(super) use breather::breather;
pub(super) use can_drain::can_drain;
pub(super) use oil::{catch_can, oil_return};
pub(super) use port::{idle_mixture, port};
pub(super) use stuck::stuck;
pub(super) use valve::valve;
pub(super) use wet::moisture;

use super::Findings;
use crate::crankcase::blow_by::standard_volume_flow;
use crate::quantity::si::MassRate;
use crate::quantity::{Amount, Estimate, GaugePressure, Kind, Measured};
use crate::say;
use crate::study::{
    Answers, CrankcaseCase, Duty, DutyAnswers, FlowPath, Knowledge, Part, Problems, Sentence, State, VentilationInputs,
    Verdict, defaults,
};

fn gauge(value: GaugePressure) -> Amount {
    Amount::of_kind(value, Kind::CrankcasePressure)
}

fn flow(value: MassRate) -> Amount {
    Amount::of(standard_volume_flow(value))
}

const fn working(duty: Duty) -> &'static str {
    match duty {
        Duty::Idle => "crankcase/idle",
        Duty::Cruise => "crankcase/cruise",
        Duty::Hill => "crankcase/hill",
        Duty::FullThrottle => "crankcase/full_throttle",
        Duty::Overrun => "crankcase/overrun",
    }
}

/// The duty whose pressure is worst: by its state, then as a share of its limit.
fn most_pressed(answers: &Answers) -> Option<&DutyAnswers> {
    // A limit of zero is passed by any pressure above it.
    let share = |duty: &DutyAnswers| duty.high().gauge.base() / duty.limit.likely.base().max(1.0);
    let worse = |a: &&DutyAnswers, b: &&DutyAnswers| {
        a.pressure_state().cmp(&b.pressure_state()).then(share(a).total_cmp(&share(b)))
    };
    answers.duties.iter().max_by(worse)
}

/// The duty with the deepest depression.
fn most_drawn(answers: &Answers) -> Option<&DutyAnswers> {
    let worse = |a: &&DutyAnswers, b: &&DutyAnswers| {
        let states = a.depression_state().cmp(&b.depression_state());
        states.then(b.deepest.gauge.base().total_cmp(&a.deepest.gauge.base()))
    };
    answers.duties.iter().max_by(worse)
}

/// Does the crankcase stay within its limits at every duty? The pressure is judged on the high blow-by, the depression on
/// the deeper of the low and the likely one on balance; when neither is well within its limit both are named.
pub(super) fn pressure(answers: &Answers, findings: &Findings<'_, '_>) -> Result<Verdict, Problems> {
    let (Some(pressed), Some(drawn)) = (most_pressed(answers), most_drawn(answers)) else {
        return Err(crate::study::compose::problem("duty", "there is no duty point"));
    };
    let inputs = &findings.context.project.ventilation;
    let few = findings.context.project.engine.cylinders <= 2;
    let (over, under) = (pressed.pressure_state(), drawn.depression_state());
    let pressure_leads = over >= under;
    let both = over != State::Holds && under != State::Holds;
    let margin_over = say![in_words(pressed.high()), ", ", pressed.duty.name()];
    let margin_under = say![in_words(&drawn.deepest), ", ", drawn.duty.name()];
    let limit_over = say!["at most ", (pressed.limit, Kind::CrankcasePressure), ", ", pressed.duty.name()];
    let limit_under = say!["no deeper than ", (deepest_allowed(drawn), Kind::CrankcasePressure)];
    let (reason_over, reason_under) = (why_over(pressed, inputs), why_under(drawn));
    let pick = |one: Sentence, other: Sentence| match (both, pressure_leads) {
        (true, true) => say![one, "; ", other],
        (true, false) => say![other, "; ", one],
        (false, true) => one,
        (false, false) => other,
    };
    let mend = match (over, under) {
        (State::DoesNotHold, State::DoesNotHold) if inputs.has_breather() => {
            Some(mend::both(answers, findings).unwrap_or_else(|| {
                let first = mend::within_limits(answers, findings).unwrap_or_default();
                say![
                    "against the pressure: ",
                    first,
                    ". Against the depression as well: ",
                    mend::less_depression(answers, findings, under)
                ]
            }))
        }
        (State::DoesNotHold, _) => mend::within_limits(answers, findings),
        (_, State::DoesNotHold) => Some(mend::less_depression(answers, findings, under)),
        (State::Thin, _) if inputs.has_element() && pressed.unfavourable.gauge > pressed.limit.likely => {
            Some(say!["keep the breather element clean, and look at what the baffle really opens"])
        }
        (_, State::Thin) => Some(mend::less_depression(answers, findings, under)),
        _ => None,
    };
    let contradicts = over != State::Holds && contradicts(pressed);
    let mend = if contradicts {
        Some(say!["measure the blow-by with a flow meter, or correct the condition, before buying anything"])
    } else {
        mend
    };
    let reason = pick(reason_over, reason_under);
    let reason = if contradicts {
        say![reason, "; the high end is that of the condition, which contradicts the leak-down readings"]
    } else {
        reason
    };
    // The mean says little when two pistons pump the whole crankcase.
    let reason =
        if few { say![reason, "; with so few cylinders the pistons' pumping swamps this mean"] } else { reason };
    let state = over.max(under).max(if few { State::Thin } else { State::Holds });
    Ok(Verdict {
        key: "crankcase_pressure",
        part: Part::Crankcase,
        title: "Crankcase",
        state,
        margin: pick(margin_over, margin_under),
        limit: pick(limit_over, limit_under),
        reason,
        mend,
        working: working(if pressure_leads { pressed.duty } else { drawn.duty }),
    })
}

/// Whether a leak-down test is used although the condition says more than three times as much.
fn contradicts(duty: &DutyAnswers) -> bool {
    let likely = |wanted: Knowledge| {
        let level = duty.blow_by.levels.iter().find(|level| level.knowledge == wanted);
        level.map_or(0.0, |level| level.forward.likely.base())
    };
    duty.blow_by.knowledge == Knowledge::LeakDown && likely(Knowledge::Condition) > 3.0 * likely(Knowledge::LeakDown)
}

/// A crankcase pressure, or that it is beyond all sense.
fn in_words(case: &CrankcaseCase) -> Sentence {
    if !case.beyond_seals() {
        return say![gauge(case.gauge)];
    }
    let way = if case.gauge.base() > 0.0 { "pressure" } else { "depression" };
    say![way, " far beyond what seals hold"]
}

fn deepest_allowed(duty: &DutyAnswers) -> Estimate<GaugePressure> {
    let below = |pressure: crate::quantity::si::Pressure| GaugePressure::from_base(-pressure.base());
    let depression = duty.depression;
    Estimate { low: below(depression.high), likely: below(depression.likely), high: below(depression.low) }
}

fn why_over(duty: &DutyAnswers, inputs: &VentilationInputs) -> Sentence {
    let (high, likely) = (duty.high(), duty.likely());
    let loading = inputs.element.loading.unwrap_or_else(defaults::filter_loading).likely.base();
    let with = match (inputs.has_element(), loading > 1.0) {
        (true, false) => "with a clean filter",
        (true, true) => "with the filter as loaded as it is",
        (false, _) => "with the parts at their likely figures",
    };
    let tightest = high
        .flow(FlowPath::Breather)
        .and_then(|flow| flow.tightest.clone())
        .filter(|(_, drop)| !high.beyond_seals() && drop.base() > 0.0)
        .map_or_else(Sentence::default, |(piece, drop)| {
            say!["; the ", piece, " takes ", Amount::of_kind(drop, Kind::CrankcasePressure), " of it"]
        });
    let mut reason = say![
        "judged on the high blow-by of ",
        flow(duty.blow_by.forward.high),
        " ",
        with,
        " (likely ",
        flow(duty.blow_by.forward.likely),
        ", ",
        in_words(likely),
        ")",
        tightest
    ];
    if high.gauge <= duty.limit.likely && duty.unfavourable.gauge > duty.limit.likely {
        let parts = if inputs.has_element() { "a dirty filter and a tight baffle" } else { "a tight baffle" };
        reason = say![reason, "; at the likely blow-by with ", parts, " ", in_words(&duty.unfavourable)];
    }
    if high.beyond_seals() {
        reason = say![reason, "; the equations give ", gauge(high.gauge), ", seals let go long before"];
    }
    if duty.stops() {
        reason = say![reason, "; stop: seals and covers let go above ", gauge(duty.stop)];
    }
    say![reason, several(high)]
}

fn why_under(duty: &DutyAnswers) -> Sentence {
    let case = &duty.deepest;
    let mut reason = say![
        "at ",
        flow(case.blow_by),
        " of blow-by on balance; so deep a depression draws seals inward, whistles and pulls oil up"
    ];
    if case.beyond_seals() {
        reason = say![reason, "; the equations give ", gauge(case.gauge), ", a seal leaks long before"];
    }
    say![reason, several(case)]
}

/// The other pressures the same parts can stand at.
fn several(case: &CrankcaseCase) -> Sentence {
    let mut sentence = Sentence::default();
    for (i, other) in case.others.iter().enumerate() {
        let joint = if i == 0 { "; the same parts can also stand at " } else { " or " };
        sentence = say![sentence, joint, gauge(*other)];
    }
    if sentence.is_empty() { sentence } else { say![sentence, ", depending on how they got there"] }
}
