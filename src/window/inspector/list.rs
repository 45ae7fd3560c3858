//! Inputs that are a list of things of several inputs each, such as hose runs and the legs of a day.

use super::form::{Form, fold_button};
use super::table::remove_button;
use crate::study::Label;
use crate::window::tokens::{Tokens, size, space};
use egui::{Align, Button, Layout, RichText, Ui, vec2};

/// A list whose things have so many inputs that one is opened at a time.
const FOLDED: &str = "day.leg";
/// The room of the buttons behind a name.
const BUTTONS: f32 = 3.0 * (20.0 + space::ROW);

/// What is to become of one thing of a list.
#[derive(Clone, Copy)]
enum Change {
    Up,
    Down,
    Remove,
}

impl Form<'_> {
    /// Every thing with its inputs, and buttons to move it, remove it, and add one.
    pub(super) fn draw_list<T: Default>(
        &mut self,
        label: &'static Label,
        value: &mut Vec<T>,
        item: impl Fn(&mut T, &mut Self),
    ) {
        let path = self.path(label.key);
        if !self.wanted(&path) {
            return;
        }
        let mut removed = None;
        let mut swapped = None;
        let last = value.len().saturating_sub(1);
        for (row, one) in value.iter_mut().enumerate() {
            let key = format!("{}[{}]", label.key, row + 1);
            let own = self.path(&key);
            let name = format!("{} {}", label.label, row + 1);
            let open = (path == FOLDED).then(|| self.is_unfolded(&own));
            let words = self.leg(row).filter(|_| open.is_some()).map(|leg| format!("{}: {leg}", row + 1));
            let (clicked, change) = self.heading_with_changes(&name, words, open, (row > 0, row < last));
            let open = open.map(|open| self.unfold(&own, open != clicked));
            match change {
                Some(Change::Remove) => removed = Some(row),
                Some(Change::Up) => swapped = row.checked_sub(1),
                Some(Change::Down) => swapped = Some(row),
                None => {}
            }
            self.within(key, open == Some(false), |form| item(one, form));
        }
        if let Some(row) = swapped.filter(|row| row + 1 < value.len()) {
            value.swap(row, row + 1);
            // What was open stays open where it went.
            let [one, next] = [1, 2].map(|after| self.path(&format!("{}[{}]", label.key, row + after)));
            let (open, below) = (self.is_unfolded(&one), self.is_unfolded(&next));
            self.unfold(&one, below);
            self.unfold(&next, open);
            self.commit();
        }
        if let Some(row) = removed {
            value.remove(row);
            for row in row..value.len() {
                let [one, next] = [1, 2].map(|after| self.path(&format!("{}[{}]", label.key, row + after)));
                self.unfold(&one, self.is_unfolded(&next));
            }
            self.commit();
        }
        if self.ui.button(format!("Add {}", label.label.to_lowercase())).on_hover_text(label.help).clicked() {
            value.push(T::default());
            self.unfold(&format!("{path}[{}]", value.len()), true);
            self.commit();
        }
    }

    /// A heading, to fold by where `open` tells, and the buttons that move what follows in its list or remove it.
    fn heading_with_changes(
        &mut self,
        name: &str,
        words: Option<String>,
        open: Option<bool>,
        (up, down): (bool, bool),
    ) -> (bool, Option<Change>) {
        if open.is_none() {
            self.ui.add_space(space::TIGHT);
        }
        let quiet = Tokens::here(self.ui).quiet;
        let row = |ui: &mut Ui| {
            let mut clicked = false;
            if let Some(open) = open {
                // The buttons of all rows stand below one another.
                let room = vec2(ui.available_width() - BUTTONS, size::BOX);
                ui.allocate_ui_with_layout(room, Layout::left_to_right(Align::Center), |ui| {
                    ui.set_min_width(room.x);
                    let words = words.as_deref().unwrap_or(name);
                    // The name may be longer than its room.
                    clicked = fold_button(ui, open, (words, name), &format!("{words}\nShow or hide its inputs"));
                });
            } else {
                ui.label(RichText::new(name).color(quiet));
            }
            let mut change = None;
            for (enabled, sign, word, which) in [(up, "↑", "up", Change::Up), (down, "↓", "down", Change::Down)] {
                let button = Button::new(sign).frame(false).min_size(vec2(20.0, size::BOX));
                let response = ui.add_enabled(enabled, button).on_hover_text(format!("Move {word}"));
                if response.accessible_name(format!("Move {name} {word}")).clicked() {
                    change = Some(which);
                }
            }
            (clicked, if remove_button(ui, name) { Some(Change::Remove) } else { change })
        };
        self.ui.horizontal(row).inner
    }
}
