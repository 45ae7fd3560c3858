//! Pure water and its steam at saturation.
//!
//! Saturation pressure and densities: IAPWS Supplementary Release SR1-86(1992), W. Wagner and A. Pruss, J. Phys.
//! Chem. Ref. Data 22 (1993) 783. Specific heat, viscosity and conductivity: a table of IAPWS values, interpolated
//! by a monotone cubic. Compression to 3 bar changes the density of the liquid by 0.01 % and is left out.

use super::FluidError;
use super::water_table::{self, Curve};
use crate::numeric::bracketed_root;
use crate::quantity::si::{
    AvailableEnergy, DynamicViscosity, MassDensity, SpecificHeatCapacity, ThermalConductivity, ThermodynamicTemperature,
};
use crate::quantity::{AbsolutePressure, Amount, Kind, Measured, Range, ZERO_CELSIUS, in_celsius, pascals};
use crate::scribe::{Scribe, Step};
use crate::source::DEFINITION;
use crate::source::fluid::{WATER_SATURATION, WATER_TABLE};

const CRITICAL_TEMPERATURE: f64 = 647.096;
const CRITICAL_PRESSURE: f64 = 22.064e6;
const CRITICAL_DENSITY: f64 = 322.0;
/// Water freezes here at atmospheric pressure, K.
pub(super) const FREEZING: f64 = ZERO_CELSIUS;

const SATURATION: Range = Range::new(
    "the temperature of saturated water",
    Kind::Temperature,
    FREEZING,
    CRITICAL_TEMPERATURE,
    "below it water is ice, above it there is no boiling",
);
const SATURATION_PRESSURE: Range = Range::new(
    "the pressure of saturated water",
    Kind::AbsolutePressure,
    611.3,
    CRITICAL_PRESSURE,
    "below it frost forms instead of dew, above it there is no boiling",
);
const LIQUID: Range = Range::new(
    "the temperature of water",
    Kind::Temperature,
    FREEZING,
    403.15,
    "below it water is ice, above it no engine should run",
);

/// Saturation pressure: ln(p/pc) = (Tc/T)·(a₁x + a₂x^1.5 + a₃x³ + a₄x^3.5 + a₅x⁴ + a₆x^7.5), x = 1 − T/Tc.
///
/// 0 to 373.946 °C; within 0.01 % of IAPWS-95 below 130 °C.
///
/// # Errors
/// A temperature outside the range.
pub fn saturation_pressure(
    temperature: ThermodynamicTemperature,
    scribe: &mut impl Scribe,
) -> Result<AbsolutePressure, FluidError> {
    let t = SATURATION.check(temperature)?.base();
    let pressure = AbsolutePressure::new(pascals(saturation(t).pressure));
    scribe.step(|| {
        Step::new(
            "saturation pressure of water",
            "ps",
            "ln(ps/pc) = (Tc/T)·(a₁x + a₂x^1.5 + a₃x³ + a₄x^3.5 + a₅x⁴ + a₆x^7.5), x = 1 − T/Tc",
            &WATER_SATURATION,
        )
        .with("T", temperature)
        .gives(pressure)
    });
    Ok(pressure)
}

/// Saturation temperature: the root of [`saturation_pressure`].
///
/// 611.3 Pa to 22.064 MPa.
///
/// # Errors
/// A pressure outside the range.
pub fn saturation_temperature(
    pressure: AbsolutePressure,
    scribe: &mut impl Scribe,
) -> Result<ThermodynamicTemperature, FluidError> {
    let target = SATURATION_PRESSURE.check(pressure)?.base();
    let ln_target = target.ln();
    let root = bracketed_root(
        |t| saturation(t).pressure.ln() - ln_target,
        // A little wider than the range, so that its ends are not lost to rounding; the equation is smooth there.
        SATURATION.low - 0.1,
        SATURATION.high,
        1e-9,
    )?;
    let temperature = ThermodynamicTemperature::from_base(root.at);
    scribe.step(|| {
        Step::new("saturation temperature of water", "Ts", "ps(Ts) = p", &WATER_SATURATION)
            .with("p", pressure)
            .gives(temperature)
    });
    Ok(temperature)
}

