//! The filled system when it warms: how high its pressure goes and how much coolant the cap lets out.
//!
//! A balance of mass, not a coefficient times a volume. With every part at its own temperature
//!
//! - cold mass m₀ = ρ(t₀)(Σ Vᵢ − V_gas,₀)
//! - mass that fits m(p) = Σ ρ(tᵢ) Vᵢ (1 + 3 αᵢ (tᵢ − t₀))(1 + sᵢ p_g) − ρ(t_gas) V_gas
//! - gas (p − p_bub(t_gas)) V_gas/T_gas = (p₀ − p_bub(t₀)) V_gas,₀/T₀
//! - expelled max(0, m₀ − m(p_limit)), in the tank divided by ρ(t_tank).

use super::balance::{Balance, Charge, Twist};
use super::{Circuit, CoolantError};
use crate::fluid::Mix;
use crate::note::Note;
use crate::quantity::si::{Mass, Ratio, ThermodynamicTemperature, Volume};
use crate::quantity::{AbsolutePressure, Estimate, GaugePressure, Kind, Measured, Range, Swell};
use crate::scribe::{Scribe, Silent, Step};
use crate::source::coolant::MASS_BALANCE;

/// The most points of a warm-up curve.
const MOST_POINTS: usize = 2000;
const EXPELLED: Range = Range::new("coolant let out", Kind::Mass, 0.0, 250.0, "a system holds 4 to 30 kg");
const SHARE: Range = Range::new("share of the warm-up", Kind::Share, 0.0, 1.0, "from 0 % (filled) to 100 % (hot)");

/// A cooling system as it was filled.
#[derive(Clone, Debug, PartialEq)]
pub struct FilledSystem {
    /// The coolant.
    pub mix: Mix,
    /// The parts, with their hot temperatures. A pressurised header tank is one of them.
    pub circuit: Circuit,
    /// Temperature of everything when filled.
    pub fill_temperature: ThermodynamicTemperature,
    /// The air outside, and the pressure in the system when filled.
    pub ambient: AbsolutePressure,
    /// Gas left in the system when filled, at the ambient: trapped air, or the cushion of a header tank.
    pub trapped_gas: Estimate<Volume>,
    /// The part the gas sits in; it takes that part's temperature.
    pub gas_in: String,
    /// Growth of hose per gauge pressure.
    pub swell: Estimate<Swell>,
}

/// The system at one set of temperatures.
#[derive(Clone, Debug, PartialEq)]
pub struct SystemState {
    /// Pressure in the system.
    pub pressure: AbsolutePressure,
    /// The same above the ambient.
    pub gauge: GaugePressure,
    /// Whether the cap lets coolant out.
    pub cap_open: bool,
    /// Coolant the cap has let out.
    pub expelled: Mass,
    /// Coolant left inside.
    pub held: Mass,
    /// Coolant inside when filled.
    pub cold_mass: Mass,
    /// Volume of the gas.
    pub gas_volume: Volume,
    /// (held + expelled − cold)/cold: how well the balance closes.
    pub closure: Ratio,
    /// What to know beside the numbers.
    pub notes: Vec<Note>,
}

/// One point of a warm-up.
#[derive(Clone, Debug, PartialEq)]
pub struct WarmUpPoint {
    /// How far from filled (0) to hot (1).
    pub share: Ratio,
    /// Temperature of the first part, the engine.
    pub engine: ThermodynamicTemperature,
    /// The system there.
    pub state: SystemState,
}

impl FilledSystem {
    /// The hot temperature of every part.
    #[must_use]
    pub fn hot_temperatures(&self) -> Vec<ThermodynamicTemperature> {
        self.circuit.regions.iter().map(|region| region.hot).collect()
    }

    /// Every part the same share of its way from the fill temperature (0) to hot (1).
    ///
    /// # Errors
    /// A share outside 0 to 1.
    pub fn temperatures_at(&self, share: Ratio) -> Result<Vec<ThermodynamicTemperature>, CoolantError> {
        let share = SHARE.check(share)?.base();
        let cold = self.fill_temperature.base();
        let between = |hot: f64| ThermodynamicTemperature::from_base(cold + share * (hot - cold));
        Ok(self.circuit.regions.iter().map(|region| between(region.hot.base())).collect())
    }

    /// Where the system settles with one temperature for each part and a cap that lets go at `limit`.
    ///
    /// Valid from the fill's freezing point to 130 °C and to the bubble point at `limit`.
    ///
    /// # Errors
    /// A figure out of range, coolant frozen, or coolant that boils at the limit.
    pub fn settle(
        &self,
        temperatures: &[ThermodynamicTemperature],
        limit: AbsolutePressure,
        scribe: &mut impl Scribe,
    ) -> Result<SystemState, CoolantError> {
        Balance::new(self, temperatures, &Twist::none(self), scribe)?.settle(None, limit.base(), scribe)
    }

