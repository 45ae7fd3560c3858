//! What is to be done to a joint, as one state in which it ends: every change, the screws' length and the torque belong
//! together and are judged together.

use crate::crankcase::joint::{Joint, JointError, Mend, Mending, Safety, Window, clamp_load, window, window_alone};
use crate::quantity::si::{Length, Torque};
use crate::quantity::{Estimate, Measured};
use crate::scribe::{Scribe, Silent};
use crate::study::{CoverJointInputs, JointChange, JointPlan};

/// Screws come in steps; a shorter one is shorter by whole ones of these, m.
const SCREW_STEP: f64 = 0.5e-3;

/// How much further a change must open the window at its unfavourable ends to be told, if it makes nothing safe.
const WORTH_WORK: f64 = 1.05;

/// A joint after changes, with screws that clear the bottom and the torque that is right then.
struct Ended {
    changes: Vec<Mend>,
    inputs: CoverJointInputs,
    window: Window,
    torque: Option<Torque>,
}

/// By how much the screws go past the bottom of their holes at a torque; without one, at the most that should be tried.
pub(super) fn past_bottom(
    joint: &Joint,
    window: &Window,
    torque: Option<Torque>,
    scribe: &mut impl Scribe,
) -> Result<Option<Estimate<Length>>, JointError> {
    let torque = torque.unwrap_or(window.most.low);
    let clamp = clamp_load(torque, &joint.nut_factor, joint.thread.diameter(), &mut Silent)?;
    joint.past_bottom(&clamp, scribe)
}

/// What is to be done; `None` where the joint is to be left as it is, or nothing that is known here would do.
pub(super) fn plan(inputs: &CoverJointInputs) -> Option<JointPlan> {
    let used = inputs.torque;
    let as_it_is = ended(inputs, Vec::new(), used);
    // Shorter screws, if they are wanted, are part of whatever else is done.
    let start = as_it_is.as_ref().map_or(inputs, |it| &it.inputs);
    let safety = as_it_is.as_ref().map_or(Safety::NoWindow, |it| it.window.safety);
    let changed = if safety == Safety::Safe { None } else { changed(start, used, safety) };
    let end = changed.or(as_it_is).filter(|end| end.window.safety < Safety::NoWindow)?;
    let torque = end.torque.filter(|torque| used != Some(*torque));
    let screw = (end.inputs.screw_length != inputs.screw_length).then_some(end.inputs.screw_length);
    (torque.is_some() || screw.is_some() || !end.changes.is_empty()).then_some(JointPlan {
        changes: end.changes,
        screw,
        torque,
        safety: end.window.safety,
    })
}

/// Every change that betters the joint by itself, with the screws that clear the bottom then; one the holes have no room
/// for is left out.
pub(super) fn single_changes(inputs: &CoverJointInputs, window: &Window) -> Vec<JointChange> {
    let worth = |mending: &&Mending| mending.safety < window.safety || opens(window, mending);
    let ends = window.mends.iter().filter(worth).filter_map(|mending| {
        let end = ended(&inputs.with(&mending.mend), vec![mending.mend], None)?;
        Some(JointChange {
            mend: mending.mend,
            screw: (end.inputs.screw_length != inputs.screw_length).then_some(end.inputs.screw_length),
            safety: end.window.safety,
            least: end.window.least,
            most: end.window.most,
        })
    });
    ends.collect()
}

/// Whether a change that leaves the joint as doubtful as it is opens the window enough to be worth the work: more thread
/// does nothing for a gasket that only its stops leave in doubt.
fn opens(now: &Window, mending: &Mending) -> bool {
    let open = |least: Option<Estimate<Torque>>, most: &Estimate<Torque>| {
        least.map_or(0.0, |least| most.low.base() / least.high.base().max(f64::MIN_POSITIVE))
    };
    let (before, after) = (open(now.least, &now.most), open(mending.least, &mending.most));
    let thread = matches!(
        mending.mend,
        Mend::WireInsert | Mend::LongerScrew(_) | Mend::InsertAndLongerScrew(_) | Mend::KnownFinish
    );
    after >= WORTH_WORK * before && !(thread && before >= 1.0)
}

