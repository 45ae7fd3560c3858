//! Random networks of every shape and every kind of element.

use super::{AMBIENT, absolute, compliant, symmetric};
use coldmark::crankcase::element::{Element, End, Gas, PlungerValve, TableValve};
use coldmark::crankcase::network::{Network, NetworkError, Solution};
use coldmark::quantity::si::{Area, MassRate, ThermodynamicTemperature};
use coldmark::quantity::{Measured, celsius, pascals};
use coldmark::scribe::Silent;
use proptest::prelude::*;

/// A network drawn by chance: given pressures first, then nodes with what is injected, and elements between them.
#[derive(Clone, Debug)]
pub struct Drawn {
    pub fixed: Vec<f64>,
    pub injected: Vec<f64>,
    pub temperatures: Vec<f64>,
    pub edges: Vec<(usize, usize, Element)>,
}

/// How the nodes hang together.
#[derive(Clone, Copy, Debug)]
enum Shape {
    /// One after the other between two given pressures.
    Series,
    /// As a series, with two or three elements side by side.
    Parallel,
    /// In a ring, each given pressure on one node of it.
    Loop,
    /// All on one node.
    Star,
    /// Two series with rungs.
    Ladder,
    /// Any tree and any elements beyond it.
    Any,
}

fn shape() -> impl Strategy<Value = Shape> {
    use Shape::{Any, Ladder, Loop, Parallel, Series, Star};
    prop_oneof![1 => Just(Series), 1 => Just(Parallel), 1 => Just(Loop), 1 => Just(Star), 1 => Just(Ladder), 3 => Just(Any)]
}

impl Shape {
    /// Pairs of nodes, the first `fixed` of them those with a given pressure; `chance` decides what is open.
    fn pairs(self, fixed: usize, free: usize, chance: &[usize]) -> Vec<(usize, usize)> {
        let all = fixed + free;
        let draw = |i: usize, below: usize| chance[i % chance.len()] % below;
        let mut pairs: Vec<(usize, usize)> = Vec::new();
        // What hangs on given pressures beyond the first one or two.
        let mut rest = 1..fixed;
        match self {
            Self::Series | Self::Parallel => {
                let last = fixed - 1;
                let mut before = 0;
                for node in (fixed..all).chain((last > 0).then_some(last)) {
                    let times = if matches!(self, Self::Parallel) { 1 + draw(node, 3) } else { 1 };
                    pairs.extend(std::iter::repeat_n((before, node), times));
                    before = node;
                }
                rest = 1..last.max(1);
            }
            Self::Loop => {
                pairs.extend((fixed..all).map(|node| (node, if node + 1 == all { fixed } else { node + 1 })));
                pairs.push((0, fixed));
            }
            Self::Star => pairs.extend((0..all).filter(|node| *node != fixed).map(|node| (fixed, node))),
            Self::Ladder => {
                for node in fixed..all {
                    pairs.push((if node < fixed + 2 { 0 } else { node - 2 }, node));
                    if (node - fixed) % 2 == 1 {
                        pairs.push((node - 1, node));
                    }
                }
            }
            Self::Any => {
                pairs.extend((fixed..all).map(|node| (draw(node, node), node)));
                pairs.extend((0..draw(0, 7)).map(|i| (draw(3 * i + 1, all), draw(3 * i + 2, all))));
            }
        }
        if !matches!(self, Self::Star) {
            pairs.extend(rest.map(|node| (node, fixed + draw(node + 5, free))));
        }
        // Some lead the other way.
        pairs
            .into_iter()
            .enumerate()
            .filter(|(_, (a, b))| a != b)
            .map(|(i, (a, b))| if draw(i + 11, 2) == 0 { (a, b) } else { (b, a) })
            .collect()
    }
}

