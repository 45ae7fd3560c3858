//! The window itself: opening it, painting it, leaving it.

use super::app::{App, Beginning, Pace, home};
use super::picture::Taking;
use crate::quantity::UnitSystem;
use crate::quantity::si::Time;
use crate::study::{Moment, Part};
use egui::{Vec2, ViewportBuilder, vec2};
use std::path::PathBuf;
use std::sync::{Arc, Mutex, PoisonError};

/// How the window is opened.
#[derive(Clone, Debug, Default)]
pub struct Start {
    /// A project file; without one the demo is shown.
    pub file: Option<PathBuf>,
    /// Units, if they are not to be the person's own.
    pub units: Option<UnitSystem>,
    /// Theme, if it is not to be the person's own.
    pub dark: Option<bool>,
    /// The part whose inputs are open.
    pub part: Option<Part>,
    /// The moment the drawing shows.
    pub moment: Option<Moment>,
    /// The time of the day shown, if the day is to be shown.
    pub day: Option<Time>,
    /// Size of the window in points.
    pub size: Option<(f32, f32)>,
    /// Paint once, save a picture, leave.
    pub picture: Option<PathBuf>,
}

/// Why there was no window, or no picture.
#[derive(Debug, thiserror::Error)]
pub enum WindowError {
    /// The system gave no window.
    #[error(
        "the window cannot be opened: {0}\nWithout a display, 'coldmark answer FILE' gives the same answers in text"
    )]
    NoWindow(String),
    /// The picture could not be written.
    #[error("cannot write the picture {path}: {cause}")]
    Picture {
        /// The file.
        path: String,
        /// What went wrong.
        cause: String,
    },
}

/// Opens the window and stays until it is closed.
///
/// # Errors
/// When the system gives no window, or the picture asked for could not be written.
pub fn run(start: Start) -> Result<(), WindowError> {
    let size = start.size.map_or(vec2(1280.0, 800.0), |(width, height)| vec2(width, height));
    let viewport = ViewportBuilder::default()
        .with_title("Coldmark")
        .with_app_id("coldmark")
        .with_inner_size(size)
        .with_min_inner_size(Vec2::new(600.0, 400.0));
    let options = eframe::NativeOptions { viewport, ..Default::default() };
    let outcome = Arc::new(Mutex::new(Ok(())));
    let told = Arc::clone(&outcome);
    eframe::run_native(
        "Coldmark",
        options,
        Box::new(move |creation| {
            super::dress(&creation.egui_ctx);
            Ok(Box::new(Window::new(start, &creation.egui_ctx, told)))
        }),
    )
    .map_err(|error| WindowError::NoWindow(plain(&error.to_string())))?;
    let mut outcome = outcome.lock().unwrap_or_else(PoisonError::into_inner);
    std::mem::replace(&mut *outcome, Ok(()))
}

/// The end of a system's message: what stands before it are places in the system's own code.
fn plain(message: &str) -> String {
    let missing = |name: &str| std::env::var_os(name).is_none_or(|value| value.is_empty());
    if cfg!(target_os = "linux") && ["DISPLAY", "WAYLAND_DISPLAY", "WAYLAND_SOCKET"].into_iter().all(missing) {
        return "there is no display".to_owned();
    }
    message.rsplit(": ").next().unwrap_or(message).trim_end_matches('.').to_owned()
}

struct Window {
    app: App,
    taking: Option<Taking>,
}

impl Window {
    fn new(start: Start, ctx: &egui::Context, outcome: Arc<Mutex<Result<(), WindowError>>>) -> Self {
        // A picture shows what is asked for and nothing of the person who takes it.
        let folder = if start.picture.is_some() { None } else { home::usual_folder() };
        let wake = ctx.clone();
        let pace = Pace::Aside(Box::new(move || wake.request_repaint()));
        let mut app = App::new(Beginning { file: start.file, pace, folder });
        app.read_in(start.units.unwrap_or(app.units()), start.dark.unwrap_or(app.dark()));
        app.choose(start.part);
        if let Some(moment) = start.moment {
            app.show_moment(moment);
        }
        if let Some(time) = start.day {
            app.show_day(time);
        }
        let taking = start.picture.map(|path| Taking::new(path, outcome));
        Self { app, taking }
    }
}

impl eframe::App for Window {
    fn ui(&mut self, ui: &mut egui::Ui, _frame: &mut eframe::Frame) {
        self.app.show(ui);
        if let Some(taking) = &mut self.taking {
            taking.watch(ui.ctx(), self.app.is_complete());
        }
    }

    fn on_exit(&mut self, _gl: Option<&eframe::glow::Context>) {
        self.app.end();
    }
}
