//! What betters a joint that has no safe window of torque.

use super::stop::{STOP_LEAST, STOP_MOST};
use super::window::window_alone;
use super::{Bar, Flange, FlangeMaterial, Hole, Joint, Obstacle, Safety, Stack, Window};
use crate::quantity::si::{Length, Torque};
use crate::quantity::{Estimate, Measured};
use crate::scribe::Silent;
use std::cmp::Ordering;

/// Longest thread that is worth while, in screw diameters: beyond it the first threads carry the load all the same.
const WORTH_WHILE: f64 = 3.0;
/// How far a longer screw opens the window at its unfavourable ends, most over least: enough for a torque that can be
/// read on a key.
const OPEN: f64 = 1.1;
/// Steps of a change of the screw's length, m.
const SCREW_STEP: f64 = 0.5e-3;
/// Steps of the height of new hard stops, m.
const STOP_STEP: f64 = 0.05e-3;
/// A scatter of the factor between torque and load that knowing the finish narrows.
const WIDE_FACTOR: f64 = 1.8;
/// Compression of the gaskets that a new hard stop is made for, share of their thickness.
const STOP_COMPRESSION: [f64; 6] = [0.20, 0.25, 0.30, 0.35, 0.40, 0.45];
/// Thickness of spreader bars tried, m.
const SPREADERS: [f64; 3] = [3e-3, 5e-3, 8e-3];

/// A change to the joint.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Mend {
    /// A wire thread insert in the hole.
    WireInsert,
    /// A screw that engages over this length.
    LongerScrew(Length),
    /// A longer screw in a wire thread insert.
    InsertAndLongerScrew(Length),
    /// Steel bars under the screw heads, along the flange.
    SpreaderBars {
        /// Their thickness, with whatever bars lay there already.
        total: Length,
        /// How much longer the screws must be, so that they go in as far as before.
        longer: Length,
    },
    /// One gasket in place of several and their spacers.
    OneGasket {
        /// How much further the same screw would reach.
        gained: Length,
        /// How much shorter the screw must be for the hole; zero where the same screw will do.
        shorter: Length,
    },
    /// Hard stops of this height round the screws.
    HardStops(Length),
    /// Lower hard stops in place of those that are there.
    LowerStops(Length),
    /// Higher hard stops in place of those that are there.
    HigherStops(Length),
    /// Threads cleaned and oiled, so that the factor between torque and load is known.
    KnownFinish,
}

/// A change and what comes of it.
#[derive(Clone, Debug, PartialEq)]
pub struct Mending {
    /// The change.
    pub mend: Mend,
    /// The window with it.
    pub safety: Safety,
    /// Least torque with it.
    pub least: Option<Estimate<Torque>>,
    /// Most torque with it.
    pub most: Estimate<Torque>,
    /// The torque to aim at with it, where there is one.
    pub aim: Option<Torque>,
}

impl Mending {
    /// By how much the window is open at its unfavourable ends: most over least, above one if it is safe.
    fn openness(&self) -> f64 {
        self.least.as_ref().map_or(0.0, |least| self.most.low.base() / least.high.base().max(f64::MIN_POSITIVE))
    }
}

/// Every single change that betters this window, the best first. A change that cannot be made is left out.
pub(super) fn mends(joint: &Joint, now: &Window) -> Vec<Mending> {
    let before =
        Mending { mend: Mend::KnownFinish, safety: now.safety, least: now.least, most: now.most, aim: now.aim };
    let better = |mending: &Mending| {
        mending.safety < before.safety
            || (mending.safety == before.safety && mending.openness() > before.openness() * (1.0 + 1e-9))
    };
    let mut found: Vec<Mending> = changes(joint, now)
        .into_iter()
        .filter_map(|(mend, changed)| {
            let window = window_alone(&changed, &mut Silent).ok()?;
            // What leaves a bow or a wrong stop as it is betters nothing, however much the thread gains by it.
            let left = now.obstacle.is_some_and(|it| it != Obstacle::Load && window.obstacle == Some(it));
            let window = (!left).then_some(window)?;
            Some(Mending { mend, safety: window.safety, least: window.least, most: window.most, aim: window.aim })
        })
        .filter(better)
        .collect();
    // Among changes that make it safe the least work comes first, among others what opens it furthest.
    found.sort_by(|a, b| {
        let work = if a.safety == Safety::Safe { a.mend.work().cmp(&b.mend.work()) } else { Ordering::Equal };
        a.safety.cmp(&b.safety).then(work).then(b.openness().total_cmp(&a.openness()))
    });
    found
}

