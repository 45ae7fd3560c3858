//! Flow elements, networks and arrangements: what must hold for every one of them.

use coldmark::crankcase::arrangement::{
    Boundary, BreatherLine, CanPlace, CatchCan, PressureBands, PressureState, Stuck, Valve, Ventilation,
    VentilationError, Venting, capacity, largest_blow_by, solve,
};
use coldmark::crankcase::element::{
    BreatherElement, CheckValve, Element, End, Fittings, FixedOrificeValve, Gas, GenericPlunger, Hose, Orifice,
    PlungerValve, Sag, SonicPort, TableValve,
};
use coldmark::crankcase::network::{Network, NetworkError, NodeId};
use coldmark::quantity::si::{Area, Length, MassRate, Ratio, ThermodynamicTemperature};
use coldmark::quantity::{
    AbsolutePressure, GaugePressure, LinearResistance, Measured, QuadraticResistance, SonicConductance, celsius,
    pascals,
};
use coldmark::scribe::Silent;
use proptest::prelude::*;

const AMBIENT: f64 = 101_325.0;

fn absolute(pressure: f64) -> AbsolutePressure {
    AbsolutePressure::new(pascals(pressure))
}

fn end(pressure: f64, temperature: f64) -> End {
    End { pressure: absolute(pressure), temperature: ThermodynamicTemperature::from_base(temperature) }
}

fn flow(element: &Element, first: f64, second: f64, warm: (f64, f64)) -> f64 {
    element.flow(end(first, warm.0), end(second, warm.1), Gas::default(), &mut Silent).unwrap().base()
}

fn symmetric() -> impl Strategy<Value = Element> {
    let orifice = (0.1..200.0).prop_map(|area| Orifice { effective_area: Area::from_base(area * 1e-6) }.into());
    let port = (0.5..50.0, 0.1..0.6).prop_map(|(conductance, critical)| {
        SonicPort {
            conductance: SonicConductance::from_base(conductance * 1e-8),
            critical_ratio: Ratio::from_base(critical),
        }
        .into()
    });
    let hose = (3.0..30.0, prop_oneof![Just(0.0), 0.05..3.0], 0.5..10.0, 0.0..100e-6).prop_map(
        |(bore, length, losses, roughness)| {
            Hose {
                bore: Length::from_base(bore * 1e-3),
                length: Length::from_base(length),
                fittings: Fittings::of_sum(Ratio::from_base(losses)),
                roughness: Length::from_base(roughness),
            }
            .into()
        },
    );
    let breather = (prop_oneof![Just(0.0), 1e4..1e7], 1e7..1e10).prop_map(|(viscous, inertial)| {
        BreatherElement {
            viscous: LinearResistance::from_base(viscous),
            inertial: QuadraticResistance::from_base(inertial),
        }
        .into()
    });
    let sag = (0.0..3e3, 5.0..30.0)
        .prop_map(|(head, bore)| Sag::in_hose(pascals(head), Length::from_base(bore * 1e-3)).into());
    prop_oneof![3 => orifice, 3 => port, 3 => hose, 3 => breather, 1 => sag]
}

fn compliant() -> impl Strategy<Value = Element> {
    let check = (1.0..50.0, 0.0..1e3).prop_map(|(area, opening)| {
        let valve = CheckValve::of_area(Area::from_base(area * 1e-6));
        CheckValve { opening_pressure: pascals(opening), ..valve }.into()
    });
    let fixed = (1.0..4.0)
        .prop_map(|bore| FixedOrificeValve { bore: Length::from_base(bore * 1e-3), ..Default::default() }.into());
    let inwards = (1.0..50.0).prop_map(|area| Element::CheckInwards(CheckValve::of_area(Area::from_base(area * 1e-6))));
    prop_oneof![4 => symmetric(), 1 => check, 1 => fixed, 1 => inwards]
}

