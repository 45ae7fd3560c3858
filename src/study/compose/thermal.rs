//! Where the coolant settles at each duty, for the fitted thermostat and for the others.

use super::Fail;
use super::context::Context;
use super::engine_heat::EngineHeat;
use super::fan::{airflow, settles_cooling, switch};
use super::oil_heat::with_beside;
use super::radiators::{Radiators, pump};
use crate::heat::fan::solve_with_fan;
use crate::heat::{self, Balance, FanState, Outcome, Radiator, Ruler, Thermostat};
use crate::quantity::si::{AngularVelocity, Power, Ratio, ThermodynamicTemperature, Velocity};
use crate::quantity::{AbsolutePressure, Amount, Estimate, Kind, Measured};
use crate::scribe::{Scribe, Silent, Step};
use crate::source::heat as source;
use crate::study::{Duty, Problems, Thermal, defaults};

/// The heat side of one duty.
#[derive(Clone, Debug)]
pub(super) struct DutyHeat {
    pub engine: EngineHeat,
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

pub(super) fn thermostat(context: &Context<'_>, set_point: ThermodynamicTemperature) -> Thermostat {
    let inputs = &context.project.thermostat;
    Thermostat {
        set_point,
        span: inputs.span.unwrap_or_else(defaults::thermostat_span).likely,
        resistance_share: inputs.resistance_share.unwrap_or_else(defaults::thermostat_resistance_share).likely,
    }
}

/// The balance of the coolant alone, heater off and without an oil cooler.
pub(super) fn bare(
    context: &Context<'_>,
    radiator: &Radiator,
    set_point: ThermodynamicTemperature,
    duty: Duty,
    heat: Power,
    ceiling: ThermodynamicTemperature,
    scribe: &mut impl Scribe,
) -> Result<Balance, Problems> {
    let inputs = context.project.duty.of(duty);
    bare_at(context, radiator, set_point, (inputs.road_speed, inputs.rpm), heat, ceiling, scribe)
}

/// The same at any road and engine speed.
pub(super) fn bare_at(
    context: &Context<'_>,
    radiator: &Radiator,
    set_point: ThermodynamicTemperature,
    speeds: (Velocity, AngularVelocity),
    heat: Power,
    ceiling: ThermodynamicTemperature,
    scribe: &mut impl Scribe,
) -> Result<Balance, Problems> {
    let hottest = context.project.surroundings.hottest;
    Ok(Balance {
        radiator: *radiator,
        thermostat: thermostat(context, set_point),
        pump: pump(context),
        engine_speed: speeds.1,
        airflow: airflow(context, radiator.frontal_area, speeds, hottest, scribe)?,
        mix: context.mix,
        ambient_pressure: context.ambient,
        ambient_temperature: hottest,
        heat,
        engine_loss: defaults::engine_loss(),
        ceiling,
    })
}

/// The balance with what stands beside the radiator in this project.
pub(super) fn balance(
    context: &Context<'_>,
    radiator: &Radiator,
    set_point: ThermodynamicTemperature,
    duty: Duty,
    heat: Power,
    ceiling: ThermodynamicTemperature,
) -> Result<Balance, Problems> {
    let bare = bare(context, radiator, set_point, duty, heat, ceiling, &mut Silent)?;
    with_beside(context, duty, bare, context.project.heater.on, &mut Silent)
}

/// The fitted thermostat at one duty on the hottest day.
pub(super) fn duty_heat(
    context: &Context<'_>,
    radiators: &Radiators,
    duty: Duty,
    ceiling: ThermodynamicTemperature,
    scribe: &mut impl Scribe,
) -> Result<DutyHeat, Problems> {
    let path = format!("duty.{}", duty.word());
    scribe.chapter(&format!("heat/{}", duty.word()), &format!("Heat into the coolant: {}", duty.name()));
    let engine = EngineHeat::of(context, duty, scribe)?;
    let heat = engine.coolant;
    scribe.chapter(&format!("balance/{}", duty.word()), &format!("Coolant temperature: {}", duty.name()));
    let set_point = context.project.thermostat.set_point;
    let bare = bare(context, radiators.likely(), set_point, duty, heat.likely, ceiling, scribe)?;
    let fitted = with_beside(context, duty, bare, context.project.heater.on, scribe)?;
    let (outcome, fan) = solve_with_fan(&fitted, switch(context).as_ref(), scribe).fail(path.as_str())?;
    let mut holds_unfavourable = true;
    for (radiator, heat) in radiators.unfavourable(context, &heat) {
        let worse = balance(context, radiator, set_point, duty, heat, ceiling)?;
        let (outcome, _) = solve_with_fan(&worse, switch(context).as_ref(), &mut Silent).fail(path.as_str())?;
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
    let cooling = match &outcome {
        Outcome::Steady(state) if state.ruler == Ruler::ThermostatRules => {
            scribe.chapter(
                &format!("cooling/{}", duty.word()),
                &format!("Coolant temperature after hotter running: {}", duty.name()),
            );
            settles_cooling(context, &fitted, scribe)?
        }
        // Wide open it is so on the way down too, since it closes lower than it opens; shut it has no way down.
        Outcome::Steady(state) => Some(state.outlet_temperature),
        Outcome::None(_) => None,
    };
    let thermal = thermal(&outcome, heat.likely, fan, cooling);
    Ok(DutyHeat { engine, heat, thermal, outlet, radiator_outlet, holds_unfavourable })
}

fn thermal(
    outcome: &Outcome,
    heat: Power,
    fan: FanState,
    settles_cooling: Option<ThermodynamicTemperature>,
) -> Thermal {
    match outcome {
        Outcome::None(none) => Thermal::NoSteadyState {
            excess: none.deficit,
            thermostat_too_late: none.reason == heat::Reason::ThermostatTooLate,
            fan,
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
            settles_cooling,
            fan,
            face_velocity: state.face_velocity,
            closure: Ratio::from_base(state.closure.residual.base() / heat.base().max(1.0)),
        },
    }
}

/// One thermostat setting at one duty: outlet temperature, opening, whether the radiator rules.
pub(super) struct SettingAt {
    pub outlet: Option<ThermodynamicTemperature>,
    pub opening: Ratio,
    pub radiator_rules: bool,
    pub fan: FanState,
    /// Outlet, or the limit if it boils.
    pub reckoned: ThermodynamicTemperature,
    /// The hottest air in which the thermostat still rules, and in which it stays below boiling; the heat to spare.
    pub reserve: heat::Reserve,
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
    let at = |setting: &ThermodynamicTemperature| -> Result<SettingAt, Problems> {
        let balance = balance(context, radiators.likely(), *setting, duty, heat, ceiling)?;
        let fan = switch(context);
        let reserve = balance.reserve(fan.as_ref()).fail(path.as_str())?;
        let (outcome, fan) = solve_with_fan(&balance, fan.as_ref(), &mut Silent).fail(path.as_str())?;
        Ok(match outcome {
            Outcome::Steady(state) => SettingAt {
                outlet: Some(state.outlet_temperature),
                opening: state.opening,
                radiator_rules: state.radiator_limited,
                fan,
                reckoned: state.outlet_temperature,
                reserve,
            },
            Outcome::None(none) => {
                let allowance = defaults::boiling_allowance().likely.base();
                SettingAt {
                    outlet: None,
                    opening: Ratio::from_base(1.0),
                    radiator_rules: none.reason == heat::Reason::RadiatorTooSmall,
                    fan,
                    reckoned: ThermodynamicTemperature::from_base(none.limit.base() + allowance),
                    reserve,
                }
            }
        })
    };
    settings.iter().map(at).collect()
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
        let larger = balance(context, &radiator, set_point, duty, heat, ceiling)?;
        let (outcome, _) = solve_with_fan(&larger, switch(context).as_ref(), &mut Silent).fail("radiator")?;
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