fn changes(joint: &Joint, now: &Window) -> Vec<(Mend, Joint)> {
    let insert = (joint.hole == Hole::Plain).then(|| Joint { hole: Hole::WireInsert, ..joint.clone() });
    let mut changes = Vec::new();
    if let Some(length) = longer(joint, now) {
        changes.push((Mend::LongerScrew(length), engaged_over(joint, length)));
    }
    if let Some(insert) = insert {
        if let Some(length) = window_alone(&insert, &mut Silent).ok().and_then(|window| longer(&insert, &window)) {
            changes.push((Mend::InsertAndLongerScrew(length), engaged_over(&insert, length)));
        }
        changes.push((Mend::WireInsert, insert));
    }
    changes.extend(joint.flange.as_ref().and_then(|flange| spreader(joint, flange)));
    changes.extend(one_gasket(joint));
    changes.extend(hard_stop(joint));
    let factor = &joint.nut_factor;
    if factor.high.base() > WIDE_FACTOR * factor.low.base() {
        let nut_factor = super::Finish::Oiled.nut_factor().estimate;
        changes.push((Mend::KnownFinish, Joint { nut_factor, ..joint.clone() }));
    }
    changes
}

fn engaged_over(joint: &Joint, length: Length) -> Joint {
    let mut changed = joint.clone();
    changed.engagement.length = length;
    changed
}

/// The length in the hole at which half the strip load no longer ends the window below its low end, if that is longer
/// than now and within three diameters; else three diameters, if that is longer than now.
fn longer(joint: &Joint, now: &Window) -> Option<Length> {
    let least = now.least.as_ref()?;
    let limit = joint.room().min(WORTH_WHILE * joint.thread.diameter().base());
    let lost = joint.engagement.lost(joint.thread)[2];
    let carries = joint.engagement.length.base() - lost;
    // Strip load and thread-ended torque go with the length that carries.
    let needed = least.high.base().max(joint.settable.base());
    let wanted = lost + carries * (needed / now.most.low.base()) * OPEN;
    let more = |length: f64| (length - joint.engagement.length.base()) / SCREW_STEP;
    // Up to the next step where there is room for it, or else down.
    let steps = more(wanted).ceil().min((more(limit) + 1e-6).floor());
    (steps >= 1.0).then(|| Length::from_base(joint.engagement.length.base() + steps * SCREW_STEP))
}

/// The thinnest spreader that keeps contact, or else the thickest tried. Bars that lie there already are replaced by
/// thicker ones; the screw grows by the difference, so that it goes in as far as before.
fn spreader(joint: &Joint, flange: &Flange) -> Option<(Mend, Joint)> {
    let width = flange.bars.iter().map(|bar| bar.width.base()).fold(0.0, f64::max);
    let fitted: f64 = flange.bars.iter().skip(1).map(|bar| bar.thickness.base()).sum();
    let mut tried = SPREADERS.into_iter().filter(|thickness| *thickness > fitted + 1e-6).map(|thickness| {
        let longer = Length::from_base(thickness - fitted);
        let thickness = Length::from_base(thickness);
        let mut flange = flange.clone();
        flange.bars.truncate(1);
        flange.bars.push(Bar::of(FlangeMaterial::SheetSteel, Length::from_base(width), thickness));
        let kept =
            flange.bedding(&joint.stack, &mut Silent).is_ok_and(|bedding| bedding.contact == super::Contact::Kept);
        (kept, (Mend::SpreaderBars { total: thickness, longer }, Joint { flange: Some(flange), ..joint.clone() }))
    });
    let mut last = None;
    tried
        .find_map(|(kept, change)| {
            if kept {
                Some(change)
            } else {
                last = Some(change);
                None
            }
        })
        .or(last)
}

