//! Does it hold: each verdict with its limit, its margin, its reason and the smallest change that would mend it.

mod coolant;
mod crankcase;
mod joint;
mod tank;
mod vent;

use super::context::Context;
use super::radiators::Radiators;
use crate::coolant::Headroom;
use crate::quantity::si::ThermodynamicTemperature;
use crate::study::{Answers, Problems, State, Verdict};

/// What the verdicts know beyond the answers.
pub(super) struct Findings<'c, 'p> {
    pub context: &'c Context<'p>,
    /// Whether each duty still settles at the unfavourable end.
    pub heats_hold: Vec<bool>,
    pub room: &'c Headroom,
    pub radiators: &'c Radiators,
    /// The temperature the coolant must settle below.
    pub ceiling: ThermodynamicTemperature,
}

/// All verdicts, coolant first, in the order a builder asks.
pub(super) fn all(answers: &Answers, findings: &Findings<'_, '_>) -> Result<Vec<Verdict>, Problems> {
    let mut verdicts = Vec::with_capacity(20);
    verdicts.extend(tank::volume(answers, findings));
    verdicts.extend(tank::dip_tube(answers, findings));
    verdicts.extend(tank::leak_reserve(answers, findings));
    verdicts.extend(tank::comes_back(answers, findings));
    verdicts.extend(vent::vent(answers, findings));
    verdicts.extend(tank::cushion(answers, findings)?);
    verdicts.push(coolant::boiling(answers, findings)?);
    verdicts.push(coolant::hot_stop(answers));
    verdicts.push(coolant::freezing(answers, findings));
    verdicts.push(coolant::cooling(answers, findings)?);
    verdicts.push(crankcase::pressure(answers, findings)?);
    verdicts.extend(crankcase::valve(answers, findings));
    verdicts.extend(crankcase::port(answers, findings.context.project.ventilation.valve.port.place));
    verdicts.extend(crankcase::idle_mixture(answers));
    verdicts.extend(crankcase::stuck(answers));
    verdicts.extend(crankcase::breather(answers, findings));
    verdicts.push(crankcase::moisture(answers, findings));
    verdicts.push(crankcase::oil_return(answers));
    verdicts.extend(crankcase::catch_can(answers, findings));
    verdicts.extend(crankcase::can_drain(answers, findings.context.project.ventilation.can.place));
    verdicts.extend(joint::joint(answers));
    Ok(verdicts)
}

/// Holds at the unfavourable end, at the likely values only, or not.
fn state(likely_holds: bool, unfavourable_holds: bool) -> State {
    match (likely_holds, unfavourable_holds) {
        (true, true) => State::Holds,
        (true, false) => State::Thin,
        (false, _) => State::DoesNotHold,
    }
}
