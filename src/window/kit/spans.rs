//! Spans side by side on one scale: from low to high, the likely value in it, and marks across all of them.

use super::card::strong;
use super::plot::{PlotAxis, marks, tick};
use crate::window::fonts::strong_family;
use crate::window::tokens::{Tokens, size, weight};
use egui::{Color32, FontId, Id, Rect, Response, Sense, Shape, Stroke, StrokeKind, Ui, pos2, vec2};

/// One span, in the coherent SI unit.
#[derive(Clone, Debug, PartialEq)]
pub struct Span {
    /// What it is, above its bar.
    pub name: String,
    /// Its low end.
    pub low: f64,
    /// The likely value, if it has one.
    pub likely: Option<f64>,
    /// Its high end; a span that runs backwards is none.
    pub high: f64,
    /// Whether it is the one that counts: strong words, a strong edge and a diamond.
    pub counts: bool,
    /// Whether it is room for something and not the thing itself: an outline without a filling.
    pub hollow: bool,
}

/// A line across all spans.
#[derive(Clone, Debug, PartialEq)]
pub struct SpanMark {
    /// Where, in the coherent SI unit.
    pub at: f64,
    /// Its colour.
    pub colour: Color32,
    /// Whether its line is dashed.
    pub dashed: bool,
}

/// Height of a bar, and of the words above it.
const BAR: f32 = 14.0;
const WORDS: f32 = 17.0;
const BETWEEN: f32 = 7.0;

/// Spans on one scale that begins at zero.
pub struct SpanChart<'a> {
    id: Id,
    title: &'a str,
    axis: PlotAxis<'a>,
    against: &'a str,
    spans: &'a [Span],
    marks: &'a [SpanMark],
    colours: (Color32, Color32),
    summary: String,
}

impl<'a> SpanChart<'a> {
    /// Spans of a quantity; `against` says what tells one from the next, `colours` are those of a line and of an area.
    #[must_use]
    pub fn new(
        id: Id,
        title: &'a str,
        axis: PlotAxis<'a>,
        against: &'a str,
        spans: &'a [Span],
        colours: (Color32, Color32),
    ) -> Self {
        Self { id, title, axis, against, spans, marks: &[], colours, summary: String::new() }
    }

    /// Lines across all of them.
    #[must_use]
    pub fn marks(mut self, marks: &'a [SpanMark]) -> Self {
        self.marks = marks;
        self
    }

    /// What they say, in a sentence, for whoever cannot see them.
    #[must_use]
    pub fn summary(mut self, sentence: impl Into<String>) -> Self {
        self.summary = sentence.into();
        self
    }

    /// Shows them in the whole width.
    pub fn show(self, ui: &mut Ui) -> Response {
        let tokens = Tokens::here(ui);
        ui.label(strong(self.title, size::BODY));
        let each = WORDS + BAR + BETWEEN;
        let foot = 36.0;
        let height = each * self.spans.len() as f32 + foot;
        let (place, _) = ui.allocate_exact_size(vec2(ui.available_width(), height), Sense::hover());
        let response = ui.interact(place, self.id, Sense::hover());
        let inside = Rect::from_min_max(place.min + vec2(6.0, 0.0), place.max - vec2(14.0, foot));
        let scale = Scale { span: self.top(), left: inside.left(), width: inside.width() };
        self.ruler(ui, inside, scale);
        for (row, span) in self.spans.iter().enumerate() {
            let top = inside.top() + each * row as f32;
            self.bar(ui, span, top, inside, scale);
        }
        let name = format!("{}: {} against {}", self.title, self.axis.title(), self.against);
        let title = egui::RichText::new(self.axis.title()).size(size::SMALL).color(tokens.quiet);
        let place = Rect::from_min_max(pos2(place.left(), place.bottom() - 17.0), place.max);
        ui.put(place, egui::Label::new(title));
        response.ctx.accesskit_node_builder(response.id, |node| {
            node.set_role(egui::accesskit::Role::Image);
            node.set_label(name);
            node.set_description(self.summary);
        });
        response
    }

    /// The end of the scale, in the unit of the axis.
    fn top(&self) -> f64 {
        let ends = self.spans.iter().flat_map(|span| [span.low, span.high]).chain(self.marks.iter().map(|m| m.at));
        let top = ends.map(|end| self.axis.at(end)).filter(|end| end.is_finite()).fold(0.0, f64::max);
        if top > 0.0 { 1.03 * top } else { 1.0 }
    }

    fn ruler(&self, ui: &Ui, inside: Rect, scale: Scale) {
        let tokens = Tokens::here(ui);
        let apart = 56.0 / f64::from(inside.width().max(56.0)) * scale.span;
        for mark in marks((0.0, scale.span), apart) {
            let x = scale.at(mark.value);
            let line = Stroke::new(weight::THIN, tokens.line.gamma_multiply(0.6));
            ui.painter().vline(x, inside.y_range(), line);
            let words = tick(mark.value, mark.step_size);
            let font = FontId::proportional(size::SMALL);
            ui.painter().text(pos2(x, inside.bottom() + 2.0), egui::Align2::CENTER_TOP, words, font, tokens.quiet);
        }
    }

