//! The crankcase: how much gas leaks past the rings, and where it goes.

pub mod blow_by;
pub mod cylinder;
pub(crate) mod flow_function;

pub mod arrangement;
pub mod element;
pub mod mixture;
pub mod moisture;
pub mod network;
pub mod oil;
