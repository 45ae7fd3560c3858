//! Newton's method on the pressures, damped, with steps in time to fall back on.

use super::frame::{Balance, Frame, Pressures};
use super::relax::{Restless, relax};
use super::{Network, NetworkError, NodeId};
use crate::numeric::solve_dense;
use crate::quantity::si::{MassRate, Pressure};
use crate::quantity::{AbsolutePressure, Measured};

/// Largest imbalance at which the pressures count as found, kg/s.
pub(super) const IMBALANCE: f64 = 1e-9;
/// Largest last step at which they do, Pa.
pub(super) const STEP: f64 = 0.01;
/// The longest step at first, Pa.
pub(super) const LONGEST: f64 = 2_000.0;
/// Newton steps in one go.
const STEPS: u32 = 100;
/// Halvings of one step.
const HALVINGS: u32 = 30;
/// Pressure beyond which no search goes, Pa.
pub(super) const HIGHEST: f64 = 1.0e7;
/// Pressure below which no search goes, Pa.
pub(super) const LOWEST: f64 = 1.0;

/// How a search went.
#[derive(Clone, Copy, Debug)]
pub(super) struct Search {
    pub(super) solved: bool,
    pub(super) iterations: u32,
    /// The node with the largest imbalance, and the imbalance, kg/s.
    pub(super) worst: (NodeId, f64),
    /// Pa.
    pub(super) last_step: f64,
}

/// Moves the free pressures to where every free node is in balance, openings held.
pub(super) fn solve(frame: &mut Frame<'_>, network: &Network, p: &mut Pressures) -> Result<Search, NetworkError> {
    let search = newton(frame, p);
    if search.solved {
        return Ok(search);
    }
    let name = |node| network.name(node).unwrap_or_default().to_owned();
    match relax(frame, p, search) {
        Ok(search) => Ok(search),
        Err(Restless::Rises(node, pressure)) => {
            Err(NetworkError::BeyondReach { node: name(node), pressure: AbsolutePressure::from_base(pressure) })
        }
        Err(Restless::Falls(node)) => Err(NetworkError::DrawnEmpty { node: name(node) }),
        Err(Restless::Lost(search)) => Err(NetworkError::NotSolved {
            node: name(search.worst.0),
            imbalance: MassRate::from_base(search.worst.1),
            last_step: Pressure::from_base(search.last_step),
            iterations: search.iterations,
            last_state: p[..network.nodes.len()].iter().map(|p| AbsolutePressure::from_base(*p)).collect(),
        }),
    }
}

/// Damped Newton steps alone.
pub(super) fn newton(frame: &mut Frame<'_>, p: &mut Pressures) -> Search {
    let free = frame.free;
    let mut search = Search { solved: free == 0, iterations: 0, worst: (NodeId(0), 0.0), last_step: 0.0 };
    if free == 0 {
        return search;
    }
    let (mut first, mut second) = (Balance::new(), Balance::new());
    let (mut now, mut after) = (&mut first, &mut second);
    frame.balance(p, now);
    let mut longest = LONGEST;
    let mut limited = 0;
    for iteration in 1..=STEPS {
        search.iterations = iteration;
        let (place, off) = now.worst(free);
        search.worst = (frame.node_at(place), off);
        let before = now.sum(free);
        let mut step = now.off;
        // The slopes are used up; the next evaluation brings new ones.
        if !solve_dense(&mut now.slopes, &mut step, free) {
            return search;
        }
        let size = step[..free].iter().fold(0.0_f64, |most, step| most.max(step.abs()));
        if off.abs() < IMBALANCE && size < STEP {
            // In balance already; the step just found polishes.
            *p = stepped(frame, p, &step, 1.0);
            search.solved = true;
            search.last_step = size;
            return search;
        }
        if size > longest {
            limited += 1;
            if limited > 8 {
                longest *= 2.0;
            }
        }
        let mut share = (longest / size).min(1.0);
        let mut halvings = 0;
        loop {
            let trial = stepped(frame, p, &step, share);
            frame.balance(&trial, after);
            if after.sum(free) < before {
                *p = trial;
                std::mem::swap(&mut now, &mut after);
                search.last_step = size * share;
                break;
            }
            halvings += 1;
            if halvings > HALVINGS {
                return search;
            }
            share *= 0.5;
        }
    }
    search
}

fn stepped(frame: &Frame<'_>, p: &Pressures, step: &[f64; super::MOST_FREE], share: f64) -> Pressures {
    let mut moved = *p;
    for (node, step) in frame.node[..frame.free].iter().zip(step) {
        // Pressures stay above vacuum: at most half the way there in one step.
        moved[*node] = (p[*node] + share * step).max(0.5 * p[*node]).clamp(LOWEST, HIGHEST);
    }
    moved
}