/// Density of the saturated liquid: ρ′/ρc = 1 + b₁x^(1/3) + b₂x^(2/3) + b₃x^(5/3) + b₄x^(16/3) + b₅x^(43/3) +
/// b₆x^(110/3), x = 1 − T/Tc.
///
/// 0 to 373.946 °C; within 0.001 % of IAPWS-95 below 130 °C.
///
/// # Errors
/// A temperature outside the range.
pub fn liquid_density(
    temperature: ThermodynamicTemperature,
    scribe: &mut impl Scribe,
) -> Result<MassDensity, FluidError> {
    let density = MassDensity::from_base(liquid(SATURATION.check(temperature)?.base()));
    scribe.step(|| {
        Step::new(
            "density of water",
            "ρw",
            "ρw/ρc = 1 + b₁x^(1/3) + b₂x^(2/3) + b₃x^(5/3) + b₄x^(16/3) + b₅x^(43/3) + b₆x^(110/3), x = 1 − T/Tc",
            &WATER_SATURATION,
        )
        .with("T", temperature)
        .gives(density)
    });
    Ok(density)
}

/// Density of saturated steam: ln(ρ″/ρc) = c₁x^(2/6) + c₂x^(4/6) + c₃x^(8/6) + c₄x^(18/6) + c₅x^(37/6) + c₆x^(71/6).
///
/// 0 to 373.946 °C; within 0.02 % of IAPWS-IF97 below 130 °C.
///
/// # Errors
/// A temperature outside the range.
pub fn steam_density(
    temperature: ThermodynamicTemperature,
    scribe: &mut impl Scribe,
) -> Result<MassDensity, FluidError> {
    let density = MassDensity::from_base(steam(SATURATION.check(temperature)?.base()));
    scribe.step(|| {
        Step::new(
            "density of saturated steam",
            "ρs",
            "ln(ρs/ρc) = c₁x^(2/6) + c₂x^(4/6) + c₃x^(8/6) + c₄x^(18/6) + c₅x^(37/6) + c₆x^(71/6), x = 1 − T/Tc",
            &WATER_SATURATION,
        )
        .with("T", temperature)
        .gives(density)
    });
    Ok(density)
}

/// Heat that turns saturated liquid into saturated steam, by the equation of Clapeyron: h = T·(dps/dT)·(1/ρ″ − 1/ρ′).
///
/// 0 to 373.946 °C; within 0.02 % of IAPWS-IF97 below 130 °C.
///
/// # Errors
/// A temperature outside the range.
pub fn latent_heat(
    temperature: ThermodynamicTemperature,
    scribe: &mut impl Scribe,
) -> Result<AvailableEnergy, FluidError> {
    let t = SATURATION.check(temperature)?.base();
    let (slope, steam, liquid) = (saturation(t).slope, steam(t), liquid(t));
    let heat = AvailableEnergy::from_base(t * slope * (1.0 / steam - 1.0 / liquid));
    scribe.step(|| {
        Step::new("latent heat of water", "h", "h = T·(dps/dT)·(1/ρs − 1/ρw)", &DEFINITION)
            .with("T", temperature)
            .with_number("dps/dT", slope)
            .with_amount("ρs", Amount::new(steam, Kind::Density))
            .with_amount("ρw", Amount::new(liquid, Kind::Density))
            .gives(heat)
    });
    Ok(heat)
}

/// Specific heat at constant pressure of the saturated liquid, 0 to 130 °C.
///
/// # Errors
/// A temperature outside the range.
pub fn specific_heat(
    temperature: ThermodynamicTemperature,
    scribe: &mut impl Scribe,
) -> Result<SpecificHeatCapacity, FluidError> {
    read(&water_table::SPECIFIC_HEAT, temperature, "specific heat of water", "cw", scribe)
}

/// Dynamic viscosity of the saturated liquid, 0 to 130 °C.
///
/// # Errors
/// A temperature outside the range.
pub fn viscosity(
    temperature: ThermodynamicTemperature,
    scribe: &mut impl Scribe,
) -> Result<DynamicViscosity, FluidError> {
    read(&water_table::VISCOSITY, temperature, "viscosity of water", "μw", scribe)
}

