//! Questions before work is lost.

use super::{Dialog, Wish, focused_button, heading};
use crate::window::app::{App, Command, Next};
use crate::window::tokens::space;
use egui::{Label, Ui};
use std::path::Path;

/// Unsaved work would be lost by what comes next.
pub(super) fn unsaved(ui: &mut Ui, app: &mut App, next: &Next) -> Wish {
    heading(ui, "Save the changes first?");
    let coming = match next {
        Next::New => "a new project is begun".to_owned(),
        Next::Show(_, path) => format!("{} is opened", path.display()),
        Next::Leave => "the program ends".to_owned(),
    };
    let words = format!("\"{}\" has changes that no file has. They are lost if {coming} now.", app.document.name());
    ui.add(Label::new(words).wrap());
    ui.add_space(space::ROW);
    let mut wish = Wish::Stay;
    ui.horizontal(|ui| {
        if focused_button(ui, "Save") {
            wish = match app.path().map(Path::to_owned) {
                Some(path) => {
                    app.command(Command::SaveTo(path, Some(next.clone())));
                    Wish::Close
                }
                None => Wish::Change(Dialog::save(app, Some(next.clone()))),
            };
        }
        if ui.button("Lose the changes").clicked() {
            app.command(Command::GoOn(next.clone()));
            wish = Wish::Close;
        }
        if ui.button("Cancel").clicked() {
            wish = Wish::Close;
        }
    });
    wish
}

/// Unsaved work of a window that is gone.
pub(super) fn left_behind(ui: &mut Ui, app: &mut App, path: &Path) -> Wish {
    heading(ui, "Unsaved work was found");
    let when = std::fs::metadata(path).and_then(|meta| meta.modified()).ok().and_then(|time| time.elapsed().ok());
    let when = when.map_or_else(String::new, |ago| format!(", last changed {}", ago_words(ago.as_secs())));
    let words =
        format!("The program ended last time before this work was saved{when}. It is kept in {}.", path.display());
    ui.add(Label::new(words).wrap().selectable(true));
    ui.add_space(space::ROW);
    let mut wish = Wish::Stay;
    ui.horizontal(|ui| {
        if focused_button(ui, "Take it up again") {
            app.command(Command::Recover(path.to_owned()));
            wish = Wish::Close;
        }
        if ui.button("Decide later").clicked() {
            wish = Wish::Close;
        }
        if ui.button("Throw it away").clicked() {
            app.command(Command::Discard(path.to_owned()));
            wish = Wish::Close;
        }
    });
    wish
}

fn ago_words(seconds: u64) -> String {
    let told = |count: u64, what: &str| format!("{count} {what}{} ago", if count == 1 { "" } else { "s" });
    match seconds {
        0..=119 => "a moment ago".to_owned(),
        120..=7199 => told(seconds / 60, "minute"),
        7200..=172_799 => told(seconds / 3600, "hour"),
        _ => told(seconds / 86_400, "day"),
    }
}
