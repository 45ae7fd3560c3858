//! What a network comes to at its limits: ways out that close, valves that stick, nothing that blows by, boost.

use super::{AMBIENT, absolute, shaped, usual_line, usual_valve};
use coldmark::crankcase::arrangement::{Boundary, Stuck, Valve, Ventilation, VentilationError, capacity, solve};
use coldmark::crankcase::element::{
    CheckValve, FixedOrificeValve, Gas, GenericPlunger, Orifice, PlungerValve, SpringPlunger, TableValve,
};
use coldmark::crankcase::network::{Network, NetworkError, Stability};
use coldmark::quantity::si::{Area, Length, MassRate};
use coldmark::quantity::{Measured, celsius, pascals};
use coldmark::scribe::Silent;

#[test]
fn a_blocked_breather_without_a_valve_is_refused_in_words() {
    let mut ventilation = Ventilation::breather_only(usual_line());
    ventilation.breather = None;
    let at = Boundary::at(MassRate::from_base(1e-3), absolute(98e3));
    let error = solve(&ventilation, &at, &mut Silent).unwrap_err();
    assert!(matches!(error, VentilationError::Network(NetworkError::NoExit { .. })));
    assert!(error.to_string().contains("never run an engine with every way out shut"), "{error}");
}

#[test]
fn a_baffle_shut_tight_is_beyond_reach() {
    let mut ventilation = Ventilation::breather_only(usual_line());
    ventilation.baffle_area = Area::from_base(0.0);
    let at = Boundary::at(MassRate::from_base(1e-3), absolute(98e3));
    let error = solve(&ventilation, &at, &mut Silent).unwrap_err();
    assert!(matches!(error, VentilationError::Network(NetworkError::BeyondReach { .. })), "{error}");
}

#[test]
fn a_valve_stuck_shut_leaves_the_breather_alone() {
    let with = |stuck, manifold: f64| {
        let mut ventilation = Ventilation::breather_with_valve(usual_line(), usual_valve());
        ventilation.valve_stuck = stuck;
        let at = Boundary::at(MassRate::from_base(0.5e-3), absolute(manifold));
        solve(&ventilation, &at, &mut Silent).unwrap()
    };
    let shut = with(Some(Stuck::Shut), 35e3);
    assert!(shut.flows.valve.unwrap().base() < 1e-7);
    let alone = Ventilation::breather_only(usual_line());
    let at = Boundary::at(MassRate::from_base(0.5e-3), absolute(35e3));
    let alone = solve(&alone, &at, &mut Silent).unwrap();
    assert!((shut.crankcase_gauge.base() - alone.crankcase_gauge.base()).abs() < 0.1);
    // Stuck open at idle it draws nearly four times as much, in the ratio of the two openings.
    let ratio =
        with(Some(Stuck::Open), 35e3).flows.valve.unwrap().base() / with(None, 35e3).flows.valve.unwrap().base();
    assert!((ratio - 8.0 / 2.2).abs() < 0.05, "{ratio}");
}

#[test]
fn without_blow_by_a_lone_breather_is_at_rest() {
    let ventilation = Ventilation::breather_only(usual_line());
    let at = Boundary::at(MassRate::from_base(0.0), absolute(98e3));
    let outcome = solve(&ventilation, &at, &mut Silent).unwrap();
    assert_eq!(outcome.crankcase_gauge.base(), 0.0);
    assert_eq!(outcome.flows.breather.unwrap().base(), 0.0);
}

#[test]
fn without_blow_by_the_valve_draws_fresh_air_alone() {
    let ventilation = Ventilation::breather_with_valve(usual_line(), usual_valve());
    let at = Boundary::at(MassRate::from_base(0.0), absolute(35e3));
    let outcome = solve(&ventilation, &at, &mut Silent).unwrap();
    let (valve, breather) = (outcome.flows.valve.unwrap().base(), outcome.flows.breather.unwrap().base());
    assert!(valve > 0.4e-3 && (valve + breather).abs() < 1e-9);
    assert!(capacity(&ventilation, &at, &mut Silent).unwrap().margin.is_none());
}

