//! Walls, and the fresh air that keeps them dry.

use super::mix::{AIR_TEMPERATURE, WetGas};
use super::saturation::{CRANKCASE_PRESSURE, wall_saturation};
use super::{MoistureError, defaults};
use crate::quantity::si::{MassRate, Ratio, ThermodynamicTemperature as Temperature};
use crate::quantity::{AbsolutePressure, Amount, Kind, Measured, Range, ZERO_CELSIUS};
use crate::scribe::{Scribe, Step};
use crate::source::crankcase::moisture::{CRANKCASE_WARMTH, GAS_MIX};

/// Temperatures of the oil.
pub static OIL_TEMPERATURE: Range = Range::new(
    "the oil temperature",
    Kind::Temperature,
    ZERO_CELSIUS - 45.0,
    423.15,
    "70 to 130 °C warm; lower on a cold trip",
);
/// Flows of blow-by.
pub static BLOW_BY: Range =
    Range::new("the blow-by", Kind::GasFlow, 0.0, 0.2, "0.1 to 5 g/s from a car engine; not negative");

/// Temperature of the inner wall of a cover, hose or can: `T_w = T_air + φ (T_oil − T_air)`.
///
/// # Errors
/// Air outside −45 to 60 °C, oil outside −45 to 150 °C, φ outside 0 to 1.
pub fn wall_temperature(
    air: Temperature,
    oil: Temperature,
    share: Ratio,
    scribe: &mut impl Scribe,
) -> Result<Temperature, MoistureError> {
    let a = AIR_TEMPERATURE.check(air)?.base();
    let o = OIL_TEMPERATURE.check(oil)?.base();
    let wall = Temperature::from_base(a + defaults::wall_share().check(share)?.base() * (o - a));
    scribe.step(|| {
        Step::new("temperature of the wall", "T_w", "T_w = T_air + φ·(T_oil − T_air)", &CRANKCASE_WARMTH)
            .with("T_air", air)
            .with("T_oil", oil)
            .with("φ", share)
            .gives(wall)
    });
    Ok(wall)
}

/// How much fresh air keeps a wall dry.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum LeastDilution {
    /// None: even undiluted blow-by leaves it dry.
    None,
    /// At least this much fresh air over blow-by.
    AtLeast(Ratio),
    /// No amount: the outside air alone wets a wall so cold.
    NoAmount,
}

impl LeastDilution {
    /// Whether this much fresh air over blow-by is enough.
    #[must_use]
    pub fn met_by(self, dilution: Ratio) -> bool {
        match self {
            Self::None => true,
            Self::AtLeast(least) => dilution.base() >= least.base(),
            Self::NoAmount => false,
        }
    }

    /// The flow of fresh air for a flow of blow-by, `ṁ_f = D ṁ_b`; none when no amount would do.
    ///
    /// # Errors
    /// Blow-by outside 0 to 200 g/s.
    pub fn fresh_air(self, blow_by: MassRate, scribe: &mut impl Scribe) -> Result<Option<MassRate>, MoistureError> {
        let blow = BLOW_BY.check(blow_by)?.base();
        let least = match self {
            Self::None => 0.0,
            Self::AtLeast(least) => least.base(),
            Self::NoAmount => return Ok(None),
        };
        let flow = MassRate::from_base(least * blow);
        scribe.step(|| {
            Step::new("fresh air that keeps the wall dry", "ṁ_f", "ṁ_f = D_min·ṁ_b", &GAS_MIX)
                .with_number("D_min", least)
                .with("ṁ_b", blow_by)
                .gives(flow)
        });
        Ok(Some(flow))
    }
}

/// Least fresh air over blow-by that keeps a wall dry: `D = (x₀ − x_s)/(x_s − x_a)`, with x₀ the undiluted gas and
/// x_s = pₛ(T_w)/p the gas saturated at the wall.
///
/// # Errors
/// A figure outside its range: wall −65 to 150 °C, pressure 20 to 200 kPa.
pub fn least_dilution(
    gas: &WetGas,
    wall: Temperature,
    pressure: AbsolutePressure,
    scribe: &mut impl Scribe,
) -> Result<LeastDilution, MoistureError> {
    gas.check()?;
    let p = CRANKCASE_PRESSURE.check(pressure)?.base();
    let saturated = wall_saturation(wall, scribe)?.base() / p;
    let (undiluted, air) = (gas.undiluted(), gas.air_water.base());
    if undiluted <= saturated {
        return Ok(LeastDilution::None);
    }
    let least = (undiluted - saturated) / (saturated - air);
    // Where so much is asked the air is as good as wet itself.
    if saturated <= air || least > defaults::ASKED_IN_VAIN {
        return Ok(LeastDilution::NoAmount);
    }
    let least = Ratio::from_base(least);
    scribe.step(|| {
        let share = |x: f64| Amount::new(x, Kind::Share);
        Step::new("least fresh air over blow-by", "D_min", "D_min = (x₀ − x_s)/(x_s − x_a)", &GAS_MIX)
            .with_amount("x₀", share(undiluted))
            .with_amount("x_s", share(saturated))
            .with_amount("x_a", share(air))
            .gives(least)
    });
    Ok(LeastDilution::AtLeast(least))
}
