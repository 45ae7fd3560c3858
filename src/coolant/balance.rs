//! The mass balance in plain numbers: densities once for each set of temperatures, then arithmetic over the pressure.
//! Inside: kg, m³, Pa, K.

use super::volume::PART_VOLUME;
use super::{CoolantError, FilledSystem, SystemState};
use crate::fluid::{Base, Mix};
use crate::note::{Note, Weight};
use crate::numeric::bracketed_root;
use crate::quantity::si::{Mass, Ratio, TemperatureCoefficient, ThermodynamicTemperature, Volume};
use crate::quantity::{AbsolutePressure, Amount, Kind, Measured, Range, UnitSystem};
use crate::scribe::{Scribe, Silent, Step};
use crate::source::coolant::{GAS_LAW, MASS_BALANCE};

const AMBIENT: Range = Range::new(
    "ambient pressure",
    Kind::AbsolutePressure,
    40e3,
    110e3,
    "about 101 kPa at sea level and 70 kPa at 3000 m, absolute",
);
const LIMIT: Range = Range::new(
    "pressure at which the cap opens",
    Kind::AbsolutePressure,
    40e3,
    5e6,
    "the ambient plus the cap's opening pressure, absolute",
);
pub(super) const GAS: Range =
    Range::new("gas left in the system", Kind::Volume, 0.0, 0.05, "write 0 to 0.5 L, or the cushion");
pub(super) const SWELL: Range =
    Range::new("swell of the hoses", Kind::Swell, 0.0, 2e-6, "rubber hose swells by 1 to 6 % per 100 kPa");
pub(super) const EXPANSION: Range = Range::new(
    "thermal expansion of a part",
    Kind::ThermalExpansion,
    0.0,
    1e-4,
    "metals lie between 10 and 25 µm/(m·K)",
);
const SCALE: Range = Range::new("scale of the fill", Kind::Number, 0.1, 10.0, "the fill against the sum of its parts");
/// The balance must close at least so well.
const CLOSURE: f64 = 1e-8;

/// What the system holds: coolant in kg, and gas as (p − p_bub)·V/T in J/K.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Charge {
    pub mass: f64,
    pub gas: f64,
}

/// The inputs of a balance after one of them has been moved.
#[derive(Clone, Debug)]
pub(super) struct Twist {
    pub mix: Mix,
    /// Added to every hot temperature, K.
    pub hotter: f64,
    /// Growth of the coolant as a share of what its density says.
    pub growth: f64,
    /// Further growth above 100 °C, as a share of that growth.
    pub above_100: f64,
    /// m³ at fill.
    pub gas: f64,
    /// 1/Pa.
    pub swell: f64,
    /// m³ of each part.
    pub volumes: Vec<f64>,
    /// 1/K of each part.
    pub expansions: Vec<f64>,
}

impl Twist {
    /// Everything at its likely value.
    pub fn none(system: &FilledSystem) -> Self {
        let scale = system.circuit.scale.likely.base();
        let regions = &system.circuit.regions;
        Self {
            mix: system.mix,
            hotter: 0.0,
            growth: 1.0,
            above_100: 0.0,
            gas: system.trapped_gas.likely.base(),
            swell: system.swell.likely.base(),
            volumes: regions.iter().map(|region| region.volume.likely.base() * scale).collect(),
            expansions: regions.iter().map(|region| region.expansion.likely.base()).collect(),
        }
    }

    /// Density (kg/m³) at a temperature, seen from the fill temperature's density.
    fn density(&self, cold: f64, t: ThermodynamicTemperature, scribe: &mut impl Scribe) -> Result<f64, CoolantError> {
        let density = self.mix.density(t, scribe)?.base();
        if self.growth == 1.0 && self.above_100 == 0.0 {
            return Ok(density);
        }
        let boundary = ThermodynamicTemperature::from_base(373.15);
        let mut growth = cold / density - 1.0;
        if self.above_100 != 0.0 && t.base() > boundary.base() && self.mix.base() == Base::PropyleneGlycol {
            let at_100 = self.mix.density(boundary, &mut Silent)?.base();
            growth += self.above_100 * (cold / density - cold / at_100);
        }
        Ok(cold / (1.0 + self.growth * growth))
    }
}

