//! Specific heat, conductivity and the logarithm of the viscosity: three properties joined in one way.

use super::liquid::{HOT, STRONG, WEAK, ZERO, celsius_amount, reduced, set, set_step, strong_part};
use super::solution::{Pure, Solution, Surface, polynomial};
use super::{FluidError, Mix, water, water_table};
use crate::quantity::{Amount, Kind, Measured};
use crate::scribe::{Scribe, Step};
use crate::source::fluid::{DILUTE_JOIN, STRAIGHT_ABOVE_100, STRONG_JOIN};

/// One of the three properties joined in the same way.
pub(super) trait Curve {
    const MEANING: &'static str;
    const SYMBOL: &'static str;
    const KIND: Kind;
    /// Whether the continuation above 100 °C is a straight line in 1/T.
    const INVERSE: bool;
    fn surface(solution: &Solution) -> &Surface;
    fn pure(pure: &Pure, z: f64) -> f64;
    /// From the table of water at a temperature inside it, °C.
    fn water(t: f64) -> Result<f64, FluidError>;
}

pub(super) struct SpecificHeat;
impl Curve for SpecificHeat {
    const MEANING: &'static str = "specific heat of the coolant";
    const SYMBOL: &'static str = "c";
    const KIND: Kind = Kind::SpecificHeat;
    const INVERSE: bool = false;
    fn surface(solution: &Solution) -> &Surface {
        &solution.specific_heat
    }
    fn pure(pure: &Pure, z: f64) -> f64 {
        polynomial(&pure.specific_heat, z)
    }
    fn water(t: f64) -> Result<f64, FluidError> {
        water::at(&water_table::SPECIFIC_HEAT, t)
    }
}

pub(super) struct Conductivity;
impl Curve for Conductivity {
    const MEANING: &'static str = "conductivity of the coolant";
    const SYMBOL: &'static str = "k";
    const KIND: Kind = Kind::Conductivity;
    const INVERSE: bool = false;
    fn surface(solution: &Solution) -> &Surface {
        &solution.conductivity
    }
    fn pure(pure: &Pure, z: f64) -> f64 {
        polynomial(&pure.conductivity, z)
    }
    fn water(t: f64) -> Result<f64, FluidError> {
        water::at(&water_table::CONDUCTIVITY, t)
    }
}

pub(super) struct LnViscosity;
impl Curve for LnViscosity {
    const MEANING: &'static str = "logarithm of the viscosity in Pa·s";
    const SYMBOL: &'static str = "ln μ";
    const KIND: Kind = Kind::Number;
    const INVERSE: bool = true;
    fn surface(solution: &Solution) -> &Surface {
        &solution.ln_viscosity
    }
    fn pure(pure: &Pure, z: f64) -> f64 {
        polynomial(&pure.ln_viscosity, z)
    }
    fn water(t: f64) -> Result<f64, FluidError> {
        Ok(water::at(&water_table::VISCOSITY, t)?.ln())
    }
}

/// A property over the whole range of shares, at a temperature in °C.
pub(super) fn joined<C: Curve, S: Scribe>(
    mix: &Mix,
    solution: &Solution,
    t: f64,
    scribe: &mut S,
) -> Result<f64, FluidError> {
    let w = mix.mass_share().base();
    let share = Amount::new(w, Kind::Share);
    if w < WEAK {
        let (water, weak) = (undercooled::<C>(t)?, continued::<C, S>(solution, t, WEAK, scribe));
        let value = water + w / WEAK * (weak - water);
        scribe.step(|| {
            Step::new(C::MEANING, C::SYMBOL, "y = yw + (w/0.05)·(y₅ − yw)", &DILUTE_JOIN)
                .with_amount("yw", Amount::new(water, C::KIND))
                .with_amount("y₅", Amount::new(weak, C::KIND))
                .with_amount("w", share)
                .gives_amount(Amount::new(value, C::KIND))
        });
        Ok(value)
    } else if w <= STRONG {
        Ok(continued::<C, S>(solution, t, w, scribe))
    } else {
        let strong = continued::<C, S>(solution, t, STRONG, scribe);
        let pure = C::pure(&solution.pure, reduced(t));
        let value = strong + strong_part(w) * (pure - strong);
        scribe.step(|| {
            Step::new(C::MEANING, C::SYMBOL, "y = y₆₀ + (w − 0.6)/0.4·(yg − y₆₀)", &STRONG_JOIN)
                .with_amount("y₆₀", Amount::new(strong, C::KIND))
                .with_amount("yg", Amount::new(pure, C::KIND))
                .with_amount("w", share)
                .gives_amount(Amount::new(value, C::KIND))
        });
        Ok(value)
    }
}

/// The value of water, below 0 °C along the chord from 5 to 0 °C.
fn undercooled<C: Curve>(t: f64) -> Result<f64, FluidError> {
    if t >= 0.0 {
        return C::water(t);
    }
    let (cold, warm) = (C::water(0.0)?, C::water(5.0)?);
    Ok(cold + (warm - cold) / 5.0 * t)
}

/// The polynomial set to 100 °C and its continuation above.
fn continued<C: Curve, S: Scribe>(solution: &Solution, t: f64, w: f64, scribe: &mut S) -> f64 {
    let surface = C::surface(solution);
    if t <= HOT {
        let value = set(solution, surface, t, w);
        scribe.step(|| set_step(C::MEANING, C::SYMBOL, t, w).gives_amount(Amount::new(value, C::KIND)));
        return value;
    }
    const BEFORE: f64 = 80.0;
    let (before, hot) = (set(solution, surface, BEFORE, w), set(solution, surface, HOT, w));
    let along = |t: f64| if C::INVERSE { 1.0 / (t + ZERO) } else { t };
    let value = hot + (hot - before) * (along(t) - along(HOT)) / (along(HOT) - along(BEFORE));
    scribe.step(|| {
        let equation = if C::INVERSE {
            "y = y₁₀₀ + (y₁₀₀ − y₈₀)·(1/T − 1/T₁₀₀)/(1/T₁₀₀ − 1/T₈₀)"
        } else {
            "y = y₁₀₀ + (y₁₀₀ − y₈₀)·(t − 100 °C)/20 K"
        };
        Step::new(C::MEANING, C::SYMBOL, equation, &STRAIGHT_ABOVE_100)
            .with_amount("y₈₀", Amount::new(before, C::KIND))
            .with_amount("y₁₀₀", Amount::new(hot, C::KIND))
            .with_amount("t", celsius_amount(t))
            .gives_amount(Amount::new(value, C::KIND))
    });
    value
}
