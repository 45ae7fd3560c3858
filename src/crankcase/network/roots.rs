//! All equilibria of a network with one depression-operated valve, each with its stability.
//!
//! Where the valve is the only way out, they are the pressures at which the valve's own curve passes what comes in.
//! Otherwise the valve's opening is taken at one depression after the other, the network solved, and the depression
//! that results compared with the one assumed.

use super::frame::{Frame, Pressures};
use super::newton::{self, HIGHEST, Search};
use super::opening::{Settled, lowest_fixed, settle};
use super::solution::{self, Solution};
use super::structure::Sealed;
use super::{EdgeId, Hold, MOST_NODES, Network, NetworkError, NodeId};
use crate::crankcase::element::{Element, Memory, Psi, Warmth};
use crate::numeric::bracketed_root;
use crate::quantity::si::Pressure;
use crate::quantity::{AbsolutePressure, Measured};
use crate::scribe::Scribe;

/// Points of the scan along a sealed valve's curve.
const ALONG_CURVE: u32 = 400;
/// Share of the ambient pressure up to which a rough drop is good.
const SMALL: f64 = 0.1;
/// Points at which the fall of a valve's opening is measured.
const SAMPLES: u32 = 16;
/// Points of the scan through the openings of a valve beside other ways out.
const THROUGH_OPENINGS: u32 = 64;

/// Whether a small disturbance of an equilibrium dies away.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Stability {
    /// It dies away.
    Stable,
    /// It grows: the crankcase leaves this state, and the valve may flutter.
    Unstable,
}

/// One equilibrium of a network with one depression-operated valve.
#[derive(Clone, Debug, PartialEq)]
pub struct Equilibrium {
    /// Pressures and flows.
    pub solution: Solution,
    /// Whether it lasts.
    pub stability: Stability,
    /// The valve.
    pub valve: EdgeId,
    /// The depression across the valve.
    pub depression: Pressure,
    /// Whether the valve is the only way out: the crankcase is sealed.
    pub sealed: bool,
}

impl Network {
    /// Every equilibrium of a network with one depression-operated valve, from the lowest pressure ahead of the valve
    /// to the highest. Equilibria closer together than the scan's step, 1/400 of the depressions through which the
    /// valve moves (1/64 where there are other ways out), may be missed as a pair.
    ///
    /// # Errors
    /// [`NetworkError::NotOneValve`] for any other number of such valves, and as [`Network::solve`].
    pub fn all_solutions(&self, scribe: &mut impl Scribe) -> Result<Vec<Equilibrium>, NetworkError> {
        let mut valves = self.edges.iter().enumerate().filter(|(_, edge)| edge.element.is_depression_operated());
        let count = valves.clone().count();
        let (Some((edge, _)), 1) = (valves.next(), count) else {
            return Err(NetworkError::NotOneValve { count });
        };
        self.check_paths()?;
        let found = match self.sealed_by()? {
            Some(sealed) => self.sealed_equilibria(&sealed)?,
            None => self.open_equilibria(edge)?,
        };
        found
            .into_iter()
            .map(|(settled, stability)| {
                let (edge_from, edge_to) = (self.edges[edge].from, self.edges[edge].to);
                let depression = settled.pressures[edge_from] - settled.pressures[edge_to];
                Ok(Equilibrium {
                    sealed: settled.sealed,
                    solution: solution::report(self, &mut Frame::of(self), &settled, scribe)?,
                    stability,
                    valve: EdgeId(edge),
                    depression: Pressure::from_base(depression),
                })
            })
            .collect()
    }

