//! Whether the day holds, at a glance: four figures with the mark of their verdict; a click goes to their time.

use super::DaySubject;
use crate::day::{Drive, ExtremeOf, Sample};
use crate::quantity::{Amount, Kind, Measured};
use crate::study::{DayAnswers, State, Verdict};
use crate::window::fonts::strong_family;
use crate::window::kit::{clock, paint_mark};
use crate::window::strip;
use crate::window::tokens::{Tokens, size, space, weight};
use egui::text::{LayoutJob, TextWrapping};
use egui::{Color32, CornerRadius, FontId, Id, Rect, Role, Sense, Stroke, StrokeKind, Ui, WidgetInfo, pos2, vec2};

/// One figure that decides about the day.
pub(super) struct Glance {
    title: &'static str,
    /// At the likely values: "107 °C".
    value: String,
    /// What it is held against: "lid 220 mm".
    against: String,
    /// At the unfavourable end.
    beside: String,
    /// When, s.
    at: Option<f64>,
    state: State,
    /// Why its mark is what it is.
    why: String,
}

/// Height of one figure.
const HIGH: f32 = 46.0;
/// A figure narrower than this cannot be read; they then stand in two rows.
const LEAST: f32 = 176.0;

/// The room they take in a view of a width.
pub(super) fn height(width: f32) -> f32 {
    let rows = 4_usize.div_ceil(columns(width)) as f32;
    rows * HIGH + (rows - 1.0) * space::TIGHT + space::ROW
}

fn columns(width: f32) -> usize {
    if width >= 4.0 * LEAST + 3.0 * space::ROW { 4 } else { 2 }
}

/// The figures of a day.
pub(super) fn of(subject: &DaySubject<'_>) -> Vec<Glance> {
    vec![
        extreme(subject, "Hottest coolant", ExtremeOf::Coolant, &["cooling"]),
        extreme(subject, "Least below boiling", ExtremeOf::Margin, &["boiling", "hot_stop"]),
        fullest(subject),
        lost(subject),
    ]
}

/// The worse of the verdicts with these keys, and why.
fn judged(subject: &DaySubject<'_>, keys: &[&str]) -> (State, String) {
    let all = subject.verdicts.iter().filter(|verdict| keys.contains(&verdict.key));
    let Some(worst) = all.min_by_key(|verdict| strip::urgency(verdict.state)) else {
        return (State::NotKnown, String::new());
    };
    (worst.state, told(worst, subject))
}

fn told(verdict: &Verdict, subject: &DaySubject<'_>) -> String {
    let margin = verdict.margin.show(subject.system);
    format!("{}: {}, {margin}; {}", verdict.title, verdict.state.word(), verdict.reason.show(subject.system))
}

fn sample_of(drive: &Drive, of: ExtremeOf) -> Option<&Sample> {
    let found = drive.extremes.iter().find(|extreme| extreme.of == of)?;
    drive.samples.get(found.sample)
}

fn extreme(subject: &DaySubject<'_>, title: &'static str, of: ExtremeOf, keys: &[&str]) -> Glance {
    let system = subject.system;
    let (state, why) = judged(subject, keys);
    let Some(likely) = sample_of(&subject.day.drive, of) else {
        return Glance { title, state, why, ..Glance::unknown() };
    };
    let pushed = sample_of(&subject.day.unfavourable, of);
    let beside = pushed.map(|sample| format!("at worst {}", of.amount(sample).show(system)));
    Glance {
        title,
        value: of.amount(likely).show(system),
        against: String::new(),
        beside: beside.unwrap_or_default(),
        at: Some(likely.time.base()),
        state,
        why,
    }
}

/// The level where the shape tells it, else what the tank holds; against its lid.
fn fullest(subject: &DaySubject<'_>) -> Glance {
    let (day, system) = (subject.day, subject.system);
    let (state, why) = judged(subject, &["tank_volume", "air_cushion"]);
    let likely = sample_of(&day.drive, ExtremeOf::FullTank);
    let pushed = sample_of(&day.unfavourable, ExtremeOf::FullTank);
    let lid = subject.project.tank_height();
    let level = |sample: &Sample| sample.level.map(|level| Amount::of_kind(level, Kind::Length).show(system));
    let held = |sample: &Sample| Amount::of_kind(sample.in_tank, Kind::Volume).show(system);
    let at = likely.map(|sample| sample.time.base());
    match (likely, likely.and_then(level), lid) {
        (_, Some(value), Some(lid)) => {
            let beside = pushed.and_then(level).map(|level| format!("at worst {level}")).unwrap_or_default();
            let against = format!("lid {}", Amount::new(lid, Kind::Length).show(system));
            Glance { title: "Highest level", value, against, beside, at, state, why }
        }
        (Some(sample), ..) => {
            let beside = pushed.map(|pushed| format!("at worst {}", held(pushed))).unwrap_or_default();
            let against = format!("holds {}", Amount::of_kind(day.capacity, Kind::Volume).show(system));
            Glance { title: "Fullest tank", value: held(sample), against, beside, at, state, why }
        }
        (None, ..) => Glance { title: "Highest level", state, why, ..Glance::unknown() },
    }
}

