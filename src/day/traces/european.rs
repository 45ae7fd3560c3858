//! The older European cycle, put together from the straight pieces of its regulation.

use crate::quantity::Measured;
use crate::quantity::si::Velocity;

/// Whole seconds, and the speed in km/h at their end. UN Regulation No. 83, annex 4a, quoted from memory; the seconds add
/// up to its 195, the distance to 1.0146 km where the regulation says 1.013.
const URBAN: [(u32, f64); 25] = [
    (11, 0.0),
    (4, 15.0),
    (8, 15.0),
    (2, 10.0),
    (3, 0.0),
    (21, 0.0),
    (5, 15.0),
    (2, 15.0),
    (5, 32.0),
    (24, 32.0),
    (8, 10.0),
    (3, 0.0),
    (21, 0.0),
    (5, 15.0),
    (2, 15.0),
    (9, 35.0),
    (2, 35.0),
    (8, 50.0),
    (12, 50.0),
    (8, 35.0),
    (13, 35.0),
    (2, 32.0),
    (7, 10.0),
    (3, 0.0),
    (7, 0.0),
];
/// As above: 400 s and 6.955 km.
const EXTRA_URBAN: [(u32, f64); 21] = [
    (20, 0.0),
    (5, 15.0),
    (2, 15.0),
    (9, 35.0),
    (2, 35.0),
    (8, 50.0),
    (2, 50.0),
    (13, 70.0),
    (50, 70.0),
    (8, 50.0),
    (69, 50.0),
    (13, 70.0),
    (50, 70.0),
    (35, 100.0),
    (30, 100.0),
    (20, 120.0),
    (10, 120.0),
    (16, 80.0),
    (8, 50.0),
    (10, 0.0),
    (20, 0.0),
];

/// Four times urban and once extra-urban.
pub(super) fn speeds() -> Vec<Velocity> {
    let pieces = std::iter::repeat_n(&URBAN[..], 4).chain([&EXTRA_URBAN[..]]).flatten();
    let (mut speeds, mut from) = (vec![0.0], 0.0);
    for &(seconds, to) in pieces {
        for second in 1..=seconds {
            speeds.push(from + (to - from) * f64::from(second) / f64::from(seconds));
        }
        from = to;
    }
    speeds.into_iter().map(|kmh| Velocity::from_base(kmh / 3.6)).collect()
}
