//! The car on the road: what its speed and its hills ask of the engine, and its gears.

use super::DutyPoints;
use crate::quantity::si::{AngularVelocity, Area, Mass, Ratio, Velocity};
use crate::quantity::{Amount, Estimate, Kind, UnitSystem};
use crate::study::check::Checker;
use crate::study::{Duty, Field, Label, Visitor, defaults};

/// The car on the road.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct CarInputs {
    /// Mass with driver, load and fuel.
    pub mass: Option<Estimate<Mass>>,
    /// Drag coefficient times frontal area.
    pub drag_area: Option<Estimate<Area>>,
    /// Rolling resistance coefficient.
    pub rolling_resistance: Option<Estimate<Ratio>>,
    /// Share of the crankshaft's power that reaches the road.
    pub drivetrain_efficiency: Option<Estimate<Ratio>>,
    /// Mass felt on acceleration over mass.
    pub rotating_mass: Option<Estimate<Ratio>>,
    /// Road speed at 1000 rpm in each gear, the first gear first; empty: the top gear by the cruise duty, and four below.
    pub gears: Vec<Velocity>,
    /// The highest engine speed.
    pub highest_speed: Option<Estimate<AngularVelocity>>,
    /// Engine speed below which one changes down.
    pub lugging_speed: Option<Estimate<AngularVelocity>>,
    /// Share of full throttle a driver keeps in reserve when choosing a gear.
    pub gear_reserve: Option<Estimate<Ratio>>,
    /// Share of the full-throttle duty's engine speed from which torque is about flat.
    pub torque_flat_from: Option<Estimate<Ratio>>,
    /// Share of the flat torque that is left at idle speed.
    pub torque_at_idle: Option<Estimate<Ratio>>,
}

static CAR: Label = Label::new("car", "Car on the road", "What a day of driving asks of the engine.");
static MASS: Field = Field::new(
    "mass",
    "Mass of the car",
    Kind::Mass,
    (150.0, 20e3),
    "With driver, load, fuel and trailer: a public weighbridge shows it.",
    "enter it with people, load and trailer",
);
static DRAG_AREA: Field = Field::new(
    "drag_area",
    "Drag area",
    Kind::Area,
    (0.1, 10.0),
    "Drag coefficient times frontal area: about 0.6 m² of a small modern car, 0.95 m² of an open or upright one.",
    "0.6 to 0.95 m² is usual",
);
static ROLLING: Field = Field::new(
    "rolling_resistance",
    "Rolling resistance coefficient",
    Kind::Number,
    (0.004, 0.1),
    "0.010 to 0.015 on tarmac; more with wide, soft or half-empty tyres.",
    "0.010 to 0.015 is usual on tarmac",
);
static EFFICIENCY: Field = Field::new(
    "drivetrain_efficiency",
    "Drivetrain efficiency",
    Kind::Share,
    (0.4, 1.0),
    "What of the crankshaft's power reaches the road.",
    "0.82 to 0.93 is usual",
);
static ROTATING: Field = Field::new(
    "rotating_mass",
    "Rotating parts as mass",
    Kind::Number,
    (1.0, 1.6),
    "Mass felt on acceleration over the car's mass: wheels and drivetrain are sped up too.",
    "1.03 to 1.10 is usual",
);
static GEARS: Field = Field::new(
    "gears",
    "Road speed at 1000 rpm",
    Kind::RoadSpeed,
    (0.5, 40.0),
    "In each gear, the first gear first: road speed divided by thousands of rpm, at any speed. None: the top gear as the cruise \
     duty has it, and four below it.",
    "a first gear makes 6 to 12 km/h at 1000 rpm, a top gear 28 to 60 km/h",
);
static HIGHEST: Field = Field::new(
    "highest_speed",
    "Highest engine speed",
    Kind::RotationalSpeed,
    (100.0, 2000.0),
    "Where you change up at the latest.",
    "it is no lower than the speed of the full-throttle duty",
);
static LUGGING: Field = Field::new(
    "lugging_speed",
    "Changes down below",
    Kind::RotationalSpeed,
    (50.0, 800.0),
    "Engine speed below which it lugs and you take the next lower gear; with an automatic gearbox, where that changes down.",
    "above idle speed; 1000 to 1600 rpm is usual",
);
static RESERVE: Field = Field::new(
    "gear_reserve",
    "Kept in reserve by the gear",
    Kind::Share,
    (0.0, 0.8),
    "The highest gear is taken that leaves this share of what the engine makes at full throttle at that engine speed.",
    "15 to 45 % is usual; 0 holds each gear until the throttle is wide open",
);
static FLAT_FROM: Field = Field::new(
    "torque_flat_from",
    "Torque about flat from",
    Kind::Share,
    (0.05, 1.0),
    "Share of the engine speed of the full-throttle duty from which full-throttle torque is about what it is there.",
    "",
);
static AT_IDLE: Field = Field::new(
    "torque_at_idle",
    "Torque left at idle speed",
    Kind::Share,
    (0.1, 1.0),
    "Full-throttle torque at idle speed over that of the full-throttle duty.",
    "",
);

