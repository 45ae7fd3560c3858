//! A tank without a vent: its air is squeezed as coolant comes in, and its pressure adds to the cap's.

use super::balance::{Balance, Charge, Twist};
use super::{CoolantError, FilledSystem, SystemState};
use crate::fluid::Mix;
use crate::numeric::bracketed_root;
use crate::quantity::si::{Ratio, ThermodynamicTemperature, Volume};
use crate::quantity::{AbsolutePressure, GaugePressure, Kind, Measured, Range};
use crate::scribe::{Scribe, Silent, Step};
use crate::source::coolant::{GAS_LAW, SEALED_LID};

const AIR: Range = Range::new("air in the sealed tank", Kind::Volume, 0.0, 0.1, "the tank's volume less its liquid");
const ENTERING: Range = Range::new("coolant pushed into the tank", Kind::Volume, 0.0, 0.1, "about 4 % of the fill");
const AMBIENT: Range =
    Range::new("ambient pressure", Kind::AbsolutePressure, 40e3, 110e3, "about 101 kPa at sea level, absolute");
/// No tank or hose of a car comes near it, Pa.
const HIGHEST: f64 = 4.5e6;

/// A tank whose lid lets nothing out.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct SealedTank {
    /// Air above the liquid when filled, at the ambient.
    pub air: Volume,
    /// Temperature of the tank when filled.
    pub filled_at: ThermodynamicTemperature,
    /// Temperature of the tank when the engine is hot.
    pub hot: ThermodynamicTemperature,
}

/// The pressure in a sealed tank.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct SealedPressure {
    /// By the air alone: p₀ (V_a/V_b)(T₂/T₁) − p₀.
    pub dry: GaugePressure,
    /// With the vapour of the coolant: (p₀ − p_bub(T₁))(V_a/V_b)(T₂/T₁) + p_bub(T₂) − p₀.
    pub with_vapour: GaugePressure,
    /// Air left, V_b.
    pub air_left: Volume,
}

/// A system that works against a sealed tank.
#[derive(Clone, Debug, PartialEq)]
pub struct SealedState {
    /// The system.
    pub system: SystemState,
    /// The tank.
    pub tank: SealedPressure,
    /// What the cap and the tank together allow.
    pub limit: AbsolutePressure,
    /// Coolant that went into the tank, at the tank's temperature.
    pub entering: Volume,
}

impl SealedTank {
    /// The pressure after a volume of coolant has come in.
    ///
    /// # Errors
    /// A figure out of range, or more coolant than the tank has air.
    pub fn pressure_after(
        &self,
        entering: Volume,
        mix: &Mix,
        ambient: AbsolutePressure,
        scribe: &mut impl Scribe,
    ) -> Result<SealedPressure, CoolantError> {
        let outside = AMBIENT.check(ambient)?.base();
        let entering = ENTERING.check(entering)?.base();
        let air = AIR.check(self.air)?.base();
        let left = air - entering;
        if left <= 0.0 {
            return Err(CoolantError::SealedTankOverfull { air, expelled: entering });
        }
        let cold_vapour = mix.vapour_pressure(self.filled_at, &mut Silent)?.base();
        let hot_vapour = mix.vapour_pressure(self.hot, &mut Silent)?.base();
        let squeeze = air / left * self.hot.base() / self.filled_at.base();
        let dry = GaugePressure::from_base(outside * squeeze - outside);
        let with_vapour = GaugePressure::from_base((outside - cold_vapour) * squeeze + hot_vapour - outside);
        let air_left = Volume::from_base(left);
        scribe.step(|| {
            let equation = "p_tank = (p₀ − p_bub(T₁))(V_a/V_b)(T₂/T₁) + p_bub(T₂) − p₀";
            Step::new("pressure in the sealed tank", "p_tank", equation, &GAS_LAW)
                .with("p₀", ambient)
                .with("V_a", self.air)
                .with("V_b", air_left)
                .with("T₁", self.filled_at)
                .with("T₂", self.hot)
                .gives(with_vapour)
        });
        Ok(SealedPressure { dry, with_vapour, air_left })
    }

