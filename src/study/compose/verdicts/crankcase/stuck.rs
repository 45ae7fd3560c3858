//! What if the valve sticks? A failure is not the normal state: this is a remark, never worse than thin.

use super::gauge;
use crate::quantity::Measured;
use crate::say;
use crate::study::{Answers, Failure, FailureAnswers, FailureDuty, FlowPath, Part, Sentence, Stands, State, Verdict};

/// What if the valve sticks?
pub(in super::super) fn stuck(answers: &Answers) -> Option<Verdict> {
    let of = |wanted| answers.failures.iter().find(|one| one.failure == wanted);
    let (open, shut) = (of(Failure::StuckOpen)?, of(Failure::StuckShut)?);
    let bad = |one: &FailureAnswers| matches!(one.worst().state, State::Thin | State::DoesNotHold);
    let unknown = [open, shut].iter().any(|one| one.worst().state == State::NotKnown);
    // What is known to be bad is told before what is not known.
    let told = match (bad(open), bad(shut)) {
        (true, true) if open.worst().state > shut.worst().state => open,
        (true, false) => open,
        _ => shut,
    };
    let breathes = answers.duties.iter().any(|duty| duty.likely().flow(FlowPath::Breather).is_some());
    let poor = |one: &&FailureDuty| matches!(one.state, State::Thin | State::DoesNotHold);
    let mut mends: Vec<&str> = Vec::new();
    if bad(shut) {
        mends.push(if breathes { SHUT } else { SHUT_ALONE });
    }
    if open.duties.iter().filter(poor).any(|one| one.boosted) {
        mends.push(BOOST);
    }
    let drawn = open.duties.iter().filter(poor).filter(|one| !one.boosted);
    if drawn.filter_map(FailureDuty::case).any(|case| case.gauge.base() < 0.0) {
        mends.push(if breathes { OPEN } else { OPEN_ALONE });
    }
    let mend = (!mends.is_empty()).then(|| say![mends.join("; ")]);
    Some(Verdict {
        key: "valve_sticks",
        part: Part::Valve,
        title: "Valve that sticks",
        state: match (bad(open) || bad(shut), unknown) {
            (true, _) => State::Thin,
            (false, true) => State::NotKnown,
            (false, false) => State::Holds,
        },
        margin: say![would(told), ": ", stands(told)],
        limit: say![
            "it has not failed: a warning of what would happen if it did, so never told as worse than thin; stuck open or shut, \
             the crankcase should still stay within its limits"
        ],
        reason: say![
            if told.failure == Failure::StuckOpen { both(open, shut) } else { both(shut, open) },
            "; at every duty under \"What if\""
        ],
        mend,
        working: told.failure.working(told.worst().duty),
    })
}

const OPEN: &str =
    "with the valve open, more fresh air: a wider breather or fresh-air line, or a valve that opens less wide";
const OPEN_ALONE: &str = "with the valve open, a breather that lets air in";
const BOOST: &str = "with the valve open boost blows in: a tight check valve between valve and port";
const SHUT: &str =
    "with the valve shut, a breather that carries all the blow-by; try the valve at every oil change, engine cold";
const SHUT_ALONE: &str = "with the valve shut, a breather: without one nothing leads out";

/// Both failures, the one told of in the margin first.
fn both(told: &FailureAnswers, other: &FailureAnswers) -> Sentence {
    let one = |failure| say![stands(failure), ": ", would(failure)];
    say![one(told), "; ", one(other)]
}

/// Whether the crankcase would bear the failure at its worst duty.
fn would(failure: &FailureAnswers) -> &'static str {
    match failure.worst().state {
        State::Holds => "would hold",
        State::Thin => "would leave little",
        State::DoesNotHold => "would not hold",
        State::NotKnown => "not known",
    }
}

/// The worst duty of a failure in words.
fn stands(failure: &FailureAnswers) -> Sentence {
    let worst = failure.worst();
    let what = match failure.failure {
        Failure::StuckOpen => "stuck open",
        Failure::StuckShut => "stuck shut",
        Failure::BreatherBlocked => "breather blocked",
    };
    let duty = worst.duty.name();
    match (worst.case(), &worst.stands) {
        (Some(case), _) if case.beyond_seals() => say!["far beyond what seals hold, ", what, ", ", duty],
        (Some(case), _) => say![gauge(case.gauge), " ", what, ", ", duty],
        (None, Stands::NotKnown(_)) => say![what, ", ", duty],
        (None, Stands::NoWayIn) => say![what, ", no way in left, a seal leaks, ", duty],
        (None, _) => say![what, ", no way out left, a seal gives, ", duty],
    }
}
