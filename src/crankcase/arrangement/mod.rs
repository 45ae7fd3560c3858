//! What a builder describes (a breather here, a valve there, a can in between) made into a network, and the answer
//! given back in those words.

mod build;
mod capacity;
mod error;
mod judgement;
mod outcome;
mod parts;

pub use build::AIR_CLEANER;
pub use capacity::{Capacity, LargestBlowBy, capacity, largest_blow_by};
pub use error::VentilationError;
pub use judgement::{Finding, PressureBands, PressureState, Side};
pub use outcome::{Flows, Loss, Outcome, PlacePressure, solve};
pub use parts::{
    Arrangement, Boundary, BreatherLine, CanPlace, CatchCan, Line, Piece, Place, Stuck, Valve, Ventilation, Venting,
};
