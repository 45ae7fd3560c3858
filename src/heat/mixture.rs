//! What a rich mixture does to the heat.

use super::HeatError;
use super::manifold::AIR_FUEL;
use super::oil_defaults;
use crate::quantity::si::Ratio;
use crate::quantity::{Estimate, Measured};
use crate::scribe::{Scribe, Step};
use crate::source::engine_oil as source;

/// The mixture of a duty. With just enough air or more, it changes nothing.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Mixture {
    /// Mass of air for each mass of fuel.
    pub air_fuel: Ratio,
    /// The same with just enough air.
    pub just_enough: Ratio,
    /// By how much of the fuel left unburnt the heat to the walls falls, the flame being cooler.
    pub cooling: Estimate<Ratio>,
}

impl Mixture {
    /// Just enough air: changes nothing.
    #[must_use]
    pub fn neutral() -> Self {
        let just_enough = oil_defaults::just_enough_air().likely();
        Self { air_fuel: just_enough, just_enough, cooling: oil_defaults::rich_cooling().estimate }
    }

    /// Share of the fuel that finds air: β = min(1, AFR/AFR₀). To first order the heat released goes with the air.
    ///
    /// # Errors
    /// A ratio out of range.
    pub fn burnt(&self, scribe: &mut impl Scribe) -> Result<Ratio, HeatError> {
        let (ratio, enough) = (AIR_FUEL.check(self.air_fuel)?.base(), AIR_FUEL.check(self.just_enough)?.base());
        let burnt = Ratio::from_base((ratio / enough).min(1.0));
        if burnt.base() < 1.0 {
            scribe.step(|| {
                Step::new("Share of the fuel that finds air", "β", "β = min(1, AFR/AFR₀)", &source::RICH_MIXTURE)
                    .with("AFR", self.air_fuel)
                    .with("AFR₀", self.just_enough)
                    .gives(burnt)
            });
        }
        Ok(burnt)
    }

    /// Heat to the walls over that with just enough air, at the same work: m = 1 − e·(1 − β).
    ///
    /// # Errors
    /// As [`Mixture::burnt`]; a cooling outside 0 to 1.
    pub fn heat_factor(&self, scribe: &mut impl Scribe) -> Result<Estimate<Ratio>, HeatError> {
        let missing = 1.0 - self.burnt(scribe)?.base();
        oil_defaults::rich_cooling().range.check_estimate::<_, HeatError>(&self.cooling)?;
        let factor = self.cooling.map(|cooling| Ratio::from_base(1.0 - cooling.base() * missing));
        if missing > 0.0 {
            scribe.step(|| {
                Step::new(
                    "Heat to the walls over that with just enough air",
                    "m",
                    "m = 1 − e·(1 − β)",
                    &source::RICH_MIXTURE,
                )
                .with("e", self.cooling.likely)
                .with_number("β", 1.0 - missing)
                .gives(factor.likely)
            });
        }
        Ok(factor)
    }
}
