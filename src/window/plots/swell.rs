//! The coolant against engine temperature: volume in the tank, level, system pressure.

use super::Subject;
use super::ink::{self, Spread, band, limit, lower, mark};
use crate::quantity::{Kind, Measured};
use crate::study::{GrowthPoint, Part, SetPointAnswers, TankArrangement};
use crate::window::kit::{PlotAxis, PlotFrame};
use crate::window::tokens::weight;
use egui::{Align2, Id, RichText, Ui};
use egui_plot::{Corner, Line, LineStyle, MarkerShape, PlotPoint, Points, Text, VLine};

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
    let likely = words(&subject, subject.answers.growth.in_tank.likely);
    let hottest = words(&subject, subject.answers.growth.hottest);
    let summary = format!(
        "From {} to {} the volume that has gone into the tank rises from {} to {}; at the hottest duty, {hottest}, it is {likely}.",
        words(&subject, first.temperature),
        words(&subject, last.temperature),
        words(&subject, first.in_tank.likely),
        words(&subject, last.in_tank.likely),
    );
    PlotFrame::new(Id::unique("plot of the swelling"), "Swelling", x, y)
        .legend(Corner::LeftTop)
        .include(last.temperature.base(), 0.0)
        .height(250.0)
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
            for group in thermostats(&subject) {
                let at = [x.at(group.hottest), y.at(group.in_tank)];
                let (style, colour) = if group.fitted {
                    (LineStyle::Solid, subject.tokens.hot)
                } else {
                    (LineStyle::dotted_loose(), subject.tokens.quiet)
                };
                plot.vline(VLine::new("", at[0]).color(colour).width(weight::THIN).style(style).allow_hover(false));
                let (name, shape) = if group.fitted {
                    ("thermostat fitted, hottest duty", MarkerShape::Circle)
                } else {
                    ("other thermostats", MarkerShape::Square)
                };
                plot.points(Points::new(name, vec![at]).shape(shape).radius(4.0).color(colour));
                let label = RichText::new(group.label).size(11.0).color(colour);
                let place = PlotPoint::new(at[0], y.at(0.0));
                plot.text(Text::new("", place, label).anchor(Align2::RIGHT_BOTTOM).allow_hover(false));
            }
        });
}

/// Thermostats whose hottest duty is nearly the same share a line.
struct Group {
    hottest: f64,
    in_tank: f64,
    fitted: bool,
    label: String,
}

fn thermostats(subject: &Subject<'_>) -> Vec<Group> {
    let hottest = |set: &SetPointAnswers| {
        set.duties.iter().filter_map(|duty| duty.outlet).map(Measured::base).fold(f64::NEG_INFINITY, f64::max)
    };
    let mut groups: Vec<Group> = Vec::new();
    for set in &subject.answers.set_points {
        let at = hottest(set);
        if !at.is_finite() {
            continue;
        }
        let label = words(subject, set.set_point);
        match groups.last_mut() {
            Some(group) if (group.hottest - at).abs() < 2.5 => {
                group.label = format!("{}, {label}", group.label.trim_end_matches([' ', '°', 'C', 'F']));
                if set.fitted {
                    (group.hottest, group.in_tank, group.fitted) = (at, set.in_tank.base(), true);
                }
            }
            _ => groups.push(Group { hottest: at, in_tank: set.in_tank.base(), fitted: set.fitted, label }),
        }
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
    let name = Part::Tank.name();
    let title = if subject.project.tank.arrangement == TankArrangement::HeaderTank { "Header tank" } else { name };
    PlotFrame::new(Id::unique("plot of the level"), title, x, y)
        .legend(Corner::LeftTop)
        .include(last.temperature.base(), 0.0)
        .include(first.temperature.base(), lid * 1.3)
        .height(250.0)
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
    PlotFrame::new(Id::unique("plot of the system pressure"), "System pressure", x, y)
        .legend(Corner::LeftTop)
        .include(last.temperature.base(), 0.0)
        .include(first.temperature.base(), opening.high.base() * 1.5)
        .height(250.0)
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
}
