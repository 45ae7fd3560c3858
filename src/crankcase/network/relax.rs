//! The network left to itself: every free node holds some gas, and its pressure moves while more comes in than goes out.
//!
//! Where holes are choked, a group of nodes may take in the same flow at any pressure, and the slopes that Newton's
//! method lives on vanish. With gas held in every node they do not: each step in time is a network whose equations have
//! exactly one root and slopes that never vanish. The steps grow until the held gas no longer counts; then either the
//! pressures stand still, and are the answer, or they run out of the range of any crankcase, and there is none.

use super::NodeId;
use super::frame::{Balance, Frame, Pressures};
use super::newton::{HIGHEST, LONGEST, LOWEST, Search, newton};

/// Steps in time.
const STEPS: u32 = 300;
/// A pressure this many times from an end of the range that still moves outwards is out of reach.
const NEAR: f64 = 100.0;

/// Why the pressures do not stand still.
pub(super) enum Restless {
    /// The node that rises without end, and the pressure at which it was given up, Pa.
    Rises(NodeId, f64),
    /// The node that is drawn empty.
    Falls(NodeId),
    /// They were not followed to the end.
    Lost(Search),
}

/// Follows the pressures until they stand still.
pub(super) fn relax(frame: &mut Frame<'_>, p: &mut Pressures, before: Search) -> Result<Search, Restless> {
    let mut spent = before.iterations;
    // At first what is most out of balance moves about as far as the longest step.
    let mut storage = (before.worst.1.abs() / LONGEST).max(1e-16);
    let mut last = before;
    let mut tried = before.worst.1.abs();
    let mut balance = Balance::new();
    for _ in 0..STEPS {
        frame.held = *p;
        frame.storage = storage;
        let mut trial = *p;
        let step = newton(frame, &mut trial);
        frame.storage = 0.0;
        spent += step.iterations;
        if let Some(runs) = runs_away(frame, p, &trial) {
            return Err(runs);
        }
        if !step.solved {
            storage *= 8.0;
            continue;
        }
        *p = trial;
        storage *= 0.1;
        // While the imbalance does not shrink, holes are still choked and Newton's method fares no better than before.
        frame.balance(p, &mut balance);
        let off = balance.worst(frame.free).1.abs();
        if off > 0.5 * tried {
            continue;
        }
        tried = off;
        let mut trial = *p;
        last = newton(frame, &mut trial);
        spent += last.iterations;
        if last.solved {
            *p = trial;
            return Ok(Search { iterations: spent, ..last });
        }
    }
    Err(Restless::Lost(Search { iterations: spent, ..last }))
}

/// The free node that is near an end of the range and went on to it.
fn runs_away(frame: &Frame<'_>, from: &Pressures, to: &Pressures) -> Option<Restless> {
    frame.node[..frame.free].iter().find_map(|node| {
        let (from, to) = (from[*node], to[*node]);
        if from <= LOWEST * NEAR && to <= LOWEST {
            return Some(Restless::Falls(NodeId(*node)));
        }
        (from >= HIGHEST / NEAR && to >= HIGHEST).then_some(Restless::Rises(NodeId(*node), to))
    })
}
