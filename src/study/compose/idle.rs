//! What the gas of the valve does to the mixture at idle.

use super::context::Context;
use super::valve::passed;
use crate::crankcase::mixture::{FreshAirFrom, IdleGas, PortPlace, idle_mixture};
use crate::quantity::si::{AngularVelocity, MassRate};
use crate::quantity::{Amount, Kind, Measured};
use crate::scribe::{Scribe, Step};
use crate::source::crankcase::moisture::MIXTURE;
use crate::study::{Duty, DutyAnswers, FreshAirTaken, IdleMixtureAnswers, VentilationArrangement, defaults};

/// The mixture at idle with the valve; none without a valve, ahead of the throttle and for a diesel, a sentence where it cannot be reckoned.
pub(super) fn answers(
    context: &Context<'_>,
    duties: &[DutyAnswers; 5],
    scribe: &mut impl Scribe,
) -> Option<Result<IdleMixtureAnswers, String>> {
    let project = context.project;
    let ventilation = &project.ventilation;
    // A diesel's idle is set by its fuel: more air makes no difference. Ahead of the throttle the gas is metered with the air.
    let ahead = ventilation.valve.port.place == PortPlace::BeforeThrottle;
    if !ventilation.has_valve() || project.engine.is_diesel() || ahead {
        return None;
    }
    let idle = &duties[Duty::Idle.index()];
    let system = project.engine.mixture;
    let closed = ventilation.arrangement == VentilationArrangement::ClosedWithFreshAirLine;
    let from = match (closed, project.engine.fresh_air) {
        (false, _) => FreshAirFrom::OpenAir,
        (true, FreshAirTaken::BehindMeter) => FreshAirFrom::AfterMeter,
        (true, FreshAirTaken::BeforeMeter) => FreshAirFrom::BeforeMeter,
    };
    let gas = IdleGas {
        into_cylinders: idle.air,
        valve: passed(idle),
        blow_by: idle.likely().blow_by,
        burnt_share: project.blow_by.burnt_share.unwrap_or_else(defaults::burnt_share).likely,
    };
    scribe.chapter("idle-mixture", "Mixture at idle with the PCV valve");
    let mixture = match idle_mixture(&gas, system, from, scribe) {
        Ok(mixture) => mixture,
        Err(error) => return Some(Err(error.to_string())),
    };
    let least_speed = AngularVelocity::from_base(mixture.share.base() * project.duty.of(Duty::Idle).rpm.base());
    scribe.step(|| {
        Step::new(
            "speed the valve alone keeps up, throttle quite shut",
            "n",
            "s n_idle, at the same manifold pressure",
            &MIXTURE,
        )
        .with_amount("s", Amount::of_kind(mixture.share, Kind::Share))
        .with("n_idle", project.duty.of(Duty::Idle).rpm)
        .gives(least_speed)
    });
    let one_cylinder = (ventilation.valve.port.place == PortPlace::OneRunner && project.engine.cylinders > 1)
        .then(|| {
            scribe.chapter("idle-mixture/one-cylinder", "Mixture at idle of the cylinder whose runner has the port");
            let own = gas.into_cylinders.base() / f64::from(project.engine.cylinders);
            let own = IdleGas { into_cylinders: MassRate::from_base(own), ..gas };
            idle_mixture(&own, system, from, scribe).ok()
        })
        .flatten();
    Some(Ok(IdleMixtureAnswers { mixture, least_air: gas.valve, least_speed, one_cylinder }))
}
