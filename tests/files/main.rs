//! Project files and presets as a person meets them: reading, faults, saving, presets.
#![allow(clippy::unwrap_used, clippy::print_stdout)]

mod faults;
mod may_lack;
mod presets;
mod readme;
mod recorder;
mod saving;
mod there_and_back;
