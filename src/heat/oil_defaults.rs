//! Assumed figures of oil, metal, heater and mixture: each an editable default with its spread, range and source.

use super::manifold::AIR_FUEL;
use super::oil::VISCOSITY;
use crate::quantity::si::{
    HeatCapacity, KinematicViscosity, Ratio, TemperatureInterval, ThermalConductance, ThermodynamicTemperature, Time,
    Volume,
};
use crate::quantity::{Kind, Range, ZERO_CELSIUS};
use crate::source::{assumed, engine_oil as source};

/// Heats to the oil.
pub const HEAT: Range =
    Range::new("heat to the oil", Kind::Power, 0.0, 1e6, "10 to 25 % of the coolant's heat under load");
/// Conductances between oil and block.
pub const BLOCK: Range =
    Range::new("conductance between oil and block", Kind::HeatConductance, 1.0, 2e4, "100 W/K for each litre is usual");
/// Conductances of the sump, standing and in the wind.
pub const SUMP: Range = Range::new(
    "conductance of the sump to the air",
    Kind::HeatConductance,
    0.0,
    1e3,
    "a few W/K standing, 20 W/K driving",
);
/// The two together at any road speed.
pub(super) const SUMP_AT_SPEED: Range = Range { high: 6e3, ..SUMP };
/// Densities of the air along sump and cooler.
pub(super) const AIR: Range =
    Range::new("density of the air", Kind::Density, 0.1, 2.5, "1.15 kg/m³ at 34 °C and sea level");
/// Conductances of an oil cooler.
pub const COOLER: Range = Range::new(
    "conductance of the oil cooler",
    Kind::HeatConductance,
    0.0,
    5e3,
    "40 to 150 W/K to air, 100 to 400 W/K to coolant",
);
/// Conductances from the metal to the coolant.
pub const METAL: Range =
    Range::new("conductance from metal to coolant", Kind::HeatConductance, 0.1, 3e4, "200 W/K for each litre is usual");
/// Conductances of a heater core.
pub const HEATER: Range =
    Range::new("conductance of the heater", Kind::HeatConductance, 0.0, 1e3, "100 to 200 W/K is usual");
/// Temperatures of the air a heater draws.
pub const CABIN: Range = Range::new("air into the heater", Kind::Temperature, 223.15, 343.15, "20 to 40 °C in a cabin");
/// Temperatures of the coolant beside the oil.
pub const COOLANT: Range = Range::new("coolant temperature", Kind::Temperature, 203.15, 473.15, "");
const OIL_SHARE: Range = Range::new(
    "share of the heat that warms the oil",
    Kind::Share,
    0.0,
    0.7,
    "15 to 40 % of friction, 2 to 15 % of the coolant's",
);
const FACTOR: Range = Range::new("heat of aluminium heads over iron ones", Kind::Number, 0.8, 1.3, "1 to 1.1");
const COOLING: Range =
    Range::new("heat that falls with the fuel left unburnt", Kind::Share, 0.0, 1.0, "0 to 80 % of that fuel's share");
const FLOW_POWER: Range = Range::new("power of the flow", Kind::Number, 0.0, 1.0, "0.5 to 0.8");
const OIL_VOLUME: Range = Range::new("oil in the sump", Kind::Volume, 0.2e-3, 60e-3, "4 to 6 L is usual");
const OIL_CAPACITY: Range =
    Range::new("heat capacity of a litre of oil", Kind::HeatCapacity, 1e3, 3e3, "1.8 kJ/K is usual");
const OIL_METAL: Range =
    Range::new("metal that warms with the oil", Kind::HeatCapacity, 0.0, 500e3, "27 kJ/K of a four, 48 kJ/K of a V8");
const WARM: Range = Range::new("oil counted as warm", Kind::Temperature, 303.15, 403.15, "80 °C is usual");
const IDLE: Range = Range::new("idle before driving off", Kind::Duration, 0.0, 3600.0, "a minute is usual");
const OPENS: Range = Range::new(
    "thermostat of the oil cooler",
    Kind::Temperature,
    ZERO_CELSIUS + 50.0,
    ZERO_CELSIUS + 150.0,
    "80 to 95 °C is usual",
);
const RATIO: Range =
    Range::new("viscosity at 40 °C over that at 100 °C", Kind::Number, 3.0, 20.0, "5 to 11; the lower the flatter");
const RISE: Range = Range::new("rise of the heater's air", Kind::TemperatureDifference, -40.0, 60.0, "");

