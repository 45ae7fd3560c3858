//! Viscosity of engine oil against temperature.

use super::HeatError;
use crate::quantity::si::{KinematicViscosity, ThermodynamicTemperature};
use crate::quantity::{Amount, Kind, Measured, Range};
use crate::scribe::{Scribe, Step};
use crate::source::heat as source;

/// Viscosities an oil may be given with.
pub const VISCOSITY: Range = Range::new(
    "oil viscosity",
    Kind::KinematicViscosity,
    2e-6,
    2e-2,
    "engine oils have 6 to 26 mm²/s at 100 °C and 40 to 300 mm²/s at 40 °C",
);
/// Temperatures.
pub const TEMPERATURE: Range = Range::new(
    "oil temperature",
    Kind::Temperature,
    233.15,
    473.15,
    "the equation is for liquid oil above its pour point",
);

/// The constant added to the viscosity in mm²/s.
const ADDED: f64 = 0.7;
/// The least viscosity the equation holds for, m²/s.
const LEAST: f64 = 2e-6;

/// An oil by the line through two of its viscosities: log log (ν + 0.7) = A − B·log T.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Oil {
    a: f64,
    b: f64,
}

impl Oil {
    /// From viscosities at two temperatures, usually 40 °C and 100 °C.
    ///
    /// # Errors
    /// A value out of range, temperatures in the wrong order, a viscosity that does not fall.
    pub fn from_two(
        cool: (ThermodynamicTemperature, KinematicViscosity),
        warm: (ThermodynamicTemperature, KinematicViscosity),
    ) -> Result<Self, HeatError> {
        let (t1, t2) = (TEMPERATURE.check(cool.0)?.base(), TEMPERATURE.check(warm.0)?.base());
        let (n1, n2) = (VISCOSITY.check(cool.1)?.base(), VISCOSITY.check(warm.1)?.base());
        if t2 - t1 < 1.0 {
            return Err(HeatError::NotWarmer {
                what: "the second oil temperature",
                than: "the first by at least 1 K",
                value: Amount::of(warm.0),
                other: Amount::of(cool.0),
            });
        }
        if n2 >= n1 {
            return Err(HeatError::ViscosityRises);
        }
        let b = (double_log(n1) - double_log(n2)) / (t2.log10() - t1.log10());
        Ok(Self { a: double_log(n1) + b * t1.log10(), b })
    }

    /// The constants A and B of the line.
    #[must_use]
    pub const fn constants(&self) -> (f64, f64) {
        (self.a, self.b)
    }

    /// Kinematic viscosity at a temperature, −40 to 200 °C, above 2 mm²/s.
    ///
    /// # Errors
    /// A temperature out of range, a viscosity below the equation's least or beyond the largest an oil may have.
    pub fn viscosity(
        &self,
        at: ThermodynamicTemperature,
        scribe: &mut impl Scribe,
    ) -> Result<KinematicViscosity, HeatError> {
        let t = TEMPERATURE.check(at)?.base();
        let value = (10f64.powf(10f64.powf(self.a - self.b * t.log10())) - ADDED) * 1e-6;
        if value < LEAST {
            return Err(HeatError::OilTooThin { least: Amount::new(LEAST, Kind::KinematicViscosity) });
        }
        let stiff = Range { high: 10.0, hint: "too stiff to flow; the oil is below its pour point", ..VISCOSITY };
        let viscosity = stiff.check(KinematicViscosity::from_base(value))?;
        scribe.step(|| {
            Step::new("Viscosity of the oil", "ν", "log log (ν + 0.7) = A − B·log T, ν in mm²/s", &source::WALTHER)
                .with_number("A", self.a)
                .with_number("B", self.b)
                .with_number("T", t)
                .gives(viscosity)
        });
        Ok(viscosity)
    }
}

fn double_log(viscosity: f64) -> f64 {
    (viscosity * 1e6 + ADDED).log10().log10()
}