/// The least change after which a torque is safe: a single one, or two where no torque is right as it is. Where there is
/// none, what at least makes a torque right at the likely figures, and one more if that makes it safe.
fn changed(start: &CoverJointInputs, used: Option<Torque>, now: Safety) -> Option<Ended> {
    let singles = after(start, &[], used);
    if now == Safety::Doubtful {
        return first(singles, Safety::Safe);
    }
    let pairs: Vec<Ended> = singles.iter().flat_map(|single| after(&single.inputs, &single.changes, used)).collect();
    let all: Vec<Ended> = singles.into_iter().chain(pairs).collect();
    let safety = all.iter().map(|end| end.window.safety).min().filter(|safety| *safety < Safety::NoWindow)?;
    let best = first(all, safety)?;
    match safety {
        Safety::Safe => Some(best),
        _ => first(after(&best.inputs, &best.changes, used), Safety::Safe).or(Some(best)),
    }
}

/// The first that is as safe as this.
fn first(ends: Vec<Ended>, safety: Safety) -> Option<Ended> {
    ends.into_iter().find(|end| end.window.safety == safety)
}

/// The joint after each change that betters it, the best first, upon those already made.
fn after(start: &CoverJointInputs, made: &[Mend], used: Option<Torque>) -> Vec<Ended> {
    let mends = start.joint(&mut Silent).and_then(|joint| window(&joint, &mut Silent)).map(|window| window.mends);
    let mends = mends.unwrap_or_default().into_iter().map(|mending| mending.mend);
    mends.filter_map(|mend| ended(&start.with(&mend), joined(made, mend), used)).collect()
}

/// A change upon others: bars or stops in place of those just put there are one change and not two.
fn joined(made: &[Mend], mend: Mend) -> Vec<Mend> {
    let mut changes = made.to_vec();
    let merged = changes.iter_mut().find_map(|before| {
        let both = match (&*before, mend) {
            (Mend::SpreaderBars { longer: first, .. }, Mend::SpreaderBars { total, longer }) => {
                Mend::SpreaderBars { total, longer: *first + longer }
            }
            (Mend::HardStops(_), Mend::LowerStops(height) | Mend::HigherStops(height)) => Mend::HardStops(height),
            (Mend::LowerStops(_) | Mend::HigherStops(_), Mend::LowerStops(_) | Mend::HigherStops(_)) => mend,
            _ => return None,
        };
        *before = both;
        Some(())
    });
    if merged.is_none() {
        changes.push(mend);
    }
    changes
}

/// Screws short enough and the torque that is right; `None` where too little thread would be left, or what is asked for
/// cannot be.
fn ended(start: &CoverJointInputs, changes: Vec<Mend>, used: Option<Torque>) -> Option<Ended> {
    let mut inputs = start.clone();
    // A shorter screw bears less, so its torque presses the gasket less: the second round ends it. The third is for the
    // rounding of the torque.
    for _ in 0..3 {
        let joint = inputs.joint(&mut Silent).ok().filter(|_| inputs.can_be_entered())?;
        let window = window_alone(&joint, &mut Silent).ok()?;
        let torque = used.filter(|used| right(&window, *used)).or(window.aim);
        let Some(past) = past_bottom(&joint, &window, torque, &mut Silent).ok()? else {
            return Some(Ended { changes, inputs, window, torque });
        };
        inputs.lengthen(-(past.high.base() / SCREW_STEP).ceil() * SCREW_STEP);
    }
    None
}

/// Whether a torque is to be kept: at every end where there is such a one, or else within the window at the likely
/// figures.
fn right(window: &Window, torque: Torque) -> bool {
    let Some(least) = &window.least else { return false };
    match window.safety {
        Safety::Safe => torque >= least.high && torque <= window.most.low,
        Safety::Doubtful => torque >= least.likely && torque <= window.most.likely,
        Safety::NoWindow => false,
    }
}
