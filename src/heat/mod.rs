//! Steady heat: what the engine gives to its coolant, what the radiator carries, and where the temperature settles.
//!
//! `road` says what power the car needs, `manifold` how the engine breathes for it, `engine_heat` what reaches the
//! coolant. `airflow`, `pump`, `thermostat` and `radiator` (with `exchanger`) carry it away; `balance` finds where the
//! two meet and which of thermostat and radiator rules, `set_points` compares thermostats. `warm_up` and `oil` stand
//! alone. Assumed figures are in `defaults`.

pub mod airflow;
pub mod balance;
pub(crate) mod core;
pub mod defaults;
pub mod engine_heat;
mod error;
pub mod exchanger;
pub mod manifold;
pub mod oil;
pub mod outcome;
pub mod pump;
pub mod radiator;
pub mod road;
pub mod set_points;
pub mod thermostat;
pub mod warm_up;

pub use airflow::Airflow;
pub use balance::Balance;
pub use engine_heat::{CoolantHeat, EngineDuty, HeatModel, Ignition, heat_to_coolant};
pub use error::HeatError;
pub use exchanger::crossflow;
pub use manifold::{Breathing, Manifold};
pub use oil::Oil;
pub use outcome::{Closure, Limit, NoSteadyState, Outcome, Reason, Ruler, SteadyState};
pub use pump::Pump;
pub use radiator::{Radiator, RadiatorDuty, RadiatorHeat, ReferenceCoolant, Tubes};
pub use road::{RoadLoad, RoadPower};
pub use set_points::{SetPointRow, compare_set_points};
pub use thermostat::{SETTINGS, Setting, Thermostat};
pub use warm_up::{WarmUp, WarmUpEnd};
