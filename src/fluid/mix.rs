//! A coolant: what it is made of and in what share.

use super::{Base, Basis, FluidError};
use crate::quantity::si::Ratio;
use crate::quantity::{Amount, Estimate, Kind, Measured, Range, UnitSystem};
use crate::scribe::{Scribe, Silent, Step};
use crate::source::fluid::{CONCENTRATE, VOLUME_TO_MASS};

/// Density of water at 20 °C and atmospheric pressure, kg/m³.
const WATER_AT_20: f64 = 998.207;

const SHARE: Range = Range::new(
    "the share of glycol",
    Kind::Share,
    0.0,
    0.70,
    "no source reaches beyond it; write a share of glycol in the mix, such as 50 %",
);
const ANY_SHARE: Range =
    Range::new("the share of glycol", Kind::Share, 0.0, 1.0, "write a share between none and all, such as 50 %");
const STRENGTH: Range = Range::new(
    "the glycol in the concentrate, by mass,",
    Kind::Share,
    0.5,
    1.0,
    "read it from the safety sheet of the concentrate; 95 % is usual",
);

/// A coolant: plain water, or water with a share of one glycol.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Mix {
    base: Base,
    /// Mass of glycol over mass of the mix.
    mass: f64,
    /// Volume of glycol over both volumes at 20 °C before mixing.
    volume: f64,
}

impl Mix {
    /// A coolant with 0 to 70 % of pure glycol on the given basis; water takes a share of zero only.
    ///
    /// # Errors
    /// A share outside 0 to 70 %, or any glycol in plain water.
    pub fn new(base: Base, share: Ratio, basis: Basis) -> Result<Self, FluidError> {
        if base == Base::Water && share.base() != 0.0 && !share.base().is_nan() {
            return Err(FluidError::WaterHasNoShare { share });
        }
        let share = SHARE.check(share)?;
        Ok(match basis {
            Basis::ByMass => {
                let volume = volume_share_from_mass(base, share, &mut Silent)?;
                Self { base, mass: share.base(), volume: volume.base() }
            }
            Basis::ByVolume => {
                let mass = mass_share_from_volume(base, share, &mut Silent)?;
                Self { base, mass: mass.base(), volume: share.base() }
            }
        })
    }

    /// A coolant mixed from bottled concentrate, which holds some water and inhibitors beside the glycol.
    ///
    /// `share` counts concentrate in the mix; `strength` is the mass of glycol over the mass of concentrate, 50 to
    /// 100 % ([`concentrate_strength`] if unknown). The concentrate is taken to weigh what pure glycol weighs, and
    /// the rest of it to act like water: glycol share by mass = concentrate share by mass · strength.
    ///
    /// # Errors
    /// As [`Mix::new`], and a strength outside its range.
    pub fn from_concentrate(base: Base, share: Ratio, basis: Basis, strength: Ratio) -> Result<Self, FluidError> {
        let strength = STRENGTH.check(strength)?;
        let bottled = Self::new(base, share, basis)?;
        let mass = Ratio::from_base(bottled.mass * strength.base());
        let volume = volume_share_from_mass(base, mass, &mut Silent)?;
        Ok(Self { base, mass: mass.base(), volume: volume.base() })
    }

    /// Plain water.
    #[must_use]
    pub const fn water() -> Self {
        Self { base: Base::Water, mass: 0.0, volume: 0.0 }
    }

    /// What it is made of.
    #[must_use]
    pub const fn base(&self) -> Base {
        self.base
    }

    /// Mass of glycol over mass of the mix.
    #[must_use]
    pub fn mass_share(&self) -> Ratio {
        Ratio::from_base(self.mass)
    }

    /// Volume of glycol over both volumes, measured at 20 °C before mixing.
    #[must_use]
    pub fn volume_share(&self) -> Ratio {
        Ratio::from_base(self.volume)
    }
}

impl std::fmt::Display for Mix {
    /// "50 % ethylene glycol by volume (52.7 % by mass)" or "plain water".
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        if self.base == Base::Water {
            return write!(f, "plain water");
        }
        let show = |share: f64| Amount::new(share, Kind::Share).show(UnitSystem::Si);
        write!(f, "{} {} by volume ({} by mass)", show(self.volume), self.base.name(), show(self.mass))
    }
}

