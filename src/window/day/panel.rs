//! The panel beside a day: what happened and when, stops of the hot engine, the worst, the books.

use super::{DaySubject, DayView};
use crate::note::Weight;
use crate::quantity::Measured;
use crate::quantity::si::Time;
use crate::window::inspector::show_section;
use crate::window::kit::{caution_box, heading};
use crate::window::tokens::{Tokens, size, space};
use egui::{CollapsingHeader, Label, RichText, Ui};

/// What a hot stop can do to somebody.
const HOT_STOP: &str = "Never open the cap or a hose after a stop until the engine is cold to the hand: the coolant goes on \
                        heating and the pressure rising. A fan may start by itself.";

/// Shows it.
pub fn show(ui: &mut Ui, subject: DaySubject<'_>, view: &mut DayView) {
    view.kept(&subject);
    caution_box(ui, HOT_STOP);
    ui.add_space(space::TIGHT);
    let tokens = Tokens::here(ui);
    if let Some(why) = &subject.day.drive.cut_short {
        let words = format!("The day could not be followed to its end: {why}");
        ui.add(Label::new(RichText::new(words).color(tokens.fault)).wrap().selectable(true));
    }
    ui.add(Label::new(subject.day.says_tank().show(subject.system)).wrap().selectable(true));
    ui.add_space(space::ROW);
    if let Some(to) = events(ui, view) {
        view.go_to(Time::from_base(to));
        ui.ctx().request_repaint();
    }
    let Some(kept) = &view.kept else { return };
    for section in &kept.sections {
        if section.aside || section.key == "day_legs" {
            CollapsingHeader::new(section.title.as_str()).id_salt(("day", &section.key)).show_unindented(ui, |ui| {
                show_section(ui, section, subject.system);
            });
        } else {
            show_section(ui, section, subject.system);
        }
    }
    for note in &subject.day.notes {
        if note.weight == Weight::Danger {
            caution_box(ui, &note.text);
        } else {
            ui.add(Label::new(RichText::new(&note.text).color(tokens.quiet)).wrap().selectable(true));
        }
    }
}

/// Every event with its time; a click goes there.
fn events(ui: &mut Ui, view: &DayView) -> Option<f64> {
    let kept = view.kept.as_ref()?;
    heading(ui, "What happened", size::BODY);
    if kept.events.is_empty() {
        ui.label(RichText::new("Nothing worth naming.").color(Tokens::here(ui).quiet));
    }
    let last = kept.events.iter().rposition(|event| event.time <= view.now);
    let mut go = None;
    ui.scope(|ui| {
        ui.spacing_mut().item_spacing.y = 0.0;
        for (index, event) in kept.events.iter().enumerate() {
            if event.show(ui, index, last == Some(index)) {
                go = Some(event.time);
            }
        }
    });
    go
}
