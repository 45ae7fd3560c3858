//! What a catch can collects, how soon it is half full, and where it goes when it is full.

use super::{leaves_by, mist, speeds, to_gas, told};
use crate::crankcase::moisture::wall_temperature;
use crate::crankcase::oil::{
    CanFinding, CanOutlet, CanUse, CarryOver, CatchCan, Collected, MEAN_SPEED, Mist, Passage, carry_over, collected,
    gas_speeds,
};
use crate::note::Note;
use crate::quantity::si::{MassRate, Ratio, ThermodynamicTemperature, Time, Velocity};
use crate::quantity::{Estimate, Measured, ZERO_CELSIUS};
use crate::scribe::{Scribe, Silent};
use crate::study::compose::context::Context;
use crate::study::{CanAnswer, CanPlace, Duty, DutyAnswers, DutyMoisture, FlowPath, MoistureAnswers, defaults};

/// The way the can sits in.
fn path(context: &Context<'_>) -> Option<FlowPath> {
    match context.project.ventilation.can.place {
        CanPlace::None => None,
        CanPlace::BreatherLine => Some(FlowPath::Breather),
        CanPlace::ValveLine => Some(FlowPath::Valve),
    }
}

/// Where the can leads, if there is one.
pub(super) fn outlet(context: &Context<'_>) -> Option<CanOutlet> {
    let inputs = &context.project.ventilation;
    let closed = inputs.leads_to_air_cleaner();
    path(context).map(|path| match path {
        FlowPath::Valve => CanOutlet::Manifold,
        FlowPath::Breather | FlowPath::SecondBreather if closed => CanOutlet::AirCleaner,
        FlowPath::Breather | FlowPath::SecondBreather => CanOutlet::OpenAir,
    })
}

/// At cruise, and at the duty that sends most gas through the can.
pub(super) fn answers(
    context: &Context<'_>,
    duties: &[DutyAnswers; 5],
    moisture: &MoistureAnswers,
    scribe: &mut impl Scribe,
) -> Vec<CanAnswer> {
    let (Some(path), Some(_)) = (path(context), context.project.ventilation.can.volume) else {
        return Vec::new();
    };
    let most = |duty: &DutyAnswers| leaves_by(path, duty).high.base();
    let hardest = duties.iter().max_by(|a, b| most(a).total_cmp(&most(b))).map_or(Duty::Cruise, |duty| duty.duty);
    let mut asked = vec![Duty::Cruise];
    if hardest != Duty::Cruise {
        asked.push(hardest);
    }
    asked
        .into_iter()
        .map(|duty| {
            let key = format!("can/{}", duty.word());
            scribe.chapter(&key, &format!("What collects in the catch can: {}", duty.name()));
            let speed = speed(context, duty);
            let filled = moisture.warm[duty.index()]
                .as_ref()
                .map_err(Clone::clone)
                .and_then(|damp| filled(context, &duties[duty.index()], path, damp, scribe));
            let half_full = filled.as_ref().map_or([None; 3], |(_, collected)| {
                collected.drain_after.map(|far| far.map(|far| Time::from_base(far.base() / speed.base())))
            });
            CanAnswer { duty, gas: leaves_by(path, &duties[duty.index()]), speed, half_full, filled }
        })
        .collect()
}

/// Cruise stands for mixed driving at the mean speed entered; another duty is driven at its own speed, if it has one.
fn speed(context: &Context<'_>, duty: Duty) -> Velocity {
    let own = context.project.duty.of(duty).road_speed;
    if duty == Duty::Cruise || MEAN_SPEED.check(own).is_err() {
        context.project.ventilation.can.mean_speed
    } else {
        own
    }
}

