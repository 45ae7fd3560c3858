//! The coolant part: monotony, inverses, balances, and an answer or an error for any number at all.

mod any_number;

use coldmark::coolant::tilt::{Cover, DipTube, LengthLies, Tilt, cover, volume_for_cover};
use coldmark::coolant::vent::{Vent, VentGas, VentLoad, smallest_hole, smallest_tube};
use coldmark::coolant::*;
use coldmark::fluid::{Base, Basis, Mix};
use coldmark::quantity::si::*;
use coldmark::quantity::{AbsolutePressure, Estimate, GaugePressure, Measured, celsius, pascals};
use coldmark::scribe::{Silent, Writing};
use proptest::prelude::*;

fn litres(value: f64) -> Volume {
    Volume::from_base(value * 1e-3)
}

fn metres(value: f64) -> Length {
    Length::from_base(value)
}

fn gauge(value: f64) -> GaugePressure {
    GaugePressure::new(pascals(value))
}

fn absolute(value: f64) -> AbsolutePressure {
    AbsolutePressure::new(pascals(value))
}

fn number<Q: Measured>(value: f64) -> Q {
    Q::from_base(value)
}

fn exact<Q: Measured>(value: f64) -> Estimate<Q> {
    Estimate::exact(Q::from_base(value))
}

/// A system like most cars', all its figures within sense.
fn system() -> impl Strategy<Value = FilledSystem> {
    let base = prop_oneof![Just(Base::EthyleneGlycol), Just(Base::PropyleneGlycol)];
    let parts = (1.0..10.0, 1.0..8.0, 0.2..3.0);
    (base, 0.3..0.6, parts, 5.0..30.0, 75.0..98.0, 0.0..0.5, 75e3..103e3).prop_map(
        |(base, share, (engine, radiator, hoses), fill, hot, air, ambient)| {
            let part = |name: &str, volume: f64, material, hot| {
                Region::new(name, Estimate::exact(litres(volume)), material, celsius(hot))
            };
            FilledSystem {
                mix: Mix::new(base, number(share), Basis::ByVolume).unwrap(),
                circuit: Circuit::of(vec![
                    part("engine", engine, Material::GreyIron, hot),
                    part("radiator", radiator, Material::CastAluminium, hot - 9.0),
                    part("hoses", hoses, Material::Hose, hot - 5.0),
                ]),
                fill_temperature: celsius(fill),
                ambient: absolute(ambient),
                trapped_gas: Estimate::exact(litres(air)),
                gas_in: "hoses".to_owned(),
                swell: defaults::hose_swell().estimate,
            }
        },
    )
}

fn limit(system: &FilledSystem, opening: f64) -> AbsolutePressure {
    gauge(opening).to_absolute(system.ambient)
}

fn shape() -> impl Strategy<Value = TankShape> {
    let side = || (0.05..0.4).prop_map(metres);
    prop_oneof![
        (side(), side()).prop_map(|(diameter, height)| TankShape::UprightCylinder { diameter, height }),
        (side(), side()).prop_map(|(diameter, length)| TankShape::LyingCylinder { diameter, length }),
        (side(), side(), side()).prop_map(|(length, width, height)| TankShape::Box { length, width, height }),
        (side(), side(), side(), side(), side()).prop_map(
            |(bottom_length, bottom_width, top_length, top_width, height)| {
                TankShape::TaperedBox { bottom_length, bottom_width, top_length, top_width, height }
            }
        ),
        prop::collection::vec((0.001..0.05, 1e-5..1e-3), 4..12).prop_map(|steps| {
            let (mut height, mut volume) = (0.0, 0.0);
            let rows = steps.into_iter().map(|(up, more)| {
                height += up;
                volume += more;
                (metres(height), Volume::from_base(volume))
            });
            TankShape::DipTable(rows.collect())
        }),
    ]
}

