//! A check valve: a hole that opens one way at a pressure.

use super::defaults::{check_opening_pressure, seat_leak};
use super::orifice::{Orifice, through};
use super::{Ends, FlowError, Psi, Response};
use crate::quantity::si::{Area, Pressure};
use crate::quantity::{Kind, Measured, Range};
use crate::scribe::Scribe;

pub(super) const OPENING: Range = Range::new(
    "opening pressure of a check valve",
    Kind::PressureDifference,
    0.0,
    2.0e4,
    "crankcase check valves open at 0 to 1 kPa",
);
pub(super) const LEAK: Range = Range::new(
    "leak of a closed seat",
    Kind::SmallArea,
    0.0,
    1.0e-5,
    "a tight seat leaks about 0.0001 mm²; zero is allowed where another way out exists",
);

/// A check valve: a hole fed with the pressure above the opening pressure, and a seat that leaks a little when shut,
/// so that nothing behind it is cut off. The leak is a part of the whole opening. Flow from the first end to the second.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct CheckValve {
    /// Area times discharge coefficient when open.
    pub effective_area: Area,
    /// Pressure difference at which it opens, 0 to 20 kPa.
    pub opening_pressure: Pressure,
    /// Leak of the closed seat, as an effective area.
    pub seat_leak: Area,
}

impl CheckValve {
    /// A check valve with the usual opening pressure and seat.
    #[must_use]
    pub fn of_area(effective_area: Area) -> Self {
        Self { effective_area, opening_pressure: check_opening_pressure().likely(), seat_leak: seat_leak().likely() }
    }

    /// Whether every figure lies in its range.
    ///
    /// # Errors
    /// When one does not.
    pub fn check(&self) -> Result<(), FlowError> {
        Orifice { effective_area: self.effective_area }.check()?;
        OPENING.check(self.opening_pressure)?;
        LEAK.check(self.seat_leak)?;
        Ok(())
    }

    #[inline]
    pub(crate) fn response(&self, ends: Ends<'_>, psi: &Psi, scribe: &mut impl Scribe) -> Response {
        let Ends { first, second, warmth } = ends;
        let leak = Orifice { effective_area: self.seat_leak };
        let back = second + self.opening_pressure.base();
        if first > back {
            let open = (self.effective_area.base() - self.seat_leak.base()).max(0.0);
            let open = through(open, first, back, &warmth[0], psi, scribe);
            open.beside(leak.response(ends, psi, &mut crate::scribe::Silent))
        } else {
            leak.response(ends, psi, scribe)
        }
    }
}
