//! Answers: everything computed from a project, as typed data.

mod blow_by;
mod coolant;
mod crankcase;
pub(in crate::study) mod day;
mod heat;
mod heat_curves;
pub(in crate::study) mod joint;
mod lines;
mod map;
pub(in crate::study) mod moisture;
pub(in crate::study) mod oil;
mod radiator;
mod set_points;
pub(in crate::study) mod tell;
mod valve;

pub use blow_by::{Band, BlowByAnswers, Knowledge, LeakDownFigure, LevelAnswer, Means, Narrow};
pub use coolant::{
    CoolantAnswers, Doubt, Growth, Held, RegionAnswer, SetPointAnswers, SetPointDuty, TankAnswers, Thermal, VentAnswers,
};
pub use crankcase::{CrankcaseCase, Flow, FlowPath};
pub use day::{CrankcaseSample, DayAnswers, LegAnswer};
pub use heat::{DutyOil, HeaterAnswer, OilAnswer, OilFilm};
pub use heat_curves::{
    DutyHeatCurves, HeatBorder, HeatColumn, HeatCurves, HeatDriven, HeatLevel, HeatLine, HeatMap, HeatMark, HeatPoint,
    HeatRoad, HeatRule, HeatStretch, SetPointCurve,
};
pub use joint::{Excess, Fails, JointAnswers, JointChange, JointLoad, JointPlan};
pub use lines::{CanDrainAnswer, ElementAnswer, LineAnswers, SagAnswer};
pub use map::{
    Map, MapCase, MapCaseKind, MapCell, MapComparison, MapGrid, MapLimit, MapLine, MapMark, MapState, Span, Unsolved,
    Variant,
};
pub(in crate::study) use moisture::above_dew_point;
pub use moisture::{DutyMoisture, LASTING, MoistureAnswers, SetPointMoisture};
pub use oil::{CanAnswer, DrainAnswer, OilAnswers, OilOut};
pub use radiator::RadiatorAnswers;
pub(in crate::study) use set_points::HOTTEST_ROAD_AIR;
pub use tell::{COLUMNS, Column, chapter_json, clock, taken_json, verdict_json};
pub use valve::{BenchRow, Failure, FailureAnswers, FailureDuty, IdleMixtureAnswers, Stands, ValveAnswers};

use super::{Duty, Verdict};
use crate::note::Note;
use crate::quantity::si::{
    Length, MassRate, Power, Pressure, Ratio, TemperatureInterval, ThermodynamicTemperature, Volume, VolumeRate,
};
use crate::quantity::{AbsolutePressure, Estimate, GaugePressure};
use crate::scribe::Chapter;

/// Everything computed from a project.
#[derive(Clone, Debug, PartialEq)]
pub struct Answers {
    /// Pressure of the air at the altitude.
    pub ambient: AbsolutePressure,
    /// The liquid and the system it fills.
    pub coolant: CoolantAnswers,
    /// How much it swells, and what that is made of.
    pub growth: Growth,
    /// The tank: marks, room, dip tube, return.
    pub tank: TankAnswers,
    /// The radiator by itself.
    pub radiator: RadiatorAnswers,
    /// Each duty point, in the order of [`Duty::ALL`].
    pub duties: [DutyAnswers; 5],
    /// What to measure to know the blow-by better.
    pub narrow: Narrow,
    /// The cold morning and the hot stop.
    pub cold_morning: Rest,
    /// After stopping hot.
    pub hot_stop: Rest,
    /// The PCV valve by itself; none without one.
    pub valve: Option<ValveAnswers>,
    /// The mixture at idle with the valve's gas, or why it cannot be reckoned; none without a valve, and for a diesel.
    pub idle_mixture: Option<Result<IdleMixtureAnswers, String>>,
    /// What if a part of the ventilation fails.
    pub failures: Vec<FailureAnswers>,
    /// Water in the crankcase at the coldest air.
    pub moisture: MoistureAnswers,
    /// The engine's oil by itself, and its warm-up.
    pub engine_oil: OilAnswer,
    /// The heater as a last resort.
    pub heater: HeaterAnswer,
    /// The oil's way back to the sump, and into a catch can.
    pub oil: OilAnswers,
    /// What stands in the lines, and the can's drain.
    pub lines: LineAnswers,
    /// The joint between valve cover and head, if it was measured.
    pub cover_joint: Option<JointAnswers>,
    /// Each thermostat setting, the fitted one included, cooler ones first.
    pub set_points: Vec<SetPointAnswers>,
    /// What holds and what does not.
    pub verdicts: Vec<Verdict>,
    /// What the program took where the builder did not know.
    pub taken: Vec<Taken>,
    /// Remarks, each once, weightiest first.
    pub notes: Vec<Note>,
    /// The working of every answer, when it was asked for.
    pub working: Vec<Chapter>,
}

