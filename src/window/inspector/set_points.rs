//! Thermostat settings side by side: a column each, so that all of them fit beside the drawing.

use crate::quantity::{Amount, Kind, Measured, UnitSystem};
use crate::study::{Answers, Duty, SetPointAnswers};
use crate::window::kit::{heading, strong};
use crate::window::tokens::{Tokens, size, space};
use egui::{Grid, Label, RichText, ScrollArea, Ui, vec2};

pub(super) fn show(ui: &mut Ui, answers: &Answers, system: UnitSystem) {
    let settings = &answers.set_points;
    if settings.is_empty() {
        return;
    }
    let tokens = Tokens::here(ui);
    ui.add_space(space::ROW);
    heading(ui, "Set-points side by side", size::BODY);
    ScrollArea::horizontal().id_salt("set-points").show(ui, |ui| {
        Grid::new("set-points").striped(true).spacing(vec2(space::ROW, space::TIGHT)).show(ui, |ui| {
            line(ui, "Starts to open", Kind::Temperature, settings, system, |setting| {
                let words = number(setting.set_point, system);
                (words, setting.fitted)
            });
            for (index, duty) in Duty::ALL.into_iter().enumerate() {
                line(ui, duty.name(), Kind::Temperature, settings, system, |setting| {
                    let words = match setting.duties.get(index) {
                        None => String::new(),
                        Some(at) => match at.outlet {
                            None => "boils".to_owned(),
                            Some(outlet) if at.radiator_rules => format!("{}*", number(outlet, system)),
                            Some(outlet) => number(outlet, system),
                        },
                    };
                    (words, setting.fitted)
                });
            }
            line(ui, "Into the tank", Kind::Volume, settings, system, |setting| {
                (number(setting.in_tank, system), setting.fitted)
            });
            line(ui, "Hot level", Kind::Length, settings, system, |setting| {
                let words = setting.hot_mark.map_or_else(|| "spills".to_owned(), |mark| number(mark, system));
                (words, setting.fitted)
            });
            line(ui, "Least boiling margin, low end", Kind::TemperatureDifference, settings, system, |setting| {
                (number(setting.least_margin, system), setting.fitted)
            });
            line(ui, "Dew margin", Kind::TemperatureDifference, settings, system, |setting| {
                let words = setting
                    .moisture
                    .trip_margin
                    .as_ref()
                    .map_or_else(|_| "–".to_owned(), |margin| number(*margin, system));
                (words, setting.fitted)
            });
        });
    });
    let words = "Strong: the one fitted. * The radiator, not the thermostat, sets this temperature: another set-point \
                 changes nothing there. Dew margin: coldest wall of the crankcase above the dew point on a short cold trip.";
    ui.add(Label::new(RichText::new(words).small().color(tokens.quiet)).wrap());
    ui.add(Label::new(answers.set_point_advice().show(system)).wrap());
}

fn number<Q: Measured>(value: Q, system: UnitSystem) -> String {
    Amount::of(value).show_number(system)
}

/// One line of the table: what it is with its unit, then a cell for each setting, strong where `tell` says so.
fn line(
    ui: &mut Ui,
    label: &str,
    kind: Kind,
    settings: &[SetPointAnswers],
    system: UnitSystem,
    tell: impl Fn(&SetPointAnswers) -> (String, bool),
) {
    let quiet = Tokens::here(ui).quiet;
    ui.label(RichText::new(format!("{label}, {}", kind.unit(system).symbol)).small().color(quiet));
    for setting in settings {
        let (words, fitted) = tell(setting);
        if fitted {
            ui.label(strong(words, size::SMALL + 1.0));
        } else {
            ui.label(RichText::new(words).size(size::SMALL + 1.0));
        }
    }
    ui.end_row();
}
