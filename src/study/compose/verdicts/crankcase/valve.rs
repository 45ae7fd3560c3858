//! Does the valve keep the crankcase fresh at idle and cruise?

use super::super::{Findings, state};
use super::{flow, working};
use crate::crankcase::arrangement::defaults;
use crate::crankcase::blow_by::standard_volume_flow;
use crate::fluid::crankcase_gas::standard_pressure;
use crate::quantity::si::{MassRate, VolumeRate};
use crate::quantity::{Amount, Kind, Measured, celsius};
use crate::say;
use crate::study::{Answers, Duty, DutyAnswers, FlowPath, Lacking, Part, PortPlace, Sentence, State, Verdict};

/// What a shut valve's seat leaks, kg/s: some 0.05 L/min.
const NOTHING: f64 = 1e-6;

/// Does the valve keep the crankcase fresh at idle and cruise?
pub(in super::super) fn valve(answers: &Answers, findings: &Findings<'_, '_>) -> Option<Verdict> {
    let inputs = &findings.context.project.ventilation;
    if !inputs.has_valve() || !inputs.has_breather() {
        return None;
    }
    let light = [Duty::Idle, Duty::Cruise].map(|duty| &answers.duties[duty.index()]);
    let share = |duty: &DutyAnswers, blow_by: MassRate| {
        duty.turns_at.map_or(0.0, |turns| turns.base() / blow_by.base().max(1e-9))
    };
    let worst = light
        .into_iter()
        .min_by(|a, b| share(a, a.blow_by.forward.high).total_cmp(&share(b, b.blow_by.forward.high)))?;
    let turns = worst.turns_at?;
    let blow_by = worst.blow_by.forward;
    let likely = turns > blow_by.likely;
    let spare = MassRate::from_base((turns.base().max(0.0) - blow_by.likely.base()).abs());
    let margin = if likely {
        say![flow(spare), " to spare, ", worst.duty.name()]
    } else {
        say![Lacking(flow(spare)), " short, ", worst.duty.name()]
    };
    let idle = &answers.duties[Duty::Idle.index()];
    let passes = idle.likely().flow(FlowPath::Valve).map_or(0.0, |flow| flow.out.base());
    let part = of_idle_air(idle, MassRate::from_base(passes));
    let before_throttle = inputs.valve.port.place == PortPlace::BeforeThrottle;
    let shut = if before_throttle { None } else { no_draw(answers, worst) };
    let state = state(likely, turns > blow_by.high);
    let at_idle = say!["; at idle it passes ", Amount::new(part, Kind::Share), " of the engine's air"];
    let mut reason = if turns.base() > NOTHING {
        say!["it draws ", flow(turns), " before the breather turns round", at_idle]
    } else {
        say!["it draws nothing", at_idle]
    };
    if let Some((why, _)) = &shut {
        reason = say![why.clone(), "; ", reason];
    }
    let mend = match (state, shut) {
        (State::Holds, _) => None,
        (State::Thin | State::DoesNotHold, Some((_, mend))) => Some(mend),
        _ if before_throttle && findings.context.project.engine.is_diesel() => Some(say![
            "no valve at all: choose one line to the air cleaner as the arrangement, with a separator in it; a valve made for \
             the depression behind a throttle chokes it"
        ]),
        _ if before_throttle => Some(say!["a port behind the throttle: before it there is nothing to draw with"]),
        _ => Some(wanted(worst, idle, |wanted| on_bench(answers, findings, worst, wanted))),
    };
    Some(Verdict {
        key: "pcv_capacity",
        part: Part::Valve,
        title: "PCV valve",
        state,
        margin,
        limit: say!["more than the blow-by at idle and cruise, so that fresh air comes in by the breather"],
        reason,
        mend,
        working: working(worst.duty),
    })
}

