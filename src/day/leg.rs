//! What the car does in a day, as a person plans it.

use super::Trace;
use crate::quantity::si::{Acceleration, Length, Ratio, ThermodynamicTemperature, Time, Velocity};
use crate::quantity::{Kind, Range, ZERO_CELSIUS};

/// Air temperatures of a leg.
pub const AIR: Range = Range::new(
    "air temperature",
    Kind::Temperature,
    ZERO_CELSIUS - 40.0,
    ZERO_CELSIUS + 55.0,
    "properties of the coolant are known from -40 °C up, and no road air is hotter than 55 °C",
);
/// How long a leg may last.
pub const LASTS: Range =
    Range::new("how long it lasts", Kind::Duration, 1.0, 7.0 * 86400.0, "give 1 s to a week, such as 10 min or 8 h");
/// How long stop and go may last.
pub const TRAFFIC_LASTS: Range =
    Range::new("how long the traffic lasts", Kind::Duration, 10.0, 12.0 * 3600.0, "give 10 s to 12 h");
/// Distances.
pub const DISTANCE: Range =
    Range::new("distance", Kind::RoadDistance, 10.0, 2e6, "give 10 m to 2000 km, such as 25 km");
/// Speeds to be held.
pub const SPEED: Range = Range::new("road speed", Kind::RoadSpeed, 0.5, 100.0, "give 2 to 360 km/h");
/// Grades of a leg driven at a steady speed.
pub const GRADE: Range =
    Range::new("grade", Kind::Share, -0.3, 0.3, "rise divided by distance, negative downhill; steep passes have 12 %");
/// Grades of a climb.
pub const CLIMB_GRADE: Range =
    Range::new("grade of the climb", Kind::Share, 0.005, 0.35, "rise divided by distance; steep passes have 12 %");
/// Heights of a climb.
pub const HEIGHT: Range =
    Range::new("height of the climb", Kind::Distance, 1.0, 5000.0, "from its foot to its top, not above the sea");
/// Mean speeds of stop and go.
pub const MEAN_SPEED: Range =
    Range::new("mean speed of the traffic", Kind::RoadSpeed, 0.5, 20.0, "stops counted in; 5 to 25 km/h is usual");
/// Shares of its time that traffic stands.
pub const STANDING: Range =
    Range::new("share of the time standing", Kind::Share, 0.0, 0.95, "30 to 60 % is usual in stop and go");
/// Accelerations of stop and go.
pub const ACCELERATION: Range =
    Range::new("acceleration", Kind::Acceleration, 0.1, 6.0, "0.1 g is usual; a hard start is 0.3 g");
/// Time steps over which traces and traffic are averaged.
pub const RESOLUTION: Range =
    Range::new("time step", Kind::Time, 1.0, 60.0, "give 1 to 60 s; 5 s shows what the coolant can follow");

/// A leg of the day.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Leg {
    /// Air temperature at its beginning, and all through it but for [`Doing::Overnight`].
    pub air: ThermodynamicTemperature,
    /// What the car does.
    pub does: Doing,
}

/// When a leg at a steady speed ends.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Until {
    /// After a time.
    Time(Time),
    /// After a distance along the road.
    Distance(Length),
}

/// What a car does in a leg.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Doing {
    /// It stands cold, engine off.
    Park {
        /// How long.
        lasts: Time,
    },
    /// It stands, engine idling.
    Idle {
        /// How long.
        lasts: Time,
    },
    /// It drives at a steady speed.
    Steady {
        /// Road speed.
        speed: Velocity,
        /// Rise over run; negative downhill.
        grade: Ratio,
        /// The gear chosen, counted from 1; `None`: as a driver would.
        gear: Option<usize>,
        /// When it ends.
        until: Until,
    },
    /// It climbs at a steady speed.
    Climb {
        /// Road speed.
        speed: Velocity,
        /// Rise over run.
        grade: Ratio,
        /// The gear chosen, counted from 1; `None`: as a driver would.
        gear: Option<usize>,
        /// From foot to top.
        height: Length,
    },
    /// Full throttle held at a speed: a hill, a trailer or a roller dynamometer takes what the engine makes.
    FullThrottle {
        /// Road speed.
        speed: Velocity,
        /// How long.
        lasts: Time,
    },
    /// Stop and go.
    Traffic {
        /// Distance over time, stops counted in.
        mean_speed: Velocity,
        /// Share of the time standing.
        standing: Ratio,
        /// How hard it speeds up and slows down.
        acceleration: Acceleration,
        /// How long.
        lasts: Time,
    },
    /// A standard speed trace.
    Trace {
        /// Which.
        trace: Trace,
        /// How often in a row.
        repeats: u32,
    },
    /// The hot engine is switched off.
    HotStop {
        /// How long.
        lasts: Time,
    },
    /// It stands over night while the air cools.
    Overnight {
        /// How long.
        lasts: Time,
        /// Air temperature at the end, reached in a straight line.
        falls_to: ThermodynamicTemperature,
    },
}
/// How often a trace may be repeated.
pub const MOST_REPEATS: u32 = 20;
