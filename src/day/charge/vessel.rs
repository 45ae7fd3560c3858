//! What does not change in a day, and the state it begins with.

use super::{Charge, Curves, Hollow, Moved, Parts};
use crate::coolant::{CapSits, CoolantError, FilledSystem, Tank, defaults};
use crate::day::exchange::Vapour;
use crate::day::{BehindCap, DayError, Joined};
use crate::quantity::si::{Length, Volume};
use crate::quantity::{AbsolutePressure, Kind, Measured, Range};
use crate::scribe::Silent;

const OPENING: Range = Range::new(
    "pressure at which the cap opens",
    Kind::GaugePressure,
    0.0,
    500e3,
    "read it from the cap; 48 to 140 kPa are usual, and an open system has 0",
);
const DRAWS: Range = Range::new(
    "depression at which the cap lets something in",
    Kind::PressureDifference,
    0.0,
    100e3,
    "1 to 10 kPa for the valve, and 1 kPa for each 100 mm of lift",
);
const TANK_TO_AIR: Range = Range::new(
    "heat from the tank to the air around it",
    Kind::HeatConductance,
    0.0,
    1e4,
    "1 to 5 W/K for a tank of a few litres",
);

/// A part of the circuit.
#[derive(Clone, Copy, Debug, PartialEq)]
struct Part {
    /// At the fill temperature.
    volume: f64,
    /// Growth of its hollow with heat, 1/K.
    growth: f64,
    swells: bool,
    body: Body,
}

/// The body that gives a part its temperature.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Body {
    Engine,
    Radiator,
    Hoses,
}

impl Body {
    /// Block and heads are the engine, what has no body of its own goes with heater and hoses, a header tank too.
    fn of(part: &str) -> Self {
        match part {
            "engine" | "block" | "heads" => Self::Engine,
            "radiator" => Self::Radiator,
            _ => Self::Hoses,
        }
    }
}

/// How the tank is joined.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Way {
    /// What leaves comes back while the tube's end is covered.
    Return,
    /// Nothing comes back.
    Catch,
    /// The tank is part of the system.
    Header(CapSits),
}

/// Circuit, cap and tank, in plain numbers.
#[derive(Clone, Debug)]
pub(crate) struct Vessel {
    pub(super) curves: Curves,
    parts: Vec<Part>,
    gas_in: usize,
    pub(super) ambient: f64,
    fill: f64,
    swell: f64,
    /// Across the cap when it lets out.
    pub(super) opening: f64,
    /// Across the cap when it lets coolant in.
    pub(super) draws: f64,
    /// Across the cap when it lets air in.
    pub(super) draws_air: f64,
    /// Whether the return needs more than hoses bear.
    pub(super) blocked: bool,
    pub(super) way: Way,
    pub(super) sealed: bool,
    pub(super) tank: Tank,
    /// Of the tank.
    pub(super) capacity: f64,
    /// Below the tube's end.
    pub(super) out_of_reach: f64,
    pub(super) tank_to_air: f64,
    /// Boiling point under the ambient.
    pub(super) boils_open: f64,
    /// Coolant in the system as filled.
    pub(super) filled_mass: f64,
    /// Coolant in the tank as filled, m³.
    filled_tank: f64,
    /// Gas in the system as filled.
    filled_gas: f64,
}

impl Vessel {
    /// From a system and what stands behind its cap.
    ///
    /// The depression that lets air in is the cap's own vacuum valve where the tube is uncovered, for there is nothing to
    /// lift; for a header tank and a can without return it is `draws`.
    ///
    /// # Errors
    /// A figure out of range, a mix that is frozen or boils when filled, a tube's end outside the tank, or more coolant in
    /// the tank than it holds.
    pub fn new(system: &FilledSystem, behind: &BehindCap) -> Result<Self, DayError> {
        let ambient = system.ambient.base();
        let opening = OPENING.check(behind.opening)?.base();
        let draws = DRAWS.check(behind.draws)?.base();
        let tank_to_air = TANK_TO_AIR.check(behind.tank_to_air)?.base();
        let curves = Curves::new(&system.mix)?;
        // Checks every figure of the system, and gives the coolant in it.
        let cold = vec![system.fill_temperature; system.circuit.regions.len()];
        let limit = AbsolutePressure::from_base(ambient + opening.max(1e3));
        let filled_mass = system.settle(&cold, limit, &mut Silent)?.cold_mass.base();
        let scale = system.circuit.scale.likely.base();
        let regions = &system.circuit.regions;
        let gas_in = regions.iter().position(|region| region.name == system.gas_in).ok_or(CoolantError::NoRegions)?;
        let parts = regions.iter().map(|region| Part {
            volume: region.volume.likely.base() * scale,
            growth: 3.0 * region.expansion.likely.base(),
            swells: region.material.swells(),
            body: Body::of(&region.name),
        });
        let (way, sealed) = match behind.kind {
            Joined::Recovery { sealed } => (Way::Return, sealed),
            Joined::CatchOnly { sealed } => (Way::Catch, sealed),
            Joined::Header(cap) => (Way::Header(cap), false),
        };
        let draws_air = if way == Way::Return { DRAWS.check(behind.cap.vacuum_opening.likely)?.base() } else { draws };
        let capacity = behind.tank.capacity().base();
        let filled_tank = if let Way::Header(_) = way { 0.0 } else { within(&behind.tank, behind.filled)? };
        let out_of_reach = if way == Way::Return { below_the_end(&behind.tank, behind.tube_end)? } else { 0.0 };
        let fill = system.fill_temperature.base();
        let gas = system.trapped_gas.likely.base();
        let filled_gas = (ambient - curves.bubble(fill)?) * gas / fill;
        let blocked = way == Way::Return && draws > defaults::suction_failure().likely().base();
        Ok(Self {
            boils_open: curves.boils_at(ambient)?,
            parts: parts.collect(),
            gas_in,
            ambient,
            fill,
            swell: system.swell.likely.base(),
            opening,
            draws,
            draws_air,
            blocked,
            way,
            sealed,
            tank: behind.tank.clone(),
            capacity,
            out_of_reach,
            tank_to_air,
            filled_mass,
            filled_tank,
            filled_gas,
            curves,
        })
    }

