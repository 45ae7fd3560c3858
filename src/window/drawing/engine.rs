//! The engine in section: water jackets round two cylinders, heads, covers with their baffles, crankcase and sump.

use super::label::Wish;
use super::reading::Reading;
use super::scene::{Figure, Side, Stream, Tone};
use super::sketch::{DETAIL, HAIR, OUTLINE, Sketch, pen, rect};
use crate::quantity::Measured;
use crate::study::{
    DutyAnswers, EngineFuel, EngineMetal, FlowPath, GasSource, Induction, Part, State, VentilationArrangement,
};
use crate::window::tokens::{size, weight};
use egui::{Pos2, Rect, pos2};

/// Left wall of the engine.
pub const LEFT: f32 = 372.0;
/// Right wall.
pub const RIGHT: f32 = 596.0;
/// Between the two banks.
pub const MIDDLE: f32 = 484.0;
/// Top of the covers, of the heads, of the block, of the crankcase, bottom of the sump.
pub const COVERS: f32 = 78.0;
/// Top of the heads.
pub const HEADS: f32 = 112.0;
const BLOCK: f32 = 182.0;
const CASE: f32 = 302.0;
const SUMP: f32 = 474.0;
/// How round the sump is.
const ROUND: f32 = 54.0;
/// The way the gas rises between the cylinders.
const GALLERY: (f32, f32) = (464.0, 504.0);
/// Where the left cover's line leaves, on top.
pub const LEFT_OUTLET: f32 = 424.0;
/// Where the right cover's line leaves, at its side.
pub const RIGHT_OUTLET: f32 = 96.0;

/// Draws the engine.
pub fn draw(sketch: &mut Sketch, reading: &Reading<'_>) {
    castings(sketch);
    sump(sketch);
    let bores = bores(reading);
    for (index, bore) in bores.iter().enumerate() {
        cylinder(sketch, reading, *bore, index, bores.len());
    }
    pressure(sketch, reading);
    covers(sketch, reading);
    gallery(sketch, reading);
    words(sketch, reading);
    engine_part(sketch, reading);
    cover_joint_part(sketch, reading);
}

fn castings(sketch: &mut Sketch) {
    // The jackets: the whole casting full of coolant; bores and gallery are drawn over it.
    sketch.block(rect(LEFT, HEADS, RIGHT, BLOCK), Tone::CoolantWash);
    sketch.block(rect(LEFT, BLOCK, RIGHT, CASE), Tone::CoolantWash);
    sketch.keep_clear(rect(LEFT - 2.0, COVERS, RIGHT + 2.0, SUMP));
}

/// One bore for a single, else two of however many.
fn bores(reading: &Reading<'_>) -> Vec<Rect> {
    let half = 31.0;
    let middles: &[f32] = if reading.project.engine.cylinders == 1 { &[422.0] } else { &[422.0, 546.0] };
    middles.iter().map(|middle| rect(middle - half, BLOCK, middle + half, CASE)).collect()
}

fn cylinder(sketch: &mut Sketch, reading: &Reading<'_>, bore: Rect, index: usize, of: usize) {
    let wall = 5.0;
    sketch.area(super::sketch::corners(bore), Some(Tone::Line), Some(OUTLINE));
    let inside = rect(bore.left() + wall, bore.top(), bore.right() - wall, bore.bottom() + 4.0);
    sketch.wash(inside, Tone::Card);
    sketch.line(vec![inside.left_top(), inside.left_bottom()], DETAIL);
    sketch.line(vec![inside.right_top(), inside.right_bottom()], DETAIL);
    // The combustion chamber's roof.
    let roof = [(0.0, 0.0), (0.25, -12.0), (0.75, -12.0), (1.0, 0.0)]
        .map(|(share, up)| pos2(inside.left() + inside.width() * share, BLOCK + up));
    sketch.area(roof.to_vec(), Some(Tone::Card), Some(OUTLINE));
    sketch.wash(rect(inside.left() + 1.0, BLOCK - 1.5, inside.right() - 1.0, BLOCK + 1.5), Tone::Card);
    let crown = BLOCK + if index == 0 { 16.0 } else { 44.0 };
    let piston = rect(inside.left() + 4.0, crown, inside.right() - 4.0, crown + 46.0);
    let pin = pos2(piston.center().x, crown + 30.0);
    let throw = pos2(piston.center().x + if index == 0 { -9.0 } else { 9.0 }, CASE + 18.0);
    rod(sketch, pin, throw);
    sketch.rounded(piston, 3.0, Tone::Line, OUTLINE);
    for ring in [7.0, 13.0, 19.0] {
        let y = crown + ring;
        sketch.line(vec![pos2(inside.left() + 1.0, y), pos2(inside.right() - 1.0, y)], pen(Tone::Ink, weight::MEDIUM));
    }
    sketch.round(pin, 6.0, Some(Tone::Card), Some(OUTLINE));
    // Past the rings on both sides; each arrow is its share of the whole.
    let each = reading.blow_by() / (2.0 * of as f64);
    for x in [inside.left() + 2.0, inside.right() - 2.0] {
        let path = vec![pos2(x, crown - 4.0), pos2(x, CASE + 12.0)];
        sketch.flow(Stream::BlowBy, path, each, reading.arrow_width(each));
    }
}

