//! The panel beside the drawing: a part's inputs, what comes of them, its plot, verdicts, working and cautions.

mod cautions;
mod failures;
mod form;
mod kept;
mod list;
mod parts;
mod presets;
mod rows;
mod set_points;
mod table;
mod verdicts;

pub(crate) use parts::{is_of_day, part_of};
pub(in crate::window) use rows::section as show_section;
pub(in crate::window) use table::capital;

use super::app::{App, Command};
use super::day::subject;
use super::kit::{caution_box, heading, segments};
use super::tokens::{Tokens, size, space, weight};
use crate::study::{Answers, Part};
use egui::{Align, Button, Id, Label, Layout, RichText, ScrollArea, Sense, Ui, vec2};

pub(super) fn show(ui: &mut Ui, app: &mut App, now: f64) {
    let part = app.view.part;
    ScrollArea::vertical().id_salt(("inspector", part)).auto_shrink(false).show(ui, |ui| {
        // Room for the bar, so that it never lies on an input.
        ui.set_max_width(ui.available_width() - space::CARD);
        if app.view.through_day && part.is_none() {
            through_day(ui, app, now);
            return;
        }
        title(ui, app, part);
        let cautions = cautions::of(part);
        if let Some((first, _)) = cautions.split_first() {
            caution_box(ui, first);
            ui.add_space(space::TIGHT);
        }
        judged(ui, app, part, now);
        presets::show(ui, app, part);
        inputs(ui, app, part);
        outcome(ui, app, part, now);
        for caution in cautions.iter().skip(1) {
            caution_box(ui, caution);
        }
        ui.add_space(space::GROUP);
    });
}

/// The day's own panel: what happened on it, and its legs to be changed.
fn through_day(ui: &mut Ui, app: &mut App, now: f64) {
    heading(ui, "A day", size::TITLE);
    // Who is sent to an input finds it.
    app.view.day.legs |= app.view.pointed.as_deref().is_some_and(is_of_day);
    // Without a day nothing has happened on it.
    let none = app.answering.day.answers.is_none() && !app.answering.waits_for_day();
    let legs = app.view.day.legs || none;
    let names = ["What happened", "Change the day"];
    if let Some(tab) = segments(ui, Id::unique("day panel"), "A day", usize::from(legs), &names) {
        app.view.day.legs = tab == 1;
    }
    ui.add_space(space::TIGHT);
    if app.view.day.legs || none {
        presets::offer(ui, app, None, presets::DAY);
        usual_legs(ui, app);
        fill_in(ui, app, parts::DAY);
        ui.add_space(space::GROUP);
        return;
    }
    let stale = app.answering.is_day_stale(now);
    if let Some(subject) = subject(&app.answering, app.document.project(), app.view.units) {
        ui.scope(|ui| {
            if stale {
                ui.multiply_opacity(0.5);
            }
            super::day::panel(ui, subject, &mut app.view.day);
        });
    }
    if app.answering.day.answers.is_some() {
        kept::working_of_day(ui, app, now);
    }
    ui.add_space(space::GROUP);
}

/// Where no leg is put in: what is driven instead, and a button that puts its legs in to be changed.
fn usual_legs(ui: &mut Ui, app: &mut App) {
    if !app.project().day.legs.is_empty() {
        return;
    }
    let Ok(legs) = crate::study::usual_day(app.project()) else { return };
    let words = format!(
        "No leg is put in, so a usual day of {} legs is driven, from the coldest morning over a hill at the hottest time to \
         the next morning. A leg added below takes the place of all of them.",
        legs.len()
    );
    ui.add(Label::new(RichText::new(words).color(Tokens::here(ui).quiet)).wrap());
    if ui.button("Put in the usual legs").on_hover_text("Then change, move or remove them one by one").clicked() {
        let mut project = app.project().clone();
        project.day.legs = legs;
        app.command(Command::Edit(Box::new(project)));
    }
    ui.add_space(space::TIGHT);
}

const fn runs_coolant(part: Part) -> bool {
    !matches!(
        part,
        Part::Crankcase | Part::Breather | Part::Valve | Part::CatchCan | Part::CoverJoint | Part::Surroundings
    )
}

