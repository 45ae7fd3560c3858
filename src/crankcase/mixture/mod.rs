//! The PCV valve and the mixture: its share of the idle air, what that does to the mixture, and where it joins the intake.

mod idle;
mod port;

pub use idle::{
    FreshAirFrom, FuelSystem, IDLE_AIR, IDLE_SHARE, IdleFinding, IdleGas, IdleMixture, VALVE_FLOW, idle_mixture,
};
pub use port::{Port, PortFinding, PortPlace, check_port};
