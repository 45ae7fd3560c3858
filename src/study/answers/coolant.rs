//! Answers of the coolant side.

use super::{DutyOil, SetPointMoisture};
use crate::heat::{FanState, WarmedUp};
use crate::note::Note;
use crate::quantity::si::{
    Length, Mass, MassRate, Power, Pressure, Ratio, TemperatureInterval, ThermodynamicTemperature, Velocity, Volume,
};
use crate::quantity::{Estimate, GaugePressure};

/// The liquid and the system it fills.
#[derive(Clone, Debug, PartialEq)]
pub struct CoolantAnswers {
    /// The mix in words.
    pub mix: String,
    /// Where it begins to freeze, or why that is not given.
    pub freezing: Result<ThermodynamicTemperature, String>,
    /// Freezing point to count on.
    pub freezing_to_count_on: Result<ThermodynamicTemperature, String>,
    /// Boiling point with the system open to the air.
    pub boiling_open: ThermodynamicTemperature,
    /// Boiling point behind the cap: low end of its tolerance, as stamped, high end.
    pub boiling_at_cap: Estimate<ThermodynamicTemperature>,
    /// Cap opening pressure: low end of its tolerance, as stamped, high end.
    pub cap_opening: Estimate<GaugePressure>,
    /// Volume of the system without the tank.
    pub volume: Volume,
    /// Its parts.
    pub regions: Vec<RegionAnswer>,
}

/// One part of the system's volume.
#[derive(Clone, Debug, PartialEq)]
pub struct RegionAnswer {
    /// Its name.
    pub name: String,
    /// Its volume.
    pub volume: Volume,
}

/// How much the coolant swells from fill to the hottest running state.
#[derive(Clone, Debug, PartialEq)]
pub struct Growth {
    /// The hottest engine outlet of all duty points, which the tank is sized by.
    pub hottest: ThermodynamicTemperature,
    /// Volume that goes into the tank from the fill to there, at the tank's temperature.
    pub in_tank: Estimate<Volume>,
    /// The likely value by the second published set of densities.
    pub second_set: Volume,
    /// Volume that comes back from the tank between the fill and the coldest start.
    pub drawn_cold: Volume,
    /// What the spread is made of, largest first.
    pub doubts: Vec<Doubt>,
    /// Cold mass less what is left and expelled, over the cold mass: how well the balance closed.
    pub closure: Ratio,
    /// What to know beside the numbers.
    pub notes: Vec<Note>,
}

/// One cause of the spread of an answer.
#[derive(Clone, Debug, PartialEq)]
pub struct Doubt {
    /// What is not known exactly.
    pub name: String,
    /// What it does to the answer at its one end.
    pub low_side: Volume,
    /// And at its other end.
    pub high_side: Volume,
    /// Its share of the spread, squares counted.
    pub share: Ratio,
}

/// What the tank and the system do at one state.
#[derive(Clone, Debug, PartialEq)]
pub struct Held {
    /// System pressure.
    pub gauge: GaugePressure,
    /// Whether the cap is open.
    pub cap_open: bool,
    /// Coolant expelled since the fill.
    pub expelled: Mass,
    /// Coolant in the tank.
    pub in_tank: Volume,
    /// Its level; `None` when it would stand above the lid.
    pub level: Option<Length>,
    /// Gas pressure in the tank: zero when vented well.
    pub tank_gauge: GaugePressure,
    /// Boiling point less the temperature of the hottest passage, cap at the low end of its tolerance, first warm-up.
    pub margin: Estimate<TemperatureInterval>,
    /// The same after the hottest duty, when the coolant it drove out is missing and the pressure is lower.
    pub margin_after: Option<Estimate<TemperatureInterval>>,
}

