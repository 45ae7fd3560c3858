//! Where a map is over its pressure limit, in words: for the limit at light load and the one under load, each by itself.

use super::{Map, MapCaseKind, MapState};
use crate::quantity::si::AngularVelocity;
use crate::quantity::{AbsolutePressure, Amount, GaugePressure, Kind, Measured};
use crate::say;
use crate::study::{Duty, Sentence};
use std::ops::Range;

/// Where a column of the map is over the limit, from one manifold pressure to another; `None` where that is the end of the
/// rows the limit applies to.
struct Stretch {
    from: Option<AbsolutePressure>,
    to: Option<AbsolutePressure>,
}

impl Map {
    /// The rows at which the limit at light load applies, and those of the limit under load.
    #[must_use]
    pub fn rows_of_limits(&self) -> [Range<usize>; 2] {
        let rows = self.grid.manifold.points;
        let first = (0..rows).find(|row| self.grid.manifold.at(*row as f64) >= self.load_from).unwrap_or(rows);
        [0..first, first..rows]
    }

    /// Where a column is over the limit, within some rows.
    fn stretches(&self, column: usize, rows: Range<usize>, over: impl Fn(&MapState) -> f64) -> Vec<Stretch> {
        let value = |row: usize| self.cell(column, row).and_then(|cell| cell.state()).map(&over);
        let mut all: Vec<Stretch> = Vec::new();
        let mut before: Option<f64> = None;
        let mut open = false;
        let first = rows.start;
        for row in rows {
            let now = value(row);
            let is = now.is_some_and(|excess| excess > 0.0);
            if is != open {
                // Beside a place without an answer the stretch ends at the last row that has one.
                let place = match (before, now) {
                    (Some(a), Some(b)) => Some(row as f64 - 1.0 + a / (a - b)),
                    (Some(_), None) => Some(row as f64 - 1.0),
                    (None, Some(_)) if row > first => Some(row as f64),
                    _ => None,
                };
                let at = place.map(|place| self.grid.manifold.at(place));
                if is {
                    all.push(Stretch { from: at, to: None });
                } else if let Some(last) = all.last_mut() {
                    last.to = at;
                }
                open = is;
            }
            before = now;
        }
        all
    }

    /// The column of a duty's speed, or the nearest slower one that is over a limit somewhere, or the nearest faster one.
    fn column_over(&self, duty: Duty, over: impl Fn(&MapState) -> f64) -> usize {
        let own = self.column(self.speed_of(duty));
        let passes = |column: &usize| {
            let mut states = (0..self.grid.manifold.points).filter_map(|row| self.cell(*column, row)?.state());
            states.any(|state| over(state) > 0.0)
        };
        (0..=own).rev().chain(own + 1..self.grid.rpm.points).find(passes).unwrap_or(own)
    }

    /// " at 2167 rpm", where the speed makes a difference; else nothing.
    pub(super) fn at_speed(&self, before: &'static str, rpm: AngularVelocity) -> Sentence {
        if self.feels_speed() { say![before, Amount::of(rpm)] } else { Sentence::default() }
    }

    /// Where the crankcase passes its pressure limit.
    pub(super) fn says_pressure(&self, kind: MapCaseKind) -> Sentence {
        let over = |state: &MapState| state.case(kind).gauge.base() - state.pressure_limit.base();
        let (mut all, mut passed) = (0, 0);
        for state in self.states() {
            all += 1;
            passed += usize::from(over(state) > 0.0);
        }
        let blow_by = format!("At the {} blow-by", kind.name());
        if passed == 0 || passed == all {
            let does = if passed == 0 { "stays within" } else { "passes" };
            return say![blow_by, " the crankcase ", does, " its pressure limit everywhere on the map."];
        }
        let column = self.column_over(Duty::FullThrottle, over);
        let speed = self.at_speed(" and ", self.grid.rpm.at(column as f64));
        let mut sentence = say![blow_by, speed, " the crankcase passes its pressure limit"];
        let names = [say![" at light load "], say![" under load, from ", Amount::of(self.load_from), " on, "]];
        let mut begun = false;
        for (rows, name) in self.rows_of_limits().into_iter().zip(names) {
            let mut states = rows.clone().filter_map(|row| self.cell(column, row)?.state());
            let Some(limit) = states.next().map(|state| state.pressure_limit) else { continue };
            let stretches = told(&self.stretches(column, rows, over), begun);
            sentence = say![sentence, if begun { ";" } else { ":" }, name, stretches, allowed(limit)];
            begun = true;
        }
        say![sentence, "."]
    }
}

/// " (0.5 kPa allowed)".
fn allowed(limit: GaugePressure) -> Sentence {
    say![" (", Amount::of_kind(limit, Kind::CrankcasePressure), " allowed)"]
}

/// "between 30 kPa and 40 kPa and above 50 kPa in the manifold"; the manifold is named once.
fn told(stretches: &[Stretch], named: bool) -> Sentence {
    let mut said = Sentence::default();
    for (i, stretch) in stretches.iter().enumerate() {
        let one = match (stretch.from, stretch.to) {
            (None, None) => say!["everywhere"],
            (Some(from), None) => say!["above ", Amount::of(from)],
            (None, Some(to)) => say!["below ", Amount::of(to)],
            (Some(from), Some(to)) => say!["between ", Amount::of(from), " and ", Amount::of(to)],
        };
        said = say![said, if i > 0 { " and " } else { "" }, one];
    }
    let nowhere = stretches.is_empty();
    let place = if named || nowhere || matches!(stretches, [Stretch { from: None, to: None }]) {
        ""
    } else {
        " in the manifold"
    };
    if nowhere { say!["nowhere"] } else { say![said, place] }
}
