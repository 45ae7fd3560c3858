//! The smallest change that would mend a crankcase pressure.

use super::super::Findings;
use super::most_pressed;
use crate::quantity::si::{Length, VolumeRate};
use crate::quantity::{Amount, Kind, Measured};
use crate::say;
use crate::study::compose::{crankcase, ventilation};
use crate::study::{
    Answers, CanPlace, CrankcaseCase, Duty, DutyAnswers, FlowPath, Problems, Sentence, VentilationArrangement,
    VentilationInputs, defaults,
};

/// Trade sizes of hose, m (common practice, no source).
const BORES: [f64; 6] = [0.0127, 0.016, 0.019, 0.022, 0.025, 0.032];

/// What lessens a depression.
pub(super) fn less_depression(inputs: &VentilationInputs) -> Sentence {
    if inputs.has_breather() {
        say!["a wider fresh-air way, or a valve that passes less"]
    } else {
        say!["give the crankcase a breather: with none the valve pulls until a seal leaks"]
    }
}

/// Whether a changed ventilation keeps every duty within its limit at the high blow-by.
fn holds(answers: &Answers, findings: &Findings<'_, '_>, inputs: &VentilationInputs) -> Result<bool, Problems> {
    let changed = ventilation::ventilation(inputs)?;
    let full = answers.duties[Duty::FullThrottle.index()].air;
    // The worst duty first: a change that does not help there is done with after one solution.
    let over = |duty: &DutyAnswers| duty.high().gauge.base() - duty.limit.likely.base();
    let mut duties: Vec<&DutyAnswers> = answers.duties.iter().collect();
    duties.sort_by(|a, b| over(b).total_cmp(&over(a)));
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
pub(super) fn within_limits(answers: &Answers, findings: &Findings<'_, '_>) -> Result<Option<Sentence>, Problems> {
    let present = &findings.context.project.ventilation;
    if !present.has_breather() {
        return Ok(Some(say![
            "give the crankcase a breather: with none the valve pulls, or the blow-by pushes, until a seal leaks"
        ]));
    }
    let mut tries: Vec<VentilationInputs> = Vec::new();
    if present.breather.barb.is_some() {
        let mut changed = present.clone();
        changed.breather.barb = None;
        tries.push(changed);
    }
    for bore in BORES.into_iter().filter(|bore| *bore > present.breather.bore.base() + 1e-4) {
        let mut changed = present.clone();
        changed.breather.bore = Length::from_base(bore);
        changed.breather.barb = None;
        if changed.can.place == CanPlace::BreatherLine {
            changed.can.bore = changed.can.bore.max(changed.breather.bore);
        }
        tries.push(changed);
    }
    if present.arrangement == VentilationArrangement::BreatherOnly {
        for bore in [0.0127, 0.016, 0.019, 0.025] {
            let mut changed = present.clone();
            changed.arrangement = VentilationArrangement::TwoBreathers;
            changed.second = present.breather.clone();
            changed.second.bore = Length::from_base(bore);
            changed.second.barb = None;
            tries.push(changed);
        }
    }
    if present.has_element() {
        let linear = present.element.linear.unwrap_or_else(defaults::element_linear);
        let quadratic = present.element.quadratic.unwrap_or_else(defaults::element_quadratic);
        for factor in [0.5, 0.25, 0.1] {
            let mut changed = present.clone();
            changed.element.linear = Some(linear.map(|one| Measured::from_base(one.base() * factor)));
            changed.element.quadratic = Some(quadratic.map(|one| Measured::from_base(one.base() * factor)));
            changed.breather.barb = None;
            tries.push(changed.clone());
            changed.breather.bore = changed.breather.bore.max(Length::from_base(0.019));
            changed.can.bore = changed.can.bore.max(changed.breather.bore);
            tries.push(changed);
        }
    }
    for changed in tries {
        if holds(answers, findings, &changed)? {
            return differences(answers, findings, &changed).map(Some);
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
            return differences(answers, findings, &changed).map(Some);
        }
    }
    Ok(Some(say!["more than one outlet, and look at the rings: no line of usual size carries this much"]))
}

/// A changed ventilation at the high blow-by of the duty that is worst now.
fn at_worst(
    answers: &Answers,
    findings: &Findings<'_, '_>,
    inputs: &VentilationInputs,
) -> Result<Option<CrankcaseCase>, Problems> {
    let ventilation = ventilation::ventilation(inputs)?;
    let Some(worst) = most_pressed(answers) else { return Ok(None) };
    let full = answers.duties[Duty::FullThrottle.index()].air;
    let filter = findings.context.filter_depression(worst.air, full).likely;
    let at = crankcase::boundary(findings.context, worst.blow_by.forward.high, worst.manifold, filter);
    let case = crankcase::quick_case(&ventilation, &at, worst.duty.name())?;
    Ok(Some(case))
}

/// The piece of the breather's way that takes most of the pressure at the worst duty.
fn tightest(
    answers: &Answers,
    findings: &Findings<'_, '_>,
    inputs: &VentilationInputs,
) -> Result<Option<String>, Problems> {
    let case = at_worst(answers, findings, inputs)?;
    let tightest = case.as_ref().and_then(|case| case.flow(FlowPath::Breather)).and_then(|flow| flow.tightest.clone());
    Ok(tightest.map(|(piece, _)| piece))
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
        "fitting" if inputs.breather.barb.is_some() || inputs.can.bore < inputs.breather.bore => {
            inputs.breather.barb = None;
            inputs.can.bore = inputs.can.bore.max(inputs.breather.bore);
        }
        _ => {
            let Some(next) = next else { return false };
            inputs.breather.bore = Length::from_base(next);
            inputs.breather.barb = None;
            inputs.can.bore = inputs.can.bore.max(inputs.breather.bore);
        }
    }
    true
}