/// Mass of glycol over mass of concentrate, for bottles that do not say: 95 % (90 to 97 %), an assumption.
#[must_use]
pub fn concentrate_strength() -> (Estimate<Ratio>, &'static crate::source::Source) {
    let [low, likely, high] = [0.90, 0.95, 0.97].map(Ratio::from_base);
    (Estimate { low, likely, high }, &CONCENTRATE)
}

/// Share by mass from a share by volume: w = φ ρg / (φ ρg + (1 − φ) ρw), volumes at 20 °C before mixing;
/// ρg is 1113.7 kg/m³ for ethylene glycol and 1036.35 kg/m³ for propylene glycol, ρw 998.207 kg/m³.
///
/// # Errors
/// A share outside 0 to 100 %, or any glycol in plain water.
pub fn mass_share_from_volume(base: Base, share: Ratio, scribe: &mut impl Scribe) -> Result<Ratio, FluidError> {
    let phi = ANY_SHARE.check(share)?.base();
    let Some(glycol) = density_at_20(base, share)? else { return Ok(share) };
    let mass = Ratio::from_base(phi * glycol / (phi * glycol + (1.0 - phi) * WATER_AT_20));
    scribe.step(|| {
        Step::new("share of glycol by mass", "w", "w = φ·ρg / (φ·ρg + (1 − φ)·ρw)", &VOLUME_TO_MASS)
            .with_amount("φ", Amount::of_kind(share, Kind::Share))
            .with_amount("ρg", Amount::new(glycol, Kind::Density))
            .with_amount("ρw", Amount::new(WATER_AT_20, Kind::Density))
            .gives_amount(Amount::of_kind(mass, Kind::Share))
    });
    Ok(mass)
}

/// Share by volume from a share by mass: φ = (w/ρg) / (w/ρg + (1 − w)/ρw), the inverse of [`mass_share_from_volume`].
///
/// # Errors
/// A share outside 0 to 100 %, or any glycol in plain water.
pub fn volume_share_from_mass(base: Base, share: Ratio, scribe: &mut impl Scribe) -> Result<Ratio, FluidError> {
    let w = ANY_SHARE.check(share)?.base();
    let Some(glycol) = density_at_20(base, share)? else { return Ok(share) };
    let volume = Ratio::from_base(w / glycol / (w / glycol + (1.0 - w) / WATER_AT_20));
    scribe.step(|| {
        Step::new("share of glycol by volume", "φ", "φ = (w/ρg) / (w/ρg + (1 − w)/ρw)", &VOLUME_TO_MASS)
            .with_amount("w", Amount::of_kind(share, Kind::Share))
            .with_amount("ρg", Amount::new(glycol, Kind::Density))
            .with_amount("ρw", Amount::new(WATER_AT_20, Kind::Density))
            .gives_amount(Amount::of_kind(volume, Kind::Share))
    });
    Ok(volume)
}

/// Density of the pure glycol at 20 °C, kg/m³; none for water, which takes no share.
fn density_at_20(base: Base, share: Ratio) -> Result<Option<f64>, FluidError> {
    match base.solution() {
        Some(solution) => Ok(Some(solution.density_at_20)),
        None if share.base() == 0.0 => Ok(None),
        None => Err(FluidError::WaterHasNoShare { share }),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn concentrate_counts_by_its_strength() {
        let share = Ratio::from_base;
        for basis in Basis::ALL {
            let of =
                |strength| Mix::from_concentrate(Base::EthyleneGlycol, share(0.70), basis, share(strength)).unwrap();
            let pure = Mix::new(Base::EthyleneGlycol, share(0.70), basis).unwrap();
            assert!((of(1.0).mass - pure.mass).abs() < 1e-15 && (of(1.0).volume - pure.volume).abs() < 1e-15);
            assert!((of(0.95).mass / pure.mass - 0.95).abs() < 1e-12);
        }
        let weak = Mix::from_concentrate(Base::EthyleneGlycol, share(0.5), Basis::ByVolume, share(0.4));
        assert!(weak.unwrap_err().to_string().contains("95 % is usual"));
    }
}
