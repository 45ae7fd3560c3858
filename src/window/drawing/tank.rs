//! The tank: its real shape to scale, its marks and its live level, the dip tube, the vent, its height below the neck.

use super::label::Wish;
use super::reading::Reading;
use super::scene::{Figure, Side, TankDrawn, Tone};
use super::sketch::{DETAIL, HAIR, OUTLINE, Sketch, pen, rect};
use crate::quantity::{Kind, Measured};
use crate::study::{Part, ShapeKind, State, TankArrangement, TankInputs, VentKind};
use crate::window::tokens::weight;
use egui::{Pos2, Rect, pos2};

/// The seat of the cap on the radiator's neck.
pub const NECK: f32 = 150.0;
/// Where the tank stands, between these.
const COLUMN: (f32, f32) = (24.0, 116.0);
/// Labels of the marks begin here.
const MARKS: f32 = 124.0;
/// Height of a row of them.
const ROW: f32 = 17.5;
/// The lid's highest and the floor's lowest place.
const SPAN: (f32, f32) = (76.0, 470.0);
/// The tallest a tank is drawn.
const TALLEST: f32 = 190.0;

/// The inside of the tank as drawn: half widths against height, m, from the floor up.
pub struct Profile {
    rows: Vec<(f64, f64)>,
    /// How far off the middle the dip tube stands in this view, m.
    tube: f64,
}

impl Profile {
    /// The outline seen from where the dip tube's offset along the car (across it, for a lying cylinder) shows.
    pub fn of(tank: &TankInputs) -> Option<Self> {
        let straight = |half: f64, height: f64| vec![(0.0, half), (height, half)];
        let (diameter, height) = (tank.diameter.base(), tank.height.base());
        let rows = match tank.shape {
            ShapeKind::UprightCylinder => straight(diameter / 2.0, height),
            ShapeKind::Box => straight(tank.length.base() / 2.0, height),
            ShapeKind::TaperedBox => {
                vec![(0.0, tank.length.base() / 2.0), (height, tank.top_length.base() / 2.0)]
            }
            ShapeKind::LyingCylinder => {
                let radius = diameter / 2.0;
                let steps = (0..=48_u8).map(|step| f64::from(step) / 48.0 * std::f64::consts::PI);
                steps.map(|angle| (radius - radius * angle.cos(), radius * angle.sin())).collect()
            }
            ShapeKind::DipTable => dipped(tank),
        };
        let tube = if tank.shape == ShapeKind::LyingCylinder { tank.tube_right } else { tank.tube_ahead };
        (rows.len() > 1).then(|| Self { rows, tube: tube.base() })
    }

    /// Height of the inside, m.
    pub fn height(&self) -> f64 {
        self.rows.last().map_or(0.0, |row| row.0)
    }

    fn width(&self) -> f64 {
        self.rows.iter().map(|row| row.1 * 2.0).fold(0.0, f64::max)
    }

    /// Half width at a height.
    fn half(&self, height: f64) -> f64 {
        let inside = self.rows.windows(2).find(|pair| pair.last().is_some_and(|row| row.0 >= height));
        let Some([(low, a), (high, b)]) = inside else { return self.rows.last().map_or(0.0, |row| row.1) };
        if high > low { a + (b - a) * ((height - low) / (high - low)).clamp(0.0, 1.0) } else { *b }
    }
}

/// A dip table says how much, not where: drawn as round, as wide as the volume between its rows asks for.
fn dipped(tank: &TankInputs) -> Vec<(f64, f64)> {
    let mut areas: Vec<(f64, f64, f64)> = Vec::new();
    for pair in tank.dips.windows(2) {
        if let [(low, little), (high, more)] = pair {
            let rise = high.base() - low.base();
            if rise > 0.0 {
                areas.push((low.base(), high.base(), ((more.base() - little.base()) / rise).max(0.0)));
            }
        }
    }
    let half = |area: f64| (area / std::f64::consts::PI).sqrt();
    let Some(first) = areas.first().copied() else { return Vec::new() };
    let mut rows = vec![(0.0, half(first.2))];
    for pair in areas.windows(2) {
        if let [below, above] = pair {
            rows.push((below.1, half((below.2 + above.2) / 2.0)));
        }
    }
    if let Some(last) = areas.last() {
        rows.push((last.1, half(last.2)));
    }
    rows
}

