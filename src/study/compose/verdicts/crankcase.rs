//! Verdicts on the crankcase: pressure, valve, breather.

use super::{Findings, state};
use crate::crankcase::blow_by::standard_volume_flow;
use crate::quantity::si::{Length, MassRate, VolumeRate};
use crate::quantity::{Amount, GaugePressure, Kind, Measured};
use crate::say;
use crate::study::compose::{crankcase, ventilation};
use crate::study::{
    Answers, CanPlace, Duty, DutyAnswers, FlowPath, Part, Problems, Sentence, State, VentilationArrangement,
    VentilationInputs, Verdict, defaults,
};

/// Trade sizes of hose, m (common practice, no source).
const BORES: [f64; 6] = [0.0127, 0.016, 0.019, 0.022, 0.025, 0.032];

fn gauge(value: GaugePressure) -> Amount {
    Amount::of_kind(value, Kind::CrankcasePressure)
}

fn flow(value: MassRate) -> Amount {
    Amount::of(standard_volume_flow(value))
}

/// How bad a duty is: its state, then its pressure as a share of its limit. The worst one rules.
fn badness(duty: &DutyAnswers) -> (State, f64) {
    let (high, limit) = (duty.high().gauge, duty.limit);
    // A limit of zero is passed by any pressure above it.
    let share = high.base() / limit.likely.base().max(1.0);
    (state(high <= limit.likely, high <= limit.low), share)
}

fn worse(a: &DutyAnswers, b: &DutyAnswers) -> std::cmp::Ordering {
    let (a, b) = (badness(a), badness(b));
    a.0.cmp(&b.0).then(a.1.total_cmp(&b.1))
}

