//! Petrol in the oil: how readily its heavy cuts leave at an oil temperature.

use super::{MoistureError, defaults};
use crate::quantity::si::{Ratio, ThermodynamicTemperature as Temperature};
use crate::quantity::{AbsolutePressure, Amount, Kind, Measured, Range, UnitSystem, ZERO_CELSIUS};
use crate::scribe::{Scribe, Step};
use crate::source::DEFINITION;
use crate::source::crankcase::moisture::PETROL_CUTS;

/// Temperatures of oil that petrol may leave.
pub static OIL: Range = Range::new(
    "the oil temperature",
    Kind::Temperature,
    ZERO_CELSIUS,
    423.15,
    "0 to 150 °C; colder oil gives off no fuel worth reckoning",
);

/// The hydrocarbons that stand for the cuts of petrol that stay in oil, light to heavy.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum PetrolCut {
    /// n-octane, boils at 126 °C.
    Octane,
    /// n-nonane, boils at 151 °C.
    Nonane,
    /// n-decane, boils at 174 °C.
    Decane,
    /// n-undecane, boils at 196 °C.
    Undecane,
    /// n-dodecane, boils at 216 °C.
    Dodecane,
}

impl PetrolCut {
    /// Every cut, light to heavy.
    pub const ALL: [Self; 5] = [Self::Octane, Self::Nonane, Self::Decane, Self::Undecane, Self::Dodecane];

    /// Its name in words.
    #[must_use]
    pub const fn words(self) -> &'static str {
        match self {
            Self::Octane => "n-octane",
            Self::Nonane => "n-nonane",
            Self::Decane => "n-decane",
            Self::Undecane => "n-undecane",
            Self::Dodecane => "n-dodecane",
        }
    }

    /// C₁ to C₄ of DIPPR equation 101 in Pa and K; C₅ is 2. They hold from the melting to the critical point.
    const fn coefficients(self) -> [f64; 4] {
        match self {
            Self::Octane => [96.084, -7900.2, -11.003, 7.1802e-6],
            Self::Nonane => [109.35, -9030.4, -12.882, 7.8544e-6],
            Self::Decane => [112.73, -9749.6, -13.245, 7.1266e-6],
            Self::Undecane => [131.0, -11_143.0, -15.855, 8.1871e-6],
            Self::Dodecane => [137.47, -11_976.0, -16.698, 8.0906e-6],
        }
    }

    /// Saturation pressure, `ln p = C₁ + C₂/T + C₃ ln T + C₄ T²`; 0 to 150 °C. Within 1 % of reference equations of state
    /// from 20 to 100 °C, n-undecane within 4 %.
    ///
    /// # Errors
    /// A temperature outside the range.
    pub fn saturation_pressure(
        self,
        oil: Temperature,
        scribe: &mut impl Scribe,
    ) -> Result<AbsolutePressure, MoistureError> {
        let t = OIL.check(oil)?.base();
        let [c1, c2, c3, c4] = self.coefficients();
        let pressure = AbsolutePressure::from_base((c1 + c2 / t + c3 * t.ln() + c4 * t * t).exp());
        scribe.step(|| {
            let equation = "ln p = C₁ + C₂/T + C₃·ln T + C₄·T²";
            Step::new("saturation pressure of a cut of petrol", "p", equation, &PETROL_CUTS)
                .with_number("C₁", c1)
                .with_number("C₂", c2)
                .with_number("C₃", c3)
                .with_number("C₄", c4)
                .with("T", oil)
                .gives(pressure)
        });
        Ok(pressure)
    }
}

/// What an oil temperature does to petrol in the oil.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct FuelBoilOff {
    /// The oil temperature.
    pub oil: Temperature,
    /// Oil warm enough to drive fuel off in a while; default [`defaults::drying_oil`].
    pub reference: Temperature,
    /// Saturation pressure of n-decane at the oil temperature: a middling cut of what stays in oil.
    pub decane: AbsolutePressure,
    /// Saturation pressure of n-dodecane: the heaviest cut.
    pub dodecane: AbsolutePressure,
    /// Drive of n-decane to leave, over that at the reference temperature.
    pub decane_drive: Ratio,
    /// Drive of n-dodecane to leave, over that at the reference temperature.
    pub dodecane_drive: Ratio,
}

impl FuelBoilOff {
    /// The sentence a person reads.
    #[must_use]
    pub fn words(&self, system: UnitSystem) -> String {
        let percent = |ratio: Ratio| Amount::of_kind(ratio, Kind::Share).show(system);
        let (oil, reference) = (Amount::of(self.oil).show(system), Amount::of(self.reference).show(system));
        if self.oil.base() >= self.reference.base() {
            return format!("Oil at {oil} drives petrol off at least as well as at {reference}.");
        }
        format!(
            "At {oil} the middling cuts of petrol are driven out of the oil with {} and the heavy ones with {} of what drives \
             them at {reference}: fuel from cold starts stays longer, so give the oil a longer warm run now and then and look \
             for a level that rises or oil that smells of petrol.",
            percent(self.decane_drive),
            percent(self.dodecane_drive)
        )
    }
}

/// How readily petrol leaves oil of this temperature, compared with oil of another.
///
/// The saturation pressure is what drives a cut out of thin oil into gas that holds little of it; its ratio, not its value,
/// says how much longer the same share takes.
///
/// # Errors
/// A temperature outside 0 to 150 °C; a reference outside 60 to 130 °C.
pub fn fuel_boil_off(
    oil: Temperature,
    reference: Temperature,
    scribe: &mut impl Scribe,
) -> Result<FuelBoilOff, MoistureError> {
    defaults::drying_oil().check(reference)?;
    let mut drive = |cut: PetrolCut| -> Result<(AbsolutePressure, Ratio), MoistureError> {
        let here = cut.saturation_pressure(oil, scribe)?;
        let there = cut.saturation_pressure(reference, scribe)?;
        let ratio = Ratio::from_base(here.base() / there.base());
        scribe.step(|| {
            Step::new("drive to leave, over that of warm oil", "r", "r = p(T)/p(T_ref)", &DEFINITION)
                .with("p(T)", here)
                .with("p(T_ref)", there)
                .gives(ratio)
        });
        Ok((here, ratio))
    };
    let (decane, decane_drive) = drive(PetrolCut::Decane)?;
    let (dodecane, dodecane_drive) = drive(PetrolCut::Dodecane)?;
    Ok(FuelBoilOff { oil, reference, decane, dodecane, decane_drive, dodecane_drive })
}
