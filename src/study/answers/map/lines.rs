//! The lines of a map: where something becomes zero.

use super::{Map, MapCaseKind, MapGrid, MapState};
use crate::numeric::level_lines;
use crate::quantity::si::AngularVelocity;
use crate::quantity::{AbsolutePressure, Measured};

/// A line over a map.
#[derive(Clone, Debug, PartialEq)]
pub struct MapLine(pub Vec<(AngularVelocity, AbsolutePressure)>);

fn zeros(map: &Map, pick: impl Fn(&MapState) -> Option<f64>) -> Vec<MapLine> {
    let MapGrid { rpm, manifold } = map.grid;
    let field: Vec<Option<f64>> = map.cells.iter().map(|cell| cell.state().and_then(&pick)).collect();
    let lines = level_lines(&field, rpm.points, 0.0).into_iter();
    lines.map(|line| MapLine(line.into_iter().map(|[x, y]| (rpm.at(x), manifold.at(y))).collect())).collect()
}

impl Map {
    /// Draws every line from the cells. Where the limit at light load gives way to the one under load, a row apart, the
    /// limit's line runs along between the two rows.
    pub(in crate::study) fn draw_lines(&mut self) {
        let kinds = [MapCaseKind::Likely, MapCaseKind::High];
        self.turns = kinds.map(|kind| zeros(self, |state| state.case(kind).breather.map(Measured::base)));
        self.limits =
            kinds.map(|kind| zeros(self, |state| Some(state.case(kind).gauge.base() - state.pressure_limit.base())));
        let deepest = self.depression.likely.base();
        self.depths = zeros(self, |state| Some(-state.deepest.base() - deepest));
    }
}
