//! A PCV valve that is a fixed hole with a check function.

use super::check::LEAK;
use super::defaults::{barb_discharge, fixed_orifice_bore, seat_leak};
use super::orifice::{BORE, DISCHARGE};
use super::{CheckValve, FlowError};
use crate::quantity::Measured;
use crate::quantity::si::{Area, Length, Pressure, Ratio};

/// A fixed hole of 1.5 to 3 mm that shuts against backfire. Choked below about half the ambient pressure in the
/// manifold, so its flow is the same at idle and at light cruise.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct FixedOrificeValve {
    /// Bore of the hole.
    pub bore: Length,
    /// Discharge coefficient.
    pub discharge: Ratio,
    /// Leak of the closed check, as an effective area.
    pub seat_leak: Area,
}

impl Default for FixedOrificeValve {
    fn default() -> Self {
        Self {
            bore: fixed_orifice_bore().likely(),
            discharge: barb_discharge().likely(),
            seat_leak: seat_leak().likely(),
        }
    }
}

impl FixedOrificeValve {
    /// Whether every figure lies in its range.
    ///
    /// # Errors
    /// When one does not.
    pub fn check(&self) -> Result<(), FlowError> {
        BORE.check(self.bore)?;
        DISCHARGE.check(self.discharge)?;
        LEAK.check(self.seat_leak)?;
        Ok(())
    }

    /// The same as a check valve that opens at once.
    #[must_use]
    #[inline]
    pub fn as_check(&self) -> CheckValve {
        let area = self.bore * self.bore * (std::f64::consts::FRAC_PI_4 * self.discharge.base());
        CheckValve { effective_area: area, opening_pressure: Pressure::from_base(0.0), seat_leak: self.seat_leak }
    }
}