fn lost(subject: &DaySubject<'_>) -> Glance {
    let last = |drive: &Drive| drive.samples.last().and_then(|sample| DayAnswers::told_lost(sample.lost));
    let [likely, pushed] = [&subject.day.drive, &subject.day.unfavourable].map(last);
    let show = |lost: Option<Amount>| lost.map_or_else(|| "none".to_owned(), |lost| lost.show(subject.system));
    let (state, why) = match (likely.is_some(), pushed.is_some()) {
        (true, _) => (State::DoesNotHold, "Coolant is lost on this day, at the likely values already."),
        (false, true) => (State::Thin, "Coolant is lost at the unfavourable end alone."),
        (false, false) => (State::Holds, "Neither at the likely values nor at the unfavourable end is coolant lost."),
    };
    let first = subject.day.drive.samples.iter().find(|sample| DayAnswers::told_lost(sample.lost).is_some());
    Glance {
        title: "Coolant lost",
        against: String::new(),
        value: show(likely),
        beside: format!("at worst {}", show(pushed)),
        at: first.map(|sample| sample.time.base()),
        state,
        why: why.to_owned(),
    }
}

/// Shows them in the whole width; answers the time somebody wants to go to.
pub(super) fn show(ui: &mut Ui, all: &[Glance]) -> Option<f64> {
    let room = ui.available_width();
    let columns = columns(room);
    let width = (room - space::ROW * (columns as f32 - 1.0)) / columns as f32;
    let mut go = None;
    ui.scope(|ui| {
        ui.spacing_mut().item_spacing.y = space::TIGHT;
        for row in all.chunks(columns) {
            ui.horizontal(|ui| {
                for glance in row {
                    go = go.or(glance.show(ui, width));
                }
            });
        }
    });
    go
}

impl Glance {
    fn unknown() -> Self {
        let nothing = String::new;
        Self {
            title: "",
            value: "not known".to_owned(),
            against: nothing(),
            beside: nothing(),
            at: None,
            state: State::NotKnown,
            why: nothing(),
        }
    }

    /// Its title with as much of what belongs to it as fits.
    fn title(&self, ui: &Ui, when: &str, width: f32) -> std::sync::Arc<egui::Galley> {
        let colour = Tokens::here(ui).quiet;
        let set = |pieces: &[&str]| {
            let known: Vec<&str> = pieces.iter().copied().filter(|piece| !piece.is_empty()).collect();
            ui.painter().layout_no_wrap(known.join(", "), FontId::proportional(size::SMALL), colour)
        };
        let ways = [set(&[self.title, when, &self.against]), set(&[self.title, &self.against])];
        let fitting = ways.into_iter().find(|galley| galley.size().x <= width);
        fitting.unwrap_or_else(|| set(&[self.title]))
    }

    fn show(&self, ui: &mut Ui, width: f32) -> Option<f64> {
        let tokens = Tokens::here(ui);
        let (place, _) = ui.allocate_exact_size(vec2(width, HIGH), Sense::hover());
        let response = ui.interact(place, Id::unique(("glance", self.title)), Sense::click());
        let when = self.at.map(|at| format!("at {}", clock(at))).unwrap_or_default();
        let spoken =
            [self.value.as_str(), &when, &self.beside, &self.against].into_iter().filter(|words| !words.is_empty());
        let spoken = spoken.collect::<Vec<_>>().join(", ");
        let name = format!("{}: {spoken}; {}", self.title, self.state.word());
        response.widget_info(|| WidgetInfo::labeled(Role::Button, ui.is_enabled(), &name));
        let edge = if response.has_focus() {
            Stroke::new(weight::MEDIUM, tokens.focus)
        } else if response.hovered() && self.at.is_some() {
            Stroke::new(weight::THIN, tokens.quiet)
        } else {
            tokens.hairline()
        };
        let painter = ui.painter();
        painter.rect(place, CornerRadius::same(size::ROUND), tokens.card, edge, StrokeKind::Inside);
        let inside = place.shrink2(vec2(8.0, 5.0));
        let mark = pos2(inside.left() + size::MARK / 2.0, inside.top() + size::SMALL * 0.6);
        paint_mark(painter, mark, size::MARK, strip::look(self.state).mark(), tokens);
        let words = Rect::from_min_max(inside.min + vec2(size::MARK + 6.0, 0.0), inside.max);
        let plain = FontId::proportional(size::SMALL);
        painter.galley(words.min, self.title(ui, &when, words.width()), tokens.quiet);
        let strong = FontId::new(size::TITLE, strong_family());
        let beside = format!(" {}", self.beside);
        let value = line(ui, &[(&self.value, strong, tokens.ink), (&beside, plain, tokens.quiet)], words.width());
        painter.galley(pos2(words.left(), inside.bottom() - value.size().y), value, tokens.ink);
        let clicked = response.clicked();
        if !self.why.is_empty() {
            response.on_hover_text(&self.why);
        }
        self.at.filter(|_| clicked)
    }
}

fn line(ui: &Ui, pieces: &[(&str, FontId, Color32)], width: f32) -> std::sync::Arc<egui::Galley> {
    let mut job = LayoutJob::default();
    for (words, font, colour) in pieces {
        let format =
            egui::TextFormat { valign: egui::Align::BOTTOM, ..egui::TextFormat::simple(font.clone(), *colour) };
        job.append(words, 0.0, format);
    }
    job.wrap = TextWrapping::truncate_at_width(width);
    ui.painter().layout_job(job)
}