/// One duty point.
#[derive(Clone, Debug, PartialEq)]
pub struct DutyAnswers {
    /// Which one.
    pub duty: Duty,
    /// Manifold pressure: as entered, or estimated.
    pub manifold: AbsolutePressure,
    /// Whether it was estimated.
    pub manifold_estimated: bool,
    /// Heat into the coolant.
    pub heat: Estimate<Power>,
    /// Where the coolant settles.
    pub thermal: Thermal,
    /// Coolant at the engine outlet: where it settles, or the boiling limit if it does not.
    pub outlet: ThermodynamicTemperature,
    /// Oil and metal there.
    pub oil: DutyOil,
    /// What the tank and the system do there.
    pub held: Held,
    /// Air the engine breathes.
    pub air: MassRate,
    /// Air for each mass of fuel, by mass; of an engine that burns none, what it was before.
    pub air_fuel: Ratio,
    /// Blow-by.
    pub blow_by: BlowByAnswers,
    /// The crankcase at the low, likely and high blow-by.
    pub crankcase: [CrankcaseCase; 3],
    /// The crankcase at the likely blow-by with a tight baffle and a dirty element.
    pub unfavourable: CrankcaseCase,
    /// The crankcase at its deepest: at the low or the likely blow-by on balance.
    pub deepest: CrankcaseCase,
    /// Blow-by at which the breather turns round; `None` without a valve.
    pub turns_at: Option<MassRate>,
    /// Blow-by at which the crankcase reaches its limit; `None` when no blow-by within reason does.
    pub limit_at: Option<MassRate>,
    /// The limit that applies here: fails above its likely value.
    pub limit: Estimate<GaugePressure>,
    /// Above this pressure the engine is to be stopped.
    pub stop: GaugePressure,
    /// How deep the crankcase may go: thin beyond its low end, fails beyond its likely value.
    pub depression: Estimate<Pressure>,
}

impl DutyAnswers {
    /// Whether the coolant boils before it settles: temperature, level and margin then say where boiling begins.
    #[must_use]
    pub const fn boils(&self) -> bool {
        matches!(self.thermal, Thermal::NoSteadyState { .. })
    }

    /// The smallest boiling margin of this duty: on the first warm-up, or after the hottest duty.
    #[must_use]
    pub fn least_margin(&self) -> Estimate<TemperatureInterval> {
        match self.held.margin_after {
            Some(after) if after.likely < self.held.margin.likely => after,
            _ => self.held.margin,
        }
    }

    /// The crankcase at the likely blow-by.
    #[must_use]
    pub const fn likely(&self) -> &CrankcaseCase {
        &self.crankcase[1]
    }

    /// The crankcase at the high blow-by, which hardware is judged by.
    #[must_use]
    pub const fn high(&self) -> &CrankcaseCase {
        &self.crankcase[2]
    }
}

/// A state with the engine at rest.
#[derive(Clone, Debug, PartialEq)]
pub struct Rest {
    /// Temperature of the coolant in the engine.
    pub temperature: ThermodynamicTemperature,
    /// What the tank and the system do there.
    pub held: Held,
    /// Low, likely and high of the temperature; a hot stop depends on metal whose heat is weakly known.
    pub spread: Estimate<ThermodynamicTemperature>,
    /// Whether the coolant may boil there, so that the allowance for surge is reckoned to have risen into the tank.
    pub boils: bool,
}

