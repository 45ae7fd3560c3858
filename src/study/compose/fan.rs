//! The air that meets the radiator: ram, and a fan as stated or by its curve.

use super::context::Context;
use super::{Fail, problem};
use crate::fluid::air;
use crate::heat::fan::{cooling_branch, solve_with_fan};
use crate::heat::{self, Airflow, Balance, BeltDrive, CoreResistance, FanFitting, FanSwitch};
use crate::note::{Note, Weight};
use crate::quantity::si::{AngularVelocity, Area, Ratio, ThermodynamicTemperature, Velocity};
use crate::quantity::{Amount, Kind, Measured, UnitSystem};
use crate::scribe::{Scribe, Silent};
use crate::study::{Duty, FanControl, FanDrive, FanInputs, Problems, Shroud, defaults};

/// Face velocity at which the core's pressure is stated, m/s.
const STATED_AT: f64 = 5.0;

/// Air at a road and an engine speed, the fan running; the air `at` a temperature ahead of the core.
pub(super) fn airflow(
    context: &Context<'_>,
    face: Area,
    (road_speed, engine): (Velocity, AngularVelocity),
    at: ThermodynamicTemperature,
    scribe: &mut impl Scribe,
) -> Result<Airflow, Problems> {
    let inputs = &context.project.radiator;
    Ok(Airflow {
        road_speed,
        ram_share: inputs.ram_share.unwrap_or_else(defaults::ram_share).likely,
        fan_velocity: fan_velocity(context, face, engine, at, scribe)?,
        draught: inputs.draught.unwrap_or_else(defaults::draught).likely,
        recirculation_rise: inputs.recirculation.unwrap_or_else(defaults::recirculation).likely,
        recirculation_gone_at: heat::defaults::recirculation_gone_at().likely(),
    })
}

fn fan_velocity(
    context: &Context<'_>,
    face: Area,
    engine: AngularVelocity,
    at: ThermodynamicTemperature,
    scribe: &mut impl Scribe,
) -> Result<Velocity, Problems> {
    let inputs = &context.project.radiator;
    let fan = &inputs.fan;
    if !fan.known {
        return Ok(inputs.fan_speed.unwrap_or_else(defaults::fan_speed).likely);
    }
    let drawn = match fan.shroud {
        Shroud::Full => 1.0,
        Shroud::None => {
            let over = fan.drawn_over_swept.unwrap_or_else(defaults::drawn_over_swept).likely;
            // More than the whole core there is not to draw through.
            (swept(fan) * over.base() / face.base()).min(1.0)
        }
    };
    let fitting = FanFitting {
        curve: fan.physics().fail("radiator.fan.curve")?,
        face,
        drawn: Ratio::from_base(drawn),
        resistance: CoreResistance {
            pressure: fan.core_pressure.unwrap_or_else(|| defaults::core_pressure(inputs.depth())).likely,
            at: Velocity::from_base(STATED_AT),
            exponent: fan.core_exponent.unwrap_or_else(defaults::core_exponent).likely,
        },
    };
    let turn = match fan.drive {
        FanDrive::Electric => Ratio::from_base(1.0),
        FanDrive::Belt => {
            let belt = BeltDrive { ratio: fan.ratio, table_speed: fan.curve_speed, most: fan.clutch_limit };
            belt.speed_ratio(engine, scribe).fail("radiator.fan.drive_ratio")?
        }
    };
    let density = air::density(context.ambient, at, &mut Silent).fail("surroundings.hottest")?;
    Ok(fitting.operate(turn, density, scribe).fail("radiator.fan.curve")?.face_velocity)
}

/// The fan's switch, if it has one.
pub(super) fn switch(context: &Context<'_>) -> Option<FanSwitch> {
    let project = context.project;
    project.radiator.fan.is_switched().then(|| {
        let (on, off) = project.radiator.fan.switches(project.thermostat.set_point);
        FanSwitch { on: on.likely, off: off.likely }
    })
}

/// A fan that goes off where the thermostat holds the coolant, or no more than this above it, K: once on, it has nothing to go
/// off at. Common practice, no source.
const HARDLY_OFF: f64 = 2.0;

/// A switch whose lower end lies where the thermostat rules.
pub(super) fn hardly_goes_off(context: &Context<'_>) -> Option<Note> {
    let set_point = context.project.thermostat.set_point;
    let off = switch(context)?.off;
    (off.base() <= set_point.base() + HARDLY_OFF).then(|| {
        let show = |at| Amount::of(at).show(UnitSystem::Si);
        let text = format!(
            "The fan goes off at {}, and the thermostat holds the coolant at {} or above: once on, the fan hardly ever goes off \
             in traffic. That harms nothing but its motor and the battery; a switch that goes off some kelvin above the \
             thermostat's set-point, or a cooler thermostat, lets it rest.",
            show(off),
            show(set_point)
        );
        Note::new("fan-hardly-goes-off", Weight::Remark, text)
    })
}

