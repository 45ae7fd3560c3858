//! The state around the ventilation at one duty.

use super::parts::Arrangement;
use crate::fluid::crankcase_gas;
use crate::quantity::si::{MassRate, Pressure, ThermodynamicTemperature};
use crate::quantity::{AbsolutePressure, Kind, Measured, OutOfRange, Range, celsius};

const BLOW_BY: Range =
    Range::new("blow-by", Kind::GasFlow, -0.1, 0.2, "a car engine has 0.1 to 10 g/s; negative only on overrun");
const MANIFOLD: Range = Range::new(
    "manifold pressure",
    Kind::AbsolutePressure,
    5.0e3,
    4.0e5,
    "give the absolute pressure: 18 to 50 kPa at idle, near the ambient pressure at full throttle",
);
const AMBIENT: Range =
    Range::new("ambient pressure", Kind::AbsolutePressure, 4.0e4, 1.2e5, "101.3 kPa at sea level, 70 kPa at 3000 m");
/// Depressions of the air cleaner that can be reckoned with.
pub static AIR_CLEANER: Range = Range::new(
    "depression of the air cleaner",
    Kind::PressureDifference,
    0.0,
    2.0e4,
    "0.1 to 3 kPa are usual; a supercharged system cannot be described here",
);
const AMBIENT_TEMPERATURE: Range =
    Range::new("ambient temperature", Kind::Temperature, 223.15, 333.15, "between the coldest and the hottest day");
const MANIFOLD_TEMPERATURE: Range =
    Range::new("manifold gas temperature", Kind::Temperature, 223.15, 473.15, "30 to 60 °C are usual");

/// The state around the ventilation at one duty.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Boundary {
    /// Blow-by into the crankcase, −100 to 200 g/s; negative on overrun when the rings draw gas up.
    pub blow_by: MassRate,
    /// Manifold pressure, 5 to 400 kPa.
    pub manifold: AbsolutePressure,
    /// Pressure of the ambient air, 40 to 120 kPa.
    pub ambient: AbsolutePressure,
    /// How far the air cleaner's clean side is below the ambient air, 0 to 20 kPa.
    pub air_cleaner_depression: Pressure,
    /// Temperature of the gas in the crankcase, −40 to 200 °C.
    pub crankcase_temperature: ThermodynamicTemperature,
    /// Temperature of the ambient air, −50 to 60 °C.
    pub ambient_temperature: ThermodynamicTemperature,
    /// Temperature of the gas in the manifold, −50 to 200 °C, which counts only when it blows back.
    pub manifold_temperature: ThermodynamicTemperature,
}

impl Boundary {
    /// A state in standard air of 25 °C with the usual crankcase gas.
    #[must_use]
    pub fn at(blow_by: MassRate, manifold: AbsolutePressure) -> Self {
        Self {
            blow_by,
            manifold,
            ambient: crankcase_gas::standard_pressure(),
            air_cleaner_depression: Pressure::from_base(0.0),
            crankcase_temperature: crankcase_gas::temperature().likely(),
            ambient_temperature: celsius(25.0),
            manifold_temperature: celsius(46.85),
        }
    }

    /// Whether every figure lies in its range.
    ///
    /// # Errors
    /// Naming the first that does not.
    pub fn check(&self) -> Result<(), OutOfRange> {
        BLOW_BY.check(self.blow_by)?;
        MANIFOLD.check(self.manifold)?;
        AMBIENT.check(self.ambient)?;
        AIR_CLEANER.check(self.air_cleaner_depression)?;
        crankcase_gas::temperature().check(self.crankcase_temperature)?;
        AMBIENT_TEMPERATURE.check(self.ambient_temperature)?;
        MANIFOLD_TEMPERATURE.check(self.manifold_temperature)?;
        Ok(())
    }

    /// The pressure on the clean side of the air cleaner.
    #[must_use]
    pub fn air_cleaner(&self) -> AbsolutePressure {
        AbsolutePressure::new(self.ambient.above_vacuum() - self.air_cleaner_depression)
    }

    /// The pressure at the far end of the breather or of the fresh-air line.
    #[must_use]
    pub fn far_end(&self, arrangement: Arrangement) -> AbsolutePressure {
        match arrangement {
            to_cleaner if to_cleaner.leads_to_air_cleaner() => self.air_cleaner(),
            _ => self.ambient,
        }
    }
}
