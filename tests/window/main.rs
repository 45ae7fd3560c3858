//! The window driven without a display, by the names a screen reader would read.
#![allow(clippy::unwrap_used)]

mod answers;
mod day;
mod edit;
mod files;
mod heat;
mod look;
mod map;
mod sample_day;
mod support;
