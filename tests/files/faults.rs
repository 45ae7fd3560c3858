//! faults
