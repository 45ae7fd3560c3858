//! The network made ready to be evaluated again and again: plain numbers in fixed arrays.

use super::{Hold, MOST_FREE, MOST_NODES, Network, NodeId};
use crate::crankcase::element::{Element, Memory, Psi, Response, Warmth};
use crate::quantity::Measured;
use crate::scribe::Silent;

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
}

impl Branch<'_> {
    #[inline]
    pub(super) fn response(&mut self, p: &Pressures, psi: &Psi) -> Response {
        let (first, second) = (p[self.from], p[self.to]);
        self.element.response(first, second, &self.warmth, psi, &mut self.memory, &mut Silent)
    }
}

/// The imbalance of every free node with its slopes.
#[derive(Clone)]
pub(super) struct Balance {
    /// Injected less outflow, kg/s, by free node.
    pub(super) off: [f64; MOST_FREE],
    /// Minus the slopes of `off`, kg/(s·Pa).
    pub(super) slopes: [[f64; MOST_FREE]; MOST_FREE],
}

impl Balance {
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
}

impl<'a> Frame<'a> {
    pub(super) fn of(network: &'a Network) -> Self {
        let psi = Psi::new(network.gas.isentropic_exponent.base());
        let branches = network
            .edges
            .iter()
            .map(|edge| Branch {
                from: edge.from,
                to: edge.to,
                element: &edge.element,
                warmth: edge.temperatures.map(Warmth::of),
                memory: Memory::default(),
                removed: false,
            })
            .collect();
        let mut frame = Self {
            branches,
            psi,
            place: [None; MOST_NODES],
            node: [0; MOST_FREE],
            free: 0,
            injected: [0.0; MOST_NODES],
            ambient: network.ambient,
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

    /// What every free node receives less what it passes on.
    pub(super) fn balance(&mut self, p: &Pressures) -> Balance {
        let mut balance = Balance { off: [0.0; MOST_FREE], slopes: [[0.0; MOST_FREE]; MOST_FREE] };
        for (off, node) in balance.off.iter_mut().zip(&self.node[..self.free]) {
            *off = self.injected[*node];
        }
        for branch in &mut self.branches {
            let (from, to) = (self.place[branch.from], self.place[branch.to]);
            if branch.removed || (from.is_none() && to.is_none()) {
                continue;
            }
            let response = branch.response(p, &self.psi);
            if let Some(i) = from.map(usize::from) {
                balance.off[i] -= response.flow;
                balance.slopes[i][i] += response.by_first;
                if let Some(j) = to.map(usize::from) {
                    balance.slopes[i][j] += response.by_second;
                }
            }
            if let Some(j) = to.map(usize::from) {
                balance.off[j] += response.flow;
                balance.slopes[j][j] -= response.by_second;
                if let Some(i) = from.map(usize::from) {
                    balance.slopes[j][i] -= response.by_first;
                }
            }
        }
        balance
    }

    /// The node in a free place.
    pub(super) fn node_at(&self, place: usize) -> NodeId {
        NodeId(self.node[place.min(MOST_FREE - 1)])
    }
}
