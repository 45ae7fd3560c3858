//! The network made ready to be evaluated again and again: plain numbers in fixed arrays.

use super::{Hold, MOST_FREE, MOST_NODES, Network, NodeId};
use crate::crankcase::element::{Element, Ends, Memory, Psi, Response, Warmth};
use crate::numeric::solve_dense;
use crate::quantity::Measured;
use crate::scribe::Silent;

/// Pressure difference at the start, Pa, above which an element is taken by its tangent.
const TANGENT_ABOVE: f64 = 50.0;
/// The farthest a start may lie from the ambient air, Pa.
const FARTHEST: f64 = 20_000.0;

/// Pressures of all nodes, Pa.
pub(super) type Pressures = [f64; MOST_NODES];

/// One element, ready.
pub(super) struct Branch<'a> {
    pub(super) from: usize,
    pub(super) to: usize,
    pub(super) element: &'a Element,
    pub(super) warmth: [Warmth; 2],
    pub(super) memory: Memory,
    /// Taken out of the network for the time being.
    pub(super) removed: bool,
    /// The opening of a depression-operated valve follows its depression instead of being held.
    pub(super) live: bool,
    /// Flow per pressure difference in the start of the search, kg/(s·Pa).
    conductance: f64,
}

impl Branch<'_> {
    /// The places of its two ends among the free nodes; `None` when it is taken out or no free node depends on it.
    #[inline]
    fn between(&self, place: &[Option<u8>; MOST_NODES]) -> Option<(Option<u8>, Option<u8>)> {
        let (from, to) = (place[self.from], place[self.to]);
        (!self.removed && (from.is_some() || to.is_some())).then_some((from, to))
    }

    #[inline]
    pub(super) fn response(&mut self, p: &Pressures, psi: &Psi) -> Response {
        let (first, second) = (p[self.from], p[self.to]);
        if self.live {
            return self.live_response(first, second, psi);
        }
        self.element.response(Ends { first, second, warmth: &self.warmth }, psi, &mut self.memory, &mut Silent)
    }

    /// As [`Branch::response`], with the opening and its slope from the depression.
    fn live_response(&mut self, first: f64, second: f64, psi: &Psi) -> Response {
        let depression = first - second;
        let opening = self.element.opening(depression, psi).unwrap_or(0.0);
        self.memory.opening = opening;
        let response =
            self.element.response(Ends { first, second, warmth: &self.warmth }, psi, &mut self.memory, &mut Silent);
        if depression <= 0.0 || opening <= 0.0 {
            return response;
        }
        let beside = self.element.opening(depression + 1.0, psi).unwrap_or(opening);
        let by = (beside - opening) / opening * response.flow;
        Response { by_first: response.by_first + by, by_second: response.by_second - by, ..response }
    }
}

/// The imbalance of every free node with its slopes.
pub(super) struct Balance {
    /// Injected less outflow, kg/s, by free node.
    pub(super) off: [f64; MOST_FREE],
    /// Minus the slopes of `off`, kg/(s·Pa).
    pub(super) slopes: [[f64; MOST_FREE]; MOST_FREE],
}

impl Balance {
    pub(super) const fn new() -> Self {
        Self { off: [0.0; MOST_FREE], slopes: [[0.0; MOST_FREE]; MOST_FREE] }
    }

    fn clear(&mut self, free: usize) {
        for row in &mut self.slopes[..free] {
            row[..free].fill(0.0);
        }
    }

    /// Takes the flow of one element between two places.
    #[inline]
    fn take(&mut self, from: Option<u8>, to: Option<u8>, response: Response) {
        let (from, to) = (from.map(usize::from), to.map(usize::from));
        if let Some(i) = from {
            self.off[i] -= response.flow;
            self.slopes[i][i] += response.by_first;
        }
        if let Some(j) = to {
            self.off[j] += response.flow;
            self.slopes[j][j] -= response.by_second;
        }
        if let (Some(i), Some(j)) = (from, to) {
            self.slopes[i][j] += response.by_second;
            self.slopes[j][i] -= response.by_first;
        }
    }

    /// The sum of the imbalances' magnitudes.
    pub(super) fn sum(&self, free: usize) -> f64 {
        self.off[..free].iter().map(|off| off.abs()).sum()
    }

    /// The largest imbalance and whose it is.
    pub(super) fn worst(&self, free: usize) -> (usize, f64) {
        let mut worst = (0, 0.0_f64);
        for (i, off) in self.off[..free].iter().enumerate() {
            if off.abs() > worst.1.abs() || off.is_nan() {
                worst = (i, *off);
            }
        }
        worst
    }
}

/// The network, ready.
pub(super) struct Frame<'a> {
    pub(super) branches: Vec<Branch<'a>>,
    pub(super) psi: Psi,
    /// The free place of a node, if its pressure is sought.
    pub(super) place: [Option<u8>; MOST_NODES],
    /// The node in each free place.
    pub(super) node: [usize; MOST_FREE],
    pub(super) free: usize,
    /// Injected flow by node, kg/s.
    pub(super) injected: [f64; MOST_NODES],
    pub(super) ambient: f64,
    /// Gas that every free node takes up per pressure, kg/Pa, in one step in time; zero when nothing is held.
    pub(super) storage: f64,
    /// The pressures before that step.
    pub(super) held: Pressures,
}

