//! The middle of the window: the drawing, and above it whatever keeps the answers from being given.

use super::app::{App, Command};
use super::day::subject;
use super::inspector::{is_of_day, part_of};
use super::kit::{Mark, paint_mark, strong};
use super::tokens::{Tokens, size, space};
use crate::study::{Part, Problems};
use egui::{Button, CornerRadius, Frame, Margin, RichText, ScrollArea, Sense, Ui, vec2};

pub(super) fn show(ui: &mut Ui, app: &mut App, now: f64) {
    if let Some(problems) = app.answering.problems.clone() {
        list(ui, app, &problems, "These inputs do not go together, so there are no answers yet");
    }
    if app.view.through_day {
        through_day(ui, app, now);
        return;
    }
    let stale = app.answering.is_stale(now);
    if stale {
        ui.multiply_opacity(0.5);
    }
    match app.answering.answers.as_deref() {
        Some(answers) => {
            let before = app.view.part;
            let view = &mut app.view;
            // A window smaller than the drawing's least size moves over it.
            ScrollArea::both().id_salt("drawing").show(ui, |ui| {
                super::drawing::show(ui, app.document.project(), answers, view.moment, &mut view.part, view.units);
            });
            if app.view.part != before {
                ui.ctx().request_repaint();
            }
        }
        None => parts(ui, app),
    }
}

/// The day, or why there is none.
fn through_day(ui: &mut Ui, app: &mut App, now: f64) {
    let own = if app.answering.problems.is_none() { app.answering.day.problems.clone() } else { None };
    if let Some(problems) = own {
        list(ui, app, &problems, "The day cannot be followed like this");
    }
    if app.answering.is_day_stale(now) {
        ui.multiply_opacity(0.5);
    }
    match subject(&app.answering, app.document.project(), app.view.units) {
        Some(subject) => {
            let before = app.view.part;
            super::day::show(ui, subject, &mut app.view.day, &mut app.view.part);
            if app.view.part != before {
                ui.ctx().request_repaint();
            }
        }
        None if app.answering.day.problems.is_none() && app.answering.problems.is_none() => {
            ui.label(RichText::new("Following the day…").color(Tokens::here(ui).quiet));
        }
        None => {}
    }
}

/// Every problem in words; where it belongs to a part, a click goes there.
fn list(ui: &mut Ui, app: &mut App, problems: &Problems, title: &str) {
    let tokens = Tokens::here(ui);
    Frame::new()
        .fill(tokens.card)
        .stroke(egui::Stroke::new(1.75, tokens.fault))
        .corner_radius(CornerRadius::same(size::ROUND))
        .inner_margin(Margin::same(12))
        .show(ui, |ui| {
            ui.set_width(ui.available_width());
            ui.horizontal(|ui| {
                let (place, _) = ui.allocate_exact_size(vec2(18.0, 18.0), Sense::hover());
                paint_mark(ui.painter(), place.center(), 16.0, Mark::Warning, tokens);
                ui.label(strong(title, size::BODY));
            });
            ScrollArea::vertical().id_salt("problems").max_height(160.0).show(ui, |ui| {
                for problem in &problems.0 {
                    match part_of(&problem.path) {
                        Some(part) => {
                            let words = format!("{}: {}", part.name(), problem.message);
                            let button = Button::new(RichText::new(words).color(tokens.fault)).wrap().frame(false);
                            if ui.add(button).on_hover_text("Go to this input").clicked() {
                                app.command(Command::GoTo(problem.path.clone()));
                            }
                        }
                        None if is_of_day(&problem.path) => {
                            let words = format!("A day: {}", problem.message);
                            let button = Button::new(RichText::new(words).color(tokens.fault)).wrap().frame(false);
                            if ui.add(button).on_hover_text("Go to this input").clicked() {
                                app.command(Command::GoTo(problem.path.clone()));
                            }
                        }
                        None => {
                            ui.label(RichText::new(&problem.message).color(tokens.fault));
                        }
                    }
                }
            });
        });
    ui.add_space(space::ROW);
}

/// The parts by name, for as long as there is nothing to draw.
fn parts(ui: &mut Ui, app: &mut App) {
    let tokens = Tokens::here(ui);
    let words = if app.answering.problems.is_some() {
        "The drawing comes back with the answers. Until then, the parts by name:"
    } else {
        "Computing…"
    };
    ui.label(RichText::new(words).color(tokens.quiet));
    ui.horizontal_wrapped(|ui| {
        for part in Part::ALL {
            if ui.add(Button::new(part.name()).selected(app.view.part == Some(part))).clicked() {
                app.command(Command::Choose(part));
            }
        }
    });
}
