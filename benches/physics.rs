//! How long the answers take, and the parts of them that a window asks for most often.
#![allow(clippy::unwrap_used, missing_docs)]

fn main() {}
