//! Sources of the fluid part.

use super::Source;

/// Every entry of this part.
pub static ALL: &[&Source] = &[];
