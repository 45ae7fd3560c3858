//! The window driven without a display.
