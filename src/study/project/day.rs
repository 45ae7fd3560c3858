//! The day: what the car does from the cold start to the next morning, leg by leg.

use crate::day::Trace;
use crate::day::leg::MOST_REPEATS;
use crate::day::road::MOST_GEARS;
use crate::quantity::si::{Acceleration, Length, Ratio, ThermodynamicTemperature, Time, Velocity};
use crate::quantity::{Kind, Measured, celsius};
use crate::study::check::Checker;
use crate::study::{Count, Field, Label, Visitor};

/// The most legs a day may have.
const MOST_LEGS: usize = 100;

/// What a leg is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum LegKind {
    /// Stands cold, engine off.
    Park,
    /// Stands, engine idling.
    Idle,
    /// Drives at a steady speed.
    Steady,
    /// Climbs at a steady speed.
    Climb,
    /// Stop and go.
    Traffic,
    /// Drives a standard speed trace.
    Trace,
    /// Full throttle held.
    FullThrottle,
    /// The hot engine is switched off.
    HotStop,
    /// Stands over night while the air cools.
    Overnight,
}
crate::choice!(LegKind {
    Park: "park", "Parked, engine off";
    Idle: "idle", "Idling at a standstill";
    Steady: "steady", "Steady speed";
    Climb: "climb", "Climb";
    Traffic: "traffic", "Stop and go";
    Trace: "trace", "Standard speed trace";
    FullThrottle: "full-throttle", "Full throttle held";
    HotStop: "hot-stop", "Hot stop, engine off";
    Overnight: "overnight", "Overnight, engine off";
});
crate::choice!(Trace {
    Urban: "urban", "City, United States: 23 min, 12 km";
    Highway: "highway", "Highway, United States: 13 min, 16.5 km";
    Worldwide: "worldwide", "Worldwide harmonised, city to motorway: 30 min, 23 km";
    European: "european", "Older European, city and country: 20 min, 11 km";
});

/// When a leg at a steady speed ends.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum LegEnd {
    /// After a time.
    Time,
    /// After a distance.
    Distance,
}
crate::choice!(LegEnd {
    Time: "time", "After a time";
    Distance: "distance", "After a distance";
});

/// One leg of the day. What another kind of leg asks for is kept while this one is chosen.
#[derive(Clone, Debug, PartialEq)]
pub struct LegInputs {
    /// What it is.
    pub kind: LegKind,
    /// Air temperature; overnight, that in the evening.
    pub air: ThermodynamicTemperature,
    /// How long it lasts.
    pub lasts: Time,
    /// Steady: when it ends.
    pub until: LegEnd,
    /// Steady: distance along the road.
    pub distance: Length,
    /// Steady, climb, full throttle: road speed.
    pub speed: Velocity,
    /// Steady: rise over run.
    pub grade: Ratio,
    /// Steady, climb: the gear, counted from 1; 0: as a driver would choose.
    pub gear: u32,
    /// Climb: rise over run.
    pub climb_grade: Ratio,
    /// Climb: from foot to top.
    pub height: Length,
    /// Traffic: mean speed, stops counted in.
    pub mean_speed: Velocity,
    /// Traffic: share of the time standing.
    pub standing: Ratio,
    /// Traffic: how hard it speeds up.
    pub acceleration: Acceleration,
    /// Traffic: how long it lasts.
    pub traffic_lasts: Time,
    /// Trace: which.
    pub trace: Trace,
    /// Trace: how often in a row.
    pub repeats: u32,
    /// Overnight: how long.
    pub night: Time,
    /// Overnight: air temperature in the morning.
    pub falls_to: ThermodynamicTemperature,
}

/// The day.
#[derive(Clone, Debug, PartialEq)]
pub struct DayInputs {
    /// Time over which traces and traffic are averaged.
    pub time_step: Time,
    /// Its legs; empty: the usual day.
    pub legs: Vec<LegInputs>,
}

static DAY: Label = Label::new("day", "Day", "What the car does, from the cold start on.");
static TIME_STEP: Field = Field::new(
    "time_step",
    "Time step",
    Kind::Time,
    (1.0, 60.0),
    "Speed traces and traffic are averaged over it; the coolant follows nothing quicker than about 5 s.",
    "enter 1 to 60 s",
);
static LEG: Label = Label::new(
    "leg",
    "Leg",
    "One after the other. None: a usual day from the coldest morning, over a hill at the hottest time, to the next morning.",
);
static KIND: Label = Label::new("kind", "What the car does", "In this leg.");
static AIR: Field = Field::new(
    "air",
    "Air temperature",
    Kind::Temperature,
    (-40.0 + 273.15, 328.15),
    "In the shade, during this leg; of a night, in the evening.",
    "properties of the coolant are known from -40 °C up, and no road air is hotter than 55 °C",
);
static LASTS: Field = Field::new(
    "lasts",
    "Lasts",
    Kind::Duration,
    (1.0, 7.0 * 86400.0),
    "How long this leg takes.",
    "enter 1 s to a week",
);
static TRAFFIC_LASTS: Field = Field::new(
    "lasts",
    "Lasts",
    Kind::Duration,
    (10.0, 12.0 * 3600.0),
    "How long the traffic takes: at least one stop.",
    "enter 10 s to 12 h",
);
static UNTIL: Label = Label::new("until", "Ends", "After a time, or after a distance.");
static DISTANCE: Field =
    Field::new("distance", "Distance", Kind::RoadDistance, (10.0, 2e6), "Along the road.", "enter 10 m to 2000 km");
