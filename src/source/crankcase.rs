//! Sources of the crankcase part.

pub mod ventilation;

use super::Source;

/// Every entry of this part.
pub static ALL: &[&Source] = &[];
