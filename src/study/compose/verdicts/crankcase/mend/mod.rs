//! The smallest changes that would mend a crankcase pressure or a depression, each proven by solving with it.
//!
//! Changes stand in ladders, one for each thing that can be changed, its smallest step first; ladders stand by what such a change
//! costs a builder. The smallest step that holds is told of up to three ladders; when none holds alone, pairs of them.

mod change;
mod proof;
mod steps;

use super::super::Findings;
use crate::say;
use crate::study::{Answers, Sentence, State, VentilationInputs};
use change::{Change, Ladder, ladders};
use proof::{Proof, Wanted};

/// The most ways told.
const MOST: usize = 3;

/// The smallest changes that bring every duty within its pressure limit.
pub(super) fn within_limits(answers: &Answers, findings: &Findings<'_, '_>) -> Option<Sentence> {
    if !findings.context.project.ventilation.has_breather() {
        return Some(say![
            "give the crankcase a breather: with none the valve pulls, or the blow-by pushes, until a seal leaks"
        ]);
    }
    let wanted = Wanted { pressure: true, depression: None };
    let step_by_step = || {
        let proof = Proof::new(answers, findings, wanted);
        steps::ease_step_by_step(&proof, &findings.context.project.ventilation)
    };
    let none = || say!["more than one outlet, and look at the rings: no line of usual size carries this much"];
    Some(smallest(answers, findings, wanted).or_else(step_by_step).unwrap_or_else(none))
}

/// The smallest changes that keep every duty within its depression limit: for a limit that is passed its likely value, for one
/// of which little is left its low one.
pub(super) fn less_depression(answers: &Answers, findings: &Findings<'_, '_>, state: State) -> Sentence {
    if !findings.context.project.ventilation.has_breather() {
        return say!["give the crankcase a breather: with none the valve pulls until a seal leaks"];
    }
    let wanted = Wanted { pressure: false, depression: Some(state) };
    smallest(answers, findings, wanted).unwrap_or_else(|| {
        say!["a wider fresh-air way together with a valve that passes less; neither one change of usual size nor two are enough"]
    })
}

/// The smallest changes that mend both at once; `None` when neither two of them nor more do.
pub(super) fn both(answers: &Answers, findings: &Findings<'_, '_>) -> Option<Sentence> {
    let wanted = Wanted { pressure: true, depression: Some(State::DoesNotHold) };
    smallest(answers, findings, wanted).or_else(|| {
        let present = &findings.context.project.ventilation;
        steps::ease_step_by_step(&Proof::new(answers, findings, wanted), present)
    })
}

/// Up to three ways that hold, the cheapest first.
fn smallest(answers: &Answers, findings: &Findings<'_, '_>, wanted: Wanted) -> Option<Sentence> {
    let present = &findings.context.project.ventilation;
    let proof = Proof::new(answers, findings, wanted);
    let ladders = ladders(present, wanted);
    let ways = singles(&proof, present, &ladders).or_else(|| pairs(&proof, present, &ladders))?;
    let mut sentence = Sentence::default();
    for (i, way) in ways.iter().enumerate() {
        let mut after = present.clone();
        let mut told = Sentence::default();
        for change in way {
            change.apply(&mut after);
        }
        for (j, change) in way.iter().enumerate() {
            told =
                say![told, if j == 0 { "" } else { ", and " }, change.words(present, &after, |one| proof.through(one))];
        }
        sentence = say![sentence, if i == 0 { "" } else { "; or " }, told];
    }
    Some(sentence)
}

type Ways<'l> = Vec<Vec<&'l Change>>;

fn with(present: &VentilationInputs, changes: &[&Change]) -> VentilationInputs {
    let mut changed = present.clone();
    for change in changes {
        change.apply(&mut changed);
    }
    changed
}

/// The smallest step of each ladder that holds alone.
fn singles<'l>(proof: &Proof<'_, '_, '_>, present: &VentilationInputs, ladders: &'l [Ladder]) -> Option<Ways<'l>> {
    let holds = |change: &&Change| proof.holds(&with(present, &[*change]));
    let smallest = |ladder: &'l Ladder| {
        // A ladder whose last step does not hold is done with after one look, but for a valve: too large a one may pull too deep.
        let may = ladder.turns_back || ladder.steps.last().is_some_and(|last| holds(&last));
        if may { ladder.steps.iter().find(holds) } else { None }
    };
    let ways: Ways<'l> = ladders.iter().filter_map(smallest).map(|change| vec![change]).take(MOST).collect();
    (!ways.is_empty()).then_some(ways)
}

/// The smallest steps of two ladders that hold together.
fn pairs<'l>(proof: &Proof<'_, '_, '_>, present: &VentilationInputs, ladders: &'l [Ladder]) -> Option<Ways<'l>> {
    let mut couples: Vec<(&Ladder, &Ladder)> = Vec::new();
    for (i, one) in ladders.iter().enumerate() {
        couples.extend(ladders.iter().skip(i + 1).map(|other| (one, other)));
    }
    couples.sort_by_key(|(one, other)| one.cost.rank() + other.cost.rank());
    let holds = |one: &Change, other: &Change| proof.holds(&with(present, &[one, other]));
    let smallest = |(one, other): (&'l Ladder, &'l Ladder)| {
        let (first, second) = (one.steps.last()?, other.steps.last()?);
        if !(one.turns_back || other.turns_back || holds(first, second)) {
            return None;
        }
        // By the number of steps taken in all.
        let steps = one.steps.len() + other.steps.len();
        let by_size = (0..steps).flat_map(|sum| (0..=sum).map(move |i| (i, sum - i)));
        let mut tried = by_size.filter_map(|(i, j)| Some((one.steps.get(i)?, other.steps.get(j)?)));
        tried.find(|(a, b)| holds(a, b)).map(|(a, b)| vec![a, b])
    };
    let ways: Ways<'l> = couples.into_iter().filter_map(smallest).take(MOST).collect();
    (!ways.is_empty()).then_some(ways)
}
