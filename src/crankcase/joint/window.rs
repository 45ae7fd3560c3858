//! The window of torque: enough to seat the gasket, not so much that thread, screw or gasket suffers.

use super::aim::aim;
use super::error::in_order;
use super::figures::{FORCE, NUT_FACTOR, half_of_strip, proof_share, run_out, settable};
use super::mend::{Mending, mends};
use super::remarks::notes;
use super::stop::{Obstacle, StopCheck, obstacle, stop_check};
use super::{Bedding, Contact, Engagement, Flange, Hole, JointError, ScrewStrength, Stack, Thread};
use super::{engagement_for_screw_to_break, strip_load};
use crate::note::Note;
use crate::quantity::si::{Area, Force, Length, Pressure, Ratio, Torque};
use crate::quantity::{Amount, Estimate, Kind, Measured};
use crate::scribe::{Scribe, Silent, Step};
use crate::source::crankcase::joint as source;

/// A cover joint, one screw of it.
#[derive(Clone, Debug, PartialEq)]
pub struct Joint {
    /// The screw's thread.
    pub thread: &'static Thread,
    /// How strong the screw is.
    pub strength: ScrewStrength,
    /// The factor between torque and clamp load; [`super::Finish::nut_factor`].
    pub nut_factor: Estimate<Ratio>,
    /// What is tapped.
    pub hole: Hole,
    /// Shear strength of what is tapped; [`super::ParentMaterial::shear_strength`].
    pub parent: Estimate<Pressure>,
    /// The thread in the hole.
    pub engagement: Engagement,
    /// Threaded depth of the hole, if it is known: no change may ask for a screw that meets the bottom.
    pub depth: Option<Length>,
    /// The layers between head and cover.
    pub stack: Stack,
    /// The flange between the screws, if it is known; without it the load counts as even.
    pub flange: Option<Flange>,
    /// Height of hard stops round the screws, if there are any: the stack is pressed to this height and no further.
    pub stop: Option<Length>,
    /// Share of the strip load that tightening may use; default [`super::figures::half_of_strip`].
    pub strip_share: Ratio,
    /// Share of the proof load that tightening may use; default [`super::figures::proof_share`].
    pub proof_share: Ratio,
    /// Pitches at the bottom of the hole that carry no screw; default [`super::figures::run_out`].
    pub run_out: Estimate<Ratio>,
    /// Least torque a key can be set to; default [`super::figures::settable`].
    pub settable: Torque,
}

impl Joint {
    /// A joint with the usual shares of strip and proof load, without flange and stops.
    #[must_use]
    pub fn new(
        thread: &'static Thread,
        strength: ScrewStrength,
        nut_factor: Estimate<Ratio>,
        parent: Estimate<Pressure>,
        engagement: Engagement,
        stack: Stack,
    ) -> Self {
        Self {
            thread,
            strength,
            nut_factor,
            hole: Hole::Plain,
            parent,
            engagement,
            depth: None,
            stack,
            flange: None,
            stop: None,
            strip_share: half_of_strip().likely(),
            proof_share: proof_share().likely(),
            run_out: run_out().estimate,
            settable: settable().likely(),
        }
    }
}

/// What ends the window at the top.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Limit {
    /// Half the load that strips the thread.
    Thread,
    /// The share of the screw's proof load that tightening may use.
    Screw,
    /// The gasket is crushed at the screw.
    Gasket,
}

/// Whether there is a torque to give.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Safety {
    /// A torque is safe at every unfavourable end together.
    Safe,
    /// A torque is there if gasket and metal are as expected, though not at every unfavourable end.
    Doubtful,
    /// No torque both seats the gasket and spares the joint.
    NoWindow,
}

