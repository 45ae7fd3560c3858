//! The box every typed input shares: a draft that survives a fault, and the row around it.

use super::mark::{Mark, paint_mark};
use crate::window::tokens::{Tokens, size, space, weight};
use egui::text::{CCursor, CCursorRange};
use egui::{Align, Button, Id, Key, Label, Layout, Response, RichText, Sense, TextEdit, Ui, accesskit, vec2};

/// What a person did with an input in this frame.
pub struct FieldResponse<T> {
    /// The value to take over, when one was committed (Enter, or leaving the box) and is sound.
    pub committed: Option<T>,
    /// Whether the person went back to the program's own estimate.
    pub cleared: bool,
    /// Why the text that stands in the box is no value; the value has not changed.
    pub fault: Option<String>,
    /// The box itself.
    pub response: Response,
}

/// How one box looks and what stands beside it.
pub(super) struct Spec<'a> {
    pub id: Id,
    pub label: &'a str,
    /// What the box says when nobody types in it; empty for an unknown.
    pub shown: String,
    /// Said greyed in an empty box. An input that has it may be left unknown.
    pub when_unknown: Option<String>,
    /// Small words after the box: the range.
    pub beside: Option<String>,
    /// A sentence for whoever hovers or has the screen read.
    pub hint: &'a str,
    pub width: f32,
}

/// Text being typed, kept while it is not (yet) a value.
#[derive(Clone, Default)]
struct Draft {
    text: String,
    /// What the box would show without the draft; once the value changes elsewhere a resting draft is stale.
    shown: String,
    fault: Option<String>,
}

/// A row: the label in its column, then whatever `add` puts beside it. Gives `add` the label's id.
pub(super) fn row<R>(ui: &mut Ui, label: &str, add: impl FnOnce(&mut Ui, Id) -> R) -> R {
    let tokens = Tokens::here(ui);
    let column = size::LABEL.min(ui.available_width() * 0.45);
    ui.horizontal(|ui| {
        let words = Label::new(RichText::new(label).color(tokens.quiet)).wrap();
        let column_layout = Layout::left_to_right(Align::Center);
        let id = ui
            .allocate_ui_with_layout(vec2(column, size::BOX), column_layout, |ui| {
                ui.set_min_width(column);
                ui.add(words).id
            })
            .inner;
        add(ui, id)
    })
    .inner
}

/// The box with its row, its fault below, and its rules: Enter or leaving commits, Escape takes the draft back, a fault
/// keeps the text and the value.
pub(super) fn edit_box<T>(ui: &mut Ui, spec: &Spec<'_>, read: impl Fn(&str) -> Result<T, String>) -> FieldResponse<T> {
    let focused = ui.memory(|memory| memory.has_focus(spec.id));
    let draft: Option<Draft> = ui.data(|data| data.get_temp(spec.id));
    // A draft at rest whose value changed elsewhere (undo, another unit system) gives way; one being typed does not.
    let draft = draft.filter(|draft| draft.shown == spec.shown || (focused && draft.text != draft.shown));
    let mut text = draft.as_ref().map_or_else(|| spec.shown.clone(), |draft| draft.text.clone());
    let mut fault = draft.and_then(|draft| draft.fault);

    let mut out = ui
        .vertical(|ui| {
            let (response, forget) = row(ui, spec.label, |ui, label| {
                let response = text_box(ui, spec, &mut text, fault.is_some()).labelled_by(label);
                let known = !spec.shown.is_empty() || !text.is_empty();
                let forget = spec.when_unknown.is_some() && known && forget_button(ui, spec.label);
                beside(ui, spec);
                (response, forget)
            });
            let mut out = FieldResponse { committed: None, cleared: false, fault: None, response };
            settle(ui, spec, &mut text, &mut fault, &mut out, &read);
            if forget {
                text.clone_from(&spec.shown);
                fault = None;
                out.committed = None;
                out.cleared = true;
            }
            if let Some(sentence) = &fault {
                fault_line(ui, sentence);
            }
            out
        })
        .inner;

    describe(&out.response, spec, fault.as_deref());
    ui.data_mut(|data| {
        let resting = out.committed.is_some() || out.cleared || (fault.is_none() && text == spec.shown);
        if resting {
            data.remove_temp::<Draft>(spec.id);
        } else {
            data.insert_temp(spec.id, Draft { text, shown: spec.shown.clone(), fault: fault.clone() });
        }
    });
    out.fault = fault;
    out
}

