//! A network of flow elements: nodes with a pressure, elements between them, and the pressures at which every free
//! node passes on exactly what it receives.
//!
//! Unknown are the pressures of the free nodes. For each, what is injected less what flows out is zero. If every flow
//! rises with the pressure it comes from and does not rise with the pressure it goes to, and every free node reaches a
//! fixed one, these equations form an M-function and have at most one root. A plunger valve breaks this between its
//! two depressions, so its opening is held while the pressures are sought and brought up to date around them; a
//! crankcase whose only way out is such a valve is sought along the valve's own curve, where there may be three roots.

mod error;
mod frame;
mod newton;
mod opening;
mod relax;
mod roots;
mod solution;
mod structure;

use std::borrow::Cow;

pub use error::NetworkError;
pub(crate) use roots::surely_one;
pub use roots::{Equilibrium, Stability};
pub use solution::{EdgeFlow, Solution};

use crate::crankcase::element::{END_PRESSURE, END_TEMPERATURE, Element, Gas};
use crate::quantity::si::{MassRate, ThermodynamicTemperature};
use crate::quantity::{AbsolutePressure, Kind, Measured, Range};
use crate::scribe::Scribe;

/// The most nodes a network may have.
pub const MOST_NODES: usize = 24;
/// The most free nodes among them.
pub const MOST_FREE: usize = 16;

const INJECTED: Range = Range::new(
    "mass flow injected into a node",
    Kind::GasFlow,
    -1.0,
    1.0,
    "blow-by of a car engine is below 0.02 kg/s, that is 20 g/s",
);

/// A node of one network.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub struct NodeId(pub(crate) usize);

impl NodeId {
    /// The node's place in [`Solution::pressures`].
    #[must_use]
    pub const fn index(self) -> usize {
        self.0
    }
}

/// An element between two nodes of one network.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub struct EdgeId(pub(crate) usize);

impl EdgeId {
    /// The element's place in [`Solution::flows`].
    #[must_use]
    pub const fn index(self) -> usize {
        self.0
    }
}

#[derive(Clone, Copy, Debug, PartialEq)]
enum Hold {
    /// The pressure is given, Pa.
    Fixed(f64),
    /// The pressure is sought; this much is injected, kg/s.
    Free(f64),
}

#[derive(Clone, Debug, PartialEq)]
struct Node {
    name: Cow<'static, str>,
    temperature: f64,
    hold: Hold,
}

#[derive(Clone, Debug, PartialEq)]
struct Edge {
    from: usize,
    to: usize,
    /// Temperature of the gas when it flows from `from`, and when it flows from `to`, K.
    temperatures: [f64; 2],
    element: Element,
}

/// A network under construction, and then the thing to solve.
#[derive(Clone, Debug, PartialEq)]
pub struct Network {
    ambient: f64,
    gas: Gas,
    nodes: Vec<Node>,
    edges: Vec<Edge>,
}

impl Network {
    /// An empty network in air of this pressure.
    ///
    /// # Errors
    /// When the pressure or the gas is outside its range.
    pub fn new(ambient: AbsolutePressure, gas: Gas) -> Result<Self, NetworkError> {
        let ambient = END_PRESSURE.check(ambient)?.base();
        gas.check().map_err(|error| NetworkError::Element { name: "gas".to_owned(), error })?;
        Ok(Self { ambient, gas, nodes: Vec::with_capacity(12), edges: Vec::with_capacity(12) })
    }

    /// A node whose pressure is given: the atmosphere, the manifold, the air cleaner.
    ///
    /// # Errors
    /// When a value is outside its range or there are too many nodes.
    pub fn fixed(
        &mut self,
        name: impl Into<Cow<'static, str>>,
        pressure: AbsolutePressure,
        temperature: ThermodynamicTemperature,
    ) -> Result<NodeId, NetworkError> {
        let pressure = END_PRESSURE.check(pressure)?.base();
        self.add(name.into(), temperature, Hold::Fixed(pressure))
    }

    /// A node whose pressure is sought, with the mass flow injected there: the blow-by in the crankcase, zero elsewhere.
    ///
    /// # Errors
    /// When a value is outside its range or there are too many nodes.
    pub fn free(
        &mut self,
        name: impl Into<Cow<'static, str>>,
        temperature: ThermodynamicTemperature,
        injected: MassRate,
    ) -> Result<NodeId, NetworkError> {
        let injected = INJECTED.check(injected)?.base();
        self.add(name.into(), temperature, Hold::Free(injected))
    }

