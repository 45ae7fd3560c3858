//! The oil's way: back from the cover to the sump, and out with the gas into a catch can.

use super::context::Context;
use crate::crankcase::oil::{
    CanOutlet, CanUse, CatchCan, Mist, OilToGas, Passage, carry_over, collected, defaults as figures, drain_back,
    gas_speeds,
};
use crate::note::Note;
use crate::quantity::si::MassRate;
use crate::quantity::{AbsolutePressure, Estimate, Measured};
use crate::scribe::Scribe;
use crate::study::{
    CanAnswer, CanPlace, CrankcaseCase, DrainAnswer, Duty, DutyAnswers, DutyMoisture, FlowPath, MoistureAnswers,
    OilAnswers, RingCondition, VentilationArrangement, defaults,
};

fn told<T>(result: Result<T, impl std::fmt::Display>) -> Result<T, String> {
    result.map_err(|error| error.to_string())
}

/// Drains of every duty, and the can if its volume is known.
pub(super) fn answers(
    context: &Context<'_>,
    duties: &[DutyAnswers; 5],
    moisture: &MoistureAnswers,
    scribe: &mut impl Scribe,
) -> (OilAnswers, Vec<Note>) {
    let height = context.project.ventilation.drain_height.unwrap_or_else(defaults::drain_height);
    let density = figures::density().likely();
    let drains = Duty::ALL.map(|duty| {
        let key = format!("oil-return/{}", duty.word());
        scribe.chapter(&key, &format!("Oil's way back at the high blow-by: {}", duty.name()));
        let case = duties[duty.index()].high();
        let likely = told(drain_back(height.likely, density, case.gauge, case.cover_gauge, scribe))?;
        let least = told(drain_back(height.low, density, case.gauge, case.cover_gauge, scribe))?;
        Ok(DrainAnswer { duty, likely, least })
    });
    let can = can(context, duties, moisture, scribe);
    let notes = can
        .iter()
        .filter_map(|can| can.filled.as_ref().ok())
        .flat_map(|(_, collected)| collected.findings.iter().map(|finding| finding.note()))
        .collect();
    (OilAnswers { drains, can }, notes)
}

/// The gas through the can, at the three blow-bys; nothing where air is drawn in.
fn through_can(place: CanPlace, duty: &DutyAnswers) -> Estimate<MassRate> {
    let path = if place == CanPlace::ValveLine { FlowPath::Valve } else { FlowPath::Breather };
    let out = |case: &CrankcaseCase| MassRate::from_base(case.flow(path).map_or(0.0, |flow| flow.out.base().max(0.0)));
    let [low, likely, high] = &duty.crankcase;
    Estimate::sorted(out(low), out(likely), out(high))
}

/// At cruise, and at the duty that sends most gas through the can.
fn can(
    context: &Context<'_>,
    duties: &[DutyAnswers; 5],
    moisture: &MoistureAnswers,
    scribe: &mut impl Scribe,
) -> Vec<CanAnswer> {
    let inputs = &context.project.ventilation;
    if inputs.can.place == CanPlace::None || inputs.can.volume.is_none() {
        return Vec::new();
    }
    let most = |duty: &DutyAnswers| through_can(inputs.can.place, duty).likely.base();
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
            let filled = moisture.warm[duty.index()]
                .as_ref()
                .map_err(Clone::clone)
                .and_then(|damp| filled(context, &duties[duty.index()], damp, scribe));
            CanAnswer { duty, filled }
        })
        .collect()
}

fn filled(
    context: &Context<'_>,
    duty: &DutyAnswers,
    damp: &DutyMoisture,
    scribe: &mut impl Scribe,
) -> Result<(crate::crankcase::oil::CarryOver, crate::crankcase::oil::Collected), String> {
    let inputs = &context.project.ventilation;
    let volume = inputs.can.volume.ok_or_else(|| "the volume of the can is not known".to_owned())?;
    let gas = through_can(inputs.can.place, duty);
    if gas.high.base() <= 0.0 {
        return Err("no gas leaves by the can here, so nothing collects".to_owned());
    }
    let pressure = AbsolutePressure::from_base(context.ambient.base() + duty.likely().gauge.base());
    let mist = Mist::usual(pressure);
    let line = if inputs.can.place == CanPlace::ValveLine { &inputs.valve_line } else { &inputs.breather };
    let neck = Passage::Neck { bore: line.barb.unwrap_or(line.bore) };
    let speeds = told(gas_speeds(&gas, &[neck], &mist, scribe))?;
    let worn = context.project.blow_by.condition == RingCondition::Worn;
    let to_gas = if worn { OilToGas::worn_or_track() } else { OilToGas::road() };
    let carried = told(carry_over(&gas, &speeds, &to_gas, scribe))?;
    let closed = inputs.arrangement == VentilationArrangement::ClosedWithFreshAirLine;
    let intake = inputs.can.place == CanPlace::ValveLine || closed;
    let can = CatchCan {
        volume,
        area: inputs.can.area,
        inside: inputs.can.inside,
        caught: inputs.can.inside.caught().estimate,
        outlet: if intake { CanOutlet::Intake } else { CanOutlet::OpenAir },
        drains_to_sump: inputs.can.drains || inputs.can.drain.known,
    };
    let at = &damp.at;
    let use_of = CanUse {
        oil: carried.oil,
        gas,
        vapour: Estimate::sorted(at.favourable.vapour, at.likely.vapour, at.unfavourable.vapour),
        wall: Estimate::sorted(at.unfavourable.wall, at.likely.wall, at.favourable.wall),
        coldest_air: context.project.surroundings.coldest,
        pressure,
        mean_speed: inputs.can.mean_speed,
        service: inputs.can.service,
    };
    let collected = told(collected(&can, &use_of, &mist, scribe))?;
    Ok((carried, collected))
}
