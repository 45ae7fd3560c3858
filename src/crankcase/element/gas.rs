//! The gas that flows: dry air stands for crankcase gas.

use super::FlowError;
use crate::crankcase::flow_function::{FlowFunction, GAS_CONSTANT};
use crate::fluid::air::sutherland;
use crate::fluid::crankcase_gas::ventilation_heat_ratio;
use crate::quantity::si::Ratio;

/// What the holes must know of the gas. Its specific gas constant is that of dry air, 287.05 J/(kg·K): blow-by is
/// mostly unburnt charge, and the burnt part differs by one or two per cent.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Gas {
    /// Ratio of specific heats, 1.05 to 1.67.
    pub isentropic_exponent: Ratio,
}

impl Default for Gas {
    fn default() -> Self {
        Self { isentropic_exponent: ventilation_heat_ratio().likely() }
    }
}

impl Gas {
    /// Whether the gas is one.
    ///
    /// # Errors
    /// When the ratio of specific heats is outside its range.
    pub fn check(&self) -> Result<(), FlowError> {
        Ok(ventilation_heat_ratio().check(self.isentropic_exponent).map(|_| ())?)
    }
}

/// What the flow needs of a temperature, worked out once.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct Warmth {
    /// Temperature, K.
    pub(crate) temperature: f64,
    /// `R T`, J/kg.
    pub(crate) rt: f64,
    /// `√(R T)`, m/s.
    pub(crate) root_rt: f64,
    /// Dynamic viscosity, Pa·s.
    pub(crate) viscosity: f64,
}

impl Warmth {
    pub(crate) fn of(temperature: f64) -> Self {
        let rt = GAS_CONSTANT * temperature;
        Self { temperature, rt, root_rt: rt.sqrt(), viscosity: sutherland(temperature) }
    }
}

/// The isentropic flow function with its slope.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Psi {
    function: FlowFunction,
    /// `2γ/(γ − 1)`.
    factor: f64,
    /// `2/γ`.
    two_over: f64,
    /// `(γ + 1)/γ`.
    above: f64,
}

impl Psi {
    pub(crate) fn new(gamma: f64) -> Self {
        Self {
            function: FlowFunction::new(gamma),
            factor: 2.0 * gamma / (gamma - 1.0),
            two_over: 2.0 / gamma,
            above: (gamma + 1.0) / gamma,
        }
    }

    /// The pressure ratio at which a hole chokes.
    pub(crate) const fn critical(&self) -> f64 {
        self.function.critical()
    }

    /// Value at a pressure ratio above zero.
    #[inline]
    pub(crate) fn at(&self, ratio: f64) -> f64 {
        self.function.at(ratio)
    }

    /// Value and slope at a ratio between 0 and 1, both excluded.
    #[inline]
    pub(crate) fn with_slope(&self, ratio: f64) -> (f64, f64) {
        let value = self.function.at(ratio);
        if ratio <= self.function.critical() || value <= 0.0 {
            return (value, 0.0);
        }
        // Ψ² = k (a² − r a) with a = r^(1/γ): from Ψ follows a without another power.
        let a = 0.5 * (ratio + (ratio * ratio + 4.0 * value * value / self.factor).sqrt());
        let squared_slope = self.factor * a * (self.two_over * a / ratio - self.above);
        (value, (0.5 * squared_slope / value).min(0.0))
    }
}