/// A random connected network of compliant elements: some nodes fixed, blow-by into some of the others, and elements
/// beyond those that connect it.
#[derive(Debug, Clone)]
struct Topology {
    fixed: Vec<f64>,
    injected: Vec<f64>,
    temperatures: Vec<f64>,
    tree: Vec<(usize, bool, Element)>,
    extra: Vec<(usize, usize, Element)>,
}

fn topology() -> impl Strategy<Value = Topology> {
    (1_usize..4, 1_usize..10).prop_flat_map(|(fixed, free)| {
        let all = fixed + free;
        (
            prop::collection::vec(30e3..105e3, fixed),
            prop::collection::vec(prop_oneof![2 => Just(0.0), 1 => 0.0..3e-3], free),
            prop::collection::vec(250.0..400.0, all),
            prop::collection::vec((0_usize..100, any::<bool>(), symmetric()), free),
            prop::collection::vec((0..all, 0..all, compliant()), 0..6),
        )
            .prop_map(|(fixed, injected, temperatures, tree, extra)| Topology {
                fixed,
                injected,
                temperatures,
                tree,
                extra,
            })
    })
}

impl Topology {
    fn build(&self) -> (Network, Vec<NodeId>) {
        let mut network = Network::new(absolute(AMBIENT), Gas::default()).unwrap();
        let warm = |i: usize| ThermodynamicTemperature::from_base(self.temperatures[i]);
        let mut nodes: Vec<NodeId> = Vec::new();
        for (i, pressure) in self.fixed.iter().enumerate() {
            nodes.push(network.fixed(format!("fixed {i}"), absolute(*pressure), warm(i)).unwrap());
        }
        for (i, (injected, (other, turned, element))) in self.injected.iter().zip(&self.tree).enumerate() {
            let here = self.fixed.len() + i;
            let node = network.free(format!("free {i}"), warm(here), MassRate::from_base(*injected)).unwrap();
            let other = nodes[other % nodes.len()];
            let (from, to) = if *turned { (other, node) } else { (node, other) };
            network.join(from, to, element.clone()).unwrap();
            nodes.push(node);
        }
        for (from, to, element) in self.extra.iter().filter(|(from, to, _)| from != to) {
            network.join(nodes[*from], nodes[*to], element.clone()).unwrap();
        }
        (network, nodes)
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(400))]

    /// Mirrored ends give the mirrored flow, to the last bit.
    #[test]
    fn symmetric_elements_are_mirrored(
        element in symmetric(),
        pressures in (20e3..200e3, 20e3..200e3),
        warm in (250.0..450.0, 250.0..450.0),
    ) {
        prop_assert!(element.is_symmetric());
        let there = flow(&element, pressures.0, pressures.1, warm);
        let back = flow(&element, pressures.1, pressures.0, (warm.1, warm.0));
        prop_assert_eq!(there, -back);
    }

    /// Flow rises with the first pressure, never rises with the second, has the sign of the difference and is zero at
    /// none.
    #[test]
    fn compliant_elements_comply(
        element in compliant(),
        pressures in (20e3..200e3, 20e3..200e3),
        near in prop_oneof![Just(0.0), -1.0..1.0, -1e3..1e3, -1e5..1e5],
        more in 1e-3..1e4,
        warm in 250.0..450.0,
    ) {
        let (first, second): (f64, f64) = (pressures.0, f64::max(pressures.0 + near, 1e3).min(pressures.1 + 2e5));
        let warm = (warm, warm);
        let here = flow(&element, first, second, warm);
        prop_assert!(here * (first - second) >= 0.0);
        // Against rounding, and what the search for a hose's flow leaves.
        let slack = 1e-7 * here.abs() + 1e-16;
        prop_assert!(flow(&element, first + more, second, warm) >= here - slack);
        prop_assert!(flow(&element, first, second + more, warm) <= here + slack);
        prop_assert_eq!(flow(&element, first, first, warm), 0.0);
    }

    /// No jump anywhere: a small change of pressure makes a small change of flow.
    #[test]
    fn elements_have_no_jumps(element in compliant(), first in 20e3..200e3, gap in -2e3..2e3, warm in (300.0..400.0)) {
        let second = f64::max(first - gap, 1e3);
        let warm = (warm, warm);
        let here = flow(&element, first, second, warm);
        let beside = flow(&element, first + 1e-4, second, warm);
        let far = flow(&element, first + 0.2, second, warm).abs() + flow(&element, first - 0.2, second, warm).abs();
        prop_assert!((beside - here).abs() <= 0.02 * far + 1e-12, "{here} {beside} {far}");
    }

    /// Everything injected leaves, at every node and over all, on any topology; and the answer does not depend on
    /// where the search begins.
    #[test]
    fn random_networks_conserve_mass_and_have_one_answer(
        topology in topology(),
        starts in prop::collection::vec(20e3..180e3, 24),
    ) {
        let (network, nodes) = topology.build();
        let solution = network.solve(&mut Silent).unwrap();
        prop_assert!(solution.residual.base() <= 2e-9, "{:?}", solution.residual);
        prop_assert!(solution.conservation.base().abs() <= 2e-8);
        let mut off: Vec<f64> = topology.fixed.iter().map(|_| 0.0).chain(topology.injected.iter().copied()).collect();
        for flow in &solution.flows {
            off[flow.from.index()] -= flow.flow.base();
            off[flow.to.index()] += flow.flow.base();
            prop_assert!(flow.flow.base() * flow.drop.base() >= 0.0);
        }
        for off in &off[topology.fixed.len()..] {
            prop_assert!(off.abs() <= 2e-9);
        }
        let start: Vec<_> = starts.iter().take(nodes.len()).map(|p| absolute(*p)).collect();
        let again = network.solve_from(&start, &mut Silent).unwrap();
        for (i, (one, other)) in solution.pressures.iter().zip(&again.pressures).enumerate() {
            let gap = (one.base() - other.base()).abs();
            // A node behind closed checks hangs by their leak, where the stop criterion allows more.
            let hangs = topology.extra.iter().any(|(_, _, element)| matches!(element, Element::Check(_)));
            prop_assert!(gap < if hangs { 1.0 } else { 0.2 }, "node {i}: {one:?} {other:?}");
        }
    }

    /// No pressure lies outside the given ones unless something is injected.
    #[test]
    fn without_blow_by_pressures_lie_between_the_given_ones(mut topology in topology()) {
        topology.injected.fill(0.0);
        let (network, _) = topology.build();
        let solution = network.solve(&mut Silent).unwrap();
        let low = topology.fixed.iter().copied().fold(f64::INFINITY, f64::min);
        let high = topology.fixed.iter().copied().fold(0.0, f64::max);
        for pressure in solution.pressures {
            prop_assert!(pressure.base() > low - 1.0 && pressure.base() < high + 1.0);
        }
    }

    /// Any number whatever in: a flow or an error out, never a panic and never a number that is none.
    #[test]
    fn elements_take_anything(
        figures in prop::array::uniform4(any::<f64>()),
        pressures in (any::<f64>(), any::<f64>()),
        warm in (any::<f64>(), any::<f64>()),
        gamma in prop_oneof![Just(1.4), any::<f64>()],
    ) {
        for element in anything(figures) {
            let gas = Gas { isentropic_exponent: Ratio::from_base(gamma) };
            if let Ok(flow) = element.flow(end(pressures.0, warm.0), end(pressures.1, warm.1), gas, &mut Silent) {
                prop_assert!(flow.base().is_finite());
            }
        }
    }

    /// The same for whole arrangements.
    #[test]
    fn arrangements_take_anything(
        figures in prop::array::uniform4(prop_oneof![any::<f64>(), 1e-10..1e-2, 1.0..1e5]),
        state in prop::array::uniform7(prop_oneof![any::<f64>(), 1e-5..5e-3, 250.0..400.0, 2e4..1.2e5]),
        shape in 0_usize..8,
    ) {
        let ventilation = any_shape(figures, shape);
        let at = Boundary {
            blow_by: MassRate::from_base(state[0]),
            manifold: absolute(state[1]),
            ambient: absolute(state[2]),
            air_cleaner_depression: pascals(state[3]),
            crankcase_temperature: ThermodynamicTemperature::from_base(state[4]),
            ambient_temperature: ThermodynamicTemperature::from_base(state[5]),
            manifold_temperature: ThermodynamicTemperature::from_base(state[6]),
        };
        sound(&ventilation, &at)?;
        let near = Boundary { blow_by: MassRate::from_base(state[0]), ..Boundary::at(MassRate::from_base(1e-3), absolute(5e4)) };
        sound(&ventilation, &near)?;
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(200))]

    /// Sensible ventilations at sensible states always have an answer, and it balances.
    #[test]
    fn sensible_ventilations_are_solved(
        blow_by in 0.0..4e-3,
        manifold in 18e3..101e3,
        bore in 5.0..25.0,
        length in 0.1..2.0,
        barb in prop::option::of(3.0..20.0),
        air_cleaner in 0.0..2e3,
        shape in 0_usize..8,
    ) {
        let mut line = BreatherLine::of_hose(Length::from_base(bore * 1e-3), Length::from_base(length), 2)
            .with_element(BreatherElement::default());
        line.barb_bore = barb.map(|barb| Length::from_base(barb * 1e-3));
        let ventilation = shaped(line, Valve::Plunger(PlungerValve::generic(GenericPlunger::Medium)), shape);
        let at = Boundary {
            air_cleaner_depression: pascals(air_cleaner),
            ..Boundary::at(MassRate::from_base(blow_by), absolute(manifold))
        };
        let outcome = solve(&ventilation, &at, &mut Silent).unwrap();
        let flows = &outcome.flows;
        let out: f64 = [flows.breather, flows.second_breather, flows.fresh_air].into_iter().flatten().map(Measured::base).sum();
        // A can open to the air in the valve's line adds to what the valve draws.
        let valve = flows.valve.map_or(0.0, Measured::base) + flows.can_vent.map_or(0.0, Measured::base);
        prop_assert!((out + valve - blow_by).abs() < 1e-8, "{outcome:?}");
        prop_assert!(outcome.solution.residual.base() < 2e-9);
        // The turning point and the sign of the fresh flow agree.
        if let (Ok(capacity), true) = (capacity(&ventilation, &at, &mut Silent), outcome.all.len() < 2) {
            let fresh = flows.breather.or(flows.fresh_air).unwrap().base();
            prop_assert!((blow_by - capacity.blow_by.base()) * fresh >= -1e-11, "{capacity:?} {fresh}");
        }
    }

    /// More blow-by never lowers the crankcase's pressure.
    #[test]
    fn pressure_rises_with_blow_by(manifold in 18e3..101e3, blow_by in 0.0..3e-3, more in 1e-6..1e-3, shape in 0_usize..8) {
        let line = BreatherLine::of_hose(Length::from_base(0.016), Length::from_base(0.5), 2);
        let ventilation = shaped(line, Valve::Plunger(PlungerValve::generic(GenericPlunger::Large)), shape);
        let pressure = |blow_by: f64| {
            let at = Boundary::at(MassRate::from_base(blow_by), absolute(manifold));
            solve(&ventilation, &at, &mut Silent).unwrap().crankcase_gauge.base()
        };
        prop_assert!(pressure(blow_by + more) >= pressure(blow_by) - 0.02);
    }

    /// The crankcase never passes the limit with less than the largest blow-by for it.
    #[test]
    fn largest_blow_by_is_the_largest(manifold in 18e3..101e3, limit in -500.0..3e3, shape in 0_usize..8) {
        let line = BreatherLine::of_hose(Length::from_base(0.012), Length::from_base(0.5), 2);
        let ventilation = shaped(line, Valve::Plunger(PlungerValve::generic(GenericPlunger::Medium)), shape);
        let at = Boundary::at(MassRate::from_base(1e-3), absolute(manifold));
        let found = largest_blow_by(&ventilation, &at, GaugePressure::from_base(limit), &mut Silent).unwrap();
        for (factor, sign) in [(0.99, -1.0), (1.01, 1.0)] {
            let blow_by = MassRate::from_base(found.blow_by.base() * factor);
            let gauge = solve(&ventilation, &Boundary { blow_by, ..at }, &mut Silent).unwrap().crankcase_gauge.base();
            let sign = if found.blow_by.base() < 0.0 { -sign } else { sign };
            prop_assert!((gauge - limit) * sign >= -0.05, "{gauge} {limit}");
        }
    }

    /// Every pressure gets one finding, and findings do not get milder with distance from the good band.
    #[test]
    fn judgements_are_total(pressure in -1e5..1e5_f64) {
        for state in [PressureState::PartLoad, PressureState::FullThrottle] {
            prop_assert!(PressureBands::usual(state).judge(GaugePressure::from_base(pressure)).is_ok());
        }
    }
}

