//! The window of torque: enough to seat the gasket, not so much that thread, screw or gasket suffers.

use super::error::in_order;
use super::figures::{FORCE, NUT_FACTOR, STOP, half_of_strip, proof_share};
use super::mend::{Mending, mends};
use super::{Bedding, Contact, Engagement, Flange, Hole, JointError, ScrewStrength, Stack, Thread};
use super::{engagement_for_screw_to_break, strip_load};
use crate::note::{Note, Weight};
use crate::quantity::si::{Area, Force, Length, Pressure, Ratio, Torque};
use crate::quantity::{Amount, Estimate, Kind, Measured};
use crate::scribe::{Scribe, Silent, Step};
use crate::source::crankcase::joint as source;

/// Least and most compression that a hard stop may leave the gaskets with, shares of their thickness.
pub(super) const STOP_LEAST: f64 = 0.02;
pub(super) const STOP_MOST: f64 = 0.5;

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
            stack,
            flange: None,
            stop: None,
            strip_share: half_of_strip().likely(),
            proof_share: proof_share().likely(),
        }
    }
}

/// What ends the window at the top.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Limit {
    /// Half the load that strips the thread.
    Thread,
    /// 90 % of the screw's proof load.
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

/// What a hard stop does.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct StopCheck {
    /// Load that brings the cover to the stop.
    pub closes: Estimate<Force>,
    /// Contact stress of the gasket at the stop, half-way between screws.
    pub stress: Estimate<Pressure>,
    /// Whether that seats the gasket.
    pub seats: Safety,
    /// Whether the gasket survives at the screw.
    pub spares: Safety,
}