struct Piece {
    name: String,
    /// Without pressure, at temperature, m³.
    volume: f64,
    swells: bool,
    density: f64,
    temperature: f64,
    bubble: f64,
}

/// A filled system at one set of temperatures.
pub(super) struct Balance {
    pieces: Vec<Piece>,
    cold_volume: f64,
    cold_density: f64,
    ambient: f64,
    swell: f64,
    gas_temperature: f64,
    gas_density: f64,
    gas_bubble: f64,
    pub filled: Charge,
}

impl Balance {
    pub fn new(
        system: &FilledSystem,
        temperatures: &[ThermodynamicTemperature],
        twist: &Twist,
        scribe: &mut impl Scribe,
    ) -> Result<Self, CoolantError> {
        let regions = &system.circuit.regions;
        if regions.is_empty() {
            return Err(CoolantError::NoRegions);
        }
        if temperatures.len() != regions.len() {
            return Err(CoolantError::TemperatureCount { given: temperatures.len(), regions: regions.len() });
        }
        SCALE.check(system.circuit.scale.likely)?;
        let ambient = AMBIENT.check(system.ambient)?.base();
        let swell = SWELL.check(crate::quantity::Swell::from_base(twist.swell))?.base();
        let gas = GAS.check(Volume::from_base(twist.gas))?.base();
        let cold = system.fill_temperature;
        let cold_density = twist.mix.density(cold, scribe)?.base();
        let cold_bubble = twist.mix.vapour_pressure(cold, &mut Silent)?.base();
        if cold_bubble >= ambient {
            return Err(CoolantError::BoilsWhenFilled { temperature: cold.base(), ambient });
        }
        let mut pieces = Vec::with_capacity(regions.len());
        let mut cold_volume = 0.0;
        for (((region, &temperature), &volume), &expansion) in
            regions.iter().zip(temperatures).zip(&twist.volumes).zip(&twist.expansions)
        {
            let volume = PART_VOLUME.check(Volume::from_base(volume))?.base();
            let expansion = EXPANSION.check(TemperatureCoefficient::from_base(expansion))?.base();
            let at = ThermodynamicTemperature::from_base(temperature.base() + twist.hotter);
            let density = twist.density(cold_density, at, scribe)?;
            let bubble = twist.mix.vapour_pressure(at, &mut Silent)?.base();
            cold_volume += volume;
            pieces.push(Piece {
                name: region.name.clone(),
                volume: volume * (1.0 + 3.0 * expansion * (at.base() - cold.base())),
                swells: region.material.swells(),
                density,
                temperature: at.base(),
                bubble,
            });
        }
        if gas > 0.5 * cold_volume {
            return Err(CoolantError::TooMuchGas { gas, total: cold_volume });
        }
        let Some(place) = pieces.iter().find(|piece| piece.name == system.gas_in) else {
            let known = regions.iter().map(|region| region.name.as_str()).collect::<Vec<_>>().join(", ");
            return Err(CoolantError::UnknownRegion { name: system.gas_in.clone(), known });
        };
        let filled =
            Charge { mass: cold_density * (cold_volume - gas), gas: (ambient - cold_bubble) * gas / cold.base() };
        scribe.step(|| {
            Step::new("coolant in the cold system", "m₀", "m₀ = ρ(t₀)(Σ Vᵢ − V_gas,₀)", &MASS_BALANCE)
                .with_amount("ρ(t₀)", Amount::new(cold_density, Kind::Density))
                .with_amount("Σ Vᵢ", Amount::new(cold_volume, Kind::Volume))
                .with_amount("V_gas,₀", Amount::new(gas, Kind::Volume))
                .gives(Mass::from_base(filled.mass))
        });
        Ok(Self {
            gas_temperature: place.temperature,
            gas_density: place.density,
            gas_bubble: place.bubble,
            pieces,
            cold_volume,
            cold_density,
            ambient,
            swell,
            filled,
        })
    }

    /// The hollow of the whole system at a pressure, m³.
    pub fn cavity(&self, p: f64) -> f64 {
        self.pieces.iter().map(|piece| piece.volume * self.swollen(piece, p)).sum()
    }

