//! Sources of the heat part.

use super::Source;

/// Every entry of this part.
pub static ALL: &[&Source] = &[];