/// A moment the drawing can show.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Moment {
    /// The coldest start.
    ColdMorning,
    /// One of the duty points.
    Driving(Duty),
    /// After stopping hot.
    HotStop,
}

impl Moment {
    /// All of them, in the order of a day.
    pub const ALL: [Self; 7] = [
        Self::ColdMorning,
        Self::Driving(Duty::Idle),
        Self::Driving(Duty::Cruise),
        Self::Driving(Duty::Hill),
        Self::Driving(Duty::FullThrottle),
        Self::Driving(Duty::Overrun),
        Self::HotStop,
    ];

    /// Its words on screen.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::ColdMorning => "Cold morning",
            Self::Driving(duty) => duty.name(),
            Self::HotStop => "Hot stop",
        }
    }
}

impl Answers {
    /// The coolant temperature and what the tank and system do at a moment.
    #[must_use]
    pub fn held(&self, moment: Moment) -> (ThermodynamicTemperature, &Held) {
        match moment {
            Moment::ColdMorning => (self.cold_morning.temperature, &self.cold_morning.held),
            Moment::Driving(duty) => (self.duties[duty.index()].outlet, &self.duties[duty.index()].held),
            Moment::HotStop => (self.hot_stop.temperature, &self.hot_stop.held),
        }
    }

    /// Whether the coolant boils at a duty.
    #[must_use]
    pub fn boils(&self) -> bool {
        self.duties.iter().any(DutyAnswers::boils)
    }

    /// The verdict with a key.
    #[must_use]
    pub fn verdict(&self, key: &str) -> Option<&Verdict> {
        self.verdicts.iter().find(|verdict| verdict.key == key)
    }
}

/// An input the builder left open, and what the program took for it.
#[derive(Clone, Debug, PartialEq)]
pub struct Taken {
    /// Path of the input: `circuit.trapped_air`.
    pub path: String,
    /// Its words.
    pub label: &'static str,
    /// Low, likely and high, in the coherent SI unit.
    pub spread: [f64; 3],
    /// Kind.
    pub kind: crate::quantity::Kind,
}

/// The curves of the plots; a separate call, because they take longer than the answers.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Curves {
    /// Against engine temperature, from the coldest start up.
    pub growth: Vec<GrowthPoint>,
    /// Against engine speed at full throttle.
    pub blow_by: Vec<SpeedPoint>,
    /// Against manifold pressure at the cruise speed.
    pub crankcase: Vec<LoadPoint>,
    /// The valve by itself against depression; empty without one.
    pub valve: Vec<ValvePoint>,
}

/// One point of expansion, level and system pressure against engine temperature.
#[derive(Clone, Debug, PartialEq)]
pub struct GrowthPoint {
    /// Engine temperature.
    pub temperature: ThermodynamicTemperature,
    /// Volume that has gone into the tank since the fill.
    pub in_tank: Estimate<Volume>,
    /// Level in the tank; `None` when it would stand above the lid.
    pub level: Option<Length>,
    /// System pressure.
    pub gauge: GaugePressure,
}

/// One point of blow-by and capacity against engine speed at full throttle.
#[derive(Clone, Debug, PartialEq)]
pub struct SpeedPoint {
    /// Engine speed.
    pub rpm: crate::quantity::si::AngularVelocity,
    /// Blow-by.
    pub blow_by: Estimate<MassRate>,
    /// What the arrangement passes before the crankcase reaches its limit.
    pub capacity: Option<MassRate>,
}

/// One point of crankcase pressure against load.
#[derive(Clone, Debug, PartialEq)]
pub struct LoadPoint {
    /// Manifold pressure.
    pub manifold: AbsolutePressure,
    /// Crankcase pressure at low, likely and high blow-by.
    pub gauge: Estimate<GaugePressure>,
}

/// One point of what the valve passes by itself.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct ValvePoint {
    /// Depression across the valve, the ambient air at 20 °C right ahead of it.
    pub depression: Pressure,
    /// What it passes, as volume at 20 °C and 101.325 kPa.
    pub flow: VolumeRate,
}