    /// The equilibrium a sealed crankcase reaches from ambient pressure.
    pub(super) fn solve_sealed(&self, sealed: &Sealed) -> Result<Settled, NetworkError> {
        let mut curve = Curve::of(self, sealed)?;
        let roots = curve.roots()?;
        // Pressure falls while the valve passes more than comes in, and rises while it passes less.
        let falls = curve.surplus(self.ambient) > 0.0;
        let reached = if falls {
            roots.iter().rev().find(|(root, _)| *root <= self.ambient)
        } else {
            roots.iter().find(|(root, _)| *root >= self.ambient)
        };
        match reached {
            Some((root, _)) => curve.fill(*root),
            None => Err(curve.no_balance()),
        }
    }

    fn sealed_equilibria(&self, sealed: &Sealed) -> Result<Vec<(Settled, Stability)>, NetworkError> {
        let mut curve = Curve::of(self, sealed)?;
        let roots = curve.roots()?;
        roots.into_iter().map(|(root, stability)| Ok((curve.fill(root)?, stability))).collect()
    }

    fn open_equilibria(&self, edge: usize) -> Result<Vec<(Settled, Stability)>, NetworkError> {
        let mut scan =
            Scan { network: self, frame: Frame::of(self), edge, p: [self.ambient; MOST_NODES], failed: None };
        scan.p = scan.frame.start(self, &scan.p);
        let (low, high) = self.edges[edge].element.opening_span().unwrap_or((0.0, 0.0));
        let mut found = Vec::new();
        // Below and above the span the opening is constant, so there the result is one or none.
        if scan.gain(low)? <= 0.0 {
            found.push((scan.settled(low)?, Stability::Stable));
        }
        let step = (high - low) / f64::from(THROUGH_OPENINGS);
        let mut before = (low, scan.gain(low)?);
        for i in 1..=THROUGH_OPENINGS {
            let at = low + f64::from(i) * step;
            let gain = scan.gain(at)?;
            if (before.1 > 0.0) != (gain > 0.0) {
                let root = bracketed_root(|d| scan.gain_or_nan(d), before.0, at, 1e-6);
                let at_root = match (root, scan.failed.take()) {
                    (Ok(root), None) => root.at,
                    (_, Some(error)) => return Err(error),
                    (Err(_), None) => 0.5 * (before.0 + at),
                };
                let stability = if gain < before.1 { Stability::Stable } else { Stability::Unstable };
                found.push((scan.settled(at_root)?, stability));
            }
            before = (at, gain);
        }
        if before.1 > 0.0 {
            found.push((scan.settled(high)?, Stability::Stable));
        }
        Ok(found)
    }
}

/// The search through the openings of one valve.
struct Scan<'a> {
    network: &'a Network,
    frame: Frame<'a>,
    edge: usize,
    p: Pressures,
    failed: Option<NetworkError>,
}

impl Scan<'_> {
    fn solve(&mut self, depression: f64) -> Result<Search, NetworkError> {
        let psi = self.frame.psi;
        let branch = &mut self.frame.branches[self.edge];
        branch.memory.opening = branch.element.opening(depression, &psi).unwrap_or(0.0);
        newton::solve(&mut self.frame, self.network, &mut self.p)
    }

    /// The depression that results from the opening at a depression, less that depression.
    fn gain(&mut self, depression: f64) -> Result<f64, NetworkError> {
        self.solve(depression)?;
        let branch = &self.frame.branches[self.edge];
        Ok(self.p[branch.from] - self.p[branch.to] - depression)
    }

    fn gain_or_nan(&mut self, depression: f64) -> f64 {
        self.gain(depression).unwrap_or_else(|error| {
            self.failed = Some(error);
            f64::NAN
        })
    }

    fn settled(&mut self, depression: f64) -> Result<Settled, NetworkError> {
        let search = self.solve(depression)?;
        Ok(Settled { pressures: self.p, search, rounds: 1, sealed: false })
    }
}

/// The flow of a valve that is the only way out, against the pressure ahead of it.
struct Curve<'a> {
    network: &'a Network,
    sealed: &'a Sealed,
    frame: Frame<'a>,
    /// Pressures outside the sealed part.
    p: Pressures,
    sink: f64,
}

