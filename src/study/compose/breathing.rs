//! What the engine breathes: the manifold pressure of each duty, and whether the powers entered can be made at all.

use super::context::Context;
use super::{Fail, manifold, problem};
use crate::crankcase::cylinder;
use crate::heat::{self, Breathing, EngineDuty, Ignition, defaults};
use crate::note::{Note, Weight};
use crate::quantity::si::{AngularVelocity, MassRate, Power, Pressure, Volume};
use crate::quantity::{AbsolutePressure, Amount, FuelPerWork, Measured, UnitSystem};
use crate::scribe::{Scribe, Silent, Step};
use crate::source::heat as source;
use crate::study::{Duty, Problem, Problems};

/// Refuses a power that would take more brake mean effective pressure than such an engine makes in this air.
///
/// bmep = 2·P/(V_d·n) with n in revolutions per second; the most there is goes with the pressure of the air, with a blower
/// with that in the manifold.
pub(super) fn check_powers(context: &Context<'_>, scribe: &mut impl Scribe) -> Result<(), Problems> {
    let sea_level = crate::fluid::crankcase_gas::standard_pressure().base();
    let (at_sea_level, source) = match context.ignition() {
        Ignition::Spark => (defaults::most_mean_pressure().likely(), &source::MEAN_PRESSURE),
        Ignition::Diesel => (defaults::most_mean_pressure_diesel().likely(), &source::MEAN_PRESSURE_DIESEL),
    };
    let boosted = context.project.engine.is_boosted();
    let displacement = context.project.engine.swept();
    scribe.chapter("mean-pressure", "Brake mean effective pressure of the powers entered");
    let mut problems = Vec::new();
    for duty in Duty::ALL {
        let inputs = context.project.duty.of(duty);
        let charge = if boosted { manifold::most(context, duty) } else { context.ambient };
        let most = at_sea_level.base() * charge.base() / sea_level;
        let each_second = displacement * inputs.rpm.base() / (4.0 * std::f64::consts::PI);
        let mean_pressure = inputs.power.base() / each_second;
        if mean_pressure > most {
            let shown = |power: f64| Amount::of(Power::from_base(power)).show(UnitSystem::Si);
            let message = format!(
                "{} at this speed takes a brake mean effective pressure of {:.1} bar; {} makes at most about {:.1} bar in the \
                 air of this altitude, {} here: check power, speed, bore, stroke and altitude{}",
                shown(inputs.power.base()),
                mean_pressure / 1e5,
                match (context.ignition(), boosted) {
                    (Ignition::Spark, false) => "an engine without a blower",
                    (Ignition::Diesel, false) => "a diesel without a blower",
                    (_, true) => "an engine with this boost",
                },
                most / 1e5,
                shown(most * each_second),
                if boosted { ", and the boost" } else { "" }
            );
            problems.push(Problem { path: format!("duty.{}.power", duty.word()), message });
        } else if mean_pressure > 0.0 {
            scribe.step(|| {
                let meaning = "Brake mean effective pressure of a power entered";
                Step::new(meaning, "bmep", "bmep = 2·P/(V_d·n)", source)
                    .with("P", inputs.power)
                    .with("n", inputs.rpm)
                    .with("most", Pressure::from_base(most))
                    .gives(Pressure::from_base(mean_pressure))
            });
        }
    }
    if problems.is_empty() { Ok(()) } else { Err(Problems(problems)) }
}

/// The manifold pressure that goes with a power on the road: the fuel is that of the heat side, so that the engine burns
/// one amount of fuel at one duty.
pub(super) fn at_power(
    context: &Context<'_>,
    duty: Duty,
    scribe: &mut impl Scribe,
) -> Result<(AbsolutePressure, Option<Note>), Problems> {
    let path = format!("duty.{}.power", duty.word());
    scribe.chapter(&format!("manifold/{}", duty.word()), &format!("Manifold pressure: {}", duty.name()));
    let air_fuel = defaults::air_fuel_ratio().likely().base();
    let mut breathing = breathing(context, duty, air_fuel, scribe)?;
    // No throttle is wider open than wide open.
    let most = manifold::most(context, duty);
    let open = || Ok((most, Some(manifold::wide_open_note(duty, most))));
    if context.project.engine.is_boosted() {
        breathing.ambient_pressure = most;
        // The blower warms the charge, a warmer charge takes more pressure: each round adds less than half the one before.
        let cold = breathing.intake_temperature;
        for _ in 0..40 {
            let Ok(manifold) = breathing.manifold(&mut Silent) else { return open() };
            let warm = cold + context.charge_rise(manifold.pressure, &mut Silent)?;
            let settled = (warm.base() - breathing.intake_temperature.base()).abs() < 1e-9;
            breathing.intake_temperature = warm;
            if settled {
                break;
            }
        }
    }
    match breathing.manifold(scribe) {
        Ok(manifold) if manifold.pressure.base() <= most.base() => Ok((manifold.pressure, None)),
        Ok(_) | Err(heat::HeatError::EngineCannotMake { .. }) => open(),
        Err(error) => Err(problem(path, error.to_string())),
    }
}

