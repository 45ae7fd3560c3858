//! What a vent must pass: air pushed out as coolant comes in, or steam.

use super::opening::COEFFICIENT;
use crate::coolant::{CoolantError, defaults};
use crate::fluid::{Mix, air, water};
use crate::quantity::si::{
    Length, MassRate, Power, Pressure, Ratio, ThermodynamicTemperature, Time, Volume, VolumeRate,
};
use crate::quantity::{AbsolutePressure, Amount, Estimate, Kind, Measured, Range};
use crate::scribe::{Scribe, Silent, Step};
use crate::source::DEFINITION;
use crate::source::coolant::{FLASHING, FLASHING_HOSE, HOSE_LIQUID, LIFT_BY_BOILING, NOZZLE_FLOW};
use std::f64::consts::PI;

const EXPANSION: Range = Range::new("coolant pushed into the tank", Kind::Volume, 0.0, 0.05, "about 4 % of the fill");
pub(in crate::coolant) const WARM_UP: Range =
    Range::new("time from cold to hot", Kind::Duration, 10.0, 36_000.0, "5 to 15 min are usual");
pub(in crate::coolant) const HEAT: Range =
    Range::new("heat that boils coolant", Kind::Power, 0.0, 100e3, "1 to 5 kW after a shutdown");
const LIQUID: Range = Range::new("coolant passing the cap", Kind::CoolantFlow, 0.0, 20e-3, "in L/min with its unit");
const BORE: Range = Range::new("bore of the overflow hose", Kind::Length, 1e-3, 0.05, "6 to 10 mm are usual");
const HOSE: Range = Range::new("length of the overflow hose", Kind::Distance, 0.01, 20.0, "about 1 m is usual");
/// Losses of the hose's entrance and exit, on the speed in it.
const HOSE_ENDS: f64 = 1.5;

/// What passes the vent.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum VentGas {
    /// Air at the tank's temperature.
    Air(ThermodynamicTemperature),
    /// Steam, saturated at the pressure it comes from.
    Steam,
}

/// A flow the vent must pass.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct VentLoad {
    /// What passes.
    pub gas: VentGas,
    /// How much.
    pub flow: Estimate<MassRate>,
}

/// Coolant that a lifting cap lets into the tank.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct LiftedLiquid {
    /// Liquid leaving the system.
    pub flow: Estimate<VolumeRate>,
    /// Its temperature in the system.
    pub temperature: ThermodynamicTemperature,
    /// Temperature of the air in the tank.
    pub tank_air: ThermodynamicTemperature,
}

impl LiftedLiquid {
    /// Liquid pushed out by boiling in the engine: V̇ = Q/(h_fg ρ_steam) at the system's pressure.
    ///
    /// # Errors
    /// Heat outside 0 to 100 kW, or a pressure without steam properties.
    pub fn by_boiling(
        heat: &Estimate<Power>,
        pressure: AbsolutePressure,
        temperature: ThermodynamicTemperature,
        tank_air: ThermodynamicTemperature,
        scribe: &mut impl Scribe,
    ) -> Result<Self, CoolantError> {
        let saturation = water::saturation_temperature(pressure, &mut Silent)?;
        let latent = water::latent_heat(saturation, scribe)?.base();
        let steam = water::steam_density(saturation, scribe)?.base();
        for heat in [heat.low, heat.likely, heat.high] {
            HEAT.check(heat)?;
        }
        let flow = heat.map(|heat| VolumeRate::from_base(heat.base() / (latent * steam)));
        scribe.step(|| {
            Step::new("liquid pushed out by steam", "V̇", "V̇ = Q/(h_fg ρ_steam)", &LIFT_BY_BOILING)
                .with("Q", heat.likely)
                .with("p", pressure)
                .gives(flow.likely)
        });
        Ok(Self { flow, temperature, tank_air })
    }

    /// The same, but no more than flashes through the overflow hose when it boils ahead of it: saturated liquid leaves
    /// a hose at G = η_c √(p ρ/ω) with ω = ρ c_p T p (v_fg/h_fg)² and η_c = 0.55 + 0.217 ln ω − 0.046 ln² ω +
    /// 0.004 ln³ ω, friction left out.
    ///
    /// # Errors
    /// A bore outside 1 to 50 mm, or a pressure or temperature without properties.
    pub fn flashing_in_hose(
        mut self,
        mix: &Mix,
        bore: Length,
        pressure: AbsolutePressure,
        scribe: &mut impl Scribe,
    ) -> Result<Self, CoolantError> {
        let d = BORE.check(bore)?.base();
        let p = pressure.base();
        let density = mix.density(self.temperature, &mut Silent)?.base();
        let heat = mix.specific_heat(self.temperature, &mut Silent)?.base();
        let saturation = water::saturation_temperature(pressure, &mut Silent)?;
        let latent = water::latent_heat(saturation, &mut Silent)?.base();
        let steam = water::steam_density(saturation, &mut Silent)?.base();
        let growth = (1.0 / steam - 1.0 / density) / latent;
        let omega = density * heat * self.temperature.base() * p * growth * growth;
        let ln = omega.ln();
        let ratio = 0.55 + ln * (0.217 + ln * (-0.046 + ln * 0.004));
        let flux = ratio * (p * density / omega).sqrt();
        let most = VolumeRate::from_base(PI / 4.0 * d * d * flux / density);
        scribe.step(|| {
            Step::new("most boiling liquid the overflow hose passes", "V̇", "V̇ = A η_c √(p ρ/ω)/ρ", &FLASHING_HOSE)
                .with("p", pressure)
                .with("D", bore)
                .with_number("ω", omega)
                .with_number("η_c", ratio)
                .gives_amount(Amount::of_kind(most, Kind::CoolantFlow))
        });
        self.flow = self.flow.map(|flow| if flow < most { flow } else { most });
        Ok(self)
    }