impl<'a> Curve<'a> {
    fn of(network: &'a Network, sealed: &'a Sealed) -> Result<Self, NetworkError> {
        let mut frame = Frame::of(network);
        let to = network.edges[sealed.edge].to;
        frame.branches[sealed.edge].removed = true;
        frame.injected[to] += sealed.injected;
        frame.pin(|node| sealed.inside[node]);
        let settled = settle(network, &mut frame, None)?;
        let p = settled.pressures;
        Ok(Self { network, sealed, frame: Frame::of(network), p, sink: p[to] })
    }

    /// What the valve passes at a pressure ahead of it, less what comes in.
    fn surplus(&mut self, source: f64) -> f64 {
        let psi = self.frame.psi;
        let branch = &mut self.frame.branches[self.sealed.edge];
        branch.memory.opening = branch.element.opening(source - self.sink, &psi).unwrap_or(0.0);
        let mut p = self.p;
        p[branch.from] = source;
        p[branch.to] = self.sink;
        branch.response(&p, &psi).flow - self.sealed.injected
    }

    fn highest(&self) -> f64 {
        match &self.network.edges[self.sealed.edge].element {
            // Nothing is extrapolated beyond a table.
            Element::Table(table) => self.sink + table.last_depression().base(),
            _ => HIGHEST,
        }
    }

    fn roots(&mut self) -> Result<Vec<(f64, Stability)>, NetworkError> {
        let mut roots = Vec::new();
        let (sink, injected) = (self.sink, self.sealed.injected);
        if injected == 0.0 {
            return Ok(vec![(sink, Stability::Stable)]);
        }
        if injected < 0.0 {
            // Gas is drawn out of a sealed crankcase: it can only come back through the closed seat.
            let low = newton::LOWEST;
            return match bracketed_root(|p| self.surplus(p), low, sink, 1e-9) {
                Ok(root) => Ok(vec![(root.at, Stability::Stable)]),
                Err(_) => Err(NetworkError::DrawnEmpty { node: self.ahead() }),
            };
        }
        let moves_until = self.network.edges[self.sealed.edge].element.opening_span().map_or(0.0, |span| span.1);
        let step = moves_until / f64::from(ALONG_CURVE);
        let mut before = (sink, -injected);
        let mut grid: Vec<f64> = (1..=ALONG_CURVE).map(|i| sink + f64::from(i) * step).collect();
        // Beyond the last movement the flow rises with the pressure without end.
        let mut beyond = sink + moves_until;
        while beyond < self.highest() {
            beyond = (beyond * 1.5).min(self.highest());
            grid.push(beyond);
        }
        for at in grid {
            let surplus = self.surplus(at);
            let turns = (before.1 < 0.0) != (surplus < 0.0);
            if turns && let Ok(root) = bracketed_root(|p| self.surplus(p), before.0, at, 1e-9) {
                let stability = if surplus >= before.1 { Stability::Stable } else { Stability::Unstable };
                roots.push((root.at, stability));
            }
            before = (at, surplus);
        }
        if roots.is_empty() { Err(self.no_balance()) } else { Ok(roots) }
    }

    fn no_balance(&self) -> NetworkError {
        NetworkError::NoBalance { node: self.ahead(), highest: AbsolutePressure::from_base(self.highest()) }
    }

    /// The name of the node ahead of the valve.
    fn ahead(&self) -> String {
        self.network.name(NodeId(self.network.edges[self.sealed.edge].from)).unwrap_or_default().to_owned()
    }

    /// The pressures in the sealed part for one pressure ahead of the valve.
    fn fill(&mut self, source: f64) -> Result<Settled, NetworkError> {
        let from = self.network.edges[self.sealed.edge].from;
        let inside = self.sealed.inside;
        let mut frame = Frame::of(self.network);
        frame.branches[self.sealed.edge].removed = true;
        frame.pin(|node| node == from || !inside[node]);
        let mut start = self.p;
        for (p, inside) in start.iter_mut().zip(inside) {
            if inside {
                *p = source;
            }
        }
        let mut settled = settle(self.network, &mut frame, Some(&start))?;
        settled.sealed = true;
        Ok(settled)
    }
}

