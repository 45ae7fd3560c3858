//! The manifold pressure of each duty: as entered, or estimated by the way the engine breathes.

use super::breathing;
use super::context::Context;
use super::problem;
use crate::crankcase::cylinder::PRESSURE_RATIO;
use crate::heat::defaults;
use crate::note::{Note, Weight};
use crate::quantity::si::Ratio;
use crate::quantity::{AbsolutePressure, Amount, Estimate, GaugePressure, Measured, UnitSystem};
use crate::scribe::{Scribe, Step};
use crate::source::crankcase::blow_by::BOOST_FIGURES;
use crate::source::heat as source;
use crate::study::{Duty, Problems};

/// Boost at full throttle, as entered or by fuel and blower; none without a blower.
pub(super) fn boost(context: &Context<'_>) -> Option<Estimate<GaugePressure>> {
    let engine = &context.project.engine;
    engine.is_boosted().then(|| engine.boost.unwrap_or_else(|| crate::study::defaults::boost(engine)))
}

/// Manifold pressure at full throttle.
pub(super) fn wide_open(context: &Context<'_>) -> AbsolutePressure {
    let loss = defaults::full_throttle_loss().likely().base();
    let boost = boost(context).map_or(-loss, |boost| boost.likely.base());
    let estimated = AbsolutePressure::from_base(context.ambient.base() + boost);
    context.project.duty.of(Duty::FullThrottle).manifold.unwrap_or(estimated)
}

/// The most there may be in the manifold at a duty, at its favourable end.
pub(super) fn most(context: &Context<'_>, duty: Duty) -> AbsolutePressure {
    let loss = defaults::full_throttle_loss().estimate.low.base();
    let boost = boost(context).map_or(-loss, |boost| boost.high.base());
    let entered = |duty: Duty| context.project.duty.of(duty).manifold.map_or(0.0, Measured::base);
    let usual = context.ambient.base() + boost;
    AbsolutePressure::from_base(usual.max(entered(duty)).max(entered(Duty::FullThrottle)))
}

/// Refuses a pressure that the engine cannot have in its manifold.
pub(super) fn check(context: &Context<'_>, pressure: AbsolutePressure, path: &str) -> Result<(), Problems> {
    let (ambient, pressure) = (context.ambient.base(), pressure.base());
    let message = if !context.project.engine.is_boosted() && pressure > ambient {
        format!(
            "the manifold pressure is above the air's {:.1} kPa at this altitude, and the engine breathes on its own: enter \
             the absolute pressure, leave it out, or choose a blower",
            ambient / 1e3
        )
    } else if pressure > PRESSURE_RATIO.high * ambient {
        format!(
            "the manifold pressure of {:.0} kPa is so far above the air's {:.1} kPa at this altitude that no one blower makes \
             it, {} times at most: check it, and the altitude",
            pressure / 1e3,
            ambient / 1e3,
            PRESSURE_RATIO.high
        )
    } else {
        return Ok(());
    };
    Err(problem(path, message))
}

/// Manifold pressure of a duty, whether it was estimated, and what is to be said of it.
pub(super) fn at(
    context: &Context<'_>,
    duty: Duty,
    scribe: &mut impl Scribe,
) -> Result<(AbsolutePressure, bool, Option<Note>), Problems> {
    if let Some(entered) = context.project.duty.of(duty).manifold {
        check(context, entered, &format!("duty.{}.manifold_pressure", duty.word()))?;
        return Ok((entered, false, None));
    }
    if duty == Duty::FullThrottle {
        let pressure = wide_open(context);
        check(context, pressure, "engine.boost")?;
        return Ok((pressure, true, None));
    }
    if context.project.engine.is_diesel() {
        let pressure = without_throttle(context, duty, scribe);
        check(context, pressure, "engine.boost")?;
        return Ok((pressure, true, None));
    }
    let at_most_air = |base: f64| AbsolutePressure::from_base(base.min(context.ambient.base()));
    Ok(match duty {
        Duty::Idle => (at_most_air(defaults::idle_pressure().likely().base()), true, None),
        Duty::Overrun => (at_most_air(defaults::overrun_pressure().likely().base()), true, None),
        Duty::Cruise | Duty::Hill | Duty::FullThrottle => {
            let (pressure, note) = breathing::at_power(context, duty, scribe)?;
            (pressure, true, note)
        }
    })
}

/// A diesel's manifold: the air less the loss of the intake, with the square of the speed; with a blower that much of the
/// boost on top as the power is of that at full load.
fn without_throttle(context: &Context<'_>, duty: Duty, scribe: &mut impl Scribe) -> AbsolutePressure {
    let (here, full) = (context.project.duty.of(duty), context.project.duty.of(Duty::FullThrottle));
    let speed = (here.rpm.base() / full.rpm.base()).min(1.0);
    let load = if full.power.base() > 0.0 { (here.power.base() / full.power.base()).min(1.0) } else { 0.0 };
    let loss = defaults::full_throttle_loss().likely();
    let share = if context.project.engine.is_boosted() { load } else { 0.0 };
    let pressure = unthrottled(context, speed, load);
    scribe.chapter(&format!("manifold/{}", duty.word()), &format!("Manifold pressure: {}", duty.name()));
    scribe.step(|| {
        let source = if share > 0.0 { &BOOST_FIGURES } else { &source::MANIFOLD_DEFAULTS };
        let equation = "p = p_amb − Δp·(n/n_full)² + (P/P_full)·(p_full − p_amb + Δp)";
        Step::new("manifold pressure without a throttle", "p", equation, source)
            .with("p_amb", context.ambient)
            .with("Δp", loss)
            .with_amount("n/n_full", Amount::of_kind(Ratio::from_base(speed), crate::quantity::Kind::Share))
            .with_amount("P/P_full", Amount::of_kind(Ratio::from_base(share), crate::quantity::Kind::Share))
            .gives(pressure)
    });
    pressure
}

/// The same of any shares of the speed and the load of full load; above one they count as one.
pub(super) fn unthrottled(context: &Context<'_>, speed: f64, load: f64) -> AbsolutePressure {
    let loss = defaults::full_throttle_loss().likely().base();
    let speed = speed.min(1.0);
    let boost = wide_open(context).base() - context.ambient.base() + loss;
    let share = if context.project.engine.is_boosted() { load.min(1.0) } else { 0.0 };
    AbsolutePressure::from_base(context.ambient.base() - loss * speed * speed + share * boost.max(0.0))
}

/// That a power asks for all the air there is.
pub(super) fn wide_open_note(duty: Duty, most: AbsolutePressure) -> Note {
    let text = format!(
        "{}: the power entered asks for all the air there is; the throttle is reckoned wide open, {} absolute in the \
         manifold.",
        duty.name(),
        Amount::of(most).show(UnitSystem::Si)
    );
    Note::new("throttle-wide-open", Weight::Remark, text)
}
