//! Assumed figures of a car on the road: each an editable default with its spread, its range and its source.

use crate::heat::road::MASS;
use crate::quantity::si::{Mass, Ratio};
use crate::quantity::{Kind, Range};
use crate::source::{assumed, day as source};

/// Mass that resists acceleration over mass.
pub const ROTATING: Range = Range::new(
    "rotating parts as mass",
    Kind::Number,
    1.0,
    1.6,
    "mass felt on acceleration over the car's mass: 1.03 to 1.10, up to 1.4 in a low first gear",
);
/// Shares of the full-throttle duty's speed from which torque is about flat.
pub const FLAT_FROM: Range =
    Range::new("torque flat from", Kind::Share, 0.05, 1.0, "share of the engine speed of the full-throttle duty");
/// Shares of the flat torque that are left at idle speed.
pub const LOW_TORQUE: Range =
    Range::new("torque left at idle speed", Kind::Share, 0.1, 1.0, "share of the torque at the full-throttle duty");
/// Shares of full throttle that are kept in reserve.
pub const RESERVE: Range = Range::new(
    "power in reserve",
    Kind::Share,
    0.0,
    0.8,
    "share of what the engine makes at full throttle; 0.15 to 0.45",
);
const TIMES_IDLE: Range = Range::new("lugging speed over idle speed", Kind::Number, 1.0, 5.0, "1.3 to 2 is usual");
const STEP: Range = Range::new("step from gear to gear", Kind::Number, 1.05, 3.0, "1.3 to 1.5 is usual");
const BEYOND: Range =
    Range::new("highest engine speed over that of the fastest duty point", Kind::Number, 1.0, 2.0, "1.1 is usual");

assumed! {
    /// Mass of a car with driver and fuel: 1400 kg (900 to 2000).
    mass: Mass = [900.0, 1400.0, 2000.0], MASS, source::CAR_MASS;
    /// Mass that resists acceleration over mass: 1.05 (1.03 to 1.10).
    rotating: Ratio = [1.03, 1.05, 1.10], ROTATING, source::ROTATING;
    /// Share of the full-throttle duty's speed from which torque is about flat: 0.4 (0.3 to 0.5).
    flat_from: Ratio = [0.3, 0.4, 0.5], FLAT_FROM, source::FULL_LOAD_SHAPE;
    /// Share of the flat torque that is left at idle speed: 0.65 (0.5 to 0.8).
    low_torque: Ratio = [0.5, 0.65, 0.8], LOW_TORQUE, source::FULL_LOAD_SHAPE;
    /// Lugging speed over idle speed: 1.6 (1.3 to 2).
    lugging_over_idle: Ratio = [1.3, 1.6, 2.0], TIMES_IDLE, source::LUGGING;
    /// Share of full throttle that a driver keeps in reserve when choosing a gear: 30 % (15 to 45 %).
    gear_reserve: Ratio = [0.15, 0.30, 0.45], RESERVE, source::GEAR_RESERVE;
    /// Step from gear to gear where only the top gear is known: 1.4 (1.3 to 1.5).
    gear_step: Ratio = [1.3, 1.4, 1.5], STEP, source::GEAR_STEPS;
    /// Highest engine speed over that of the fastest duty point: 1.1 (1.0 to 1.2).
    highest_over_duty: Ratio = [1.0, 1.1, 1.2], BEYOND, source::HIGHEST_SPEED;
}
