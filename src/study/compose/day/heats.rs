//! Heat the engine gives over each stretch, by the model of the duty points.

use super::super::context::Context;
use super::super::engine_heat::{EngineHeat, IDLE_LOAD};
use super::super::oil_heat::oil_balance;
use super::super::{Fail, problem};
use crate::day::{Heats, Stretch, Turning};
use crate::heat::{OilBalance, OilCooler};
use crate::quantity::si::Power;
use crate::quantity::{Estimate, Measured};
use crate::scribe::Silent;
use crate::study::{Answers, Duty, Problems};

/// How much faster than at the idle duty an unloaded engine still idles.
const IDLE_SPEED: f64 = 1.25;

/// Which end of the heats.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum End {
    Low,
    Likely,
    High,
}

impl End {
    const fn of(self, estimate: &Estimate<Power>) -> Power {
        match self {
            Self::Low => estimate.low,
            Self::Likely => estimate.likely,
            Self::High => estimate.high,
        }
    }
}

/// The duty whose mixture a stretch has: overrun and idle their own, else the nearest by torque.
fn like(context: &Context<'_>, turning: &Turning, idles: bool) -> Duty {
    if turning.overrun {
        return Duty::Overrun;
    }
    if idles {
        return Duty::Idle;
    }
    let torque = turning.power.base() / turning.speed.base();
    let away = |duty: Duty| {
        let inputs = context.project.duty.of(duty);
        (inputs.power.base() / inputs.rpm.base() - torque).abs()
    };
    let loaded = [Duty::Cruise, Duty::Hill, Duty::FullThrottle];
    loaded.into_iter().min_by(|a, b| away(*a).total_cmp(&away(*b))).unwrap_or(Duty::Cruise)
}

/// What a turning engine gives to coolant and oil, as a duty of this speed and power does; and the duty it is like.
pub(in crate::study::compose) fn of_engine(
    context: &Context<'_>,
    turning: &Turning,
) -> Result<(EngineHeat, Duty), String> {
    let slow = turning.speed.base() <= IDLE_SPEED * context.project.duty.of(Duty::Idle).rpm.base();
    let idles = slow && turning.power.base() < IDLE_LOAD * context.rated.base();
    let duty = like(context, turning, idles);
    let of_power = EngineHeat::at(context, Some(duty), turning.speed, turning.power, &mut Silent)?;
    let heat = match duty {
        Duty::Overrun => of_power.without_fuel(context, &mut Silent)?,
        Duty::Idle => of_power.idling(context, &mut Silent)?,
        _ => of_power.to_oil(context, &mut Silent)?,
    };
    Ok((heat, duty))
}

/// The heats of a whole day at one end of what is known.
///
/// The coolant's heat of a duty holds what the oil gives to the block. Here the oil is a body of its own, so that share is
/// taken off; it comes back by way of the oil. It is reckoned with the coolant where the duty it is like settles.
pub(super) fn of_day(
    context: &Context<'_>,
    answers: &Answers,
    stretches: &[Stretch],
    end: End,
) -> Result<Vec<Heats>, Problems> {
    stretches.iter().map(|stretch| of_stretch(context, answers, stretch, end)).collect()
}

fn of_stretch(context: &Context<'_>, answers: &Answers, stretch: &Stretch, end: End) -> Result<Heats, Problems> {
    let Some(turning) = &stretch.engine else { return Ok(Heats::default()) };
    let (found, duty) =
        of_engine(context, turning).map_err(|message| problem("day", format!("leg {}: {message}", stretch.leg + 1)))?;
    let heat =
        EngineHeat { coolant: Estimate::exact(end.of(&found.coolant)), oil: Estimate::exact(end.of(&found.oil)) };
    let balance = oil_balance(context, &heat, stretch.road_speed, stretch.air)?;
    let settles = answers.duties[duty.index()].outlet;
    let alone = OilBalance { cooler: OilCooler::None, ..balance }.at(settles, &mut Silent).fail("oil")?;
    let direct = (heat.coolant.likely.base() - alone.to_block.base()).max(0.0);
    Ok(Heats { coolant: Power::from_base(direct), oil: heat.oil.likely })
}
