//! Why a network has no answer.

use crate::crankcase::element::FlowError;
use crate::quantity::si::{MassRate, Pressure};
use crate::quantity::{AbsolutePressure, Amount, OutOfRange, UnitSystem};

/// Why a network has no answer.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum NetworkError {
    /// A figure outside its range.
    #[error(transparent)]
    OutOfRange(#[from] OutOfRange),
    /// An element that is not valid, or is asked beyond what it covers.
    #[error("{name}: {error}")]
    Element {
        /// Between which nodes it stands.
        name: String,
        /// What is wrong with it.
        error: FlowError,
    },
    /// A node of another network, or a list of another length.
    #[error("a node is named that this network does not have")]
    UnknownNode,
    /// An element from a node to itself.
    #[error("an element leads from {node} back to {node}; join two different nodes")]
    SameNode {
        /// The node.
        node: String,
    },
    /// More nodes than the solver's fixed room.
    #[error("a network may have {most} nodes, {free} of them free", most = super::MOST_NODES, free = super::MOST_FREE)]
    TooManyNodes,
    /// A free node that no element connects with a given pressure.
    #[error(
        "{node} has no way to the air, the air cleaner or the manifold; open a breather or a valve, and never run an \
         engine with every way out shut"
    )]
    NoExit {
        /// The node.
        node: String,
    },
    /// The pressure that would be needed is beyond anything a crankcase holds.
    #[error(
        "{node} would need {}; its ways out are closed valves or far too small, and its seals would fail first",
        Amount::of(*.pressure).show(UnitSystem::Si)
    )]
    BeyondReach {
        /// The node.
        node: String,
        /// The pressure at which the search was given up.
        pressure: AbsolutePressure,
    },
    /// More is drawn out of a node than its ways in pass at any depression: a choked hole passes no more the deeper it is.
    #[error(
        "more gas is drawn out of {node} than its ways in let through at any depression; widen the narrowest hole on the \
         way in, or draw less"
    )]
    DrawnEmpty {
        /// The node.
        node: String,
    },
    /// The equations were not solved. The last state is not an answer.
    #[error(
        "the pressures were not found: {node} is off by {} after {iterations} iterations; the last state is no answer",
        Amount::of(*.imbalance).show(UnitSystem::Si)
    )]
    NotSolved {
        /// The node with the largest imbalance.
        node: String,
        /// What it receives less what it passes on.
        imbalance: MassRate,
        /// The last step of any pressure.
        last_step: Pressure,
        /// Newton steps spent.
        iterations: u32,
        /// The last state, by node, marked not solved by being here.
        last_state: Vec<AbsolutePressure>,
    },
    /// The opening of a depression-operated valve did not come to rest. The last state is not an answer.
    #[error(
        "the PCV valve behind {node} did not come to rest after {iterations} iterations; a larger breather steadies it"
    )]
    Unsettled {
        /// The node ahead of the valve.
        node: String,
        /// Newton steps spent.
        iterations: u32,
        /// The last state, by node, marked not solved by being here.
        last_state: Vec<AbsolutePressure>,
    },
    /// A depression-operated valve is the only way out and no pressure balances it.
    #[error(
        "{node} has only the PCV valve as a way out, and no pressure up to {} makes the valve pass what comes in",
        Amount::of(*.highest).show(UnitSystem::Si)
    )]
    NoBalance {
        /// The node ahead of the valve.
        node: String,
        /// The highest pressure tried.
        highest: AbsolutePressure,
    },
    /// A question that needs exactly one depression-operated valve.
    #[error("the network has {count} depression-operated valves; all solutions are listed for exactly one")]
    NotOneValve {
        /// How many it has.
        count: usize,
    },
}
