//! What several properties draw from.

use coldmark::quantity::{AbsolutePressure, Measured};
use proptest::prelude::*;

/// A quantity of so much in its coherent SI unit.
pub fn of<Q: Measured>(base: f64) -> Q {
    Q::from_base(base)
}

pub fn sea_level() -> AbsolutePressure {
    of(101_325.0)
}

/// What no input should hold, and the ends of the numbers.
pub fn odd() -> impl Strategy<Value = f64> {
    prop_oneof![
        Just(f64::NAN),
        Just(f64::INFINITY),
        Just(f64::NEG_INFINITY),
        Just(0.0),
        Just(-0.0),
        Just(f64::MIN_POSITIVE),
        Just(f64::MAX),
    ]
}
