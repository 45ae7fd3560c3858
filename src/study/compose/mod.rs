//! From a project to its answers: the one place that joins coolant, heat and crankcase.

mod answer;
mod blow_by;
mod breathing;
mod context;
mod coolant;
mod course;
mod crankcase;
mod curves;
mod day;
mod engine_heat;
mod failure;
mod fan;
mod filled;
mod heat_curves;
mod idle;
mod joint;
mod lines;
mod manifold;
mod map;
mod metered;
mod moisture;
mod narrow;
mod notes;
mod oil;
mod oil_heat;
mod radiators;
mod set_points;
mod taken;
mod tank;
mod thermal;
mod valve;
mod ventilation;
mod verdicts;

pub(super) use answer::answer;
pub(super) use course::{course_of, usual_day};
pub(super) use curves::curves;
pub(super) use day::day;
pub(super) use heat_curves::heat_curves;
pub(super) use map::{compare as compare_maps, map, usual_grid};

use crate::study::{Problem, Problems};

/// One fault as the whole list.
pub(super) fn problem(path: impl Into<String>, message: impl Into<String>) -> Problems {
    Problems(vec![Problem { path: path.into(), message: message.into() }])
}

/// Turns an error of the physics into a fault of the input it comes from.
pub(super) trait Fail<T> {
    /// Names the input.
    fn fail(self, path: impl Into<String>) -> Result<T, Problems>;
}

impl<T, E: std::fmt::Display> Fail<T> for Result<T, E> {
    fn fail(self, path: impl Into<String>) -> Result<T, Problems> {
        self.map_err(|error| problem(path, error.to_string()))
    }
}