    /// [`FilledSystem::settle`] with every part at its hot temperature.
    ///
    /// # Errors
    /// As [`FilledSystem::settle`].
    pub fn settle_hot(&self, limit: AbsolutePressure, scribe: &mut impl Scribe) -> Result<SystemState, CoolantError> {
        self.settle(&self.hot_temperatures(), limit, scribe)
    }

    /// [`FilledSystem::settle_hot`] after the cap has let out a mass of coolant that has not come back. Nothing is let in
    /// below the ambient: the caller knows what the vacuum valve does.
    ///
    /// # Errors
    /// As [`FilledSystem::settle`].
    pub fn settle_after(&self, let_out: Mass, limit: AbsolutePressure) -> Result<SystemState, CoolantError> {
        let balance = Balance::new(self, &self.hot_temperatures(), &Twist::none(self), &mut Silent)?;
        let charge = Charge { mass: balance.filled.mass - let_out.base(), gas: balance.filled.gas };
        balance.settle(Some(charge), limit.base(), &mut Silent)
    }

    /// Volume of a mass of coolant at a temperature: in the tank, or back at the fill temperature.
    ///
    /// # Errors
    /// A temperature outside the coolant's range.
    pub fn in_tank(
        &self,
        expelled: Mass,
        temperature: ThermodynamicTemperature,
        scribe: &mut impl Scribe,
    ) -> Result<Volume, CoolantError> {
        let density = self.mix.density(temperature, scribe)?;
        let volume = Volume::from_base(EXPELLED.check(expelled)?.base() / density.base());
        scribe.step(|| {
            Step::new("volume of the expelled coolant", "V_tank", "V_tank = m/ρ(t_tank)", &MASS_BALANCE)
                .with_amount("m", crate::quantity::Amount::of_kind(expelled, Kind::SmallMass))
                .with("t_tank", temperature)
                .with("ρ", density)
                .gives(volume)
        });
        Ok(volume)
    }

    /// How much the coolant alone would grow in a rigid system without gas: Σ Vᵢ (ρ(t₀)/ρ(tᵢ) − 1), at its hot densities.
    ///
    /// # Errors
    /// A temperature outside the coolant's range.
    pub fn rigid_growth(&self, scribe: &mut impl Scribe) -> Result<Volume, CoolantError> {
        let cold = self.mix.density(self.fill_temperature, &mut Silent)?.base();
        let mut growth = 0.0;
        for region in &self.circuit.regions {
            let hot = self.mix.density(region.hot, &mut Silent)?.base();
            growth += region.volume.likely.base() * self.circuit.scale.likely.base() * (cold / hot - 1.0);
        }
        if !growth.is_finite() {
            return Err(CoolantError::NotFinite { what: "the growth of the coolant" });
        }
        let growth = Volume::from_base(growth);
        scribe.step(|| {
            let equation = "ΔV = Σ Vᵢ (ρ(t₀)/ρ(tᵢ) − 1)";
            Step::new("growth of the coolant alone", "ΔV", equation, &MASS_BALANCE)
                .with("V", self.circuit.total())
                .with("t₀", self.fill_temperature)
                .gives(growth)
        });
        Ok(growth)
    }

    /// Pressure and expelled coolant from filled to hot, every part scaled along.
    ///
    /// # Errors
    /// As [`FilledSystem::settle`]; fewer than 2 points or more than 2000.
    pub fn warm_up(
        &self,
        limit: AbsolutePressure,
        points: usize,
        scribe: &mut impl Scribe,
    ) -> Result<Vec<WarmUpPoint>, CoolantError> {
        if !(2..=MOST_POINTS).contains(&points) {
            return Err(CoolantError::Points { points, most: MOST_POINTS });
        }
        let mut curve = Vec::with_capacity(points);
        for i in 0..points {
            let share = Ratio::from_base(i as f64 / (points - 1) as f64);
            let temperatures = self.temperatures_at(share)?;
            let state = if i + 1 == points {
                self.settle(&temperatures, limit, scribe)?
            } else {
                self.settle(&temperatures, limit, &mut Silent)?
            };
            let engine = temperatures.first().copied().ok_or(CoolantError::NoRegions)?;
            curve.push(WarmUpPoint { share, engine, state });
        }
        Ok(curve)
    }
}
