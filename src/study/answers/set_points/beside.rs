//! What a cooler and a warmer thermostat cost beside the one fitted.

use super::{SAME, listed, spaced};
use crate::heat::WarmUpEnd;
use crate::quantity::si::Time;
use crate::quantity::{Amount, Kind, Measured};
use crate::say;
use crate::study::{Answers, Section, Sentence, SetPointAnswers};

impl Answers {
    /// The next cooler and the coolest, the next warmer and the warmest beside the fitted one; those there are.
    pub(super) fn says_beside(&self, section: &mut Section) {
        let Some(at) = self.set_points.iter().position(|row| row.fitted) else { return };
        let Some((cooler, [fitted, warmer @ ..])) = self.set_points.split_at_checked(at) else { return };
        let both = |near: &[Option<&SetPointAnswers>], says: fn(&SetPointAnswers, &SetPointAnswers) -> Sentence| {
            let rows = near.iter().flatten().map(|row| says(row, fitted)).collect::<Vec<_>>();
            say!["Beside the fitted ", Amount::of(fitted.set_point), ", ", spaced(rows)]
        };
        let (near, far) = two(cooler.last(), cooler.first());
        if near.is_some() {
            let told = both(&[near, far], says_cooler);
            section.words("cooler_costs", "What a cooler one costs", told);
            let late = |row: &SetPointAnswers| {
                let end = row.warm_up.as_ref().map(|warm| warm.oil_warm);
                matches!(end, Ok(WarmUpEnd::NeverReached { .. }))
            };
            if [near, far, Some(fitted)].into_iter().flatten().any(late) {
                let line = say![
                    "oil counts as warm at ",
                    Amount::of(self.engine_oil.warm),
                    ": an assumption (common practice) unless you have set it; another may be set with the oil"
                ];
                section.words("warm_oil_line", "Warm oil", line);
            }
        }
        let (near, far) = two(warmer.first(), warmer.last());
        if near.is_some() {
            let told = both(&[near, far], says_warmer);
            section.words("warmer_costs", "What a warmer one costs", told);
        }
    }
}

/// The nearest and the farthest; the farthest only where it is another.
fn two<'a>(
    near: Option<&'a SetPointAnswers>,
    far: Option<&'a SetPointAnswers>,
) -> (Option<&'a SetPointAnswers>, Option<&'a SetPointAnswers>) {
    let same = near.map(|row| row.set_point) == far.map(|row| row.set_point);
    (near, if same { None } else { far })
}

/// "5.0 K instead of 12.0 K", or `None` when both are known to be the same.
fn instead<Q: Measured>(cooler: Option<Q>, warmer: Option<Q>, same: f64) -> Option<Sentence> {
    let told = |value: Option<Q>| value.map_or_else(|| say!["an unknown figure"], |value| say![Amount::of(value)]);
    match (cooler, warmer) {
        (None, None) => None,
        (Some(a), Some(b)) if (a.base() - b.base()).abs() < same => None,
        (a, b) => Some(say![told(a), " instead of ", told(b)]),
    }
}

/// What a cooler setting costs beside the fitted one.
fn says_cooler(cooler: &SetPointAnswers, fitted: &SetPointAnswers) -> Sentence {
    let of = |row: &SetPointAnswers| (row.moisture.trip_margin.as_ref().ok().copied(), row.moisture.warm_margin());
    let ((trip, warm), (fitted_trip, fitted_warm)) = (of(cooler), of(fitted));
    let mut costs = Vec::new();
    if let Some(words) = instead(trip, fitted_trip, SAME) {
        costs.push(say!["on a short cold trip the crankcase wall stands ", words, " from the dew point"]);
    }
    if let Some(words) = instead(warm, fitted_warm, SAME) {
        costs.push(say!["with the engine warm ", words]);
    }
    let wet = if costs.is_empty() { "" } else { " (below zero it gets wet)" };
    let mut costs = if costs.is_empty() { costs } else { vec![say![listed(costs), wet]] };
    if let (Ok(cool), Ok(warm)) = (&cooler.warm_up, &fitted.warm_up)
        && differ(&cool.oil_warm, &warm.oil_warm)
    {
        costs.push(say!["from the coldest start to warm oil it ", warms(&cool.oil_warm, &warm.oil_warm)]);
    }
    let name = say![Amount::of(cooler.set_point), ": "];
    if costs.is_empty() {
        return say![name, "no difference in dew margins, nor in how soon the oil is warm."];
    }
    say![name, listed(costs), "."]
}

