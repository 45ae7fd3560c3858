//! The line of the pressure limit, in its pieces: for the limit at light load, for the one under load, and where one gives
//! way to the other.

use crate::study::{Map, MapCaseKind, MapLine};

/// Which piece of the limit's line.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Piece {
    /// The limit at light load is reached.
    Light,
    /// The limit changes from the one to the other: no pressure is reached here.
    Change,
    /// The limit under load is reached.
    Load,
}

impl Piece {
    pub const ALL: [Self; 3] = [Self::Light, Self::Change, Self::Load];

    /// Its words in the key.
    pub const fn name(self) -> &'static str {
        match self {
            Self::Light => "limit, light load",
            Self::Change => "limit under load from here up",
            Self::Load => "limit, under load",
        }
    }
}

/// The lines of a piece.
pub(super) fn lines(map: &Map, kind: MapCaseKind, piece: Piece) -> Vec<MapLine> {
    let mut cut = Vec::new();
    for MapLine(points) in map.limits(kind) {
        let mut run = Vec::new();
        for pair in points.windows(2) {
            let [from, to] = pair else { continue };
            let middle = 0.5 * (map.grid.manifold.place(from.1) + map.grid.manifold.place(to.1));
            if piece_at(map, middle) == piece {
                if run.is_empty() {
                    run.push(*from);
                }
                run.push(*to);
            } else if !run.is_empty() {
                cut.push(MapLine(std::mem::take(&mut run)));
            }
        }
        if !run.is_empty() {
            cut.push(MapLine(run));
        }
    }
    cut
}

/// Which piece a line is of at a place counted in rows.
fn piece_at(map: &Map, place: f64) -> Piece {
    let [light, load] = map.rows_of_limits();
    if load.is_empty() || place <= light.end as f64 - 1.0 {
        return Piece::Light;
    }
    if place >= load.start as f64 {
        return Piece::Load;
    }
    // Between the two rows: equal limits change nothing there.
    let limit = |row: usize| {
        let mut states = (0..map.grid.rpm.points).filter_map(|column| map.cell(column, row)?.state());
        states.next().map(|state| state.pressure_limit)
    };
    let below = light.end.checked_sub(1).and_then(limit);
    if below == limit(load.start) { Piece::Load } else { Piece::Change }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::study::{self, Variant};

    #[test]
    fn the_pieces_make_up_the_line_and_lie_where_their_limit_applies() {
        let project = crate::file::demo();
        let map = study::map(&project, &study::map_grid(&project, 5, 60).unwrap(), &Variant::Present).unwrap();
        let kind = MapCaseKind::High;
        let [light, load] = map.rows_of_limits();
        let steps = |lines: &[MapLine]| lines.iter().map(|line| line.0.len() - 1).sum::<usize>();
        let mut all = 0;
        for piece in Piece::ALL {
            let lines = lines(&map, kind, piece);
            assert!(!lines.is_empty(), "{piece:?}");
            all += steps(&lines);
            for (_, manifold) in lines.iter().flat_map(|line| &line.0) {
                let place = map.grid.manifold.place(*manifold);
                let (from, to) = (light.end as f64 - 1.0, load.start as f64);
                let right = match piece {
                    Piece::Light => place <= from,
                    Piece::Change => (from..=to).contains(&place),
                    Piece::Load => place >= to,
                };
                assert!(right, "{piece:?} at {place}");
            }
        }
        assert_eq!(all, steps(map.limits(kind)));
    }
}
