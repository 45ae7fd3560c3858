//! The air cushion of a header tank.

use crate::coolant::{CoolantError, FilledSystem};
use crate::numeric::bracketed_root;
use crate::quantity::si::{Ratio, Volume};
use crate::quantity::{AbsolutePressure, Estimate, GaugePressure, Kind, Measured, Range};
use crate::scribe::{Scribe, Silent, Step};
use crate::source::coolant::CUSHION_RULE;

pub(in crate::coolant) const SHARE: Range =
    Range::new("share of the cap's opening", Kind::Share, 0.1, 1.0, "85 % leaves room for a cap that opens early");
const OPENING: Range =
    Range::new("opening pressure of the cap", Kind::GaugePressure, 1e3, 250e3, "48 to 140 kPa are usual");
/// A cushion this small is none, m³.
const SMALLEST: f64 = 1e-6;

impl FilledSystem {
    /// The smallest cushion in the part named by `gas_in` that keeps the hot pressure at or below a share of the cap's
    /// opening; the part keeps its volume, the cushion displaces coolant.
    ///
    /// # Errors
    /// As [`FilledSystem::settle`]; when even the whole part full of air is not enough.
    pub fn smallest_cushion(
        &self,
        opening: GaugePressure,
        share: Ratio,
        scribe: &mut impl Scribe,
    ) -> Result<Volume, CoolantError> {
        let target = OPENING.check(opening)?.base() * SHARE.check(share)?.base();
        let limit = AbsolutePressure::from_base(self.ambient.base() + 10.0 * OPENING.high);
        let part = self.circuit.regions.iter().find(|region| region.name == self.gas_in);
        let Some(part) = part else {
            let known = self.circuit.regions.iter().map(|region| region.name.as_str()).collect::<Vec<_>>().join(", ");
            return Err(CoolantError::UnknownRegion { name: self.gas_in.clone(), known });
        };
        // Half of all that is held is the most a balance accepts as gas.
        let total = self.circuit.total().base();
        let largest = (part.volume.likely.base() * self.circuit.scale.likely.base() * 0.999).min(0.49 * total);
        let over = |gas: f64| -> Result<f64, CoolantError> {
            let system = Self { trapped_gas: Estimate::exact(Volume::from_base(gas)), ..self.clone() };
            Ok(system.settle_hot(limit, &mut Silent)?.gauge.base() - target)
        };
        if largest <= SMALLEST || over(largest)? > 0.0 {
            return Err(CoolantError::NoCushion { target });
        }
        let gas = if over(SMALLEST)? <= 0.0 {
            SMALLEST
        } else {
            bracketed_root(|gas| over(gas).unwrap_or(f64::NAN), SMALLEST, largest, 1e-9)
                .map_err(CoolantError::unsolved("the air cushion"))?
                .at
        };
        let cushion = Volume::from_base(gas);
        scribe.step(|| {
            Step::new("smallest air cushion", "V_gas,₀", "p_g(V_gas,₀) = share · p_cap", &CUSHION_RULE)
                .with("p_cap", opening)
                .with_amount("share", crate::quantity::Amount::of_kind(share, Kind::Share))
                .gives(cushion)
        });
        Ok(cushion)
    }
}
