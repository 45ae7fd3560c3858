//! The bar that tells what the colours mean.

use super::palette;
use crate::quantity::{Amount, Kind, UnitSystem};
use crate::window::tokens::{Tokens, size};
use egui::{Align2, Color32, FontId, Mesh, Rect, Role, Sense, Ui, WidgetInfo, pos2, vec2};

/// The span of a field: its ends, and the greatest distance from zero, which the palette's ends stand for. Pa.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Scale {
    pub low: f64,
    pub high: f64,
    most: f64,
}

impl Scale {
    /// The scale of some values, zero in it.
    pub fn of(values: impl Iterator<Item = f64>) -> Self {
        let (low, high) = values.filter(|v| v.is_finite()).fold((0.0_f64, 0.0_f64), |(a, b), v| (a.min(v), b.max(v)));
        Self { low, high, most: high.max(-low).max(1.0) }
    }

    /// The colour of a value.
    pub fn colour(&self, value: f64, tokens: &Tokens) -> Color32 {
        palette::colour((value / self.most) as f32, tokens)
    }
}

/// A bar from the lowest to the highest value with zero marked.
pub(super) fn show(ui: &mut Ui, scale: Scale, what: &str, system: UnitSystem) {
    let tokens = Tokens::here(ui);
    let told = |value: f64| Amount::new(value, Kind::CrankcasePressure).show(system);
    let (place, response) = ui.allocate_exact_size(vec2(ui.available_width(), 40.0), Sense::hover());
    let bar = Rect::from_min_size(place.min + vec2(4.0, 16.0), vec2(place.width() - 8.0, 10.0));
    let font = FontId::proportional(size::SMALL);
    let painter = ui.painter();
    painter.text(place.left_top() + vec2(4.0, 0.0), Align2::LEFT_TOP, what, font.clone(), tokens.ink);
    let span = (scale.high - scale.low).max(1.0);
    let mut mesh = Mesh::default();
    for i in 0..=48_u16 {
        let share = f32::from(i) / 48.0;
        let colour = scale.colour(scale.low + f64::from(share) * span, tokens);
        let x = bar.left() + share * bar.width();
        mesh.colored_vertex(pos2(x, bar.top()), colour);
        mesh.colored_vertex(pos2(x, bar.bottom()), colour);
        if i > 0 {
            let corner = 2 * u32::from(i);
            mesh.add_triangle(corner - 2, corner - 1, corner);
            mesh.add_triangle(corner - 1, corner, corner + 1);
        }
    }
    painter.add(mesh);
    painter.rect_stroke(bar, 0.0, tokens.hairline(), egui::StrokeKind::Outside);
    let below = bar.bottom() + 2.0;
    painter.text(pos2(bar.left(), below), Align2::LEFT_TOP, told(scale.low), font.clone(), tokens.quiet);
    painter.text(pos2(bar.right(), below), Align2::RIGHT_TOP, told(scale.high), font.clone(), tokens.quiet);
    let zero = (-scale.low / span) as f32;
    if (0.2..0.8).contains(&zero) {
        let x = bar.left() + zero * bar.width();
        painter.vline(x, bar.y_range(), tokens.hairline());
        painter.text(pos2(x, below), Align2::CENTER_TOP, "0", font, tokens.quiet);
    }
    let name = format!("{what}: from {} to {}", told(scale.low), told(scale.high));
    response.widget_info(|| WidgetInfo::labeled(Role::Label, true, &name));
}
