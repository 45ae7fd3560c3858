//! What the bodies tell the charge after a step, and what it tells them. Plain SI numbers inside the day.

use super::CapState;

/// Where the coolant stands, K.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Temperatures {
    /// Block and heads.
    pub engine: f64,
    /// Mean of the radiator.
    pub radiator: f64,
    /// Heater and hoses; coolant leaves and comes back there, so this is the temperature of what leaves.
    pub hoses: f64,
    /// Air around the tank.
    pub air: f64,
}

/// Vapour of the coolant as a whole.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub(crate) struct Vapour {
    /// In the engine, kg; part of the system's coolant.
    pub mass: f64,
    /// The room it takes there, m³.
    pub volume: f64,
    /// Blown out through the cap in this step, kg.
    pub blown: f64,
    /// Heat that turns liquid into it, J/kg.
    pub latent: f64,
    /// Its temperature, K.
    pub temperature: f64,
}

/// What moved in one step.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Moved {
    /// What the cap did.
    pub cap: CapState,
    /// Liquid that left the system by the cap, at the hoses' temperature, kg; steam not counted.
    pub out: f64,
    /// Liquid that came back, kg.
    pub back: f64,
    /// Temperature of what came back, K.
    pub back_at: f64,
    /// Air that left the system, m³ at ambient pressure.
    pub air_out: f64,
    /// Air that came in, m³ at ambient pressure.
    pub air_in: f64,
    /// Liquid lost for good: spilled by the tank or caught without a tank, kg.
    pub spilled: f64,
    /// Its temperature, K.
    pub spilled_at: f64,
    /// Steam lost for good, kg: blown less what condensed in the tank.
    pub steam_lost: f64,
    /// Heat the tank gave to the air, J.
    pub tank_heat: f64,
    /// Whether the tube's end is out of the liquid.
    pub uncovered: bool,
}

/// How the charge stands.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Stands {
    /// System pressure, Pa absolute.
    pub pressure: f64,
    /// Pressure at which the cap opens now, the tank's gas counted: Pa absolute.
    pub limit: f64,
    /// Coolant in the system, liquid and vapour, kg.
    pub system: f64,
    /// Gas in the system, without the tank of a recovery arrangement, m³.
    pub air: f64,
    /// Coolant in the tank, kg.
    pub tank: f64,
    /// Its temperature, K.
    pub tank_temperature: f64,
    /// Its volume, m³.
    pub in_tank: f64,
    /// Its level, m, where the tank's shape tells it.
    pub level: Option<f64>,
    /// Gauge pressure of the tank's gas, Pa; 0 when vented.
    pub tank_gauge: f64,
}