/// What a fan can do to a person.
pub(super) fn caution(context: &Context<'_>) -> Option<Note> {
    let inputs = &context.project.radiator;
    let fan = &inputs.fan;
    let text = match fan.drive {
        _ if !fan.known => {
            if inputs.fan_speed.unwrap_or_else(defaults::fan_speed).high.base() <= 0.0 {
                return None;
            }
            "Keep hands, hair and leads clear of the fan: an electric one may start by itself after the engine has stopped, so \
             pull its plug before hands come near; a belt-driven one turns whenever the engine does."
        }
        FanDrive::Electric if fan.control == FanControl::Always => {
            "An electric fan starts as soon as it has current: pull its plug before hands come near, and let the engine cool \
             before any hose or cap is opened."
        }
        FanDrive::Electric => {
            "An electric fan on a switch in the coolant may start by itself after the engine has stopped: pull its plug before \
             hands come near, and let the engine cool before any hose or cap is opened."
        }
        FanDrive::Belt => {
            "A belt-driven fan turns whenever the engine does: keep hands, hair, clothes and leads away from it, and never \
             stand in line with its blades when the engine is revved."
        }
    };
    Some(Note::new("fan-turns", Weight::Danger, text))
}

/// A belt fan that turns much faster than it was measured: its air is stretched by the fan laws, its blades by their own
/// weight. The bound is common practice, no source.
pub(super) fn beyond_its_curve(context: &Context<'_>) -> Option<Note> {
    const STRETCHED: f64 = 2.0;
    let fan = &context.project.radiator.fan;
    if !fan.known || fan.drive != FanDrive::Belt {
        return None;
    }
    let belt = BeltDrive { ratio: fan.ratio, table_speed: fan.curve_speed, most: fan.clutch_limit };
    let turn = |duty: Duty| belt.speed_ratio(context.project.duty.of(duty).rpm, &mut Silent).ok();
    let turns = Duty::ALL.into_iter().filter_map(|duty| Some((duty, turn(duty)?.base())));
    let (duty, most) = turns.max_by(|a, b| a.1.total_cmp(&b.1)).filter(|(_, most)| *most > STRETCHED)?;
    let speed = AngularVelocity::from_base(most * fan.curve_speed.base());
    let text = format!(
        "{}: the fan turns at {}, {most:.1} times the speed of its curve. What it moves there is the fan laws' word, not a \
         measurement, and a fan turned faster than it is made for throws its blades: find out how fast it may turn, or fit a \
         clutch that slips.",
        duty.name(),
        Amount::of(speed).show(UnitSystem::Si)
    );
    Some(Note::new("fan-beyond-curve", Weight::Danger, text))
}

/// Area the fans sweep, m².
fn swept(fan: &FanInputs) -> f64 {
    f64::from(fan.count) * std::f64::consts::FRAC_PI_4 * fan.diameter.base().powi(2)
}

/// Fans without a shroud that sweep more than the core.
pub(super) fn larger_than_core(context: &Context<'_>) -> Option<Note> {
    let inputs = &context.project.radiator;
    let (fan, face) = (&inputs.fan, inputs.face());
    (fan.known && fan.shroud == Shroud::None && swept(fan) > face.base()).then(|| {
        let text = format!(
            "The fans sweep {}, more than the core's face of {}: check their diameter and number. All of the core is taken as \
             drawn through.",
            Amount::new(swept(fan), Kind::Area).show(UnitSystem::Si),
            Amount::of_kind(face, Kind::Area).show(UnitSystem::Si)
        );
        Note::new("fan-larger-than-core", Weight::Weak, text)
    })
}

/// The air of a measured point: a switched fan counts as running unless the coolant is too cool to have kept it on, which
/// makes the radiator found the smaller one.
pub(super) fn measured(context: &Context<'_>, scribe: &mut impl Scribe) -> Result<Airflow, Problems> {
    let inputs = &context.project.radiator;
    let speeds = (inputs.measured_speed, inputs.measured_rpm);
    let airflow = airflow(context, inputs.face(), speeds, inputs.measured_air, scribe)?;
    let off = switch(context).is_some_and(|switch| inputs.measured_coolant <= switch.off);
    let airflow = if off { Airflow { fan_velocity: Velocity::from_base(0.0), ..airflow } } else { airflow };
    // What it draws by itself is too little and too doubtful to measure a radiator by.
    let driven = Airflow { draught: Velocity::from_base(0.0), ..airflow };
    if off && driven.face_velocity(&mut Silent).fail("radiator.measured_speed")?.base() < 0.1 {
        let message = "the car stood and the coolant was too cool to turn the fan on: no air tells what the radiator does; \
                       measure with the fan running or on the road";
        return Err(problem("radiator.measured_coolant", message));
    }
    Ok(airflow)
}

/// Where a balance settles with the thermostat on its way down.
pub(super) fn settles_cooling(
    context: &Context<'_>,
    balance: &Balance,
    scribe: &mut impl Scribe,
) -> Result<Option<ThermodynamicTemperature>, Problems> {
    let lag = context.project.thermostat.closing_lag.unwrap_or_else(defaults::thermostat_closing_lag).likely;
    let down = cooling_branch(balance, lag, scribe).fail("thermostat.closing_lag")?;
    let (outcome, _) = solve_with_fan(&down, switch(context).as_ref(), scribe).fail("thermostat.closing_lag")?;
    Ok(outcome.steady().map(|state| state.outlet_temperature))
}
