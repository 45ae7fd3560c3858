//! Project files and presets as a person meets them: reading, faults, saving, presets.
#![allow(clippy::unwrap_used, clippy::print_stdout)]

mod cover_joint;
mod faults;
mod presets;
mod recorder;
mod saving;
mod there_and_back;
