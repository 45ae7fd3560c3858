//! What a builder describes (a breather here, a valve there, a can in between) made into a network, and the answer
//! given back in those words.

mod boundary;
mod build;
mod capacity;
mod cautions;
pub mod defaults;
mod error;
mod follow;
mod judgement;
mod lay;
mod names;
mod outcome;
mod parts;
mod shut;

pub use boundary::{AIR_CLEANER, Boundary};
pub use capacity::{Capacity, LargestBlowBy, capacity, largest_blow_by};
pub use cautions::{CAUTIONS, Caution, PORT_CHECKS, SYMPTOMS, Symptom};
pub use error::VentilationError;
pub use follow::{Bare, Follower};
pub use judgement::{Finding, PressureBands, PressureState, Side};
pub use outcome::{Flows, Loss, Outcome, PlacePressure, solve, solve_one};
pub use parts::{
    Arrangement, BreatherLine, CanPlace, CatchCan, GasSource, Inline, Line, Piece, Place, Stuck, Valve, Ventilation,
    Venting,
};
