//! The study as a whole: facts of the trade, worked examples, properties of any project.
#![allow(clippy::unwrap_used, clippy::print_stdout)]

mod build;
mod crankcase;
mod curves;
mod day;
mod day_told;
mod first_try;
mod gas;
mod heat;
mod heat_map;
mod joint;
mod lines;
mod map;
mod moisture;
mod networks;
mod oil_heat;
mod properties;
mod radiator;
mod random;
mod sound;
mod trade;
mod unthrottled;
mod valve;
mod vented;
mod worked;
