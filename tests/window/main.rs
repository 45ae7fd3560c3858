//! The window driven without a display, by the names a screen reader would read.
#![allow(clippy::unwrap_used)]

mod answers;
mod edit;
mod files;
mod heat;
mod look;
mod map;
mod support;
