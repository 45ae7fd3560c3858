//! Thermostat settings side by side: a column each, so that all of them fit beside the drawing.

use crate::crankcase::moisture::FuelBoilOff;
use crate::heat::WarmUpEnd;
use crate::quantity::si::{Ratio, ThermodynamicTemperature};
use crate::quantity::{Amount, Kind, Measured, UnitSystem, celsius};
use crate::study::{Answers, Duty, OilFilm, SetPointAnswers};
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
        ui.spacing_mut().interact_size.y = 0.0;
        Grid::new("set-points").striped(true).spacing(vec2(5.0, 3.0)).min_row_height(0.0).show(ui, |ui| {
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
                            Some(outlet) if at.fan.cycles() => format!("{}**", number(outlet, system)),
                            Some(outlet) if at.radiator_rules => format!("{}*", number(outlet, system)),
                            Some(outlet) => number(outlet, system),
                        },
                    };
                    (words, setting.fitted)
                });
            }
            for (index, duty) in Duty::ALL.into_iter().enumerate() {
                let label = format!("Holds to, {}", duty.name().to_lowercase());
                line(ui, &label, Kind::Temperature, settings, system, |setting| {
                    let air = setting.duties.get(index).map(|at| at.holds_to);
                    (air.map_or_else(String::new, |air| held(air, system)), setting.fitted)
                });
            }
            line(ui, "Least air it boils in", Kind::Temperature, settings, system, |setting| {
                let all = setting.duties.iter().map(|at| at.boils_above);
                let least = all.min_by(|a, b| {
                    let base = |air: &Option<_>| air.map_or(f64::NEG_INFINITY, Measured::base);
                    base(a).total_cmp(&base(b))
                });
                (least.map_or_else(String::new, |air| held(air, system)), setting.fitted)
            });
            line(ui, "Least radiator spare", Kind::Power, settings, system, |setting| {
                let least = setting.duties.iter().min_by(|a, b| a.spare.base().total_cmp(&b.spare.base()));
                (least.map_or_else(String::new, |at| number(at.spare, system)), setting.fitted)
            });
            line(ui, "Cold level", Kind::Length, settings, system, |setting| {
                (setting.cold_mark.map_or_else(none, |mark| number(mark, system)), setting.fitted)
            });
            warmth(ui, settings, system);
            line(ui, "Into the tank", Kind::Volume, settings, system, |setting| {
                (number(setting.in_tank, system), setting.fitted)
            });
            line(ui, "Hot level", Kind::Length, settings, system, |setting| {
                let words = setting.hot_mark.map_or_else(|| "spills".to_owned(), |mark| number(mark, system));
                (words, setting.fitted)
            });
            line(ui, "Boiling margin, low end", Kind::TemperatureDifference, settings, system, |setting| {
                (number(setting.least_margin, system), setting.fitted)
            });
            line(ui, "Dew margin, cold trip", Kind::TemperatureDifference, settings, system, |setting| {
                let margin = setting.moisture.trip_margin.as_ref().ok();
                (margin.map_or_else(none, |margin| number(*margin, system)), setting.fitted)
            });
            line(ui, "Dew margin, warm", Kind::TemperatureDifference, settings, system, |setting| {
                let margin = setting.moisture.warm_margin();
                (margin.map_or_else(none, |margin| number(margin, system)), setting.fitted)
            });
            if settings.iter().any(|setting| fuel(setting).is_some()) {
                for (label, drive) in CUTS {
                    line(ui, label, Kind::Share, settings, system, |setting| {
                        let share = fuel(setting).map(|fuel| Amount::of_kind(drive(fuel), Kind::Share));
                        (share.map_or_else(none, |share| share.show_number(system)), setting.fitted)
                    });
                }
            }
        });
    });
    let words = "Strong: the one fitted. * The radiator, not the thermostat, sets this temperature: another set-point \
                 changes nothing there. ** The fan's switch does, turning it on and off. Holds to: the hottest air in which the thermostat still rules; any: in any \
                 road air. Dew margin: coldest wall of the crankcase above the dew point, low end; below zero it \
                 gets wet.";
    let mut words = words.to_owned();
    if let Some(fuel) = settings.iter().find_map(fuel) {
        let at = Amount::of(fuel.reference).show(system);
        words.push_str(&format!(
            " Petrol leaves: how hard warm oil drives its middling and heavy cuts out, beside oil of {at}."
        ));
    }
    ui.add(Label::new(RichText::new(words).small().color(tokens.quiet)).wrap());
    for row in answers.set_point_comparison().rows {
        ui.add(Label::new(format!("{}: {}", row.label, row.value.show(system))).wrap().selectable(true));
    }
}

/// The hottest air something holds in; "any" where no road air is so hot.
fn held(air: Option<ThermodynamicTemperature>, system: UnitSystem) -> String {
    match air {
        None => none(),
        Some(air) if air > celsius(55.0) => "any".to_owned(),
        Some(air) => number(air, system),
    }
}

/// Oil and metal at the duty that makes them hottest, and the warm-up.
fn warmth(ui: &mut Ui, settings: &[SetPointAnswers], system: UnitSystem) {
    line(ui, "Metal, hottest duty", Kind::Temperature, settings, system, |setting| {
        (number(setting.hottest_metal(), system), setting.fitted)
    });
    line(ui, "Oil, hottest duty", Kind::Temperature, settings, system, |setting| {
        (number(setting.hottest_oil().state.temperature.likely, system), setting.fitted)
    });
    line(ui, "Its viscosity", Kind::KinematicViscosity, settings, system, |setting| {
        let oil = setting.hottest_oil();
        let words = match &oil.viscosity {
            Ok(viscosity) => number(viscosity.likely, system),
            Err(_) if oil.film == OilFilm::Thin => "thin".to_owned(),
            Err(_) => none(),
        };
        (words, setting.fitted)
    });
    for (label, oil) in [("Cold until it opens", false), ("Cold until oil warm", true)] {
        line(ui, label, Kind::Duration, settings, system, |setting| {
            let end = setting.warm_up.as_ref().ok().map(|warm| if oil { warm.oil_warm } else { warm.opens });
            let words = match end {
                Some(WarmUpEnd::Reached { after }) => Amount::of_kind(after, Kind::Duration).show_number(system),
                Some(WarmUpEnd::NeverReached { .. }) => "never".to_owned(),
                None => none(),
            };
            (words, setting.fitted)
        });
    }
}

/// What drives petrol out of the warm oil; none for a diesel.
fn fuel(setting: &SetPointAnswers) -> Option<&FuelBoilOff> {
    setting.moisture.warm.as_ref().ok()?.fuel.as_ref()
}

/// Cuts of petrol, and their share of the drive at the reference.
type Cut = (&'static str, fn(&FuelBoilOff) -> Ratio);
const CUTS: [Cut; 2] =
    [("Petrol leaves, middling", |fuel| fuel.decane_drive), ("Petrol leaves, heavy", |fuel| fuel.dodecane_drive)];

fn none() -> String {
    "–".to_owned()
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
