//! Thermostat settings side by side.

use crate::quantity::{Amount, UnitSystem};
use crate::study::{Duty, SetPointAnswers};
use crate::window::kit::strong;
use crate::window::tokens::{Tokens, size, space};
use egui::{Grid, Label, RichText, ScrollArea, Ui, vec2};

pub(super) fn show(ui: &mut Ui, settings: &[SetPointAnswers], system: UnitSystem) {
    if settings.is_empty() {
        return;
    }
    let tokens = Tokens::here(ui);
    ui.add_space(space::ROW);
    ui.label(strong("Set-points side by side", size::BODY));
    ScrollArea::horizontal().id_salt("set-points").show(ui, |ui| {
        Grid::new("set-points").striped(true).spacing(vec2(14.0, space::TIGHT)).show(ui, |ui| {
            let quiet = |ui: &mut Ui, words: &str| {
                ui.label(RichText::new(words).small().color(tokens.quiet));
            };
            quiet(ui, "Set-point");
            for duty in Duty::ALL {
                quiet(ui, duty.name());
            }
            quiet(ui, "Into the tank");
            quiet(ui, "Hot mark");
            quiet(ui, "Least boiling margin");
            ui.end_row();
            for setting in settings {
                let own = Amount::of(setting.set_point).show(system);
                if setting.fitted {
                    ui.label(strong(format!("{own}, fitted"), size::BODY));
                } else {
                    ui.label(own);
                }
                for duty in &setting.duties {
                    let words = match duty.outlet {
                        None => "boils".to_owned(),
                        Some(outlet) => {
                            let mark = if duty.radiator_rules { " *" } else { "" };
                            format!("{}{mark}", Amount::of(outlet).show(system))
                        }
                    };
                    ui.label(words);
                }
                ui.label(Amount::of(setting.in_tank).show(system));
                ui.label(
                    setting.hot_mark.map_or_else(|| "above the lid".to_owned(), |mark| Amount::of(mark).show(system)),
                );
                ui.label(Amount::of(setting.least_margin).show(system));
                ui.end_row();
            }
        });
    });
    let words = "* The radiator, not the thermostat, sets this temperature: another set-point changes nothing here.";
    ui.add(Label::new(RichText::new(words).small().color(tokens.quiet)).wrap());
}
