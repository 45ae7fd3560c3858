//! Quantities: what a number is, how a person types it and how it is shown.
//!
//! Public functions of the physics take and return `uom` quantities. Two things uom leaves open are kept apart
//! here: gauge and absolute pressure are different types, and a temperature is not a temperature difference.

mod amount;
mod constant;
mod estimate;
mod kind;
mod measured;
mod parse;
mod range;
mod unit;

pub use amount::Amount;
pub(crate) use constant::{ATMOSPHERE, DEGREE, GRAVITY, RPM, ZERO_CELSIUS};
pub use estimate::Estimate;
pub use kind::{Kind, UnitSystem};
pub use measured::{
    AbsolutePressure, FuelPerWork, GaugePressure, LinearResistance, Measured, QuadraticResistance, SonicConductance,
    Stiffness, Swell, celsius, in_celsius, pascals,
};
pub use parse::{ParseError, parse_amount, parse_estimate};
pub use range::{NotOrdered, OutOfRange, Range};
pub use unit::{Unit, units};

/// The `uom` quantities the program uses, under their short names.
pub mod si {
    pub use uom::si::f64::{
        Acceleration, Angle, AngularVelocity, Area, AvailableEnergy, DynamicViscosity, Energy, Force, HeatCapacity,
        KinematicViscosity, Length, Mass, MassDensity, MassFlux, MassRate, Power, Pressure, Ratio,
        SpecificHeatCapacity, TemperatureCoefficient, TemperatureInterval, ThermalConductance, ThermalConductivity,
        ThermodynamicTemperature, Time, Torque, Velocity, Volume, VolumeRate,
    };
}
