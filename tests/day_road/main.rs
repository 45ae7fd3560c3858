//! What a car does in a day: gears, legs, windows, and the day of a project.
#![allow(clippy::unwrap_used)]

mod course;
mod energy;
mod gears;
mod legs;
mod support;
mod windows;
