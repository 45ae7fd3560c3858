//! The answer of a network: pressures, flows, and how well the balances close.

use super::frame::Frame;
use super::opening::Settled;
use super::{EdgeId, Hold, Network, NetworkError, NodeId};
use crate::crankcase::element::{Element, Ends};
use crate::note::{Note, Weight};
use crate::quantity::si::{MassRate, Pressure};
use crate::quantity::{AbsolutePressure, Amount, GaugePressure, Kind, Measured};
use crate::scribe::{Scribe, Step};
use crate::source::crankcase::ventilation::M_FUNCTION;

/// Share of the pressure ahead of a hose above which its mean density is a weak description.
const LARGE_DROP: f64 = 0.1;

/// The flow through one element.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct EdgeFlow {
    /// The element.
    pub edge: EdgeId,
    /// The node it was joined from.
    pub from: NodeId,
    /// The node it was joined to.
    pub to: NodeId,
    /// Positive from `from` to `to`.
    pub flow: MassRate,
    /// Pressure of `from` less that of `to`.
    pub drop: Pressure,
}

impl EdgeFlow {
    /// The node the gas comes from and the node it goes to.
    #[must_use]
    pub fn direction(&self) -> (NodeId, NodeId) {
        if self.flow.base() < 0.0 { (self.to, self.from) } else { (self.from, self.to) }
    }
}

/// The pressures at which every free node passes on what it receives.
#[derive(Clone, Debug, PartialEq)]
pub struct Solution {
    /// By node, in the order the nodes were added.
    pub pressures: Vec<AbsolutePressure>,
    /// By element, in the order they were joined.
    pub flows: Vec<EdgeFlow>,
    /// Newton steps spent.
    pub iterations: u32,
    /// Times the openings of depression-operated valves were brought up to date.
    pub opening_rounds: u32,
    /// Length of the last step.
    pub last_step: Pressure,
    /// The largest imbalance of any free node.
    pub residual: MassRate,
    /// The node that has it.
    pub worst: NodeId,
    /// Everything injected less everything that reaches fixed nodes; zero but for rounding.
    pub conservation: MassRate,
    /// A depression-operated valve is the only way out.
    pub sealed: bool,
    /// Remarks.
    pub notes: Vec<Note>,
    ambient: AbsolutePressure,
}

impl Solution {
    /// The absolute pressure of a node.
    #[must_use]
    pub fn pressure(&self, node: NodeId) -> Option<AbsolutePressure> {
        self.pressures.get(node.index()).copied()
    }

    /// The pressure of a node counted from the ambient air.
    #[must_use]
    pub fn gauge(&self, node: NodeId) -> Option<GaugePressure> {
        self.pressure(node).map(|pressure| pressure.to_gauge(self.ambient))
    }

    /// The flow through an element.
    #[must_use]
    pub fn flow(&self, edge: EdgeId) -> Option<MassRate> {
        self.flows.get(edge.index()).map(|flow| flow.flow)
    }
}

/// Evaluates the network once more at the pressures found, with the caller's scribe.
pub(super) fn report(
    network: &Network,
    frame: &mut Frame<'_>,
    settled: &Settled,
    scribe: &mut impl Scribe,
) -> Result<Solution, NetworkError> {
    let p = settled.pressures;
    let psi = frame.psi;
    let mut off = frame.injected;
    let mut flows = Vec::with_capacity(network.edges.len());
    let mut notes = Vec::new();
    for (i, branch) in frame.branches.iter_mut().enumerate() {
        let (first, second) = (p[branch.from], p[branch.to]);
        if let Element::Table(table) = branch.element {
            table.covers(first - second).map_err(|error| NetworkError::Element {
                name: format!("{} to {}", network.nodes[branch.from].name, network.nodes[branch.to].name),
                error,
            })?;
        }
        if let Some(opening) = branch.element.opening(first - second, &psi) {
            branch.memory.opening = opening;
        }
        let flow = branch
            .element
            .response(Ends { first, second, warmth: &branch.warmth }, &psi, &mut branch.memory, scribe)
            .flow;
        off[branch.from] -= flow;
        off[branch.to] += flow;
        if matches!(branch.element, Element::Hose(_) | Element::Breather(_))
            && (first - second).abs() > LARGE_DROP * first.max(second)
        {
            notes.push(Note::new(
                "large-drop",
                Weight::Weak,
                format!(
                    "The line between {} and {} takes more than a tenth of the pressure; its flow is an estimate there.",
                    network.nodes[branch.from].name, network.nodes[branch.to].name
                ),
            ));
        }
        flows.push(EdgeFlow {
            edge: EdgeId(i),
            from: NodeId(branch.from),
            to: NodeId(branch.to),
            flow: MassRate::from_base(flow),
            drop: Pressure::from_base(first - second),
        });
    }
    let (mut worst, mut injected, mut left) = ((0, 0.0_f64), 0.0, 0.0);
    for (i, (node, off)) in network.nodes.iter().zip(off).enumerate() {
        match node.hold {
            Hold::Free(own) => {
                injected += own;
                if off.is_nan() || off.abs() > worst.1.abs() {
                    worst = (i, off);
                }
            }
            Hold::Fixed(_) => left += off,
        }
    }
    if settled.sealed {
        notes.push(Note::new(
            "crankcase-sealed",
            Weight::Danger,
            "The crankcase is sealed: the PCV valve is its only way out, so its seals take the manifold's depression or \
             the pressure of the blow-by. Give it fresh air.",
        ));
    }
    scribe.step(|| {
        Step::new("largest imbalance of a node", "F", "injected − Σ ṁ out, at the pressures found", &M_FUNCTION)
            .with_number("iterations", f64::from(settled.search.iterations))
            .with_amount("Σ injected", Amount::new(injected, Kind::GasFlow))
            .with_amount("Σ to fixed nodes", Amount::new(left, Kind::GasFlow))
            .gives(MassRate::from_base(worst.1))
    });
    Ok(Solution {
        pressures: p.iter().take(network.nodes.len()).map(|p| AbsolutePressure::from_base(*p)).collect(),
        flows,
        iterations: settled.search.iterations,
        opening_rounds: settled.rounds,
        last_step: Pressure::from_base(settled.search.last_step),
        residual: MassRate::from_base(worst.1.abs()),
        worst: NodeId(worst.0),
        conservation: MassRate::from_base(injected - left),
        sealed: settled.sealed,
        notes,
        ambient: AbsolutePressure::from_base(network.ambient),
    })
}
