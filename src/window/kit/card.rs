//! Frames: a part's card, a caution.

use super::mark::{Mark, paint_mark};
use crate::window::fonts::strong_family;
use crate::window::tokens::{Tokens, size, space, weight};
use egui::text::LayoutJob;
use egui::{
    Color32, CornerRadius, FontId, Frame, InnerResponse, Label, Margin, Response, RichText, Sense, Stroke, TextFormat,
    Ui, vec2,
};

/// Semibold text of a size.
#[must_use]
pub fn strong(text: impl Into<String>, points: f32) -> RichText {
    RichText::new(text).font(FontId::new(points, strong_family()))
}

/// A heading, for the eye and for a screen reader.
pub fn heading(ui: &mut Ui, words: &str, points: f32) -> Response {
    let response = ui.label(strong(words, points));
    ui.ctx().accesskit_node_builder(response.id, |node| {
        node.set_role(egui::accesskit::Role::Heading);
        node.set_label(words);
        node.clear_value();
    });
    response
}

/// A card about one part: a title, a short bar in the colour of what flows through it, and its contents.
pub fn part_card<R>(
    ui: &mut Ui,
    title: &str,
    accent: Option<Color32>,
    add: impl FnOnce(&mut Ui) -> R,
) -> InnerResponse<R> {
    let tokens = Tokens::here(ui);
    Frame::new()
        .fill(tokens.card)
        .stroke(tokens.hairline())
        .corner_radius(CornerRadius::same(size::ROUND))
        .inner_margin(Margin::same(14))
        .show(ui, |ui| {
            ui.set_min_width(ui.available_width());
            heading(ui, title, size::TITLE);
            if let Some(colour) = accent {
                let (bar, _) = ui.allocate_exact_size(vec2(36.0, weight::THICK), Sense::hover());
                ui.painter().rect_filled(bar, 0.0, colour);
            }
            ui.add_space(space::TIGHT);
            add(ui)
        })
}

/// A caution in plain words, where work can hurt somebody: a mark, the word, the sentence.
pub fn caution_box(ui: &mut Ui, text: &str) -> Response {
    let tokens = Tokens::here(ui);
    Frame::new()
        .fill(tokens.caution)
        .stroke(Stroke::new(weight::THIN, tokens.caution_edge))
        .corner_radius(CornerRadius::same(size::ROUND))
        .inner_margin(Margin::same(12))
        .show(ui, |ui| {
            ui.set_min_width(ui.available_width());
            ui.horizontal_top(|ui| {
                let (place, _) = ui.allocate_exact_size(vec2(20.0, 18.0), Sense::hover());
                paint_mark(ui.painter(), place.center(), 16.0, Mark::Warning, tokens);
                let mut job = LayoutJob::default();
                let format = |family| TextFormat {
                    font_id: FontId::new(size::BODY, family),
                    color: tokens.ink,
                    ..TextFormat::default()
                };
                job.append("Caution: ", 0.0, format(strong_family()));
                job.append(text, 0.0, format(egui::FontFamily::Proportional));
                ui.add(Label::new(job).wrap().selectable(true))
            })
            .inner
        })
        .inner
}
