//! What the program takes where the builder does not know: each with a low, a likely and a high value.
//!
//! The figures live with the physics that uses them; this is their list under the names of the inputs.

use super::{Duty, DutyPoints, EngineInputs, EngineMetal, Induction};
use crate::crankcase::{
    arrangement::defaults as arrangement, blow_by::defaults as blow_by, cylinder::defaults as cylinder, element, joint,
    moisture::defaults as moisture, oil::defaults as oil,
};
use crate::quantity::si::{
    Angle, AngularVelocity, Area, HeatCapacity, KinematicViscosity, Length, Mass, MassDensity, Power, Pressure, Ratio,
    TemperatureInterval, ThermalConductance, ThermalConductivity, ThermodynamicTemperature, Time, Velocity, Volume,
    VolumeRate,
};
use crate::quantity::{Estimate, GaugePressure, LinearResistance, Measured, QuadraticResistance, Swell};
use crate::{
    coolant::defaults as coolant, day::road::defaults as road, fluid::crankcase_gas, heat::defaults as heat,
    heat::oil_defaults as oil_heat,
};

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
    thermostat_span: TemperatureInterval = heat::thermostat_span().estimate;
    /// How far a thermostat may start off its nominal setting.
    thermostat_tolerance: TemperatureInterval = heat::thermostat_tolerance().estimate;
    /// How much lower a thermostat closes than it opens.
    thermostat_closing_lag: TemperatureInterval = heat::thermostat_closing_lag().estimate;
    /// Share of the loop's flow resistance in the wide open thermostat.
    thermostat_resistance_share: Ratio = heat::thermostat_resistance_share().estimate;
    /// Pitch of a radiator's louvres.
    louvre_pitch: Length = heat::louvre_pitch().estimate;
    /// Angle of a radiator's louvres.
    louvre_angle: Angle = heat::louvre_angle().estimate;
    /// Length of a louvre over that of the fin.
    louvre_length: Ratio = heat::louvre_length_share().estimate;
    /// Conductivity of aluminium tubes and fins.
    aluminium_conductivity: ThermalConductivity = heat::aluminium_conductivity().estimate;
    /// Conductivity of copper fins.
    copper_conductivity: ThermalConductivity = heat::copper_conductivity().estimate;
    /// Conductivity of brass tubes.
    brass_conductivity: ThermalConductivity = heat::brass_conductivity().estimate;
    /// True heat transfer of a core's air side over that of the correlation.
    core_air_side: Ratio = heat::core_air_side().estimate;
    /// True heat transfer of a core's coolant side over that of the correlation.
    core_coolant_side: Ratio = heat::core_coolant_side().estimate;
    /// Further resistance of scale, dust and the fins' bond.
    core_fouling: Ratio = heat::core_fouling().estimate;
    /// Exponent of the pressure a core takes of the air.
    core_exponent: Ratio = heat::core_pressure_exponent().estimate;
    /// Area a fan without a shroud draws through over the area it sweeps.
    drawn_over_swept: Ratio = heat::drawn_over_swept().estimate;
    /// Gauge pressure of a tank meant to be open.
    allowed_pressure: Pressure = coolant::thin_can_limit().estimate;
    /// Temperature of the coolant in the tank, engine hot.
    tank_temperature: ThermodynamicTemperature = coolant::tank_temperature().estimate;
    /// Reserve in the tank against small leaks.
    leak_reserve: Ratio = coolant::leakage_share().estimate;
    /// Surge after a hot stop.
    surge: Ratio = coolant::surge_share().estimate;
    /// Face air speed over road speed.
    ram_share: Ratio = heat::ram_share().estimate;
    /// Face air speed from the fan.
    fan_speed: Velocity = heat::fan_velocity().estimate;
    /// Face air speed of a radiator's own draught.
    draught: Velocity = heat::draught().estimate;
    /// Recirculation at standstill.
    recirculation: TemperatureInterval = heat::recirculation_rise().estimate;
    /// Air filter depression at full throttle.
    filter_depression: Pressure = arrangement::air_cleaner_depression().estimate;
    /// Share of a leak-down loss that passes the rings.
    ring_share: Ratio = blow_by::ring_share().estimate;
    /// Running leak over standing leak.
    running_share: Ratio = blow_by::running_to_standing().estimate;
    /// Share of the way down to the outside air that a charge cooler takes.
    cooler_effectiveness: Ratio = cylinder::cooler_effectiveness().estimate;
    /// Gas past the shaft of a turbocharger over the blow-by of the rings.
    turbo_leak: Ratio = blow_by::turbo_leak().estimate;
    /// Mean temperature of the top ring.
    top_ring: ThermodynamicTemperature = blow_by::top_ring().estimate;
    /// Mean temperature of the second ring.
    second_ring: ThermodynamicTemperature = blow_by::second_ring().estimate;
    /// Temperature of the land below the top ring.
    top_land: ThermodynamicTemperature = blow_by::top_land().estimate;
    /// Temperature of the land below the second ring.
    second_land: ThermodynamicTemperature = blow_by::second_land().estimate;
    /// Temperature of the bore where the rings are near dead centre.
    bore_wall: ThermodynamicTemperature = blow_by::bore_wall().estimate;
    /// Crankcase gas temperature.
    gas_temperature: ThermodynamicTemperature = crankcase_gas::temperature().estimate;
    /// Discharge coefficient of the ring between a valve's plunger and its seat.
    ring_discharge: Ratio = element::annulus_discharge().estimate;
    /// Discharge coefficient of a known orifice with a sharp edge.
    known_discharge: Ratio = element::sharp_discharge().estimate;
    /// Opening pressure of a check valve.
    check_opens_at: Pressure = element::check_opening_pressure().estimate;
    /// What a PCV valve leaves open against a backfire.
    backfire_area: Area = element::back_opening().estimate;
    /// Effective area of a cover baffle.
    baffle_area: Area = element::baffle_area().estimate;
    /// Loading of a breather filter in use.
    filter_loading: Ratio = element::filter_loading().estimate;
    /// Share of a breather filter's pressure that goes with the flow itself, at the one point measured.
    linear_share: Ratio = element::linear_share().estimate;
    /// Pressure of wet knitted mesh over that of dry.
    mesh_soaked: Ratio = element::mesh_soaked().estimate;
    /// Opening pressure of a check valve.
    check_opening: Pressure = element::check_opening_pressure().estimate;
    /// Loss at the inlet of a catch can.
    can_inlet_loss: Ratio = element::can_inlet_loss().estimate;
    /// Loss at the outlet of a catch can.
    can_outlet_loss: Ratio = element::can_outlet_loss().estimate;
    /// Effective area between crankcase and an outlet in the valley.
    valley_baffle_area: Area = element::valley_baffle_area().estimate;
    /// Effective area between crankcase and an outlet in the block's side or the sump.
    sump_baffle_area: Area = element::sump_baffle_area().estimate;
    /// Small clean breather filter, linear part.
    element_linear: LinearResistance = element::breather_viscous().estimate;
    /// Small clean breather filter, quadratic part.
    element_quadratic: QuadraticResistance = element::breather_inertial().estimate;
    /// Crankcase gauge pressure under load.
    limit_load: GaugePressure = arrangement::limit_under_load().estimate;
    /// Crankcase gauge pressure at light load.
    limit_light: GaugePressure = arrangement::limit_at_light_load().estimate;
    /// Crankcase depression.
    limit_depression: Pressure = arrangement::limit_of_depression().estimate;
    /// Relative humidity of the air on a cold morning.
    humidity: Ratio = moisture::humidity().estimate;
    /// How far the oil has warmed when a short cold trip ends.
    trip_warmth: Ratio = moisture::trip_warmth().estimate;
    /// Where the wall of a catch can stands between air and oil.
    can_wall_share: Ratio = oil::can_wall_share().estimate;
    /// Burnt share of the blow-by.
    burnt_share: Ratio = moisture::burnt().estimate;
    /// Where the wall of a hose stands between air and oil.
    hose_share: Ratio = moisture::hose_share().estimate;
    /// Where the coldest wall of the cover stands between air and oil.
    wall_share: Ratio = moisture::wall_share().estimate;
    /// Height of the oil's way back from a cover.
    drain_height: Length = oil::drain_height().estimate;
    /// Oil standing over the lowest spot of a cover joint.
    oil_head: Length = joint::figures::oil_head().estimate;
    /// Temperature of the hot metal around the coolant when the engine stops: after usual and after hard running.
    hot_metal_temperature: ThermodynamicTemperature = heat::hot_metal_temperature().estimate;
    /// Oil cooler in the air, at 5 m/s at its face.
    oil_cooler_to_air: ThermalConductance = oil_heat::cooler_to_air().estimate;
    /// Oil cooler in the coolant.
    oil_cooler_to_coolant: ThermalConductance = oil_heat::cooler_to_coolant().estimate;
    /// Oil counted as warm.
    warm_oil: ThermodynamicTemperature = oil_heat::warm_oil().estimate;
    /// Idle before driving off cold.
    idle_first: Time = oil_heat::idle_first().estimate;
    /// Viscosity below which oil is counted as thin.
    thin_oil: KinematicViscosity = oil_heat::thin_oil().estimate;
    /// Heater core, fan on.
    heater: ThermalConductance = oil_heat::heater().estimate;
    /// Mass of the car with driver and fuel.
    car_mass: Mass = road::mass().estimate;
    /// Drag coefficient times frontal area.
    drag_area: Area = heat::drag_area().estimate;
    /// Rolling resistance coefficient.
    rolling_resistance: Ratio = heat::rolling_resistance().estimate;
    /// Drivetrain efficiency.
    drivetrain_efficiency: Ratio = heat::drivetrain_efficiency().estimate;
    /// Mass felt on acceleration over the car's mass.
    rotating_mass: Ratio = road::rotating().estimate;
    /// Share of full throttle kept in reserve when a gear is chosen.
    gear_reserve: Ratio = road::gear_reserve().estimate;
    /// Share of the full-throttle duty's engine speed from which torque is about flat.
    torque_flat_from: Ratio = road::flat_from().estimate;
    /// Share of the flat torque that is left at idle speed.
    torque_at_idle: Ratio = road::low_torque().estimate;
}

