//! The torque to aim at.

use super::Safety;
use crate::quantity::si::Torque;
use crate::quantity::{Estimate, Measured};

/// Readable steps, in parts of a newton metre: 0.5 N·m from 10 N·m on, finer where the window is too narrow for them.
const PARTS: [(f64, f64); 7] =
    [(10.0, 2.0), (1.0, 10.0), (0.5, 20.0), (0.0, 50.0), (0.0, 100.0), (0.0, 200.0), (0.0, 1000.0)];

/// The middle of the window at the likely figures, the same rule whatever the window: as many times above the least as
/// below the most. It is raised while that harms nothing at any end and lowered while the gasket seats at every end, and
/// rounded to a step that can be read on a key. `None` where there is no window.
pub(super) fn aim(safety: Safety, least: Option<&Estimate<Torque>>, most: &Estimate<Torque>) -> Option<Torque> {
    let least = least.filter(|_| safety != Safety::NoWindow)?;
    let middle = (least.likely.base() * most.likely.base()).sqrt();
    let (a, b) = (least.high.base(), most.low.base());
    let middle = middle.max(a.min(b)).min(a.max(b));
    let (from, to) = match safety {
        Safety::Safe => (a, b),
        _ => (least.likely.base(), most.likely.base()),
    };
    let rounded = PARTS
        .into_iter()
        .filter(|(above, _)| middle >= *above)
        .flat_map(|(_, parts)| {
            let steps = middle * parts;
            // The next step, or the one on its other side, before a finer one.
            [steps.round(), steps.floor(), steps.ceil()].map(|steps| steps / parts)
        })
        .find(|torque| (from..=to).contains(torque));
    Some(Torque::from_base(rounded.unwrap_or(middle)))
}
