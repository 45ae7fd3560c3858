//! What the cylinder pressure pushes through a hole of unit effective area, and draws back.

use super::{BlowByError, Trace, defaults};
use crate::crankcase::flow_function::{FlowFunction, GAS_CONSTANT};
use crate::fluid::crankcase_gas;
use crate::quantity::si::{MassFlux, Ratio, ThermodynamicTemperature as Temperature};
use crate::quantity::{AbsolutePressure, Measured};
use crate::scribe::{Scribe, Step};
use crate::source::crankcase::blow_by as source;

/// The gas on both sides of the ring pack.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct LeakPath {
    /// Pressure in the crankcase.
    pub crankcase: AbsolutePressure,
    /// Temperature of the gas drawn back from the crankcase; default [`crankcase_gas::temperature`].
    pub crankcase_temperature: Temperature,
    /// Temperature of the gas that leaves the top land; default [`defaults::crevice_temperature`].
    pub crevice_temperature: Temperature,
    /// Ratio of specific heats; default [`crankcase_gas::ring_heat_ratio`].
    pub gamma: Ratio,
}

impl LeakPath {
    /// The values to expect, for a crankcase at this pressure.
    #[must_use]
    pub fn likely(crankcase: AbsolutePressure) -> Self {
        Self {
            crankcase,
            crankcase_temperature: crankcase_gas::temperature().likely(),
            crevice_temperature: defaults::crevice_temperature().likely(),
            gamma: crankcase_gas::ring_heat_ratio().likely(),
        }
    }

    /// Whether every value lies in its range.
    ///
    /// # Errors
    /// The first value that does not.
    pub fn check(&self) -> Result<(), BlowByError> {
        defaults::CRANKCASE.check(self.crankcase)?;
        crankcase_gas::temperature().check(self.crankcase_temperature)?;
        defaults::crevice_temperature().check(self.crevice_temperature)?;
        crankcase_gas::ring_heat_ratio().check(self.gamma)?;
        Ok(())
    }
}

/// Mean flow over a cycle through a unit of effective area of one cylinder.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Leakage {
    /// Towards the crankcase.
    pub forward: MassFlux,
    /// Back into the cylinder.
    pub reverse: MassFlux,
}

impl Trace {
    /// `G = (1/720) ∫ p Ψ(p_cc/p)/√(R T_crev) dθ` towards the crankcase, and the like for the flow drawn back, which
    /// has the crankcase gas upstream. Trapezoids of at most one degree, within 4e-4 of an adaptive quadrature. Real
    /// rings may lift in reverse, which this does not see. At one manifold pressure both are independent of speed.
    ///
    /// # Errors
    /// A value of the leak path outside its range.
    pub fn leakage(&self, path: &LeakPath, scribe: &mut impl Scribe) -> Result<Leakage, BlowByError> {
        path.check()?;
        let flow = FlowFunction::new(path.gamma.base());
        let crankcase = path.crankcase.base();
        let (mut forward, mut reverse) = (0.0, 0.0);
        for segment in self.segments() {
            let (mut out, mut back) = (0.0, 0.0);
            let last = segment.pressures.len().saturating_sub(1);
            for (i, &pressure) in segment.pressures.iter().enumerate().step_by(2) {
                let weight = if i == 0 || i == last { 0.5 } else { 1.0 };
                if pressure > crankcase {
                    out += weight * pressure * flow.at(crankcase / pressure);
                } else {
                    back += weight * crankcase * flow.at(pressure / crankcase);
                }
            }
            forward += out * 2.0 * segment.step;
            reverse += back * 2.0 * segment.step;
        }
        let leakage = Leakage {
            forward: MassFlux::from_base(forward / 720.0 / (GAS_CONSTANT * path.crevice_temperature.base()).sqrt()),
            reverse: MassFlux::from_base(reverse / 720.0 / (GAS_CONSTANT * path.crankcase_temperature.base()).sqrt()),
        };
        scribe.step(|| {
            Step::new(
                "mean leak towards the crankcase, each cylinder, for each area",
                "G",
                "G = (1/720°) ∫ p Ψ(p_cc/p)/√(R T_crev) dθ",
                &source::ISENTROPIC_HOLE,
            )
            .with("p_cc", path.crankcase)
            .with("T_crev", path.crevice_temperature)
            .with("γ", path.gamma)
            .gives(leakage.forward)
        });
        scribe.step(|| {
            Step::new(
                "mean flow drawn back, each cylinder, for each area",
                "G_rev",
                "G_rev = (1/720°) ∫ p_cc Ψ(p/p_cc)/√(R T_cc) dθ",
                &source::ISENTROPIC_HOLE,
            )
            .with("T_cc", path.crankcase_temperature)
            .gives(leakage.reverse)
        });
        Ok(leakage)
    }
}
