//! What a map says, in words: for whoever cannot see it, and for whoever would rather read.

use super::{Map, MapCase, MapCaseKind, MapComparison, MapLimit, MapState, Variant};
use crate::crankcase::blow_by::standard_volume_flow;
use crate::quantity::si::{AngularVelocity, MassRate, Pressure};
use crate::quantity::{AbsolutePressure, Amount, GaugePressure, Kind, Measured};
use crate::say;
use crate::study::{Choice, Duty, Sentence, State};

impl MapCaseKind {
    /// Its words.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Likely => "likely",
            Self::High => "high",
        }
    }
}

impl Variant {
    /// Its words.
    #[must_use]
    pub fn name(&self) -> String {
        match self {
            Self::Present => "as it is".to_owned(),
            Self::Arranged(arrangement) => arrangement.name().to_owned(),
            Self::ValveStuckShut => "The valve stuck shut".to_owned(),
            Self::BreatherBlocked => "The breather blocked".to_owned(),
            Self::Other(inputs) => inputs.arrangement.name().to_owned(),
        }
    }
}

fn gauge(pressure: GaugePressure) -> Amount {
    Amount::of_kind(pressure, Kind::CrankcasePressure)
}

fn flow(mass: MassRate) -> Amount {
    Amount::of(standard_volume_flow(MassRate::from_base(mass.base().abs())))
}

impl MapCase {
    /// "the breather lets out 12 L/min", and the valve.
    #[must_use]
    pub fn flows(&self) -> Sentence {
        let breather = match self.breather {
            Some(out) if out.base() > 0.0 => say!["the breather lets out ", flow(out)],
            Some(out) if out.base() < 0.0 => say!["the breather draws in ", flow(out)],
            Some(_) => say!["nothing passes the breather"],
            None => say!["no breather is open"],
        };
        match self.valve {
            Some(valve) if valve.base() < 0.0 => say![breather, ", the valve blows back ", flow(valve)],
            Some(valve) => say![breather, ", the valve takes ", flow(valve)],
            None => breather,
        }
    }
}

impl MapState {
    /// The numbers of a cell, a line each.
    #[must_use]
    pub fn lines(&self, kind: MapCaseKind, stop: GaugePressure) -> Vec<Sentence> {
        let case = self.case(kind);
        let mut lines = vec![
            say!["crankcase ", gauge(case.gauge), ", blow-by ", flow(case.blow_by), " (", kind.name(), ")"],
            case.flows(),
        ];
        let against = match self.limit {
            MapLimit::Depression => say!["drawn down to ", gauge(self.deepest), " at the low blow-by"],
            MapLimit::LightLoad | MapLimit::UnderLoad => {
                say![
                    self.limit.name(),
                    " ",
                    gauge(self.pressure_limit),
                    ", at the high blow-by ",
                    gauge(self.high.gauge)
                ]
            }
        };
        lines.push(match self.state {
            State::Holds => say!["holds: ", against],
            State::Thin => say!["little left: ", against],
            State::DoesNotHold => say!["does not hold: ", against],
            State::NotKnown => against,
        });
        if self.high.gauge > stop {
            lines.push(say!["so much moves seals: stop the engine"]);
        }
        lines
    }
}

/// Where something becomes zero along a column, and whether it rises there.
struct Crossing {
    manifold: AbsolutePressure,
    rises: bool,
}

impl Map {
    pub(super) fn column(&self, rpm: AngularVelocity) -> usize {
        let last = self.grid.rpm.points.saturating_sub(1);
        (self.grid.rpm.place(rpm).round().max(0.0) as usize).min(last)
    }

    fn crossings(&self, rpm: AngularVelocity, pick: impl Fn(&MapState) -> Option<f64>) -> Vec<Crossing> {
        let column = self.column(rpm);
        let value = |row: usize| self.cell(column, row)?.state().and_then(&pick);
        (1..self.grid.manifold.points)
            .filter_map(|row| {
                let (below, above) = (value(row - 1)?, value(row)?);
                let place = (row - 1) as f64 + below / (below - above);
                let crossing = Crossing { manifold: self.grid.manifold.at(place), rises: above > below };
                ((below > 0.0) != (above > 0.0)).then_some(crossing)
            })
            .collect()
    }

    pub(super) fn speed_of(&self, duty: Duty) -> AngularVelocity {
        let own = self.marks.iter().find(|mark| mark.duty == duty).map(|mark| mark.rpm);
        // The column's own speed, so that what is said is what was computed.
        self.grid.rpm.at(self.column(own.unwrap_or(self.grid.rpm.from)) as f64)
    }

    /// A speed at which something crosses zero: this one, else the nearest slower, else the nearest faster.
    fn speed_where(&self, rpm: AngularVelocity, pick: impl Fn(&MapState) -> Option<f64>) -> AngularVelocity {
        let own = self.column(rpm);
        let columns = (0..=own).rev().chain(own + 1..self.grid.rpm.points);
        let mut speeds = columns.map(|column| self.grid.rpm.at(column as f64));
        speeds.find(|rpm| !self.crossings(*rpm, &pick).is_empty()).unwrap_or(rpm)
    }

    pub(super) fn states(&self) -> impl Iterator<Item = &MapState> {
        self.cells.iter().filter_map(|cell| cell.state())
    }

