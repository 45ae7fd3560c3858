//! What the car does, in pieces over which nothing changes.

use crate::quantity::si::{AngularVelocity, Power, ThermodynamicTemperature, Time, Velocity};

/// A piece of a day over which the car does the same thing.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Stretch {
    /// Which leg of the day it belongs to, from 0.
    pub leg: usize,
    /// How long it lasts; above 0.
    pub lasts: Time,
    /// Air temperature at its beginning.
    pub air: ThermodynamicTemperature,
    /// Air temperature at its end; in a straight line between.
    pub air_at_end: ThermodynamicTemperature,
    /// Road speed; 0 when it stands.
    pub road_speed: Velocity,
    /// What the engine does; `None` when it is stopped.
    pub engine: Option<Turning>,
}

/// A turning engine.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Turning {
    /// Crankshaft speed.
    pub speed: AngularVelocity,
    /// Brake power, 0 or more.
    pub power: Power,
    /// Whether the car pushes the engine and the fuel is cut or the throttle shut.
    pub overrun: bool,
    /// The gear, from 1; `None` in neutral.
    pub gear: Option<usize>,
    /// Power the road asked for beyond what the engine makes: the car falls behind what was asked.
    pub missing: Power,
}

/// Heat the engine gives off over a stretch.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub struct Heats {
    /// Into the metal around the coolant.
    pub coolant: Power,
    /// Into the oil.
    pub oil: Power,
}
