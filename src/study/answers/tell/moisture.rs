//! The rows of water and fuel in the crankcase.

use super::super::SetPointMoisture;
use super::super::moisture::above_dew_point;
use crate::crankcase::blow_by::standard_volume_flow;
use crate::crankcase::moisture::{Condensation, FuelDew, LeastDilution, MoistureFinding};
use crate::quantity::si::MassRate;
use crate::quantity::{Amount, Estimate, Kind, Measured};
use crate::say;
use crate::study::{Answers, Duty, DutyMoisture, Section};

/// What the crankcase of one duty says of water.
pub(super) fn of_duty(answers: &Answers, duty: Duty, section: &mut Section) {
    match &answers.moisture.warm[duty.index()] {
        Ok(damp) => wet(section, "", &format!("moisture/{}", duty.word()), damp, answers.most_by_valve()),
        Err(why) => {
            section.absent("dew_point", "Dew point of the crankcase gas, coldest air", why.as_str());
        }
    }
}

/// Short cold trips.
pub(super) fn short_trips(answers: &Answers) -> Section {
    // A diesel's charge is air: there is no petrol to tell of.
    let petrol = answers.moisture.trips.iter().flatten().any(|trip| trip.at.likely.fuel_dew != FuelDew::NoFuel);
    let what = if petrol { "water and petrol" } else { "water" };
    let mut short = Section::new("short_trips", format!("Short cold trips: {what} in the crankcase"));
    short.quantity("air", "Air outside", answers.moisture.air);
    for (duty, trip) in [Duty::Idle, Duty::Cruise].into_iter().zip(&answers.moisture.trips) {
        match trip {
            Ok(trip) => {
                let (key, chapter) =
                    (format!("{}_", trip.duty.word()), format!("moisture/short-trip/{}", trip.duty.word()));
                let label = format!("{}: oil as the trip ends", trip.duty.name());
                short
                    .estimate(&format!("{key}oil"), &label, trip.oil(), Kind::Temperature)
                    .explained_by(chapter.as_str());
                wet(&mut short, &key, &chapter, trip, answers.most_by_valve());
            }
            Err(why) => {
                let (key, label) = (format!("{}_water", duty.word()), format!("{}: water", duty.name()));
                short.absent(&key, &label, why.as_str());
            }
        }
    }
    short
}

