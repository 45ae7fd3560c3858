//! The few kinds of line all plots are drawn with, and the key that shows each as it is drawn.

use crate::window::tokens::{Tokens, size, weight};
use egui::{Align2, Color32, FontId, RichText, Role, Sense, Shape, Stroke, Ui, WidgetInfo, pos2, vec2};
use egui_plot::{FilledArea, HLine, Line, LineStyle, MarkerShape, PlotPoint, PlotUi, Points, Text};

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

/// A line on a casing of the ground's colour, which keeps it in sight on any colour of a field.
pub fn cased(
    plot: &mut PlotUi<'_>,
    points: Vec<[f64; 2]>,
    (colour, width): (Color32, f32),
    style: LineStyle,
    tokens: &Tokens,
) {
    let casing = Line::new("", points.clone()).color(tokens.card.gamma_multiply(0.8)).width(width + 2.5);
    plot.line(casing.allow_hover(false));
    plot.line(Line::new("", points).color(colour).width(width).style(style).allow_hover(false));
}

/// A duty point on a field; the one of the moment shown is a large diamond.
pub fn spot(plot: &mut PlotUi<'_>, at: [f64; 2], now: bool, tokens: &Tokens) {
    let (shape, radius) = if now { (MarkerShape::Diamond, 7.0) } else { (MarkerShape::Circle, 4.0) };
    for (radius, colour) in [(radius + 2.0, tokens.card), (radius, tokens.ink)] {
        plot.points(Points::new("", vec![at]).shape(shape).radius(radius).color(colour).allow_hover(false));
    }
}

/// A name on a field, on a ground that keeps it readable.
pub fn name(plot: &mut PlotUi<'_>, at: [f64; 2], words: &str, (anchor, strong): (Align2, bool), tokens: &Tokens) {
    let text = RichText::new(words).size(size::SMALL).color(tokens.ink);
    let text = if strong { text.strong() } else { text }.background_color(tokens.card.gamma_multiply(0.85));
    plot.text(Text::new("", PlotPoint::new(at[0], at[1]), text).anchor(anchor).allow_hover(false));
}

/// How one curve among several is told from the others without colour.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Curve {
    pub colour: Color32,
    pub width: f32,
    pub style: LineStyle,
    pub mark: MarkerShape,
}

impl Curve {
    /// Draws it, with its mark at some of its places.
    pub fn draw(self, plot: &mut PlotUi<'_>, name: &str, points: Vec<[f64; 2]>, marks: Vec<[f64; 2]>) {
        plot.line(Line::new(name, points).color(self.colour).width(self.width).style(self.style));
        plot.points(Points::new(name, marks).shape(self.mark).radius(4.5).color(self.colour).allow_hover(false));
    }

    /// Its sample in the key.
    fn swatch(self, ui: &Ui, place: egui::Rect) {
        let (painter, middle) = (ui.painter(), place.center());
        let ends = [pos2(place.left(), middle.y), pos2(place.right(), middle.y)];
        let stroke = Stroke::new(self.width, self.colour);
        match self.style {
            LineStyle::Solid => {
                painter.line_segment(ends, stroke);
            }
            LineStyle::Dashed { length } => {
                painter.extend(Shape::dashed_line(&ends, stroke, length.min(8.0), 3.0));
            }
            LineStyle::Dotted { spacing } => {
                painter.extend(Shape::dotted_line(&ends, self.colour, spacing.min(6.0), 1.25));
            }
        }
        let around = |outs: &[(f32, f32)]| outs.iter().map(|(x, y)| middle + vec2(*x, *y)).collect::<Vec<_>>();
        let corners = match self.mark {
            MarkerShape::Square => around(&[(-3.5, -3.5), (3.5, -3.5), (3.5, 3.5), (-3.5, 3.5)]),
            MarkerShape::Diamond => around(&[(0.0, -5.0), (5.0, 0.0), (0.0, 5.0), (-5.0, 0.0)]),
            MarkerShape::Up => around(&[(0.0, -4.5), (4.5, 4.0), (-4.5, 4.0)]),
            MarkerShape::Down => around(&[(0.0, 4.5), (-4.5, -4.0), (4.5, -4.0)]),
            MarkerShape::Left => around(&[(-4.5, 0.0), (4.0, -4.5), (4.0, 4.5)]),
            MarkerShape::Right => around(&[(4.5, 0.0), (-4.0, 4.5), (-4.0, -4.5)]),
            _ => {
                painter.circle_filled(middle, 4.5, self.colour);
                return;
            }
        };
        painter.add(Shape::convex_polygon(corners, self.colour, Stroke::NONE));
    }
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
    Curve(Curve),
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
        Look::Curve(curve) => curve.swatch(ui, place),
    }
}