fn title(ui: &mut Ui, app: &mut App, part: Option<Part>) {
    let tokens = Tokens::here(ui);
    ui.horizontal(|ui| {
        let words = part.map_or("The whole car", Part::name);
        heading(ui, words, size::TITLE);
        if part.is_some() {
            ui.with_layout(Layout::right_to_left(Align::Center), |ui| {
                let back = ui.add(Button::new("×").frame(false)).on_hover_text("Back to the whole car");
                if back.accessible_name("Close this part").clicked() {
                    app.view.part = None;
                }
            });
        }
    });
    let accent = match part {
        Some(Part::Surroundings) | None => tokens.quiet,
        Some(part) if runs_coolant(part) => tokens.coolant,
        Some(_) => tokens.gas,
    };
    let (bar, _) = ui.allocate_exact_size(vec2(36.0, weight::THICK), Sense::hover());
    ui.painter().rect_filled(bar, 0.0, accent);
    ui.add_space(space::TIGHT);
    let Some(part) = part else {
        parts_list(ui, app);
        return;
    };
    let ventilation = &app.project().ventilation;
    let absent = match part {
        Part::Valve if !ventilation.has_valve() => "This arrangement has no valve.",
        Part::CoverJoint if !app.project().cover_joint.known => {
            "Measure one screw, the gasket and the flange, and switch this on: then torque, gasket and leaks are told."
        }
        Part::Breather if !ventilation.has_breather() => "This arrangement has no breather line.",
        _ => return,
    };
    ui.label(RichText::new(absent).color(tokens.quiet));
}

/// Every part by name: the way in for whoever does not click on drawings.
fn parts_list(ui: &mut Ui, app: &mut App) {
    ui.horizontal_wrapped(|ui| {
        for part in Part::ALL {
            if ui.button(part.name()).clicked() {
                app.command(Command::Choose(part));
            }
        }
    });
    ui.add_space(space::ROW);
}

fn inputs(ui: &mut Ui, app: &mut App, part: Option<Part>) {
    fill_in(ui, app, parts::inputs(part));
}

fn fill_in(ui: &mut Ui, app: &mut App, beginnings: &'static [&'static str]) {
    let pointed = app.view.pointed.take();
    let legs = app.view.day.leg_names();
    let filled = form::show(
        ui,
        app.document.project(),
        app.document.generation(),
        (beginnings, legs),
        app.view.units,
        pointed.as_deref(),
        app.typing,
    );
    app.typing = filled.typing;
    if let Some(edited) = filled.edited {
        app.command(Command::Edit(Box::new(edited)));
    }
}

/// The verdicts of the part stand above its inputs: who comes from a verdict wants to know why.
fn judged(ui: &mut Ui, app: &mut App, part: Option<Part>, now: f64) {
    let stale = app.answering.is_stale(now);
    let Some(verdicts) = app.answering.verdicts(app.view.through_day) else { return };
    let view = &mut app.view;
    ui.scope(|ui| {
        if stale {
            ui.multiply_opacity(0.5);
        }
        verdicts::show(ui, verdicts, part, view.units, &mut view.explained);
    });
}

/// Everything below the inputs; greyed while newer answers are on their way.
fn outcome(ui: &mut Ui, app: &mut App, part: Option<Part>, now: f64) {
    let stale = app.answering.is_stale(now);
    let Some(answers) = app.answering.answers.take() else { return };
    ui.scope(|ui| {
        if stale {
            ui.multiply_opacity(0.5);
        }
        told(ui, app, &answers, part, now);
    });
    app.answering.answers = Some(answers);
}

fn told(ui: &mut Ui, app: &mut App, answers: &Answers, part: Option<Part>, now: f64) {
    let units = app.view.units;
    if let Some(part) = part {
        if part == Part::Crankcase {
            ui.add_space(space::ROW);
            super::plots::show_levels(ui, answers, app.view.moment, units);
        }
        let plots = |ui: &mut Ui, app: &App| {
            ui.add_space(space::ROW);
            let curves = app.answering.curves.as_ref();
            super::plots::show_for(ui, part, app.document.project(), answers, curves, app.view.moment, units);
        };
        // What the valve passes and the torques of a joint are what somebody came for: before the rows.
        let first = matches!(part, Part::Valve | Part::CoverJoint);
        if first {
            plots(ui, app);
        }
        failures::show(ui, answers, part, units);
        // All duties at a glance before the numbers of one.
        if matches!(part, Part::Crankcase | Part::Breather | Part::Valve) {
            ui.add_space(space::ROW);
            let project = app.document.project();
            let found = app.answering.maps(project, app.view.map.other(), now);
            super::plots::show_map(ui, &mut app.view.map, project, found, app.view.moment, units);
        }
        // The capacity is what somebody came to the radiator for: before the rows.
        if part == Part::Radiator {
            heat(ui, app, part, now);
        }
        rows::show(ui, answers, part, app.view.moment, units);
        if part == Part::Thermostat {
            set_points::show(ui, answers, units);
            heat(ui, app, part, now);
        }
        ui.add_space(space::ROW);
        if !first {
            plots(ui, app);
        }
    }
    kept::taken(ui, app, answers, part);
    kept::notes(ui, answers, part);
    kept::working(ui, app, answers, part, now);
}

/// The plots of the heat balance; computed when somebody looks.
fn heat(ui: &mut Ui, app: &mut App, part: Part, now: f64) {
    ui.add_space(space::ROW);
    let project = app.document.project();
    let found = app.answering.heat(project, now);
    super::plots::show_heat(ui, part, &mut app.view.heat, found, app.view.moment, app.view.units);
}
