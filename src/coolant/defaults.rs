//! The figures the coolant part assumes until a person knows better: each with its spread, its range and its source.

use super::arrangement::{cushion, suction::LOSS};
use super::balance::{EXPANSION, GAS, SWELL};
use super::boiling::{ALLOWANCE, EXCESS, SUCTION};
use super::cap::{TOLERANCE, VACUUM};
use super::growth::{HOT_DOUBT, SHARE_DOUBT};
use super::headroom::{self, MARGIN, RESERVE};
use super::tilt::PUSH;
use super::vent::load::{HEAT, WARM_UP};
use super::vent::opening::COEFFICIENT;
use super::volume;
use crate::quantity::si::{
    Acceleration, DynamicViscosity, Length, Power, Pressure, Ratio, TemperatureCoefficient, TemperatureInterval,
    ThermodynamicTemperature, Time, Volume,
};
use crate::quantity::{GRAVITY, Kind, Range, Swell, ZERO_CELSIUS};
use crate::source::{assumed, coolant as from};

const BELOW: Range = Range::new(
    "a part below the engine's outlet",
    Kind::TemperatureDifference,
    0.0,
    60.0,
    "5 to 15 K in the radiator, less elsewhere",
);
const TANK: Range = Range::new(
    "temperature of the coolant in the tank",
    Kind::Temperature,
    233.15,
    403.15,
    "between the air's and the engine's, such as 50 °C",
);
const PULL: Range =
    Range::new("suction in the coolant hoses", Kind::PressureDifference, 0.0, 100e3, "soft hoses draw in near 10 kPa");
const COVER: Range =
    Range::new("coolant above the tube's end", Kind::Length, 0.0, 0.5, "5 mm keeps air out of the tube");
const FACTOR: Range =
    Range::new("factor of a two-phase estimate", Kind::Number, 0.1, 10.0, "within a factor of 2 either way");
const CAN: Range = Range::new(
    "gauge pressure the tank may see",
    Kind::PressureDifference,
    10.0,
    500e3,
    "2 kPa for a thin can, 10 kPa for a fabricated one",
);
const STEAM: Range = Range::new("viscosity of steam", Kind::Viscosity, 5e-6, 5e-5, "about 0.012 mPa·s near 100 °C");

