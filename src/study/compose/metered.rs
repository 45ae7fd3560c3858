//! The leak behind a flow read off a meter, by what the engine did then.

use super::blow_by::{KnownAt, Running, cylinder_at};
use super::context::Context;
use super::{Fail, manifold};
use crate::crankcase::blow_by::{BlowByError, Counted, area_from_flow, defaults as figures, mass_flow};
use crate::note::{Note, Weight};
use crate::quantity::si::{Area, MassRate, Ratio, ThermodynamicTemperature, VolumeRate};
use crate::quantity::{AbsolutePressure, Amount, Estimate, Kind, Measured};
use crate::scribe::{Scribe, Step};
use crate::source::DEFINITION;
use crate::study::{Duty, Problems, defaults};

/// What a reading says.
pub(super) struct Reading {
    pub area: Estimate<Area>,
    pub at: KnownAt,
    /// What was taken for granted of it.
    pub note: Option<Note>,
}

/// The area behind a meter's reading, by the leak at the point it was read at.
pub(super) fn area(context: &Context<'_>, scribe: &mut impl Scribe) -> Result<Reading, Problems> {
    let inputs = &context.project.blow_by.metered;
    let diesel = context.project.engine.is_diesel();
    let wide_open = manifold::wide_open(context);
    let manifold = inputs.manifold.unwrap_or(wide_open);
    let mut running = Running::full_load(context, inputs.rpm, manifold);
    let full_power = running.power.base();
    let load = if diesel {
        running.power = inputs.power.unwrap_or(running.power);
        if full_power > 0.0 { running.power.base() / full_power } else { 1.0 }
    } else {
        manifold.base() / wide_open.base()
    };
    if let (true, None, Some(_)) = (diesel, inputs.manifold, inputs.power) {
        // Without its gauge: the boost goes with the load.
        let full_speed = context.project.duty.of(Duty::FullThrottle).rpm;
        running.manifold = manifold::unthrottled(context, inputs.rpm.base() / full_speed.base(), load);
    }
    manifold::check(context, running.manifold, "blow_by.metered.manifold_pressure")?;
    let slow = inputs.rpm.base() < 1.3 * context.project.duty.of(Duty::Idle).rpm.base();
    // The burn of the duty that is most like it.
    let like = match load {
        _ if load >= 0.95 => Duty::FullThrottle,
        _ if load >= 0.7 => Duty::Hill,
        _ if slow => Duty::Idle,
        _ => Duty::Cruise,
    };
    scribe.chapter("leak/measured", "Leak from the flow meter, at the point it was read at");
    let cylinder = cylinder_at(context, like, running, "blow_by.metered.rpm", scribe)?;
    let gas = context.project.blow_by.gas_temperature.unwrap_or_else(defaults::gas_temperature);
    let meter = figures::meter_error().likely();
    let flow = metered(inputs.flow, gas, meter, context.ambient, scribe).fail("blow_by.metered.flow")?;
    let area = area_from_flow(&flow, &cylinder.everything(), Counted::Balance, scribe).fail("blow_by.metered.flow")?;
    Ok(Reading { area, at: KnownAt::of(&cylinder), note: taken_for_granted(context) })
}

/// A reading of an engine that stands in the yard is not one of full load: a wrong guess makes the leak too small.
fn taken_for_granted(context: &Context<'_>) -> Option<Note> {
    let inputs = &context.project.blow_by.metered;
    let (open, enter) = match (context.project.engine.is_diesel(), inputs.manifold, inputs.power) {
        (false, None, _) => ("wide open throttle", "manifold pressure"),
        (true, _, None) => ("full load", "brake power, zero with the car standing,"),
        _ => return None,
    };
    let text = format!(
        "The meter is taken as read at {open}. If it was not, the leak comes out too small: enter the {enter} of the reading."
    );
    Some(Note::new("meter-taken-full-load", Weight::Weak, text))
}

/// A flow read off a meter: the meter's error and the gas temperature's spread joined as the root of the sum of squares.
pub(super) fn metered(
    measured: VolumeRate,
    gas: Estimate<ThermodynamicTemperature>,
    meter: Ratio,
    ambient: AbsolutePressure,
    scribe: &mut impl Scribe,
) -> Result<Estimate<MassRate>, BlowByError> {
    let [hot, likely, cool] = [gas.high, gas.likely, gas.low];
    let flow = mass_flow(measured, likely, ambient)?;
    let share = |at| mass_flow(measured, at, ambient).map(|one| (one.base() / flow.base() - 1.0).hypot(meter.base()));
    let spread = |share: f64| MassRate::from_base(flow.base() * (1.0 + share).max(0.0));
    let flow = Estimate::sorted(spread(-share(hot)?), flow, spread(share(cool)?));
    scribe.step(|| {
        Step::new("Mass flow behind the meter's reading", "ṁ", "ṁ = V̇·p/(R·T)", &DEFINITION)
            .with("V̇", measured)
            .with("T", likely)
            .with("p", ambient)
            .with_amount("meter's error", Amount::of_kind(meter, Kind::Share))
            .gives(flow.likely)
    });
    Ok(flow)
}
