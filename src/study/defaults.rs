//! What the program takes where the builder does not know: each with a low, a likely and a high value.

use super::EngineInputs;
use crate::quantity::si::{
    Area, Pressure, Ratio, TemperatureInterval, ThermalConductance, ThermodynamicTemperature, Velocity, Volume,
    VolumeRate,
};
use crate::quantity::{Estimate, GaugePressure, LinearResistance, Measured, QuadraticResistance, Swell};

fn estimate<Q: Measured>(low: f64, likely: f64, high: f64) -> Estimate<Q> {
    Estimate::sorted(Q::from_base(low), Q::from_base(likely), Q::from_base(high))
}

macro_rules! table {
    ($($(#[$doc:meta])* $name:ident: $type:ty = $low:expr, $likely:expr, $high:expr;)*) => {$(
        $(#[$doc])*
        #[must_use]
        pub fn $name() -> Estimate<$type> { estimate($low, $likely, $high) }
    )*};
}

table! {
    /// Share of the fill in the engine.
    engine_share: Ratio = 0.40, 0.50, 0.60;
    /// Share of the fill in the radiator.
    radiator_share: Ratio = 0.23, 0.33, 0.43;
    /// Air left after filling and bleeding.
    trapped_air: Volume = 0.0, 0.1e-3, 0.5e-3;
    /// Hose swell: 1, 3, 6 % per 100 kPa.
    hose_swell: Swell = 0.1e-6, 0.3e-6, 0.6e-6;
    /// Hottest passage above the engine outlet.
    local_excess: TemperatureInterval = 5.0, 8.0, 15.0;
    /// Vacuum valve opening.
    vacuum_opening: Pressure = 1e3, 5e3, 10e3;
    /// Thermostat from starting to open to fully open.
    thermostat_span: TemperatureInterval = 8.0, 12.0, 15.0;
    /// Gauge pressure of a tank meant to be open.
    allowed_pressure: Pressure = 1e3, 2e3, 5e3;
    /// Temperature of the coolant in the tank, engine hot.
    tank_temperature: ThermodynamicTemperature = 303.15, 323.15, 363.15;
    /// Reserve in the tank against small leaks.
    leak_reserve: Ratio = 0.03, 0.05, 0.08;
    /// Surge after a hot stop.
    surge: Ratio = 0.02, 0.04, 0.10;
    /// Face air speed over road speed.
    ram_share: Ratio = 0.08, 0.17, 0.25;
    /// Face air speed from the fan.
    fan_speed: Velocity = 1.5, 2.5, 4.0;
    /// Recirculation at standstill.
    recirculation: TemperatureInterval = 5.0, 10.0, 15.0;
    /// Air filter depression at full throttle.
    filter_depression: Pressure = 0.5e3, 1.5e3, 3e3;
    /// Share of a leak-down loss that passes the rings.
    ring_share: Ratio = 0.6, 0.8, 1.0;
    /// Running leak over standing leak.
    running_share: Ratio = 0.3, 0.6, 1.0;
    /// Crankcase gas temperature.
    gas_temperature: ThermodynamicTemperature = 333.15, 363.15, 403.15;
    /// Effective area of a cover baffle.
    baffle_area: Area = 30e-6, 60e-6, 100e-6;
    /// Small clean breather filter, linear part.
    element_linear: LinearResistance = 1e5, 2e5, 10e5;
    /// Small clean breather filter, quadratic part.
    element_quadratic: QuadraticResistance = 1.5e8, 3e8, 15e8;
    /// Crankcase gauge pressure under load.
    limit_load: GaugePressure = 0.5e3, 1.5e3, 2.5e3;
    /// Crankcase gauge pressure at light load.
    limit_light: GaugePressure = 0.0, 0.5e3, 1.0e3;
    /// Crankcase depression.
    limit_depression: Pressure = 1.5e3, 3.5e3, 4.0e3;
}

/// Pump flow for each 1000 rpm, by displacement: about 0.12 L/s for each litre.
#[must_use]
pub fn pump_flow(engine: &EngineInputs) -> Estimate<VolumeRate> {
    let likely = 0.12 * engine.swept();
    estimate(0.6 * likely, likely, 1.5 * likely)
}

/// Radiator conductance at 5 m/s of air at the face, by frontal area: about 6.7 kW/K for each square metre.
#[must_use]
pub fn radiator_conductance(area: Area) -> Estimate<ThermalConductance> {
    let likely = 6667.0 * area.base();
    estimate(0.7 * likely, likely, 1.3 * likely)
}
