//! Why a coolant calculation gives no answer.

use crate::fluid::FluidError;
use crate::numeric::{RootError, TableError};
use crate::quantity::{Amount, Kind, OutOfRange, UnitSystem};

/// Why a coolant calculation gives no answer. Each message says what to change.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
#[allow(missing_docs)]
pub enum CoolantError {
    #[error(transparent)]
    OutOfRange(#[from] OutOfRange),
    #[error(transparent)]
    Fluid(#[from] FluidError),
    #[error("the cooling system has no parts; give the block, radiator and hoses, or one measured fill")]
    NoRegions,
    #[error("no part of the cooling system is called '{name}'; the gas must sit in one of {known}")]
    UnknownRegion { name: String, known: String },
    #[error("{given} temperatures are given for {regions} parts of the cooling system; give one for each")]
    TemperatureCount { given: usize, regions: usize },
    #[error("the shares of the fill add up to {}, not to 100 %; change one so that they do", shown(*.sum, Kind::Share))]
    SharesNotOne { sum: f64 },
    #[error(
        "the gas in the system ({}) is more than half its volume ({}); check both figures",
        shown(*.gas, Kind::Volume), shown(*.total, Kind::Volume)
    )]
    TooMuchGas { gas: f64, total: f64 },
    #[error(
        "at {} in {region} the coolant boils at {}, above the {} the cap allows here; \
         lower the temperature, or raise the cap's opening pressure if every part can bear it",
        shown(*.temperature, Kind::Temperature), shown(*.boils_at, Kind::AbsolutePressure),
        shown(*.allowed, Kind::AbsolutePressure)
    )]
    Boils { region: String, temperature: f64, boils_at: f64, allowed: f64 },
    #[error(
        "the coolant boils at the filling temperature of {} under an ambient of {}; check both",
        shown(*.temperature, Kind::Temperature), shown(*.ambient, Kind::AbsolutePressure)
    )]
    BoilsWhenFilled { temperature: f64, ambient: f64 },
    #[error(
        "the sealed tank's {} of air has no room for the {} pushed into it: it fills solid and the pressure has no \
         limit but the weakest hose; vent the tank",
        shown(*.air, Kind::Volume), shown(*.expelled, Kind::Volume)
    )]
    SealedTankOverfull { air: f64, expelled: f64 },
    #[error("the dip table has {rows} rows; measure at least {least}")]
    TableTooShort { rows: usize, least: usize },
    #[error("row {row} of the dip table holds no more than the row before it; both columns must rise in every row")]
    TableNotRising { row: usize },
    #[error("row {row} of the dip table is not a number; write a height and a volume")]
    TableNotFinite { row: usize },
    #[error("the tube's end does not lie inside the tank at the place given: {why}")]
    TubeOutside { why: &'static str },
    #[error(
        "even a full tank leaves the tube's end only {} deep under this tilt, less than the {} wanted; move the tube \
         to mid-plan and lower",
        shown(*.reached, Kind::Length), shown(*.wanted, Kind::Length)
    )]
    CoverImpossible { reached: f64, wanted: f64 },
    #[error("tilt cannot be worked out for this tank: {why}")]
    TiltNotKnown { why: &'static str },
    #[error("no gas cushion inside the header tank keeps the hot pressure at or below {}; use a larger tank", shown(*.target, Kind::GaugePressure))]
    NoCushion { target: f64 },
    #[error("a warm-up curve needs at least 2 points and at most {most}; {points} were asked for")]
    Points { points: usize, most: usize },
    #[error("no size of vent up to {} keeps the tank below {} at this flow", shown(*.largest, Kind::Length), shown(*.limit, Kind::GaugePressure))]
    NoVent { largest: f64, limit: f64 },
    #[error("{what} could not be solved: {cause}")]
    Unsolved { what: &'static str, cause: RootError },
    #[error("{what} came out as no number; check that every figure put in is of a sensible size")]
    NotFinite { what: &'static str },
}

impl CoolantError {
    /// Names what a root finder failed at.
    pub(super) fn unsolved(what: &'static str) -> impl Fn(RootError) -> Self {
        move |cause| Self::Unsolved { what, cause }
    }
}

impl From<TableError> for CoolantError {
    fn from(error: TableError) -> Self {
        match error {
            TableError::TooShort { rows, least } => Self::TableTooShort { rows, least },
            TableError::NotRising { row } => Self::TableNotRising { row },
            TableError::NotFinite { row } => Self::TableNotFinite { row },
            TableError::Outside { at, low, high } => Self::OutOfRange(OutOfRange {
                range: crate::quantity::Range::new(
                    "height in the dip table",
                    Kind::Length,
                    low,
                    high,
                    "measure further rows, or keep the level inside the table",
                ),
                value: at,
            }),
        }
    }
}

fn shown(base: f64, kind: Kind) -> String {
    Amount::new(base, kind).show(UnitSystem::Si)
}
