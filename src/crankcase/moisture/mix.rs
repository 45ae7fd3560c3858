//! Outside air, and blow-by mixed with it.

use super::saturation::{DewPoint, dew_point, over_water};
use super::{MoistureError, defaults};
use crate::quantity::si::{Ratio, ThermodynamicTemperature as Temperature};
use crate::quantity::{AbsolutePressure, Amount, Kind, Measured, Range, ZERO_CELSIUS};
use crate::scribe::{Scribe, Step};
use crate::source::DEFINITION;
use crate::source::crankcase::moisture::GAS_MIX;

/// Temperatures of outside air.
pub static AIR_TEMPERATURE: Range = Range::new(
    "the temperature of the outside air",
    Kind::Temperature,
    ZERO_CELSIUS - 45.0,
    333.15,
    "relative humidity is defined from −45 to 60 °C",
);
static AMBIENT: Range = Range::new(
    "ambient pressure",
    Kind::AbsolutePressure,
    50e3,
    110e3,
    "101.3 kPa at sea level, about 11.5 kPa less for each 1000 m",
);
static HUMIDITY: Range =
    Range::new("relative humidity", Kind::Share, 0.0, 1.0, "0 to 100 %, as a weather report gives it");

/// Outside air as a weather report gives it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct OutsideAir {
    /// Temperature, −45 to 60 °C.
    pub temperature: Temperature,
    /// Relative humidity, over water also below 0 °C.
    pub humidity: Ratio,
    /// Pressure, 50 to 110 kPa.
    pub pressure: AbsolutePressure,
}

impl OutsideAir {
    /// Whether every figure lies in its range.
    ///
    /// # Errors
    /// Naming the one that does not.
    pub fn check(&self) -> Result<(), MoistureError> {
        AIR_TEMPERATURE.check(self.temperature)?;
        HUMIDITY.check(self.humidity)?;
        AMBIENT.check(self.pressure)?;
        Ok(())
    }

    /// Share of water vapour in the air, `x_a = φ pₛ(t)/p`.
    ///
    /// # Errors
    /// A figure outside its range, or air of more than 20 % vapour (50 °C and more, saturated, high up).
    pub fn vapour_share(&self, scribe: &mut impl Scribe) -> Result<Ratio, MoistureError> {
        self.check()?;
        let saturated = over_water(self.temperature, scribe)?;
        let share = Ratio::from_base(self.humidity.base() * saturated.base() / self.pressure.base());
        let share = defaults::AIR_VAPOUR.check(share)?;
        scribe.step(|| {
            Step::new("water vapour in the outside air", "x_a", "x_a = φ·pₛ/p", &DEFINITION)
                .with_amount("φ", Amount::of_kind(self.humidity, Kind::Share))
                .with("pₛ", saturated)
                .with("p", self.pressure)
                .gives_amount(Amount::of_kind(share, Kind::Share))
        });
        Ok(share)
    }
}

/// Blow-by and the air it meets, by their water.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct WetGas {
    /// Burnt share of the blow-by, f_b; default [`defaults::burnt`].
    pub burnt_share: Ratio,
    /// Water vapour in its burnt part, x_w, from [`super::burnt_water_share`].
    pub burnt_water: Ratio,
    /// Water vapour in its unburnt part and in fresh air, x_a, from [`OutsideAir::vapour_share`].
    pub air_water: Ratio,
}

impl WetGas {
    pub(super) fn check(&self) -> Result<(), MoistureError> {
        defaults::burnt().check(self.burnt_share)?;
        super::saturation::VAPOUR.check(self.burnt_water)?;
        defaults::AIR_VAPOUR.check(self.air_water)?;
        Ok(())
    }

    /// Water vapour in undiluted blow-by.
    pub(super) fn undiluted(&self) -> f64 {
        let burnt = self.burnt_share.base();
        burnt * self.burnt_water.base() + (1.0 - burnt) * self.air_water.base()
    }

    /// Share of water vapour in the mix, `x = (f_b x_w + (1 − f_b) x_a + D x_a)/(1 + D)`, D fresh air over blow-by. Moles are
    /// taken as mass: burnt gas and air differ by less than 1 %.
    ///
    /// # Errors
    /// A figure outside its range: D 0 to 10⁹.
    pub fn mixed(&self, dilution: Ratio, scribe: &mut impl Scribe) -> Result<Ratio, MoistureError> {
        self.check()?;
        let d = defaults::DILUTION.check(dilution)?.base();
        let share = Ratio::from_base((self.undiluted() + d * self.air_water.base()) / (1.0 + d));
        scribe.step(|| {
            let equation = "x = (f_b·x_w + (1 − f_b)·x_a + D·x_a)/(1 + D)";
            Step::new("water vapour in the crankcase", "x", equation, &GAS_MIX)
                .with_amount("f_b", Amount::of_kind(self.burnt_share, Kind::Share))
                .with_amount("x_w", Amount::of_kind(self.burnt_water, Kind::Share))
                .with_amount("x_a", Amount::of_kind(self.air_water, Kind::Share))
                .with("D", dilution)
                .gives_amount(Amount::of_kind(share, Kind::Share))
        });
        Ok(share)
    }

    /// Dew point of the mix at a crankcase pressure.
    ///
    /// # Errors
    /// As [`WetGas::mixed`] and [`dew_point`].
    pub fn dew_point(
        &self,
        dilution: Ratio,
        pressure: AbsolutePressure,
        scribe: &mut impl Scribe,
    ) -> Result<DewPoint, MoistureError> {
        let share = self.mixed(dilution, scribe)?;
        dew_point(share, pressure, scribe)
    }
}
