//! A row of segments of which one is pressed: the duty point, the view.

use crate::window::tokens::{Tokens, size, weight};
use egui::{
    CornerRadius, EventFilter, FontId, Id, Key, Role, Sense, Stroke, StrokeKind, Ui, WidgetInfo, accesskit, vec2,
};

/// One of a few, always in sight. Answers the index newly chosen.
///
/// Tab reaches the chosen segment, the arrows, Home and End choose another: the keyboard habits of radio buttons.
pub fn segments(ui: &mut Ui, id: Id, label: &str, chosen: usize, names: &[&str]) -> Option<usize> {
    let tokens = Tokens::here(ui);
    let mut answer = None;
    // The arrows are read before the segments are laid out: the one they lead to must be ready for the keyboard in this
    // very frame, or egui takes the focus from it.
    let focused = (0..names.len()).find(|index| ui.memory(|memory| memory.has_focus(id.with(index))));
    if let Some(next) = focused.and_then(|from| stepped(ui, from, names.len())).filter(|next| Some(*next) != focused) {
        answer = Some(next);
        ui.memory_mut(|memory| memory.request_focus(id.with(next)));
    }
    let stepped_to = answer;
    let group = ui.horizontal_wrapped(|ui| {
        ui.spacing_mut().item_spacing = vec2(6.0, 6.0);
        for (index, name) in names.iter().enumerate() {
            let own = id.with(index);
            let pressed = index == chosen;
            let colour = if pressed { tokens.on_chosen } else { tokens.ink };
            let text = ui.painter().layout_no_wrap((*name).to_owned(), FontId::proportional(size::BODY), colour);
            let (place, _) = ui.allocate_exact_size(vec2(text.size().x + 22.0, size::BOX), Sense::hover());
            let reachable = pressed || stepped_to == Some(index);
            let sense = if reachable { Sense::click() } else { Sense::CLICK };
            let response = ui.interact(place, own, sense);
            response.widget_info(|| WidgetInfo::selected(Role::RadioButton, ui.is_enabled(), pressed, name));
            if response.clicked() && !pressed {
                answer = Some(index);
                response.request_focus();
            }
            if response.has_focus() {
                ui.memory_mut(|memory| {
                    let arrows = EventFilter { horizontal_arrows: true, vertical_arrows: true, ..Default::default() };
                    memory.set_focus_lock_filter(own, arrows);
                });
            }
            let edge = if response.has_focus() {
                Stroke::new(weight::MEDIUM, tokens.focus)
            } else if response.hovered() {
                Stroke::new(weight::THIN, tokens.quiet)
            } else {
                tokens.hairline()
            };
            let fill = if pressed { tokens.chosen } else { tokens.card };
            let round = CornerRadius::same(size::ROUND);
            // The ring stands clear of the dark ground of the pressed segment.
            let ring = if response.has_focus() { place.expand(2.0) } else { place };
            ui.painter().rect_filled(place, round, fill);
            ui.painter().rect_stroke(ring, round, edge, StrokeKind::Inside);
            let at = place.center() - text.size() / 2.0;
            ui.painter().galley(at, text, colour);
        }
    });
    ui.ctx().accesskit_node_builder(group.response.id, |node| {
        node.set_role(accesskit::Role::RadioGroup);
        node.set_label(label);
    });
    answer
}

/// Where the arrow pressed in this frame leads, round the ends.
fn stepped(ui: &Ui, from: usize, count: usize) -> Option<usize> {
    ui.input(|input| {
        let pressed = |keys: [Key; 2]| keys.into_iter().any(|key| input.key_pressed(key));
        if pressed([Key::ArrowRight, Key::ArrowDown]) {
            Some((from + 1) % count)
        } else if pressed([Key::ArrowLeft, Key::ArrowUp]) {
            Some((from + count - 1) % count)
        } else if input.key_pressed(Key::Home) {
            Some(0)
        } else if input.key_pressed(Key::End) {
            Some(count - 1)
        } else {
            None
        }
    })
}
