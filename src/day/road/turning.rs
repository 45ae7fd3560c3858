//! A movement, the gears and the engine put together.

use super::Car;
use crate::day::Turning;
use crate::heat::{HeatError, RoadLoad};
use crate::quantity::si::{Acceleration, AngularVelocity, Force, MassDensity, Power, Ratio, Velocity};
use crate::quantity::{AbsolutePressure, Amount, Kind, Measured};
use crate::scribe::{Scribe, Silent, Step};
use crate::source::day as source;

/// How the car moves, and in what air.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Movement {
    /// Road speed.
    pub road_speed: Velocity,
    /// Acceleration along the road; negative when it slows.
    pub acceleration: Acceleration,
    /// Rise over run.
    pub grade: Ratio,
    /// Density of the air.
    pub air_density: MassDensity,
    /// Pressure of the air.
    pub air: AbsolutePressure,
}

/// Why the engine cannot turn for a movement.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
pub enum NoGear {
    /// The road load could not be given.
    #[error(transparent)]
    Heat(#[from] HeatError),
    /// Even in top gear the engine would turn too fast.
    #[error(
        "at {} the engine would turn above its highest speed even in top gear, which reaches {}: check speed, gears and \
         highest engine speed",
        Amount::of(*.speed).show(crate::quantity::UnitSystem::Si),
        Amount::of(*.fastest).show(crate::quantity::UnitSystem::Si)
    )]
    TooFast {
        /// The speed asked for.
        speed: Velocity,
        /// The fastest that top gear reaches.
        fastest: Velocity,
    },
    /// A gear that the gearbox does not have.
    #[error("there is no gear {gear}: the car has {gears}, counted from 1; choose one of them or leave the gear open")]
    NoSuchGear {
        /// The gear asked for.
        gear: usize,
        /// How many there are.
        gears: usize,
    },
    /// The gear asked for turns the engine too fast or too slowly.
    #[error(
        "in gear {gear} the engine would turn {} at {}, {}: choose a {} gear, or leave the gear open",
        rpm(*.engine), Amount::of(*.speed).show(crate::quantity::UnitSystem::Si),
        if engine > limit { format!("above its highest speed of {}", rpm(*.limit)) }
        else { format!("below the {} at which it lugs", rpm(*.limit)) },
        if engine > limit { "higher" } else { "lower" }
    )]
    GearDoesNotSuit {
        /// The gear asked for.
        gear: usize,
        /// The road speed.
        speed: Velocity,
        /// How fast the engine would turn.
        engine: AngularVelocity,
        /// Its highest speed, or that at which it lugs.
        limit: AngularVelocity,
    },
}

fn rpm(speed: AngularVelocity) -> String {
    Amount::of(speed).show(crate::quantity::UnitSystem::Si)
}

