//! Facts of the trade and of sense: signs and sizes the answers must have. Those of common practice have no published
//! source and say so.

use super::examples::{example_1, example_3, gauge, litres, metres};
use coldmark::coolant::boiling::{HottestPassage, boiling_margin, pump_inlet_margin};
use coldmark::coolant::tilt::{Cover, DipTube, LengthLies, Tilt, cover, volume_for_cover};
use coldmark::coolant::vent::{LiftedLiquid, Vent, VentLoad};
use coldmark::coolant::*;
use coldmark::quantity::si::*;
use coldmark::quantity::{AbsolutePressure, Estimate, GaugePressure, Measured, celsius, pascals};
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

/// A drilled hole of 2 mm passes the air of any normal warm-up; 3 kW of after-heat make 1.33 g/s of steam, which needs
/// 7.6 mm to stay below 2 kPa. Independent computation.
#[test]
fn a_small_hole_serves_until_it_boils() {
    let sea = AbsolutePressure::new(pascals(101_325.0));
    let expansion = Estimate::new(litres(0.5), litres(0.6), litres(0.9)).unwrap();
    let air = VentLoad::warm_up(&expansion, Time::from_base(300.0), celsius(50.0), sea, &mut Silent).unwrap();
    let small = Vent::hole(metres(2e-3));
    let normal = small.pressure(&air, sea, &mut Silent).unwrap();
    assert!(normal.gauge.high.base() < 10.0 && !normal.choked, "{:?}", normal.gauge);
    let steam = VentLoad::boil_over(&Estimate::exact(Power::from_base(3e3)), sea, &mut Silent).unwrap();
    assert!((steam.flow.likely.base() / 1.33e-3 - 1.0).abs() < 0.005);
    assert!(small.pressure(&steam, sea, &mut Silent).unwrap().gauge.likely.base() > 100e3);
    let large = Vent::hole(metres(7.6e-3)).pressure(&steam, sea, &mut Silent).unwrap();
    assert!((large.gauge.likely.base() / 2e3 - 1.0).abs() < 0.02, "{:?}", large.gauge);
    // A tube of the same bore and half a metre holds back more than the hole.
    let tube = Vent::Tube { bore: metres(7.6e-3), length: metres(0.5) };
    assert!(tube.pressure(&steam, sea, &mut Silent).unwrap().gauge.likely > large.gauge.likely);
}

/// Liquid lifted by boiling flashes and swells, and is good to a factor of 2 only.
#[test]
fn lifted_liquid_flashes_within_a_factor_of_two() {
    let system = example_1();
    let inside = GaugePressure::new(pascals(103e3)).to_absolute(system.ambient);
    let heat = Estimate::exact(Power::from_base(3e3));
    let at = |temperature: f64| {
        let lifted = LiftedLiquid::by_boiling(&heat, inside, celsius(temperature), celsius(50.0), &mut Silent).unwrap();
        // A litre of steam for a litre of liquid: 3 kW make 1.36 g/s at 2 bar, 1.13 kg/m³.
        assert!((lifted.flow.likely.base() / 1.2e-3 - 1.0).abs() < 0.03, "{:?}", lifted.flow.likely);
        VentLoad::cap_lift(&system.mix, &lifted, system.ambient, &mut Silent).unwrap().flow
    };
    let (still, flashing) = (at(100.0), at(120.0));
    // Below the bubble point the air leaves as fast as the liquid comes: 1.2 L/s at 1.05 kg/m³.
    assert!((still.likely.base() / 1.27e-3 - 1.0).abs() < 0.05, "{:?}", still.likely);
    assert!(flashing.likely.base() > 10.0 * still.likely.base());
    assert!((flashing.high.base() / flashing.likely.base() - 2.0).abs() < 1e-12);
    assert!((flashing.low.base() / flashing.likely.base() - 0.5).abs() < 1e-12);
}

/// An engine of aluminium takes a little more of the growth back: 0.582 L in the tank instead of 0.601 L (independent
/// computation of example 1).
#[test]
fn aluminium_gives_more_room() {
    let mut system = example_1();
    system.circuit.regions[0] =
        Region::new("engine", Estimate::exact(litres(7.5)), Material::CastAluminium, celsius(95.0));
    let inside = GaugePressure::new(pascals(103e3)).to_absolute(system.ambient);
    let expelled = system.settle_hot(inside, &mut Silent).unwrap().expelled;
    let tank = system.in_tank(expelled, celsius(50.0), &mut Silent).unwrap();
    assert!((tank.base() * 1e3 - 0.582).abs() < 5e-4, "{}", tank.base());
}

/// The margin falls by the excess and the allowance, by a cap that opens early and by suction at the pump, and it says
/// so when nothing is left.
#[test]
fn the_margin_counts_everything_against_it() {
    let system = example_1();
    let range = Cap::new(gauge(103e3)).limit(system.ambient, gauge(0.0), &mut Silent).unwrap();
    let at = |outlet: f64| {
        boiling_margin(&system.mix, &range, &HottestPassage::usual(celsius(outlet)), &mut Silent).unwrap()
    };
    let calm = at(95.0);
    // 34.35 K at the rating and the outlet; 8 K for the passage, about 3 K for a cap 14 % weak.
    let likely = calm.margin.likely.base();
    assert!((22.0..24.5).contains(&likely), "{likely}");
    assert!(calm.margin.low.base() < likely - 6.9 && calm.margin.high.base() > likely + 3.0);
    let hot = at(125.0);
    assert!(hot.margin.likely.base() < 0.0 && hot.notes.iter().any(|note| note.key == "boils"));
    let suction = defaults::pump_suction().estimate;
    let pump = pump_inlet_margin(&system.mix, range.low, &suction, celsius(95.0), &mut Silent).unwrap();
    assert!(pump.low < pump.likely && pump.likely.base() < calm.boils_at.likely.base() - 95.0 - 273.15);
}

/// Tilt, not volume alone, sets the mark: 0.35 L in a lying tank of 114 by 260 mm leaves about 1 mm over the floor at
/// mid-length at 0.5 g, so more must be kept to cover a tube by 5 mm.
#[test]
fn the_mark_comes_from_tilt() {
    let tank = Tank::new(TankShape::LyingCylinder { diameter: metres(0.114), length: metres(0.26) }).unwrap();
    let tube = DipTube { along: metres(0.0), across: metres(0.0), end: metres(0.003), length_lies: LengthLies::Along };
    let least = defaults::least_cover().likely();
    let volume = volume_for_cover(&tank, &tube, &Tilt::usual(), least, &mut Silent).unwrap();
    assert!(volume.base() > 0.4e-3, "{volume:?}");
    // Braking at 0.8 g along the tank is the hardest of the tests.
    let braking = Tilt::usual()[4];
    let Cover::Known(depth) = cover(&tank, volume, &tube, &braking, &mut Silent).unwrap() else { panic!("a cylinder") };
    assert!((depth.base() - least.base()).abs() < 1e-5);
    // Lying across the car, the same tank minds braking far less.
    let across = DipTube { length_lies: LengthLies::Across, ..tube };
    assert!(volume_for_cover(&tank, &across, &[braking], least, &mut Silent).unwrap() < 0.7 * volume);
}
