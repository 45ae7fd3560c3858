//! Numerical methods without a word of physics: roots, interpolation, quadrature. Plain numbers in and out.

mod dense;
mod interpolate;
mod root;

pub use dense::solve_dense;
pub use interpolate::{MonotoneCubic, TableError};
pub use root::{NotBracketed, Root, RootError, bracketed_root};