/// The torques that may be used, and why.
#[derive(Clone, Debug, PartialEq)]
pub struct Window {
    /// Least torque that seats the gasket, or that closes the cover on its hard stops, with the factor between torque and load at its high end; the spread is the
    /// gasket's. `None` when the flange lifts between the screws: no torque seats the middle.
    pub least: Option<Estimate<Torque>>,
    /// Most torque, with the factor at its low end; the spread is that of metal, screw and gasket.
    pub most: Estimate<Torque>,
    /// Torque that the joint bears at the likely figures, that of the factor among them: above it, it is too much on any
    /// but a lucky screw.
    pub bears: Torque,
    /// Load at which the thread strips or the screw breaks, whichever is less.
    pub gives_way: Estimate<Force>,
    /// Load at which the screw begins to stretch for good, its proof load.
    pub yields: Estimate<Force>,
    /// Load that crushes the gasket at the screw.
    pub crushes: Estimate<Force>,
    /// What ends it at the top.
    pub limit: Limit,
    /// What stands in the way where there is no window.
    pub obstacle: Option<Obstacle>,
    /// Whether there is a window.
    pub safety: Safety,
    /// A torque in its middle that can be read on a key, where there is one.
    pub aim: Option<Torque>,
    /// What a hard stop does, if there is one.
    pub stop: Option<StopCheck>,
    /// How the load lies between the screws, if the flange is known.
    pub bedding: Option<Bedding>,
    /// Thread that must carry so that the screw breaks before the metal strips.
    pub break_first: Estimate<Length>,
    /// Whether the screw breaks first at the unfavourable end.
    pub screw_breaks_first: bool,
    /// What would better the joint, best first; empty where the window is safe.
    pub mends: Vec<Mending>,
    /// Remarks.
    pub notes: Vec<Note>,
}

/// The window of torque of a joint.
///
/// Low: seating stress times gasket area, over the share of the stress half-way between screws, times `K d` with `K` at
/// its high end. High: the least of a share of the strip load, a share of the proof load, the load at which thread or screw
/// may give way at the unfavourable end and the gasket's crush load over the share at the screw, times `K d` with `K` at
/// its low end. With hard stops the low end is the load that reaches the
/// stop, and the crush of the gasket no longer depends on the torque. Safe when the low end at the unfavourable figures
/// lies below the high end at the unfavourable figures, and a key can be set to what lies between.
///
/// # Errors
/// Any figure outside its range or not in order; a stop that is not below the free stack.
pub fn window(joint: &Joint, scribe: &mut impl Scribe) -> Result<Window, JointError> {
    let found = window_alone(joint, scribe)?;
    let mends = if found.safety == Safety::Safe { Vec::new() } else { mends(joint, &found) };
    Ok(Window { mends, ..found })
}