    /// Coolant (kg) that fills the whole hollow at a pressure, without gas.
    pub fn brim(&self, p: f64) -> f64 {
        self.pieces.iter().map(|piece| piece.density * piece.volume * self.swollen(piece, p)).sum()
    }

    /// Hoses swell above the ambient; below it they are counted as holding their shape.
    fn swollen(&self, piece: &Piece, p: f64) -> f64 {
        if piece.swells { 1.0 + self.swell * (p - self.ambient).max(0.0) } else { 1.0 }
    }

    /// Volume of the gas at a pressure, m³; at or below the bubble pressure vapour fills any room.
    pub fn gas_volume(&self, gas: f64, p: f64) -> f64 {
        if gas <= 0.0 {
            0.0
        } else if p <= self.gas_bubble {
            f64::INFINITY
        } else {
            gas * self.gas_temperature / (p - self.gas_bubble)
        }
    }

    /// Coolant (kg) that fits beside the gas at a pressure.
    pub fn fits(&self, gas: f64, p: f64) -> f64 {
        self.brim(p) - self.gas_volume(gas, p).min(self.cavity(p)) * self.gas_density
    }

    /// Gas (J/K) that fills a volume at a pressure here.
    pub fn gas_filling(&self, volume: f64, p: f64) -> f64 {
        (p - self.gas_bubble).max(0.0) * volume / self.gas_temperature
    }

    /// Density of the coolant where the gas sits, kg/m³.
    pub const fn gas_density(&self) -> f64 {
        self.gas_density
    }

    /// Density of the coolant when filled, kg/m³.
    pub const fn cold_density(&self) -> f64 {
        self.cold_density
    }

    /// Volume of the cold system, m³.
    pub const fn cold_volume(&self) -> f64 {
        self.cold_volume
    }

    /// Bubble pressure where the gas sits, Pa.
    pub const fn gas_bubble(&self) -> f64 {
        self.gas_bubble
    }

    /// Fails when some part boils even at the limit.
    pub fn refuse_boiling(&self, limit: f64) -> Result<(), CoolantError> {
        match self.pieces.iter().filter(|piece| piece.bubble > limit).max_by(|a, b| a.bubble.total_cmp(&b.bubble)) {
            None => Ok(()),
            Some(piece) => Err(CoolantError::Boils {
                region: piece.name.clone(),
                temperature: piece.temperature,
                boils_at: piece.bubble,
                allowed: limit,
            }),
        }
    }

    /// Where the system settles; from its fill when no other charge is given.
    pub fn settle(
        &self,
        charge: Option<Charge>,
        limit: f64,
        scribe: &mut impl Scribe,
    ) -> Result<SystemState, CoolantError> {
        let limit = LIMIT.check(AbsolutePressure::from_base(limit))?.base();
        self.refuse_boiling(limit)?;
        let charge = charge.unwrap_or(self.filled);
        let over = |p: f64| self.fits(charge.gas, p) - charge.mass;
        let mut notes = Vec::new();
        let (pressure, expelled, void) = if over(limit) < 0.0 {
            (limit, -over(limit), 0.0)
        } else if over(self.ambient).abs() <= 1e-12 * charge.mass && self.gas_bubble < self.ambient {
            (self.ambient, 0.0, 0.0)
        } else {
            self.shut(&charge, limit, over, &mut notes)?
        };
        let gas_volume = self.gas_volume(charge.gas, pressure).min(self.cavity(pressure)).max(void);
        let held = self.brim(pressure) - gas_volume * self.gas_density;
        let closure = (held + expelled - charge.mass) / charge.mass;
        // A void of vapour has been given exactly the room left over, so the balance closes there too.
        if !closure.is_finite() || closure.abs() > CLOSURE {
            return Err(CoolantError::NotFinite { what: "the balance of coolant mass" });
        }
        self.note_boiling(pressure, &mut notes);
        self.write(&charge, pressure, gas_volume, expelled, scribe);
        let absolute = AbsolutePressure::from_base(pressure);
        Ok(SystemState {
            pressure: absolute,
            gauge: absolute.to_gauge(AbsolutePressure::from_base(self.ambient)),
            cap_open: expelled > 0.0,
            expelled: Mass::from_base(expelled),
            held: Mass::from_base(held),
            cold_mass: Mass::from_base(charge.mass),
            gas_volume: Volume::from_base(gas_volume),
            closure: Ratio::from_base(closure),
            notes,
        })
    }

