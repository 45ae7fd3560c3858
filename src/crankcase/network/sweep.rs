//! Node by node: each free pressure in turn is put where its node is in balance, its neighbours held.

use super::NodeId;
use super::frame::{Frame, Pressures};
use super::newton::{HIGHEST, LOWEST};
use crate::numeric::bracketed_root;

/// A number of rounds through all free nodes. An error names a node that no pressure brings into balance, and the
/// pressure at which the search ended.
pub(super) fn sweep(frame: &mut Frame<'_>, p: &mut Pressures, rounds: u32) -> Result<(), (NodeId, f64)> {
    let mut largest = f64::INFINITY;
    for _ in 0..rounds {
        if largest < 1e-7 {
            break;
        }
        largest = 0.0;
        for place in 0..frame.free {
            let node = frame.node[place];
            let next = balanced(frame, p, node)?;
            largest = largest.max((next - p[node]).abs());
            p[node] = next;
        }
    }
    Ok(())
}

/// The pressure at which one node is in balance; its imbalance falls as its own pressure rises.
fn balanced(frame: &mut Frame<'_>, p: &Pressures, node: usize) -> Result<f64, (NodeId, f64)> {
    let mut low = p[node];
    let mut high = p[node];
    for branch in frame.branches.iter().filter(|branch| !branch.removed) {
        for (own, other) in [(branch.from, branch.to), (branch.to, branch.from)] {
            if own == node {
                low = low.min(p[other]);
                high = high.max(p[other]);
            }
        }
    }
    let mut trial = *p;
    let mut off = |pressure: f64| {
        trial[node] = pressure;
        let mut off = frame.injected[node];
        for branch in &mut frame.branches {
            if !branch.removed && (branch.from == node || branch.to == node) {
                let flow = branch.response(&trial, &frame.psi).flow;
                off += if branch.to == node { flow } else { -flow };
            }
        }
        off
    };
    // Between the least and the greatest neighbour without injection; wider with it.
    let mut width = 100.0_f64.max(high - low);
    while off(high) > 0.0 {
        if high >= HIGHEST {
            return Err((NodeId(node), high));
        }
        high = (high + width).min(HIGHEST);
        width *= 2.0;
    }
    while off(low) < 0.0 {
        if low <= LOWEST {
            return Err((NodeId(node), low));
        }
        low = (0.5 * low).max(LOWEST);
    }
    if low >= high {
        return Ok(high);
    }
    Ok(bracketed_root(off, low, high, 1e-9).map_or(p[node], |root| root.at))
}
