//! Verdict on the joint between valve cover and head.

mod mend;

use crate::crankcase::joint::{Cause, Obstacle, Safety};
use crate::quantity::{Amount, Kind, Measured};
use crate::say;
use crate::study::answers::joint::held;
use crate::study::{Answers, Excess, Fails, JointAnswers, Part, Sentence, State, Verdict};

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
        reason: joined(reasons(joint)).unwrap_or_default(),
        mend: mend::mend(joint),
        working: if joint.pressure_state() > joint.torque_state() { "joint/load" } else { "joint/window" },
    })
}

fn joined(parts: Vec<Sentence>) -> Option<Sentence> {
    parts.into_iter().reduce(|all, part| say![all, "; ", part])
}

fn margin(joint: &JointAnswers) -> Sentence {
    // The torque of the joint as it will be, if something is to be changed.
    let wanted = joint.plan.as_ref().and_then(|plan| plan.torque).or(joint.window.aim);
    match (joint.torque, wanted) {
        (Some(torque), _) => say![Amount::of(torque), " used"],
        (None, Some(_)) if joint.window.aim.is_none() => say!["no torque is right as it is"],
        (None, Some(torque)) => say!["no torque given, ", Amount::of(torque), " is needed"],
        (None, None) => say!["no torque is right"],
    }
}

fn limit(joint: &JointAnswers) -> Sentence {
    let most = (joint.window.most, Kind::Torque);
    match joint.window.least {
        // Two ends that run backwards are no window: each is told for what it is.
        Some(least) if least.likely > joint.window.most.likely => {
            say!["it takes ", (least, Kind::Torque), " to seat the gasket, and the joint bears ", most]
        }
        Some(least) if joint.window.stop.is_some() => {
            say!["at least ", (least, Kind::Torque), " to close on the stops, at most ", most]
        }
        Some(least) => say!["at least ", (least, Kind::Torque), ", at most ", most],
        None => say!["no torque seats the gasket between the screws; at most ", most],
    }
}

/// What can strip or crack comes first, then whether a torque is right at all, then what the one used does.
fn reasons(joint: &JointAnswers) -> Vec<Sentence> {
    let mut reasons = Vec::new();
    let loose =
        joint.torque.zip(joint.window.least).map(|(torque, least)| (torque < least.likely, torque < least.high));
    match (loose, joint.excess()) {
        (_, Excess::Is) => reasons.push(say!["the torque used is more than the joint bears"]),
        (Some((_, false)) | None, Excess::May) => {
            reasons.push(say!["the torque used may be more than the joint bears"]);
        }
        (Some((_, true)), Excess::May) => {
            reasons.push(say!["the torque used may be more than the joint bears or leave the gasket loose"]);
        }
        (_, Excess::None) => {}
    }
    let fails = joint.load.as_ref().and_then(|load| load.fails);
    reasons.extend(match fails {
        Some(Fails::Screw) => Some(say!["the thread strips or the screw breaks before this torque is reached"]),
        Some(Fails::Yields) => Some(say!["the screws stretch for good before this torque is reached"]),
        Some(Fails::Gasket) => Some(say!["the gasket is crushed before this torque is reached"]),
        Some(Fails::Bottom | Fails::NotSeated) | None => None,
    });
    if let Some(past) = joint.bottoms {
        let words = if past.likely.base() > 0.0 { "the screws meet" } else { "the screws may meet" };
        reasons.push(say![words, " the bottom of their holes before the gasket is pressed"]);
    }
    reasons.push(say![window(joint)]);
    match (loose, joint.excess()) {
        (Some((true, _)), _) => reasons.push(say!["the torque used leaves the gasket loose"]),
        (Some((_, true)), Excess::None) => reasons.push(say!["the torque used may leave the gasket loose"]),
        _ => {}
    }
    if let (Some(load), true) = (&joint.load, fails.is_none() && joint.pressure_state() != State::Holds) {
        reasons.push(say![
            "it holds ",
            held(load.lasting()),
            ", against ",
            Amount::of_kind(joint.worst, Kind::CrankcasePressure),
            ", ",
            joint.worst_duty.name()
        ]);
    }
    reasons.extend(leak(joint));
    reasons
}

fn window(joint: &JointAnswers) -> &'static str {
    match (joint.window.safety, joint.window.obstacle) {
        (Safety::Safe, _) => "a torque seats the gasket and spares thread, screw and gasket at every unfavourable end",
        (Safety::Doubtful, _) => {
            "a torque seats the gasket and spares the joint at the likely figures, not at every unfavourable end"
        }
        (_, Some(Obstacle::Bow)) => {
            "the flange bows off the gasket between the screws, and more torque does not press it there"
        }
        (_, Some(Obstacle::StopTooHigh)) => "the stop is too high: the gasket is not pressed enough",
        (_, Some(Obstacle::StopTooLow)) => "the stop is too low: the gasket is crushed at the screw",
        (_, Some(Obstacle::TooFine)) => {
            "the window is too small: all that the joint bears is less than a torque key can be set to"
        }
        (_, Some(Obstacle::Load) | None) => "what seats the gasket is more than thread, screw or gasket bear",
    }
}

/// What was seen of a leak, or else what would drive one.
fn leak(joint: &JointAnswers) -> Option<Sentence> {
    let allowed = match (joint.pressure_allowed, joint.dirty_passes) {
        (false, _) => "",
        (true, false) => ", which is within its limit: a sound joint holds it",
        (true, true) => {
            ", which is within its limit unless the breather element is dirty or the baffle tight: a sound joint holds what is \
             within it"
        }
    };
    match (joint.trial_words(), &joint.leak) {
        (Some(trial), _) => Some(say!["the leak trial: ", small_first(trial)]),
        (None, Ok(leak)) if leak.cause == Cause::Ventilation => Some(say![
            "a spot that weeps would be driven by crankcase pressure (",
            Amount::of_kind(joint.worst, Kind::CrankcasePressure),
            ", ",
            joint.worst_duty.name(),
            ")",
            allowed
        ]),
        _ => None,
    }
}

/// The words of a trial behind a colon, without their full stop at the end.
fn small_first(words: &str) -> String {
    let mut letters = words.trim_end_matches('.').chars();
    letters.next().map(|first| first.to_lowercase().chain(letters).collect()).unwrap_or_default()
}

/// Whether the joint itself was seen to leak at a torque that seats the gasket: what a loose cover shows says nothing.
fn seen_to_leak(joint: &JointAnswers) -> bool {
    joint.seen_to_leak() && joint.seated() == Some(true)
}