fn depression_operated() -> impl Strategy<Value = Element> {
    let plunger = (2.0..20.0, 0.1..1.0, 1e3..20e3, 5e3..60e3, 0.0..0.01).prop_map(
        |(open, share, starts, span, back): (f64, f64, f64, f64, f64)| {
            PlungerValve {
                open_area: Area::from_base(open * 1e-6),
                idle_area: Area::from_base(open * share * 1e-6),
                starts_reducing: pascals(starts),
                fully_reduced: pascals(starts + span),
                backfire_area: Area::from_base(back * 1e-6),
            }
            .into()
        },
    );
    let table = (0.2..3.0, 0.3..1.0, 1e3..10e3).prop_map(|(most, share, first): (f64, f64, f64)| {
        let most = most * 1e-3;
        let points = [(first, most), (6.0 * first, share * most), (90e3, share * most)]
            .map(|(depression, flow)| (pascals(depression), MassRate::from_base(flow)));
        TableValve::new(&points, absolute(AMBIENT), celsius(20.0)).unwrap().into()
    });
    prop_oneof![2 => plunger, 1 => table]
}

/// Networks of 3 to 12 nodes. With `valves` some elements are depression-operated, and then there may be several
/// answers; the others rise with the pressure they come from and so have one.
pub fn drawn(valves: bool) -> impl Strategy<Value = Drawn> {
    let element =
        if valves { prop_oneof![5 => compliant(), 1 => depression_operated()].boxed() } else { compliant().boxed() };
    let injected = prop_oneof![5 => Just(0.0), 3 => 0.0..3e-3, 1 => -1e-3..0.0];
    (1_usize..4, 2_usize..10, shape()).prop_flat_map(move |(fixed, free, shape)| {
        (
            prop::collection::vec(prop_oneof![3 => 20e3..110e3, 1 => Just(AMBIENT), 1 => 110e3..250e3], fixed),
            prop::collection::vec(injected.clone(), free),
            prop::collection::vec(250.0..400.0, fixed + free),
            prop::collection::vec(0_usize..1000, 41),
            prop::collection::vec(element.clone(), 40),
        )
            .prop_map(move |(fixed, injected, temperatures, chance, elements)| {
                let pairs = shape.pairs(fixed.len(), injected.len(), &chance);
                let edges = pairs.into_iter().zip(elements).map(|((from, to), element)| (from, to, element)).collect();
                Drawn { fixed, injected, temperatures, edges }
            })
    })
}

impl Drawn {
    /// The network with nodes and elements in the order given.
    fn build(&self, nodes: &[usize], edges: &[usize]) -> Network {
        let mut network = Network::new(absolute(AMBIENT), Gas::default()).unwrap();
        let mut ids = vec![None; nodes.len()];
        for node in nodes {
            let warm = ThermodynamicTemperature::from_base(self.temperatures[*node]);
            let id = match self.fixed.get(*node) {
                Some(pressure) => network.fixed(format!("fixed {node}"), absolute(*pressure), warm),
                None => {
                    let injected = MassRate::from_base(self.injected[*node - self.fixed.len()]);
                    network.free(format!("free {node}"), warm, injected)
                }
            };
            ids[*node] = Some(id.unwrap());
        }
        for edge in edges {
            let (from, to, element) = &self.edges[*edge];
            network.join(ids[*from].unwrap(), ids[*to].unwrap(), element.clone()).unwrap();
        }
        network
    }

    fn network(&self) -> Network {
        let (nodes, edges): (Vec<_>, Vec<_>) =
            ((0..self.temperatures.len()).collect(), (0..self.edges.len()).collect());
        self.build(&nodes, &edges)
    }

    fn pressures(&self) -> Result<Vec<f64>, NetworkError> {
        Ok(self.network().solve(&mut Silent)?.pressures.iter().map(|p| p.base()).collect())
    }

    fn allowed(&self) -> f64 {
        // A node behind closed checks hangs by their leak, where the stop criterion allows more.
        let hangs =
            |(_, _, element): &(usize, usize, Element)| matches!(element, Element::Check(_) | Element::FixedOrifice(_));
        if self.edges.iter().any(hangs) { 1.0 } else { 0.2 }
    }

