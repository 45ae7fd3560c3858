//! Assumed figures of the heat part: each an editable default with its spread, its range and its source.

use super::airflow::{self, DRAUGHT, FAN_VELOCITY, GONE_AT, RAM_SHARE};
use super::engine_heat::{EFFICIENCY, FRICTION_TERM, SHARE};
use super::fan::{CORE_EXPONENT, CORE_PRESSURE};
use super::manifold::{AIR_FUEL, CONSUMPTION, INTAKE_TEMPERATURE, VOLUMETRIC};
use super::matrix::{CONDUCTIVITY, CORRELATION, FOULING, LOUVRE_ANGLE, LOUVRE_LENGTH, LOUVRE_PITCH};
use super::pump::PUMP_FLOW;
use super::radiator::{AIR_EXPONENT, AIR_SHARE, CONDUCTANCE, FRONTAL_AREA, REFERENCE_DENSITY};
use super::road::{DRAG_AREA, DRIVETRAIN, ROLLING};
use super::thermostat::{CLOSING_LAG, RESISTANCE_SHARE, SPAN};
use super::warm_up::{HEAT_CAPACITY, LOSS};
use crate::quantity::si::{
    Angle, Area, AvailableEnergy, HeatCapacity, Length, MassDensity, Power, Pressure, Ratio, TemperatureInterval,
    ThermalConductance, ThermalConductivity, ThermodynamicTemperature, Velocity, VolumeRate,
};
use crate::quantity::{AbsolutePressure, DEGREE, FuelPerWork, Kind, Range, ZERO_CELSIUS};
use crate::source::{assumed, heat as source};

const LITRE: f64 = 1e-3;
const G_PER_KWH: f64 = 1e-3 / 3.6e6;

const TOLERANCE: Range = Range::new(
    "deviation of the thermostat from its setting",
    Kind::TemperatureDifference,
    -10.0,
    10.0,
    "a sound one is within 2 K",
);
const SWITCH_RISE: Range = Range::new(
    "fan switch above the thermostat's setting",
    Kind::TemperatureDifference,
    -40.0,
    60.0,
    "about 10 K is usual",
);
const SWITCH_GAP: Range =
    Range::new("fan switch, off below on", Kind::TemperatureDifference, 0.5, 30.0, "about 5 K is usual");
const DRAWN: Range =
    Range::new("area a fan draws through over the area it sweeps", Kind::Number, 0.5, 4.0, "1 to 1.7 without a shroud");
const IDLE_HEAT: Range =
    Range::new("heat to the coolant at idle", Kind::Power, 0.0, 100e3, "3 kW for a four, 8 kW for a V8");
const MANIFOLD_PRESSURE: Range = Range::new(
    "absolute manifold pressure",
    Kind::AbsolutePressure,
    10e3,
    110e3,
    "the ambient pressure less what a vacuum gauge shows",
);
const INTAKE_LOSS: Range =
    Range::new("intake pressure loss at full throttle", Kind::PressureDifference, 0.0, 50e3, "2 to 5 kPa is usual");

const HEATING_VALUE: Range =
    Range::new("heating value of the fuel", Kind::SpecificEnergy, 15e6, 60e6, "44 MJ/kg for petrol");
const MEAN_PRESSURE: Range = Range::new(
    "brake mean effective pressure",
    Kind::PressureDifference,
    5e5,
    30e5,
    "8 to 11 bar on the road, 14 bar in racing, without a blower",
);

const HOT_METAL: Range = Range::new(
    "heat capacity of the hot metal for each litre of displacement",
    Kind::HeatCapacity,
    0.0,
    20e3,
    "2 to 3.2 kJ/K is usual",
);
const METAL_FACTOR: Range =
    Range::new("hot metal of aluminium heads over that of iron ones", Kind::Number, 0.5, 2.0, "1.1 is usual");
const METAL_TEMPERATURE: Range = Range::new(
    "temperature of the hot metal",
    Kind::Temperature,
    ZERO_CELSIUS,
    ZERO_CELSIUS + 300.0,
    "130 to 185 °C after usual and after hard running",
);

