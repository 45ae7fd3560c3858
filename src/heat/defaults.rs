//! Assumed figures of the heat part: each an editable default with a range and a source.

use crate::quantity::si::{
    Area, HeatCapacity, Power, Pressure, Ratio, TemperatureInterval, ThermalConductance, ThermodynamicTemperature,
    Velocity, VolumeRate,
};
use crate::quantity::{AbsolutePressure, Estimate, FuelPerWork, Kind, Measured};
use crate::source::{Source, heat as source};

/// An assumed figure: what it is, low/likely/high, and where it comes from.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Assumed<Q> {
    /// What it is, in words.
    pub name: &'static str,
    /// How it is shown.
    pub kind: Kind,
    /// Low, likely and high.
    pub value: Estimate<Q>,
    /// Where it comes from.
    pub source: &'static Source,
}

macro_rules! assumed {
    ($($(#[$doc:meta])* $name:ident: $quantity:ty = $words:literal, $kind:ident, $low:expr, $likely:expr, $high:expr, $source:ident;)*) => {
        $($(#[$doc])*
        #[must_use]
        pub fn $name() -> Assumed<$quantity> {
            let value = <$quantity as Measured>::from_base;
            Assumed {
                name: $words,
                kind: Kind::$kind,
                value: Estimate { low: value($low), likely: value($likely), high: value($high) },
                source: &source::$source,
            }
        })*

        #[cfg(test)]
        mod tests {
            #[test]
            fn low_likely_high_are_in_order() {
                $(let a = super::$name();
                assert!(a.value.low <= a.value.likely && a.value.likely <= a.value.high, "{}", a.name);)*
            }
        }
    };
}

const LITRE: f64 = 1e-3;
const G_PER_KWH: f64 = 1e-3 / 3.6e6;

assumed! {
    /// Temperature over which the thermostat goes from shut to wide open: 12 K (8 to 15).
    thermostat_span: TemperatureInterval = "thermostat span from start to fully open", TemperatureDifference, 8.0, 12.0, 15.0, THERMOSTAT_SPAN;
    /// How far a thermostat may start off its nominal setting: ±2 K.
    thermostat_tolerance: TemperatureInterval = "deviation of the thermostat from its setting", TemperatureDifference, -2.0, 0.0, 2.0, THERMOSTAT_SPAN;
    /// How much lower it closes than it opens: 3 K (2 to 4).
    thermostat_closing_lag: TemperatureInterval = "lag of the closing thermostat", TemperatureDifference, 2.0, 3.0, 4.0, THERMOSTAT_SPAN;

    /// Air-side share of the radiator's thermal resistance at the reference point: 0.8 (0.7 to 0.9).
    air_side_share: Ratio = "air-side share of the radiator's resistance", Share, 0.7, 0.8, 0.9, RADIATOR_SCALING;
    /// Radiator conductance of the V8 class at 5 m/s face velocity: 2000 W/K (±25 %).
    radiator_conductance_v8: ThermalConductance = "radiator conductance, V8 class", HeatConductance, 1500.0, 2000.0, 2500.0, RADIATOR_CLASS;
    /// Radiator conductance of the 2.0 L four class at 4 m/s face velocity: 1150 W/K (±25 %).
    radiator_conductance_four: ThermalConductance = "radiator conductance, four class", HeatConductance, 860.0, 1150.0, 1440.0, RADIATOR_CLASS;
    /// Frontal area of the V8 class radiator: 0.30 m².
    frontal_area_v8: Area = "radiator frontal area, V8 class", Area, 0.25, 0.30, 0.35, RADIATOR_CLASS;
    /// Frontal area of the four class radiator: 0.21 m².
    frontal_area_four: Area = "radiator frontal area, four class", Area, 0.17, 0.21, 0.25, RADIATOR_CLASS;
    /// Pump flow of the V8 class with the thermostat open: 0.6 L/s per 1000 rpm.
    pump_v8: VolumeRate = "pump flow at 1000 rpm, V8 class", CoolantFlow, 0.45 * LITRE, 0.6 * LITRE, 0.75 * LITRE, RADIATOR_CLASS;
    /// Pump flow of the four class with the thermostat open: 0.3 L/s per 1000 rpm.
    pump_four: VolumeRate = "pump flow at 1000 rpm, four class", CoolantFlow, 0.22 * LITRE, 0.3 * LITRE, 0.38 * LITRE, RADIATOR_CLASS;

    /// Face velocity from ram, as a share of road speed: 0.17 (0.08 to 0.25).
    ram_share: Ratio = "ram share of road speed", Share, 0.08, 0.17, 0.25, FACE_VELOCITY;
    /// Face velocity of the fan alone: 2.5 m/s (1.5 to 4).
    fan_velocity: Velocity = "face velocity from the fan", GasSpeed, 1.5, 2.5, 4.0, FACE_VELOCITY;
    /// Radiator inlet air above ambient at standstill: 10 K (5 to 15).
    recirculation_rise: TemperatureInterval = "radiator inlet air above ambient at standstill", TemperatureDifference, 5.0, 10.0, 15.0, RECIRCULATION;
    /// Road speed at which recirculation has faded out: 30 km/h (15 to 50).
    recirculation_gone_at: Velocity = "road speed without recirculation", RoadSpeed, 15.0 / 3.6, 30.0 / 3.6, 50.0 / 3.6, RECIRCULATION;

    /// Indicated efficiency, spark ignition: 0.38 (0.35 to 0.41).
    indicated_efficiency_spark: Ratio = "indicated efficiency, spark ignition", Share, 0.35, 0.38, 0.41, INDICATED_EFFICIENCY;
    /// Indicated efficiency, diesel: 0.44 (0.41 to 0.47).
    indicated_efficiency_diesel: Ratio = "indicated efficiency, diesel", Share, 0.41, 0.44, 0.47, INDICATED_EFFICIENCY;
    /// Share of fuel power the coolant takes at light load: 0.30 (0.17 to 0.38).
    coolant_share_light: Ratio = "coolant share of fuel power, light load", Share, 0.17, 0.30, 0.38, COOLANT_SHARE;
    /// Share of fuel power the coolant takes at rated power: 0.22 (0.17 to 0.38).
    coolant_share_rated: Ratio = "coolant share of fuel power, rated power", Share, 0.17, 0.22, 0.38, COOLANT_SHARE;
    /// Friction mean pressure at rest, before the terms in speed: 97 kPa.
    friction_constant: Pressure = "friction mean pressure, constant term", PressureDifference, 80e3, 97e3, 115e3, FRICTION;
    /// Friction mean pressure per 1000 rpm: 15 kPa.
    friction_linear: Pressure = "friction mean pressure per 1000 rpm", PressureDifference, 12e3, 15e3, 18e3, FRICTION;
    /// Friction mean pressure per (1000 rpm)²: 5 kPa.
    friction_square: Pressure = "friction mean pressure per (1000 rpm)²", PressureDifference, 4e3, 5e3, 6e3, FRICTION;
    /// Heat to the coolant at idle of a V8: 8 kW (6 to 10).
    idle_heat_v8: Power = "heat to coolant at idle, V8", Power, 6e3, 8e3, 10e3, IDLE_HEAT;
    /// Heat to the coolant at idle of a 2.0 L four: 3 kW (2 to 4).
    idle_heat_four: Power = "heat to coolant at idle, four", Power, 2e3, 3e3, 4e3, IDLE_HEAT;

    /// Rolling resistance of road tyres: 0.012 (0.010 to 0.015).
    rolling_resistance: Ratio = "rolling resistance coefficient", Number, 0.010, 0.012, 0.015, ROAD_DEFAULTS;
    /// Drag coefficient times frontal area: 0.75 m² (0.6 to 0.95).
    drag_area: Area = "drag area of the car", Area, 0.60, 0.75, 0.95, ROAD_DEFAULTS;
    /// Drivetrain efficiency: 0.88 (0.82 to 0.93).
    drivetrain_efficiency: Ratio = "drivetrain efficiency", Share, 0.82, 0.88, 0.93, ROAD_DEFAULTS;
    /// Specific fuel consumption at steady cruise: 340 g/(kW·h) (320 to 400).
    consumption_cruise: FuelPerWork = "fuel consumption, cruise", FuelPerWork, 320.0 * G_PER_KWH, 340.0 * G_PER_KWH, 400.0 * G_PER_KWH, FUEL_CONSUMPTION;
    /// Specific fuel consumption on a hill: 280 g/(kW·h) (270 to 300).
    consumption_hill: FuelPerWork = "fuel consumption, hill", FuelPerWork, 270.0 * G_PER_KWH, 280.0 * G_PER_KWH, 300.0 * G_PER_KWH, FUEL_CONSUMPTION;
    /// Specific fuel consumption at full throttle: 295 g/(kW·h) (280 to 310).
    consumption_full: FuelPerWork = "fuel consumption, full throttle", FuelPerWork, 280.0 * G_PER_KWH, 295.0 * G_PER_KWH, 310.0 * G_PER_KWH, FUEL_CONSUMPTION;
    /// Mass of air per mass of petrol: 14.7 (12.5 rich at full throttle to 14.7).
    air_fuel_ratio: Ratio = "air to fuel ratio", Number, 12.5, 14.7, 14.7, FUEL_CONSUMPTION;
    /// Volumetric efficiency on manifold density: 0.82 (0.75 to 0.90).
    volumetric_efficiency: Ratio = "volumetric efficiency on manifold density", Share, 0.75, 0.82, 0.90, MANIFOLD_DEFAULTS;
    /// Temperature of the air in the manifold: 315 K (305 to 325).
    intake_temperature: ThermodynamicTemperature = "air temperature in the manifold", Temperature, 305.0, 315.0, 325.0, MANIFOLD_DEFAULTS;
    /// Least manifold pressure of a running engine, overrun: 18 kPa to 28 kPa.
    overrun_pressure: AbsolutePressure = "absolute manifold pressure on overrun", AbsolutePressure, 18e3, 23e3, 28e3, MANIFOLD_DEFAULTS;
    /// Manifold pressure at idle with a mild cam: 30 to 45 kPa absolute.
    idle_pressure: AbsolutePressure = "absolute manifold pressure at idle", AbsolutePressure, 30e3, 38e3, 45e3, MANIFOLD_DEFAULTS;
    /// Manifold pressure at idle with a hot cam: 50 to 65 kPa absolute.
    idle_pressure_hot_cam: AbsolutePressure = "absolute manifold pressure at idle, hot cam", AbsolutePressure, 50e3, 58e3, 65e3, MANIFOLD_DEFAULTS;
    /// Intake loss at full throttle, manifold below ambient: 2 to 5 kPa.
    full_throttle_loss: Pressure = "intake pressure loss at full throttle", PressureDifference, 2e3, 3.5e3, 5e3, MANIFOLD_DEFAULTS;

    /// Effective heat capacity of an iron V8 with its coolant: 100 kJ/K (80 to 120).
    heat_capacity_v8: HeatCapacity = "effective heat capacity, iron V8", HeatCapacity, 80e3, 100e3, 120e3, WARM_UP;
    /// Effective heat capacity of a four with its coolant: 50 kJ/K (40 to 60).
    heat_capacity_four: HeatCapacity = "effective heat capacity, four", HeatCapacity, 40e3, 50e3, 60e3, WARM_UP;
    /// Conductance from the engine's surface to the surrounding air, V8: 12 W/K (6 to 40; the high end on the road).
    engine_loss_v8: ThermalConductance = "engine surface loss, V8", HeatConductance, 6.0, 12.0, 40.0, WARM_UP;
    /// Conductance from the engine's surface to the surrounding air, four: 8 W/K (4 to 25).
    engine_loss_four: ThermalConductance = "engine surface loss, four", HeatConductance, 4.0, 8.0, 25.0, WARM_UP;
}
