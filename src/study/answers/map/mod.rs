//! The operating map: the crankcase over engine speed and manifold pressure.

mod lines;
mod over;
mod words;

pub use lines::MapLine;

use crate::quantity::si::{AngularVelocity, MassRate, Pressure};
use crate::quantity::{AbsolutePressure, Estimate, GaugePressure, Measured};
use crate::study::{Duty, State, VentilationArrangement, VentilationInputs};

/// Even steps along one side of a map, both ends included.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Span<Q> {
    /// The first value.
    pub from: Q,
    /// The last value.
    pub to: Q,
    /// How many values, 2 to 400.
    pub points: usize,
}

impl<Q: Measured> Span<Q> {
    /// The value at a place counted from the first, fractions between.
    #[must_use]
    pub fn at(&self, place: f64) -> Q {
        let last = self.points.saturating_sub(1).max(1) as f64;
        let (from, to) = (self.from.base(), self.to.base());
        // Exact at both ends.
        Q::from_base(if place == last { to } else { from + (to - from) * (place / last) })
    }

    /// The place of a value, fractions between; outside 0 to `points` − 1 when it lies outside.
    #[must_use]
    pub fn place(&self, value: Q) -> f64 {
        let (from, to) = (self.from.base(), self.to.base());
        (value.base() - from) / (to - from) * self.points.saturating_sub(1) as f64
    }
}

/// Where a map is computed.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct MapGrid {
    /// Engine speed, the columns.
    pub rpm: Span<AngularVelocity>,
    /// Manifold pressure, the rows.
    pub manifold: Span<AbsolutePressure>,
}

impl MapGrid {
    /// How many cells.
    #[must_use]
    pub const fn cells(&self) -> usize {
        self.rpm.points * self.manifold.points
    }
}

/// Which ventilation a map is made for.
#[derive(Clone, Debug, Default, PartialEq)]
pub enum Variant {
    /// As the project describes it.
    #[default]
    Present,
    /// Its parts in another arrangement. A catch can whose line the arrangement lacks is left out.
    Arranged(VentilationArrangement),
    /// The valve stuck shut.
    ValveStuckShut,
    /// The breather or the fresh-air line blocked; of two breathers the first.
    BreatherBlocked,
    /// Another ventilation altogether.
    Other(Box<VentilationInputs>),
}

/// The crankcase at one blow-by.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct MapCase {
    /// Gas into the crankcase.
    pub blow_by: MassRate,
    /// Crankcase pressure.
    pub gauge: GaugePressure,
    /// Through the breathers or the fresh-air line on balance: positive out, negative in; `None` without one.
    pub breather: Option<MassRate>,
    /// Through the valve; `None` without one.
    pub valve: Option<MassRate>,
}

/// The limit that decides at a place of the map.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum MapLimit {
    /// The pressure not to be passed at light load.
    LightLoad,
    /// The pressure not to be passed under load.
    UnderLoad,
    /// The depression not to be passed.
    Depression,
}

impl MapLimit {
    /// Its words.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::LightLoad => "limit at light load",
            Self::UnderLoad => "limit under load",
            Self::Depression => "deepest allowed",
        }
    }
}

/// Which blow-by a person looks at.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Hash)]
pub enum MapCaseKind {
    /// The likely one.
    Likely,
    /// The high one, by which hardware is judged.
    #[default]
    High,
}

/// One cell with an answer.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct MapState {
    /// At the likely blow-by.
    pub likely: MapCase,
    /// At the high blow-by.
    pub high: MapCase,
    /// The deepest the crankcase goes: at the low blow-by, less what the rings draw back.
    pub deepest: GaugePressure,
    /// The pressure not to be passed here.
    pub pressure_limit: GaugePressure,
    /// The limit that decides.
    pub limit: MapLimit,
    /// Against that limit: does not hold when the high blow-by passes the pressure or the deepest passes the depression,
    /// thin when little is left.
    pub state: State,
}

impl MapState {
    /// The crankcase at a blow-by.
    #[must_use]
    pub const fn case(&self, kind: MapCaseKind) -> &MapCase {
        match kind {
            MapCaseKind::Likely => &self.likely,
            MapCaseKind::High => &self.high,
        }
    }
}

/// Why a cell has no answer.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum Unsolved {
    /// A figure leaves the range the program knows: the air filter's depression at a great speed, the valve's table.
    OutOfRange(String),
    /// Every way out is shut, or so tight that the seals would fail first.
    NoWayOut(String),
    /// The pressures were not found.
    NotFound(String),
}

impl Unsolved {
    /// The reason in words.
    #[must_use]
    pub fn reason(&self) -> &str {
        match self {
            Self::OutOfRange(reason) | Self::NoWayOut(reason) | Self::NotFound(reason) => reason,
        }
    }
}

