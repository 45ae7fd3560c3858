//! The study: a project in, answers out. Pure: no clock, no files, no window.

mod check;
pub mod defaults;
mod duty;
mod project;
mod visit;

pub use check::{Problem, Problems};
pub use duty::Duty;
pub use project::*;
pub use visit::{Choice, Count, Field, Label, Visitor};
