//! Sources of the crankcase part.

pub mod blow_by;
pub mod joint;
pub mod moisture;
pub mod ventilation;
