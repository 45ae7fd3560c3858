//! What if a part fails: a row for each failure, a column for each duty.

use super::table::capital;
use crate::quantity::{Amount, Kind, Measured, UnitSystem};
use crate::study::{Answers, Duty, Failure, FailureAnswers, FailureDuty, Part, Stands};
use crate::window::kit::{Mark, heading, paint_mark, strong};
use crate::window::strip::look;
use crate::window::tokens::{Tokens, size, space};
use egui::{Label, RichText, Sense, Ui, WidgetInfo, vec2};

/// Shows what a part's failures do.
pub(super) fn show(ui: &mut Ui, answers: &Answers, part: Part, system: UnitSystem) {
    let own = |failure: &&FailureAnswers| match part {
        Part::Valve => answers.valve.is_some(),
        Part::Breather => failure.failure == Failure::BreatherBlocked,
        _ => false,
    };
    let failures: Vec<_> = answers.failures.iter().filter(own).collect();
    if failures.is_empty() {
        return;
    }
    let tokens = Tokens::here(ui);
    ui.add_space(space::ROW);
    heading(ui, "What if it fails", size::BODY);
    for failure in failures {
        ui.label(strong(capital(failure.failure.name()), size::BODY));
        ui.columns(Duty::ALL.len(), |columns| {
            for (column, at) in columns.iter_mut().zip(&failure.duties) {
                cell(column, failure.failure, at, system);
            }
        });
        ui.add(Label::new(RichText::new(sentence(failure, system)).color(tokens.quiet)).wrap().selectable(true));
        ui.add_space(space::TIGHT);
    }
}

/// One duty: its name, mark and word, and the pressure.
fn cell(ui: &mut Ui, failure: Failure, at: &FailureDuty, system: UnitSystem) {
    let tokens = Tokens::here(ui);
    let state = look(at.state);
    let stands = stands(at, system);
    ui.spacing_mut().item_spacing = vec2(space::TIGHT, 1.0);
    let place = ui
        .vertical(|ui| {
            ui.add(Label::new(RichText::new(at.duty.name()).small().color(tokens.quiet)).wrap());
            ui.horizontal(|ui| {
                let (place, _) = ui.allocate_exact_size(vec2(size::MARK, size::MARK + 4.0), Sense::hover());
                paint_mark(ui.painter(), place.center(), size::MARK - 2.0, mark(at), tokens);
                ui.add(Label::new(RichText::new(state.word()).small()).wrap());
            });
            ui.add(Label::new(RichText::new(&stands).small()).wrap());
        })
        .response;
    let name = format!("{}, {}: {}, {stands}", failure.name(), at.duty.name(), state.word());
    place.widget_info(|| WidgetInfo::labeled(egui::Role::Label, true, &name));
}

fn mark(at: &FailureDuty) -> Mark {
    look(at.state).mark()
}

/// Where the crankcase stands, in a few words.
fn stands(at: &FailureDuty, system: UnitSystem) -> String {
    match &at.stands {
        Stands::At(case) if case.beyond_seals() => {
            format!("{} beyond seals", if case.gauge.base() > 0.0 { "pressure" } else { "depression" })
        }
        Stands::At(case) => Amount::of_kind(case.gauge, Kind::CrankcasePressure).show(system),
        Stands::NoWayOut => "no way out".to_owned(),
        Stands::NoWayIn => "no way in".to_owned(),
        Stands::NotKnown(_) => "no answer".to_owned(),
    }
}

/// Where it is worst, and why nothing is known where it is not.
fn sentence(failure: &FailureAnswers, system: UnitSystem) -> String {
    let worst = failure.worst();
    let mut words = format!("Worst: {}, {}, {}.", worst.duty.name(), look(worst.state).word(), stands(worst, system));
    if let Some(why) =
        failure.duties.iter().find_map(|at| if let Stands::NotKnown(why) = &at.stands { Some(why) } else { None })
    {
        words.push_str(&format!(" No answer where {why}."));
    }
    words
}
