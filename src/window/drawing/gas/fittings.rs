//! What stands in and between the lines: cans and their drains, sags with oil, checks and components, the cross-over.

use super::super::engine::{COVERS, RIGHT};
use super::super::label::Wish;
use super::super::scene::{Side, Stream, Tone};
use super::super::sketch::{DETAIL, OUTLINE, bent, pen, rect};
use super::{UPPER, Way};
use crate::quantity::si::Length;
use crate::quantity::{Amount, Kind, Measured};
use crate::study::{CanPlace, GasSource, InlineKind, LineInputs, Part, VentilationArrangement};
use crate::window::tokens::weight;
use egui::{Pos2, Rect, Vec2, pos2, vec2};

/// How far a sag hangs below its line.
const SAG: f32 = 30.0;

/// Half the width of what stands in a line.
const INLINE: f32 = 11.0;

/// A way cut where something stands in it, if anything does.
pub(super) fn cut(line: &LineInputs, corners: &[Pos2], at: Pos2) -> Vec<Vec<Pos2>> {
    let holds = |pair: &[Pos2]| match pair {
        [a, b] => Rect::from_two_pos(*a, *b).expand(0.1).contains(at),
        _ => false,
    };
    let found = corners.windows(2).position(holds).filter(|_| line.inline != InlineKind::None);
    let (Some(index), Some((before, after))) = (found, found.and_then(|index| corners.split_at_checked(index + 1)))
    else {
        return vec![corners.to_vec()];
    };
    let Some([from, to]) = corners.get(index..index + 2) else { return vec![corners.to_vec()] };
    let along = (*to - *from).normalized() * INLINE;
    let first = before.iter().copied().chain([at - along]).collect();
    vec![first, [at + along].into_iter().chain(after.iter().copied()).collect()]
}

/// A sag between two places of a level line: its corners.
pub(super) fn dip(from: f32, y: f32) -> [Pos2; 4] {
    [pos2(from, y), pos2(from + 8.0, y + SAG), pos2(from + 26.0, y + SAG), pos2(from + 34.0, y)]
}

/// The sag of a line, if oil stands in it.
pub(super) fn sag(line: &LineInputs) -> Option<Length> {
    line.sag.filter(|sag| sag.base() > 0.0)
}

impl Way<'_, '_> {
    /// The oil that stands at the lowest place of a sag, and its words.
    pub(super) fn oil(&mut self, (left, right): (f32, f32), y: f32, width: f32, height: Length) {
        let lowest = vec![pos2(left - 3.0, y - 7.0), pos2(left, y), pos2(right, y), pos2(right + 3.0, y - 7.0)];
        self.sketch.line(lowest, pen(Tone::Quiet, (width - 3.0).max(3.0)));
        let height = Amount::of_kind(height, Kind::Length).show(self.reading.system);
        let under = pos2((left + right) / 2.0, y + width / 2.0 + 2.0);
        let wish = Wish::new(under).quiet(format!("{height} oil")).led();
        let wish = wish.at(Side::Middle, 0.0, 9.0).at(Side::Left, -2.0, 18.0).at(Side::Right, 4.0, 12.0);
        // Over the cover there is room beside the upper line's sag, unless a hose from the sump rises there.
        let beside = y < COVERS && self.reading.project.ventilation.gas_source() != GasSource::Sump;
        let wish = if beside {
            Wish::new(pos2(left - 14.0, y - 9.0)).quiet(format!("{height} oil")).led().at(Side::Right, -4.0, -1.0)
        } else {
            wish
        };
        self.sketch.label(wish);
    }

