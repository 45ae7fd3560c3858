//! The verdicts of a part in full: state, margin, limit, reason, and what would mend it.

use crate::quantity::UnitSystem;
use crate::study::{Answers, Part, Verdict};
use crate::window::kit::{paint_mark, strong};
use crate::window::strip::look;
use crate::window::tokens::{Tokens, size, space};
use egui::{CornerRadius, Frame, Label, Margin, Sense, Ui, vec2};

pub(super) fn show(ui: &mut Ui, answers: &Answers, part: Option<Part>, system: UnitSystem) {
    for verdict in answers.verdicts.iter().filter(|verdict| Some(verdict.part) == part) {
        one(ui, verdict, system);
    }
}

fn one(ui: &mut Ui, verdict: &Verdict, system: UnitSystem) {
    let tokens = Tokens::here(ui);
    Frame::new()
        .fill(tokens.card)
        .stroke(tokens.hairline())
        .corner_radius(CornerRadius::same(size::ROUND))
        .inner_margin(Margin::same(10))
        .show(ui, |ui| {
            ui.set_width(ui.available_width());
            ui.spacing_mut().item_spacing.y = space::TIGHT;
            ui.horizontal(|ui| {
                let (place, _) = ui.allocate_exact_size(vec2(size::MARK, size::MARK + 4.0), Sense::hover());
                paint_mark(ui.painter(), place.center(), size::MARK, look(verdict.state).mark(), tokens);
                ui.label(strong(verdict.title, size::BODY));
                ui.label(verdict.state.word());
            });
            let mend = verdict.mend.clone().unwrap_or_default();
            let lines = [
                ("Margin", &verdict.margin),
                ("Limit", &verdict.limit),
                ("Why", &verdict.reason),
                ("What would mend it", &mend),
            ];
            for (what, sentence) in lines {
                if !sentence.is_empty() {
                    let mut job = egui::text::LayoutJob::default();
                    let format = |colour| egui::TextFormat {
                        font_id: egui::FontId::proportional(size::BODY),
                        color: colour,
                        ..Default::default()
                    };
                    job.append(&format!("{what}: "), 0.0, format(tokens.quiet));
                    job.append(&sentence.show(system), 0.0, format(tokens.ink));
                    ui.add(Label::new(job).wrap().selectable(true));
                }
            }
        });
    ui.add_space(space::TIGHT);
}
