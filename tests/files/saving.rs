//! saving
