//! What the engine breathes: the manifold pressure of each duty, and whether the powers entered can be made at all.

use super::context::Context;
use super::{Fail, problem};
use crate::heat::{self, Breathing, EngineDuty, HeatModel, Ignition, defaults};
use crate::note::{Note, Weight};
use crate::quantity::si::{Power, Pressure, Volume};
use crate::quantity::{AbsolutePressure, Amount, FuelPerWork, Measured, UnitSystem};
use crate::scribe::{Scribe, Silent, Step};
use crate::source::heat as source;
use crate::study::{Duty, Problem, Problems};

/// Refuses a power that would take more brake mean effective pressure than an engine without a blower makes in this air.
///
/// bmep = 2·P/(V_d·n) with n in revolutions per second; the most there is goes with the pressure of the air.
pub(super) fn check_powers(context: &Context<'_>, scribe: &mut impl Scribe) -> Result<(), Problems> {
    let sea_level = crate::fluid::crankcase_gas::standard_pressure().base();
    let most = defaults::most_mean_pressure().likely().base() * context.ambient.base() / sea_level;
    let displacement = context.project.engine.swept();
    scribe.chapter("mean-pressure", "Brake mean effective pressure of the powers entered");
    let mut problems = Vec::new();
    for duty in Duty::ALL {
        let inputs = context.project.duty.of(duty);
        let each_second = displacement * inputs.rpm.base() / (4.0 * std::f64::consts::PI);
        let mean_pressure = inputs.power.base() / each_second;
        if mean_pressure > most {
            let shown = |power: f64| Amount::of(Power::from_base(power)).show(UnitSystem::Si);
            let message = format!(
                "{} at this speed takes a brake mean effective pressure of {:.1} bar; an engine without a blower makes at \
                 most about {:.1} bar in the air of this altitude, {} here: check power, speed, bore, stroke and altitude",
                shown(inputs.power.base()),
                mean_pressure / 1e5,
                most / 1e5,
                shown(most * each_second)
            );
            problems.push(Problem { path: format!("duty.{}.power", duty.word()), message });
        } else if mean_pressure > 0.0 {
            scribe.step(|| {
                let meaning = "Brake mean effective pressure of a power entered";
                Step::new(meaning, "bmep", "bmep = 2·P/(V_d·n)", &source::MEAN_PRESSURE)
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
    let breathing = breathing(context, duty, defaults::air_fuel_ratio().likely().base(), scribe)?;
    // No throttle is wider open than wide open.
    let wide_open = context.ambient.base() - defaults::full_throttle_loss().estimate.low.base();
    let open = || {
        let text = format!(
            "{}: the power entered asks for all the air there is; the throttle is reckoned wide open, {} absolute in the \
             manifold.",
            duty.name(),
            Amount::of(AbsolutePressure::from_base(wide_open)).show(UnitSystem::Si)
        );
        Note::new("throttle-wide-open", Weight::Remark, text)
    };
    match breathing.manifold(scribe) {
        Ok(manifold) if manifold.pressure.base() <= wide_open => Ok((manifold.pressure, None)),
        Ok(_) | Err(heat::HeatError::EngineCannotMake { .. }) => {
            Ok((AbsolutePressure::from_base(wide_open), Some(open())))
        }
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
    let heat = heat::heat_to_coolant(&engine, &HeatModel::usual(Ignition::Spark), &mut Silent)
        .fail(format!("duty.{}.power", duty.word()))?;
    let value = defaults::heating_value().likely();
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

/// The most power at full throttle that the air breathed can burn, everything at its favourable end: rich mixture, high
/// volumetric and indicated efficiency.
///
/// P = η_v·V_d·n/2·ρ·H·η_i/AFR − fmep·V_d·n/2 with ρ = MAP/(R·T).
pub(super) fn burnable(context: &Context<'_>, manifold: AbsolutePressure) -> Result<Power, Problems> {
    let duty = Duty::FullThrottle;
    let inputs = context.project.duty.of(duty);
    let displacement = Volume::from_base(context.project.engine.swept());
    let engine = EngineDuty { displacement, speed: inputs.rpm, brake_power: inputs.power, rated_power: context.rated };
    let model = HeatModel::usual(Ignition::Spark);
    let heat = heat::heat_to_coolant(&engine, &model, &mut Silent).fail("duty.full_throttle.power")?;
    let each_second = displacement.base() * inputs.rpm.base() / (4.0 * std::f64::consts::PI);
    let density = manifold.base()
        / (crate::fluid::air::gas_constant().base() * defaults::intake_temperature().estimate.low.base());
    let air = defaults::volumetric_efficiency().estimate.high.base() * each_second * density;
    let fuel = air / defaults::air_fuel_ratio().estimate.low.base() * defaults::heating_value().likely().base();
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
