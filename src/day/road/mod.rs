//! A car on the road: what power a movement asks for, which gear, how fast the engine turns, and what it can give.
//!
//! `car` is the car as plain data with its checks; `full_load` what the engine makes with the throttle open; `turning` puts a
//! movement, the gears and the engine together. Assumed figures are in `defaults`.

mod car;
pub mod defaults;
mod full_load;
mod turning;

pub use car::{Car, HIGHEST_SPEED, MOST_GEARS, PER_THOUSAND};
pub use full_load::FullLoad;
pub use turning::{Movement, NoGear};
