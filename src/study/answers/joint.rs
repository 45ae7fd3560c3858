//! Answers about the joint between valve cover and head.

use crate::crankcase::joint::{CreepLoss, LeakCause, Mend, Safety, Travel, Trial, Window};
use crate::quantity::si::{Force, Length, Torque};
use crate::quantity::{Amount, Estimate, GaugePressure, Kind, Measured};
use crate::say;
use crate::study::{Duty, Sentence, State};

/// The joint between valve cover and head.
#[derive(Clone, Debug, PartialEq)]
pub struct JointAnswers {
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
    /// The highest pressure under the cover of all duties, at the high blow-by or with a dirty element.
    pub worst: GaugePressure,
    /// The duty of that pressure.
    pub worst_duty: Duty,
    /// What would make a spot without contact leak at that pressure, or why it cannot be said.
    pub leak: Result<LeakCause, String>,
    /// What two looks at a leak showed.
    pub trial: Option<Trial>,
}

/// What gives way before a torque is reached.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Fails {
    /// The thread strips or the screw breaks.
    Screw,
    /// The gasket is crushed at the screw.
    Gasket,
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
    /// What gives way first at the likely figures; load and pressure then say nothing of the real joint.
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

/// Where the torque used stands against the most.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Excess {
    /// Below it at every unfavourable end, or no torque is given.
    None,
    /// Above it at the unfavourable end: with a slippery thread or weak metal.
    May,
    /// Above it at the likely figures too.
    Is,
}

impl JointAnswers {
    /// Whether the torque used is more than the joint bears.
    #[must_use]
    pub fn excess(&self) -> Excess {
        match self.torque {
            Some(torque) if torque > self.window.bears => Excess::Is,
            Some(torque) if torque > self.window.most.low => Excess::May,
            _ => Excess::None,
        }
    }

    /// Whether the torque used seats the gasket at the likely figures; `None` when none is given or none does.
    #[must_use]
    pub fn seated(&self) -> Option<bool> {
        Some(self.torque? >= self.window.least?.likely)
    }

    /// Whether the screws clear the bottom of their holes.
    #[must_use]
    pub fn bottom_state(&self) -> State {
        match &self.bottoms {
            None => State::Holds,
            Some(past) if past.likely.base() > 0.0 => State::DoesNotHold,
            Some(_) => State::Thin,
        }
    }

    /// Whether the torque used lies in the window; without one, whether there is a window.
    #[must_use]
    pub fn torque_state(&self) -> State {
        let Some(torque) = self.torque else {
            return match self.window.safety {
                Safety::Safe => State::Holds,
                Safety::Doubtful => State::Thin,
                Safety::NoWindow => State::DoesNotHold,
            };
        };
        // A stop that starves or crushes the gasket is not mended by any torque.
        let by_stop = self.window.stop.map_or(State::Holds, |stop| match stop.seats.max(stop.spares) {
            Safety::Safe => State::Holds,
            Safety::Doubtful => State::Thin,
            Safety::NoWindow => State::DoesNotHold,
        });
        let Some(least) = &self.window.least else { return State::DoesNotHold };
        let by_torque = if torque < least.likely || self.excess() == Excess::Is {
            State::DoesNotHold
        } else if torque < least.high || self.excess() == Excess::May {
            State::Thin
        } else {
            State::Holds
        };
        by_torque.max(by_stop)
    }

    /// Whether the joint holds the worst pressure under the cover.
    #[must_use]
    pub fn pressure_state(&self) -> State {
        let Some(load) = &self.load else { return State::Holds };
        let (worst, holds) = (self.worst.base(), load.lasting());
        if load.fails.is_some() || holds.likely.base() < worst {
            State::DoesNotHold
        } else if holds.low.base() < worst {
            State::Thin
        } else {
            State::Holds
        }
    }

    /// Whether the joint is sound: by torque, by pressure, by the depth of the holes, and by what was seen of it.
    #[must_use]
    pub fn state(&self) -> State {
        // A leak that goes on without pressure behind it shows what no computation denies.
        let seen = if self.trial == Some(Trial::Joint) { State::DoesNotHold } else { State::Holds };
        self.torque_state().max(self.pressure_state()).max(self.bottom_state()).max(seen)
    }
}

/// A change to the joint as words, lengths in the reader's units.
pub(in crate::study) fn words(mend: &Mend) -> Sentence {
    let small = |length: &Length| Amount::of_kind(*length, Kind::SmallLength);
    match mend {
        Mend::WireInsert => say!["fit a wire thread insert"],
        Mend::LongerScrew(length) => {
            say!["take a screw that engages over ", small(length)]
        }
        Mend::InsertAndLongerScrew(length) => {
            say!["fit a wire thread insert and a screw that engages over ", small(length)]
        }
        Mend::SpreaderBars { total, longer } => say![
            "lay steel bars, ",
            small(total),
            " thick in all, along the flange under the screw heads, with screws ",
            small(longer),
            " longer"
        ],
        Mend::OneGasket { shorter, .. } if shorter.base() > 0.0 => {
            say!["use one gasket alone, with screws ", small(shorter), " shorter"]
        }
        Mend::OneGasket { gained, .. } => say![
            "use one gasket alone; the same screw then reaches ",
            small(gained),
            " further, see that it does not meet the bottom"
        ],
        Mend::HardStops(height) => say!["put hard stops of ", small(height), " round the screws"],
        Mend::LowerStops(height) => say!["put lower hard stops, ", small(height), " high, or take a thicker gasket"],
        Mend::HigherStops(height) => say!["put higher hard stops, ", small(height), " high, or take a thinner gasket"],
        Mend::KnownFinish => {
            say!["clean and oil the threads: the torque then gives a known load, and oiled threads take less of it"]
        }
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