/// One cell.
#[derive(Clone, Debug, PartialEq)]
pub enum MapCell {
    /// It has an answer.
    Solved(MapState),
    /// It has none.
    Unsolved(Unsolved),
}

impl MapCell {
    /// The answer, if there is one.
    #[must_use]
    pub const fn state(&self) -> Option<&MapState> {
        match self {
            Self::Solved(state) => Some(state),
            Self::Unsolved(_) => None,
        }
    }

    /// Why there is none.
    #[must_use]
    pub const fn unsolved(&self) -> Option<&Unsolved> {
        match self {
            Self::Solved(_) => None,
            Self::Unsolved(why) => Some(why),
        }
    }
}

/// A duty point with its own figures, speed and manifold pressure.
#[derive(Clone, Debug, PartialEq)]
pub struct MapMark {
    /// Which.
    pub duty: Duty,
    /// Engine speed.
    pub rpm: AngularVelocity,
    /// Manifold pressure.
    pub manifold: AbsolutePressure,
    /// What it has.
    pub cell: MapCell,
    /// Whether the map around it is of the same burning; else a heavier duty has the same manifold pressure, or the engine
    /// overruns at a manifold pressure at which the map has it burning.
    pub on_map: bool,
}

/// The crankcase over engine speed and manifold pressure.
#[derive(Clone, Debug, PartialEq)]
pub struct Map {
    /// Which ventilation.
    pub variant: Variant,
    /// Where.
    pub grid: MapGrid,
    /// Row by row from the lowest manifold pressure, each from the lowest speed.
    pub cells: Vec<MapCell>,
    /// The duty points.
    pub marks: Vec<MapMark>,
    /// The limit under load applies from this manifold pressure on.
    pub load_from: AbsolutePressure,
    /// How deep the crankcase may go: thin beyond its low end, fails beyond its likely value.
    pub depression: Estimate<Pressure>,
    /// Above this pressure the engine is to be stopped.
    pub stop: GaugePressure,
    /// Where the breather turns round, at the likely and at the high blow-by.
    pub turns: [Vec<MapLine>; 2],
    /// Where the crankcase reaches the pressure limit, at the likely and at the high blow-by.
    pub limits: [Vec<MapLine>; 2],
    /// Where the crankcase reaches the deepest allowed.
    pub depths: Vec<MapLine>,
}

impl Map {
    /// The cell at a column and a row.
    #[must_use]
    pub fn cell(&self, column: usize, row: usize) -> Option<&MapCell> {
        (column < self.grid.rpm.points).then(|| self.cells.get(row * self.grid.rpm.points + column)).flatten()
    }

    /// The cell nearest to a place; `None` off the map.
    #[must_use]
    pub fn nearest(&self, rpm: AngularVelocity, manifold: AbsolutePressure) -> Option<&MapCell> {
        let whole = |place: f64| (place.is_finite() && place > -0.5).then(|| place.round().max(0.0) as usize);
        self.cell(whole(self.grid.rpm.place(rpm))?, whole(self.grid.manifold.place(manifold))?)
    }

    /// Where the breather turns round.
    #[must_use]
    pub fn turns(&self, kind: MapCaseKind) -> &[MapLine] {
        &self.turns[kind as usize]
    }

    /// Where the crankcase reaches its pressure limit.
    #[must_use]
    pub fn limits(&self, kind: MapCaseKind) -> &[MapLine] {
        &self.limits[kind as usize]
    }

    /// Whether engine speed changes anything: it does so only through the air filter, by a line that breathes there.
    #[must_use]
    pub fn feels_speed(&self) -> bool {
        let gauges = |cell: &MapCell| cell.state().map(|state| (state.likely.gauge, state.high.gauge));
        let mut rows = self.cells.chunks(self.grid.rpm.points.max(1));
        rows.any(|row| row.windows(2).any(|pair| gauges(&pair[0]) != gauges(&pair[1])))
    }
}

/// Two maps over one grid.
#[derive(Clone, Debug, PartialEq)]
pub struct MapComparison {
    /// As the project describes it.
    pub present: Map,
    /// The other ventilation.
    pub other: Map,
}

impl MapComparison {
    /// By how much the crankcase stands higher with the other ventilation; `None` where either has no answer.
    #[must_use]
    pub fn difference(&self, column: usize, row: usize, kind: MapCaseKind) -> Option<Pressure> {
        let gauge = |map: &Map| Some(map.cell(column, row)?.state()?.case(kind).gauge.base());
        Some(Pressure::from_base(gauge(&self.other)? - gauge(&self.present)?))
    }
}
