//! The curves of the heat balance.

mod map;
mod road;
mod stretches;

use super::context::Context;
use super::coolant::Side;
use super::radiators::Radiators;
use super::set_points::{is_fitted, settings};
use super::{Fail, fan, problem, thermal};
use crate::heat::{Balance, Capacity, FanSwitch, HeatError, Reserve, Ruler};
use crate::quantity::si::{Power, ThermodynamicTemperature};
use crate::quantity::{Amount, Estimate, GaugePressure, Measured, ZERO_CELSIUS};
use crate::say;
use crate::scribe::Silent;
use crate::study::answers::HOTTEST_ROAD_AIR;
use crate::study::{
    Duty, DutyHeatCurves, HeatCurves, HeatPoint, HeatRoad, HeatRule, OilCooling, Problems, Project, Sentence,
    SetPointCurve,
};

/// The coldest air of the curves, K, unless the project knows a colder one.
const COLDEST: f64 = ZERO_CELSIUS - 20.0;
/// Between two points of a curve, K; kinks are points besides.
const STEP: f64 = 2.5;

/// The curves of a checked project.
pub(in crate::study) fn heat_curves(project: &Project) -> Result<HeatCurves, Problems> {
    let context = Context::new(project, &mut Silent)?;
    let side = Side::new(&context, &mut Silent)?;
    let radiators = Radiators::of(&context, &mut Silent)?;
    let ceiling = thermal::ceiling(&context, side.limit(GaugePressure::from_base(0.0)).low)?;
    let switch = fan::switch(&context);
    let fan = switch.as_ref();
    let mut balances = Vec::with_capacity(5);
    let mut duties = Vec::with_capacity(5);
    for duty in Duty::ALL {
        let heat = thermal::duty_heat(&context, &radiators, duty, ceiling, &mut Silent)?.heat;
        let of = |set_point| thermal::balance(&context, radiators.likely(), set_point, duty, heat.likely, ceiling);
        let balance = of(project.thermostat.set_point)?;
        duties.push(of_duty(&context, &radiators, duty, heat, (&balance, fan), of)?);
        balances.push(balance);
    }
    let idle = balances.first().ok_or_else(|| problem("duty", "there is no duty point"))?;
    let reserve = idle.reserve(fan).fail("duty.idle")?;
    let with = map::With { context: &context, radiator: radiators.likely(), ceiling, switch: fan, balances: &balances };
    // The curves stand without it.
    let maps = HeatRoad::ALL.map(|road| map::map(&with, road).map_err(|problems| plain(&problems)));
    Ok(HeatCurves {
        hottest: project.surroundings.hottest,
        full_open: idle.thermostat.full_open(),
        limit: reserve.limit,
        duties,
        notes: notes(project, fan, idle.thermostat.full_open()),
        maps,
    })
}

/// Faults in one line.
fn plain(problems: &Problems) -> String {
    problems.0.iter().map(|problem| problem.message.as_str()).collect::<Vec<_>>().join("; ")
}

/// What to know beside the curves.
fn notes(project: &Project, fan: Option<&FanSwitch>, full_open: ThermodynamicTemperature) -> Vec<Sentence> {
    let mut notes = Vec::new();
    if let Some(FanSwitch { on, off }) = fan {
        let on_at = *on;
        let (on, off) = (Amount::of(*on), Amount::of(*off));
        notes.push(say![
            "The fan comes on at ",
            on,
            " and goes off at ",
            off,
            ". Where it goes on and off in turn the hot end is told; what the radiator carries is told with the fan running."
        ]);
        if full_open < on_at {
            notes.push(say![
                "The fitted thermostat is fully open at ",
                Amount::of(full_open),
                ", cooler than where the fan comes on: where it gives way is reckoned with the fan standing still, but for air in \
                 which the fan has come on before and stays on."
            ]);
        }
    }
    if project.heater.on || project.oil.cooling != OilCooling::None {
        notes.push(say!["What heater and oil cooler bring is taken in other air as on the hottest day."]);
    }
    notes
}

/// The coldest and the hottest air of the curves, K.
fn ends(context: &Context<'_>) -> (f64, f64) {
    (context.project.surroundings.coldest.base().min(COLDEST), HOTTEST_ROAD_AIR)
}

