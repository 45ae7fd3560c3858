//! What stands behind the answers: figures taken where the builder did not know, remarks, and the working.

use super::parts::belongs;
use super::table::capital;
use crate::note::Weight;
use crate::quantity::Amount;
use crate::study::{Answers, Part};
use crate::window::app::{App, Command};
use crate::window::kit::{caution_box, strong, working_view};
use crate::window::tokens::{Tokens, size, space};
use egui::{Button, CollapsingHeader, Id, Label, RichText, Ui};

/// The program's own figures, each a way to the input that would replace it.
pub(super) fn taken(ui: &mut Ui, app: &mut App, answers: &Answers, part: Option<Part>) {
    let own: Vec<_> = answers.taken.iter().filter(|taken| part.is_none() || belongs(&taken.path, part)).collect();
    if own.is_empty() {
        return;
    }
    let tokens = Tokens::here(ui);
    let units = app.view.units;
    let title = format!("Estimated by the program: {}", own.len());
    CollapsingHeader::new(title).id_salt("taken").show_unindented(ui, |ui| {
        let words = "You left these open, so the program reckons with a low, a likely and a high value. Enter what you \
                     measure, and the answers get narrower.";
        ui.add(Label::new(RichText::new(words).small().color(tokens.quiet)).wrap());
        for taken in own {
            let [low, likely, high] = taken.spread.map(|base| Amount::new(base, taken.kind));
            let words = format!(
                "{}: {} ({} to {})",
                taken.label,
                likely.show(units),
                low.show_number(units),
                high.show_number(units)
            );
            let button = Button::new(words).frame(false).wrap();
            if ui.add(button).on_hover_text("Go to this input").clicked() {
                app.command(Command::GoTo(taken.path.clone()));
            }
        }
    });
}

/// Remarks; with the whole car, as they belong to no single part.
pub(super) fn notes(ui: &mut Ui, answers: &Answers, part: Option<Part>) {
    if part.is_some() {
        return;
    }
    let tokens = Tokens::here(ui);
    for note in &answers.notes {
        match note.weight {
            Weight::Danger => {
                caution_box(ui, &capital(&note.text));
            }
            Weight::Weak | Weight::Remark => {
                ui.add(Label::new(RichText::new(capital(&note.text)).color(tokens.quiet)).wrap().selectable(true));
            }
        }
    }
}

/// The working, computed when somebody opens it.
pub(super) fn working(ui: &mut Ui, app: &mut App, answers: &Answers, part: Option<Part>, now: f64) {
    let tokens = Tokens::here(ui);
    ui.add_space(space::ROW);
    let title = if part.is_some() { "Show the working" } else { "Show the working of everything" };
    CollapsingHeader::new(strong(title, size::BODY)).id_salt("working").show_unindented(ui, |ui| {
        let wanted = part.map_or_else(Vec::new, |part| super::rows::chapters(answers, part));
        let units = app.view.units;
        let generation = app.document.generation();
        let project = app.document.project();
        match app.answering.working(project, now) {
            None => {
                ui.label(RichText::new("Computing…").color(tokens.quiet));
            }
            Some(Err(problems)) => {
                ui.label(RichText::new(problems.to_string()).color(tokens.fault));
            }
            Some(Ok(chapters)) => {
                let fits = |key: &str| part.is_none() || wanted.iter().any(|wanted| below(key, wanted));
                let mut shown = 0;
                for chapter in chapters.iter().filter(|chapter| !chapter.steps.is_empty() && fits(&chapter.key)) {
                    working_view(ui, Id::unique(("working", generation, &chapter.key)), chapter, units);
                    shown += 1;
                }
                if shown == 0 {
                    let words = "No equations belong to this part alone. The whole car's working has everything.";
                    ui.add(Label::new(RichText::new(words).color(tokens.quiet)).wrap());
                }
            }
        }
    });
}

/// The working of the day, computed when somebody opens it.
pub(super) fn working_of_day(ui: &mut Ui, app: &mut App, now: f64) {
    let tokens = Tokens::here(ui);
    ui.add_space(space::ROW);
    let title = strong("Show the working of the day", size::BODY);
    CollapsingHeader::new(title).id_salt("working of the day").show_unindented(ui, |ui| {
        let (units, generation) = (app.view.units, app.document.generation());
        match app.answering.day_working(app.document.project(), now) {
            None => {
                ui.label(RichText::new("Computing…").color(tokens.quiet));
            }
            Some(Err(problems)) => {
                ui.label(RichText::new(problems.to_string()).color(tokens.fault));
            }
            Some(Ok(chapters)) => {
                for chapter in chapters {
                    working_view(ui, Id::unique(("working of the day", generation, &chapter.key)), chapter, units);
                }
            }
        }
    });
}

/// Whether a chapter is the one meant or one of its parts: "crankcase/idle" of "crankcase".
fn below(key: &str, wanted: &str) -> bool {
    !wanted.is_empty() && key.strip_prefix(wanted).is_some_and(|rest| rest.is_empty() || rest.starts_with('/'))
}
