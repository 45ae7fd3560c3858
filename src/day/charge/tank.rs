//! The tank: heat to the air, mixing by enthalpy, steam that condenses in it or does not, spilling.

use super::vessel::Way;
use super::{Change, Charge, Curves, Moved, Vessel};
use crate::day::DayError;

/// Less liquid than this (kg) is a wet wall with the air's temperature.
const WET: f64 = 1e-9;

impl Vessel {
    /// Heat to the air over a step: T′ = T_air + (T − T_air)·exp(−UA·Δt/(m·cp)).
    pub(super) fn cool_tank(&self, next: &mut Charge, change: &Change, moved: &mut Moved) -> Result<(), DayError> {
        if let Way::Header(_) = self.way {
            return Ok(());
        }
        if next.tank_mass <= WET {
            next.tank_temperature = change.air;
            return Ok(());
        }
        if change.lasts <= 0.0 || next.tank_temperature == change.air {
            return Ok(());
        }
        let span = next.tank_temperature - change.air;
        let after = |heat: f64| change.air + span * (-self.tank_to_air * change.lasts / (next.tank_mass * heat)).exp();
        // First with the specific heat at the beginning, then with its mean over the way it went.
        let first = after(self.curves.specific_heat(next.tank_temperature)?);
        let way = next.tank_temperature - first;
        let temperature = if way.abs() > 1e-3 {
            after((next.tank_energy / next.tank_mass - self.curves.enthalpy(first)?) / way)
        } else {
            first
        };
        let energy = next.tank_mass * self.curves.enthalpy(temperature)?;
        moved.tank_heat += next.tank_energy - energy;
        next.tank_energy = energy;
        next.tank_temperature = temperature;
        Ok(())
    }

    /// Steam blown out through the cap: the tank's liquid condenses it until it boils itself, the rest leaves by the
    /// vent. A sealed lid lets no steam out; what does not condense stays in the engine.
    pub(super) fn take_steam(&self, next: &mut Charge, change: &Change, moved: &mut Moved) -> Result<(), DayError> {
        let blown = change.vapour.blown;
        if blown <= 0.0 {
            return Ok(());
        }
        let at = change.vapour.temperature;
        let enthalpy = self.curves.enthalpy(at)? + change.vapour.latent;
        let mut condensed = 0.0;
        if next.tank_mass > WET {
            let boils =
                if self.sealed { self.curves.boils_at(self.ambient + next.tank_gauge)? } else { self.boils_open };
            let boiling = self.curves.enthalpy(boils)?;
            let bears = next.tank_mass * boiling - next.tank_energy;
            condensed = (bears / (enthalpy - boiling)).clamp(0.0, blown);
            next.tank_mass += condensed;
            next.tank_energy += condensed * enthalpy;
            self.mixed(next)?;
        }
        moved.condensed = condensed;
        moved.blown = if self.sealed { condensed } else { blown };
        moved.blown_energy = moved.blown * enthalpy;
        moved.lost += moved.blown - condensed;
        moved.lost_energy += (moved.blown - condensed) * enthalpy;
        next.mass -= moved.blown;
        Ok(())
    }

    fn mixed(&self, next: &mut Charge) -> Result<(), DayError> {
        if next.tank_mass > WET {
            next.tank_temperature = self.curves.temperature(next.tank_energy / next.tank_mass)?;
        }
        Ok(())
    }

    /// After coolant has moved: temperature of the mixture, what boils off it, what runs over.
    pub(super) fn settle_tank(&self, next: &mut Charge, change: &Change, moved: &mut Moved) -> Result<(), DayError> {
        if let Way::Header(_) = self.way {
            next.tank_temperature = next.gas_temperature;
            return Ok(());
        }
        if next.tank_mass <= WET {
            next.tank_temperature = change.air;
            if next.tank_mass > 0.0 || next.tank_energy != 0.0 {
                let energy =
                    if next.tank_mass > 0.0 { next.tank_mass * self.curves.enthalpy(change.air)? } else { 0.0 };
                moved.tank_heat += next.tank_energy - energy;
                next.tank_energy = energy;
            }
            return Ok(());
        }
        if moved.out > 0.0 {
            self.mixed(next)?;
        }
        if !self.sealed && next.tank_temperature > self.boils_open {
            self.boil_off(next, moved)?;
        }
        let density = self.curves.density(next.tank_temperature)?;
        if moved.out > 0.0 {
            moved.out_volume = moved.out / density;
        }
        let over = next.tank_mass - self.capacity * density;
        if !self.sealed && over > 1e-12 * next.tank_mass {
            let energy = next.tank_energy * (over / next.tank_mass);
            next.tank_mass -= over;
            next.tank_energy -= energy;
            moved.spilled = over;
            moved.spilled_volume = over / density;
            moved.lost += over;
            moved.lost_energy += energy;
        }
        Ok(())
    }

    /// Coolant let out above its boiling point under the ambient: what is too much boils off and leaves by the vent.
    /// That the rest becomes richer in glycol is left out.
    fn boil_off(&self, next: &mut Charge, moved: &mut Moved) -> Result<(), DayError> {
        let boiling = self.curves.enthalpy(self.boils_open)?;
        let vapour = boiling + Curves::latent_heat(self.boils_open)?;
        let off = ((next.tank_energy - next.tank_mass * boiling) / (vapour - boiling)).clamp(0.0, next.tank_mass);
        next.tank_mass -= off;
        next.tank_energy -= off * vapour;
        next.tank_temperature = self.boils_open;
        moved.boiled_off = off;
        moved.lost += off;
        moved.lost_energy += off * vapour;
        Ok(())
    }
}
