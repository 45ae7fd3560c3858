//! Radiator, cap, thermostat, pump, heater and the coolant hoses.

use super::engine::{HEADS, LEFT};
use super::label::Wish;
use super::reading::Reading;
use super::scene::{Figure, Side, Tone};
use super::sketch::{DETAIL, HAIR, OUTLINE, Sketch, pen, rect};
use super::tank::{NECK, Placed};
use crate::day::CapState;
use crate::quantity::{Kind, Measured};
use crate::study::{Part, RadiatorKnowledge, State, TankArrangement, Thermal, VolumeKnowledge};
use crate::window::tokens::weight;
use egui::{Rect, pos2, vec2};

/// The radiator's right edge and its top.
const EDGE: f32 = 284.0;
const TOP: f32 = 168.0;
const PUMP: egui::Pos2 = pos2(350.0, 272.0);
/// Inside width of the main hoses.
const HOSE: f32 = 13.0;

/// The radiator's outline: its size hints at the frontal area.
fn radiator(reading: &Reading<'_>) -> Rect {
    // A core measured by one steady temperature is not asked for its size: drawn of usual size.
    let area = match reading.project.radiator.knowledge {
        RadiatorKnowledge::Estimated | RadiatorKnowledge::Core => reading.project.radiator.face().base().max(0.0),
        RadiatorKnowledge::MeasuredPoint => 0.28,
    };
    let side = area.sqrt() as f32;
    let width = (128.0 * side).clamp(46.0, 78.0);
    rect(EDGE - width, TOP, EDGE, TOP + (410.0 * side).clamp(150.0, 240.0))
}

/// Draws the cooling circuit up to the engine's walls.
pub fn draw(sketch: &mut Sketch, reading: &Reading<'_>, tank: Option<&Placed>) {
    let body = radiator(reading);
    let running = reading.running();
    let hot = if reading.warm() { Tone::Hot } else { Tone::Coolant };
    let opening = reading.drawn_opening();
    hoses(sketch, body, hot, opening, running);
    draw_radiator(sketch, reading, body);
    if let Some(point) = reading.day() {
        super::daily::fan(sketch, body, point.sample.fan);
    }
    if let Some(tank) = tank {
        if reading.is_header() {
            header_hoses(sketch, tank, body, running);
        } else {
            overflow_hose(sketch, reading, tank, body);
        }
    }
    cap(sketch, reading, body, tank);
    thermostat(sketch, reading, opening);
}

fn hoses(sketch: &mut Sketch, body: Rect, hot: Tone, opening: f32, running: bool) {
    let upper = body.top() + 24.0;
    let top = [pos2(346.0, 148.0), pos2(316.0, 148.0), pos2(316.0, upper), pos2(EDGE, upper)];
    sketch.hose(&top, 16.0, HOSE, if opening > 0.01 { hot } else { Tone::Coolant });
    let lower = body.bottom() - 24.0;
    let bottom = [pos2(EDGE, lower), pos2(318.0, lower), pos2(318.0, PUMP.y + 6.0), pos2(PUMP.x, PUMP.y + 6.0)];
    sketch.hose(&bottom, 16.0, HOSE, Tone::Coolant);
    if running && opening > 0.01 {
        sketch.chevron(pos2(314.0, upper), pos2(292.0, upper), 7.0, Tone::Paper);
        sketch.chevron(pos2(318.0, lower - 34.0), pos2(318.0, lower - 54.0), 7.0, Tone::Paper);
    }
}

