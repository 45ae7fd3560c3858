//! Inputs that are lists: readings one after the other, and tables of two columns.

use super::form::Form;
use crate::quantity::Measured;
use crate::study::{Field, Label};
use crate::window::tokens::{Tokens, size};
use egui::{Button, RichText, Ui, vec2};

/// A small button that removes one row.
pub(super) fn remove_button(ui: &mut Ui, name: &str) -> bool {
    let button = Button::new("×").frame(false).min_size(vec2(20.0, size::BOX));
    let response = ui.add(button).on_hover_text("Remove");
    response.accessible_name(format!("Remove {name}")).clicked()
}

impl Form<'_> {
    pub(super) fn draw_readings<Q: Measured>(&mut self, field: &'static Field, value: &mut Vec<Q>) {
        let path = self.path(field.key);
        if !self.wanted(&path) {
            return;
        }
        // A fault of the readings as a whole points at the list itself: at its first box, or at the empty one.
        let mut removed = None;
        for row in 0..value.len() {
            let Some(reading) = value.get(row).copied() else { continue };
            let label = format!("{} {}", field.label, row + 1);
            let own = if row == 0 { path.clone() } else { format!("{path}[{}]", row + 1) };
            let filled = self.amount(&own, &label, field, Some(reading), Some("none"));
            if let (Some(base), Some(place)) = (filled.committed, value.get_mut(row)) {
                *place = Q::from_base(base);
                self.commit();
            } else if filled.cleared {
                removed = Some(row);
            }
        }
        if let Some(row) = removed {
            value.remove(row);
            self.commit();
        }
        let label = format!("{} {}", field.label, value.len() + 1);
        let own = if value.is_empty() { path } else { format!("{path}[{}]", value.len() + 1) };
        let hint = if value.is_empty() { "not measured" } else { "one more" };
        if let Some(base) = self.amount::<Q>(&own, &label, field, None, Some(hint)).committed {
            value.push(Q::from_base(base));
            self.commit();
        }
    }

    pub(super) fn draw_pairs<A: Measured, B: Measured>(
        &mut self,
        label: &'static Label,
        (left, right): (&'static Field, &'static Field),
        value: &mut Vec<(A, B)>,
    ) {
        let path = self.path(label.key);
        if !self.wanted(&path) {
            return;
        }
        self.heading(label.label);
        let quiet = Tokens::here(self.ui).quiet;
        self.ui.label(RichText::new(label.help).small().color(quiet));
        let mut removed = None;
        for (row, (a, b)) in value.iter_mut().enumerate() {
            let name = format!("{} {}", label.label, row + 1);
            self.ui.horizontal(|ui| {
                ui.label(RichText::new(format!("Row {}", row + 1)).small().color(quiet));
                if remove_button(ui, &name) {
                    removed = Some(row);
                }
            });
            let first = if row == 0 { path.clone() } else { format!("{path}[{}]", row + 1) };
            let left_words = format!("{}, row {}", capital(left.label), row + 1);
            if let Some(base) = self.amount(&first, &left_words, left, Some(*a), None).committed {
                *a = A::from_base(base);
                self.commit();
            }
            let second = format!("{path}[{}].{}", row + 1, right.key);
            let right_words = format!("{}, row {}", capital(right.label), row + 1);
            if let Some(base) = self.amount(&second, &right_words, right, Some(*b), None).committed {
                *b = B::from_base(base);
                self.commit();
            }
        }
        if let Some(row) = removed {
            value.remove(row);
            self.commit();
        }
        if self.ui.button(format!("Add a row to {}", label.label.to_lowercase())).clicked() {
            value.push(next_row(value, left, right));
            self.commit();
        }
    }
}

/// A row that goes on where the table ends, so that it rises as tables must, and stays in range.
fn next_row<A: Measured, B: Measured>(rows: &[(A, B)], left: &Field, right: &Field) -> (A, B) {
    let step = |field: &Field, last: Option<f64>, before: Option<f64>| {
        let (low, high) = (field.range.low, field.range.high);
        let last = last.unwrap_or(low);
        let rise = before.map_or((high - low) / 20.0, |before| (last - before).abs());
        (last + rise).clamp(low, high)
    };
    let last = rows.last();
    let before = rows.len().checked_sub(2).and_then(|row| rows.get(row));
    let a = step(left, last.map(|row| row.0.base()), before.map(|row| row.0.base()));
    let b = step(right, last.map(|row| row.1.base()), before.map(|row| row.1.base()));
    (A::from_base(a), B::from_base(b))
}

/// Words at the beginning of a line.
pub(in crate::window) fn capital(words: &str) -> String {
    let mut letters = words.chars();
    letters.next().map_or_else(String::new, |first| first.to_uppercase().chain(letters).collect())
}
