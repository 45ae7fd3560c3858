//! Why nothing can be said of the oil.

use crate::crankcase::moisture::MoistureError;
use crate::fluid::FluidError;
use crate::numeric::RootError;
use crate::quantity::{NotOrdered, OutOfRange};

/// Why nothing can be said of the oil; each message names the value, what is allowed and what to do.
#[derive(Clone, Copy, Debug, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum OilError {
    /// A figure outside its range.
    #[error(transparent)]
    OutOfRange(#[from] OutOfRange),
    /// A property of the gas that cannot be given.
    #[error(transparent)]
    Fluid(#[from] FluidError),
    /// The water in the can.
    #[error(transparent)]
    Moisture(#[from] MoistureError),
    /// Low, likely and high do not rise.
    #[error(transparent)]
    NotOrdered(#[from] NotOrdered),
    /// The fall of a droplet could not be solved for.
    #[error("the fall of a droplet could not be solved for: {0}; this is a fault of the program, please report it")]
    NotSolved(#[from] RootError),
}