fn anything(figures: [f64; 4]) -> Vec<Element> {
    let [a, b, c, d] = figures;
    let area = Area::from_base(a);
    let mut all: Vec<Element> = vec![
        Orifice { effective_area: area }.into(),
        SonicPort { conductance: SonicConductance::from_base(a), critical_ratio: Ratio::from_base(b) }.into(),
        Hose {
            bore: Length::from_base(a),
            length: Length::from_base(b),
            fittings: Fittings::of_sum(Ratio::from_base(c)),
            roughness: Length::from_base(d),
        }
        .into(),
        BreatherElement { viscous: LinearResistance::from_base(a), inertial: QuadraticResistance::from_base(b) }.into(),
        PlungerValve {
            open_area: area,
            idle_area: Area::from_base(b),
            starts_reducing: pascals(c),
            fully_reduced: pascals(d),
            backfire_area: Area::from_base(0.0),
        }
        .into(),
        FixedOrificeValve { bore: Length::from_base(a), discharge: Ratio::from_base(b), seat_leak: Area::from_base(c) }
            .into(),
        CheckValve { effective_area: area, opening_pressure: pascals(b), seat_leak: Area::from_base(c) }.into(),
        Element::CheckInwards(CheckValve {
            effective_area: area,
            opening_pressure: pascals(b),
            seat_leak: Area::from_base(c),
        }),
        Sag { head: pascals(a), open_area: Area::from_base(b), leak: Area::from_base(c) }.into(),
    ];
    let points = [(pascals(a), MassRate::from_base(b)), (pascals(c), MassRate::from_base(d))];
    if let Ok(table) = TableValve::new(&points, absolute(AMBIENT), celsius(20.0)) {
        all.push(table.into());
    }
    all
}

