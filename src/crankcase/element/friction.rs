//! Churchill's friction factor: laminar, transition and turbulent in one formula.

use crate::quantity::si::Ratio;
use crate::quantity::{Kind, Measured, OutOfRange, Range};

const REYNOLDS: Range = Range::new("Reynolds number", Kind::Number, 1.0e-9, 1.0e9, "");
const RELATIVE_ROUGHNESS: Range = Range::new(
    "roughness over bore",
    Kind::Number,
    0.0,
    0.05,
    "a roughness over a twentieth of the bore is an obstacle, not a wall",
);

/// Darcy friction factor: `f = 8[(8/Re)^12 + (A + B)^−1.5]^(1/12)`, `A = [2.457 ln(1/((7/Re)^0.9 + 0.27 ε/D))]^16`,
/// `B = (37530/Re)^16` (Churchill 1977), for Reynolds numbers from 1e-9 to 1e9 and `ε/D` up to 0.05.
///
/// # Errors
/// When either number is outside its range.
pub fn friction_factor(reynolds: Ratio, relative_roughness: Ratio) -> Result<Ratio, OutOfRange> {
    let reynolds = REYNOLDS.check(reynolds)?.base();
    let roughness = RELATIVE_ROUGHNESS.check(relative_roughness)?.base();
    Ok(Ratio::from_base(churchill(reynolds, roughness).0))
}

/// The factor and its slope `df/dRe`.
#[inline]
pub(super) fn churchill(reynolds: f64, roughness: f64) -> (f64, f64) {
    let seven = (7.0 / reynolds).powf(0.9);
    let inside = seven + 0.27 * roughness;
    let log = -inside.ln();
    let a = sixteenth(2.457 * log);
    let b = sixteenth(37_530.0 / reynolds);
    // d ln(inside)/d ln(Re) = −0.9 (7/Re)^0.9/inside; A goes with the 16th power of the logarithm.
    let a_slope = if log == 0.0 { 0.0 } else { 16.0 * a / log * 0.9 * seven / inside };
    let sum = a + b;
    let rough = 1.0 / (sum * sum.sqrt());
    let laminar = {
        let x = 8.0 / reynolds;
        let x3 = x * x * x;
        let x6 = x3 * x3;
        x6 * x6
    };
    let s = laminar + rough;
    // Each slope below is times Re.
    let s_slope = -12.0 * laminar - 1.5 * rough / sum * (a_slope - 16.0 * b);
    let factor = 8.0 * s.sqrt().sqrt().cbrt();
    (factor, factor * s_slope / (12.0 * s * reynolds))
}

fn sixteenth(x: f64) -> f64 {
    let x2 = x * x;
    let x4 = x2 * x2;
    let x8 = x4 * x4;
    x8 * x8
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn laminar_end_and_slope() {
        assert!((churchill(500.0, 1e-3).0 - 64.0 / 500.0).abs() < 1e-9);
        for reynolds in [1e-6, 1.0, 300.0, 2_300.0, 3_000.0, 4_000.0, 12_000.0, 1e6] {
            let h = reynolds * 1e-6;
            let by_difference = (churchill(reynolds + h, 1e-3).0 - churchill(reynolds - h, 1e-3).0) / (2.0 * h);
            let slope = churchill(reynolds, 1e-3).1;
            assert!((slope / by_difference - 1.0).abs() < 1e-5, "{reynolds}: {slope} {by_difference}");
        }
    }
}
