//! Thermostat settings compared, in words made from their numbers.

mod beside;

use super::{Answers, SetPointAnswers, SetPointDuty};
use crate::heat::FanState;
use crate::quantity::si::{TemperatureInterval, ThermodynamicTemperature, Velocity};
use crate::quantity::{Amount, Measured};
use crate::say;
use crate::study::{Duty, Section, Sentence, defaults};

/// Below this road speed a duty stands for traffic, m/s: walking pace to a slow bicycle.
const TRAFFIC: f64 = 15.0 / 3.6;
/// No road air is hotter, as for the input of the hottest day: 55 °C, in K.
pub(in crate::study) const HOTTEST_ROAD_AIR: f64 = 328.15;
/// Temperatures closer than this are told as the same, K.
const SAME: f64 = 0.05;

/// "idle in traffic", "a hill at 80 km/h": a duty with the road speed that goes with it.
pub(in crate::study::answers) fn when(duty: Duty, road_speed: Velocity) -> Sentence {
    let name = match duty {
        Duty::Idle => "at idle",
        Duty::Cruise => "at cruise",
        Duty::Hill => "on a hill",
        Duty::FullThrottle => "at full throttle",
        Duty::Overrun => "on overrun",
    };
    if road_speed.base() < TRAFFIC { say![name, " in traffic"] } else { say![name, " (", Amount::of(road_speed), ")"] }
}

/// "a", "a and b", "a, b and c".
pub(in crate::study::answers) fn listed(pieces: Vec<Sentence>) -> Sentence {
    let last = pieces.len().saturating_sub(1);
    let mut sentence = Sentence::default();
    for (i, piece) in pieces.into_iter().enumerate() {
        let before = match i {
            0 => "",
            i if i == last => " and ",
            _ => ", ",
        };
        sentence = say![sentence, before, piece];
    }
    sentence
}

/// One duty with every setting, cooler ones first.
struct Across<'a> {
    duty: Duty,
    at: Vec<(&'a SetPointAnswers, &'a SetPointDuty)>,
}

/// What the settings do at one duty.
enum Finding {
    /// It boils with every one.
    Boils,
    /// The radiator rules whatever is fitted: this temperature.
    Same(ThermodynamicTemperature),
    /// It rules for those up to this setting, the others are hotter, or boil.
    UpTo { last: ThermodynamicTemperature, at: ThermodynamicTemperature, hotter: Option<TemperatureInterval> },
    /// The fan's switch holds it at this temperature with these settings; the warmest is cooler or hotter, or boils.
    Switch { at: ThermodynamicTemperature, with: Vec<ThermodynamicTemperature>, warmest: Option<Sentence> },
    /// The thermostat rules: the hottest and the coolest differ by so much.
    Differ(TemperatureInterval),
}

impl Across<'_> {
    fn when(&self) -> Sentence {
        self.at.first().map_or_else(Sentence::default, |(_, at)| when(self.duty, at.road_speed))
    }

    fn finding(&self) -> Option<Finding> {
        let settled: Vec<_> = self.at.iter().filter_map(|(row, at)| Some((row, at, at.outlet?))).collect();
        let boils = settled.len() < self.at.len();
        let (Some((_, _, coolest)), Some((_, _, hottest))) = (settled.first(), settled.last()) else {
            return Some(Finding::Boils);
        };
        let switched: Vec<_> = settled.iter().filter(|(_, at, _)| at.fan.cycles()).collect();
        if let Some((_, _, at)) = switched.first() {
            let own = switched
                .last()
                .is_some_and(|(row, ..)| self.at.last().is_some_and(|(last, _)| last.set_point == row.set_point));
            let warmest = (!own).then(|| match self.at.last().and_then(|(_, at)| at.outlet) {
                Some(outlet) => say!["the warmest settles at ", Amount::of(outlet)],
                None => say!["the warmest boils"],
            });
            let all = switched.len() == self.at.len();
            let with = if all { Vec::new() } else { switched.iter().map(|(row, ..)| row.set_point).collect() };
            return Some(Finding::Switch { at: *at, with, warmest });
        }
        let spread = TemperatureInterval::from_base(hottest.base() - coolest.base());
        let Some((row, _, at)) = settled.iter().rev().find(|(_, at, _)| at.radiator_rules) else {
            return Some(Finding::Differ(spread));
        };
        if !boils && spread.base().abs() < SAME {
            return Some(Finding::Same(*at));
        }
        let hotter = (!boils).then(|| TemperatureInterval::from_base(hottest.base() - at.base()));
        Some(Finding::UpTo { last: row.set_point, at: *at, hotter })
    }
}