fn draw_radiator(sketch: &mut Sketch, reading: &Reading<'_>, body: Rect) {
    let tank = 20.0;
    sketch.rounded(body, 5.0, Tone::CoolantWash, OUTLINE);
    let core = rect(body.left(), body.top() + tank, body.right(), body.bottom() - tank);
    sketch.area(super::sketch::corners(core), Some(Tone::Card), Some(OUTLINE));
    // Tubes full of coolant, and fins between them.
    let tubes = (core.width() / 13.0).floor().max(3.0);
    let pitch = core.width() / tubes;
    let mut x = core.left() + pitch / 2.0;
    while x < core.right() {
        sketch.wash(rect(x - 1.6, core.top() + 1.0, x + 1.6, core.bottom() - 1.0), Tone::CoolantDeep);
        let mut y = core.top() + 6.0;
        let next = x + pitch;
        while y < core.bottom() - 4.0 && next < core.right() {
            sketch.line(vec![pos2(x + 1.6, y), pos2((x + next) / 2.0, y + 3.0), pos2(next - 1.6, y)], HAIR);
            y += 7.0;
        }
        x = next;
    }
    sketch.keep_clear(body.expand(2.0));
    let inputs = &reading.project.radiator;
    let size = match inputs.knowledge {
        RadiatorKnowledge::Estimated | RadiatorKnowledge::Core => {
            format!("radiator {}", reading.show_as(inputs.face(), Kind::Area))
        }
        RadiatorKnowledge::MeasuredPoint => "radiator, measured".to_owned(),
    };
    let thermal = reading.duty().map(|duty| &duty.thermal);
    let spare = match thermal {
        Some(Thermal::Steady { spare, .. }) if spare.base() >= 0.0 => format!("{} to spare", reading.show(*spare)),
        Some(Thermal::Steady { fan, .. }) if fan.cycles() => "fan goes on and off".to_owned(),
        Some(Thermal::Steady { radiator_rules: true, .. }) => "sets the temperature".to_owned(),
        Some(Thermal::Steady { .. }) => "hardly any to spare".to_owned(),
        Some(Thermal::StaysShut) => "not needed: runs cold".to_owned(),
        Some(Thermal::NoSteadyState { thermostat_too_late: true, .. }) => "thermostat opens too late".to_owned(),
        Some(Thermal::NoSteadyState { excess, .. }) => format!("{} too little", reading.show(*excess)),
        None => reading.radiator_heat().map_or_else(String::new, |heat| format!("gives off {}", reading.show(heat))),
    };
    let below = pos2(body.center().x, body.bottom() + 4.0);
    sketch.label(Wish::new(below).words(size.clone()).quiet(spare.clone()).at(Side::Middle, 0.0, 18.0));
    if let Some(outlet) = reading.radiator_outlet() {
        let anchor = pos2(318.0, body.bottom() - 16.0);
        let wish = Wish::new(anchor).line(reading.show(outlet), 12.0, false, Tone::Coolant);
        sketch.label(wish.at(Side::Left, -30.0, 12.0).at(Side::Left, 14.0, -20.0));
    }
    let mut name = Part::Radiator.name().to_owned();
    for words in [size.strip_prefix("radiator ").unwrap_or(""), &spare] {
        if !words.is_empty() {
            name.push_str(&format!(", {words}"));
        }
    }
    mark(sketch, reading, Part::Radiator, pos2(body.left() - 12.0, body.bottom() - 10.0));
    super::finish_part(sketch, reading, Part::Radiator, name, vec![body]);
}

fn mark(sketch: &mut Sketch, reading: &Reading<'_>, part: Part, centre: egui::Pos2) {
    if let Some(state @ (State::Thin | State::DoesNotHold)) = reading.state(part) {
        sketch.figures.push(Figure::Mark { centre, height: 15.0, state });
        sketch.keep_clear(Rect::from_center_size(centre, vec2(17.0, 17.0)));
    }
}

/// The middle of the filler neck.
fn neck_x(body: Rect) -> f32 {
    body.left() + 20.0
}

fn overflow_hose(sketch: &mut Sketch, reading: &Reading<'_>, tank: &Placed, body: Rect) {
    let (start, end) = (pos2(neck_x(body) - 10.0, NECK + 6.0), pos2(tank.tube_x(), tank.lid() - 4.0));
    // Down from the neck and over to the lid; or up first, to a tank that stands higher.
    let over = if end.y > start.y + 30.0 { start.y + 6.0 } else { end.y - 22.0 };
    let aside = body.left() - 7.0;
    let path = if over > start.y {
        vec![start, pos2(tank.tube_x(), start.y), end]
    } else {
        vec![start, pos2(aside, start.y), pos2(aside, over), pos2(tank.tube_x(), over), end]
    };
    let fill = if reading.held().cap_open { Tone::CoolantDeep } else { Tone::CoolantWash };
    sketch.hose(&path, 26.0, 5.0, fill);
    if reading.day().is_some() {
        super::daily::passing(sketch, &path, reading.cap());
    }
}

