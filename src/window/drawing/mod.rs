//! The drawing: one live section of this car's coolant and crankcase systems, which is also the menu.
//!
//! First a [`Scene`] is put down as plain data in drawing units ([`scene_of`]), then it is painted to fit the panel.

mod cooling;
mod daily;
mod engine;
mod gas;
mod label;
mod paint;
mod reading;
mod scene;
mod shown;
mod sketch;
mod tank;

pub use scene::{
    Figure, FlowArrow, HEIGHT, Label, PartArea, Pen, Scene, Side, Stream, TankDrawn, TextLine, Tone, WIDTH,
};
pub use shown::{DayPoint, Shown};
pub use sketch::Measure;

use crate::quantity::{Kind, UnitSystem};
use crate::study::{Answers, Part, Project, State};
use crate::window::fonts::strong_family;
use crate::window::tokens::{Tokens, weight};
use egui::layers::ShapeIdx;
use egui::{FontId, Id, Rect, Response, Role, Sense, Shape, Stroke, Ui, Vec2, WidgetInfo, pos2, vec2};
use label::Wish;
use reading::Reading;
use sketch::{Sketch, rect};

/// The smallest share of its natural size the drawing shrinks to; smaller letters cannot be read.
const SMALLEST: f32 = 0.8;
/// The same of a terse drawing, whose few letters are larger.
const SMALLEST_TERSE: f32 = 0.42;
/// Motion from one moment to the next, as a multiple of the style's animation time.
const SLOW: f32 = 3.5;

/// The scene of a project at a moment, or at a time of its day. `measure` gives the extent of a line of words; `motion`
/// follows numbers from one moment to the next (answer the number itself for a scene at rest).
#[must_use]
pub fn scene_of<'a>(
    project: &'a Project,
    answers: &'a Answers,
    shown: impl Into<Shown<'a>>,
    system: UnitSystem,
    measure: Measure<'_>,
    motion: &'a dyn Fn(&'static str, f32) -> f32,
) -> Scene {
    let reading = Reading::new(project, answers, shown.into(), system, motion);
    let mut sketch = Sketch { terse: reading.terse(), ..Sketch::default() };
    titles(&mut sketch, &reading);
    let placed = tank::Placed::of(&reading);
    cooling::draw(&mut sketch, &reading, placed.as_ref());
    let tank = placed.as_ref().map_or(
        TankDrawn { scale: 0.0, floor: 0.0, surface: 0.0, tube_end: None, neck: 0.0, neck_to_scale: false },
        |placed| tank::draw(&mut sketch, &reading, placed),
    );
    engine::draw(&mut sketch, &reading);
    cooling::pump_and_heater(&mut sketch, &reading);
    gas::draw(&mut sketch, &reading);
    engine::crankcase_part(&mut sketch, &reading);
    let labels = sketch.placed(measure);
    let mut parts = sketch.parts;
    parts.sort_by_key(|area| order(area.part));
    Scene { figures: sketch.figures, arrows: sketch.arrows, labels, parts, tank }
}

/// The order of the keyboard: along the coolant, then along the gas. The engine comes before what lies on it.
const fn order(part: Part) -> u8 {
    match part {
        Part::Surroundings => 0,
        Part::Coolant => 1,
        Part::Radiator => 2,
        Part::Cap => 3,
        Part::Tank => 4,
        Part::Engine => 5,
        Part::Thermostat => 6,
        Part::Crankcase => 7,
        Part::Breather => 8,
        Part::Valve => 9,
        Part::CatchCan => 10,
        Part::CoverJoint => 11,
    }
}

/// The names of the two halves, the surroundings and the liquid.
fn titles(sketch: &mut Sketch, reading: &Reading<'_>) {
    let title = |words: &str, tone| Wish::new(pos2(12.0, 16.0)).line(words, 14.0, true, tone);
    sketch.label(title("Coolant", Tone::Coolant).at(Side::Left, 0.0, 0.0).inside());
    sketch.label(title("Crankcase gas", Tone::Gas).at(Side::Left, 606.0, 0.0).inside());
    let around = &reading.project.surroundings;
    let hottest = reading.show(around.hottest);
    let altitude = reading.show_as(around.altitude, Kind::Distance);
    let air = reading.day().map(|point| format!("air {}, {altitude} up", reading.show(point.sample.air)));
    let wish =
        Wish::new(pos2(35.0, 40.0)).quiet(air.unwrap_or_else(|| format!("hottest day {hottest}, {altitude} up")));
    sketch.label(wish.at(Side::Left, 0.0, 0.0).inside());
    // Without its words the sign says nothing.
    if !reading.terse() {
        sun(sketch, pos2(19.0, 40.0));
    }
    let name = format!("{}, hottest day {hottest}, altitude {altitude}", Part::Surroundings.name());
    finish_part(sketch, reading, Part::Surroundings, name, vec![rect(8.0, 29.0, 196.0, 52.0)]);
    let coolant = &reading.answers.coolant;
    let freezing = coolant.freezing_to_count_on.as_ref().map(|point| reading.show(*point));
    let freezes = freezing.as_ref().map_or_else(|_| String::new(), |point| format!(", freezes at {point}"));
    // How the share is counted otherwise stands in brackets; it is told beside the drawing.
    let mix = coolant.mix.split(" (").next().unwrap_or_default();
    let at = pos2(90.0, 16.0);
    if !reading.terse() {
        drop_of(sketch, at);
    }
    let wish = Wish::new(at + vec2(12.0, 1.0)).quiet([mix, &freezes].concat());
    sketch.label(wish.at(Side::Left, 0.0, 0.0).inside());
    if let Some(state @ (State::Thin | State::DoesNotHold)) = reading.state(Part::Coolant) {
        sketch.figures.push(Figure::Mark { centre: pos2(208.0, 40.0), height: 15.0, state });
    }
    let name = [Part::Coolant.name(), ", ", &coolant.mix, &freezes].concat();
    finish_part(sketch, reading, Part::Coolant, name, vec![rect(8.0, 4.0, 408.0, 27.0)]);
}

