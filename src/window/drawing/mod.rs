//! The drawing: one live section of this car's coolant and crankcase systems, which is also the menu.

use crate::quantity::UnitSystem;
use crate::study::{Answers, Moment, Part, Project};
use egui::{Response, Sense, Ui};

/// Shows the drawing in all the room there is; a click, Enter or Space on a part chooses it.
pub fn show(
    ui: &mut Ui,
    _project: &Project,
    _answers: &Answers,
    _moment: Moment,
    _chosen: &mut Option<Part>,
    _system: UnitSystem,
) -> Response {
    ui.allocate_response(ui.available_size(), Sense::hover())
}
