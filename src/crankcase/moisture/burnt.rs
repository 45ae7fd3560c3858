//! How much water the burnt gas holds.

use super::saturation::VAPOUR;
use super::{MoistureError, defaults};
use crate::quantity::si::Ratio;
use crate::quantity::{Amount, Kind, Measured};
use crate::scribe::{Scribe, Step};
use crate::source::crankcase::moisture::{BURNING, WATER_GAS};

/// Molecules of nitrogen, argon with it, for each of oxygen in dry air.
const NITROGEN: f64 = 3.773;

/// A fuel by its atoms for each atom of carbon: CHyOz.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Fuel {
    /// Hydrogen, y; default [`defaults::hydrogen`].
    pub hydrogen: Ratio,
    /// Oxygen, z; default [`defaults::oxygen`].
    pub oxygen: Ratio,
}

impl Fuel {
    /// Petrol without ethanol, CH1.87.
    #[must_use]
    pub fn petrol() -> Self {
        Self { hydrogen: defaults::hydrogen().likely(), oxygen: defaults::oxygen().likely() }
    }

    /// Diesel fuel, CH1.85.
    #[must_use]
    pub fn diesel() -> Self {
        Self { hydrogen: defaults::hydrogen_of_diesel().likely(), oxygen: Ratio::from_base(0.0) }
    }

    /// Pure ethanol, CH3O½.
    #[must_use]
    pub fn ethanol() -> Self {
        Self { hydrogen: Ratio::from_base(3.0), oxygen: Ratio::from_base(0.5) }
    }
}

/// What burns.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Burning {
    /// The fuel.
    pub fuel: Fuel,
    /// Air over the air the fuel needs, 0.7 to 200.
    pub lambda: Ratio,
    /// Share of water vapour in the air drawn; zero is dry air.
    pub air_vapour: Ratio,
    /// `CO·H₂O/(CO₂·H₂)` of rich burnt gas; default [`defaults::water_gas_constant`]. Lean gas does not ask for it.
    pub water_gas: Ratio,
}

impl Burning {
    /// Petrol with just the air it needs, of this share of vapour.
    #[must_use]
    pub fn petrol(air_vapour: Ratio) -> Self {
        Self {
            fuel: Fuel::petrol(),
            lambda: defaults::lambda().likely(),
            air_vapour,
            water_gas: defaults::water_gas_constant().likely(),
        }
    }

    /// Diesel fuel with this much air for each mass of it, and the air of this share of vapour.
    #[must_use]
    pub fn diesel(air_fuel: Ratio, air_vapour: Ratio) -> Self {
        let lambda = air_fuel / defaults::air_of_diesel().likely();
        Self { fuel: Fuel::diesel(), lambda, ..Self::petrol(air_vapour) }
    }
}

/// Share of water vapour in the burnt gas.
///
/// For each carbon atom the fuel needs s = 1 + y/4 − z/2 molecules of oxygen. With enough air
/// `x = (y/2 + v)/(1 + y/2 + v + 3.773 λ s + (λ − 1) s)`, v the vapour that came with the air. Rich, part of the hydrogen
/// stays unburnt: carbon, hydrogen and oxygen balance with `CO·H₂O = K·CO₂·H₂`.
///
/// # Errors
/// A figure outside its range: hydrogen 0.5 to 4, oxygen 0 to 1, λ 0.7 to 200, K 2 to 6, vapour of the air 0 to 20 %.
pub fn burnt_water_share(burning: &Burning, scribe: &mut impl Scribe) -> Result<Ratio, MoistureError> {
    let y = defaults::hydrogen().check(burning.fuel.hydrogen)?.base();
    let z = defaults::oxygen().check(burning.fuel.oxygen)?.base();
    let lambda = defaults::lambda().check(burning.lambda)?.base();
    let k = defaults::water_gas_constant().check(burning.water_gas)?.base();
    let air_vapour = defaults::AIR_VAPOUR.check(burning.air_vapour)?.base();
    let needed = 1.0 + y / 4.0 - z / 2.0;
    let vapour = air_vapour / (1.0 - air_vapour) * (1.0 + NITROGEN) * lambda * needed;
    let hydrogen = y / 2.0 + vapour;
    let all = 1.0 + hydrogen + NITROGEN * lambda * needed + (lambda - 1.0).max(0.0) * needed;
    let lean = lambda >= 1.0;
    let water = if lean {
        hydrogen
    } else {
        // Oxygen left for CO₂ and water once each carbon has one; above 0.4 throughout the ranges.
        let oxygen = z + 2.0 * lambda * needed + vapour - 1.0;
        let b = 1.0 + oxygen + k * (hydrogen - oxygen);
        let dioxide = 2.0 * oxygen / (b + (b * b + 4.0 * (k - 1.0) * oxygen).sqrt());
        oxygen - dioxide
    };
    let share = VAPOUR.check(Ratio::from_base(water / all))?;
    scribe.step(|| {
        let (equation, source) = if lean {
            ("x_w = (y/2 + v)/(1 + y/2 + v + 3.773·λ·s + (λ − 1)·s), s = 1 + y/4 − z/2", &BURNING)
        } else {
            ("CO + CO₂ = 1, H₂O + H₂ = y/2 + v, CO + 2·CO₂ + H₂O = z + 2·λ·s + v, CO·H₂O = K·CO₂·H₂", &WATER_GAS)
        };
        Step::new("water vapour in the burnt gas", "x_w", equation, source)
            .with_number("y", y)
            .with_number("z", z)
            .with_number("λ", lambda)
            .with_number("v", vapour)
            .with_number("K", k)
            .gives_amount(Amount::of_kind(share, Kind::Share))
    });
    Ok(share)
}
