//! The charge as a sample shows it.

use super::vessel::Way;
use super::{Charge, Moved, Vessel};
use crate::day::{CapState, DayError};
use crate::quantity::si::{Length, Mass, ThermodynamicTemperature, Volume};
use crate::quantity::{GaugePressure, Measured};
use crate::scribe::Silent;

/// What a sample says of cap and tank.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Reading {
    /// System pressure.
    pub gauge: GaugePressure,
    /// What the cap does.
    pub cap: CapState,
    /// Gas pressure in the tank; the system's for a header tank, 0 when vented.
    pub tank_gauge: GaugePressure,
    /// Temperature in the tank.
    pub tank: ThermodynamicTemperature,
    /// Liquid in the tank.
    pub in_tank: Volume,
    /// Its level; `None` outside what the tank's shape tells.
    pub level: Option<Length>,
    /// Gas in the system.
    pub air_in_system: Volume,
    /// Vapour in the engine.
    pub vapour: Volume,
    /// Coolant that has left the system so far less what came back.
    pub out: Mass,
    /// Coolant lost so far.
    pub lost: Mass,
}

/// The last digits of a step's balance, m³: a hundred thousand steps of them are a thousandth of a millilitre.
const ROUNDING: f64 = 1e-14;

impl Moved {
    /// Whether anything went out in this step, no matter how slowly.
    pub(super) fn lets_out(&self) -> bool {
        self.out_volume + self.air_out_volume > ROUNDING || self.blown > 0.0
    }

    /// Whether anything came in.
    pub(super) fn lets_in(&self) -> bool {
        self.back_volume + self.air_in_volume > ROUNDING
    }

    /// What the cap did in this step; letting out counts where it does both.
    pub fn cap(&self) -> CapState {
        if self.lets_out() {
            CapState::LetsOut
        } else if self.lets_in() {
            CapState::LetsIn
        } else {
            CapState::Shut
        }
    }
}

impl Vessel {
    /// Whether the tank is part of the system.
    pub(super) const fn is_header(&self) -> bool {
        matches!(self.way, Way::Header(_))
    }

    /// Room of the gas by its law, where vapour of hotter coolant fills the rest of what coolant leaves.
    fn gas_alone(&self, charge: &Charge) -> Result<f64, DayError> {
        if !charge.last.void {
            return Ok(charge.gas_volume);
        }
        let over = charge.pressure - self.curves.bubble(charge.gas_temperature)?;
        let alone = if over > 0.0 { charge.gas * charge.gas_temperature / over } else { f64::INFINITY };
        Ok(charge.gas_volume.min(alone))
    }

    /// The charge in the words of a sample.
    pub fn read(&self, charge: &Charge) -> Result<Reading, DayError> {
        let header = self.is_header();
        let gas_volume = self.gas_alone(charge)?;
        let in_tank = if header {
            (charge.gas_place - gas_volume).max(0.0)
        } else if charge.tank_mass > 0.0 {
            charge.tank_mass / self.curves.density(charge.tank_temperature)?
        } else {
            0.0
        };
        // A header tank that has swollen has swollen evenly. Full to the last digit is full.
        let in_shape =
            if header && charge.gas_place > 0.0 { in_tank * self.capacity / charge.gas_place } else { in_tank };
        let full = in_shape > self.capacity && in_shape < self.capacity * (1.0 + 1e-9);
        let shown = if full { self.capacity } else { in_shape };
        let gauge = charge.pressure - self.ambient;
        Ok(Reading {
            gauge: GaugePressure::from_base(gauge),
            cap: charge.last.cap(),
            tank_gauge: GaugePressure::from_base(if header { gauge } else { charge.tank_gauge }),
            tank: ThermodynamicTemperature::from_base(charge.tank_temperature),
            in_tank: Volume::from_base(in_tank),
            level: self.tank.height_at(Volume::from_base(shown), &mut Silent).ok(),
            air_in_system: Volume::from_base(gas_volume),
            vapour: Volume::from_base(charge.vapour_volume + charge.gas_volume - gas_volume),
            out: Mass::from_base(self.filled_mass - charge.mass),
            lost: Mass::from_base(charge.lost),
        })
    }
}
