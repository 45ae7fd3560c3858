//! How much blow-by a ventilation takes: until the breather turns round, and until a pressure is reached.
//!
//! Both hold the crankcase at a pressure and add up what leaves, so nothing is sought by trial.

use super::boundary::Boundary;
use super::build::{Crankcase, Lines, build};
use super::error::VentilationError;
use super::parts::Ventilation;
use crate::quantity::si::{MassRate, Ratio};
use crate::quantity::{GaugePressure, Measured};
use crate::scribe::{Scribe, Step};
use crate::source::DEFINITION;

/// The blow-by at which the breather turns round.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Capacity {
    /// What the PCV valve draws while the fresh-air flow is exactly zero.
    pub blow_by: MassRate,
    /// `ṁ*/ṁ − 1` at the boundary's blow-by: above zero fresh air enters, below zero gas leaves by the breather; none
    /// without blow-by.
    pub margin: Option<Ratio>,
}

/// The largest blow-by at which the crankcase stays at or under a pressure.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct LargestBlowBy {
    /// The blow-by that brings the crankcase to the limit.
    pub blow_by: MassRate,
    /// The limit.
    pub limit: GaugePressure,
    /// `ṁ_max/ṁ − 1` at the boundary's blow-by; none without blow-by.
    pub margin: Option<Ratio>,
}

/// The blow-by at which the breather or the fresh-air line turns round: its own flow is then zero, so the crankcase is
/// at the pressure at that line's far end, and the valve alone takes everything. With a cross-over hose, which passes from
/// cover to cover, the breather turns round at a few pascals above; that is left out.
///
/// # Errors
/// [`VentilationError::NeverTurns`] without a valve, and as [`super::solve`].
pub fn capacity(
    ventilation: &Ventilation,
    at: &Boundary,
    scribe: &mut impl Scribe,
) -> Result<Capacity, VentilationError> {
    if !ventilation.arrangement.has_valve() {
        return Err(VentilationError::NeverTurns);
    }
    let far_end = at.far_end(ventilation.arrangement);
    let built = build(ventilation, at, Crankcase::Held(far_end), Lines::ValveOnly)?;
    let solution = built.network.solve(scribe)?;
    let drawn = built.leaves(&solution);
    let margin = margin(drawn, at.blow_by);
    scribe.step(|| {
        Step::new(
            "blow-by at which the breather turns round",
            "ṁ*",
            "flow into the valve's line with the crankcase at the breather's far end",
            &DEFINITION,
        )
        .with("p_cc", far_end)
        .with("ṁ_bb", at.blow_by)
        .with_number("ṁ*/ṁ_bb − 1", margin.map_or(0.0, Measured::base))
        .gives(drawn)
    });
    Ok(Capacity { blow_by: drawn, margin })
}

/// The largest blow-by at which the crankcase stays at or under a pressure: everything that leaves with the crankcase
/// held there. As that flow rises with the pressure, any less blow-by stays below; where the PCV valve is the only way
/// out this does not hold and the answer is refused.
///
/// # Errors
/// As [`super::solve`]; [`VentilationError::Missing`] when there is no breather.
pub fn largest_blow_by(
    ventilation: &Ventilation,
    at: &Boundary,
    limit: GaugePressure,
    scribe: &mut impl Scribe,
) -> Result<LargestBlowBy, VentilationError> {
    if ventilation.breather.is_none() && ventilation.second_breather.is_none() {
        return Err(VentilationError::Missing {
            arrangement: "the largest blow-by under a pressure",
            part: "a breather or a fresh-air line that is open",
        });
    }
    let held = limit.to_absolute(at.ambient);
    let built = build(ventilation, at, Crankcase::Held(held), Lines::All)?;
    let solution = built.network.solve(scribe)?;
    let blow_by = built.leaves(&solution);
    scribe.step(|| {
        Step::new("largest blow-by under the limit", "ṁ_max", "Σ ṁ out with the crankcase at the limit", &DEFINITION)
            .with_amount("p_cc", crate::quantity::Amount::of_kind(limit, crate::quantity::Kind::CrankcasePressure))
            .with("p_amb", at.ambient)
            .gives(blow_by)
    });
    Ok(LargestBlowBy { blow_by, limit, margin: margin(blow_by, at.blow_by) })
}

fn margin(capacity: MassRate, blow_by: MassRate) -> Option<Ratio> {
    (blow_by.base() > 0.0).then(|| Ratio::from_base(capacity.base() / blow_by.base() - 1.0))
}
