//! A day against time: one plot below the other with one time axis, and a cursor through all of them.

mod charts;
mod series;

use super::ink::{self, Look};
use crate::quantity::{Kind, UnitSystem};
use crate::study::{Answers, DayAnswers, Project};
use crate::window::kit::{PlotAxis, PlotFrame};
use crate::window::tokens::{Tokens, size, space, weight};
use charts::{Chart, ChartLine, Material};
use egui::{Id, Rangef, Ui};
use egui_plot::{HLine, Line, LineStyle, PlotPoints, PlotUi, VLine};

/// Room for the numbers beside the plots.
const NUMBERS: f32 = 58.0;
/// Height of a plot's title and key.
const OTHERS: f32 = size::BODY * 4.0;
/// Height of the smallest part of the plots worth showing.
pub(crate) const LEAST: f32 = 130.0 + OTHERS;
/// Columns of pixels the lines are thinned for come in steps, so that dragging a panel does not thin them anew each frame.
const COLUMNS: f32 = 128.0;
/// From this width on the plots stand in two columns.
const TWO_COLUMNS: f32 = 820.0;

/// What the lines were made for.
#[derive(Clone, Copy, PartialEq)]
struct MadeFor {
    come: u64,
    system: UnitSystem,
    dark: bool,
    columns: usize,
    range: (f64, f64),
}

/// The lines as plotted, kept until the day, the units, the theme or the width change.
#[derive(Default)]
pub(crate) struct DayPlots {
    made_for: Option<MadeFor>,
    charts: Vec<Chart>,
    keys: Vec<Vec<(String, Look)>>,
    /// Where the first plot lies on the screen from left to right.
    along: Option<Rangef>,
    /// What the plots of the first row take beside their height: titles, axis, and as many rows of keys as fold.
    others: Option<f32>,
}

/// What is to be plotted. `come` changes with every day that is computed.
#[derive(Clone, Copy)]
pub(crate) struct DayShown<'a> {
    pub(crate) project: &'a Project,
    pub(crate) answers: &'a Answers,
    pub(crate) day: &'a DayAnswers,
    pub(crate) come: u64,
    pub(crate) system: UnitSystem,
    /// From when until when, s.
    pub(crate) range: (f64, f64),
    /// Where the cursor stands, s.
    pub(crate) now: f64,
}

impl DayPlots {
    /// Where the time axis lies on the screen when the plots stand in one column.
    pub(crate) const fn along(&self) -> Option<Rangef> {
        self.along
    }

    /// Shows every plot; answers the time somebody dragged the cursor to.
    pub(crate) fn show(&mut self, ui: &mut Ui, what: DayShown<'_>) -> Option<f64> {
        let tokens = Tokens::here(ui);
        let room = ui.available_width();
        let two = room >= TWO_COLUMNS;
        let each = if two { (room - space::GROUP) / 2.0 } else { room };
        let columns = ((each / COLUMNS).ceil() * COLUMNS) as usize;
        let DayShown { project, answers, day, come, system, range, .. } = what;
        let made_for = Some(MadeFor { come, system, dark: tokens.dark, columns, range });
        if self.made_for != made_for {
            self.charts = Material { project, answers, day, system, tokens, range, columns }.charts();
            self.keys = self.charts.iter().map(key_of).collect();
            self.made_for = made_for;
        }
        let mut moved = None;
        let mut along = None;
        let per_row = if two { 2 } else { 1 };
        // The first one fills what there is of a low view, as far as it can be read.
        let others = self.others.unwrap_or(OTHERS);
        let first = (ui.available_height() - others).clamp(130.0, 190.0);
        for (row, (charts, keys)) in self.charts.chunks(per_row).zip(self.keys.chunks(per_row)).enumerate() {
            let height = if row == 0 { first } else { 140.0 };
            let shown = ui.horizontal_top(|ui| {
                ui.spacing_mut().item_spacing.x = space::GROUP;
                for (chart, key) in charts.iter().zip(keys) {
                    ui.vertical(|ui| {
                        ui.set_width(each);
                        let (to, lies) = plot(ui, chart, key, height, &what);
                        moved = moved.or(to);
                        along = along.or(Some(lies));
                    });
                }
            });
            let took = shown.response.rect.height() - height;
            if row == 0 && (took - others).abs() > 1.0 {
                self.others = Some(took);
                ui.ctx().request_repaint();
            }
        }
        self.along = along.filter(|_| !two);
        moved
    }
}

