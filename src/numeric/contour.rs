//! Level lines of a field known at the nodes of a grid, by marching squares.
//!
//! A line is open where it leaves the grid or meets nodes without a value, which libraries for filled contours close
//! along the edge instead.

/// One line: points in columns and rows of the grid, fractions between nodes.
pub type Polyline = Vec<[f64; 2]>;

/// A crossing lies on an edge between two nodes; a square joins two of its edges.
#[derive(Clone, Copy, Default)]
struct Crossing {
    at: [f64; 2],
    joined: [Option<usize>; 2],
    done: bool,
}

impl Crossing {
    fn join(&mut self, other: usize) {
        if let Some(free) = self.joined.iter_mut().find(|slot| slot.is_none()) {
            *free = Some(other);
        }
    }
}

/// The lines along which a field is `level`. `values` go row by row, `columns` to a row; a node without a value is no
/// number, and no line comes into a square that has one. Between nodes the field is taken to be straight, so that the
/// lines of a straight field are exact. Where two opposite corners lie above and two below, the mean of the four tells
/// which are joined. A last row that is not full is left out.
#[must_use]
pub fn level_lines(values: &[Option<f64>], columns: usize, level: f64) -> Vec<Polyline> {
    if columns < 2 {
        return Vec::new();
    }
    let rows = values.len() / columns;
    let value = |column: usize, row: usize| {
        let found = values.get(row * columns + column).copied().flatten();
        found.filter(|value| value.is_finite()).map(|value| value - level)
    };
    // Two edges begin at each node: to the next column, and to the next row.
    let mut crossings = vec![Crossing::default(); 2 * columns * rows];
    let across = |column: usize, row: usize| 2 * (row * columns + column);
    let along = |column: usize, row: usize| across(column, row) + 1;
    for row in 0..rows.saturating_sub(1) {
        for column in 0..columns - 1 {
            let corner = [(0, 0), (1, 0), (1, 1), (0, 1)].map(|(right, up)| value(column + right, row + up));
            let [Some(a), Some(b), Some(c), Some(d)] = corner else { continue };
            let edges = [across(column, row), along(column + 1, row), across(column, row + 1), along(column, row)];
            let (x, y) = (column as f64, row as f64);
            let share = |from: f64, to: f64| from / (from - to);
            let mut crossed = Vec::with_capacity(4);
            let mut note = |side: usize, from: f64, to: f64, place: fn(f64) -> [f64; 2]| {
                if (from >= 0.0) != (to >= 0.0) {
                    let [right, up] = place(share(from, to));
                    crossed.push((edges[side], [x + right, y + up]));
                }
            };
            note(0, a, b, |s| [s, 0.0]);
            note(1, b, c, |s| [1.0, s]);
            note(2, d, c, |s| [s, 1.0]);
            note(3, a, d, |s| [0.0, s]);
            let mut join = |one: (usize, [f64; 2]), other: (usize, [f64; 2])| {
                for ((edge, at), next) in [(one, other.0), (other, one.0)] {
                    if let Some(crossing) = crossings.get_mut(edge) {
                        crossing.at = at;
                        crossing.join(next);
                    }
                }
            };
            match crossed.as_slice() {
                [one, other] => join(*one, *other),
                // Around the corners b and d, or around a and c: whichever pair the middle does not side with.
                [first, second, third, fourth] => {
                    if ((a + b + c + d) >= 0.0) == (a >= 0.0) {
                        join(*first, *second);
                        join(*third, *fourth);
                    } else {
                        join(*first, *fourth);
                        join(*second, *third);
                    }
                }
                _ => {}
            }
        }
    }
    gather(&mut crossings)
}

/// The lines, open ones from their ends first, rings after.
fn gather(crossings: &mut [Crossing]) -> Vec<Polyline> {
    let mut lines = Vec::new();
    for rings in [false, true] {
        for start in 0..crossings.len() {
            let Some(first) = crossings.get(start).copied() else { continue };
            let begins = first.joined[0].is_some() && (rings || first.joined[1].is_none());
            if first.done || !begins {
                continue;
            }
            let mut line = Vec::new();
            let mut here = Some(start);
            while let Some(place) = here
                && let Some(crossing) = crossings.get_mut(place)
            {
                crossing.done = true;
                line.push(crossing.at);
                let joined = crossing.joined;
                here = joined.into_iter().flatten().find(|next| crossings.get(*next).is_some_and(|one| !one.done));
            }
            if rings {
                line.push(first.at);
            }
            lines.push(line);
        }
    }
    lines
}

