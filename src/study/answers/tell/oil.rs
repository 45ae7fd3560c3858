//! The rows of the oil's way: back to the sump, out with the gas, and into a can.

use super::super::oil::{oil_words, why};
use super::moisture::small;
use crate::crankcase::oil::{CanFinding, Passage, defaults as figures};
use crate::quantity::si::{MassRate, Time};
use crate::quantity::{Amount, Estimate, Kind, Measured};
use crate::say;
use crate::study::{Answers, CanAnswer, DrainAnswer, Duty, FlowPath, OilOut, Section, Sentence};

/// What one duty says of the oil.
pub(super) fn of_duty(answers: &Answers, duty: Duty, section: &mut Section) {
    match &answers.oil.drains[duty.index()] {
        Ok(drain) => returns(section, drain),
        Err(why) => {
            section.absent("drain_margin", "Head left to bring the oil back", why.as_str());
        }
    }
    for out in &answers.oil.out[duty.index()] {
        leaves(section, duty, out);
    }
}

/// What a can collects, a section for each duty asked about.
pub(super) fn cans(answers: &Answers) -> impl Iterator<Item = Section> + '_ {
    answers.oil.can.iter().map(can)
}

fn returns(section: &mut Section, drain: &DrainAnswer) {
    let chapter = format!("oil-return/{}", drain.duty.word());
    let holds_up = Amount::of_kind(drain.likely.holds_up, Kind::SmallPressureDifference);
    section
        .amount("drain_holds_up", "Crankcase above the lowest cover at the high blow-by", holds_up)
        .explained_by(&*chapter);
    let left = Amount::of_kind(drain.least.margin, Kind::SmallPressureDifference);
    section.amount("drain_margin", "Head left to bring the oil back, low drain", left).explained_by(chapter);
    section.quantity("drain_stands", "Oil stands in the drain", drain.likely.stands);
}

fn leaves(section: &mut Section, duty: Duty, out: &OilOut) {
    let key = match out.path {
        FlowPath::Breather => "breather",
        FlowPath::SecondBreather => "second_breather",
        FlowPath::Valve => "valve",
    };
    let way = out.path.name();
    let chapter = format!("oil-out/{}", duty.word());
    for speed in &out.speeds {
        let (name, label) = match speed.passage {
            Passage::Baffle { .. } => ("baffle", format!("Gas speed at the baffle, to the {way}")),
            _ => ("mouth", format!("Gas speed at the mouth of the {way}")),
        };
        let name = format!("{name}_speed_{key}");
        section.estimate(&name, &label, speed.speed, Kind::GasSpeed).explained_by(&*chapter);
        let droplet = |size| Amount::of_kind(size, Kind::DropletSize);
        if let Some(strikes) = speed.strikes {
            let name = format!("strikes_{key}");
            let label = format!("Half the droplets strike behind that baffle above, to the {way}");
            section.amount(&name, &label, droplet(strikes)).explained_by(&*chapter);
        } else if let Some(cut) = speed.cut {
            let (name, label) = (format!("droplets_{key}"), format!("Droplets that rise along in the {way}, up to"));
            match cut.diameter {
                Some(size) => section.amount(&name, &label, droplet(size)),
                None => section.words(&name, &label, say!["any size: splash goes along"]),
            };
        }
    }
    let (name, label) = (format!("oil_out_{key}"), format!("Oil that leaves with the gas by the {way}"));
    match &out.carried {
        Ok(carried) => {
            // A figure of its own is told as one; what is known to a bound only is told in words.
            if carried.oil.high > figures::most_weighed().likely() {
                section.words(&name, &label, oil_words(&carried.oil))
            } else {
                section.estimate(&name, &label, carried.oil, Kind::CarryOver)
            };
            section.explained_by(&*chapter);
            let label = format!("What carries it, {way}");
            let words = why(out, &carried.reason);
            let words = say![words, sump_empties(carried.oil.high)];
            section.words(&format!("oil_out_{key}_why"), &label, words).explained_by(chapter);
        }
        Err(why) => {
            section.absent(&name, &label, why.as_str());
        }
    }
}

/// A litre of oil gone within a day's driving is told: nobody looks at the dipstick so often.
fn sump_empties(oil: MassRate) -> Sentence {
    let litre = figures::density().likely().base() * 1e-3;
    let most = figures::most_weighed().likely();
    let (oil, within) = if oil > most { (most, "in less than ") } else { (oil, "in ") };
    let gone = Time::from_base(litre / oil.base());
    if oil.base() <= 0.0 || gone.base() > 10.0 * 3600.0 {
        return Sentence::default();
    }
    say![
        "; at the high end a litre of oil is gone ",
        within,
        Amount::of_kind(gone, Kind::Duration),
        ": look at the dipstick as often"
    ]
}

fn can(can: &CanAnswer) -> Section {
    let word = can.duty.word();
    let title = format!("Catch can, gas of {} all the way, coldest air", small(can.duty.name()));
    let mut section = Section::new(format!("can_{word}"), title);
    let chapter = format!("can/{word}");
    section.quantity("speed", "Speed of the car that hours are counted by", can.speed);
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
            let far = collected.drain_after;
            interval(&mut section, "drain_after", "Drain at half full, after", far, Kind::RoadDistance);
            section.explained_by(&*chapter);
            let freezes = collected.findings.contains(&CanFinding::Freezes);
            section.words(
                "frost",
                "In frost",
                say![if freezes {
                    "what water it holds freezes and may close it or its hose: empty it before a frosty night, look after one"
                } else {
                    "no water freezes in it"
                }],
            );
            // Mixed driving is told by its distance alone.
            if can.duty != Duty::Cruise {
                interval(&mut section, "half_full", "Half full after a drive of", can.half_full, Kind::Duration);
                section.explained_by(&*chapter);
            }
            section.estimate("volume_wanted", "Volume the can should hold", collected.needed, Kind::Volume);
            section.estimate("can_speed", "Gas speed in the can, of its limit", collected.gas.over, Kind::Share);
        }
    }
    section
}

/// Soonest, likely and latest. The soonest is never left out: it is the end to drain by.
fn interval<Q: Measured>(section: &mut Section, key: &str, label: &str, ends: [Option<Q>; 3], kind: Kind) {
    let shown = |value: Q| Amount::of_kind(value, kind);
    match ends {
        [Some(soon), Some(likely), Some(late)] => {
            section.estimate(key, label, Estimate::sorted(soon, likely, late), kind)
        }
        [Some(soon), Some(likely), None] => {
            let words = say![shown(likely), "; at the high end ", shown(soon), ", at the low end nothing collects"];
            section.words(key, label, words)
        }
        [Some(soon), None, _] => {
            section.words(key, label, say![shown(soon), " at the high end; at the likely figures nothing collects"])
        }
        _ => section.absent(key, label, "nothing collects"),
    };
}
