//! The charge through time against the steady answers, its books, and what it does where the steady answers end.
#![allow(clippy::unwrap_used, clippy::expect_used, clippy::indexing_slicing)]

mod books;
mod curves;
mod cycles;
mod events;
mod extremes;
mod sealed;
mod steady;
mod systems;
