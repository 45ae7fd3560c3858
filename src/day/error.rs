//! What can go wrong in a day.

use super::fault::{CarFault, LegFault, LegInput};
use crate::coolant::CoolantError;
use crate::fluid::FluidError;
use crate::heat::HeatError;
use crate::numeric::{RootError, StepError};
use crate::quantity::si::{Mass, ThermodynamicTemperature, Time};
use crate::quantity::{Amount, Kind, Measured, OutOfRange, UnitSystem};

/// Why a day could not be followed.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
pub enum DayError {
    /// An input lies outside its range.
    #[error(transparent)]
    OutOfRange(#[from] OutOfRange),
    /// A figure of one stretch lies outside its range.
    #[error("stretch {} of the day, in leg {}: {fault}", .stretch + 1, .leg + 1)]
    Stretch {
        /// Which stretch, from 0.
        stretch: usize,
        /// In which leg, from 0.
        leg: usize,
        /// What is wrong.
        fault: OutOfRange,
    },
    /// There is nothing to follow.
    #[error("the day has no stretches; give at least one leg")]
    NoStretches,
    /// Heats and stretches do not belong together.
    #[error("there are {stretches} stretches of the day but heats for {heats}; give one for each")]
    HeatsCount {
        /// Stretches given.
        stretches: usize,
        /// Heats given.
        heats: usize,
    },
    /// The fan would switch off above where it switches on.
    #[error(
        "the fan switches off at {} and on at {}; it must go off at least {} cooler than it comes on",
        show(*.off), show(*.on), Amount::new(*.least, Kind::TemperatureDifference).show(UnitSystem::Si)
    )]
    FanSwitch {
        /// On above this.
        on: ThermodynamicTemperature,
        /// Off below this.
        off: ThermodynamicTemperature,
        /// The least difference, K.
        least: f64,
    },
    /// A part that the day needs holds nothing.
    #[error(
        "{part} holds {} of coolant; a day through time needs at least {} there, so give that part's volume",
        show(*.holds), show(*.least)
    )]
    Empty {
        /// Which part.
        part: &'static str,
        /// What it holds.
        holds: Mass,
        /// What it must hold.
        least: Mass,
    },
    /// The coolant freezes on the way.
    #[error(
        "in leg {} the coolant in {part} falls to {}, where it freezes; choose a stronger mix, or a warmer day", .leg + 1,
        show(*.temperature)
    )]
    Freezes {
        /// In which leg, from 0.
        leg: usize,
        /// Where.
        part: &'static str,
        /// Its freezing point.
        temperature: ThermodynamicTemperature,
    },
    /// The equations could not be followed.
    #[error("the day could not be followed beyond {} in leg {}: {cause}", show(*.time), .leg + 1)]
    NotFollowed {
        /// Until when it was.
        time: Time,
        /// In which leg, from 0.
        leg: usize,
        /// Why not further.
        cause: StepError,
    },
    /// The caller no longer wants the answer.
    #[error("the day was given up before its end, as asked")]
    Cancelled,
    /// A root of the day's own could not be found.
    #[error("{what} could not be solved: {cause}")]
    Unsolved {
        /// What was asked for.
        what: &'static str,
        /// Why there is no answer.
        cause: RootError,
    },
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

fn show<Q: Measured>(value: Q) -> String {
    Amount::of(value).show(UnitSystem::Si)
}
