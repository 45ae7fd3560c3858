//! The rows of oil, metal, heater and warm-up.

use super::super::{Answers, DutyAnswers, DutyOil, SetPointAnswers};
use crate::heat::{Regime, WarmUpEnd, WarmedUp};
use crate::quantity::{Amount, Kind, Measured};
use crate::say;
use crate::study::{Choice, Duty, Section};

/// Oil and metal of one duty.
pub(super) fn of_duty(duty: &DutyAnswers, section: &mut Section) {
    let chapter = format!("warmth/{}", duty.duty.word());
    let of = |words: &str| {
        if duty.boils() { format!("{words}, coolant just boiling") } else { words.to_owned() }
    };
    let oil = &duty.oil;
    section
        .estimate("metal", &of("Metal of the chambers"), oil.metal, Kind::Temperature)
        .explained_by(chapter.as_str());
    let heat = format!("heat/{}", duty.duty.word());
    section.estimate("heat_to_oil", "Heat to the oil", oil.heat, Kind::Power).explained_by(heat);
    section
        .estimate("oil_temperature", &of("Oil in the sump, hottest day"), oil.state.temperature, Kind::Temperature)
        .explained_by(chapter.as_str());
    viscosity(oil, section, "", "");
    section.explained_by(chapter);
    if oil.state.regime != Regime::Shut {
        section.quantity("oil_cooler", "Heat the oil cooler carries", oil.state.to_cooler);
    }
    section.words("oil_film", "That is", say![oil.film.words()]);
}

fn viscosity(oil: &DutyOil, section: &mut Section, key: &str, words: &str) {
    let (key, label) = (format!("{key}oil_viscosity"), format!("{words}Viscosity of the oil there"));
    match &oil.viscosity {
        Ok(viscosity) => section.estimate(&key, &label, *viscosity, Kind::KinematicViscosity),
        Err(why) => section.absent(&key, &label, why.as_str()),
    };
}

/// The oil itself, its warm-up, and the heater.
pub(super) fn oil_section(answers: &Answers) -> Section {
    let oil = &answers.engine_oil;
    let mut section = Section::new("engine_oil", "Engine oil and heater");
    section.words("grade", "Oil grade", say![oil.grade.name()]);
    let class = &oil.class;
    let (least, below) = (
        Amount::of_kind(class.least, Kind::KinematicViscosity),
        Amount::of_kind(class.below, Kind::KinematicViscosity),
    );
    section.words("class_at_100", "SAE J300 asks at 100 °C for", say![least, " to less than ", below]);
    let shear = Amount::of_kind(class.high_shear, Kind::Viscosity);
    section.amount("high_shear", "And in a bearing, 150 °C and high shear, for at least", shear);
    section.estimate("viscosity_100", "Viscosity at 100 °C reckoned with", oil.at_100, Kind::KinematicViscosity);
    section.estimate("viscosity_40", "Viscosity at 40 °C reckoned with", oil.at_40, Kind::KinematicViscosity);
    section.quantity("start", "Warm-up, heater off, from", oil.start);
    warm_up(&oil.warm_up, &mut section);
    section.quantity("warm", "Oil counted as warm at", oil.warm);
    let heater = &answers.heater;
    section.flag("heater_on", "Heater reckoned on", heater.on);
    let label = format!("Heater full on, {}, as a last resort", heater.duty.name().to_lowercase());
    let words = match (heater.without, heater.with) {
        (Some(_), Some(_)) => heater.brings().map_or_else(
            || say![""],
            |brings| {
                let kelvin = Amount::of_kind(brings, Kind::TemperatureDifference);
                if brings.base() > 0.05 { say!["brings ", kelvin] } else { say!["brings nothing: ", kelvin] }
            },
        ),
        (None, Some(with)) => say!["it settles at ", Amount::of(with), " instead of boiling"],
        (Some(_), None) => say!["it boils: the air drawn is hotter than the coolant"],
        (None, None) => say!["it boils all the same"],
    };
    section.words("heater", &label, words);
    section
}

fn warm_up(warm_up: &Result<WarmedUp, String>, section: &mut Section) {
    for (key, label, pick) in [
        ("opens_after", "The thermostat begins to open after", (|warm: &WarmedUp| warm.opens) as fn(&WarmedUp) -> _),
        ("oil_warm_after", "The oil is warm after", |warm| warm.oil_warm),
    ] {
        match warm_up.as_ref().map(pick) {
            Ok(WarmUpEnd::Reached { after }) => section.amount(key, label, Amount::of_kind(after, Kind::Duration)),
            Ok(WarmUpEnd::NeverReached { settles_at }) if settles_at.base().is_finite() => {
                section.words(key, label, say!["never: it settles at ", Amount::of(settles_at)])
            }
            Ok(WarmUpEnd::NeverReached { .. }) => section.absent(key, label, "it takes longer than any drive"),
            Err(why) => section.absent(key, label, why.as_str()),
        };
        section.explained_by("warm-up");
    }
}

/// What belongs to a thermostat's setting.
pub(super) fn of_set_point(row: &SetPointAnswers, section: &mut Section) {
    warm_up(&row.warm_up, section);
    if !row.fitted {
        // The working is that of the thermostat fitted.
        for one in &mut section.rows {
            if matches!(one.key.as_str(), "opens_after" | "oil_warm_after") {
                one.working = None;
            }
        }
    }
    for (duty, at) in Duty::ALL.into_iter().zip(&row.duties) {
        let (key, words) = (format!("{}_", duty.word()), format!("{}: ", duty.name()));
        let label = format!("{words}oil in the sump");
        section.estimate(&format!("{key}oil"), &label, at.oil.state.temperature, Kind::Temperature);
        let label = format!("{words}metal of the chambers");
        section.estimate(&format!("{key}metal"), &label, at.oil.metal, Kind::Temperature);
        viscosity(&at.oil, section, &key, &words.to_owned());
    }
}
