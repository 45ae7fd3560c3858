//! A root between two points, by Brent's method.

/// A root and how it was reached.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Root {
    /// Where the function vanishes.
    pub at: f64,
    /// The function's value there.
    pub residual: f64,
    /// Evaluations used.
    pub evaluations: u32,
}

/// The function does not change sign between the ends.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct NotBracketed {
    /// The ends and the values there.
    pub low: (f64, f64),
    /// The upper end and the value there.
    pub high: (f64, f64),
}

/// Why no root was found.
#[derive(Clone, Copy, Debug, PartialEq, thiserror::Error)]
#[allow(missing_docs)]
pub enum RootError {
    #[error("no change of sign between {} and {} (values {} and {})", .0.low.0, .0.high.0, .0.low.1, .0.high.1)]
    NotBracketed(NotBracketed),
    #[error("the function is not a number at {at}")]
    NotFinite { at: f64 },
    #[error("no convergence after {evaluations} evaluations; last {at} with residual {residual}")]
    NotConverged { at: f64, residual: f64, evaluations: u32 },
}

const MOST: u32 = 200;

/// A root of `function` between `low` and `high` to within `tolerance` of the argument, by Brent's method
/// (R. P. Brent, Algorithms for Minimization without Derivatives, 1973, chapter 4).
///
/// # Errors
/// When the ends do not bracket a root, or the function is not finite.
pub fn bracketed_root(
    mut function: impl FnMut(f64) -> f64,
    low: f64,
    high: f64,
    tolerance: f64,
) -> Result<Root, RootError> {
    let (mut a, mut b) = (low, high);
    let (mut fa, mut fb) = (function(a), function(b));
    let mut evaluations = 2;
    for (at, value) in [(a, fa), (b, fb)] {
        if !value.is_finite() {
            return Err(RootError::NotFinite { at });
        }
    }
    if fa == 0.0 {
        return Ok(Root { at: a, residual: 0.0, evaluations });
    }
    if fb == 0.0 {
        return Ok(Root { at: b, residual: 0.0, evaluations });
    }
    if fa.signum() == fb.signum() {
        return Err(RootError::NotBracketed(NotBracketed { low: (a, fa), high: (b, fb) }));
    }
    let (mut c, mut fc) = (a, fa);
    let mut d = b - a;
    let mut e = d;
    while evaluations < MOST {
        if fc.abs() < fb.abs() {
            (a, b, c) = (b, c, b);
            (fa, fb, fc) = (fb, fc, fb);
        }
        let least = 2.0 * f64::EPSILON * b.abs() + 0.5 * tolerance;
        let middle = 0.5 * (c - b);
        if middle.abs() <= least || fb == 0.0 {
            return Ok(Root { at: b, residual: fb, evaluations });
        }
        if e.abs() >= least && fa.abs() > fb.abs() {
            let s = fb / fa;
            let (mut p, mut q) = if a == c {
                (2.0 * middle * s, 1.0 - s)
            } else {
                let (q, r) = (fa / fc, fb / fc);
                (s * (2.0 * middle * q * (q - r) - (b - a) * (r - 1.0)), (q - 1.0) * (r - 1.0) * (s - 1.0))
            };
            if p > 0.0 {
                q = -q;
            }
            p = p.abs();
            if 2.0 * p < (3.0 * middle * q - (least * q).abs()).min((e * q).abs()) {
                e = d;
                d = p / q;
            } else {
                d = middle;
                e = middle;
            }
        } else {
            d = middle;
            e = middle;
        }
        (a, fa) = (b, fb);
        b += if d.abs() > least { d } else { least.copysign(middle) };
        fb = function(b);
        evaluations += 1;
        if !fb.is_finite() {
            return Err(RootError::NotFinite { at: b });
        }
        if fb.signum() == fc.signum() {
            (c, fc) = (a, fa);
            d = b - a;
            e = d;
        }
    }
    Err(RootError::NotConverged { at: b, residual: fb, evaluations })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn finds_known_roots() {
        let root = bracketed_root(|x| x * x * x - 2.0 * x - 5.0, 2.0, 3.0, 1e-12).unwrap();
        // The classical example of Wallis.
        assert!((root.at - 2.094_551_481_542_326_5).abs() < 1e-12);
        let root = bracketed_root(|x| x.cos() - x, 0.0, 1.0, 1e-14).unwrap();
        assert!((root.at - 0.739_085_133_215_160_6).abs() < 1e-13);
    }

    #[test]
    fn says_why_not() {
        assert!(matches!(bracketed_root(|x| x * x + 1.0, -1.0, 1.0, 1e-9), Err(RootError::NotBracketed(_))));
        assert!(matches!(bracketed_root(|_| f64::NAN, 0.0, 1.0, 1e-9), Err(RootError::NotFinite { .. })));
    }
}
