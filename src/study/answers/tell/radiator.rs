//! The rows of radiator, fan and air.

use crate::heat::FanState;
use crate::quantity::si::{Ratio, ThermodynamicTemperature};
use crate::quantity::{Amount, Kind};
use crate::say;
use crate::study::{Answers, RadiatorKnowledge, Section};

/// The radiator by itself.
pub(super) fn section(answers: &Answers) -> Section {
    let radiator = &answers.radiator;
    let mut section = Section::new("radiator", "Radiator");
    section.estimate("conductance", "Conductance at its reference point", radiator.conductance, Kind::HeatConductance);
    // An estimate has no working but its own figure.
    if radiator.known_from != RadiatorKnowledge::Estimated {
        section.explained_by("radiator");
    }
    section.amount("reference_air", "Face air speed there", Amount::of_kind(radiator.at, Kind::GasSpeed));
    section.amount("reference_flow", "Coolant flow there", Amount::of_kind(radiator.flow, Kind::CoolantFlow));
    section.amount("face", "Frontal area of the core", Amount::of_kind(radiator.face, Kind::Area));
    section.amount("air_share", "Air's share of the resistance", Amount::of_kind(radiator.air_share, Kind::Share));
    if let Some(core) = &radiator.core {
        let number = |value: Ratio| Amount::of_kind(value, Kind::Number);
        section.amount("fin_efficiency", "Efficiency of the fins", Amount::of_kind(core.fin_efficiency, Kind::Share));
        section.amount("air_surface", "Surface towards the air", Amount::of_kind(core.air_surface, Kind::Area));
        section.amount("air_reynolds", "Reynolds number of the air", number(core.air_reynolds));
        section.amount("tube_reynolds", "Reynolds number of the coolant in a tube", number(core.tube_reynolds));
    }
    section
}

/// The thermostat's way down at one duty.
pub(super) fn cooling(
    section: &mut Section,
    settles: ThermodynamicTemperature,
    cooling: Option<ThermodynamicTemperature>,
    chapter: String,
) {
    let (key, label) = ("settles_cooling", "After hotter running, as the thermostat closes lower");
    match cooling {
        // Within a hundredth of a kelvin the two are one: the radiator rules.
        Some(cooling) if (settles.value - cooling.value).abs() < 0.01 => {}
        Some(cooling) => {
            section.quantity(key, label, cooling).explained_by(chapter);
        }
        None => {
            section.absent(key, label, "it does not settle on the way down");
        }
    }
}

/// Who sets the temperature of a coolant that settles.
pub(super) const fn who_rules(radiator: bool, fan: &FanState) -> &'static str {
    match (fan, radiator) {
        (FanState::Cycles { .. }, _) => "the fan's switch, which turns it on and off",
        (_, true) => "the radiator",
        (_, false) => "the thermostat",
    }
}

/// What a switched fan does at one duty; nothing of one that is not switched.
pub(super) fn fan(section: &mut Section, fan: &FanState) {
    let words = match fan {
        FanState::NotSwitched => return,
        FanState::Off { or_on_at: None } => say!["off: it settles below where the fan comes on"],
        FanState::Off { or_on_at: Some(at) } => {
            say!["off; left on by hotter running before, it would settle at ", Amount::of(*at), " and stay on"]
        }
        FanState::TooLate => say!["off: it boils before the fan comes on"],
        FanState::On => say!["on"],
        FanState::Cycles { on_at } => match on_at {
            Some(at) => say![
                "goes on and off; reckoned at the hot end of its turns, where it comes on. With the fan on for good it would \
                 settle at ",
                Amount::of(*at)
            ],
            None => say!["goes on and off; reckoned at the hot end of its turns, where it comes on"],
        },
    };
    section.words("fan", "Fan", words);
}
