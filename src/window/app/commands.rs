//! What a person can ask for, and the keys that do.

use super::App;
use crate::file;
use crate::quantity::UnitSystem;
use crate::study::{Part, Project};
use crate::window::dialog::Dialog;
use crate::window::inspector;
use egui::{Context, Key, KeyboardShortcut, Modifiers, ViewportCommand};
use std::path::{Path, PathBuf};

/// Something asked for.
pub(crate) enum Command {
    New,
    /// The dialog that asks for a path.
    AskOpen,
    Open(PathBuf),
    Save,
    /// The dialog that asks for a path.
    AskSave,
    /// Save to this path, then go on.
    SaveTo(PathBuf, Option<Next>),
    Undo,
    Redo,
    Units(UnitSystem),
    Dark(bool),
    /// An edited project, one step of undo.
    Edit(Box<Project>),
    /// Go to the part of an input, and to the input.
    GoTo(String),
    Choose(Part),
    /// Go to a verdict's part, with its reason open.
    Explain(Part, &'static str),
    /// Do it although unsaved work is lost by it.
    GoOn(Next),
    /// Take up work left behind by a crash.
    Recover(PathBuf),
    /// Give that work up.
    Discard(PathBuf),
}

/// What follows once unsaved work is saved or given up.
#[derive(Clone)]
pub(crate) enum Next {
    New,
    /// A project that was read already: faults were told before anything was asked.
    Show(Box<Project>, PathBuf),
    Leave,
}

const fn ctrl(key: Key) -> KeyboardShortcut {
    KeyboardShortcut::new(Modifiers::COMMAND, key)
}

const fn ctrl_shift(key: Key) -> KeyboardShortcut {
    KeyboardShortcut::new(Modifiers::COMMAND.plus(Modifiers::SHIFT), key)
}

impl App {
    /// Turns keys into commands. A dialog keeps them to itself.
    pub(super) fn read_keys(&mut self, ctx: &Context) {
        if self.dialog.is_some() {
            return;
        }
        let pressed = |shortcut: KeyboardShortcut| ctx.input_mut(|input| input.consume_shortcut(&shortcut));
        // The longer combinations first: the shorter ones would take them too.
        if pressed(ctrl_shift(Key::S)) {
            self.leave_boxes(ctx, Command::AskSave);
        }
        if !self.typing {
            if pressed(ctrl_shift(Key::Z)) || pressed(ctrl(Key::Y)) {
                self.command(Command::Redo);
            }
            if pressed(ctrl(Key::Z)) {
                self.command(Command::Undo);
            }
        }
        for (key, command) in [(Key::S, Command::Save), (Key::O, Command::AskOpen), (Key::N, Command::New)] {
            if pressed(ctrl(key)) {
                self.leave_boxes(ctx, command);
            }
        }
    }

    /// A box gives up its text when it loses the keyboard, so that what was typed is saved too.
    fn leave_boxes(&mut self, ctx: &Context, command: Command) {
        ctx.memory_mut(|memory| {
            if let Some(focused) = memory.focused() {
                memory.surrender_focus(focused);
            }
        });
        self.command(command);
    }

    /// Does everything asked for in this frame. Edits come first, whatever the order: a click on Save also ends typing.
    pub(super) fn carry_out(&mut self, ctx: &Context) {
        let (edits, others): (Vec<_>, Vec<_>) =
            std::mem::take(&mut self.commands).into_iter().partition(|command| matches!(command, Command::Edit(_)));
        for command in edits.into_iter().chain(others) {
            self.carry_out_one(command, ctx);
        }
    }

    fn carry_out_one(&mut self, command: Command, ctx: &Context) {
        match command {
            Command::New => self.unless_unsaved(Next::New, ctx),
            Command::AskOpen => self.dialog = Some(Dialog::open()),
            Command::Open(path) => match file::open(&path) {
                Ok(project) => self.unless_unsaved(Next::Show(Box::new(project), path), ctx),
                Err(error) => self.dialog = Some(Dialog::failed_to_open(&error)),
            },
            Command::Save => match self.path().map(Path::to_owned) {
                Some(path) => self.save_to(&path, None, ctx),
                None => self.dialog = Some(Dialog::save(self, None)),
            },
            Command::AskSave => self.dialog = Some(Dialog::save(self, None)),
            Command::SaveTo(path, next) => self.save_to(&path, next, ctx),
            Command::Undo => self.document.undo(),
            Command::Redo => self.document.redo(),
            Command::Units(units) => {
                self.view.units = units;
                self.keep_preferences();
            }
            Command::Dark(dark) => {
                self.view.dark = dark;
                self.keep_preferences();
            }
            Command::Edit(project) => self.document.edit(*project),
            Command::GoTo(path) => {
                let (part, daily) = (inspector::part_of(&path), inspector::is_of_day(&path));
                // What a part and the day both ask for is found in the view that is open.
                let in_day = daily && (part.is_none() || self.view.through_day);
                if part.is_some() || daily {
                    self.view.part = part.filter(|_| !in_day);
                    self.view.through_day |= in_day;
                    self.view.pointed = Some(path);
                }
            }
            Command::Choose(part) => self.view.part = Some(part),
            Command::Explain(part, verdict) => {
                self.view.part = Some(part);
                self.view.explained = Some(verdict);
            }
            Command::GoOn(next) => self.go_on(next, ctx),
            Command::Recover(path) => match file::open(&path) {
                Ok(project) => {
                    self.document.recover(project);
                    self.answering.forget();
                    // Kept under this window's own name before the old file goes.
                    self.home.keep_unsaved(self.document.project(), self.view.units);
                    self.home.settle();
                    drop(std::fs::remove_file(path));
                }
                Err(error) => self.dialog = Some(Dialog::failed_to_open(&error)),
            },
            Command::Discard(path) => drop(std::fs::remove_file(path)),
        }
        ctx.request_repaint();
    }

    fn keep_preferences(&self) {
        let (units, dark) = (self.view.units, self.view.dark);
        self.home.keep_preferences(super::Preferences { units, dark });
    }

    /// Goes on at once, or asks first when work would be lost.
    pub(super) fn unless_unsaved(&mut self, next: Next, ctx: &Context) {
        if self.is_unsaved() {
            self.dialog = Some(Dialog::Unsaved(next));
        } else {
            self.go_on(next, ctx);
        }
    }

    fn go_on(&mut self, next: Next, ctx: &Context) {
        match next {
            Next::New => self.show_project(Project::blank(), None),
            Next::Show(project, path) => self.show_project(*project, Some(path)),
            Next::Leave => {
                self.may_close = true;
                ctx.send_viewport_cmd(ViewportCommand::Close);
            }
        }
    }

    fn show_project(&mut self, project: Project, path: Option<PathBuf>) {
        self.document.replace(project, path);
        self.answering.forget();
        self.home.forget_unsaved();
        self.kept = self.document.version();
    }

    fn save_to(&mut self, path: &Path, next: Option<Next>, ctx: &Context) {
        match self.document.save(path, self.view.units) {
            Ok(()) => {
                self.home.forget_unsaved();
                if let Some(next) = next {
                    self.go_on(next, ctx);
                }
            }
            Err(error) => {
                self.dialog = Some(Dialog::Told { title: "The project was not saved", text: error.to_string() })
            }
        }
    }
}
