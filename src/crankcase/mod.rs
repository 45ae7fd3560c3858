//! The crankcase: how much gas leaks past the rings, and where it goes.
//!
//! [`cylinder`] computes the pressure above the piston over one cycle, [`blow_by`] turns it into a flow past the rings
//! by the best that is known of the engine: a measured flow, a leak-down test, its condition or its ring pack. An
//! [`element`] is one hole, hose, filter or valve, a [`network`] joins many and finds the pressures between them, and
//! an [`arrangement`] is a network in a builder's words, with what its pressures mean.

pub mod blow_by;
pub mod cylinder;
pub(crate) mod flow_function;

pub mod arrangement;
pub mod element;
pub mod joint;
pub mod mixture;
pub mod moisture;
pub mod network;
pub mod oil;
