//! Ways beside the radiator by which heat comes into the coolant or leaves it: heater and oil cooler.

use super::{Balance, HeatError, oil_defaults};
use crate::quantity::Measured;
use crate::quantity::si::{Power, ThermalConductance, ThermodynamicTemperature};
use crate::scribe::{Scribe, Step};
use crate::source::engine_oil as source;

/// Heat into the coolant beside the engine's own, in a straight line with the coolant's temperature t:
/// Q_beside = A − G·(t − t_a) with t_a the ambient. A line keeps the heat balance what it is: heat and loss of
/// [`Balance`] grow by A and G, and nothing is iterated.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Beside {
    /// A: what comes in with the coolant at ambient temperature; below zero when that much leaves.
    pub at_ambient: Power,
    /// G, never below zero.
    pub conductance: ThermalConductance,
}

impl Beside {
    /// No such way.
    #[must_use]
    pub fn nothing() -> Self {
        Self { at_ambient: Power::from_base(0.0), conductance: ThermalConductance::from_base(0.0) }
    }

    /// Both ways together.
    #[must_use]
    pub fn and(&self, other: &Self) -> Self {
        Self {
            at_ambient: Power::from_base(self.at_ambient.base() + other.at_ambient.base()),
            conductance: ThermalConductance::from_base(self.conductance.base() + other.conductance.base()),
        }
    }

    /// The balance with this way in it.
    #[must_use]
    pub fn in_balance(&self, balance: &Balance) -> Balance {
        Balance {
            heat: Power::from_base(balance.heat.base() + self.at_ambient.base()),
            engine_loss: ThermalConductance::from_base(balance.engine_loss.base() + self.conductance.base()),
            ..*balance
        }
    }

    /// What comes in at a coolant temperature, below zero when it leaves.
    #[must_use]
    pub fn heat(&self, coolant: ThermodynamicTemperature, ambient: ThermodynamicTemperature) -> Power {
        Power::from_base(self.at_ambient.base() - self.conductance.base() * (coolant.base() - ambient.base()))
    }
}

/// The heater of the cabin, valve open and fan on.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Heater {
    /// Heat it gives for each kelvin between coolant and the air it draws.
    pub conductance: ThermalConductance,
    /// The air it draws: the cabin's, or that outside.
    pub air: ThermodynamicTemperature,
}

impl Heater {
    /// Its way out of the coolant: Q = G_h·(t − t_air).
    ///
    /// # Errors
    /// A conductance or an air temperature out of range.
    pub fn beside(&self, ambient: ThermodynamicTemperature, scribe: &mut impl Scribe) -> Result<Beside, HeatError> {
        let conductance = oil_defaults::HEATER.check(self.conductance)?;
        let air = oil_defaults::CABIN.check(self.air)?;
        let ambient = super::balance::AMBIENT_TEMPERATURE.check(ambient)?;
        let warmer = conductance.base() * (air.base() - ambient.base());
        scribe.step(|| {
            Step::new(
                "Heat of the heater, coolant at the air's temperature",
                "Q_0",
                "Q_0 = G_h·(t_air − t_a)",
                &source::HEATER_CORE,
            )
            .with("G_h", conductance)
            .with("t_air", air)
            .with("t_a", ambient)
            .gives(Power::from_base(warmer))
        });
        Ok(Beside { at_ambient: Power::from_base(warmer), conductance })
    }
}
