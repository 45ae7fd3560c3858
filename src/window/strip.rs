//! The strip of verdicts along the bottom, the worst first; a click goes to the part.

use super::app::{App, Command};
use super::kit::{Verdict as Look, VerdictChip, heading};
use super::tokens::{Tokens, size, space};
use crate::study::{State, Verdict};
use egui::scroll_area::ScrollBarVisibility;
use egui::{Id, Layout, RichText, ScrollArea, Ui, vec2};

pub(super) const fn look(state: State) -> Look {
    match state {
        State::Holds => Look::Holds,
        State::Thin => Look::Thin,
        State::DoesNotHold => Look::DoesNotHold,
        State::NotKnown => Look::NotKnown,
    }
}

/// What needs a look comes first; within one state the order of the study is kept.
pub(super) const fn urgency(state: State) -> u8 {
    match state {
        State::DoesNotHold => 0,
        State::Thin => 1,
        State::NotKnown => 2,
        State::Holds => 3,
    }
}

/// "1 does not hold, 2 thin, 9 hold".
fn summary(verdicts: &[&Verdict]) -> String {
    let count = |state| verdicts.iter().filter(|verdict| verdict.state == state).count();
    let told = |(state, one, many): (State, &str, &str)| match count(state) {
        0 => None,
        1 => Some(format!("1 {one}")),
        more => Some(format!("{more} {many}")),
    };
    let kinds = [
        (State::DoesNotHold, "does not hold", "do not hold"),
        (State::Thin, "is thin", "are thin"),
        (State::NotKnown, "is not known", "are not known"),
        (State::Holds, "holds", "hold"),
    ];
    kinds.into_iter().filter_map(told).collect::<Vec<_>>().join(", ")
}

pub(super) fn show(ui: &mut Ui, app: &mut App, now: f64) {
    let tokens = Tokens::here(ui);
    let through_day = app.view.through_day;
    let Some(verdicts) = app.answering.verdicts(through_day) else {
        heading(ui, "What holds", size::BODY);
        let words = if app.answering.problems.is_some() { "No answers: see the list above." } else { "Computing…" };
        ui.label(RichText::new(words).color(tokens.quiet));
        ui.take_available_space();
        return;
    };
    let mut verdicts: Vec<&Verdict> = verdicts.iter().collect();
    verdicts.sort_by_key(|verdict| urgency(verdict.state));
    ui.horizontal(|ui| {
        heading(ui, "What holds", size::BODY);
        let old = if app.answering.problems.is_some() { "before the last change: " } else { "" };
        ui.label(RichText::new(format!("{old}{}", summary(&verdicts))).color(tokens.quiet));
    });
    let mut go = None;
    ScrollArea::vertical()
        .id_salt("verdicts")
        .auto_shrink(false)
        .scroll_bar_visibility(ScrollBarVisibility::AlwaysVisible)
        .show(ui, |ui| {
            if app.answering.is_stale(now)
                || (through_day && app.answering.day.answers.is_some() && app.answering.is_day_stale(now))
            {
                ui.multiply_opacity(0.5);
            }
            let room = ui.available_width() - space::CARD;
            let columns = ((room / 240.0).floor() as usize).clamp(1, verdicts.len().max(1));
            let width = (room - space::ROW * (columns - 1) as f32) / columns as f32;
            for row in verdicts.chunks(columns) {
                ui.horizontal_top(|ui| {
                    for verdict in row {
                        ui.allocate_ui_with_layout(vec2(width, 0.0), Layout::top_down(egui::Align::Min), |ui| {
                            ui.set_width(width);
                            if chip(ui, verdict, app) {
                                go = Some((verdict.part, verdict.key));
                            }
                        });
                    }
                });
            }
        });
    if let Some((part, key)) = go {
        app.command(Command::Explain(part, key));
    }
}

fn chip(ui: &mut Ui, verdict: &Verdict, app: &App) -> bool {
    let units = app.view.units;
    let line = verdict.margin.show(units);
    // The day needs the height; what would mend it is told where the verdict leads.
    let (tag, mend) = if app.view.through_day {
        (app.answering.ruled(verdict).unwrap_or_default(), String::new())
    } else {
        ("", verdict.mend.as_ref().map(|mend| format!("mend: {}", mend.show(units))).unwrap_or_default())
    };
    let response = VerdictChip::new(Id::unique(("verdict", verdict.key)), look(verdict.state), verdict.title, &line)
        .tag(tag)
        .mend(&mend)
        .chosen(app.view.part == Some(verdict.part))
        .show(ui);
    if response.gained_focus() {
        response.scroll_to_me(None);
    }
    response.clicked()
}