/// The tank in its place in the drawing.
pub struct Placed {
    pub profile: Profile,
    pub scale: f32,
    pub floor: f32,
    pub neck_to_scale: bool,
    middle: f32,
}

impl Placed {
    /// Chooses the scale, and puts the tank as far below the neck as it is, if the paper allows.
    pub fn of(reading: &Reading<'_>) -> Option<Self> {
        let tank = &reading.project.tank;
        let profile = Profile::of(tank)?;
        let (height, width) = (profile.height() as f32, profile.width() as f32);
        if !(height > 0.0 && width > 0.0) {
            return None;
        }
        // At most life size in points: small tanks should look small.
        let own = ((COLUMN.1 - COLUMN.0) / width).min(TALLEST / height).min(1000.0);
        let (floor, scale, neck_to_scale) = match tank.arrangement {
            TankArrangement::RecoveryTank => beside_neck(tank.neck_height.base() as f32, height, own),
            TankArrangement::HeaderTank => {
                // Above the radiator: the highest part of the loop.
                let scale = own.min(150.0 / height);
                (SPAN.0 + 22.0 + 150.0, scale, false)
            }
            TankArrangement::CatchOnly => (SPAN.1 - 30.0, own, false),
        };
        Some(Self { profile, scale, floor, neck_to_scale, middle: (COLUMN.0 + COLUMN.1) / 2.0 })
    }

    /// Height in the drawing of a height above the floor, m.
    pub fn y(&self, height: f64) -> f32 {
        self.floor - height as f32 * self.scale
    }

    pub fn lid(&self) -> f32 {
        self.y(self.profile.height())
    }

    fn x(&self, aside: f64) -> f32 {
        self.middle + aside as f32 * self.scale
    }

    pub fn tube_x(&self) -> f32 {
        let widest = self.profile.half(self.profile.height() * 0.5);
        self.x(self.profile.tube.clamp(-0.8 * widest, 0.8 * widest))
    }

    pub fn body(&self) -> Rect {
        let half = self.profile.width() / 2.0;
        rect(self.x(-half), self.lid(), self.x(half), self.floor)
    }

    fn rows(&self, from: f64, to: f64) -> Vec<[f32; 3]> {
        let mut heights = vec![from];
        heights.extend(self.profile.rows.iter().map(|row| row.0).filter(|height| *height > from && *height < to));
        heights.push(to);
        let row = |height: f64| {
            let half = self.profile.half(height);
            [self.y(height), self.x(-half), self.x(half)]
        };
        heights.into_iter().map(row).collect()
    }
}

/// As far below the neck as in the car when that fits, at the tank's own scale or down to six tenths of it.
fn beside_neck(neck: f32, height: f32, own: f32) -> (f32, f32, bool) {
    let fits = |scale: f32| {
        let floor = NECK + neck * scale;
        floor <= SPAN.1 && floor - height * scale >= SPAN.0
    };
    let share = [1.0, 0.9, 0.8, 0.7, 0.6].into_iter().find(|share| fits(own * share));
    match share {
        Some(share) => (NECK + neck * own * share, own * share, true),
        None if neck > height => (SPAN.1, own * 0.8, false),
        None => (SPAN.0 + height * own * 0.8, own * 0.8, false),
    }
}

