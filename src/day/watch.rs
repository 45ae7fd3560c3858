//! What is waited for within a step: the moment a temperature passes a mark.

use super::DayError;
use super::body::Body;
use super::flow::{N, State, at};
use super::settle::Now;
use crate::numeric::Taken;
use crate::quantity::Measured;

/// How closely a moment is found, s.
const MOMENT: f64 = 1e-6;

/// Something that may come.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Mark {
    FanOn,
    FanOff,
    Opens,
    Shuts,
    Boils,
    BoilsNoMore,
    OilWarm,
    EndOfData,
}

const ALL: [Mark; 8] = [
    Mark::FanOn,
    Mark::FanOff,
    Mark::Opens,
    Mark::Shuts,
    Mark::Boils,
    Mark::BoilsNoMore,
    Mark::OilWarm,
    Mark::EndOfData,
];

/// What has come so far.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) struct Seen {
    /// The fan's switch.
    pub fan: bool,
    pub open: bool,
    pub oil_warm: bool,
    pub boils: bool,
}

impl Mark {
    /// By how much a mark is passed, once it can come at all; `hold` is where the coolant boils.
    fn passed(self, body: &Body<'_>, seen: Seen, hold: f64, oil_warm: f64, y: &State) -> Option<f64> {
        let lumps = body.lumps;
        let set = lumps.thermostat.set_point.base();
        let fan = lumps.fan_switch.map(|(on, off)| (on.base(), off.base()));
        match self {
            Self::FanOn => fan.filter(|_| !seen.fan).map(|(on, _)| y[at::ENGINE] - on),
            Self::FanOff => fan.filter(|_| seen.fan).map(|(_, off)| off - y[at::ENGINE]),
            // At the setting itself it is still shut.
            Self::Opens => (!seen.open).then_some(y[at::WAX] - set).filter(|over| *over != 0.0),
            Self::Shuts => seen.open.then_some(set - lumps.closing_lag.base() - y[at::WAX]),
            Self::Boils => (!seen.boils).then_some(y[at::ENGINE] - hold),
            Self::BoilsNoMore => seen.boils.then_some(-y[at::VAPOUR]),
            Self::OilWarm => (!seen.oil_warm).then_some(y[at::OIL] - oil_warm),
            // Neither steam nor liquid is followed beyond the data.
            Self::EndOfData => Some(y[at::ENGINE] - body.high),
        }
    }
}

/// Marks and what has come of them.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Watch {
    pub seen: Seen,
    oil_warm: f64,
}

impl Watch {
    /// At the beginning of a day: what holds already is no event.
    pub fn begin(body: &Body<'_>, now: &Now, oil_warm: f64) -> Self {
        let mut seen =
            Seen { fan: false, open: now.held.opening > 0.0, oil_warm: now.y[at::OIL] >= oil_warm, boils: false };
        seen.fan = body.lumps.fan_switch.is_some_and(|(on, _)| now.y[at::ENGINE] >= on.base());
        Self { seen, oil_warm }
    }

    /// The first mark passed within a step, and when.
    pub fn first(&self, body: &Body<'_>, hold: f64, taken: &Taken<N>) -> Result<Option<(f64, Mark)>, DayError> {
        let mut first: Option<(f64, Mark)> = None;
        for mark in ALL {
            let passed = |y: &State| mark.passed(body, self.seen, hold, self.oil_warm, y);
            // Most marks are far: no root is looked for unless one is passed.
            if !passed(&taken.after).is_some_and(|over| over >= 0.0) {
                continue;
            }
            let found = taken
                .rises_through_zero(|_, y| passed(y).unwrap_or(-1.0), MOMENT)
                .map_err(|cause| DayError::Unsolved { what: "the moment of an event", cause })?;
            // A moment at the very beginning would not move on.
            let found = found.map(|at| (at.max(taken.from + MOMENT).min(taken.to), mark));
            first = match (first, found) {
                (Some(a), Some(b)) if b.0 < a.0 => Some(b),
                (a, b) => a.or(b),
            };
        }
        Ok(first)
    }

    /// The marks passed now, taken note of; with the one at which the step was ended, whatever the settling has moved since.
    pub fn passed(&mut self, body: &Body<'_>, now: &Now, ended_at: Option<Mark>) -> Vec<Mark> {
        let mut found = Vec::new();
        for mark in ALL {
            // Whether it boils the settling has said.
            let passed = match mark {
                Mark::Boils => !self.seen.boils && now.held.boils,
                Mark::BoilsNoMore => self.seen.boils && !now.held.boils,
                mark if ended_at == Some(mark) => true,
                mark => mark.passed(body, self.seen, now.hold, self.oil_warm, &now.y).is_some_and(|over| over >= 0.0),
            };
            if !passed {
                continue;
            }
            match mark {
                Mark::FanOn => self.seen.fan = true,
                Mark::FanOff => self.seen.fan = false,
                Mark::Opens => self.seen.open = true,
                Mark::Shuts => self.seen.open = false,
                Mark::Boils => self.seen.boils = true,
                Mark::BoilsNoMore => self.seen.boils = false,
                Mark::OilWarm => self.seen.oil_warm = true,
                Mark::EndOfData => {}
            }
            found.push(mark);
        }
        found
    }
}
