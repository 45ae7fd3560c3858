//! Coldmark: coolant overflow, thermostat set-point and crankcase ventilation of a home-built car.
//!
//! A [`study::Project`] holds what the builder knows; [`study::answer`] gives every answer with its doubt, and a verdict
//! on each part. The physics stands alone in [`fluid`], [`coolant`], [`heat`] and [`crankcase`]: typed quantities in and
//! out, each figure with its [`source`], each step written to a [`scribe`] for whoever asks.
//!
//! ```
//! use coldmark::quantity::UnitSystem;
//!
//! // An invented car; `coldmark::file::open` reads one from a file, `Project::blank` starts a new one.
//! let project = coldmark::file::demo();
//! let answers = coldmark::study::answer(&project)?;
//! for verdict in &answers.verdicts {
//!     println!("{}: {}", verdict.title, verdict.margin.show(UnitSystem::Si));
//! }
//! let tank = answers.verdicts.iter().find(|verdict| verdict.key == "tank_volume");
//! assert!(tank.is_some());
//! # Ok::<(), coldmark::study::Problems>(())
//! ```
#![forbid(unsafe_code)]
#![cfg_attr(test, allow(clippy::unwrap_used))]

pub mod command;
pub mod coolant;
pub mod crankcase;
pub mod day;
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