fn header_hoses(sketch: &mut Sketch, tank: &Placed, body: Rect, running: bool) {
    let box_ = tank.body();
    let down = box_.center().x;
    let low = body.bottom() + 52.0;
    // Into the suction side of the pump, by way of the bottom hose.
    let joint = body.bottom() - 64.0;
    let feed = [
        pos2(down, box_.bottom() - 1.0),
        pos2(down, low),
        pos2(346.0, low),
        pos2(346.0, joint),
        pos2(318.0 + HOSE / 2.0, joint),
    ];
    sketch.hose(&feed, 16.0, 9.0, Tone::CoolantDeep);
    let over = tank.lid() - 20.0;
    let bleed = [
        pos2(body.left() + 12.0, body.top() + 2.0),
        pos2(body.left() + 12.0, over),
        pos2(box_.right() - 12.0, over),
        pos2(box_.right() - 12.0, tank.lid() + 3.0),
    ];
    sketch.hose(&bleed, 12.0, 5.0, Tone::CoolantDeep);
    if running {
        sketch.chevron(pos2(down, low - 40.0), pos2(down, low - 26.0), 6.0, Tone::Paper);
    }
    let words = Wish::new(pos2((down + body.left()) / 2.0, low)).quiet("feed to the pump");
    sketch.label(words.at(Side::Middle, 0.0, 16.0).at(Side::Middle, 0.0, -16.0));
}

/// The cap in section: lifted when open; on the header tank when that is where the pressure is held.
fn cap(sketch: &mut Sketch, reading: &Reading<'_>, body: Rect, tank: Option<&Placed>) {
    let held = reading.held();
    let header = tank.filter(|_| reading.is_header());
    let (x, seat) = header.map_or((neck_x(body), NECK), |tank| (tank.body().center().x, tank.lid() - 12.0));
    let foot = header.map_or(body.top(), Placed::lid);
    sketch.area(super::sketch::corners(rect(x - 11.0, seat, x + 11.0, foot + 1.0)), Some(Tone::CoolantWash), None);
    for side in [-11.0, 11.0] {
        sketch.line(vec![pos2(x + side, seat - 4.0), pos2(x + side, foot)], OUTLINE);
    }
    let does = reading.cap();
    let lift = if held.cap_open { 5.0 } else { 0.0 };
    // Plate, spring and shell.
    sketch
        .line(vec![pos2(x - 9.0, seat + 3.0 - lift), pos2(x + 9.0, seat + 3.0 - lift)], pen(Tone::Ink, weight::THICK));
    let (low, high) = (seat + 1.0 - lift, seat - 11.0);
    let spring: Vec<_> = (0..=6_u8)
        .map(|turn| {
            let side = if turn % 2 == 0 { -5.0 } else { 5.0 };
            pos2(x + side, low + (high - low) * f32::from(turn) / 6.0)
        })
        .collect();
    sketch.line(spring, DETAIL);
    let shell = rect(x - 16.0, seat - 17.0, x + 16.0, seat - 10.0);
    sketch.rounded(shell, 3.0, Tone::Ink, OUTLINE);
    let whole = rect(x - 17.0, seat - 18.0, x + 17.0, foot);
    sketch.keep_clear(whole);
    let opens = reading.show(reading.answers.coolant.cap_opening.likely);
    let state = if held.cap_open { "open" } else { "shut" };
    let gauge = reading.show(held.gauge);
    // Below the fill's temperature the small valve in the cap lets coolant back in.
    let says = match (does, reading.day()) {
        (CapState::LetsIn, None) => "draws coolant back".to_owned(),
        (CapState::LetsIn, Some(_)) => format!("lets in at {gauge}"),
        (CapState::LetsOut, Some(_)) => format!("lets out at {gauge}"),
        _ => format!("{state} at {gauge}"),
    };
    let wish = Wish::new(pos2(x, seat - 18.0)).words(format!("cap opens at {opens}")).line(
        says.clone(),
        13.0,
        true,
        if held.cap_open { Tone::Hot } else { Tone::Ink },
    );
    let wish = wish.live();
    sketch.label(wish.at(Side::Middle, 0.0, -20.0).at(Side::Left, -10.0, -22.0).at(Side::Left, 22.0, 0.0));
    mark(sketch, reading, Part::Cap, pos2(x + 27.0, seat - 12.0));
    let name = format!("{}, {says}, opens at {opens}", Part::Cap.name());
    super::finish_part(sketch, reading, Part::Cap, name, vec![whole.expand2(vec2(4.0, 3.0))]);
}

