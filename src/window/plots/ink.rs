//! The few kinds of line all plots are drawn with.

use crate::window::tokens::{Tokens, weight};
use egui::{Color32, Stroke};
use egui_plot::{FilledArea, HLine, Line, LineStyle, MarkerShape, PlotUi, Points};

/// One point of a curve with its spread, in the units of the axes.
#[derive(Clone, Copy, Debug)]
pub struct Spread {
    pub x: f64,
    pub low: f64,
    pub likely: f64,
    pub high: f64,
}

/// A band from low to high with the likely curve in it.
pub fn band(plot: &mut PlotUi<'_>, points: &[Spread], line: Color32, wash: Color32) {
    let [xs, low, high] = [|p: &Spread| p.x, |p: &Spread| p.low, |p: &Spread| p.high]
        .map(|pick| points.iter().map(pick).collect::<Vec<f64>>());
    plot.add(FilledArea::new("low to high", &xs, &low, &high).fill_color(wash).stroke(Stroke::NONE));
    let likely: Vec<[f64; 2]> = points.iter().map(|point| [point.x, point.likely]).collect();
    plot.line(Line::new("likely", likely).color(line).width(weight::MEDIUM));
}

/// A limit: a level line, dashed.
pub fn limit(plot: &mut PlotUi<'_>, name: &str, at: f64, colour: Color32) {
    plot.hline(HLine::new(name, at).color(colour).width(weight::MEDIUM).style(LineStyle::dashed_loose()));
}

/// A mark on the wall: a level line, dotted.
pub fn mark(plot: &mut PlotUi<'_>, name: &str, at: f64, colour: Color32) {
    plot.hline(HLine::new(name, at).color(colour).width(weight::MEDIUM).style(LineStyle::dotted_dense()));
}

/// Where things stand at the moment chosen.
pub fn now(plot: &mut PlotUi<'_>, moment: &str, at: [f64; 2], tokens: &Tokens) {
    let name = format!("now: {}", lower(moment));
    plot.points(Points::new(name, vec![at]).shape(MarkerShape::Diamond).radius(5.0).color(tokens.ink));
}

/// A name within a sentence.
pub fn lower(name: &str) -> String {
    let mut letters = name.chars();
    letters.next().map_or_else(String::new, |first| first.to_lowercase().chain(letters).collect())
}
