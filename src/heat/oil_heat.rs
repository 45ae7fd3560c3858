//! Heat the engine gives to its oil.

use super::engine_heat::CoolantHeat;
use super::{HeatError, oil_defaults};
use crate::quantity::Estimate;
use crate::quantity::Measured;
use crate::quantity::si::{Power, Ratio};
use crate::scribe::{Scribe, Step};
use crate::source::engine_oil as source;

/// How the heat to the oil is reckoned.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct OilHeatModel {
    /// Share of the friction power that warms the oil: bearings, skirts, pumps.
    pub friction_share: Estimate<Ratio>,
    /// Heat from under the piston crowns and from the heads' oil, over the heat to the coolant.
    pub coolant_share: Estimate<Ratio>,
}

impl OilHeatModel {
    /// The usual figures, with jets of oil under the pistons or without.
    #[must_use]
    pub fn usual(piston_jets: bool) -> Self {
        let crowns =
            if piston_jets { oil_defaults::oil_share_with_jets() } else { oil_defaults::oil_share_of_coolant() };
        Self { friction_share: oil_defaults::oil_share_of_friction().estimate, coolant_share: crowns.estimate }
    }

    /// Heat to the oil: Q_oil = a·P_f + b·Q. The spreads of a, P_f, b and Q join as the root of the sum of squares.
    ///
    /// What jets take from the pistons is not taken off the coolant's heat: that errs to the hot side.
    ///
    /// # Errors
    /// A share out of range.
    pub fn heat(
        &self,
        friction: &Estimate<Power>,
        coolant: &Estimate<Power>,
        scribe: &mut impl Scribe,
    ) -> Result<Estimate<Power>, HeatError> {
        oil_defaults::oil_share_of_friction().range.check_estimate::<_, HeatError>(&self.friction_share)?;
        oil_defaults::oil_share_of_coolant().range.check_estimate::<_, HeatError>(&self.coolant_share)?;
        let of = |a: Ratio, friction: Power, b: Ratio, coolant: Power| {
            a.base() * friction.base() + b.base() * coolant.base()
        };
        let (a, b) = (&self.friction_share, &self.coolant_share);
        let likely = of(a.likely, friction.likely, b.likely, coolant.likely);
        let apart = |changed: f64| changed - likely;
        let up = apart(of(a.high, friction.likely, b.likely, coolant.likely))
            .hypot(apart(of(a.likely, friction.high, b.likely, coolant.likely)))
            .hypot(apart(of(a.likely, friction.likely, b.high, coolant.likely)))
            .hypot(apart(of(a.likely, friction.likely, b.likely, coolant.high)));
        let down = apart(of(a.low, friction.likely, b.likely, coolant.likely))
            .hypot(apart(of(a.likely, friction.low, b.likely, coolant.likely)))
            .hypot(apart(of(a.likely, friction.likely, b.low, coolant.likely)))
            .hypot(apart(of(a.likely, friction.likely, b.likely, coolant.low)));
        let power = Power::from_base;
        let heat = Estimate::sorted(power((likely - down).max(0.0)), power(likely), power(likely + up));
        scribe.step(|| {
            Step::new("Heat to the oil", "Q_oil", "Q_oil = a·P_f + b·Q", &source::OIL_HEAT)
                .with("a", a.likely)
                .with("P_f", friction.likely)
                .with("b", b.likely)
                .with("Q", coolant.likely)
                .gives(heat.likely)
        });
        Ok(heat)
    }
}

impl CoolantHeat {
    /// Heat to the oil at this duty; see [`OilHeatModel::heat`].
    ///
    /// # Errors
    /// A share out of range.
    pub fn oil(&self, model: &OilHeatModel, scribe: &mut impl Scribe) -> Result<Estimate<Power>, HeatError> {
        model.heat(&self.friction_power, &self.heat, scribe)
    }
}
