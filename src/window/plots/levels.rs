//! Blow-by by every level of knowledge, side by side, and what to measure to know it better.

use super::ink::lower;
use crate::crankcase::blow_by::standard_volume_flow;
use crate::quantity::{Amount, Kind, Measured, UnitSystem};
use crate::study::{Answers, Duty, DutyAnswers, LevelAnswer, Moment};
use crate::window::kit::{PlotAxis, Span, SpanChart};
use crate::window::tokens::Tokens;
use egui::{Id, Label, Ui};

/// Shows them for the moment chosen; with the engine at rest, for full throttle.
pub(crate) fn show(ui: &mut Ui, answers: &Answers, moment: Moment, system: UnitSystem) {
    let duty = if let Moment::Driving(duty) = moment { duty } else { Duty::FullThrottle };
    let Some(duty) = answers.duties.get(duty.index()) else { return };
    let tokens = Tokens::here(ui);
    let spans: Vec<Span> = duty
        .blow_by
        .levels
        .iter()
        .map(|level| {
            let used = level.knowledge == duty.blow_by.knowledge;
            let [low, likely, high] = flows(level);
            let name = format!("{}{}", level.knowledge.name(), if used { ": used" } else { "" });
            Span { name, low, likely: Some(likely), high, counts: used, hollow: false }
        })
        .collect();
    let summary = sentence(duty, system);
    let title = format!("Blow-by as it is known, {}", lower(duty.duty.name()));
    let axis = PlotAxis::new("Gas flow", Kind::GasVolumeFlow, system);
    SpanChart::new(
        Id::unique("blow-by levels"),
        &title,
        axis,
        "what it is known from",
        &spans,
        (tokens.gas, tokens.gas_wash),
    )
    .summary(summary.as_str())
    .show(ui);
    ui.add(Label::new(&summary).wrap().selectable(true));
    let advice = answers.narrow.advice().show(system);
    ui.add(Label::new(format!("What to measure: {advice}.")).wrap().selectable(true));
}

/// Low, likely and high as volume at 20 °C and 101.325 kPa.
fn flows(level: &LevelAnswer) -> [f64; 3] {
    let forward = level.forward;
    [forward.low, forward.likely, forward.high].map(|flow| standard_volume_flow(flow).base())
}

/// All levels in a sentence.
fn sentence(duty: &DutyAnswers, system: UnitSystem) -> String {
    let told = |level: &LevelAnswer| {
        let [low, likely, high] = flows(level).map(|flow| Amount::new(flow, Kind::GasVolumeFlow));
        let name = level.knowledge.name();
        format!("{name} {} ({} to {})", likely.show(system), low.show_number(system), high.show_number(system))
    };
    let all: Vec<String> = duty.blow_by.levels.iter().map(told).collect();
    let used = if all.len() > 1 { format!(" Used: {}.", duty.blow_by.knowledge.name()) } else { String::new() };
    format!("{}: {}.{used}", duty.duty.name(), all.join("; "))
}
