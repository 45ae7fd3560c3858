//! Verdicts on the crankcase: pressure, valve, breather.

use super::{Findings, state};
use crate::crankcase::blow_by::standard_volume_flow;
use crate::quantity::si::{Length, MassRate, VolumeRate};
use crate::quantity::{Amount, GaugePressure, Kind, Measured};
use crate::say;
use crate::scribe::Silent;
use crate::study::compose::{crankcase, ventilation};
use crate::study::{
    Answers, CanPlace, Duty, DutyAnswers, FlowPath, Part, Problems, Sentence, State, VentilationArrangement,
    VentilationInputs, Verdict, defaults,
};

fn gauge(value: GaugePressure) -> Amount {
    Amount::of_kind(value, Kind::CrankcasePressure)
}

fn flow(value: MassRate) -> Amount {
    Amount::of(standard_volume_flow(value))
}

/// How far a pressure is over its limit, in shares of the limit; the duty with the largest rules.
fn over(duty: &DutyAnswers) -> f64 {
    let pressure = duty.high().gauge.base();
    pressure - duty.limit.likely.base()
}

/// Does the crankcase stay within its limits at every duty, judged on the high blow-by?
pub(super) fn pressure(answers: &Answers, findings: &Findings<'_, '_>) -> Result<Verdict, Problems> {
    let inputs = &findings.context.project.ventilation;
    let Some(worst) = answers.duties.iter().max_by(|a, b| over(a).total_cmp(&over(b))) else {
        return Err(crate::study::compose::problem("duty", "there is no duty point"));
    };
    let deepest = answers.duties.iter().min_by(|a, b| a.high().gauge.base().total_cmp(&b.high().gauge.base()));
    let depression = inputs.limit_depression.unwrap_or_else(defaults::limit_depression);
    if let Some(deep) = deepest
        && -deep.likely().gauge.base() > depression.likely.base()
        && over(worst) <= 0.0
    {
        return Ok(too_deep(deep, depression.likely.base(), inputs));
    }
    let high = worst.high().gauge;
    let limit = worst.limit;
    let state = state(high <= limit.likely, high <= limit.low);
    let mend = if state == State::DoesNotHold { mend(answers, findings)? } else { None };
    let tightest = worst
        .high()
        .flow(FlowPath::Breather)
        .and_then(|flow| flow.tightest.clone())
        .map_or_else(Sentence::default, |(piece, drop)| {
            say!["; the ", piece, " takes ", Amount::of_kind(drop, Kind::CrankcasePressure), " of it"]
        });
    Ok(Verdict {
        key: "crankcase_pressure",
        part: Part::Crankcase,
        title: "Crankcase",
        state,
        margin: say![gauge(high), ", ", worst.duty.name()],
        limit: say!["at most ", (limit, Kind::CrankcasePressure), ", ", worst.duty.name()],
        reason: say![
            "judged on the high blow-by of ",
            flow(worst.blow_by.forward.high),
            " (likely ",
            flow(worst.blow_by.forward.likely),
            ", ",
            gauge(worst.likely().gauge),
            ")",
            tightest
        ],
        mend,
        working: working(worst.duty),
    })
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

fn too_deep(deep: &DutyAnswers, limit: f64, inputs: &VentilationInputs) -> Verdict {
    let mend = if inputs.has_breather() {
        say!["a wider fresh-air way, or a valve that passes less"]
    } else {
        say!["give the crankcase a breather: with none the valve pulls until a seal leaks"]
    };
    let several = if deep.likely().others.is_empty() {
        say![""]
    } else {
        say!["; the same parts can also stand at ", gauge(deep.likely().others[0]), ", depending on how they got there"]
    };
    Verdict {
        key: "crankcase_pressure",
        part: Part::Crankcase,
        title: "Crankcase",
        state: State::DoesNotHold,
        margin: say![gauge(deep.likely().gauge), ", ", deep.duty.name()],
        limit: say!["no deeper than ", Amount::new(-limit, Kind::CrankcasePressure)],
        reason: say!["so deep a depression draws seals inward, whistles and pulls oil up", several],
        mend: Some(mend),
        working: working(deep.duty),
    }
}

/// Whether a changed ventilation keeps every duty within its limit at the high blow-by.
fn holds(answers: &Answers, findings: &Findings<'_, '_>, inputs: &VentilationInputs) -> Result<bool, Problems> {
    let changed = ventilation::ventilation(inputs)?;
    let full = answers.duties[Duty::FullThrottle.index()].air;
    for duty in &answers.duties {
        let filter = findings.context.filter_depression(duty.air, full).likely;
        let at = crankcase::boundary(findings.context, duty.blow_by.forward.high, duty.manifold, filter);
        let (case, _) = crankcase::case(&changed, &at, "ventilation", &mut Silent)?;
        if case.gauge > duty.limit.likely {
            return Ok(false);
        }
    }
    Ok(true)
}

/// The smallest change that brings every duty within its limit: one bore larger, a clear fitting, a second breather.
fn mend(answers: &Answers, findings: &Findings<'_, '_>) -> Result<Option<Sentence>, Problems> {
    let present = &findings.context.project.ventilation;
    if !present.has_breather() {
        return Ok(Some(say!["give the crankcase a breather"]));
    }
    let mut tries: Vec<(Sentence, VentilationInputs)> = Vec::new();
    let millimetre = |value: f64| Amount::new(value, Kind::Length);
    if present.breather.barb.is_some() {
        let mut changed = present.clone();
        changed.breather.barb = None;
        tries.push((say!["fittings as wide as the hose, ", millimetre(present.breather.bore.base())], changed));
    }
    // Trade sizes of hose, mm.
    for bore in [0.0127, 0.016, 0.019, 0.022, 0.025, 0.032] {
        if bore > present.breather.bore.base() + 1e-4 {
            let mut changed = present.clone();
            changed.breather.bore = Length::from_base(bore);
            changed.breather.barb = None;
            if changed.can == CanPlace::BreatherLine {
                changed.can_bore = changed.can_bore.max(changed.breather.bore);
            }
            tries.push((say!["a breather line of ", millimetre(bore), " bore throughout"], changed));
        }
    }
    if present.arrangement == VentilationArrangement::BreatherOnly {
        for bore in [0.0127, 0.016, 0.019, 0.025] {
            let mut changed = present.clone();
            changed.arrangement = VentilationArrangement::TwoBreathers;
            changed.second = present.breather.clone();
            changed.second.bore = Length::from_base(bore);
            changed.second.barb = None;
            tries.push((say!["a second breather of ", millimetre(bore), " bore on the other cover"], changed));
        }
    }
    for factor in [2.0, 4.0] {
        let mut changed = present.clone();
        let baffle = present.baffle_area.unwrap_or_else(defaults::baffle_area);
        let scale = |area: crate::quantity::si::Area| Measured::from_base(area.base() * factor);
        changed.baffle_area = Some(baffle.map(scale));
        let bore = present.breather.bore.base().max(0.019);
        changed.breather.bore = Length::from_base(bore);
        changed.breather.barb = None;
        changed.can_bore = changed.can_bore.max(changed.breather.bore);
        let words = say![
            "a baffle of ",
            Amount::new(baffle.likely.base() * factor, Kind::SmallArea),
            " effective area with a line of ",
            millimetre(bore)
        ];
        tries.push((words, changed));
    }
    for (words, changed) in tries {
        if holds(answers, findings, &changed)? {
            return Ok(Some(words));
        }
    }
    Ok(Some(say!["no single hose mends it: more than one outlet, a freer baffle, and look at the rings"]))
}

/// Does the valve keep the crankcase fresh at idle and cruise?
pub(super) fn valve(answers: &Answers, findings: &Findings<'_, '_>) -> Option<Verdict> {
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
    let likely = turns > worst.blow_by.forward.likely;
    let high = turns > worst.blow_by.forward.high;
    let state = state(likely, high);
    let spare = |blow_by: MassRate| MassRate::from_base(turns.base() - blow_by.base());
    let margin = if likely {
        say![flow(spare(worst.blow_by.forward.likely)), " to spare, ", worst.duty.name()]
    } else {
        say![flow(spare(worst.blow_by.forward.likely)), " short, ", worst.duty.name()]
    };
    let idle_air = answers.duties[Duty::Idle.index()].air.base();
    let idle_valve =
        answers.duties[Duty::Idle.index()].likely().flow(FlowPath::Valve).map_or(0.0, |flow| flow.out.base());
    let part = if idle_air > 0.0 { idle_valve / idle_air } else { 0.0 };
    Some(Verdict {
        key: "pcv_capacity",
        part: Part::Valve,
        title: "PCV valve",
        state,
        margin,
        limit: say!["more than the blow-by at idle and cruise, so that fresh air comes in by the breather"],
        reason: say![
            "it draws ",
            flow(turns),
            " before the breather turns round; at idle it passes ",
            Amount::new(part, Kind::Share),
            " of the engine's air"
        ],
        mend: (state != State::Holds).then(|| {
            say!["a valve that passes ", flow(worst.blow_by.forward.high), " or more at this manifold pressure"]
        }),
        working: working(worst.duty),
    })
}

/// Where does the breather blow out?
pub(super) fn breather(answers: &Answers, findings: &Findings<'_, '_>) -> Option<Verdict> {
    let inputs = &findings.context.project.ventilation;
    if !inputs.has_breather() {
        return None;
    }
    let out: Vec<&DutyAnswers> = answers.duties.iter().filter(|duty| duty.high().breather_blows_out()).collect();
    let caught = inputs.can == CanPlace::BreatherLine;
    let closed = inputs.arrangement == VentilationArrangement::ClosedWithFreshAirLine;
    let most = out
        .iter()
        .filter_map(|duty| duty.high().flow(FlowPath::Breather).map(|flow| (duty.duty, flow.standard)))
        .max_by(|a, b| a.1.base().total_cmp(&b.1.base()));
    let where_to = if closed { "into the air cleaner" } else { "into the open" };
    let (state, margin, mend) = match most {
        None => (State::Holds, say!["draws fresh air at every duty"], None),
        Some((duty, flow)) if caught => (State::Holds, blows(flow, duty), None),
        Some((duty, flow)) => {
            let mend =
                say!["a catch can in the breather line: it keeps oil off the exhaust, it does not lower the pressure"];
            (State::Thin, blows(flow, duty), Some(mend))
        }
    };
    let names: Vec<_> = out.iter().map(|duty| duty.duty.name()).collect();
    let reason = if names.is_empty() {
        say!["the valve draws more than the blow-by at every duty"]
    } else {
        say![
            "gas and oil mist go ",
            where_to,
            " at: ",
            names.join(", "),
            if caught { "; the can catches the oil" } else { "" }
        ]
    };
    Some(Verdict {
        key: "breather",
        part: Part::Breather,
        title: "Breather",
        state,
        margin,
        limit: say!["no oil mist onto the exhaust: what blows out is caught"],
        reason,
        mend,
        working: "crankcase/full_throttle",
    })
}

fn blows(flow: VolumeRate, duty: Duty) -> Sentence {
    say!["blows out up to ", Amount::of(flow), ", ", duty.name()]
}
