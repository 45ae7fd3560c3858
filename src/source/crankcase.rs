//! Sources of the crankcase part.

use super::Source;

/// Every entry of this part.
pub static ALL: &[&Source] = &[];
