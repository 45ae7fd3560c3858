//! What the car is made of, as bodies that each have one temperature.

use super::Turning;
use crate::coolant::{Cap, CapSits, FilledSystem, Tank};
use crate::heat::{Airflow, Pump, Radiator, Thermostat};
use crate::quantity::si::{
    AngularVelocity, HeatCapacity, Length, Pressure, Ratio, TemperatureInterval, ThermalConductance,
    ThermodynamicTemperature, Time, Velocity, Volume,
};
use crate::quantity::{GaugePressure, Measured};

/// The bodies of a car, what joins them, and what stands behind the cap.
#[derive(Clone, Debug, PartialEq)]
pub struct Lumps {
    /// Circuit, mix, fill temperature, trapped gas and ambient pressure: as the steady answer takes it.
    pub system: FilledSystem,
    /// The radiator.
    pub radiator: Radiator,
    /// The pump.
    pub pump: Pump,
    /// The thermostat as it warms; see `closing_lag`.
    pub thermostat: Thermostat,
    /// How much lower it closes than it opens.
    pub closing_lag: TemperatureInterval,
    /// Time constant of its wax.
    pub wax_lag: Time,
    /// What drives air through the radiator; the road speed is the stretch's. With the fan off its velocity counts as 0.
    pub airflow: Airflow,
    /// Face velocity from a fan that the engine turns, by engine speed, in a straight line between; empty where the fan does
    /// not feel engine speed and [`Airflow::fan_velocity`] counts.
    pub fan_by_engine: Vec<(AngularVelocity, Velocity)>,
    /// The fan's switch: on above the first, off below the second; `None` when it runs with the engine.
    pub fan_switch: Option<(ThermodynamicTemperature, ThermodynamicTemperature)>,
    /// Whether a switched fan still runs with the engine stopped.
    pub fan_runs_on: bool,
    /// Metal between flame and coolant.
    pub hot_metal: HeatCapacity,
    /// From that metal to the coolant, at the pump's flow at 3000 rpm.
    pub hot_metal_running: ThermalConductance,
    /// The same with the pump at rest.
    pub hot_metal_still: ThermalConductance,
    /// Power of the pump's speed with which that conductance and the block's grow from rest.
    pub flow_power: Ratio,
    /// The rest of block and heads.
    pub block: HeatCapacity,
    /// From the coolant to the block, at the pump's flow at 3000 rpm.
    pub block_running: ThermalConductance,
    /// The same with the pump at rest.
    pub block_still: ThermalConductance,
    /// From the block to the air around it, standing.
    pub block_to_air: ThermalConductance,
    /// What a road speed of 30 m/s adds to it.
    pub block_to_air_on_road: ThermalConductance,
    /// Oil with the metal of its sump.
    pub oil: HeatCapacity,
    /// Between oil and block.
    pub oil_to_block: ThermalConductance,
    /// From the sump to the air, standing.
    pub oil_to_air: ThermalConductance,
    /// What a road speed of 30 m/s adds to it.
    pub oil_to_air_on_road: ThermalConductance,
    /// From the oil to the air by a cooler at a road speed of 30 m/s, wide open.
    pub oil_cooler_on_road: ThermalConductance,
    /// Where its thermostat begins to open; none that is always open.
    pub oil_cooler_opens: Option<ThermodynamicTemperature>,
    /// Metal of the radiator.
    pub radiator_metal: HeatCapacity,
    /// Share of the radiator's conductance, at its reference flow and the air of the moment, left when the coolant stands.
    pub radiator_still: Ratio,
    /// Flow through heater and hoses for each 1000 rpm, as a share of the pump's.
    pub heater_flow: Ratio,
    /// From heater and hoses to the air: hoses alone, and the heater core on top when it is on.
    pub hoses_to_air: ThermalConductance,
    /// The heater core when it is on; 0 off.
    pub heater: ThermalConductance,
    /// The tank, its cap and how it is joined.
    pub behind_cap: BehindCap,
    /// How much hotter than the outlet the hottest passage is with the engine running; after a stop it fades.
    pub local_excess: TemperatureInterval,
    /// Greatest share of the engine's coolant that vapour may push out; steam beyond it leaves by the cap.
    pub surge: Ratio,
}

/// Over which the thermostat of an oil cooler goes from shut to wide open, K; the steady answer leaves it out.
const COOLER_SPAN: f64 = 4.0;

impl Lumps {
    /// Opening of the oil cooler's thermostat, 0 to 1, with oil of a temperature in K.
    pub(super) fn oil_cooler_opening(&self, oil: f64) -> f64 {
        self.oil_cooler_opens.map_or(1.0, |opens| ((oil - opens.base()) / COOLER_SPAN).clamp(0.0, 1.0))
    }

    /// Face velocity from the running fan with the engine doing this.
    #[must_use]
    pub fn fan_velocity(&self, engine: Option<Turning>) -> Velocity {
        let Some(engine) = engine.filter(|_| !self.fan_by_engine.is_empty()) else { return self.airflow.fan_velocity };
        let above = self.fan_by_engine.partition_point(|(speed, _)| *speed <= engine.speed);
        let low = above.checked_sub(1).and_then(|below| self.fan_by_engine.get(below));
        match (low, self.fan_by_engine.get(above)) {
            (Some((a, from)), Some((b, to))) => {
                let share = (engine.speed.base() - a.base()) / (b.base() - a.base());
                Velocity::from_base(from.base() + share * (to.base() - from.base()))
            }
            (Some((_, end)), None) | (None, Some((_, end))) => *end,
            (None, None) => self.airflow.fan_velocity,
        }
    }
}

/// What stands behind the cap.
#[derive(Clone, Debug, PartialEq)]
pub struct BehindCap {
    /// The tank's shape.
    pub tank: Tank,
    /// Coolant in it when filled, at the fill temperature.
    pub filled: Volume,
    /// The cap's valves.
    pub cap: Cap,
    /// Pressure at which the cap opens in this run.
    pub opening: GaugePressure,
    /// Depression at which the vacuum valve opens, lift and line added.
    pub draws: Pressure,
    /// What the tank is to the system.
    pub kind: Joined,
    /// From the tank to the air around it.
    pub tank_to_air: ThermalConductance,
    /// Height of the dip tube's end above the floor.
    pub tube_end: Length,
}

/// How the tank is joined to the system.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Joined {
    /// Behind a two-way cap: what leaves comes back through the tube. Sealed when the lid has no vent.
    Recovery {
        /// Whether the lid is sealed.
        sealed: bool,
    },
    /// Behind a cap, without return.
    CatchOnly {
        /// Whether the lid is sealed.
        sealed: bool,
    },
    /// Part of the pressurised system.
    Header(CapSits),
}

/// The state at the beginning of a day: everything at one temperature, filled and closed.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Start {
    /// That temperature.
    pub temperature: ThermodynamicTemperature,
}