fn rod(sketch: &mut Sketch, pin: Pos2, throw: Pos2) {
    let across = (throw - pin).normalized().rot90();
    let shape = vec![pin + across * 4.5, throw + across * 7.0, throw - across * 7.0, pin - across * 4.5];
    sketch.area(shape, Some(Tone::Card), Some(DETAIL));
    sketch.round(throw, 9.0, Some(Tone::Card), Some(DETAIL));
}

/// The crankcase and its sump: wide at the top, rounded at the bottom, oil in it.
fn sump(sketch: &mut Sketch) {
    let bottom = super::sketch::round_corners(rect(LEFT, CASE, RIGHT, SUMP), ROUND);
    let low = bottom.into_iter().filter(|point| point.y > CASE + 70.0);
    let outline: Vec<Pos2> = [pos2(LEFT, CASE), pos2(RIGHT, CASE)].into_iter().chain(low).collect();
    sketch.area(outline, Some(Tone::GasWash), Some(OUTLINE));
    let surface = SUMP - 20.0;
    let rows = (0..=10_u8).map(|step| {
        let y = surface + 19.0 * f32::from(step) / 10.0;
        let down = (y - (SUMP - ROUND)).max(0.0);
        let inset = ROUND - (ROUND * ROUND - down * down).max(0.0).sqrt();
        [y, LEFT + inset + 1.0, RIGHT - inset - 1.0]
    });
    sketch.figures.push(Figure::Rows { rows: rows.collect(), fill: Tone::Line });
}

/// The crankcase pressure, big, with its limit and its verdict in words.
fn pressure(sketch: &mut Sketch, reading: &Reading<'_>) {
    let centre = MIDDLE;
    if let Some(point) = reading.day().filter(|point| point.running()) {
        super::daily::crankcase(sketch, reading, point, pos2(centre, 384.0));
        return;
    }
    let Some(case) = reading.case() else {
        let words = reading.why_at_rest();
        sketch.label(
            Wish::new(pos2(centre, 384.0))
                .line(words, size::BODY, true, Tone::Ink)
                .live()
                .quiet("no gas flows")
                .at(Side::Middle, 0.0, 0.0)
                .inside(),
        );
        return;
    };
    let state = reading.crankcase_state().unwrap_or(State::NotKnown);
    let tone = if state == State::DoesNotHold { Tone::Fault } else { Tone::Ink };
    sketch.label(
        Wish::new(pos2(centre, 368.0))
            .line(reading.stands(case), size::LARGE, true, tone)
            .at(Side::Middle, 0.0, 0.0)
            .inside(),
    );
    sketch.line(vec![pos2(centre - 46.0, 386.0), pos2(centre + 46.0, 386.0)], pen(Tone::State(state), weight::THICK));
    sketch.figures.push(Figure::Mark { centre: pos2(centre - 98.0, 368.0), height: 16.0, state });
    sketch.label(
        Wish::new(pos2(centre, 410.0))
            .line(state.word(), size::BODY, true, tone)
            .line(reading.crankcase_spread(), 13.0, true, tone)
            .quiet(reading.crankcase_limit())
            .at(Side::Middle, 0.0, 4.0)
            .inside(),
    );
}

/// Whether two covers are drawn: each way has one of its own, a hose joins them, or a line leaves between them.
pub fn two_covers(reading: &Reading<'_>) -> bool {
    use VentilationArrangement as A;
    let ventilation = &reading.project.ventilation;
    ventilation.crossover.known
        || ventilation.gas_source() == GasSource::Valley
        || matches!(ventilation.arrangement, A::BreatherWithValve | A::ClosedWithFreshAirLine | A::TwoBreathers)
}