    /// Where the breather turns round.
    #[must_use]
    pub fn says_turns(&self, kind: MapCaseKind) -> Sentence {
        let out = |state: &MapState| state.case(kind).breather.map(Measured::base);
        let flows: Vec<f64> = self.states().filter_map(out).collect();
        if flows.is_empty() {
            return say!["There is no breather to turn round."];
        }
        if flows.iter().all(|flow| *flow > 0.0) {
            return say!["The breather lets gas out everywhere on the map."];
        }
        if flows.iter().all(|flow| *flow <= 0.0) {
            return say!["The breather draws fresh air in everywhere on the map."];
        }
        let mut sentence = Sentence::default();
        let usual = self.speed_of(Duty::Cruise);
        let mut speeds = vec![usual];
        let fast = self.speed_of(Duty::FullThrottle);
        // A second speed is worth a sentence if it turns somewhere else, by more than a row.
        let row = self.grid.manifold.at(1.0).base() - self.grid.manifold.from.base();
        let places = |rpm| -> Vec<f64> { self.crossings(rpm, out).iter().map(|one| one.manifold.base()).collect() };
        let (slow, quick) = (places(usual), places(fast));
        if slow.len() != quick.len() || slow.iter().zip(&quick).any(|(a, b)| (a - b).abs() > row) {
            speeds.push(fast);
        }
        for rpm in speeds {
            let found = self.crossings(rpm, out);
            if !sentence.is_empty() {
                sentence = say![sentence, " "];
            }
            sentence = match found.as_slice() {
                [] => say![sentence, "At ", Amount::of(rpm), " the breather does not turn round."],
                [one] if one.rises => say![
                    sentence,
                    "The breather turns round above ",
                    Amount::of(one.manifold),
                    " in the manifold",
                    self.at_speed(" at ", rpm),
                    ": below that it draws fresh air in, above it lets gas out."
                ],
                several => {
                    let mut said = say![sentence, "The breather turns round at "];
                    for (i, one) in several.iter().enumerate() {
                        said = say![said, if i > 0 { " and at " } else { "" }, Amount::of(one.manifold)];
                    }
                    say![said, " in the manifold", self.at_speed(" at ", rpm), "."]
                }
            };
        }
        sentence
    }

    /// Where the crankcase passes its limits.
    #[must_use]
    pub fn says_limits(&self, kind: MapCaseKind) -> Sentence {
        let deepest = self.depression.likely.base();
        let deep = |state: &MapState| Some(-state.deepest.base() - deepest);
        let all = self.states().count();
        if all == 0 {
            return Sentence::default();
        }
        let drawn = self.states().filter(|state| deep(state).is_some_and(|excess| excess > 0.0)).count();
        let pressure = self.says_pressure(kind);
        let shut = self.speed_where(self.speed_of(Duty::Overrun), deep);
        let down = self.crossings(shut, deep).into_iter().rev().find(|crossing| !crossing.rises);
        match (drawn, down) {
            (0, _) => pressure,
            (n, _) if n == all => say![pressure, " It is drawn deeper than allowed everywhere on the map."],
            (_, Some(at)) => say![
                pressure,
                " It is drawn deeper than allowed below ",
                Amount::of(at.manifold),
                " in the manifold",
                self.at_speed(" at ", shut),
                "."
            ],
            (n, None) => say![pressure, format!(" It is drawn deeper than allowed in {n} of {all} places.")],
        }
    }

    /// Everything worth saying of the map, the unsolved cells included.
    #[must_use]
    pub fn says(&self, kind: MapCaseKind) -> Sentence {
        let mut sentence = say![self.says_turns(kind), " ", self.says_limits(kind)];
        let gaps: Vec<_> = self.cells.iter().filter_map(super::MapCell::unsolved).collect();
        if let Some(first) = gaps.first() {
            let (count, all) = (gaps.len(), self.cells.len());
            let reason = first.reason().to_owned();
            let why = if count == all {
                "No place has an answer: ".to_owned()
            } else {
                format!(" {count} of {all} places have no answer: ")
            };
            sentence = if count == all { say![why, reason, "."] } else { say![sentence, why, reason, "."] };
        }
        if gaps.len() < self.cells.len() && !self.feels_speed() {
            sentence = say![
                sentence,
                " Engine speed makes no difference here: what passes the rings in a second follows from the cylinder \
                 pressure alone, and no line breathes through the engine's air filter."
            ];
        }
        sentence
    }
}

impl MapComparison {
    /// By how much the other ventilation stands higher or lower.
    #[must_use]
    pub fn says(&self, kind: MapCaseKind) -> Sentence {
        let (columns, rows) = (self.present.grid.rpm.points, self.present.grid.manifold.points);
        let all = (0..rows).flat_map(|row| (0..columns).map(move |column| (column, row)));
        let differences: Vec<f64> =
            all.filter_map(|(column, row)| self.difference(column, row, kind)).map(Measured::base).collect();
        let name = self.other.variant.name();
        if differences.is_empty() {
            return say![name, ": nowhere have both an answer. ", self.other.says(kind)];
        }
        let (least, most) =
            differences.iter().fold((f64::INFINITY, f64::NEG_INFINITY), |(a, b), one| (a.min(*one), b.max(*one)));
        let told = |base: f64| Amount::of_kind(Pressure::from_base(base), Kind::CrankcasePressure);
        say![
            name,
            ": the crankcase stands ",
            told(least),
            " to ",
            told(most),
            " against now, below zero being lower. With it: ",
            self.other.says(kind)
        ]
    }
}