impl Answers {
    fn across(&self) -> impl Iterator<Item = Across<'_>> {
        Duty::ALL.into_iter().map(|duty| {
            let at = self.set_points.iter().filter_map(|row| Some((row, row.duties.get(duty.index())?))).collect();
            Across { duty, at }
        })
    }

    /// Thermostats compared in words: where the setting matters, how hot an air it holds, what a cooler and a warmer one
    /// cost, and which to prefer. Every number is one of the rows'. Nothing without settings to compare.
    #[must_use]
    pub fn set_point_comparison(&self) -> Section {
        let mut section = Section::new("set_points", "Thermostats compared");
        if self.set_points.is_empty() {
            return section;
        }
        section.words("matters", "Where the set-point matters", self.says_where_it_matters());
        if let Some(fitted) = self.set_points.iter().find(|row| row.fitted) {
            section.words("reserve", "What the fitted one holds", self.says_reserve(fitted));
        }
        self.says_beside(&mut section);
        section.words("advice", "Advice", self.set_point_advice());
        section
    }

    fn says_where_it_matters(&self) -> Sentence {
        let [mut same, mut partly, mut switch, mut differ, mut boil] = [const { Vec::new() }; 5];
        for across in self.across() {
            let when = across.when();
            match across.finding() {
                None => {}
                Some(Finding::Boils) => boil.push(when),
                Some(Finding::Same(at)) => same.push(say![when, ": ", Amount::of(at)]),
                Some(Finding::UpTo { last, at, hotter }) => {
                    let than = match hotter {
                        Some(by) => say!["the warmest runs ", Amount::of(by), " hotter"],
                        None => say!["the warmest boils"],
                    };
                    let all = say![when, " up to ", Amount::of(last), " (", Amount::of(at), "; ", than, ")"];
                    partly.push(all);
                }
                Some(Finding::Switch { at, with, warmest }) => {
                    let with = match with.as_slice() {
                        [] => say!["whatever is fitted"],
                        some => say!["with ", listed(some.iter().map(|one| say![Amount::of(*one)]).collect())],
                    };
                    let warmest = warmest.map_or_else(Sentence::default, |told| say!["; ", told]);
                    switch.push(say![when, " (", Amount::of(at), " ", with, warmest, ")"]);
                }
                Some(Finding::Differ(by)) => differ.push(say![when, " by ", Amount::of(by)]),
            }
        }
        let mut sentences = Vec::new();
        if !same.is_empty() {
            let all = listed(same);
            sentences.push(say![
                "All set-points give the same temperature, because the radiator is the limit, ",
                all,
                "."
            ]);
        }
        if !partly.is_empty() {
            sentences.push(say!["The radiator is the limit for those ", listed(partly), "."]);
        }
        if !switch.is_empty() {
            sentences.push(say![
                "The fan's switch, taken the same with each, sets the temperature, where it turns the fan on and off, ",
                listed(switch),
                "."
            ]);
        }
        if !boil.is_empty() {
            sentences.push(say!["It boils whatever is fitted ", listed(boil), ": no set-point mends that."]);
        }
        if !differ.is_empty() {
            let begins = if sentences.is_empty() { "The" } else { "Elsewhere the" };
            sentences.push(say![begins, " warmest runs hotter than the coolest ", listed(differ), "."]);
        }
        spaced(sentences)
    }

    /// "The fitted 82.2 °C holds in any road air at cruise (90 km/h), in air up to 41 °C at idle in traffic; …".
    fn says_reserve(&self, fitted: &SetPointAnswers) -> Sentence {
        let [mut any, mut holds, mut switch, mut lost] = [const { Vec::new() }; 4];
        for (duty, at) in Duty::ALL.into_iter().zip(&fitted.duties) {
            let when = when(duty, at.road_speed);
            let boils = match at.boils_above {
                Some(air) if air.base() > HOTTEST_ROAD_AIR => say!["it boils in no road air"],
                Some(air) => say!["it boils above ", Amount::of(air)],
                None => say!["it boils in any air"],
            };
            let still = at.outlet.is_some() && !at.radiator_rules;
            match at.holds_to {
                _ if at.fan.cycles() && at.radiator_rules => switch.push(say![when, ", where ", boils]),
                Some(air) if still && air.base() > HOTTEST_ROAD_AIR => any.push(when),
                Some(air) if still => holds.push(say!["up to ", Amount::of(air), " ", when, ", where ", boils]),
                Some(air) => lost.push(say!["only up to ", Amount::of(air), " ", when, ", where ", boils]),
                None => lost.push(say!["in no air ", when, ", where ", boils]),
            }
        }
        let name = say!["The fitted ", Amount::of(fitted.set_point)];
        let mut sentences = Vec::new();
        if !any.is_empty() {
            sentences.push(say!["holds its temperature in any road air ", listed(any), "."]);
        }
        if !holds.is_empty() {
            sentences.push(say!["holds it in air ", listed(holds), "."]);
        }
        if !switch.is_empty() {
            sentences.push(say![
                "is fully open before the fan comes on and leaves the temperature to the fan's switch ",
                listed(switch),
                "."
            ]);
        }
        if !lost.is_empty() {
            sentences.push(say!["gives way to the radiator on the hottest day: it holds ", listed(lost), "."]);
        }
        let begun = sentences.into_iter().enumerate();
        spaced(begun.map(|(i, told)| if i == 0 { say![name.clone(), " ", told] } else { say!["It ", told] }).collect())
    }

    /// Which of the thermostat settings to prefer, and what speaks against a cooler one.
    #[must_use]
    pub fn set_point_advice(&self) -> Sentence {
        let allowance = defaults::boiling_allowance().likely.base();
        let keeps = |row: &&SetPointAnswers| {
            row.least_margin.base() >= allowance && row.duties.iter().all(|duty| duty.outlet.is_some())
        };
        let duties = || self.set_points.iter().flat_map(|row| &row.duties);
        let ruled = duties().any(|duty| duty.outlet.is_some() && duty.radiator_rules && !duty.fan.cycles());
        let late = duties().any(|duty| duty.fan == FanState::TooLate);
        let same = if ruled { " Where the radiator sets the temperature every setting gives the same." } else { "" };
        match self.set_points.iter().rev().find(keeps) {
            Some(row) => say![
                "The warmest that keeps a margin at every duty is ",
                Amount::of(row.set_point),
                "; a cooler one leaves more, but warms the oil later and leaves more water in it.",
                same
            ],
            None if late => say![
                "None keeps a margin at the unfavourable end of every duty: the fan's switch, which turns it on too late, must \
                 change first, not the thermostat.",
                same
            ],
            None => say![
                "None keeps a margin at the unfavourable end of every duty: the radiator or the air through it, not the \
                 thermostat, must change.",
                same
            ],
        }
    }
}

/// Sentences one after the other.
pub(in crate::study::answers) fn spaced(sentences: Vec<Sentence>) -> Sentence {
    let mut all = Sentence::default();
    for sentence in sentences {
        let between = if all.is_empty() { "" } else { " " };
        all = say![all, between, sentence];
    }
    all
}
