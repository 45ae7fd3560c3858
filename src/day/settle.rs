//! What follows from a step: vapour, what the cap moved, and how the coolant shares itself out again.
//!
//! The bodies' heat is followed with the coolant where it was; after each step the charge says what left and came back,
//! and every part is as full as the others again. What has to change places mixes on the way and carries its enthalpy, so
//! that no heat is made or lost by it.

use super::body::{Body, Wet};
use super::charge::{Change, Charge, Curves, Moved, Parts};
use super::exchange::{Temperatures, Vapour};
use super::flow::{Held, State, at, wet};
use super::{DayError, Lumps};
use crate::fluid::water;
use crate::quantity::si::ThermodynamicTemperature;
use crate::quantity::{AbsolutePressure, Measured};
use crate::scribe::Silent;

/// Less coolant than this (kg) is not moved.
const NOTHING: f64 = 1e-12;

/// Everything that changes in a day.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Now {
    pub t: f64,
    pub y: State,
    pub held: Held,
    pub charge: Charge,
    /// The temperatures of the last settling.
    pub told: Temperatures,
    /// Where the coolant of the engine boils at the cap's limit, K.
    pub hold: f64,
    /// Density of vapour there, kg/m³.
    vapour_density: f64,
    /// The limit `hold` belongs to, Pa.
    limit: f64,
    /// Boiling point at the system's pressure less the hottest passage, K.
    pub margin: f64,
    /// How much hotter the metal was than the coolant when the engine stopped, K; `None` while it turns.
    pub at_stop: Option<f64>,
    /// Vapour made and blown out so far, kg.
    pub made: f64,
    pub blown: f64,
}

impl Now {
    /// Everything at one temperature (K).
    pub fn begin(body: &Body<'_>, temperature: f64) -> Result<Self, DayError> {
        let mut charge = body.vessel.begin(temperature)?;
        // What passed the cap while it came to stand so is over when the day begins.
        let Moved { void, gas_boils, .. } = charge.last;
        charge.last = Moved { void, gas_boils, ..Moved::default() };
        let mut y = [0.0; super::flow::N];
        for value in y.iter_mut().take(at::SPREAD) {
            *value = temperature;
        }
        let told = Temperatures { engine: temperature, radiator: temperature, hoses: temperature, air: temperature };
        let coolant = body.shared(&[temperature; 3], &charge, &Vapour::default())?;
        let held = Held { coolant, opening: body.opening(temperature, 0.0), boils: false, latent: 1.0 };
        let mut now = Self {
            t: 0.0,
            y,
            held,
            charge,
            told,
            hold: 0.0,
            vapour_density: 0.0,
            limit: f64::NAN,
            margin: 0.0,
            at_stop: None,
            made: 0.0,
            blown: 0.0,
        };
        now.boiling_point(body)?;
        now.margin(body)?;
        Ok(now)
    }

    /// Where it boils when the cap lets go; the tank's gas adds its pressure.
    fn boiling_point(&mut self, body: &Body<'_>) -> Result<(), DayError> {
        let limit = body.vessel.ambient() + body.lumps.behind_cap.opening.base() + self.charge.tank_gauge;
        if limit == self.limit {
            return Ok(());
        }
        self.limit = limit;
        self.hold = body.vessel.curves().boils_at(limit)?;
        let latent = Curves::latent_heat(self.hold)?;
        // The vapour there is keeps its heat.
        self.y[at::VAPOUR] *= self.held.latent / latent;
        self.held.latent = latent;
        // Vapour is water's, at the temperature of a mix that boils above water: thinner by as much.
        let pressure = AbsolutePressure::from_base(limit);
        let saturated = water::saturation_temperature(pressure, &mut Silent)?;
        let density = water::steam_density(saturated, &mut Silent)?.base();
        self.vapour_density = density * saturated.base() / self.hold;
        Ok(())
    }

    fn margin(&mut self, body: &Body<'_>) -> Result<(), DayError> {
        let boils = body.vessel.curves().boils_at(self.charge.pressure)?;
        // A passage is hotter for the heat that goes through its wall; after a stop it fades with the wall's own excess.
        let share = match self.at_stop {
            Some(at_stop) if at_stop > 0.0 => ((self.y[at::METAL] - self.y[at::ENGINE]) / at_stop).clamp(0.0, 1.0),
            Some(_) => 0.0,
            None => 1.0,
        };
        self.margin = boils - self.y[at::ENGINE] - share * body.lumps.local_excess.base();
        Ok(())
    }