/// The window without what would better it.
///
/// # Errors
/// As [`window`].
pub fn window_alone(joint: &Joint, scribe: &mut impl Scribe) -> Result<Window, JointError> {
    in_order(&joint.nut_factor, &NUT_FACTOR)?;
    half_of_strip().check(joint.strip_share)?;
    proof_share().check(joint.proof_share)?;
    in_order(&joint.run_out, &run_out().range)?;
    settable().check(joint.settable)?;
    let engaged = joint.engagement.carries(joint.thread, scribe)?;
    let strip = strip_load(joint.thread, joint.hole, &joint.parent, &joint.strength, &engaged, scribe)?;
    let stress_area = joint.thread.stress_area(scribe);
    let (seating, crush) = joint.stack.limits()?;
    let bedding = joint.flange.as_ref().map(|flange| flange.bedding(&joint.stack, scribe)).transpose()?;
    let area = joint.stack.area;

    let strips = strip.least();
    let thread_load = scaled(&strips, joint.strip_share);
    let breaks = |stress: Pressure| Force::from_base(stress.base() * stress_area.base());
    let gives_way = least_of(&strips, &joint.strength.tensile.map(breaks));
    let proof = |stress: Pressure| Force::from_base(stress.base() * stress_area.base() * joint.proof_share.base());
    let screw_load = joint.strength.proof.map(proof);
    let yields = joint.strength.proof.map(breaks);
    scribe.step(|| {
        Step::new("load the screw may be given", "b R_p A_t", "b R_p A_t", &source::SCREW_STRENGTH)
            .with_amount("b", Amount::of_kind(joint.proof_share, Kind::Share))
            .with_amount("R_p", Amount::of_kind(joint.strength.proof.likely, Kind::Stress))
            .with("A_t", stress_area)
            .gives(screw_load.likely)
    });
    let peak = peak(bedding.as_ref());
    let crush_load = loads(&crush, area, &peak);

    let stop = joint.stop.map(|height| stop_check(joint, height, &seating, &crush, bedding.as_ref())).transpose()?;
    let seat_load = match &stop {
        Some(stop) => Some(stop.closes),
        None => seat_load(&seating, area, bedding.as_ref()),
    };

    let mut most_load = thread_load;
    let mut limit = Limit::Thread;
    let mut candidates = vec![(screw_load, Limit::Screw)];
    if stop.is_none() {
        candidates.push((crush_load, Limit::Gasket));
    }
    for (load, of) in candidates {
        if load.low.base() < most_load.low.base() {
            limit = of;
        }
        most_load = least_of(&most_load, &load);
    }

    // A load that may do lasting harm at the unfavourable end is not in the window at the likely figures either.
    let harms = Estimate::exact(lesser(gives_way.low, yields.low));
    most_load = least_of(&most_load, &harms);

    let diameter = joint.thread.diameter().base();
    let torque = |factor: Ratio| move |force: Force| Torque::from_base(factor.base() * diameter * force.base());
    let most = most_load.map(torque(joint.nut_factor.low));
    let bears = torque(joint.nut_factor.likely)(most_load.likely);
    let least = seat_load.as_ref().map(|load| load.map(torque(joint.nut_factor.high)));
    // Below what a key can be set to there is no torque to give.
    let greater = |torque: Torque| if torque < joint.settable { joint.settable } else { torque };
    let needed = least.as_ref().map(|least| least.map(greater));
    let by_torque = match &needed {
        None => Safety::NoWindow,
        Some(needed) => compare(needed, &most),
    };
    let by_stop = stop.map_or(Safety::Safe, |stop| stop.seats.max(stop.spares));
    let safety = by_torque.max(by_stop);
    write(joint, &seating, bedding.as_ref(), seat_load.as_ref(), least.as_ref(), scribe);
    scribe.step(|| {
        // On hard stops the torque no longer crushes the gasket.
        let equation = if stop.is_some() {
            "T_most = K_low d min(a F_strip, b R_p A_t, F_harm)"
        } else {
            "T_most = K_low d min(a F_strip, b R_p A_t, F_harm, σ_crush A/s_screw)"
        };
        let step = Step::new("most torque, the factor at its low end", "T_most", equation, &source::JOINT_FIGURES)
            .with("K_low", joint.nut_factor.low)
            .with("a F_strip", thread_load.likely)
            .with("b R_p A_t", screw_load.likely)
            .with("F_harm", harms.likely);
        let step = if stop.is_some() { step } else { step.with("σ_crush A/s_screw", crush_load.likely) };
        step.gives(most.likely)
    });
    let break_first =
        engagement_for_screw_to_break(joint.thread, joint.hole, &joint.parent, &joint.strength, &mut Silent)?;
    let screw_breaks_first = engaged.low.base() >= break_first.high.base();
    let notes = notes(joint, bedding.as_ref(), screw_breaks_first);
    let too_fine = most.likely < joint.settable;
    let obstacle = obstacle(safety, stop.as_ref(), bedding.as_ref(), too_fine);
    let aim = aim(safety, needed.as_ref(), &most);
    Ok(Window {
        least,
        most,
        bears,
        gives_way,
        yields,
        crushes: crush_load,
        limit,
        obstacle,
        safety,
        aim,
        stop,
        bedding,
        break_first,
        screw_breaks_first,
        mends: Vec::new(),
        notes,
    })
}

