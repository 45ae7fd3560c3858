//! Where the names of marks go on a plot: beside their mark, clear of the curve, of each other and of the edge.

use egui::{Align, Align2, Rect, Vec2, pos2, vec2};

/// What a plot measures, about, in points; what the names are laid out by.
const PLOT: Vec2 = vec2(340.0, 180.0);
/// What a name measures, in points: a letter's width, the height of a line.
const LETTER: f32 = 6.0;
const LINE: f32 = 13.0;
/// A mark, and what is kept free round it.
const MARK: f32 = 7.0;

/// Where a name goes, in the units of the axes.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Spot {
    pub at: [f64; 2],
    pub anchor: Align2,
}

/// A place for each name of a mark, on a plot that spans from zero to `top` both ways.
pub(super) fn spots(names: &[(String, [f64; 2])], curve: &[[f64; 2]], top: [f64; 2]) -> Vec<Spot> {
    let [wide, high] = top.map(|end| if end > 0.0 { end } else { 1.0 });
    // Up is up.
    let onto = |at: [f64; 2]| pos2((at[0] / wide) as f32 * PLOT.x, -(at[1] / high) as f32 * PLOT.y);
    let edge = Rect::from_min_max(pos2(0.0, -PLOT.y), pos2(PLOT.x, 0.0));
    let mut ink = Vec::new();
    for pair in curve.windows(2) {
        if let [a, b] = pair {
            ink.extend((0..8_u8).map(|step| onto(*a).lerp(onto(*b), f32::from(step) / 8.0)));
        }
    }
    let mut taken: Vec<Rect> =
        names.iter().map(|(_, at)| Rect::from_center_size(onto(*at), Vec2::splat(2.0 * MARK))).collect();
    let mut spots = Vec::with_capacity(names.len());
    for (own, (name, at)) in names.iter().enumerate() {
        let size = vec2(name.chars().count() as f32 * LETTER, LINE);
        let mut best: Option<(f32, Rect, Spot)> = None;
        for (order, (across, up, away)) in tries().enumerate() {
            let out = vec2(across.to_sign() * -MARK, up.to_sign() * -away);
            let shifted = onto(*at) + out;
            let anchor = Align2([across, up]);
            let place = anchor.anchor_size(shifted, size);
            let hidden = ink.iter().filter(|point| place.expand(1.5).contains(**point)).count() as f32;
            let met = taken.iter().enumerate().filter(|(i, other)| *i != own && other.intersects(place)).count() as f32;
            let outside = if edge.contains_rect(place) { 0.0 } else { 30.0 };
            let cost = 4.0 * hidden + 40.0 * met + outside + order as f32;
            if best.is_none_or(|(least, ..)| cost < least) {
                let at = [at[0] + f64::from(out.x / PLOT.x) * wide, at[1] - f64::from(out.y / PLOT.y) * high];
                best = Some((cost, place, Spot { at, anchor }));
            }
        }
        if let Some((_, place, spot)) = best {
            taken.push(place);
            spots.push(spot);
        }
    }
    spots
}

/// Right of it first, then left, then over and under it; each near and then further off.
fn tries() -> impl Iterator<Item = (Align, Align, f32)> {
    [3.0, 8.0, 16.0, 28.0].into_iter().flat_map(|away| {
        [Align::Min, Align::Max, Align::Center].into_iter().flat_map(move |across| {
            // Over or under it the mark itself is in the way.
            let away = if across == Align::Center { away + MARK } else { away };
            [Align::Max, Align::Min].into_iter().map(move |up| (across, up, away))
        })
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    fn place(spot: &Spot, name: &str) -> Rect {
        let at = pos2(spot.at[0] as f32, -spot.at[1] as f32);
        spot.anchor.anchor_size(at, vec2(name.len() as f32 * LETTER, LINE))
    }

    #[test]
    fn names_keep_clear_of_the_curve_and_of_each_other() {
        // In points, so that a place is read off.
        let top = [f64::from(PLOT.x), f64::from(PLOT.y)];
        let curve: Vec<[f64; 2]> =
            vec![[0.0, 0.0], [40.0, 90.0], [90.0, 160.0], [150.0, 110.0], [200.0, 80.0], [340.0, 80.0]];
        let names: Vec<(String, [f64; 2])> = [
            ("full throttle", [40.0, 90.0]),
            ("hill", [150.0, 110.0]),
            ("idle", [220.0, 80.0]),
            ("cruise", [238.0, 80.0]),
            ("overrun", [336.0, 80.0]),
        ]
        .into_iter()
        .map(|(name, at)| (name.to_owned(), at))
        .collect();
        let places: Vec<Rect> =
            spots(&names, &curve, top).iter().zip(&names).map(|(spot, (name, _))| place(spot, name)).collect();
        assert_eq!(places.len(), names.len());
        for (i, one) in places.iter().enumerate() {
            assert!(one.left() >= 0.0 && one.right() <= PLOT.x, "{one:?}");
            assert!(places.iter().skip(i + 1).all(|other| !other.intersects(*one)), "{i}");
            for pair in curve.windows(2) {
                let [a, b] = [pair[0], pair[1]].map(|p| pos2(p[0] as f32, -p[1] as f32));
                assert!((0..=50_u8).all(|step| !one.contains(a.lerp(b, f32::from(step) / 50.0))), "{i}");
            }
        }
        assert!(spots(&[], &curve, top).is_empty());
        assert_eq!(spots(&names, &[], [0.0, 0.0]).len(), names.len());
    }
}
