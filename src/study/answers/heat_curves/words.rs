//! What the heat curves say, in words made from their numbers.

use super::{
    DutyHeatCurves, HeatColumn, HeatCurves, HeatDriven, HeatMap, HeatMark, HeatPoint, HeatRoad, HeatRule, HeatStretch,
};
use crate::quantity::si::{Power, ThermodynamicTemperature, Velocity};
use crate::quantity::{Amount, Estimate, Kind, Measured};
use crate::say;
use crate::study::Sentence;
use crate::study::answers::HOTTEST_ROAD_AIR;
use crate::study::answers::set_points::{listed, spaced, when};

/// Power and engine speed that differ by less are the same.
const NEAR: f64 = 0.02;

impl HeatRule {
    /// A word for a table.
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            Self::Losses => "losses",
            Self::Thermostat => "thermostat",
            Self::Radiator => "radiator",
            Self::Boils => "boils",
        }
    }

    /// Its words in a key.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Losses => "runs cold, thermostat shut",
            Self::Thermostat => "thermostat rules",
            Self::Radiator => "radiator rules",
            Self::Boils => "boils",
        }
    }

    /// Its words in a sentence.
    const fn told(self) -> &'static str {
        match self {
            Self::Losses => "losses alone rule and the engine runs cold",
            Self::Thermostat => "the thermostat rules",
            Self::Radiator => "the radiator rules",
            Self::Boils => "it boils",
        }
    }
}

impl HeatRoad {
    /// Its words.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Level => "On the level",
            Self::Climbing => "Climbing",
        }
    }
}

impl HeatPoint {
    /// "coolant 98.2 °C, the radiator rules".
    #[must_use]
    pub fn line(&self) -> Sentence {
        match self.outlet {
            Some(outlet) => say!["coolant ", Amount::of(outlet), ", ", self.rule.told()],
            None => say![self.rule.told()],
        }
    }
}

/// Whether some air may be met on the road.
fn met(air: Option<ThermodynamicTemperature>) -> Option<ThermodynamicTemperature> {
    air.filter(|air| air.base() <= HOTTEST_ROAD_AIR)
}

impl DutyHeatCurves {
    /// The duty with its road speed.
    #[must_use]
    pub fn when(&self) -> Sentence {
        when(self.duty, self.road_speed)
    }

    /// How the coolant goes with the air: where the fitted thermostat gives way, where it boils, from where on all are alike.
    #[must_use]
    pub fn says(&self) -> Sentence {
        let Some(fitted) = self.fitted() else { return Sentence::default() };
        let name = say!["the fitted ", Amount::of(fitted.set_point)];
        let mut sentences = Vec::new();
        sentences.push(match (met(fitted.holds_to), fitted.holds_to) {
            (Some(air), _) => say![
                self.when(),
                " ",
                name,
                " rules in air up to ",
                Amount::of(air),
                "; beyond it the radiator does, and the coolant follows the air."
            ],
            (None, Some(_)) => say![self.when(), " ", name, " rules in any road air."],
            (None, None) if fitted.boils_above.is_none() => say![self.when(), " ", name, " rules in no air."],
            (None, None) => say![self.when(), " ", name, " rules in no air: the radiator does."],
        });
        if let Some(air) = fitted.opens_at {
            sentences.push(say!["Below ", Amount::of(air), " it stays shut and the engine runs cold."]);
        }
        sentences.push(match (met(fitted.boils_above), fitted.boils_above) {
            (Some(air), _) => say!["It boils above ", Amount::of(air), "."],
            (None, Some(_)) => say!["It boils in no road air."],
            (None, None) => say!["It boils in any air."],
        });
        let warmest = self.set_points.last().and_then(|curve| met(curve.holds_to));
        if let (Some(air), true) = (warmest, self.set_points.len() > 1) {
            sentences.push(say!["Above ", Amount::of(air), " all set-points give the same temperature."]);
        }
        begun(spaced(sentences))
    }

    /// The first of these that is enough for the likely heat.
    fn finding(&self) -> Enough {
        if self.at_full_open.is_some_and(|carried| carried.likely >= self.heat.likely) {
            Enough::FullyOpen
        } else if self.at_limit.likely >= self.heat.likely {
            Enough::Hotter
        } else {
            Enough::Not
        }
    }