    /// What else stands in a line: a check valve, or a component known by its data sheet.
    pub(super) fn inline(&mut self, line: &LineInputs, centre: Pos2, along: Vec2) {
        let across = along.rot90();
        let (way, words) = match line.inline {
            InlineKind::None => return,
            InlineKind::Component => (None, "component"),
            InlineKind::CheckOutwards => (Some(1.0), "check, lets out"),
            InlineKind::CheckInwards => (Some(-1.0), "check, lets in"),
        };
        let body = Rect::from_center_size(centre, vec2(2.0, 2.0) * INLINE);
        self.sketch.rounded(body, 4.0, Tone::Card, OUTLINE);
        let at = |x: f32, y: f32| centre + along * x + across * y;
        match way {
            // A ball that rests on its seat: gas pushes it away from there only.
            Some(way) => {
                let seat = -way * 6.0;
                for side in [-1.0, 1.0] {
                    let line = vec![at(seat, side * 8.0), at(seat, side * 2.5)];
                    self.sketch.line(line, pen(Tone::Ink, weight::THICK));
                }
                self.sketch.round(at(way * 1.0, 0.0), 4.5, Some(Tone::Ink), None);
                let tip = vec![at(way * 5.5, -3.5), at(way * 8.5, 0.0), at(way * 5.5, 3.5)];
                self.sketch.line(tip, pen(Tone::Ink, weight::MEDIUM));
            }
            // A throat between two mouths.
            None => {
                for side in [-1.0, 1.0] {
                    let wall =
                        vec![at(-9.0, side * 7.0), at(-2.0, side * 2.0), at(2.0, side * 2.0), at(9.0, side * 7.0)];
                    self.sketch.line(wall, pen(Tone::Ink, weight::MEDIUM));
                }
            }
        }
        self.sketch.keep_clear(body);
        let beside = along.x == 0.0;
        let edge = if beside { vec2(INLINE, 0.0) } else { vec2(0.0, INLINE + 1.0) };
        let wish = Wish::new(centre + edge).quiet(words).led();
        self.sketch.label(if beside {
            wish.at(Side::Left, 4.0, 0.0)
        } else {
            wish.at(Side::Middle, 0.0, 9.0).at(Side::Middle, 0.0, -33.0)
        });
    }

    /// A catch can; the first of two is the part.
    pub(super) fn can(&mut self, (left, right): (f32, f32), axis: f32, second: bool) -> Rect {
        let body = rect(left, axis - 14.0, right, axis + 52.0);
        self.sketch.rounded(body, 6.0, Tone::GasWash, OUTLINE);
        // What it has caught, and the tube that makes the gas turn round.
        let oil = rect(left + 2.0, body.bottom() - 15.0, right - 2.0, body.bottom() - 3.0);
        self.sketch.wash(oil, Tone::Line);
        self.sketch.line(vec![pos2(left + 2.0, oil.top()), pos2(right - 2.0, oil.top())], DETAIL);
        let x = left + 15.0;
        for side in [-4.0, 4.0] {
            self.sketch.line(vec![pos2(x + side, axis + 6.0), pos2(x + side, axis + 24.0)], DETAIL);
        }
        for side in [-12.0, 0.0, 12.0] {
            self.sketch.line(
                vec![pos2(body.center().x + side - 3.0, axis + 30.0), pos2(body.center().x + side + 3.0, axis + 30.0)],
                DETAIL,
            );
        }
        self.sketch.keep_clear(body);
        let words = if second { "second can" } else { "catch can" };
        let wish = Wish::new(pos2(body.center().x, body.bottom())).words(words);
        self.sketch.label(wish.at(Side::Middle, 0.0, 9.0).at(Side::Left, 16.0, 10.0).at(Side::Left, 30.0, -8.0));
        if second {
            if let Some(part) = self.sketch.parts.iter_mut().find(|area| area.part == Part::CatchCan) {
                part.hits.push(body);
            }
            return body;
        }
        self.mark(Part::CatchCan, pos2(body.left() - 11.0, body.bottom() - 8.0));
        let bore = self.reading.show(self.reading.project.ventilation.can.bore);
        let name = format!("{}, {bore} bore", Part::CatchCan.name());
        super::super::finish_part(self.sketch, self.reading, Part::CatchCan, name, vec![body]);
        body
    }