    /// Everything injected leaves, at every node and over all, by the flows the elements give when asked one by one.
    fn balances(&self, solution: &Solution) -> Result<(), TestCaseError> {
        let mut off: Vec<f64> = self.fixed.iter().map(|_| 0.0).chain(self.injected.iter().copied()).collect();
        let end = |node: usize| End {
            pressure: solution.pressures[node],
            temperature: ThermodynamicTemperature::from_base(self.temperatures[node]),
        };
        for ((from, to, element), found) in self.edges.iter().zip(&solution.flows) {
            let flow = element.flow(end(*from), end(*to), Gas::default(), &mut Silent).unwrap().base();
            prop_assert!((flow - found.flow.base()).abs() <= 1e-7 * flow.abs() + 1e-15, "{flow} {found:?}");
            prop_assert!(flow * found.drop.base() >= 0.0);
            off[*from] -= flow;
            off[*to] += flow;
        }
        let most = solution.flows.iter().map(|flow| flow.flow.base().abs()).fold(1e-3, f64::max);
        for off in &off[self.fixed.len()..] {
            prop_assert!(off.abs() <= 1e-9 + 1e-7 * most, "{off}");
        }
        prop_assert!(solution.residual.base() <= 1e-9 * (1.0 + 1e3 * most), "{:?}", solution.residual);
        prop_assert!(solution.conservation.base().abs() <= 1e-8 * (1.0 + 1e3 * most), "{:?}", solution.conservation);
        Ok(())
    }

