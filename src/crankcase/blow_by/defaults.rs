//! Every figure the blow-by levels assume, with its spread, its range and its source. Coherent SI units.

use super::Condition;
use crate::quantity::si::{
    Area, Length, Ratio, TemperatureCoefficient, ThermodynamicTemperature as Temperature, VolumeRate,
};
use crate::quantity::{GaugePressure, Kind, Range};
use crate::source::crankcase::blow_by as source;
use crate::source::{Assumed, assumed};

/// Shares of the air drawn that may pass the rings.
pub static SHARE_OF_AIR: Range =
    Range::new("blow-by share of the air", Kind::Share, 0.0, 0.2, "0.3 % to 3.5 % from run-in to worn");
/// Standard volume flows for each kilowatt.
pub static PER_KILOWATT: Range = Range::new(
    "blow-by for each kilowatt",
    Kind::GasVolumeFlow,
    0.0,
    10.0 / 6e4,
    "0.15 to 2 L/min (20 °C) for each kilowatt from run-in to worn",
);

/// Blow-by at full throttle as a share of the air drawn.
#[must_use]
pub fn share_of_air(condition: Condition) -> Assumed<Ratio> {
    let [low, likely, high] = match condition {
        Condition::RunIn => [0.003, 0.006, 0.010],
        Condition::Fresh => [0.006, 0.010, 0.020],
        Condition::Worn => [0.010, 0.018, 0.035],
    };
    Assumed::new([low, likely, high], SHARE_OF_AIR, &source::BLOW_BY_SHARE)
}

/// Blow-by at full throttle as standard volume flow for each kilowatt of brake power.
#[must_use]
pub fn per_kilowatt(condition: Condition) -> Assumed<VolumeRate> {
    let [low, likely, high] = match condition {
        Condition::RunIn => [0.15, 0.35, 0.65],
        Condition::Fresh => [0.35, 0.60, 1.2],
        Condition::Worn => [0.60, 1.0, 2.0],
    };
    Assumed::new([low, likely, high].map(|litres| litres / 6e4), PER_KILOWATT, &source::BLOW_BY_SHARE)
}

/// Leak-down loss to expect when no test was made.
#[must_use]
pub fn assumed_loss(condition: Condition) -> Assumed<Ratio> {
    let [low, likely, high] = match condition {
        Condition::RunIn => [0.02, 0.05, 0.08],
        Condition::Fresh => [0.05, 0.08, 0.12],
        Condition::Worn => [0.12, 0.18, 0.30],
    };
    Assumed::new([low, likely, high], super::leak_down::READING, &source::LEAK_DOWN_FIGURES)
}

const RING_TEMPERATURE: Range = Range::new(
    "temperature of ring, land or bore",
    Kind::Temperature,
    233.15,
    673.15,
    "120 °C bore, 170 to 220 °C rings and lands",
);
const EXPANSION: Range = Range::new(
    "thermal expansion",
    Kind::ThermalExpansion,
    1e-6,
    40e-6,
    "11 µm/(m·K) iron, 20.5 µm/(m·K) piston alloy",
);

/// Slit that stands for face and side leakage and a bore out of round, around the whole ring.
#[must_use]
pub fn side_slit(condition: Condition) -> Assumed<Length> {
    let [low, likely, high] = match condition {
        Condition::RunIn => [0.15e-6, 0.3e-6, 0.6e-6],
        Condition::Fresh => [0.25e-6, 0.5e-6, 1.0e-6],
        Condition::Worn => [0.4e-6, 0.8e-6, 1.6e-6],
    };
    let range = Range::new("side slit", Kind::SmallLength, 0.0, 20e-6, "0.3 µm run-in to 0.8 µm worn");
    Assumed::new([low, likely, high], range, &source::RING_FIGURES)
}

