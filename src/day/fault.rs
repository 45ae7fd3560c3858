//! What cannot be driven, and with which car.

use super::road::NoGear;
use crate::fluid::FluidError;
use crate::quantity::si::{AngularVelocity, Power, Time, Velocity};
use crate::quantity::{Amount, Kind, Measured, OutOfRange, UnitSystem};

/// A figure of a car.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[allow(missing_docs)] // The words are those of the car's fields.
pub enum CarInput {
    Mass,
    DragArea,
    RollingResistance,
    DrivetrainEfficiency,
    Rotating,
    Gears,
    IdleSpeed,
    LuggingSpeed,
    Reserve,
    HighestSpeed,
    FullLoadSpeed,
    FullLoadPower,
    FlatFrom,
    LowTorque,
}

/// Why a car cannot be driven at all.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
pub enum CarFault {
    /// A figure out of its range.
    #[error("{outside}")]
    OutOfRange {
        /// Which.
        input: CarInput,
        /// How it misses.
        outside: OutOfRange,
    },
    /// No gear, or more than a gearbox has.
    #[error("{given} gears; give the road speed at 1000 rpm of 1 to {} gears", super::road::MOST_GEARS)]
    NumberOfGears {
        /// How many were given.
        given: usize,
    },
    /// Gears that are not in order.
    #[error("the gears' road speeds at 1000 rpm must rise from each to the next; begin with the first gear")]
    GearsDoNotRise,
    /// The lugging speed lies below idle.
    #[error("the engine lugs below {}, which is slower than its idle at {}: give a speed above idle", show(*.lugging), show(*.idle))]
    LugsBelowIdle {
        /// Lugging speed.
        lugging: AngularVelocity,
        /// Idle speed.
        idle: AngularVelocity,
    },
    /// The highest engine speed is lower than one it must reach.
    #[error(
        "the highest engine speed of {} is below {}, which the engine must reach (full-throttle duty, lugging speed): give a \
         higher one",
        show(*.highest), show(*.least)
    )]
    HighestTooLow {
        /// Highest engine speed.
        highest: AngularVelocity,
        /// What it must reach.
        least: AngularVelocity,
    },
    /// Full throttle at no more than idle speed.
    #[error("full throttle at {} is no faster than idle at {}: check the engine speeds of both duties", show(*.full), show(*.idle))]
    FullLoadBelowIdle {
        /// Engine speed of the full-throttle point.
        full: AngularVelocity,
        /// Idle speed.
        idle: AngularVelocity,
    },
}

impl CarFault {
    /// The figure to mend.
    #[must_use]
    pub const fn input(&self) -> CarInput {
        match self {
            Self::OutOfRange { input, .. } => *input,
            Self::NumberOfGears { .. } | Self::GearsDoNotRise => CarInput::Gears,
            Self::LugsBelowIdle { .. } => CarInput::LuggingSpeed,
            Self::HighestTooLow { .. } => CarInput::HighestSpeed,
            Self::FullLoadBelowIdle { .. } => CarInput::FullLoadSpeed,
        }
    }
}

/// A figure of a leg.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[allow(missing_docs)] // The words are those of the legs' fields.
pub enum LegInput {
    Air,
    Lasts,
    Distance,
    Speed,
    Grade,
    Gear,
    Height,
    Standing,
    Acceleration,
    Trace,
    Repeats,
    FallsTo,
}

/// Why a leg cannot be driven.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
pub enum LegFault {
    /// A figure out of its range.
    #[error(transparent)]
    OutOfRange(#[from] OutOfRange),
    /// A property of the air could not be given.
    #[error(transparent)]
    Fluid(#[from] FluidError),
    /// No gear for the movement.
    #[error(transparent)]
    NoGear(#[from] NoGear),
    /// The engine cannot hold the speed.
    #[error(
        "holding {} takes {} of the engine, and in the best gear it makes {} here at {}: choose a lower speed or grade, or check \
         power, mass, drag area and gears",
        Amount::of(*.speed).show(UnitSystem::Si), Amount::of(*.needed).show(UnitSystem::Si),
        Amount::of(*.most).show(UnitSystem::Si), show(*.engine)
    )]
    NotEnoughPower {
        /// Road speed to be held.
        speed: Velocity,
        /// Power that takes.
        needed: Power,
        /// The most the engine makes in the best gear.
        most: Power,
        /// Engine speed in it.
        engine: AngularVelocity,
    },
    /// The engine cannot hold the speed in the gear that somebody chose.
    #[error(
        "holding {} takes {} of the engine, and in gear {gear} it makes {} at {}: choose a lower gear, or leave the gear open",
        Amount::of(*.speed).show(UnitSystem::Si), Amount::of(*.needed).show(UnitSystem::Si),
        Amount::of(*.most).show(UnitSystem::Si), show(*.engine)
    )]
    GearTooWeak {
        /// The gear.
        gear: usize,
        /// Road speed to be held.
        speed: Velocity,
        /// Power that takes.
        needed: Power,
        /// The most the engine makes in it.
        most: Power,
        /// Engine speed in it.
        engine: AngularVelocity,
    },
    /// Stop and go that ends before the first stop does.
    #[error(
        "one stop with its way to the next takes {}; let the traffic last that long, or choose a lower mean speed or a harder \
         acceleration",
        Amount::of_kind(*.least, Kind::Duration).show(UnitSystem::Si)
    )]
    NoWholeStop {
        /// How long one takes.
        least: Time,
    },
    /// More pieces than can be followed.
    #[error(
        "the day has more than {most} pieces with this leg: choose a longer time step, fewer repeats or a shorter day"
    )]
    TooManyPieces {
        /// The most there may be.
        most: usize,
    },
}

fn show(speed: AngularVelocity) -> String {
    Amount::new(speed.base(), Kind::RotationalSpeed).show(UnitSystem::Si)
}
