//! A blower before the engine: how warm the charge comes in, and what the exhaust stands against.

use super::{BlowByError, defaults};
use crate::quantity::si::{Pressure, Ratio, TemperatureInterval, ThermodynamicTemperature as Temperature};
use crate::quantity::{AbsolutePressure, GaugePressure, Kind, Measured, Range};
use crate::scribe::{Scribe, Step};
use crate::source::crankcase::blow_by as source;

/// `(κ − 1)/κ` of air.
const EXPONENT: f64 = 0.4 / 1.4;

/// Pressure ratios of one blower.
pub static PRESSURE_RATIO: Range = Range::new(
    "pressure ratio of the blower",
    Kind::Number,
    1.0,
    4.5,
    "1.3 to 2.5 is usual; 4 is the most of one stage",
);
/// Temperatures of air around the engine and in its intake.
static AIR: Range =
    Range::new("air temperature before the blower", Kind::Temperature, 220.0, 350.0, "that of the air drawn in");

/// A compressor, whatever drives it, and what cools the charge behind it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Blower {
    /// Isentropic efficiency; default [`defaults::compressor_efficiency`].
    pub efficiency: Ratio,
    /// Share of the way from the compressor's outlet down to the outside air that a charge cooler takes; zero without
    /// one, default [`defaults::cooler_effectiveness`].
    pub cooler: Ratio,
}

impl Blower {
    /// How much warmer the charge comes in: `ΔT = (1 − ε) T_air (π^0.2857 − 1)/η`; none at a ratio of one or less.
    ///
    /// # Errors
    /// A pressure ratio above 4.5, an efficiency, effectiveness or temperature out of range.
    pub fn rise(
        &self,
        manifold: AbsolutePressure,
        ambient: AbsolutePressure,
        air: Temperature,
        scribe: &mut impl Scribe,
    ) -> Result<TemperatureInterval, BlowByError> {
        let efficiency = defaults::compressor_efficiency().check(self.efficiency)?.base();
        let cooler = defaults::cooler_effectiveness().check(self.cooler)?.base();
        let ratio = (manifold.base() / defaults::AMBIENT.check(ambient)?.base()).max(1.0);
        let ratio = PRESSURE_RATIO.check_base(ratio)?;
        let rise = (1.0 - cooler) * AIR.check(air)?.base() * (ratio.powf(EXPONENT) - 1.0) / efficiency;
        let rise = TemperatureInterval::from_base(rise);
        if ratio > 1.0 {
            scribe.step(|| {
                Step::new(
                    "warming of the charge in blower and cooler",
                    "ΔT",
                    "ΔT = (1 − ε) T_air (π^0.2857 − 1)/η",
                    &source::COMPRESSOR,
                )
                .with_number("ε", cooler)
                .with("T_air", air)
                .with_number("π", ratio)
                .with("η", self.efficiency)
                .gives(rise)
            });
        }
        Ok(rise)
    }
}

/// What the exhaust stroke works against: that of an open exhaust, and with a turbine `k` times the boost on top.
#[must_use]
pub fn back_pressure(boost: GaugePressure, for_each_boost: Ratio) -> Pressure {
    let open = defaults::back_pressure().likely();
    Pressure::from_base(open.base() + for_each_boost.base() * boost.base().max(0.0))
}