/// Why the manifold draws next to nothing at a duty, and what does instead; none where it draws.
fn no_draw(answers: &Answers, duty: &DutyAnswers) -> Option<(Sentence, Sentence)> {
    let below = answers.ambient.base() - duty.manifold.base();
    let mend = say![
        "lead the gas to the clean side of the air cleaner, before any blower, through a separator and with a regulator \
         against too deep a depression (choose one line to the air cleaner as the arrangement); the manifold does not carry it"
    ];
    if below < 0.0 {
        let above = Amount::new(-below, Kind::PressureDifference);
        return Some((say!["the manifold stands ", above, " above the air there, so the valve is shut"], mend));
    }
    (below < defaults::least_draw().likely().base()).then(|| {
        let by = Amount::new(below, Kind::PressureDifference);
        (say!["the manifold stands no more than ", by, " below the air there: next to nothing to draw with"], mend)
    })
}

/// Whether the manifold has a depression to speak of at a duty.
pub(super) fn draws(answers: &Answers, duty: &DutyAnswers) -> bool {
    no_draw(answers, duty).is_none()
}

/// A flow as a share of the air of the idling engine.
fn of_idle_air(idle: &DutyAnswers, flow: MassRate) -> f64 {
    if idle.air.base() > 0.0 { flow.base() / idle.air.base() } else { 0.0 }
}

pub(super) fn most_of_idle_air() -> f64 {
    defaults::idle_air_by_valve().likely().base()
}

/// The baffle takes more of a larger flow, and a figure is told in three digits.
const SPARE: f64 = 1.02;

/// What a valve must pass on a bench, of air at 20 °C and sea level, to draw a flow of warm gas from the crankcase: a hole passes with 1/√T, and
/// what stands ahead of the valve takes its part.
pub(super) fn on_bench(answers: &Answers, findings: &Findings<'_, '_>, duty: &DutyAnswers, wanted: MassRate) -> Amount {
    let gas = findings.context.project.blow_by.gas_temperature;
    let gas = gas.unwrap_or_else(crate::study::defaults::gas_temperature).likely;
    let warm = (gas.base() / celsius(20.0).base()).sqrt();
    let alone = answers.valve.as_ref().and_then(|valve| valve.passes[duty.duty.index()].as_ref().ok());
    let drawn = duty.turns_at.filter(|turns| turns.base() > NOTHING);
    let lost = match (alone, drawn) {
        (Some(alone), Some(drawn)) => alone.base() / standard_volume_flow(drawn).base(),
        _ => warm,
    };
    // Behind a bench at sea level a choked hole passes with the pressure ahead of it.
    let thin = standard_pressure().base() / answers.ambient.base();
    Amount::of(VolumeRate::from_base(standard_volume_flow(wanted).base() * lost.max(warm) * thin.max(1.0) * SPARE))
}

/// The valve that would do: for the high blow-by, or for the likely one where the high would take too much of the idle air.
fn wanted(worst: &DutyAnswers, idle: &DutyAnswers, on_bench: impl Fn(MassRate) -> Amount) -> Sentence {
    let most = most_of_idle_air();
    let blow_by = worst.blow_by.forward;
    let at = say![" at ", Amount::of(worst.manifold), " absolute in the manifold, ", worst.duty.name()];
    // What a valve passes at cruise says nothing of what it passes at idle.
    if worst.duty != Duty::Idle || of_idle_air(idle, blow_by.high) <= most {
        return say![
            "a valve that passes ",
            on_bench(blow_by.high),
            " of air at 20 °C and sea level or more",
            at,
            if worst.duty == Duty::Idle || worst.manifold <= idle.manifold {
                "; the idle must be set again, since it passes more there too"
            } else {
                ", and no more at idle than now"
            }
        ];
    }
    let too_much = say![Amount::new(most, Kind::Share), " of the idle air, below which the idle could not drop"];
    if of_idle_air(idle, blow_by.likely) <= most {
        return say![
            "a valve that passes the likely ",
            on_bench(blow_by.likely),
            " of air at 20 °C and sea level",
            at,
            "; the high ",
            on_bench(blow_by.high),
            " would be more than ",
            too_much
        ];
    }
    say![
        "none: a valve for even the likely ",
        flow(blow_by.likely),
        at,
        " would pass more than ",
        too_much,
        "; mend the rings, and let the breather take what the valve cannot"
    ]
}
