//! Generic parts to start from: a menu for each part that has some.

use crate::file::{Preset, PresetPart, presets};
use crate::study::{Choice, Part};
use crate::window::app::{App, Command};
use crate::window::tokens::Tokens;
use egui::{RichText, ScrollArea, Ui};

/// The presets that may set inputs of a part.
const fn kinds(part: Part) -> &'static [PresetPart] {
    match part {
        Part::Tank => &[PresetPart::Tank],
        Part::Cap => &[PresetPart::Cap],
        Part::Thermostat => &[PresetPart::Thermostat],
        Part::Radiator => &[PresetPart::Radiator],
        Part::Engine => &[PresetPart::Engine],
        Part::Crankcase => &[PresetPart::Arrangement],
        Part::Breather => &[PresetPart::Breather, PresetPart::Arrangement],
        Part::Valve => &[PresetPart::Valve, PresetPart::Arrangement],
        Part::CatchCan => &[PresetPart::Arrangement],
        Part::Coolant | Part::Surroundings | Part::CoverJoint => &[],
    }
}

pub(super) fn show(ui: &mut Ui, app: &mut App, part: Option<Part>) {
    let kinds = part.map_or(&[] as &[PresetPart], kinds);
    if kinds.is_empty() {
        return;
    }
    let mut chosen: Option<&Preset> = None;
    ui.horizontal_wrapped(|ui| {
        for kind in kinds {
            ui.menu_button(format!("Start from: {} ▾", kind.name()), |ui| {
                ui.set_max_width(380.0);
                ScrollArea::vertical().max_height(420.0).show(ui, |ui| {
                    for preset in presets().of(*kind) {
                        if ui.button(preset.name.as_str()).on_hover_ui(|ui| about(ui, preset)).clicked() {
                            chosen = Some(preset);
                        }
                    }
                });
            })
            .response
            .on_hover_text("Generic parts; choosing one sets its inputs, and Undo brings yours back");
        }
    });
    if let Some(preset) = chosen {
        let mut edited = app.project().clone();
        preset.apply(&mut edited);
        app.command(Command::Edit(Box::new(edited)));
    }
}

/// The remark of a preset and how far its values can be trusted.
fn about(ui: &mut Ui, preset: &Preset) {
    let quiet = Tokens::here(ui).quiet;
    ui.set_max_width(360.0);
    if !preset.remark.is_empty() {
        ui.label(preset.remark.as_str());
    }
    for source in preset.sources.iter().take(8) {
        let words = if source.words.is_empty() { source.standing.words() } else { source.words.as_str() };
        ui.label(RichText::new(format!("{}: {words}", source.path)).small().color(quiet));
    }
    if preset.sources.len() > 8 {
        ui.label(RichText::new(format!("and {} more", preset.sources.len() - 8)).small().color(quiet));
    }
}
