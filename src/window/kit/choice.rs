//! Inputs for words, counts, texts and yes-or-no.

use super::edit::{FieldResponse, Spec, edit_box, row};
use crate::window::tokens::{Tokens, size, weight};
use egui::{ComboBox, CornerRadius, Id, Role, Sense, Stroke, StrokeKind, Ui, WidgetInfo, pos2, vec2};
use std::ops::RangeInclusive;

/// The height of an opened list before it scrolls: every list of ours fits.
const TALLEST: f32 = 360.0;

/// One of a few words. Space or Enter opens the list, the arrows walk it.
pub fn choice_field<T: PartialEq + Clone>(
    ui: &mut Ui,
    id: Id,
    label: &str,
    chosen: &T,
    options: &[(T, &str)],
) -> FieldResponse<T> {
    let shown = options.iter().find(|(value, _)| value == chosen).map_or("", |(_, words)| *words);
    row(ui, label, |ui, label_id| {
        let mut committed = None;
        let list = ComboBox::from_id_salt(id)
            .selected_text(shown)
            .width(size::FIELD + 16.0)
            .truncate()
            .height(TALLEST)
            .show_ui(ui, |ui| {
                for (value, words) in options {
                    if ui.selectable_label(value == chosen, *words).clicked() && value != chosen {
                        committed = Some(value.clone());
                    }
                }
            });
        let response = list.response.labelled_by(label_id);
        FieldResponse { committed, cleared: false, fault: None, response }
    })
}

/// A whole number within a range, such as the number of cylinders.
pub fn count_field(
    ui: &mut Ui,
    id: Id,
    label: &str,
    value: u32,
    allowed: RangeInclusive<u32>,
    hint: &str,
) -> FieldResponse<u32> {
    let words = format!("{} to {}", allowed.start(), allowed.end());
    let spec = Spec {
        id,
        label,
        shown: value.to_string(),
        when_unknown: None,
        beside: Some(words.clone()),
        hint,
        width: size::FIELD,
    };
    edit_box(ui, &spec, |text| {
        let typed = text.trim();
        let count: u32 = typed.parse().map_err(|_| format!("'{typed}' is no whole number; write {words}"))?;
        if allowed.contains(&count) { Ok(count) } else { Err(format!("{label} is {count}, outside {words}")) }
    })
}

/// A name or a remark.
pub fn text_field(ui: &mut Ui, id: Id, label: &str, text: &str, hint: &str) -> FieldResponse<String> {
    let width = (ui.available_width() - size::LABEL).clamp(size::FIELD, 2.5 * size::FIELD);
    let spec = Spec { id, label, shown: text.to_owned(), when_unknown: None, beside: None, hint, width };
    edit_box(ui, &spec, |text| Ok(text.trim().to_owned()))
}

/// Yes or no: a switch that says its state in a word as well as by the place of its knob.
pub fn switch(ui: &mut Ui, id: Id, label: &str, on: bool) -> FieldResponse<bool> {
    let tokens = Tokens::here(ui);
    row(ui, label, |ui, _| {
        let (place, _) = ui.allocate_exact_size(vec2(38.0, size::BOX), Sense::hover());
        let mut response = ui.interact(place, id, Sense::click());
        if response.clicked() {
            response.mark_changed();
        }
        response.widget_info(|| WidgetInfo::selected(Role::Switch, ui.is_enabled(), on, label));
        let track = egui::Rect::from_center_size(place.center(), vec2(36.0, 18.0));
        let round = CornerRadius::same(9);
        let (fill, knob) = if on { (tokens.chosen, tokens.on_chosen) } else { (tokens.card, tokens.quiet) };
        let edge = if response.has_focus() {
            Stroke::new(weight::MEDIUM, tokens.focus)
        } else {
            Stroke::new(weight::THIN, tokens.quiet)
        };
        ui.painter().rect(track, round, fill, edge, StrokeKind::Outside);
        let x = if on { track.right() - 9.0 } else { track.left() + 9.0 };
        ui.painter().circle_filled(pos2(x, track.center().y), 6.0, knob);
        ui.label(if on { "yes" } else { "no" });
        let committed = response.clicked().then_some(!on);
        FieldResponse { committed, cleared: false, fault: None, response }
    })
}
