//! How much hotter than the coolant the metal around the chambers is.

use super::pump::{ENGINE_SPEED, THOUSAND_RPM};
use super::{HeatError, oil_defaults};
use crate::quantity::si::{AngularVelocity, Power, Ratio, TemperatureInterval, ThermalConductance};
use crate::quantity::{Estimate, Measured};
use crate::scribe::{Scribe, Step};
use crate::source::engine_oil as source;

/// Metal of the chambers, exhaust ports and upper liners, and its way to the coolant.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Metal {
    /// Conductance from metal to coolant at the pump's flow at 3000 rpm.
    pub conductance: Estimate<ThermalConductance>,
    /// What natural convection still carries without any flow.
    pub natural: Estimate<ThermalConductance>,
    /// Power of the flow that the conductance goes with.
    pub exponent: Estimate<Ratio>,
}

impl Metal {
    /// Metal above coolant: Δt = Q/G with G = max(G₃₀₀₀·(N/3000 rpm)^n, G₀); the pump's flow goes with the speed, and
    /// passes through the engine whether the thermostat is open or the bypass.
    ///
    /// Where the surface is well above the boiling point, bubbles carry more: the figure then errs to the hot side.
    /// The spreads of Q, G and n join as the root of the sum of squares.
    ///
    /// # Errors
    /// A figure or the speed out of range.
    pub fn above_coolant(
        &self,
        heat: &Estimate<Power>,
        speed: AngularVelocity,
        scribe: &mut impl Scribe,
    ) -> Result<Estimate<TemperatureInterval>, HeatError> {
        let flow = ENGINE_SPEED.check(speed)?.base() / (3.0 * THOUSAND_RPM);
        oil_defaults::METAL.check_estimate::<_, HeatError>(&self.conductance)?;
        oil_defaults::METAL.check_estimate::<_, HeatError>(&self.natural)?;
        oil_defaults::metal_flow_power().range.check_estimate::<_, HeatError>(&self.exponent)?;
        let carries = |forced: ThermalConductance, natural: ThermalConductance, exponent: Ratio| {
            (forced.base() * flow.powf(exponent.base())).max(natural.base())
        };
        let (forced, natural, exponent) = (&self.conductance, &self.natural, &self.exponent);
        let usual = carries(forced.likely, natural.likely, exponent.likely);
        let likely = heat.likely.base() / usual;
        let other = |conductance: f64| heat.likely.base() / conductance - likely;
        let ways = [
            (heat.low.base() / usual - likely, heat.high.base() / usual - likely),
            (
                other(carries(forced.high, natural.high, exponent.likely)),
                other(carries(forced.low, natural.low, exponent.likely)),
            ),
            {
                let ends = [exponent.low, exponent.high].map(|n| other(carries(forced.likely, natural.likely, n)));
                (ends[0].min(ends[1]), ends[0].max(ends[1]))
            },
        ];
        let down = ways.iter().fold(0.0, |sum: f64, way| sum.hypot(way.0.min(0.0)));
        let up = ways.iter().fold(0.0, |sum: f64, way| sum.hypot(way.1.max(0.0)));
        let kelvin = TemperatureInterval::from_base;
        let above = Estimate::sorted(kelvin((likely - down).max(0.0)), kelvin(likely), kelvin(likely + up));
        scribe.step(|| {
            let equation = "Δt = Q/G, G = max(G₃₀₀₀·(N/3000 rpm)^n, G₀)";
            Step::new("Metal of the chambers above the coolant", "Δt", equation, &source::METAL_CONDUCTANCE)
                .with("Q", heat.likely)
                .with("G₃₀₀₀", forced.likely)
                .with("N", speed)
                .with("n", exponent.likely)
                .with("G₀", natural.likely)
                .gives(above.likely)
        });
        Ok(above)
    }
}
