//! Why nothing can be said of the moisture.

use crate::fluid::FluidError;
use crate::quantity::OutOfRange;

/// Why nothing can be said of the moisture; each message names the value, what is allowed and what to do.
#[derive(Clone, Copy, Debug, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum MoistureError {
    /// A figure outside its range.
    #[error(transparent)]
    OutOfRange(#[from] OutOfRange),
    /// A property of water that cannot be given.
    #[error(transparent)]
    Fluid(#[from] FluidError),
    /// Low, likely and high do not rise.
    #[error("{what} is not in order: low {low}, likely {likely}, high {high}; enter them rising")]
    NotOrdered {
        /// Which figure.
        what: &'static str,
        /// Low, in the coherent SI unit.
        low: f64,
        /// Likely.
        likely: f64,
        /// High.
        high: f64,
    },
}