impl Car {
    /// What the engine does while the car moves so.
    ///
    /// - Standing: idle in neutral.
    /// - The road pulls (overrun): the highest gear that keeps the engine at its lugging speed or above, fuel cut, power 0;
    ///   too slow for that in any gear, the clutch is open and the engine idles.
    /// - The engine pulls: the highest gear that keeps it at its lugging speed or above, never above its highest speed, and
    ///   leaves the reserve a driver wants, P ≤ (1 − r)·P_full(n). If none leaves so much, the one with the most to spare; if
    ///   that has not even the power, what is missing is told. Too slow for the lugging speed in any gear, the clutch of the
    ///   lowest slips and the engine turns at its lugging speed: it then gives the torque that the gearbox takes, at its own
    ///   speed, P = P_road·n/n_gearbox.
    ///
    /// The car's figures must have passed [`Car::check`].
    ///
    /// # Errors
    /// A movement out of range; a speed beyond the highest engine speed in top gear.
    pub fn turning(&self, movement: &Movement, scribe: &mut impl Scribe) -> Result<Turning, NoGear> {
        let asked = self.road_power(movement, scribe)?;
        let idling =
            Turning { speed: self.idle_speed, power: nothing(), overrun: false, gear: None, missing: nothing() };
        if movement.road_speed.base() == 0.0 {
            return Ok(idling);
        }
        let fastest = self.fastest();
        // As far as a number can tell the two apart.
        if movement.road_speed.base() > fastest.base() * (1.0 + 1e-12) {
            return Err(NoGear::TooFast { speed: movement.road_speed, fastest });
        }
        let pulled = asked.base() < 0.0;
        let mut best: Option<(Turning, Power)> = None;
        for (gear, speed) in self.usable_gears(movement.road_speed) {
            if pulled {
                return Ok(Turning { speed, overrun: true, gear: Some(gear), ..idling });
            }
            let most = self.full_load.most(speed, self.idle_speed, movement.air, &mut Silent);
            if asked.base() <= (1.0 - self.reserve.base()) * most.base() {
                return Ok(self.pulls(gear, speed, asked, movement.air, scribe));
            }
            if best.is_none_or(|(_, before)| most > before) {
                best = Some((self.pulls(gear, speed, asked, movement.air, &mut Silent), most));
            }
        }
        if pulled {
            return Ok(idling);
        }
        if let Some((best, _)) = best {
            if let Some(gear) = best.gear {
                self.pulls(gear, best.speed, asked, movement.air, scribe);
            }
            return Ok(best);
        }
        Ok(self.slipping(movement, asked, scribe).unwrap_or(idling))
    }

    /// What the engine does while the car moves so in a gear that somebody chose, counted from 1. No reserve is asked of it;
    /// where the power is not there, what is missing is told.
    ///
    /// The car's figures must have passed [`Car::check`].
    ///
    /// # Errors
    /// A movement out of range; a gear that is not there, turns the engine above its highest speed or lets it lug.
    pub fn in_gear(&self, gear: usize, movement: &Movement, scribe: &mut impl Scribe) -> Result<Turning, NoGear> {
        let asked = self.road_power(movement, scribe)?;
        let gears = self.gears.len();
        let speed = self.engine_speed(gear, movement.road_speed).ok_or(NoGear::NoSuchGear { gear, gears })?;
        if !self.usable_gears(movement.road_speed).any(|(usable, _)| usable == gear) {
            let limit = if speed > self.highest_speed { self.highest_speed } else { self.lugging_speed };
            return Err(NoGear::GearDoesNotSuit { gear, speed: movement.road_speed, engine: speed, limit });
        }
        if asked.base() < 0.0 {
            return Ok(Turning { speed, power: nothing(), overrun: true, gear: Some(gear), missing: nothing() });
        }
        Ok(self.pulls(gear, speed, asked, movement.air, scribe))
    }

    /// The gear in which the engine makes the most at a road speed at full throttle, and what it makes: of equal ones that
    /// which turns it nearest to the speed of its full-throttle point.
    ///
    /// # Errors
    /// A speed beyond the highest engine speed in top gear.
    pub fn wide_open(
        &self,
        road_speed: Velocity,
        air: AbsolutePressure,
        scribe: &mut impl Scribe,
    ) -> Result<Turning, NoGear> {
        let fastest = self.fastest();
        if road_speed.base() > fastest.base() * (1.0 + 1e-12) {
            return Err(NoGear::TooFast { speed: road_speed, fastest });
        }
        let point = self.full_load.speed.base();
        let mut best: Option<(usize, AngularVelocity, f64)> = None;
        for (gear, speed) in self.usable_gears(road_speed) {
            let power = self.full_load.most(speed, self.idle_speed, air, &mut Silent).base();
            let nearer = |other: AngularVelocity| (speed.base() - point).abs() < (other.base() - point).abs();
            if best.is_none_or(|(_, other, most)| power > most * (1.0 + 1e-9) || (power >= most && nearer(other))) {
                best = Some((gear, speed, power));
            }
        }
        let (gear, speed) = best.map_or((1, self.lugging_speed), |(gear, speed, _)| (gear, speed));
        let power = self.full_load.most(speed, self.idle_speed, air, scribe);
        Ok(Turning { speed, power, overrun: false, gear: Some(gear), missing: nothing() })
    }

