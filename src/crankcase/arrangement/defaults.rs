//! The assumed figures of an arrangement: the air cleaner, and what a crankcase pressure may be.

use super::boundary::AIR_CLEANER;
use crate::quantity::si::{Pressure, Ratio};
use crate::quantity::{GaugePressure, Kind, Range};
use crate::source::assumed;
use crate::source::crankcase::ventilation::{
    AIR_CLEANER_DEPRESSION, IDLE_AIR_SHARE, LITTLE_LEFT, PRESSURE_BANDS, SEALS_HOLD,
};

const LIMIT: Range = Range::new(
    "limit of the crankcase pressure",
    Kind::CrankcasePressure,
    0.0,
    2.0e4,
    "limits lie within a few kPa of the ambient air",
);

const SHARE: Range = Range::new("share", Kind::Share, 0.0, 1.0, "a part of the whole");

assumed! {
    /// How far the clean side of an air cleaner lies below the ambient at full throttle.
    air_cleaner_depression: Pressure = [0.5e3, 1.5e3, 3.0e3], AIR_CLEANER, AIR_CLEANER_DEPRESSION;
    /// Crankcase pressure under load: watched above the low figure, to be mended above the likely one; above the high
    /// one the engine is stopped.
    limit_under_load: GaugePressure = [0.5e3, 1.5e3, 2.5e3], LIMIT, PRESSURE_BANDS;
    /// Crankcase pressure at light load: watched above the low figure, to be mended above the likely one.
    limit_at_light_load: GaugePressure = [0.0, 0.5e3, 1.0e3], LIMIT, PRESSURE_BANDS;
    /// Crankcase depression: watched beyond the low figure at light load, to be mended beyond the likely one.
    limit_of_depression: Pressure = [1.5e3, 3.5e3, 4.0e3], LIMIT, PRESSURE_BANDS;
    /// Share of a crankcase pressure limit beyond which little is left of it.
    little_left: Ratio = [0.6, 0.7, 0.8], SHARE, LITTLE_LEFT;
    /// Crankcase pressure, to either side, far beyond what seals hold.
    far_beyond_seals: GaugePressure = [5e3, 10e3, 20e3], LIMIT, SEALS_HOLD;
    /// Manifold depression below which a valve has next to nothing to draw with: what its own line takes.
    least_draw: Pressure = [1e3, 3e3, 5e3], LIMIT, IDLE_AIR_SHARE;
    /// Share of the engine's air at idle that a PCV valve may pass: 5 to 20 % are usual.
    idle_air_by_valve: Ratio = [0.05, 0.20, 0.30], SHARE, IDLE_AIR_SHARE;
}
