//! The view of a day: the drawing at a time of it, a slider over its legs, and everything plotted against time.

mod glance;
mod happened;
mod now;
mod panel;

pub use panel::show as panel;

use super::drawing::{self, DayPoint, HEIGHT, WIDTH};
use super::kit::{Band, Track, clock, segments};
use super::plots::{DayPlots, DayShown, LEAST_OF_DAY};
use super::tokens::{size, space};
use crate::quantity::si::Time;
use crate::quantity::{Measured, UnitSystem};
use crate::study::{Answers, DayAnswers, Part, Project, Section, Verdict};
use egui::{Align, Button, Id, Layout, RichText, ScrollArea, Ui, vec2};
use glance::Glance;
use happened::Happened;

/// A day to be shown.
#[derive(Clone, Copy)]
pub struct DaySubject<'a> {
    /// The car.
    pub project: &'a Project,
    /// Its steady answers.
    pub answers: &'a Answers,
    /// Its day.
    pub day: &'a DayAnswers,
    /// Changes with every day that is computed, so that what is made from one is made once.
    pub come: u64,
    /// Verdicts, those of the day among them.
    pub verdicts: &'a [Verdict],
    /// Units to read in.
    pub system: UnitSystem,
}

/// The day there is, of a project.
pub(super) fn subject<'a>(
    answering: &'a super::app::answering::Answering,
    project: &'a Project,
    system: UnitSystem,
) -> Option<DaySubject<'a>> {
    let day = &answering.day;
    let (answers, followed) = (answering.answers.as_deref()?, day.answers.as_deref()?);
    Some(DaySubject { project, answers, day: followed, come: day.come, verdicts: &day.verdicts, system })
}

/// What a person looks at in a day.
#[derive(Default)]
pub struct DayView {
    /// The time chosen, s.
    now: f64,
    /// Whether the plots show only what lies round it, and from when until when then.
    near: bool,
    range: (f64, f64),
    /// Whether the panel shows the legs to be changed, in place of what happened.
    pub(super) legs: bool,
    plots: DayPlots,
    kept: Option<Kept>,
}

/// Words and places made once for each day that is computed.
struct Kept {
    made_for: (u64, UnitSystem),
    span: f64,
    bands: Vec<Band>,
    ticks: Vec<f64>,
    glances: Vec<Glance>,
    events: Vec<Happened>,
    sections: Vec<Section>,
}

impl Kept {
    fn new(subject: &DaySubject<'_>) -> Self {
        let day = subject.day;
        let last = day.drive.samples.last().map_or(0.0, |sample| sample.time.base());
        let span = day.legs.last().map_or(last, |leg| leg.ends.base()).max(last).max(1.0);
        let band = |leg: &crate::study::LegAnswer| Band {
            name: leg.name.show(subject.system),
            from: leg.begins.base(),
            to: leg.ends.base(),
        };
        let mut ticks: Vec<f64> = day.drive.events.iter().map(|event| event.time.base()).collect();
        ticks.dedup();
        let sections = day.sections().into_iter().filter(|section| section.key != "day_events").collect();
        Self {
            made_for: (subject.come, subject.system),
            span,
            bands: day.legs.iter().map(band).collect(),
            ticks,
            glances: glance::of(subject),
            events: day.drive.events.iter().map(|event| Happened::new(day, event, subject.system)).collect(),
            sections,
        }
    }
}

/// How far an arrow key goes: a minute, less in a short day.
fn step(span: f64) -> f64 {
    if span >= 1800.0 { 60.0 } else { 10.0 }
}

/// What the plots show round the time chosen, s.
const NEAR: f64 = 5400.0;
/// The readout beside the drawing is at least so wide.
const READOUT: f32 = 208.0;
/// Below this height the view scrolls as a whole.
const LOW: f32 = 470.0;

impl DayView {
    /// The time chosen.
    #[must_use]
    pub fn now(&self) -> Time {
        Time::from_base(self.now)
    }

    /// From when until when the plots show the day. While a hand holds the cursor nothing moves away under it.
    fn range(&mut self, held: bool) -> (f64, f64) {
        let span = self.kept.as_ref().map_or(1.0, |kept| kept.span);
        if !self.near || span <= NEAR {
            return (0.0, span);
        }
        let (from, to) = self.range;
        let edge = NEAR / 6.0;
        let inside = |from: f64, to: f64, edge: f64| {
            (from + edge..=to - edge).contains(&self.now)
                || (self.now < edge && from == 0.0)
                || (self.now > span - edge && to == span)
        };
        let fits = to <= span && (to - from - NEAR).abs() < 1.0;
        if !(fits && inside(from, to, if held { 0.0 } else { edge })) {
            let from = (((self.now - NEAR / 2.0) / edge).round() * edge).min(span - NEAR).max(0.0);
            self.range = (from, from + NEAR);
        }
        self.range
    }

    /// What the legs are called, in their order; nothing before there is a day.
    pub(super) fn leg_names(&self) -> Vec<String> {
        let bands = self.kept.as_ref().map_or(&[][..], |kept| &kept.bands);
        bands.iter().map(|band| format!("{}, {}", clock(band.from), band.name)).collect()
    }

    /// Goes to a time.
    pub fn go_to(&mut self, time: Time) {
        self.now = time.base().max(0.0);
    }

    fn kept(&mut self, subject: &DaySubject<'_>) -> &Kept {
        let made_for = (subject.come, subject.system);
        let kept = match self.kept.take() {
            Some(kept) if kept.made_for == made_for => kept,
            _ => Kept::new(subject),
        };
        // A day that has become shorter ends earlier.
        self.now = self.now.clamp(0.0, kept.span);
        self.kept.insert(kept)
    }

