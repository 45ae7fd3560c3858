//! The state at the time chosen, as numbers beside the drawing.

use super::DaySubject;
use crate::day::CapState;
use crate::quantity::{Amount, Kind, Measured};
use crate::study::{CanPlace, TankArrangement};
use crate::window::tokens::{Tokens, size, space};
use egui::{Grid, Label, RichText, ScrollArea, Ui, vec2};

/// Each column of rows is at least so wide.
const COLUMN: f32 = 184.0;

/// Shows them.
pub(super) fn show(ui: &mut Ui, subject: &DaySubject<'_>, index: usize) {
    let rows = rows(subject, index);
    let tokens = Tokens::here(ui);
    let room = ui.available_width() - space::CARD;
    let high = ui.available_height();
    let fitting = ((room / COLUMN).floor() as usize).max(1);
    // As few columns as the height asks for: short lines of the eye.
    let line = size::BODY + 2.0 + space::TIGHT;
    let needed = (rows.len() as f32 * line / high).ceil() as usize;
    let columns = needed.clamp(1, fitting);
    let each = (room / columns as f32).min(280.0);
    let long = rows.len().div_ceil(columns).max(1);
    ScrollArea::vertical().id_salt("state of the day").auto_shrink(false).show(ui, |ui| {
        ui.horizontal_top(|ui| {
            ui.spacing_mut().item_spacing.x = 0.0;
            ui.spacing_mut().interact_size.y = 0.0;
            for (column, rows) in rows.chunks(long).enumerate() {
                let spacing = vec2(space::ROW, space::TIGHT);
                Grid::new(("state of the day", column)).num_columns(2).spacing(spacing).min_row_height(0.0).show(
                    ui,
                    |ui| {
                        for (label, value) in rows {
                            cell(ui, each * 0.52, RichText::new(*label).size(size::BODY - 1.0).color(tokens.quiet));
                            cell(ui, each * 0.48 - 2.0 * space::ROW, RichText::new(value).size(size::BODY - 1.0));
                            ui.end_row();
                        }
                    },
                );
            }
        });
    });
}

fn cell(ui: &mut Ui, width: f32, words: RichText) {
    ui.scope(|ui| {
        ui.set_width(width);
        ui.set_max_width(width);
        ui.add(Label::new(words).wrap());
    });
}

fn rows(subject: &DaySubject<'_>, index: usize) -> Vec<(&'static str, String)> {
    let system = subject.system;
    let Some(sample) = subject.day.drive.samples.get(index) else { return Vec::new() };
    fn of<Q: Measured>(value: Q, kind: Kind, system: crate::quantity::UnitSystem) -> String {
        Amount::of_kind(value, kind).show(system)
    }
    let temperature = |value| of(value, Kind::Temperature, system);
    let running = sample.engine_speed.base() > 0.0;
    let engine = if running { of(sample.engine_speed, Kind::RotationalSpeed, system) } else { "stopped".to_owned() };
    let opening = match sample.opening.base() {
        open if open <= 0.0 => "shut".to_owned(),
        open if open >= 1.0 => "fully open".to_owned(),
        _ => of(sample.opening, Kind::Share, system) + " open",
    };
    let cap = match sample.cap {
        CapState::Shut => "shut",
        CapState::LetsOut => "lets out",
        CapState::LetsIn => "lets in",
    };
    let level = sample.level.map_or_else(
        || if sample.in_tank.base() > 0.0 { "not told by its shape" } else { "empty" }.to_owned(),
        |level| of(level, Kind::Length, system),
    );
    let mut rows = vec![
        ("Coolant", temperature(sample.coolant)),
        ("Metal", temperature(sample.metal)),
        ("Oil", temperature(sample.oil)),
        ("Below boiling", of(sample.margin, Kind::TemperatureDifference, system)),
        ("System pressure", of(sample.gauge, Kind::GaugePressure, system)),
        ("Cap", cap.to_owned()),
        ("Level", level),
        ("In the tank", of(sample.in_tank, Kind::Volume, system)),
        ("Coolant lost", of(sample.lost, Kind::Mass, system)),
        ("Thermostat", opening),
        ("Radiator outlet", temperature(sample.radiator_outlet)),
        ("Radiator heat", of(sample.radiator_heat, Kind::Power, system)),
        ("Fan", if sample.fan { "turns" } else { "at rest" }.to_owned()),
    ];
    if sample.vapour.base() > 1e-6 {
        rows.push(("Vapour", of(sample.vapour, Kind::SmallVolume, system)));
    }
    if subject.day.arrangement != TankArrangement::HeaderTank && sample.tank_gauge.base().abs() > 1.0 {
        rows.push(("Pressure in the tank", of(sample.tank_gauge, Kind::GaugePressure, system)));
    }
    if let Some(case) = subject.day.crankcase.get(index) {
        let gauge = case.gauge.map(|gauge| of(gauge, Kind::CrankcasePressure, system));
        rows.push(("Crankcase", gauge.unwrap_or_else(|| "not known".to_owned())));
        if subject.project.ventilation.can.place != CanPlace::None {
            rows.push(("Oil caught", of(case.oil_caught, Kind::SmallMass, system)));
        }
    }
    rows.extend([
        ("Engine", engine),
        ("Power", of(sample.power, Kind::Power, system)),
        ("Road speed", of(sample.road_speed, Kind::RoadSpeed, system)),
        ("Air", temperature(sample.air)),
    ]);
    rows
}