/// The four arrangements, some with a can.
fn shaped(line: BreatherLine, valve: Valve, shape: usize) -> Ventilation {
    let sealed = Venting::Sealed { outlet: Some(line.hose) };
    let vented = Venting::Vented { opening_bore: None, element: None, outlet: None };
    let with_can = |mut ventilation: Ventilation, place, venting| {
        ventilation.valve_line = (place == CanPlace::ValveLine).then_some(line);
        ventilation.catch_can = Some(CatchCan::new(place, venting));
        ventilation
    };
    match shape {
        0 => Ventilation::breather_only(line),
        1 => Ventilation::breather_with_valve(line, valve),
        2 => Ventilation::closed(line, valve),
        3 => Ventilation::two_breathers(line, line),
        4 => with_can(Ventilation::breather_with_valve(line, valve), CanPlace::BreatherLine, vented),
        5 => with_can(Ventilation::breather_with_valve(line, valve), CanPlace::BreatherLine, sealed),
        6 => with_can(Ventilation::closed(line, valve), CanPlace::ValveLine, sealed),
        _ => with_can(Ventilation::closed(line, valve), CanPlace::ValveLine, vented),
    }
}

fn any_shape(figures: [f64; 4], shape: usize) -> Ventilation {
    let [a, b, c, d] = figures;
    let line = BreatherLine::of_hose(Length::from_base(a), Length::from_base(b), 2);
    let valve = PlungerValve { open_area: Area::from_base(c), ..PlungerValve::generic(GenericPlunger::Medium) };
    let mut ventilation = shaped(line, Valve::Plunger(valve), shape);
    ventilation.baffle_area = Area::from_base(d);
    if shape.is_multiple_of(2) {
        ventilation.breather = Some(BreatherLine::of_hose(Length::from_base(0.012), Length::from_base(1.0), 2));
    }
    ventilation
}

