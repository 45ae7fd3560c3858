//! Liquid that stands in the sag of a hose.

use super::check::{LEAK, OPENING};
use super::defaults::seat_leak;
use super::orifice::through;
use super::response::either_way;
use super::{Ends, FlowError, Psi, Response};
use crate::quantity::si::{Area, Length, MassRate, Pressure};
use crate::quantity::{Amount, Kind, Measured, Range};
use crate::scribe::{Scribe, Silent, Step};
use crate::source::crankcase::ventilation::SAG;

const OPEN: Range =
    Range::new("area past the liquid in a sag", Kind::SmallArea, 0.0, 0.1, "ten times that of the hose");
/// Times the hose's own area, past the liquid: a numerical device, a hundredth of the hose's velocity head.
const WIDER: f64 = 10.0;

/// A hose shut by liquid in its sag: it opens at the head of the liquid, either way, and from there on the gas that bubbles
/// through has the pressure above that head. Below it next to nothing passes, so that nothing behind is cut off.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Sag {
    /// The head of the liquid, 0 to 20 kPa.
    pub head: Pressure,
    /// Area that the gas has once it passes, 0 to 1000 cm²: wide, since the hose's own loss is counted beside.
    pub open_area: Area,
    /// What passes below the head, as an effective area.
    pub leak: Area,
}

impl Sag {
    /// Liquid of a head in a hose of a bore.
    #[must_use]
    pub fn in_hose(head: Pressure, bore: Length) -> Self {
        Self { head, open_area: bore * bore * (WIDER * std::f64::consts::FRAC_PI_4), leak: seat_leak().likely() }
    }

    /// Whether every figure lies in its range.
    ///
    /// # Errors
    /// When one does not.
    pub fn check(&self) -> Result<(), FlowError> {
        OPEN.check(self.open_area)?;
        Range { what: "head of the liquid in a sag", hint: "a few hundred pascals for some centimetres", ..OPENING }
            .check(self.head)?;
        LEAK.check(self.leak)?;
        Ok(())
    }

    #[inline]
    pub(crate) fn response(&self, ends: Ends<'_>, psi: &Psi, scribe: &mut impl Scribe) -> Response {
        let (head, area, leak) = (self.head.base(), self.open_area.base(), self.leak.base());
        either_way(ends, |high, low, warmth| {
            let closed = through(leak, high, low, warmth, psi, &mut Silent);
            let back = low + head;
            let result =
                if high > back { through(area, high, back, warmth, psi, &mut Silent).beside(closed) } else { closed };
            scribe.step(|| {
                let meaning = if high > back {
                    "flow past the liquid in the sag"
                } else {
                    "flow past the liquid in the sag, shut"
                };
                Step::new(meaning, "ṁ", "A p₁ Ψ((p₂ + Δp_s)/p₁)/√(R T₁) above Δp_s, a leak below", &SAG)
                    .with_amount("Δp_s", Amount::of_kind(self.head, Kind::SmallPressureDifference))
                    .with_amount("A", Amount::of_kind(self.open_area, Kind::SmallArea))
                    .with_amount("p₁ − p₂", Amount::new(high - low, Kind::SmallPressureDifference))
                    .gives(MassRate::from_base(result.flow))
            });
            result
        })
    }
}
