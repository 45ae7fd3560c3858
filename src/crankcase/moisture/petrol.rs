//! Petrol vapour in the crankcase gas: how much there is, and where its heavy cuts settle.

use super::saturation::CRANKCASE_PRESSURE;
use super::{Fuel, MoistureError, OIL, PetrolCut, defaults};
use crate::numeric::bracketed_root;
use crate::quantity::si::{Ratio, ThermodynamicTemperature as Temperature};
use crate::quantity::{AbsolutePressure, Amount, Estimate, Kind, Measured};
use crate::scribe::{Scribe, Silent, Step};
use crate::source::crankcase::moisture::{GAS_MIX, PETROL_HEAVY, RAOULT};

/// Molecules of dry air for each of oxygen.
const AIR: f64 = 4.773;

/// What is known of the petrol that goes down with the unburnt part of the blow-by.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Petrol {
    /// Its atoms.
    pub fuel: Fuel,
    /// Carbon atoms in a molecule; default [`defaults::carbon`].
    pub carbon: Estimate<Ratio>,
    /// Its heavy cuts over those of usual petrol; default [`defaults::heaviness`].
    pub heaviness: Estimate<Ratio>,
    /// Air over the air the fuel needs; default [`defaults::lambda`]. A cold engine is rich.
    pub lambda: Estimate<Ratio>,
}

impl Petrol {
    /// Usual petrol.
    #[must_use]
    pub fn usual() -> Self {
        Self {
            fuel: Fuel::petrol(),
            carbon: defaults::carbon().estimate,
            heaviness: defaults::heaviness().estimate,
            lambda: defaults::lambda().estimate,
        }
    }

    /// Share of the molecules of usual petrol that each heavy cut stands for; the rest is lighter and never settles here.
    #[must_use]
    pub fn share_of(cut: PetrolCut) -> Ratio {
        Ratio::from_base(match cut {
            PetrolCut::Octane => 0.12,
            PetrolCut::Nonane => 0.07,
            PetrolCut::Decane => 0.04,
            PetrolCut::Undecane => 0.015,
            PetrolCut::Dodecane => 0.005,
        })
    }

    pub(super) fn check(&self) -> Result<(), MoistureError> {
        defaults::in_order(&self.carbon, &defaults::carbon().range)?;
        defaults::in_order(&self.heaviness, &defaults::heaviness().range)?;
        defaults::in_order(&self.lambda, &defaults::lambda().range)?;
        defaults::hydrogen().check(self.fuel.hydrogen)?;
        defaults::oxygen().check(self.fuel.oxygen)?;
        Ok(())
    }
}

/// Share of fuel vapour in an unburnt charge all evaporated: `x_f = 1/(1 + 4.773 n λ s)`, n carbon atoms in a molecule of
/// fuel and s = 1 + y/4 − z/2 molecules of oxygen for each of them.
///
/// # Errors
/// A figure outside its range.
pub fn charge_fuel_share(
    fuel: &Fuel,
    carbon: Ratio,
    lambda: Ratio,
    scribe: &mut impl Scribe,
) -> Result<Ratio, MoistureError> {
    let y = defaults::hydrogen().check(fuel.hydrogen)?.base();
    let z = defaults::oxygen().check(fuel.oxygen)?.base();
    let n = defaults::carbon().check(carbon)?.base();
    let l = defaults::lambda().check(lambda)?.base();
    let needed = 1.0 + y / 4.0 - z / 2.0;
    let share = Ratio::from_base(1.0 / (1.0 + AIR * n * l * needed));
    scribe.step(|| {
        let equation = "x_f = 1/(1 + 4.773·n·λ·s), s = 1 + y/4 − z/2";
        Step::new("fuel vapour in the unburnt charge", "x_f", equation, &GAS_MIX)
            .with("n", carbon)
            .with("λ", lambda)
            .with_number("s", needed)
            .gives_amount(Amount::of_kind(share, Kind::Share))
    });
    Ok(share)
}