impl<'a> Frame<'a> {
    pub(super) fn of(network: &'a Network) -> Self {
        let psi = Psi::new(network.gas.isentropic_exponent.base());
        let mut branches: Vec<Branch<'_>> = Vec::with_capacity(network.edges.len());
        for edge in &network.edges {
            let before = branches.last().map(|branch| branch.warmth);
            let warm = |side: usize| match before {
                Some(before) if before[side].temperature == edge.temperatures[side] => before[side],
                _ => Warmth::of(edge.temperatures[side]),
            };
            branches.push(Branch {
                from: edge.from,
                to: edge.to,
                element: &edge.element,
                warmth: [warm(0), warm(1)],
                memory: Memory::default(),
                removed: false,
                live: false,
                conductance: 0.0,
            });
        }
        let mut frame = Self {
            branches,
            psi,
            place: [None; MOST_NODES],
            node: [0; MOST_FREE],
            free: 0,
            injected: [0.0; MOST_NODES],
            ambient: network.ambient,
            storage: 0.0,
            held: [0.0; MOST_NODES],
        };
        for (i, node) in network.nodes.iter().enumerate() {
            if let Hold::Free(injected) = node.hold {
                frame.injected[i] = injected;
                frame.release(i);
            }
        }
        frame
    }

    /// Seeks the pressure of a node.
    fn release(&mut self, node: usize) {
        self.place[node] = u8::try_from(self.free).ok();
        self.node[self.free] = node;
        self.free += 1;
    }

    /// Holds the pressures of some nodes; the rest of the free ones stay free.
    pub(super) fn pin(&mut self, pinned: impl Fn(usize) -> bool) {
        let nodes = self.node;
        let free = self.free;
        self.free = 0;
        self.place = [None; MOST_NODES];
        for node in nodes.into_iter().take(free) {
            if !pinned(node) {
                self.release(node);
            }
        }
    }

    /// The starting pressures with those of the network's fixed nodes put in.
    pub(super) fn start(&self, network: &Network, start: &Pressures) -> Pressures {
        let mut pressures = *start;
        for (pressure, node) in pressures.iter_mut().zip(&network.nodes) {
            if let Hold::Fixed(fixed) = node.hold {
                *pressure = fixed;
            }
        }
        pressures
    }

    /// Starts a balance with what is put into every free node.
    fn clear(&self, balance: &mut Balance) {
        balance.clear(self.free);
        for (off, node) in balance.off.iter_mut().zip(&self.node[..self.free]) {
            *off = self.injected[*node];
        }
    }

    /// Fills in what every free node receives less what it passes on, and less what it takes up.
    pub(super) fn balance(&mut self, p: &Pressures, balance: &mut Balance) {
        self.clear(balance);
        for branch in &mut self.branches {
            let Some((from, to)) = branch.between(&self.place) else { continue };
            let response = branch.response(p, &self.psi);
            balance.take(from, to, response);
        }
        if self.storage > 0.0 {
            for (place, node) in self.node[..self.free].iter().enumerate() {
                balance.off[place] -= self.storage * (p[*node] - self.held[*node]);
                balance.slopes[place][place] += self.storage;
            }
        }
    }

    /// A start for the search: twice the linear network in which elements with hardly any pressure across them resist
    /// as they would at the flow expected, and the others are taken by their tangent.
    pub(super) fn guess(&mut self, p: &mut Pressures, balance: &mut Balance) {
        let injected: f64 = self.node[..self.free].iter().map(|node| self.injected[*node].abs()).sum();
        let start = *p;
        let mut expected = injected.max(1e-7);
        for pass in 0..2 {
            self.clear(balance);
            for branch in &mut self.branches {
                let Some((from, to)) = branch.between(&self.place) else { continue };
                let gap = start[branch.from] - start[branch.to];
                let response = if gap.abs() > TANGENT_ABOVE {
                    let response = branch.response(&start, &self.psi);
                    expected = expected.max(response.flow.abs());
                    response
                } else {
                    let flow = if pass == 0 {
                        expected
                    } else {
                        let conductance = branch.conductance;
                        (conductance * (p[branch.from] - p[branch.to])).abs().max(1e-7)
                    };
                    let drop =
                        branch.element.rough_drop(flow, start[branch.from], &branch.warmth[0], &mut branch.memory);
                    let conductance = flow / drop.max(1e-9);
                    branch.conductance = conductance;
                    Response { flow: conductance * gap, by_first: conductance, by_second: -conductance }
                };
                balance.take(from, to, response);
            }
            if !solve_dense(&mut balance.slopes, &mut balance.off, self.free) {
                *p = start;
                return;
            }
            for (node, step) in self.node[..self.free].iter().zip(&balance.off) {
                p[*node] = (start[*node] + step.clamp(-FARTHEST, FARTHEST)).max(0.5 * start[*node]);
            }
        }
    }

    /// The node in a free place.
    pub(super) fn node_at(&self, place: usize) -> NodeId {
        NodeId(self.node[place.min(MOST_FREE - 1)])
    }
}
