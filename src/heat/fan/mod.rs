//! The fan: what it blows against the core, and when it runs.
//!
//! `curve` is the fan by itself with its laws of speed and density, `operating` finds the air that fan and core agree on,
//! `switch` the steady state with a fan that a thermostatic switch turns on and off.

mod curve;
mod operating;
mod switch;

pub use curve::{BeltDrive, DRIVE_RATIO, FAN_FLOW, FAN_PRESSURE, FAN_SPEED, FanCurve, FanPoint};
pub use operating::{CORE_EXPONENT, CORE_PRESSURE, CoreResistance, DRAWN_SHARE, FanAt, FanFitting};
pub use switch::{FanState, FanSwitch, SWITCHES_AT, cooling_branch, solve_with_fan};
