//! The input boxes: a visitor that draws what belongs to a part, and notes what a person committed.
//!
//! It walks a copy of the project. What is committed goes into the copy, which then becomes one edit that can be undone.

use super::parts::belongs_to;
use crate::quantity::{Estimate, Measured, UnitSystem};
use crate::study::{Choice, Count, Field, Label, Project, Visitor};
use crate::window::kit::{
    EstimateField, FieldResponse, QuantityField, choice_field, count_field, heading, switch, text_field,
};
use crate::window::tokens::{Tokens, size, space};
use egui::{Id, Key, RichText, Ui};

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
        let words = label.label;
        self.fold_named(path, (words, words), label.help)
    }

    /// The same with its words on screen and its name for a screen reader.
    fn fold_named(&mut self, path: &str, (words, name): (&str, &str), help: &str) -> bool {
        let id = self.id(path).with("open");
        let mut open = self.ui.data_mut(|data| data.get_temp(id).unwrap_or(false));
        if self.pointed.is_some_and(|pointed| pointed.starts_with(path)) {
            open = true;
        }
        let words = format!("{} {words}", if open { "▾" } else { "▸" });
        let response = self.ui.add(egui::Button::new(words).frame(false).truncate()).on_hover_text(help);
        if response.clicked() {
            open = !open;
        }
        response.widget_info(|| egui::WidgetInfo::labeled(egui::Role::Button, true, name));
        self.ui.ctx().accesskit_node_builder(response.id, |node| node.set_expanded(open));
        self.ui.data_mut(|data| data.insert_temp(id, open));
        open
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

impl Visitor for Form<'_> {
    fn group(&mut self, label: &'static Label, body: impl FnOnce(&mut Self)) {
        let path = self.path(label.key);
        let folds = self.path.first().is_some_and(|first| first == "duty");
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
        let path = self.path(label.key);
        if !self.wanted(&path) {
            return;
        }
        let mut removed = None;
        let mut swapped = None;
        let last = value.len().saturating_sub(1);
        for (row, one) in value.iter_mut().enumerate() {
            let name = format!("{} {}", label.label, row + 1);
            let own = format!("{}[{}]", label.key, row + 1);
            // Many legs of many inputs each: one is opened at a time.
            let mut closed = false;
            if path == "day.leg" {
                let words = self.legs.get(row).map_or_else(|| name.clone(), |leg| format!("{}: {leg}", row + 1));
                closed = !self.fold_named(&self.path(&own), (&words, &name), label.help);
            }
            match self.heading_with_changes(&name, (row > 0, row < last)) {
                Some(Change::Remove) => removed = Some(row),
                Some(Change::Up) => swapped = row.checked_sub(1),
                Some(Change::Down) => swapped = Some(row),
                None => {}
            }
            self.closed += usize::from(closed);
            self.path.push(own);
            item(one, self);
            self.path.pop();
            self.closed -= usize::from(closed);
        }
        if let Some(row) = swapped.filter(|row| row + 1 < value.len()) {
            value.swap(row, row + 1);
            self.commit();
        }
        if let Some(row) = removed {
            value.remove(row);
            self.commit();
        }
        if self.ui.button(format!("Add {}", label.label.to_lowercase())).on_hover_text(label.help).clicked() {
            value.push(T::default());
            self.commit();
        }
    }
}

/// What is to become of one thing of a list.
#[derive(Clone, Copy)]
enum Change {
    Up,
    Down,
    Remove,
}

impl Form<'_> {
    /// A heading with buttons that move what follows in its list, or remove it.
    fn heading_with_changes(&mut self, name: &str, (up, down): (bool, bool)) -> Option<Change> {
        self.ui.add_space(space::TIGHT);
        let quiet = Tokens::here(self.ui).quiet;
        self.ui
            .horizontal(|ui| {
                ui.label(RichText::new(name).color(quiet));
                let mut change = None;
                for (enabled, sign, word, which) in [(up, "▴", "up", Change::Up), (down, "▾", "down", Change::Down)]
                {
                    let button = egui::Button::new(sign).frame(false).min_size(egui::vec2(20.0, size::BOX));
                    let response = ui.add_enabled(enabled, button).on_hover_text(format!("Move {word}"));
                    if response.accessible_name(format!("Move {name} {word}")).clicked() {
                        change = Some(which);
                    }
                }
                if super::table::remove_button(ui, name) { Some(Change::Remove) } else { change }
            })
            .inner
    }
}