/// Highest engine speed: a tenth above that of the fastest duty point.
#[must_use]
pub fn highest_speed(duty: &DutyPoints) -> Estimate<AngularVelocity> {
    let fastest = duty.points.iter().map(|point| point.rpm.base()).fold(0.0, f64::max);
    road::highest_over_duty().estimate.map(|times| AngularVelocity::from_base(times.base() * fastest))
}

/// Engine speed below which one changes down: 1.6 times idle.
#[must_use]
pub fn lugging_speed(duty: &DutyPoints) -> Estimate<AngularVelocity> {
    let idle = duty.of(Duty::Idle).rpm.base();
    road::lugging_over_idle().estimate.map(|times| AngularVelocity::from_base(times.base() * idle))
}

/// Pump flow for each 1000 rpm, by displacement: about 0.12 L/s for each litre, as the two known classes have it.
#[must_use]
pub fn pump_flow(engine: &EngineInputs) -> Estimate<VolumeRate> {
    // V8 class of 5.0 to 5.7 L and four of 2.0 L: 0.6 and 0.3 L/s.
    by_class(engine, heat::pump_four().estimate, heat::pump_v8().estimate)
}

/// Boost at full throttle, by fuel and blower.
#[must_use]
pub fn boost(engine: &EngineInputs) -> Estimate<GaugePressure> {
    match (engine.is_diesel(), engine.induction == Induction::Supercharger) {
        (true, _) => cylinder::boost_of_diesel().estimate,
        (false, true) => cylinder::boost_of_blower().estimate,
        (false, false) => cylinder::boost_of_turbocharger().estimate,
    }
}

