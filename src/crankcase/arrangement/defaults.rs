//! The assumed figures of an arrangement: the air cleaner, and what a crankcase pressure may be.

use super::boundary::AIR_CLEANER;
use crate::quantity::si::Pressure;
use crate::quantity::{GaugePressure, Kind, Range};
use crate::source::assumed;
use crate::source::crankcase::ventilation::{AIR_CLEANER_DEPRESSION, PRESSURE_BANDS};

const LIMIT: Range = Range::new(
    "limit of the crankcase pressure",
    Kind::CrankcasePressure,
    0.0,
    2.0e4,
    "limits lie within a few kPa of the ambient air",
);

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
}
