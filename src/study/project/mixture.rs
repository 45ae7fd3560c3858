//! How the engine's mixture is made, which decides what the gas of the PCV valve does to it.

use crate::study::{Label, Visitor};

/// How fuel is given to the air.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum MixturePreparation {
    /// By the air that goes through a carburettor.
    Carburettor,
    /// Injected by manifold pressure, speed and temperature.
    SpeedDensity,
    /// Injected by a meter of the air.
    AirMeter,
}
crate::choice!(MixturePreparation {
    Carburettor: "carburettor", "Carburettor";
    SpeedDensity: "speed-density", "Injection by manifold pressure and speed";
    AirMeter: "air-meter", "Injection by an air meter";
});

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

static MIXTURE: Label = Label::new(
    "mixture",
    "Mixture made by",
    "What decides the fuel: it decides what the gas of the PCV valve does to the mixture at idle.",
);
static FRESH_AIR: Label = Label::new(
    "fresh_air",
    "Crankcase fresh air taken",
    "Where the fresh-air line of a closed system begins; a breather of its own is always before the meter.",
);

/// Shows both choices; the second only where a meter can count the air or miss it.
pub(super) fn visit(mixture: &mut MixturePreparation, fresh_air: &mut FreshAirTaken, visitor: &mut impl Visitor) {
    visitor.choice_or(&MIXTURE, mixture, MixturePreparation::Carburettor);
    if *mixture == MixturePreparation::AirMeter {
        visitor.choice_or(&FRESH_AIR, fresh_air, FreshAirTaken::BehindMeter);
    }
}
