//! `--units si|us`.

use crate::quantity::UnitSystem;

/// The unit system as a word.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, clap::ValueEnum)]
pub enum UnitsWord {
    /// Millimetres, litres, kilopascals, °C.
    #[default]
    Si,
    /// Inches, US quarts, psi, °F.
    Us,
}

impl From<UnitsWord> for UnitSystem {
    fn from(word: UnitsWord) -> Self {
        match word {
            UnitsWord::Si => Self::Si,
            UnitsWord::Us => Self::Us,
        }
    }
}
