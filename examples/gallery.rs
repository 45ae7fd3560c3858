//! Every widget of the kit on one page, for looking at: `cargo run --example gallery`, `-- dark` for the dark theme.

use coldmark::quantity::{Estimate, Kind, Measured, Range, UnitSystem, si};
use coldmark::scribe::{Scribe, Step, Writing};
use coldmark::source::DEFINITION;
use coldmark::window::{fonts, kit, tokens};
use eframe::egui::{self, Id};

const DIAMETER: Range =
    Range::new("the tank's inside diameter", Kind::Length, 0.06, 0.2, "measure inside, wall to wall");

struct Gallery {
    system: UnitSystem,
    diameter: f64,
    volume: f64,
    dead: Option<Estimate<si::Volume>>,
    cylinders: u32,
    shape: usize,
    name: String,
    vented: bool,
    duty: usize,
    writing: Writing,
}

fn litres(litres: f64) -> si::Volume {
    si::Volume::from_base(litres * 1e-3)
}

impl Default for Gallery {
    fn default() -> Self {
        let mut writing = Writing::default();
        writing.chapter("expansion", "expansion 0.601 L");
        writing.step(|| {
            Step::new("Coolant that leaves when the system warms up", "ΔV", "ΔV = V·(ρ₁/ρ₂ − 1)", &DEFINITION)
                .with("V", litres(15.0))
                .with_number("ρ₁/ρ₂", 1.04)
                .gives(litres(0.601))
        });
        Self {
            system: UnitSystem::Si,
            diameter: 0.114,
            volume: 0.0015,
            dead: None,
            cylinders: 8,
            shape: 0,
            name: "Grey coupé, invented example".to_owned(),
            vented: true,
            duty: 4,
            writing,
        }
    }
}

impl Gallery {
    fn inputs(&mut self, ui: &mut egui::Ui) {
        let system = self.system;
        let shapes = [(0, "upright cylinder"), (1, "lying cylinder"), (2, "box")];
        if let Some(shape) = kit::choice_field(ui, Id::unique("shape"), "Shape", &self.shape, &shapes).committed {
            self.shape = shape;
        }
        let diameter = kit::QuantityField::new(Id::unique("diameter"), "Inside diameter", Kind::Length, system)
            .value(Some(self.diameter))
            .range(&DIAMETER)
            .show(ui);
        self.diameter = diameter.committed.unwrap_or(self.diameter);
        let volume = kit::QuantityField::new(Id::unique("volume"), "Tank volume", Kind::Volume, system)
            .value(Some(self.volume))
            .hint("Fill it from a measuring jug.")
            .show(ui);
        self.volume = volume.committed.unwrap_or(self.volume);
        if let Some(default) = Estimate::new(litres(0.0), litres(0.1), litres(0.5)) {
            let dead =
                kit::EstimateField::new(Id::unique("dead"), "Air left in the system", Kind::Volume, system, default)
                    .value(self.dead)
                    .show(ui);
            if dead.cleared {
                self.dead = None;
            } else if dead.committed.is_some() {
                self.dead = dead.committed;
            }
        }
        let cylinders = kit::count_field(ui, Id::unique("cylinders"), "Cylinders", self.cylinders, 1..=16, "");
        self.cylinders = cylinders.committed.unwrap_or(self.cylinders);
        if let Some(name) = kit::text_field(ui, Id::unique("name"), "Name of the car", &self.name, "").committed {
            self.name = name;
        }
        self.vented =
            kit::switch(ui, Id::unique("vented"), "Vented to the air", self.vented).committed.unwrap_or(self.vented);
    }