proptest! {
    #[test]
    fn warming_raises_pressure_and_pushes_out_more(system in system(), opening in 40e3..150e3) {
        let curve = system.warm_up(limit(&system, opening), 12, &mut Silent).unwrap();
        for pair in curve.windows(2) {
            prop_assert!(pair[1].state.pressure.base() >= pair[0].state.pressure.base() - 1e-3);
            prop_assert!(pair[1].state.expelled.base() >= pair[0].state.expelled.base() - 1e-12);
        }
        prop_assert!((curve[0].state.gauge.base()).abs() < 1.0, "filled cold it stands at the ambient");
    }

    #[test]
    fn a_larger_system_pushes_out_more(system in system(), opening in 40e3..150e3, more in 1.01..2.0) {
        let mut larger = system.clone();
        larger.circuit.scale = exact(more);
        let limit = limit(&system, opening);
        let small = system.settle_hot(limit, &mut Silent).unwrap();
        let large = larger.settle_hot(limit, &mut Silent).unwrap();
        prop_assert!(large.expelled >= small.expelled);
        prop_assert!(large.pressure.base() >= small.pressure.base() - 1e-3);
    }

    #[test]
    fn mass_closes_and_the_working_changes_nothing(system in system(), opening in 0.0..150e3) {
        let Ok(state) = system.settle_hot(limit(&system, opening), &mut Silent) else { return Ok(()) };
        let sum = state.held.base() + state.expelled.base();
        prop_assert!((sum / state.cold_mass.base() - 1.0).abs() < 1e-8);
        prop_assert!(state.expelled.base() >= 0.0 && state.gas_volume.base() >= 0.0);
        prop_assert_eq!(state, system.settle_hot(limit(&system, opening), &mut Writing::default()).unwrap());
    }

    #[test]
    fn a_stronger_cap_holds_more(system in system(), opening in 40e3..150e3, more in 1e3..80e3) {
        let weak = system.settle_hot(limit(&system, opening), &mut Silent).unwrap();
        let strong = system.settle_hot(limit(&system, opening + more), &mut Silent).unwrap();
        prop_assert!(strong.expelled <= weak.expelled);
        prop_assert!(strong.pressure.base() >= weak.pressure.base() - 1e-3);
        let opens = |rating: f64| Cap::new(gauge(rating)).opening_range(&mut Silent).unwrap();
        prop_assert!(opens(opening + more).low > opens(opening).low && opens(opening).low < opens(opening).high);
    }

    #[test]
    fn a_sealed_tank_never_lowers_the_pressure(system in system(), opening in 40e3..150e3, air in 0.5..4.0, warm in 0.0..40.0) {
        let fill = system.fill_temperature;
        let tank = SealedTank { air: litres(air), filled_at: fill, hot: number(fill.base() + warm) };
        let vented = system.settle_hot(limit(&system, opening), &mut Silent).unwrap();
        match system.settle_sealed(gauge(opening), &tank, &mut Silent) {
            Ok(sealed) => {
                prop_assert!(sealed.system.pressure.base() >= vented.pressure.base() - 1e-3);
                prop_assert!(sealed.system.expelled.base() <= vented.expelled.base() + 1e-12);
                prop_assert!(sealed.tank.with_vapour.base() >= -1e-6);
                if sealed.system.cap_open {
                    let sum = opening + sealed.tank.with_vapour.base();
                    prop_assert!((sealed.system.gauge.base() - sum).abs() < 1e-3 * sum);
                }
            }
            Err(CoolantError::SealedTankOverfull { .. }) => prop_assert!(vented.expelled.base() > 0.0),
            Err(error) => prop_assert!(false, "{error}"),
        }
    }

    #[test]
    fn a_cycle_loses_nothing_unseen(system in system(), opening in 40e3..150e3, lift in -0.3..0.5, kind in 0..6) {
        let lid = Lid::Vented(gauge(0.0));
        let tank_temperature = celsius(50.0);
        let recovery = |reach| Arrangement::RecoveryTank {
            lid,
            tank_temperature,
            line: ReturnLine { reach, ..ReturnLine::covered(metres(lift)) },
        };
        let arrangement = match kind {
            0 => recovery(TubeReach::Covered),
            1 => recovery(TubeReach::Short(litres(0.1))),
            2 => recovery(TubeReach::Uncovered),
            3 => Arrangement::CatchOnly { lid, tank_temperature },
            4 => Arrangement::PressurisedHeaderTank { cap: CapSits::InLiquid },
            _ => Arrangement::PressurisedHeaderTank { cap: CapSits::InGas },
        };
        let cycle = arrangement.cycle(&system, &Cap::new(gauge(opening)), 3, &mut Silent).unwrap();
        let (out, back, lost) = (cycle.expelled_cold.base(), cycle.returned_cold.base(), cycle.lost_cold.base());
        prop_assert!(back >= 0.0 && back <= out + 1e-12, "{back} of {out}");
        prop_assert!((back + lost - out).abs() < 1e-12);
        // What is missing from the cold system is gas.
        let gas = system.trapped_gas.likely.base() + lost;
        prop_assert!((cycle.gas_cold.base() - gas).abs() < 1e-9, "{} {gas}", cycle.gas_cold.base());
        prop_assert!(cycle.cold_pressure.base() <= system.ambient.base() + 1.0);
        // Air carried over yields, unless the cap is so weak that vapour makes it grow instead.
        if opening > 100e3 {
            prop_assert!(cycle.second_expelled_cold.base() <= out + 1e-12);
        }
        prop_assert!(cycle.hot_pressure.low.base() <= cycle.hot_pressure.high.base());
        if cycle.recovers && out > 0.0 {
            prop_assert!(cycle.outcome == Outcome::Returns);
        }
        if matches!(arrangement, Arrangement::CatchOnly { .. }) {
            prop_assert!(!cycle.recovers && back == 0.0);
        }
    }

    #[test]
    fn the_range_holds_the_likely_volume(system in system(), opening in 40e3..150e3) {
        let range = Cap::new(gauge(opening)).limit(system.ambient, gauge(0.0), &mut Silent).unwrap();
        let growth = system.growth(&range, &Doubt::usual(&system.mix), &mut Silent).unwrap();
        prop_assert!(growth.volume.low <= growth.volume.likely && growth.volume.likely <= growth.volume.high);
        for part in &growth.contributions {
            prop_assert!(part.low.base() <= 0.0 && part.high.base() >= 0.0, "{}", part.name);
        }
    }

    #[test]
    fn level_and_volume_are_inverse(shape in shape(), share in 0.0_f64..=1.0) {
        let tank = Tank::new(shape).unwrap();
        let (low, high) = (tank.lowest_volume().base(), tank.capacity().base());
        let volume = Volume::from_base((low + share * (high - low)).clamp(low, high));
        let level = tank.height_at(volume, &mut Silent).unwrap();
        let back = tank.volume_at(level, &mut Silent).unwrap();
        prop_assert!((back.base() - volume.base()).abs() < 1e-9, "{} {}", back.base(), volume.base());
        let past = Volume::from_base(high * 1.001);
        prop_assert!(tank.height_at(past, &mut Silent).is_err());
    }

    #[test]
    fn more_liquid_covers_the_tube_deeper(shape in shape(), forward in -8.0..8.0, right in -8.0..8.0, share in 0.05..0.9) {
        let tank = Tank::new(shape).unwrap();
        let tube = DipTube { along: metres(0.0), across: metres(0.0), end: metres(0.01), length_lies: LengthLies::Across };
        let tilt = Tilt { forward: number(forward), right: number(right), grade: number(0.05) };
        let (low, high) = (tank.lowest_volume().base(), tank.capacity().base());
        let at = |share: f64| cover(&tank, Volume::from_base(low + share * (high - low)), &tube, &tilt, &mut Silent).unwrap();
        match (at(share), at(share + 0.05)) {
            (Cover::Known(less), Cover::Known(more)) => {
                prop_assert!(more.base() >= less.base() - 1e-6);
                if let Ok(least) = volume_for_cover(&tank, &tube, &[tilt], metres(0.005), &mut Silent) {
                    let Cover::Known(depth) = cover(&tank, least, &tube, &tilt, &mut Silent).unwrap() else { panic!() };
                    prop_assert!(depth.base() >= 0.005 - 1e-5, "{}", depth.base());
                }
            }
            (Cover::NotKnown(_), Cover::NotKnown(_)) => prop_assert!(matches!(tank.shape(), TankShape::DipTable(_))),
            other => prop_assert!(false, "{other:?}"),
        }
    }

    #[test]
    fn the_smallest_vent_is_just_enough(grams in 0.01..15.0, limit in 100.0..200e3, steam in any::<bool>(), length in 0.0..2.0) {
        let gas = if steam { VentGas::Steam } else { VentGas::Air(celsius(40.0)) };
        let load = VentLoad { gas, flow: exact(grams * 1e-3) };
        let sea = absolute(101_325.0);
        let hole = smallest_hole(&load, gauge(limit), &exact(0.6), sea, &mut Silent).unwrap().likely;
        if (0.1e-3..0.1).contains(&hole.base()) {
            let back = Vent::Hole { diameter: hole, discharge: exact(0.6) }.pressure(&load, sea, &mut Silent).unwrap();
            prop_assert!((back.gauge.likely.base() / limit - 1.0).abs() < 1e-3, "{}", back.gauge.likely.base());
        }
        if let Ok(bore) = smallest_tube(&load, metres(length), gauge(limit), sea, &mut Silent) {
            let tube = Vent::Tube { bore, length: metres(length) };
            let back = tube.pressure(&load, sea, &mut Silent).unwrap().gauge.likely.base();
            prop_assert!(back <= limit * 1.01, "{back} {limit}");
            let longer = Vent::Tube { bore, length: metres(length + 0.5) };
            prop_assert!(longer.pressure(&load, sea, &mut Silent).unwrap().gauge.likely.base() >= back);
        }
    }
}

