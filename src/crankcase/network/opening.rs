//! Depression-operated valves: the opening is held while the pressures are sought, and brought up to date around them.

use super::frame::{Balance, Frame, Pressures};
use super::newton::{self, Search};
use super::{Hold, MOST_NODES, Network, NetworkError, NodeId};
use crate::quantity::si::{MassRate, Pressure};
use crate::quantity::{AbsolutePressure, Measured};

/// Change of an opening, relative to itself, at which it counts as settled.
const SETTLED: f64 = 1e-7;
/// Rounds of bringing the openings up to date.
const ROUNDS: u32 = 80;

/// Pressures found, and how.
pub(super) struct Settled {
    pub(super) pressures: Pressures,
    pub(super) search: Search,
    pub(super) rounds: u32,
    /// The valve that is the only way out, if there is one.
    pub(super) sealed: bool,
}

/// A valve in the search: where its depression stands and how far off that was before.
struct Follow {
    branch: usize,
    depression: f64,
    before: Option<(f64, f64)>,
}

/// The pressures with every opening in agreement with the depression across its valve. Without a start from ambient
/// pressure everywhere, improved by a guess.
pub(super) fn settle(
    network: &Network,
    frame: &mut Frame<'_>,
    start: Option<&Pressures>,
) -> Result<Settled, NetworkError> {
    let mut p = frame.start(network, start.unwrap_or(&[network.ambient; MOST_NODES]));
    let psi = frame.psi;
    let lowest = lowest_fixed(network);
    let mut valves: Vec<Follow> = Vec::new();
    for (i, branch) in frame.branches.iter_mut().enumerate() {
        if branch.removed || !branch.element.is_depression_operated() {
            continue;
        }
        // A valve that leads to a node not yet known is taken to see the deepest pressure given.
        let sink = if frame.place[branch.to].is_some() { lowest } else { p[branch.to] };
        let source = if frame.place[branch.from].is_some() { frame.ambient } else { p[branch.from] };
        let depression = (source - sink).max(0.0);
        branch.memory.opening = branch.element.opening(depression, &psi).unwrap_or(0.0);
        valves.push(Follow { branch: i, depression, before: None });
    }
    if start.is_none() {
        frame.guess(&mut p, &mut Balance::new());
    }
    let mut iterations = 0;
    for round in 1..=ROUNDS {
        let mut search = newton::solve(frame, network, &mut p)?;
        iterations += search.iterations;
        search.iterations = iterations;
        let mut settled = true;
        for valve in &mut valves {
            let branch = &mut frame.branches[valve.branch];
            let seen = p[branch.from] - p[branch.to];
            let opening = branch.element.opening(seen, &psi).unwrap_or(0.0);
            let now = branch.memory.opening;
            if seen <= 0.0 || (opening - now).abs() <= SETTLED * now {
                continue;
            }
            settled = false;
            valve.depression = next(valve, seen, round);
            branch.memory.opening = branch.element.opening(valve.depression, &psi).unwrap_or(now);
        }
        if settled {
            return Ok(Settled { pressures: p, search, rounds: round, sealed: false });
        }
    }
    let node = valves.first().map_or(NodeId(0), |valve| NodeId(frame.branches[valve.branch].from));
    Err(NetworkError::NotSolved {
        node: network.name(node).unwrap_or_default().to_owned(),
        imbalance: MassRate::from_base(0.0),
        last_step: Pressure::from_base(0.0),
        iterations,
        last_state: p[..network.nodes.len()].iter().map(|p| AbsolutePressure::from_base(*p)).collect(),
    })
}

/// The next depression to try: by the secant through the last two misses, or part of the way when that runs wild.
fn next(valve: &mut Follow, seen: f64, round: u32) -> f64 {
    let at = valve.depression;
    let miss = seen.max(0.0) - at;
    let secant = valve.before.and_then(|(before, miss_before)| {
        let step = -miss * (at - before) / (miss - miss_before);
        // Where the depression answers to the opening almost one to one, the secant rightly asks for many times the miss;
        // it is trusted with that once the first rounds have brought it near.
        let farthest = if round < 12 { 4.0 } else { 200.0 };
        (step.is_finite() && step.abs() <= farthest * miss.abs() && step * miss > 0.0).then_some(step)
    });
    valve.before = Some((at, miss));
    // Without a usable secant ever smaller shares, so that a valve hunting between two openings comes to rest.
    let share = if round < 8 { 1.0 } else { 0.5 };
    (at + secant.unwrap_or(share * miss)).max(0.0)
}

fn lowest_fixed(network: &Network) -> f64 {
    network
        .nodes
        .iter()
        .filter_map(|node| if let Hold::Fixed(p) = node.hold { Some(p) } else { None })
        .fold(network.ambient, f64::min)
}
