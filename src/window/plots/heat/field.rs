//! The picture of who rules: a colour for each, and a pattern, so that colour never stands alone.

use crate::quantity::Measured;
use crate::study::{HeatColumn, HeatMap, HeatRule};
use crate::window::tokens::Tokens;
use egui::{Color32, ColorImage};

/// Pixels of the picture, about those of the plot.
pub(super) const PIXELS: [usize; 2] = [360, 270];

/// The ground where the engine cannot hold the speed.
pub(super) const fn blank(tokens: &Tokens) -> Color32 {
    tokens.card
}

/// The ground of a rule.
pub(super) fn colour(rule: HeatRule, tokens: &Tokens) -> Color32 {
    let (towards, share) = match rule {
        HeatRule::Losses => (tokens.cold, 0.30),
        HeatRule::Thermostat => (tokens.holds, 0.22),
        HeatRule::Radiator => (tokens.thin, 0.36),
        HeatRule::Boils => (tokens.fails, 0.42),
    };
    blend(tokens.card, towards, share)
}

fn blend(from: Color32, to: Color32, share: f32) -> Color32 {
    from.lerp_to_gamma(to, share)
}

/// Whether a pixel belongs to the pattern of a rule: dots in the cold, nothing, slanted lines, crossed lines.
pub(super) const fn patterned(rule: HeatRule, column: usize, row: usize) -> bool {
    const APART: usize = 9;
    let rising = (column + row).is_multiple_of(APART);
    let falling = (column + APART * 100 - row % APART).is_multiple_of(APART);
    match rule {
        HeatRule::Losses => column % APART < 2 && row % APART < 2,
        HeatRule::Thermostat => false,
        HeatRule::Radiator => rising,
        HeatRule::Boils => rising || falling,
    }
}

/// Who rules at a place, shares of the map's width and height: by the borders of the columns on either side. `None` where the
/// engine cannot hold the speed of the nearer one.
pub(super) fn rule(map: &HeatMap, right: f64, up: f64) -> Option<HeatRule> {
    let place = right * map.columns.len().saturating_sub(1) as f64;
    let (before, share) = (place.floor() as usize, place.fract());
    let (Some(a), Some(b)) = (map.columns.get(before), map.columns.get(before + 1).or_else(|| map.columns.last()))
    else {
        return None;
    };
    let nearer = if share < 0.5 { a.as_ref() } else { b.as_ref() }?;
    let (a, b) = (a.as_ref().unwrap_or(nearer), b.as_ref().unwrap_or(nearer));
    let air = map.ambient.from.base() + up * (map.ambient.to.base() - map.ambient.from.base());
    let above = |pick: fn(&HeatColumn) -> Option<f64>| match (pick(a), pick(b)) {
        (Some(a), Some(b)) => air > a + share * (b - a),
        // A border that is known on one side alone lies off the map on the other.
        (one, other) => (if share < 0.5 { one } else { other }).is_none_or(|border| air > border),
    };
    Some(if above(|column| Some(column.boils_above?.base())) {
        HeatRule::Boils
    } else if above(|column| Some(column.holds_to?.base())) {
        HeatRule::Radiator
    } else if above(|column| Some(column.opens_at?.base())) {
        HeatRule::Thermostat
    } else {
        HeatRule::Losses
    })
}

/// The whole picture, its first row the hottest air.
pub(super) fn picture(map: &HeatMap, tokens: &Tokens) -> ColorImage {
    let [wide, high] = PIXELS;
    let grounds = HeatRule::ALL.map(|rule| (colour(rule, tokens), blend(colour(rule, tokens), tokens.ink, 0.30)));
    let mut pixels = Vec::with_capacity(wide * high);
    for row in 0..high {
        let up = 1.0 - (row as f64 + 0.5) / high as f64;
        for column in 0..wide {
            let rule = rule(map, (column as f64 + 0.5) / wide as f64, up);
            let Some(rule) = rule else {
                pixels.push(blank(tokens));
                continue;
            };
            let (ground, line) = grounds[rule as usize];
            pixels.push(if patterned(rule, column, row) { line } else { ground });
        }
    }
    ColorImage::new([wide, high], pixels)
}

/// Places for the name of a rule, or of where the engine cannot hold the speed, as shares of the map, the roomiest first; none where it has hardly any room.
pub(super) fn middles(map: &HeatMap, wanted: Option<HeatRule>) -> Vec<[f64; 2]> {
    const ACROSS: usize = 24;
    const UP: usize = 40;
    let mut found: Vec<(f64, [f64; 2])> = Vec::new();
    for column in 2..=ACROSS - 2 {
        let right = column as f64 / ACROSS as f64;
        let rows: Vec<usize> = (0..=UP).filter(|row| rule(map, right, *row as f64 / UP as f64) == wanted).collect();
        let (Some(first), Some(last)) = (rows.first(), rows.last()) else { continue };
        // Nearer the middle of the map there is more room for a name.
        let size = rows.len() as f64 - 8.0 * (right - 0.5).abs();
        if rows.len() >= 3 {
            for along in [0.5, 0.3, 0.7, 0.15, 0.85] {
                let up = *first as f64 + along * (last - first) as f64;
                found.push((size - 10.0 * (along - 0.5_f64).abs(), [right, up / UP as f64]));
            }
        }
    }
    found.sort_by(|a, b| b.0.total_cmp(&a.0));
    found.into_iter().map(|(_, at)| at).collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::file::demo;
    use crate::study::{HeatRoad, heat_curves};
    use crate::window::tokens::{DARK, LIGHT, contrast};

    #[test]
    fn the_picture_shows_the_classes_of_the_map() {
        let curves = heat_curves(&demo()).unwrap();
        for road in HeatRoad::ALL {
            let map = curves.map(road).as_ref().unwrap();
            let (columns, rows) = (map.speed.points, map.ambient.points);
            for row in 0..rows {
                for column in 0..columns {
                    let (right, up) = (column as f64 / (columns - 1) as f64, row as f64 / (rows - 1) as f64);
                    assert_eq!(rule(map, right, up), map.cell(column, row).map(|cell| cell.rule), "{column} {row}");
                }
            }
            for wanted in [HeatRule::Thermostat, HeatRule::Radiator].map(Some) {
                let places = middles(map, wanted);
                assert!(!places.is_empty() && places.iter().all(|[right, up]| rule(map, *right, *up) == wanted));
            }
            assert_eq!(picture(map, &LIGHT).pixels.len(), PIXELS[0] * PIXELS[1]);
        }
    }

    #[test]
    fn patterns_differ_and_words_stay_readable() {
        let shares = HeatRule::ALL.map(|rule| {
            let all = (0..45).flat_map(|row| (0..45).map(move |column| (column, row)));
            all.filter(|(column, row)| patterned(rule, *column, *row)).count()
        });
        assert!(shares[1] == 0 && shares[0] > 0 && shares[2] > shares[0] && shares[3] > shares[2], "{shares:?}");
        for tokens in [&LIGHT, &DARK] {
            for rule in HeatRule::ALL {
                assert!(contrast(tokens.ink, colour(rule, tokens)) > 4.5, "{rule:?}");
            }
        }
    }
}