    /// The heat against what the radiator carries.
    #[must_use]
    pub fn says_capacity(&self) -> Sentence {
        let spread = |power: Estimate<Power>| (power, Kind::Power);
        let open = match self.at_full_open {
            Some(carried) => say![spread(carried), " just fully open and "],
            None => say!["nothing before it is fully open, which lies above the limit, and "],
        };
        let heat = spread(self.heat);
        let limit = spread(self.at_limit);
        begun(say![self.when(), " the coolant takes ", heat, "; the radiator carries ", open, limit, " at the limit."])
    }
}

/// Whether the radiator carries the likely heat, and how hot the coolant must be for it.
#[derive(Clone, Copy, PartialEq)]
enum Enough {
    FullyOpen,
    Hotter,
    Not,
}

/// A sentence with a capital at its beginning.
fn begun(sentence: Sentence) -> Sentence {
    sentence.capitalised()
}

impl HeatCurves {
    /// At which duties the radiator carries the heat on the hottest day, and how hot the coolant gets for it.
    #[must_use]
    pub fn says_capacity(&self) -> Sentence {
        let of = |enough: Enough| -> Vec<Sentence> {
            self.duties.iter().filter(|duty| duty.finding() == enough).map(DutyHeatCurves::when).collect()
        };
        let mut sentences = Vec::new();
        let (open, hotter, not) = (of(Enough::FullyOpen), of(Enough::Hotter), of(Enough::Not));
        if !open.is_empty() {
            let at = Amount::of(self.full_open);
            sentences.push(say![
                "the radiator carries the likely heat before the coolant is hotter than ",
                at,
                ", where the \
                thermostat is fully open, ",
                listed(open),
                "."
            ]);
        }
        if !hotter.is_empty() {
            let at = Amount::of(self.limit);
            sentences.push(say![
                "only hotter than that, but below the boiling limit of ",
                at,
                ", ",
                listed(hotter),
                "."
            ]);
        }
        if !not.is_empty() {
            let at = Amount::of(self.limit);
            sentences.push(say!["not even at the boiling limit of ", at, " ", listed(not), "."]);
        }
        let told = sentences.into_iter().enumerate();
        let told = told.map(|(i, told)| if i == 0 { told } else { begun(told) }).collect();
        say!["In air of ", Amount::of(self.hottest), ", the hottest day: ", spaced(told)]
    }
}

impl HeatMap {
    /// What is to be said of a place on the map; `None` off it.
    #[must_use]
    pub fn line_at(&self, speed: Velocity, ambient: ThermodynamicTemperature) -> Option<Sentence> {
        Some(self.nearest(speed, ambient)?.map_or_else(|| say![told(None)], HeatPoint::line))
    }

    /// Who rules at which road speeds on the hottest day, and in the coolest air each border is met in.
    #[must_use]
    pub fn says(&self) -> Sentence {
        let day = say![self.road.name(), " in air of ", Amount::of(self.hottest), ", the hottest day, "];
        let mut sentences = vec![match self.stretches.as_slice() {
            [only] => say![day, told(only.rule), " at every speed."],
            all => {
                let rules = HeatRule::ALL.into_iter().map(Some).chain([None]);
                let rules = rules.filter(|rule| all.iter().any(|one| one.rule == *rule));
                say![day, listed(rules.map(|rule| say![told(rule), " ", places(all, rule)]).collect()), "."]
            }
        }];
        // Not even in the coldest air counts before the coolest air.
        let never = |pick: fn(&HeatColumn) -> Option<ThermodynamicTemperature>| {
            let known = self.columns.iter().flatten();
            let mut without = known.filter(|column| pick(column).is_none()).map(|column| column.speed);
            without.next().map(|first| match without.next_back() {
                None => say!["at ", Amount::of(first)],
                Some(last) => say!["between ", Amount::of(first), " and ", Amount::of(last)],
            })
        };
        let coolest = |pick: fn(&HeatColumn) -> Option<ThermodynamicTemperature>| {
            let met = self.columns.iter().flatten().filter_map(|column| Some((pick(column)?, column.speed)));
            met.min_by(|a, b| a.0.base().total_cmp(&b.0.base())).filter(|(air, _)| air.base() <= HOTTEST_ROAD_AIR)
        };
        sentences.push(match (never(|column| column.holds_to), coolest(|column| column.holds_to)) {
            (Some(at), _) => say!["There is no air so cold that the thermostat rules ", at, "."],
            (None, Some((air, speed))) => {
                say!["The radiator takes over first at ", Amount::of(speed), ", in air above ", Amount::of(air), "."]
            }
            (None, None) => say!["No road air is so hot that the radiator takes over."],
        });
        sentences.push(match (never(|column| column.boils_above), coolest(|column| column.boils_above)) {
            (Some(at), _) => say!["It boils in any air ", at, "."],
            (None, Some((air, speed))) => {
                say!["It boils first at ", Amount::of(speed), ", in air above ", Amount::of(air), "."]
            }
            (None, None) => say!["It boils in no road air."],
        });
        spaced(sentences)
    }