static SPEED: Field = Field::new("speed", "Road speed", Kind::RoadSpeed, (0.5, 100.0), "Held all the time.", "");
static GRADE: Field = Field::new(
    "grade",
    "Grade",
    Kind::Share,
    (-0.3, 0.3),
    "Rise over distance; negative downhill. Steep passes have 12 %.",
    "rise divided by distance, negative downhill",
);
static CLIMB_GRADE: Field = Field::new(
    "grade",
    "Grade",
    Kind::Share,
    (0.005, 0.35),
    "Rise over distance. Steep passes have 12 %.",
    "rise divided by distance",
);
static HEIGHT: Field = Field::new(
    "height",
    "Height climbed",
    Kind::Distance,
    (1.0, 5000.0),
    "From the foot to the top, not above the sea.",
    "",
);
static GEAR: Count = Count {
    label: Label::new(
        "gear",
        "Gear",
        "Counted from 1, such as a low gear held uphill. 0: the highest that leaves power in reserve, as a driver would choose.",
    ),
    low: 0,
    high: MOST_GEARS as u32,
};
static MEAN_SPEED: Field = Field::new(
    "speed",
    "Mean speed",
    Kind::RoadSpeed,
    (0.5, 20.0),
    "Distance over time, stops counted in.",
    "5 to 25 km/h is usual in stop and go",
);
static STANDING: Field =
    Field::new("standing", "Share of the time standing", Kind::Share, (0.0, 0.95), "30 to 60 % in stop and go.", "");
static ACCELERATION: Field = Field::new(
    "acceleration",
    "Acceleration",
    Kind::Acceleration,
    (0.1, 6.0),
    "How hard it speeds up and slows down: 0.1 g is usual. Met nearly, so that whole stops fill the time.",
    "",
);
static TRACE: Label = Label::new("trace", "Speed trace", "What public regulations have cars drive, second by second.");
static REPEATS: Count = Count {
    label: Label::new("repeats", "How often", "In a row, without a stop between."),
    low: 1,
    high: MOST_REPEATS,
};
static FALLS_TO: Field = Field::new(
    "falls_to",
    "Air in the morning",
    Kind::Temperature,
    (-40.0 + 273.15, 328.15),
    "Reached in a straight line.",
    "properties of the coolant are known from -40 °C up",
);

impl Default for LegInputs {
    fn default() -> Self {
        let (minutes, hours) = (|m: f64| Time::from_base(m * 60.0), |h: f64| Time::from_base(h * 3600.0));
        Self {
            kind: LegKind::Steady,
            air: celsius(20.0),
            lasts: minutes(10.0),
            until: LegEnd::Time,
            distance: Length::from_base(20e3),
            speed: Velocity::from_base(80.0 / 3.6),
            grade: Ratio::from_base(0.0),
            gear: 0,
            climb_grade: Ratio::from_base(0.06),
            height: Length::from_base(300.0),
            mean_speed: Velocity::from_base(12.0 / 3.6),
            standing: Ratio::from_base(0.4),
            acceleration: Acceleration::from_base(0.1 * 9.806_65),
            traffic_lasts: minutes(20.0),
            trace: Trace::Urban,
            repeats: 1,
            night: hours(10.0),
            falls_to: celsius(5.0),
        }
    }
}

impl Default for DayInputs {
    fn default() -> Self {
        Self { time_step: Time::from_base(5.0), legs: Vec::new() }
    }
}

impl LegInputs {
    fn visit(&mut self, v: &mut impl Visitor) {
        v.choice(&KIND, &mut self.kind);
        v.quantity(&AIR, &mut self.air);
        match self.kind {
            LegKind::Park | LegKind::Idle | LegKind::HotStop => v.quantity(&LASTS, &mut self.lasts),
            LegKind::Steady => {
                v.quantity(&SPEED, &mut self.speed);
                v.quantity(&GRADE, &mut self.grade);
                // Files from before it have none.
                v.later(|v| v.count(&GEAR, &mut self.gear));
                v.choice(&UNTIL, &mut self.until);
                match self.until {
                    LegEnd::Time => v.quantity(&LASTS, &mut self.lasts),
                    LegEnd::Distance => v.quantity(&DISTANCE, &mut self.distance),
                }
            }
            LegKind::Climb => {
                v.quantity(&HEIGHT, &mut self.height);
                v.quantity(&CLIMB_GRADE, &mut self.climb_grade);
                v.quantity(&SPEED, &mut self.speed);
                v.later(|v| v.count(&GEAR, &mut self.gear));
            }
            LegKind::Traffic => {
                v.quantity(&TRAFFIC_LASTS, &mut self.traffic_lasts);
                v.quantity(&MEAN_SPEED, &mut self.mean_speed);
                v.quantity(&STANDING, &mut self.standing);
                v.quantity(&ACCELERATION, &mut self.acceleration);
            }
            LegKind::Trace => {
                v.choice(&TRACE, &mut self.trace);
                v.count(&REPEATS, &mut self.repeats);
            }
            LegKind::FullThrottle => {
                v.quantity(&SPEED, &mut self.speed);
                v.quantity(&LASTS, &mut self.lasts);
            }
            LegKind::Overnight => {
                v.quantity(&LASTS, &mut self.night);
                v.quantity(&FALLS_TO, &mut self.falls_to);
            }
        }
    }
}

impl DayInputs {
    pub(super) fn visit(&mut self, visitor: &mut impl Visitor) {
        // Files from before the day through time have no such part.
        visitor.later(|v| {
            v.group(&DAY, |v| {
                v.quantity(&TIME_STEP, &mut self.time_step);
                v.list(&LEG, &mut self.legs, |leg, v| leg.visit(v));
            });
        });
    }

    /// What no single range can tell.
    pub(super) fn check(&self, checker: &mut Checker) {
        if self.legs.len() > MOST_LEGS {
            let message = format!("{} legs; a day may have at most {MOST_LEGS}", self.legs.len());
            checker.fault("day.leg", message);
        }
    }
}
