//! The isentropic flow function of an ideal gas through a small hole, choking included.
//!
//! `ṁ = C_d A p₁ Ψ(p₂/p₁, γ)/√(R T₁)` with `p₁` the higher pressure. Dimensionless in, dimensionless out, hence plain
//! numbers; it is internal to the crankcase part, whose public functions are typed.

/// Blow-by is reckoned with the gas constant of air.
pub(crate) use crate::fluid::air::GAS_CONSTANT;

/// The flow function for one ratio of specific heats, with everything that does not depend on pressure worked out.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(crate) struct FlowFunction {
    /// `(γ − 1)/γ`.
    exponent: f64,
    /// `2γ/(γ − 1)`.
    factor: f64,
    critical: f64,
    choked: f64,
}

impl FlowFunction {
    /// For a ratio of specific heats above 1 (callers check 1.05 to 1.67).
    pub(crate) fn new(gamma: f64) -> Self {
        let mean = 2.0 / (gamma + 1.0);
        Self {
            exponent: (gamma - 1.0) / gamma,
            factor: 2.0 * gamma / (gamma - 1.0),
            critical: mean.powf(gamma / (gamma - 1.0)),
            choked: gamma.sqrt() * mean.powf((gamma + 1.0) / (2.0 * (gamma - 1.0))),
        }
    }

    /// The pressure ratio at and below which the hole is choked: `(2/(γ+1))^(γ/(γ−1))`.
    pub(crate) const fn critical(&self) -> f64 {
        self.critical
    }

    /// The largest value, reached when choked: `√γ (2/(γ+1))^((γ+1)/(2(γ−1)))`.
    pub(crate) const fn choked(&self) -> f64 {
        self.choked
    }

    /// `Ψ = √(2γ/(γ−1) · (r^(2/γ) − r^((γ+1)/γ)))` for `r_c < r < 1`; zero from `r = 1` on, `Ψ*` from `r_c` down.
    ///
    /// With `w = r^((γ−1)/γ) − 1` the bracket is `−w (r/(1+w))²`, and `w` by `expm1` keeps its digits near `r = 1`.
    #[inline]
    pub(crate) fn at(&self, ratio: f64) -> f64 {
        if ratio >= 1.0 {
            0.0
        } else if ratio <= self.critical {
            self.choked
        } else {
            let less = (self.exponent * ratio.ln()).exp_m1();
            ratio / (1.0 + less) * (-self.factor * less).sqrt()
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::ATMOSPHERE;

    #[test]
    fn critical_values_of_the_handbooks() {
        // Critical ratio 0.52828 and choked value 0.68473 for γ = 1.4; 0.53685 and 0.67614 computed independently for 1.35.
        let air = FlowFunction::new(1.4);
        assert!((air.critical() - 0.528_28).abs() < 5e-6 && (air.choked() - 0.684_73).abs() < 5e-6);
        let leak = FlowFunction::new(1.35);
        assert!((leak.critical() - 0.536_85).abs() < 5e-6 && (leak.choked() - 0.676_14).abs() < 5e-6);
        // 1 mm² choked from 101.325 kPa and 20 °C.
        let flow = 1e-6 * ATMOSPHERE * air.at(0.01) / (GAS_CONSTANT * 293.15_f64).sqrt();
        assert!((flow * 1e3 - 0.2392).abs() < 5e-5);
    }

    #[test]
    fn keeps_its_digits_near_one_and_joins_at_the_critical_ratio() {
        // Near r = 1 the bracket is 2(1 − r) with corrections of order 1 − r.
        for gap in [1e-15_f64, 1e-12, 1e-9, 1e-6] {
            let ratio = 1.0 - gap;
            let plain = (2.0 * (1.0 - ratio)).sqrt();
            assert!((FlowFunction::new(1.4).at(ratio) / plain - 1.0).abs() < 1e-5, "{gap}");
        }
        let air = FlowFunction::new(1.4);
        assert!((air.at(air.critical() * (1.0 + 1e-9)) / air.choked() - 1.0).abs() < 1e-12);
        assert_eq!(air.at(0.0), air.choked());
        assert_eq!(air.at(2.0), 0.0);
    }
}
