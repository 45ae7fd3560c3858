//! Grades of engine oil by SAE J300.

use super::{HeatError, Oil, oil_defaults};
use crate::quantity::si::{DynamicViscosity, KinematicViscosity, Ratio};
use crate::quantity::{Estimate, Measured, celsius};
use crate::source::{Assumed, engine_oil as source};

/// What SAE J300 asks of a grade when hot.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct HotClass {
    /// The number behind the W, or alone.
    pub number: u32,
    /// Least viscosity at 100 °C.
    pub least: KinematicViscosity,
    /// Viscosity at 100 °C it must stay below.
    pub below: KinematicViscosity,
    /// Least viscosity at 150 °C and high shear, as in a bearing.
    pub high_shear: DynamicViscosity,
}

/// A grade in common use.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[allow(missing_docs)] // Their names say it.
pub enum OilGrade {
    W0S20,
    W5S20,
    W0S30,
    W5S30,
    W10S30,
    W0S40,
    W5S40,
    W10S40,
    W15S40,
    W5S50,
    W10S50,
    W15S50,
    W20S50,
    W10S60,
    W20S60,
    S30,
    S40,
    S50,
}

/// Number when hot, usual viscosity at 100 °C in mm²/s, viscosity at 40 °C over it.
const fn figures(grade: OilGrade) -> (u32, f64, f64) {
    match grade {
        OilGrade::W0S20 => (20, 8.4, 5.3),
        OilGrade::W5S20 => (20, 8.5, 5.7),
        OilGrade::W0S30 => (30, 11.0, 5.5),
        OilGrade::W5S30 => (30, 10.8, 5.9),
        OilGrade::W10S30 => (30, 10.6, 6.6),
        OilGrade::W0S40 => (40, 13.6, 5.6),
        OilGrade::W5S40 => (40, 14.0, 6.1),
        OilGrade::W10S40 => (40, 14.3, 6.7),
        OilGrade::W15S40 => (40, 14.4, 7.5),
        OilGrade::W5S50 => (50, 17.6, 6.1),
        OilGrade::W10S50 => (50, 17.8, 6.6),
        OilGrade::W15S50 => (50, 18.5, 7.0),
        OilGrade::W20S50 => (50, 18.5, 8.7),
        OilGrade::W10S60 => (60, 23.0, 6.8),
        OilGrade::W20S60 => (60, 24.0, 8.9),
        OilGrade::S30 => (30, 11.0, 8.8),
        OilGrade::S40 => (40, 14.5, 9.8),
        OilGrade::S50 => (50, 19.0, 11.0),
    }
}

/// The spread of the viscosity at 40 °C over that at 100 °C within a grade.
const SPREAD: (f64, f64) = (0.9, 1.12);

impl OilGrade {
    /// All of them, thin to thick.
    pub const ALL: [Self; 18] = [
        Self::W0S20,
        Self::W5S20,
        Self::W0S30,
        Self::W5S30,
        Self::W10S30,
        Self::W0S40,
        Self::W5S40,
        Self::W10S40,
        Self::W15S40,
        Self::W5S50,
        Self::W10S50,
        Self::W15S50,
        Self::W20S50,
        Self::W10S60,
        Self::W20S60,
        Self::S30,
        Self::S40,
        Self::S50,
    ];

    /// What SAE J300 asks of it when hot. Of the grades 40 those for colder starts (0W, 5W, 10W) may have a little less at
    /// high shear than the others.
    #[must_use]
    pub fn hot_class(self) -> HotClass {
        let number = figures(self).0;
        let (least, below, high_shear) = match (number, self) {
            (20, _) => (6.9, 9.3, 2.6),
            (30, _) => (9.3, 12.5, 2.9),
            (40, Self::W0S40 | Self::W5S40 | Self::W10S40) => (12.5, 16.3, 3.5),
            (40, _) => (12.5, 16.3, 3.7),
            (50, _) => (16.3, 21.9, 3.7),
            _ => (21.9, 26.1, 3.7),
        };
        HotClass {
            number,
            least: KinematicViscosity::from_base(least * 1e-6),
            below: KinematicViscosity::from_base(below * 1e-6),
            high_shear: DynamicViscosity::from_base(high_shear * 1e-3),
        }
    }

    /// Viscosity at 100 °C: what is usual of the grade, within its class.
    #[must_use]
    pub fn at_100(self) -> Assumed<KinematicViscosity> {
        let HotClass { least, below, .. } = self.hot_class();
        let likely = figures(self).1 * 1e-6;
        Assumed::new([least.base(), likely, below.base()], super::oil::VISCOSITY, &source::SAE_J300)
    }

    /// Viscosity at 40 °C over that at 100 °C: what is usual of the grade, from memory.
    #[must_use]
    pub fn ratio(self) -> Assumed<Ratio> {
        let likely = figures(self).2;
        let range = oil_defaults::viscosity_ratio().range;
        Assumed::new([SPREAD.0 * likely, likely, SPREAD.1 * likely], range, &source::OIL_GRADES)
    }
}

/// An oil at the thin, the likely and the thick end of what is known of it.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct OilRange([Oil; 3]);

impl OilRange {
    /// From viscosities at 40 and 100 °C, each with its spread.
    ///
    /// # Errors
    /// As [`Oil::from_two`].
    pub fn new(at_40: &Estimate<KinematicViscosity>, at_100: &Estimate<KinematicViscosity>) -> Result<Self, HeatError> {
        let oil = |cool, warm| Oil::from_two((celsius(40.0), cool), (celsius(100.0), warm));
        let likely = oil(at_40.likely, at_100.likely)?;
        Ok(Self([oil(at_40.low, at_100.low)?, likely, oil(at_40.high, at_100.high)?]))
    }

    /// Viscosity at a temperature, likely figures.
    ///
    /// # Errors
    /// As [`Oil::viscosity`].
    pub fn likely(
        &self,
        at: crate::quantity::si::ThermodynamicTemperature,
        scribe: &mut impl crate::scribe::Scribe,
    ) -> Result<KinematicViscosity, HeatError> {
        let [_, likely, _] = &self.0;
        likely.viscosity(at, scribe)
    }

    /// Viscosity at a temperature with a spread: the thin oil at the hot end to the thick one at the cold end.
    ///
    /// # Errors
    /// As [`Oil::viscosity`].
    pub fn viscosity(
        &self,
        at: &Estimate<crate::quantity::si::ThermodynamicTemperature>,
        scribe: &mut impl crate::scribe::Scribe,
    ) -> Result<Estimate<KinematicViscosity>, HeatError> {
        let [thin, likely, thick] = &self.0;
        let silent = &mut crate::scribe::Silent;
        let (low, high) = (thin.viscosity(at.high, silent)?, thick.viscosity(at.low, silent)?);
        Ok(Estimate::sorted(low, likely.viscosity(at.likely, scribe)?, high))
    }
}
