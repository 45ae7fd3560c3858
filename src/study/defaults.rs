//! What the program takes where the builder does not know: each with a low, a likely and a high value.
//!
//! The figures live with the physics that uses them; this is their list under the names of the inputs.

use super::{EngineInputs, EngineMetal};
use crate::quantity::si::{
    Area, HeatCapacity, MassDensity, Power, Pressure, Ratio, TemperatureInterval, ThermalConductance,
    ThermodynamicTemperature, Velocity, Volume, VolumeRate,
};
use crate::quantity::{Estimate, GaugePressure, LinearResistance, Measured, QuadraticResistance, Swell};
use crate::{coolant::defaults as coolant, crankcase::blow_by::defaults as blow_by, heat::defaults as heat};

fn estimate<Q: Measured>(low: f64, likely: f64, high: f64) -> Estimate<Q> {
    Estimate { low: Q::from_base(low), likely: Q::from_base(likely), high: Q::from_base(high) }
}

macro_rules! table {
    ($($(#[$doc:meta])* $name:ident: $type:ty = $value:expr;)*) => {$(
        $(#[$doc])*
        #[must_use]
        pub fn $name() -> Estimate<$type> { $value }
    )*};
}

table! {
    /// Share of the fill in the engine.
    engine_share: Ratio = coolant::engine_share().estimate;
    /// Share of the fill in the radiator.
    radiator_share: Ratio = coolant::radiator_share().estimate;
    /// Air left after filling and bleeding.
    trapped_air: Volume = coolant::trapped_air().estimate;
    /// Hose swell.
    hose_swell: Swell = coolant::hose_swell().estimate;
    /// Hottest passage above the engine outlet.
    local_excess: TemperatureInterval = coolant::local_excess().estimate;
    /// Kept below boiling whatever happens.
    boiling_allowance: TemperatureInterval = coolant::boiling_allowance().estimate;
    /// Vacuum valve opening.
    vacuum_opening: Pressure = coolant::vacuum_opening().estimate;
    /// Thermostat from starting to open to fully open.
    thermostat_span: TemperatureInterval = heat::thermostat_span().value;
    /// Gauge pressure of a tank meant to be open.
    allowed_pressure: Pressure = coolant::thin_can_limit().estimate;
    /// Temperature of the coolant in the tank, engine hot.
    tank_temperature: ThermodynamicTemperature = coolant::tank_temperature().estimate;
    /// Reserve in the tank against small leaks.
    leak_reserve: Ratio = coolant::leakage_share().estimate;
    /// Surge after a hot stop.
    surge: Ratio = coolant::surge_share().estimate;
    /// Face air speed over road speed.
    ram_share: Ratio = heat::ram_share().value;
    /// Face air speed from the fan.
    fan_speed: Velocity = heat::fan_velocity().value;
    /// Recirculation at standstill.
    recirculation: TemperatureInterval = heat::recirculation_rise().value;
    /// Air filter depression at full throttle.
    filter_depression: Pressure = estimate(0.5e3, 1.5e3, 3e3);
    /// Share of a leak-down loss that passes the rings.
    ring_share: Ratio = blow_by::RING_SHARE.estimate();
    /// Running leak over standing leak.
    running_share: Ratio = blow_by::RUNNING_TO_STANDING.estimate();
    /// Crankcase gas temperature.
    gas_temperature: ThermodynamicTemperature = crate::fluid::crankcase_gas::temperature();
    /// Effective area of a cover baffle.
    baffle_area: Area = estimate(30e-6, 60e-6, 100e-6);
    /// Small clean breather filter, linear part.
    element_linear: LinearResistance = estimate(1e5, 2e5, 10e5);
    /// Small clean breather filter, quadratic part.
    element_quadratic: QuadraticResistance = estimate(1.5e8, 3e8, 15e8);
    /// Crankcase gauge pressure under load.
    limit_load: GaugePressure = estimate(0.5e3, 1.5e3, 2.5e3);
    /// Crankcase gauge pressure at light load.
    limit_light: GaugePressure = estimate(0.0, 0.5e3, 1.0e3);
    /// Crankcase depression.
    limit_depression: Pressure = estimate(1.5e3, 3.5e3, 4.0e3);
    /// Temperature of the hot metal around the coolant when the engine stops: after usual and after hard running.
    hot_metal_temperature: ThermodynamicTemperature = estimate(403.15, 423.15, 458.15);
}

/// Pump flow for each 1000 rpm, by displacement: about 0.12 L/s for each litre, as the two known classes have it.
#[must_use]
pub fn pump_flow(engine: &EngineInputs) -> Estimate<VolumeRate> {
    // V8 class of 5.0 to 5.7 L and four of 2.0 L: 0.6 and 0.3 L/s.
    by_class(engine, heat::pump_four().value, heat::pump_v8().value)
}

/// Heat into the coolant at idle, by displacement: 3 kW of a 2.0 L four, 8 kW of a 5.0 L V8.
#[must_use]
pub fn idle_heat(engine: &EngineInputs) -> Estimate<Power> {
    by_class(engine, heat::idle_heat_four().value, heat::idle_heat_v8().value)
}

/// Radiator conductance at 5 m/s of air at the face, by frontal area: the V8 class scaled.
#[must_use]
pub fn radiator_conductance(area: Area) -> Estimate<ThermalConductance> {
    let (ua, class) = (heat::radiator_conductance_v8().value, heat::frontal_area_v8().value.likely);
    ua.map(|ua| ThermalConductance::from_base(ua.base() * area.base() / class.base()))
}

/// Air density at which a stated conductance holds: 34 °C at sea level.
#[must_use]
pub fn radiator_reference_density() -> MassDensity {
    MassDensity::from_base(1.15)
}

/// Heat the engine loses to the air around it, left out of the balance: the hot side is the safe side.
#[must_use]
pub fn engine_loss(_engine: &EngineInputs) -> ThermalConductance {
    ThermalConductance::from_base(0.0)
}

/// Heat capacity of the metal that is hotter than the coolant: 2.3 to 3 kJ/K for each litre of displacement.
#[must_use]
pub fn hot_metal_capacity(engine: &EngineInputs) -> Estimate<HeatCapacity> {
    let litres = engine.swept() * 1e3;
    let light = if engine.head_metal == EngineMetal::Aluminium { 1.1 } else { 1.0 };
    estimate(2.0e3 * litres * light, 2.5e3 * litres * light, 3.2e3 * litres * light)
}

/// Between the class of a 2.0 L four and that of a 5.0 L V8 by displacement, and in proportion beyond them.
fn by_class<Q: Measured>(engine: &EngineInputs, four: Estimate<Q>, eight: Estimate<Q>) -> Estimate<Q> {
    let litres = engine.swept() * 1e3;
    let between = |small: Q, large: Q| {
        Q::from_base(if litres <= 2.0 {
            small.base() * litres / 2.0
        } else if litres >= 5.0 {
            large.base() * litres / 5.0
        } else {
            small.base() + (large.base() - small.base()) * (litres - 2.0) / 3.0
        })
    };
    Estimate {
        low: between(four.low, eight.low),
        likely: between(four.likely, eight.likely),
        high: between(four.high, eight.high),
    }
}
