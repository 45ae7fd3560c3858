//! The drawing.
