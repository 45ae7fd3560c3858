//! Who rules from one road speed to the next.

use super::map::Drive;
use crate::quantity::Measured;
use crate::quantity::si::Velocity;
use crate::study::{HeatStretch, Problems, Span};

/// How near a road speed at which the ruler changes is found, m/s.
const NEAR: f64 = 0.01;

/// Who rules from one road speed to the next in some air, the changes found by halving between the columns.
pub(super) fn stretches(drive: &Drive<'_>, speed: &Span<Velocity>, ambient: f64) -> Result<Vec<HeatStretch>, Problems> {
    let start = speed.from;
    let mut before = drive.rule(start.base(), ambient)?;
    let mut all = vec![HeatStretch { rule: before, from: start, to: start }];
    for i in 1..speed.points {
        let (mut from, to) = (speed.at((i - 1) as f64).base(), speed.at(i as f64).base());
        let now = drive.rule(to, ambient)?;
        // Two may change within one step, and a change of gear skips some: each change is looked for from the last one on.
        while before != now {
            let (mut low, mut high, mut rule) = (from, to, now);
            while high - low > NEAR {
                let middle = 0.5 * (low + high);
                let there = drive.rule(middle, ambient)?;
                if there == before {
                    low = middle;
                } else {
                    (high, rule) = (middle, there);
                }
            }
            let at = Velocity::from_base(high);
            if let Some(last) = all.last_mut() {
                last.to = at;
            }
            all.push(HeatStretch { rule, from: at, to: at });
            (before, from) = (rule, high);
        }
        if let Some(last) = all.last_mut() {
            last.to = Velocity::from_base(to);
        }
    }
    Ok(all)
}
