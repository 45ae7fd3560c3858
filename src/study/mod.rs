//! The study: a project in, answers out. Pure: no clock, no files, no window.

mod check;
pub mod defaults;
mod duty;
mod project;
mod telling;
mod verdict;
mod visit;

pub use check::{Problem, Problems};
pub use duty::Duty;
pub use project::*;
pub use telling::{Row, Say, Section, Sentence, Value, to_json};
pub use verdict::{Part, State, Verdict};
pub use visit::{Choice, Count, Field, Label, Visitor};
