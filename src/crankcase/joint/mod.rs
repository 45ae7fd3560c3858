//! The valve-cover joint: thread, clamp load, gasket stack, flange between the screws, leak, and the window of torque.
//!
//! A torque gives a clamp load ([`clamp_load`]); the load seats the gasket ([`Stack`]) as evenly as the flange spreads it
//! ([`Flange`]) and must not strip the thread ([`strip_load`]). [`window`] puts the ends together and says what mends a
//! joint that has no safe torque; [`leak_cause`] and [`trial`] say whether a leak is the joint's or the ventilation's.
//!
//! A spot that leaks drips oil where it may be hot: every answer about a leak carries the caution.

mod aim;
mod bottom;
mod clamp;
mod creep;
mod error;
pub mod figures;
mod flange;
mod gasket;
mod leak;
mod leak_cause;
mod mend;
mod remarks;
mod stop;
mod strip;
mod thread;
mod window;

pub use clamp::{Finish, clamp_load, torque_for};
pub use creep::{CreepLoss, screw_stiffness};
pub use error::JointError;
pub use flange::{Bar, Bedding, Contact, Flange, FlangeMaterial};
pub use gasket::{GasketFigures, GasketMaterial, Layer, SpacerMaterial, Stack, Travel};
pub use leak::{SlotFlow, Spot, pressure_held, slot_flow};
pub use leak_cause::{Cause, LeakCause, Observation, Trial, leak_cause, trial};
pub use mend::{Mend, Mending};
pub use stop::{Obstacle, StopCheck};
pub use strip::{
    Engagement, ParentMaterial, Reach, ScrewGrade, ScrewStrength, StripLoad, engagement_for_screw_to_break, strip_load,
};
pub use thread::{Hole, InsertHole, Thread, ThreadStandard};
pub use window::{Joint, Limit, Safety, Window, window, window_alone};
