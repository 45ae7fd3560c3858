//! Gas speed at the places where oil settles, runs back, or is dragged along.

use super::OilError;
use super::defaults::{CanInside, impaction_number, in_order, mouth_speed, settling_speed};
use super::droplet::{BORE, CutSize, Mist, cut_size_in_upflow, impaction_cut, souders_brown};
use crate::quantity::si::{Area, Length, MassRate, Ratio, Velocity};
use crate::quantity::{Amount, Estimate, Kind, Measured, Range};
use crate::scribe::{Scribe, Silent, Step};
use crate::source::DEFINITION;
use std::f64::consts::PI;

/// Flows of gas.
pub static GAS_FLOW: Range =
    Range::new("gas flow", Kind::GasFlow, 0.0, 0.2, "0.1 to 5 g/s from a car engine; not negative");
/// Areas that gas passes.
pub static AREA: Range =
    Range::new("area that gas passes", Kind::SmallArea, 1e-6, 0.2, "30 mm² of a small baffle to some 100 cm² of a can");

/// A place that gas passes on its way out.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Passage {
    /// Openings of a baffle.
    Baffle {
        /// Area of all openings together.
        area: Area,
        /// Bore or width of one opening, for what strikes the wall behind it.
        opening: Length,
        /// Whether oil must run back through the same openings, against the gas.
        drains_oil: bool,
    },
    /// The mouth of the outlet at the cover or block.
    Neck {
        /// Its bore.
        bore: Length,
    },
    /// A drain that gas may rise in while oil runs down.
    Drain {
        /// Its bore.
        bore: Length,
    },
    /// A catch can.
    Can {
        /// Area that the gas has inside it.
        area: Area,
        /// What is inside.
        inside: CanInside,
    },
}

impl Passage {
    /// Its name in words.
    #[must_use]
    pub const fn words(&self) -> &'static str {
        match self {
            Self::Baffle { .. } => "the baffle",
            Self::Neck { .. } => "the mouth of the outlet",
            Self::Drain { .. } => "the drain",
            Self::Can { .. } => "the catch can",
        }
    }

    fn area(&self) -> Result<f64, OilError> {
        Ok(match self {
            Self::Baffle { area, opening, .. } => {
                BORE.check(*opening)?;
                AREA.check(*area)?.base()
            }
            Self::Can { area, .. } => AREA.check(*area)?.base(),
            Self::Neck { bore } | Self::Drain { bore } => {
                let bore = BORE.check(*bore)?.base();
                PI / 4.0 * bore * bore
            }
        })
    }

    /// The speed to stay below; none at a baffle that only turns the gas.
    fn limit(&self, mist: &Mist, scribe: &mut impl Scribe) -> Result<Option<Velocity>, OilError> {
        Ok(match self {
            Self::Baffle { drains_oil: false, .. } => None,
            Self::Baffle { .. } | Self::Drain { .. } => Some(settling_speed().likely()),
            Self::Neck { .. } => Some(mouth_speed().likely()),
            Self::Can { inside, .. } => Some(souders_brown(inside.souders_brown().likely(), mist, scribe)?),
        })
    }
}

/// How fast gas passes a place, and what that means for droplets.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct GasSpeed {
    /// The place.
    pub passage: Passage,
    /// Speed of the gas.
    pub speed: Estimate<Velocity>,
    /// The speed to stay below, if the place has one.
    pub limit: Option<Velocity>,
    /// Speed over limit; zero without a limit.
    pub over: Estimate<Ratio>,
    /// The droplet that gas rising at the likely speed holds up; none without flow.
    pub cut: Option<CutSize>,
    /// The droplet half of which strike the wall behind a baffle's openings at the likely speed.
    pub strikes: Option<Length>,
}

impl GasSpeed {
    /// Whether the speed passes the limit at the unfavourable end.
    #[must_use]
    pub fn may_drag(&self) -> bool {
        self.over.high.base() > 1.0
    }

    /// Whether oil that must run down this way is held up by the likely gas: the place floods.
    #[must_use]
    pub fn floods(&self) -> bool {
        matches!(self.passage, Passage::Drain { .. } | Passage::Baffle { drains_oil: true, .. })
            && self.over.likely.base() > 1.0
    }
}

/// Gas speed at each place, `u = ṁ/(ρ_g A)`, with its limit.
///
/// # Errors
/// Flows out of order or outside 0 to 200 g/s, an area or a bore outside its range.
pub fn gas_speeds(
    flow: &Estimate<MassRate>,
    passages: &[Passage],
    mist: &Mist,
    scribe: &mut impl Scribe,
) -> Result<Vec<GasSpeed>, OilError> {
    in_order(flow, &GAS_FLOW)?;
    let gas = mist.state()?.gas;
    passages.iter().map(|passage| one(flow, passage, mist, gas, scribe)).collect()
}

pub(super) fn one(
    flow: &Estimate<MassRate>,
    passage: &Passage,
    mist: &Mist,
    gas: f64,
    scribe: &mut impl Scribe,
) -> Result<GasSpeed, OilError> {
    let area = passage.area()?;
    let speed = flow.map(|flow| Velocity::from_base(flow.base() / (gas * area)));
    scribe.step(|| {
        Step::new("gas speed", "u", "u = ṁ/(ρ_g·A)", &DEFINITION)
            .with("ṁ", flow.likely)
            .with_amount("ρ_g", Amount::new(gas, Kind::Density))
            .with("A", Area::from_base(area))
            .gives_amount(Amount::of_kind(speed.likely, Kind::GasSpeed))
    });
    let limit = passage.limit(mist, scribe)?;
    let over = match limit {
        Some(limit) => speed.map(|speed| Ratio::from_base(speed.base() / limit.base())),
        None => Estimate::exact(Ratio::from_base(0.0)),
    };
    // Speeds a droplet law holds for; outside it nothing is said of droplets, the speed itself stands.
    let known = super::droplet::SPEED.check(speed.likely).is_ok();
    let cut = if known { Some(cut_size_in_upflow(speed.likely, mist, scribe)?) } else { None };
    let strikes = match passage {
        Passage::Baffle { opening, .. } if known => {
            Some(impaction_cut(speed.likely, *opening, impaction_number().likely(), mist, &mut Silent)?)
        }
        _ => None,
    };
    Ok(GasSpeed { passage: *passage, speed, limit, over, cut, strikes })
}