#[test]
fn a_measured_fill_divides_and_says_its_doubt() {
    let hot = HotTemperatures::from_engine(celsius(95.0));
    let volume = SystemVolume::Measured {
        total: Estimate::new(litres(14.0), litres(15.0), litres(16.0)).unwrap(),
        shares: Shares::default(),
        engine: Material::GreyIron,
        radiator: Material::CastAluminium,
    };
    let circuit = volume.circuit(&hot, &mut Silent).unwrap();
    assert!((circuit.total().base() - 0.015).abs() < 1e-12);
    assert!((circuit.regions[0].volume.likely.base() - 0.0075).abs() < 1e-12);
    let doubt = circuit.share_doubt.as_ref().unwrap();
    assert!((doubt.by.base() - 0.1).abs() < 1e-12);
    let system = FilledSystem {
        mix: Mix::new(Base::EthyleneGlycol, number(0.5), Basis::ByVolume).unwrap(),
        gas_in: circuit.regions[2].name.clone(),
        circuit,
        fill_temperature: celsius(15.0),
        ambient: absolute(97_773.0),
        trapped_gas: defaults::trapped_air().estimate,
        swell: defaults::hose_swell().estimate,
    };
    let at_cap = Cap::new(gauge(103e3)).limit(system.ambient, gauge(0.0), &mut Silent).unwrap();
    let growth = system.growth(&at_cap, &Doubt::usual(&system.mix), &mut Silent).unwrap();
    let moved = |name: &str| growth.contributions.iter().find(|c| c.name == name).unwrap();
    assert!(moved("shares of the fill").high.base() > 1e-6);
    // A fifteenth more coolant grows a fifteenth more, the trapped air's yielding aside.
    let more = moved("volume of the system").high.base() / growth.volume.likely.base();
    assert!((0.06..0.08).contains(&more), "{more}");
}

