//! What the bodies tell the charge after a step. Plain SI numbers inside the day.

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
    /// The most room that it and the gas may take from the liquid outside a header tank, m³. Gas swells without end as the
    /// coolant nears its boiling point; a bubble of that size stands under the cap and pushes nothing further out.
    pub most: Option<f64>,
}
