//! The way out of the gas: breather lines, element, catch can, valve, manifold, air cleaner, and the scale of the arrows.

mod fittings;

use super::engine::{COVERS, HEADS, LEFT_OUTLET, MIDDLE, RIGHT, RIGHT_OUTLET};
use super::label::Wish;
use super::reading::Reading;
use super::scene::{Figure, Side, Stream, Tone};
use super::sketch::{DETAIL, OUTLINE, Sketch, bent, pen, rect};
use crate::quantity::si::VolumeRate;
use crate::quantity::{Kind, Measured};
use crate::study::{
    CanPlace, FlowPath, GasSource, InlineKind, LineInputs, Part, PortPlace, State, VentilationArrangement,
};
use crate::window::tokens::{size, weight};
use egui::{Pos2, Rect, pos2, vec2};

/// The axis of the upper line and of the lower one.
const UPPER: f32 = 46.0;
const LOWER: f32 = 152.0;
/// Where lines end at the right.
const END: f32 = 800.0;
const MANIFOLD: (f32, f32) = (124.0, 236.0);
const UPPER_CAN: (f32, f32) = (668.0, 716.0);
const LOWER_CAN: (f32, f32) = (658.0, 702.0);
/// Where a line from the crankcase rises beside the engine, and how high it begins.
const BESIDE: f32 = 606.0;
const FROM_SUMP: f32 = 330.0;

/// Draws the crankcase half.
pub fn draw(sketch: &mut Sketch, reading: &Reading<'_>) {
    use VentilationArrangement as A;
    let ventilation = &reading.project.ventilation;
    let mut way = Way { sketch, reading };
    match ventilation.can.place {
        CanPlace::None => {}
        CanPlace::BreatherLine => way.can_drain(UPPER_CAN, UPPER),
        CanPlace::ValveLine => way.can_drain(LOWER_CAN, LOWER),
    }
    if ventilation.has_valve() || ventilation.leads_to_air_cleaner() {
        way.manifold();
    }
    match ventilation.arrangement {
        A::BreatherOnly | A::LineToAirCleaner => way.upper(),
        A::BreatherWithValve | A::ClosedWithFreshAirLine => {
            way.upper();
            way.valve();
        }
        A::TwoBreathers => {
            way.upper();
            way.second();
        }
        A::ValveOnly => way.valve(),
    }
    way.crossover();
    way.telling();
    way.scale();
}

struct Way<'s, 'r> {
    sketch: &'s mut Sketch,
    reading: &'s Reading<'r>,
}

/// A hose as wide as its bore, within reason.
fn bore(line: &LineInputs) -> f32 {
    (line.bore.base() * 800.0).clamp(8.0, 18.0) as f32
}

impl Way<'_, '_> {
    /// A piece of hose with its arrow. `corners` run out of the crankcase.
    fn piece(&mut self, path: FlowPath, corners: &[Pos2], width: f32) {
        self.sketch.hose(corners, 16.0, width, Tone::GasWash);
        let flow = self.reading.flow(path);
        let mut points = bent(corners, 16.0);
        // Clear of both ends.
        if let (Some(first), Some(second)) = (points.first().copied(), points.get(1).copied()) {
            points[0] = first + (second - first).normalized() * 3.0;
        }
        let length =
            points.windows(2).map(|pair| if let [a, b] = pair { (*b - *a).length() } else { 0.0 }).sum::<f32>();
        if length > 16.0 {
            let arrow = self.reading.arrow_width(flow).min(width - 2.0);
            self.sketch.flow(Stream::Way(path), points, flow, arrow);
        }
    }

    /// The same, cut where something stands in the line.
    fn pieces(&mut self, path: FlowPath, line: &LineInputs, corners: &[Pos2], (width, at): (f32, Pos2)) {
        for piece in fittings::cut(line, corners, at) {
            self.piece(path, &piece, width);
        }
    }