/// Share of fuel vapour in the crankcase, `x = x_f (1 − f_b)/(1 + D)`: only the unburnt part of the blow-by brings any.
///
/// # Errors
/// A figure outside its range: D 0 to 10⁹.
pub fn mixed_fuel_share(
    charge: Ratio,
    burnt_share: Ratio,
    dilution: Ratio,
    scribe: &mut impl Scribe,
) -> Result<Ratio, MoistureError> {
    let x = super::VAPOUR.check(charge)?.base();
    let burnt = defaults::burnt().check(burnt_share)?.base();
    let d = defaults::DILUTION.check(dilution)?.base();
    let share = Ratio::from_base(x * (1.0 - burnt) / (1.0 + d));
    scribe.step(|| {
        Step::new("fuel vapour in the crankcase", "x_f,c", "x_f,c = x_f·(1 − f_b)/(1 + D)", &GAS_MIX)
            .with_amount("x_f", Amount::of_kind(charge, Kind::Share))
            .with_amount("f_b", Amount::of_kind(burnt_share, Kind::Share))
            .with("D", dilution)
            .gives_amount(Amount::of_kind(share, Kind::Share))
    });
    Ok(share)
}

/// Where petrol begins to leave a gas.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum FuelDew {
    /// Its heavy cuts settle on walls below this temperature.
    At(Temperature),
    /// Below 0 °C, where the vapour pressures end.
    BelowFreezing,
    /// The charge is air: no fuel comes down as vapour.
    NoFuel,
}

impl FuelDew {
    /// The temperature, or none when it lies below 0 °C or there is no fuel.
    #[must_use]
    pub const fn temperature(self) -> Option<Temperature> {
        match self {
            Self::At(temperature) => Some(temperature),
            Self::BelowFreezing | Self::NoFuel => None,
        }
    }

    /// Whether fuel settles on a wall; none where neither is known, the wall and the dew point both below 0 °C.
    #[must_use]
    pub fn wets(self, wall: Temperature) -> Option<bool> {
        match self {
            Self::At(dew) => Some(wall.base() < dew.base()),
            Self::BelowFreezing => (wall.base() >= OIL.low).then_some(false),
            Self::NoFuel => Some(false),
        }
    }
}

/// Dew point of the petrol in a gas after Raoult: `Σ h zᵢ x p/pₛ,ᵢ(T) = 1` over the heavy cuts, zᵢ from
/// [`Petrol::share_of`] and h the heaviness.
///
/// An estimate of where fuel settles by itself; oil takes up fuel vapour above this point too, and liquid fuel from cold
/// cylinder walls comes on top.
///
/// # Errors
/// A figure outside its range: pressure 20 to 200 kPa, heaviness 0.1 to 5.
pub fn fuel_dew_point(
    fuel: Ratio,
    heaviness: Ratio,
    pressure: AbsolutePressure,
    scribe: &mut impl Scribe,
) -> Result<FuelDew, MoistureError> {
    let p = CRANKCASE_PRESSURE.check(pressure)?.base();
    let partial = super::VAPOUR.check(fuel)?.base() * p * defaults::heaviness().check(heaviness)?.base();
    let cut_pressure = |cut: PetrolCut, t: f64| -> f64 {
        // Both ends of the search lie in the range of the law.
        cut.saturation_pressure(Temperature::from_base(t), &mut Silent).map_or(f64::NAN, |p| p.base())
    };
    let excess = |t: f64| -> f64 {
        let over = |cut| Petrol::share_of(cut).base() * partial / cut_pressure(cut, t);
        PetrolCut::ALL.into_iter().map(over).sum::<f64>() - 1.0
    };
    if excess(OIL.low) < 0.0 {
        return Ok(FuelDew::BelowFreezing);
    }
    let at = Temperature::from_base(bracketed_root(excess, OIL.low, OIL.high, 1e-9)?.at);
    scribe.step(|| {
        let equation = "h·x_f,c·p·Σ zᵢ/pₛ,ᵢ(T_f) = 1, n-octane to n-dodecane";
        Step::new("dew point of the petrol", "T_f", equation, &RAOULT)
            .with_amount("x_f,c", Amount::of_kind(fuel, Kind::Share))
            .with("h", heaviness)
            .with("p", pressure)
            .gives(at)
    });
    scribe.step(|| {
        let heavy = PetrolCut::ALL.into_iter().map(|cut| Petrol::share_of(cut).base()).sum();
        Step::new("heavy cuts in the petrol", "Σ zᵢ", "12, 7, 4, 1.5 and 0.5 %", &PETROL_HEAVY)
            .gives_amount(Amount::new(heavy, Kind::Share))
    });
    Ok(FuelDew::At(at))
}
