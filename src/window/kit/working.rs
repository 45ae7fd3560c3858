//! The working of an answer: what was asked, the equation, the numbers, the result, the source.

use super::card::strong;
use crate::quantity::UnitSystem;
use crate::scribe::{Chapter, Step};
use crate::source::Source;
use crate::window::tokens::{Tokens, size, space};
use egui::{CollapsingHeader, Id, Label, RichText, Ui};

/// A chapter of working, closed until somebody asks. Its texts can be marked and copied.
pub fn working_view(ui: &mut Ui, id: Id, chapter: &Chapter, system: UnitSystem) {
    let title = format!("Working: {}", chapter.title);
    CollapsingHeader::new(title).id_salt(id).show_unindented(ui, |ui| {
        for (index, step) in chapter.steps.iter().enumerate() {
            if index > 0 {
                ui.separator();
            }
            show_step(ui, index + 1, step, system);
        }
    });
}

fn show_step(ui: &mut Ui, number: usize, step: &Step, system: UnitSystem) {
    let tokens = Tokens::here(ui);
    ui.spacing_mut().item_spacing.y = space::TIGHT;
    let mut line = |text: RichText| {
        ui.add(Label::new(text).wrap().selectable(true));
    };
    line(RichText::new(format!("{number}. {}", step.meaning)).color(tokens.quiet));
    if !step.equation.is_empty() {
        line(RichText::new(equation(step)));
    }
    if !step.numbers.is_empty() {
        let numbers: Vec<String> =
            step.numbers.iter().map(|(symbol, amount)| format!("{symbol} = {}", amount.show(system))).collect();
        line(RichText::new(format!("with {}", numbers.join(", "))));
    }
    line(strong(format!("{} = {}", step.symbol, step.result.show(system)), size::BODY));
    line(RichText::new(source(step.source)).size(size::SMALL).color(tokens.quiet));
}

/// The source with how much it can carry, once where both say the same.
fn source(source: &Source) -> String {
    let words = source.standing.words();
    if source.title.eq_ignore_ascii_case(words) {
        format!("Source: {words}")
    } else {
        format!("Source: {} ({words})", source.title)
    }
}

/// "ΔV = V₂ − V₁", also where the step names only the right-hand side.
fn equation(step: &Step) -> String {
    let complete = step.symbol.is_empty() || step.equation.contains(['=', '≤', '≥']);
    if complete { step.equation.to_owned() } else { format!("{} = {}", step.symbol, step.equation) }
}
