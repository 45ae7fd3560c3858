//! Density, specific heat, viscosity and conductivity of the liquid: one function over the whole range.
//!
//! By the share by mass, w: water at 0; a straight line to the polynomial set at 0.05; the set to 0.60; beyond it a
//! straight line to the pure glycol. By temperature: the set to 100 °C; beyond it a continuation. The lines run in
//! specific volume, specific heat, conductivity and the logarithm of the viscosity.
//!
//! Between its freezing point and 0 °C a mix weaker than 5 % (at most 1.6 K below) needs values of undercooled water:
//! the density equation is used as it stands, the table goes on along its first chord.

use super::curve::{Conductivity, LnViscosity, SpecificHeat, joined};
use super::solution::{Solution, Surface, polynomial};
use super::{FluidError, Mix, water};
use crate::quantity::si::{
    DynamicViscosity, MassDensity, SpecificHeatCapacity, ThermalConductivity, ThermodynamicTemperature,
};
use crate::quantity::{Amount, Kind, Measured, Range, ZERO_CELSIUS, in_celsius};
use crate::scribe::{Scribe, Step};
use crate::source::fluid::{DILUTE_JOIN, GROWTH_ABOVE_100, PURE_GLYCOL, SOLUTIONS, STRONG_JOIN, WATER_SATURATION};

/// 0 °C in kelvin.
pub(super) const ZERO: f64 = ZERO_CELSIUS;
pub(super) const TEMPERATURE: Range = Range::new(
    "the coolant temperature",
    Kind::Temperature,
    ZERO - 40.0,
    ZERO + 130.0,
    "no source reaches beyond it; check the temperature and its unit",
);
/// The weakest mix of the polynomial set, by mass.
pub(super) const WEAK: f64 = 0.05;
/// The strongest mix of the polynomial set, by mass.
pub(super) const STRONG: f64 = 0.60;
/// Where the polynomial set ends, °C.
pub(super) const HOT: f64 = 100.0;

impl Mix {
    /// Density, −40 to 130 °C where liquid.
    ///
    /// The published polynomial set to 60 % by mass and 100 °C. A straight line in specific volume joins it to water
    /// below 5 % and to the pure glycol above 60 %. Above 100 °C v(t) = v(100 °C)·\[v_id(t)/v_id(100 °C)\]^κ with
    /// v_id = w·v_glycol + (1 − w)/ρ_water and κ = 1 + 0.33 w² (ethylene glycol) or 1 + 0.33 w (propylene glycol).
    /// Against the second published set: lower by 0.1 to 0.5 % at 20 °C and up to 1 % at 95 °C (ethylene glycol).
    ///
    /// # Errors
    /// A temperature outside the range or below the freezing point.
    pub fn density<S: Scribe>(
        &self,
        temperature: ThermodynamicTemperature,
        scribe: &mut S,
    ) -> Result<MassDensity, FluidError> {
        let t = self.liquid_at(temperature)?;
        let w = self.mass_share().base();
        let Some(solution) = self.base().solution().filter(|_| w > 0.0) else {
            return water::liquid_density(temperature, scribe);
        };
        let volume =
            if t <= HOT { volume_to_100(solution, t, w, scribe) } else { volume_above_100(solution, t, w, scribe) };
        let density = MassDensity::from_base(1.0 / volume);
        scribe.step(|| {
            Step::new("density of the coolant", "ρ", "ρ = 1/v", &crate::source::DEFINITION)
                .with_number("v, m³/kg", volume)
                .gives(density)
        });
        Ok(density)
    }

    /// Specific heat at constant pressure, −40 to 130 °C where liquid.
    ///
    /// The two published sets agree within 1 % at 80 °C. Above 100 °C it goes on along the line through the values at
    /// 80 and 100 °C, there and beyond 60 % by mass unchecked, about 3 %.
    ///
    /// # Errors
    /// A temperature outside the range or below the freezing point.
    pub fn specific_heat<S: Scribe>(
        &self,
        temperature: ThermodynamicTemperature,
        scribe: &mut S,
    ) -> Result<SpecificHeatCapacity, FluidError> {
        let t = self.liquid_at(temperature)?;
        match self.base().solution().filter(|_| self.mass_share().base() > 0.0) {
            None => water::specific_heat(temperature, scribe),
            Some(solution) => {
                Ok(SpecificHeatCapacity::from_base(joined::<SpecificHeat, S>(self, solution, t, scribe)?))
            }
        }
    }

