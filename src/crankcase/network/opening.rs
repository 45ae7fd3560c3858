//! Depression-operated valves: the opening is held while the pressures are sought, and brought up to date around them.

use super::frame::{Balance, Frame, Pressures};
use super::newton::{self, Search};
use super::{Hold, MOST_NODES, Network, NetworkError, NodeId};
use crate::numeric::bracketed_root;
use crate::quantity::{AbsolutePressure, Measured};

/// Change of an opening, relative to itself, at which it counts as settled.
const SETTLED: f64 = 1e-7;
/// Rounds of bringing the openings up to date.
const ROUNDS: u32 = 80;
/// Rounds after which a single valve is bracketed instead.
const FREE_ROUNDS: u32 = 12;
/// Width to which its depression is found, Pa.
const BRACKET: f64 = 1e-5;

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
    let mut hunting = 0;
    for round in 1..=ROUNDS {
        let mut search = newton::solve(frame, network, &mut p)?;
        iterations += search.iterations;
        search.iterations = iterations;
        let mut settled = true;
        for (i, valve) in valves.iter_mut().enumerate() {
            let branch = &mut frame.branches[valve.branch];
            let seen = p[branch.from] - p[branch.to];
            let opening = branch.element.opening(seen, &psi).unwrap_or(0.0);
            let now = branch.memory.opening;
            if seen <= 0.0 || (opening - now).abs() <= SETTLED * now {
                continue;
            }
            settled = false;
            hunting = i;
            valve.depression = next(valve, seen, round);
            branch.memory.opening = branch.element.opening(valve.depression, &psi).unwrap_or(now);
        }
        if settled {
            return Ok(Settled { pressures: p, search, rounds: round, sealed: false });
        }
        if let ([valve], 1) = (valves.as_slice(), round)
            && let Some(search) = follow(frame, &mut p, valve, iterations)
        {
            return Ok(Settled { pressures: p, search, rounds: round + 1, sealed: false });
        }
        if let ([valve], true) = (valves.as_slice(), round >= FREE_ROUNDS) {
            return bracket(network, frame, p, valve, Settled { pressures: p, search, rounds: round, sealed: false });
        }
    }
    match valves.get(hunting) {
        Some(valve) => Err(not_settled(network, frame, &p, valve, iterations)),
        None => Err(NetworkError::Unsettled { node: String::new(), iterations, last_state: Vec::new() }),
    }
}

/// The short way for a single valve: Newton's method with the opening following the depression. Its answer counts only
/// if the depression moved no more than twice as far as the first miss, which says that the depression that results
/// follows the depression assumed by less than half, so that no other equilibrium is passed and this one is stable.
fn follow(frame: &mut Frame<'_>, p: &mut Pressures, valve: &Follow, spent: u32) -> Option<Search> {
    let (at, miss) = valve.before?;
    let mut trial = *p;
    frame.branches[valve.branch].live = true;
    let search = newton::newton(frame, &mut trial);
    let branch = &mut frame.branches[valve.branch];
    branch.live = false;
    let moved = trial[branch.from] - trial[branch.to] - at;
    if search.solved && moved * miss >= 0.0 && moved.abs() <= 2.0 * miss.abs() {
        *p = trial;
        return Some(Search { iterations: spent + search.iterations, ..search });
    }
    let psi = frame.psi;
    let branch = &mut frame.branches[valve.branch];
    branch.memory.opening = branch.element.opening(valve.depression, &psi).unwrap_or(0.0);
    None
}

/// Near a fold, where the depression that results follows the depression assumed almost one for one, steps crawl. The
/// depression is then walked on in the same direction with growing strides until the miss turns round, and the turn
/// bracketed.
fn bracket(
    network: &Network,
    frame: &mut Frame<'_>,
    mut p: Pressures,
    valve: &Follow,
    so_far: Settled,
) -> Result<Settled, NetworkError> {
    let psi = frame.psi;
    let mut spent = so_far.search.iterations;
    let mut rounds = so_far.rounds;
    let mut last = so_far.search;
    let mut miss = |depression: f64| -> Result<f64, NetworkError> {
        let branch = &mut frame.branches[valve.branch];
        branch.memory.opening = branch.element.opening(depression, &psi).unwrap_or(0.0);
        last = newton::solve(frame, network, &mut p)?;
        spent += last.iterations;
        rounds += 1;
        let branch = &frame.branches[valve.branch];
        Ok((p[branch.from] - p[branch.to]).max(0.0) - depression)
    };
    let mut at = valve.depression;
    let mut here = miss(at)?;
    let mut stride = 2.0 * here.abs();
    let mut root = at;
    for _ in 0..60 {
        let next = (at + stride.copysign(here)).max(0.0);
        let there = miss(next)?;
        if here * there <= 0.0 {
            let mut failed = None;
            let found = bracketed_root(
                |depression| {
                    miss(depression).unwrap_or_else(|error| {
                        failed = Some(error);
                        f64::NAN
                    })
                },
                at.min(next),
                at.max(next),
                BRACKET,
            );
            if let Some(error) = failed {
                return Err(error);
            }
            root = found.map_or(next, |root| root.at);
            break;
        }
        (at, here, root) = (next, there, next);
        stride *= 2.0;
    }
    let left = miss(root)?;
    if left.abs() > 100.0 * BRACKET {
        return Err(not_settled(network, frame, &p, valve, spent));
    }
    Ok(Settled { pressures: p, search: Search { iterations: spent, ..last }, rounds, sealed: false })
}

fn not_settled(network: &Network, frame: &Frame<'_>, p: &Pressures, valve: &Follow, iterations: u32) -> NetworkError {
    let node = NodeId(frame.branches[valve.branch].from);
    NetworkError::Unsettled {
        node: network.name(node).unwrap_or_default().to_owned(),
        iterations,
        last_state: p[..network.nodes.len()].iter().map(|p| AbsolutePressure::from_base(*p)).collect(),
    }
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

/// The lowest pressure given, the ambient air's included, Pa.
pub(super) fn lowest_fixed(network: &Network) -> f64 {
    network
        .nodes
        .iter()
        .filter_map(|node| if let Hold::Fixed(p) = node.hold { Some(p) } else { None })
        .fold(network.ambient, f64::min)
}