fn sun(sketch: &mut Sketch, at: egui::Pos2) {
    sketch.round(at, 4.0, None, Some(sketch::DETAIL));
    for ray in 0..8_u8 {
        let angle = f32::from(ray) * std::f32::consts::FRAC_PI_4;
        let out = vec2(angle.cos(), angle.sin());
        sketch.line(vec![at + out * 6.0, at + out * 8.5], sketch::DETAIL);
    }
}

fn drop_of(sketch: &mut Sketch, at: egui::Pos2) {
    // Half a circle below, meeting in a point above.
    let round = (0..=12_u8).map(|step| {
        let angle = -0.35 + f32::from(step) / 12.0 * (std::f32::consts::PI + 0.7);
        at + vec2(0.0, 2.0) + vec2(angle.cos(), angle.sin()) * 6.0
    });
    let points = round.chain([at - vec2(0.0, 10.0)]).collect();
    sketch.area(points, Some(Tone::CoolantDeep), Some(sketch::pen(Tone::Coolant, weight::THIN)));
}

/// Adds a part with its verdict's word at the end of its name.
fn finish_part(sketch: &mut Sketch, reading: &Reading<'_>, part: Part, mut name: String, hits: Vec<Rect>) {
    if let Some(state) = reading.state(part) {
        name.push_str(", ");
        name.push_str(state.word());
    }
    sketch.part(part, name, hits);
}

/// Shows the drawing in all the room there is; a click, Enter or Space on a part chooses it.
pub fn show<'a>(
    ui: &mut Ui,
    project: &Project,
    answers: &Answers,
    shown: impl Into<Shown<'a>>,
    chosen: &mut Option<Part>,
    system: UnitSystem,
) -> Response {
    let tokens = Tokens::here(ui);
    let id = Id::unique("the drawing");
    let mut shown = shown.into();
    let smallest = if matches!(shown, Shown::Day(_)) { SMALLEST_TERSE } else { SMALLEST };
    let least = vec2(WIDTH, HEIGHT) * smallest;
    let (place, whole) = ui.allocate_exact_size(ui.available_size().max(least), Sense::hover());
    let scale = (place.width() / WIDTH).min(place.height() / HEIGHT);
    // A day is dragged through: motion would lag behind the hand.
    let mut moves = true;
    if let Shown::Day(point) = &mut shown {
        point.terse = scale < SMALLEST;
        moves = false;
    }
    let origin = place.center() - vec2(WIDTH, HEIGHT) * scale / 2.0;
    let frame = paint::Frame { origin, scale };
    let measure = |words: &str, size: f32, strong: bool| -> Vec2 {
        let font = if strong { FontId::new(size, strong_family()) } else { FontId::proportional(size) };
        ui.painter().layout_no_wrap(words.to_owned(), font, tokens.ink).size()
    };
    let time = ui.style().animation_time * SLOW;
    let motion = |key: &'static str, target: f32| -> f32 {
        if time > 0.0 && moves { ui.ctx().animate_value_with_time(id.with(key), target, time) } else { target }
    };
    let scene = scene_of(project, answers, shown, system, &measure, &motion);
    let painter = ui.painter_at(place);
    let behind: Vec<_> = scene.parts.iter().map(|_| painter.add(Shape::Noop)).collect();
    paint::paint(&painter, &scene, frame, tokens);
    let before = ui.data(|data| data.get_temp::<Option<Part>>(id)).flatten();
    for (area, behind) in scene.parts.iter().zip(behind) {
        part(ui, id, area, frame, chosen, (&painter, behind));
        // In a window too small for the whole drawing a part that was chosen elsewhere comes into sight.
        if let (true, Some(body)) = (before != *chosen && *chosen == Some(area.part), area.hits.first()) {
            ui.scroll_to_rect(frame.rect(*body).expand(24.0), None);
        }
    }
    ui.data_mut(|data| data.insert_temp(id, *chosen));
    whole
}

/// The part as a button: its body takes the keyboard, the rest only the pointer.
fn part(
    ui: &Ui,
    id: Id,
    area: &PartArea,
    frame: paint::Frame,
    chosen: &mut Option<Part>,
    (painter, behind): (&egui::Painter, ShapeIdx),
) {
    let tokens = Tokens::here(ui);
    let rects: Vec<Rect> = area.hits.iter().map(|hit| frame.rect(*hit)).collect();
    let Some((body, rest)) = rects.split_first() else { return };
    let own = id.with(area.part);
    let response = ui.interact(*body, own, Sense::click());
    let mut clicked = response.clicked();
    let mut hovered = response.hovered();
    for (index, rect) in rest.iter().enumerate() {
        let more = ui.interact(*rect, own.with(index), Sense::CLICK);
        clicked |= more.clicked();
        hovered |= more.hovered();
    }
    if clicked {
        *chosen = Some(area.part);
    }
    let pressed = *chosen == Some(area.part);
    response.widget_info(|| WidgetInfo::selected(Role::Button, ui.is_enabled(), pressed, &area.name));
    if pressed || hovered {
        let strength = if pressed { 0.15 } else { 0.08 };
        painter.set(behind, paint::wash(*body, tokens.quiet.gamma_multiply(strength)));
    }
    if response.has_focus() {
        paint::paint_focus(painter, *body, Stroke::new(weight::MEDIUM, tokens.focus));
    }
    if hovered {
        ui.ctx().set_cursor_icon(egui::CursorIcon::PointingHand);
    }
}