    /// What the heat at each road speed rests on, and why the duty points beside may differ.
    #[must_use]
    pub fn says_basis(&self) -> Sentence {
        let grade = Amount::of_kind(self.grade, Kind::Share);
        let road = match self.road {
            HeatRoad::Level => say!["on the level"],
            HeatRoad::Climbing if self.grade_of_hill => {
                say!["up ", grade, ", the grade that the hill duty climbs at its speed with its power"]
            }
            HeatRoad::Climbing => {
                say!["up ", grade, ", a usual grade, as the hill duty's power and speed tell none"]
            }
        };
        let mut sentences = vec![say![
            "Heat and engine speed are those of holding the speed ",
            road,
            ": power by mass, drag area and rolling resistance of the car in air of the hottest day, the highest gear that leaves ",
            Amount::of_kind(self.gear_reserve, Kind::Share),
            " of full throttle in reserve, heat as at the duty points."
        ]];
        let differing: Vec<Sentence> = self.marks.iter().filter_map(HeatMark::entered_and_driven).collect();
        if !differing.is_empty() {
            sentences.push(say![
                "The duty points are marked with their own answers, and may lie on ground that says something else:"
            ]);
            sentences.extend(differing);
        }
        spaced(sentences)
    }
}

impl HeatMark {
    /// "Cruise (90 km/h) was entered with 18 kW at 2200 rpm, this road takes 14 kW at 2400 rpm in gear 5."; `None` where they
    /// are the same.
    fn entered_and_driven(&self) -> Option<Sentence> {
        let at = |driven: &HeatDriven| say![Amount::of(driven.power), " at ", Amount::of(driven.rpm)];
        let entered = say![when(self.duty, self.speed), " ", at(&self.entered), " was entered, "];
        Some(begun(match &self.driven {
            None => say![entered, "and the engine cannot hold the speed on this road."],
            Some(driven) if driven.is_near(&self.entered) => return None,
            Some(driven) => match driven.gear {
                Some(gear) => say![entered, "this road takes ", at(driven), " in gear ", gear.to_string(), "."],
                None => say![entered, "this road takes ", at(driven), "."],
            },
        }))
    }
}

impl HeatDriven {
    /// Whether both are the same within what anybody enters.
    fn is_near(&self, other: &Self) -> bool {
        let near = |a: f64, b: f64| (a - b).abs() <= NEAR * a.abs().max(b.abs());
        near(self.power.base(), other.power.base()) && near(self.rpm.base(), other.rpm.base())
    }
}

/// Who rules, in a sentence.
const fn told(rule: Option<HeatRule>) -> &'static str {
    match rule {
        Some(rule) => rule.told(),
        None => "the engine cannot hold the speed",
    }
}

/// "below 12 km/h and above 140 km/h": where a rule holds among stretches of which there are several.
fn places(all: &[HeatStretch], rule: Option<HeatRule>) -> Sentence {
    let last = all.len().saturating_sub(1);
    let own = all.iter().enumerate().filter(|(_, one)| one.rule == rule);
    let told = own.map(|(i, one)| match i {
        0 => say!["below ", Amount::of(one.to)],
        i if i == last => say!["above ", Amount::of(one.from)],
        _ => say!["from ", Amount::of(one.from), " to ", Amount::of(one.to)],
    });
    listed(told.collect())
}
