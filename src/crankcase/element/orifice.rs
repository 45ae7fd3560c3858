//! A hole: isentropic flow with a discharge coefficient, choking included.

use super::response::{LINEAR_BELOW, either_way, straight_near_zero};
use super::{Ends, FlowError, Psi, Response, Warmth};
use crate::quantity::si::{Area, Length, MassRate, Ratio};
use crate::quantity::{AbsolutePressure, Amount, Kind, Measured, Range};
use crate::scribe::{Scribe, Step};
use crate::source::DEFINITION;
use crate::source::crankcase::ventilation::ISENTROPIC_ORIFICE;

const AREA: Range = Range::new(
    "effective area of a hole",
    Kind::SmallArea,
    0.0,
    1.0e-2,
    "give the bore's area times its discharge coefficient",
);
pub(super) const BORE: Range =
    Range::new("bore of a hole", Kind::SmallLength, 1.0e-4, 0.1, "give the narrowest inside diameter");
pub(super) const DISCHARGE: Range = Range::new(
    "discharge coefficient",
    Kind::Number,
    0.3,
    1.0,
    "0.62 for a sharp edge, 0.80 to 0.85 for a short tube, 0.95 to 0.98 when rounded",
);

/// A hole.
///
/// `ṁ = C_d A p₁ Ψ(p₂/p₁)/√(R T₁)` from the higher pressure to the lower; constant in the lower one once the ratio is
/// below the critical 0.528. Linear below 0.1 Pa.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Orifice {
    /// Area times discharge coefficient, 0 to 100 cm². Zero is a shut hole.
    pub effective_area: Area,
}

impl Orifice {
    /// A round hole of a bore (0.1 to 100 mm) with a discharge coefficient (0.3 to 1).
    ///
    /// # Errors
    /// When either is outside its range.
    pub fn of_bore(bore: Length, discharge: Ratio) -> Result<Self, FlowError> {
        let (bore, discharge) = (BORE.check(bore)?, DISCHARGE.check(discharge)?);
        Ok(Self { effective_area: bore * bore * (std::f64::consts::FRAC_PI_4 * discharge.base()) })
    }

    /// Whether the area lies in its range.
    ///
    /// # Errors
    /// When it does not.
    pub fn check(&self) -> Result<(), FlowError> {
        Ok(AREA.check(self.effective_area).map(|_| ())?)
    }

    #[inline]
    pub(crate) fn response(&self, ends: Ends<'_>, psi: &Psi, scribe: &mut impl Scribe) -> Response {
        let area = self.effective_area.base();
        either_way(ends, |high, low, warmth| through(area, high, low, warmth, psi, scribe))
    }
}

/// The one hole that takes as much pressure as several in a row of bores and numbers: `d⁻⁴ = Σ n dᵢ⁻⁴`. Each is taken to lose
/// all it made of velocity, and the pressure to fall by little of itself. None without a hole.
///
/// # Errors
/// A bore outside 0.1 to 100 mm.
pub fn bore_in_a_row(holes: &[(Length, u32)], scribe: &mut impl Scribe) -> Result<Option<Length>, FlowError> {
    let mut sum = 0.0;
    for (bore, count) in holes {
        sum += f64::from(*count) * BORE.check(*bore)?.base().powi(-4);
    }
    if sum <= 0.0 {
        return Ok(None);
    }
    let bore = Length::from_base(sum.powf(-0.25));
    if !matches!(holes, [(_, 1)]) {
        scribe.step(|| {
            let mut step =
                Step::new("one hole for the narrow fittings in a row", "d", "(Σ n dᵢ⁻⁴)^(−1/4)", &DEFINITION);
            for (each, count) in holes {
                step = step
                    .with_amount("dᵢ", Amount::of_kind(*each, Kind::SmallLength))
                    .with_number("n", f64::from(*count));
            }
            step.gives_amount(Amount::of_kind(bore, Kind::SmallLength))
        });
    }
    Ok(Some(bore))
}

/// Flow through an effective area in m² from a higher pressure to a lower one.
#[inline]
pub(super) fn through(
    area: f64,
    high: f64,
    low: f64,
    warmth: &Warmth,
    psi: &Psi,
    scribe: &mut impl Scribe,
) -> Response {
    let result = straight_near_zero(high, low, LINEAR_BELOW, |high, low| {
        let ratio = low / high;
        let (value, slope) = psi.with_slope(ratio);
        let per_area = area / warmth.root_rt;
        Response {
            flow: per_area * high * value,
            by_first: per_area * (value - ratio * slope),
            by_second: per_area * slope,
        }
    });
    scribe.step(|| {
        let ratio = low / high;
        let meaning = if ratio <= psi.critical() { "flow through a hole, choked" } else { "flow through a hole" };
        Step::new(meaning, "ṁ", "C_d A p₁ Ψ(p₂/p₁)/√(R T₁), linear below 0.1 Pa", &ISENTROPIC_ORIFICE)
            .with("C_d A", Area::from_base(area))
            .with("p₁", AbsolutePressure::from_base(high))
            .with("p₂", AbsolutePressure::from_base(low))
            .with_amount("T₁", Amount::new(warmth.temperature, Kind::Temperature))
            .with_number("Ψ", psi.at(ratio))
            .gives(MassRate::from_base(result.flow))
    });
    result
}
