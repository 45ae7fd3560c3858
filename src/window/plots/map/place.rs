//! Where names go on a map.

use crate::study::{MapGrid, MapLine};

/// A point half-way along the longest line, as shares of the map's width and height; `None` without a line.
pub(super) fn of_label(lines: &[MapLine], grid: &MapGrid, along: f64) -> Option<[f64; 2]> {
    let share = |line: &MapLine| -> Vec<[f64; 2]> {
        let (x, y) = ((grid.rpm.points - 1) as f64, (grid.manifold.points - 1) as f64);
        line.0.iter().map(|(rpm, manifold)| [grid.rpm.place(*rpm) / x, grid.manifold.place(*manifold) / y]).collect()
    };
    let length = |line: &[[f64; 2]]| line.windows(2).map(|p| (p[1][0] - p[0][0]).hypot(p[1][1] - p[0][1])).sum::<f64>();
    let longest = lines.iter().map(share).max_by(|a, b| length(a).total_cmp(&length(b)))?;
    let wanted = along * length(&longest);
    let mut gone = 0.0;
    for pair in longest.windows(2) {
        let [from, to] = pair else { continue };
        let step = (to[0] - from[0]).hypot(to[1] - from[1]);
        if gone + step >= wanted {
            let share = if step > 0.0 { (wanted - gone) / step } else { 0.0 };
            return Some([from[0] + share * (to[0] - from[0]), from[1] + share * (to[1] - from[1])]);
        }
        gone += step;
    }
    longest.last().copied()
}

/// Where the name of a line goes.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Spot {
    /// As shares of the map's width and height.
    pub at: [f64; 2],
    /// Above the line, or below it.
    pub above: bool,
}

/// What a name covers of the map's width and height, about.
const WIDE: f64 = 0.36;
const TALL: f64 = 0.08;

/// How a name of a line lies across its spot: inside the map at either side, centred between.
pub(super) fn across(right: f64) -> egui::Align {
    match right {
        ..0.3 => egui::Align::Min,
        0.7.. => egui::Align::Max,
        _ => egui::Align::Center,
    }
}

/// As [`of_label`], at the first of several spots that the names of the duty points leave free; where none is, the one wanted.
pub(super) fn clear_of(lines: &[MapLine], grid: &MapGrid, along: f64, marks: &[[f64; 2]]) -> Option<Spot> {
    let free = |spot: &Spot| {
        let [right, up] = spot.at;
        let left = match across(right) {
            egui::Align::Min => right,
            egui::Align::Center => right - 0.5 * WIDE,
            egui::Align::Max => right - WIDE,
        };
        let low = if spot.above { up } else { up - TALL };
        marks.iter().all(|mark| {
            // Beside its mark, towards the middle.
            let (from, above) = (if mark[0] > 0.6 { mark[0] - WIDE } else { mark[0] }, mark[1] <= 0.5);
            let bottom = if above { mark[1] } else { mark[1] - TALL };
            left + WIDE <= from || left >= from + WIDE || low + TALL <= bottom || low >= bottom + TALL
        })
    };
    let spot = |along: f64, above: bool| of_label(lines, grid, along).map(|at| Spot { at, above });
    // Above the map's upper edge no name is read.
    let wanted = spot(along, true).map(|spot| Spot { above: spot.at[1] <= 0.9, ..spot })?;
    let tries = [along, 0.0, 1.0, 0.3, 0.7, 0.5];
    let above = tries.into_iter().filter_map(|along| spot(along, true)).filter(|spot| spot.at[1] <= 0.9);
    let below = tries.into_iter().filter_map(|along| spot(along, false)).filter(|spot| spot.at[1] >= TALL);
    let mut all = above.chain(below);
    Some(all.find(free).unwrap_or(wanted))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::Measured;
    use crate::study::Span;

    #[test]
    fn a_label_sits_part_of_the_way_along_the_longest_line() {
        let span = |points| (0.0, 10.0, points);
        let (from, to, points) = span(11);
        let grid = MapGrid {
            rpm: Span { from: Measured::from_base(from), to: Measured::from_base(to), points },
            manifold: Span { from: Measured::from_base(from), to: Measured::from_base(to), points },
        };
        let line = |ends: &[(f64, f64)]| {
            MapLine(ends.iter().map(|(x, y)| (Measured::from_base(*x), Measured::from_base(*y))).collect())
        };
        let lines = [line(&[(0.0, 0.0), (1.0, 0.0)]), line(&[(0.0, 5.0), (4.0, 5.0), (10.0, 5.0)])];
        assert_eq!(of_label(&lines, &grid, 0.5), Some([0.5, 0.5]));
        assert_eq!(of_label(&lines, &grid, 0.0), Some([0.0, 0.5]));
        assert_eq!(of_label(&lines, &grid, 1.0), Some([1.0, 0.5]));
        assert_eq!(of_label(&[], &grid, 0.5), None);
        // A mark's name in the way sends it elsewhere; with no room it stays.
        let spot = |right, above| Some(Spot { at: [right, 0.5], above });
        assert_eq!(clear_of(&lines, &grid, 0.5, &[]), spot(0.5, true));
        assert_eq!(clear_of(&lines, &grid, 0.5, &[[0.4, 0.9]]), spot(0.5, true));
        assert_eq!(clear_of(&lines, &grid, 0.5, &[[0.4, 0.45]]), spot(0.0, true));
        assert_eq!(clear_of(&lines, &grid, 0.5, &[[0.1, 0.5], [0.4, 0.5]]), spot(0.5, false));
        let full: Vec<[f64; 2]> = [0.0, 0.3, 0.6].into_iter().flat_map(|x| [[x, 0.42], [x, 0.5]]).collect();
        assert_eq!(clear_of(&lines, &grid, 0.5, &full), spot(0.5, true));
    }
}
