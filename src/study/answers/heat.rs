//! Answers of oil, metal, heater and warm-up.

use super::SetPointAnswers;
use crate::heat::{HotClass, OilGrade, OilState, WarmedUp};
use crate::quantity::si::{KinematicViscosity, Power, TemperatureInterval, ThermodynamicTemperature};
use crate::quantity::{Estimate, Measured};
use crate::study::Duty;

/// Oil and metal at one duty, where the coolant settles or begins to boil.
#[derive(Clone, Debug, PartialEq)]
pub struct DutyOil {
    /// Heat to the oil.
    pub heat: Estimate<Power>,
    /// Where the oil settles and where its heat goes.
    pub state: OilState,
    /// Its viscosity there; or why it cannot be told.
    pub viscosity: Result<Estimate<KinematicViscosity>, String>,
    /// What that means to bearings.
    pub film: OilFilm,
    /// Metal around the chambers.
    pub metal: Estimate<ThermodynamicTemperature>,
}

/// Whether oil is thick enough for plain bearings under load.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum OilFilm {
    /// Even at the unfavourable end.
    Enough,
    /// At the likely figures, not at the unfavourable end.
    MayBeThin,
    /// Not at the likely figures.
    Thin,
}

impl OilFilm {
    /// From the viscosity with its spread, and the likely one alone where the spread goes beyond what the equation holds for.
    pub(in crate::study) fn of(
        viscosity: &Result<Estimate<KinematicViscosity>, String>,
        likely: Option<KinematicViscosity>,
        thin: &Estimate<KinematicViscosity>,
    ) -> Self {
        match (viscosity, likely) {
            (_, Some(likely)) if likely < thin.likely => Self::Thin,
            (Ok(viscosity), Some(_)) if viscosity.low >= thin.likely => Self::Enough,
            // Running oil leaves the equation at the hot end, where it is thinner than all of it.
            (_, Some(_)) => Self::MayBeThin,
            (_, None) => Self::Thin,
        }
    }

    /// The words a person reads.
    #[must_use]
    pub const fn words(self) -> &'static str {
        match self {
            Self::Enough => "enough for bearings under load",
            Self::MayBeThin => "enough; thin at the unfavourable end",
            Self::Thin => "thin: bearings have little left under load",
        }
    }
}

/// The oil itself, and the warm-up with the thermostat fitted.
#[derive(Clone, Debug, PartialEq)]
pub struct OilAnswer {
    /// Its grade.
    pub grade: OilGrade,
    /// What SAE J300 asks of the grade when hot.
    pub class: HotClass,
    /// Viscosity at 40 °C reckoned with.
    pub at_40: Estimate<KinematicViscosity>,
    /// Viscosity at 100 °C reckoned with.
    pub at_100: Estimate<KinematicViscosity>,
    /// Temperature it is counted as warm at.
    pub warm: ThermodynamicTemperature,
    /// Temperature of the cold start.
    pub start: ThermodynamicTemperature,
    /// The warm-up, or why it cannot be reckoned.
    pub warm_up: Result<WarmedUp, String>,
}

/// The heater as a last resort, at the duty with the hottest coolant.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct HeaterAnswer {
    /// Whether the answers reckon it on.
    pub on: bool,
    /// The duty.
    pub duty: Duty,
    /// Engine outlet with it off; none when it boils.
    pub without: Option<ThermodynamicTemperature>,
    /// Engine outlet with it on; none when it boils all the same.
    pub with: Option<ThermodynamicTemperature>,
}

impl HeaterAnswer {
    /// By how much it cools; none when it boils either way or without it.
    #[must_use]
    pub fn brings(&self) -> Option<TemperatureInterval> {
        Some(TemperatureInterval::from_base(self.without?.base() - self.with?.base()))
    }
}

impl SetPointAnswers {
    /// The oil at the duty that makes it hottest.
    #[must_use]
    pub fn hottest_oil(&self) -> &DutyOil {
        let [first, others @ ..] = &self.duties;
        let likely = |oil: &DutyOil| oil.state.temperature.likely;
        others.iter().fold(&first.oil, |hottest, at| if likely(&at.oil) > likely(hottest) { &at.oil } else { hottest })
    }

    /// The metal at the duty that makes it hottest.
    #[must_use]
    pub fn hottest_metal(&self) -> ThermodynamicTemperature {
        let metals = self.duties.iter().map(|at| at.oil.metal.likely.base());
        ThermodynamicTemperature::from_base(metals.fold(0.0, f64::max))
    }
}