fn covers(sketch: &mut Sketch, reading: &Reading<'_>) {
    let source = reading.project.ventilation.gas_source();
    let apart = if source == GasSource::Valley { 14.0 } else { 4.0 };
    let spans: &[(f32, f32)] = if two_covers(reading) {
        &[(LEFT + 4.0, MIDDLE - apart), (MIDDLE + apart, RIGHT - 4.0)]
    } else {
        &[(LEFT + 4.0, RIGHT - 4.0)]
    };
    for (left, right) in spans {
        let shape = vec![
            pos2(left + 14.0, COVERS),
            pos2(right - 14.0, COVERS),
            pos2(*right, COVERS + 12.0),
            pos2(*right, HEADS),
            pos2(*left, HEADS),
            pos2(*left, COVERS + 12.0),
        ];
        sketch.area(shape, Some(Tone::GasWash), Some(OUTLINE));
    }
    // The baffle below each outlet: a plate the gas has to go round.
    let (first, second) = ((LEFT + 26.0, 452.0), (516.0, RIGHT - 12.0));
    let outlets: &[(f32, f32)] = match reading.project.ventilation.arrangement {
        _ if reading.project.ventilation.crossover.known => &[first, second],
        VentilationArrangement::BreatherOnly | VentilationArrangement::LineToAirCleaner
            if source == GasSource::Cover =>
        {
            &[first]
        }
        VentilationArrangement::BreatherOnly | VentilationArrangement::LineToAirCleaner => &[],
        VentilationArrangement::ValveOnly => &[second],
        _ if source != GasSource::Cover => &[second],
        _ => &[first, second],
    };
    for (left, right) in outlets {
        sketch.line(vec![pos2(*left, 104.0), pos2(*right, 104.0)], pen(Tone::Ink, weight::MEDIUM));
        let mut x = left + 8.0;
        while x < right - 4.0 {
            sketch.line(vec![pos2(x, 104.0), pos2(x + 4.0, 108.0)], DETAIL);
            x += 10.0;
        }
    }
}

/// The gallery, and the gas in it.
fn gallery(sketch: &mut Sketch, reading: &Reading<'_>) {
    let (left, right) = GALLERY;
    sketch.wash(rect(left, HEADS - 1.0, right, CASE + 1.5), Tone::GasWash);
    for x in [left, right] {
        sketch.line(vec![pos2(x, HEADS), pos2(x, CASE)], OUTLINE);
    }
    let up = |x: f32, to: Pos2| super::sketch::bent(&[pos2(x, CASE + 26.0), pos2(x, to.y), to], 10.0);
    let to_left = up(MIDDLE - 10.0, pos2(LEFT_OUTLET + 34.0, 94.0));
    let to_right = up(MIDDLE + 10.0, pos2(RIGHT - 62.0, 96.0));
    let ventilation = &reading.project.ventilation;
    let source = ventilation.gas_source();
    if two_covers(reading) {
        // A line from the valley takes its gas where the two sides meet.
        let top = if source == GasSource::Valley { HEADS + 44.0 } else { HEADS };
        sketch.line(vec![pos2(MIDDLE, top), pos2(MIDDLE, CASE)], OUTLINE);
    }
    let second = if ventilation.has_valve() { FlowPath::Valve } else { FlowPath::SecondBreather };
    let breather = reading.flow(FlowPath::Breather);
    // What the cross-over takes from one cover has risen into that one.
    let across = reading.crossover();
    let taken = if source == GasSource::Cover { breather } else { 0.0 };
    let own = |path| if across == 0.0 { Stream::Way(path) } else { Stream::Rising };
    for (stream, way, flow) in
        [(own(FlowPath::Breather), to_left, taken - across), (own(second), to_right, reading.flow(second) + across)]
    {
        sketch.flow(stream, way, flow, reading.arrow_width(flow));
    }
    if source == GasSource::Valley {
        let way = vec![pos2(MIDDLE, CASE + 12.0), pos2(MIDDLE, HEADS + 4.0)];
        sketch.flow(Stream::Way(FlowPath::Breather), way, breather, reading.arrow_width(breather));
    }
}

