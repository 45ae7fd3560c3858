//! The input boxes: a visitor that draws what belongs to a part, and notes what a person committed.
//!
//! It walks a copy of the project. What is committed goes into the copy, which then becomes one edit that can be undone.

use super::parts::belongs_to;
use crate::quantity::{Estimate, Measured, UnitSystem};
use crate::study::{Choice, Count, Field, Label, Project, Visitor};
use crate::window::kit::{
    EstimateField, FieldResponse, QuantityField, choice_field, count_field, heading, switch, text_field,
};
use crate::window::tokens::{size, space};
use egui::{Id, Key, Ui};

/// What the inputs of a part came to in one frame.
#[derive(Default)]
pub(super) struct Filled {
    /// The edited project, when something was committed.
    pub(super) edited: Option<Project>,
    /// Whether a box holds text that is not committed yet; as before, if nothing about that changed.
    pub(super) typing: bool,
}

/// Draws the inputs whose paths begin so.
pub(super) fn show(
    ui: &mut Ui,
    project: &Project,
    generation: u64,
    (beginnings, legs): (&'static [&'static str], Vec<String>),
    system: UnitSystem,
    pointed: Option<&str>,
    typing: bool,
) -> Filled {
    let mut copy = project.clone();
    let mut form = Form {
        ui,
        generation,
        beginnings,
        legs,
        system,
        pointed,
        path: Vec::new(),
        closed: 0,
        drawn: 0,
        changed: false,
        typing,
    };
    copy.visit(&mut form);
    let Form { changed, typing, .. } = form;
    Filled { edited: changed.then_some(copy), typing }
}

pub(super) struct Form<'u> {
    pub(super) ui: &'u mut Ui,
    generation: u64,
    /// Where the paths of the inputs wanted begin.
    beginnings: &'static [&'static str],
    /// What the legs of the day are called, as far as that is known.
    legs: Vec<String>,
    pub(super) system: UnitSystem,
    pointed: Option<&'u str>,
    path: Vec<String>,
    /// How many of the open groups are folded away.
    closed: usize,
    /// Inputs drawn so far.
    drawn: usize,
    changed: bool,
    typing: bool,
}

impl Form<'_> {
    pub(super) fn path(&self, key: &str) -> String {
        self.path.iter().map(String::as_str).chain([key]).collect::<Vec<_>>().join(".")
    }

    pub(super) fn wanted(&self, path: &str) -> bool {
        self.closed == 0 && belongs_to(path, self.beginnings)
    }

    pub(super) fn id(&self, path: &str) -> Id {
        Id::unique(("input", self.generation, path))
    }

    pub(super) fn commit(&mut self) {
        self.changed = true;
        self.typing = false;
    }

    /// Takes the common part of an input's answer: where the keyboard is, and whether somebody types.
    pub(super) fn watch<T>(&mut self, path: &str, filled: &FieldResponse<T>) {
        self.drawn += 1;
        let response = &filled.response;
        if self.pointed == Some(path) {
            response.request_focus();
            response.scroll_to_me(Some(egui::Align::Center));
        }
        if response.gained_focus() {
            response.scroll_to_me(None);
        }
        if response.has_focus() && response.changed() {
            self.typing = true;
        }
        if filled.committed.is_some()
            || filled.cleared
            || response.lost_focus()
            || (response.has_focus() && self.ui.input(|input| input.key_pressed(Key::Escape)))
        {
            self.typing = false;
        }
    }

    pub(super) fn heading(&mut self, words: &str) {
        self.ui.add_space(if self.drawn == 0 { 0.0 } else { space::ROW });
        heading(self.ui, words, size::BODY);
    }

    /// A group that can be folded away; answers whether it is open.
    fn fold(&mut self, path: &str, label: &Label) -> bool {
        let open = self.is_unfolded(path);
        let clicked = fold_button(self.ui, open, (label.label, label.label), label.help);
        self.unfold(path, open != clicked)
    }

    /// Whether a place is unfolded; it is when somebody was sent to an input in it.
    pub(super) fn is_unfolded(&self, path: &str) -> bool {
        let id = self.id(path).with("open");
        let sent = self.pointed.and_then(|pointed| pointed.strip_prefix(path));
        sent.is_some_and(|rest| rest.is_empty() || rest.starts_with(['.', '[']))
            || self.ui.data(|data| data.get_temp(id).unwrap_or(false))
    }

    /// Folds a place or unfolds it; answers whether it is open.
    pub(super) fn unfold(&self, path: &str, open: bool) -> bool {
        let id = self.id(path).with("open");
        self.ui.data_mut(|data| data.insert_temp(id, open));
        open
    }

    /// What a leg of the day is called, as far as that is known.
    pub(super) fn leg(&self, row: usize) -> Option<&String> {
        self.legs.get(row)
    }

    /// Goes into one thing of a list, its inputs drawn or not.
    pub(super) fn within(&mut self, key: String, closed: bool, body: impl FnOnce(&mut Self)) {
        self.closed += usize::from(closed);
        self.path.push(key);
        body(self);
        self.path.pop();
        self.closed -= usize::from(closed);
    }

    /// One quantity, drawn the same wherever it stands.
    pub(super) fn amount<Q: Measured>(
        &mut self,
        path: &str,
        label: &str,
        field: &'static Field,
        value: Option<Q>,
        absent: Option<&str>,
    ) -> FieldResponse<f64> {
        let id = self.id(path);
        let mut drawn = QuantityField::new(id, label, field.range.kind, self.system)
            .value(value.map(Measured::base))
            .range(&field.range)
            .hint(field.help);
        if let Some(words) = absent {
            drawn = drawn.may_be_unknown(words);
        }
        let filled = drawn.show(self.ui);
        self.watch(path, &filled);
        filled
    }
}