    /// The same, but no more than the overflow hose passes: Δp = (1.5 + f L/D) ρ v²/2 with Blasius' f = 0.316/Re^¼.
    ///
    /// Liquid that flashes in the hose passes less than this, so it is an upper bound.
    ///
    /// # Errors
    /// A bore outside 1 to 50 mm, a length outside 0.01 to 20 m, or a temperature without properties.
    pub fn within_hose(
        mut self,
        mix: &Mix,
        bore: Length,
        length: Length,
        across: Pressure,
        scribe: &mut impl Scribe,
    ) -> Result<Self, CoolantError> {
        let d = BORE.check(bore)?.base();
        let run = HOSE.check(length)?.base();
        let density = mix.density(self.temperature, &mut Silent)?.base();
        let viscosity = mix.viscosity(self.temperature, &mut Silent)?.base();
        let head = 2.0 * across.base().max(0.0) / density;
        let mut speed = (head / HOSE_ENDS).sqrt();
        // The friction factor hardly depends on the speed: a few rounds settle it.
        for _ in 0..20 {
            let reynolds = (density * speed * d / viscosity).max(1.0);
            speed = (head / (HOSE_ENDS + 0.316 / reynolds.powf(0.25) * run / d)).sqrt();
        }
        let most = VolumeRate::from_base(PI / 4.0 * d * d * speed);
        scribe.step(|| {
            Step::new("most liquid the overflow hose passes", "V̇", "Δp = (1.5 + f L/D) ρ v²/2", &HOSE_LIQUID)
                .with("Δp", across)
                .with("D", bore)
                .with("L", length)
                .with_amount("ρ", Amount::new(density, Kind::Density))
                .gives_amount(Amount::of_kind(most, Kind::CoolantFlow))
        });
        self.flow = self.flow.map(|flow| if flow < most { flow } else { most });
        Ok(self)
    }
}

impl VentLoad {
    /// Air pushed out by the coolant of a normal warm-up: ṁ = ρ_air V_expand/time.
    ///
    /// # Errors
    /// A figure out of range.
    pub fn warm_up(
        expansion: &Estimate<Volume>,
        time: Time,
        tank_air: ThermodynamicTemperature,
        ambient: AbsolutePressure,
        scribe: &mut impl Scribe,
    ) -> Result<Self, CoolantError> {
        let density = air::density(ambient, tank_air, &mut Silent)?.base();
        let seconds = WARM_UP.check(time)?.base();
        for volume in [expansion.low, expansion.likely, expansion.high] {
            EXPANSION.check(volume)?;
        }
        let flow = expansion.map(|volume| MassRate::from_base(density * volume.base() / seconds));
        scribe.step(|| {
            Step::new("air pushed out by a normal warm-up", "ṁ", "ṁ = ρ_air V_expand/time", &DEFINITION)
                .with_amount("ρ_air", Amount::new(density, Kind::Density))
                .with("V_expand", expansion.likely)
                .with_amount("time", Amount::of_kind(time, Kind::Duration))
                .gives(flow.likely)
        });
        Ok(Self { gas: VentGas::Air(tank_air), flow })
    }

