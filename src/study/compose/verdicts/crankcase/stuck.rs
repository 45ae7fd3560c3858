//! What if the valve sticks? A failure is not the normal state: this is a remark, never worse than thin.

use super::gauge;
use crate::say;
use crate::study::{Answers, Failure, FailureAnswers, Part, Sentence, Stands, State, Verdict};

/// What if the valve sticks?
pub(in super::super) fn stuck(answers: &Answers) -> Option<Verdict> {
    let of = |wanted| answers.failures.iter().find(|one| one.failure == wanted);
    let (open, shut) = (of(Failure::StuckOpen)?, of(Failure::StuckShut)?);
    let bad = |one: &FailureAnswers| matches!(one.worst().state, State::Thin | State::DoesNotHold);
    let unknown = [open, shut].iter().any(|one| one.worst().state == State::NotKnown);
    let told = match (bad(open), bad(shut)) {
        (true, false) => open,
        (false, true) => shut,
        _ if shut.worst().state >= open.worst().state => shut,
        _ => open,
    };
    // Boost that blows in is not mended by more fresh air.
    let blown = answers.duties[open.worst().duty.index()].manifold > answers.ambient;
    let when_open = if blown { BLOWN } else { OPEN };
    let mend = match (bad(open), bad(shut)) {
        (false, false) => None,
        (true, false) => Some(say![when_open]),
        (false, true) => Some(say![SHUT]),
        (true, true) => Some(say![SHUT, "; ", when_open]),
    };
    Some(Verdict {
        key: "valve_sticks",
        part: Part::Valve,
        title: "Valve that sticks",
        state: match (bad(open) || bad(shut), unknown) {
            (true, _) => State::Thin,
            (false, true) => State::NotKnown,
            (false, false) => State::Holds,
        },
        margin: stands(told),
        limit: say![
            "the crankcase stays within its limits with the valve stuck open or shut; a failure is never more than thin"
        ],
        reason: say![stands(open), "; ", stands(shut), "; at every duty under \"What if\""],
        mend,
        working: told.failure.working(told.worst().duty),
    })
}

const OPEN: &str =
    "with the valve open, more fresh air: a wider breather or fresh-air line, or a valve that opens less wide";
const BLOWN: &str = "with the valve open boost blows in: a tight check valve between it and the port";
const SHUT: &str = "with the valve shut, a breather that carries all the blow-by; shake the valve at every oil change, it must \
                    rattle";

/// The worst duty of a failure in words.
fn stands(failure: &FailureAnswers) -> Sentence {
    let worst = failure.worst();
    let what = match failure.failure {
        Failure::StuckOpen => "stuck open",
        Failure::StuckShut => "stuck shut",
        Failure::BreatherBlocked => "breather blocked",
    };
    let pressure = match (worst.case(), &worst.stands) {
        (Some(case), _) if case.beyond_seals() => say!["far beyond what seals hold"],
        (Some(case), _) => say![gauge(case.gauge)],
        (None, Stands::NotKnown(_)) => say!["not known"],
        (None, _) => say!["no way out left, a seal gives"],
    };
    say![pressure, " ", what, ", ", worst.duty.name()]
}
