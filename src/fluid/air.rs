//! Air: standard atmosphere, density, viscosity, specific heat.

use super::FluidError;
use crate::quantity::si::{
    DynamicViscosity, Length, MassDensity, Ratio, SpecificHeatCapacity, ThermodynamicTemperature,
};
use crate::quantity::{ATMOSPHERE, AbsolutePressure, Amount, GRAVITY, Kind, Measured, Range, ZERO_CELSIUS, pascals};
use crate::scribe::{Scribe, Step};
use crate::source::Source;
use crate::source::fluid::{AIR, AIR_VISCOSITY, STANDARD_ATMOSPHERE, WEATHER};

pub(crate) const GAS_CONSTANT: f64 = 287.05;

const ALTITUDE: Range = Range::new(
    "the altitude",
    Kind::Distance,
    -400.0,
    4000.0,
    "no road lies far beyond it; check the altitude and its unit",
);
pub(super) const TEMPERATURE: Range = Range::new(
    "the air or gas temperature",
    Kind::Temperature,
    ZERO_CELSIUS - 60.0,
    ZERO_CELSIUS + 400.0,
    "check the temperature and its unit",
);
pub(super) const PRESSURE: Range = Range::new(
    "the air or gas pressure",
    Kind::AbsolutePressure,
    1.0e3,
    1.0e6,
    "give the absolute pressure, which is the gauge pressure plus that of the air outside",
);

/// Pressure of the standard atmosphere at a geometric altitude of −400 to 4000 m.
///
/// H = r z/(r + z) with r = 6 356 766 m; p = 101 325 Pa·(1 − L H/T₀)^(g M/(R L)) with L = 6.5 K/km, T₀ = 288.15 K,
/// g = 9.806 65 m/s², M = 28.9644 g/mol, R = 8.314 32 J/(mol·K). The weather moves it by [`weather`].
///
/// # Errors
/// An altitude outside the range.
pub fn standard_pressure(altitude: Length, scribe: &mut impl Scribe) -> Result<AbsolutePressure, FluidError> {
    const RADIUS: f64 = 6_356_766.0;
    const LAPSE: f64 = 0.0065;
    const EXPONENT: f64 = GRAVITY * 0.028_964_4 / (8.314_32 * LAPSE);
    let z = ALTITUDE.check(altitude)?.base();
    let height = RADIUS * z / (RADIUS + z);
    let pressure = AbsolutePressure::new(pascals(ATMOSPHERE * (1.0 - LAPSE * height / 288.15).powf(EXPONENT)));
    scribe.step(|| {
        let equation = "p = 101.325 kPa·(1 − 0.0065·H/288.15)^5.25588, H = r·z/(r + z), H and z in m, r = 6356766 m";
        Step::new("pressure of the outside air", "p", equation, &STANDARD_ATMOSPHERE)
            .with_amount("z", Amount::of_kind(altitude, Kind::Distance))
            .gives(pressure)
    });
    Ok(pressure)
}

/// Share by which the weather moves the pressure either way, 3 %, and its source.
#[must_use]
pub fn weather() -> (Ratio, &'static Source) {
    (Ratio::from_base(0.03), &WEATHER)
}

/// Specific gas constant of dry air, 287.05 J/(kg·K).
#[must_use]
pub fn gas_constant() -> SpecificHeatCapacity {
    SpecificHeatCapacity::from_base(GAS_CONSTANT)
}

/// Specific heat of dry air at constant pressure, 1006 J/(kg·K); within 1 % from −40 to 130 °C.
#[must_use]
pub fn specific_heat() -> SpecificHeatCapacity {
    SpecificHeatCapacity::from_base(1006.0)
}

/// Density of air as an ideal gas: ρ = p/(R T); 1 to 1000 kPa absolute, −60 to 400 °C.
///
/// # Errors
/// A pressure or temperature outside the range.
pub fn density(
    pressure: AbsolutePressure,
    temperature: ThermodynamicTemperature,
    scribe: &mut impl Scribe,
) -> Result<MassDensity, FluidError> {
    let p = PRESSURE.check(pressure)?.base();
    let t = TEMPERATURE.check(temperature)?.base();
    let density = MassDensity::from_base(p / (GAS_CONSTANT * t));
    scribe.step(|| {
        Step::new("density of air", "ρ", "ρ = p/(R·T)", &AIR)
            .with("p", pressure)
            .with("R", gas_constant())
            .with("T", temperature)
            .gives(density)
    });
    Ok(density)
}

/// Viscosity of air by Sutherland's law: μ = 1.716e-5 Pa·s·(T/273.15 K)^1.5·383.55 K/(T + 110.4 K), −60 to 400 °C;
/// within 2 %.
///
/// # Errors
/// A temperature outside the range.
pub fn viscosity(
    temperature: ThermodynamicTemperature,
    scribe: &mut impl Scribe,
) -> Result<DynamicViscosity, FluidError> {
    let t = TEMPERATURE.check(temperature)?.base();
    let viscosity = DynamicViscosity::from_base(sutherland(t));
    scribe.step(|| {
        let equation = "μ = 1.716e-5 Pa·s·(T/273.15 K)^1.5·383.55 K/(T + 110.4 K)";
        Step::new("viscosity of air", "μ", equation, &AIR_VISCOSITY).with("T", temperature).gives(viscosity)
    });
    Ok(viscosity)
}

/// Sutherland's law, K to Pa·s, for callers that have checked the temperature.
pub(crate) fn sutherland(temperature: f64) -> f64 {
    let ratio = temperature / ZERO_CELSIUS;
    1.716e-5 * ratio * ratio.sqrt() * 383.55 / (temperature + 110.4)
}