/// Whether a valve's own fall of flow can never outrun what the rest of the network gives way, so that there is one
/// equilibrium: for sure if true, open if false.
///
/// `fresh` are the elements the fresh air comes through, `far` the pressure where it comes from, and `ahead` the
/// elements between the crankcase and the valve. While the valve draws, no more than what is injected leaves the other
/// way, which bounds the depression; up to there the valve's flow has a largest value and a steepest fall. From these
/// follows the largest flow `F` through the others; a drop that is a sum of a linear and a square law has a slope of at
/// most `2 Δp(F)/F`. With the steepest fall times the sum of these slopes below one, every pressure rises with the flow
/// that leaves.
pub(crate) fn surely_one(
    network: &Network,
    valve: EdgeId,
    far: AbsolutePressure,
    fresh: impl Iterator<Item = EdgeId> + Clone,
    ahead: impl Iterator<Item = EdgeId> + Clone,
) -> bool {
    let Some(edge) = network.edges.get(valve.0) else { return false };
    let shuts = |id: EdgeId| network.edges.get(id.0).is_some_and(|edge| edge.element.shuts());
    if fresh.clone().any(shuts) || ahead.clone().any(shuts) {
        return false;
    }
    let Some((low, high)) = edge.element.opening_span() else { return true };
    // A valve that leads to a port sees no less than the deepest pressure given.
    let sink = match network.nodes[edge.to].hold {
        Hold::Fixed(sink) => sink,
        Hold::Free(_) => lowest_fixed(network),
    };
    let injected: f64 = network.nodes.iter().map(|node| if let Hold::Free(own) = node.hold { own } else { 0.0 }).sum();
    let pressure = far.base().max(network.ambient);
    let rise = rough_drop(network, fresh.clone(), injected.max(1e-9));
    if rise > SMALL * pressure {
        return false;
    }
    let deepest = pressure + rise - sink;
    if deepest <= low {
        return true;
    }
    let psi = Psi::new(network.gas.isentropic_exponent.base());
    let per_area = (pressure + rise) / Warmth::of(edge.temperatures[0]).root_rt;
    let step = (high.min(deepest) - low) / f64::from(SAMPLES);
    let (mut largest, mut fall, mut before) = (0.0_f64, 0.0_f64, 0.0);
    for i in 0..=SAMPLES {
        let depression = low + f64::from(i) * step;
        let opening = edge.element.opening(depression, &psi).unwrap_or(0.0);
        let flux = per_area * psi.at((1.0 - depression / pressure).max(0.0));
        largest = largest.max(opening * flux);
        if i > 0 {
            fall = fall.max((before - opening) / step * flux);
        }
        before = opening;
    }
    if deepest > high {
        // Beyond the span the opening stays and the flow rises until it chokes.
        largest = largest.max(before * per_area * psi.at(0.0));
    }
    let inward = (largest - injected).max(injected).max(1e-9);
    let outward = largest.max(1e-9);
    let (fresh, ahead) = (rough_drop(network, fresh, inward), rough_drop(network, ahead, outward));
    fresh + ahead < SMALL * pressure && fall * 2.0 * (fresh / inward + ahead / outward) < 1.0
}

/// The sum of the rough drops at a flow, and half as much again for what they leave out.
fn rough_drop(network: &Network, edges: impl Iterator<Item = EdgeId>, flow: f64) -> f64 {
    let mut sum = 0.0;
    for edge in edges.filter_map(|edge| network.edges.get(edge.0)) {
        let warmth = Warmth::of(edge.temperatures[0].max(edge.temperatures[1]));
        sum += edge.element.rough_drop(flow, network.ambient, &warmth, &mut Memory::default());
    }
    1.5 * sum
}
