//! What holding a road speed takes of the engine.

use super::super::Fail;
use super::super::context::Context;
use crate::day::{Car, Movement, NoGear, Turning};
use crate::fluid;
use crate::heat::airflow::ROAD_SPEED;
use crate::numeric::bracketed_root;
use crate::quantity::AbsolutePressure;
use crate::quantity::Measured;
use crate::quantity::si::{Acceleration, MassDensity, Ratio, Velocity};
use crate::scribe::Silent;
use crate::study::{Duty, HeatRoad, Problems};

/// The grade of a climb where the hill duty tells none.
const USUAL: f64 = 0.06;
/// Grades between which that of the hill duty is looked for.
const GRADES: (f64, f64) = (0.005, 0.35);
/// Speeds tried when looking for the fastest that the engine holds.
const TRIED: u32 = 60;
/// How near that speed is found, m/s.
const NEAR: f64 = 0.01;

/// A car on a road of one grade, in air as on the hottest day.
pub(super) struct Road {
    car: Car,
    density: MassDensity,
    air: AbsolutePressure,
    grade: Ratio,
    of_hill: bool,
}

impl Road {
    pub fn new(context: &Context<'_>, car: Car, road: HeatRoad) -> Result<Self, Problems> {
        car.check().fail("car")?;
        let hottest = context.project.surroundings.hottest;
        let density = fluid::air::density(context.ambient, hottest, &mut Silent).fail("surroundings.hottest")?;
        let level = Self { car, density, air: context.ambient, grade: Ratio::from_base(0.0), of_hill: false };
        Ok(match road {
            HeatRoad::Level => level,
            HeatRoad::Climbing => {
                let found = level.grade_of_hill(context);
                Self { grade: Ratio::from_base(found.unwrap_or(USUAL)), of_hill: found.is_some(), ..level }
            }
        })
    }

    /// The grade that the hill duty climbs at its road speed with its power, if it tells one.
    fn grade_of_hill(&self, context: &Context<'_>) -> Option<f64> {
        let hill = context.project.duty.of(Duty::Hill);
        let lacks = |grade: f64| {
            let movement = Movement { grade: Ratio::from_base(grade), ..self.movement(hill.road_speed.base()) };
            let asked = self.car.road_power(&movement, &mut Silent);
            asked.map_or(f64::NAN, |asked| asked.base() - hill.power.base())
        };
        bracketed_root(lacks, GRADES.0, GRADES.1, 1e-9).ok().map(|root| root.at)
    }

    fn movement(&self, speed: f64) -> Movement {
        Movement {
            road_speed: Velocity::from_base(speed),
            acceleration: Acceleration::from_base(0.0),
            grade: self.grade,
            air_density: self.density,
            air: self.air,
        }
    }

    pub const fn grade(&self) -> Ratio {
        self.grade
    }

    /// Whether the grade is that of the hill duty.
    pub const fn is_of_hill(&self) -> bool {
        self.of_hill
    }

    pub const fn gear_reserve(&self) -> Ratio {
        self.car.reserve
    }

    /// What the engine does at a road speed; `None` where it has not the power, or would turn too fast in top gear.
    pub fn held(&self, speed: f64) -> Result<Option<Turning>, Problems> {
        match self.car.turning(&self.movement(speed), &mut Silent) {
            Ok(turning) => Ok((turning.missing.base() <= 0.0).then_some(turning)),
            Err(NoGear::TooFast { .. }) => Ok(None),
            Err(other) => Err(other).fail("car"),
        }
    }

    /// The fastest speed the engine holds, m/s; 0 when it holds none.
    pub fn fastest_held(&self) -> Result<f64, Problems> {
        let most = self.car.fastest().base().min(ROAD_SPEED.high);
        let at = |i: u32| most * f64::from(i) / f64::from(TRIED);
        for i in (1..=TRIED).rev() {
            if self.held(at(i))?.is_some() {
                let (mut low, mut high) = (at(i), at((i + 1).min(TRIED)));
                while high - low > NEAR {
                    let middle = 0.5 * (low + high);
                    if self.held(middle)?.is_some() { low = middle } else { high = middle }
                }
                return Ok(low);
            }
        }
        Ok(0.0)
    }
}
