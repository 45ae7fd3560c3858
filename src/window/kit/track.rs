//! A slider over a stretch of time, with named bands along it and ticks where something happens.

use crate::window::tokens::{Tokens, size, weight};
use egui::accesskit::{Action, ActionData};
use egui::{
    CornerRadius, EventFilter, FontId, Id, Key, Modifiers, Rangef, Rect, Sense, Shape, Stroke, StrokeKind, Ui,
    WidgetInfo, pos2, vec2,
};

/// A named piece of the track; where it is short its number in the row stands for it.
#[derive(Clone, Debug, PartialEq)]
pub struct Band {
    /// Its words.
    pub name: String,
    /// Where it begins.
    pub from: f64,
    /// Where it ends.
    pub to: f64,
}

/// The slider. Arrows move it by a step (ten with Shift), Page Up and Page Down to the ticks before and after, Home and
/// End to the ends; it can be dragged anywhere along its length.
pub struct Track<'a> {
    id: Id,
    label: &'a str,
    reads: String,
    at: f64,
    span: f64,
    step: f64,
    bands: &'a [Band],
    ticks: &'a [f64],
    /// From left to right on the screen; all the room there is without it.
    along: Option<Rangef>,
}

/// Height of the bands.
const BANDS: f32 = 22.0;
/// A piece narrower than this has its number in place of its words.
const NAMED: f32 = 64.0;
/// Height of the rail below them.
const RAIL: f32 = 20.0;

impl<'a> Track<'a> {
    /// A slider from 0 to `span`, standing at `at`, which reads as `reads`.
    #[must_use]
    pub fn new(id: Id, label: &'a str, (at, span): (f64, f64), reads: String) -> Self {
        Self { id, label, reads, at, span, step: 60.0, bands: &[], ticks: &[], along: None }
    }

    /// How far an arrow key goes.
    #[must_use]
    pub fn step(mut self, step: f64) -> Self {
        self.step = step;
        self
    }

    /// Named pieces, in order.
    #[must_use]
    pub fn bands(mut self, bands: &'a [Band]) -> Self {
        self.bands = bands;
        self
    }

    /// Where something happens, in order.
    #[must_use]
    pub fn ticks(mut self, ticks: &'a [f64]) -> Self {
        self.ticks = ticks;
        self
    }

    /// Where it lies on the screen, from left to right, so that it lines up with what it belongs to.
    #[must_use]
    pub fn along(mut self, along: Option<Rangef>) -> Self {
        self.along = along;
        self
    }

    /// Draws it; answers where it was moved to.
    pub fn show(self, ui: &mut Ui) -> Option<f64> {
        let (whole, _) = ui.allocate_exact_size(vec2(ui.available_width(), BANDS + RAIL), Sense::hover());
        let along = self.along.unwrap_or(whole.x_range().shrink(8.0));
        let along = if along.span() > 1.0 { along } else { whole.x_range() };
        let place = Rect::from_x_y_ranges(along, whole.y_range());
        let response =
            ui.interact(place.expand2(vec2(8.0, 0.0)).intersect(ui.clip_rect()), self.id, Sense::click_and_drag());
        let mut moved = None;
        if let Some(pointer) = response.interact_pointer_pos()
            && (response.dragged() || response.clicked())
        {
            let share = f64::from((pointer.x - along.min) / along.span());
            moved = Some(share.clamp(0.0, 1.0) * self.span);
        }
        if response.drag_started() || response.clicked() {
            response.request_focus();
        }
        if response.has_focus() {
            ui.memory_mut(|memory| {
                let arrows = EventFilter { horizontal_arrows: true, vertical_arrows: true, ..Default::default() };
                memory.set_focus_lock_filter(self.id, arrows);
            });
            moved = self.keyed(ui).or(moved);
        }
        moved = self.asked(ui).or(moved);
        if let Some(pointer) = response.hover_pos() {
            let at = f64::from((pointer.x - along.min) / along.span()) * self.span;
            let here = |band: &Band| (band.from..band.to).contains(&at);
            if let Some((index, band)) = self.bands.iter().enumerate().find(|(_, band)| here(band)) {
                response.clone().on_hover_text_at_pointer(format!("{}  {}", index + 1, band.name));
            }
        }
        self.tell(ui, &response);
        let at = moved.unwrap_or(self.at);
        self.paint(ui, place, at, response.has_focus());
        moved.filter(|to| *to != self.at)
    }

