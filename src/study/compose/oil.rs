//! The oil's way: back from the cover to the sump, and out with the gas by breather and valve.

mod can;

use super::context::Context;
use crate::crankcase::oil::{
    GasSpeed, Mist, OilToGas, Passage, carry_over, defaults as figures, drain_back, gas_speeds,
};
use crate::note::Note;
use crate::quantity::si::{Length, MassRate};
use crate::quantity::{AbsolutePressure, Estimate, Measured};
use crate::scribe::{Scribe, Silent};
use crate::study::{
    CanPlace, CrankcaseCase, DrainAnswer, Duty, DutyAnswers, FlowPath, LineInputs, MoistureAnswers, OilAnswers, OilOut,
    RingCondition, defaults,
};

/// Every way gas may leave by.
const WAYS: [FlowPath; 3] = [FlowPath::Breather, FlowPath::SecondBreather, FlowPath::Valve];

fn told<T>(result: Result<T, impl std::fmt::Display>) -> Result<T, String> {
    result.map_err(|error| error.to_string())
}

/// Drains and the oil that leaves at every duty, and the can if there is one.
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
        let (high, tight) = (duties[duty.index()].high(), &duties[duty.index()].unfavourable);
        let likely = told(drain_back(height.likely, density, high.gauge, high.lowest_cover, scribe))?;
        let holds_up = |case: &CrankcaseCase| case.gauge.base() - case.lowest_cover.base();
        // Where the blow-by is well known a tight baffle holds up more than the high blow-by does.
        let worse = if holds_up(tight) > holds_up(high) { tight } else { high };
        let least = told(drain_back(height.low, density, worse.gauge, worse.lowest_cover, scribe))?;
        Ok(DrainAnswer { duty, likely, least })
    });
    let out = Duty::ALL.map(|duty| {
        let key = format!("oil-out/{}", duty.word());
        scribe.chapter(&key, &format!("Oil that leaves with the gas: {}", duty.name()));
        oil_out(context, &duties[duty.index()], scribe)
    });
    let can = can::answers(context, duties, moisture, scribe);
    let notes = can::notes(context, &can);
    let when_full = can::outlet(context).map(crate::crankcase::oil::CanOutlet::when_full);
    (OilAnswers { drains, out, can, when_full }, notes)
}

/// The gas that leaves by one way; nothing where air is drawn in.
fn gas_out(path: FlowPath, case: &CrankcaseCase) -> MassRate {
    MassRate::from_base(case.flow(path).map_or(0.0, |flow| flow.out.base().max(0.0)))
}

/// The same at the three blow-bys.
fn leaves_by(path: FlowPath, duty: &DutyAnswers) -> Estimate<MassRate> {
    let [low, likely, high] = &duty.crankcase;
    Estimate::sorted(gas_out(path, low), gas_out(path, likely), gas_out(path, high))
}

/// The mouth of the outlet, where its bore is known: the tightest spot of its line.
fn mouth(context: &Context<'_>, path: FlowPath) -> Option<Passage> {
    let inputs = &context.project.ventilation;
    let bore = |line: &LineInputs| line.barb.unwrap_or(line.bore);
    let bore = match path {
        FlowPath::Breather => bore(&inputs.breather),
        FlowPath::SecondBreather => bore(&inputs.second),
        FlowPath::Valve if inputs.can.place == CanPlace::ValveLine => bore(&inputs.valve_line),
        FlowPath::Valve => return None,
    };
    Some(Passage::Neck { bore })
}

/// The baffle's openings as one round hole, which lets the largest droplets follow the gas.
fn baffle(context: &Context<'_>, path: FlowPath) -> Passage {
    let inputs = &context.project.ventilation;
    let first = path == FlowPath::Breather || !inputs.has_second_cover();
    let area = if first { inputs.baffle() } else { inputs.second_baffle() }.likely;
    let opening = Length::from_base((4.0 * area.base() / std::f64::consts::PI).sqrt());
    Passage::Baffle { area, opening, drains_oil: false }
}

fn mist(context: &Context<'_>, likely: &CrankcaseCase) -> Mist {
    let gauge = if likely.beyond_seals() { 0.0 } else { likely.gauge.base() };
    Mist::usual(AbsolutePressure::from_base(context.ambient.base() + gauge))
}

fn speeds(
    context: &Context<'_>,
    path: FlowPath,
    gas: &Estimate<MassRate>,
    mist: &Mist,
    scribe: &mut impl Scribe,
) -> Result<Vec<GasSpeed>, String> {
    let passages: Vec<Passage> = std::iter::once(baffle(context, path)).chain(mouth(context, path)).collect();
    told(gas_speeds(gas, &passages, mist, scribe))
}

fn to_gas(context: &Context<'_>) -> OilToGas {
    let worn = context.project.blow_by.condition == RingCondition::Worn;
    if worn { OilToGas::worn_or_track() } else { OilToGas::road() }
}

fn oil_out(context: &Context<'_>, duty: &DutyAnswers, scribe: &mut impl Scribe) -> Vec<OilOut> {
    WAYS.into_iter()
        .filter_map(|path| {
            let gas = leaves_by(path, duty);
            (gas.high.base() > 0.0).then(|| {
                let mist = mist(context, duty.likely());
                let speeds = speeds(context, path, &gas, &mist, scribe);
                let carried = speeds
                    .as_ref()
                    .map_err(Clone::clone)
                    .and_then(|speeds| told(carry_over(&gas, speeds, &to_gas(context), scribe)));
                OilOut { path, speeds: speeds.unwrap_or_default(), carried }
            })
        })
        .collect()
}

/// Oil that leaves with the gas of one case, and what of it the can keeps; of a duty's likely case it is the duty's likely oil.
pub(super) fn of_case(context: &Context<'_>, case: &CrankcaseCase) -> Result<[MassRate; 2], String> {
    let mist = mist(context, case);
    let (mut out, mut caught) = (0.0, 0.0);
    for path in WAYS {
        let gas = gas_out(path, case);
        if gas.base() > 0.0 {
            let gas = Estimate::exact(gas);
            let speeds = speeds(context, path, &gas, &mist, &mut Silent)?;
            let oil = told(carry_over(&gas, &speeds, &to_gas(context), &mut Silent))?.oil.likely;
            out += oil.base();
            caught += oil.base() * can::keeps(context, path, &gas, &mist)?;
        }
    }
    Ok([out, caught].map(MassRate::from_base))
}
