//! A component with a sonic conductance and a critical pressure ratio, after ISO 6358.

use super::response::either_way;
use super::{Ends, FlowError, Response};
use crate::quantity::si::{Area, MassRate, Ratio};
use crate::quantity::{AbsolutePressure, Amount, Kind, Measured, Range, SonicConductance};
use crate::scribe::{Scribe, Step};
use crate::source::crankcase::ventilation::ISO_6358;

/// Reference density of the standard, kg/m³.
const REFERENCE_DENSITY: f64 = 1.185;
/// Reference temperature of the standard, K.
const REFERENCE_TEMPERATURE: f64 = 293.15;
/// Pressure ratio above which the standard's law is taken as linear.
const LINEAR_ABOVE: f64 = 0.999;

/// Conductance of a choked hole for each m² of effective area: Ψ/(ρ₀ √(R T₀)) with the choked Ψ of 0.6847 for γ 1.4.
const CHOKED: f64 = 0.1992e-2;

const CONDUCTANCE: Range = Range::new(
    "sonic conductance",
    Kind::SonicConductance,
    0.0,
    1.0e-5,
    "take C from the component's data sheet, in L/(s·bar)",
);
const CRITICAL: Range =
    Range::new("critical pressure ratio", Kind::Number, 0.0, 0.9, "take b from the data sheet, often 0.2 to 0.5");

/// A component by its data sheet.
///
/// `ṁ = C ρ₀ p₁ √(T₀/T₁) · √(1 − ((r − b)/(1 − b))²)` for `r > b`, without the root below; linear above `r = 0.999`.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct SonicPort {
    /// Sonic conductance C, 0 to 1000 L/(s·bar).
    pub conductance: SonicConductance,
    /// Critical pressure ratio b, 0 to 0.9.
    pub critical_ratio: Ratio,
}

impl SonicPort {
    /// The hole that passes as much when choked: 1 mm² for each 0.1992e-8 m³/(s·Pa).
    #[must_use]
    pub fn choked_area(&self) -> Area {
        Area::from_base(self.conductance.base() / CHOKED)
    }

    /// Whether both figures lie in their ranges.
    ///
    /// # Errors
    /// When one does not.
    pub fn check(&self) -> Result<(), FlowError> {
        CONDUCTANCE.check(self.conductance)?;
        CRITICAL.check(self.critical_ratio)?;
        Ok(())
    }

    #[inline]
    pub(crate) fn response(&self, ends: Ends<'_>, scribe: &mut impl Scribe) -> Response {
        let (conductance, critical) = (self.conductance.base(), self.critical_ratio.base());
        either_way(ends, |high, low, warmth| {
            let ratio = low / high;
            let full = conductance * REFERENCE_DENSITY * (REFERENCE_TEMPERATURE / warmth.temperature).sqrt();
            let (bracket, slope) = bracket(ratio, critical);
            let result = Response {
                flow: full * high * bracket,
                by_first: full * (bracket - ratio * slope),
                by_second: full * slope,
            };
            scribe.step(|| {
                Step::new(
                    "flow through a component after ISO 6358",
                    "ṁ",
                    "C ρ₀ p₁ √(T₀/T₁) √(1 − ((r − b)/(1 − b))²), the root 1 below b, linear above 0.999",
                    &ISO_6358,
                )
                .with("C", self.conductance)
                .with("b", self.critical_ratio)
                .with("p₁", AbsolutePressure::from_base(high))
                .with_number("r", ratio)
                .with_amount("T₁", Amount::new(warmth.temperature, Kind::Temperature))
                .gives(MassRate::from_base(result.flow))
            });
            result
        })
    }
}

/// The share of the choked flow and its slope in the pressure ratio.
fn bracket(ratio: f64, critical: f64) -> (f64, f64) {
    let curve = |ratio: f64| {
        let x = (ratio - critical) / (1.0 - critical);
        (1.0 - x * x).max(0.0).sqrt()
    };
    if ratio <= critical {
        (1.0, 0.0)
    } else if ratio <= LINEAR_ABOVE {
        let value = curve(ratio);
        (value, -(ratio - critical) / ((1.0 - critical) * (1.0 - critical) * value))
    } else {
        let slope = -curve(LINEAR_ABOVE) / (1.0 - LINEAR_ABOVE);
        (slope * (ratio - 1.0), slope)
    }
}
