//! The bodies in plain numbers, checked: kg, J, W, K, m³, s.

use super::DayError;
use super::charge::{Charge, Vessel};
use super::exchange::Vapour;
use super::lumps::{Joined, Lumps};
use crate::heat::core::{Coolant, Core, InTube};
use crate::quantity::Measured;
use crate::quantity::si::{Mass, ThermodynamicTemperature};
use crate::scribe::Silent;

/// The least coolant a body must hold, kg; with less its temperature follows too fast to mean anything.
const LEAST: f64 = 0.05;
/// A part is never emptied of liquid by more than this when gas stands in it: it keeps a temperature.
const LEAST_FULL: f64 = 0.05;

/// The bodies that hold coolant.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Wet {
    Engine = 0,
    Radiator = 1,
    Hoses = 2,
}

impl Wet {
    pub const ALL: [Self; 3] = [Self::Engine, Self::Radiator, Self::Hoses];

    pub const fn words(self) -> &'static str {
        match self {
            Self::Engine => "the engine",
            Self::Radiator => "the radiator",
            Self::Hoses => "heater and hoses",
        }
    }

    /// A part of the circuit by its name; what is neither engine nor radiator, a header tank too, goes with the hoses.
    fn of(name: &str) -> Self {
        match name {
            "engine" | "block" | "heads" => Self::Engine,
            "radiator" => Self::Radiator,
            _ => Self::Hoses,
        }
    }
}

/// A part of the circuit.
struct Part {
    wet: Wet,
    /// At the fill temperature.
    volume: f64,
    /// Of its hollow with heat, 1/K.
    growth: f64,
}

/// Everything that does not change in a day.
pub(super) struct Body<'a> {
    pub lumps: &'a Lumps,
    pub vessel: Vessel,
    pub core: Core,
    parts: Vec<Part>,
    gas_in: usize,
    /// Of the filling.
    fill: f64,
    /// The coolant as the radiator sees it at whole kelvins from the lowest; empty when its resistance is always 1.
    seen: Vec<Coolant>,
    /// The temperatures told of the liquid.
    pub low: f64,
    pub high: f64,
    pub is_header: bool,
    /// The engine's coolant when filled, m³ and kg.
    pub engine_volume: f64,
    pub engine_mass: f64,
}

impl<'a> Body<'a> {
    pub fn new(lumps: &'a Lumps) -> Result<Self, DayError> {
        lumps.check()?;
        let system = &lumps.system;
        let vessel = Vessel::new(system, &lumps.behind_cap)?;
        let core = Core::new(&lumps.radiator)?;
        let scale = system.circuit.scale.likely.base();
        let parts: Vec<Part> = system
            .circuit
            .regions
            .iter()
            .map(|region| Part {
                wet: Wet::of(&region.name),
                volume: region.volume.likely.base() * scale,
                growth: 3.0 * region.expansion.likely.base(),
            })
            .collect();
        // The vessel has refused a name that is none of the parts.
        let gas_in = system.circuit.regions.iter().position(|region| region.name == system.gas_in).unwrap_or_default();
        let (low, high) = vessel.curves().ends();
        let seen = seen(lumps, &core, low, high)?;
        let engine = parts.iter().filter(|part| part.wet == Wet::Engine).map(|part| part.volume).sum();
        let density = vessel.curves().density(system.fill_temperature.base())?;
        let body = Self {
            lumps,
            core,
            gas_in,
            fill: system.fill_temperature.base(),
            seen,
            low,
            high,
            is_header: matches!(lumps.behind_cap.kind, Joined::Header(_)),
            engine_volume: engine,
            engine_mass: engine * density,
            parts,
            vessel,
        };
        for wet in Wet::ALL {
            let holds = density * body.parts.iter().filter(|part| part.wet == wet).map(|part| part.volume).sum::<f64>();
            if holds.is_nan() || holds < LEAST {
                let (holds, least) = (Mass::from_base(holds), Mass::from_base(LEAST));
                return Err(DayError::Empty { part: wet.words(), holds, least });
            }
        }
        Ok(body)
    }

