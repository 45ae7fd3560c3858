//! The two bars at the top: the project and its file, and the moment of the day.

use super::app::{App, Command};
use super::day::subject;
use super::kit::{segments, strong};
use super::tokens::{Tokens, size};
use crate::quantity::UnitSystem;
use crate::study::Moment;
use egui::{Align, Button, Id, Label, Layout, RichText, Ui, vec2};

/// The room of units and theme at the right end.
const CHOICES: f32 = 236.0;
/// The room of name, buttons and choices; a narrower window gets two rows.
const ONE_ROW: f32 = 830.0;

/// Name, file, undo, units, theme.
pub(super) fn show(ui: &mut Ui, app: &mut App) {
    if ui.available_width() >= ONE_ROW {
        ui.horizontal(|ui| {
            buttons(ui, app);
            name(ui, app);
            choices(ui, app);
        });
    } else {
        ui.horizontal_wrapped(|ui| buttons(ui, app));
        ui.horizontal(|ui| {
            name(ui, app);
            choices(ui, app);
        });
    }
}

fn buttons(ui: &mut Ui, app: &mut App) {
    ui.label(strong("Coldmark", size::TITLE));
    let buttons = [
        ("New", "A blank project (Ctrl+N)", true, Command::New),
        ("Open…", "Open a project file (Ctrl+O)", true, Command::AskOpen),
        ("Save", "Save to the project's file (Ctrl+S)", true, Command::Save),
        ("Save as…", "Save to another file (Ctrl+Shift+S)", true, Command::AskSave),
        ("Undo", "Take back the last edit (Ctrl+Z)", app.document.history().can_undo(), Command::Undo),
        ("Redo", "Do it again (Ctrl+Shift+Z or Ctrl+Y)", app.document.history().can_redo(), Command::Redo),
    ];
    for (words, hint, enabled, command) in buttons {
        if ui.add_enabled(enabled, Button::new(words)).on_hover_text(hint).clicked() {
            app.command(command);
        }
    }
}

/// The name gets what the choices at the right end leave.
fn name(ui: &mut Ui, app: &App) {
    let tokens = Tokens::here(ui);
    let room = (ui.available_width() - CHOICES).max(40.0);
    ui.allocate_ui_with_layout(vec2(room, size::BOX), Layout::left_to_right(Align::Center), |ui| {
        ui.set_min_width(room);
        let (mark, state) = if app.is_unsaved() { ("• ", "not saved") } else { ("", "nothing to save") };
        let place = app.path().map_or_else(|| "in no file yet".to_owned(), |path| path.display().to_string());
        let name = RichText::new(format!("{mark}{}", app.document.name())).color(tokens.quiet);
        ui.add(Label::new(name).truncate()).on_hover_text(format!("{place}; {state}"));
    });
}

fn choices(ui: &mut Ui, app: &mut App) {
    let us = usize::from(app.view.units == UnitSystem::Us);
    if let Some(chosen) = segments(ui, Id::unique("units"), "Units", us, &["SI", "US"]) {
        app.command(Command::Units(if chosen == 1 { UnitSystem::Us } else { UnitSystem::Si }));
    }
    ui.separator();
    let dark = usize::from(app.view.dark);
    if let Some(chosen) = segments(ui, Id::unique("theme"), "Theme", dark, &["Light", "Dark"]) {
        app.command(Command::Dark(chosen == 1));
    }
}

/// The time of the day shown, and the events before and after it.
fn steps(ui: &mut Ui, app: &mut App, now: f64) {
    let tokens = Tokens::here(ui);
    let late = app.answering.waits_for_day() && app.answering.is_day_stale(now);
    let words = RichText::new("following the day…").color(tokens.quiet);
    if let Some(subject) = subject(&app.answering, app.document.project(), app.view.units) {
        // What comes and goes must not push the buttons about: it stands behind them.
        app.view.day.steps(ui, &subject, late.then_some(words));
    } else if late {
        ui.label(words);
    }
}

/// The moment of the day the drawing shows, and what the program is doing.
pub(super) fn moments(ui: &mut Ui, app: &mut App, now: f64) {
    let tokens = Tokens::here(ui);
    ui.horizontal_wrapped(|ui| {
        let views = usize::from(app.view.through_day);
        if let Some(view) = segments(ui, Id::unique("view"), "View", views, &["Moments", "A day"]) {
            app.view.through_day = view == 1;
            ui.ctx().request_repaint();
        }
        ui.separator();
        if app.view.through_day {
            steps(ui, app, now);
            return;
        }
        let chosen = Moment::ALL.iter().position(|moment| *moment == app.view.moment).unwrap_or(0);
        let names = Moment::ALL.map(Moment::name);
        let answer = segments(ui, Id::unique("moment"), "Moment of the day", chosen, &names);
        if let Some(moment) = answer.and_then(|index| Moment::ALL.get(index)) {
            app.view.moment = *moment;
        }
        if app.answering.waits() && app.answering.is_stale(now) {
            ui.label(RichText::new("computing…").color(tokens.quiet));
        }
    });
}