    /// Whether a refusal is one that the network can deserve.
    fn deserves(&self, error: &NetworkError) -> bool {
        let count = |kind: fn(&Element) -> bool| self.edges.iter().filter(|(_, _, element)| kind(element)).count();
        match error {
            NetworkError::DrawnEmpty { .. } => self.injected.iter().any(|injected| *injected < 0.0),
            NetworkError::BeyondReach { .. } => self.injected.iter().any(|injected| *injected > 0.0),
            NetworkError::Element { .. } => count(|element| matches!(element, Element::Table(_))) > 0,
            NetworkError::NoBalance { .. } => count(Element::is_depression_operated) > 0,
            // One valve always comes to rest; two may hunt against each other.
            NetworkError::Unsettled { .. } => count(Element::is_depression_operated) > 1,
            _ => false,
        }
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(400))]

    /// Any network balances or is refused for a reason it has.
    #[test]
    fn any_network_balances(drawn in drawn(true)) {
        match drawn.network().solve(&mut Silent) {
            Ok(solution) => drawn.balances(&solution)?,
            Err(error) => prop_assert!(drawn.deserves(&error), "{error:?}"),
        }
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(300))]

    /// One answer: from any start, with nodes and elements in any order, and symmetric elements turned round.
    #[test]
    fn monotone_networks_have_one_answer(
        (drawn, nodes, edges) in drawn(false).prop_flat_map(|drawn| {
            let nodes: Vec<usize> = (0..drawn.temperatures.len()).collect();
            let edges: Vec<usize> = (0..drawn.edges.len()).collect();
            (Just(drawn), Just(nodes).prop_shuffle(), Just(edges).prop_shuffle())
        }),
        starts in prop::collection::vec(5e3..250e3, 24),
        turned in prop::collection::vec(any::<bool>(), 40),
    ) {
        let solved = drawn.network().solve(&mut Silent);
        let start: Vec<_> = starts.iter().take(nodes.len()).map(|p| absolute(*p)).collect();
        let again = drawn.network().solve_from(&start, &mut Silent);
        let mut other = drawn.clone();
        for ((from, to, element), turned) in other.edges.iter_mut().zip(turned) {
            if turned && element.is_symmetric() {
                std::mem::swap(from, to);
            }
        }
        let shuffled = other.build(&nodes, &edges).solve(&mut Silent);
        let solution = match solved {
            Ok(solution) => solution,
            Err(error) => {
                prop_assert!(drawn.deserves(&error), "{error:?}");
                // Where one part is drawn empty and another bursts, either may be named.
                for other in [again, shuffled] {
                    prop_assert!(other.as_ref().is_err_and(|other| drawn.deserves(other)), "{error:?} {other:?}");
                }
                return Ok(());
            }
        };
        drawn.balances(&solution)?;
        let (again, shuffled) = (again.unwrap(), shuffled.unwrap());
        let allowed = drawn.allowed();
        for (i, pressure) in solution.pressures.iter().enumerate() {
            let gap = (pressure.base() - again.pressures[i].base()).abs();
            prop_assert!(gap < allowed, "from another start, node {i}: {gap} Pa");
            let place = nodes.iter().position(|node| *node == i).unwrap();
            let gap = (pressure.base() - shuffled.pressures[place].base()).abs();
            prop_assert!(gap < allowed, "in another order, node {i}: {gap} Pa");
        }
    }

    /// More injected anywhere, or a higher given pressure, lowers the pressure nowhere.
    #[test]
    fn more_injected_lowers_no_pressure(drawn in drawn(false), at in any::<prop::sample::Index>(), more in 1e-6..1e-3_f64) {
        let Ok(before) = drawn.pressures() else { return Ok(()) };
        let mut risen = drawn.clone();
        let node = at.index(drawn.temperatures.len());
        if node < drawn.fixed.len() {
            risen.fixed[node] += 1e7 * more;
        } else {
            risen.injected[node - drawn.fixed.len()] += more;
        }
        let after = match risen.pressures() {
            Ok(after) => after,
            Err(error) => {
                prop_assert!(matches!(error, NetworkError::BeyondReach { .. }), "{error:?}");
                return Ok(());
            }
        };
        for (i, (before, after)) in before.iter().zip(&after).enumerate() {
            prop_assert!(*after >= before - drawn.allowed(), "node {i}: {before} Pa becomes {after} Pa");
        }
        prop_assert!(after[node] > before[node] - 0.01 * drawn.allowed());
    }

    /// No pressure lies outside the given ones unless something is injected.
    #[test]
    fn without_blow_by_pressures_lie_between_the_given_ones(mut drawn in drawn(true)) {
        drawn.injected.fill(0.0);
        match drawn.pressures() {
            Ok(pressures) => {
                let low = drawn.fixed.iter().copied().fold(f64::INFINITY, f64::min);
                let high = drawn.fixed.iter().copied().fold(0.0, f64::max);
                for pressure in pressures {
                    prop_assert!(pressure > low - 1.0 && pressure < high + 1.0, "{pressure}");
                }
            }
            Err(error) => prop_assert!(drawn.deserves(&error), "{error:?}"),
        }
    }

    /// Small differences of pressure turned round turn every flow round, for symmetric elements and one temperature.
    #[test]
    fn small_differences_turn_round(
        mut drawn in drawn(false),
        elements in prop::collection::vec(symmetric(), 40),
        gauges in prop::collection::vec(-20.0..20.0_f64, 4),
        share in prop_oneof![Just(0.0), 1e-4..0.01_f64],
    ) {
        for ((_, _, element), symmetric) in drawn.edges.iter_mut().zip(elements) {
            *element = symmetric;
        }
        drawn.temperatures.fill(330.0);
        let sign = |sign: f64| {
            let mut one = drawn.clone();
            for (pressure, gauge) in one.fixed.iter_mut().zip(&gauges) {
                *pressure = AMBIENT + sign * gauge;
            }
            for injected in &mut one.injected {
                *injected *= sign * share;
            }
            one.pressures()
        };
        let (Ok(one), Ok(other)) = (sign(1.0), sign(-1.0)) else { return Ok(()) };
        // The density follows the pressure, so the mirror is as good as the largest difference is small.
        let gauge = |p: &f64| (p - AMBIENT).abs();
        let most = one.iter().chain(&other).map(gauge).fold(0.0, f64::max);
        for (one, other) in one.iter().zip(&other) {
            let sum = (one - AMBIENT + other - AMBIENT).abs();
            prop_assert!(sum <= 0.05 + 4.0 * most * most / AMBIENT, "{one} Pa and {other} Pa, most {most} Pa");
        }
    }
}

/// Were most of them refused, the properties above would prove little.
#[test]
fn most_networks_get_an_answer() {
    use proptest::strategy::ValueTree as _;
    use proptest::test_runner::TestRunner;
    let mut runner = TestRunner::deterministic();
    let (mut solved, mut valves, mut loops, mut largest) = (0, 0, 0, 0);
    for _ in 0..300 {
        let drawn = drawn(true).new_tree(&mut runner).unwrap().current();
        if drawn.network().solve(&mut Silent).is_ok() {
            solved += 1;
            valves += usize::from(drawn.edges.iter().any(|(_, _, element)| element.is_depression_operated()));
            loops += usize::from(drawn.edges.len() > drawn.temperatures.len());
            largest = largest.max(drawn.temperatures.len());
        }
    }
    assert!(solved > 200 && valves > 60 && loops > 40 && largest == 12, "{solved} {valves} {loops} {largest}");
}