    /// Where the breather's gas is taken, up to the upper line.
    fn start(&self) -> Vec<Pos2> {
        match self.reading.project.ventilation.gas_source() {
            GasSource::Cover => vec![pos2(LEFT_OUTLET, COVERS), pos2(LEFT_OUTLET, UPPER)],
            GasSource::Valley => vec![pos2(MIDDLE, HEADS), pos2(MIDDLE, UPPER)],
            GasSource::Sump => {
                vec![pos2(RIGHT - 5.0, FROM_SUMP), pos2(BESIDE, FROM_SUMP), pos2(BESIDE, UPPER)]
            }
        }
    }

    fn upper(&mut self) {
        let path = FlowPath::Breather;
        let ventilation = &self.reading.project.ventilation;
        let line = &ventilation.breather;
        let from_sump = ventilation.gas_source() == GasSource::Sump;
        let width = if from_sump { bore(line).min(12.0) } else { bore(line) };
        let closed = ventilation.leads_to_air_cleaner();
        let mut corners = self.start();
        let outlet = corners.last().map_or(LEFT_OUTLET, |last| last.x);
        let sag = fittings::sag(line);
        if sag.is_some() {
            corners.extend(Self::upper_dip());
        }
        if ventilation.can.place == CanPlace::BreatherLine {
            let can = self.can(UPPER_CAN, UPPER, false);
            corners.push(pos2(can.left(), UPPER));
            self.piece(path, &corners, width);
            corners = vec![pos2(can.right(), UPPER)];
        }
        corners.push(pos2(END, UPPER));
        self.pieces(path, line, &corners, (width, pos2(742.0, UPPER)));
        if let Some(height) = sag {
            let [_, left, right, _] = Self::upper_dip();
            self.oil((left.x, right.x), left.y, width, height);
        }
        self.inline(line, pos2(742.0, UPPER), vec2(1.0, 0.0));
        let flow = self.reading.flow(path);
        if closed {
            let cleaner = rect(END, UPPER - 22.0, 862.0, UPPER + 22.0);
            self.pleats(cleaner);
            let name = if ventilation.has_valve() { "fresh air" } else { "to the air cleaner" };
            self.label_way(path, pos2(END - 20.0, UPPER), name, &[vec2(-46.0, -26.0), vec2(-46.0, 28.0)]);
            let words = Wish::new(cleaner.center_top()).quiet("air cleaner");
            self.sketch.label(words.at(Side::Middle, 0.0, -9.0));
        } else {
            let element = rect(END, UPPER - 20.0, END + 40.0, UPPER + 20.0);
            self.pleats(element);
            let out = vec![pos2(END + 42.0, UPPER), pos2(876.0, UPPER)];
            self.sketch.flow(Stream::Way(path), out, flow, self.reading.arrow_width(flow));
            self.label_way(
                path,
                pos2(END + 20.0, UPPER + 20.0),
                "breather",
                &[vec2(0.0, 18.0), vec2(-53.0, 8.0), vec2(-80.0, 6.0)],
            );
        }
        let area = vec![rect(outlet - 10.0, UPPER - 24.0, 864.0, UPPER + 24.0)];
        let name = self.way_name(path, if closed { "Fresh-air line" } else { Part::Breather.name() });
        self.mark(Part::Breather, pos2(END - 14.0, UPPER - 20.0));
        super::finish_part(self.sketch, self.reading, Part::Breather, name, area);
    }

    /// The lower line from the right cover to a place, with its sag.
    fn lower(&mut self, path: FlowPath, line: &LineInputs, to: f32, inline: Pos2) {
        let width = bore(line);
        let mut corners = vec![pos2(RIGHT - 5.0, RIGHT_OUTLET), pos2(622.0, RIGHT_OUTLET)];
        let low = LOWER + 32.0;
        let sag = fittings::sag(line);
        if sag.is_some() {
            corners.extend([pos2(622.0, low), pos2(648.0, low), pos2(648.0, LOWER)]);
        } else {
            corners.push(pos2(622.0, LOWER));
        }
        corners.push(pos2(to, LOWER));
        self.pieces(path, line, &corners, (width, inline));
        if let Some(height) = sag {
            self.oil((630.0, 640.0), low, width, height);
        }
    }