/// Decides what the frame's keys and focus mean for the draft.
fn settle<T>(
    ui: &Ui,
    spec: &Spec<'_>,
    text: &mut String,
    fault: &mut Option<String>,
    out: &mut FieldResponse<T>,
    read: &impl Fn(&str) -> Result<T, String>,
) {
    let pressed = |key| ui.input(|input| input.key_pressed(key));
    let dirty = text.trim() != spec.shown.trim();
    let left = out.response.lost_focus();
    // A screen reader may set the text without ever giving the box the keyboard.
    let set_from_outside = out.response.changed() && !out.response.has_focus() && !left;
    if left && pressed(Key::Escape) {
        if dirty {
            // The first Escape takes the text back and stays; a second one leaves.
            out.response.request_focus();
        }
        text.clone_from(&spec.shown);
        *fault = None;
    } else if left || set_from_outside {
        if !dirty {
            text.clone_from(&spec.shown);
            *fault = None;
        } else if text.trim().is_empty() && spec.when_unknown.is_some() {
            out.cleared = true;
            *fault = None;
        } else {
            match read(text) {
                Ok(value) => {
                    out.committed = Some(value);
                    *fault = None;
                }
                Err(sentence) => *fault = Some(sentence),
            }
        }
        if left && pressed(Key::Enter) {
            // Stay, so that Tab goes on from here.
            out.response.request_focus();
        }
    } else if out.response.changed() && fault.is_some() {
        // While a fault is being mended the sentence keeps up with the text.
        *fault = if dirty { read(text).err() } else { None };
    }
}

fn text_box(ui: &mut Ui, spec: &Spec<'_>, text: &mut String, faulty: bool) -> Response {
    let tokens = Tokens::here(ui);
    if faulty {
        let edge = egui::Stroke::new(weight::MEDIUM, tokens.fault);
        let visuals = ui.visuals_mut();
        visuals.widgets.inactive.bg_stroke = edge;
        visuals.widgets.hovered.bg_stroke = edge;
        visuals.selection.stroke = edge;
    }
    // In a narrow inspector the box gives way, so that the button after it stays in reach. An empty box has none.
    let button = spec.when_unknown.is_some() && !(spec.shown.is_empty() && text.is_empty());
    let after = if button { FORGET + ui.spacing().item_spacing.x } else { 0.0 };
    let width = spec.width.min(ui.available_width() - after);
    let edit = TextEdit::singleline(text)
        .id(spec.id)
        .desired_width(width)
        .margin(vec2(8.0, 4.0))
        .hint_text(spec.when_unknown.clone().unwrap_or_default());
    let mut output = edit.show(ui);
    let response = output.response.response.clone();
    let by_keyboard =
        response.gained_focus() && !ui.input(|input| input.pointer.any_click() || input.pointer.any_down());
    if by_keyboard {
        // Arriving by Tab marks everything, so that typing replaces the value.
        let all = CCursorRange::two(CCursor::default(), CCursor::new(text.chars().count()));
        output.state.cursor.set_char_range(Some(all));
        output.state.store(ui.ctx(), spec.id);
    }
    let hover = match (&spec.beside, spec.hint) {
        (_, "") => return response,
        (Some(range), hint) => format!("{hint}\n{range}"),
        (None, hint) => hint.to_owned(),
    };
    response.on_hover_text(hover)
}

/// The width of the button that forgets a value.
const FORGET: f32 = 24.0;

fn forget_button(ui: &mut Ui, label: &str) -> bool {
    let button = Button::new(RichText::new("×").size(size::TITLE)).frame(false).min_size(vec2(FORGET, size::BOX));
    let name = format!("Forget {label} and use the program's estimate");
    ui.add(button).on_hover_text("Back to the program's estimate").accessible_name(name).clicked()
}

/// The range, where there is room for it.
fn beside(ui: &mut Ui, spec: &Spec<'_>) {
    let Some(words) = &spec.beside else { return };
    let tokens = Tokens::here(ui);
    let text = RichText::new(words).size(size::SMALL).color(tokens.quiet);
    let font = egui::FontId::proportional(size::SMALL);
    let width = ui.painter().layout_no_wrap(words.clone(), font, tokens.quiet).size().x;
    if width <= ui.available_width() {
        ui.label(text);
    }
}

/// A sentence about what is wrong, with its mark.
fn fault_line(ui: &mut Ui, sentence: &str) {
    let tokens = Tokens::here(ui);
    ui.horizontal_top(|ui| {
        let (place, _) = ui.allocate_exact_size(vec2(size::MARK, size::MARK + space::TIGHT), Sense::hover());
        paint_mark(ui.painter(), place.center(), size::MARK, Mark::Warning, tokens);
        let label = ui.add(Label::new(RichText::new(sentence).size(size::SMALL).color(tokens.fault)).wrap());
        ui.ctx().accesskit_node_builder(label.id, |node| node.set_live(accesskit::Live::Polite));
    });
}

fn describe(response: &Response, spec: &Spec<'_>, fault: Option<&str>) {
    let mut parts: Vec<&str> = Vec::new();
    parts.extend(fault);
    parts.extend(spec.beside.as_deref());
    if !spec.hint.is_empty() {
        parts.push(spec.hint);
    }
    response.ctx.accesskit_node_builder(response.id, |node| {
        if fault.is_some() {
            node.set_invalid(accesskit::Invalid::True);
        }
        if !parts.is_empty() {
            node.set_description(parts.join(". "));
        }
    });
}
