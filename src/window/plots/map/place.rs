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
    }
}
