//! What the engine makes with the throttle open.

use super::defaults::{FLAT_FROM, LOW_TORQUE};
use crate::day::{CarFault, CarInput};
use crate::heat::engine_heat::BRAKE_POWER;
use crate::heat::manifold::AMBIENT_PRESSURE;
use crate::heat::pump::ENGINE_SPEED;
use crate::quantity::si::{AngularVelocity, Power, Ratio};
use crate::quantity::{AbsolutePressure, Amount, Kind, Measured};
use crate::scribe::{Scribe, Step};
use crate::source::day as source;

/// Power at full throttle against engine speed, from one point of it.
///
/// Torque is that of the point from `flat_from` of its speed up to it. Below, it falls in a straight line to `low_torque` of
/// it at idle speed. Above, the power stays. All in proportion to the pressure of the air.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct FullLoad {
    /// Engine speed of the point.
    pub speed: AngularVelocity,
    /// Power there.
    pub power: Power,
    /// Pressure of the air in which it was made.
    pub air: AbsolutePressure,
    /// Share of that engine speed from which torque is flat.
    pub flat_from: Ratio,
    /// Share of the flat torque that is left at idle speed.
    pub low_torque: Ratio,
}

impl FullLoad {
    pub(super) fn check(&self, idle: AngularVelocity) -> Result<(), CarFault> {
        let range = |input| move |outside| CarFault::OutOfRange { input, outside };
        ENGINE_SPEED.check(self.speed).map_err(range(CarInput::FullLoadSpeed))?;
        BRAKE_POWER.check(self.power).map_err(range(CarInput::FullLoadPower))?;
        AMBIENT_PRESSURE.check(self.air).map_err(range(CarInput::FullLoadPower))?;
        FLAT_FROM.check(self.flat_from).map_err(range(CarInput::FlatFrom))?;
        LOW_TORQUE.check(self.low_torque).map_err(range(CarInput::LowTorque))?;
        if self.speed <= idle {
            return Err(CarFault::FullLoadBelowIdle { full: self.speed, idle });
        }
        Ok(())
    }

    /// P = P₁·min(1, n/n₁)·t·p/p₁ with t = 1 from the flat part on and below it t = t₀ + (1 − t₀)·(n − n₀)/(n_f − n₀), n₀
    /// being idle speed, n_f where the flat part begins. Below idle speed it is nothing.
    ///
    /// Its figures must have passed [`Car::check`](super::Car::check).
    #[must_use]
    pub fn most(
        &self,
        speed: AngularVelocity,
        idle: AngularVelocity,
        air: AbsolutePressure,
        scribe: &mut impl Scribe,
    ) -> Power {
        let (n, n_idle, n_point) = (speed.base(), idle.base(), self.speed.base());
        let n_flat = self.flat_from.base() * n_point;
        let left = self.low_torque.base();
        let torque = if n < n_idle {
            0.0
        } else if n < n_flat {
            left + (1.0 - left) * (n - n_idle) / (n_flat - n_idle)
        } else {
            1.0
        };
        let power = self.power.base() * (n / n_point).min(1.0) * torque * air.base() / self.air.base();
        scribe.step(|| {
            let equation = "P = P₁·min(1, n/n₁)·t·p/p₁";
            Step::new("Power the engine makes at full throttle", "P", equation, &source::FULL_LOAD_SHAPE)
                .with("P₁", self.power)
                .with("n", speed)
                .with("n₁", self.speed)
                .with_amount("t", Amount::new(torque, Kind::Share))
                .with("p", air)
                .with("p₁", self.air)
                .gives(Power::from_base(power))
        });
        Power::from_base(power)
    }
}
