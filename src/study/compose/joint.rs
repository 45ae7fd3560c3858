//! The joint between valve cover and head: torque, load, and the pressure under the cover.

use super::Fail;
use super::context::Context;
use crate::crankcase::joint::{JointError, Stack, Window, clamp_load, figures, leak_cause, pressure_held, window};
use crate::note::{Note, Weight};
use crate::quantity::si::{Force, Torque};
use crate::quantity::{Estimate, Measured, Stiffness};
use crate::scribe::{Scribe, Silent};
use crate::study::{CoverJointInputs, DutyAnswers, JointAnswers, JointLoad, Problems};

const PATH: &str = "cover_joint";

/// The answers about the joint and what is to be said of it; `None` when it was not measured.
pub(super) fn answers(
    context: &Context<'_>,
    duties: &[DutyAnswers; 5],
    scribe: &mut impl Scribe,
) -> Result<Option<(JointAnswers, Vec<Note>)>, Problems> {
    let inputs = &context.project.cover_joint;
    if !inputs.known {
        return Ok(None);
    }
    scribe.chapter("joint/window", "Valve-cover joint: window of torque");
    let joint = inputs.joint(scribe).fail(PATH)?;
    let window = window(&joint, scribe).fail(PATH)?;
    let mut notes = window.notes.clone();
    let torque = inputs.torque.map(|torque| (torque, false)).or(window.aim.map(|torque| (torque, true)));
    scribe.chapter("joint/load", "Valve-cover joint: clamp load, gasket and the pressure it holds");
    let load = torque.map(|torque| load(inputs, &joint.stack, &window, torque, scribe)).transpose().fail(PATH)?;
    if let Some(load) = &load {
        notes.extend(load.travel.notes.iter().chain(&load.creep.notes).cloned());
        notes.extend(bottoms(inputs, joint.engagement.length.base(), load));
    }
    let highest = |duty: &DutyAnswers| {
        let (high, dirty) = (duty.high().cover_gauge, duty.unfavourable.cover_gauge);
        if dirty > high { dirty } else { high }
    };
    let Some(worst) = duties.iter().max_by(|a, b| highest(a).base().total_cmp(&highest(b).base())) else {
        return Err(super::problem("duty", "there is no duty point"));
    };
    scribe.chapter("joint/leak", "Valve-cover joint: what would drive a leak");
    let threshold = figures::times_by_pressure().estimate;
    let leak = leak_cause(&inputs.spot(), highest(worst), &threshold, scribe).map_err(|error| error.to_string());
    if let Ok(leak) = &leak {
        notes.extend(leak.notes.iter().cloned());
    }
    let trial = inputs.tried().transpose().fail("cover_joint.trial.after")?;
    let answers = JointAnswers {
        reach: joint.engagement.length,
        window,
        torque: inputs.torque,
        load,
        worst: highest(worst),
        worst_duty: worst.duty,
        leak,
        trial,
    };
    Ok(Some((answers, notes)))
}

fn load(
    inputs: &CoverJointInputs,
    stack: &Stack,
    window: &Window,
    (torque, aimed): (Torque, bool),
    scribe: &mut impl Scribe,
) -> Result<JointLoad, JointError> {
    let clamp = clamp_load(torque, &inputs.finish.nut_factor().estimate, inputs.thread.thread().diameter(), scribe)?;
    // Once the cover lies on its stops the screws press metal on metal.
    let lesser = |a: Force, b: Force| if b < a { b } else { a };
    let on_gasket = window.stop.map_or(clamp, |stop| Estimate {
        low: lesser(clamp.low, stop.closes.low),
        likely: lesser(clamp.likely, stop.closes.likely),
        high: lesser(clamp.high, stop.closes.high),
    });
    let travel = stack.travel(&on_gasket, scribe)?;
    let screw: Estimate<Stiffness> = inputs.screw_stiffness(scribe)?;
    let creep = stack.creep_loss(&on_gasket, &screw, scribe)?;
    let bedding = window.bedding.as_ref();
    let holds = pressure_held(stack, &on_gasket, bedding, scribe)?;
    let holds_settled = pressure_held(stack, &creep.left, bedding, &mut Silent)?;
    let all = clamp.map(|force: Force| Force::from_base(force.base() * f64::from(inputs.screws)));
    Ok(JointLoad { torque, aimed, clamp, all, on_gasket, travel, creep, holds, holds_settled })
}

/// A screw that clears the bottom of its hole before the gasket is pressed may meet it after.
fn bottoms(inputs: &CoverJointInputs, reach: f64, load: &JointLoad) -> Option<Note> {
    // No gasket is pressed by more than it is thick.
    let travel = load.travel.travel.likely.base().min(inputs.stack().gasket_thickness().base());
    let pressed = reach + travel;
    (pressed > inputs.hole_depth.base()).then(|| {
        Note::new(
            "screw-may-bottom",
            Weight::Danger,
            "As the gasket is pressed the screws go further in, and may meet the bottom of their holes: the torque is \
             then reached with a loose cover, and the boss can crack. Use shorter screws or washers.",
        )
    })
}
