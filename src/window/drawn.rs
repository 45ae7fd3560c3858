//! The way to the drawing and the plots: parts by name until they are drawn.

use crate::quantity::UnitSystem;
use crate::study::{Answers, Curves, Moment, Part, Project};
use egui::{Button, Ui};

pub(super) fn show(
    ui: &mut Ui,
    _project: &Project,
    _answers: &Answers,
    _moment: &mut Moment,
    part: &mut Option<Part>,
    _units: UnitSystem,
) {
    ui.horizontal_wrapped(|ui| {
        for one in Part::ALL {
            if ui.add(Button::new(one.name()).selected(*part == Some(one))).clicked() {
                *part = Some(one);
            }
        }
    });
}

pub(super) fn plot(
    _ui: &mut Ui,
    _part: Part,
    _project: &Project,
    _answers: &Answers,
    _curves: Option<&Curves>,
    _moment: Moment,
    _units: UnitSystem,
) {
}