/// Draws the tank; answers how it was drawn.
pub fn draw(sketch: &mut Sketch, reading: &Reading<'_>, at: &Placed) -> TankDrawn {
    let lid = at.profile.height();
    let level = reading.level(lid);
    let surface = at.y(level);
    let figures = &mut sketch.figures;
    figures.push(Figure::Rows { rows: at.rows(0.0, lid), fill: Tone::Card });
    if level > 0.0 {
        figures.push(Figure::Rows { rows: at.rows(0.0, level), fill: Tone::CoolantWash });
        let half = at.profile.half(level);
        sketch.line(vec![pos2(at.x(-half), surface), pos2(at.x(half), surface)], pen(Tone::Coolant, weight::MEDIUM));
    }
    let all = at.rows(0.0, lid);
    let left = all.iter().map(|row| pos2(row[1], row[0]));
    let right = all.iter().rev().map(|row| pos2(row[2], row[0]));
    let outline: Vec<Pos2> = left.chain(right).collect();
    let first = outline.first().copied();
    sketch.line(outline.into_iter().chain(first).collect::<Vec<_>>(), OUTLINE);
    sketch.keep_clear(at.body().expand(3.0));
    marks(sketch, reading, at, level);
    caption(sketch, reading, at);
    let tube_end = tube(sketch, reading, at);
    vent(sketch, reading, at);
    if reading.project.tank.arrangement == TankArrangement::RecoveryTank {
        neck_height(sketch, reading, at);
    }
    part(sketch, reading, at);
    TankDrawn { scale: at.scale, floor: at.floor, surface, tube_end, neck: NECK, neck_to_scale: at.neck_to_scale }
}

/// Cold and hot marks on the wall, the live level and the tube's end, in a column beside the tank, top to bottom.
fn marks(sketch: &mut Sketch, reading: &Reading<'_>, at: &Placed, level: f64) {
    let tank = &reading.answers.tank;
    let lid = at.profile.height();
    let edge = |height: f64| at.x(at.profile.half(height));
    let mut column: Vec<(Pos2, String, bool, Tone)> = Vec::with_capacity(4);
    let seen = pos2(edge(level), at.y(reading.true_level(lid)));
    if reading.over_the_lid() {
        column.push((seen, "above the lid".to_owned(), true, Tone::Fault));
    } else if let Some(value) = reading.held().level {
        let now = if reading.terse() { "" } else { "now " };
        column.push((seen, format!("{now}{}", reading.show(value)), true, Tone::Ink));
    }
    for (mark, word, tone) in [(tank.hot_mark, "hot", Tone::Hot), (tank.cold_mark, "cold", Tone::Coolant)] {
        let Some(mark) = mark.filter(|mark| (0.0..=lid).contains(&mark.base())) else { continue };
        let (y, x) = (at.y(mark.base()), edge(mark.base()));
        // A short stroke across the wall, as it would be painted on the tank.
        sketch.line(vec![pos2(x - 9.0, y), pos2(x + 4.0, y)], pen(tone, weight::THICK));
        column.push((pos2(x + 4.0, y), format!("{word} {}", reading.show(mark)), false, tone));
    }
    if reading.project.tank.arrangement == TankArrangement::RecoveryTank {
        let end = reading.project.tank.tube_end;
        let place = pos2(at.tube_x() + 3.0, at.y(end.base().clamp(0.0, lid)));
        column.push((place, format!("tube {}", reading.show(end)), false, Tone::Quiet));
    }
    column.sort_by(|a, b| a.0.y.total_cmp(&b.0.y));
    let anchors: Vec<f32> = column.iter().map(|entry| entry.0.y).collect();
    // A header tank's bleed line runs over its lid.
    let above = if reading.is_header() { -4.0 } else { 6.0 };
    let places = spread(&anchors, ROW, at.lid() - above, at.floor + 2.0);
    for ((anchor, text, strong, tone), y) in column.into_iter().zip(places) {
        let size = if strong { 13.0 } else { 12.0 };
        let wish = Wish::new(anchor).line(text, size, strong, tone);
        let wish = if strong { wish.live() } else { wish };
        sketch.label(wish.at(Side::Left, MARKS - anchor.x, y - anchor.y).led().inside());
    }
}

