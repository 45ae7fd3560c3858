//! From legs to stretches.
//!
//! `pattern` says how the speed goes in a trace and in traffic, in straight pieces; `window` averages what the engine does over
//! a time step.

mod pattern;
mod window;

use super::leg::{
    self, ACCELERATION, AIR, CLIMB_GRADE, DISTANCE, GRADE, HEIGHT, LASTS, MEAN_SPEED, MOST_REPEATS, RESOLUTION, SPEED,
    STANDING, TRAFFIC_LASTS,
};
use super::road::{Car, Movement};
use super::{DayError, Doing, Leg, LegFault, LegInput, Stretch, Turning, Until};
use crate::fluid;
use crate::quantity::si::{Acceleration, MassDensity, Power, Ratio, ThermodynamicTemperature, Time, Velocity};
use crate::quantity::{AbsolutePressure, Amount, Kind, Measured, OutOfRange, Range};
use crate::scribe::{Scribe, Silent, Step};
use crate::source::DEFINITION;
use pattern::Ramp;
use window::Windows;

/// The most stretches a day may have.
const MOST: usize = 200_000;

/// What the engine does all day, piece by piece.
///
/// A leg at a steady speed, and one that stands, is one stretch. Traces and traffic are followed in steps of a second or less
/// and averaged over windows of `resolution` (1 to 60 s): mean road speed, engine speed, power and missing power of a window
/// are those of its steps, its gear the one used longest. A window is at overrun if no step in it has power and the car pushes
/// the engine for more than half of it.
///
/// The pressure of the air is one all day, also up a climb.
///
/// A trace or traffic that asks for more power than the engine has is driven all the same, and the missing power told.
///
/// # Errors
/// No leg; a car that cannot be driven; a leg with a figure out of range, with a speed beyond the gears, or at a steady speed
/// with more power than the engine has; too many pieces.
pub fn stretches(
    legs: &[Leg],
    car: &Car,
    air: AbsolutePressure,
    resolution: Time,
    scribe: &mut impl Scribe,
) -> Result<Vec<Stretch>, DayError> {
    car.check()?;
    if legs.is_empty() {
        return Err(DayError::NoLeg);
    }
    let resolution = RESOLUTION.check(resolution)?.base();
    let mut found = Vec::new();
    for (leg, one) in legs.iter().enumerate() {
        let mut maker =
            Maker { car, air, resolution, leg, one, density: MassDensity::from_base(0.0), found: &mut found };
        maker.make(scribe).map_err(|(input, fault)| DayError::Leg { leg, input, fault })?;
    }
    Ok(found)
}

/// A fault and the figure it comes from.
type Fault = (LegInput, LegFault);

fn checked<Q: Measured>(range: &Range, input: LegInput, value: Q) -> Result<f64, Fault> {
    range.check(value).map(Measured::base).map_err(|outside| (input, outside.into()))
}

/// Makes the stretches of one leg.
struct Maker<'a> {
    car: &'a Car,
    air: AbsolutePressure,
    resolution: f64,
    leg: usize,
    one: &'a Leg,
    density: MassDensity,
    found: &'a mut Vec<Stretch>,
}

