//! Marks drawn with lines, so that a shape says what a colour says.

use crate::window::tokens::{Tokens, weight};
use egui::{Align2, FontId, Painter, Pos2, Shape, Stroke, pos2, vec2};

/// A small drawn sign.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Mark {
    /// A full circle: it holds.
    Circle,
    /// A diamond: it holds by little.
    Diamond,
    /// A triangle: it does not hold.
    Triangle,
    /// An empty square: not known.
    Square,
    /// A triangle with an exclamation mark: caution, or a wrong input.
    Warning,
}

/// Draws a mark of a height about `centre`.
pub fn paint_mark(painter: &Painter, centre: Pos2, height: f32, mark: Mark, tokens: &Tokens) {
    let half = height / 2.0;
    let at = |x: f32, y: f32| pos2(centre.x + x * half, centre.y + y * half);
    // A thin edge in ink keeps the lighter fills from fading into a light ground.
    let edge = Stroke::new(weight::THIN, tokens.ink);
    let shape = match mark {
        Mark::Circle => {
            painter.circle(centre, half * 0.92, tokens.holds, edge);
            return;
        }
        Mark::Diamond => {
            Shape::convex_polygon(vec![at(0.0, -1.0), at(1.0, 0.0), at(0.0, 1.0), at(-1.0, 0.0)], tokens.thin, edge)
        }
        Mark::Triangle => {
            Shape::convex_polygon(vec![at(0.0, -0.95), at(1.05, 0.85), at(-1.05, 0.85)], tokens.fails, edge)
        }
        Mark::Square => {
            let side = vec2(height, height) * 0.8;
            let square = egui::Rect::from_center_size(centre, side);
            painter.rect_stroke(square, 0.0, Stroke::new(weight::MEDIUM, tokens.unknown), egui::StrokeKind::Inside);
            return;
        }
        Mark::Warning => {
            Shape::convex_polygon(vec![at(0.0, -1.0), at(1.1, 0.9), at(-1.1, 0.9)], tokens.caution_edge, edge)
        }
    };
    painter.add(shape);
    if mark == Mark::Warning {
        let font = FontId::new(height * 0.72, crate::window::fonts::strong_family());
        // Dark on orange in both themes.
        painter.text(at(0.0, 0.22), Align2::CENTER_CENTER, "!", font, crate::window::tokens::LIGHT.ink);
    }
}