fn of_duty(
    context: &Context<'_>,
    radiators: &Radiators,
    duty: Duty,
    heat: Estimate<Power>,
    (balance, fan): (&Balance, Option<&FanSwitch>),
    of: impl Fn(ThermodynamicTemperature) -> Result<Balance, Problems>,
) -> Result<DutyHeatCurves, Problems> {
    let path = format!("duty.{}", duty.word());
    let mut capacities = Vec::with_capacity(3);
    // What heater and oil cooler bring is no heat of the engine: what is left for it counts.
    let beside = balance.heat.base() - heat.likely.base();
    let left = |power: Power| Power::from_base(power.base() - beside);
    for radiator in radiators.each() {
        let whole = Balance { radiator: *radiator, ..*balance }.capacity().fail(path.as_str())?;
        capacities.push(Capacity { full_open: whole.full_open.map(left), limit: left(whole.limit) });
    }
    let [low, likely, high] = capacities.as_slice() else {
        return Err(problem("radiator", "the radiator could not be worked out"));
    };
    let at_full_open = match (low.full_open, likely.full_open, high.full_open) {
        (Some(low), Some(likely), Some(high)) => Some(Estimate::sorted(low, likely, high)),
        _ => None,
    };
    let fitted = context.project.thermostat.set_point;
    let mut set_points = Vec::new();
    for set_point in settings(fitted) {
        let with = of(set_point)?;
        let reserve = with.reserve(fan).fail(path.as_str())?;
        set_points.push(SetPointCurve {
            set_point,
            fitted: is_fitted(set_point, fitted),
            opens_at: reserve.opens_at,
            holds_to: reserve.holds_to,
            boils_above: reserve.settles_to,
            points: points(&with, fan, &reserve, ends(context)).fail(path.as_str())?,
        });
    }
    Ok(DutyHeatCurves {
        duty,
        road_speed: context.project.duty.of(duty).road_speed,
        heat,
        at_full_open,
        at_limit: Estimate::sorted(low.limit, likely.limit, high.limit),
        set_points,
    })
}

/// Where the coolant settles in some air, and who sets it.
pub(super) fn point(balance: &Balance, fan: Option<&FanSwitch>, ambient: f64) -> Result<HeatPoint, HeatError> {
    let ambient = ThermodynamicTemperature::from_base(ambient);
    let settled = Balance { ambient_temperature: ambient, ..*balance }.settles(fan)?;
    let rule = match settled {
        None => HeatRule::Boils,
        Some((_, Ruler::LossesRule)) => HeatRule::Losses,
        Some((_, Ruler::ThermostatRules)) => HeatRule::Thermostat,
        Some((_, Ruler::RadiatorRules)) => HeatRule::Radiator,
    };
    Ok(HeatPoint { ambient, outlet: settled.map(|(t, _)| t), rule })
}

/// Even steps, and the borders between them at their exact places, where the temperature is known without solving.
fn points(
    balance: &Balance,
    fan: Option<&FanSwitch>,
    reserve: &Reserve,
    (low, high): (f64, f64),
) -> Result<Vec<HeatPoint>, HeatError> {
    let steps = ((high - low) / STEP).round().max(1.0) as u32;
    let mut points = Vec::with_capacity(steps as usize + 4);
    for i in 0..=steps {
        let air = if i == steps { high } else { low + (high - low) * f64::from(i) / f64::from(steps) };
        points.push(point(balance, fan, air)?);
    }
    let mut kinks = Vec::with_capacity(5);
    let mut kink = |air: Option<ThermodynamicTemperature>, outlet, rule| {
        if let Some(ambient) = air.filter(|air| air.base() > low && air.base() < high) {
            kinks.push(HeatPoint { ambient, outlet: Some(outlet), rule });
        }
    };
    kink(reserve.opens_at, balance.thermostat.set_point, HeatRule::Losses);
    kink(reserve.holds_to, reserve.gives_way_at, HeatRule::Thermostat);
    kink(reserve.settles_to, reserve.limit, HeatRule::Radiator);
    if let Some(FanSwitch { on, off }) = fan {
        // Up to the first the fan stands still, up to the second it goes on and off, beyond it runs on; there the
        // temperature steps down from the hot end of the turn.
        let at = |t| if t >= balance.thermostat.full_open() { HeatRule::Radiator } else { HeatRule::Thermostat };
        let (comes, runs) = (balance.without_fan().air_for(*on)?, balance.air_for(*off)?);
        kink(comes, *on, at(*on));
        match (comes, runs) {
            (Some(comes), Some(runs)) if runs > comes => {
                kink(Some(runs), *on, at(*on));
                kink(Some(runs), *off, at(*off));
            }
            // Off the curve it is nobody's question.
            (Some(comes), _) if comes.base() > low && comes.base() < high => {
                let running = point(balance, None, comes.base())?;
                if let Some(outlet) = running.outlet {
                    kink(Some(comes), outlet, running.rule);
                }
            }
            _ => {}
        }
    }
    // A step on the very place gives way to the exact one.
    points.retain(|point| kinks.iter().all(|kink| (point.ambient.base() - kink.ambient.base()).abs() > 1e-5));
    points.extend(kinks);
    points.sort_by(|a, b| a.ambient.base().total_cmp(&b.ambient.base()));
    Ok(points)
}
