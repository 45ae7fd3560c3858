//! A breather element: a filter or a mesh, with a viscous and an inertial term.

use super::defaults::{breather_inertial, breather_viscous};
use super::response::{LAMINAR_BELOW, LINEAR_BELOW, either_way, straight_near_zero};
use super::{Ends, FlowError, Response, Warmth};
use crate::quantity::si::{MassRate, Pressure, VolumeRate};
use crate::quantity::{Amount, Kind, LinearResistance, Measured, QuadraticResistance, Range};
use crate::scribe::{Scribe, Step};
use crate::source::crankcase::ventilation::FORCHHEIMER;

/// Viscosity at which the coefficients are given, Pa·s: air at 20 °C.
const REFERENCE_VISCOSITY: f64 = 1.813e-5;
/// Density at which the coefficients are given, kg/m³: air at 20 °C and 101.325 kPa.
const REFERENCE_DENSITY: f64 = 1.2041;

pub(super) const VISCOUS: Range = Range::new(
    "viscous coefficient of the breather element",
    Kind::LinearResistance,
    0.0,
    1.0e10,
    "a small clean filter has about 2e5 Pa/(m³/s), that is 3.3 Pa/(L/min)",
);
pub(super) const INERTIAL: Range = Range::new(
    "inertial coefficient of the breather element",
    Kind::QuadraticResistance,
    0.0,
    1.0e14,
    "a small clean filter has about 3e8 Pa/(m³/s)², that is 0.083 Pa/(L/min)²",
);

/// A breather element: `Δp = a (μ/μ_ref) Q + b (ρ/ρ_ref) Q²` with the actual volume flow `Q` at the mean pressure,
/// referred to air at 20 °C and 101.325 kPa.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct BreatherElement {
    /// Viscous coefficient a.
    pub viscous: LinearResistance,
    /// Inertial coefficient b.
    pub inertial: QuadraticResistance,
}

impl Default for BreatherElement {
    /// A small clean filter.
    fn default() -> Self {
        Self { viscous: breather_viscous().likely(), inertial: breather_inertial().likely() }
    }
}

impl BreatherElement {
    /// From two measured points of air at about 20 °C and sea level: flow and pressure drop.
    ///
    /// # Errors
    /// When no coefficients of zero or more fit.
    pub fn from_points(points: [(VolumeRate, Pressure); 2]) -> Result<Self, FlowError> {
        let [(q1, d1), (q2, d2)] = points.map(|(flow, drop)| (flow.base(), drop.base()));
        if !(q1 > 0.0 && q2 > 0.0 && d1 > 0.0 && d2 > 0.0 && q1 != q2) {
            return Err(FlowError::Points);
        }
        let inertial = (d2 / q2 - d1 / q1) / (q2 - q1);
        let viscous = d1 / q1 - inertial * q1;
        // A point on the very edge may miss zero by rounding.
        let slack = 1e-9 * d1 / q1;
        if !(viscous >= -slack && inertial * q1 >= -slack) {
            return Err(FlowError::Points);
        }
        let element = Self {
            viscous: LinearResistance::from_base(viscous.max(0.0)),
            inertial: QuadraticResistance::from_base(inertial.max(0.0)),
        };
        element.check()?;
        Ok(element)
    }

    /// Whether both coefficients lie in their ranges.
    ///
    /// # Errors
    /// When one does not, or both are zero.
    pub fn check(&self) -> Result<(), FlowError> {
        VISCOUS.check(self.viscous)?;
        INERTIAL.check(self.inertial)?;
        if self.viscous.base() == 0.0 && self.inertial.base() == 0.0 {
            return Err(FlowError::NoResistance { what: "the breather element" });
        }
        Ok(())
    }

    /// How much pressure a flow in kg/s costs at a pressure, Pa.
    pub(super) fn rough_drop(&self, flow: f64, pressure: f64, warmth: &Warmth) -> f64 {
        let volume = flow * warmth.rt / pressure;
        let density = pressure / warmth.rt;
        self.viscous.base() * warmth.viscosity / REFERENCE_VISCOSITY * volume
            + self.inertial.base() * density / REFERENCE_DENSITY * volume * volume
    }

    #[inline]
    pub(crate) fn response(&self, ends: Ends<'_>, scribe: &mut impl Scribe) -> Response {
        // With a viscous term the law is linear at zero by itself.
        let zone = if self.viscous.base() > 0.0 { LAMINAR_BELOW } else { LINEAR_BELOW };
        either_way(ends, |high, low, warmth| {
            let result = straight_near_zero(high, low, zone, |high, low| {
                // Times ρ the law reads A ṁ + B ṁ² = ρ Δp = (p₁² − p₂²)/(2 R T).
                let viscous = self.viscous.base() * warmth.viscosity / REFERENCE_VISCOSITY;
                let inertial = self.inertial.base() / REFERENCE_DENSITY;
                let drive = 0.5 * (high - low) * (high + low) / warmth.rt;
                let root = (viscous * viscous + 4.0 * inertial * drive).sqrt();
                let flow = 2.0 * drive / (viscous + root);
                let by = 1.0 / (root * warmth.rt);
                Response { flow, by_first: by * high, by_second: -by * low }
            });
            scribe.step(|| {
                let density = 0.5 * (high + low) / warmth.rt;
                Step::new(
                    "flow through the breather element",
                    "ṁ",
                    "ρ Q with a (μ/μ_ref) Q + b (ρ/ρ_ref) Q² = Δp",
                    &FORCHHEIMER,
                )
                .with("a", self.viscous)
                .with("b", self.inertial)
                .with_amount("Δp", Amount::new(high - low, Kind::SmallPressureDifference))
                .with_amount("μ", Amount::new(warmth.viscosity, Kind::Viscosity))
                .with_amount("ρ", Amount::new(density, Kind::Density))
                .gives(MassRate::from_base(result.flow))
            });
            result
        })
    }
}
