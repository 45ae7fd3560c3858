//! A day through time: how temperatures, pressure, tank and losses follow what the car does.
//!
//! `stretch` says what the car does, piece by piece; `lumps` what it is made of; `charge` what stands under the cap and
//! in the tank; `record` what came of it: samples, events, and how well energy and coolant closed.
//!
//! [`run`] goes through it: `flow` says how fast the bodies of `body` change, `settle` what follows from a step for coolant
//! and vapour, `watch` what is waited for, `books` adds up. Assumed figures are in [`defaults`].

mod body;
mod books;
pub(crate) mod charge;
mod check;
pub mod defaults;
mod error;
mod exchange;
mod flow;
pub mod lumps;
pub mod options;
pub mod record;
mod run;
mod settle;
mod soak;
pub mod stretch;
mod watch;
mod working;

pub use error::DayError;
pub use lumps::{BehindCap, Joined, Lumps, Start};
pub use options::Options;
pub use record::{CapState, Closures, Drive, Event, EventKind, Extreme, ExtremeOf, Sample, Soak};
pub use run::run;
pub use stretch::{Heats, Stretch, Turning};
