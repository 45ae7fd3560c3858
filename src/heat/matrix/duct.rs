//! Heat transfer in a duct, a flat tube or the passage between plain fins, and the efficiency of a fin.

use super::HeatError;
use crate::quantity::si::Ratio;
use crate::quantity::{Amount, Kind, Measured, Range};
use crate::scribe::{Scribe, Step};
use crate::source::heat as source;

/// Shapes of a duct: shorter side over longer.
pub const ASPECT: Range =
    Range::new("shorter side of a duct over its longer", Kind::Number, 0.0, 1.0, "divide the shorter by the longer");
const REYNOLDS: Range = Range::new("Reynolds number in the duct", Kind::Number, 0.0, 1e6, "check flow and sizes");
const PRANDTL: Range = Range::new("Prandtl number", Kind::Number, 0.5, 1000.0, "0.71 of air, 2 to 200 of coolants");
const SLENDERNESS: Range =
    Range::new("length of a duct over its hydraulic diameter", Kind::Number, 0.5, 1e5, "check the core's sizes");
const FIN_PARAMETER: Range = Range::new("fin parameter m·L", Kind::Number, 0.0, 500.0, "check the fin's sizes");

/// Reynolds number at which laminar flow ends.
pub const LAMINAR_END: f64 = 2300.0;
/// Reynolds number from which the turbulent correlation holds alone.
pub const TURBULENT_FROM: f64 = 4000.0;

/// Nusselt number of fully developed laminar flow in a rectangular duct with walls of one temperature:
///
/// Nu = 7.541·(1 − 2.610·α + 4.970·α² − 5.119·α³ + 2.702·α⁴ − 0.548·α⁵), α = shorter side over longer.
///
/// # Errors
/// A shape outside 0 to 1.
pub fn laminar_nusselt(aspect: Ratio) -> Result<Ratio, HeatError> {
    let a = ASPECT.check(aspect)?.base();
    let sum = 1.0 + a * (-2.610 + a * (4.970 + a * (-5.119 + a * (2.702 + a * -0.548))));
    Ok(Ratio::from_base(7.541 * sum))
}

/// Mean Nusselt number of a duct.
///
/// Laminar, to Re 2300: Nu = Nu_∞ + 0.024·x^−1.14/(1 + 0.0358·Pr^0.17·x^−0.64) with x = (L/D)/(Re·Pr): Stephan's form for
/// flow that develops between parallel plates, on Shah and London's end value for the duct's shape; Prandtl numbers of 0.7
/// to 50. Turbulent, from Re 4000: Gnielinski, Nu = (f/8)·(Re − 1000)·Pr/(1 + 12.7·√(f/8)·(Pr^⅔ − 1)) with f = (0.79·ln Re
/// − 1.64)^−2, within about 10 %, and never less than the laminar entrance of a very short duct. Between them a straight line in Re.
///
/// # Errors
/// Reynolds number above 1e6, Prandtl number outside 0.5 to 1000, a shape outside 0 to 1, a duct shorter than half its
/// hydraulic diameter.
pub fn duct_nusselt(
    reynolds: Ratio,
    prandtl: Ratio,
    aspect: Ratio,
    slenderness: Ratio,
    scribe: &mut impl Scribe,
) -> Result<Ratio, HeatError> {
    let re = REYNOLDS.check(reynolds)?.base();
    let pr = PRANDTL.check(prandtl)?.base();
    let slender = SLENDERNESS.check(slenderness)?.base();
    let end = laminar_nusselt(aspect)?.base();
    let nusselt = nusselt_base(re, pr, end, slender);
    scribe.step(|| {
        let (equation, source) = if re <= LAMINAR_END {
            ("Nu = Nu_∞(α) + 0.024·x^−1.14/(1 + 0.0358·Pr^0.17·x^−0.64), x = (L/D)/(Re·Pr)", &source::LAMINAR_DUCT)
        } else if re >= TURBULENT_FROM {
            ("Nu = (f/8)·(Re − 1000)·Pr/(1 + 12.7·√(f/8)·(Pr^⅔ − 1)), f = (0.79·ln Re − 1.64)^−2", &source::GNIELINSKI)
        } else {
            ("straight from Nu(2300), laminar, to Nu(4000), turbulent", &source::GNIELINSKI)
        };
        Step::new("Nusselt number in the duct", "Nu", equation, source)
            .with_number("Re", re)
            .with_number("Pr", pr)
            .with_number("α", aspect.base())
            .with_number("Nu_∞", end)
            .with_number("L/D", slender)
            .gives_amount(Amount::number(nusselt))
    });
    Ok(Ratio::from_base(nusselt))
}

/// The same in plain numbers, for the solver, with the laminar end value of the duct's shape.
pub(crate) fn nusselt_base(re: f64, pr: f64, end: f64, slender: f64) -> f64 {
    let laminar = |re: f64| {
        let x = slender / (re.max(1e-9) * pr);
        end + 0.024 * x.powf(-1.14) / (1.0 + 0.0358 * pr.powf(0.17) * x.powf(-0.64))
    };
    let turbulent = |re: f64| {
        let eighth = (0.79 * re.ln() - 1.64).powi(-2) / 8.0;
        let developed = eighth * (re - 1000.0) * pr / (1.0 + 12.7 * eighth.sqrt() * (pr.powf(2.0 / 3.0) - 1.0));
        // Gnielinski's is of a long duct; in a very short one the entrance alone gives more.
        developed.max(laminar(re))
    };
    if re <= LAMINAR_END {
        laminar(re)
    } else if re >= TURBULENT_FROM {
        turbulent(re)
    } else {
        let part = (re - LAMINAR_END) / (TURBULENT_FROM - LAMINAR_END);
        (1.0 - part) * laminar(LAMINAR_END) + part * turbulent(TURBULENT_FROM)
    }
}

/// Efficiency of a straight fin with a tip that gives off no heat: η = tanh(m·L)/(m·L), with m = √(2·h/(k·δ)).
///
/// # Errors
/// A parameter m·L outside 0 to 500.
pub fn fin_efficiency(parameter: Ratio, scribe: &mut impl Scribe) -> Result<Ratio, HeatError> {
    let ml = FIN_PARAMETER.check(parameter)?.base();
    // tanh(x)/x runs into 1 − x²/3.
    let efficiency = if ml < 1e-4 { 1.0 - ml * ml / 3.0 } else { ml.tanh() / ml };
    scribe.step(|| {
        Step::new("Efficiency of the fins", "η", "η = tanh(m·L)/(m·L), m = √(2·h/(k·δ))", &source::FIN_EFFICIENCY)
            .with_number("m·L", ml)
            .gives_amount(Amount::new(efficiency, Kind::Share))
    });
    Ok(Ratio::from_base(efficiency))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::scribe::Silent;

    fn nusselt(re: f64) -> f64 {
        let ratio = Ratio::from_base;
        duct_nusselt(ratio(re), ratio(8.0), ratio(0.06), ratio(120.0), &mut Silent).unwrap().base()
    }

    #[test]
    fn the_branches_meet() {
        for at in [LAMINAR_END, TURBULENT_FROM] {
            let (below, above) = (nusselt(at * (1.0 - 1e-9)), nusselt(at * (1.0 + 1e-9)));
            assert!((below / above - 1.0).abs() < 1e-6, "{below} {above}");
        }
    }

    #[test]
    fn rises_with_flow() {
        let mut before = 0.0;
        for re in 1..2000 {
            let here = nusselt(f64::from(re) * 10.0);
            assert!(here >= before, "{re}");
            before = here;
        }
    }
}
