//! Assumed figures.