/// The torques that may be used, and why.
#[derive(Clone, Debug, PartialEq)]
pub struct Window {
    /// Least torque that seats the gasket, with the factor between torque and load at its high end; the spread is the
    /// gasket's. `None` when the flange lifts between the screws: no torque seats the middle.
    pub least: Option<Estimate<Torque>>,
    /// Most torque, with the factor at its low end; the spread is that of metal, screw and gasket.
    pub most: Estimate<Torque>,
    /// What ends it at the top.
    pub limit: Limit,
    /// Whether there is a window.
    pub safety: Safety,
    /// A torque in its middle, where there is one.
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
/// its high end. High: the least of a share of the strip load, a share of the proof load and the gasket's crush load over
/// the share at the screw, times `K d` with `K` at its low end. With hard stops the low end is the load that reaches the
/// stop, and the crush of the gasket no longer depends on the torque. Safe when the low end at the unfavourable figures
/// lies below the high end at the unfavourable figures.
///
/// # Errors
/// Any figure outside its range or not in order; a stop that is not below the free stack.
pub fn window(joint: &Joint, scribe: &mut impl Scribe) -> Result<Window, JointError> {
    let found = evaluate(joint, scribe)?;
    let mends = if found.safety == Safety::Safe { Vec::new() } else { mends(joint, &found) };
    Ok(Window { mends, ..found })
}

/// The window without its mends.
pub(super) fn evaluate(joint: &Joint, scribe: &mut impl Scribe) -> Result<Window, JointError> {
    in_order(&joint.nut_factor, &NUT_FACTOR)?;
    half_of_strip().check(joint.strip_share)?;
    proof_share().check(joint.proof_share)?;
    let engaged = joint.engagement.carries(joint.thread, scribe)?;
    let strip = strip_load(joint.thread, joint.hole, &joint.parent, &joint.strength, &engaged, scribe)?;
    let stress_area = joint.thread.stress_area(scribe);
    let (seating, crush) = joint.stack.limits()?;
    let bedding = joint.flange.as_ref().map(|flange| flange.bedding(&joint.stack, scribe)).transpose()?;
    let area = joint.stack.area;

    let thread_load = scaled(&strip.least(), joint.strip_share);
    let proof = |stress: Pressure| Force::from_base(stress.base() * stress_area.base() * joint.proof_share.base());
    let screw_load = joint.strength.proof.map(proof);
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

    let diameter = joint.thread.diameter().base();
    let torque = |factor: Ratio| move |force: Force| Torque::from_base(factor.base() * diameter * force.base());
    let most = most_load.map(torque(joint.nut_factor.low));
    let least = seat_load.as_ref().map(|load| load.map(torque(joint.nut_factor.high)));
    let by_torque = match &least {
        None => Safety::NoWindow,
        Some(least) => compare(least, &most),
    };
    let by_stop = stop.map_or(Safety::Safe, |stop| stop.seats.max(stop.spares));
    let safety = by_torque.max(by_stop);
    write(joint, &seating, bedding.as_ref(), seat_load.as_ref(), least.as_ref(), scribe);
    scribe.step(|| {
        Step::new(
            "most torque, the factor at its low end",
            "T_most",
            "T_most = K_low d min(a F_strip, b R_p A_t, σ_crush A/s_screw)",
            &source::JOINT_FIGURES,
        )
        .with("K_low", joint.nut_factor.low)
        .with("a F_strip", thread_load.likely)
        .with("b R_p A_t", screw_load.likely)
        .with("σ_crush A/s_screw", crush_load.likely)
        .gives(most.likely)
    });
    let break_first =
        engagement_for_screw_to_break(joint.thread, joint.hole, &joint.parent, &joint.strength, &mut Silent)?;
    let screw_breaks_first = engaged.low.base() >= break_first.high.base();
    let notes = notes(joint, bedding.as_ref(), screw_breaks_first);
    let aim = aim(safety, least.as_ref(), &most);
    Ok(Window {
        least,
        most,
        limit,
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
        Step::new(
            "least torque, the factor at its high end",
            "T_least",
            "T_least = K_high d F_seat",
            &source::NUT_FACTOR,
        )
        .with("K_high", joint.nut_factor.high)
        .with_amount("d", Amount::of_kind(joint.thread.diameter(), Kind::SmallLength))
        .with("F_seat", load.likely)
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
fn peak(bedding: Option<&Bedding>) -> Estimate<Ratio> {
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

fn stop_check(
    joint: &Joint,
    height: Length,
    seating: &Estimate<Pressure>,
    crush: &Estimate<Pressure>,
    bedding: Option<&Bedding>,
) -> Result<StopCheck, JointError> {
    let height = STOP.check(height)?;
    let free = joint.stack.free_thickness();
    let travel = free.base() - height.base();
    let share = travel / joint.stack.gasket_thickness().base();
    if !(STOP_LEAST..=STOP_MOST).contains(&share) {
        return Err(JointError::StopHeight { stop: height, free, least: STOP_LEAST, most: STOP_MOST });
    }
    let stiffness = joint.stack.stiffness(&mut Silent)?;
    let closes = stiffness.map(|k: crate::quantity::Stiffness| Force::from_base(k.base() * travel));
    let area = joint.stack.area.base();
    let at = |force: Force, share: f64| Pressure::from_base(force.base() / area * share);
    let middle = |of: fn(&Bedding) -> Ratio| bedding.map_or(1.0, |bedding| of(bedding).base().max(0.0));
    let stress = Estimate {
        low: at(closes.low, middle(|b| b.midspan.low)),
        likely: at(closes.likely, middle(|b| b.midspan.likely)),
        high: at(closes.high, middle(|b| b.midspan.high)),
    };
    let peak = peak(bedding);
    let worst = Estimate {
        low: at(closes.low, peak.low.base()),
        likely: at(closes.likely, peak.likely.base()),
        high: at(closes.high, peak.high.base()),
    };
    Ok(StopCheck { closes, stress, seats: compare(seating, &stress), spares: compare(&worst, crush) })
}

/// Whether what is needed lies below what is there: at the unfavourable ends, at the likely ones, or not.
fn compare<Q: Measured>(needed: &Estimate<Q>, there: &Estimate<Q>) -> Safety {
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
    let least = |a: Force, b: Force| if b.base() < a.base() { b } else { a };
    Estimate { low: least(a.low, b.low), likely: least(a.likely, b.likely), high: least(a.high, b.high) }
}

/// The geometric middle: of the safe window, or else from the likely low end up to the unfavourable high end where that
/// leaves room (a seeping gasket can be tightened again, a stripped thread cannot), or up to the likely one.
fn aim(safety: Safety, least: Option<&Estimate<Torque>>, most: &Estimate<Torque>) -> Option<Torque> {
    let least = least?;
    let (from, to) = match safety {
        Safety::Safe => (least.high, most.low),
        Safety::Doubtful if least.likely.base() <= most.low.base() => (least.likely, most.low),
        Safety::Doubtful if least.likely.base() <= most.likely.base() => (least.likely, most.likely),
        _ => return None,
    };
    Some(Torque::from_base((from.base() * to.base()).sqrt()))
}

fn notes(joint: &Joint, bedding: Option<&Bedding>, screw_breaks_first: bool) -> Vec<Note> {
    let mut notes = bedding.map_or_else(Vec::new, |bedding| bedding.notes.clone());
    if !screw_breaks_first {
        let text = "Over-tightened, this thread may strip before the screw breaks: the tapped metal fails first. Stop when \
                    the screw turns without getting tighter.";
        notes.push(Note::new("thread-strips-first", Weight::Weak, text));
    }
    if joint.stack.gaskets() > 1 {
        let text = format!(
            "{} gaskets make {} faces that can leak, travel further for the same load and feel soft under the key, which \
             invites over-tightening; the load lost by settling is the same.",
            joint.stack.gaskets(),
            joint.stack.leak_faces()
        );
        notes.push(Note::new("gaskets-stacked", Weight::Remark, text));
    }
    notes.push(Note::new(
        "tighten-cold",
        Weight::Danger,
        "Tighten with the engine cold and standing, in small steps from the middle outwards. Oil from a loose cover on a \
         hot exhaust burns.",
    ));
    notes
}
