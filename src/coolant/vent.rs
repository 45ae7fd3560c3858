//! The tank's vent: the pressure a flow builds in the tank, and the smallest hole that keeps it low.

pub(super) mod load;
pub(super) mod opening;

pub use load::{LiftedLiquid, VentGas, VentLoad};
pub use opening::{Vent, VentPressure, smallest_hole, smallest_tube};
