//! Paints a scene: colours from the theme, drawing units to points.

use super::scene::{Figure, FlowArrow, Label, Pen, Scene, Side, Tone};
use crate::study::State;
use crate::window::fonts::strong_family;
use crate::window::kit::{Mark, paint_mark};
use crate::window::tokens::{Tokens, weight};
use egui::epaint::{Mesh, PathShape, PathStroke, Vertex, WHITE_UV};
use egui::{Color32, FontId, Painter, Pos2, Rect, Shape, Stroke, pos2};

/// Drawing units to points.
#[derive(Clone, Copy, Debug)]
pub struct Frame {
    /// Where the drawing's left top lies.
    pub origin: Pos2,
    /// Points for a drawing unit.
    pub scale: f32,
}

impl Frame {
    /// A place.
    pub fn at(&self, place: Pos2) -> Pos2 {
        self.origin + place.to_vec2() * self.scale
    }

    /// A box.
    pub fn rect(&self, rect: Rect) -> Rect {
        Rect::from_min_max(self.at(rect.min), self.at(rect.max))
    }

    fn all(&self, points: &[Pos2]) -> Vec<Pos2> {
        points.iter().map(|point| self.at(*point)).collect()
    }

    /// Line weights grow less than the drawing.
    fn weight(&self, width: f32) -> f32 {
        width * self.scale.sqrt()
    }

    /// Letters grow less than a drawing that is larger than natural, so their places always hold them.
    fn letters(&self) -> f32 {
        if self.scale > 1.0 { self.scale.powf(0.8) } else { self.scale }
    }
}

/// The colour of a tone.
fn colour(tone: Tone, tokens: &Tokens) -> Color32 {
    match tone {
        Tone::Ink => tokens.ink,
        Tone::Quiet => tokens.quiet,
        Tone::Line => tokens.line,
        Tone::Paper => tokens.paper,
        Tone::Card => tokens.card,
        Tone::Coolant => tokens.coolant,
        Tone::CoolantWash => tokens.coolant_wash,
        Tone::CoolantDeep => tokens.coolant_wash.lerp_to_gamma(tokens.coolant, 0.4),
        Tone::Gas => tokens.gas,
        Tone::GasWash => tokens.gas_wash,
        Tone::Hot => tokens.hot,
        Tone::Fault => tokens.fault,
        Tone::State(State::Holds) => tokens.holds,
        Tone::State(State::Thin) => tokens.thin,
        Tone::State(State::DoesNotHold) => tokens.fails,
        Tone::State(State::NotKnown) => tokens.unknown,
    }
}

/// The mark of a verdict's state.
const fn mark(state: State) -> Mark {
    match state {
        State::Holds => Mark::Circle,
        State::Thin => Mark::Diamond,
        State::DoesNotHold => Mark::Triangle,
        State::NotKnown => Mark::Square,
    }
}

/// Paints everything.
pub fn paint(painter: &Painter, scene: &Scene, frame: Frame, tokens: &Tokens) {
    for figure in &scene.figures {
        paint_figure(painter, figure, frame, tokens);
    }
    for arrow in &scene.arrows {
        paint_arrow(painter, arrow, frame, tokens);
    }
    for label in &scene.labels {
        paint_label(painter, label, frame, tokens);
    }
}

fn stroke(pen: Option<Pen>, frame: Frame, tokens: &Tokens) -> Stroke {
    pen.map_or(Stroke::NONE, |pen| Stroke::new(frame.weight(pen.width), colour(pen.tone, tokens)))
}

fn paint_figure(painter: &Painter, figure: &Figure, frame: Frame, tokens: &Tokens) {
    match figure {
        Figure::Area { points, fill, edge } => {
            let fill = fill.map_or(Color32::TRANSPARENT, |tone| colour(tone, tokens));
            painter.add(Shape::convex_polygon(frame.all(points), fill, stroke(*edge, frame, tokens)));
        }
        Figure::Rows { rows, fill } => {
            painter.add(rows_mesh(rows, colour(*fill, tokens), frame));
        }
        Figure::Line { points, pen, dashed } => {
            let stroke = stroke(Some(*pen), frame, tokens);
            if *dashed {
                painter.extend(Shape::dashed_line(&frame.all(points), stroke, 4.0 * frame.scale, 4.0 * frame.scale));
            } else {
                painter.add(Shape::line(frame.all(points), stroke));
            }
        }
        Figure::Round { centre, radius, fill, edge } => {
            let fill = fill.map_or(Color32::TRANSPARENT, |tone| colour(tone, tokens));
            painter.circle(frame.at(*centre), radius * frame.scale, fill, stroke(*edge, frame, tokens));
        }
        Figure::Hose { points, bore, fill } => {
            let points = frame.all(points);
            let inside = bore * frame.scale;
            let walls = inside + 2.0 * frame.weight(weight::MEDIUM - 0.25);
            painter.add(Shape::line(points.clone(), Stroke::new(walls, tokens.ink)));
            painter.add(Shape::line(longer(points), Stroke::new(inside, colour(*fill, tokens))));
        }
        Figure::Head { from, tip, width, tone } => {
            head(painter, frame.at(*from), frame.at(*tip), width * frame.scale, colour(*tone, tokens));
        }
        Figure::Mark { centre, height, state } => {
            paint_mark(painter, frame.at(*centre), height * frame.letters(), mark(*state), tokens);
        }
    }
}

