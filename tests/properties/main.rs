//! What must hold for every input: monotony, inverses, continuity, and that nothing is ever not a number.
#![allow(clippy::unwrap_used)]

mod any;
mod blow_by;
mod coolant;
mod fields;
mod fluid;
mod heat;
mod joint;
mod lines;
mod moisture;
mod network;
mod oil_heat;
mod radiator;
mod valve;
