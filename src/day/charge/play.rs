//! One step: nothing moves between the two limits of the cap; at a limit as much as keeps the pressure there.

use super::vessel::Way;
use super::{Change, Charge, Hollow, Moved, Vessel};
use crate::coolant::{CapSits, CoolantError};
use crate::day::DayError;
use crate::day::exchange::Vapour;

/// Coolant and gas of a step while it is worked out.
pub(super) struct Play<'a> {
    pub hollow: Hollow,
    pub change: &'a Change,
    /// The state at the end of the step.
    pub next: Charge,
    /// Liquid in the system.
    pub liquid: f64,
    pub moved: Moved,
}

impl Vessel {
    /// Takes one step of the temperatures: tank and air exchange heat, steam is blown out, the cap lets out or in, a full
    /// tank spills. The charge is left as it was when there is no answer.
    ///
    /// # Errors
    /// A temperature outside the coolant's range, or a sealed tank that fills solid.
    pub fn step(&self, charge: &mut Charge, change: &Change) -> Result<Moved, DayError> {
        change.check()?;
        let mut next = *charge;
        let mut moved = Moved::default();
        self.cool_tank(&mut next, change, &mut moved)?;
        self.take_steam(&mut next, change, &mut moved)?;
        let hollow = self.hollow(&change.parts, &change.vapour)?;
        let liquid = next.mass - change.vapour.mass;
        if !(liquid >= 0.0 && hollow.brim.is_finite() && hollow.pushed_aside.is_finite()) {
            return Err(CoolantError::NotFinite { what: "the liquid beside the vapour" }.into());
        }
        let mut play = Play { hollow, change, next, liquid, moved };
        match self.way {
            Way::Header(cap) => self.header(&mut play, cap)?,
            _ if self.sealed => self.sealed(&mut play)?,
            _ => self.open(&mut play)?,
        }
        let Play { mut next, mut moved, liquid, .. } = play;
        next.mass = liquid + change.vapour.mass;
        next.gas_volume = ((hollow.brim_at(next.pressure) - liquid) / hollow.gas_density).max(0.0);
        next.gas_temperature = hollow.gas_temperature;
        next.gas_place = hollow.gas_place_at(next.pressure);
        next.vapour_mass = change.vapour.mass;
        next.vapour_volume = change.vapour.volume;
        moved.gas_boils = hollow.gas_bubble > next.pressure * (1.0 + 1e-9);
        self.settle_tank(&mut next, change, &mut moved)?;
        let outside = change.air / self.ambient;
        moved.air_in_volume = moved.air_in * outside;
        moved.air_out_volume = moved.air_out * outside;
        if !self.sealed {
            next.air_from_outside += moved.air_in - moved.air_out;
        }
        next.lost += moved.lost;
        next.lost_energy += moved.lost_energy;
        next.tank_heat += moved.tank_heat;
        if ![next.mass, next.gas, next.tank_mass, next.tank_energy, next.pressure].iter().all(|value| value.is_finite())
        {
            return Err(CoolantError::NotFinite { what: "what stands under the cap" }.into());
        }
        next.last = moved;
        *charge = next;
        Ok(moved)
    }

    /// A tank open to the air.
    fn open(&self, play: &mut Play<'_>) -> Result<(), DayError> {
        let limit = self.ambient + self.opening;
        let fits = play.hollow.fits(play.next.gas, limit);
        if fits < play.liquid {
            play.next.pressure = limit;
            let out = play.liquid - fits.max(0.0);
            return self.let_out(play, out);
        }
        play.stand(limit);
        let reach = self.reach(&play.next)?;
        let lower = self.ambient - self.draws;
        if reach > 0.0 && !self.blocked && play.next.pressure < lower {
            let wanted = (play.hollow.fits(play.next.gas, lower) - play.liquid).max(0.0);
            self.let_in(play, wanted.min(reach))?;
            if wanted <= reach {
                play.next.pressure = lower;
                play.moved.void = false;
                return Ok(());
            }
            play.stand(limit);
        } else if reach > 0.0 {
            play.moved.blocked = self.blocked && play.next.pressure < lower;
            return Ok(());
        }
        play.moved.uncovered = play.draw_air(self.ambient - self.draws_air) && self.way == Way::Return;
        Ok(())
    }