/// Heat into the coolant at idle, by displacement: 3 kW of a 2.0 L four, 8 kW of a 5.0 L V8; half of it of a diesel.
#[must_use]
pub fn idle_heat(engine: &EngineInputs) -> Estimate<Power> {
    let petrol = by_class(engine, heat::idle_heat_four().estimate, heat::idle_heat_v8().estimate);
    if !engine.is_diesel() {
        return petrol;
    }
    let share = heat::idle_heat_of_diesel().estimate;
    Estimate { low: petrol.low * share.low, likely: petrol.likely * share.likely, high: petrol.high * share.high }
}

/// Radiator conductance at 5 m/s of air at the face, by frontal area: the V8 class scaled.
#[must_use]
pub fn radiator_conductance(area: Area) -> Estimate<ThermalConductance> {
    let (ua, class) = (heat::radiator_conductance_v8().estimate, heat::frontal_area_v8().likely());
    ua.map(|ua| ThermalConductance::from_base(ua.base() * area.base() / class.base()))
}

/// Air density at which a stated conductance holds: 34 °C at sea level.
#[must_use]
pub fn radiator_reference_density() -> MassDensity {
    heat::reference_air_density().likely()
}

/// Pressure a core takes of the air at 5 m/s, by its depth if known.
#[must_use]
pub fn core_pressure(depth: Option<Length>) -> Estimate<Pressure> {
    match depth {
        Some(depth) => {
            let each = heat::core_pressure_for_each_metre().estimate;
            each.map(|each| Pressure::from_base(each.base() * depth.base()))
        }
        None => heat::core_pressure().estimate,
    }
}

