//! The plots that belong to each part of the drawing.

use crate::quantity::UnitSystem;
use crate::study::{Answers, Curves, Moment, Part, Project};
use egui::Ui;

/// Shows the plots of a part, or says why there is nothing to plot.
pub fn show_for(
    ui: &mut Ui,
    _part: Part,
    _project: &Project,
    _answers: &Answers,
    _curves: Option<&Curves>,
    _moment: Moment,
    _system: UnitSystem,
) {
    ui.label("Nothing to plot: the curves are still being computed.");
}