    /// Room of a mass of vapour, m³.
    pub fn room(&self, mass: f64) -> f64 {
        mass / self.vapour_density
    }

    /// After a step that ended at `t` with `y`, in air of a temperature (K), the pump turning or not.
    pub fn settle(&mut self, body: &Body<'_>, t: f64, y: &State, air: f64, turns: bool) -> Result<(), DayError> {
        let lasts = t - self.t;
        let vapour_before = self.y[at::VAPOUR];
        self.t = t;
        self.y = *y;
        self.held.opening = body.opening(self.y[at::WAX], self.held.opening);
        self.hold_at_boiling(body);
        let most = self.most_vapour(body.lumps, body.engine_volume);
        let mass = self.y[at::VAPOUR].min(most);
        let blown = self.y[at::VAPOUR] - mass;
        let vapour = Vapour {
            mass,
            volume: self.room(mass),
            blown,
            latent: self.held.latent,
            temperature: body.told(self.y[at::ENGINE]),
            most: Some(self.room(most) + body.lumps.system.trapped_gas.likely.base()),
        };
        let radiator = body.told(self.y[at::RADIATOR] + self.y[at::SPREAD]);
        let engine = body.told(self.y[at::ENGINE]);
        self.told = Temperatures { engine, radiator, hoses: self.y[at::HOSES], air };
        // The filler neck stands at the hot side of the radiator; that of a header tank with the hoses.
        let neck = match (body.is_header, turns && self.held.opening > 0.0) {
            (true, _) => Wet::Hoses,
            (false, true) => Wet::Engine,
            (false, false) => Wet::Radiator,
        };
        let change = Change {
            parts: Parts::Bodies(self.told),
            neck: body.told(wet(&self.y)[neck as usize]),
            air,
            lasts,
            vapour,
        };
        let moved = body.vessel.step(&mut self.charge, &change)?;
        // Under a sealed lid vapour that finds nothing to condense it stays.
        self.y[at::VAPOUR] -= moved.blown;
        self.held.coolant[Wet::Engine as usize] -= moved.blown;
        self.blown += moved.blown;
        self.made += (self.y[at::VAPOUR] + moved.blown - vapour_before).max(0.0);
        self.held.coolant[neck as usize] -= moved.out;
        let back = if body.is_header { Wet::Hoses } else { Wet::Radiator };
        self.mix(body, back, moved.back, moved.back_energy);
        self.share_out(body)?;
        self.boiling_point(body)?;
        self.hold_at_boiling(body);
        self.margin(body)
    }

    fn most_vapour(&self, lumps: &Lumps, engine_volume: f64) -> f64 {
        lumps.surge.base() * engine_volume * self.vapour_density
    }

    /// Coolant that boils stands at its boiling point: what it is hotter becomes vapour, what it is cooler takes vapour back,
    /// and without vapour it no longer boils.
    fn hold_at_boiling(&mut self, body: &Body<'_>) {
        if !self.held.boils && self.y[at::ENGINE] < self.hold {
            return;
        }
        let mass = self.held.coolant[Wet::Engine as usize];
        let over = mass * (body.enthalpy(self.y[at::ENGINE]) - body.enthalpy(self.hold));
        let vapour = self.y[at::VAPOUR] + over / self.held.latent;
        if vapour > 0.0 {
            self.held.boils = true;
            self.y[at::VAPOUR] = vapour;
            self.y[at::ENGINE] = self.hold;
        } else {
            self.held.boils = false;
            self.y[at::VAPOUR] = 0.0;
            let enthalpy = body.enthalpy(self.hold) + vapour * self.held.latent / mass;
            self.y[at::ENGINE] = self.of_enthalpy(body, enthalpy, self.hold);
        }
    }

    /// The temperature (K) of an enthalpy, by Newton's way from one nearby.
    fn of_enthalpy(&self, body: &Body<'_>, enthalpy: f64, near: f64) -> f64 {
        (0..3).fold(near, |t, _| t - (body.enthalpy(t) - enthalpy) / body.specific_heat(t))
    }