    /// The event before and after the time chosen.
    fn neighbours(&self) -> (Option<f64>, Option<f64>) {
        let ticks = self.kept.as_ref().map_or(&[][..], |kept| &kept.ticks);
        let before = ticks.iter().rev().find(|tick| **tick < self.now);
        (before.copied(), ticks.iter().find(|tick| **tick > self.now).copied())
    }

    /// Two buttons that lead to the events before and after, and the time and the leg in words; `late` is said before
    /// those while a newer day is on its way.
    pub fn steps(&mut self, ui: &mut Ui, subject: &DaySubject<'_>, late: Option<RichText>) {
        self.kept(subject);
        let (before, after) = self.neighbours();
        let mut go = None;
        for (words, hint, to) in [
            ("◂ Event", "To the event before (Page Up on the slider)", before),
            ("Event ▸", "To the event after (Page Down on the slider)", after),
        ] {
            let name = if to == before && words.starts_with('◂') { "Previous event" } else { "Next event" };
            let response = ui.add_enabled(to.is_some(), Button::new(words)).on_hover_text(hint);
            response.widget_info(|| egui::WidgetInfo::labeled(egui::Role::Button, to.is_some(), name));
            if response.clicked() {
                go = to;
            }
        }
        if let Some(to) = go {
            self.now = to;
        }
        if self.kept.as_ref().is_some_and(|kept| kept.span > NEAR) {
            let names = ["Whole day", "90 min"];
            if let Some(near) = segments(ui, Id::unique("range"), "Plots show", usize::from(self.near), &names) {
                self.near = near == 1;
            }
        }
        if let Some(words) = late {
            ui.label(words);
        }
        let reads = self.reads(subject);
        ui.add(egui::Label::new(RichText::new(reads).size(size::TITLE)).truncate());
    }

    /// "1:45, leg 4: Climb, 12 % at 60 km/h".
    fn reads(&self, subject: &DaySubject<'_>) -> String {
        let day = subject.day;
        let at = day.at(self.now());
        let leg = at.and_then(|sample| day.legs.get(sample.leg));
        let number = at.map_or(0, |sample| sample.leg + 1);
        leg.map_or_else(
            || clock(self.now),
            |leg| format!("{}, leg {number}: {}", clock(self.now), leg.name.show(subject.system)),
        )
    }
}

/// Shows the view; a click on the drawing chooses a part.
pub fn show(ui: &mut Ui, subject: DaySubject<'_>, view: &mut DayView, chosen: &mut Option<Part>) {
    view.kept(&subject);
    let room = ui.available_size();
    let low = LOW + glance::height(room.x);
    if room.y < low {
        ScrollArea::vertical().id_salt("low day").auto_shrink(false).show(ui, |ui| {
            let width = ui.available_width() - space::CARD;
            ui.allocate_ui_with_layout(vec2(width, low), Layout::top_down(Align::Min), |ui| {
                ui.set_max_size(vec2(width, low));
                inside(ui, subject, view, chosen);
            });
        });
    } else {
        inside(ui, subject, view, chosen);
    }
}

fn inside(ui: &mut Ui, subject: DaySubject<'_>, view: &mut DayView, chosen: &mut Option<Part>) {
    if let Some(to) = view.kept.as_ref().and_then(|kept| glance::show(ui, &kept.glances)) {
        view.now = to;
        ui.ctx().request_repaint();
    }
    let room = ui.available_size();
    // A large window shows the drawing with all its words, and gives it what the plots can spare.
    let share = if room.y < 720.0 { 0.45 } else { 0.62 };
    let high = (room.y * share).min(room.y - LEAST_OF_DAY).clamp(190.0, HEIGHT * 1.4);
    let least = WIDTH * 0.42;
    let wide = (high * WIDTH / HEIGHT).min(room.x - READOUT - space::GROUP).max(least);
    let day = subject.day;
    let index = day.sample_at(view.now());
    ui.horizontal_top(|ui| {
        ui.allocate_ui_with_layout(vec2(wide, high), Layout::top_down(Align::Min), |ui| {
            ui.set_max_size(vec2(wide, high));
            if let Some(sample) = day.drive.samples.get(index) {
                let crankcase = day.crankcase.get(index);
                let point = DayPoint { sample, crankcase, verdicts: subject.verdicts, terse: false };
                drawing::show(ui, subject.project, subject.answers, point, chosen, subject.system);
            }
        });
        ui.add_space(space::ROW);
        let rest = vec2(ui.available_width(), high);
        ui.allocate_ui_with_layout(rest, Layout::top_down(Align::Min), |ui| {
            ui.set_max_size(rest);
            now::show(ui, &subject, index);
        });
    });
    let reads = view.reads(&subject);
    let range = view.range(ui.input(|input| input.pointer.any_down()));
    let mut moved = None;
    if let Some(kept) = &view.kept {
        moved = Track::new(Id::unique("time of the day"), "Time of the day", (view.now, kept.span), reads)
            .step(step(kept.span))
            .bands(&kept.bands)
            .ticks(&kept.ticks)
            .along(view.plots.along().filter(|_| range == (0.0, kept.span)))
            .show(ui);
        let shown = DayShown {
            project: subject.project,
            answers: subject.answers,
            day,
            come: subject.come,
            system: subject.system,
            range,
            now: moved.unwrap_or(view.now),
        };
        ScrollArea::vertical().id_salt("plots of the day").auto_shrink(false).show(ui, |ui| {
            ui.set_max_width(ui.available_width() - space::CARD);
            moved = view.plots.show(ui, shown).or(moved);
        });
    }
    if let Some(to) = moved {
        view.now = to;
        ui.ctx().request_repaint();
    }
}
