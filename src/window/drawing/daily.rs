//! What only a day tells: the fan, vapour in the jackets, what passes the cap, oil with the crankcase gas.

use super::label::Wish;
use super::reading::Reading;
use super::scene::{Side, Tone};
use super::shown::DayPoint;
use super::sketch::{DETAIL, HAIR, Sketch, pen, rect};
use crate::day::CapState;
use crate::quantity::si::Volume;
use crate::quantity::{Amount, Kind, Measured};
use crate::window::tokens::{size, weight};
use egui::{Pos2, Rect, pos2, vec2};

/// Vapour less than this, m³, is no bubble to be seen.
const SEEN: f64 = 1e-6;

/// The fan behind the core, seen from the side: blades spread when it turns, folded flat at rest.
pub fn fan(sketch: &mut Sketch, radiator: Rect, turns: bool) {
    // Between the heater and the bottom hose.
    let (top, bottom) = (256.0, radiator.bottom() - 36.0);
    let half = ((bottom - top) / 2.0).clamp(10.0, 34.0);
    let hub = pos2(radiator.right() + 13.0, top + half);
    for way in [-1.0, 1.0] {
        let tip = hub + vec2(0.0, way * half);
        if turns {
            let blade = vec![hub, hub + vec2(-5.0, way * half * 0.6), tip, hub + vec2(5.0, way * half * 0.6)];
            sketch.area(blade, Some(Tone::Ink), None);
        } else {
            sketch.line(vec![hub, tip], pen(Tone::Quiet, weight::MEDIUM));
        }
    }
    sketch.round(hub, 3.5, Some(Tone::Card), Some(DETAIL));
    if turns {
        for shift in [-0.55, 0.55] {
            let y = hub.y + shift * half;
            sketch.chevron(pos2(hub.x + 4.0, y), pos2(hub.x + 13.0, y), 6.0, Tone::Ink);
        }
    }
    sketch.keep_clear(rect(hub.x - 6.0, hub.y - half, hub.x + 8.0, hub.y + half));
    // A small drawing has no room for words that it shows.
    if sketch.terse {
        return;
    }
    let words = if turns { "fan turns" } else { "fan at rest" };
    let wish = Wish::new(pos2(hub.x, hub.y + half)).quiet(words);
    sketch.label(wish.at(Side::Left, 4.0, 12.0).at(Side::Middle, 0.0, 12.0).at(Side::Left, 12.0, -30.0));
}

/// Arrowheads along the overflow hose, the way the cap lets pass.
pub fn passing(sketch: &mut Sketch, path: &[Pos2], does: CapState) {
    if does == CapState::Shut {
        return;
    }
    for pair in path.windows(2) {
        let [a, b] = pair else { continue };
        if (*b - *a).length() < 26.0 {
            continue;
        }
        let (from, to) = if does == CapState::LetsOut { (*a, *b) } else { (*b, *a) };
        let middle = from.lerp(to, 0.5);
        let along = (to - from).normalized();
        sketch.chevron(middle - along * 5.0, middle + along * 5.0, 8.0, Tone::Ink);
    }
}

/// Bubbles, more of them the more vapour there is, and how much in words.
pub fn vapour(sketch: &mut Sketch, reading: &Reading<'_>, volume: Volume, jacket: Rect) {
    if volume.base() < SEEN {
        return;
    }
    // One for every doubling beyond the least that is seen, so that a little and a lot can be told apart.
    let count = ((volume.base() / SEEN).log2().floor() as usize + 3).min(24);
    for bubble in 0..count {
        // Spread by the golden ratio: even, and in no rows.
        let (across, up) = ((bubble as f32 * 0.618_034).fract(), (bubble as f32 * 0.754_878).fract());
        let centre = jacket.lerp_inside(vec2(across, up));
        sketch.round(centre, 2.0 + 2.0 * (bubble as f32 * 0.5698).fract(), Some(Tone::Card), Some(HAIR));
    }
    let words = format!("vapour {}", reading.show_as(volume, Kind::SmallVolume));
    let wish = Wish::new(pos2(jacket.right() - 20.0, jacket.top())).line(words, size::SMALL, true, Tone::Fault).live();
    sketch.label(wish.at(Side::Left, 36.0, -2.0).at(Side::Middle, 0.0, -92.0).led());
}

/// The crankcase pressure, and the oil that has left.
pub fn crankcase(sketch: &mut Sketch, reading: &Reading<'_>, point: &DayPoint<'_>, at: Pos2) {
    let gauge = point.crankcase.and_then(|case| case.gauge);
    let words = gauge.map_or_else(|| "not known".to_owned(), |gauge| reading.signed(gauge));
    let mut wish = Wish::new(at).line(words, size::LARGE, true, Tone::Ink).live().words("crankcase pressure");
    if let Some(case) = point.crankcase {
        let caught = Amount::of_kind(case.oil_caught, Kind::SmallMass).show(reading.system);
        if reading.project.ventilation.can.place != crate::study::CanPlace::None {
            wish = wish.quiet(format!("caught so far {caught}"));
        }
    }
    sketch.label(wish.at(Side::Middle, 0.0, 0.0).inside());
}