fn one_gasket(joint: &Joint) -> Option<(Mend, Joint)> {
    if joint.stack.gaskets() < 2 || joint.stop.is_some() {
        return None;
    }
    let gasket = *joint.stack.layers.iter().find(|layer| layer.gasket.is_some())?;
    let gained = joint.stack.free_thickness().base() - gasket.thickness.base();
    let mut changed = joint.clone();
    changed.stack = Stack { layers: vec![gasket], area: joint.stack.area };
    let reaches = joint.engagement.length.base() + gained;
    let shorter = ((reaches - changed.room()).max(0.0) / SCREW_STEP).ceil() * SCREW_STEP;
    changed.engagement.length = Length::from_base(reaches - shorter);
    let mend = Mend::OneGasket { gained: Length::from_base(gained), shorter: Length::from_base(shorter) };
    Some((mend, changed))
}

/// The best stop, of those the one that compresses the gaskets least; none where a stop of that height is there.
fn hard_stop(joint: &Joint) -> Option<(Mend, Joint)> {
    let (free, gaskets) = (joint.stack.free_thickness().base(), joint.stack.gasket_thickness().base());
    let mut best: Option<(Safety, (Mend, Joint))> = None;
    for share in STOP_COMPRESSION.into_iter().filter(|share| (STOP_LEAST..=STOP_MOST).contains(share)) {
        // To a height that can be made, where that is no other stop.
        let wanted = free - share * gaskets;
        let round = (wanted / STOP_STEP).round() * STOP_STEP;
        let near = (round - wanted).abs() < 0.02 * gaskets;
        let height = Length::from_base(if near { round } else { wanted });
        let changed = Joint { stop: Some(height), ..joint.clone() };
        let Ok(window) = window_alone(&changed, &mut Silent) else { continue };
        if best.as_ref().is_none_or(|(safety, _)| window.safety < *safety) {
            let mend = match joint.stop {
                Some(stop) if height < stop => Mend::LowerStops(height),
                Some(_) => Mend::HigherStops(height),
                None => Mend::HardStops(height),
            };
            best = Some((window.safety, (mend, changed)));
        }
    }
    best.map(|(_, change)| change)
}

impl Mend {
    /// A rank of the work a change takes.
    const fn work(&self) -> u8 {
        match self {
            Self::KnownFinish => 0,
            Self::LongerScrew(_) => 1,
            Self::LowerStops(_) | Self::HigherStops(_) => 2,
            Self::HardStops(_) => 3,
            Self::OneGasket { .. } => 4,
            Self::SpreaderBars { .. } => 5,
            Self::WireInsert => 6,
            Self::InsertAndLongerScrew(_) => 7,
        }
    }

    /// What to do, as a sentence.
    #[must_use]
    pub fn words(&self) -> String {
        use crate::quantity::{Amount, Kind, UnitSystem};
        let show = |length: &Length| Amount::of_kind(*length, Kind::SmallLength).show(UnitSystem::Si);
        match self {
            Self::WireInsert => "Fit a wire thread insert.".to_owned(),
            Self::LongerScrew(length) => {
                format!("Take a screw that engages over {}.", show(length))
            }
            Self::InsertAndLongerScrew(length) => {
                format!("Fit a wire thread insert and a screw that engages over {}.", show(length))
            }
            Self::SpreaderBars { total, longer } => format!(
                "Lay steel bars, {} thick in all, along the flange under the screw heads, with screws {} longer.",
                show(total),
                show(longer)
            ),
            Self::OneGasket { shorter, .. } if shorter.base() > 0.0 => {
                format!(
                    "Use one gasket alone, if the cover then clears the rockers, with screws {} shorter.",
                    show(shorter)
                )
            }
            Self::OneGasket { gained, .. } => format!(
                "Use one gasket alone, if the cover then clears the rockers; the same screw then reaches {} further: see that \
                 it does not meet the bottom.",
                show(gained)
            ),
            Self::LowerStops(height) => {
                format!("Put lower hard stops, {} high.", show(height))
            }
            Self::HigherStops(height) => {
                format!("Put higher hard stops, {} high.", show(height))
            }
            Self::HardStops(height) => format!("Put hard stops of {} round the screws.", show(height)),
            Self::KnownFinish => {
                "Clean and oil the threads: the torque then gives a known load, and oiled threads take less of it."
                    .to_owned()
            }
        }
    }
}