/// Does the crankcase stay within its limits at every duty, judged on the high blow-by?
pub(super) fn pressure(answers: &Answers, findings: &Findings<'_, '_>) -> Result<Verdict, Problems> {
    let inputs = &findings.context.project.ventilation;
    let Some(worst) = answers.duties.iter().max_by(|a, b| worse(a, b)) else {
        return Err(crate::study::compose::problem("duty", "there is no duty point"));
    };
    let deepest = answers.duties.iter().min_by(|a, b| a.high().gauge.base().total_cmp(&b.high().gauge.base()));
    let depression = inputs.limit_depression.unwrap_or_else(defaults::limit_depression);
    if let Some(deep) = deepest
        && -deep.likely().gauge.base() > depression.likely.base()
        && badness(worst).0 != State::DoesNotHold
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
    // The worst duty first: a change that does not help there is done with after one solution.
    let mut duties: Vec<&DutyAnswers> = answers.duties.iter().collect();
    duties.sort_by(|a, b| worse(b, a));
    for duty in duties {
        let filter = findings.context.filter_depression(duty.air, full).likely;
        let at = crankcase::boundary(findings.context, duty.blow_by.forward.high, duty.manifold, filter);
        let case = crankcase::quick_case(&changed, &at, duty.duty.name())?;
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
    for bore in BORES {
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
    if present.has_element() {
        let linear = present.element.linear.unwrap_or_else(defaults::element_linear);
        let quadratic = present.element.quadratic.unwrap_or_else(defaults::element_quadratic);
        for (factor, words) in [(0.5, "half"), (0.25, "a quarter of"), (0.1, "a tenth of")] {
            let mut changed = present.clone();
            changed.element.linear = Some(linear.map(|one| Measured::from_base(one.base() * factor)));
            changed.element.quadratic = Some(quadratic.map(|one| Measured::from_base(one.base() * factor)));
            changed.breather.barb = None;
            tries.push((
                say!["a breather element of ", words, " the resistance, fittings as wide as the hose"],
                changed.clone(),
            ));
            changed.breather.bore = changed.breather.bore.max(Length::from_base(0.019));
            changed.can_bore = changed.can_bore.max(changed.breather.bore);
            tries.push((
                say![
                    "a breather element of ",
                    words,
                    " the resistance and a line of ",
                    Amount::of(changed.breather.bore)
                ],
                changed,
            ));
        }
    }
    for (words, changed) in tries {
        if holds(answers, findings, &changed)? {
            return Ok(Some(words));
        }
    }
    ease_step_by_step(answers, findings)
}

/// When no single change is enough: ease whatever takes most of the pressure, again and again, until it holds.
fn ease_step_by_step(answers: &Answers, findings: &Findings<'_, '_>) -> Result<Option<Sentence>, Problems> {
    const STEPS: usize = 16;
    let present = &findings.context.project.ventilation;
    let mut changed = present.clone();
    for _ in 0..STEPS {
        let Some(piece) = tightest(answers, findings, &changed)? else { break };
        if !ease(&mut changed, &piece) {
            break;
        }
        if holds(answers, findings, &changed)? {
            return Ok(Some(differences(present, &changed)));
        }
    }
    Ok(Some(say!["more than one outlet, and look at the rings: no line of usual size carries this much"]))
}

/// The piece of the breather's way that takes most of the pressure at the worst duty.
fn tightest(
    answers: &Answers,
    findings: &Findings<'_, '_>,
    inputs: &VentilationInputs,
) -> Result<Option<String>, Problems> {
    let ventilation = ventilation::ventilation(inputs)?;
    let Some(worst) = answers.duties.iter().max_by(|a, b| worse(a, b)) else { return Ok(None) };
    let full = answers.duties[Duty::FullThrottle.index()].air;
    let filter = findings.context.filter_depression(worst.air, full).likely;
    let at = crankcase::boundary(findings.context, worst.blow_by.forward.high, worst.manifold, filter);
    let case = crankcase::quick_case(&ventilation, &at, worst.duty.name())?;
    Ok(case.flow(FlowPath::Breather).and_then(|flow| flow.tightest.clone()).map(|(piece, _)| piece))
}

/// Makes a piece one size freer; `false` when it cannot be.
fn ease(inputs: &mut VentilationInputs, piece: &str) -> bool {
    let baffle = inputs.baffle_area.unwrap_or_else(defaults::baffle_area);
    let next = BORES.into_iter().find(|bore| *bore > inputs.breather.bore.base() + 1e-4);
    match piece {
        "baffle" => inputs.baffle_area = Some(baffle.map(|area| Measured::from_base(area.base() * 1.5))),
        "breather element" => {
            let linear = inputs.element.linear.unwrap_or_else(defaults::element_linear);
            let quadratic = inputs.element.quadratic.unwrap_or_else(defaults::element_quadratic);
            inputs.element.linear = Some(linear.map(|one| Measured::from_base(one.base() * 0.5)));
            inputs.element.quadratic = Some(quadratic.map(|one| Measured::from_base(one.base() * 0.5)));
        }
        "fitting" if inputs.breather.barb.is_some() || inputs.can_bore < inputs.breather.bore => {
            inputs.breather.barb = None;
            inputs.can_bore = inputs.can_bore.max(inputs.breather.bore);
        }
        _ => {
            let Some(next) = next else { return false };
            inputs.breather.bore = Length::from_base(next);
            inputs.breather.barb = None;
            inputs.can_bore = inputs.can_bore.max(inputs.breather.bore);
        }
    }
    true
}

/// What was changed, in words.
fn differences(before: &VentilationInputs, after: &VentilationInputs) -> Sentence {
    let mut parts: Vec<Sentence> = Vec::new();
    let baffle = after.baffle_area.unwrap_or_else(defaults::baffle_area).likely;
    if before.baffle_area.unwrap_or_else(defaults::baffle_area).likely != baffle {
        parts.push(say!["a baffle of ", Amount::of(baffle), " effective area"]);
    }
    if before.breather.bore != after.breather.bore {
        parts.push(say!["a breather line of ", Amount::of(after.breather.bore), " bore throughout"]);
    } else if before.breather.barb != after.breather.barb {
        parts.push(say!["fittings as wide as the hose"]);
    }
    let resistance =
        |inputs: &VentilationInputs| inputs.element.quadratic.unwrap_or_else(defaults::element_quadratic).likely.base();
    if before.has_element() && resistance(before) != resistance(after) {
        let share = resistance(after) / resistance(before).max(f64::MIN_POSITIVE);
        let share = Amount::new(share, Kind::Share);
        parts.push(say!["a breather element of ", share, " of the resistance"]);
    }
    let mut sentence = Sentence::default();
    let last = parts.len().saturating_sub(1);
    for (i, part) in parts.into_iter().enumerate() {
        let joint = if i == 0 {
            ""
        } else if i == last {
            ", and "
        } else {
            ", "
        };
        sentence = say![sentence, joint, part];
    }
    sentence
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
