//! A day through time: how temperatures, pressure, tank and losses follow what the car does.
//!
//! `stretch` says what the car does, piece by piece; `lumps` what it is made of; `charge` what stands under the cap and
//! in the tank; `record` what came of it: samples, events, and how well energy and coolant closed.

pub(crate) mod charge;
mod error;
mod exchange;
pub mod lumps;
pub mod options;
pub mod record;
pub mod stretch;

pub use error::DayError;
pub use lumps::{BehindCap, Joined, Lumps, Start};
pub use options::Options;
pub use record::{CapState, Closures, Drive, Event, EventKind, Extreme, ExtremeOf, Sample, Soak};
pub use stretch::{Heats, Stretch, Turning};
