//! Facts of the trade: signs and sizes the answers must have. Common practice, no published source.

use super::examples::{example_1, example_3, gauge, litres, metres};
use coldmark::coolant::boiling::{HottestPassage, boiling_margin};
use coldmark::coolant::*;
use coldmark::quantity::si::*;
use coldmark::quantity::{Estimate, Measured, celsius, pascals};
use coldmark::scribe::Silent;

/// Common practice, no source: an overflow can with a sealed lid builds pressure and works against the cap; a hole in
/// the lid cures it, and both must be shown.
#[test]
fn a_sealed_lid_works_against_the_cap() {
    let system = example_3();
    let can = Arrangement::CatchOnly { lid: Lid::Vented(gauge(0.0)), tank_temperature: celsius(50.0) };
    let tank = SealedTank { air: litres(1.5), filled_at: celsius(20.0), hot: celsius(50.0) };
    let both = can.both_lids(&system, &Cap::new(gauge(48e3)), &tank, 5, &mut Silent).unwrap().unwrap();
    let (vented, sealed) = (&both.vented, &both.sealed);
    assert_eq!(vented.hot.gauge.base().round(), 48e3);
    assert_eq!(vented.tank_pressure.base(), 0.0);
    // The system sees the sum of the cap and the can.
    let sum = 48e3 + sealed.tank_pressure.base();
    assert!((sealed.hot.gauge.base() - sum).abs() < 5.0, "{} {sum}", sealed.hot.gauge.base());
    assert!(sealed.tank_pressure.base() > 100e3);
    assert!(sealed.notes.iter().any(|note| note.key == "sealed-tank"));
    let passage = HottestPassage::usual(celsius(98.0));
    let margin = |cycle: &Cycle| {
        boiling_margin(&system.mix, &cycle.hot_pressure, &passage, &mut Silent).unwrap().margin.likely.base()
    };
    assert!(margin(sealed) > margin(vented) + 10.0);
}

/// Common practice, no source: the cooler thermostat gives a smaller hot level and a larger boiling margin.
#[test]
fn a_cooler_engine_needs_less_room_and_keeps_more_margin() {
    let at = |outlet: f64| {
        let mut system = example_1();
        for region in &mut system.circuit.regions {
            region.hot = ThermodynamicTemperature::from_base(region.hot.base() + outlet - 95.0);
        }
        let cap = Cap::new(gauge(103e3));
        let tank = Arrangement::RecoveryTank {
            lid: Lid::Vented(gauge(0.0)),
            tank_temperature: celsius(50.0),
            line: ReturnLine::covered(metres(0.1)),
        };
        let cycle = tank.cycle(&system, &cap, 2, &mut Silent).unwrap();
        let passage = HottestPassage::usual(celsius(outlet));
        let margin = boiling_margin(&system.mix, &cycle.hot_pressure, &passage, &mut Silent).unwrap();
        (cycle.expelled.base(), margin.margin.likely.base())
    };
    let ((cool_room, cool_margin), (hot_room, hot_margin)) = (at(76.0), at(92.0));
    assert!(cool_room < hot_room && cool_margin > hot_margin + 10.0);
}

/// Common practice, no source: a tank below the neck works when the vacuum on cooling lifts the return. Lift costs
/// 1.05 kPa for 100 mm at 50 % glycol.
#[test]
fn a_low_tank_is_lifted_back_by_vacuum() {
    let system = example_1();
    let cap = Cap::new(gauge(103e3));
    let cycle = |lift: f64, reach: TubeReach| {
        let line = ReturnLine { reach, ..ReturnLine::covered(metres(lift)) };
        let tank = Arrangement::RecoveryTank { lid: Lid::Vented(gauge(0.0)), tank_temperature: celsius(50.0), line };
        tank.cycle(&system, &cap, 2, &mut Silent).unwrap()
    };
    let level = cycle(0.0, TubeReach::Covered);
    let low = cycle(0.3, TubeReach::Covered);
    assert_eq!((level.outcome, low.outcome), (Outcome::Returns, Outcome::Returns));
    assert!(level.recovers && low.recovers);
    let lift = low.suction.unwrap().lift.base();
    assert!((lift / 3.0 - 1.05e3).abs() < 10.0, "{lift}");
    assert!(low.cold_pressure < level.cold_pressure);
    // Only the expansion of the trapped air under the suction keeps a little back.
    assert!(low.lost_cold.base() < 0.02e-3 && low.lost_cold.base() > 0.0);
    let dry = cycle(0.3, TubeReach::Uncovered);
    assert_eq!(dry.outcome, Outcome::AirReturns);
    assert!(!dry.recovers && dry.second_expelled_cold < dry.expelled_cold);
    let strained = cycle(0.7, TubeReach::Covered);
    assert!(strained.notes.iter().any(|note| note.key == "return-strained"));
    let mut stiff = cap;
    stiff.vacuum_opening = Estimate::exact(pascals(28e3));
    let line = ReturnLine::covered(metres(0.5));
    let tank = Arrangement::RecoveryTank { lid: Lid::Vented(gauge(0.0)), tank_temperature: celsius(50.0), line };
    let failed = tank.cycle(&system, &stiff, 2, &mut Silent).unwrap();
    assert_eq!(failed.outcome, Outcome::NothingReturns);
    assert!(failed.notes.iter().any(|note| note.key == "return-fails"));
}