fn words(sketch: &mut Sketch, reading: &Reading<'_>) {
    let held = reading.held();
    sketch.label(
        Wish::new(pos2(418.0, 140.0))
            .line(reading.outlet(), size::BODY + 1.0, true, Tone::Ink)
            .live()
            .words("coolant")
            .at(Side::Middle, 0.0, 0.0)
            .inside(),
    );
    let margin = held.margin.likely;
    // Where boiling begins the margin is 0 K but for rounding.
    let boils = margin.base() <= 0.0 || reading.duty().is_some_and(DutyAnswers::boils);
    let lines = if boils {
        Wish::new(pos2(550.0, 140.0)).line("boils", size::BODY + 1.0, true, Tone::Fault).live().words("at the ports")
    } else {
        Wish::new(pos2(550.0, 140.0))
            .line(reading.show(margin), size::BODY + 1.0, true, Tone::Ink)
            .live()
            .words("below boiling")
    };
    if let Some(point) = reading.day() {
        super::daily::vapour(
            sketch,
            reading,
            point.sample.vapour,
            rect(LEFT + 8.0, BLOCK - 24.0, RIGHT - 8.0, BLOCK + 6.0),
        );
    }
    sketch.label(lines.at(Side::Middle, 0.0, 0.0).inside());
    let engine = &reading.project.engine;
    let metal = |metal| if metal == EngineMetal::Iron { "iron" } else { "aluminium" };
    let drawn = match engine.cylinders {
        1 => "one cylinder".to_owned(),
        2 => "two cylinders".to_owned(),
        many => format!("two of {many} cylinders drawn"),
    };
    let cast = format!("{} block, {} heads", metal(engine.block_metal), metal(engine.head_metal));
    let breathes = match (engine.fuel, engine.induction) {
        (EngineFuel::Petrol, Induction::Natural) => "",
        (EngineFuel::Diesel, Induction::Natural) => "diesel",
        (EngineFuel::Petrol, Induction::Turbocharger) => "turbocharged",
        (EngineFuel::Diesel, Induction::Turbocharger) => "turbocharged diesel",
        (EngineFuel::Petrol, Induction::Supercharger) => "with a blower",
        (EngineFuel::Diesel, Induction::Supercharger) => "diesel with a blower",
    };
    let drawn = if breathes.is_empty() { drawn } else { format!("{drawn}, {breathes}") };
    let wish = Wish::new(pos2(MIDDLE, SUMP + 4.0)).quiet(drawn).quiet(cast);
    sketch.label(wish.at(Side::Middle, 0.0, 19.0));
    // The level the heads and the block part at.
    sketch.line(vec![pos2(LEFT, BLOCK), pos2(LEFT - 5.0, BLOCK)], HAIR);
}

fn engine_part(sketch: &mut Sketch, reading: &Reading<'_>) {
    let name = format!("{}, coolant {} at the outlet", Part::Engine.name(), reading.outlet());
    super::finish_part(sketch, reading, Part::Engine, name, vec![rect(LEFT, HEADS, RIGHT, CASE)]);
}

/// The joint between covers and heads: the line they meet in, and the covers as a place to point at.
fn cover_joint_part(sketch: &mut Sketch, reading: &Reading<'_>) {
    let joint = reading.answers.cover_joint.as_ref();
    let torque = joint.and_then(|joint| joint.torque.or(joint.window.aim));
    let says = match (joint, torque) {
        (Some(_), Some(torque)) => format!(", torque {}", reading.show(torque)),
        (Some(_), None) => ", no torque is right".to_owned(),
        (None, _) => ", not measured".to_owned(),
    };
    if let Some(state @ (State::Thin | State::DoesNotHold)) = reading.state(Part::CoverJoint) {
        sketch.figures.push(Figure::Mark { centre: pos2(MIDDLE, HEADS - 9.0), height: 13.0, state });
    }
    let name = format!("{}{says}", Part::CoverJoint.name());
    super::finish_part(sketch, reading, Part::CoverJoint, name, vec![rect(LEFT, COVERS, RIGHT, HEADS)]);
}

/// The crankcase as a part; after everything that lies under it.
pub fn crankcase_part(sketch: &mut Sketch, reading: &Reading<'_>) {
    let says = match (reading.case(), reading.crankcase_state()) {
        (Some(case), Some(state)) => format!(", {} now {}", reading.stands(case), state.word()),
        _ if reading.day().is_some() && reading.running() => {
            let gauge = reading.day().and_then(|point| point.crankcase).and_then(|case| case.gauge);
            gauge.map_or_else(|| ", pressure not known".to_owned(), |gauge| format!(", {} now", reading.signed(gauge)))
        }
        _ => ", engine at rest".to_owned(),
    };
    let name = format!("{}{says}", Part::Crankcase.name());
    super::finish_part(sketch, reading, Part::Crankcase, name, vec![rect(LEFT, CASE, RIGHT, SUMP)]);
}