/// Where the coolant settles at one duty.
#[derive(Clone, Debug, PartialEq)]
pub enum Thermal {
    /// It settles.
    Steady {
        /// Opening of the thermostat, 0 to 1.
        opening: Ratio,
        /// Where it would settle with the thermostat fully open; `None` where the open radiator would cool without end.
        fully_open_at: Option<ThermodynamicTemperature>,
        /// Whether the thermostat is wide open, so that the radiator sets the temperature, or a fan that cycles.
        radiator_rules: bool,
        /// Coolant at the radiator's outlet.
        radiator_outlet: ThermodynamicTemperature,
        /// Heat the radiator could carry beyond what it must, thermostat just fully open.
        spare: Power,
        /// The hottest air at which the thermostat would still rule.
        holds_to: Option<ThermodynamicTemperature>,
        /// The hottest air at which it stays below boiling.
        boils_above: Option<ThermodynamicTemperature>,
        /// Where it settles after hotter running, the thermostat on its way down; `None` when it does not settle there.
        settles_cooling: Option<ThermodynamicTemperature>,
        /// What a switched fan does.
        fan: FanState,
        /// Air velocity at the radiator's face; of a fan that cycles, the mean.
        face_velocity: Velocity,
        /// Heat in less heat out over heat in: how well the balance closed.
        closure: Ratio,
    },
    /// The thermostat stays shut: the engine runs cold.
    StaysShut,
    /// The coolant boils before the radiator carries the heat.
    NoSteadyState {
        /// Heat that finds no way out at the boiling point.
        excess: Power,
        /// Whether the thermostat, not the radiator, is to blame: it opens too late.
        thermostat_too_late: bool,
        /// What a switched fan does.
        fan: FanState,
    },
}

/// The tank.
#[derive(Clone, Debug, PartialEq)]
pub struct TankAnswers {
    /// Volume to the lid.
    pub capacity: Volume,
    /// Volume wanted with the cold level as it is: what was filled in, the growth and the surge.
    pub wanted: Estimate<Volume>,
    /// Least liquid to keep in the tank: against leaks, and to cover the dip tube.
    pub reserve: Volume,
    /// Its part against leaks.
    pub leak_reserve: Volume,
    /// Allowance for surge after a hot stop.
    pub surge: Volume,
    /// Room left above the hot level and the surge; negative when it spills. By the high growth, likely, low.
    pub headroom: Estimate<Volume>,
    /// Coolant in the tank when cold, as filled.
    pub cold_volume: Volume,
    /// Cold mark above the floor, read at the fill temperature.
    pub cold_mark: Option<Length>,
    /// Hot mark.
    pub hot_mark: Option<Length>,
    /// Level not to be passed, so that the surge fits.
    pub full_mark: Option<Length>,
    /// Cold mark that keeps the dip tube covered and a reserve against leaks.
    pub least_cold_mark: Option<Length>,
    /// Lowest cold mark that keeps the dip tube covered, no reserve counted.
    pub tilt_cold_mark: Option<Length>,
    /// Dip tube cover at rest on the coldest start.
    pub cover_at_rest: Option<Length>,
    /// Dip tube cover cornering, the worse side.
    pub cover_cornering: Option<Length>,
    /// Dip tube cover braking and accelerating, the worse.
    pub cover_braking: Option<Length>,
    /// Why the cover is not known.
    pub cover_unknown: Option<String>,
    /// Suction needed to bring the coolant back.
    pub suction: Estimate<Pressure>,
    /// Whether coolant comes back on cooling.
    pub comes_back: bool,
    /// Air in the system after cooling.
    pub air_after: Volume,
    /// Coolant lost in the first cycle.
    pub lost: Volume,
    /// Coolant that leaves at the next warm-up, when it does not come back.
    pub next_expelled: Volume,
    /// Lowest gauge pressure of the system while cooling.
    pub cooling_gauge: GaugePressure,
    /// What the vent does; `None` for a pressurised header tank, which has none.
    pub vent: Option<VentAnswers>,
    /// What to know beside the numbers.
    pub notes: Vec<Note>,
}

