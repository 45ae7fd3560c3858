//! What can go wrong in a day.

use super::fault::{CarFault, LegFault, LegInput};
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
    /// The car cannot be driven at all.
    #[error("the car: {0}")]
    Car(#[from] CarFault),
    /// A leg of the day cannot be driven.
    #[error("leg {}: {fault}", .leg + 1)]
    Leg {
        /// Which, from 0.
        leg: usize,
        /// Which of its figures to mend.
        input: LegInput,
        /// Why.
        fault: LegFault,
    },
    /// A day without a leg.
    #[error("the day has no leg: give it one or more")]
    NoLeg,
}
