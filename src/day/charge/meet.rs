//! The charge as the bodies of the car know it.

use super::{Change, Charge, Parts, Vessel};
use crate::day::DayError;
use crate::day::exchange::{self, Temperatures, Vapour};
use crate::quantity::Measured;

impl Vessel {
    /// [`Vessel::step`] for the bodies of a day: what leaves has the temperature of the hoses.
    pub fn follow(
        &self,
        charge: &mut Charge,
        temperatures: &Temperatures,
        lasts: f64,
        vapour: &Vapour,
    ) -> Result<exchange::Moved, DayError> {
        let change = Change {
            parts: Parts::Bodies(*temperatures),
            neck: temperatures.hoses,
            air: temperatures.air,
            lasts,
            vapour: *vapour,
        };
        let before = charge.tank_temperature;
        let moved = self.step(charge, &change)?;
        let header = self.is_header();
        Ok(exchange::Moved {
            cap: moved.cap(),
            out: moved.out,
            back: moved.back,
            back_at: if moved.back > 0.0 { charge.tank_temperature } else { before },
            air_out: moved.air_out_volume,
            air_in: moved.air_in_volume,
            spilled: if header { moved.out } else { moved.spilled },
            spilled_at: if header { temperatures.hoses } else { charge.tank_temperature },
            steam_lost: moved.blown - moved.condensed + moved.boiled_off,
            tank_heat: moved.tank_heat,
            uncovered: moved.uncovered,
        })
    }

    /// How the charge stands.
    pub fn stands(&self, charge: &Charge) -> Result<exchange::Stands, DayError> {
        let reading = self.read(charge)?;
        Ok(exchange::Stands {
            pressure: charge.pressure,
            limit: self.ambient + self.opening + charge.tank_gauge,
            system: charge.mass,
            air: charge.gas_volume,
            tank: charge.tank_mass,
            tank_temperature: charge.tank_temperature,
            in_tank: reading.in_tank.base(),
            level: reading.level.map(Measured::base),
            tank_gauge: reading.tank_gauge.base(),
        })
    }
}
