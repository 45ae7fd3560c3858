//! Where the coolant settles at each duty, for the fitted thermostat and for the others.

use super::Fail;
use super::context::Context;
use super::radiators::{Radiators, airflow, pump};
use crate::heat::{self, Balance, EngineDuty, Outcome, Radiator, Ruler, Thermostat};
use crate::quantity::si::{Power, Ratio, ThermodynamicTemperature};
use crate::quantity::{AbsolutePressure, Amount, Estimate, Kind, Measured};
use crate::scribe::{Scribe, Silent, Step};
use crate::source::heat as source;
use crate::study::{Duty, Problems, Thermal, defaults};

/// Share of the rated power below which an idling engine counts as unloaded.
const IDLE_LOAD: f64 = 0.02;

/// The heat side of one duty.
#[derive(Clone, Debug)]
pub(super) struct DutyHeat {
    pub heat: Estimate<Power>,
    pub thermal: Thermal,
    pub outlet: ThermodynamicTemperature,
    pub radiator_outlet: ThermodynamicTemperature,
    /// Whether it still settles with the heat at its high end, and with the conductance at its low end.
    pub holds_unfavourable: bool,
}

impl DutyHeat {
    /// Heat that finds no way out, W.
    pub const fn excess(&self) -> f64 {
        match self.thermal {
            Thermal::NoSteadyState { excess, .. } => excess.value,
            _ => 0.0,
        }
    }
}

/// The temperature the coolant must settle below: boiling at the low end of the cap, less the hottest passage's
/// excess and the allowance.
pub(super) fn ceiling(context: &Context<'_>, weakest: AbsolutePressure) -> Result<ThermodynamicTemperature, Problems> {
    let boils = context.mix.boiling_point(weakest, &mut Silent).fail("cap.opening")?;
    let excess = context.project.circuit.local_excess.unwrap_or_else(defaults::local_excess).likely;
    let allowance = defaults::boiling_allowance().likely;
    Ok(ThermodynamicTemperature::from_base(boils.base() - excess.base() - allowance.base()))
}

/// Heat into the coolant; on overrun with the fuel cut, that of friction alone.
pub(super) fn heat_of(
    context: &Context<'_>,
    speed: crate::quantity::si::AngularVelocity,
    power: Power,
    overrun: bool,
    scribe: &mut impl Scribe,
) -> Result<Estimate<Power>, String> {
    let duty = EngineDuty {
        displacement: crate::quantity::si::Volume::from_base(context.project.engine.swept()),
        speed,
        brake_power: power,
        rated_power: context.rated,
    };
    let model = context.heat_model();
    let heat = heat::heat_to_coolant(&duty, &model, scribe).map_err(|error| error.to_string())?.heat;
    if !overrun {
        return Ok(heat);
    }
    // Without fuel the friction power is what warms the engine: fuel power times the indicated efficiency.
    let efficiency = model.indicated_efficiency.likely.base();
    let friction = heat.map(|heat| Power::from_base(heat.base() * efficiency));
    scribe.step(|| {
        Step::new(
            "Heat of friction alone, fuel cut",
            "Q",
            "Q = f_c·P_friction = f_c·P_fuel·η_i",
            &source::COOLANT_SHARE,
        )
        .with("f_c·P_fuel", heat.likely)
        .with("η_i", model.indicated_efficiency.likely)
        .gives(friction.likely)
    });
    Ok(friction)
}

pub(super) fn thermostat(context: &Context<'_>, set_point: ThermodynamicTemperature) -> Thermostat {
    Thermostat { set_point, span: context.project.thermostat.span.unwrap_or_else(defaults::thermostat_span).likely }
}

fn balance(
    context: &Context<'_>,
    radiator: &Radiator,
    set_point: ThermodynamicTemperature,
    duty: Duty,
    heat: Power,
    ceiling: ThermodynamicTemperature,
) -> Balance {
    let inputs = context.project.duty.of(duty);
    Balance {
        radiator: *radiator,
        thermostat: thermostat(context, set_point),
        pump: pump(context),
        engine_speed: inputs.rpm,
        airflow: airflow(context, inputs.road_speed),
        mix: context.mix,
        ambient_pressure: context.ambient,
        ambient_temperature: context.project.surroundings.hottest,
        heat,
        engine_loss: defaults::engine_loss(),
        ceiling,
    }
}

