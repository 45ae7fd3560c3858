//! Where a coolant freezes and where it boils.

use super::liquid::{STRONG, WEAK};
use super::solution::{Solution, WATER_MOLAR_MASS, polynomial};
use super::{Base, FluidError, Mix, water};
use crate::numeric::bracketed_root;
use crate::quantity::si::{Ratio, TemperatureInterval, ThermodynamicTemperature};
use crate::quantity::{AbsolutePressure, Amount, Kind, Measured, Range, ZERO_CELSIUS, pascals};
use crate::scribe::{Scribe, Step};
use crate::source::fluid::{
    DILUTE_JOIN, FREEZING_ALLOWANCE, GLYCOL_VAPOUR, MIXED_VAPOUR, SECOND_SET, SOLUTIONS, WATER_SATURATION,
};
use crate::source::{DEFINITION, Source};

const VAPOUR_TEMPERATURE: Range = Range::new(
    "the temperature of the boiling coolant",
    Kind::Temperature,
    ZERO_CELSIUS - 40.0,
    ZERO_CELSIUS + 200.0,
    "no source reaches beyond it; check the temperature and its unit",
);
const BOILING_PRESSURE: Range = Range::new(
    "the pressure of the boiling coolant",
    Kind::AbsolutePressure,
    5.0e3,
    600.0e3,
    "give the absolute pressure, which is the gauge pressure plus that of the air outside",
);

impl Mix {
    /// Freezing point by the recommended set: T = Σ cⱼ (w − wb)ʲ to 60 % by mass; a straight line to 0 °C below 5 %.
    ///
    /// The two published sets agree within 0.8 K for propylene glycol; for ethylene glycol this one is colder by up
    /// to 3.3 K, so show a builder [`Mix::freezing_point_safe`].
    ///
    /// # Errors
    /// Above 60 % glycol by mass, where the published curves disagree.
    pub fn freezing_point<S: Scribe>(&self, scribe: &mut S) -> Result<ThermodynamicTemperature, FluidError> {
        let w = self.mass_share();
        if w.base() > STRONG {
            return Err(FluidError::NotGiven { mix: *self, limit: Ratio::from_base(STRONG) });
        }
        let freezing = ThermodynamicTemperature::from_base(self.freezing_kelvin());
        scribe.step(|| {
            let (equation, source): (_, &'static Source) = if w.base() == 0.0 {
                ("Tf = 0 °C", &DEFINITION)
            } else if w.base() < WEAK {
                ("Tf = 0 °C + (w/0.05)·(Tf₅ − 0 °C)", &DILUTE_JOIN)
            } else {
                ("Tf = Σ cⱼ·(w − wb)ʲ", &SOLUTIONS)
            };
            Step::new("freezing point", "Tf", equation, source)
                .with_amount("w", Amount::of_kind(w, Kind::Share))
                .gives(freezing)
        });
        Ok(freezing)
    }

    /// The freezing point a builder should count on: 3 K above [`Mix::freezing_point`] for ethylene glycol, never
    /// above 0 °C; the same for propylene glycol and water.
    ///
    /// # Errors
    /// As [`Mix::freezing_point`].
    pub fn freezing_point_safe<S: Scribe>(&self, scribe: &mut S) -> Result<ThermodynamicTemperature, FluidError> {
        let freezing = self.freezing_point(scribe)?;
        let allowance = self.base().solution().map_or(0.0, |solution| solution.freezing_allowance);
        if allowance == 0.0 {
            return Ok(freezing);
        }
        let safe = ThermodynamicTemperature::from_base((freezing.base() + allowance).min(water::FREEZING));
        scribe.step(|| {
            Step::new("freezing point to count on", "Tf,safe", "Tf,safe = min(Tf + ΔT, 0 °C)", &FREEZING_ALLOWANCE)
                .with("Tf", freezing)
                .with("ΔT", TemperatureInterval::from_base(allowance))
                .gives(safe)
        });
        Ok(safe)
    }