#[test]
fn boost_shuts_the_valve_and_negative_blow_by_turns_the_breather() {
    let ventilation = Ventilation::breather_with_valve(usual_line(), usual_valve());
    let at = Boundary::at(MassRate::from_base(1e-3), absolute(150e3));
    let outcome = solve(&ventilation, &at, &mut Silent).unwrap();
    assert!(outcome.flows.valve.unwrap().base().abs() < 1e-7);
    assert!(outcome.notes.iter().any(|note| note.key == "boosted-manifold"));
    let at = Boundary::at(MassRate::from_base(-0.06e-3), absolute(101e3));
    let outcome = solve(&ventilation, &at, &mut Silent).unwrap();
    assert!(outcome.flows.breather.unwrap().base() < 0.0 && outcome.crankcase_gauge.base() < 0.0);
}

#[test]
fn a_very_small_breather_may_leave_several_equilibria() {
    // A hole of 0.6 mm beside the valve is nearly no way out: the sealed crankcase's three equilibria remain.
    let mut line = usual_line();
    line.barb_bore = Some(Length::from_base(0.6e-3));
    let ventilation = Ventilation::breather_with_valve(line, usual_valve());
    let at = Boundary::at(MassRate::from_base(0.55e-3), absolute(35e3));
    let outcome = solve(&ventilation, &at, &mut Silent).unwrap();
    assert_eq!(outcome.all.len(), 3, "{:?}", outcome.all);
    assert!(!outcome.sealed);
    // The one answered is among them.
    let nearest = outcome.all.iter().map(|(gauge, _)| (gauge.base() - outcome.crankcase_gauge.base()).abs());
    assert!(nearest.fold(f64::INFINITY, f64::min) < 1.0);
}

#[test]
fn networks_refuse_what_makes_no_sense() {
    let warm = celsius(20.0);
    let mut network = Network::new(absolute(AMBIENT), Gas::default()).unwrap();
    let node = network.free("a", warm, MassRate::from_base(1e-3)).unwrap();
    assert!(matches!(network.solve(&mut Silent), Err(NetworkError::NoExit { .. })));
    let hole = Orifice { effective_area: Area::from_base(1e-5) };
    assert!(matches!(network.join(node, node, hole), Err(NetworkError::SameNode { .. })));
    assert!(network.free("b", warm, MassRate::from_base(f64::NAN)).is_err());
    assert!(network.fixed("c", absolute(-1.0), warm).is_err());
    assert!(matches!(network.all_solutions(&mut Silent), Err(NetworkError::NotOneValve { count: 0 })));
    for i in 0..15 {
        network.free(format!("more {i}"), warm, MassRate::from_base(0.0)).unwrap();
    }
    assert!(matches!(network.free("d", warm, MassRate::from_base(0.0)), Err(NetworkError::TooManyNodes)));
    // A closed check valve as the only way out for gas drawn away.
    let mut network = Network::new(absolute(AMBIENT), Gas::default()).unwrap();
    let inside = network.free("inside", warm, MassRate::from_base(-1e-3)).unwrap();
    let air = network.fixed("air", absolute(AMBIENT), warm).unwrap();
    network.join(inside, air, CheckValve::of_area(Area::from_base(1e-5))).unwrap();
    assert!(matches!(network.solve(&mut Silent), Err(NetworkError::DrawnEmpty { .. })));
}

/// A hole that shrinks: the crankcase comes ever nearer the sealed one.
#[test]
fn a_breather_that_closes_approaches_the_sealed_crankcase() {
    let with_hole = |area: Option<f64>| {
        let mut network = Network::new(absolute(AMBIENT), Gas::default()).unwrap();
        let inside = network.free("inside", celsius(90.0), MassRate::from_base(0.12e-3)).unwrap();
        let manifold = network.fixed("manifold", absolute(35e3), celsius(50.0)).unwrap();
        network.join(inside, manifold, PlungerValve::generic(GenericPlunger::Medium)).unwrap();
        if let Some(area) = area {
            let air = network.fixed("air", absolute(AMBIENT), celsius(20.0)).unwrap();
            network.join(inside, air, Orifice { effective_area: Area::from_base(area) }).unwrap();
        }
        let all = network.all_solutions(&mut Silent).unwrap();
        assert!(all.iter().all(|one| one.stability == Stability::Stable) && all.len() == 1, "{}", all.len());
        let found = network.solve(&mut Silent).unwrap();
        assert_eq!(found.sealed, area.is_none());
        let [one, other] = [&found, &all[0].solution].map(|one| one.pressure(inside).unwrap().base());
        assert!((one - other).abs() < 0.1, "{one} {other}");
        found.pressure(inside).unwrap().base()
    };
    let sealed = with_hole(None);
    let gaps: Vec<f64> =
        [1e-7, 1e-8, 1e-9, 1e-10, 1e-12].into_iter().map(|area| with_hole(Some(area)) - sealed).collect();
    assert!(gaps.windows(2).all(|pair| pair[1] < pair[0] && pair[1] > -0.01), "{gaps:?}");
    assert!(gaps[0] > 10.0 && gaps.last().unwrap().abs() < 0.1, "{gaps:?}");
}