impl CarInputs {
    pub(super) fn visit(&mut self, duty: &DutyPoints, visitor: &mut impl Visitor) {
        // Files from before the day through time have no such part.
        visitor.later(|v| {
            v.group(&CAR, |v| {
                v.estimate(&MASS, &mut self.mass, defaults::car_mass());
                v.estimate(&DRAG_AREA, &mut self.drag_area, defaults::drag_area());
                v.estimate(&ROLLING, &mut self.rolling_resistance, defaults::rolling_resistance());
                v.estimate(&EFFICIENCY, &mut self.drivetrain_efficiency, defaults::drivetrain_efficiency());
                v.estimate(&ROTATING, &mut self.rotating_mass, defaults::rotating_mass());
                v.readings(&GEARS, &mut self.gears);
                v.estimate(&HIGHEST, &mut self.highest_speed, defaults::highest_speed(duty));
                v.estimate(&LUGGING, &mut self.lugging_speed, defaults::lugging_speed(duty));
                // Files from before it have none.
                v.later(|v| v.estimate(&RESERVE, &mut self.gear_reserve, defaults::gear_reserve()));
                v.estimate(&FLAT_FROM, &mut self.torque_flat_from, defaults::torque_flat_from());
                v.estimate(&AT_IDLE, &mut self.torque_at_idle, defaults::torque_at_idle());
            });
        });
    }

    /// What no single range can tell.
    pub(super) fn check(&self, duty: &DutyPoints, checker: &mut Checker) {
        let most = crate::day::road::MOST_GEARS;
        if self.gears.len() > most {
            checker.fault("car.gears", format!("{} gears; a gearbox here has at most {most}", self.gears.len()));
        } else if !self.gears.is_sorted_by(|a, b| a < b) {
            checker
                .fault("car.gears", "the road speeds must rise from each gear to the next; begin with the first gear");
        }
        let shown = |speed: AngularVelocity| Amount::of(speed).show(UnitSystem::Si);
        let full = duty.of(Duty::FullThrottle).rpm;
        if let Some(highest) = self.highest_speed
            && highest.low < full
        {
            let message = format!(
                "the highest engine speed of {} is below the {} of the full-throttle duty; enter at least that",
                shown(highest.low),
                shown(full)
            );
            checker.fault("car.highest_speed", message);
        }
        let idle = duty.of(Duty::Idle).rpm;
        if let Some(lugging) = self.lugging_speed
            && (lugging.low < idle || self.highest_speed.is_some_and(|highest| lugging.high > highest.low))
        {
            let message = format!(
                "the engine speed to change down at must lie between idle at {} and the highest engine speed; it is {}",
                shown(idle),
                shown(lugging.likely)
            );
            checker.fault("car.lugging_speed", message);
        }
    }
}
