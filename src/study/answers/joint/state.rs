//! How a joint stands: by torque, by pressure, by the depth of the holes, and by what was seen of it.

use super::JointAnswers;
use crate::crankcase::joint::{Safety, Trial};
use crate::quantity::Measured;
use crate::study::State;

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

    /// Whether the torque used lies in the window at the likely figures, where it is to be left alone.
    #[must_use]
    pub fn inside(&self) -> bool {
        let window = &self.window;
        let reaches = |torque| window.least.is_some_and(|least| torque >= least.likely);
        window.safety < Safety::NoWindow
            && self.torque.is_some_and(|torque| reaches(torque) && torque <= window.most.likely)
    }

    /// Whether the joint stays as it is for now: the torque used lies in the window, nothing was seen to leak and no screw
    /// may bottom. A torque that only wants to be higher is raised.
    #[must_use]
    pub fn stays(&self) -> bool {
        let raised = self.plan.as_ref().is_some_and(|plan| plan.changes.is_empty() && plan.torque > self.torque);
        self.inside() && self.bottoms.is_none() && self.state() < State::DoesNotHold && !raised
    }

    /// Whether the torque used seats the gasket at the likely figures; `None` when none is given or none does.
    #[must_use]
    pub fn seated(&self) -> Option<bool> {
        Some(self.torque? >= self.window.least?.likely)
    }

    /// Whether the cover is known to be rightly tight: what a loose, crushed or bottomed one shows in a leak trial says
    /// nothing of a sound one.
    #[must_use]
    pub fn tight(&self) -> bool {
        let sound = self.load.as_ref().is_some_and(|load| load.fails.is_none());
        sound && self.seated() == Some(true) && self.excess() < Excess::Is && self.window.safety < Safety::NoWindow
    }

    /// Whether the joint itself was seen to leak: without pressure behind it, or at a pressure within its limits, which a
    /// sound joint holds.
    #[must_use]
    pub fn seen_to_leak(&self) -> bool {
        match self.trial {
            Some(Trial::Joint) => true,
            Some(Trial::Pressure) => self.pressure_allowed && self.tight(),
            _ => false,
        }
    }

    /// What the leak trial shows, given how the cover was tightened and what pressure it saw.
    #[must_use]
    pub fn trial_words(&self) -> Option<&'static str> {
        Some(match self.trial? {
            Trial::Pressure if !self.tight() => {
                "The leak stopped when the pressure fell, but the cover is not known to be rightly tight, and a loose one \
                 leaks at a pressure that a tight one holds: put it right and look again."
            }
            Trial::Pressure if self.pressure_allowed => {
                "The leak stopped when the pressure fell, but that pressure is within its limit, and a sound joint holds \
                 it: it is the joint."
            }
            trial => trial.words(),
        })
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

    /// Whether the torque used lies in the window; without one it is not known, unless no torque is right.
    #[must_use]
    pub fn torque_state(&self) -> State {
        let Some(torque) = self.torque else {
            let none = self.window.safety == Safety::NoWindow;
            return if none { State::DoesNotHold } else { State::NotKnown };
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
        if load.aimed {
            // Nobody has tightened it so far.
            State::Holds
        } else if load.fails.is_some() || holds.likely.base() < worst {
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
        // What was seen of a joint no computation denies.
        let seen = if self.seen_to_leak() { State::DoesNotHold } else { State::Holds };
        let states = [self.torque_state(), self.pressure_state(), self.bottom_state(), seen];
        // One fault is enough, whatever else is not known.
        let fails = states.contains(&State::DoesNotHold);
        if fails { State::DoesNotHold } else { states.into_iter().max().unwrap_or(State::NotKnown) }
    }
}
