//! Why nothing can be said of the moisture.

use crate::fluid::FluidError;
use crate::numeric::RootError;
use crate::quantity::{NotOrdered, OutOfRange};

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
    #[error(transparent)]
    NotOrdered(#[from] NotOrdered),
    /// The dew point of the fuel could not be solved for.
    #[error("the dew point of the fuel could not be solved for: {0}; this is a fault of the program, please report it")]
    NotSolved(#[from] RootError),
}