    fn add(
        &mut self,
        name: Cow<'static, str>,
        temperature: ThermodynamicTemperature,
        hold: Hold,
    ) -> Result<NodeId, NetworkError> {
        let temperature = END_TEMPERATURE.check(temperature)?.base();
        let free = self.nodes.iter().filter(|node| matches!(node.hold, Hold::Free(_))).count();
        if self.nodes.len() >= MOST_NODES || (matches!(hold, Hold::Free(_)) && free >= MOST_FREE) {
            return Err(NetworkError::TooManyNodes);
        }
        self.nodes.push(Node { name, temperature, hold });
        Ok(NodeId(self.nodes.len() - 1))
    }

    /// An element from one node to another. Gas that enters it has the temperature of the node it comes from.
    ///
    /// # Errors
    /// When a node is not of this network, both are the same, or the element is not valid.
    pub fn join(&mut self, from: NodeId, to: NodeId, element: impl Into<Element>) -> Result<EdgeId, NetworkError> {
        let temperature = |id: NodeId| self.nodes.get(id.0).map(|node| node.temperature);
        let (Some(forward), Some(backward)) = (temperature(from), temperature(to)) else {
            return Err(NetworkError::UnknownNode);
        };
        self.link(from, to, [forward, backward], element.into())
    }

    /// An element whose gas has one temperature in one direction and another in the other, as along a breather line
    /// that carries crankcase gas outwards or fresh air inwards.
    ///
    /// # Errors
    /// As [`Network::join`], or when a temperature is outside its range.
    pub fn join_carrying(
        &mut self,
        from: NodeId,
        to: NodeId,
        forward: ThermodynamicTemperature,
        backward: ThermodynamicTemperature,
        element: impl Into<Element>,
    ) -> Result<EdgeId, NetworkError> {
        let temperatures = [END_TEMPERATURE.check(forward)?.base(), END_TEMPERATURE.check(backward)?.base()];
        self.link(from, to, temperatures, element.into())
    }

    fn link(
        &mut self,
        from: NodeId,
        to: NodeId,
        temperatures: [f64; 2],
        element: Element,
    ) -> Result<EdgeId, NetworkError> {
        let (Some(first), Some(second)) = (self.nodes.get(from.0), self.nodes.get(to.0)) else {
            return Err(NetworkError::UnknownNode);
        };
        if from == to {
            return Err(NetworkError::SameNode { node: first.name.to_string() });
        }
        element
            .check()
            .map_err(|error| NetworkError::Element { name: format!("{} to {}", first.name, second.name), error })?;
        self.edges.push(Edge { from: from.0, to: to.0, temperatures, element });
        Ok(EdgeId(self.edges.len() - 1))
    }

    /// The name of a node.
    #[must_use]
    pub fn name(&self, node: NodeId) -> Option<&str> {
        self.nodes.get(node.0).map(|node| node.name.as_ref())
    }

    /// The pressures at which every free node passes on what it receives.
    ///
    /// Where a depression-operated valve is the only way out and has several equilibria, the one reached from a
    /// crankcase at ambient pressure; [`Network::all_solutions`] lists them.
    ///
    /// # Errors
    /// [`NetworkError`]; an answer that is not within the stop criteria is never returned as one.
    pub fn solve(&self, scribe: &mut impl Scribe) -> Result<Solution, NetworkError> {
        self.solve_at(None, scribe)
    }

    /// As [`Network::solve`], from other starting pressures, one for each node in the order they were added; those of
    /// fixed nodes do not count.
    ///
    /// # Errors
    /// As [`Network::solve`], and when a starting pressure is missing or outside its range.
    pub fn solve_from(&self, start: &[AbsolutePressure], scribe: &mut impl Scribe) -> Result<Solution, NetworkError> {
        if start.len() != self.nodes.len() {
            return Err(NetworkError::UnknownNode);
        }
        let mut pressures = [self.ambient; MOST_NODES];
        for (slot, pressure) in pressures.iter_mut().zip(start) {
            *slot = END_PRESSURE.check(*pressure)?.base();
        }
        self.solve_at(Some(&pressures), scribe)
    }

    fn solve_at(&self, start: Option<&frame::Pressures>, scribe: &mut impl Scribe) -> Result<Solution, NetworkError> {
        self.check_paths()?;
        let mut frame = frame::Frame::of(self);
        let settled = match self.sealed_by()? {
            Some(sealed) => self.solve_sealed(&sealed)?,
            None => opening::settle(self, &mut frame, start)?,
        };
        solution::report(self, &mut frame, &settled, scribe)
    }
}