/// Thermal conductivity of the saturated liquid, 0 to 130 °C.
///
/// # Errors
/// A temperature outside the range.
pub fn conductivity(
    temperature: ThermodynamicTemperature,
    scribe: &mut impl Scribe,
) -> Result<ThermalConductivity, FluidError> {
    read(&water_table::CONDUCTIVITY, temperature, "conductivity of water", "kw", scribe)
}

fn read<Q: Measured>(
    curve: &Curve,
    temperature: ThermodynamicTemperature,
    meaning: &'static str,
    symbol: &'static str,
    scribe: &mut impl Scribe,
) -> Result<Q, FluidError> {
    let value = Q::from_base(at(curve, in_celsius(LIQUID.check(temperature)?))?);
    scribe.step(|| {
        Step::new(meaning, symbol, "read from the table of IAPWS values by a monotone cubic", &WATER_TABLE)
            .with("T", temperature)
            .gives(value)
    });
    Ok(value)
}

/// A column of the table at a temperature in °C.
pub(super) fn at(curve: &Curve, celsius: f64) -> Result<f64, FluidError> {
    Ok(curve.as_ref().map_err(|error| *error)?.at(celsius)?)
}

pub(super) struct Saturation {
    /// Pa.
    pub pressure: f64,
    /// dps/dT, Pa/K.
    pub slope: f64,
}

/// Saturation at a temperature in kelvin, without a look at the range.
pub(super) fn saturation(t: f64) -> Saturation {
    const A: [f64; 6] = [-7.859_517_83, 1.844_082_59, -11.786_649_7, 22.680_741_1, -15.961_871_9, 1.801_225_02];
    let x = 1.0 - t / CRITICAL_TEMPERATURE;
    let r = x.sqrt();
    let (x2, x3) = (x * x, x * x * x);
    let sum = A[0] * x + A[1] * x * r + A[2] * x3 + A[3] * x3 * r + A[4] * x2 * x2 + A[5] * x3 * x3 * x * r;
    let derivative =
        A[0] + 1.5 * A[1] * r + 3.0 * A[2] * x2 + 3.5 * A[3] * x2 * r + 4.0 * A[4] * x3 + 7.5 * A[5] * x3 * x3 * r;
    let ln_ratio = CRITICAL_TEMPERATURE / t * sum;
    let pressure = CRITICAL_PRESSURE * ln_ratio.exp();
    Saturation { pressure, slope: -pressure / t * (ln_ratio + derivative) }
}

/// Density of the saturated liquid in kg/m³ at a temperature in kelvin, without a look at the range.
pub(super) fn liquid(t: f64) -> f64 {
    const B: [f64; 6] = [1.992_740_64, 1.099_653_42, -0.510_839_303, -1.754_934_79, -45.517_035_2, -6.746_944_50e5];
    let x = 1.0 - t / CRITICAL_TEMPERATURE;
    let c = x.cbrt();
    let c2 = c * c;
    let x4 = (x * x) * (x * x);
    let (x5, x9) = (x4 * x, x4 * x4 * x);
    let (x14, x18) = (x5 * x9, x9 * x9);
    CRITICAL_DENSITY
        * (1.0 + B[0] * c + B[1] * c2 + B[2] * x * c2 + B[3] * x5 * c + B[4] * x14 * c + B[5] * x18 * x18 * c2)
}

/// Density of saturated steam in kg/m³ at a temperature in kelvin, without a look at the range.
fn steam(t: f64) -> f64 {
    const C: [f64; 6] = [-2.031_502_40, -2.683_029_40, -5.386_264_92, -17.299_160_5, -44.758_658_1, -63.920_106_3];
    let x = 1.0 - t / CRITICAL_TEMPERATURE;
    // The sixth root; all exponents of the release are sixths.
    let s = x.cbrt().sqrt();
    let s2 = s * s;
    let x3 = x * x * x;
    let x6 = x3 * x3;
    let s4 = s2 * s2;
    let exponent = C[0] * s2 + C[1] * s4 + C[2] * x * s2 + C[3] * x3 + C[4] * x6 * s + C[5] * x6 * x3 * x * x * s4 * s;
    CRITICAL_DENSITY * exponent.exp()
}
