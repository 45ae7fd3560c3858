//! The coolant against engine temperature: volume in the tank, level, system pressure.

use super::Subject;
use super::ink::{self, Look, Spread, band, limit, lower, mark};
use crate::quantity::{Kind, Measured};
use crate::study::{GrowthPoint, Part, TankArrangement};
use crate::window::kit::{PlotAxis, PlotFrame};
use crate::window::tokens::weight;
use egui::{Color32, Id, Ui};
use egui_plot::{Line, LineStyle, MarkerShape, Points, VLine};

fn axes(subject: &Subject<'_>, name: &'static str, kind: Kind) -> (PlotAxis<'static>, PlotAxis<'static>) {
    let x = PlotAxis::new("Engine temperature", Kind::Temperature, subject.system);
    (x, PlotAxis::new(name, kind, subject.system))
}

fn words<Q: Measured>(subject: &Subject<'_>, value: Q) -> String {
    crate::quantity::Amount::of(value).show(subject.system)
}

/// First and last point of the curve; the caller has seen that there are two.
fn ends<'a>(subject: &Subject<'a>) -> Option<(&'a GrowthPoint, &'a GrowthPoint)> {
    Some((subject.curves.growth.first()?, subject.curves.growth.last()?))
}

/// Volume that has gone into the tank, with every thermostat's hottest duty.
pub(super) fn volume(ui: &mut Ui, subject: Subject<'_>) {
    let (x, y) = axes(&subject, "Into the tank", Kind::Volume);
    let Some((first, last)) = ends(&subject) else { return };
    if subject.curves.growth.iter().all(|point| point.in_tank.high.base() == 0.0 && point.in_tank.low.base() == 0.0) {
        super::nothing(ui, "the tank is part of the loop, so no coolant leaves it; its level shows the swelling.");
        return;
    }
    let likely = words(&subject, subject.answers.growth.in_tank.likely);
    let hottest = words(&subject, subject.answers.growth.hottest);
    let summary = format!(
        "From {} to {} the volume that has gone into the tank rises from {} to {}; at the hottest duty, {hottest}, it is {likely}.",
        words(&subject, first.temperature),
        words(&subject, last.temperature),
        words(&subject, first.in_tank.likely),
        words(&subject, last.in_tank.likely),
    );
    let tokens = subject.tokens;
    let groups: Vec<(Group, Color32)> = thermostats(&subject)
        .into_iter()
        .map(|group| {
            let colour = if group.fitted { tokens.hot } else { tokens.quiet };
            (group, colour)
        })
        .collect();
    let mut key = vec![
        ("likely".to_owned(), Look::Solid(tokens.coolant)),
        ("low to high".to_owned(), Look::Band(tokens.coolant_wash)),
    ];
    key.extend(groups.iter().map(|(group, colour)| {
        (group.label.clone(), if group.fitted { Look::Circle(*colour) } else { Look::Square(*colour) })
    }));
    PlotFrame::new(Id::unique("plot of the swelling"), "Swelling", x, y)
        .include(last.temperature.base(), 0.0)
        .height(220.0)
        .summary(summary)
        .show(ui, move |plot| {
            let points: Vec<Spread> = subject
                .curves
                .growth
                .iter()
                .map(|point| Spread {
                    x: x.at(point.temperature.base()),
                    low: y.at(point.in_tank.low.base()),
                    likely: y.at(point.in_tank.likely.base()),
                    high: y.at(point.in_tank.high.base()),
                })
                .collect();
            band(plot, &points, subject.tokens.coolant, subject.tokens.coolant_wash);
            for (group, colour) in &groups {
                let at = [x.at(group.hottest), y.at(group.in_tank)];
                let style = if group.fitted { LineStyle::Solid } else { LineStyle::dotted_loose() };
                plot.vline(VLine::new("", at[0]).color(*colour).width(weight::THIN).style(style).allow_hover(false));
                let shape = if group.fitted { MarkerShape::Circle } else { MarkerShape::Square };
                plot.points(Points::new(group.label.clone(), vec![at]).shape(shape).radius(4.0).color(*colour));
            }
        });
    ink::key(ui, &key);
}

/// Thermostats whose hottest duty is nearly the same share a line.
struct Group {
    hottest: f64,
    in_tank: f64,
    fitted: bool,
    label: String,
}

/// Where the likely curve reaches a volume: engine temperature, K.
fn reached(subject: &Subject<'_>, volume: f64) -> Option<f64> {
    subject.curves.growth.windows(2).find_map(|pair| {
        let [a, b] = pair else { return None };
        let (low, high) = (a.in_tank.likely.base(), b.in_tank.likely.base());
        let share = (volume - low) / (high - low);
        let at = a.temperature.base() + share * (b.temperature.base() - a.temperature.base());
        (low < high && (0.0..=1.0).contains(&share)).then_some(at)
    })
}

fn thermostats(subject: &Subject<'_>) -> Vec<Group> {
    let mut groups: Vec<Group> = Vec::new();
    for set in &subject.answers.set_points {
        let in_tank = set.in_tank.base();
        let Some(hottest) = reached(subject, in_tank) else { continue };
        let text = words(subject, set.set_point);
        let number = text.split(' ').next().unwrap_or_default().trim_end_matches(".0").to_owned();
        let name = if set.fitted { format!("{number} (fitted)") } else { number };
        match groups.last_mut() {
            Some(group) if (group.hottest - hottest).abs() < 1.5 => {
                group.label = format!("{}, {name}", group.label);
                if set.fitted {
                    (group.hottest, group.in_tank, group.fitted) = (hottest, in_tank, true);
                }
            }
            _ => groups.push(Group { hottest, in_tank, fitted: set.fitted, label: name }),
        }
    }
    let unit = Kind::Temperature.unit(subject.system).symbol;
    for group in &mut groups {
        group.label = format!("hottest with thermostat {} {unit}", group.label);
    }
    groups
}

