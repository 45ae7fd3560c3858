//! Why a property cannot be given.

use super::Mix;
use crate::numeric::{RootError, TableError};
use crate::quantity::si::{Ratio, ThermodynamicTemperature};
use crate::quantity::{AbsolutePressure, Amount, Kind, Measured, OutOfRange, UnitSystem};

/// Why a property cannot be given. Each message is a sentence with the value, the limit and what to do.
#[derive(Clone, Copy, Debug, PartialEq, thiserror::Error)]
pub enum FluidError {
    /// An input outside the range of the sources.
    #[error(transparent)]
    OutOfRange(#[from] OutOfRange),
    /// Plain water was given a share of glycol.
    #[error(
        "plain water cannot hold {} glycol; set the share to 0 %, or choose ethylene glycol or propylene glycol",
        Amount::of_kind(*.share, Kind::Share).show_input(UnitSystem::Si)
    )]
    WaterHasNoShare {
        /// The share that was given.
        share: Ratio,
    },
    /// Colder than the freezing point.
    #[error(
        "{mix} at {} is below its freezing point of {}: expect slush or ice; choose a stronger mix or a higher \
         temperature", show(*.temperature), show(*.freezing)
    )]
    Frozen {
        /// The coolant.
        mix: Mix,
        /// The temperature asked for.
        temperature: ThermodynamicTemperature,
        /// Where it begins to freeze.
        freezing: ThermodynamicTemperature,
    },
    /// Hotter than the boiling point at its pressure.
    #[error(
        "{mix} at {} boils: at {} absolute its boiling point is {}; raise the pressure, lower the temperature, or \
         choose a stronger mix", show(*.temperature), show(*.pressure), show(*.boiling)
    )]
    Boils {
        /// The coolant.
        mix: Mix,
        /// The temperature asked for.
        temperature: ThermodynamicTemperature,
        /// The pressure asked for.
        pressure: AbsolutePressure,
        /// Where it boils at that pressure.
        boiling: ThermodynamicTemperature,
    },
    /// The sources give no freezing point for so strong a mix.
    #[error(
        "no freezing point is given for {mix}: above {} glycol by mass the published curves disagree; choose a \
         weaker mix, or ask the maker of the coolant", Amount::of_kind(*.limit, Kind::Share).show_input(UnitSystem::Si)
    )]
    NotGiven {
        /// The coolant.
        mix: Mix,
        /// The strongest mix, by mass, with a freezing point.
        limit: Ratio,
    },
    /// A table could not be read.
    #[error("the table of water properties could not be read: {0}; this is a fault of the program, please report it")]
    Table(#[from] TableError),
    /// The boiling point could not be solved for.
    #[error("the boiling point could not be solved for: {0}; this is a fault of the program, please report it")]
    NotSolved(#[from] RootError),
}

fn show<Q: Measured>(value: Q) -> String {
    Amount::of(value).show_input(UnitSystem::Si)
}