assumed! {
    /// Share of the friction power that warms the oil: 0.25 (0.15 to 0.40).
    oil_share_of_friction: Ratio = [0.15, 0.25, 0.40], OIL_SHARE, source::OIL_HEAT;
    /// Heat from under the piston crowns to the oil over the coolant's heat: 0.04 (0.02 to 0.08).
    oil_share_of_coolant: Ratio = [0.02, 0.04, 0.08], OIL_SHARE, source::OIL_HEAT;
    /// The same with jets of oil under the pistons: 0.10 (0.05 to 0.15).
    oil_share_with_jets: Ratio = [0.05, 0.10, 0.15], OIL_SHARE, source::OIL_HEAT;
    /// Coolant's heat with aluminium heads over that with iron ones: 1.03 (1 to 1.1).
    aluminium_heads: Ratio = [1.0, 1.03, 1.1], FACTOR, source::HEAD_METAL;
    /// The same of iron heads, which the coolant's share is stated for.
    iron_heads: Ratio = [1.0, 1.0, 1.0], FACTOR, source::HEAD_METAL;
    /// Air for each mass of petrol, just enough.
    just_enough_air: Ratio = [14.7, 14.7, 14.7], AIR_FUEL, source::RICH_MIXTURE;
    /// By how much of the fuel left unburnt the heat to the walls falls: 0.3 (0 to 0.8).
    rich_cooling: Ratio = [0.0, 0.3, 0.8], COOLING, source::RICH_MIXTURE;

    /// Conductance from the metal of the chambers to the coolant for each litre at the pump's flow at 3000 rpm.
    metal_for_each_litre: ThermalConductance = [120.0, 200.0, 350.0], METAL, source::METAL_CONDUCTANCE;
    /// The same without flow, natural convection: 12 W/K (8 to 18) for each litre.
    metal_without_flow: ThermalConductance = [8.0, 12.0, 18.0], METAL, source::METAL_CONDUCTANCE;
    /// Power of the flow that it goes with: 0.65 (0.5 to 0.8).
    metal_flow_power: Ratio = [0.5, 0.65, 0.8], FLOW_POWER, source::METAL_CONDUCTANCE;

    /// Conductance between oil and block for each litre of displacement: 100 W/K (50 to 220).
    block_for_each_litre: ThermalConductance = [50.0, 100.0, 220.0], BLOCK, source::OIL_EXCHANGE;
    /// Conductance of the sump to still air for each litre of displacement: 1.2 W/K (0.6 to 2.4).
    sump_still_for_each_litre: ThermalConductance = [0.6, 1.2, 2.4], SUMP, source::OIL_EXCHANGE;
    /// What the wind adds at 90 km/h for each litre of displacement: 4 W/K (2 to 8).
    sump_driving_for_each_litre: ThermalConductance = [2.0, 4.0, 8.0], SUMP, source::OIL_EXCHANGE;
    /// Oil cooler to air, at 5 m/s at its face: 80 W/K (40 to 150).
    cooler_to_air: ThermalConductance = [40.0, 80.0, 150.0], COOLER, source::OIL_COOLER;
    /// Oil cooler to coolant: 200 W/K (100 to 400).
    cooler_to_coolant: ThermalConductance = [100.0, 200.0, 400.0], COOLER, source::OIL_COOLER;
    /// Thermostat of an oil cooler: 85 °C (80 to 95).
    oil_thermostat: ThermodynamicTemperature = [ZERO_CELSIUS + 80.0, ZERO_CELSIUS + 85.0, ZERO_CELSIUS + 95.0], OPENS, source::OIL_COOLER;

    /// Heater core of a car, fan on: 130 W/K (90 to 200).
    heater: ThermalConductance = [90.0, 130.0, 200.0], HEATER, source::HEATER_CORE;
    /// Air the heater draws above that outside: it draws from outside.
    heater_air_rise: TemperatureInterval = [0.0, 0.0, 15.0], RISE, source::HEATER_CORE;

    /// Oil in the sump of a 2.0 L four: 4 L (3.3 to 5).
    oil_volume_four: Volume = [3.3e-3, 4.0e-3, 5.0e-3], OIL_VOLUME, source::OIL_WARM_UP;
    /// Oil in the sump of a V8 of 5.0 L: 5 L (4.5 to 7).
    oil_volume_v8: Volume = [4.5e-3, 5.0e-3, 7.0e-3], OIL_VOLUME, source::OIL_WARM_UP;
    /// Heat capacity of a litre of oil: 1.8 kJ/K (1.7 to 2.0).
    oil_capacity: HeatCapacity = [1.7e3, 1.8e3, 2.0e3], OIL_CAPACITY, source::OIL_WARM_UP;
    /// Metal that warms with the oil, crank, rods, sump and lower block, of a V8: 48 kJ/K (30 to 60).
    oil_metal_v8: HeatCapacity = [30e3, 48e3, 60e3], OIL_METAL, source::OIL_WARM_UP;
    /// The same of a 2.0 L four: 27 kJ/K (17 to 35).
    oil_metal_four: HeatCapacity = [17e3, 27e3, 35e3], OIL_METAL, source::OIL_WARM_UP;
    /// Oil counted as warm: 80 °C.
    warm_oil: ThermodynamicTemperature = [ZERO_CELSIUS + 70.0, ZERO_CELSIUS + 80.0, ZERO_CELSIUS + 90.0], WARM, source::OIL_WARM_UP;
    /// Idle before driving off: 60 s.
    idle_first: Time = [0.0, 60.0, 300.0], IDLE, source::OIL_WARM_UP;
    /// Viscosity below which oil is counted as thin: 5.5 mm²/s (5 to 6).
    thin_oil: KinematicViscosity = [5e-6, 5.5e-6, 6e-6], VISCOSITY, source::THIN_OIL;
    /// Viscosity at 40 °C over that at 100 °C of an oil of any grade; the grades have their own.
    viscosity_ratio: Ratio = [5.0, 6.7, 11.0], RATIO, source::OIL_GRADES;
}
