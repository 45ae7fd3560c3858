//! The window: the drawing, inspectors, plots and dialogs. No physics in here.
//!
//! [`tokens`] holds every colour, size and line weight, [`fonts`] the bundled letters, and [`kit`] the few widgets all
//! views are built from. [`App`] is the program itself and can be driven without a display; [`run`] gives it a window.

mod app;
mod bar;
pub mod day;
mod dialog;
pub mod drawing;
pub mod fonts;
mod inspector;
pub mod kit;
mod picture;
pub mod plots;
mod run;
mod scene;
mod strip;
pub mod tokens;

pub use app::{App, Beginning, Pace};
pub use run::{Start, WindowError, run};

/// The project shown when none was named.
fn first_project() -> crate::study::Project {
    crate::file::demo()
}

/// Gives a context the program's letters, colours and sizes. Call once, before the first frame.
pub fn dress(ctx: &egui::Context) {
    fonts::install(ctx);
    tokens::apply(ctx);
    // A blinking caret paints the whole window twice a second; an idle window shall use no processor.
    ctx.all_styles_mut(|style| style.visuals.text_cursor.blink = false);
}
