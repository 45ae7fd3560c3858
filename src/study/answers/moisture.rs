//! Answers about water and petrol in the crankcase.

use super::Answers;
use crate::crankcase::arrangement::defaults;
use crate::crankcase::moisture::{Condensation, MoistureFinding, SetPointAnswer, WallState};
use crate::quantity::si::{MassRate, Ratio, TemperatureInterval, ThermodynamicTemperature};
use crate::quantity::{Estimate, Measured};
use crate::study::{Duty, State};

/// Water in the crankcase, at the coldest air.
#[derive(Clone, Debug, PartialEq)]
pub struct MoistureAnswers {
    /// The air outside.
    pub air: ThermodynamicTemperature,
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
    /// Fresh air drawn in; its low end belongs to the high blow-by.
    pub fresh: Estimate<MassRate>,
    /// Blow-by.
    pub blow_by: Estimate<MassRate>,
    /// Gas, dew points and coldest wall of the cover.
    pub at: Condensation,
    /// The same gas on the wall of a hose.
    pub hose: Condensation,
}

/// What a thermostat's set-point does to water and petrol in the crankcase.
#[derive(Clone, Debug, PartialEq)]
pub struct SetPointMoisture {
    /// How far the coldest wall stands above the dew point on a short cold trip, low end; or why not told.
    pub trip_margin: Result<TemperatureInterval, String>,
    /// The warm engine, and how readily its oil gives petrol off; or why not told.
    pub warm: Result<SetPointAnswer, String>,
}

impl SetPointMoisture {
    /// How far the coldest wall of the warm engine stands above the dew point at the unfavourable end of the duties that
    /// last: idle, cruise and hill. `None` when the gas is too dry for one, or nothing is known.
    #[must_use]
    pub fn warm_margin(&self) -> Option<TemperatureInterval> {
        let warm = self.warm.as_ref().ok()?;
        let lasting = warm.duties.iter().filter(|at| LASTING.contains(&at.duty));
        let margins = lasting.filter_map(|at| above_dew_point(&at.unfavourable));
        margins.min_by(|a, b| a.base().total_cmp(&b.base()))
    }
}

/// The duties an engine runs at for long.
pub const LASTING: [Duty; 3] = [Duty::Idle, Duty::Cruise, Duty::Hill];

impl DutyMoisture {
    /// How far the coldest wall stands above the dew point at the unfavourable end; `None` when the gas is too dry for one.
    #[must_use]
    pub fn least_margin(&self) -> Option<TemperatureInterval> {
        above_dew_point(&self.at.unfavourable)
    }

    /// The oil, cold to warm.
    #[must_use]
    pub fn oil(&self) -> Estimate<ThermodynamicTemperature> {
        Estimate::sorted(self.at.unfavourable.oil, self.at.likely.oil, self.at.favourable.oil)
    }

    /// The coldest wall, cold to warm.
    #[must_use]
    pub fn wall(&self) -> Estimate<ThermodynamicTemperature> {
        Estimate::sorted(self.at.unfavourable.wall, self.at.likely.wall, self.at.favourable.wall)
    }

    /// The wall of a hose, cold to warm.
    #[must_use]
    pub fn hose_wall(&self) -> Estimate<ThermodynamicTemperature> {
        Estimate::sorted(self.hose.unfavourable.wall, self.hose.likely.wall, self.hose.favourable.wall)
    }

    /// How far the oil stands above the dew point at the unfavourable end.
    #[must_use]
    pub fn least_oil_margin(&self) -> Option<TemperatureInterval> {
        let state = &self.at.unfavourable;
        let dew_point = state.dew_point.temperature()?;
        Some(TemperatureInterval::from_base(state.oil.base() - dew_point.base()))
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

impl Answers {
    /// The most that a valve may pass, `ṁ = s ṁ_idle` with the share of the idle air that leaves the idle as it is: more
    /// spoils the idle.
    #[must_use]
    pub fn most_by_valve(&self) -> MassRate {
        let idle_air = self.duties[Duty::Idle.index()].air.base();
        MassRate::from_base(idle_air * defaults::idle_air_by_valve().likely().base())
    }
}

impl MoistureAnswers {
    /// The wetter of the two short cold trips.
    #[must_use]
    pub fn worst_trip(&self) -> Option<&DutyMoisture> {
        wettest(self.trips.iter().flatten())
    }

    /// The wettest of the duties that last, engine warm.
    #[must_use]
    pub fn worst_warm(&self) -> Option<&DutyMoisture> {
        wettest(self.warm.iter().flatten().filter(|damp| LASTING.contains(&damp.duty)))
    }
}

fn wettest<'a>(all: impl Iterator<Item = &'a DutyMoisture>) -> Option<&'a DutyMoisture> {
    let margin = |damp: &DutyMoisture| damp.least_margin().map_or(f64::INFINITY, |margin| margin.base());
    all.max_by(|a, b| a.at.finding.cmp(&b.at.finding).then(margin(b).total_cmp(&margin(a))))
}