    fn keyed(&self, ui: &Ui) -> Option<f64> {
        ui.input_mut(|input| {
            let mut at = self.at;
            let mut hit = |key: Key| {
                // With Shift first: a key asked for without it is found with it too.
                let shifted = input.count_and_consume_key(Modifiers::SHIFT, key);
                let plain = input.count_and_consume_key(Modifiers::NONE, key);
                (plain + 10 * shifted) as f64
            };
            let steps = hit(Key::ArrowRight) + hit(Key::ArrowUp) - hit(Key::ArrowLeft) - hit(Key::ArrowDown);
            if steps != 0.0 {
                // On whole steps, wherever the hand had left it.
                let whole = self.at / self.step;
                let from = if steps > 0.0 { (whole + 1e-9).floor() } else { (whole - 1e-9).ceil() };
                at = (from + steps) * self.step;
            }
            if hit(Key::PageDown) > 0.0 {
                at = self.ticks.iter().copied().find(|tick| *tick > at).unwrap_or(self.span);
            }
            if hit(Key::PageUp) > 0.0 {
                at = self.ticks.iter().copied().rev().find(|tick| *tick < at).unwrap_or(0.0);
            }
            if hit(Key::Home) > 0.0 {
                at = 0.0;
            }
            if hit(Key::End) > 0.0 {
                at = self.span;
            }
            (at != self.at).then_some(at.clamp(0.0, self.span))
        })
    }

    /// What a screen reader asks for.
    fn asked(&self, ui: &Ui) -> Option<f64> {
        ui.input(|input| {
            let count = |action| input.num_accesskit_action_requests(self.id, action) as f64;
            let steps = count(Action::Increment) - count(Action::Decrement);
            let set =
                input.accesskit_action_requests(self.id, Action::SetValue).find_map(|request| match request.data {
                    Some(ActionData::NumericValue(value)) => Some(value),
                    _ => None,
                });
            let to = set.or((steps != 0.0).then_some(self.at + steps * self.step))?;
            to.is_finite().then(|| to.clamp(0.0, self.span))
        })
    }

    fn tell(&self, ui: &Ui, response: &egui::Response) {
        response.widget_info(|| WidgetInfo::slider(ui.is_enabled(), self.at, self.label));
        let (label, reads, span, step) = (self.label, self.reads.clone(), self.span, self.step);
        ui.ctx().accesskit_node_builder(response.id, |node| {
            node.set_role(egui::accesskit::Role::Slider);
            node.set_label(label);
            node.set_value(reads);
            node.set_min_numeric_value(0.0);
            node.set_max_numeric_value(span);
            node.set_numeric_value_step(step);
            for action in [Action::Increment, Action::Decrement, Action::SetValue] {
                node.add_action(action);
            }
        });
    }

    fn paint(&self, ui: &Ui, place: Rect, at: f64, focused: bool) {
        let tokens = Tokens::here(ui);
        let painter = ui.painter();
        let x = |value: f64| place.left() + ((value / self.span).clamp(0.0, 1.0) as f32) * place.width();
        let (bands, rail) = place.split_top_bottom_at_y(place.top() + BANDS);
        for (index, band) in self.bands.iter().enumerate() {
            let piece = Rect::from_x_y_ranges(Rangef::new(x(band.from), x(band.to)), bands.y_range());
            let now = (band.from..band.to).contains(&at) || (at >= self.span && index + 1 == self.bands.len());
            let (fill, ink) = if now { (tokens.chosen, tokens.on_chosen) } else { (tokens.card, tokens.ink) };
            painter.rect(
                piece.shrink2(vec2(0.5, 0.0)),
                CornerRadius::same(2),
                fill,
                tokens.hairline(),
                StrokeKind::Inside,
            );
            // Its number stands where the words have no room; where not even that fits, the pointer tells.
            let set = |words: String| painter.layout_no_wrap(words, FontId::proportional(size::SMALL), ink);
            let number = set((index + 1).to_string());
            let wide = number.size().x;
            if piece.width() > NAMED {
                let mut job = egui::text::LayoutJob::simple_singleline(
                    format!("{}  {}", index + 1, band.name),
                    FontId::proportional(size::SMALL),
                    ink,
                );
                job.wrap = egui::text::TextWrapping::truncate_at_width(piece.width() - 8.0);
                let words = painter.layout_job(job);
                painter.galley(pos2(piece.left() + 4.0, piece.center().y - words.size().y / 2.0), words, ink);
            } else if piece.width() >= wide + 2.0 {
                painter.galley(piece.center() - number.size() / 2.0, number, ink);
            }
        }
        let middle = rail.center().y;
        painter.line_segment(
            [pos2(rail.left(), middle), pos2(rail.right(), middle)],
            Stroke::new(weight::MEDIUM, tokens.quiet),
        );
        for tick in self.ticks {
            let foot = pos2(x(*tick), middle);
            let drop = vec![foot, foot + vec2(-3.0, -6.0), foot + vec2(3.0, -6.0)];
            painter.add(Shape::convex_polygon(drop, tokens.quiet, Stroke::NONE));
        }
        let hand = pos2(x(at), middle);
        painter.line_segment(
            [pos2(hand.x, bands.bottom()), pos2(hand.x, rail.bottom())],
            Stroke::new(weight::MEDIUM, tokens.focus),
        );
        painter.circle(hand, 7.0, tokens.card, Stroke::new(weight::MEDIUM, tokens.ink));
        if focused {
            painter.circle_stroke(hand, 10.0, Stroke::new(weight::MEDIUM, tokens.focus));
        }
    }
}