    /// Boiling (bubble) point at an absolute pressure of 5 to 600 kPa: the root of [`Mix::vapour_pressure`].
    ///
    /// Fitted from 60 to 250 kPa; see [`Mix::boiling_uncertainty`]. Outside it the same equations hold with less
    /// evidence, and [`Mix::notes`] says so.
    ///
    /// # Errors
    /// A pressure outside the range.
    pub fn boiling_point<S: Scribe>(
        &self,
        pressure: AbsolutePressure,
        scribe: &mut S,
    ) -> Result<ThermodynamicTemperature, FluidError> {
        let target = BOILING_PRESSURE.check(pressure)?.base().ln();
        let bubble = Bubble::new(self);
        // At 0 °C every mix is below 0.7 kPa, at 200 °C above 600 kPa (a test says so).
        let root = bracketed_root(|t| bubble.pressure(t).ln() - target, ZERO_CELSIUS, VAPOUR_TEMPERATURE.high, 1e-9)?;
        let temperature = ThermodynamicTemperature::from_base(root.at);
        bubble.write(self, temperature, scribe);
        scribe.step(|| {
            Step::new("boiling point", "Tb", "p(Tb) = p", &MIXED_VAPOUR).with("p", pressure).gives(temperature)
        });
        Ok(temperature)
    }

    /// Pressure at which the coolant begins to boil (bubble pressure), −40 to 200 °C.
    ///
    /// p = x_w γ_w ps_w(T) + x_g γ_g ps_g(T), ln γ_w = A x_g², ln γ_g = A x_w², A = −0.12 (ethylene glycol) or +0.47
    /// (propylene glycol); ps_w by IAPWS SR1-86, below 0 °C continued for undercooled water; ps_g by DIPPR
    /// equation 101.
    ///
    /// # Errors
    /// A temperature outside the range or below the freezing point.
    pub fn vapour_pressure<S: Scribe>(
        &self,
        temperature: ThermodynamicTemperature,
        scribe: &mut S,
    ) -> Result<AbsolutePressure, FluidError> {
        let kelvin = VAPOUR_TEMPERATURE.check(temperature)?.base();
        let freezing = self.freezing_kelvin();
        if kelvin < freezing {
            let freezing = ThermodynamicTemperature::from_base(freezing);
            return Err(FluidError::Frozen { mix: *self, temperature, freezing });
        }
        let bubble = Bubble::new(self);
        bubble.write(self, temperature, scribe);
        Ok(AbsolutePressure::new(pascals(bubble.pressure(kelvin))))
    }

    /// How far a boiling point may be off: 1 K to 55 % glycol by mass, 2 K above, 0.1 K for plain water.
    #[must_use]
    pub fn boiling_uncertainty(&self) -> TemperatureInterval {
        let w = self.mass_share().base();
        TemperatureInterval::from_base(match w {
            _ if self.base() == Base::Water || w == 0.0 => 0.1,
            _ if w <= 0.55 => 1.0,
            _ => 2.0,
        })
    }

    /// How much less the second published density set (inhibited glycols) grows on heating than this one: 0.90 for
    /// ethylene glycol, 0.97 for propylene glycol, 1 for water. A low case for an expansion volume.
    #[must_use]
    pub fn expansion_second_set(&self) -> Ratio {
        Ratio::from_base(self.base().solution().map_or(1.0, |solution| solution.second_set))
    }

    /// Where [`Mix::expansion_second_set`] comes from.
    #[must_use]
    pub fn expansion_second_set_source() -> &'static Source {
        &SECOND_SET
    }

    /// The freezing point in kelvin; above 60 % by mass that of 60 %, which is colder than −40 °C for both glycols.
    pub(super) fn freezing_kelvin(&self) -> f64 {
        let w = self.mass_share().base();
        let Some(solution) = self.base().solution() else { return water::FREEZING };
        let set = |w: f64| polynomial(&solution.freezing, w - solution.share_base);
        if w < WEAK { water::FREEZING + w / WEAK * (set(WEAK) - water::FREEZING) } else { set(w.min(STRONG)) }
    }
}

/// A mix ready to tell its bubble pressure at many temperatures.
struct Bubble {
    /// Mole fraction of the glycol.
    glycol: f64,
    water_activity: f64,
    glycol_activity: f64,
    solution: Option<&'static Solution>,
}

impl Bubble {
    fn new(mix: &Mix) -> Self {
        let w = mix.mass_share().base();
        let Some(solution) = mix.base().solution().filter(|_| w > 0.0) else {
            return Self { glycol: 0.0, water_activity: 1.0, glycol_activity: 1.0, solution: None };
        };
        let moles = w / solution.molar_mass;
        let glycol = moles / (moles + (1.0 - w) / WATER_MOLAR_MASS);
        let water = 1.0 - glycol;
        Self {
            glycol,
            water_activity: (solution.margules * glycol * glycol).exp(),
            glycol_activity: (solution.margules * water * water).exp(),
            solution: Some(solution),
        }
    }