    /// Thermal conductivity, −40 to 130 °C where liquid.
    ///
    /// The two published sets agree within 1.5 % at 80 °C. Above 100 °C as [`Mix::specific_heat`], about 5 %.
    ///
    /// # Errors
    /// A temperature outside the range or below the freezing point.
    pub fn conductivity<S: Scribe>(
        &self,
        temperature: ThermodynamicTemperature,
        scribe: &mut S,
    ) -> Result<ThermalConductivity, FluidError> {
        let t = self.liquid_at(temperature)?;
        match self.base().solution().filter(|_| self.mass_share().base() > 0.0) {
            None => water::conductivity(temperature, scribe),
            Some(solution) => Ok(ThermalConductivity::from_base(joined::<Conductivity, S>(self, solution, t, scribe)?)),
        }
    }

    /// Dynamic viscosity, −40 to 130 °C where liquid.
    ///
    /// The two published sets agree within 4 % at 80 °C to 50 % by mass and within 14 % at 60 % ethylene glycol.
    /// Above 100 °C its logarithm goes on along the line in 1/T through 80 and 100 °C, unchecked, about 20 %.
    ///
    /// # Errors
    /// A temperature outside the range or below the freezing point.
    pub fn viscosity<S: Scribe>(
        &self,
        temperature: ThermodynamicTemperature,
        scribe: &mut S,
    ) -> Result<DynamicViscosity, FluidError> {
        let t = self.liquid_at(temperature)?;
        let Some(solution) = self.base().solution().filter(|_| self.mass_share().base() > 0.0) else {
            return water::viscosity(temperature, scribe);
        };
        let ln = joined::<LnViscosity, S>(self, solution, t, scribe)?;
        let viscosity = DynamicViscosity::from_base(ln.exp());
        scribe.step(|| {
            Step::new("viscosity of the coolant", "μ", "μ = exp(ln μ)", &crate::source::DEFINITION)
                .with_number("ln μ", ln)
                .gives(viscosity)
        });
        Ok(viscosity)
    }

    /// The temperature in °C, once it is known to lie in the range and not below the freezing point.
    pub(super) fn liquid_at(&self, temperature: ThermodynamicTemperature) -> Result<f64, FluidError> {
        let kelvin = TEMPERATURE.check(temperature)?.base();
        let freezing = self.freezing_kelvin();
        if kelvin < freezing {
            let freezing = ThermodynamicTemperature::from_base(freezing);
            return Err(FluidError::Frozen { mix: *self, temperature, freezing });
        }
        Ok(in_celsius(temperature))
    }
}

/// Specific volume to 100 °C, m³/kg.
fn volume_to_100<S: Scribe>(solution: &Solution, t: f64, w: f64, scribe: &mut S) -> f64 {
    if w < WEAK {
        let (water, weak) = (1.0 / water::liquid(t + ZERO), set_volume(solution, t, WEAK, scribe));
        let volume = water + w / WEAK * (weak - water);
        scribe.step(|| {
            Step::new("specific volume of a weak mix", "v", "v = vw + (w/0.05)·(v₅ − vw)", &DILUTE_JOIN)
                .with_number("vw, m³/kg", water)
                .with_number("v₅, m³/kg", weak)
                .with_amount("w", Amount::new(w, Kind::Share))
                .gives_amount(Amount::number(volume))
        });
        volume
    } else if w <= STRONG {
        set_volume(solution, t, w, scribe)
    } else {
        let (strong, pure) = (set_volume(solution, t, STRONG, scribe), pure_volume(solution, t, scribe));
        let volume = strong + strong_part(w) * (pure - strong);
        scribe.step(|| {
            Step::new("specific volume of a strong mix", "v", "v = v₆₀ + (w − 0.6)/0.4·(vg − v₆₀)", &STRONG_JOIN)
                .with_number("v₆₀, m³/kg", strong)
                .with_number("vg, m³/kg", pure)
                .with_amount("w", Amount::new(w, Kind::Share))
                .gives_amount(Amount::number(volume))
        });
        volume
    }
}

