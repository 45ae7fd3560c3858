//! Generic parts to start from: a menu for each part that has some.

use crate::file::{Preset, PresetLine, PresetPart, presets};
use crate::study::{CanPlace, Choice, Part, Project, VentilationArrangement};
use crate::window::app::{App, Command};
use crate::window::tokens::Tokens;
use egui::{RichText, ScrollArea, Ui};

/// Kinds of presets.
pub(super) type Kinds = &'static [PresetPart];
/// Those of the day.
pub(super) const DAY: Kinds = &[PresetPart::Day];

/// The presets that may set inputs of a part.
const fn kinds(part: Part) -> Kinds {
    match part {
        Part::Tank => &[PresetPart::Tank],
        Part::Cap => &[PresetPart::Cap],
        Part::Thermostat => &[PresetPart::Thermostat],
        Part::Radiator => &[PresetPart::Radiator, PresetPart::Fan],
        Part::Engine => &[PresetPart::Engine],
        Part::Crankcase => &[PresetPart::Arrangement],
        Part::Breather => &[PresetPart::Breather, PresetPart::Hose, PresetPart::Arrangement],
        Part::Valve => &[PresetPart::Valve, PresetPart::Arrangement],
        Part::CatchCan => &[PresetPart::Arrangement, PresetPart::Hose],
        Part::Coolant | Part::Surroundings | Part::CoverJoint => &[],
    }
}

/// The lines a preset of a kind may be put into, with what its menu is called.
fn places(kind: PresetPart, part: Option<Part>, project: &Project) -> Vec<(PresetLine, String)> {
    if kind != PresetPart::Hose {
        return vec![(PresetLine::Breather, kind.name().to_owned())];
    }
    let ventilation = &project.ventilation;
    let lines = PresetLine::ALL.iter().filter(|line| match line {
        PresetLine::Breather => part == Some(Part::Breather) && ventilation.has_breather(),
        PresetLine::Second => {
            part == Some(Part::Breather) && ventilation.arrangement == VentilationArrangement::TwoBreathers
        }
        PresetLine::Valve => {
            part == Some(Part::CatchCan) && ventilation.has_valve() && ventilation.can.place == CanPlace::ValveLine
        }
    });
    lines.map(|line| (*line, format!("{}: hose", line.name()))).collect()
}

pub(super) fn show(ui: &mut Ui, app: &mut App, part: Option<Part>) {
    offer(ui, app, part, part.map_or(&[], kinds));
}

/// A menu for each kind.
pub(super) fn offer(ui: &mut Ui, app: &mut App, part: Option<Part>, kinds: Kinds) {
    if kinds.is_empty() {
        return;
    }
    let mut chosen: Option<(&Preset, PresetLine)> = None;
    let menus: Vec<_> = kinds
        .iter()
        .flat_map(|kind| places(*kind, part, app.project()).into_iter().map(|(line, name)| (*kind, line, name)))
        .collect();
    ui.horizontal_wrapped(|ui| {
        for (kind, line, name) in menus {
            ui.menu_button(format!("Start from: {name} ▾"), |ui| {
                ui.set_max_width(380.0);
                ScrollArea::vertical().max_height(420.0).show(ui, |ui| {
                    for preset in presets().of(kind) {
                        if ui.button(preset.name.as_str()).on_hover_ui(|ui| about(ui, preset)).clicked() {
                            chosen = Some((preset, line));
                        }
                    }
                });
            })
            .response
            .on_hover_text("Generic parts; choosing one sets its inputs, and Undo brings yours back");
        }
    });
    if let Some((preset, line)) = chosen {
        let mut edited = app.project().clone();
        preset.apply_to(line, &mut edited);
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