    /// A tank that is part of the system: what leaves is lost, and only air comes in.
    fn header(&self, play: &mut Play<'_>, cap: CapSits) -> Result<(), DayError> {
        let limit = self.ambient + self.opening;
        if play.hollow.fits(play.next.gas, limit) < play.liquid {
            if cap == CapSits::InGas {
                // Gas leaves until what is left stands at the limit, and coolant only when there is no gas left.
                let kept = play.hollow.gas_beside(play.liquid, limit).min(play.next.gas);
                play.moved.air_out = play.next.gas - kept;
                play.next.gas = kept;
            }
            let fits = play.hollow.fits(play.next.gas, limit);
            // The last digit of the gas just fitted is no coolant.
            let out = play.liquid - fits.max(0.0);
            if out > 1e-12 * play.liquid {
                self.let_out(play, out)?;
            }
            play.next.pressure = limit;
            return Ok(());
        }
        play.stand(limit);
        play.draw_air(self.ambient - self.draws);
        Ok(())
    }

    /// Liquid that the tube reaches, kg.
    pub(super) fn reach(&self, charge: &Charge) -> Result<f64, DayError> {
        if self.way != Way::Return || charge.tank_mass <= 0.0 {
            return Ok(0.0);
        }
        let reach = if self.out_of_reach > 0.0 {
            charge.tank_mass - self.out_of_reach * self.curves.density(charge.tank_temperature)?
        } else {
            charge.tank_mass
        };
        // Less than the rounding of the tank's content is nothing.
        Ok(if reach > 1e-12 * charge.tank_mass { reach } else { 0.0 })
    }

    /// Coolant goes out of the system, with the enthalpy of the coolant under the cap.
    pub(super) fn let_out(&self, play: &mut Play<'_>, out: f64) -> Result<(), DayError> {
        let neck = play.change.neck;
        let energy = out * self.curves.enthalpy(neck)?;
        play.liquid -= out;
        play.moved.out += out;
        play.moved.out_energy += energy;
        if let Way::Header(_) = self.way {
            play.moved.lost += out;
            play.moved.lost_energy += energy;
            play.moved.out_volume += out / self.curves.density(neck)?;
        } else {
            play.next.tank_mass += out;
            play.next.tank_energy += energy;
        }
        Ok(())
    }

    /// Coolant comes back, with the enthalpy of the tank's.
    pub(super) fn let_in(&self, play: &mut Play<'_>, back: f64) -> Result<(), DayError> {
        if back <= 0.0 {
            return Ok(());
        }
        let energy = play.next.tank_energy * (back / play.next.tank_mass);
        play.liquid += back;
        play.next.tank_mass -= back;
        play.next.tank_energy -= energy;
        play.moved.back += back;
        play.moved.back_energy += energy;
        play.moved.back_volume += back / self.curves.density(play.next.tank_temperature)?;
        Ok(())
    }
}

impl Change {
    fn check(&self) -> Result<(), CoolantError> {
        let Vapour { mass, volume, blown, .. } = self.vapour;
        if ![mass, volume, blown].iter().all(|value| value.is_finite() && *value >= 0.0) {
            return Err(CoolantError::NotFinite { what: "the vapour in the engine" });
        }
        if !(self.lasts.is_finite() && self.lasts >= 0.0 && self.air.is_finite() && self.air > 0.0) {
            return Err(CoolantError::NotFinite { what: "the step of time or the air around the tank" });
        }
        Ok(())
    }
}

impl Play<'_> {
    /// The pressure with both valves shut; never above what the cap holds.
    pub fn stand(&mut self, limit: f64) {
        let stands = self.hollow.stands(self.liquid, self.next.gas, self.next.pressure);
        self.next.pressure = stands.pressure.min(limit);
        self.moved.void = stands.void;
    }

    /// Air from outside comes in until the pressure stands at `at`; says whether any did.
    fn draw_air(&mut self, at: f64) -> bool {
        if self.next.pressure >= at {
            return false;
        }
        let gas = self.hollow.gas_beside(self.liquid, at);
        if gas <= self.next.gas {
            return false;
        }
        self.moved.air_in += gas - self.next.gas;
        self.next.gas = gas;
        self.next.pressure = at;
        self.moved.void = false;
        true
    }
}