/// The tank's vent. Pressures are `None` when the lid is sealed.
#[derive(Clone, Debug, PartialEq)]
pub struct VentAnswers {
    /// Whether the lid is sealed.
    pub sealed: bool,
    /// Gauge pressure in the tank during normal warm-up.
    pub warm_up: Option<Estimate<GaugePressure>>,
    /// When the cap lifts with liquid; within a factor of two.
    pub cap_lift: Option<Estimate<GaugePressure>>,
    /// When steam comes over.
    pub steam: Option<Estimate<GaugePressure>>,
    /// Whether what comes over would drive the tank to several times the pressure it may see.
    pub overwhelmed: bool,
    /// Gauge pressure of the same tank with its lid sealed, at the hot level; or why it cannot be given.
    pub if_sealed: Result<GaugePressure, String>,
    /// Boiling margin gained by sealing it, at the cost of that pressure on hoses and cores. No more pressure is counted
    /// than the tank may see.
    pub sealed_margin_gain: Option<TemperatureInterval>,
    /// The smaller way across the tank's top; `None` where only a dip table is known.
    pub across_top: Option<Length>,
    /// Smallest hole that keeps the tank below its allowed pressure: warm-up.
    pub least_hole_warm_up: Estimate<Length>,
    /// Cap lift with liquid.
    pub least_hole_cap_lift: Estimate<Length>,
    /// Steam.
    pub least_hole_steam: Estimate<Length>,
    /// Steam that boiling after a hard stop makes.
    pub steam_flow: Estimate<MassRate>,
    /// Allowed pressure of the tank.
    pub allowed: Estimate<Pressure>,
}

/// One thermostat setting.
#[derive(Clone, Debug, PartialEq)]
pub struct SetPointAnswers {
    /// Its temperature.
    pub set_point: ThermodynamicTemperature,
    /// Whether it is the one fitted.
    pub fitted: bool,
    /// Each duty point.
    pub duties: [SetPointDuty; 5],
    /// The hottest engine outlet of all duties, or the boiling limit if it boils.
    pub hottest: ThermodynamicTemperature,
    /// Volume that goes into the tank at its hottest duty.
    pub in_tank: Volume,
    /// Cold mark: where the filled tank is read in the cold, the same for every setting.
    pub cold_mark: Option<Length>,
    /// Hot mark at its hottest duty; `None` when it would stand above the lid.
    pub hot_mark: Option<Length>,
    /// Smallest boiling margin of all duties, low end.
    pub least_margin: TemperatureInterval,
    /// Water and petrol in the crankcase.
    pub moisture: SetPointMoisture,
    /// From the coldest start until it opens and the oil is warm; or why it cannot be reckoned.
    pub warm_up: Result<WarmedUp, String>,
}

/// One thermostat setting at one duty.
#[derive(Clone, Debug, PartialEq)]
pub struct SetPointDuty {
    /// Coolant at the engine outlet; `None` when it boils first.
    pub outlet: Option<ThermodynamicTemperature>,
    /// Opening of the thermostat.
    pub opening: Ratio,
    /// Whether the thermostat is wide open, so that the radiator sets the temperature, or a fan that cycles.
    pub radiator_rules: bool,
    /// What a switched fan does.
    pub fan: FanState,
    /// Oil and metal.
    pub oil: DutyOil,
    /// Boiling margin, low end.
    pub margin: TemperatureInterval,
    /// Road speed of the duty.
    pub road_speed: Velocity,
    /// The hottest air in which the thermostat would still rule; `None` when not even at −50 °C.
    pub holds_to: Option<ThermodynamicTemperature>,
    /// The hottest air in which it stays below boiling; `None` when not even at −50 °C.
    pub boils_above: Option<ThermodynamicTemperature>,
    /// Heat the radiator could carry beyond what it must, thermostat just fully open; negative when it rules.
    pub spare: Power,
}
