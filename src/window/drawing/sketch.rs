//! The pencil: figures and wishes for labels are put down here, then labels find their places.

use super::label::{self, Wish};
use super::scene::{Figure, FlowArrow, Label, PartArea, Pen, Stream, Tone};
use crate::quantity::Measured;
use crate::quantity::si::VolumeRate;
use crate::study::Part;
use crate::window::tokens::weight;
use egui::{Pos2, Rect, Vec2, pos2};

/// Measures a line of text: words, letter size, whether semibold.
pub type Measure<'a> = &'a dyn Fn(&str, f32, bool) -> Vec2;

/// Figures, arrows and labels while they are being put down.
#[derive(Debug, Default)]
pub struct Sketch {
    pub figures: Vec<Figure>,
    pub arrows: Vec<FlowArrow>,
    pub wishes: Vec<Wish>,
    pub parts: Vec<PartArea>,
    /// Where a label would hide something.
    pub busy: Vec<Rect>,
    /// Only what changes through a day is written.
    pub terse: bool,
}

/// A pen.
pub const fn pen(tone: Tone, width: f32) -> Pen {
    Pen { tone, width }
}

/// The pen of outlines.
pub const OUTLINE: Pen = pen(Tone::Ink, weight::MEDIUM);
/// The pen of hairlines.
pub const HAIR: Pen = pen(Tone::Line, weight::THIN);
/// The pen of small details.
pub const DETAIL: Pen = pen(Tone::Quiet, weight::THIN);

impl Sketch {
    /// A box with an outline.
    pub fn block(&mut self, rect: Rect, fill: Tone) {
        self.area(corners(rect), Some(fill), Some(OUTLINE));
    }

    /// A box with rounded corners.
    pub fn rounded(&mut self, rect: Rect, radius: f32, fill: Tone, edge: Pen) {
        self.area(round_corners(rect, radius), Some(fill), Some(edge));
    }

    /// A convex area.
    pub fn area(&mut self, points: Vec<Pos2>, fill: Option<Tone>, edge: Option<Pen>) {
        self.figures.push(Figure::Area { points, fill, edge });
    }

    /// A filled box without an outline.
    pub fn wash(&mut self, rect: Rect, fill: Tone) {
        self.area(corners(rect), Some(fill), None);
    }

    /// A line.
    pub fn line(&mut self, points: impl Into<Vec<Pos2>>, pen: Pen) {
        self.figures.push(Figure::Line { points: points.into(), pen, dashed: false });
    }

    /// A dashed line.
    pub fn dashed(&mut self, points: impl Into<Vec<Pos2>>, pen: Pen) {
        self.figures.push(Figure::Line { points: points.into(), pen, dashed: true });
    }

    /// A circle.
    pub fn round(&mut self, centre: Pos2, radius: f32, fill: Option<Tone>, edge: Option<Pen>) {
        self.figures.push(Figure::Round { centre, radius, fill, edge });
    }

    /// A hose whose corners are rounded; labels keep off it. Answers its axis.
    pub fn hose(&mut self, corners: &[Pos2], bend: f32, bore: f32, fill: Tone) -> Vec<Pos2> {
        let points = bent(corners, bend);
        for pair in corners.windows(2) {
            if let [a, b] = pair {
                self.busy.push(Rect::from_two_pos(*a, *b).expand(bore / 2.0 + 2.0));
            }
        }
        self.figures.push(Figure::Hose { points: points.clone(), bore, fill });
        points
    }

    /// A chevron in the middle of a piece of hose: this way.
    pub fn chevron(&mut self, from: Pos2, to: Pos2, size: f32, tone: Tone) {
        let along = (to - from).normalized();
        let across = along.rot90();
        let tip = from + (to - from) * 0.5 + along * size * 0.5;
        let back = tip - along * size;
        self.line(vec![back + across * size * 0.7, tip, back - across * size * 0.7], pen(tone, weight::MEDIUM));
    }

    /// A gas arrow, unless nothing flows. `points` run out of the crankcase (or into it, past the rings).
    pub fn flow(&mut self, stream: Stream, mut points: Vec<Pos2>, standard: f64, width: f32) {
        if standard == 0.0 || width <= 0.0 || points.len() < 2 {
            return;
        }
        if standard < 0.0 {
            points.reverse();
        }
        self.arrows.push(FlowArrow { stream, points, width, standard: VolumeRate::from_base(standard) });
    }

    /// A label that looks for its place.
    pub fn label(&mut self, wish: Wish) {
        self.wishes.push(if self.terse { wish.terse() } else { wish });
    }

    /// A part that can be chosen.
    pub fn part(&mut self, part: Part, name: String, hits: Vec<Rect>) {
        self.parts.push(PartArea { part, name, hits });
    }

    /// Something a label should not hide.
    pub fn keep_clear(&mut self, rect: Rect) {
        self.busy.push(rect);
    }

    /// The labels in their places.
    pub fn placed(&self, measure: Measure<'_>) -> Vec<Label> {
        label::place(&self.wishes, &self.busy, measure)
    }
}

/// The corners of a box.
pub fn corners(rect: Rect) -> Vec<Pos2> {
    vec![rect.left_top(), rect.right_top(), rect.right_bottom(), rect.left_bottom()]
}

/// A box by its edges.
pub fn rect(left: f32, top: f32, right: f32, bottom: f32) -> Rect {
    Rect::from_min_max(pos2(left, top), pos2(right, bottom))
}

/// A box's outline with rounded corners.
pub fn round_corners(rect: Rect, radius: f32) -> Vec<Pos2> {
    let radius = radius.min(rect.width() / 2.0).min(rect.height() / 2.0);
    let inner = rect.shrink(radius);
    let quarters = [
        (inner.right_top(), -std::f32::consts::FRAC_PI_2),
        (inner.right_bottom(), 0.0),
        (inner.left_bottom(), std::f32::consts::FRAC_PI_2),
        (inner.left_top(), std::f32::consts::PI),
    ];
    let mut points = Vec::with_capacity(60);
    for (centre, start) in quarters {
        for step in 0..=14_u8 {
            let angle = start + f32::from(step) / 14.0 * std::f32::consts::FRAC_PI_2;
            points.push(centre + radius * egui::vec2(angle.cos(), angle.sin()));
        }
    }
    points
}

/// A line through corners, each rounded off.
pub fn bent(corners: &[Pos2], bend: f32) -> Vec<Pos2> {
    let mut points = Vec::new();
    let Some(first) = corners.first() else { return points };
    points.push(*first);
    for triple in corners.windows(3) {
        let [before, corner, after] = triple else { continue };
        let (back, on) = (*before - *corner, *after - *corner);
        // Half of the shorter leg at most, so that two bends never overlap.
        let reach = bend.min(back.length() / 2.0).min(on.length() / 2.0);
        let (start, end) = (*corner + back.normalized() * reach, *corner + on.normalized() * reach);
        for step in 0..=10_u8 {
            let t = f32::from(step) / 10.0;
            let (a, b) = (start.lerp(*corner, t), corner.lerp(end, t));
            points.push(a.lerp(b, t));
        }
    }
    if corners.len() > 1 {
        points.extend(corners.last());
    }
    points
}