/// Level in the tank, with the lid and the marks.
pub(super) fn level(ui: &mut Ui, subject: Subject<'_>) {
    let (x, y) = axes(&subject, "Level above the floor", Kind::Length);
    let Some((first, last)) = ends(&subject) else { return };
    let lid = subject.project.tank_height().unwrap_or(0.0);
    let tank = &subject.answers.tank;
    let top = subject.curves.growth.iter().rev().find_map(|point| point.level.map(|level| (point, level)));
    let spills = subject.curves.growth.iter().skip_while(|point| point.level.is_none()).find(|p| p.level.is_none());
    let mut summary = top.map_or_else(
        || "The level lies outside what is known of the tank over the whole span.".to_owned(),
        |(point, level)| {
            let from = first.level.map_or_else(String::new, |low| format!(" from {}", words(&subject, low)));
            format!("The level rises{from} to {} at {}.", words(&subject, level), words(&subject, point.temperature))
        },
    );
    if let Some(point) = spills {
        summary.push_str(&format!(" It reaches the lid at {}.", words(&subject, point.temperature)));
    }
    let tokens = subject.tokens;
    let mut key =
        vec![("level".to_owned(), Look::Solid(tokens.coolant)), ("lid".to_owned(), Look::Dashed(tokens.fault))];
    if tank.hot_mark.is_some() {
        key.push(("hot mark".to_owned(), Look::Dotted(tokens.hot)));
    }
    if tank.cold_mark.is_some() {
        key.push(("cold mark".to_owned(), Look::Dotted(tokens.cold)));
    }
    if subject.answers.held(subject.moment).1.level.is_some() {
        key.push((ink::now_name(subject.moment.name()), Look::Diamond(tokens.ink)));
    }
    let name = Part::Tank.name();
    let title = if subject.project.tank.arrangement == TankArrangement::HeaderTank { "Header tank" } else { name };
    PlotFrame::new(Id::unique("plot of the level"), title, x, y)
        .include(last.temperature.base(), 0.0)
        .include(first.temperature.base(), lid * 1.1)
        .height(220.0)
        .summary(summary)
        .show(ui, move |plot| {
            let line: Vec<[f64; 2]> = subject
                .curves
                .growth
                .iter()
                .filter_map(|point| Some([x.at(point.temperature.base()), y.at(point.level?.base())]))
                .collect();
            limit(plot, "lid", y.at(lid), subject.tokens.fault);
            plot.line(Line::new("level", line).color(subject.tokens.coolant).width(weight::THICK));
            let marks =
                [("hot mark", tank.hot_mark, subject.tokens.hot), ("cold mark", tank.cold_mark, subject.tokens.cold)];
            for (name, height, colour) in marks {
                if let Some(height) = height {
                    mark(plot, name, y.at(height.base()), colour);
                }
            }
            let (temperature, held) = subject.answers.held(subject.moment);
            if let Some(level) = held.level {
                let at = [x.at(temperature.base()), y.at(level.base())];
                ink::now(plot, subject.moment.name(), at, subject.tokens);
            }
        });
    ink::key(ui, &key);
}

/// System pressure, with the cap's opening.
pub(super) fn pressure(ui: &mut Ui, subject: Subject<'_>) {
    let (x, y) = axes(&subject, "System pressure, gauge", Kind::GaugePressure);
    let Some((first, last)) = ends(&subject) else { return };
    let opening = subject.answers.coolant.cap_opening;
    let opens = subject.curves.growth.iter().find(|point| point.gauge.base() >= opening.likely.base() * 0.999);
    let shown = words(&subject, opening.likely);
    let summary = opens.map_or_else(
        || format!("The pressure stays below the cap's {shown} up to {}.", words(&subject, last.temperature)),
        |point| format!("The cap opens at {shown}, reached at {}.", words(&subject, point.temperature)),
    );
    let (temperature, held) = subject.answers.held(subject.moment);
    let summary =
        format!("{summary} At {} the system stands at {}.", lower(subject.moment.name()), words(&subject, held.gauge));
    let tokens = subject.tokens;
    let mut key = vec![
        ("system pressure".to_owned(), Look::Solid(tokens.coolant)),
        ("cap opens".to_owned(), Look::Dashed(tokens.hot)),
    ];
    if !opening.is_exact() {
        key.push(("cap opens, low end".to_owned(), Look::Dotted(tokens.quiet)));
    }
    key.push((ink::now_name(subject.moment.name()), Look::Diamond(tokens.ink)));
    PlotFrame::new(Id::unique("plot of the system pressure"), "System pressure", x, y)
        .include(last.temperature.base(), 0.0)
        .include(first.temperature.base(), opening.high.base() * 1.1)
        .height(220.0)
        .summary(summary)
        .show(ui, move |plot| {
            let line: Vec<[f64; 2]> = subject
                .curves
                .growth
                .iter()
                .map(|point| [x.at(point.temperature.base()), y.at(point.gauge.base())])
                .collect();
            plot.line(Line::new("system pressure", line).color(subject.tokens.coolant).width(weight::THICK));
            limit(plot, "cap opens", y.at(opening.likely.base()), subject.tokens.hot);
            if !opening.is_exact() {
                mark(plot, "cap opens, low end", y.at(opening.low.base()), subject.tokens.quiet);
            }
            let at = [x.at(temperature.base()), y.at(held.gauge.base())];
            ink::now(plot, subject.moment.name(), at, subject.tokens);
        });
    ink::key(ui, &key);
}