/// What was changed, in words.
fn differences(
    answers: &Answers,
    findings: &Findings<'_, '_>,
    after: &VentilationInputs,
) -> Result<Sentence, Problems> {
    let before = &findings.context.project.ventilation;
    let mut parts: Vec<Sentence> = Vec::new();
    let baffle = after.baffle_area.unwrap_or_else(defaults::baffle_area).likely;
    if before.baffle_area.unwrap_or_else(defaults::baffle_area).likely != baffle {
        parts.push(say!["a baffle of ", Amount::of(baffle), " effective area"]);
    }
    if before.arrangement != after.arrangement {
        parts.push(say!["a second breather of ", Amount::of(after.second.bore), " bore on the other cover"]);
    }
    let closed = after.arrangement == VentilationArrangement::ClosedWithFreshAirLine;
    let line = if closed { "fresh-air line" } else { "breather line" };
    if before.breather.bore != after.breather.bore {
        parts.push(say!["a ", line, " of ", Amount::of(after.breather.bore), " bore throughout"]);
    } else if before.breather.barb != after.breather.barb || before.can.bore != after.can.bore {
        parts.push(say!["fittings as wide as the hose, ", Amount::of(after.breather.bore)]);
    }
    if before.has_element() && before.element != after.element {
        // A bench figure that can be asked of a supplier: pressure at the breather's own flow of air.
        let case = at_worst(answers, findings, after)?;
        let through =
            case.as_ref().and_then(|case| case.flow(FlowPath::Breather)).map_or(0.0, |flow| flow.standard.base());
        let linear = after.element.linear.unwrap_or_else(defaults::element_linear).likely.base();
        let quadratic = after.element.quadratic.unwrap_or_else(defaults::element_quadratic).likely.base();
        let drop = through.abs() * (linear + quadratic * through.abs());
        parts.push(say![
            "a breather element that takes no more than ",
            Amount::new(drop, Kind::CrankcasePressure),
            " at ",
            Amount::of(VolumeRate::from_base(through.abs()))
        ]);
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
    Ok(sentence)
}
