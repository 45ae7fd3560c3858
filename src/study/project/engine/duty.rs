//! The duty points everything is judged at.

use crate::quantity::si::{AngularVelocity, Power, Pressure, Ratio, Velocity};
use crate::quantity::{AbsolutePressure, Estimate, Kind, Measured};
use crate::study::{Duty, Field, Label, Visitor, defaults};

/// One state of driving.
#[derive(Clone, Debug, PartialEq)]
pub struct DutyInputs {
    /// Engine speed.
    pub rpm: AngularVelocity,
    /// Brake power.
    pub power: Power,
    /// Road speed.
    pub road_speed: Velocity,
    /// Manifold pressure, if a gauge has shown it.
    pub manifold: Option<AbsolutePressure>,
    /// Air for each mass of petrol, if it was measured; a diesel's follows from its power.
    pub air_fuel: Option<Ratio>,
}

/// The five duty points.
#[derive(Clone, Debug, PartialEq)]
pub struct DutyPoints {
    /// In the order of [`Duty::ALL`](crate::study::Duty).
    pub points: [DutyInputs; 5],
    /// Depression behind the air filter at full throttle.
    pub filter_depression: Option<Estimate<Pressure>>,
}

static DUTIES: Label = Label::new("duty", "Duty points", "The five states of driving everything is judged at.");
static DUTY_LABELS: [Label; 5] = [
    Label::new("idle", "Idle", "Standing in traffic, fan running."),
    Label::new("cruise", "Cruise", "Steady on the level."),
    Label::new("hill", "Hill", "A long climb."),
    Label::new(
        "full_throttle",
        "Full throttle",
        "Held until the temperatures settle, the hardest case; full load of a diesel.",
    ),
    Label::new("overrun", "Overrun", "Throttle shut or injection cut, car pushing the engine."),
];
static RPM: Field =
    Field::new("rpm", "Engine speed", Kind::RotationalSpeed, (30.0, 1300.0), "At this duty.", "enter 300 to 12000 rpm");
static POWER: Field =
    Field::new("power", "Brake power", Kind::Power, (0.0, 800e3), "At the flywheel; zero at idle and overrun.", "");
static SPEED: Field = Field::new("road_speed", "Road speed", Kind::RoadSpeed, (0.0, 100.0), "At this duty.", "");
static MANIFOLD: Field = Field::new(
    "manifold_pressure",
    "Manifold pressure, absolute",
    Kind::AbsolutePressure,
    (10e3, 350e3),
    "From a gauge: ambient pressure less the reading of a vacuum gauge, or plus that of a boost gauge.",
    "a gauge reading must be taken off the ambient pressure, or added to it, first",
);
static AIR_FUEL: Field = Field::new(
    "air_fuel",
    "Air for each mass of petrol",
    Kind::Number,
    (9.0, 20.0),
    "From a wide-band probe: 14.7 is just enough air, 12.5 rich.",
    "petrol burns between 9 and 20",
);
static FILTER: Field = Field::new(
    "filter_depression",
    "Air filter depression at full throttle",
    Kind::SmallPressureDifference,
    (0.0, 8e3),
    "Below ambient, in the clean side of the air filter.",
    "",
);

impl Default for DutyPoints {
    fn default() -> Self {
        let duty = |rpm: f64, kilowatts: f64, kmh: f64| DutyInputs {
            // Multiplied as the unit is, so that a file shows the round number.
            rpm: AngularVelocity::from_base(rpm * (std::f64::consts::PI / 30.0)),
            power: Power::from_base(kilowatts * 1e3),
            road_speed: Velocity::from_base(kmh / 3.6),
            manifold: None,
            air_fuel: None,
        };
        Self {
            points: [
                duty(800.0, 0.0, 0.0),
                duty(2200.0, 18.0, 90.0),
                duty(3000.0, 50.0, 80.0),
                duty(5000.0, 160.0, 160.0),
                duty(3000.0, 0.0, 80.0),
            ],
            filter_depression: None,
        }
    }
}

impl DutyPoints {
    /// The inputs of one duty.
    #[must_use]
    pub fn of(&self, duty: Duty) -> &DutyInputs {
        &self.points[duty.index()]
    }

    /// A diesel's mixture follows from its power and is not asked for.
    pub(in crate::study::project) fn visit(&mut self, diesel: bool, visitor: &mut impl Visitor) {
        visitor.group(&DUTIES, |v| {
            v.estimate(&FILTER, &mut self.filter_depression, defaults::filter_depression());
            for (label, point) in DUTY_LABELS.iter().zip(&mut self.points) {
                v.group(label, |v| {
                    v.quantity(&RPM, &mut point.rpm);
                    v.quantity(&POWER, &mut point.power);
                    v.quantity(&SPEED, &mut point.road_speed);
                    v.optional(&MANIFOLD, &mut point.manifold, "estimated from power");
                    if !diesel {
                        v.optional(&AIR_FUEL, &mut point.air_fuel, "just enough air");
                    }
                });
            }
        });
    }
}
