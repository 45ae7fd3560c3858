//! Oil: what the gas carries out of the crankcase, what a catch can holds back, and how oil runs back to the sump.
//!
//! [`gas_speeds`] gives the speed at baffle, mouth, drain and can with its limit and the droplets it carries; [`carry_over`]
//! makes of it an estimate of oil; [`collected`] what a can does with it and with the water. [`drain_back`] and
//! [`sag_blockage`] are heads of standing liquid against the crankcase pressure.

mod can;
mod carry_over;
pub mod defaults;
mod drain;
mod droplet;
mod error;
mod passage;

pub use can::{CanFinding, CanOutlet, CanUse, CatchCan, Collected, MEAN_SPEED, collected, condensate};
pub use carry_over::{CarryOver, CarryOverReason, OilToGas, carry_over};
pub use defaults::CanInside;
pub use drain::{DrainBack, SagBlockage, Standing, drain_back, sag_blockage};
pub use droplet::{CutSize, Fall, Mist, cut_size_in_upflow, fall, impaction_cut, souders_brown};
pub use error::OilError;
pub use passage::{GasSpeed, Passage, gas_speeds};