fn write(
    joint: &Joint,
    seating: &Estimate<Pressure>,
    bedding: Option<&Bedding>,
    load: Option<&Estimate<Force>>,
    least: Option<&Estimate<Torque>>,
    scribe: &mut impl Scribe,
) {
    let (Some(load), Some(least)) = (load, least) else { return };
    if joint.stop.is_none() {
        scribe.step(|| {
            Step::new("load that seats the gasket", "F_seat", "F_seat = σ_seat A/s_mid", &source::GASKET_FIGURES)
                .with_amount("σ_seat", Amount::of_kind(seating.likely, Kind::Stress))
                .with("A", joint.stack.area)
                .with_number("s_mid", bedding.map_or(1.0, |bedding| bedding.midspan.likely.base()))
                .gives(load.likely)
        });
    }
    scribe.step(|| {
        let (symbol, equation) = if joint.stop.is_some() {
            ("F_close", "T_least = K_high d F_close")
        } else {
            ("F_seat", "T_least = K_high d F_seat")
        };
        Step::new("least torque, the factor at its high end", "T_least", equation, &source::NUT_FACTOR)
            .with("K_high", joint.nut_factor.high)
            .with_amount("d", Amount::of_kind(joint.thread.diameter(), Kind::SmallLength))
            .with(symbol, load.likely)
            .gives(least.likely)
    });
}

/// Load that seats the gasket half-way between screws; `None` where the flange lifts at the unfavourable end.
fn seat_load(seating: &Estimate<Pressure>, area: Area, bedding: Option<&Bedding>) -> Option<Estimate<Force>> {
    let Some(bedding) = bedding else {
        return Some(seating.map(|stress: Pressure| Force::from_base(stress.base() * area.base())));
    };
    if bedding.contact == Contact::Lost {
        return None;
    }
    let load = |stress: Pressure, share: Ratio| Force::from_base(stress.base() * area.base() / share.base());
    let load = Estimate {
        low: load(seating.low, bedding.midspan.high),
        likely: load(seating.likely, bedding.midspan.likely),
        high: load(seating.high, bedding.midspan.low),
    };
    // A share next to nothing asks for a load no screw gives: the same as none.
    (load.high.base() <= FORCE.high).then_some(load)
}

/// The stress at the screw over the mean, one where the flange is not known.
pub(super) fn peak(bedding: Option<&Bedding>) -> Estimate<Ratio> {
    bedding.map_or(Estimate::exact(Ratio::from_base(1.0)), |bedding| bedding.at_screw)
}

/// `σ A/s`, low with the high share.
fn loads(stress: &Estimate<Pressure>, area: Area, share: &Estimate<Ratio>) -> Estimate<Force> {
    let load = |stress: Pressure, share: Ratio| Force::from_base(stress.base() * area.base() / share.base());
    Estimate {
        low: load(stress.low, share.high),
        likely: load(stress.likely, share.likely),
        high: load(stress.high, share.low),
    }
}

/// Whether what is needed lies below what is there: at the unfavourable ends, at the likely ones, or not.
pub(super) fn compare<Q: Measured>(needed: &Estimate<Q>, there: &Estimate<Q>) -> Safety {
    if needed.high.base() <= there.low.base() {
        Safety::Safe
    } else if needed.likely.base() <= there.likely.base() {
        Safety::Doubtful
    } else {
        Safety::NoWindow
    }
}

fn scaled(load: &Estimate<Force>, share: Ratio) -> Estimate<Force> {
    load.map(|force: Force| Force::from_base(force.base() * share.base()))
}

fn least_of(a: &Estimate<Force>, b: &Estimate<Force>) -> Estimate<Force> {
    Estimate { low: lesser(a.low, b.low), likely: lesser(a.likely, b.likely), high: lesser(a.high, b.high) }
}

fn lesser(a: Force, b: Force) -> Force {
    if b.base() < a.base() { b } else { a }
}