/// Without a valve the pressure behind a choked hole is `ṁ √(R T)/(A Ψ*)`, until it is beyond anything a crankcase holds.
#[test]
fn a_hole_that_closes_raises_the_pressure_without_end() {
    let pressure = |area: f64| {
        let mut network = Network::new(absolute(AMBIENT), Gas::default()).unwrap();
        let inside = network.free("inside", celsius(90.0), MassRate::from_base(1e-3)).unwrap();
        let air = network.fixed("air", absolute(AMBIENT), celsius(20.0)).unwrap();
        network.join(inside, air, Orifice { effective_area: Area::from_base(area) }).unwrap();
        network.solve(&mut Silent).map(|found| found.pressure(inside).unwrap().base())
    };
    let choked = (1.4 * (2.0_f64 / 2.4).powf(2.4 / 0.4)).sqrt();
    for area in [2e-6, 1e-6, 5e-7] {
        let expected = 1e-3 * (287.05 * 363.15_f64).sqrt() / (area * choked);
        let found = pressure(area).unwrap();
        assert!((found / expected - 1.0).abs() < 1e-9, "{found} {expected}");
    }
    for area in [1e-8, 1e-12, 0.0] {
        assert!(matches!(pressure(area), Err(NetworkError::BeyondReach { .. })), "{area}");
    }
}

/// A choked hole lets in what it lets in, however deep it gets behind it: what is drawn beyond that is refused, and by
/// hardly more than that.
#[test]
fn no_more_is_drawn_in_than_a_choked_hole_passes() {
    let choked = (1.4 * (2.0_f64 / 2.4).powf(2.4 / 0.4)).sqrt();
    let most = 1e-6 * AMBIENT * choked / (287.05 * 293.15_f64).sqrt();
    for (share, solved) in [(0.5, true), (0.99, true), (1.001, false), (1.1, false), (3.0, false)] {
        let mut network = Network::new(absolute(AMBIENT), Gas::default()).unwrap();
        let air = network.fixed("air", absolute(AMBIENT), celsius(20.0)).unwrap();
        let line = network.free("line", celsius(20.0), MassRate::from_base(0.0)).unwrap();
        let inside = network.free("inside", celsius(90.0), MassRate::from_base(-share * most)).unwrap();
        network.join(air, line, Orifice { effective_area: Area::from_base(1e-6) }).unwrap();
        network.join(inside, line, Orifice { effective_area: Area::from_base(60e-6) }).unwrap();
        match network.solve(&mut Silent) {
            Ok(found) => assert!(solved && found.gauge(inside).unwrap().base() < 0.0, "{share}"),
            Err(error) => {
                assert!(!solved && matches!(error, NetworkError::DrawnEmpty { .. }), "{share} {error:?}");
                assert!(error.to_string().starts_with("more gas is drawn out of "), "{error}");
            }
        }
    }
}

