//! One step at a time through ordinary differential equations, with an error control of its own.
//!
//! The pair of third and second order of P. Bogacki and L. F. Shampine (Appl. Math. Lett. 2 (1989) 321–325), steps chosen
//! by a proportional-integral controller (K. Gustafsson, ACM Trans. Math. Softw. 17 (1991) 533–554), a cubic through
//! values and slopes of both ends between them.
//!
//! Why not a library: here the equations change after every step (what a switch remembers, what has been let out), a step
//! is cut where something happens, and a right-hand side may leave its range. Libraries for Rust keep the last slope to
//! themselves, so that each of these is a new beginning with a new first step; what is left to use of them is a page of
//! arithmetic.

use super::{RootError, bracketed_root};

/// Share of the step that the error would allow which is taken.
const SAFETY: f64 = 0.9;
/// Exponents of the controller, on this error and on the one before, for a method whose error goes with the cube.
const NOW: f64 = 0.7 / 3.0;
const BEFORE: f64 = 0.4 / 3.0;
/// A step grows and shrinks by no more than this.
const MOST_GROWTH: f64 = 5.0;
const MOST_CUT: f64 = 0.2;
/// A step this much longer than wanted is better than a sliver after it.
const STRETCH: f64 = 1.01;

/// Why a step could not be taken.
#[derive(Clone, Copy, Debug, PartialEq, thiserror::Error)]
#[allow(missing_docs)]
pub enum StepError {
    #[error("the step had to be shorter than {least} s at {at} s")]
    TooShort { at: f64, least: f64 },
}

/// A step that has been taken.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Taken<const N: usize> {
    /// Where it began.
    pub from: f64,
    /// Where it ended.
    pub to: f64,
    /// Values at the beginning.
    pub before: [f64; N],
    /// And at the end.
    pub after: [f64; N],
    slope_before: [f64; N],
    slope_after: [f64; N],
}

impl<const N: usize> Taken<N> {
    /// The values inside the step, by the cubic through values and slopes of its ends; of third order like the step.
    #[must_use]
    pub fn at(&self, t: f64) -> [f64; N] {
        let h = self.to - self.from;
        let s = (t - self.from) / h;
        let (s2, s3) = (s * s, s * s * s);
        let (a, b, c, d) = (2.0 * s3 - 3.0 * s2 + 1.0, (s3 - 2.0 * s2 + s) * h, 3.0 * s2 - 2.0 * s3, (s3 - s2) * h);
        std::array::from_fn(|i| {
            a * self.before[i] + b * self.slope_before[i] + c * self.after[i] + d * self.slope_after[i]
        })
    }

    /// When `function` crosses zero inside the step, if it is below zero at the beginning and not at the end.
    ///
    /// # Errors
    /// A function that is no number.
    pub fn rises_through_zero(
        &self,
        function: impl Fn(f64, &[f64; N]) -> f64,
        tolerance: f64,
    ) -> Result<Option<f64>, RootError> {
        if !(function(self.from, &self.before) < 0.0 && function(self.to, &self.after) >= 0.0) {
            return Ok(None);
        }
        let value = |t: f64| match t {
            t if t == self.from => function(t, &self.before),
            t if t == self.to => function(t, &self.after),
            t => function(t, &self.at(t)),
        };
        // The end of the bracket on the far side of zero, so that what was waited for is true there.
        let at = bracketed_root(value, self.from, self.to, tolerance)?.at;
        Ok(Some(if value(at) >= 0.0 { at } else { (at + tolerance).min(self.to) }))
    }
}

/// Takes steps whose estimated error stays below the tolerance of every value.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Stepper<const N: usize> {
    /// Absolute tolerance of each value over one step; an endless one leaves the value out of the control.
    tolerance: [f64; N],
    least: f64,
    most: f64,
    next: f64,
    error_before: f64,
    /// Steps taken.
    pub steps: u32,
    /// Steps tried again with a shorter one.
    pub rejected: u32,
}

impl<const N: usize> Stepper<N> {
    /// A stepper that begins with a step of `first` and keeps its steps between `least` and `most`; a last step before
    /// an end may be shorter.
    #[must_use]
    pub const fn new(tolerance: [f64; N], first: f64, least: f64, most: f64) -> Self {
        Self { tolerance, least, most, next: first, error_before: 1.0, steps: 0, rejected: 0 }
    }

    /// Begins again with a step of this length at most: what follows is not like what was.
    pub fn restart(&mut self, first: f64) {
        self.next = self.next.min(first).max(self.least);
        self.error_before = 1.0;
    }

    /// Takes one step from `t` and `y` towards `end`, as long as the tolerance allows.
    ///
    /// # Errors
    /// When the step would have to be shorter than the least, or the slopes are no numbers.
    pub fn step(
        &mut self,
        slope: impl Fn(f64, &[f64; N]) -> [f64; N],
        t: f64,
        y: &[f64; N],
        end: f64,
    ) -> Result<Taken<N>, StepError> {
        let k1 = slope(t, y);
        let left = end - t;
        loop {
            let wanted = self.next.min(self.most);
            let (h, to) = match left {
                _ if wanted * STRETCH >= left => (left, end),
                _ if wanted * 2.0 > left => (0.5 * left, t + 0.5 * left),
                _ => (wanted, t + wanted),
            };
            let k2 = slope(t + 0.5 * h, &std::array::from_fn(|i| y[i] + 0.5 * h * k1[i]));
            let k3 = slope(t + 0.75 * h, &std::array::from_fn(|i| y[i] + 0.75 * h * k2[i]));
            let after: [f64; N] = std::array::from_fn(|i| y[i] + h / 9.0 * (2.0 * k1[i] + 3.0 * k2[i] + 4.0 * k3[i]));
            let k4 = slope(to, &after);
            let mut error = 0.0_f64;
            for i in 0..N {
                let one = h * (-5.0 / 72.0 * k1[i] + k2[i] / 12.0 + k3[i] / 9.0 - k4[i] / 8.0) / self.tolerance[i];
                // A number that is none must not pass for a small one.
                error = if one.is_nan() { f64::INFINITY } else { error.max(one.abs()) };
            }
            if error <= 1.0 {
                let error = error.max(1e-6);
                let factor = SAFETY * error.powf(-NOW) * self.error_before.powf(BEFORE);
                let proposed = (h * factor.clamp(MOST_CUT, MOST_GROWTH)).clamp(self.least, self.most);
                // A step cut short by the end says nothing against the length that was wanted.
                self.next = if h < wanted { proposed.max(wanted) } else { proposed };
                self.error_before = error;
                self.steps = self.steps.saturating_add(1);
                return Ok(Taken { from: t, to, before: *y, after, slope_before: k1, slope_after: k4 });
            }
            self.rejected = self.rejected.saturating_add(1);
            self.next = h * (SAFETY * error.powf(-1.0 / 3.0)).clamp(MOST_CUT, 1.0);
            if self.next < self.least {
                return Err(StepError::TooShort { at: t, least: self.least });
            }
        }
    }
}

#[cfg(test)]
#[path = "ode_tests.rs"]
mod tests;
