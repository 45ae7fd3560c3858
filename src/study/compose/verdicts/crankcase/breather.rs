//! Where does the breather blow out, and is what comes caught?

use super::super::Findings;
use crate::crankcase::oil::CarryOver;
use crate::quantity::si::{MassRate, VolumeRate};
use crate::quantity::{Amount, Measured};
use crate::say;
use crate::study::answers::oil::{oil_words, why};
use crate::study::{Answers, CanPlace, Duty, DutyAnswers, FlowPath, Part, Sentence, State, VentilationInputs, Verdict};

/// Whether the can sits in this line.
fn caught(inputs: &VentilationInputs, path: FlowPath) -> bool {
    let by_place = inputs.can.place == CanPlace::BreatherLine;
    by_place && (path == FlowPath::Breather || (path == FlowPath::SecondBreather && inputs.can.in_both))
}

/// Gas that goes out by one line.
fn out_by(duty: &DutyAnswers, path: FlowPath) -> f64 {
    duty.high().flow(path).map_or(0.0, |flow| flow.standard.base().max(0.0))
}

/// How much oil leaves uncaught at the worst duty, and why.
fn most_oil(answers: &Answers, open: &[FlowPath]) -> Sentence {
    let all = Duty::ALL.into_iter().zip(&answers.oil.out).flat_map(|(duty, ways)| {
        let uncaught = ways.iter().filter(|out| open.contains(&out.path));
        uncaught.filter_map(move |out| Some((duty, out, out.carried.as_ref().ok()?)))
    });
    let more = |a: &CarryOver, b: &CarryOver| {
        let by = |of: fn(&CarryOver) -> MassRate| of(a).base().total_cmp(&of(b).base());
        by(|carried| carried.oil.likely).then(by(|carried| carried.oil.high))
    };
    let Some((duty, out, carried)) = all.max_by(|a, b| more(a.2, b.2)) else { return Sentence::default() };
    let way = if open.len() > 1 { say![" by the ", out.path.name()] } else { Sentence::default() };
    say!["; most oil leaves", way, ", ", duty.name(), ": ", oil_words(&carried.oil), "; ", why(out, &carried.reason)]
}

/// Where does the breather blow out?
pub(in super::super) fn breather(answers: &Answers, findings: &Findings<'_, '_>) -> Option<Verdict> {
    let inputs = &findings.context.project.ventilation;
    if !inputs.has_breather() {
        return None;
    }
    let closed = inputs.leads_to_air_cleaner();
    let lines = [FlowPath::Breather, FlowPath::SecondBreather];
    let out: Vec<&DutyAnswers> = answers.duties.iter().filter(|duty| duty.high().breathes_out()).collect();
    let loose = |path: &FlowPath| !caught(inputs, *path) && out.iter().any(|duty| out_by(duty, *path) > 0.0);
    let open: Vec<FlowPath> = lines.into_iter().filter(loose).collect();
    let total = |duty: &&&DutyAnswers| duty.high().blown_out().base();
    let most = out.iter().max_by(|a, b| total(a).total_cmp(&total(b)));
    // A check that lets only air in: nothing blows out, which is no sign that more is drawn off than comes.
    let held = out.is_empty() && answers.duties.iter().any(|duty| duty.high().gauge.base() > 0.0);
    let margin = match most {
        None if held => say!["lets no gas out"],
        None => say!["draws fresh air at every duty"],
        Some(duty) => say!["blows out up to ", Amount::of(duty.high().blown_out()), ", ", duty.duty.name()],
    };
    let state = if open.is_empty() { State::Holds } else { State::Thin };
    let mend = match open.as_slice() {
        [] => None,
        _ if closed => Some(say![
            "a baffle, and a sealed catch can in the line to the air cleaner: it keeps oil out of the air cleaner, it does not \
             lower the pressure"
        ]),
        [FlowPath::SecondBreather] => Some(say!["a can in the second line too"]),
        [_, _] => Some(say![
            "a catch can in each breather line: it keeps oil off the exhaust, it does not lower the pressure"
        ]),
        _ => {
            Some(say!["a catch can in the breather line: it keeps oil off the exhaust, it does not lower the pressure"])
        }
    };
    let names: Vec<_> = out.iter().map(|duty| duty.duty.name()).collect();
    let likely: Vec<_> =
        answers.duties.iter().filter(|duty| duty.likely().breathes_out()).map(|duty| duty.duty.name()).collect();
    let likely = match likely.as_slice() {
        [] => " (at the likely at none)".to_owned(),
        _ if likely == names => " (at the likely too)".to_owned(),
        _ => format!(" (at the likely only at: {})", likely.join(", ")),
    };
    let where_to = if closed { "into the air cleaner" } else { "into the open" };
    let by_second = out.iter().map(|duty| out_by(duty, FlowPath::SecondBreather)).fold(0.0, f64::max);
    let reason = if held {
        say!["what stands in the line shuts it against the gas; see the crankcase for the pressure"]
    } else if names.is_empty() {
        say!["more is drawn off than the blow-by at every duty"]
    } else {
        let how = match open.as_slice() {
            [] => say!["; the can catches the oil"],
            [FlowPath::SecondBreather] => say![
                "; the can catches the oil of the first line, the second blows up to ",
                Amount::of(VolumeRate::from_base(by_second)),
                " uncaught"
            ],
            _ => say![],
        };
        let oil = most_oil(answers, &open);
        say!["at the high blow-by gas and oil mist go ", where_to, " at: ", names.join(", "), likely, how, oil]
    };
    Some(Verdict {
        key: "breather",
        part: Part::Breather,
        title: "Breather",
        state,
        margin,
        limit: if closed {
            say!["no oil mist into the air cleaner: what goes there is caught"]
        } else {
            say!["no oil mist onto the exhaust: what blows out is caught"]
        },
        reason,
        mend,
        working: "crankcase/full_throttle",
    })
}