#[test]
fn a_wrong_input_is_named() {
    let message =
        Tank::new(TankShape::UprightCylinder { diameter: metres(3.0), height: metres(0.2) }).unwrap_err().to_string();
    assert!(message.contains("side of the tank is 3000 mm") && message.contains("10 mm to 2000 mm"), "{message}");
    let rows = vec![
        (metres(0.01), litres(0.1)),
        (metres(0.02), litres(0.3)),
        (metres(0.03), litres(0.2)),
        (metres(0.04), litres(0.4)),
    ];
    let message = Tank::new(TankShape::DipTable(rows)).unwrap_err().to_string();
    assert!(message.contains("row 3"), "{message}");
    let shares = Shares { engine: exact(0.7), ..Shares::default() };
    let (engine, radiator) = (Material::GreyIron, Material::Brass);
    let volume = SystemVolume::Measured { total: exact(0.015), shares, engine, radiator };
    let message = volume.circuit(&HotTemperatures::from_engine(celsius(95.0)), &mut Silent).unwrap_err().to_string();
    assert!(message.contains("120 %"), "{message}");
}

#[test]
fn a_cushion_keeps_its_promise() {
    let header = Region::new("header tank", exact(1.8e-3), Material::Hose, celsius(98.0));
    let parts = vec![
        Region::new("engine", exact(2.6e-3), Material::CastAluminium, celsius(104.0)),
        Region::new("radiator", exact(2.0e-3), Material::CastAluminium, celsius(95.0)),
        header,
    ];
    let mut system = FilledSystem {
        mix: Mix::new(Base::EthyleneGlycol, number(0.4), Basis::ByVolume).unwrap(),
        circuit: Circuit::of(parts),
        fill_temperature: celsius(20.0),
        ambient: absolute(81_494.0),
        trapped_gas: exact(0.1e-3),
        gas_in: "header tank".to_owned(),
        swell: defaults::hose_swell().estimate,
    };
    let cushion = system.smallest_cushion(gauge(140e3), number(0.85), &mut Silent).unwrap();
    system.trapped_gas = Estimate::exact(cushion);
    let hot = system.settle_hot(absolute(81_494.0 + 140e3), &mut Silent).unwrap();
    assert!((hot.gauge.base() - 0.85 * 140e3).abs() < 10.0, "{}", hot.gauge.base());
    assert!(!hot.cap_open);
    // Too small a cushion under a cap that sits in gas loses air and keeps its coolant; the next hot pressure is lower.
    system.trapped_gas = exact(0.6 * cushion.base());
    let cap = Cap::new(gauge(140e3));
    let gas = Arrangement::PressurisedHeaderTank { cap: CapSits::InGas };
    let cycle = gas.cycle(&system, &cap, 2, &mut Silent).unwrap();
    assert_eq!((cycle.outcome, cycle.hot.expelled.base()), (Outcome::AirLost, 0.0));
    assert!(cycle.cold_pressure.base() < 81_494.0 && cycle.second.pressure <= cycle.hot.pressure);
    let liquid = Arrangement::PressurisedHeaderTank { cap: CapSits::InLiquid };
    let cycle = liquid.cycle(&system, &cap, 2, &mut Silent).unwrap();
    assert_eq!(cycle.outcome, Outcome::Lost);
    assert!(cycle.lost_cold.base() > 0.0 && cycle.cold_pressure.base() < 81_494.0);
}