    /// Pa, at a temperature in kelvin.
    fn pressure(&self, t: f64) -> f64 {
        let water = (1.0 - self.glycol) * self.water_activity * water::saturation(t).pressure;
        self.solution.map_or(water, |s| water + self.glycol * self.glycol_activity * glycol_saturation(s, t))
    }

    fn write(&self, mix: &Mix, temperature: ThermodynamicTemperature, scribe: &mut impl Scribe) {
        let t = temperature.base();
        let pressure = |p: f64| Amount::new(p, Kind::AbsolutePressure);
        let water = water::saturation(t).pressure;
        scribe.step(|| {
            let equation = "ln(ps/pc) = (Tc/T)·(a₁x + a₂x^1.5 + a₃x³ + a₄x^3.5 + a₅x⁴ + a₆x^7.5), x = 1 − T/Tc";
            Step::new("saturation pressure of water", "psw", equation, &WATER_SATURATION)
                .with("T", temperature)
                .gives_amount(pressure(water))
        });
        let Some(solution) = self.solution else { return };
        let glycol = glycol_saturation(solution, t);
        scribe.step(|| {
            let equation = "ps = exp(c₁ + c₂/T + c₃·ln T + c₄·T^c₅)";
            Step::new("saturation pressure of the glycol", "psg", equation, &GLYCOL_VAPOUR)
                .with("T", temperature)
                .gives_amount(pressure(glycol))
        });
        scribe.step(|| {
            let equation = "xg = (w/Mg) / (w/Mg + (1 − w)/Mw)";
            Step::new("mole fraction of the glycol", "xg", equation, &DEFINITION)
                .with_amount("w", Amount::of_kind(mix.mass_share(), Kind::Share))
                .gives_amount(Amount::number(self.glycol))
        });
        scribe.step(|| {
            let equation = "p = xw·exp(A·xg²)·psw + xg·exp(A·xw²)·psg";
            Step::new("pressure at which the coolant begins to boil", "p", equation, &MIXED_VAPOUR)
                .with_number("xg", self.glycol)
                .with_number("A", solution.margules)
                .with_amount("psw", pressure(water))
                .with_amount("psg", pressure(glycol))
                .gives_amount(pressure(self.pressure(t)))
        });
    }
}

/// Vapour pressure of the pure glycol in Pa at a temperature in kelvin.
fn glycol_saturation(solution: &Solution, t: f64) -> f64 {
    let [c1, c2, c3, c4] = solution.vapour;
    (c1 + c2 / t + c3 * t.ln() + c4 * t.powi(solution.vapour_exponent)).exp()
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Vapour pressures of the pure glycols computed with the library thermo 0.6.1 (Perry 8e, DIPPR equation 101):
    /// the same coefficients, a port.
    #[test]
    fn pure_glycols_agree_with_the_handbook_equation() {
        let table = include_str!("../../tests/reference/pure_glycol.csv");
        let mut rows = 0;
        for line in table.lines().skip(1) {
            let cells: Vec<&str> = line.split(',').map(str::trim).collect();
            let base = if cells[0] == "EG" { Base::EthyleneGlycol } else { Base::PropyleneGlycol };
            let expected: f64 = cells[3].parse().unwrap();
            let computed = glycol_saturation(base.solution().unwrap(), cells[1].parse::<f64>().unwrap() + 273.15);
            assert!((computed - expected).abs() < 5.1e-5 + 1e-9 * expected, "{line}: {computed}");
            rows += 1;
        }
        assert_eq!(rows, 42);
    }

    #[test]
    fn the_allowance_for_freezing_never_passes_zero() {
        use crate::fluid::Basis;
        use crate::scribe::Silent;
        let safe = |base, w| {
            let mix = Mix::new(base, Ratio::from_base(w), Basis::ByMass).unwrap();
            (mix.freezing_point(&mut Silent).unwrap().base(), mix.freezing_point_safe(&mut Silent).unwrap().base())
        };
        let (set, counted) = safe(Base::EthyleneGlycol, 0.5);
        assert!((counted - set - 3.0).abs() < 1e-12);
        assert_eq!(safe(Base::EthyleneGlycol, 0.02).1, 273.15);
        let (set, counted) = safe(Base::PropyleneGlycol, 0.5);
        assert_eq!(set, counted);
    }
}
