//! Level 1: the condition of the engine alone, by rules of thumb at full throttle.

use super::through::in_order;
use super::{BlowByError, defaults, volume};
use crate::quantity::si::{MassRate, Power, Ratio, VolumeRate};
use crate::quantity::{Amount, Estimate, Kind, Measured, Range};
use crate::scribe::{Scribe, Step};
use crate::source::DEFINITION;
use crate::source::crankcase::blow_by as source;

static AIR_FLOW: Range =
    Range::new("air flow at full throttle", Kind::GasFlow, 1e-4, 20.0, "10 to 500 g/s for a car engine");
static BRAKE_POWER: Range =
    Range::new("brake power", Kind::Power, 100.0, 2e6, "the most the engine gives, at the crank");

/// How the rings are.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
pub enum Condition {
    /// Bedded in and healthy.
    RunIn,
    /// New, rings not yet bedded.
    Fresh,
    /// Many kilometres, or hurt.
    Worn,
}

impl Condition {
    /// Every condition.
    pub const ALL: [Self; 3] = [Self::RunIn, Self::Fresh, Self::Worn];
}

/// Two rules of thumb for blow-by at full throttle.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct RulesOfThumb {
    /// Share of the air drawn; default [`defaults::share_of_air`].
    pub share_of_air: Estimate<Ratio>,
    /// Standard volume flow (101.325 kPa, 20 °C) for each kilowatt of brake power; default [`defaults::per_kilowatt`].
    pub per_kilowatt: Estimate<VolumeRate>,
}

impl RulesOfThumb {
    /// What is assumed of a condition.
    #[must_use]
    pub fn of(condition: Condition) -> Self {
        Self {
            share_of_air: defaults::share_of_air(condition).estimate,
            per_kilowatt: defaults::per_kilowatt(condition).estimate,
        }
    }
}

/// Blow-by at full throttle by the condition: the geometric mean of both rules, inside the outer envelope of both.
///
/// Without a brake power the share of the air alone speaks. Other operating points follow in the ratio of `G`: by
/// [`super::area_from_flow`] at full throttle and [`super::through`] at the point.
///
/// # Errors
/// An air flow outside 0.1 g/s to 5 kg/s, a power outside 0.1 kW to 2 MW, or a rule out of range or order.
pub fn from_condition(
    rules: &RulesOfThumb,
    air_flow: MassRate,
    brake_power: Option<Power>,
    scribe: &mut impl Scribe,
) -> Result<Estimate<MassRate>, BlowByError> {
    let air = AIR_FLOW.check(air_flow)?.base();
    in_order(&rules.share_of_air, &defaults::SHARE_OF_AIR)?;
    let by_air = rules.share_of_air.map(|share| MassRate::from_base(share.base() * air));
    scribe.step(|| {
        Step::new("blow-by as a share of the air drawn", "ṁ_a", "ṁ_a = s ṁ_air", &source::BLOW_BY_SHARE)
            .with_amount("s", Amount::of_kind(rules.share_of_air.likely, Kind::Share))
            .with("ṁ_air", air_flow)
            .gives(by_air.likely)
    });
    let Some(power) = brake_power else {
        return Ok(by_air);
    };
    let kilowatts = BRAKE_POWER.check(power)?.base() / 1e3;
    in_order(&rules.per_kilowatt, &defaults::PER_KILOWATT)?;
    let by_power = rules.per_kilowatt.map(|flow| volume::from_standard(VolumeRate::from_base(flow.base() * kilowatts)));
    scribe.step(|| {
        Step::new("blow-by by the brake power", "ṁ_P", "ṁ_P = ρ_std v P", &source::BLOW_BY_SHARE)
            .with("v for each kW, at 20 °C", rules.per_kilowatt.likely)
            .with("P", power)
            .gives(by_power.likely)
    });
    let estimate = Estimate {
        low: MassRate::from_base(by_air.low.base().min(by_power.low.base())),
        likely: MassRate::from_base((by_air.likely.base() * by_power.likely.base()).sqrt()),
        high: MassRate::from_base(by_air.high.base().max(by_power.high.base())),
    };
    scribe.step(|| {
        Step::new("blow-by at full throttle by the condition", "ṁ_bb", "ṁ_bb = √(ṁ_a ṁ_P)", &DEFINITION)
            .with("ṁ_a", by_air.likely)
            .with("ṁ_P", by_power.likely)
            .gives(estimate.likely)
    });
    Ok(estimate)
}
