//! What stands under the cap and in the tank: pressure, what goes out and what comes back.
//!
//! [`Vessel`] is what does not change in a day, [`Charge`] what does; [`Vessel::step`] takes one accepted step of the
//! temperatures and moves coolant, air and steam until both valves of the cap are shut. It does not depend on how fast:
//! between the two limits of the cap nothing moves, at a limit as much goes as keeps the pressure there. One long step
//! and many short ones end alike while the temperatures go one way.
//!
//! The cap sits on the filler neck, at the hot side of the radiator (of a header tank: on that tank). What goes out
//! carries the enthalpy of the coolant there, which the caller gives as [`Change::neck`]: the engine's outlet while the
//! thermostat lets coolant through, the radiator's own temperature while it is shut, the header tank's for a header
//! tank. What comes back carries the tank's.
//!
//! Numbers are SI without units: kg, m³, Pa, K, J, s; gas in J/K as (p − p_bub)·V/T, which is its amount times R.

mod curves;
mod happenings;
mod hollow;
mod play;
mod reading;
mod sealed;
mod tank;
mod vessel;

pub(crate) use curves::Curves;
pub(crate) use happenings::Happenings;
pub(crate) use hollow::Hollow;
pub(crate) use reading::Reading;
pub(crate) use vessel::Vessel;

use super::exchange::{Temperatures, Vapour};

/// What changes in a day.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Charge {
    /// Coolant in the system, its vapour in the engine with it.
    pub mass: f64,
    /// Gas in the system.
    pub gas: f64,
    /// Coolant in the tank; 0 with a header tank, which is part of the system.
    pub tank_mass: f64,
    /// Its enthalpy, J, by [`Curves::enthalpy`].
    pub tank_energy: f64,
    /// Its temperature; the air's when the tank is empty.
    pub tank_temperature: f64,
    /// Gas in the tank, when its lid is sealed.
    pub tank_gas: f64,
    /// Coolant lost so far.
    pub lost: f64,
    /// The enthalpy it took along, J; steam with its latent heat.
    pub lost_energy: f64,
    /// Heat the tank gave to the air so far, J.
    pub tank_heat: f64,
    /// Air that came from outside so far, less what went out.
    pub air_from_outside: f64,
    /// Pressure in the system, absolute.
    pub pressure: f64,
    /// Pressure in the tank above the ambient.
    pub tank_gauge: f64,
    /// Room of the gas in the system.
    pub gas_volume: f64,
    /// Vapour in the engine as the last step was told.
    pub vapour_mass: f64,
    /// Its room.
    pub vapour_volume: f64,
    /// Temperature where the gas sits.
    pub gas_temperature: f64,
    /// Room of the part the gas sits in, swollen as it is.
    pub gas_place: f64,
    /// What the last step moved.
    pub last: Moved,
}

/// What a step of the car does to the charge.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Change {
    /// Mean temperature of each part of the circuit.
    pub parts: Parts,
    /// Temperature of the coolant under the cap.
    pub neck: f64,
    /// Temperature of the air around the tank.
    pub air: f64,
    /// How long the step lasts.
    pub lasts: f64,
    /// Vapour in the engine at the end of the step, after what is blown out has gone.
    pub vapour: Vapour,
}

/// The temperatures of the circuit's parts.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) enum Parts {
    /// By the body a part belongs to: block and heads are the engine; what has no body of its own goes with the hoses, a
    /// header tank too.
    Bodies(Temperatures),
    /// All the same.
    Alike(f64),
}

/// What one step moved.
#[derive(Clone, Copy, Debug, Default, PartialEq)]
pub(crate) struct Moved {
    /// Coolant that went out as liquid.
    pub out: f64,
    /// Its enthalpy, J.
    pub out_energy: f64,
    /// Coolant that came back.
    pub back: f64,
    /// Its enthalpy, J.
    pub back_energy: f64,
    /// Gas that went out of the system: to the outside, or into a sealed tank.
    pub air_out: f64,
    /// Gas that came in: from the outside, or from a sealed tank.
    pub air_in: f64,
    /// Vapour blown out of the system.
    pub blown: f64,
    /// The enthalpy it took along with its latent heat, J.
    pub blown_energy: f64,
    /// Of it what the tank's liquid condensed.
    pub condensed: f64,
    /// Coolant let out hotter than it boils under the ambient: what of it boiled off through the vent.
    pub boiled_off: f64,
    /// Coolant spilled by a tank that is full.
    pub spilled: f64,
    /// Lost in this step: spilled, blown off, or let out of a header tank.
    pub lost: f64,
    /// The enthalpy that was lost, J.
    pub lost_energy: f64,
    /// Heat the tank gave to the air, J.
    pub tank_heat: f64,
    /// What went out, as it is in the tank, m³.
    pub out_volume: f64,
    /// What came back, as it was in the tank, m³.
    pub back_volume: f64,
    /// What was spilled, m³.
    pub spilled_volume: f64,
    /// Air that went out and that came in, at ambient pressure and the air's temperature, m³.
    pub air_out_volume: f64,
    /// The same of what came in.
    pub air_in_volume: f64,
    /// Whether air was drawn because the tube's end is out of the liquid.
    pub uncovered: bool,
    /// Whether the system draws harder than hoses bear, and nothing comes back.
    pub blocked: bool,
    /// Whether vapour fills room that neither coolant nor gas fills, below the ambient.
    pub void: bool,
    /// Whether the coolant where the gas sits boils at the pressure found: what fills its room then is not told by the
    /// gas's law.
    pub gas_boils: bool,
}

#[cfg(test)]
mod tests;
