//! Steady heat: what the engine gives to its coolant, what the radiator carries, and where the temperature settles.
//!
//! `road` says what power the car needs, `manifold` how the engine breathes for it, `engine_heat` what reaches the
//! coolant. `airflow`, `fan`, `pump`, `thermostat` and `radiator` (with `exchanger`, or from its core by `matrix`) carry it
//! away; `balance` finds where the two meet and which of thermostat and radiator rules, `set_points` compares thermostats.
//! `oil_heat` and `oil_balance` do the same for the oil, which a cooler ties to the coolant; `oil_grade` and `oil` give its
//! viscosity, `metal` the temperature of the chambers, `warm_up` and `warm_up_oil` the way there. Assumed figures are in
//! `defaults` and `oil_defaults`.

pub mod airflow;
pub mod balance;
mod beside;
pub(crate) mod core;
pub mod defaults;
pub mod engine_heat;
mod error;
pub mod exchanger;
pub mod fan;
pub mod manifold;
pub mod matrix;
pub mod metal;
pub mod mixture;
pub mod oil;
pub mod oil_balance;
pub mod oil_defaults;
pub mod oil_grade;
pub mod oil_heat;
pub mod outcome;
pub mod pump;
pub mod radiator;
pub mod road;
pub mod set_points;
pub mod thermostat;
pub mod warm_up;
pub mod warm_up_oil;

pub use airflow::Airflow;
pub use balance::{Balance, Capacity, Reserve};
pub use beside::{Beside, Heater};
pub use engine_heat::{CoolantHeat, EngineDuty, HeatModel, Ignition, heat_to_coolant};
pub use error::HeatError;
pub use exchanger::crossflow;
pub use fan::{BeltDrive, CoreResistance, FanAt, FanCurve, FanFitting, FanPoint, FanState, FanSwitch};
pub use manifold::{Breathing, Manifold};
pub use matrix::{Fin, Louvres, Matrix, MatrixDoubt, MatrixHeat, MatrixPoint};
pub use metal::Metal;
pub use mixture::Mixture;
pub use oil::Oil;
pub use oil_balance::{OilBalance, OilCooler, OilState, Regime, SumpToAir};
pub use oil_grade::{HotClass, OilGrade, OilRange};
pub use oil_heat::OilHeatModel;
pub use outcome::{Closure, Limit, NoSteadyState, Outcome, Reason, Ruler, SteadyState};
pub use pump::Pump;
pub use radiator::{Radiator, RadiatorDuty, RadiatorHeat, ReferenceCoolant, Tubes};
pub use road::{RoadLoad, RoadPower};
pub use set_points::{SetPointRow, compare_set_points};
pub use thermostat::{SETTINGS, Setting, Thermostat};
pub use warm_up::{WarmUp, WarmUpEnd};
pub use warm_up_oil::{Lumps, Stretch, WarmUpWithOil, WarmedUp};