/// Moves sorted heights apart to `row`, as little as need be, between two ends.
fn spread(wanted: &[f32], row: f32, top: f32, bottom: f32) -> Vec<f32> {
    let mut places: Vec<f32> = Vec::with_capacity(wanted.len());
    for want in wanted {
        let free = places.last().map_or(top, |last| last + row);
        places.push(want.max(free));
    }
    let mut lowest = bottom;
    for place in places.iter_mut().rev() {
        *place = place.min(lowest);
        lowest = *place - row;
    }
    places
}

fn caption(sketch: &mut Sketch, reading: &Reading<'_>, at: &Placed) {
    let tank = &reading.answers.tank;
    let name = match reading.project.tank.arrangement {
        TankArrangement::RecoveryTank => "overflow tank",
        TankArrangement::HeaderTank => "header tank",
        TankArrangement::CatchOnly => "catch-only can",
    };
    // The same words as the verdict's, so that the drawing and the strip never differ.
    let room = ["tank_volume", "air_cushion"].into_iter().find_map(|key| reading.verdict(key));
    let room = room.map_or_else(String::new, |verdict| verdict.margin.show(reading.system));
    let wish = Wish::new(pos2(at.middle, at.floor + 4.0))
        .strong(format!("{name} {}", reading.show(tank.capacity)), Tone::Ink)
        .quiet(room);
    sketch.label(wish.at(Side::Middle, 6.0, 16.0).at(Side::Middle, 6.0, 22.0));
    if let Some(state @ (State::Thin | State::DoesNotHold)) = reading.state(Part::Tank) {
        let centre = pos2(at.body().left() + 12.0, at.lid() + 13.0);
        sketch.figures.push(Figure::Mark { centre, height: 15.0, state });
        sketch.keep_clear(Rect::from_center_size(centre, egui::vec2(17.0, 17.0)));
    }
}

/// The dip tube down to its real end; a catch-only can has a short one under the lid.
fn tube(sketch: &mut Sketch, reading: &Reading<'_>, at: &Placed) -> Option<f32> {
    let tank = &reading.project.tank;
    let x = at.tube_x();
    let end = match tank.arrangement {
        TankArrangement::HeaderTank => return None,
        TankArrangement::RecoveryTank => at.y(tank.tube_end.base().clamp(0.0, at.profile.height())),
        TankArrangement::CatchOnly => at.lid() + 14.0,
    };
    let top = at.lid();
    for side in [-3.0, 3.0] {
        sketch.line(vec![pos2(x + side, top - 8.0), pos2(x + side, end)], pen(Tone::Ink, weight::THIN + 0.25));
    }
    Some(end)
}

fn vent(sketch: &mut Sketch, reading: &Reading<'_>, at: &Placed) {
    let tank = &reading.project.tank;
    if tank.arrangement == TankArrangement::HeaderTank {
        return;
    }
    let lid = at.lid();
    // On the far side of the lid from the tube.
    let reach = at.profile.half(at.profile.height()).max(0.25 * at.profile.width());
    let away = if at.tube_x() > at.middle + 1.0 { -0.55 } else { 0.55 };
    let x = at.x(reach * away);
    let bore = reading.show(tank.vent_diameter);
    let text = match tank.vent {
        VentKind::Hole => {
            sketch.line(vec![pos2(x - 4.0, lid), pos2(x + 4.0, lid)], pen(Tone::Card, weight::THICK + 0.5));
            for side in [-4.0, 4.0] {
                sketch.line(vec![pos2(x + side, lid - 3.0), pos2(x + side, lid + 3.0)], DETAIL);
            }
            format!("vent {bore}")
        }
        VentKind::Tube => {
            let path = [pos2(x, lid + 4.0), pos2(x, lid - 16.0), pos2(x + 18.0, lid - 16.0), pos2(x + 18.0, lid - 6.0)];
            sketch.hose(&path, 8.0, 4.0, Tone::Card);
            format!("vent tube {bore}")
        }
        VentKind::Sealed => {
            let (left, right) = (at.x(-reach) - 3.0, at.x(reach) + 3.0);
            sketch.line(vec![pos2(left, lid - 2.0), pos2(right, lid - 2.0)], pen(Tone::Ink, weight::THICK + 1.0));
            let gauge = reading.show(reading.held().tank_gauge);
            format!("sealed: {gauge}")
        }
    };
    let tone = if tank.vent == VentKind::Sealed { Tone::Fault } else { Tone::Ink };
    let wish = Wish::new(pos2(x, lid - 3.0)).line(text, 12.0, false, tone);
    let wish = wish.at(Side::Middle, -5.0, -12.0).at(Side::Left, MARKS - 14.0 - x, -12.0).at(Side::Right, -4.0, -14.0);
    sketch.label(wish.led());
}

