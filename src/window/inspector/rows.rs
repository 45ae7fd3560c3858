//! The answers of a part, told as rows.

use super::table::capital;
use crate::quantity::{Kind, UnitSystem};
use crate::say;
use crate::study::{Answers, Duty, Moment, Part, Section};
use crate::window::kit::heading;
use crate::window::tokens::{Tokens, size, space};
use egui::{CollapsingHeader, Grid, Label, RichText, Ui, vec2};

/// The chapters of the working that explain a part.
pub(super) fn chapters(answers: &Answers, part: Part) -> Vec<String> {
    let rows = answers.sections_of(part).into_iter().flat_map(|section| section.rows);
    let verdicts = answers.verdicts.iter().filter(|verdict| verdict.part == part);
    verdicts.map(|verdict| verdict.working.to_owned()).chain(rows.filter_map(|row| row.working)).collect()
}

pub(super) fn show(ui: &mut Ui, answers: &Answers, part: Part, moment: Moment, system: UnitSystem) {
    if matches!(part, Part::Tank | Part::Cap) {
        section(ui, &held(answers, moment), system);
    }
    // What is told for each duty is shown for the moment chosen; the others wait behind their names.
    // So do the failures, which stand side by side above, what to measure, which stands under its plot, and at the valve
    // what the whole crankcase does.
    let elsewhere = |told: &Section| {
        told.aside
            || told.key.starts_with("failure_")
            || matches!(told.key.as_str(), "blow_by" | "short_trips")
            || (part == Part::Valve && told.key.starts_with("crankcase_"))
    };
    let at_hand = |told: &Section| fits(told, moment) && !elsewhere(told);
    let (now, later): (Vec<_>, Vec<_>) = answers.sections_of(part).into_iter().partition(at_hand);
    // Of what is told aside, the moment's own comes first.
    let (mine, others): (Vec<_>, Vec<_>) = later.into_iter().partition(|told| fits(told, moment));
    for told in now {
        section(ui, &told, system);
    }
    for told in mine.into_iter().chain(others) {
        CollapsingHeader::new(told.title.as_str()).id_salt(("rows", &told.key)).show_unindented(ui, |ui| {
            rows(ui, &told, system);
        });
    }
}

/// Whether a section is told of the moment, or of no duty at all.
fn fits(section: &Section, moment: Moment) -> bool {
    let of_duty = |duty: &Duty| section.key.strip_suffix(duty.word()).is_some_and(|rest| rest.ends_with('_'));
    Duty::ALL.iter().find(|duty| of_duty(duty)).is_none_or(|duty| moment == Moment::Driving(*duty))
}

fn held(answers: &Answers, moment: Moment) -> Section {
    let (temperature, held) = answers.held(moment);
    let mut section = Section::new("now", format!("At the moment chosen: {}", moment.name().to_lowercase()));
    section
        .quantity("temperature", "Coolant at the engine outlet", temperature)
        .quantity("gauge", "System pressure", held.gauge)
        .words("cap", "Cap", if held.cap_open { say!["open"] } else { say!["shut"] })
        .quantity("in_tank", "In the tank", held.in_tank);
    match held.level {
        Some(level) => section.quantity("level", "Level above the floor", level),
        None => section.words("level", "Level", say!["above the lid: the tank spills"]),
    };
    if answers.tank.vent.is_some() {
        section.quantity("tank_gauge", "Gas pressure in the tank", held.tank_gauge);
    }
    section.estimate("margin", "Boiling margin", held.margin, Kind::TemperatureDifference);
    section
}

/// One section: its heading and its rows.
pub(in crate::window) fn section(ui: &mut Ui, section: &Section, system: UnitSystem) {
    if section.rows.is_empty() {
        return;
    }
    ui.add_space(space::ROW);
    heading(ui, &section.title, size::BODY);
    rows(ui, section, system);
}

/// Words on the left, the value on the right; values can be marked and copied.
fn rows(ui: &mut Ui, section: &Section, system: UnitSystem) {
    let quiet = Tokens::here(ui).quiet;
    let whole = ui.available_width();
    let column = (whole * 0.54).max(120.0);
    let spacing = vec2(space::ROW, space::TIGHT);
    Grid::new(("rows", section.key.as_str())).num_columns(2).spacing(spacing).min_row_height(0.0).show(ui, |ui| {
        for row in &section.rows {
            cell(ui, column, |ui| {
                ui.add(Label::new(RichText::new(capital(&row.label)).color(quiet)).wrap());
            });
            cell(ui, whole - column - space::ROW, |ui| {
                ui.add(Label::new(row.value.show(system)).wrap().selectable(true));
            });
            ui.end_row();
        }
    });
}

fn cell(ui: &mut Ui, width: f32, add: impl FnOnce(&mut Ui)) {
    ui.scope(|ui| {
        ui.set_width(width);
        ui.set_max_width(width);
        add(ui);
    });
}
