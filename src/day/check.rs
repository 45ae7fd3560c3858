//! What the figures of a day may be.

use super::options::{GONE, OIL_WARM, Options, SAMPLE_EVERY, TOLERANCE};
use super::{DayError, Heats, Lumps, Start, Stretch};
use crate::coolant::boiling::EXCESS;
use crate::heat::{airflow, balance, pump};
use crate::quantity::{Kind, Measured, Range};

/// Closing lags.
pub(super) const LAG: Range =
    Range::new("closing lag of the thermostat", Kind::TemperatureDifference, 0.0, 15.0, "2 to 4 K is usual");
/// Time constants of the wax.
pub(super) const WAX: Range =
    Range::new("time constant of the thermostat's wax", Kind::Time, 0.5, 300.0, "5 to 20 s is usual");
/// Heat capacities of a body.
pub(super) const CAPACITY: Range =
    Range::new("heat capacity of a body", Kind::HeatCapacity, 100.0, 1e7, "0.4 to 1 kJ/K for each kilogram of metal");
/// Heat capacities that may be left out.
pub(super) const SMALL_CAPACITY: Range =
    Range::new("heat capacity of the radiator's metal", Kind::HeatCapacity, 0.0, 1e6, "2 to 8 kJ/K is usual");
/// Conductances between bodies.
pub(super) const CONDUCTANCE: Range =
    Range::new("heat conductance between two bodies", Kind::HeatConductance, 0.0, 1e5, "0 where no heat flows");
/// Shares of the radiator's conductance with standing coolant.
pub(super) const STILL: Range =
    Range::new("share of the radiator's conductance with standing coolant", Kind::Share, 0.0, 1.0, "a few hundredths");
/// Powers of the flow.
pub(super) const FLOW_POWER: Range =
    Range::new("power of the pump's speed in conductances", Kind::Number, 0.0, 1.0, "0.5 to 0.8 is usual");
/// Heater flows.
pub(super) const HEATER_FLOW: Range =
    Range::new("share of the pump's flow through heater and hoses", Kind::Share, 0.0, 1.0, "0.1 to 0.3 is usual");
/// Surges.
pub(super) const SURGE: Range = Range::new(
    "share of the engine's coolant that vapour may push out",
    Kind::Share,
    0.001,
    0.5,
    "0.05 to 0.25 is usual",
);
const LASTS: Range = Range::new("length of a stretch", Kind::Duration, 1e-3, 1e6, "a stretch lasts a second or more");
const HEAT: Range = Range::new("heat the engine gives", Kind::Power, 0.0, 1e6, "0 with the engine stopped");
const START: Range = Range::new(
    "temperature at the beginning of the day",
    Kind::Temperature,
    223.15,
    383.15,
    "the whole car has it: that of the air after a night",
);
/// The least difference between a fan's two switching points, K.
const APART: f64 = 0.1;
/// Coolant temperatures a fan may switch at.
const SWITCH: Range =
    Range::new("temperature at which the fan switches", Kind::Temperature, 253.15, 403.15, "90 to 100 °C is usual");

impl Lumps {
    /// Passes the car through if every figure lies in range. Circuit, cap and tank are checked where they are used.
    ///
    /// # Errors
    /// The first figure out of range; a fan that would go off above where it comes on.
    pub fn check(&self) -> Result<&Self, DayError> {
        self.thermostat.check()?;
        LAG.check(self.closing_lag)?;
        WAX.check(self.wax_lag)?;
        for capacity in [self.hot_metal, self.block, self.oil] {
            CAPACITY.check(capacity)?;
        }
        SMALL_CAPACITY.check(self.radiator_metal)?;
        for conductance in [
            self.hot_metal_running,
            self.hot_metal_still,
            self.block_running,
            self.block_still,
            self.block_to_air,
            self.block_to_air_on_road,
            self.oil_to_block,
            self.oil_to_air,
            self.oil_to_air_on_road,
            self.oil_cooler_on_road,
            self.hoses_to_air,
            self.heater,
        ] {
            CONDUCTANCE.check(conductance)?;
        }
        if let Some(opens) = self.oil_cooler_opens {
            crate::heat::oil_defaults::oil_thermostat().check(opens)?;
        }
        STILL.check(self.radiator_still)?;
        FLOW_POWER.check(self.flow_power)?;
        airflow::DRAUGHT.check(self.airflow.draught)?;
        HEATER_FLOW.check(self.heater_flow)?;
        EXCESS.check(self.local_excess)?;
        SURGE.check(self.surge)?;
        if let Some((on, off)) = self.fan_switch {
            SWITCH.check(on)?;
            SWITCH.check(off)?;
            if on.base() - off.base() < APART {
                return Err(DayError::FanSwitch { on, off, least: APART });
            }
        }
        Ok(self)
    }
}

/// Passes what the car does if every figure lies in range.
pub(super) fn day(
    stretches: &[Stretch],
    heats: &[Heats],
    start: &Start,
    options: &Options<'_>,
) -> Result<(), DayError> {
    if stretches.is_empty() {
        return Err(DayError::NoStretches);
    }
    if stretches.len() != heats.len() {
        return Err(DayError::HeatsCount { stretches: stretches.len(), heats: heats.len() });
    }
    SAMPLE_EVERY.check(options.sample_every)?;
    TOLERANCE.check(options.tolerance)?;
    OIL_WARM.check(options.oil_warm)?;
    GONE.check(options.gone)?;
    START.check(start.temperature)?;
    for (number, (stretch, heats)) in stretches.iter().zip(heats).enumerate() {
        let leg = stretch.leg;
        one(stretch, heats).map_err(|fault| DayError::Stretch { stretch: number, leg, fault })?;
    }
    Ok(())
}

fn one(stretch: &Stretch, heats: &Heats) -> Result<(), crate::quantity::OutOfRange> {
    LASTS.check(stretch.lasts)?;
    balance::AMBIENT_TEMPERATURE.check(stretch.air)?;
    balance::AMBIENT_TEMPERATURE.check(stretch.air_at_end)?;
    airflow::ROAD_SPEED.check(stretch.road_speed)?;
    if let Some(engine) = stretch.engine {
        pump::ENGINE_SPEED.check(engine.speed)?;
    }
    HEAT.check(heats.coolant)?;
    HEAT.check(heats.oil)?;
    Ok(())
}