/// Where a fan comes on: about 10 K above the thermostat's setting.
#[must_use]
pub fn fan_switch_on(set_point: ThermodynamicTemperature) -> Estimate<ThermodynamicTemperature> {
    heat::fan_on_above_setting()
        .estimate
        .map(|above| ThermodynamicTemperature::from_base(set_point.base() + above.base()))
}

/// Where it goes off: about 5 K below where it comes on.
#[must_use]
pub fn fan_switch_off(on: ThermodynamicTemperature) -> Estimate<ThermodynamicTemperature> {
    let gap = heat::fan_off_below_on().estimate;
    let below = |gap: TemperatureInterval| ThermodynamicTemperature::from_base(on.base() - gap.base());
    Estimate { low: below(gap.high), likely: below(gap.likely), high: below(gap.low) }
}

/// Heat the engine loses to the air around it, left out of the balance: the hot side is the safe side.
#[must_use]
pub fn engine_loss() -> ThermalConductance {
    ThermalConductance::from_base(0.0)
}

/// Heat capacity of the metal that is hotter than the coolant: 2.5 kJ/K (2 to 3.2) for each litre of displacement.
#[must_use]
pub fn hot_metal_capacity(engine: &EngineInputs) -> Estimate<HeatCapacity> {
    let litres = engine.swept() * 1e3;
    let aluminium = engine.head_metal == EngineMetal::Aluminium;
    let metal = if aluminium { heat::hot_metal_of_aluminium().likely().base() } else { 1.0 };
    heat::hot_metal_for_each_litre().estimate.map(|each| HeatCapacity::from_base(each.base() * litres * metal))
}

/// Conductance from the metal of the chambers to the coolant: 200 W/K (120 to 350) for each litre of displacement.
#[must_use]
pub fn metal_conductance(engine: &EngineInputs) -> Estimate<ThermalConductance> {
    by_litre(engine, oil_heat::metal_for_each_litre().estimate)
}

/// The same without flow: 12 W/K for each litre.
#[must_use]
pub fn metal_without_flow(engine: &EngineInputs) -> Estimate<ThermalConductance> {
    by_litre(engine, oil_heat::metal_without_flow().estimate)
}

