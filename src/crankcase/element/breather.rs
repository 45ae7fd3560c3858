//! A breather element: a filter or a mesh, with a viscous and an inertial term.

use super::defaults::{breather_inertial, breather_viscous};
use super::response::{LAMINAR_BELOW, LINEAR_BELOW, either_way, straight_near_zero};
use super::{Ends, FlowError, Response, Warmth};
use crate::quantity::si::{MassRate, Pressure, Ratio, VolumeRate};
use crate::quantity::{Amount, Kind, LinearResistance, Measured, QuadraticResistance, Range};
use crate::scribe::{Scribe, Silent, Step};
use crate::source::crankcase::ventilation::FORCHHEIMER;

/// Viscosity at which the coefficients are given, Pa·s: air at 20 °C.
pub(super) const REFERENCE_VISCOSITY: f64 = 1.813e-5;
/// Density at which the coefficients are given, kg/m³: air at 20 °C and 101.325 kPa.
pub(super) const REFERENCE_DENSITY: f64 = 1.2041;

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

pub(super) const LINEAR_SHARE: Range = Range::new(
    "linear share of the breather element's pressure",
    Kind::Share,
    0.0,
    1.0,
    "0 for a plain hole, near 1 for fine paper; about 40 % of a small filter at 60 L/min",
);
pub(super) const LOADING: Range =
    Range::new("loading of the breather element", Kind::Number, 1.0, 20.0, "1 clean, up to 5 dirty or oiled");
const FLOW: Range =
    Range::new("flow at a measured point", Kind::GasVolumeFlow, 1.0e-4, 0.1, "air at 20 °C, 10 to 200 L/min");
const DROP: Range = Range::new(
    "pressure at a measured point",
    Kind::CrankcasePressure,
    0.1,
    1.0e4,
    "over the element, some tens to hundreds of pascals",
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
    /// From one measured point of air at about 20 °C and sea level, and the share of its pressure that goes with the flow
    /// itself: `a = s Δp/Q`, `b = (1 − s) Δp/Q²`.
    ///
    /// # Errors
    /// A figure outside its range.
    pub fn from_point(
        flow: VolumeRate,
        drop: Pressure,
        linear_share: Ratio,
        scribe: &mut impl Scribe,
    ) -> Result<Self, FlowError> {
        let (q, d) = (FLOW.check(flow)?.base(), DROP.check(drop)?.base());
        let share = LINEAR_SHARE.check(linear_share)?.base();
        let element = Self {
            viscous: LinearResistance::from_base(share * d / q),
            inertial: QuadraticResistance::from_base((1.0 - share) * d / (q * q)),
        };
        element.write_fit("s Δp/Q", "(1 − s) Δp/Q²", scribe, |step| {
            step.with_amount("s", Amount::of_kind(linear_share, Kind::Share))
                .with("Q", flow)
                .with_amount("Δp", Amount::of_kind(drop, Kind::SmallPressureDifference))
        });
        element.check()?;
        Ok(element)
    }

    /// From two measured points of air at about 20 °C and sea level: flow and pressure drop, the flow rising.
    ///
    /// # Errors
    /// As [`Self::from_rows`].
    pub fn from_points(points: [(VolumeRate, Pressure); 2]) -> Result<Self, FlowError> {
        Self::from_rows(&points, &mut Silent)
    }

    /// From two or more measured points of air at about 20 °C and sea level, flows rising: the straight line
    /// `Δp/Q = a + b Q`, through two points exactly, through more by least squares.
    ///
    /// # Errors
    /// Naming the row: a value outside its range, a flow that does not rise, a pressure that grows less than the flow or more
    /// than its square; and when there are fewer than two rows.
    pub fn from_rows(points: &[(VolumeRate, Pressure)], scribe: &mut impl Scribe) -> Result<Self, FlowError> {
        let [(first_flow, first_drop), .., (last_flow, last_drop)] = points else {
            return Err(FlowError::TooFewPoints { rows: points.len() });
        };
        let mut before: Option<(f64, f64)> = None;
        for (i, (flow, drop)) in points.iter().enumerate() {
            let row = i + 1;
            let outside = |error| FlowError::PointOutside { row, error };
            let (q, d) = (FLOW.check(*flow).map_err(outside)?.base(), DROP.check(*drop).map_err(outside)?.base());
            if let Some((q0, d0)) = before {
                if q <= q0 {
                    return Err(FlowError::PointsNotRising { row });
                }
                let times = q / q0;
                // A point on the very edge may miss it by rounding.
                let (least, most) = (d0 * times * (1.0 - 1e-9), d0 * times * times * (1.0 + 1e-9));
                if !(least..=most).contains(&d) {
                    let (least, most) = (Pressure::from_base(d0 * times), Pressure::from_base(d0 * times * times));
                    return Err(FlowError::PointOffTheLaw { row, drop: *drop, least, most });
                }
            }
            before = Some((q, d));
        }
        let count = points.len() as f64;
        let (mut mean_flow, mut mean_ratio) = (0.0, 0.0);
        for (flow, drop) in points {
            mean_flow += flow.base() / count;
            mean_ratio += drop.base() / flow.base() / count;
        }
        let (mut along, mut across) = (0.0, 0.0);
        for (flow, drop) in points {
            let off = flow.base() - mean_flow;
            along += off * off;
            across += off * (drop.base() / flow.base() - mean_ratio);
        }
        // Every row lies between the linear and the square law behind the one before it, so both parts are zero or more but
        // for rounding.
        let inertial = (across / along).max(0.0);
        let viscous = (mean_ratio - inertial * mean_flow).max(0.0);
        let element =
            Self { viscous: LinearResistance::from_base(viscous), inertial: QuadraticResistance::from_base(inertial) };
        element.write_fit("mean of Δp/Q − b Q", "slope of Δp/Q against Q", scribe, |step| {
            step.with("Q₁", *first_flow)
                .with_amount("Δp₁", Amount::of_kind(*first_drop, Kind::SmallPressureDifference))
                .with("Q_n", *last_flow)
                .with_amount("Δp_n", Amount::of_kind(*last_drop, Kind::SmallPressureDifference))
        });
        element.check()?;
        Ok(element)
    }

    fn write_fit(&self, a: &'static str, b: &'static str, scribe: &mut impl Scribe, with: impl Fn(Step) -> Step) {
        scribe
            .step(|| with(Step::new("linear part of the breather element", "a", a, &FORCHHEIMER)).gives(self.viscous));
        scribe.step(|| {
            with(Step::new("quadratic part of the breather element", "b", b, &FORCHHEIMER)).gives(self.inertial)
        });
    }

    /// The same in use: `times` the pressure of the clean one at any flow, 1 to 20.
    ///
    /// # Errors
    /// When the loading is outside its range.
    pub fn loaded(&self, times: Ratio) -> Result<Self, FlowError> {
        let times = LOADING.check(times)?.base();
        Ok(Self {
            viscous: LinearResistance::from_base(self.viscous.base() * times),
            inertial: QuadraticResistance::from_base(self.inertial.base() * times),
        })
    }

    /// How much pressure a flow of air at 20 °C and sea level costs.
    #[must_use]
    pub fn drop_at(&self, flow: VolumeRate) -> Pressure {
        let q = flow.base().abs();
        Pressure::from_base(q * (self.viscous.base() + self.inertial.base() * q))
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
