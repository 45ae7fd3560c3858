//! The lines of a day as they are plotted: picked from the samples once, and thinned to what the pixels can show.

use crate::day::Sample;
use crate::study::{CrankcaseSample, DayAnswers};
use egui_plot::PlotPoint;

/// A line in pieces: where nothing is known it is broken.
pub type Pieces = Vec<Vec<PlotPoint>>;

/// A state of the car and its crankcase at one time.
pub type At<'a> = (&'a Sample, Option<&'a CrankcaseSample>);

/// Samples of the likely day with their crankcase.
pub fn likely(day: &DayAnswers) -> impl Iterator<Item = At<'_>> {
    day.drive.samples.iter().enumerate().map(|(index, sample)| (sample, day.crankcase.get(index)))
}

/// Samples of the unfavourable end.
pub fn unfavourable(day: &DayAnswers) -> impl Iterator<Item = At<'_>> {
    day.unfavourable.samples.iter().map(|sample| (sample, None))
}

/// Samples lie no further apart than this, s.
const BETWEEN: f64 = 30.0;

/// A line through what `pick` finds in each sample, as seconds and the unit of the axis, at most four points a column of
/// pixels.
pub fn line<'a>(
    samples: impl Iterator<Item = At<'a>>,
    (from, to): (f64, f64),
    columns: usize,
    pick: impl Fn(&At<'a>) -> Option<f64>,
) -> Pieces {
    let mut pieces: Pieces = Vec::new();
    let mut open = Vec::new();
    // A little beyond both ends, so that the line runs to the edge.
    let beyond = (to - from) / columns.max(1) as f64 + BETWEEN;
    let inside = from - beyond..=to + beyond;
    for at in samples.filter(|at| inside.contains(&at.0.time.value)) {
        match pick(&at).filter(|value| value.is_finite()) {
            Some(value) => open.push(PlotPoint::new(at.0.time.value, value)),
            None if open.is_empty() => {}
            None => pieces.push(std::mem::take(&mut open)),
        }
    }
    pieces.push(open);
    pieces.retain(|piece| !piece.is_empty());
    pieces.into_iter().map(|piece| thinned(piece, (to - from) / columns.max(1) as f64)).collect()
}

/// The first, the lowest, the highest and the last point of each column: what is left out lies under what is drawn.
fn thinned(points: Vec<PlotPoint>, column: f64) -> Vec<PlotPoint> {
    if column.is_nan() || column <= 0.0 {
        return points;
    }
    let of = |point: &PlotPoint| (point.x / column).floor();
    let mut kept: Vec<PlotPoint> = Vec::with_capacity(points.len().min(4096));
    for group in points.chunk_by(|a, b| of(a) == of(b)) {
        if group.len() <= 4 {
            kept.extend_from_slice(group);
            continue;
        }
        let extreme = |pick: fn(f64, f64) -> bool| {
            let better = |best: usize, (index, point): (usize, &PlotPoint)| {
                if group.get(best).is_some_and(|held| pick(point.y, held.y)) { index } else { best }
            };
            group.iter().enumerate().fold(0, better)
        };
        let mut chosen =
            [0, extreme(|new, held| new < held), extreme(|new, held| new > held), group.len() - 1].to_vec();
        chosen.sort_unstable();
        chosen.dedup();
        kept.extend(chosen.into_iter().filter_map(|index| group.get(index).copied()));
    }
    // A level line needs only its ends; dashes come out even along a long piece.
    let level: Vec<bool> = kept.windows(3).map(|three| three.windows(2).all(|pair| pair[0].y == pair[1].y)).collect();
    let middle = |index: usize| index.checked_sub(1).and_then(|before| level.get(before)).copied().unwrap_or(false);
    kept.into_iter().enumerate().filter(|(index, _)| !middle(*index)).map(|(_, point)| point).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn thinning_keeps_peaks_and_ends_and_little_else() {
        let mut points: Vec<PlotPoint> =
            (0..10_000).map(|step| PlotPoint::new(f64::from(step), (f64::from(step) / 700.0).sin())).collect();
        points[4321].y = 9.0;
        points[7777].y = -9.0;
        let kept = thinned(points.clone(), 100.0);
        assert!(kept.len() <= 400 && kept.len() >= 200, "{}", kept.len());
        assert!(kept.windows(2).all(|pair| pair[0].x < pair[1].x));
        for must in [0, 4321, 7777, 9999] {
            assert!(kept.contains(&points[must]), "{must}");
        }
        // Of a level line the ends are left.
        let level: Vec<PlotPoint> = (0..50).map(|step| PlotPoint::new(f64::from(step), 3.0)).collect();
        assert_eq!(thinned(level.clone(), 1.0), [level[0], level[49]]);
        // Few points are left as they are, and so are all where no width is known.
        assert_eq!(thinned(points[..3].to_vec(), 100.0), points[..3]);
        assert_eq!(thinned(points.clone(), f64::NAN), points);
    }
}