    fn second(&mut self) {
        let path = FlowPath::SecondBreather;
        let line = &self.reading.project.ventilation.second;
        let at = pos2(752.0, LOWER);
        if self.cans_in_both() {
            let can = self.can(LOWER_CAN, LOWER, true);
            self.lower(path, line, can.left(), at);
            self.pieces(path, line, &[pos2(can.right(), LOWER), pos2(END, LOWER)], (bore(line), at));
        } else {
            self.lower(path, line, END, at);
        }
        self.inline(line, at, vec2(1.0, 0.0));
        let element = rect(END, LOWER - 20.0, END + 40.0, LOWER + 20.0);
        self.pleats(element);
        let flow = self.reading.flow(path);
        let out = vec![pos2(END + 42.0, LOWER), pos2(876.0, LOWER)];
        self.sketch.flow(Stream::Way(path), out, flow, self.reading.arrow_width(flow));
        self.label_way(path, pos2(END + 20.0, LOWER + 20.0), "second breather", &[vec2(0.0, 18.0), vec2(-90.0, 10.0)]);
        if let Some(part) = self.sketch.parts.iter_mut().find(|area| area.part == Part::Breather) {
            part.hits.extend([rect(622.0, LOWER - 11.0, END, LOWER + 11.0), element]);
        }
    }

    fn valve(&mut self) {
        let path = FlowPath::Valve;
        let ventilation = &self.reading.project.ventilation;
        let width = bore(&ventilation.valve_line);
        let body = rect(736.0, LOWER - 12.0, 766.0, LOWER + 12.0);
        if ventilation.can.place == CanPlace::ValveLine {
            let can = self.can(LOWER_CAN, LOWER, false);
            let at = pos2(622.0, 124.0);
            self.lower(path, &ventilation.valve_line, can.left(), at);
            self.piece(path, &[pos2(can.right(), LOWER), pos2(body.left(), LOWER)], width);
            self.inline(&ventilation.valve_line, at, vec2(0.0, 1.0));
        } else {
            // Only a line to a can is asked about.
            let plain = LineInputs { sag: None, inline: InlineKind::None, ..ventilation.valve_line.clone() };
            self.lower(path, &plain, body.left(), body.center());
        }
        self.piece(path, &[pos2(body.right(), LOWER), pos2(END, LOWER)], width);
        self.sketch.rounded(body, 4.0, Tone::Card, OUTLINE);
        // Plunger and spring: drawn towards the manifold by its depression.
        let home = if self.reading.true_flow(path).is_some_and(|flow| flow > 0.0) { 4.0 } else { -4.0 };
        let x = body.center().x + home;
        let cone = vec![pos2(x - 7.0, LOWER - 7.0), pos2(x + 3.0, LOWER), pos2(x - 7.0, LOWER + 7.0)];
        self.sketch.area(cone, Some(Tone::Ink), None);
        let spring = (0..=4_u8).map(|turn| {
            let y = if turn % 2 == 0 { -5.0 } else { 5.0 };
            pos2(x + 3.0 + (body.right() - 3.0 - x - 3.0) * f32::from(turn) / 4.0, LOWER + y)
        });
        self.sketch.line(spring.collect::<Vec<_>>(), DETAIL);
        self.sketch.keep_clear(body);
        self.label_way(path, pos2(body.center().x, body.bottom()), "PCV valve", &[vec2(-4.0, 20.0), vec2(-4.0, 26.0)]);
        self.mark(Part::Valve, pos2(body.left() - 4.0, body.top() - 10.0));
        let name = self.way_name(path, Part::Valve.name());
        let area = vec![body.expand(3.0), rect(622.0, LOWER - 9.0, END, LOWER + 9.0)];
        super::finish_part(self.sketch, self.reading, Part::Valve, name, area);
    }