/// The housing at the head with the valve's plate in it, turned by how far it is open.
fn thermostat(sketch: &mut Sketch, reading: &Reading<'_>, opening: f32) {
    let housing = rect(340.0, 130.0, LEFT, 166.0);
    sketch.rounded(housing, 6.0, Tone::CoolantWash, OUTLINE);
    let centre = housing.center();
    // A lift valve: the plate leaves its seat by the opening.
    let lift = 9.0 * opening.clamp(0.0, 1.0);
    for side in [-1.0, 1.0] {
        sketch.line(
            vec![pos2(centre.x - 2.0, centre.y + side * 17.0), pos2(centre.x - 2.0, centre.y + side * 8.0)],
            pen(Tone::Ink, weight::THICK),
        );
    }
    let plate = centre.x - 2.0 + lift;
    sketch.line(vec![pos2(plate, centre.y - 9.5), pos2(plate, centre.y + 9.5)], pen(Tone::Hot, weight::THICK));
    sketch.line(vec![pos2(plate, centre.y), pos2(LEFT - 1.0, centre.y)], DETAIL);
    sketch.keep_clear(housing);
    let set = reading.show(reading.project.thermostat.set_point);
    let says = match reading.opening() {
        Some(open) if open <= 0.0 => "shut".to_owned(),
        Some(open) if open >= 1.0 => "fully open".to_owned(),
        Some(open) => format!("{:.0} % open", open * 100.0),
        None if reading.duty().is_some() => "opens too late".to_owned(),
        None if opening > 0.5 => "open, engine stopped".to_owned(),
        None => "shut".to_owned(),
    };
    let wish = Wish::new(pos2(centre.x, housing.top())).words(format!("thermostat {set}")).quiet(says.clone());
    sketch.label(wish.at(Side::Right, 10.0, -20.0).at(Side::Right, 4.0, -24.0));
    mark(sketch, reading, Part::Thermostat, pos2(housing.left() - 12.0, housing.top() + 2.0));
    let name = format!("{}, set-point {set}, {says}", Part::Thermostat.name());
    super::finish_part(sketch, reading, Part::Thermostat, name, vec![housing.expand(2.0)]);
}

/// The pump and the heater, drawn over the hoses' ends.
pub fn pump_and_heater(sketch: &mut Sketch, reading: &Reading<'_>) {
    let circuit = &reading.project.circuit;
    let heater = circuit.knowledge == VolumeKnowledge::Measured || circuit.heater.base() > 0.0;
    if heater {
        let core = rect(296.0, 206.0, 338.0, 248.0);
        let supply = [pos2(LEFT, HEADS + 66.0), pos2(358.0, HEADS + 66.0), pos2(358.0, 216.0), pos2(338.0, 216.0)];
        let back = [pos2(338.0, 238.0), pos2(350.0, 238.0), pos2(350.0, PUMP.y - 12.0)];
        let warm = if reading.warm() { Tone::Hot } else { Tone::Coolant };
        sketch.hose(&supply, 8.0, 5.0, warm);
        sketch.hose(&back, 6.0, 5.0, Tone::Coolant);
        sketch.rounded(core, 3.0, Tone::CoolantWash, OUTLINE);
        for step in 1..6_u8 {
            let x = core.left() + 7.0 * f32::from(step);
            sketch.line(vec![pos2(x, core.top() + 3.0), pos2(x, core.top() + 12.0)], HAIR);
            sketch.line(vec![pos2(x, core.bottom() - 12.0), pos2(x, core.bottom() - 3.0)], HAIR);
        }
        sketch.keep_clear(core);
        sketch.label(Wish::new(core.center()).words("heater").at(Side::Middle, 0.0, 0.0).inside());
    }
    sketch.block(rect(PUMP.x, PUMP.y - 10.0, LEFT, PUMP.y + 10.0), Tone::CoolantWash);
    sketch.round(PUMP, 16.0, Some(Tone::CoolantWash), Some(OUTLINE));
    for turn in 0..5_u8 {
        let angle = f32::from(turn) * std::f32::consts::TAU / 5.0;
        let (inner, outer) = (vec2(angle.cos(), angle.sin()), vec2((angle + 0.7).cos(), (angle + 0.7).sin()));
        sketch.line(vec![PUMP + inner * 4.0, PUMP + outer * 12.0], pen(Tone::Ink, weight::MEDIUM));
    }
    sketch.round(PUMP, 4.0, Some(Tone::Card), Some(DETAIL));
    sketch.keep_clear(Rect::from_center_size(PUMP, vec2(36.0, 36.0)));
    let wish = Wish::new(PUMP + vec2(0.0, 18.0)).quiet("pump");
    sketch.label(wish.at(Side::Middle, 2.0, 10.0));
    if reading.project.tank.arrangement == TankArrangement::CatchOnly {
        let wish = Wish::new(pos2(200.0, NECK)).quiet("nothing comes back");
        sketch.label(wish.at(Side::Middle, -70.0, -14.0));
    }
}