assumed! {
    /// Temperature over which the thermostat goes from shut to wide open: 12 K (8 to 15).
    thermostat_span: TemperatureInterval = [8.0, 12.0, 15.0], SPAN, source::THERMOSTAT_SPAN;
    /// How far a thermostat may start off its nominal setting: ±2 K.
    thermostat_tolerance: TemperatureInterval = [-2.0, 0.0, 2.0], TOLERANCE, source::THERMOSTAT_SPAN;
    /// How much lower it closes than it opens: 3 K (2 to 4).
    thermostat_closing_lag: TemperatureInterval = [2.0, 3.0, 4.0], CLOSING_LAG, source::THERMOSTAT_SPAN;
    /// Share of the loop's flow resistance in the wide open thermostat: 30 % (10 to 100).
    thermostat_resistance_share: Ratio = [0.1, 0.3, 1.0], RESISTANCE_SHARE, source::THERMOSTAT_FLOW;

    /// Pitch of the louvres: 1.1 mm (0.8 to 1.5).
    louvre_pitch: Length = [0.8e-3, 1.1e-3, 1.5e-3], LOUVRE_PITCH, source::CORE_SIZES;
    /// Angle of the louvres: 27° (20 to 30).
    louvre_angle: Angle = [20.0 * DEGREE, 27.0 * DEGREE, 30.0 * DEGREE], LOUVRE_ANGLE, source::CORE_SIZES;
    /// Length of the louvres over that of the fin: 85 % (75 to 90).
    louvre_length_share: Ratio = [0.75, 0.85, 0.90], LOUVRE_LENGTH, source::CORE_SIZES;
    /// Conductivity of aluminium tubes and fins: 180 W/(m·K) (150 to 210).
    aluminium_conductivity: ThermalConductivity = [150.0, 180.0, 210.0], CONDUCTIVITY, source::CORE_SIZES;
    /// Conductivity of copper fins: 380 W/(m·K) (350 to 395).
    copper_conductivity: ThermalConductivity = [350.0, 380.0, 395.0], CONDUCTIVITY, source::CORE_SIZES;
    /// Conductivity of brass tubes: 110 W/(m·K) (100 to 125).
    brass_conductivity: ThermalConductivity = [100.0, 110.0, 125.0], CONDUCTIVITY, source::CORE_SIZES;
    /// True heat transfer of a core's air side over that of the correlation: 1 (0.85 to 1.15).
    core_air_side: Ratio = [0.85, 1.0, 1.15], CORRELATION, source::CORE_DOUBT;
    /// True heat transfer of a core's coolant side over that of the correlation: 1 (0.9 to 1.1).
    core_coolant_side: Ratio = [0.9, 1.0, 1.1], CORRELATION, source::CORE_DOUBT;
    /// Further resistance of scale, dust and the fins' bond: 5 % (0 to 15).
    core_fouling: Ratio = [0.0, 0.05, 0.15], FOULING, source::CORE_DOUBT;
    /// Pressure a core, grille and all else take of the air at 5 m/s, for each metre of the core's depth: 3.5 kPa.
    core_pressure_for_each_metre: Pressure = [2.0e3, 3.5e3, 6.0e3],
        Range::new("pressure of the core for each metre of depth", Kind::PressureDifference, 1e2, 1e5, "2 to 6 kPa"),
        source::CORE_SIZES;
    /// The same of a core whose depth is not known: 160 Pa (80 to 300).
    core_pressure: Pressure = [80.0, 160.0, 300.0], CORE_PRESSURE, source::CORE_SIZES;
    /// Exponent of that pressure with the face velocity: 1.6 (1.4 to 1.8).
    core_pressure_exponent: Ratio = [1.4, 1.6, 1.8], CORE_EXPONENT, source::CORE_SIZES;
    /// Area of the core a fan without a shroud draws through over the area it sweeps: 1.3 (1.0 to 1.7).
    drawn_over_swept: Ratio = [1.0, 1.3, 1.7], DRAWN, source::FAN_FITTING;
    /// The fan comes on so far above the thermostat's setting: 10 K (8 to 13).
    fan_on_above_setting: TemperatureInterval = [8.0, 10.0, 13.0], SWITCH_RISE, source::FAN_SWITCH;
    /// And goes off so far below where it came on: 5 K (3 to 8).
    fan_off_below_on: TemperatureInterval = [3.0, 5.0, 8.0], SWITCH_GAP, source::FAN_SWITCH;
    /// Exponent of the air's mass flow in the radiator's air side: 0.5 (0.4 to 0.55).
    air_side_exponent: Ratio = [0.4, 0.5, 0.55], AIR_EXPONENT, source::RADIATOR_SCALING;

    /// Air-side share of the radiator's thermal resistance at the reference point: 0.8 (0.7 to 0.9).
    air_side_share: Ratio = [0.7, 0.8, 0.9], AIR_SHARE, source::RADIATOR_SCALING;
    /// Radiator conductance of the V8 class at 5 m/s face velocity: 2000 W/K (±25 %).
    radiator_conductance_v8: ThermalConductance = [1500.0, 2000.0, 2500.0], CONDUCTANCE, source::RADIATOR_CLASS;
    /// Radiator conductance of the 2.0 L four class at 4 m/s face velocity: 1150 W/K (±25 %).
    radiator_conductance_four: ThermalConductance = [860.0, 1150.0, 1440.0], CONDUCTANCE, source::RADIATOR_CLASS;
    /// Frontal area of the V8 class radiator: 0.30 m².
    frontal_area_v8: Area = [0.25, 0.30, 0.35], FRONTAL_AREA, source::RADIATOR_CLASS;
    /// Frontal area of the four class radiator: 0.21 m².
    frontal_area_four: Area = [0.17, 0.21, 0.25], FRONTAL_AREA, source::RADIATOR_CLASS;
    /// Pump flow of the V8 class with the thermostat open: 0.6 L/s per 1000 rpm.
    pump_v8: VolumeRate = [0.45 * LITRE, 0.6 * LITRE, 0.75 * LITRE], PUMP_FLOW, source::RADIATOR_CLASS;
    /// Pump flow of the four class with the thermostat open: 0.3 L/s per 1000 rpm.
    pump_four: VolumeRate = [0.22 * LITRE, 0.3 * LITRE, 0.38 * LITRE], PUMP_FLOW, source::RADIATOR_CLASS;

    /// Face velocity from ram, as a share of road speed: 0.17 (0.08 to 0.25).
    ram_share: Ratio = [0.08, 0.17, 0.25], RAM_SHARE, source::FACE_VELOCITY;
    /// Face velocity of the fan alone: 2.5 m/s (1.5 to 4).
    fan_velocity: Velocity = [1.5, 2.5, 4.0], FAN_VELOCITY, source::FACE_VELOCITY;
    /// Air velocity at a hot radiator's face from its own heat: 0.15 m/s (0.05 to 0.3).
    draught: Velocity = [0.05, 0.15, 0.3], DRAUGHT, source::DRAUGHT;
    /// Radiator inlet air above ambient at standstill: 10 K (5 to 15).
    recirculation_rise: TemperatureInterval = [5.0, 10.0, 15.0], airflow::RECIRCULATION, source::RECIRCULATION;
    /// Road speed at which recirculation has faded out: 30 km/h (15 to 50).
    recirculation_gone_at: Velocity = [15.0 / 3.6, 30.0 / 3.6, 50.0 / 3.6], GONE_AT, source::RECIRCULATION;

    /// Indicated efficiency, spark ignition: 0.38 (0.35 to 0.41).
    indicated_efficiency_spark: Ratio = [0.35, 0.38, 0.41], EFFICIENCY, source::INDICATED_EFFICIENCY;
    /// Indicated efficiency, diesel: 0.44 (0.41 to 0.47).
    indicated_efficiency_diesel: Ratio = [0.41, 0.44, 0.47], EFFICIENCY, source::INDICATED_EFFICIENCY;
    /// Share of fuel power the coolant takes at light load: 0.30 (0.17 to 0.38).
    coolant_share_light: Ratio = [0.17, 0.30, 0.38], SHARE, source::COOLANT_SHARE;
    /// Share of fuel power the coolant takes at rated power: 0.22 (0.17 to 0.28).
    coolant_share_rated: Ratio = [0.17, 0.22, 0.28], SHARE, source::COOLANT_SHARE;
    /// Share of fuel power the coolant of a diesel takes at light load: 0.28 (0.17 to 0.38).
    coolant_share_light_diesel: Ratio = [0.17, 0.28, 0.38], SHARE, source::COOLANT_SHARE;
    /// Share of fuel power the coolant of a diesel takes at rated power: 0.22 (0.16 to 0.35).
    coolant_share_rated_diesel: Ratio = [0.16, 0.22, 0.35], SHARE, source::COOLANT_SHARE;
    /// Friction mean pressure of a diesel at rest, before the terms in speed: 75 kPa.
    friction_constant_diesel: Pressure = [60e3, 75e3, 145e3], FRICTION_TERM, source::FRICTION_DIESEL;
    /// Friction mean pressure of a diesel per 1000 rpm: 48 kPa.
    friction_linear_diesel: Pressure = [38e3, 48e3, 56e3], FRICTION_TERM, source::FRICTION_DIESEL;
    /// Friction mean pressure of a diesel per (1000 rpm)²: 3.6 kPa, a stroke of 90 mm.
    friction_square_diesel: Pressure = [2.8e3, 3.6e3, 4.5e3], FRICTION_TERM, source::FRICTION_DIESEL;
    /// Heat to the coolant of an idling diesel over that of a petrol engine of the same size: 0.5.
    idle_heat_of_diesel: Ratio = [0.35, 0.5, 0.7],
        Range::new("idle heat of a diesel over petrol", Kind::Number, 0.1, 2.0, "0.35 to 0.7"),
        source::IDLE_HEAT;
    /// Lower heating value of diesel fuel: 42.6 MJ/kg (42 to 43.2).
    heating_value_diesel: AvailableEnergy = [42e6, 42.6e6, 43.2e6], HEATING_VALUE, source::HEATING_VALUE_DIESEL;
    /// The most brake mean effective pressure a diesel without a blower makes at sea level: 10 bar.
    most_mean_pressure_diesel: Pressure = [8e5, 10e5, 11e5], MEAN_PRESSURE, source::MEAN_PRESSURE_DIESEL;
    /// Friction mean pressure at rest, before the terms in speed: 97 kPa.
    friction_constant: Pressure = [80e3, 97e3, 115e3], FRICTION_TERM, source::FRICTION;
    /// Friction mean pressure per 1000 rpm: 15 kPa.
    friction_linear: Pressure = [12e3, 15e3, 18e3], FRICTION_TERM, source::FRICTION;
    /// Friction mean pressure per (1000 rpm)²: 5 kPa.
    friction_square: Pressure = [4e3, 5e3, 6e3], FRICTION_TERM, source::FRICTION;
    /// Heat to the coolant at idle of a V8: 8 kW (6 to 10).
    idle_heat_v8: Power = [6e3, 8e3, 10e3], IDLE_HEAT, source::IDLE_HEAT;
    /// Heat to the coolant at idle of a 2.0 L four: 3 kW (2 to 4).
    idle_heat_four: Power = [2e3, 3e3, 4e3], IDLE_HEAT, source::IDLE_HEAT;

    /// Rolling resistance of road tyres: 0.012 (0.010 to 0.015).
    rolling_resistance: Ratio = [0.010, 0.012, 0.015], ROLLING, source::ROAD_DEFAULTS;
    /// Drag coefficient times frontal area: 0.75 m² (0.6 to 0.95).
    drag_area: Area = [0.60, 0.75, 0.95], DRAG_AREA, source::ROAD_DEFAULTS;
    /// Drivetrain efficiency: 0.88 (0.82 to 0.93).
    drivetrain_efficiency: Ratio = [0.82, 0.88, 0.93], DRIVETRAIN, source::ROAD_DEFAULTS;
    /// Specific fuel consumption at steady cruise: 340 g/(kW·h) (320 to 400).
    consumption_cruise: FuelPerWork = [320.0 * G_PER_KWH, 340.0 * G_PER_KWH, 400.0 * G_PER_KWH], CONSUMPTION, source::FUEL_CONSUMPTION;
    /// Specific fuel consumption on a hill: 280 g/(kW·h) (270 to 300).
    consumption_hill: FuelPerWork = [270.0 * G_PER_KWH, 280.0 * G_PER_KWH, 300.0 * G_PER_KWH], CONSUMPTION, source::FUEL_CONSUMPTION;
    /// Specific fuel consumption at full throttle: 295 g/(kW·h) (280 to 310).
    consumption_full: FuelPerWork = [280.0 * G_PER_KWH, 295.0 * G_PER_KWH, 310.0 * G_PER_KWH], CONSUMPTION, source::FUEL_CONSUMPTION;
    /// Lower heating value of petrol: 44 MJ/kg (42 to 44).
    heating_value: AvailableEnergy = [42e6, 44e6, 44e6], HEATING_VALUE, source::HEATING_VALUE;
    /// The most brake mean effective pressure an engine without a blower makes at sea level: 14 bar.
    most_mean_pressure: Pressure = [11e5, 14e5, 15e5], MEAN_PRESSURE, source::MEAN_PRESSURE;
    /// Mass of air per mass of petrol: 14.7 (12.5 rich at full throttle to 14.7).
    air_fuel_ratio: Ratio = [12.5, 14.7, 14.7], AIR_FUEL, source::FUEL_CONSUMPTION;
    /// Volumetric efficiency on manifold density: 0.82 (0.75 to 0.90).
    volumetric_efficiency: Ratio = [0.75, 0.82, 0.90], VOLUMETRIC, source::MANIFOLD_DEFAULTS;
    /// Temperature of the air in the manifold: 315 K (305 to 325).
    intake_temperature: ThermodynamicTemperature = [305.0, 315.0, 325.0], INTAKE_TEMPERATURE, source::MANIFOLD_DEFAULTS;
    /// Least manifold pressure of a running engine, overrun: 18 kPa to 28 kPa.
    overrun_pressure: AbsolutePressure = [18e3, 23e3, 28e3], MANIFOLD_PRESSURE, source::MANIFOLD_DEFAULTS;
    /// Manifold pressure at idle with a mild cam: 30 to 45 kPa absolute.
    idle_pressure: AbsolutePressure = [30e3, 38e3, 45e3], MANIFOLD_PRESSURE, source::MANIFOLD_DEFAULTS;
    /// Manifold pressure at idle with a hot cam: 50 to 65 kPa absolute.
    idle_pressure_hot_cam: AbsolutePressure = [50e3, 58e3, 65e3], MANIFOLD_PRESSURE, source::MANIFOLD_DEFAULTS;
    /// Intake loss at full throttle, manifold below ambient: 2 to 5 kPa.
    full_throttle_loss: Pressure = [2e3, 3.5e3, 5e3], INTAKE_LOSS, source::MANIFOLD_DEFAULTS;

    /// Effective heat capacity of an iron V8 with its coolant: 100 kJ/K (80 to 120).
    heat_capacity_v8: HeatCapacity = [80e3, 100e3, 120e3], HEAT_CAPACITY, source::WARM_UP;
    /// Effective heat capacity of a four with its coolant: 50 kJ/K (40 to 60).
    heat_capacity_four: HeatCapacity = [40e3, 50e3, 60e3], HEAT_CAPACITY, source::WARM_UP;
    /// Conductance from the engine's surface to the surrounding air, V8: 12 W/K (6 to 40; the high end on the road).
    engine_loss_v8: ThermalConductance = [6.0, 12.0, 40.0], LOSS, source::WARM_UP;
    /// Conductance from the engine's surface to the surrounding air, four: 8 W/K (4 to 25).
    engine_loss_four: ThermalConductance = [4.0, 8.0, 25.0], LOSS, source::WARM_UP;

    /// Air density at which the radiator conductances hold: 34 °C at sea level.
    reference_air_density: MassDensity = [1.15, 1.15, 1.15], REFERENCE_DENSITY, source::RADIATOR_CLASS;
    /// Heat capacity of the metal hotter than the coolant, for each litre of displacement: 2.5 kJ/K (2 to 3.2).
    hot_metal_for_each_litre: HeatCapacity = [2.0e3, 2.5e3, 3.2e3], HOT_METAL, source::HOT_METAL;
    /// The same with aluminium heads over that with iron ones: 1.1.
    hot_metal_of_aluminium: Ratio = [1.1, 1.1, 1.1], METAL_FACTOR, source::HOT_METAL;
    /// Temperature of that metal when the engine stops: 150 °C after usual, 185 °C after hard running.
    hot_metal_temperature: ThermodynamicTemperature = [403.15, 423.15, 458.15], METAL_TEMPERATURE, source::HOT_METAL;
}
