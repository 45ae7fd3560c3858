//! The gas in the cylinder over one cycle: pressure against crank angle, and what it would push through a hole.
//!
//! Angles count from firing dead centre. [`trace`] gives the pressure, [`Trace::leakage`] the mean flow through a
//! unit of effective area either way; every level of blow-by stands on these two.

mod boost;
pub mod defaults;
mod duty;
mod error;
mod geometry;
mod injection;
mod leakage;
mod point;
mod pressure;
mod trace;

pub use boost::{Blower, PRESSURE_RATIO, back_pressure};
pub use duty::Duty;
pub use error::BlowByError;
pub use geometry::Geometry;
pub use injection::{Injection, diesel_figures, premixed_share};
pub use leakage::{LeakPath, Leakage};
pub use point::{Cycle, Figures, OperatingPoint, figures};
pub use pressure::{air_drawn, trace};
pub use trace::{Peak, Trace};