/// Specific volume above 100 °C, m³/kg: it grows as the ideal mix grows, to the power κ.
fn volume_above_100<S: Scribe>(solution: &Solution, t: f64, w: f64, scribe: &mut S) -> f64 {
    let at_100 = volume_to_100(solution, HOT, w, scribe);
    let ideal = |t: f64, scribe: &mut S| {
        let water = water_volume(t);
        scribe.step(|| {
            Step::new("specific volume of water", "vw, m³/kg", "vw = 1/ρw(t)", &WATER_SATURATION)
                .with_amount("t", celsius_amount(t))
                .gives_amount(Amount::number(water))
        });
        w * pure_volume(solution, t, scribe) + (1.0 - w) * water
    };
    let ratio = ideal(t, scribe) / ideal(HOT, scribe);
    let power = 1.0 + w * (solution.growth[0] + w * solution.growth[1]);
    let volume = at_100 * ratio.powf(power);
    scribe.step(|| {
        Step::new(
            "specific volume above 100 °C",
            "v",
            "v = v(100 °C)·[v_id(t)/v_id(100 °C)]^κ, v_id = w·vg + (1 − w)·vw",
            &GROWTH_ABOVE_100,
        )
        .with_number("v(100 °C), m³/kg", at_100)
        .with_number("v_id(t)/v_id(100 °C)", ratio)
        .with_number("κ", power)
        .gives_amount(Amount::number(volume))
    });
    volume
}

/// Specific volume of water, m³/kg; that at 100 °C is asked for with every density above it and kept.
fn water_volume(t: f64) -> f64 {
    const AT_HOT: f64 = 0.001_043_463_601_990_892_8;
    if t == HOT { AT_HOT } else { 1.0 / water::liquid(t + ZERO) }
}

/// Specific volume by the polynomial set, m³/kg.
fn set_volume<S: Scribe>(solution: &Solution, t: f64, w: f64, scribe: &mut S) -> f64 {
    let density = set(solution, &solution.density, t, w);
    scribe.step(|| set_step("density of the solution", "ρ", t, w).gives_amount(Amount::new(density, Kind::Density)));
    1.0 / density
}

/// Specific volume of the pure glycol, m³/kg.
fn pure_volume<S: Scribe>(solution: &Solution, t: f64, scribe: &mut S) -> f64 {
    let volume = 1e-3 * polynomial(&solution.pure.volume, reduced(t));
    scribe.step(|| {
        Step::new("specific volume of the pure glycol", "vg, m³/kg", "vg = Σ cᵢ zⁱ, z = (t − 50 °C)/80 K", &PURE_GLYCOL)
            .with_amount("t", celsius_amount(t))
            .gives_amount(Amount::number(volume))
    });
    volume
}

#[inline]
pub(super) fn set(solution: &Solution, surface: &Surface, t: f64, w: f64) -> f64 {
    surface.at(t + ZERO - solution.temperature_base, w - solution.share_base)
}

pub(super) fn set_step(meaning: &'static str, symbol: &'static str, t: f64, w: f64) -> Step {
    Step::new(meaning, symbol, "Σᵢ Σⱼ C[i][j]·(T − Tb)ⁱ·(w − wb)ʲ", &SOLUTIONS)
        .with_amount("T", celsius_amount(t))
        .with_amount("w", Amount::new(w, Kind::Share))
}

/// z = (t − 50 °C)/80 K.
pub(super) fn reduced(t: f64) -> f64 {
    (t - 50.0) / 80.0
}

pub(super) fn strong_part(w: f64) -> f64 {
    (w - STRONG) / (1.0 - STRONG)
}

pub(super) fn celsius_amount(t: f64) -> Amount {
    Amount::new(t + ZERO, Kind::Temperature)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_kept_volume_of_water_is_that_of_the_equation() {
        let computed = 1.0 / water::liquid(HOT + ZERO);
        assert!((water_volume(HOT) / computed - 1.0).abs() < 1e-14, "{computed:?}");
    }
}