/// A button that folds something away, with its words on screen and its name for a screen reader.
pub(super) fn fold_button(ui: &mut Ui, open: bool, (words, name): (&str, &str), help: &str) -> bool {
    let words = format!("{} {words}", if open { "▾" } else { "▸" });
    let response = ui.add(egui::Button::new(words).frame(false).truncate()).on_hover_text(help);
    response.widget_info(|| egui::WidgetInfo::labeled(egui::Role::Button, true, name));
    ui.ctx().accesskit_node_builder(response.id, |node| node.set_expanded(open));
    response.clicked()
}

impl Visitor for Form<'_> {
    fn group(&mut self, label: &'static Label, body: impl FnOnce(&mut Self)) {
        let path = self.path(label.key);
        let folds = path == "car" || self.path.first().is_some_and(|first| first == "duty");
        let mut closed = false;
        if self.wanted(&path) {
            if folds {
                closed = !self.fold(&path, label);
            } else if self.path.is_empty() {
                // The card's title has said it already where the part is one group.
                if self.beginnings.len() > 1 {
                    self.heading(label.label);
                }
            } else {
                self.heading(label.label);
            }
        }
        self.closed += usize::from(closed);
        self.path.push(label.key.to_owned());
        body(self);
        self.path.pop();
        self.closed -= usize::from(closed);
    }

    fn quantity<Q: Measured>(&mut self, field: &'static Field, value: &mut Q) {
        let path = self.path(field.key);
        if self.wanted(&path)
            && let Some(base) = self.amount(&path, field.label, field, Some(*value), None).committed
        {
            *value = Q::from_base(base);
            self.commit();
        }
    }

    fn optional<Q: Measured>(&mut self, field: &'static Field, value: &mut Option<Q>, absent: &'static str) {
        let path = self.path(field.key);
        if !self.wanted(&path) {
            return;
        }
        let filled = self.amount(&path, field.label, field, *value, Some(absent));
        if let Some(base) = filled.committed {
            *value = Some(Q::from_base(base));
            self.commit();
        } else if filled.cleared {
            *value = None;
            self.commit();
        }
    }

    fn estimate<Q: Measured>(&mut self, field: &'static Field, value: &mut Option<Estimate<Q>>, default: Estimate<Q>) {
        let path = self.path(field.key);
        if !self.wanted(&path) {
            return;
        }
        let filled = EstimateField::new(self.id(&path), field.label, field.range.kind, self.system, default)
            .value(*value)
            .range(&field.range)
            .hint(field.help)
            .show(self.ui);
        self.watch(&path, &filled);
        if filled.committed.is_some() {
            *value = filled.committed;
            self.commit();
        } else if filled.cleared {
            *value = None;
            self.commit();
        }
    }

    fn choice<C: Choice>(&mut self, label: &'static Label, value: &mut C) {
        let path = self.path(label.key);
        if !self.wanted(&path) {
            return;
        }
        let options: Vec<(C, &str)> = C::ALL.iter().map(|choice| (*choice, choice.name())).collect();
        let filled = choice_field(self.ui, self.id(&path), label.label, value, &options);
        self.watch(&path, &filled);
        filled.response.on_hover_text(label.help);
        if let Some(chosen) = filled.committed {
            *value = chosen;
            self.commit();
        }
    }

    fn text(&mut self, label: &'static Label, value: &mut String) {
        let path = self.path(label.key);
        if !self.wanted(&path) {
            return;
        }
        let filled = text_field(self.ui, self.id(&path), label.label, value, label.help);
        self.watch(&path, &filled);
        if let Some(text) = filled.committed {
            *value = text;
            self.commit();
        }
    }

    fn count(&mut self, count: &'static Count, value: &mut u32) {
        let path = self.path(count.label.key);
        if !self.wanted(&path) {
            return;
        }
        let Count { label, low, high } = count;
        let filled = count_field(self.ui, self.id(&path), label.label, *value, *low..=*high, label.help);
        self.watch(&path, &filled);
        if let Some(number) = filled.committed {
            *value = number;
            self.commit();
        }
    }

    fn switch(&mut self, label: &'static Label, value: &mut bool) {
        let path = self.path(label.key);
        if !self.wanted(&path) {
            return;
        }
        let filled = switch(self.ui, self.id(&path), label.label, *value);
        self.watch(&path, &filled);
        if let Some(on) = filled.committed {
            *value = on;
            self.commit();
        }
    }

    fn readings<Q: Measured>(&mut self, field: &'static Field, value: &mut Vec<Q>) {
        self.draw_readings(field, value);
    }

    fn pairs<A: Measured, B: Measured>(
        &mut self,
        label: &'static Label,
        columns: (&'static Field, &'static Field),
        value: &mut Vec<(A, B)>,
    ) {
        self.draw_pairs(label, columns, value);
    }

    fn list<T: Default>(&mut self, label: &'static Label, value: &mut Vec<T>, item: impl Fn(&mut T, &mut Self)) {
        self.draw_list(label, value, item);
    }
}
