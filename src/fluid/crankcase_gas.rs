//! Gas in the crankcase: blow-by taken as air, with its defaults.

use super::{FluidError, air};
use crate::quantity::si::{MassDensity, Ratio, SpecificHeatCapacity, ThermodynamicTemperature};
use crate::quantity::{AbsolutePressure, Estimate, Measured, celsius, pascals};
use crate::scribe::{Scribe, Step};
use crate::source::Source;
use crate::source::fluid::CRANKCASE_GAS;

/// Specific gas constant, 287.05 J/(kg·K), that of air: burnt gas of petrol differs by less than 1 %.
#[must_use]
pub fn gas_constant() -> SpecificHeatCapacity {
    air::gas_constant()
}

/// Ratio of specific heats for flow through the ventilation: 1.40 (1.37 to 1.40), an assumption.
#[must_use]
pub fn ventilation_heat_ratio() -> Estimate<Ratio> {
    let [low, likely, high] = [1.37, 1.40, 1.40].map(Ratio::from_base);
    Estimate { low, likely, high }
}

/// Ratio of specific heats for flow past the rings: 1.35 (1.28 to 1.40), an assumption.
#[must_use]
pub fn ring_heat_ratio() -> Estimate<Ratio> {
    let [low, likely, high] = [1.28, 1.35, 1.40].map(Ratio::from_base);
    Estimate { low, likely, high }
}

/// Temperature of the gas in the crankcase: 90 °C (60 to 130 °C), an assumption.
#[must_use]
pub fn temperature() -> Estimate<ThermodynamicTemperature> {
    let [low, likely, high] = [60.0, 90.0, 130.0].map(celsius);
    Estimate { low, likely, high }
}

/// The pressure of a standard litre: 101.325 kPa absolute.
#[must_use]
pub fn standard_pressure() -> AbsolutePressure {
    AbsolutePressure::new(pascals(101_325.0))
}

/// The temperature of a standard litre: 20 °C, which gives 1.2041 kg/m³.
#[must_use]
pub fn standard_temperature() -> ThermodynamicTemperature {
    celsius(20.0)
}

/// Where the defaults come from.
#[must_use]
pub fn source() -> &'static Source {
    &CRANKCASE_GAS
}

/// Density as an ideal gas: ρ = p/(R T); 1 to 1000 kPa absolute, −60 to 400 °C.
///
/// # Errors
/// A pressure or temperature outside the range.
pub fn density(
    pressure: AbsolutePressure,
    temperature: ThermodynamicTemperature,
    scribe: &mut impl Scribe,
) -> Result<MassDensity, FluidError> {
    let p = air::PRESSURE.check(pressure)?.base();
    let t = air::TEMPERATURE.check(temperature)?.base();
    let density = MassDensity::from_base(p / (gas_constant().base() * t));
    scribe.step(|| {
        Step::new("density of the crankcase gas", "ρ", "ρ = p/(R·T)", &CRANKCASE_GAS)
            .with("p", pressure)
            .with("R", gas_constant())
            .with("T", temperature)
            .gives(density)
    });
    Ok(density)
}
