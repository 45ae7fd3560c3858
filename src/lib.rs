//! Coldmark: coolant overflow, thermostat set-point and crankcase ventilation of a home-built car.
#![forbid(unsafe_code)]
#![cfg_attr(test, allow(clippy::unwrap_used))]

pub mod command;
pub mod coolant;
pub mod crankcase;
pub mod file;
pub mod fluid;
pub mod heat;
pub mod note;
pub mod numeric;
pub mod quantity;
pub mod scribe;
pub mod source;
pub mod study;
#[cfg(feature = "window")]
pub mod window;