fn sound(ventilation: &Ventilation, at: &Boundary) -> Result<(), TestCaseError> {
    if let Ok(outcome) = solve(ventilation, at, &mut Silent) {
        prop_assert!(outcome.crankcase_gauge.base().is_finite());
        prop_assert!(outcome.losses.iter().all(|loss| loss.flow.base().is_finite() && loss.drop.base().is_finite()));
        prop_assert!(outcome.solution.residual.base() < 2e-9);
    }
    if let Ok(capacity) = capacity(ventilation, at, &mut Silent) {
        prop_assert!(capacity.blow_by.base().is_finite());
    }
    if let Ok(largest) = largest_blow_by(ventilation, at, GaugePressure::from_base(500.0), &mut Silent) {
        prop_assert!(largest.blow_by.base().is_finite());
    }
    Ok(())
}

fn usual_line() -> BreatherLine {
    BreatherLine::of_hose(Length::from_base(0.016), Length::from_base(0.4), 2).with_element(BreatherElement::default())
}

fn usual_valve() -> Valve {
    Valve::Plunger(PlungerValve::generic(GenericPlunger::Medium))
}

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
fn wrong_states_are_named() {
    let ventilation = Ventilation::breather_with_valve(usual_line(), usual_valve());
    let good = Boundary::at(MassRate::from_base(1e-3), absolute(50e3));
    let ask = |at: Boundary| solve(&ventilation, &at, &mut Silent).unwrap_err().to_string();
    assert!(ask(Boundary { blow_by: MassRate::from_base(1.0), ..good }).starts_with("blow-by is 1000 g/s"));
    assert!(ask(Boundary { manifold: absolute(-5e4), ..good }).starts_with("manifold pressure"));
    assert!(ask(Boundary { ambient: absolute(0.0), ..good }).starts_with("ambient pressure"));
    assert!(
        ask(Boundary { air_cleaner_depression: pascals(-1.0), ..good }).starts_with("depression of the air cleaner")
    );
    assert!(ask(Boundary { crankcase_temperature: celsius(300.0), ..good }).starts_with("crankcase gas temperature"));
}

#[test]
fn a_narrow_port_is_pointed_out() {
    let mut ventilation = Ventilation::breather_with_valve(usual_line(), usual_valve());
    let at = Boundary::at(MassRate::from_base(0.2e-3), absolute(50e3));
    let narrow = |ventilation: &Ventilation| {
        solve(ventilation, &at, &mut Silent).unwrap().notes.iter().any(|note| note.key == "port-narrower")
    };
    assert!(!narrow(&ventilation));
    ventilation.port_bore = Some(Length::from_base(6e-3));
    assert!(!narrow(&ventilation));
    ventilation.port_bore = Some(Length::from_base(1.5e-3));
    assert!(narrow(&ventilation));
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
    assert!(matches!(network.solve(&mut Silent), Err(NetworkError::BeyondReach { .. })));
}
