//! A tank whose lid lets nothing out: its gas is squeezed by what comes in, and its pressure adds to the cap's.
//!
//! The gas has the temperature the tank's liquid had when the step began; what comes in warms it for the next step.

use super::play::Play;
use super::vessel::Way;
use super::{Charge, Vessel};
use crate::coolant::CoolantError;
use crate::day::DayError;
use crate::numeric::{RootError, bracketed_root};

/// No tank or hose of a car comes near it, Pa.
const HIGHEST: f64 = 4.5e6;

impl Vessel {
    /// Pressure in the sealed tank above the ambient: N·T/V + p_bub(T) − p₀. Beyond [`HIGHEST`] it is solid.
    pub(super) fn tank_gauge(&self, mass: f64, temperature: f64, gas: f64) -> Result<f64, DayError> {
        let liquid = if mass > 0.0 { mass / self.curves.density(temperature)? } else { 0.0 };
        let room = self.capacity - liquid;
        if gas <= 0.0 && room.abs() <= 1e-9 * self.capacity {
            // Filled to the lid, and nothing has come in yet.
            return Ok(0.0);
        }
        if room <= 0.0 {
            return Ok(HIGHEST);
        }
        let vapour = self.curves.bubble(temperature)?;
        Ok((gas.max(0.0) * temperature / room + vapour - self.ambient).min(HIGHEST))
    }

    fn solid(&self, charge: &Charge, entering: f64) -> Result<DayError, DayError> {
        let density = self.curves.density(charge.tank_temperature)?;
        let air = (self.capacity - charge.tank_mass / density).max(0.0);
        Ok(CoolantError::SealedTankOverfull { air, expelled: entering / density }.into())
    }

    pub(super) fn sealed(&self, play: &mut Play<'_>) -> Result<(), DayError> {
        let start = play.next;
        let shut = self.tank_gauge(start.tank_mass, start.tank_temperature, start.tank_gas)?;
        if shut >= HIGHEST {
            return Err(self.solid(&start, 0.0)?);
        }
        let limit = self.ambient + self.opening;
        let most = play.liquid - play.hollow.fits(start.gas, limit + shut).max(0.0);
        if most > 0.0 {
            let (hollow, liquid) = (play.hollow, play.liquid);
            let gauge = |out: f64| self.tank_gauge(start.tank_mass + out, start.tank_temperature, start.tank_gas);
            let over =
                |out: f64| -> Result<f64, DayError> { Ok(hollow.fits(start.gas, limit + gauge(out)?) + out - liquid) };
            let out = self.root(over, most, "the pressure in the sealed tank")?;
            let gauge = gauge(out)?;
            // A tank without gas goes from empty to solid at once.
            if gauge >= HIGHEST || over(out)?.abs() > 1e-9 * liquid {
                return Err(self.solid(&start, out)?);
            }
            play.next.pressure = limit + gauge;
            play.next.tank_gauge = gauge;
            return self.let_out(play, out);
        }
        play.stand(limit + shut);
        play.next.tank_gauge = shut;
        let reach = self.reach(&play.next)?;
        if reach > 0.0 {
            let lower = self.ambient + shut - self.draws;
            if self.blocked || play.next.pressure >= lower {
                play.moved.blocked = self.blocked && play.next.pressure < lower;
                return Ok(());
            }
            let gauge = |back: f64| self.tank_gauge(start.tank_mass - back, start.tank_temperature, start.tank_gas);
            let (hollow, liquid) = (play.hollow, play.liquid);
            let at = |gauge: f64| (self.ambient + gauge - self.draws).max(0.0);
            let lacks =
                |back: f64| -> Result<f64, DayError> { Ok(liquid + back - hollow.fits(start.gas, at(gauge(back)?))) };
            let all = lacks(reach)? < 0.0;
            let back = if all { reach } else { self.root(lacks, reach, "what comes back from the sealed tank")? };
            self.let_in(play, back)?;
            play.next.tank_gauge = gauge(back)?;
            if !all {
                play.next.pressure = at(play.next.tank_gauge);
                play.moved.void = false;
                return Ok(());
            }
            let limit = limit + play.next.tank_gauge;
            play.stand(limit);
        }
        self.draw_from_tank(play)
    }

    /// The tube is out of the liquid: the tank's gas goes over into the system.
    fn draw_from_tank(&self, play: &mut Play<'_>) -> Result<(), DayError> {
        let start = play.next;
        if start.pressure >= self.ambient + start.tank_gauge - self.draws_air {
            return Ok(());
        }
        let gauge = |gas: f64| self.tank_gauge(start.tank_mass, start.tank_temperature, start.tank_gas - gas);
        let (hollow, liquid) = (play.hollow, play.liquid);
        let at = |gauge: f64| (self.ambient + gauge - self.draws_air).max(0.0);
        let lacks = |gas: f64| -> Result<f64, DayError> {
            let pressure = at(gauge(gas)?);
            // Without gas of its own the system can stand at any pressure above its vapour's.
            Ok(liquid - hollow.fits(start.gas + gas, pressure))
        };
        let whole = start.tank_gas.max(0.0);
        let all = lacks(whole)? < 0.0;
        let gas = if all { whole } else { self.root(lacks, whole, "the gas from the sealed tank")? };
        play.moved.air_in += gas;
        play.next.gas += gas;
        play.next.tank_gas -= gas;
        play.next.tank_gauge = gauge(gas)?;
        play.moved.uncovered = gas > 0.0 && self.way == Way::Return;
        if all || gas <= 0.0 {
            let limit = self.ambient + self.opening + play.next.tank_gauge;
            play.stand(limit);
        } else {
            play.next.pressure = at(play.next.tank_gauge);
            play.moved.void = false;
        }
        Ok(())
    }

    /// Where a rising function of 0 to `most`, below zero at 0, passes zero; 0 when it does not begin below.
    fn root(
        &self,
        function: impl Fn(f64) -> Result<f64, DayError>,
        most: f64,
        what: &'static str,
    ) -> Result<f64, DayError> {
        if function(0.0)? >= 0.0 {
            return Ok(0.0);
        }
        // An error of the properties within is what went wrong, not the number that stands for it.
        let failed = std::cell::Cell::new(None);
        let read = |x: f64| {
            function(x).unwrap_or_else(|error| {
                failed.set(Some(error));
                f64::NAN
            })
        };
        match bracketed_root(read, 0.0, most, 1e-14) {
            Ok(root) => Ok(root.at),
            // The last digits may keep the far end a hair below zero.
            Err(RootError::NotBracketed(_)) => Ok(most),
            Err(cause) => Err(failed.take().unwrap_or_else(|| CoolantError::Unsolved { what, cause }.into())),
        }
    }
}
