//! Sources of the crankcase part.

pub mod moisture;
pub mod ventilation;

use super::Source;

pub mod blow_by;

/// Every entry of this part.
pub static ALL: &[&Source] = &[
    &blow_by::HEYWOOD_ENGINE,
    &blow_by::BRUNT_GAMMA,
    &blow_by::CREVICE_GAS,
    &blow_by::ISENTROPIC_HOLE,
    &blow_by::CYCLE_FIGURES,
    &blow_by::LEAK_PATH_FIGURES,
    &blow_by::BLOW_BY_SHARE,
    &blow_by::LEAK_DOWN_TEST,
    &blow_by::LEAK_DOWN_FIGURES,
    &blow_by::RING_FIGURES,
    &blow_by::RING_EXPANSION,
    &blow_by::RING_DISCHARGE,
];
