//! Where the crankcase's fresh air is taken, which decides whether an air meter has counted it.

use crate::study::{Label, Visitor};

/// Where the fresh air of a closed crankcase is taken, with an air meter.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum FreshAirTaken {
    /// Between meter and throttle: the meter has counted it.
    BehindMeter,
    /// Before the meter: it comes in uncounted.
    BeforeMeter,
}
crate::choice!(FreshAirTaken {
    BehindMeter: "behind-meter", "Between air meter and throttle";
    BeforeMeter: "before-meter", "Before the air meter";
});

static FRESH_AIR: Label = Label::new(
    "fresh_air",
    "Crankcase fresh air taken",
    "Where the fresh-air line of a closed system begins; a breather of its own is always before the meter.",
);

/// Shows the choice.
pub(super) fn visit(fresh_air: &mut FreshAirTaken, visitor: &mut impl Visitor) {
    visitor.choice_or(&FRESH_AIR, fresh_air, FreshAirTaken::BehindMeter);
}