/// A hose's filling reaches a little into what it is joined to, so that no wall closes its end.
fn longer(mut points: Vec<Pos2>) -> Vec<Pos2> {
    if let [first, second, ..] = points.as_mut_slice() {
        *first -= (*second - *first).normalized() * 2.0;
    }
    if let [.., before, last] = points.as_mut_slice() {
        *last += (*last - *before).normalized() * 2.0;
    }
    points
}

fn rows_mesh(rows: &[[f32; 3]], fill: Color32, frame: Frame) -> Shape {
    let mut mesh = Mesh::default();
    for [y, left, right] in rows {
        for x in [left, right] {
            mesh.vertices.push(Vertex { pos: frame.at(pos2(*x, *y)), uv: WHITE_UV, color: fill });
        }
    }
    let pairs = u32::try_from(rows.len()).unwrap_or(0);
    for row in 1..pairs {
        let (a, b) = (2 * row - 2, 2 * row);
        mesh.indices.extend([a, a + 1, b, a + 1, b, b + 1]);
    }
    Shape::mesh(mesh)
}

fn head(painter: &Painter, from: Pos2, tip: Pos2, width: f32, fill: Color32) {
    let along = tip - from;
    let across = along.normalized().rot90() * width / 2.0;
    painter.add(Shape::convex_polygon(vec![tip, from + across, from - across], fill, Stroke::NONE));
}

fn paint_arrow(painter: &Painter, arrow: &FlowArrow, frame: Frame, tokens: &Tokens) {
    let fill = tokens.gas;
    let width = arrow.width * frame.scale;
    let (head_width, head_length) = (width + 6.0 * frame.scale, width * 0.7 + 6.5 * frame.scale);
    let mut shaft = frame.all(&arrow.points);
    let Some(tip) = shaft.last().copied() else { return };
    // The shaft ends where the head begins.
    while let [.., before, last] = shaft.as_slice() {
        let (before, last) = (*before, *last);
        if (tip - before).length() > head_length {
            let back = (tip - before).normalized() * head_length;
            shaft.pop();
            shaft.push(if (last - before).length() > 1e-3 { tip - back } else { last });
            break;
        }
        shaft.pop();
    }
    let Some(root) = shaft.last().copied() else { return };
    if shaft.len() > 1 {
        painter.add(PathShape::line(shaft, PathStroke::new(width, fill)));
    }
    head(painter, root, tip, head_width, fill);
}

fn paint_label(painter: &Painter, label: &Label, frame: Frame, tokens: &Tokens) {
    if let Some(leader) = label.leader {
        painter.line_segment(leader.map(|point| frame.at(point)), Stroke::new(weight::THIN, tokens.line));
    }
    let place = frame.rect(label.place);
    let galleys: Vec<_> = label
        .lines
        .iter()
        .map(|line| {
            let size = line.size * frame.letters();
            let font = if line.strong { FontId::new(size, strong_family()) } else { FontId::proportional(size) };
            let ink = colour(line.tone, tokens);
            (painter.layout_no_wrap(line.text.clone(), font, ink), ink)
        })
        .collect();
    let height: f32 = galleys.iter().map(|(galley, _)| galley.size().y).sum();
    let mut y = place.center().y - height / 2.0;
    for (galley, ink) in galleys {
        let x = match label.side {
            Side::Left => place.left(),
            Side::Middle => place.center().x - galley.size().x / 2.0,
            Side::Right => place.right() - galley.size().x,
        };
        let down = galley.size().y;
        painter.galley(pos2(x, y), galley, ink);
        y += down;
    }
}

/// The ring round the part that has the keyboard.
pub fn paint_focus(painter: &Painter, body: Rect, stroke: Stroke) {
    painter.rect_stroke(body.expand(3.0), 6.0, stroke, egui::StrokeKind::Outside);
}

/// The wash behind a part under the pointer or chosen: behind, so that no line crosses the words.
pub fn wash(body: Rect, tone: Color32) -> Shape {
    Shape::rect_filled(body.expand(6.0), 8.0, tone)
}
