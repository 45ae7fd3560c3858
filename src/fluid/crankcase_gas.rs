//! Gas in the crankcase: blow-by taken as air, with its defaults.

use super::{FluidError, air};
use crate::quantity::si::{MassDensity, Ratio, SpecificHeatCapacity, ThermodynamicTemperature};
use crate::quantity::{ATMOSPHERE, AbsolutePressure, Kind, Measured, Range, celsius};
use crate::scribe::{Scribe, Step};
use crate::source::fluid::CRANKCASE_GAS;
use crate::source::{Source, assumed};

/// Specific gas constant, 287.05 J/(kg·K), that of air: burnt gas of petrol differs by less than 1 %.
#[must_use]
pub fn gas_constant() -> SpecificHeatCapacity {
    air::gas_constant()
}

assumed! {
    /// Ratio of specific heats for flow through the ventilation: 1.40 (1.37 to 1.40).
    ventilation_heat_ratio: Ratio = [1.37, 1.40, 1.40],
        Range::new("ratio of specific heats", Kind::Number, 1.05, 1.67, "1.40 is usual"), CRANKCASE_GAS;
    /// Ratio of specific heats for flow past the rings: 1.35 (1.28 to 1.40).
    ring_heat_ratio: Ratio = [1.28, 1.35, 1.40],
        Range::new("ratio of specific heats of the leak", Kind::Number, 1.1, 1.67, "1.35 is usual"), CRANKCASE_GAS;
    /// Temperature of the gas in the crankcase: 90 °C (60 to 130 °C).
    temperature: ThermodynamicTemperature = [333.15, 363.15, 403.15],
        Range::new("crankcase gas temperature", Kind::Temperature, 233.15, 473.15, "near the oil's, 60 °C to 130 °C"),
        CRANKCASE_GAS;
}

/// The pressure of a standard litre: 101.325 kPa absolute.
#[must_use]
pub fn standard_pressure() -> AbsolutePressure {
    AbsolutePressure::from_base(ATMOSPHERE)
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