    /// A temperature (K) inside what is told of the liquid. A try of the solver may lie outside; a step that ends there is
    /// not passed over.
    pub fn told(&self, temperature: f64) -> f64 {
        temperature.clamp(self.low, self.high)
    }

    /// Specific heat of the liquid, J/(kg·K).
    pub fn specific_heat(&self, temperature: f64) -> f64 {
        self.vessel.curves().specific_heat(self.told(temperature)).unwrap_or(f64::NAN)
    }

    /// Enthalpy of the liquid, J/kg.
    pub fn enthalpy(&self, temperature: f64) -> f64 {
        self.vessel.curves().enthalpy(self.told(temperature)).unwrap_or(f64::NAN)
    }

    /// The coolant as the radiator sees it.
    pub fn coolant(&self, temperature: f64) -> Coolant {
        let inside = self.told(temperature);
        let density = self.vessel.curves().density(inside).unwrap_or(f64::NAN);
        let x = inside - self.low;
        let cell = (x.max(0.0) as usize).min(self.seen.len().saturating_sub(2));
        let (resistance, tube) = match self.seen.get(cell..cell + 2) {
            Some([a, b]) => {
                let between = |a: f64, b: f64| a + (b - a) * (x - cell as f64);
                let tube = a.tube.zip(b.tube).map(|(a, b)| InTube {
                    reynolds_per_flow: between(a.reynolds_per_flow, b.reynolds_per_flow),
                    prandtl: between(a.prandtl, b.prandtl),
                    conductivity: between(a.conductivity, b.conductivity),
                });
                (between(a.resistance, b.resistance), tube)
            }
            _ => (1.0, None),
        };
        Coolant { temperature, density, specific_heat: self.specific_heat(inside), resistance, tube }
    }

    /// The temperature of every part of the circuit.
    pub fn of_parts(&self, wet: &[f64; 3]) -> Vec<f64> {
        self.parts.iter().map(|part| wet[part.wet as usize]).collect()
    }

    /// How the system's coolant is shared out at these temperatures: each part as full as the others, but for the part the
    /// gas stands in and the engine, whose vapour has its own room.
    pub fn shared(&self, wet: &[f64; 3], charge: &Charge, vapour: &Vapour) -> Result<[f64; 3], DayError> {
        let mut full = [0.0; 3];
        for (number, part) in self.parts.iter().enumerate() {
            let temperature = wet[part.wet as usize];
            let room = part.volume * (1.0 + part.growth * (temperature - self.fill));
            let gas = if number == self.gas_in { charge.gas_volume } else { 0.0 };
            let liquid = (room - gas).max(LEAST_FULL * room);
            full[part.wet as usize] += liquid * self.vessel.curves().density(temperature)?;
        }
        let engine = full[Wet::Engine as usize];
        let pushed = vapour.volume * self.vessel.curves().density(wet[Wet::Engine as usize])?;
        full[Wet::Engine as usize] = (engine - pushed).max(LEAST_FULL * engine);
        let scale = (charge.mass - vapour.mass) / full.iter().sum::<f64>();
        let mut shared = full.map(|mass| mass * scale);
        shared[Wet::Engine as usize] += vapour.mass;
        Ok(shared)
    }

    /// How far the thermostat is open when its wax has a temperature (K) and it stood open so far before: it opens along
    /// one line and shuts along another, shifted down by the lag, and does not move between them.
    pub fn opening(&self, wax: f64, before: f64) -> f64 {
        let thermostat = &self.lumps.thermostat;
        let opens = thermostat.opening_base(wax);
        let shuts = thermostat.opening_base(wax + self.lumps.closing_lag.base());
        opens.max(before.min(shuts))
    }
}

fn seen(lumps: &Lumps, core: &Core, low: f64, high: f64) -> Result<Vec<Coolant>, DayError> {
    if lumps.radiator.reference_coolant.is_none() {
        return Ok(Vec::new());
    }
    let count = (high - low).ceil() as usize + 1;
    (0..count)
        .map(|i| {
            // The last one lies beyond the data by less than a kelvin and is read only as the end of a line.
            let at = ThermodynamicTemperature::from_base((low + i as f64).min(high));
            Ok(core.coolant(&lumps.system.mix, at, &mut Silent)?)
        })
        .collect()
}
