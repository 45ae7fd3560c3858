//! A day through time: against exact solutions, against the steady answer, and that its books close.
#![allow(clippy::unwrap_used)]

mod car;
mod exact;
mod example;
mod follow;
mod limits;
mod random;
mod soak;
mod steady;