/// What the oil's warm-up does with a cooler setting, beside the fitted one's.
fn warms(cool: &WarmUpEnd, fitted: &WarmUpEnd) -> Sentence {
    let time = |after: &Time| Amount::of_kind(*after, Kind::Duration);
    let never = "never quite gets there: it stays at ";
    match (cool, fitted) {
        (WarmUpEnd::Reached { after }, WarmUpEnd::Reached { after: other }) => {
            say!["takes ", time(after), " instead of ", time(other)]
        }
        (WarmUpEnd::Reached { after }, WarmUpEnd::NeverReached { .. }) => {
            say!["takes ", time(after), ", where the fitted one never quite gets there"]
        }
        (WarmUpEnd::NeverReached { settles_at }, WarmUpEnd::Reached { after }) => {
            say![never, Amount::of(*settles_at), ", where the fitted one takes ", time(after)]
        }
        (WarmUpEnd::NeverReached { settles_at }, WarmUpEnd::NeverReached { settles_at: other }) => {
            say![never, Amount::of(*settles_at), " instead of ", Amount::of(*other)]
        }
    }
}

/// Whether two warm-ups end otherwise, by a second or a tenth of a kelvin.
fn differ(one: &WarmUpEnd, other: &WarmUpEnd) -> bool {
    match (one, other) {
        (WarmUpEnd::Reached { after: a }, WarmUpEnd::Reached { after: b }) => (a.base() - b.base()).abs() >= 1.0,
        (WarmUpEnd::NeverReached { settles_at: a }, WarmUpEnd::NeverReached { settles_at: b }) => {
            (a.base() - b.base()).abs() >= 0.1
        }
        _ => true,
    }
}

/// What a warmer setting costs beside the fitted one.
fn says_warmer(warmer: &SetPointAnswers, fitted: &SetPointAnswers) -> Sentence {
    let mut costs = Vec::new();
    let boils = |row: &SetPointAnswers| row.duties.iter().any(|duty| duty.outlet.is_none());
    if boils(warmer) && !boils(fitted) {
        costs.push(say!["it boils where the fitted one does not"]);
    }
    if let Some(words) = instead(Some(warmer.least_margin), Some(fitted.least_margin), SAME) {
        costs.push(say!["the smallest boiling margin is ", words]);
    }
    if let Some(words) = instead(Some(warmer.in_tank), Some(fitted.in_tank), 1e-6) {
        costs.push(say!["the hottest duty drives ", words, " into the tank"]);
    }
    match (warmer.hot_mark, fitted.hot_mark) {
        (None, Some(mark)) => costs.push(say!["the tank spills instead of standing at ", Amount::of(mark)]),
        (warm, cool) => {
            if let Some(words) = instead(warm, cool, 1e-4) {
                costs.push(say!["the hot level is ", words]);
            }
        }
    }
    let oil = |row: &SetPointAnswers| Some(row.hottest_oil().state.temperature.likely);
    if let Some(words) = instead(oil(warmer), oil(fitted), SAME) {
        costs.push(say!["the oil gets as hot as ", words]);
    }
    if let Some(words) = instead(Some(warmer.hottest_metal()), Some(fitted.hottest_metal()), SAME) {
        costs.push(say!["the metal as hot as ", words]);
    }
    let name = say![Amount::of(warmer.set_point), ": "];
    if costs.is_empty() {
        return say![name, "nothing at the hottest duty, where the radiator sets the temperature with either."];
    }
    say![name, listed(costs), "."]
}