    fn bar(&self, ui: &Ui, span: &Span, top: f32, inside: Rect, scale: Scale) {
        let tokens = Tokens::here(ui);
        let family = if span.counts { strong_family() } else { egui::FontFamily::Proportional };
        let left = if span.counts { size::SMALL + 4.0 } else { 0.0 };
        let mut job = egui::text::LayoutJob::simple_singleline(
            span.name.clone(),
            FontId::new(size::SMALL, family),
            if span.counts { tokens.ink } else { tokens.quiet },
        );
        job.wrap = egui::text::TextWrapping::truncate_at_width(inside.width() - left);
        let words = ui.painter().layout_job(job);
        // The grid does not run through the words.
        let ground = Rect::from_min_size(pos2(inside.left(), top), vec2(left + words.size().x + 3.0, WORDS));
        ui.painter().rect_filled(ground, 0.0, tokens.panel);
        if span.counts {
            let middle = pos2(inside.left() + size::SMALL / 2.0, top + WORDS / 2.0);
            let around = [vec2(0.0, -5.0), vec2(5.0, 0.0), vec2(0.0, 5.0), vec2(-5.0, 0.0)];
            let corners = around.map(|out| middle + out).to_vec();
            ui.painter().add(Shape::convex_polygon(corners, tokens.ink, Stroke::NONE));
        }
        ui.painter().galley(pos2(inside.left() + left, top), words, tokens.ink);
        let y = top + WORDS;
        if span.low <= span.high {
            self.area(ui, span, y, scale);
        }
        // Dashed over solid, and the solid wider, so that of two in one place both are seen.
        for dashed in [false, true] {
            for mark in self.marks.iter().filter(|mark| mark.dashed == dashed) {
                let x = scale.at(self.axis.at(mark.at));
                let ends = [pos2(x, y - 2.0), pos2(x, y + BAR + 2.0)];
                if dashed {
                    let stroke = Stroke::new(weight::THICK, mark.colour);
                    ui.painter().extend(Shape::dashed_line(&ends, stroke, 4.0, 3.0));
                } else {
                    ui.painter().line_segment(ends, Stroke::new(weight::THICK + 4.0, mark.colour));
                }
            }
        }
    }

    fn area(&self, ui: &Ui, span: &Span, y: f32, scale: Scale) {
        let tokens = Tokens::here(ui);
        let (line, wash) = self.colours;
        let [low, high] = [span.low, span.high].map(|end| scale.at(self.axis.at(end)));
        let bar = Rect::from_min_max(pos2(low, y), pos2(high.max(low + 2.0), y + BAR));
        let (line, wash) = if span.hollow { (tokens.quiet, Color32::TRANSPARENT) } else { (line, wash) };
        let edge = if span.hollow {
            Stroke::new(weight::MEDIUM, tokens.quiet)
        } else if span.counts {
            Stroke::new(weight::MEDIUM, tokens.ink)
        } else {
            Stroke::new(weight::THIN, line)
        };
        ui.painter().rect(bar, 2.0, wash, edge, StrokeKind::Inside);
        if let Some(likely) = span.likely {
            let x = scale.at(self.axis.at(likely));
            ui.painter().vline(x, y - 2.0..=y + BAR + 2.0, Stroke::new(weight::THICK, line));
        }
    }
}

/// From a number in the unit of the axis to a place.
#[derive(Clone, Copy)]
struct Scale {
    span: f64,
    left: f32,
    width: f32,
}

impl Scale {
    fn at(self, value: f64) -> f32 {
        self.left + (value / self.span).clamp(0.0, 1.0) as f32 * self.width
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::{Kind, UnitSystem};

    fn span(low: f64, high: f64) -> Span {
        Span { name: "one".to_owned(), low, likely: None, high, counts: false, hollow: false }
    }

    #[test]
    fn the_scale_begins_at_zero_and_holds_every_end() {
        let axis = PlotAxis::new("Torque", Kind::Torque, UnitSystem::Si);
        let spans = [span(2.0, 5.0), span(7.0, 4.0), span(f64::NAN, f64::INFINITY)];
        let marks = [SpanMark { at: 8.0, colour: Color32::BLACK, dashed: false }];
        let colours = (Color32::BLACK, Color32::WHITE);
        let chart = SpanChart::new(Id::NULL, "Torque", axis, "way", &spans, colours).marks(&marks);
        assert!(chart.top() > 8.0 && chart.top() < 9.0);
        let scale = Scale { span: chart.top(), left: 10.0, width: 100.0 };
        assert!((scale.at(0.0) - 10.0).abs() < 1e-6 && scale.at(8.0) < 110.0 && scale.at(5.0) > scale.at(2.0));
        // What is no number or lies outside stays inside the picture.
        assert!((10.0..=110.0).contains(&scale.at(1e9)) && (10.0..=110.0).contains(&scale.at(-3.0)));
        assert!(SpanChart::new(Id::NULL, "Torque", axis, "way", &[], colours).top() > 0.0);
    }
}
