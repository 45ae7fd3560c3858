//! The few kinds of line all plots are drawn with, and the key that shows each as it is drawn.

use crate::window::tokens::{Tokens, size, weight};
use egui::{Color32, FontId, Role, Sense, Shape, Stroke, Ui, WidgetInfo, pos2, vec2};
use egui_plot::{FilledArea, HLine, Line, LineStyle, MarkerShape, PlotUi, Points};

/// One point of a curve with its spread, in the units of the axes.
#[derive(Clone, Copy, Debug)]
pub struct Spread {
    pub x: f64,
    pub low: f64,
    pub likely: f64,
    pub high: f64,
}

/// A band from low to high with the likely curve in it.
pub fn band(plot: &mut PlotUi<'_>, points: &[Spread], line: Color32, wash: Color32) {
    let [xs, low, high] = [|p: &Spread| p.x, |p: &Spread| p.low, |p: &Spread| p.high]
        .map(|pick| points.iter().map(pick).collect::<Vec<f64>>());
    plot.add(FilledArea::new("low to high", &xs, &low, &high).fill_color(wash).stroke(Stroke::NONE));
    let likely: Vec<[f64; 2]> = points.iter().map(|point| [point.x, point.likely]).collect();
    plot.line(Line::new("likely", likely).color(line).width(weight::MEDIUM));
}

/// A limit: a level line, dashed.
pub fn limit(plot: &mut PlotUi<'_>, name: &str, at: f64, colour: Color32) {
    plot.hline(HLine::new(name, at).color(colour).width(weight::MEDIUM).style(LineStyle::dashed_loose()));
}

/// A limit that applies from one place to another.
pub fn limit_within(plot: &mut PlotUi<'_>, name: &str, (from, to): (f64, f64), at: f64, colour: Color32) {
    let line = Line::new(name, vec![[from, at], [to, at]]).color(colour).width(weight::MEDIUM);
    plot.line(line.style(LineStyle::dashed_loose()));
}

/// A mark on the wall: a level line, dotted.
pub fn mark(plot: &mut PlotUi<'_>, name: &str, at: f64, colour: Color32) {
    plot.hline(HLine::new(name, at).color(colour).width(weight::MEDIUM).style(LineStyle::dotted_dense()));
}

/// A mark on the wall from one place to another.
pub fn mark_within(plot: &mut PlotUi<'_>, name: &str, (from, to): (f64, f64), at: f64, colour: Color32) {
    let line = Line::new(name, vec![[from, at], [to, at]]).color(colour).width(weight::MEDIUM);
    plot.line(line.style(LineStyle::dotted_dense()));
}

/// Where things stand at the moment chosen.
pub fn now(plot: &mut PlotUi<'_>, moment: &str, at: [f64; 2], tokens: &Tokens) {
    plot.points(Points::new(now_name(moment), vec![at]).shape(MarkerShape::Diamond).radius(5.0).color(tokens.ink));
}

/// Its name in the key.
pub fn now_name(moment: &str) -> String {
    format!("now: {}", lower(moment))
}

/// A name within a sentence.
pub fn lower(name: &str) -> String {
    let mut letters = name.chars();
    letters.next().map_or_else(String::new, |first| first.to_lowercase().chain(letters).collect())
}

/// How an entry of the key looks.
#[derive(Clone, Copy, Debug)]
pub enum Look {
    Band(Color32),
    Solid(Color32),
    Thick(Color32),
    Dashed(Color32),
    Short(Color32),
    Dotted(Color32),
    Square(Color32),
    Box(Color32),
    Diamond(Color32),
    Circle(Color32),
}

/// The key under a plot: every line as it is drawn, dash and mark included, and its name.
pub fn key(ui: &mut Ui, entries: &[(String, Look)]) {
    let tokens = Tokens::here(ui);
    let widest = ui.available_width() - SWATCH - 16.0;
    ui.horizontal_wrapped(|ui| {
        ui.spacing_mut().item_spacing = vec2(12.0, 3.0);
        for (name, look) in entries {
            let words = ui.painter().layout(name.clone(), FontId::proportional(size::SMALL), tokens.ink, widest);
            let extent = vec2(SWATCH + 6.0 + words.size().x, words.size().y.max(size::SMALL + 4.0));
            let (place, response) = ui.allocate_exact_size(extent, Sense::hover());
            let sample = egui::Rect::from_center_size(
                pos2(place.left() + SWATCH / 2.0, place.center().y),
                vec2(SWATCH, size::SMALL + 4.0),
            );
            swatch(ui, sample, *look);
            ui.painter().galley(pos2(sample.right() + 6.0, place.center().y - words.size().y / 2.0), words, tokens.ink);
            response.widget_info(|| WidgetInfo::labeled(Role::Label, true, name));
        }
    });
    ui.add_space(6.0);
}

/// Width of a sample in the key.
const SWATCH: f32 = 24.0;

fn swatch(ui: &Ui, place: egui::Rect, look: Look) {
    let painter = ui.painter();
    let middle = place.center();
    let ends = [pos2(place.left(), middle.y), pos2(place.right(), middle.y)];
    let stroke = |colour| Stroke::new(weight::MEDIUM, colour);
    match look {
        Look::Band(colour) => {
            let edge = Stroke::new(weight::THIN, Tokens::here(ui).line);
            painter.rect(place.shrink2(vec2(0.0, 3.0)), 2.0, colour, edge, egui::StrokeKind::Inside);
        }
        Look::Solid(colour) => {
            painter.line_segment(ends, stroke(colour));
        }
        Look::Thick(colour) => {
            painter.line_segment(ends, Stroke::new(weight::THICK, colour));
        }
        Look::Dashed(colour) => {
            painter.extend(Shape::dashed_line(&ends, stroke(colour), 6.0, 3.0));
        }
        Look::Short(colour) => {
            painter.extend(Shape::dashed_line(&ends, stroke(colour), 3.0, 3.0));
        }
        Look::Dotted(colour) => {
            painter.extend(Shape::dotted_line(&ends, colour, 4.0, 1.25));
        }
        Look::Square(colour) => {
            painter.extend(Shape::dashed_line(&ends, stroke(colour), 4.0, 3.0));
            painter.rect_filled(egui::Rect::from_center_size(middle, vec2(6.0, 6.0)), 0.0, colour);
        }
        Look::Box(colour) => {
            painter.rect_filled(egui::Rect::from_center_size(middle, vec2(7.0, 7.0)), 0.0, colour);
        }
        Look::Diamond(colour) => {
            let around = [vec2(0.0, -5.0), vec2(5.0, 0.0), vec2(0.0, 5.0), vec2(-5.0, 0.0)];
            painter.add(Shape::convex_polygon(around.map(|out| middle + out).to_vec(), colour, Stroke::NONE));
        }
        Look::Circle(colour) => {
            painter.circle_filled(middle, 4.0, colour);
        }
    }
}
