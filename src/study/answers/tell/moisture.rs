//! The rows of water in the crankcase and of the oil's way.

use super::super::moisture::above_dew_point;
use crate::crankcase::moisture::{LeastDilution, MoistureFinding};
use crate::quantity::{Amount, Estimate, Kind, Measured};
use crate::say;
use crate::study::{Answers, CanAnswer, DrainAnswer, Duty, DutyMoisture, Section};

/// What the crankcase of one duty says of water and of the oil's way back.
pub(super) fn of_duty(answers: &Answers, duty: Duty, section: &mut Section) {
    let word = duty.word();
    match &answers.moisture.warm[duty.index()] {
        Ok(damp) => wet(section, "", &format!("moisture/{word}"), damp),
        Err(why) => {
            section.absent("dew_point", "Dew point of the crankcase gas, coldest air", why.as_str());
        }
    }
    match &answers.oil.drains[duty.index()] {
        Ok(drain) => returns(section, drain),
        Err(why) => {
            section.absent("drain_margin", "Head left to bring the oil back", why.as_str());
        }
    }
}

/// Short cold trips, and what a can collects.
pub(super) fn sections(answers: &Answers) -> Vec<Section> {
    let mut short = Section::new("short_trips", "Short cold trips: water in the crankcase");
    short.quantity("air", "Air outside", answers.moisture.air);
    short.quantity("oil", "Oil", answers.moisture.trip_oil);
    for (duty, trip) in [Duty::Idle, Duty::Cruise].into_iter().zip(&answers.moisture.trips) {
        match trip {
            Ok(trip) => {
                let (key, chapter) =
                    (format!("{}_", trip.duty.word()), format!("moisture/short-trip/{}", trip.duty.word()));
                wet(&mut short, &key, &chapter, trip);
            }
            Err(why) => {
                let (key, label) = (format!("{}_water", duty.word()), format!("{}: water", duty.name()));
                short.absent(&key, &label, why.as_str());
            }
        }
    }
    let cans = answers.oil.can.iter().map(can);
    std::iter::once(short).chain(cans).collect()
}

fn wet(section: &mut Section, key: &str, chapter: &str, damp: &DutyMoisture) {
    let at = &damp.at;
    let of = |words: &str| {
        if key.is_empty() { words.to_owned() } else { format!("{}: {}", damp.duty.name(), small(words)) }
    };
    let label = of("Fresh air over blow-by");
    section.estimate(&format!("{key}dilution"), &label, damp.dilution, Kind::Number).explained_by(chapter);
    let points = [&at.favourable, &at.likely, &at.unfavourable].map(|state| state.dew_point.temperature());
    let label = of("Dew point of the crankcase gas, coldest air");
    match points {
        [Some(dry), Some(likely), Some(wet)] => {
            let points = Estimate::sorted(dry, likely, wet);
            section.estimate(&format!("{key}dew_point"), &label, points, Kind::Temperature)
        }
        _ => section.absent(&format!("{key}dew_point"), &label, "the gas is too dry for one"),
    };
    section.explained_by(chapter);
    let walls = Estimate::sorted(at.unfavourable.wall, at.likely.wall, at.favourable.wall);
    let label = of("Coldest wall of cover and hoses");
    section.estimate(&format!("{key}wall"), &label, walls, Kind::Temperature).explained_by(chapter);
    let label = of("Coldest wall above the dew point, low end");
    match above_dew_point(&at.unfavourable) {
        Some(margin) => section.quantity(&format!("{key}dew_margin"), &label, margin),
        None => section.absent(&format!("{key}dew_margin"), &label, "the gas is too dry for a dew point"),
    };
    let label = of("Fresh air over blow-by that keeps it dry, low end");
    let least = match at.unfavourable.least_dilution {
        LeastDilution::None => Ok(0.0),
        LeastDilution::AtLeast(least) => Ok(least.base()),
        LeastDilution::NoAmount => Err("no amount: the air alone wets a wall so cold"),
    };
    match least {
        Ok(least) => section.amount(&format!("{key}least_dilution"), &label, Amount::new(least, Kind::Number)),
        Err(why) => section.absent(&format!("{key}least_dilution"), &label, why),
    };
    section.explained_by(chapter);
    let finding = match at.finding {
        MoistureFinding::Dry => "stays dry, even at the unfavourable end",
        MoistureFinding::ProbablyDry => "probably dry; wet at the unfavourable end",
        MoistureFinding::Wet => "wet; more fresh air would dry it",
        MoistureFinding::WetWhatever => "wet, and fresh air does not help",
    };
    section.words(&format!("{key}water"), &of("Water on the coldest wall"), say![finding]);
}

fn small(words: &str) -> String {
    let mut letters = words.chars();
    letters.next().map(|first| first.to_lowercase().chain(letters).collect()).unwrap_or_default()
}

fn returns(section: &mut Section, drain: &DrainAnswer) {
    let chapter = format!("oil-return/{}", drain.duty.word());
    let holds_up = Amount::of_kind(drain.likely.holds_up, Kind::SmallPressureDifference);
    section.amount("drain_holds_up", "Crankcase above the cover at the high blow-by", holds_up).explained_by(&*chapter);
    let left = Amount::of_kind(drain.least.margin, Kind::SmallPressureDifference);
    section.amount("drain_margin", "Head left to bring the oil back, low drain", left).explained_by(chapter);
    section.quantity("drain_stands", "Oil stands in the drain", drain.likely.stands);
}

fn can(can: &CanAnswer) -> Section {
    let word = can.duty.word();
    let title = format!("Catch can, driven at {} all the way, coldest air", small(can.duty.name()));
    let mut section = Section::new(format!("can_{word}"), title);
    let chapter = format!("can/{word}");
    match &can.filled {
        Err(why) => {
            section.absent("collected", "Collected per 1000 km", why.as_str());
        }
        Ok((carried, collected)) => {
            section
                .estimate("oil_carried", "Oil that reaches the can", carried.oil, Kind::CarryOver)
                .explained_by(&*chapter);
            let per = collected.volume_per_thousand;
            section.estimate("collected", "Collected per 1000 km", per, Kind::SmallVolume).explained_by(&*chapter);
            section.estimate("oil", "of it oil", collected.oil_per_thousand, Kind::SmallMass);
            section.estimate("water", "of it water", collected.water_per_thousand, Kind::SmallMass);
            match collected.drain_after {
                [Some(soon), Some(likely), Some(late)] => {
                    let after = Estimate::sorted(soon, likely, late);
                    section.estimate("drain_after", "Drain at half full, after", after, Kind::RoadDistance)
                }
                [_, Some(likely), _] => {
                    let after = Amount::of_kind(likely, Kind::RoadDistance);
                    section.amount("drain_after", "Drain at half full, after", after)
                }
                _ => section.absent("drain_after", "Drain at half full, after", "next to nothing collects"),
            };
            section.explained_by(&*chapter);
            section.estimate("volume_wanted", "Volume the can should hold", collected.needed, Kind::Volume);
            section.estimate("can_speed", "Gas speed in the can, of its limit", collected.gas.over, Kind::Share);
        }
    }
    section
}
