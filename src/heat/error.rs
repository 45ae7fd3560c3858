//! What can go wrong in the heat part.

use crate::fluid::FluidError;
use crate::numeric::RootError;
use crate::quantity::si::Power;
use crate::quantity::{Amount, NotOrdered, OutOfRange, UnitSystem};

/// Why a question about heat has no answer.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
pub enum HeatError {
    /// An input lies outside its range.
    #[error(transparent)]
    OutOfRange(#[from] OutOfRange),
    /// Low, likely and high do not rise.
    #[error(transparent)]
    NotOrdered(#[from] NotOrdered),
    /// A fluid property could not be given.
    #[error(transparent)]
    Fluid(#[from] FluidError),
    /// A numerical method failed on inputs that passed every check.
    #[error("the balance was not found: {0}")]
    Numeric(#[from] RootError),
    /// The ambient air holds too little oxygen for the power asked for.
    #[error(
        "the engine cannot make {}: with the intake open it makes at most {} here; check speed, gearing, grade, \
         displacement and altitude", show(.needed), show(.most)
    )]
    EngineCannotMake {
        /// The power asked for.
        needed: Power,
        /// What it makes with ambient pressure in the manifold.
        most: Power,
    },
    /// A measured radiator point that no radiator could produce.
    #[error(
        "no radiator could carry {} here: at most {} can leave with these flows and temperatures; check heat, \
         coolant flow, face velocity and both temperatures", show(.heat), show(.most)
    )]
    ImpossibleMeasurement {
        /// The heat said to be carried.
        heat: Power,
        /// The most that could be carried by an endlessly large core.
        most: Power,
    },
    /// Two temperatures in the wrong order.
    #[error("{what} must be warmer than {than}; it is {} and {}", .value.show(UnitSystem::Si), .other.show(UnitSystem::Si))]
    NotWarmer {
        /// The temperature that must be the warmer.
        what: &'static str,
        /// The one it is compared with.
        than: &'static str,
        /// Its value.
        value: Amount,
        /// The other's value.
        other: Amount,
    },
    /// Sizes of a radiator's core that cannot be together.
    #[error("the {what} does not fit the rest of the core: {why}")]
    CoreDoesNotFit {
        /// The size.
        what: &'static str,
        /// What would fit.
        why: &'static str,
    },
    /// A fan's table that does not do.
    #[error("the fan's table does not do: {why}")]
    FanTable {
        /// What to do about it.
        why: &'static str,
    },
    /// Two oil viscosities that do not fall with temperature.
    #[error("the oil's viscosity must be lower at the warmer temperature; check the two viscosities")]
    ViscosityRises,
    /// The viscosity equation holds above a least viscosity only.
    #[error("at this temperature the oil is thinner than {}, where the viscosity equation does not hold", .least.show(UnitSystem::Si))]
    OilTooThin {
        /// The least viscosity the equation holds for.
        least: Amount,
    },
}

fn show(power: &Power) -> String {
    Amount::of(*power).show(UnitSystem::Si)
}