/// The height of the filler neck above the floor, as a measure; broken when it is not to scale.
fn neck_height(sketch: &mut Sketch, reading: &Reading<'_>, at: &Placed) {
    let x = 9.0;
    let (top, bottom) = (NECK.min(at.floor), NECK.max(at.floor));
    for y in [NECK, at.floor] {
        sketch.dashed(vec![pos2(x - 4.0, y), pos2(if y == NECK { 214.0 } else { at.body().left() }, y)], HAIR);
    }
    let middle = (top + bottom) / 2.0;
    if at.neck_to_scale {
        sketch.line(vec![pos2(x, top), pos2(x, bottom)], DETAIL);
    } else {
        // The usual zigzag of a shortened measure.
        let zig = [(0.0, -7.0), (-5.0, -3.0), (5.0, 3.0), (0.0, 7.0)].map(|(dx, dy)| pos2(x + dx, middle + dy));
        let line: Vec<Pos2> = [pos2(x, top)].into_iter().chain(zig).chain([pos2(x, bottom)]).collect();
        sketch.line(line, DETAIL);
    }
    for (tip, from) in [(top, top + 8.0), (bottom, bottom - 8.0)] {
        sketch.figures.push(Figure::Head { from: pos2(x, from), tip: pos2(x, tip), width: 6.0, tone: Tone::Quiet });
    }
    sketch.keep_clear(rect(x - 3.0, top, x + 3.0, bottom));
    let words = reading.show_as(reading.project.tank.neck_height, Kind::Length);
    let wish = Wish::new(pos2(x, (NECK + at.lid()) / 2.0)).quiet(words);
    sketch.label(wish.at(Side::Left, 5.0, 0.0).at(Side::Left, 5.0, -16.0).at(Side::Left, 5.0, 16.0));
}

fn part(sketch: &mut Sketch, reading: &Reading<'_>, at: &Placed) {
    let mut name = Part::Tank.name().to_owned();
    let held = reading.held();
    let says = match held.level {
        Some(level) => format!(", level {}", reading.show(level)),
        None if reading.over_the_lid() => ", above the lid".to_owned(),
        None => format!(", {} in it", reading.show(held.in_tank)),
    };
    name.push_str(&says);
    for (word, mark) in [("cold", reading.answers.tank.cold_mark), ("hot", reading.answers.tank.hot_mark)] {
        if let Some(mark) = mark {
            name.push_str(&format!(", {word} mark {}", reading.show(mark)));
        }
    }
    if reading.project.tank.vent == VentKind::Sealed && !reading.is_header() {
        name.push_str(&format!(", lid sealed at {}", reading.show(held.tank_gauge)));
    }
    let body = at.body();
    let area = rect(body.left() - 6.0, body.top() - 10.0, MARKS + 58.0, at.floor + 34.0);
    super::finish_part(sketch, reading, Part::Tank, name, vec![area]);
}

#[cfg(test)]
mod tests {
    use super::spread;

    #[test]
    fn rows_keep_apart_and_in_order() {
        let places = spread(&[100.0, 101.0, 102.0, 300.0], 15.0, 90.0, 200.0);
        assert!(places.windows(2).all(|pair| pair[1] - pair[0] >= 15.0 - 1e-3), "{places:?}");
        assert!(places.iter().all(|place| (80.0..=200.0).contains(place)), "{places:?}");
        assert_eq!(spread(&[10.0, 60.0], 15.0, 0.0, 100.0), [10.0, 60.0]);
    }
}