fn wet(section: &mut Section, key: &str, chapter: &str, damp: &DutyMoisture, most: MassRate) {
    let at = &damp.at;
    let of = |words: &str| {
        if key.is_empty() { words.to_owned() } else { format!("{}: {}", damp.duty.name(), small(words)) }
    };
    let key = |name: &str| format!("{key}{name}");
    let volume = damp.fresh.map(standard_volume_flow);
    section.estimate(&key("fresh_air"), &of("Fresh air drawn in"), volume, Kind::GasVolumeFlow);
    let label = of("Fresh air over blow-by");
    section.estimate(&key("dilution"), &label, damp.dilution, Kind::Number).explained_by(chapter);
    let points = [&at.favourable, &at.likely, &at.unfavourable].map(|state| state.dew_point.temperature());
    let label = of("Dew point of the crankcase gas, coldest air");
    match points {
        [Some(dry), Some(likely), Some(wet)] => {
            let points = Estimate::sorted(dry, likely, wet);
            section.estimate(&key("dew_point"), &label, points, Kind::Temperature)
        }
        _ => section.absent(&key("dew_point"), &label, "the gas is too dry for one"),
    };
    section.explained_by(chapter);
    if at.likely.fuel_dew != FuelDew::NoFuel {
        petrol_dew_point(section, &key("petrol_dew_point"), &of("Dew point of the petrol in it"), at);
        section.explained_by(chapter);
    }
    section.estimate(&key("hose_wall"), &of("Wall of the hoses"), damp.hose_wall(), Kind::Temperature);
    let label = of("Coldest wall of the cover");
    section.estimate(&key("wall"), &label, damp.wall(), Kind::Temperature).explained_by(chapter);
    for (name, label, margin) in [
        ("dew_margin", "Coldest wall above the dew point, low end", damp.least_margin()),
        ("hose_dew_margin", "Hoses above the dew point, low end", above_dew_point(&damp.hose.unfavourable)),
        ("oil_dew_margin", "Oil above the dew point, low end", damp.least_oil_margin()),
    ] {
        match margin {
            Some(margin) => section.quantity(&key(name), &of(label), margin),
            None => section.absent(&key(name), &of(label), "the gas is too dry for a dew point"),
        };
    }
    needed(section, key, of, chapter, damp, most);
    let finding = match at.finding {
        MoistureFinding::Dry => "stays dry, even at the unfavourable end",
        MoistureFinding::ProbablyDry => "probably dry; wet at the unfavourable end",
        MoistureFinding::Wet => "wet; more fresh air would dry it",
        MoistureFinding::WetWhatever => "wet, and fresh air does not help",
    };
    section.words(&key("water"), &of("Water on the coldest wall"), say![finding]);
    let hose = match (damp.hose.finding, damp.hose.likely.is_icy(), damp.hose.unfavourable.is_icy()) {
        (_, true, _) => "freezes",
        (MoistureFinding::Dry, ..) => "stay dry, even at the unfavourable end",
        (MoistureFinding::ProbablyDry, _, true) => "probably dry; freezes at the unfavourable end",
        (MoistureFinding::ProbablyDry, _, false) => "probably dry; wet at the unfavourable end",
        (_, _, true) => "wet; freezes at the unfavourable end",
        (_, _, false) => "wet",
    };
    section.words(&key("hose_water"), &of("Water in the hoses"), say![hose]);
    if at.likely.fuel_dew == FuelDew::NoFuel {
        return;
    }
    let settles = |wets: Option<bool>| wets.unwrap_or(false);
    let petrol = [&at.likely, &at.unfavourable].map(|state| settles(state.fuel_dew.wets(state.wall)));
    let petrol = match petrol {
        [true, _] => "settles; oil takes up more of it as vapour",
        [false, true] => "settles at the unfavourable end only; oil takes some up as vapour all the same",
        [false, false] => "does not settle by itself; oil takes some up as vapour all the same",
    };
    section.words(&key("petrol"), &of("Petrol on the coldest wall"), say![petrol]);
}

fn petrol_dew_point(section: &mut Section, key: &str, label: &str, at: &Condensation) {
    let points = [&at.favourable, &at.likely, &at.unfavourable].map(|state| state.fuel_dew.temperature());
    match points {
        [Some(light), Some(likely), Some(heavy)] => {
            let points = Estimate::sorted(light, likely, heavy);
            section.estimate(key, label, points, Kind::Temperature);
        }
        [_, _, Some(heavy)] => {
            let words = say!["below freezing, or up to ", Amount::of(heavy), " at the unfavourable end"];
            section.words(key, label, words);
        }
        _ => {
            section.absent(key, label, "below 0 °C, where the data end");
        }
    }
}

