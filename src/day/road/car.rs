//! The car as the road sees it.

use super::FullLoad;
use super::defaults::{RESERVE, ROTATING};
use crate::day::{CarFault, CarInput};
use crate::heat::pump::ENGINE_SPEED;
use crate::heat::road::{DRAG_AREA, DRIVETRAIN, MASS, ROLLING};
use crate::quantity::si::{AngularVelocity, Area, Mass, Ratio, Velocity};
use crate::quantity::{Kind, Measured, RPM, Range};

/// Road speeds at 1000 rpm.
pub const PER_THOUSAND: Range = Range::new(
    "road speed at 1000 rpm",
    Kind::RoadSpeed,
    0.5,
    40.0,
    "a first gear makes 6 to 12 km/h for each 1000 rpm, a top gear 28 to 60 km/h",
);
/// Highest engine speeds.
pub const HIGHEST_SPEED: Range = Range::new(
    "highest engine speed",
    Kind::RotationalSpeed,
    500.0 * RPM,
    20_000.0 * RPM,
    "the speed at which you change up at the latest",
);
/// The most gears a gearbox may have.
pub const MOST_GEARS: usize = 12;

/// A car on the road.
#[derive(Clone, Debug, PartialEq)]
pub struct Car {
    /// Mass with everything in it.
    pub mass: Mass,
    /// Drag coefficient times frontal area.
    pub drag_area: Area,
    /// Rolling resistance coefficient.
    pub rolling_resistance: Ratio,
    /// Share of the crankshaft's power that reaches the road.
    pub drivetrain_efficiency: Ratio,
    /// Mass that resists acceleration over mass: wheels and drivetrain turn faster too.
    pub rotating: Ratio,
    /// Road speed at 1000 rpm in each gear, the first gear first; rising, 1 to 12 of them.
    pub gears: Vec<Velocity>,
    /// Engine speed at idle.
    pub idle_speed: AngularVelocity,
    /// Engine speed below which a driver changes down; above idle.
    pub lugging_speed: AngularVelocity,
    /// Share of what the engine makes at full throttle that a driver keeps in reserve when choosing a gear.
    pub reserve: Ratio,
    /// The highest engine speed.
    pub highest_speed: AngularVelocity,
    /// What the engine makes at full throttle.
    pub full_load: FullLoad,
}

impl Car {
    /// Whether every figure is in range and they agree.
    ///
    /// # Errors
    /// [`CarFault`] naming the figure.
    pub fn check(&self) -> Result<(), CarFault> {
        let range = |input| move |outside| CarFault::OutOfRange { input, outside };
        MASS.check(self.mass).map_err(range(CarInput::Mass))?;
        DRAG_AREA.check(self.drag_area).map_err(range(CarInput::DragArea))?;
        ROLLING.check(self.rolling_resistance).map_err(range(CarInput::RollingResistance))?;
        DRIVETRAIN.check(self.drivetrain_efficiency).map_err(range(CarInput::DrivetrainEfficiency))?;
        ROTATING.check(self.rotating).map_err(range(CarInput::Rotating))?;
        ENGINE_SPEED.check(self.idle_speed).map_err(range(CarInput::IdleSpeed))?;
        ENGINE_SPEED.check(self.lugging_speed).map_err(range(CarInput::LuggingSpeed))?;
        RESERVE.check(self.reserve).map_err(range(CarInput::Reserve))?;
        HIGHEST_SPEED.check(self.highest_speed).map_err(range(CarInput::HighestSpeed))?;
        if self.gears.is_empty() || self.gears.len() > MOST_GEARS {
            return Err(CarFault::NumberOfGears { given: self.gears.len() });
        }
        for gear in &self.gears {
            PER_THOUSAND.check(*gear).map_err(range(CarInput::Gears))?;
        }
        if !self.gears.is_sorted_by(|a, b| a < b) {
            return Err(CarFault::GearsDoNotRise);
        }
        self.full_load.check(self.idle_speed)?;
        if self.lugging_speed < self.idle_speed {
            return Err(CarFault::LugsBelowIdle { lugging: self.lugging_speed, idle: self.idle_speed });
        }
        let least = if self.full_load.speed > self.lugging_speed { self.full_load.speed } else { self.lugging_speed };
        if self.highest_speed < least {
            return Err(CarFault::HighestTooLow { highest: self.highest_speed, least });
        }
        Ok(())
    }

    /// The fastest the gears let it go: the highest engine speed in top gear.
    #[must_use]
    pub fn fastest(&self) -> Velocity {
        let top = self.gears.iter().map(|gear| gear.base()).fold(0.0, f64::max);
        Velocity::from_base(top * self.highest_speed.base() / (1000.0 * RPM))
    }

    /// Engine speed at a road speed in a gear, counted from 1, without slip; `None` for a gear that is not there.
    ///
    /// n = 1000 rpm·v/v₁₀₀₀.
    #[must_use]
    pub fn engine_speed(&self, gear: usize, road_speed: Velocity) -> Option<AngularVelocity> {
        let per_thousand = self.gears.get(gear.checked_sub(1)?)?.base();
        (per_thousand > 0.0).then(|| AngularVelocity::from_base(1000.0 * RPM * road_speed.base() / per_thousand))
    }
}
