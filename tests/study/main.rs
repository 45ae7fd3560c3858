//! The study as a whole: facts of the trade, worked examples, properties of any project.
#![allow(clippy::unwrap_used, clippy::print_stdout)]

mod random;
mod sound;