    /// The can's drain hose down to the sump, with the check at its end; before the lines that pass over it.
    pub(super) fn can_drain(&mut self, (left, _): (f32, f32), axis: f32) {
        let can = &self.reading.project.ventilation.can;
        if !can.drain.known || can.place == CanPlace::None {
            return;
        }
        let (from, low, into) = (pos2(left + 10.0, axis + 52.0), 284.0, 352.0);
        let corners =
            [from, pos2(from.x, low), pos2(RIGHT + 26.0, low), pos2(RIGHT + 26.0, into), pos2(RIGHT - 4.0, into)];
        self.sketch.hose(&corners, 10.0, 5.0, Tone::Line);
        self.sketch.chevron(pos2(from.x, low - 40.0), pos2(from.x, low - 24.0), 7.0, Tone::Quiet);
        let check = pos2(RIGHT + 26.0, 326.0);
        self.sketch.round(check, 5.0, Some(Tone::Card), Some(OUTLINE));
        self.sketch.chevron(check - vec2(0.0, 3.0), check + vec2(0.0, 3.0), 4.5, Tone::Ink);
        let wish = Wish::new(pos2(from.x, low - 20.0)).words("can's drain").quiet("to the sump");
        self.sketch.label(wish.at(Side::Left, 8.0, 0.0).at(Side::Right, -8.0, 0.0));
    }

    /// The hose between the covers, an arch from one top to the other; its gas goes as the pressures drive it.
    pub(super) fn crossover(&mut self) {
        if !self.reading.project.ventilation.crossover.known {
            return;
        }
        let top = COVERS - 15.0;
        let (left, right) = (446.0, 522.0);
        let corners = [pos2(right, COVERS), pos2(right, top), pos2(left, top), pos2(left, COVERS)];
        self.sketch.hose(&corners, 10.0, 8.0, Tone::GasWash);
        let flow = self.reading.crossover();
        let mut points = bent(&corners, 10.0);
        if let Some(first) = points.first_mut() {
            first.y -= 2.0;
        }
        self.sketch.flow(Stream::Crossover, points, flow, self.reading.arrow_width(flow).min(5.0));
        if let Some(shown) = self.reading.true_crossover() {
            let amount = self.reading.show(crate::quantity::si::VolumeRate::from_base(shown.abs()));
            let words = if self.reading.next_to_nothing(shown) { "no flow".to_owned() } else { amount };
            let wish = Wish::new(pos2((left + right) / 2.0, top - 5.0)).words(format!("cross-over {words}")).led();
            // The breather's line runs close above the arch, unless it begins at the sump.
            let above = self.reading.project.ventilation.gas_source() != GasSource::Sump;
            self.sketch.label(wish.at(Side::Middle, 0.0, if above { -34.0 } else { -9.0 }));
        }
    }

    /// Whether the second breather's line has a can too.
    pub(super) fn cans_in_both(&self) -> bool {
        let ventilation = &self.reading.project.ventilation;
        ventilation.arrangement == VentilationArrangement::TwoBreathers
            && ventilation.can.in_both
            && ventilation.can.place == CanPlace::BreatherLine
    }

    /// An element or an air cleaner: a box full of pleated paper.
    pub(super) fn pleats(&mut self, body: Rect) {
        self.sketch.rounded(body, 6.0, Tone::Card, OUTLINE);
        let mut x = body.left() + 7.0;
        let mut zigzag = Vec::new();
        let mut high = true;
        while x <= body.right() - 6.0 {
            zigzag.push(pos2(x, if high { body.top() + 6.0 } else { body.bottom() - 6.0 }));
            high = !high;
            x += 4.5;
        }
        self.sketch.line(zigzag, DETAIL);
        self.sketch.keep_clear(body);
    }

    /// The upper line's sag, right of the engine.
    pub(super) fn upper_dip() -> [Pos2; 4] {
        dip(624.0, UPPER)
    }
}