assumed! {
    /// Linear expansion of grey iron, 1/K.
    grey_iron_expansion: TemperatureCoefficient = [10e-6, 10.8e-6, 12e-6], EXPANSION, from::METAL_EXPANSION;
    /// Linear expansion of cast aluminium, 1/K.
    cast_aluminium_expansion: TemperatureCoefficient = [21e-6, 22e-6, 24e-6], EXPANSION, from::METAL_EXPANSION;
    /// Linear expansion of copper, 1/K.
    copper_expansion: TemperatureCoefficient = [16.5e-6, 17e-6, 17.5e-6], EXPANSION, from::METAL_EXPANSION;
    /// Linear expansion of brass, 1/K.
    brass_expansion: TemperatureCoefficient = [18.5e-6, 19.5e-6, 20.5e-6], EXPANSION, from::METAL_EXPANSION;
    /// Share by which hose volume grows per gauge pressure, 1/Pa.
    hose_swell: Swell = [0.01e-5, 0.03e-5, 0.06e-5], SWELL, from::HOSE_SWELL;
    /// Air left after filling and bleeding.
    trapped_air: Volume = [0.0, 0.1e-3, 0.5e-3], GAS, from::TRAPPED_AIR;
    /// Share of the fill in block and heads.
    engine_share: Ratio = [0.40, 0.50, 0.60], volume::SHARE, from::FILL_SHARES;
    /// Share of the fill in the radiator.
    radiator_share: Ratio = [0.23, 0.33, 0.43], volume::SHARE, from::FILL_SHARES;
    /// Share of the fill in heater and hoses.
    heater_and_hose_share: Ratio = [0.07, 0.17, 0.27], volume::SHARE, from::FILL_SHARES;
    /// How far the radiator's mean temperature lies below the engine's outlet.
    radiator_below_engine: TemperatureInterval = [5.0, 9.0, 15.0], BELOW, from::PART_TEMPERATURES;
    /// How far heater and hoses lie below the engine's outlet.
    heater_below_engine: TemperatureInterval = [0.0, 5.0, 10.0], BELOW, from::PART_TEMPERATURES;
    /// How far a header tank lies below the engine's outlet.
    header_tank_below_engine: TemperatureInterval = [0.0, 6.0, 10.0], BELOW, from::PART_TEMPERATURES;
    /// Temperature of the coolant in an overflow tank.
    tank_temperature: ThermodynamicTemperature = [30.0 + ZERO_CELSIUS, 50.0 + ZERO_CELSIUS, 90.0 + ZERO_CELSIUS], TANK, from::TANK_TEMPERATURE;
    /// How well the hot temperatures are known: the likely deviation either way.
    hot_doubt: TemperatureInterval = [5.0, 5.0, 5.0], HOT_DOUBT, from::HOT_DOUBT;
    /// How well the glycol mass fraction is known: the likely deviation either way.
    mix_doubt: Ratio = [0.03, 0.03, 0.03], SHARE_DOUBT, from::MIX_DOUBT;
    /// Doubt of the growth of propylene glycol coolant above 100 °C, either way.
    propylene_above_100: Ratio = [0.15, 0.15, 0.15], SHARE_DOUBT, from::PROPYLENE_ABOVE_100;
    /// Deviation of a new cap's opening from its rating.
    cap_tolerance_new: Ratio = [-0.14, 0.0, 0.14], TOLERANCE, from::CAP_TOLERANCE;
    /// Deviation of a worn cap's opening from its rating.
    cap_tolerance_worn: Ratio = [-0.27, 0.0, 0.14], TOLERANCE, from::CAP_TOLERANCE;
    /// Depression at which the cap's vacuum valve opens.
    vacuum_opening: Pressure = [1e3, 5e3, 10e3], VACUUM, from::VACUUM_VALVE;
    /// Suction above which soft hoses may draw in.
    suction_warning: Pressure = [10e3, 10e3, 10e3], PULL, from::RETURN_SUCTION;
    /// Suction above which hoses collapse and no return can be counted on.
    suction_failure: Pressure = [30e3, 30e3, 30e3], PULL, from::RETURN_SUCTION;
    /// Loss in the return line.
    line_loss: Pressure = [0.0, 0.2e3, 1e3], LOSS, from::LINE_LOSS;
    /// Highest hot gauge pressure of a header tank as a share of the cap's opening.
    cushion_share: Ratio = [0.85, 0.85, 0.85], cushion::SHARE, from::CUSHION_RULE;
    /// Fore and aft acceleration the tube is tried at.
    tilt_fore_aft: Acceleration = [0.5 * GRAVITY, 0.5 * GRAVITY, 0.5 * GRAVITY], PUSH, from::TILT_TESTS;
    /// Sideways acceleration the tube is tried at.
    tilt_lateral: Acceleration = [0.8 * GRAVITY, 0.8 * GRAVITY, 0.8 * GRAVITY], PUSH, from::TILT_TESTS;
    /// Braking the tube is tried at.
    tilt_braking: Acceleration = [0.8 * GRAVITY, 0.8 * GRAVITY, 0.8 * GRAVITY], PUSH, from::TILT_TESTS;
    /// Depth the tube's end must keep.
    least_cover: Length = [5e-3, 5e-3, 5e-3], COVER, from::TILT_TESTS;
    /// Reserve against leakage as a share of the fill.
    leakage_share: Ratio = [0.05, 0.05, 0.05], headroom::SHARE, from::LEAKAGE_RESERVE;
    /// Least reserve against leakage.
    leakage_least: Volume = [0.2e-3, 0.2e-3, 0.2e-3], RESERVE, from::LEAKAGE_RESERVE;
    /// Room for coolant pushed out by boiling, as a share of the fill.
    surge_share: Ratio = [0.02, 0.04, 0.10], headroom::SHARE, from::SURGE_SHARE;
    /// Margin on the tank's volume.
    headroom_margin: Ratio = [0.10, 0.10, 0.10], MARGIN, from::HEADROOM_MARGIN;
    /// Discharge coefficient of a drilled hole.
    hole_discharge: Ratio = [0.55, 0.60, 0.65], COEFFICIENT, from::HOLE_DISCHARGE;
    /// Discharge coefficient of the overflow hose under choked steam.
    hose_discharge: Ratio = [0.7, 0.8, 0.9], COEFFICIENT, from::HOSE_DISCHARGE;
    /// Factor by which a two-phase flow estimate may be wrong either way.
    two_phase_factor: Ratio = [0.5, 1.0, 2.0], FACTOR, from::FLASHING;
    /// Gauge pressure a thin plastic or sheet can may see.
    thin_can_limit: Pressure = [1e3, 2e3, 5e3], CAN, from::CAN_STRENGTH;
    /// Gauge pressure a fabricated can with a lid may see.
    fabricated_can_limit: Pressure = [10e3, 10e3, 10e3], CAN, from::CAN_STRENGTH;
    /// Heat that boils coolant after a hard shutdown.
    after_heat: Power = [1e3, 3e3, 5e3], HEAT, from::AFTER_HEAT;
    /// Time from cold to hot.
    warm_up_time: Time = [300.0, 480.0, 900.0], WARM_UP, from::WARM_UP_TIME;
    /// How far the hottest passage lies above the engine's outlet.
    local_excess: TemperatureInterval = [5.0, 8.0, 15.0], EXCESS, from::LOCAL_EXCESS;
    /// Allowance kept below boiling.
    boiling_allowance: TemperatureInterval = [3.0, 3.0, 3.0], ALLOWANCE, from::BOILING_ALLOWANCE;
    /// Viscosity of steam near 100 °C.
    steam_viscosity: DynamicViscosity = [1.2e-5, 1.2e-5, 1.3e-5], STEAM, from::STEAM_VISCOSITY;
    /// How far the pump's inlet lies below the system at high speed.
    pump_suction: Pressure = [10e3, 20e3, 30e3], SUCTION, from::PUMP_SUCTION;
}
