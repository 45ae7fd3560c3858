//! The torques a joint may be given, as bars, with the torque to aim at and the one used.

use super::ink::{self, Look};
use crate::quantity::si::Torque;
use crate::quantity::{Amount, Kind, Measured, UnitSystem};
use crate::study::JointAnswers;
use crate::window::kit::{PlotAxis, Span, SpanChart, SpanMark};
use crate::window::tokens::Tokens;
use egui::{Id, Label, Ui};

/// Shows the window of torque.
pub(super) fn window(ui: &mut Ui, joint: &JointAnswers, system: UnitSystem) {
    let tokens = Tokens::here(ui);
    let most = &joint.window.most;
    let Some(least) = &joint.window.least else {
        super::nothing(ui, "the flange bows off the gasket between the screws, so no torque seats the middle.");
        return;
    };
    let told = |torque: Torque| Amount::of(torque).show(system);
    let span = |what: &str, low: Torque, high: Torque, counts: bool| {
        let words = if low > high { "no torque".to_owned() } else { format!("{} to {}", told(low), told(high)) };
        Span {
            name: format!("{what}: {words}"),
            low: low.base(),
            likely: None,
            high: high.base(),
            counts,
            hollow: false,
        }
    };
    let spans = [
        span("safe, every figure at its worse end", least.high, most.low, true),
        span("at the likely figures", least.likely, most.likely, false),
    ];
    let mut marks = Vec::new();
    let mut key = Vec::new();
    if let Some(aim) = joint.window.aim {
        marks.push(SpanMark { at: aim.base(), colour: tokens.holds, dashed: true });
        key.push((format!("aim at {}", told(aim)), Look::Dashed(tokens.holds)));
    }
    if let Some(used) = joint.torque {
        marks.push(SpanMark { at: used.base(), colour: tokens.hot, dashed: false });
        key.push((format!("used {}", told(used)), Look::Solid(tokens.hot)));
    }
    let told_of = |span: &Span| span.name.clone();
    let marked: Vec<String> = key.iter().map(|(words, _)| words.clone()).collect();
    let marked = if marked.is_empty() { String::new() } else { format!(" Marked: {}.", marked.join(", ")) };
    let summary = format!(
        "Less leaves the gasket unseated, more harms thread, screw or gasket. {}.",
        spans.iter().map(told_of).collect::<Vec<_>>().join("; ")
    ) + &marked;
    let axis = PlotAxis::new("Torque of a screw", Kind::Torque, system);
    let colours = (tokens.coolant, tokens.coolant_wash);
    SpanChart::new(
        Id::unique("torque window"),
        "Torque that may be used",
        axis,
        "how sure the figures are",
        &spans,
        colours,
    )
    .marks(&marks)
    .summary(summary)
    .show(ui);
    ink::key(ui, &key);
    let words = "Less than the bar leaves the gasket unseated; more harms thread, screw or gasket.";
    ui.add(Label::new(words).wrap());
}