impl Maker<'_> {
    fn make(&mut self, scribe: &mut impl Scribe) -> Result<(), Fault> {
        checked(&AIR, LegInput::Air, self.one.air)?;
        self.density =
            fluid::air::density(self.air, self.one.air, &mut Silent).map_err(|e| (LegInput::Air, e.into()))?;
        scribe.chapter(&format!("day/leg/{}", self.leg + 1), &format!("The road: leg {}", self.leg + 1));
        match self.one.does {
            Doing::Park { lasts } | Doing::HotStop { lasts } => self.stands(lasts, None, self.one.air),
            Doing::Overnight { lasts, falls_to } => {
                checked(&AIR, LegInput::FallsTo, falls_to)?;
                self.stands(lasts, None, falls_to)
            }
            Doing::Idle { lasts } => {
                let idle =
                    self.turning(0.0, 0.0, Ratio::from_base(0.0), &mut Silent).map_err(|f| (LegInput::Lasts, f))?;
                self.stands(lasts, Some(idle), self.one.air)
            }
            Doing::Steady { speed, grade, gear, until } => {
                let v = checked(&SPEED, LegInput::Speed, speed)?;
                checked(&GRADE, LegInput::Grade, grade)?;
                let lasts = match until {
                    Until::Time(lasts) => checked(&LASTS, LegInput::Lasts, lasts)?,
                    Until::Distance(distance) => checked(&DISTANCE, LegInput::Distance, distance)? / v,
                };
                self.holds((v, gear), grade, lasts, scribe)
            }
            Doing::Climb { speed, grade, gear, height } => {
                let v = checked(&SPEED, LegInput::Speed, speed)?;
                let slope = checked(&CLIMB_GRADE, LegInput::Grade, grade)?.atan();
                let along = checked(&HEIGHT, LegInput::Height, height)? / slope.sin();
                self.holds((v, gear), grade, along / v, scribe)
            }
            Doing::FullThrottle { speed, lasts } => {
                checked(&SPEED, LegInput::Speed, speed)?;
                let seconds = checked(&LASTS, LegInput::Lasts, lasts)?;
                let open = self.car.wide_open(speed, self.air, scribe).map_err(|e| (LegInput::Speed, e.into()))?;
                self.add(seconds, speed.base(), Some(open), self.one.air)
            }
            Doing::Traffic { mean_speed, standing, acceleration, lasts } => {
                let mean = checked(&MEAN_SPEED, LegInput::Speed, mean_speed)?;
                let share = checked(&STANDING, LegInput::Standing, standing)?;
                let hard = checked(&ACCELERATION, LegInput::Acceleration, acceleration)?;
                let seconds = checked(&TRAFFIC_LASTS, LegInput::Lasts, lasts)?;
                let traffic = pattern::traffic(mean, share, hard, seconds, scribe)
                    .map_err(|least| (LegInput::Lasts, LegFault::NoWholeStop { least }))?;
                self.follows(traffic.ramps(), LegInput::Speed, scribe)
            }
            Doing::Trace { trace, repeats } => {
                if !(1..=MOST_REPEATS).contains(&repeats) {
                    let outside = OutOfRange { range: REPEATS, value: f64::from(repeats) };
                    return Err((LegInput::Repeats, outside.into()));
                }
                scribe.step(|| {
                    let distance: f64 =
                        trace.speeds().windows(2).map(|pair| (pair[0].base() + pair[1].base()) / 2.0).sum();
                    Step::new("Distance of the speed trace, once", "s", "s = Σ v·Δt", trace.source())
                        .with_amount("t", Amount::of_kind(trace.lasts(), Kind::Duration))
                        .gives_amount(Amount::new(distance, Kind::RoadDistance))
                });
                self.follows(pattern::trace(trace, repeats), LegInput::Trace, scribe)
            }
        }
    }

    /// One stretch at standstill.
    fn stands(
        &mut self,
        lasts: Time,
        engine: Option<Turning>,
        air_at_end: ThermodynamicTemperature,
    ) -> Result<(), Fault> {
        let seconds = checked(&LASTS, LegInput::Lasts, lasts)?;
        self.add(seconds, 0.0, engine, air_at_end)
    }

    /// One stretch at a steady speed, which the engine must be able to hold, in the gear chosen if one is.
    fn holds(
        &mut self,
        (speed, gear): (f64, Option<usize>),
        grade: Ratio,
        seconds: f64,
        scribe: &mut impl Scribe,
    ) -> Result<(), Fault> {
        let turning = match gear {
            None => self.turning(speed, 0.0, grade, scribe).map_err(|fault| (LegInput::Speed, fault))?,
            Some(gear) => {
                let movement = self.movement(speed, 0.0, grade);
                self.car.in_gear(gear, &movement, scribe).map_err(|fault| (LegInput::Gear, fault.into()))?
            }
        };
        if turning.missing.base() > 0.0 {
            let needed = turning.power + turning.missing;
            let speed = Velocity::from_base(speed);
            if let Some(gear) = gear {
                let fault = LegFault::GearTooWeak { gear, speed, needed, most: turning.power, engine: turning.speed };
                return Err((LegInput::Gear, fault));
            }
            let fault = LegFault::NotEnoughPower { speed, needed, most: turning.power, engine: turning.speed };
            return Err((LegInput::Speed, fault));
        }
        self.add(seconds, speed, Some(turning), self.one.air)
    }

    /// Speeds that change, averaged over windows.
    fn follows(
        &mut self,
        ramps: impl Iterator<Item = Ramp>,
        input: LegInput,
        scribe: &mut impl Scribe,
    ) -> Result<(), Fault> {
        let mut windows = Windows::new(self.resolution);
        let (mut seconds, mut work) = (0.0, 0.0);
        let level = Ratio::from_base(0.0);
        for ramp in ramps {
            for step in ramp.steps() {
                let turning = self
                    .turning(step.mean(), step.acceleration(), level, &mut Silent)
                    .map_err(|fault| (input, fault))?;
                seconds += step.lasts;
                work += step.lasts * turning.power.base();
                windows.push(step.lasts, step.mean(), &turning);
                while let Some((lasts, speed, engine)) = windows.full() {
                    self.add(lasts, speed, Some(engine), self.one.air)?;
                }
            }
        }
        if let Some((lasts, speed, engine)) = windows.rest() {
            self.add(lasts, speed, Some(engine), self.one.air)?;
        }
        scribe.step(|| {
            Step::new("Mean power over the leg", "P", "P = Σ P_i·Δt/Σ Δt", &DEFINITION)
                .with_amount("Σ Δt", Amount::new(seconds, Kind::Duration))
                .with_amount("Σ P_i·Δt", Amount::new(work, Kind::Energy))
                .gives(Power::from_base(work / seconds))
        });
        Ok(())
    }

    fn turning(
        &self,
        speed: f64,
        acceleration: f64,
        grade: Ratio,
        scribe: &mut impl Scribe,
    ) -> Result<Turning, LegFault> {
        Ok(self.car.turning(&self.movement(speed, acceleration, grade), scribe)?)
    }

    fn movement(&self, speed: f64, acceleration: f64, grade: Ratio) -> Movement {
        Movement {
            road_speed: Velocity::from_base(speed),
            acceleration: Acceleration::from_base(acceleration),
            grade,
            air_density: self.density,
            air: self.air,
        }
    }

    fn add(
        &mut self,
        seconds: f64,
        speed: f64,
        engine: Option<Turning>,
        air_at_end: ThermodynamicTemperature,
    ) -> Result<(), Fault> {
        if self.found.len() >= MOST {
            return Err((LegInput::Lasts, LegFault::TooManyPieces { most: MOST }));
        }
        self.found.push(Stretch {
            leg: self.leg,
            lasts: Time::from_base(seconds),
            air: self.one.air,
            air_at_end,
            road_speed: Velocity::from_base(speed),
            engine,
        });
        Ok(())
    }
}

const REPEATS: Range =
    Range::new("repeats of the trace", Kind::Number, 1.0, leg::MOST_REPEATS as f64, "drive it 1 to 20 times");