    /// Air pushed out by coolant that leaves a lifting cap and flashes; within a factor of 2.
    ///
    /// Flashing share x = c_p (t − T_bubble,ambient)/h_fg, mixture density ρ = 1/(x/ρ_steam + (1 − x)/ρ_liquid);
    /// ṁ_air = ρ_air V̇ ρ_liquid/ρ.
    ///
    /// # Errors
    /// A figure out of range.
    pub fn cap_lift(
        mix: &Mix,
        lifted: &LiftedLiquid,
        ambient: AbsolutePressure,
        scribe: &mut impl Scribe,
    ) -> Result<Self, CoolantError> {
        for flow in [lifted.flow.low, lifted.flow.likely, lifted.flow.high] {
            LIQUID.check(flow)?;
        }
        let liquid = mix.density(lifted.temperature, &mut Silent)?.base();
        let heat = mix.specific_heat(lifted.temperature, &mut Silent)?.base();
        let boils_at = mix.boiling_point(ambient, &mut Silent)?;
        let saturation = water::saturation_temperature(ambient, &mut Silent)?;
        let latent = water::latent_heat(saturation, &mut Silent)?.base();
        let steam = water::steam_density(saturation, &mut Silent)?.base();
        // Below the bubble point nothing flashes.
        let superheat = (lifted.temperature.base() - boils_at.base()).max(0.0);
        let share = Ratio::from_base(heat * superheat / latent);
        scribe.step(|| {
            Step::new("share of the liquid that flashes", "x", "x = c_p (t − T_bubble)/h_fg", &FLASHING)
                .with("t", lifted.temperature)
                .with("T_bubble", boils_at)
                .with_amount("c_p", Amount::new(heat, Kind::SpecificHeat))
                .with_amount("h_fg", Amount::new(latent, Kind::SpecificEnergy))
                .gives_amount(Amount::of_kind(share, Kind::Share))
        });
        let x = share.base();
        let swelling = liquid * (x / steam + (1.0 - x) / liquid);
        let air = air::density(ambient, lifted.tank_air, &mut Silent)?.base();
        let factor = defaults::two_phase_factor().estimate;
        let rate = |flow: VolumeRate, by: Ratio| MassRate::from_base(flow.base() * swelling * air * by.base());
        let flow = Estimate {
            low: rate(lifted.flow.low, factor.low),
            likely: rate(lifted.flow.likely, factor.likely),
            high: rate(lifted.flow.high, factor.high),
        };
        scribe.step(|| {
            let equation = "ṁ = ρ_air V̇ ρ_liquid (x/ρ_steam + (1 − x)/ρ_liquid)";
            Step::new("air pushed out by a lifting cap", "ṁ", equation, &FLASHING)
                .with_amount("ρ_air", Amount::new(air, Kind::Density))
                .with("V̇", lifted.flow.likely)
                .with_amount("ρ_liquid", Amount::new(liquid, Kind::Density))
                .with_amount("ρ_steam", Amount::new(steam, Kind::Density))
                .gives(flow.likely)
        });
        Ok(Self { gas: VentGas::Air(lifted.tank_air), flow })
    }

    /// Steam of a boil-over: ṁ = Q/h_fg at the ambient.
    ///
    /// # Errors
    /// Heat outside 0 to 100 kW.
    pub fn boil_over(
        heat: &Estimate<Power>,
        ambient: AbsolutePressure,
        scribe: &mut impl Scribe,
    ) -> Result<Self, CoolantError> {
        for heat in [heat.low, heat.likely, heat.high] {
            HEAT.check(heat)?;
        }
        let latent = water::latent_heat(water::saturation_temperature(ambient, &mut Silent)?, scribe)?.base();
        let flow = heat.map(|heat| MassRate::from_base(heat.base() / latent));
        scribe.step(|| {
            Step::new("steam of a boil-over", "ṁ", "ṁ = Q/h_fg", &DEFINITION)
                .with("Q", heat.likely)
                .with_amount("h_fg", Amount::new(latent, Kind::SpecificEnergy))
                .gives(flow.likely)
        });
        Ok(Self { gas: VentGas::Steam, flow })
    }

    /// The most steam the overflow hose lets through, choked at the pressure in the system:
    /// ṁ = C_d A p √γ (2/(γ + 1))^((γ+1)/(2(γ−1)))/√(p/ρ).
    ///
    /// # Errors
    /// A bore outside 1 to 50 mm, a coefficient outside 0.05 to 1, or a pressure without steam properties.
    pub fn hose_ceiling(
        bore: Length,
        pressure: AbsolutePressure,
        discharge: &Estimate<Ratio>,
        scribe: &mut impl Scribe,
    ) -> Result<Self, CoolantError> {
        let bore_base = BORE.check(bore)?.base();
        for value in [discharge.low, discharge.likely, discharge.high] {
            COEFFICIENT.check(value)?;
        }
        let gas = VentGas::Steam.at(pressure)?;
        let flux = gas.choked_flux(pressure.base());
        let area = PI / 4.0 * bore_base * bore_base;
        let flow = discharge.map(|coefficient| MassRate::from_base(coefficient.base() * area * flux));
        scribe.step(|| {
            let equation = "ṁ = C_d A √(γ p ρ) (2/(γ+1))^((γ+1)/(2(γ−1)))";
            Step::new("most steam the overflow hose passes", "ṁ", equation, &NOZZLE_FLOW)
                .with("d", bore)
                .with_amount("C_d", Amount::of(discharge.likely))
                .with("p", pressure)
                .gives(flow.likely)
        });
        Ok(Self { gas: VentGas::Steam, flow })
    }
}
