//! Why an element has no flow to give.

use crate::numeric::TableError;
use crate::quantity::si::{Length, Pressure};
use crate::quantity::{Amount, Kind, Measured, OutOfRange, UnitSystem};

/// Why an element has no flow to give.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum FlowError {
    /// A figure outside its range.
    #[error(transparent)]
    OutOfRange(#[from] OutOfRange),
    /// A table of flow against depression that cannot be used.
    #[error("the valve's table of flow against depression: {0}; give rising depressions with the flow at each")]
    Table(#[from] TableError),
    /// A flow in a table that is not above zero.
    #[error("row {row} of the valve's table has a flow that is not above zero; leave out depressions without flow")]
    TableFlow {
        /// The row, counted from one.
        row: usize,
    },
    /// A depression the table does not reach; nothing is extrapolated.
    #[error(
        "the depression across the valve is {}, beyond the last point of its table, {}; measure the flow up to the \
         deepest depression of any duty, most often the overrun's, or further",
        show(.depression), show(.last)
    )]
    BeyondTable {
        /// The depression asked for.
        depression: Pressure,
        /// The last depression of the table.
        last: Pressure,
    },
    /// A plunger whose two depressions are not in order.
    #[error(
        "the valve starts to reduce at {} and is fully reduced at {}; the second must be larger",
        show(.starts), show(.ends)
    )]
    PlungerOrder {
        /// Where the plunger starts to reduce the opening.
        starts: Pressure,
        /// Where it is fully reduced.
        ends: Pressure,
    },
    /// A plunger that does not fit its seat.
    #[error(
        "the plunger's thick end of {} must be narrower than the seat of {}, and its thin end of {} no wider than the thick one",
        millimetres(.thick), millimetres(.seat), millimetres(.thin)
    )]
    PlungerFit {
        /// Bore of the seat.
        seat: Length,
        /// Diameter of the thick end.
        thick: Length,
        /// Diameter of the thin end.
        thin: Length,
    },
    /// A row of a bench with a known orifice that gives no flow.
    #[error(
        "row {row}: {} across the valve and {} across the known orifice; both must be above zero, and together below the \
         {} of the room's air",
        show(.depression), show(.drop), show(.room)
    )]
    BenchRow {
        /// The row, counted from one.
        row: usize,
        /// Depression across the valve.
        depression: Pressure,
        /// Pressure drop across the known orifice.
        drop: Pressure,
        /// Pressure of the room above vacuum.
        room: Pressure,
    },
    /// An element without any resistance.
    #[error("{what} has no resistance at all; give at least one loss above zero")]
    NoResistance {
        /// Which element.
        what: &'static str,
    },
    /// Fewer than two measured points where two are needed.
    #[error("the breather element has {rows} measured rows; give two or more, or choose one measured point")]
    TooFewPoints {
        /// How many there are.
        rows: usize,
    },
    /// A measured point with a figure outside its range.
    #[error("row {row}: {error}")]
    PointOutside {
        /// The row, counted from one.
        row: usize,
        /// Which figure.
        error: OutOfRange,
    },
    /// A measured point whose flow is not above that of the row before.
    #[error("row {row}: the flow must rise from each row to the next")]
    PointsNotRising {
        /// The row, counted from one.
        row: usize,
    },
    /// A measured point that no linear and quadratic part reach from the row before.
    #[error(
        "row {row}: {} does not follow from the row before; an element's pressure grows at least with the flow and at most with \
         its square, here to between {} and {}: measure again",
        small(.drop), small(.least), small(.most)
    )]
    PointOffTheLaw {
        /// The row, counted from one.
        row: usize,
        /// Its pressure.
        drop: Pressure,
        /// The least it may be.
        least: Pressure,
        /// The most it may be.
        most: Pressure,
    },
}

fn small(pressure: &Pressure) -> String {
    Amount::new(pressure.base(), Kind::SmallPressureDifference).show(UnitSystem::Si)
}

fn millimetres(length: &Length) -> String {
    Amount::new(length.base(), Kind::SmallLength).show(UnitSystem::Si)
}

fn show(pressure: &Pressure) -> String {
    Amount::new(pressure.base(), Kind::PressureDifference).show(UnitSystem::Si)
}