/// The fresh air that keeps the wall dry, over blow-by and as a flow.
fn needed(
    section: &mut Section,
    key: impl Fn(&str) -> String,
    of: impl Fn(&str) -> String,
    chapter: &str,
    damp: &DutyMoisture,
    most: MassRate,
) {
    let at = &damp.at;
    let vain = "no amount: the air alone wets a wall so cold";
    let label = of("Fresh air over blow-by that keeps it dry, low end");
    match at.unfavourable.least_dilution {
        LeastDilution::None => section.amount(&key("least_dilution"), &label, Amount::number(0.0)),
        LeastDilution::AtLeast(least) => section.quantity(&key("least_dilution"), &label, least),
        LeastDilution::NoAmount => section.absent(&key("least_dilution"), &label, vain),
    };
    section.explained_by(chapter);
    let label = of("Fresh air that keeps it dry");
    let flow = |flow: MassRate| Amount::of(standard_volume_flow(flow));
    let asked = [&at.favourable, &at.likely, &at.unfavourable].map(|state| state.fresh_air);
    // The blow-by passes the valve along with it; where none is wanted nothing is asked of a valve.
    let passes =
        |fresh: MassRate, blow_by: MassRate| fresh.base() <= 0.0 || fresh.base() + blow_by.base() <= most.base();
    let beyond = "more than a valve may pass";
    match asked {
        [_, Some(likely), _] if !passes(likely, damp.blow_by.likely) => {
            section.words(&key("fresh_air_wanted"), &label, say![beyond])
        }
        [Some(least), Some(likely), Some(high)] if !passes(high, damp.blow_by.high) => {
            let words = say![flow(likely), " (", flow(least), " to ", beyond, ")"];
            section.words(&key("fresh_air_wanted"), &label, words)
        }
        [Some(least), Some(likely), Some(high)] => {
            let asked = Estimate::sorted(least, likely, high).map(standard_volume_flow);
            section.estimate(&key("fresh_air_wanted"), &label, asked, Kind::GasVolumeFlow)
        }
        [_, Some(likely), None] => {
            let words = say![flow(likely), "; at the unfavourable end no amount does"];
            section.words(&key("fresh_air_wanted"), &label, words)
        }
        _ => section.absent(&key("fresh_air_wanted"), &label, vain),
    };
    section.explained_by(chapter);
}

/// What a thermostat's set-point does to water and petrol.
pub(super) fn of_set_point(moisture: &SetPointMoisture, section: &mut Section) {
    section.result(
        "dew_margin",
        "Short cold trip: coldest crankcase wall above the dew point",
        &moisture.trip_margin,
        Kind::TemperatureDifference,
    );
    let warm = match &moisture.warm {
        Ok(warm) => warm,
        Err(why) => {
            section.absent("warm_dew_margin", "Warm: coldest crankcase wall above the dew point", why.as_str());
            return;
        }
    };
    let label = "Warm, lasting duties: coldest crankcase wall above the dew point, low end";
    match moisture.warm_margin() {
        Some(margin) => section.quantity("warm_dew_margin", label, margin),
        None => section.absent("warm_dew_margin", label, "the gas is too dry for a dew point"),
    };
    let coldest = warm.duties.iter().map(|at| at.unfavourable.oil).min_by(|a, b| a.base().total_cmp(&b.base()));
    if let (Some(oil), Some(worst)) = (coldest, warm.worst_dew_point.temperature()) {
        let margin = crate::quantity::si::TemperatureInterval::from_base(oil.base() - worst.base());
        section.quantity("oil_dew_margin", "Warm: coldest oil above the dew point of undiluted burnt gas", margin);
    }
    if let Some(fuel) = warm.fuel {
        section.quantity("boil_off_oil", "Warm: oil at the duty with the coolest", fuel.oil);
        let share = |drive| Amount::of_kind(drive, Kind::Share);
        let reference = Amount::of(fuel.reference);
        let words = say![
            "middling cuts ",
            share(fuel.decane_drive),
            ", heavy cuts ",
            share(fuel.dodecane_drive),
            " of what drives them out at ",
            reference
        ];
        section.words("boil_off", "Petrol leaves that oil", words);
        section.amount("boil_off_middling", "Drive of its middling cuts to leave", share(fuel.decane_drive));
        section.amount("boil_off_heavy", "Drive of its heavy cuts to leave", share(fuel.dodecane_drive));
    }
    section.words("crankcase_water", "What the set-point does to water", say![warm.words()]);
}

/// A sentence or a label that goes on behind a colon.
pub(super) fn small(words: &str) -> String {
    let mut letters = words.chars();
    letters.next().map(|first| first.to_lowercase().chain(letters).collect()).unwrap_or_default()
}