/// Conductance between oil and block: 100 W/K (50 to 220) for each litre of displacement.
#[must_use]
pub fn oil_to_block(engine: &EngineInputs) -> Estimate<ThermalConductance> {
    by_litre(engine, oil_heat::block_for_each_litre().estimate)
}

/// Conductance of the sump to still air, by displacement.
#[must_use]
pub fn sump_still(engine: &EngineInputs) -> Estimate<ThermalConductance> {
    by_litre(engine, oil_heat::sump_still_for_each_litre().estimate)
}

/// What the wind adds to it at 90 km/h, by displacement.
#[must_use]
pub fn sump_driving(engine: &EngineInputs) -> Estimate<ThermalConductance> {
    by_litre(engine, oil_heat::sump_driving_for_each_litre().estimate)
}

/// Oil in the engine: 4 L of a 2.0 L four, 5 L of a 5.0 L V8.
#[must_use]
pub fn oil_volume(engine: &EngineInputs) -> Estimate<Volume> {
    by_class(engine, oil_heat::oil_volume_four().estimate, oil_heat::oil_volume_v8().estimate)
}

/// Metal that warms with the oil: 27 kJ/K of a 2.0 L four, 48 kJ/K of a 5.0 L V8.
#[must_use]
pub fn oil_metal(engine: &EngineInputs) -> Estimate<HeatCapacity> {
    by_class(engine, oil_heat::oil_metal_four().estimate, oil_heat::oil_metal_v8().estimate)
}

/// Effective heat capacity of engine and coolant: 50 kJ/K of a 2.0 L four, 100 kJ/K of a 5.0 L V8.
#[must_use]
pub fn engine_capacity(engine: &EngineInputs) -> Estimate<HeatCapacity> {
    by_class(engine, heat::heat_capacity_four().estimate, heat::heat_capacity_v8().estimate)
}

/// Conductance from the engine's surface to the air while it warms up.
#[must_use]
pub fn warm_up_loss(engine: &EngineInputs) -> Estimate<ThermalConductance> {
    by_class(engine, heat::engine_loss_four().estimate, heat::engine_loss_v8().estimate)
}

/// Heat to the coolant with these heads over that with iron ones.
#[must_use]
pub fn heads_factor(engine: &EngineInputs) -> Estimate<Ratio> {
    match engine.head_metal {
        EngineMetal::Iron => oil_heat::iron_heads().estimate,
        EngineMetal::Aluminium => oil_heat::aluminium_heads().estimate,
    }
}

/// A figure stated for each litre of displacement.
fn by_litre(engine: &EngineInputs, each: Estimate<ThermalConductance>) -> Estimate<ThermalConductance> {
    let litres = engine.swept() * 1e3;
    each.map(|each| ThermalConductance::from_base(each.base() * litres))
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

#[cfg(test)]
mod tests {
    use crate::crankcase::blow_by::{Condition, defaults as blow_by};
    use crate::crankcase::{arrangement, cylinder, element, joint};
    use crate::{coolant, fluid, heat};

    #[test]
    fn every_assumed_figure_is_in_order_and_in_its_range() {
        let tables = [
            coolant::defaults::soundness(),
            heat::defaults::soundness(),
            heat::oil_defaults::soundness(),
            fluid::crankcase_gas::soundness(),
            blow_by::soundness(),
            cylinder::defaults::soundness(),
            element::soundness(),
            arrangement::defaults::soundness(),
            joint::figures::soundness(),
            crate::day::road::defaults::soundness(),
        ];
        let mut count = 0;
        for (name, sound) in tables.into_iter().flatten() {
            assert!(sound, "{name}");
            count += 1;
        }
        assert!(count > 140, "{count} figures");
        for condition in Condition::ALL {
            assert!(blow_by::share_of_air(condition).is_sound() && blow_by::per_kilowatt(condition).is_sound());
            assert!(blow_by::assumed_loss(condition).is_sound() && blow_by::side_slit(condition).is_sound());
        }
    }
}
