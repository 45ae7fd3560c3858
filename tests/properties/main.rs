//! Properties that hold for every input.
#![allow(clippy::unwrap_used)]

mod blow_by;
