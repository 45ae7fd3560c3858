//! Dialogs: a path typed or chosen, faults of a file, unsaved work, work left behind by a crash.

mod faults;
mod path;
mod question;

use super::app::{App, Next};
use super::tokens::{Tokens, size, space};
use crate::file::{FileError, FileFault};
use egui::{Context, Frame, Id, Key, Margin, Modal, RichText, Ui};
use path::Asked;
use std::path::PathBuf;

/// The dialog in front of everything else.
pub(crate) enum Dialog {
    /// A path is asked for.
    Path(Asked),
    /// Unsaved work would be lost by what comes next.
    Unsaved(Next),
    /// A file was not opened: all its faults.
    Faults { path: String, faults: Vec<FileFault> },
    /// Something a person has to know.
    Told { title: &'static str, text: String },
    /// Unsaved work of a window that is gone.
    LeftBehind(PathBuf),
}

impl Dialog {
    /// Asks for the path of a file to open.
    pub(crate) fn open() -> Self {
        Self::Path(Asked::open())
    }

    /// Asks for the path to save to.
    pub(crate) fn save(app: &App, next: Option<Next>) -> Self {
        Self::Path(Asked::save(app, next))
    }

    /// Why a file was not opened.
    pub(crate) fn failed_to_open(error: &FileError) -> Self {
        match error {
            FileError::Faults { path, faults } => Self::Faults { path: path.clone(), faults: faults.clone() },
            other => Self::Told { title: "The file was not opened", text: other.to_string() },
        }
    }
}

/// What a dialog wants in this frame.
enum Wish {
    Stay,
    Close,
    /// Another dialog in its place.
    Change(Dialog),
}

/// Draws the open dialog, if there is one.
pub(super) fn show(ctx: &Context, app: &mut App) {
    let Some(mut dialog) = app.dialog.take() else { return };
    let tokens = Tokens::of(app.view.dark);
    let frame = Frame::new()
        .fill(tokens.paper)
        .stroke(tokens.hairline())
        .corner_radius(egui::CornerRadius::same(size::ROUND))
        .inner_margin(Margin::same(18));
    let modal = Modal::new(Id::unique("dialog")).frame(frame).show(ctx, |ui| {
        ui.set_width(ui.ctx().content_rect().width().min(620.0) - 60.0);
        match &mut dialog {
            Dialog::Path(asked) => path::show(ui, app, asked),
            Dialog::Unsaved(next) => question::unsaved(ui, app, next),
            Dialog::Faults { path, faults } => faults::show(ui, path, faults),
            Dialog::Told { title, text } => told(ui, title, text),
            Dialog::LeftBehind(path) => question::left_behind(ui, app, path),
        }
    });
    // A click beside the dialog closes nothing: it would be too easy to lose a typed path by it.
    let escape = ctx.input(|input| input.key_pressed(Key::Escape));
    let wish = if escape && !matches!(modal.inner, Wish::Change(_)) { Wish::Close } else { modal.inner };
    // A dialog put up meanwhile by a command of this frame stands above this one's wish to stay.
    match wish {
        Wish::Stay => app.dialog = Some(dialog),
        Wish::Close => {
            app.browser.leave();
            ctx.request_repaint();
        }
        Wish::Change(other) => {
            app.browser.leave();
            app.dialog = Some(other);
            ctx.request_repaint();
        }
    }
}

fn heading(ui: &mut Ui, words: &str) {
    super::kit::heading(ui, words, size::TITLE);
    ui.add_space(space::TIGHT);
}

fn told(ui: &mut Ui, title: &str, text: &str) -> Wish {
    heading(ui, title);
    ui.add(egui::Label::new(text).wrap().selectable(true));
    ui.label(RichText::new("Nothing is lost: the project stays open as it was.").color(Tokens::here(ui).quiet));
    ui.add_space(space::ROW);
    if focused_button(ui, "Close") { Wish::Close } else { Wish::Stay }
}

/// A button that has the keyboard when the dialog comes up.
fn focused_button(ui: &mut Ui, words: &str) -> bool {
    let response = ui.button(words);
    if ui.memory(|memory| memory.focused().is_none()) {
        response.request_focus();
    }
    response.clicked()
}
