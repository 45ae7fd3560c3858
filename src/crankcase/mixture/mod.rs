//! The PCV valve and the mixture: its share of the idle air, what that does to the mixture, and where it joins the intake.

mod idle;
mod port;

pub use idle::{
    FreshAirFrom, FuelSystem, IDLE_AIR, IdleFinding, IdleGas, IdleMixture, VALVE_FLOW, idle_mixture, idle_share,
    too_lean,
};
pub use port::{Port, PortFinding, PortPlace, check_port};
