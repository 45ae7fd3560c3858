//! What mends the joint, in the order in which it is done, with one torque: that of the joint as it will be.

use super::{joined, seen_to_leak};
use crate::crankcase::joint::{Obstacle, Safety, Trial};
use crate::quantity::Amount;
use crate::say;
use crate::study::answers::joint::{screw_words, words};
use crate::study::{Excess, JointAnswers, JointPlan, Sentence, State};

pub(super) fn mend(joint: &JointAnswers) -> Option<Sentence> {
    if joint.state() == State::Holds {
        return None;
    }
    let harm = harmed(joint);
    let leaks = seen_to_leak(joint);
    let pressure = joint.trial == Some(Trial::Pressure) && joint.tight() && !joint.pressure_allowed;
    // What would better the joint waits until it is open.
    let waits = joint.stays();
    let mut steps = Vec::new();
    if harm {
        steps.push(slacken(joint));
    }
    if leaks {
        steps.push(look_inside(joint));
    }
    steps.extend(back_off(joint));
    match &joint.plan {
        Some(_) if waits && pressure => {}
        Some(plan) => {
            let done = planned(joint, plan, leaks, !steps.is_empty());
            steps.push(if waits { say!["when the cover is next off: ", done] } else { done });
        }
        None => steps.extend(not_planned(joint, leaks, waits && !pressure)),
    }
    if pressure {
        let first = steps.is_empty();
        let mend = if first { "mend the ventilation" } else { "mend the ventilation too" };
        steps.push(say![mend, ": the leak stopped when the pressure fell"]);
    }
    let loose = joint.trial == Some(Trial::Pressure) && !joint.tight();
    if loose || (joint.trial == Some(Trial::Joint) && !leaks) {
        steps.push(say!["then make the leak trial again: a cover that is not rightly tight leaks by itself"]);
    }
    joined(steps)
}

/// Where the torque is not known the screws may be tighter than the key is set to, and it would click at once; with the
/// screws out there is nothing to back off.
fn back_off(joint: &JointAnswers) -> Option<Sentence> {
    let plan = joint.plan.as_ref()?;
    let same = plan.changes.is_empty() && plan.screw.is_none();
    (joint.torque.is_none() && same).then(|| say!["back off every screw that is tight already"])
}

/// Whether the torque used may have done harm that a lower one on top of it does not undo.
fn harmed(joint: &JointAnswers) -> bool {
    match joint.excess() {
        Excess::Is => true,
        Excess::May => joint.torque > Some(joint.window.most.likely),
        Excess::None => false,
    }
}

/// The changes of a plan, its screws and its torque.
fn planned(joint: &JointAnswers, plan: &JointPlan, leaks: bool, later: bool) -> Sentence {
    let mut steps: Vec<Sentence> = plan.changes.iter().filter_map(words).collect();
    if let Some(screw) = plan.screw {
        let shorter = plan.changes.is_empty() && screw < joint.screw;
        let washers = if shorter { ", or washers of that thickness" } else { "" };
        steps.push(say![screw_words(screw, joint.screw), washers]);
        if joint.torque.is_some() && joint.bottom_state() == State::DoesNotHold {
            steps.push(say!["look for a boss that cracked when its screw met the bottom"]);
        }
    }
    let then = if later || !steps.is_empty() { "then " } else { "" };
    let (safe, likely) =
        ("safe at every unfavourable end", "right at the likely figures, though not at every unfavourable end");
    let safety = if plan.safety == Safety::Safe { safe } else { likely };
    let changed = !plan.changes.is_empty();
    let back = if leaks { "put it back on a new gasket; " } else { "" };
    let torque = match plan.torque {
        Some(torque) => say![back, then, "tighten to ", Amount::of(torque)],
        None if changed => say![back, "the torque used is then "],
        None if plan.safety == Safety::Safe => say![back, "the torque used is right then"],
        None => say![back, "the torque used is then ", likely],
    };
    let joint_to = if plan.torque.is_some() { ", which is " } else { "" };
    let (joint_to, safety) = if changed { (joint_to, safety) } else { ("", "") };
    steps.push(say![torque, joint_to, safety]);
    joined(steps).unwrap_or_default()
}

const DEEPER: &str = "tap the holes deeper, no deeper than they are drilled (the drill may open a water jacket): screws short \
                      enough for them would have too little thread to carry";

/// Where there is no plan: the joint is left as it is, or nothing known here is enough.
fn not_planned(joint: &JointAnswers, leaks: bool, waits: bool) -> Vec<Sentence> {
    let window = &joint.window;
    let mut steps = Vec::new();
    if joint.bottoms.is_some() {
        // Else there were a plan.
        steps.push(say![DEEPER]);
    } else if window.safety < Safety::NoWindow && !joint.inside() && !leaks {
        // The torque used is too low for the screws to meet the bottom; the right one would bring them there.
        steps.push(say!["at a torque that seats the gasket the screws may meet the bottom of their holes: ", DEEPER]);
    }
    if window.safety < Safety::NoWindow {
        if leaks {
            let right = if window.safety == Safety::Safe {
                "the torque used is right"
            } else {
                "the torque used is right at the likely figures, though not at every unfavourable end"
            };
            steps.push(say!["then put it back on a new gasket; ", right]);
        } else if waits {
            steps.push(say!["leave it at this torque: no single change known here is safe at every unfavourable end"]);
        }
        return steps;
    }
    steps.push(say![no_change(window.obstacle)]);
    steps
}

/// What to do about a torque that is, or may be, more than the joint bears: a lower one on top of it lowers nothing.
fn slacken(joint: &JointAnswers) -> Sentence {
    let stretched = joint.load.as_ref().is_some_and(|load| load.clamp.high > joint.window.yields.low);
    say![match (stretched, joint.window.stop, joint.excess()) {
        (true, ..) => "slacken every screw, renew all screws and the gasket, look at the threads in the head",
        (_, Some(_), Excess::Is) =>
            "slacken every screw, look at the screws and the threads in the head, renew the gasket",
        (_, Some(_), _) => "slacken every screw, look at the screws and the threads in the head",
        (_, None, Excess::Is) => {
            "slacken every screw, look for stretched screws, pulled threads and a crushed gasket, renew the gasket"
        }
        (_, None, _) => {
            "slacken every screw, look for stretched screws, pulled threads and a crushed gasket, renew it if it is crushed"
        }
    }]
}

/// What to look for where the joint leaks though it is tight.
fn look_inside(joint: &JointAnswers) -> Sentence {
    let look = "take the cover off: look for a bent flange, a split gasket, old sealant, a nick in the face";
    match joint.bottoms {
        Some(_) => say![look, ", screws that met the bottom of their holes"],
        None => say![look],
    }
}

/// What is left where no change known here makes a torque right.
const fn no_change(obstacle: Option<Obstacle>) -> &'static str {
    match obstacle {
        Some(Obstacle::Bow) => {
            "a stiffer flange, more screws or a softer gasket is needed; nothing that is laid on or put between is enough"
        }
        Some(Obstacle::StopTooHigh) => "a lower stop, or a thicker gasket",
        Some(Obstacle::StopTooLow) => "a higher stop, or a thinner gasket",
        Some(Obstacle::TooFine) => "a wider gasket or fewer screws: smaller torques than a key can be set to are none",
        Some(Obstacle::Load) | None => "stronger threads, more screws, or a gasket that seats at a lower load",
    }
}
