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
    /// The highest pressure under the cover of all duties, at the high blow-by or with a dirty element.
    pub worst: GaugePressure,
    /// The duty of that pressure.
    pub worst_duty: Duty,
    /// What would make a spot without contact leak at that pressure, or why it cannot be said.
    pub leak: Result<LeakCause, String>,
    /// What two looks at a leak showed.
    pub trial: Option<Trial>,
}

/// What a torque does to the joint.
#[derive(Clone, Debug, PartialEq)]
pub struct JointLoad {
    /// The torque.
    pub torque: Torque,
    /// Whether it is the one to aim at, because none was given.
    pub aimed: bool,
    /// Clamp load of one screw.
    pub clamp: Estimate<Force>,
    /// Clamp load of all screws of a cover.
    pub all: Estimate<Force>,
    /// Load that a screw puts on the gasket: hard stops take the rest.
    pub on_gasket: Estimate<Force>,
    /// How far the layers are pressed together, and by what stress.
    pub travel: Travel,
    /// What settling costs until the screws are tightened once more.
    pub creep: CreepLoss,
    /// The pressure the joint holds once it has been tightened again.
    pub holds: Estimate<GaugePressure>,
    /// The pressure it holds after settling, before that.
    pub holds_settled: Estimate<GaugePressure>,
}

impl JointAnswers {
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
        let torque = torque.base();
        let most = &self.window.most;
        let by_torque = if torque >= least.high.base() && torque <= most.low.base() {
            State::Holds
        } else if torque >= least.likely.base() && torque <= most.likely.base() {
            State::Thin
        } else {
            State::DoesNotHold
        };
        by_torque.max(by_stop)
    }

    /// Whether the joint holds the worst pressure under the cover.
    #[must_use]
    pub fn pressure_state(&self) -> State {
        let Some(load) = &self.load else { return State::Holds };
        let worst = self.worst.base();
        if load.holds.likely.base() < worst {
            State::DoesNotHold
        } else if load.holds.low.base() < worst {
            State::Thin
        } else {
            State::Holds
        }
    }

    /// Whether the joint is sound: by torque, by pressure, and by what was seen of it.
    #[must_use]
    pub fn state(&self) -> State {
        // A leak that goes on without pressure behind it shows what no computation denies.
        let seen = if self.trial == Some(Trial::Joint) { State::DoesNotHold } else { State::Holds };
        self.torque_state().max(self.pressure_state()).max(seen)
    }
}

/// A change to the joint as words, lengths in the reader's units.
pub(in crate::study) fn words(mend: &Mend) -> Sentence {
    let small = |length: &Length| Amount::of_kind(*length, Kind::SmallLength);
    match mend {
        Mend::WireInsert => say!["fit a wire thread insert"],
        Mend::LongerScrew(length) => {
            say!["take a screw that engages over ", small(length), ", if the hole is deep enough"]
        }
        Mend::InsertAndLongerScrew(length) => say![
            "fit a wire thread insert and a screw that engages over ",
            small(length),
            ", if the hole is deep enough"
        ],
        Mend::SpreaderBars(thickness) => {
            say!["lay steel bars of ", small(thickness), " along the flange under the screw heads"]
        }
        Mend::OneGasket(gained) => say![
            "use one gasket alone; the same screw then reaches ",
            small(gained),
            " further, see that it does not meet the bottom"
        ],
        Mend::HardStops(height) => say!["put hard stops of ", small(height), " round the screws"],
        Mend::KnownFinish => say!["clean and oil the threads, so that the torque gives a known load"],
    }
}