/// The fitted thermostat at one duty on the hottest day.
pub(super) fn duty_heat(
    context: &Context<'_>,
    radiators: &Radiators,
    duty: Duty,
    ceiling: ThermodynamicTemperature,
    scribe: &mut impl Scribe,
) -> Result<DutyHeat, Problems> {
    let inputs = context.project.duty.of(duty);
    let path = format!("duty.{}", duty.word());
    scribe.chapter(&format!("heat/{}", duty.word()), &format!("Heat into the coolant: {}", duty.name()));
    let overrun = duty == Duty::Overrun;
    let heat = if duty == Duty::Idle && inputs.power.base() < IDLE_LOAD * context.rated.base() {
        // The friction model says too little of an idling engine; usual figures by displacement say more.
        let heat = defaults::idle_heat(&context.project.engine);
        scribe.step(|| {
            Step::new("Heat into the coolant at idle", "Q", "by displacement", &source::IDLE_HEAT)
                .with_amount("V_d", Amount::new(context.project.engine.swept(), Kind::Displacement))
                .gives(heat.likely)
        });
        heat
    } else {
        heat_of(context, inputs.rpm, inputs.power, overrun, scribe)
            .map_err(|message| super::problem(format!("{path}.power"), message))?
    };
    scribe.chapter(&format!("balance/{}", duty.word()), &format!("Coolant temperature: {}", duty.name()));
    let set_point = context.project.thermostat.set_point;
    let outcome = balance(context, radiators.likely(), set_point, duty, heat.likely, ceiling)
        .solve(scribe)
        .fail(path.as_str())?;
    let mut holds_unfavourable = true;
    for (radiator, heat) in radiators.unfavourable(context, &heat) {
        let outcome =
            balance(context, radiator, set_point, duty, heat, ceiling).solve(&mut Silent).fail(path.as_str())?;
        holds_unfavourable &= outcome.steady().is_some();
    }
    let (outlet, radiator_outlet) = match &outcome {
        Outcome::Steady(state) => (state.outlet_temperature, state.radiator.coolant_return),
        // It does not settle: what follows is reckoned where the hottest passage begins to boil.
        Outcome::None(none) => {
            let allowance = defaults::boiling_allowance().likely.base();
            let begins = ThermodynamicTemperature::from_base(none.limit.base() + allowance);
            (begins, begins)
        }
    };
    Ok(DutyHeat { heat, thermal: thermal(&outcome, heat.likely), outlet, radiator_outlet, holds_unfavourable })
}

fn thermal(outcome: &Outcome, heat: Power) -> Thermal {
    match outcome {
        Outcome::None(none) => Thermal::NoSteadyState {
            excess: none.deficit,
            thermostat_too_late: none.reason == heat::Reason::ThermostatTooLate,
        },
        Outcome::Steady(state) if state.ruler == Ruler::LossesRule => Thermal::StaysShut,
        Outcome::Steady(state) => Thermal::Steady {
            opening: state.opening,
            fully_open_at: state.fully_open_temperature,
            radiator_rules: state.radiator_limited,
            radiator_outlet: state.radiator.coolant_return,
            spare: state.radiator_spare,
            holds_to: state.hottest_ambient_thermostat_rules,
            boils_above: state.hottest_ambient,
            closure: Ratio::from_base(state.closure.residual.base() / heat.base().max(1.0)),
        },
    }
}

/// One thermostat setting at one duty: outlet temperature, opening, whether the radiator rules.
pub(super) struct SettingAt {
    pub outlet: Option<ThermodynamicTemperature>,
    pub opening: Ratio,
    pub radiator_rules: bool,
    /// Outlet, or the limit if it boils.
    pub reckoned: ThermodynamicTemperature,
}