    /// The tank on its way from filled (0) to hot (1).
    pub(super) fn at(&self, share: f64) -> Self {
        let (cold, hot) = (self.filled_at.base(), self.hot.base());
        Self { hot: ThermodynamicTemperature::from_base(cold + share * (hot - cold)), ..*self }
    }
}

impl FilledSystem {
    /// Where system and sealed tank settle together, with every part at its hot temperature.
    ///
    /// The cap opens at p₀ + p_tank + p_cap; what it lets out raises p_tank. Found where the air has given way exactly
    /// as much as the coolant has come in.
    ///
    /// # Errors
    /// As [`FilledSystem::settle`]; a tank that fills solid.
    pub fn settle_sealed(
        &self,
        opening: GaugePressure,
        tank: &SealedTank,
        scribe: &mut impl Scribe,
    ) -> Result<SealedState, CoolantError> {
        self.settle_sealed_from(None, Ratio::from_base(1.0), opening, tank, scribe)
    }

    pub(super) fn settle_sealed_from(
        &self,
        charge: Option<Charge>,
        share: Ratio,
        opening: GaugePressure,
        tank: &SealedTank,
        scribe: &mut impl Scribe,
    ) -> Result<SealedState, CoolantError> {
        let tank = tank.at(share.base());
        let air = AIR.check(tank.air)?.base();
        let density = self.mix.density(tank.hot, &mut Silent)?.base();
        let balance = Balance::new(self, &self.temperatures_at(share)?, &Twist::none(self), &mut Silent)?;
        // Checks the tank's temperatures, and gives the pressure before anything comes in.
        let shut = if air > 0.0 {
            tank.pressure_after(Volume::from_base(0.0), &self.mix, self.ambient, &mut Silent)?.with_vapour.base()
        } else {
            0.0
        };
        let ambient = self.ambient.base();
        let hot_vapour = self.mix.vapour_pressure(tank.hot, &mut Silent)?.base();
        let gas = (ambient + shut - hot_vapour) * air;
        let entering = |q: f64| -> Result<f64, CoolantError> {
            let state = balance.settle(charge, ambient + q + opening.base(), &mut Silent)?;
            Ok(state.expelled.base() / density)
        };
        // Room the air has given way at a tank pressure, less what has come in: rises with the pressure.
        let spare = |q: f64| Ok::<f64, CoolantError>(air - gas / (ambient + q - hot_vapour) - entering(q)?);
        let at_first = entering(shut)?;
        let q = if at_first <= 0.0 {
            shut
        } else if air <= 0.0 || spare(HIGHEST)? <= 0.0 {
            return Err(CoolantError::SealedTankOverfull { air, expelled: at_first });
        } else {
            bracketed_root(|q| spare(q).unwrap_or(f64::NAN), shut, HIGHEST, 1e-3)
                .map_err(CoolantError::unsolved("the pressure in the sealed tank"))?
                .at
        };
        let limit = AbsolutePressure::from_base(ambient + q + opening.base());
        let system = balance.settle(charge, limit.base(), scribe)?;
        let entering = self.in_tank(system.expelled, tank.hot, scribe)?;
        let pressure = if air > 0.0 {
            tank.pressure_after(entering, &self.mix, self.ambient, scribe)?
        } else {
            let none = GaugePressure::from_base(0.0);
            SealedPressure { dry: none, with_vapour: none, air_left: tank.air }
        };
        scribe.step(|| {
            Step::new("highest pressure with a sealed tank", "p_limit", "p_limit = p₀ + p_tank + p_cap", &SEALED_LID)
                .with("p₀", self.ambient)
                .with("p_tank", pressure.with_vapour)
                .with("p_cap", opening)
                .gives(limit)
        });
        Ok(SealedState { system, tank: pressure, limit, entering })
    }
}