    fn plot(&self, ui: &mut egui::Ui) {
        let tokens = tokens::Tokens::here(ui);
        let x = kit::PlotAxis::new("Coolant temperature", Kind::Temperature, self.system);
        let y = kit::PlotAxis::new("Level", Kind::Length, self.system);
        kit::PlotFrame::new(Id::unique("level"), "Level against coolant temperature", x, y)
            .legend(egui_plot::Corner::LeftTop)
            .include(293.15, 0.0)
            .summary("The level rises from 31 mm cold to 66 mm hot; the tank spills at 150 mm.")
            .show(ui, move |plot| {
                let level = |share: f64| 0.031 + 0.05 * share * share + 0.01 * share;
                let at = |step: u32| f64::from(step) / 40.0;
                let xs: Vec<f64> = (0..=40).map(|step| x.at(293.15 + 100.0 * at(step))).collect();
                let low: Vec<f64> = (0..=40).map(|step| y.at(0.9 * level(at(step)))).collect();
                let high: Vec<f64> = (0..=40).map(|step| y.at(1.15 * level(at(step)))).collect();
                let likely: Vec<[f64; 2]> =
                    xs.iter().enumerate().map(|(i, x)| [*x, (low[i] + high[i]) / 2.0]).collect();
                plot.add(egui_plot::FilledArea::new("low to high", &xs, &low, &high).fill_color(tokens.coolant_wash));
                plot.line(egui_plot::Line::new("likely", likely).color(tokens.coolant).width(tokens::weight::MEDIUM));
                plot.hline(
                    egui_plot::HLine::new("spills", y.at(0.11))
                        .color(tokens.hot)
                        .style(egui_plot::LineStyle::dashed_loose()),
                );
            });
    }
}

impl eframe::App for Gallery {
    fn ui(&mut self, ui: &mut egui::Ui, _frame: &mut eframe::Frame) {
        egui::Panel::bottom("verdicts").show(ui, |ui| {
            ui.columns(4, |columns| {
                let chips = [
                    (kit::Verdict::Holds, "Tank", "0.55 L to spare", "would still hold at 41 °C ambient"),
                    (kit::Verdict::Thin, "Dip tube", "2 mm cover at 0.8 g", "mend: cold mark 36 mm, 5 mm more"),
                    (kit::Verdict::DoesNotHold, "Crankcase", "+1.9 kPa", "mend: second hose 16 mm, or 19 mm bore"),
                    (kit::Verdict::NotKnown, "Radiator", "", "measure the air speed through it"),
                ];
                for (ui, (verdict, title, line, mend)) in columns.iter_mut().zip(chips) {
                    kit::VerdictChip::new(Id::unique(title), verdict, title, line).mend(mend).at_least(92.0).show(ui);
                }
            });
        });
        egui::CentralPanel::default().show(ui, |ui| {
            let duties = ["Cold morning", "Idle", "Cruise", "Hill", "Full throttle", "Overrun", "Hot stop"];
            ui.horizontal(|ui| {
                if let Some(duty) = kit::segments(ui, Id::unique("duty"), "Moment of the day", self.duty, &duties) {
                    self.duty = duty;
                }
                let us = usize::from(self.system == UnitSystem::Us);
                if let Some(chosen) = kit::segments(ui, Id::unique("units"), "Units", us, &["SI", "US"]) {
                    self.system = if chosen == 0 { UnitSystem::Si } else { UnitSystem::Us };
                }
            });
            ui.columns(2, |columns| {
                let tokens = tokens::Tokens::here(&columns[0]);
                kit::part_card(&mut columns[0], "Overflow tank", Some(tokens.coolant), |ui| self.inputs(ui));
                kit::caution_box(
                    &mut columns[0],
                    "Never open a cap or move the tank hose while the engine is hot: coolant flashes to steam and scalds.",
                );
                kit::part_card(&mut columns[1], "Level", None, |ui| {
                    self.plot(ui);
                    for chapter in &self.writing.chapters {
                        kit::working_view(ui, Id::unique(&chapter.key), chapter, self.system);
                    }
                });
            });
        });
    }
}

fn main() -> eframe::Result {
    let dark = std::env::args().any(|argument| argument == "dark");
    let options = eframe::NativeOptions {
        viewport: egui::ViewportBuilder::default().with_inner_size([1280.0, 800.0]),
        ..Default::default()
    };
    eframe::run_native(
        "Gallery",
        options,
        Box::new(move |context| {
            fonts::install(&context.egui_ctx);
            tokens::apply(&context.egui_ctx);
            context.egui_ctx.set_theme(if dark { egui::Theme::Dark } else { egui::Theme::Light });
            Ok(Box::new(Gallery::default()))
        }),
    )
}
