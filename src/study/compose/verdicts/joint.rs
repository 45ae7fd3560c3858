//! Verdict on the joint between valve cover and head.

use crate::crankcase::joint::{Cause, Obstacle, Safety, Trial};
use crate::quantity::{Amount, Kind, Measured};
use crate::say;
use crate::study::answers::joint::held;
use crate::study::{Answers, Excess, Fails, JointAnswers, JointLoad, Part, Sentence, State, Verdict};

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
        (None, Some(aim)) if joint.state() == State::DoesNotHold => say!["aim at ", Amount::of(aim)],
        (None, Some(aim)) => say!["can hold: tighten to ", Amount::of(aim)],
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

fn reason(joint: &JointAnswers) -> Sentence {
    let window = &joint.window;
    let mut reason = match (window.safety, window.obstacle) {
        (Safety::Safe, _) => {
            say!["a torque seats the gasket and spares thread, screw and gasket at every unfavourable end"]
        }
        (Safety::Doubtful, _) => {
            say!["a torque seats the gasket and spares the joint at the likely figures, not at every unfavourable end"]
        }
        (_, Some(Obstacle::Bow)) => {
            say!["the flange bows off the gasket between the screws, and more torque does not press it there"]
        }
        (_, Some(Obstacle::StopTooHigh)) => say!["the stop is too high: the gasket is not pressed enough"],
        (_, Some(Obstacle::StopTooLow)) => say!["the stop is too low: the gasket is crushed at the screw"],
        (_, Some(Obstacle::Load) | None) => say!["what seats the gasket is more than thread, screw or gasket bear"],
    };
    if let Some(torque) = joint.torque {
        // On stops a lower torque leaves the cover above them.
        let loose = window.least.map(|least| (torque < least.likely, torque < least.high));
        let words = match (loose, joint.excess()) {
            (Some((true, _)), _) => "; the torque used leaves the gasket loose",
            (_, Excess::Is) => "; the torque used is more than the joint bears",
            (Some((_, true)), Excess::May) => {
                "; the torque used may leave the gasket loose or be more than the joint bears"
            }
            (Some((_, true)), _) => "; the torque used may leave the gasket loose",
            (_, Excess::May) => "; the torque used may be more than the joint bears",
            _ => "",
        };
        reason = say![reason, words];
    }
    if let Some(past) = joint.bottoms {
        let words = if past.likely.base() > 0.0 { "; the screws meet" } else { "; the screws may meet" };
        reason = say![reason, words, " the bottom of their holes before the gasket is pressed"];
    }
    match (&joint.load, joint.pressure_state()) {
        (Some(JointLoad { fails: None, .. }), State::Holds)
        | (Some(JointLoad { fails: Some(Fails::Bottom), .. }) | None, _) => {}
        (Some(JointLoad { fails: Some(Fails::Screw), .. }), _) => {
            reason = say![reason, "; the thread strips or the screw breaks before this torque is reached"];
        }
        (Some(JointLoad { fails: Some(Fails::Gasket), .. }), _) => {
            reason = say![reason, "; the gasket is crushed before this torque is reached"];
        }
        (Some(load), _) => {
            reason = say![
                reason,
                "; it holds ",
                held(load.lasting()),
                ", against ",
                Amount::of_kind(joint.worst, Kind::CrankcasePressure),
                ", ",
                joint.worst_duty.name()
            ];
        }
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
    // At a torque that should seat the gasket, what was seen of the leak leads.
    let seated = joint.seated().unwrap_or(joint.torque_state() == State::Holds);
    if seated && joint.trial == Some(Trial::Joint) {
        return Some(look_inside(joint));
    }
    let mut steps = Vec::new();
    let ventilation = seated && joint.trial == Some(Trial::Pressure) && joint.excess() != Excess::Is;
    if ventilation {
        steps.push(say!["mend the ventilation: the leak stopped when the pressure fell"]);
    }
    let window = &joint.window;
    // A load that may have done harm comes before any change to the joint. One below the aim is only to be raised.
    let harm = match joint.excess() {
        Excess::Is => true,
        Excess::May => steps.is_empty() && joint.torque > window.aim,
        Excess::None => false,
    };
    if harm {
        steps.push(slacken(joint));
    }
    if let Some(past) = joint.bottoms {
        let past = Amount::of_kind(past.high, Kind::SmallLength);
        steps.push(say!["fit screws shorter by ", past, " or more, or washers of that thickness"]);
    }
    if let (true, Some(aim)) = (harm, window.aim) {
        steps.push(say!["then tighten to ", Amount::of(aim)]);
    }
    if ventilation && !harm {
        return joined(steps);
    }
    // The torque before a change to the joint: it costs nothing.
    let off = joint.excess() == Excess::None
        && joint.torque.is_some_and(|torque| window.least.is_some_and(|least| torque < least.high))
        && joint.torque_state() > state_of(window.safety);
    match (window.aim, window.mends.first()) {
        (Some(aim), _) if off => steps.push(say!["tighten to ", Amount::of(aim)]),
        (_, Some(mending)) => {
            let better = if harm && window.aim.is_some() { "better: " } else { "" };
            let mut words =
                say![better, crate::study::answers::joint::words(&mending.mend), then(mending.safety, window.safety)];
            if let Some(aim) = mending.aim {
                words = say![words, ": tighten to ", Amount::of(aim)];
            }
            steps.push(words);
        }
        (Some(aim), None) if steps.is_empty() && joint.torque != Some(aim) => {
            steps.push(say!["tighten to ", Amount::of(aim)]);
        }
        (None, None) => steps.push(say![no_single_change(window.obstacle)]),
        _ => {}
    }
    joined(steps)
}

fn joined(steps: Vec<Sentence>) -> Option<Sentence> {
    steps.into_iter().reduce(|all, step| say![all, "; ", step])
}

/// What to do about a torque that is, or may be, more than the joint bears: a lower one on top of it lowers nothing.
fn slacken(joint: &JointAnswers) -> Sentence {
    let look = match (joint.window.stop, joint.excess()) {
        (Some(_), _) => "slacken every screw, look for stretched screws and pulled threads",
        (None, Excess::Is) => {
            "slacken every screw, look for stretched screws, pulled threads and a crushed gasket, renew the gasket"
        }
        (None, _) => {
            "slacken every screw, look for stretched screws, pulled threads and a crushed gasket, renew it if it is crushed"
        }
    };
    say![look]
}

/// What to look for where the joint leaks though it is tight.
fn look_inside(joint: &JointAnswers) -> Sentence {
    let look = "take the cover off: look for a bent flange, a split gasket, old sealant, a nick in the face";
    if joint.excess() == Excess::None && joint.bottoms.is_none() {
        return say![look];
    }
    let past = match joint.bottoms {
        Some(past) => {
            say![", screws that meet the bottom (", Amount::of_kind(past.high, Kind::SmallLength), " too long)"]
        }
        None => say![""],
    };
    match joint.window.aim {
        Some(aim) if joint.excess() != Excess::None => {
            say![look, past, ", stretched screws, pulled threads; put it back on a new gasket with ", Amount::of(aim)]
        }
        _ => say![look, past, ", stretched screws, pulled threads"],
    }
}

/// What is left where no single change makes a torque right.
const fn no_single_change(obstacle: Option<Obstacle>) -> &'static str {
    match obstacle {
        Some(Obstacle::Bow) => "a stiffer flange, more screws or a softer gasket: no single change here is enough",
        Some(Obstacle::StopTooHigh) => "a lower stop, or a thicker gasket",
        Some(Obstacle::StopTooLow) => "a higher stop, or a thinner gasket",
        Some(Obstacle::Load) | None => "stronger threads, or a gasket that seats at a lower load",
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