    /// A body takes coolant (kg) with its enthalpy (J).
    fn mix(&mut self, body: &Body<'_>, wet: Wet, mass: f64, energy: f64) {
        if mass <= 0.0 {
            return;
        }
        let (slot, metal) = match wet {
            Wet::Engine => (at::ENGINE, 0.0),
            Wet::Radiator => (at::RADIATOR, body.lumps.radiator_metal.base()),
            Wet::Hoses => (at::HOSES, 0.0),
        };
        let had = self.held.coolant[wet as usize];
        let before = self.y[slot];
        let total = had + mass;
        let content = had * body.enthalpy(before) + energy;
        let new = (0..3).fold(before, |t, _| {
            let off = total * body.enthalpy(t) - content + metal * (t - before);
            t - off / (total * body.specific_heat(t) + metal)
        });
        self.y[slot] = new;
        self.held.coolant[wet as usize] = total;
    }

    /// Coolant changes places until every part is as full as it should be.
    fn share_out(&mut self, body: &Body<'_>) -> Result<(), DayError> {
        let mass = self.y[at::VAPOUR];
        let vapour = Vapour { mass, volume: self.room(mass), ..Vapour::default() };
        let temperatures = [self.told.engine, self.told.radiator, self.told.hoses];
        let wanted = body.shared(&temperatures, &self.charge, &vapour)?;
        let (mut gone, mut energy) = (0.0, 0.0);
        let now = wet(&self.y);
        for i in 0..wanted.len() {
            let gives = self.held.coolant[i] - wanted[i];
            if gives > 0.0 {
                gone += gives;
                energy += gives * body.enthalpy(now[i]);
                self.held.coolant[i] = wanted[i];
            }
        }
        if gone <= NOTHING {
            return Ok(());
        }
        let enthalpy = energy / gone;
        for wet in Wet::ALL {
            let takes = wanted[wet as usize] - self.held.coolant[wet as usize];
            if takes > 0.0 {
                self.mix(body, wet, takes, takes * enthalpy);
                self.held.coolant[wet as usize] = wanted[wet as usize];
            }
        }
        Ok(())
    }

    /// Heat of everything above 0 K of the metals and above the lowest temperature told of the coolant, J.
    pub fn energy(&self, body: &Body<'_>) -> f64 {
        let lumps = body.lumps;
        let metals = lumps.hot_metal.base() * self.y[at::METAL]
            + lumps.block.base() * self.y[at::BLOCK]
            + lumps.oil.base() * self.y[at::OIL]
            + lumps.radiator_metal.base() * self.y[at::RADIATOR];
        let coolant: f64 = self.held.coolant.iter().zip(wet(&self.y)).map(|(mass, t)| mass * body.enthalpy(t)).sum();
        metals + coolant + self.y[at::VAPOUR] * self.held.latent + self.charge.tank_energy
    }

    /// Coolant in system and tank, kg: reckoned anew from temperatures, pressure and room, not from what moved.
    pub fn coolant(&self, body: &Body<'_>) -> Result<f64, DayError> {
        let system = &body.lumps.system;
        let density = |t: f64| -> Result<f64, DayError> {
            Ok(system.mix.density(ThermodynamicTemperature::from_base(t), &mut Silent)?.base())
        };
        let swollen = 1.0 + system.swell.likely.base() * (self.charge.pressure - body.vessel.ambient()).max(0.0);
        let temperatures = body.of_parts(&[self.told.engine, self.told.radiator, self.told.hoses]);
        let mut sum = 0.0;
        for (region, &t) in system.circuit.regions.iter().zip(&temperatures) {
            let grown = 1.0 + 3.0 * region.expansion.likely.base() * (t - system.fill_temperature.base());
            let room = region.volume.likely.base() * system.circuit.scale.likely.base() * grown;
            let swollen = if region.material.swells() { swollen } else { 1.0 };
            let gas = if region.name == system.gas_in { self.charge.gas_volume } else { 0.0 };
            sum += density(t)? * (room * swollen - gas);
        }
        // As the charge knows it: what the engine's heat has since made or taken back has moved nothing yet.
        let vapour = self.charge.vapour_mass;
        let aside =
            if self.charge.vapour_volume > 0.0 { density(self.told.engine)? * self.charge.vapour_volume } else { 0.0 };
        Ok(sum + vapour - aside + self.charge.tank_mass)
    }
}
