//! The drawing alone, for looking at. `cargo run --example drawing -- [dark] [us] [moment 0 to 6] [preset words …]`:
//! the demo project, changed by every preset whose key begins with one of the words.

use coldmark::quantity::UnitSystem;
use coldmark::study::{Answers, Curves, Moment, Part, Project, VentilationArrangement, answer, curves};
use coldmark::window::{drawing, fonts, plots, tokens};
use eframe::egui;

struct Look {
    project: Project,
    answers: Answers,
    curves: Option<Curves>,
    moment: Moment,
    chosen: Option<Part>,
    system: UnitSystem,
}

impl eframe::App for Look {
    fn ui(&mut self, ui: &mut egui::Ui, _frame: &mut eframe::Frame) {
        egui::Panel::top("moments").show(ui, |ui| {
            let names: Vec<&str> = Moment::ALL.iter().map(|moment| moment.name()).collect();
            let now = Moment::ALL.iter().position(|moment| *moment == self.moment).unwrap_or(0);
            let id = egui::Id::unique("moment");
            if let Some(next) = coldmark::window::kit::segments(ui, id, "Moment", now, &names) {
                self.moment = Moment::ALL[next];
            }
        });
        egui::Panel::right("part").default_size(380.0).show(ui, |ui| {
            egui::ScrollArea::vertical().show(ui, |ui| {
                let part = self.chosen.unwrap_or(Part::Tank);
                ui.heading(part.name());
                plots::show_for(ui, part, &self.project, &self.answers, self.curves.as_ref(), self.moment, self.system);
            });
        });
        egui::CentralPanel::default().show(ui, |ui| {
            drawing::show(ui, &self.project, &self.answers, self.moment, &mut self.chosen, self.system);
        });
    }
}

fn main() -> eframe::Result {
    let words: Vec<String> = std::env::args().skip(1).collect();
    let has = |word: &str| words.iter().any(|given| given == word);
    let mut project = coldmark::file::demo();
    for word in &words {
        for preset in &coldmark::file::presets().presets {
            if preset.key.starts_with(word.as_str()) {
                preset.apply(&mut project);
            }
        }
    }
    if has("valve-only") {
        project.ventilation.arrangement = VentilationArrangement::ValveOnly;
    }
    let answers = match answer(&project) {
        Ok(answers) => answers,
        Err(problems) => return Err(eframe::Error::AppCreation(format!("{problems:?}").into())),
    };
    let size = if has("large") { [1920.0, 1080.0] } else { [1280.0, 800.0] };
    let options = eframe::NativeOptions {
        viewport: egui::ViewportBuilder::default().with_inner_size(size),
        ..Default::default()
    };
    let moment = words.iter().find_map(|word| word.parse::<usize>().ok()).and_then(|at| Moment::ALL.get(at).copied());
    let chosen = Part::ALL.into_iter().find(|part| has(&part.name().to_lowercase().replace(' ', "-")));
    let look = Look {
        curves: curves(&project).ok(),
        project,
        answers,
        moment: moment.unwrap_or(Moment::ALL[4]),
        chosen,
        system: if has("us") { UnitSystem::Us } else { UnitSystem::Si },
    };
    let dark = has("dark");
    eframe::run_native(
        "Drawing",
        options,
        Box::new(move |context| {
            fonts::install(&context.egui_ctx);
            tokens::apply(&context.egui_ctx);
            context.egui_ctx.set_theme(if dark { egui::Theme::Dark } else { egui::Theme::Light });
            Ok(Box::new(look))
        }),
    )
}
