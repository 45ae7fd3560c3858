//! Properties of water, glycol mixes, air and crankcase gas.
//!
//! A [`Mix`] is a coolant: a base and how much of it. Its properties are one function of temperature from −40 to
//! 130 °C, joined from a published polynomial set, the IAPWS equations for water and pure-glycol curves; `solution`
//! holds the coefficients, `liquid` and `curve` the joins, `phase` freezing and boiling. Nothing is given where the coolant is
//! frozen, where it boils, or where no source reaches.

pub mod air;
mod base;
pub mod crankcase_gas;
mod curve;
mod error;
mod liquid;
mod mix;
mod note;
mod phase;
mod properties;
mod solution;
pub mod water;
mod water_table;

pub use base::{Base, Basis};
pub use error::FluidError;
pub use mix::{Mix, concentrate_strength, mass_share_from_volume, volume_share_from_mass};
pub use properties::Properties;
