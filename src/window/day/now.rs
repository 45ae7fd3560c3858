//! The state at the time chosen, as numbers beside the drawing.

use super::DaySubject;
use crate::day::CapState;
use crate::quantity::{Amount, Kind, Measured};
use crate::study::{CanPlace, TankArrangement};
use crate::window::kit::heading;
use crate::window::tokens::{Tokens, size, space};
use egui::{Grid, Label, RichText, ScrollArea, Ui, vec2};

/// Each column of rows is at least so wide, and not wider than the eye follows a line.
const COLUMN: f32 = 184.0;
const WIDEST: f32 = 290.0;
/// Height of a row.
const ROW: f32 = size::BODY + 2.0 + space::TIGHT;

/// Rows that belong together.
struct Group {
    title: &'static str,
    rows: Vec<(&'static str, String)>,
}

/// Shows them: in groups with their titles where there is room for those.
pub(super) fn show(ui: &mut Ui, subject: &DaySubject<'_>, index: usize) {
    let groups = groups(subject, index);
    let room = ui.available_width() - space::CARD;
    let high = ui.available_height();
    let fitting = ((room / COLUMN).floor() as usize).max(1);
    // As few columns as the height asks for: short lines of the eye.
    let titled = (1..=fitting).find_map(|columns| {
        let laid = laid(&groups, columns);
        laid.iter().all(|column| column.iter().map(|group| tall(group)).sum::<f32>() <= high).then_some(laid)
    });
    ScrollArea::vertical().id_salt("state of the day").auto_shrink(false).show(ui, |ui| {
        ui.horizontal_top(|ui| {
            ui.spacing_mut().item_spacing.x = 0.0;
            ui.spacing_mut().interact_size.y = 0.0;
            if let Some(columns) = titled {
                let each = (room / columns.len().max(1) as f32).min(WIDEST);
                for (column, groups) in columns.into_iter().enumerate() {
                    ui.vertical(|ui| {
                        for group in groups {
                            heading(ui, group.title, size::SMALL);
                            grid(ui, (column, group.title), &group.rows, each);
                            ui.add_space(space::ROW);
                        }
                    });
                }
                return;
            }
            let rows: Vec<_> = groups.iter().flat_map(|group| group.rows.clone()).collect();
            let needed = (rows.len() as f32 * ROW / high).ceil() as usize;
            let columns = needed.clamp(1, fitting);
            let each = (room / columns as f32).min(WIDEST);
            for (column, rows) in rows.chunks(rows.len().div_ceil(columns).max(1)).enumerate() {
                grid(ui, (column, ""), rows, each);
            }
        });
    });
}

fn tall(group: &Group) -> f32 {
    (group.rows.len() as f32 + 1.0) * ROW + space::ROW
}

/// The groups in columns about equally tall, in their order.
fn laid(groups: &[Group], columns: usize) -> Vec<Vec<&Group>> {
    let whole: f32 = groups.iter().map(tall).sum();
    let share = whole / columns as f32;
    let mut laid: Vec<Vec<&Group>> = vec![Vec::new(); columns];
    let mut above = 0.0;
    for group in groups {
        // A group stands where its middle falls.
        let column = ((above + tall(group) / 2.0) / share).floor() as usize;
        if let Some(column) = laid.get_mut(column.min(columns - 1)) {
            column.push(group);
        }
        above += tall(group);
    }
    laid
}

fn grid(ui: &mut Ui, id: (usize, &str), rows: &[(&'static str, String)], each: f32) {
    let quiet = Tokens::here(ui).quiet;
    let spacing = vec2(space::ROW, space::TIGHT);
    // Long names wrap before short values do.
    let share = if each < 200.0 { 0.52 } else { 0.57 };
    Grid::new(("state of the day", id)).num_columns(2).spacing(spacing).min_row_height(0.0).show(ui, |ui| {
        for (label, value) in rows {
            cell(ui, each * share, RichText::new(*label).size(size::BODY - 1.0).color(quiet));
            cell(ui, each * (1.0 - share) - 2.0 * space::ROW, RichText::new(value).size(size::BODY - 1.0));
            ui.end_row();
        }
    });
}

fn cell(ui: &mut Ui, width: f32, words: RichText) {
    ui.scope(|ui| {
        ui.set_width(width);
        ui.set_max_width(width);
        ui.add(Label::new(words).wrap());
    });
}

fn groups(subject: &DaySubject<'_>, index: usize) -> Vec<Group> {
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
    let mut system_rows =
        vec![("System pressure", of(sample.gauge, Kind::GaugePressure, system)), ("Cap", cap.to_owned())];
    if sample.vapour.base() > 1e-6 {
        system_rows.push(("Vapour", of(sample.vapour, Kind::SmallVolume, system)));
    }
    let mut tank = vec![
        ("Level", level),
        ("In the tank", of(sample.in_tank, Kind::Volume, system)),
        ("Coolant lost", of(sample.lost, Kind::Mass, system)),
    ];
    if subject.day.arrangement != TankArrangement::HeaderTank && sample.tank_gauge.base().abs() > 1.0 {
        tank.push(("Pressure in the tank", of(sample.tank_gauge, Kind::GaugePressure, system)));
    }
    let mut groups = vec![
        Group {
            title: "Heat",
            rows: vec![
                ("Coolant", temperature(sample.coolant)),
                ("Below boiling", of(sample.margin, Kind::TemperatureDifference, system)),
                ("Metal", temperature(sample.metal)),
                ("Oil", temperature(sample.oil)),
            ],
        },
        Group { title: "System and cap", rows: system_rows },
        Group { title: "Tank", rows: tank },
        Group {
            title: "Cooling",
            rows: vec![
                ("Thermostat", opening),
                ("Radiator heat", of(sample.radiator_heat, Kind::Power, system)),
                ("Radiator outlet", temperature(sample.radiator_outlet)),
                ("Fan", if sample.fan { "turns" } else { "at rest" }.to_owned()),
            ],
        },
    ];
    if let Some(case) = subject.day.crankcase.get(index) {
        let gauge = case.gauge.map(|gauge| of(gauge, Kind::CrankcasePressure, system));
        let mut rows = vec![("Crankcase pressure", gauge.unwrap_or_else(|| "not known".to_owned()))];
        if subject.project.ventilation.can.place != CanPlace::None {
            rows.push(("Oil caught", of(case.oil_caught, Kind::SmallMass, system)));
        }
        groups.push(Group { title: "Crankcase", rows });
    }
    groups.push(Group {
        title: "Car",
        rows: vec![
            ("Engine", engine),
            ("Power", of(sample.power, Kind::Power, system)),
            ("Road speed", of(sample.road_speed, Kind::RoadSpeed, system)),
            ("Air", temperature(sample.air)),
        ],
    });
    groups
}