    /// The manifold with its throttle; behind the air cleaner when the system is closed.
    fn manifold(&mut self) {
        let (top, bottom) = MANIFOLD;
        let body = rect(END, top, 862.0, bottom);
        let throat = rect(818.0, 84.0, 844.0, top + 1.0);
        if self.reading.project.ventilation.leads_to_air_cleaner() {
            let duct = rect(throat.left(), UPPER + 20.0, throat.right(), throat.top());
            self.sketch.area(super::sketch::corners(duct), Some(Tone::Card), Some(DETAIL));
        }
        self.sketch.area(super::sketch::corners(throat), Some(Tone::Card), Some(OUTLINE));
        self.sketch.rounded(body, 8.0, Tone::Card, OUTLINE);
        self.sketch.wash(rect(throat.left() + 1.0, top - 2.0, throat.right() - 1.0, top + 2.0), Tone::Card);
        // The throttle plate stands by the manifold's depression: shut at idle, upright wide open.
        let share = self
            .reading
            .duty()
            .map_or(0.1, |duty| (duty.manifold.base() / self.reading.answers.ambient.base()).clamp(0.0, 1.0));
        let angle = (share as f32 - 0.3).clamp(0.0, 0.7) / 0.7 * std::f32::consts::FRAC_PI_2 * 0.95 + 0.12;
        let arm = vec2(angle.cos(), angle.sin()) * 12.0;
        let pivot = pos2(throat.center().x, 102.0);
        self.sketch.line(vec![pivot - arm, pivot + arm], pen(Tone::Ink, weight::MEDIUM));
        self.sketch.round(pivot, 2.0, Some(Tone::Ink), None);
        self.sketch.keep_clear(body);
        self.sketch.keep_clear(throat);
        let words =
            self.reading.duty().map_or_else(String::new, |duty| format!("{} abs.", self.reading.show(duty.manifold)));
        let port = match self.reading.project.ventilation.valve.port.place {
            PortPlace::Plenum => "",
            PortPlace::OneRunner => "valve: into one runner",
            PortPlace::CarburettorBase => "valve: carburettor base",
            PortPlace::BoosterTee => "valve: booster hose tee",
            PortPlace::BeforeThrottle => "valve: before the throttle",
        };
        let wish = Wish::new(body.center_bottom()).words("manifold").quiet(words).quiet(port);
        let (side, x, y) = if port.is_empty() { (Side::Middle, 0.0, 18.0) } else { (Side::Right, 45.0, 26.0) };
        self.sketch.label(wish.at(side, x, y));
    }

    fn mark(&mut self, part: Part, centre: Pos2) {
        if let Some(state @ (State::Thin | State::DoesNotHold)) = self.reading.state(part) {
            self.sketch.figures.push(Figure::Mark { centre, height: 15.0, state });
            self.sketch.keep_clear(Rect::from_center_size(centre, vec2(17.0, 17.0)));
        }
    }

    /// The flow of a way in words: "65.2 L/min out".
    fn flow_words(&self, path: FlowPath) -> Option<String> {
        let flow = self.reading.true_flow(path)?;
        let amount = self.reading.show(VolumeRate::from_base(flow.abs()));
        Some(if self.reading.next_to_nothing(flow) {
            "no flow".to_owned()
        } else {
            format!("{amount} {}", if flow > 0.0 { "out" } else { "in" })
        })
    }

    fn label_way(&mut self, path: FlowPath, anchor: Pos2, name: &str, places: &[egui::Vec2]) {
        let mut wish = Wish::new(anchor).words(name);
        if let Some(words) = self.flow_words(path) {
            wish = wish.strong(words, Tone::Gas);
        }
        for place in places {
            wish = wish.at(Side::Middle, place.x, place.y);
        }
        self.sketch.label(wish);
    }

    fn way_name(&self, path: FlowPath, name: &str) -> String {
        match self.flow_words(path) {
            Some(words) => format!("{name}, {words}"),
            // A day does not say how the gas parts, and nothing is drawn that is not known.
            None if self.reading.day().is_some() && self.reading.running() => name.to_owned(),
            None => format!("{name}, no flow"),
        }
    }

