//! Heat the engine gives over each stretch, by the model of the duty points.

use super::super::context::Context;
use super::super::problem;
use crate::day::{Heats, Stretch, Turning};
use crate::heat::{EngineDuty, OilHeatModel, heat_to_coolant};
use crate::quantity::si::{Power, Volume};
use crate::quantity::{Estimate, Measured};
use crate::scribe::Silent;
use crate::study::{Duty, Problems, defaults};

/// Share of the rated power below which a slow engine counts as idling.
const IDLE_LOAD: f64 = 0.02;
/// How much faster than at the idle duty an unloaded engine still idles.
const IDLE_SPEED: f64 = 1.25;

/// Heats of every stretch, low, likely and high.
pub(super) struct AllHeats {
    pub low: Vec<Heats>,
    pub likely: Vec<Heats>,
    pub high: Vec<Heats>,
}

/// What an engine gives to coolant and oil while it does one thing.
pub(super) fn of_engine(context: &Context<'_>, turning: &Turning) -> Result<[Estimate<Power>; 2], String> {
    let engine = &context.project.engine;
    let model = context.heat_model();
    let rated_power = if turning.power > context.rated { turning.power } else { context.rated };
    let duty = EngineDuty {
        displacement: Volume::from_base(engine.swept()),
        speed: turning.speed,
        brake_power: turning.power,
        rated_power,
    };
    let found = heat_to_coolant(&duty, &model, &mut Silent).map_err(|error| error.to_string())?;
    let idle_speed = IDLE_SPEED * context.project.duty.of(Duty::Idle).rpm.base();
    let idles = turning.power.base() < IDLE_LOAD * context.rated.base() && turning.speed.base() <= idle_speed;
    let coolant = if turning.overrun {
        // The friction alone warms it: fuel power times the indicated efficiency.
        let efficiency = model.indicated_efficiency.likely.base();
        found.heat.map(|heat| Power::from_base(heat.base() * efficiency))
    } else if idles {
        defaults::idle_heat(engine)
    } else {
        found.heat
    };
    let oil = OilHeatModel::usual(false)
        .heat(&found.friction_power, &coolant, &mut Silent)
        .map_err(|error| error.to_string())?;
    Ok([coolant, oil])
}

/// The heats of a whole day.
pub(super) fn of_day(context: &Context<'_>, stretches: &[Stretch]) -> Result<AllHeats, Problems> {
    let count = stretches.len();
    let mut all =
        AllHeats { low: Vec::with_capacity(count), likely: Vec::with_capacity(count), high: Vec::with_capacity(count) };
    for stretch in stretches {
        let [coolant, oil] = match &stretch.engine {
            Some(turning) => of_engine(context, turning)
                .map_err(|message| problem("day", format!("leg {}: {message}", stretch.leg + 1)))?,
            None => [Estimate::exact(Power::from_base(0.0)); 2],
        };
        all.low.push(Heats { coolant: coolant.low, oil: oil.low });
        all.likely.push(Heats { coolant: coolant.likely, oil: oil.likely });
        all.high.push(Heats { coolant: coolant.high, oil: oil.high });
    }
    Ok(all)
}