fn key_of(chart: &Chart) -> Vec<(String, Look)> {
    let lines = chart.lines.iter().filter(|line| !line.pieces.is_empty());
    let limits = chart.limits.iter().map(|(name, _, look)| (name.clone(), *look));
    lines.map(|line| (line.name.to_owned(), line.look)).chain(limits).collect()
}

fn plot(
    ui: &mut Ui,
    chart: &Chart,
    key: &[(String, Look)],
    height: f32,
    shown: &DayShown<'_>,
) -> (Option<f64>, Rangef) {
    let tokens = Tokens::here(ui);
    let x = PlotAxis::new("time of the day", Kind::Time, shown.system);
    let (now, (from, to)) = (shown.now, shown.range);
    let frame = PlotFrame::new(Id::unique(("plot of the day", chart.title)), chart.title, x, chart.axis)
        .clock()
        .numbers_take(NUMBERS)
        .height(height)
        .include_place(from, Some(chart.least[0]))
        .include_place(to, Some(chart.least[1]))
        .summary(chart.summary.as_str());
    let whole = frame.show_whole(ui, move |plot| {
        for (name, at, look) in &chart.limits {
            let (colour, style) = stroke_of(*look);
            plot.hline(HLine::new(name, *at).color(colour).width(weight::MEDIUM).style(style));
        }
        for line in &chart.lines {
            draw(plot, line);
        }
        plot.vline(VLine::new("", now).color(tokens.focus).width(weight::MEDIUM));
    });
    let response = &whole.response;
    if response.hovered() {
        ui.ctx().set_cursor_icon(egui::CursorIcon::ResizeHorizontal);
    }
    let hand = response.interact_pointer_pos().filter(|_| response.dragged() || response.clicked());
    let moved = hand.map(|hand| whole.transform.value_from_position(hand).x.clamp(from, to));
    ink::key(ui, key);
    let frame = whole.transform.frame();
    let ends = [from, to].map(|place| whole.transform.position_from_point_x(place));
    let along = Rangef::new(ends[0].max(frame.left()), ends[1].min(frame.right()));
    (moved, along)
}

fn draw<'a>(plot: &mut PlotUi<'a>, line: &'a ChartLine) {
    let (colour, style) = stroke_of(line.look);
    let width = if matches!(line.look, Look::Thick(_)) { weight::THICK } else { weight::MEDIUM };
    for piece in &line.pieces {
        // Thinned already; the library's own bands fill the corner between a long level piece and a step.
        let line = Line::new(line.name, PlotPoints::Borrowed(piece)).allow_band(false);
        plot.line(line.color(colour).width(width).style(style));
    }
}

const fn stroke_of(look: Look) -> (egui::Color32, LineStyle) {
    match look {
        Look::Dashed(colour) => (colour, LineStyle::Dashed { length: 8.0 }),
        Look::Short(colour) => (colour, LineStyle::Dashed { length: 4.5 }),
        Look::Dotted(colour) => (colour, LineStyle::Dotted { spacing: 5.0 }),
        Look::Curve(curve) => (curve.colour, curve.style),
        Look::Band(colour)
        | Look::Solid(colour)
        | Look::Thick(colour)
        | Look::Square(colour)
        | Look::Box(colour)
        | Look::Diamond(colour)
        | Look::Circle(colour) => (colour, LineStyle::Solid),
    }
}