    /// What happens at this moment, in words.
    fn telling(&mut self) {
        let at = pos2(634.0, 318.0);
        if self.reading.day().is_some() && self.reading.running() {
            let words = Wish::new(at).quiet("How the gas parts is told at the moments.");
            self.sketch.label(words.at(Side::Left, 0.0, 0.0).inside());
            return;
        }
        let Some(duty) = self.reading.duty() else {
            let words = Wish::new(at).strong("Engine at rest", Tone::Ink).quiet("no gas passes the rings");
            self.sketch.label(words.at(Side::Left, 0.0, 0.0).inside());
            return;
        };
        let blow_by = duty.blow_by.standard;
        let spread = blow_by.show(Kind::GasVolumeFlow, self.reading.system);
        let path = FlowPath::Breather;
        let ventilation = &self.reading.project.ventilation;
        let closed = ventilation.leads_to_air_cleaner();
        let sentence = match (self.reading.true_flow(path).map(|flow| self.reading.told(flow)), closed) {
            (Some(flow), true) if flow < 0.0 => "Fresh air comes in, as it should.",
            (Some(flow), true) if flow > 0.0 && !ventilation.has_valve() => "The gas goes to the air cleaner.",
            (Some(flow), true) if flow > 0.0 => "Turned round: mist to the air cleaner.",
            (Some(flow), false) if flow > 0.0 => "The breather blows out.",
            (Some(flow), false) if flow < 0.0 => "The breather draws in.",
            (None, _) => "The valve is the only way out.",
            _ => "The breather stands still.",
        };
        let wish = Wish::new(at)
            .strong(sentence, Tone::Ink)
            .words(format!("blow-by {spread}"))
            .quiet(duty.blow_by.knowledge.name());
        self.sketch.label(wish.at(Side::Left, 0.0, 0.0).inside());
    }

    /// How wide is how much.
    fn scale(&mut self) {
        let full = self.reading.fullest();
        let unit = Kind::GasVolumeFlow.unit(self.reading.system);
        let round = round_below(unit.from_base(full));
        if round <= 0.0 || self.reading.day().is_some() {
            return;
        }
        let flow = unit.to_base(round);
        let (x, y) = (634.0, 376.0);
        let width = self.reading.arrow_width(flow);
        let points = [pos2(x, y), pos2(x + 44.0, y)];
        self.sketch.line(points.to_vec(), pen(Tone::Gas, width));
        let tip = pos2(x + 44.0 + width + 6.0, y);
        self.sketch.figures.push(Figure::Head { from: points[1], tip, width: width + 7.0, tone: Tone::Gas });
        let words = format!("arrow this wide: {}", self.reading.show(VolumeRate::from_base(flow)));
        let wish = Wish::new(pos2(x + 70.0, y)).line(words, size::SMALL, false, Tone::Quiet);
        self.sketch.label(wish.at(Side::Left, 0.0, 0.0).inside());
    }
}

/// The largest of 1, 2 or 5 times a power of ten that is not larger.
fn round_below(value: f64) -> f64 {
    if !(value.is_finite() && value > 0.0) {
        return 0.0;
    }
    let power = 10_f64.powf(value.log10().floor());
    [5.0, 2.0, 1.0].into_iter().map(|multiple| multiple * power).find(|step| *step <= value).unwrap_or(power)
}

#[cfg(test)]
mod tests {
    use super::round_below;

    #[test]
    fn the_scale_is_a_round_number() {
        for (value, round) in [(92.0, 50.0), (3.2, 2.0), (1.0, 1.0), (0.07, 0.05), (500.0, 500.0)] {
            assert!((round_below(value) - round).abs() < 1e-12 * round, "{value}");
        }
        assert_eq!(round_below(f64::NAN), 0.0);
        assert_eq!(round_below(0.0), 0.0);
    }
}
