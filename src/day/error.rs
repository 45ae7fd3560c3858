//! What can go wrong in a day.

use crate::coolant::CoolantError;
use crate::fluid::FluidError;
use crate::heat::HeatError;
use crate::quantity::OutOfRange;

/// Why a day could not be followed.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
pub enum DayError {
    /// An input lies outside its range.
    #[error(transparent)]
    OutOfRange(#[from] OutOfRange),
    /// A fluid property could not be given.
    #[error(transparent)]
    Fluid(#[from] FluidError),
    /// The coolant side failed.
    #[error(transparent)]
    Coolant(#[from] CoolantError),
    /// The heat side failed.
    #[error(transparent)]
    Heat(#[from] HeatError),
}
