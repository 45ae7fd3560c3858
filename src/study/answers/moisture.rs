//! Answers about water in the crankcase, and about the oil's way back and out.

use crate::crankcase::moisture::{Condensation, MoistureFinding, WallState};
use crate::crankcase::oil::{CarryOver, Collected, DrainBack};
use crate::quantity::si::{Ratio, TemperatureInterval, ThermodynamicTemperature};
use crate::quantity::{Estimate, Measured};
use crate::study::{Duty, State};

/// Water in the crankcase, at the coldest air.
#[derive(Clone, Debug, PartialEq)]
pub struct MoistureAnswers {
    /// The air outside.
    pub air: ThermodynamicTemperature,
    /// Oil on a short cold trip.
    pub trip_oil: ThermodynamicTemperature,
    /// The warm engine, in the order of [`Duty::ALL`]; or why it cannot be said.
    pub warm: [Result<DutyMoisture, String>; 5],
    /// Short cold trips, at idle and at cruise.
    pub trips: [Result<DutyMoisture, String>; 2],
}

/// Water in the crankcase at one duty.
#[derive(Clone, Debug, PartialEq)]
pub struct DutyMoisture {
    /// Which one.
    pub duty: Duty,
    /// Fresh air over blow-by.
    pub dilution: Estimate<Ratio>,
    /// Gas, dew point and coldest wall.
    pub at: Condensation,
}

impl DutyMoisture {
    /// How far the coldest wall stands above the dew point at the unfavourable end; `None` when the gas is too dry for one.
    #[must_use]
    pub fn least_margin(&self) -> Option<TemperatureInterval> {
        above_dew_point(&self.at.unfavourable)
    }

    /// Whether the coldest wall stays dry.
    #[must_use]
    pub const fn state(&self) -> State {
        match self.at.finding {
            MoistureFinding::Dry => State::Holds,
            MoistureFinding::ProbablyDry => State::Thin,
            MoistureFinding::Wet | MoistureFinding::WetWhatever => State::DoesNotHold,
        }
    }
}

/// How far a wall stands above the dew point of its gas.
#[must_use]
pub fn above_dew_point(state: &WallState) -> Option<TemperatureInterval> {
    let dew_point = state.dew_point.temperature()?;
    Some(TemperatureInterval::from_base(state.wall.base() - dew_point.base()))
}

impl MoistureAnswers {
    /// The wetter of the two short cold trips.
    #[must_use]
    pub fn worst_trip(&self) -> Option<&DutyMoisture> {
        let margin = |trip: &DutyMoisture| trip.least_margin().map_or(f64::INFINITY, |margin| margin.base());
        let told = self.trips.iter().filter_map(|trip| trip.as_ref().ok());
        told.max_by(|a, b| a.at.finding.cmp(&b.at.finding).then(margin(b).total_cmp(&margin(a))))
    }
}

/// The oil's way: back to the sump, and out with the gas.
#[derive(Clone, Debug, PartialEq)]
pub struct OilAnswers {
    /// The drain from the cover, in the order of [`Duty::ALL`]; or why it cannot be said.
    pub drains: [Result<DrainAnswer, String>; 5],
    /// What a catch can of known volume collects: at cruise, and at the duty that sends most gas through it.
    pub can: Vec<CanAnswer>,
}

/// The drain from the cover at one duty, at the high blow-by.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct DrainAnswer {
    /// Which duty.
    pub duty: Duty,
    /// With the likely height of the drain.
    pub likely: DrainBack,
    /// With its least height.
    pub least: DrainBack,
}

impl DrainAnswer {
    /// Whether the oil returns.
    #[must_use]
    pub fn state(&self) -> State {
        match (self.likely.returns(), self.least.returns()) {
            (true, true) => State::Holds,
            (true, false) => State::Thin,
            (false, _) => State::DoesNotHold,
        }
    }
}

impl OilAnswers {
    /// The drain with the least head left.
    #[must_use]
    pub fn worst_drain(&self) -> Option<&DrainAnswer> {
        let told = self.drains.iter().filter_map(|drain| drain.as_ref().ok());
        told.min_by(|a, b| a.least.margin.base().total_cmp(&b.least.margin.base()))
    }
}

/// What a can collects while the car is driven at one duty.
#[derive(Clone, Debug, PartialEq)]
pub struct CanAnswer {
    /// Which duty.
    pub duty: Duty,
    /// Oil that reaches the can, and what collects; or why nothing can be said.
    pub filled: Result<(CarryOver, Collected), String>,
}