#[cfg(test)]
mod tests {
    use super::*;

    fn sampled(columns: usize, rows: usize, field: impl Fn(f64, f64) -> f64) -> Vec<Option<f64>> {
        let places = (0..rows).flat_map(|row| (0..columns).map(move |column| (column as f64, row as f64)));
        places.map(|(x, y)| Some(field(x, y))).collect()
    }

    #[test]
    fn a_straight_field_has_one_straight_line() {
        let lines = level_lines(&sampled(7, 5, |x, y| 2.0 * x - 3.0 * y), 7, 1.0);
        let [line] = lines.as_slice() else { panic!("{lines:?}") };
        assert!(line.len() > 5);
        for [x, y] in line {
            assert!((2.0 * x - 3.0 * y - 1.0).abs() < 1e-12, "{x} {y}");
        }
        // It goes from edge to edge and never back.
        assert!(
            line.windows(2).all(|pair| (pair[1][0] - pair[0][0]) * (line[line.len() - 1][0] - line[0][0]) > -1e-12)
        );
        let on_edge = |[x, y]: [f64; 2]| x == 0.0 || y == 0.0 || x == 6.0 || y == 4.0;
        assert!(on_edge(line[0]) && on_edge(line[line.len() - 1]));
    }

    #[test]
    fn a_hill_has_a_ring_of_the_right_length() {
        // x² + y² = 10² about the middle of a fine grid: the chords are shorter than the arc by (h/r)²/24 at most.
        let lines = level_lines(&sampled(41, 41, |x, y| (x - 20.0).powi(2) + (y - 20.0).powi(2)), 41, 100.0);
        let [ring] = lines.as_slice() else { panic!("{} lines", lines.len()) };
        assert_eq!(ring[0], ring[ring.len() - 1]);
        let length: f64 = ring.windows(2).map(|p| (p[1][0] - p[0][0]).hypot(p[1][1] - p[0][1])).sum();
        assert!((length / (20.0 * std::f64::consts::PI) - 1.0).abs() < 5e-3, "{length}");
        for [x, y] in ring {
            // Straight between nodes: the error in the radius is h²/(8·r) at most.
            assert!(((x - 20.0).hypot(y - 20.0) - 10.0).abs() < 0.013);
        }
    }

    #[test]
    fn a_saddle_is_joined_by_its_middle() {
        let ends = |values: [f64; 4]| {
            let lines = level_lines(&values.map(Some), 2, 0.0);
            assert_eq!(lines.len(), 2, "{lines:?}");
            lines.iter().map(|line| line[0][0] + line[0][1] + line[1][0] + line[1][1]).fold(f64::INFINITY, f64::min)
        };
        // Row 0 holds a and b, row 1 d and c. High corners a and c on a high middle are one land: the lines cut off b
        // and d; on a low middle they cut off a and c, and one of them lies near the origin.
        assert!(ends([3.0, -1.0, -1.0, 3.0]) > 1.0);
        assert!(ends([1.0, -3.0, -3.0, 1.0]) < 1.0);
    }

    #[test]
    fn no_line_comes_near_a_node_without_a_value() {
        let mut values = sampled(5, 5, |x, _| x);
        let whole = level_lines(&values, 5, 1.5);
        assert_eq!(whole.len(), 1);
        values[2 * 5 + 2] = None;
        let cut = level_lines(&values, 5, 1.5);
        assert_eq!(cut.len(), 2);
        assert!(cut.iter().flatten().all(|[_, y]| *y <= 1.0 || *y >= 3.0), "{cut:?}");
        values[2 * 5 + 2] = Some(f64::NAN);
        assert_eq!(level_lines(&values, 5, 1.5), cut);
    }

    #[test]
    fn nothing_to_draw_is_no_fault() {
        assert!(level_lines(&[], 0, 0.0).is_empty());
        assert!(level_lines(&[Some(1.0)], 1, 0.0).is_empty());
        assert!(level_lines(&[Some(0.0); 9], 3, 0.0).is_empty());
        assert!(level_lines(&[None; 9], 3, 0.0).is_empty());
        assert!(level_lines(&[Some(-1.0), Some(1.0), Some(5.0)], 2, 0.0).is_empty());
    }
}