    /// Power the movement asks of the engine without slip; negative when the car drives it.
    ///
    /// # Errors
    /// A figure of the car or the movement out of range.
    pub fn road_power(&self, movement: &Movement, scribe: &mut impl Scribe) -> Result<Power, HeatError> {
        let accelerating = Force::from_base(self.mass.base() * self.rotating.base() * movement.acceleration.base());
        if movement.acceleration.base() != 0.0 {
            scribe.step(|| {
                Step::new("Force that accelerates the car", "F_a", "F_a = m·λ·a", &source::ACCELERATION)
                    .with("m", self.mass)
                    .with("λ", self.rotating)
                    .with("a", movement.acceleration)
                    .gives(accelerating)
            });
        }
        let load = RoadLoad {
            mass: self.mass,
            drag_area: self.drag_area,
            rolling_resistance: self.rolling_resistance,
            grade: movement.grade,
            speed: movement.road_speed,
            accelerating,
            air_density: movement.air_density,
            drivetrain_efficiency: self.drivetrain_efficiency,
        };
        Ok(load.power(scribe)?.engine)
    }

    /// Gears from the highest down whose engine speed at a road speed lies between lugging and highest.
    fn usable_gears(&self, road_speed: Velocity) -> impl Iterator<Item = (usize, AngularVelocity)> {
        // Speeds that are met exactly are met whatever the last bit of a division says.
        let highest = self.highest_speed.base() * (1.0 + 1e-12);
        let lugging = self.lugging_speed.base() * (1.0 - 1e-12);
        (1..=self.gears.len())
            .rev()
            .filter_map(move |gear| Some((gear, self.engine_speed(gear, road_speed)?)))
            .filter(move |(_, speed)| speed.base() >= lugging && speed.base() <= highest)
    }

    /// The engine pulling in a gear.
    fn pulls(
        &self,
        gear: usize,
        speed: AngularVelocity,
        asked: Power,
        air: AbsolutePressure,
        scribe: &mut impl Scribe,
    ) -> Turning {
        let most = self.full_load.most(speed, self.idle_speed, air, scribe);
        let power = if asked < most { asked } else { most };
        scribe.step(|| {
            let spare = if most.base() > 0.0 { 1.0 - power.base() / most.base() } else { 0.0 };
            Step::new("Share of that in reserve", "r", "r = 1 − P/P_full", &source::GEAR_RESERVE)
                .with("P", power)
                .with("P_full", most)
                .gives_amount(Amount::new(spare, Kind::Share))
        });
        Turning { speed, power, overrun: false, gear: Some(gear), missing: asked - power }
    }

    /// The engine pulling through a slipping clutch, in the lowest gear that does not turn the gearbox too fast.
    fn slipping(&self, movement: &Movement, asked: Power, scribe: &mut impl Scribe) -> Option<Turning> {
        let highest = self.highest_speed.base() * (1.0 + 1e-12);
        let (gear, gearbox) = (1..=self.gears.len())
            .filter_map(|gear| Some((gear, self.engine_speed(gear, movement.road_speed)?)))
            .find(|(_, speed)| speed.base() <= highest)?;
        let speed = self.lugging_speed;
        let through = Power::from_base(asked.base() * (speed.base() / gearbox.base()).max(1.0));
        scribe.step(|| {
            let equation = "P = P_road·n/n_gearbox";
            Step::new("Power of an engine whose clutch slips", "P", equation, &source::SLIPPING_CLUTCH)
                .with("P_road", asked)
                .with("n", speed)
                .with_amount("n_gearbox", Amount::new(gearbox.base(), Kind::RotationalSpeed))
                .gives(through)
        });
        Some(self.pulls(gear, speed, through, movement.air, scribe))
    }
}

fn nothing() -> Power {
    Power::from_base(0.0)
}
