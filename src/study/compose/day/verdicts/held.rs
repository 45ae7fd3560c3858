//! What the steady answer says on the questions the day speaks to, at both ends, in the figures of the day.

use super::rule::Ends;
use crate::quantity::{Estimate, Measured};
use crate::study::{Answers, State};

/// Both ends of the steady answer behind a verdict.
pub(super) fn ends(key: &str, answers: &Answers) -> Ends {
    match key {
        "tank_volume" if answers.boils() => Ends::FAILS,
        "tank_volume" => low_is_worse(&answers.tank.headroom),
        // The day knows no bends: cover at rest against cover at rest, on the coldest start.
        "dip_tube" => {
            let rest = answers.tank.cover_at_rest.map(Measured::base);
            Ends { likely: rest, unfavourable: rest }
        }
        "tank_vent" => {
            let sealed = answers.tank.vent.as_ref().filter(|vent| vent.sealed);
            Ends {
                likely: sealed.map(|vent| vent.if_sealed.as_ref().map_or(f64::NEG_INFINITY, |gauge| -gauge.base())),
                unfavourable: None,
            }
        }
        "air_cushion" => {
            let hottest = answers.duties.iter().map(|duty| duty.held.gauge.base()).fold(0.0, f64::max);
            let opening = answers.coolant.cap_opening;
            Ends::of(opening.likely.base() - hottest, opening.low.base() - hottest)
        }
        "boiling" if answers.boils() => Ends::FAILS,
        "boiling" => {
            let margins = || answers.duties.iter().map(|duty| duty.least_margin());
            let likely = margins().map(|margin| margin.likely.base()).fold(f64::INFINITY, f64::min);
            let low = margins().map(|margin| margin.low.base()).fold(f64::INFINITY, f64::min);
            Ends::of(likely, if boils_at_unfavourable_end(answers) { f64::NEG_INFINITY } else { low })
        }
        "hot_stop" => {
            let (margin, spread) = (answers.hot_stop.held.margin, answers.hot_stop.spread);
            let end = |margin: f64, hottest: f64| if margin > 0.0 { -hottest } else { f64::NEG_INFINITY };
            Ends::of(end(margin.likely.base(), spread.likely.base()), end(margin.low.base(), spread.high.base()))
        }
        "cooling" if answers.boils() => Ends::FAILS,
        "cooling" => {
            let hottest = answers.duties.iter().map(|duty| duty.outlet.base()).fold(0.0, f64::max);
            let unfavourable = boils_at_unfavourable_end(answers).then_some(f64::NEG_INFINITY);
            Ends { likely: Some(-hottest), unfavourable }
        }
        _ => Ends::default(),
    }
}

fn low_is_worse<Q: Measured>(estimate: &Estimate<Q>) -> Ends {
    Ends::of(estimate.likely.base(), estimate.low.base())
}

/// Whether a duty boils at the unfavourable end of heat or radiator: the radiator's verdict says so.
fn boils_at_unfavourable_end(answers: &Answers) -> bool {
    answers.verdicts.iter().any(|verdict| verdict.key == "cooling" && verdict.state != State::Holds)
}