/// An engine at a duty, its consumption that of the heat side.
fn breathing(
    context: &Context<'_>,
    duty: Duty,
    air_fuel_ratio: f64,
    scribe: &mut impl Scribe,
) -> Result<Breathing, Problems> {
    let inputs = context.project.duty.of(duty);
    let displacement = Volume::from_base(context.project.engine.swept());
    let engine = EngineDuty { displacement, speed: inputs.rpm, brake_power: inputs.power, rated_power: context.rated };
    let heat = heat::heat_to_coolant(&engine, &context.heat_model(), &mut Silent)
        .fail(format!("duty.{}.power", duty.word()))?;
    let value = context.heating_value();
    let fuel = heat.fuel_power.base() / value.base();
    // Work near nothing leaves the consumption for each unit of work without a bound: it is counted on a little more.
    let work = inputs.power.base().max(fuel / heat::manifold::CONSUMPTION.high);
    let consumption = FuelPerWork::from_base(fuel / work);
    scribe.step(|| {
        Step::new("Specific fuel consumption", "b", "b = P_fuel/(H·P)", &source::HEATING_VALUE)
            .with("P_fuel", heat.fuel_power)
            .with("H", value)
            .with("P", Power::from_base(work))
            .gives(consumption)
    });
    Ok(Breathing {
        displacement,
        speed: inputs.rpm,
        brake_power: Power::from_base(work),
        consumption,
        air_fuel_ratio: Measured::from_base(air_fuel_ratio),
        volumetric_efficiency: defaults::volumetric_efficiency().likely(),
        intake_temperature: defaults::intake_temperature().likely(),
        ambient_pressure: context.ambient,
        least_pressure: AbsolutePressure::from_base(
            defaults::overrun_pressure().estimate.low.base().min(context.ambient.base()),
        ),
    })
}

/// The most power at full throttle that the air breathed can burn, everything at its favourable end: rich mixture or a
/// diesel at the edge of smoke, high volumetric and indicated efficiency.
///
/// P = η_v·V_d·n/2·ρ·H·η_i/AFR − fmep·V_d·n/2 with ρ = MAP/(R·T).
pub(super) fn burnable(context: &Context<'_>, manifold: AbsolutePressure) -> Result<Power, Problems> {
    let duty = Duty::FullThrottle;
    let inputs = context.project.duty.of(duty);
    let displacement = Volume::from_base(context.project.engine.swept());
    let engine = EngineDuty { displacement, speed: inputs.rpm, brake_power: inputs.power, rated_power: context.rated };
    let model = context.heat_model();
    let heat = heat::heat_to_coolant(&engine, &model, &mut Silent).fail("duty.full_throttle.power")?;
    let each_second = displacement.base() * inputs.rpm.base() / (4.0 * std::f64::consts::PI);
    let density = manifold.base()
        / (crate::fluid::air::gas_constant().base()
            * (defaults::intake_temperature().estimate.low + context.charge_rise(manifold, &mut Silent)?).base());
    let air = defaults::volumetric_efficiency().estimate.high.base() * each_second * density;
    let least_air = match context.ignition() {
        Ignition::Spark => defaults::air_fuel_ratio().estimate.low,
        Ignition::Diesel => cylinder::defaults::smoke_limit().estimate.low,
    };
    let fuel = air / least_air.base() * context.heating_value().base();
    let friction = heat.friction_mean_pressure.base() * each_second;
    Ok(Power::from_base((fuel * model.indicated_efficiency.high.base() - friction).max(0.0)))
}

/// What is to be said of a full-throttle power beyond what the air can burn.
pub(super) fn above_air(context: &Context<'_>) -> Option<Note> {
    let entered = context.project.duty.of(Duty::FullThrottle).power;
    (entered > context.burnable).then(|| {
        let text = format!(
            "Full throttle: {} is more than the air breathed here can burn, about {} at best: is it the power at sea level, \
             or from a catalogue? The blow-by by power is reckoned with the smaller one; the heat is reckoned with what \
             was entered.",
            Amount::of(entered).show(UnitSystem::Si),
            Amount::of(context.burnable).show(UnitSystem::Si)
        );
        Note::new("power-above-air", Weight::Weak, text)
    })
}

/// Fuel that an engine burns at a speed and a power, by the heat side: one amount of fuel at one duty.
pub(super) fn fuel_flow(
    context: &Context<'_>,
    speed: AngularVelocity,
    power: Power,
    path: &str,
) -> Result<MassRate, Problems> {
    let displacement = Volume::from_base(context.project.engine.swept());
    let rated_power = if power > context.rated { power } else { context.rated };
    let engine = EngineDuty { displacement, speed, brake_power: power, rated_power };
    let heat = heat::heat_to_coolant(&engine, &context.heat_model(), &mut Silent).fail(path)?;
    Ok(MassRate::from_base(heat.fuel_power.base() / context.heating_value().base()))
}