    /// The pressure of a shut system: between the pressure where gas would fill everything and the cap's limit.
    fn shut(
        &self,
        charge: &Charge,
        limit: f64,
        over: impl Fn(f64) -> f64,
        notes: &mut Vec<Note>,
    ) -> Result<(f64, f64, f64), CoolantError> {
        let floor = if charge.gas > 0.0 {
            self.gas_bubble + charge.gas * self.gas_temperature / self.cavity(self.ambient)
        } else {
            self.gas_bubble
        };
        let room = over(floor);
        if room >= 0.0 {
            notes.push(Note::new(
                "vapour-void",
                Weight::Weak,
                "the coolant does not fill the system and there is no gas to fill the rest: vapour does, and the \
                 pressure is the coolant's vapour pressure",
            ));
            return Ok((floor, 0.0, room / self.gas_density));
        }
        let root = bracketed_root(over, floor, limit, 1e-6)
            .map_err(CoolantError::unsolved("the pressure of the shut system"))?;
        Ok((root.at, 0.0, 0.0))
    }

    fn note_boiling(&self, pressure: f64, notes: &mut Vec<Note>) {
        // A void of vapour settles at the bubble pressure of its own place, which is no boiling elsewhere.
        let boiling = self.pieces.iter().filter(|piece| piece.bubble > pressure * (1.0 + 1e-9));
        for piece in boiling {
            let kelvin = Amount::new(piece.temperature, Kind::Temperature).show(UnitSystem::Si);
            notes.push(Note::new(
                "boils-below-limit",
                Weight::Danger,
                format!(
                    "the coolant in {} at {kelvin} boils at the pressure found: steam forms there, the pressure rises \
                     above the figure shown and more coolant is pushed out",
                    piece.name
                ),
            ));
        }
    }

    fn write(&self, charge: &Charge, pressure: f64, gas_volume: f64, expelled: f64, scribe: &mut impl Scribe) {
        let absolute = |p: f64| Amount::new(p, Kind::AbsolutePressure);
        scribe.step(|| {
            let equation = "(p − p_bub(t_gas)) V_gas/T_gas = (p₀ − p_bub(t₀)) V_gas,₀/T₀";
            Step::new("gas in the warm system", "V_gas", equation, &GAS_LAW)
                .with_amount("p", absolute(pressure))
                .with_amount("p_bub(t_gas)", absolute(self.gas_bubble))
                .with_amount("T_gas", Amount::new(self.gas_temperature, Kind::Temperature))
                .gives_amount(Amount::new(gas_volume, Kind::Volume))
        });
        for piece in &self.pieces {
            scribe.step(|| {
                let equation = "m_i = ρ(t_i) V_i (1 + 3 α_i (t_i − t₀))(1 + s_i p_g)";
                Step::new("coolant that fills one part when warm", "m_i", equation, &MASS_BALANCE)
                    .with_amount("t_i", Amount::new(piece.temperature, Kind::Temperature))
                    .with_amount("ρ(t_i)", Amount::new(piece.density, Kind::Density))
                    .with_amount("V_i warm", Amount::new(piece.volume, Kind::Volume))
                    .with_amount("p_g", Amount::new(pressure - self.ambient, Kind::GaugePressure))
                    .gives_amount(Amount::new(piece.density * piece.volume * self.swollen(piece, pressure), Kind::Mass))
            });
        }
        scribe.step(|| {
            let equation = "m_out = max(0, m₀ − (Σ m_i − ρ(t_gas) V_gas))";
            Step::new("coolant let out by the cap", "m_out", equation, &MASS_BALANCE)
                .with_amount("m₀", Amount::new(charge.mass, Kind::Mass))
                .with_amount("Σ m_i", Amount::new(self.brim(pressure), Kind::Mass))
                .with_amount("ρ(t_gas)", Amount::new(self.gas_density, Kind::Density))
                .with_amount("V_gas", Amount::new(gas_volume, Kind::Volume))
                .with_amount("p", absolute(pressure))
                .gives_amount(Amount::new(expelled, Kind::SmallMass))
        });
    }
}
