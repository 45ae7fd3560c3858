//! Oil that the gas carries out of the crankcase.

use super::OilError;
use super::defaults::{in_order, loading, speed_exponent, worn_or_track};
use super::passage::{GAS_FLOW, GasSpeed, Passage};
use crate::quantity::si::{MassRate, Ratio};
use crate::quantity::{Amount, Estimate, Kind, Measured, Range, UnitSystem};
use crate::scribe::{Scribe, Step};
use crate::source::crankcase::moisture::CARRY_OVER;

/// Speed over limit that the growth of the oil carried is asked about.
static OVER: Range = Range::new(
    "gas speed over its limit",
    Kind::Number,
    0.0,
    10.0,
    "an outlet so small carries oil without measure; give the gas a larger one before reckoning oil",
);

/// How much oil the engine hands to its gas.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct OilToGas {
    /// Oil for each mass of gas; default [`loading`].
    pub loading: Estimate<Ratio>,
    /// Times as much for each mass of gas as a healthy engine on the road; 1, or [`worn_or_track`].
    pub times: Estimate<Ratio>,
    /// The power of growth with speed over limit; default [`speed_exponent`].
    pub exponent: Estimate<Ratio>,
}

impl OilToGas {
    /// A healthy engine on the road.
    #[must_use]
    pub fn road() -> Self {
        Self {
            loading: loading().estimate,
            times: Estimate::exact(Ratio::from_base(1.0)),
            exponent: speed_exponent().estimate,
        }
    }

    /// A worn engine, or one driven on a track.
    #[must_use]
    pub fn worn_or_track() -> Self {
        Self { times: worn_or_track().estimate, ..Self::road() }
    }
}

/// Why the estimate is what it is.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum CarryOverReason {
    /// Everywhere below the limits, also at the high flow: only fine mist goes along, which no gravity removes.
    MistOnly,
    /// The high flow passes a limit, the likely flow does not.
    FilmAtHighFlow {
        /// The worst place.
        passage: Passage,
        /// Speed over limit there at the high flow.
        over: Ratio,
    },
    /// The likely flow passes a limit: film and splash are dragged along.
    FilmDragged {
        /// The worst place.
        passage: Passage,
        /// Speed over limit there at the likely flow.
        over: Ratio,
    },
}

impl CarryOverReason {
    /// The sentence a person reads.
    #[must_use]
    pub fn words(&self, system: UnitSystem) -> String {
        let times = |over: &Ratio| Amount::of(*over).show(system);
        match self {
            Self::MistOnly => {
                "Gas speeds stay below their limits: splash falls back and only fine mist goes along, which gravity \
                               does not remove; it takes mesh or walls that turn the gas."
                    .to_owned()
            }
            Self::FilmAtHighFlow { passage, over } => format!(
                "At the high flow the gas in {} is {} times as fast as it should be and drags oil film along; at the likely flow \
                 only mist goes.",
                passage.words(),
                times(over)
            ),
            Self::FilmDragged { passage, over } => format!(
                "The gas in {} is {} times as fast as it should be: it drags oil film and splash along, and the oil carried grows \
                 with the speed or its square. A larger bore there helps more than a larger can.",
                passage.words(),
                times(over)
            ),
        }
    }
}

/// Oil that leaves the crankcase with the gas.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct CarryOver {
    /// The oil.
    pub oil: Estimate<MassRate>,
    /// Why.
    pub reason: CarryOverReason,
}

/// Oil that the gas carries out: `ṁ_oil = c ṁ_gas k · max(1, u/u_lim)^n` at the worst place before the can.
///
/// Low and high take the like ends of flow and speed, which belong together. Loading, times and exponent are known
/// independently of each other: the factors by which they part from their likely values are joined as the root of the sum of
/// squares of their logarithms. An estimate within a factor of three either way at best: weigh what a can collects in 500 km
/// and put that in its place.
///
/// # Errors
/// Three values out of order, a figure outside its range, or gas more than 10 times as fast as it should be.
pub fn carry_over(
    flow: &Estimate<MassRate>,
    speeds: &[GasSpeed],
    oil: &OilToGas,
    scribe: &mut impl Scribe,
) -> Result<CarryOver, OilError> {
    in_order(flow, &GAS_FLOW)?;
    in_order(&oil.loading, &loading().range)?;
    in_order(&oil.times, &worn_or_track().range)?;
    in_order(&oil.exponent, &speed_exponent().range)?;
    let mut worst: Option<&GasSpeed> = None;
    for speed in speeds.iter().filter(|speed| !matches!(speed.passage, Passage::Can { .. })) {
        in_order(&speed.over, &OVER)?;
        if worst.is_none_or(|worst| speed.over.likely.base() > worst.over.likely.base()) {
            worst = Some(speed);
        }
    }
    let over = worst.map_or(Estimate::exact(Ratio::from_base(0.0)), |worst| worst.over);
    let carried = |flow: MassRate, over: Ratio| {
        let growth = over.base().max(1.0).powf(oil.exponent.likely.base());
        oil.loading.likely.base() * flow.base() * oil.times.likely.base() * growth
    };
    // How far one end of the three figures parts from the likely one.
    let parts = |loading: Ratio, times: Ratio, exponent: Ratio, over: Ratio| {
        let by_speed = over.base().max(1.0).ln() * (exponent.base() - oil.exponent.likely.base());
        let by_loading = (loading.base() / oil.loading.likely.base()).ln();
        let by_times = (times.base() / oil.times.likely.base()).ln();
        by_speed.hypot(by_loading).hypot(by_times)
    };
    let (least, most) = (
        parts(oil.loading.low, oil.times.low, oil.exponent.low, over.low),
        parts(oil.loading.high, oil.times.high, oil.exponent.high, over.high),
    );
    let rate = MassRate::from_base;
    let answer = if oil.loading.likely.base() > 0.0 {
        Estimate {
            low: rate(carried(flow.low, over.low) * (-least).exp()),
            likely: rate(carried(flow.likely, over.likely)),
            high: rate(carried(flow.high, over.high) * most.exp()),
        }
    } else {
        // No oil at the likely loading: the high loading alone makes the high end.
        let growth = over.high.base().max(1.0).powf(oil.exponent.likely.base());
        let high = oil.loading.high.base() * flow.high.base() * oil.times.likely.base() * growth;
        Estimate { low: rate(0.0), likely: rate(0.0), high: rate(high) }
    };
    scribe.step(|| {
        Step::new("oil carried by the gas", "ṁ_oil", "ṁ_oil = c·ṁ_gas·k·max(1, u/u_lim)^n", &CARRY_OVER)
            .with("c", oil.loading.likely)
            .with("ṁ_gas", flow.likely)
            .with("k", oil.times.likely)
            .with("u/u_lim", over.likely)
            .with("n", oil.exponent.likely)
            .gives_amount(Amount::of_kind(answer.likely, Kind::CarryOver))
    });
    let reason = match worst {
        Some(worst) if worst.over.likely.base() > 1.0 => {
            CarryOverReason::FilmDragged { passage: worst.passage, over: worst.over.likely }
        }
        Some(worst) if worst.may_drag() => {
            CarryOverReason::FilmAtHighFlow { passage: worst.passage, over: worst.over.high }
        }
        _ => CarryOverReason::MistOnly,
    };
    Ok(CarryOver { oil: answer, reason })
}
