//! A day through time: how temperatures, pressure, tank and losses follow what the car does.
//!
//! `leg` says what the car does as a person plans it, `road` what that asks of the engine, `traces` how standard tests
//! drive, `course` makes the pieces of all three. `stretch` says what the car does, piece by piece; `lumps` what it is made
//! of; `charge` what stands under the cap and in the tank; `record` what came of it: samples, events, and how well energy and coolant closed.
//!
//! [`run`] goes through it: `flow` says how fast the bodies of `body` change, `settle` what follows from a step for coolant
//! and vapour, `watch` what is waited for, `books` adds up. Assumed figures are in [`defaults`].

mod body;
mod books;
pub(crate) mod charge;
mod check;
mod course;
pub mod defaults;
mod error;
mod exchange;
mod fault;
mod flow;
pub mod leg;
pub mod lumps;
pub mod options;
pub mod record;
pub mod road;
mod run;
mod settle;
mod soak;
pub mod stretch;
mod traces;
mod watch;
mod working;

pub use course::stretches;
pub use error::DayError;
pub use fault::{CarFault, CarInput, LegFault, LegInput};
pub use leg::{Doing, Leg, Until};
pub use lumps::{BehindCap, Joined, Lumps, Start};
pub use options::Options;
pub use record::{CapState, Closures, Drive, Event, EventKind, Extreme, ExtremeOf, Sample, Soak, Trifles};
pub use road::{Car, FullLoad, Movement, NoGear};
pub use run::run;
pub use stretch::{Heats, Stretch, Turning};
pub use traces::Trace;