fn filled(
    context: &Context<'_>,
    duty: &DutyAnswers,
    path: FlowPath,
    damp: &DutyMoisture,
    scribe: &mut impl Scribe,
) -> Result<(CarryOver, Collected), String> {
    let inputs = &context.project.ventilation.can;
    let volume = inputs.volume.ok_or_else(|| "the volume of the can is not known".to_owned())?;
    let outlet = outlet(context).ok_or_else(|| "there is no can".to_owned())?;
    let gas = leaves_by(path, duty);
    if gas.high.base() <= 0.0 {
        return Err("no gas leaves by the can here, so nothing collects".to_owned());
    }
    let mist = mist(context, duty.likely());
    let speeds = speeds(context, path, &gas, &mist, scribe)?;
    let carried = told(carry_over(&gas, &speeds, &to_gas(context), scribe))?;
    let can = CatchCan {
        volume,
        area: inputs.area,
        inside: inputs.inside,
        caught: inputs.inside.caught().estimate,
        outlet,
        drains_to_sump: inputs.drains || inputs.drain.known,
    };
    let at = &damp.at;
    let use_of = CanUse {
        oil: carried.oil,
        gas,
        vapour: Estimate::sorted(at.favourable.vapour, at.likely.vapour, at.unfavourable.vapour),
        wall: wall(context, damp, scribe)?,
        coldest_air: context.project.surroundings.coldest,
        pressure: mist.pressure,
        mean_speed: speed(context, duty.duty),
        service: inputs.service,
    };
    let collected = told(collected(&can, &use_of, &mist, scribe))?;
    Ok((carried, collected))
}

/// The share of the oil coming by one way that the can keeps; none where it does not sit or its inside is not known.
pub(super) fn keeps(context: &Context<'_>, by: FlowPath, gas: &Estimate<MassRate>, mist: &Mist) -> Result<f64, String> {
    let inputs = &context.project.ventilation.can;
    if path(context) != Some(by) || inputs.volume.is_none() {
        return Ok(0.0);
    }
    let passage = Passage::Can { area: inputs.area, inside: inputs.inside };
    let speeds = told(gas_speeds(gas, &[passage], mist, &mut Silent))?;
    let over = speeds.iter().map(|speed| speed.over.likely.base()).fold(1.0, f64::max);
    Ok(inputs.inside.caught().estimate.likely.base() / over)
}

/// The can's own wall: it sits farther from the oil than a cover.
fn wall(
    context: &Context<'_>,
    damp: &DutyMoisture,
    scribe: &mut impl Scribe,
) -> Result<Estimate<ThermodynamicTemperature>, String> {
    let share = context.project.ventilation.can.wall_share.unwrap_or_else(defaults::can_wall_share);
    let air = context.project.surroundings.coldest;
    let oil = damp.oil();
    let quiet = |oil, share: Ratio| told(wall_temperature(air, oil, share, &mut Silent));
    let (low, high) = (quiet(oil.low, share.low)?, quiet(oil.high, share.high)?);
    let likely = told(wall_temperature(air, oil.likely, share.likely, scribe))?;
    Ok(Estimate::sorted(low, likely, high))
}

/// Each finding of the can. Its size is judged by mixed driving alone: nobody drives full throttle from one look to the next.
pub(super) fn notes(context: &Context<'_>, can: &[CanAnswer]) -> Vec<Note> {
    let Some(outlet) = outlet(context) else { return Vec::new() };
    let size = [CanFinding::LargeEnough, CanFinding::TightAtHigh, CanFinding::TooSmall];
    let mut notes = Vec::new();
    let diesel = context.project.engine.is_diesel();
    for answer in can {
        let findings = answer.filled.iter().flat_map(|(_, collected)| &collected.findings);
        let told = findings.filter(|finding| answer.duty == Duty::Cruise || !size.contains(finding));
        notes.extend(told.map(|finding| finding.note(diesel)));
    }
    // What can hurt does not wait until it can be reckoned.
    if can.is_empty() || can.iter().any(|can| can.filled.is_err() && can.gas.high.base() > 0.0) {
        notes.push(outlet.when_full().note(diesel));
        notes.push(CanFinding::HoldsFuel.note(diesel));
        if context.project.surroundings.coldest.base() < ZERO_CELSIUS {
            notes.push(CanFinding::Freezes.note(diesel));
        }
    }
    notes
}