assumed! {
    /// Discharge coefficient of the tester's restrictor: a short tube with a conical entry.
    restrictor_discharge: Ratio = [0.70, 0.82, 0.92],
        Range::new("discharge coefficient of the restrictor", Kind::Number, 0.4, 1.0, "0.82 for a short tube"),
        source::LEAK_DOWN_FIGURES;
    /// Supply pressure of the test: 80 psi.
    supply: GaugePressure = [500e3, 80.0 * 6_894.757_293_168, 700e3], super::leak_down::SUPPLY, source::LEAK_DOWN_TEST;
    /// Share of the standing leak that goes to the crankcase, not past valves or head gasket.
    ring_share: Ratio = [0.6, 0.8, 1.0],
        Range::new("share past the rings", Kind::Share, 0.0, 1.0, "listen at the oil filler, the intake and the exhaust"),
        source::LEAK_DOWN_FIGURES;
    /// Leak of the running over that of the standing engine; weakly known, the largest uncertainty of the test.
    running_to_standing: Ratio = [0.3, 0.6, 1.0],
        Range::new("running over standing leak", Kind::Number, 0.05, 3.0, "0.3 to 1: gaps close with heat, oil seals"),
        source::LEAK_DOWN_FIGURES;
    /// What a flow meter in the breather's way may be off by, either way, as a share: 10 % (5 to 20).
    meter_error: Ratio = [0.05, 0.10, 0.20],
        Range::new("error of a flow meter", Kind::Share, 0.0, 0.5, "5 % from a calibrated meter, 10 % usual"),
        source::METER;
    /// How the leak area behind a flow known at one load may part at another: the power of the ratio of both leaks.
    other_load: Ratio = [0.05, 0.15, 0.30],
        Range::new("doubt of a leak area at another load", Kind::Number, 0.0, 1.0, "0 for one area at every load; 0.15 usual"),
        source::OTHER_LOAD;
    /// Gas past the shaft seals of a turbocharger over the blow-by of the rings, while it makes boost.
    turbo_leak: Ratio = [0.05, 0.15, 0.40],
        Range::new("turbocharger's share", Kind::Share, 0.0, 2.0, "5 to 40 % of the blow-by of the rings"),
        source::TURBO_LEAK;
    /// What a drill gauge leaves open of the bore of a tester's restrictor, either way.
    restrictor_gauged: Length = [0.01e-3, 0.02e-3, 0.05e-3],
        Range::new("doubt of the restrictor's bore", Kind::SmallLength, 0.0, 1e-3, "0.02 mm by a drill shank"),
        source::LEAK_DOWN_FIGURES;
    /// Cold end gap over bore, top ring.
    top_gap_over_bore: Ratio = [0.0035, 0.0040, 0.0050],
        Range::new("top gap over bore", Kind::Number, 0.001, 0.05, "0.004 mm for each millimetre of bore"),
        source::RING_FIGURES;
    /// Cold end gap over bore, second ring.
    second_gap_over_bore: Ratio = [0.0040, 0.0045, 0.0060],
        Range::new("second gap over bore", Kind::Number, 0.001, 0.05, "0.0045 mm for each millimetre of bore"),
        source::RING_FIGURES;
    /// Cold radial clearance of the land below a ring, over bore.
    clearance_over_bore: Ratio = [0.0034, 0.0040, 0.0048],
        Range::new("land clearance over bore", Kind::Number, 0.0005, 0.02, "0.004 mm for each millimetre of bore"),
        source::RING_FIGURES;
    /// What wear adds to an end gap.
    worn_gap: Length = [0.2e-3, 0.3e-3, 0.5e-3],
        Range::new("gap grown by wear", Kind::SmallLength, 0.0, 3e-3, "0.3 mm on a worn engine"),
        source::RING_FIGURES;
    /// Discharge coefficient of a ring gap.
    gap_discharge: Ratio = [0.6, 0.85, 0.9],
        Range::new("discharge coefficient of a ring gap", Kind::Number, 0.3, 1.0, "0.6 to 0.9"),
        source::RING_DISCHARGE;
    /// Mean temperature of the top ring.
    top_ring: Temperature = [453.15, 473.15, 498.15], RING_TEMPERATURE, source::RING_FIGURES;
    /// Mean temperature of the second ring.
    second_ring: Temperature = [423.15, 443.15, 463.15], RING_TEMPERATURE, source::RING_FIGURES;
    /// Temperature of the land below the top ring.
    top_land: Temperature = [473.15, 493.15, 523.15], RING_TEMPERATURE, source::RING_FIGURES;
    /// Temperature of the land below the second ring.
    second_land: Temperature = [433.15, 453.15, 478.15], RING_TEMPERATURE, source::RING_FIGURES;
    /// Temperature of the bore where the rings are near dead centre.
    bore_wall: Temperature = [378.15, 393.15, 413.15], RING_TEMPERATURE, source::RING_FIGURES;
    /// Expansion of rings and bore: grey iron.
    iron_expansion: TemperatureCoefficient = [10.5e-6, 11e-6, 12e-6], EXPANSION, source::RING_EXPANSION;
    /// Expansion of the piston alloy.
    piston_expansion: TemperatureCoefficient = [18e-6, 20.5e-6, 23e-6], EXPANSION, source::RING_EXPANSION;
    /// Height of the land between the rings.
    land_height: Length = [3e-3, 4e-3, 6e-3],
        Range::new("land height", Kind::SmallLength, 0.5e-3, 20e-3, "3 to 6 mm between top and second ring"),
        source::RING_FIGURES;
    /// Volume of the groove behind the second ring over bore, hence an area: 2 mm² is 0.2 cm³ at 100 mm.
    groove_over_bore: Area = [1e-6, 2e-6, 3e-6],
        Range::new("groove volume over bore", Kind::SmallArea, 0.0, 20e-6, "2 mm², 0.2 cm³ at 100 mm bore"),
        source::RING_FIGURES;
}