/// Every setting at one duty.
pub(super) fn settings_at(
    context: &Context<'_>,
    radiators: &Radiators,
    settings: &[ThermodynamicTemperature],
    duty: Duty,
    heat: Power,
    ceiling: ThermodynamicTemperature,
) -> Result<Vec<SettingAt>, Problems> {
    let path = format!("duty.{}", duty.word());
    let own = context.project.thermostat.set_point;
    let balance = balance(context, radiators.likely(), own, duty, heat, ceiling);
    let rows = heat::compare_set_points(&balance, settings, &mut Silent).fail(path)?;
    Ok(rows
        .into_iter()
        .map(|row| match row.outcome {
            Outcome::Steady(state) => SettingAt {
                outlet: Some(state.outlet_temperature),
                opening: state.opening,
                radiator_rules: state.radiator_limited,
                reckoned: state.outlet_temperature,
            },
            Outcome::None(none) => {
                let allowance = defaults::boiling_allowance().likely.base();
                SettingAt {
                    outlet: None,
                    opening: Ratio::from_base(1.0),
                    radiator_rules: none.reason == heat::Reason::RadiatorTooSmall,
                    reckoned: ThermodynamicTemperature::from_base(none.limit.base() + allowance),
                }
            }
        })
        .collect())
}

/// How much larger the radiator, conductance and area alike, must be for a duty to settle; `None` beyond threefold.
pub(super) fn radiator_needed(
    context: &Context<'_>,
    radiators: &Radiators,
    duty: Duty,
    heat: Power,
    ceiling: ThermodynamicTemperature,
) -> Result<Option<f64>, Problems> {
    let set_point = context.project.thermostat.set_point;
    let settles = |by: f64| -> Result<bool, Problems> {
        let radiator = radiators.scaled(by);
        let outcome =
            balance(context, &radiator, set_point, duty, heat, ceiling).solve(&mut Silent).fail("radiator")?;
        Ok(outcome.steady().is_some())
    };
    let (mut low, mut high) = (1.0, 3.0);
    if !settles(high)? {
        return Ok(None);
    }
    while high - low > 0.01 {
        let middle = 0.5 * (low + high);
        if settles(middle)? {
            high = middle;
        } else {
            low = middle;
        }
    }
    Ok(Some(high))
}

/// Coolant in the engine after a hot stop, once hot metal and coolant are even and nothing is lost to the air.
pub(super) fn soak(
    context: &Context<'_>,
    hottest: ThermodynamicTemperature,
    coolant_capacity: f64,
    scribe: &mut impl Scribe,
) -> Estimate<ThermodynamicTemperature> {
    scribe.chapter("hot-stop", "Hot stop, no heat lost");
    let circuit = &context.project.circuit;
    let metal = circuit.hot_metal_capacity.unwrap_or_else(|| defaults::hot_metal_capacity(&context.project.engine));
    let metal_temperature = circuit.hot_metal_temperature.unwrap_or_else(defaults::hot_metal_temperature);
    let even = |capacity: f64, temperature: f64| {
        let heat = capacity * temperature + coolant_capacity * hottest.base();
        ThermodynamicTemperature::from_base(heat / (capacity + coolant_capacity))
    };
    let likely = even(metal.likely.base(), metal_temperature.likely.base());
    let bounds = Estimate::sorted(
        even(metal.low.base(), metal_temperature.low.base()),
        likely,
        even(metal.high.base(), metal_temperature.high.base()),
    );
    scribe.step(|| {
        Step::new(
            "Coolant in the engine once metal and coolant are even",
            "T",
            "T = (C_h·T_h + C_c·T_c)/(C_h + C_c)",
            &source::SOAK_BOUND,
        )
        .with("C_h", metal.likely)
        .with("T_h", metal_temperature.likely)
        .with_amount("C_c", Amount::new(coolant_capacity, Kind::HeatCapacity))
        .with("T_c", hottest)
        .gives(likely)
    });
    bounds
}
