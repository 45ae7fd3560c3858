//! The joint between valve cover and head: torque, load, and the pressure under the cover.

mod plan;

use super::Fail;
use super::context::Context;
use crate::crankcase::joint::{
    Finish, JointError, Limit, Safety, Stack, Window, clamp_load, figures, leak_cause, pressure_held, window,
};
use crate::note::{Note, Weight};
use crate::quantity::si::{Force, Torque};
use crate::quantity::{Estimate, Measured, Stiffness};
use crate::scribe::{Scribe, Silent};
use crate::study::{CoverJointInputs, DutyAnswers, Fails, JointAnswers, JointLoad, Problems, State};

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
    let mut load = torque.map(|torque| load(inputs, &joint.stack, &window, torque, scribe)).transpose().fail(PATH)?;
    let bottoms = plan::past_bottom(&joint, &window, torque.map(|(torque, _)| torque), scribe).fail(PATH)?;
    if let Some(past) = &bottoms {
        notes.push(bottoms_note());
        let unharmed = |load: &&mut JointLoad| matches!(load.fails, None | Some(Fails::NotSeated));
        if let Some(load) = load.as_mut().filter(|load| unharmed(load) && past.likely.base() > 0.0) {
            load.fails = Some(Fails::Bottom);
        }
    }
    let plan = plan::plan(inputs);
    let changes = plan::single_changes(inputs, &window);
    notes.extend(load.as_ref().and_then(|load| gives_way(load, &window)));
    if window.limit == Limit::Gasket && window.stop.is_none() {
        notes.push(closer_note());
    }
    if inputs.finish == Finish::Oiled {
        notes.push(oil_in_hole_note());
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
    // At which duty somebody looked is not known: what was measured must be within the limit of every one.
    let looked = trial.is_none() || duties.iter().all(|duty| inputs.trial_before <= duty.limit.likely);
    let answers = JointAnswers {
        screw: inputs.screw_length,
        reach: joint.engagement.length,
        window,
        torque: inputs.torque,
        load,
        bottoms,
        plan,
        changes,
        worst: highest(worst),
        worst_duty: worst.duty,
        leak,
        trial,
        // Little left is within its limit all the same.
        pressure_allowed: looked && duties.iter().all(|duty| duty.pressure_state() < State::DoesNotHold),
        dirty_passes: duties
            .iter()
            .any(|duty| duty.pressure_state() < State::DoesNotHold && duty.unfavourable.gauge > duty.limit.likely),
    };
    notes.extend(pressed(&answers));
    Ok(Some((answers, notes)))
}

/// What a load does to the gasket, where it is the load that is really there; tightening once more is told only where the
/// torque is to stay.
fn pressed(joint: &JointAnswers) -> Vec<Note> {
    let real = joint.bottoms.is_none();
    let Some(load) = joint.load.as_ref().filter(|load| real && matches!(load.fails, None | Some(Fails::NotSeated)))
    else {
        return Vec::new();
    };
    let stays = load.aimed || joint.stays();
    let settles = load.creep.notes.iter().filter(|note| note.key != "retorque" || stays);
    load.travel.notes.iter().chain(settles).cloned().collect()
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
    let on_stops = window.stop.is_some();
    let creep = if on_stops { creep.on_stops() } else { creep };
    let bedding = window.bedding.as_ref();
    let holds = pressure_held(stack, &on_gasket, bedding, scribe)?;
    let holds_settled = pressure_held(stack, &creep.left, bedding, &mut Silent)?;
    let all = clamp.map(|force: Force| Force::from_base(force.base() * f64::from(inputs.screws)));
    let fails = if clamp.likely > window.gives_way.likely {
        Some(Fails::Screw)
    } else if clamp.likely > window.yields.likely {
        Some(Fails::Yields)
    } else if !on_stops && on_gasket.likely > window.crushes.likely {
        Some(Fails::Gasket)
    } else if window.least.is_none_or(|least| torque < least.likely)
        || window.stop.is_some_and(|stop| stop.seats == Safety::NoWindow)
    {
        Some(Fails::NotSeated)
    } else {
        None
    };
    Ok(JointLoad { torque, aimed, fails, clamp, all, on_gasket, on_stops, travel, creep, holds, holds_settled })
}

/// A load that may stretch the screw for good, strip the thread or break the screw.
fn gives_way(load: &JointLoad, window: &Window) -> Option<Note> {
    let text = if load.clamp.high > window.yields.low {
        "This torque may stretch the screws for good, strip the thread or break a screw. The cover is then loose though the \
         screws feel tight, and oil on a hot exhaust burns. Slacken every screw, renew all screws and look at the threads in \
         the head before the engine runs."
    } else if load.clamp.high > window.gives_way.low {
        "This torque may strip the thread. The cover is then loose though the screws feel tight, and oil on a hot exhaust \
         burns. Slacken every screw and look at the threads in the head before the engine runs."
    } else {
        return None;
    };
    Some(Note::new("screw-gives-way", Weight::Danger, text))
}

/// The seat is judged where the screws lie furthest apart; the gasket is crushed where they lie closest.
fn closer_note() -> Note {
    Note::new(
        "screws-lie-closer",
        Weight::Weak,
        "The most torque is that of the largest distance between screws. Where they lie much closer the same torque presses \
         the gasket harder, by as many times as they are closer: look there for a gasket that is squeezed out.",
    )
}

fn oil_in_hole_note() -> Note {
    Note::new(
        "oil-in-blind-hole",
        Weight::Weak,
        "Oil the thread of the screw with a thin film and leave the hole dry: oil or coolant that stands in a blind hole \
         cannot get out under the screw, holds up the torque and can crack the boss.",
    )
}

fn bottoms_note() -> Note {
    Note::new(
        "screw-may-bottom",
        Weight::Danger,
        "As the gasket is pressed the screws go further in, and may meet the bottom of their holes: the torque is then \
         reached with a loose cover, and the boss can crack.",
    )
}
