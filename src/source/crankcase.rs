//! Sources of the crankcase part.

pub mod blow_by;
pub mod ventilation;
