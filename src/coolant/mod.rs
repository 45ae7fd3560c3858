//! The coolant: how much it grows, where it goes, and how far it stays from boiling.
//!
//! [`SystemVolume`] gives the parts, [`FilledSystem`] their balance of mass, [`Cap`] the limit of pressure, [`Tank`] and
//! [`headroom()`] the room and the marks, [`Arrangement`] what comes back on cooling, [`vent::Vent`] the pressure in the
//! tank, [`tilt`] whether the tube stays covered in a bend, and [`boiling`] the margin to boiling. Assumed figures are in
//! [`defaults`].

pub mod boiling;
pub mod defaults;
pub mod tilt;
pub mod vent;

mod arrangement;
mod balance;
mod cap;
mod error;
mod expansion;
mod growth;
mod headroom;
mod sealed;
mod tank;
mod volume;

pub use arrangement::{
    Arrangement, BothLids, CapSits, Cycle, CyclePoint, Lid, Outcome, ReturnLine, Suction, TubeReach,
};
pub use cap::Cap;
pub use error::CoolantError;
pub use expansion::{FilledSystem, SystemState, WarmUpPoint};
pub use growth::{Contribution, Doubt, Growth};
pub use headroom::{Headroom, HeadroomNeed, ReserveFrom, Surge, headroom};
pub use sealed::{SealedPressure, SealedState, SealedTank};
pub use tank::{Tank, TankShape};
pub use volume::{Circuit, HoseRun, HotTemperatures, Material, Part, Region, ShareDoubt, Shares, SystemVolume};
