//! The verdicts of a part: a line each, and on demand the limit, the reason and what would mend it.

use crate::quantity::UnitSystem;
use crate::study::{Part, Verdict};
use crate::window::kit::{paint_mark, strong};
use crate::window::strip::look;
use crate::window::tokens::{Tokens, size, space};
use egui::{Button, CornerRadius, Frame, Label, Margin, Sense, Ui, vec2};

/// Draws them. `explained` is the key of the one that is open; a click changes it.
pub(super) fn show(
    ui: &mut Ui,
    verdicts: &[Verdict],
    part: Option<Part>,
    system: UnitSystem,
    explained: &mut Option<&'static str>,
) {
    ui.spacing_mut().item_spacing.y = space::TIGHT;
    for verdict in verdicts.iter().filter(|verdict| Some(verdict.part) == part) {
        one(ui, verdict, system, explained);
    }
}

fn one(ui: &mut Ui, verdict: &Verdict, system: UnitSystem, explained: &mut Option<&'static str>) {
    let tokens = Tokens::here(ui);
    let open = *explained == Some(verdict.key);
    Frame::new()
        .fill(tokens.card)
        .stroke(tokens.hairline())
        .corner_radius(CornerRadius::same(size::ROUND))
        .inner_margin(Margin::symmetric(10, 1))
        .show(ui, |ui| {
            ui.set_width(ui.available_width());
            ui.spacing_mut().item_spacing.y = space::TIGHT;
            ui.horizontal(|ui| {
                let (place, _) = ui.allocate_exact_size(vec2(size::MARK, size::MARK + 4.0), Sense::hover());
                paint_mark(ui.painter(), place.center(), size::MARK, look(verdict.state).mark(), tokens);
                let words = format!("{}: {} {}", verdict.title, verdict.state.word(), if open { "▾" } else { "▸" });
                let response = ui.add(Button::new(strong(words, size::BODY)).frame(false).truncate());
                let name = format!("Why {} {}", verdict.title, verdict.state.word());
                response.widget_info(|| egui::WidgetInfo::labeled(egui::Role::Button, true, &name));
                ui.ctx().accesskit_node_builder(response.id, |node| node.set_expanded(open));
                if response.on_hover_text("Limit, reason, and what would mend it").clicked() {
                    *explained = if open { None } else { Some(verdict.key) };
                }
            });
            if open {
                in_full(ui, verdict, system);
                ui.add_space(space::TIGHT);
            }
        });
}

fn in_full(ui: &mut Ui, verdict: &Verdict, system: UnitSystem) {
    let tokens = Tokens::here(ui);
    let mend = verdict.mend.clone().unwrap_or_default();
    for (what, sentence) in [
        ("Margin", &verdict.margin),
        ("Limit", &verdict.limit),
        ("Why", &verdict.reason),
        ("What would mend it", &mend),
    ] {
        if sentence.is_empty() {
            continue;
        }
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
