//! One event of a day as a row: its time in a column, its words as loud as they weigh.

use crate::day::Event;
use crate::quantity::{Measured, UnitSystem};
use crate::study::DayAnswers;
use crate::window::fonts::strong_family;
use crate::window::inspector::capital;
use crate::window::kit::{Mark, clock, paint_mark};
use crate::window::tokens::{Tokens, size, space, weight};
use egui::{CornerRadius, FontId, Id, Role, Sense, Stroke, StrokeKind, Ui, WidgetInfo, pos2, vec2};

/// An event in words.
pub(super) struct Happened {
    /// When, s.
    pub(super) time: f64,
    words: String,
    grave: bool,
    slight: bool,
}

/// Room for the time.
const TIME: f32 = 42.0;
/// Above and below the words.
const AROUND: f32 = 4.0;

impl Happened {
    pub(super) fn new(day: &DayAnswers, event: &Event, system: UnitSystem) -> Self {
        Self {
            time: event.time.base(),
            words: capital(&day.event_words(event).show(system)),
            grave: event.kind.is_grave(),
            slight: event.kind.is_slight(),
        }
    }

    /// Shows it; answers whether somebody wants to go there. `last`: it is the last one before the time chosen.
    pub(super) fn show(&self, ui: &mut Ui, index: usize, last: bool) -> bool {
        let tokens = Tokens::here(ui);
        let width = ui.available_width();
        let (font, colour) = if self.grave {
            (FontId::new(size::BODY, strong_family()), tokens.fault)
        } else if self.slight {
            (FontId::proportional(size::SMALL), tokens.quiet)
        } else {
            (FontId::proportional(size::BODY), tokens.ink)
        };
        let left = space::ROW + TIME;
        let time = clock(self.time);
        let words = ui.painter().layout(self.words.clone(), font, colour, (width - left - space::TIGHT).max(40.0));
        let (place, _) = ui.allocate_exact_size(vec2(width, words.size().y + 2.0 * AROUND), Sense::hover());
        let response = ui.interact(place, Id::unique(("event", index)), Sense::click());
        let name = format!("{time}  {}", self.words);
        response.widget_info(|| WidgetInfo::selected(Role::Button, ui.is_enabled(), last, &name));
        let edge = if response.has_focus() {
            Stroke::new(weight::MEDIUM, tokens.focus)
        } else if last {
            Stroke::new(weight::THIN, tokens.ink)
        } else if response.hovered() {
            Stroke::new(weight::THIN, tokens.quiet)
        } else {
            Stroke::NONE
        };
        let fill = if last { tokens.card } else { egui::Color32::TRANSPARENT };
        let painter = ui.painter();
        painter.rect(place, CornerRadius::same(size::ROUND), fill, edge, StrokeKind::Inside);
        let stamp = painter.layout_no_wrap(time, FontId::proportional(size::SMALL), tokens.quiet);
        // On the line of the first row of words.
        let row = words.rows.first().map_or(size::BODY, |row| row.height());
        let y = place.top() + AROUND + (row - stamp.size().y) / 2.0;
        if self.grave {
            let mark = pos2(place.left() + 1.0, place.top() + AROUND + row / 2.0);
            paint_mark(painter, mark + vec2(size::SMALL / 2.0, 0.0), size::SMALL, Mark::Triangle, tokens);
        }
        painter.galley(pos2(place.left() + left - space::ROW - stamp.size().x, y), stamp, tokens.quiet);
        painter.galley(place.left_top() + vec2(left, AROUND), words, colour);
        if response.gained_focus() {
            response.scroll_to_me(None);
        }
        response.on_hover_text("Go to this time").clicked()
    }
}
