//! The program behind the window: the open project, what is chosen, the answers, and what a person asked for.

pub(crate) mod answering;
mod browse;
mod commands;
pub(crate) mod document;
mod followed;
mod frame;
mod history;
pub(crate) mod home;
pub(crate) mod worker;

pub(crate) use browse::{Browsed, Browser};
pub(crate) use commands::{Command, Next};

use super::day::DayView;
use super::dialog::Dialog;
use super::plots::{HeatView, MapView};
use crate::file;
use crate::quantity::UnitSystem;
use crate::quantity::si::Time;
use crate::study::{Answers, DayAnswers, Duty, Moment, Part, Problems, Project};
use answering::Answering;
use document::Document;
use home::{Home, Preferences};
use std::path::{Path, PathBuf};
use worker::Worker;

/// Who computes the answers.
pub enum Pace {
    /// A thread beside the window; it calls this when something came out.
    Aside(Box<dyn Fn() + Send>),
    /// The frame itself waits: for tests and for pictures.
    AtOnce,
}

/// How the program begins.
pub struct Beginning {
    /// A project file to open; without one the demo is shown.
    pub file: Option<PathBuf>,
    /// Who computes.
    pub pace: Pace,
    /// Where preferences and unsaved work are kept; nowhere if `None`.
    pub folder: Option<PathBuf>,
}

/// What a person looks at.
pub(crate) struct View {
    pub(crate) part: Option<Part>,
    pub(crate) moment: Moment,
    pub(crate) units: UnitSystem,
    pub(crate) dark: bool,
    /// The verdict whose reason is open.
    pub(crate) explained: Option<&'static str>,
    /// Inputs somebody pointed at: shown, opened and given the keyboard in the next frame.
    pub(crate) pointed: Option<String>,
    /// What the operating map shows.
    pub(crate) map: MapView,
    /// Whether the day is shown in place of the moments.
    pub(crate) through_day: bool,
    /// What is looked at in the day.
    pub(crate) day: DayView,
    /// What the heat plots show.
    pub(crate) heat: HeatView,
}

/// The program. [`App::show`] draws one frame of it.
pub struct App {
    pub(crate) document: Document,
    pub(crate) view: View,
    pub(crate) answering: Answering,
    pub(crate) dialog: Option<Dialog>,
    pub(crate) home: Home,
    pub(crate) browser: Browser,
    /// What was asked for in this frame; carried out at its end, when every input has given up its text.
    commands: Vec<Command>,
    /// Whether a box holds text that is not committed yet; Ctrl+Z then belongs to the box.
    pub(crate) typing: bool,
    /// The version kept against a crash.
    kept: u64,
    window_title: String,
    may_close: bool,
}

impl App {
    /// The program with its first project.
    #[must_use]
    pub fn new(beginning: Beginning) -> Self {
        let home = Home::new(beginning.folder);
        let Preferences { units, dark } = home.preferences();
        let worker = match beginning.pace {
            Pace::Aside(wake) => Worker::aside(wake),
            Pace::AtOnce => Worker::at_once(),
        };
        let (document, dialog) = match beginning.file {
            None => (Document::new(super::first_project(), None), None),
            Some(path) => match file::open(&path) {
                Ok(project) => (Document::new(project, Some(path)), None),
                Err(error) => (Document::new(super::first_project(), None), Some(Dialog::failed_to_open(&error))),
            },
        };
        let dialog = dialog.or_else(|| home.left_behind().into_iter().next().map(Dialog::LeftBehind));
        let kept = document.version();
        Self {
            document,
            view: View {
                part: None,
                moment: Moment::Driving(Duty::Cruise),
                units,
                dark,
                explained: None,
                pointed: None,
                map: MapView::default(),
                through_day: false,
                day: DayView::default(),
                heat: HeatView::default(),
            },
            answering: Answering::new(worker),
            dialog,
            home,
            browser: Browser::default(),
            commands: Vec::new(),
            typing: false,
            kept,
            window_title: String::new(),
            may_close: false,
        }
    }

    /// The project as it stands.
    #[must_use]
    pub const fn project(&self) -> &Project {
        self.document.project()
    }

    /// Where it was opened from or saved to.
    #[must_use]
    pub fn path(&self) -> Option<&Path> {
        self.document.path()
    }

    /// Whether there is work that no file has.
    #[must_use]
    pub fn is_unsaved(&self) -> bool {
        self.document.is_unsaved()
    }

    /// The answers shown.
    #[must_use]
    pub fn answers(&self) -> Option<&Answers> {
        self.answering.answers.as_deref()
    }

    /// Why there are none for the project as it stands.
    #[must_use]
    pub const fn problems(&self) -> Option<&Problems> {
        self.answering.problems.as_ref()
    }

    /// Whether answers and curves of the project as it stands have come.
    #[must_use]
    pub fn is_complete(&self) -> bool {
        self.answering.is_complete()
    }

    /// The part whose inputs are open.
    #[must_use]
    pub const fn part(&self) -> Option<Part> {
        self.view.part
    }

    /// The moment the drawing shows.
    #[must_use]
    pub const fn moment(&self) -> Moment {
        self.view.moment
    }

    /// The units a person reads in.
    #[must_use]
    pub const fn units(&self) -> UnitSystem {
        self.view.units
    }

    /// Whether the dark theme is on.
    #[must_use]
    pub const fn dark(&self) -> bool {
        self.view.dark
    }

    /// Opens the inputs of a part.
    pub fn choose(&mut self, part: Option<Part>) {
        self.view.part = part;
    }

    /// Shows another moment.
    pub fn show_moment(&mut self, moment: Moment) {
        self.view.moment = moment;
        self.view.through_day = false;
    }

    /// Shows the day at a time.
    pub fn show_day(&mut self, time: Time) {
        self.view.through_day = true;
        self.view.day.go_to(time);
    }

    /// The time of the day that is shown; `None` while the moments are.
    #[must_use]
    pub fn time_of_day(&self) -> Option<Time> {
        self.view.through_day.then(|| self.view.day.now())
    }

    /// The day shown.
    #[must_use]
    pub fn day(&self) -> Option<&DayAnswers> {
        self.answering.day.answers.as_deref()
    }

    /// Changes what a person reads in, for this window only.
    pub fn read_in(&mut self, units: UnitSystem, dark: bool) {
        self.view.units = units;
        self.view.dark = dark;
    }

    /// Asks for something; it is done at the end of the frame.
    pub(crate) fn command(&mut self, command: Command) {
        self.commands.push(command);
    }

    /// Says that the program ends.
    pub(crate) fn end(&mut self) {
        if !self.is_unsaved() || self.may_close {
            self.home.forget_unsaved();
        }
        self.home.settle();
    }
}