    /// The coolant's properties.
    pub const fn curves(&self) -> &Curves {
        &self.curves
    }

    /// Ambient pressure, Pa.
    pub const fn ambient(&self) -> f64 {
        self.ambient
    }

    /// Everything as it was filled, at the fill temperature and the ambient.
    pub fn fill(&self) -> Result<Charge, DayError> {
        let density = self.curves.density(self.fill)?;
        let tank_mass = self.filled_tank * density;
        let tank_gas = if self.sealed {
            (self.ambient - self.curves.bubble(self.fill)?) * (self.capacity - self.filled_tank) / self.fill
        } else {
            0.0
        };
        let hollow = self.hollow(&Parts::Alike(self.fill), &Vapour::default())?;
        Ok(Charge {
            mass: self.filled_mass,
            gas: self.filled_gas,
            tank_mass,
            tank_energy: tank_mass * self.curves.enthalpy(self.fill)?,
            tank_temperature: self.fill,
            tank_gas,
            lost: 0.0,
            lost_energy: 0.0,
            tank_heat: 0.0,
            air_from_outside: 0.0,
            pressure: self.ambient,
            tank_gauge: 0.0,
            gas_volume: hollow.stands(self.filled_mass, self.filled_gas, self.ambient).gas,
            vapour_mass: 0.0,
            vapour_volume: 0.0,
            gas_temperature: self.fill,
            gas_place: hollow.gas_place_at(self.ambient),
            last: Moved::default(),
        })
    }

    /// The state at the beginning of a day: filled and closed, then everything at one temperature.
    pub fn begin(&self, temperature: f64) -> Result<Charge, DayError> {
        let mut charge = self.fill()?;
        charge.tank_temperature = temperature;
        charge.tank_energy = charge.tank_mass * self.curves.enthalpy(temperature)?;
        let change = super::Change {
            parts: Parts::Alike(temperature),
            neck: temperature,
            air: temperature,
            lasts: 0.0,
            vapour: Vapour::default(),
        };
        self.step(&mut charge, &change)?;
        Ok(charge)
    }

    /// The system at one temperature for each part.
    pub fn hollow(&self, parts: &Parts, vapour: &Vapour) -> Result<Hollow, DayError> {
        let mut hollow = Hollow { ambient: self.ambient, ..Hollow::default() };
        let mut hottest = f64::NEG_INFINITY;
        for (number, part) in self.parts.iter().enumerate() {
            let temperature = match parts {
                Parts::Alike(temperature) => *temperature,
                Parts::Bodies(bodies) => match part.body {
                    Body::Engine => bodies.engine,
                    Body::Radiator => bodies.radiator,
                    Body::Hoses => bodies.hoses,
                },
            };
            hottest = hottest.max(temperature);
            let density = self.curves.density(temperature)?;
            let room = part.volume * (1.0 + part.growth * (temperature - self.fill));
            hollow.brim += density * room;
            hollow.room += room;
            if part.swells {
                hollow.swell += density * room * self.swell;
            }
            if number == self.gas_in {
                hollow.gas_place = room;
                hollow.gas_place_swell = if part.swells { room * self.swell } else { 0.0 };
                hollow.gas_temperature = temperature;
                hollow.gas_density = density;
                hollow.gas_bubble = self.curves.bubble(temperature)?;
            }
        }
        if hottest > f64::NEG_INFINITY {
            hollow.hottest_bubble = self.curves.bubble(hottest)?;
        }
        if let Some(most) = vapour.most
            && !self.is_header()
        {
            hollow.gas_place = hollow.gas_place.min((most - vapour.volume).max(0.0));
        }
        if vapour.volume > 0.0 {
            hollow.pushed_aside = vapour.volume * self.curves.density(vapour.temperature)?;
        }
        Ok(hollow)
    }
}

fn within(tank: &Tank, filled: Volume) -> Result<f64, DayError> {
    let range = Range::new(
        "coolant in the tank when filled",
        Kind::Volume,
        0.0,
        tank.capacity().base(),
        "the liquid must fit in the tank",
    );
    Ok(range.check(filled)?.base())
}

/// The volume below the tube's end; below the first row of a dip table nothing is known, and that row counts.
fn below_the_end(tank: &Tank, end: Length) -> Result<f64, DayError> {
    if end.base() >= 0.0 && end <= tank.lowest() {
        return Ok(tank.lowest_volume().base());
    }
    Ok(tank.volume_at(end, &mut Silent)?.base())
}
