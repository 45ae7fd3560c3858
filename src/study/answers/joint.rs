//! Answers about the joint between valve cover and head.

mod state;

use crate::crankcase::joint::{CreepLoss, LeakCause, Mend, Safety, Travel, Trial, Window};
use crate::quantity::si::{Force, Length, Torque};
use crate::quantity::{Amount, Estimate, GaugePressure, Kind, Measured};
use crate::say;
use crate::study::{Duty, Sentence};

pub use state::Excess;

/// The joint between valve cover and head.
#[derive(Clone, Debug, PartialEq)]
pub struct JointAnswers {
    /// Length of the screws under the head.
    pub screw: Length,
    /// Thread in the hole, gaskets not pressed.
    pub reach: Length,
    /// The torques that may be used, and why.
    pub window: Window,
    /// The torque the builder uses.
    pub torque: Option<Torque>,
    /// What that torque does, or the one to aim at; `None` when there is neither.
    pub load: Option<JointLoad>,
    /// By how much the screws go past the bottom of their holes once the gasket is pressed; `None` where they clear it.
    pub bottoms: Option<Estimate<Length>>,
    /// What is to be done, as one state in which it ends; `None` where the joint is to be left as it is, or where no change
    /// known here is enough.
    pub plan: Option<JointPlan>,
    /// Every single change that betters the joint, as far as the holes have room for it.
    pub changes: Vec<JointChange>,
    /// The highest pressure under the cover of all duties, at the high blow-by or with a dirty element.
    pub worst: GaugePressure,
    /// The duty of that pressure.
    pub worst_duty: Duty,
    /// What would make a spot without contact leak at that pressure, or why it cannot be said.
    pub leak: Result<LeakCause, String>,
    /// What two looks at a leak showed.
    pub trial: Option<Trial>,
    /// Whether the pressures that would drive a leak, those of every duty and that of the first look if there was one, stay
    /// within their limits: a leak is then no fault of the ventilation.
    pub pressure_allowed: bool,
    /// Whether such a pressure passes its limit with a dirty element and a tight baffle, though it stays within it at the
    /// high blow-by.
    pub dirty_passes: bool,
}

/// What is to be done to a joint: made together, with this torque, it is as promised.
#[derive(Clone, Debug, PartialEq)]
pub struct JointPlan {
    /// Changes, in their order.
    pub changes: Vec<Mend>,
    /// Length of the screws under the head, where it is another than now.
    pub screw: Option<Length>,
    /// The torque, where it is another than the one used.
    pub torque: Option<Torque>,
    /// Whether a torque is safe then.
    pub safety: Safety,
}

/// A single change to a joint and what comes of it.
#[derive(Clone, Debug, PartialEq)]
pub struct JointChange {
    /// The change.
    pub mend: Mend,
    /// Length of the screws under the head, where it is another than now.
    pub screw: Option<Length>,
    /// Whether a torque is safe then.
    pub safety: Safety,
    /// Least torque then.
    pub least: Option<Estimate<Torque>>,
    /// Most torque then.
    pub most: Estimate<Torque>,
}

/// Why load or pressure say nothing of the real joint at a torque.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Fails {
    /// The thread strips or the screw breaks.
    Screw,
    /// The screw is stretched for good.
    Yields,
    /// The gasket is crushed at the screw.
    Gasket,
    /// The gasket is not seated: what it holds is not known.
    NotSeated,
    /// The screw meets the bottom of its hole: the torque is reached there and not on the gasket.
    Bottom,
}

/// What a torque does to the joint.
#[derive(Clone, Debug, PartialEq)]
pub struct JointLoad {
    /// The torque.
    pub torque: Torque,
    /// Whether it is the one to aim at, because none was given.
    pub aimed: bool,
    /// What gives way first at the likely figures, or that the gasket is not seated; load and pressure, or the pressure
    /// alone, then say nothing of the real joint.
    pub fails: Option<Fails>,
    /// Clamp load of one screw.
    pub clamp: Estimate<Force>,
    /// Clamp load of all screws of a cover.
    pub all: Estimate<Force>,
    /// Load that a screw puts on the gasket: hard stops take the rest.
    pub on_gasket: Estimate<Force>,
    /// Whether there are hard stops: tightening again then puts no load back on the gasket.
    pub on_stops: bool,
    /// How far the layers are pressed together, and by what stress.
    pub travel: Travel,
    /// What settling costs until the screws are tightened once more.
    pub creep: CreepLoss,
    /// The pressure the joint holds once it has been tightened again.
    pub holds: Estimate<GaugePressure>,
    /// The pressure it holds after settling, before that.
    pub holds_settled: Estimate<GaugePressure>,
}

impl JointLoad {
    /// The pressure the joint holds in use: tightened again once the gasket has settled, which on hard stops mends nothing.
    #[must_use]
    pub const fn lasting(&self) -> &Estimate<GaugePressure> {
        if self.on_stops { &self.holds_settled } else { &self.holds }
    }
}

/// A change to the joint as words, in the reader's units; `None` where it is one of the screws alone, which are told by
/// [`screw_words`] for all changes together.
pub(in crate::study) fn words(mend: &Mend) -> Option<Sentence> {
    let small = |length: &Length| Amount::of_kind(*length, Kind::SmallLength);
    Some(match mend {
        Mend::LongerScrew(_) => return None,
        Mend::WireInsert | Mend::InsertAndLongerScrew(_) => say!["fit wire thread inserts"],
        Mend::SpreaderBars { total, .. } => {
            say!["lay steel bars, ", small(total), " thick in all, along the flange under the screw heads"]
        }
        // A second gasket or a spacer often lifts the cover off taller rockers.
        Mend::OneGasket { .. } => say!["use one gasket alone, if the cover then clears the rockers"],
        Mend::HardStops(height) => say!["put hard stops of ", small(height), " round the screws"],
        Mend::LowerStops(height) => say!["put lower hard stops, ", small(height), " high"],
        Mend::HigherStops(height) => say!["put higher hard stops, ", small(height), " high"],
        // What stands in a blind hole cannot get out under the screw.
        Mend::KnownFinish => {
            say!["clean the holes dry (oil left in a blind hole can crack it), clean and oil the threads"]
        }
    })
}

/// Screws of another length as words.
pub(in crate::study) fn screw_words(screw: Length, now: Length) -> Sentence {
    let small = |length| Amount::of_kind(length, Kind::SmallLength);
    let by = screw - now;
    if by.base() > 0.0 {
        say!["take screws ", small(by), " longer, ", small(screw), " under the head"]
    } else {
        say!["take screws ", small(-by), " shorter, ", small(screw), " under the head"]
    }
}

/// Crankcase pressures stay far below this; beyond it a figure of what a joint holds says no more than that.
const FAR_ABOVE: f64 = 100e3;

/// The pressure a joint holds, in words where it is far above any that a crankcase has.
pub(in crate::study) fn held(holds: &Estimate<GaugePressure>) -> Sentence {
    let far = "far above any crankcase pressure";
    let low = (Amount::of(holds.low), " at the unfavourable end");
    if holds.likely.base() <= 0.0 {
        say!["no pressure"]
    } else if holds.low.base() > FAR_ABOVE {
        say![far]
    } else if holds.likely.base() > FAR_ABOVE {
        say![low.0, low.1, ", ", far, " at the likely figures"]
    } else {
        say![Amount::of(holds.likely), " at the likely figures, ", low.0, low.1]
    }
}
