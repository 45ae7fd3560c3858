//! Numerical methods without a word of physics. Plain numbers in and out.
//!
//! [`bracketed_root`] finds where a function crosses zero between two ends, or says that it does not; [`MonotoneCubic`]
//! joins the rows of a measured table without a bump; [`solve_dense`] solves a few linear equations; [`level_lines`] draws
//! where a field on a grid has a value; [`Stepper`] goes through differential equations a step at a time. The domains give the
//! numbers their units and the failures their words.

mod contour;
mod dense;
mod interpolate;
mod ode;
mod root;

pub use contour::{Polyline, level_lines};
pub use dense::solve_dense;
pub use interpolate::{MonotoneCubic, TableError};
pub use ode::{StepError, Stepper, Taken};
pub use root::{NotBracketed, Root, RootError, bracketed_root};
