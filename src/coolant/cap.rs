//! The pressure cap: when it opens, and when its vacuum valve lets something back in.

use super::{CoolantError, defaults};
use crate::quantity::si::{Pressure, Ratio};
use crate::quantity::{AbsolutePressure, Estimate, GaugePressure, Kind, Measured, Range};
use crate::scribe::{Scribe, Step};
use crate::source::coolant::{CAP_SEAT, CAP_TOLERANCE};

const OPENING: Range = Range::new(
    "opening pressure of the cap",
    Kind::GaugePressure,
    0.0,
    250e3,
    "read it from the cap; 48 to 140 kPa (7 to 20 psi) are usual, and an open system has 0",
);
pub(super) const TOLERANCE: Range =
    Range::new("tolerance of the cap", Kind::Share, -0.9, 0.9, "a new cap is within 14 %, a worn one down to −27 %");
pub(super) const VACUUM: Range =
    Range::new("opening of the vacuum valve", Kind::PressureDifference, 0.0, 60e3, "1 to 10 kPa are usual");
const BACK: Range = Range::new("pressure in the tank", Kind::GaugePressure, -50e3, 5e6, "0 for a tank open to the air");

const AMBIENT: Range =
    Range::new("ambient pressure", Kind::AbsolutePressure, 40e3, 110e3, "about 101 kPa at sea level, absolute");

/// A cap with two valves.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Cap {
    /// The rating: pressure across the cap at which it opens.
    pub opening: GaugePressure,
    /// Deviation from the rating.
    pub tolerance: Estimate<Ratio>,
    /// Depression at which the vacuum valve opens.
    pub vacuum_opening: Estimate<Pressure>,
}

impl Cap {
    /// A new cap: within 14 % of its rating, vacuum valve at 5 kPa (1 to 10).
    #[must_use]
    pub fn new(opening: GaugePressure) -> Self {
        Self {
            opening,
            tolerance: defaults::cap_tolerance_new().estimate,
            vacuum_opening: defaults::vacuum_opening().estimate,
        }
    }

    /// A worn cap: down to 27 % below its rating.
    #[must_use]
    pub fn worn(opening: GaugePressure) -> Self {
        Self { tolerance: defaults::cap_tolerance_worn().estimate, ..Self::new(opening) }
    }

    /// The opening pressure with its tolerance: p = p_nominal (1 + tolerance).
    ///
    /// # Errors
    /// An opening outside 0 to 250 kPa, a tolerance beyond ±90 % or a vacuum opening outside 0 to 60 kPa.
    pub fn opening_range(&self, scribe: &mut impl Scribe) -> Result<Estimate<GaugePressure>, CoolantError> {
        let nominal = OPENING.check(self.opening)?.base();
        for vacuum in [self.vacuum_opening.low, self.vacuum_opening.likely, self.vacuum_opening.high] {
            VACUUM.check(vacuum)?;
        }
        let mut at = [0.0; 3];
        for (value, tolerance) in at.iter_mut().zip([self.tolerance.low, self.tolerance.likely, self.tolerance.high]) {
            *value = nominal * (1.0 + TOLERANCE.check(tolerance)?.base());
        }
        let [low, likely, high] = at.map(GaugePressure::from_base);
        let range = Estimate::sorted(low, likely, high);
        scribe.step(|| {
            Step::new("least opening of the cap", "p_cap", "p_cap = p_nominal (1 + tolerance)", &CAP_TOLERANCE)
                .with("p_nominal", self.opening)
                .with_amount("tolerance", crate::quantity::Amount::of_kind(self.tolerance.low, Kind::Share))
                .gives(range.low)
        });
        Ok(range)
    }

    /// The highest pressure in the system with a given pressure on the cap's tank side.
    ///
    /// The cap opens by the difference across it, so a tank under pressure adds its own: p = p_ambient + p_tank + p_cap.
    ///
    /// # Errors
    /// As [`Cap::opening_range`]; a tank pressure outside −50 kPa to 5 MPa.
    pub fn limit(
        &self,
        ambient: AbsolutePressure,
        tank: GaugePressure,
        scribe: &mut impl Scribe,
    ) -> Result<Estimate<AbsolutePressure>, CoolantError> {
        let opening = self.opening_range(scribe)?;
        let base = AMBIENT.check(ambient)?.base() + BACK.check(tank)?.base();
        let limit = opening.map(|opening| AbsolutePressure::from_base(base + opening.base()));
        scribe.step(|| {
            Step::new("highest pressure in the system", "p_limit", "p_limit = p₀ + p_tank + p_cap", &CAP_SEAT)
                .with("p₀", ambient)
                .with("p_tank", tank)
                .with("p_cap", opening.likely)
                .gives(limit.likely)
        });
        Ok(limit)
    }
}