#[test]
fn a_stuck_valve_is_the_hole_it_is_stuck_at() {
    let plunger = PlungerValve::generic(GenericPlunger::Medium);
    for (stuck, area) in [(Stuck::Open, plunger.open_area), (Stuck::Shut, plunger.backfire_area)] {
        let mut ventilation = Ventilation::breather_with_valve(usual_line(), usual_valve());
        ventilation.valve_stuck = Some(stuck);
        let at = Boundary::at(MassRate::from_base(0.5e-3), absolute(35e3));
        let found = solve(&ventilation, &at, &mut Silent).unwrap();
        ventilation.valve_stuck = None;
        let hole = CheckValve { effective_area: area, opening_pressure: pascals(0.0), seat_leak: Area::from_base(0.0) };
        ventilation.valve = Some(Valve::Check(hole));
        let expected = solve(&ventilation, &at, &mut Silent).unwrap();
        let gap = found.crankcase_gauge.base() - expected.crankcase_gauge.base();
        assert!(gap.abs() < 0.05, "{stuck:?}: {:?} {:?}", found.crankcase_gauge, expected.crankcase_gauge);
        let flow = |outcome: &coldmark::crankcase::arrangement::Outcome| outcome.flows.valve.unwrap().base();
        assert!((flow(&found) - flow(&expected)).abs() < 1e-8, "{stuck:?}");
    }
}

/// Every kind of valve that has a check, at the sizes of a two-litre engine.
fn valves() -> Vec<Valve> {
    let points = [(5e3, 0.8e-3), (20e3, 1.3e-3), (90e3, 0.5e-3)].map(|(d, m)| (pascals(d), MassRate::from_base(m)));
    let table = TableValve::new(&points, absolute(AMBIENT), celsius(20.0)).unwrap();
    vec![
        usual_valve(),
        Valve::Table(table),
        Valve::FixedOrifice(FixedOrificeValve::default()),
        Valve::Check(CheckValve::of_area(Area::from_base(4e-6))),
        Valve::SpringPlunger(SpringPlunger::default()),
    ]
}

#[test]
fn with_everything_at_rest_nothing_flows() {
    for valve in valves() {
        for shape in 0..8 {
            let ventilation = shaped(usual_line(), valve.clone(), shape);
            let at = Boundary::at(MassRate::from_base(0.0), absolute(AMBIENT));
            let outcome = solve(&ventilation, &at, &mut Silent).unwrap();
            assert!(outcome.crankcase_gauge.base().abs() < 1e-6, "{shape} {:?}", outcome.crankcase_gauge);
            for loss in &outcome.losses {
                assert!(loss.flow.base().abs() < 1e-12, "{shape} {loss:?}");
            }
        }
    }
}

/// A manifold above the air pushes back no more than the seat's leak, and the crankcase feels the breather alone.
#[test]
fn boost_comes_back_through_no_valve_but_its_leak() {
    let leak: f64 = valves()
        .iter()
        .map(|valve| match valve {
            Valve::Plunger(valve) => valve.backfire_area.base(),
            Valve::SpringPlunger(valve) => valve.backfire_area.base(),
            Valve::Sonic(_) => unreachable!("a component after ISO 6358 has no check"),
            Valve::Check(valve) => valve.seat_leak.base(),
            Valve::FixedOrifice(valve) => valve.seat_leak.base(),
            Valve::Table(_) => coldmark::crankcase::element::seat_leak().likely().base(),
        })
        .fold(0.0, f64::max);
    let choked = (1.4 * (2.0_f64 / 2.4).powf(2.4 / 0.4)).sqrt();
    for boost in [1e3, 20e3, 100e3, 200e3] {
        let manifold = AMBIENT + boost;
        let most = leak * manifold * choked / (287.05 * 293.15_f64).sqrt();
        for valve in valves() {
            for shape in [1, 2, 4, 5, 6, 7] {
                let at = Boundary::at(MassRate::from_base(0.8e-3), absolute(manifold));
                let outcome = solve(&shaped(usual_line(), valve.clone(), shape), &at, &mut Silent).unwrap();
                let back = -outcome.flows.valve.unwrap().base();
                let out = outcome.flows.breather.or(outcome.flows.fresh_air).unwrap().base();
                // A can open to the air in the valve's line is another way out.
                let vent = outcome.flows.can_vent.map_or(0.0, Measured::base);
                assert!((-1e-9..=most).contains(&back), "{shape} {valve:?} {back}");
                assert!((out + vent - 0.8e-3 - back).abs() < 2e-9, "{shape} {out} {vent} {back}");
            }
        }
    }
}
