//! Verdict on the joint between valve cover and head.

use crate::crankcase::joint::{Cause, Safety, Trial};
use crate::quantity::{Amount, Kind};
use crate::say;
use crate::study::{Answers, JointAnswers, Part, Sentence, State, Verdict};

/// Is there a torque that seats the gasket and spares the joint, is it the one used, and does it hold the pressure under
/// the cover? `None` when the joint was not measured.
pub(in crate::study::compose) fn joint(answers: &Answers) -> Option<Verdict> {
    let joint = answers.cover_joint.as_ref()?;
    Some(Verdict {
        key: "cover_joint",
        part: Part::CoverJoint,
        title: "Cover joint",
        state: joint.state(),
        margin: margin(joint),
        limit: limit(joint),
        reason: reason(joint),
        mend: mend(joint),
        working: if joint.pressure_state() > joint.torque_state() { "joint/load" } else { "joint/window" },
    })
}

fn margin(joint: &JointAnswers) -> Sentence {
    match (joint.torque, joint.window.aim) {
        (Some(torque), _) => say![Amount::of(torque), " used"],
        (None, Some(aim)) => say!["tighten to ", Amount::of(aim)],
        (None, None) => say!["no torque is right"],
    }
}

fn limit(joint: &JointAnswers) -> Sentence {
    let most = (joint.window.most, Kind::Torque);
    match joint.window.least {
        Some(least) => say!["at least ", (least, Kind::Torque), ", at most ", most],
        None => say!["no torque seats the gasket between the screws; at most ", most],
    }
}

fn reason(joint: &JointAnswers) -> Sentence {
    let window = &joint.window;
    let mut reason = match (window.safety, window.least.is_some()) {
        (Safety::Safe, _) => {
            say!["a torque seats the gasket and spares thread, screw and gasket at every unfavourable end"]
        }
        (Safety::Doubtful, _) => {
            say!["a torque seats the gasket and spares the joint at the likely figures, not at every unfavourable end"]
        }
        (Safety::NoWindow, false) => {
            say!["the flange bows off the gasket between the screws, and more torque does not press it there"]
        }
        (Safety::NoWindow, true) => say!["what seats the gasket is more than thread, screw or gasket bear"],
    };
    if let Some(torque) = joint.torque {
        let (torque, most) = (torque.value, &window.most);
        let loose = window.least.map(|least| (torque < least.likely.value, torque < least.high.value));
        let words = match (loose, torque > most.likely.value, torque > most.low.value) {
            (Some((true, _)), ..) => "; the torque used leaves the gasket loose",
            (_, true, _) => "; the torque used is more than the joint bears",
            (Some((_, true)), _, true) => {
                "; the torque used may leave the gasket loose or be more than the joint bears"
            }
            (Some((_, true)), ..) => "; the torque used may leave the gasket loose",
            (.., true) => "; the torque used may be more than the joint bears",
            _ => "",
        };
        reason = say![reason, words];
    }
    if let (Some(load), State::Thin | State::DoesNotHold) = (&joint.load, joint.pressure_state()) {
        reason = say![
            reason,
            "; it holds ",
            (load.holds, Kind::GaugePressure),
            " against ",
            Amount::of_kind(joint.worst, Kind::CrankcasePressure),
            ", ",
            joint.worst_duty.name()
        ];
    }
    match (joint.trial, &joint.leak) {
        (Some(trial), _) => say![reason, "; the leak trial: ", small_first(trial.words())],
        (None, Ok(leak)) if leak.cause == Cause::Ventilation => say![
            reason,
            "; a spot that weeps would be driven by crankcase pressure (",
            Amount::of_kind(joint.worst, Kind::CrankcasePressure),
            ", ",
            joint.worst_duty.name(),
            ")"
        ],
        _ => reason,
    }
}

/// The words of a trial behind a colon, without their full stop at the end.
fn small_first(words: &str) -> String {
    let mut letters = words.trim_end_matches('.').chars();
    letters.next().map(|first| first.to_lowercase().chain(letters).collect()).unwrap_or_default()
}

fn mend(joint: &JointAnswers) -> Option<Sentence> {
    if joint.state() == State::Holds {
        return None;
    }
    if matches!(joint.trial, Some(Trial::Joint)) && joint.torque_state() == State::Holds {
        return Some(say![
            "take the cover off: look for a bent flange, a split gasket, old sealant, a nick in the face"
        ]);
    }
    let window = &joint.window;
    let better = window.mends.first();
    // The torque first: it costs nothing.
    let off = joint.torque.is_some_and(|_| joint.torque_state() > state_of(window.safety));
    match (window.aim, better) {
        (Some(aim), _) if off => Some(say!["tighten to ", Amount::of(aim)]),
        (_, Some(mending)) => {
            Some(say![crate::study::answers::joint::words(&mending.mend), then(mending.safety, window.safety)])
        }
        (Some(aim), None) if joint.torque != Some(aim) => Some(say!["tighten to ", Amount::of(aim)]),
        _ => None,
    }
}

const fn state_of(safety: Safety) -> State {
    match safety {
        Safety::Safe => State::Holds,
        Safety::Doubtful => State::Thin,
        Safety::NoWindow => State::DoesNotHold,
    }
}

const fn then(safety: Safety, before: Safety) -> &'static str {
    match (safety, before) {
        (Safety::Safe, _) => "; then a torque is safe at every unfavourable end",
        (Safety::Doubtful, Safety::Doubtful) => "; it widens the window, though not to every unfavourable end",
        (Safety::Doubtful, _) => "; then a torque is right at the likely figures",
        (Safety::NoWindow, _) => "; it betters the joint, though alone it is not enough",
    }
}
