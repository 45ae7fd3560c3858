//! Water at saturation from deep frost to steam, and the dew point.

use super::MoistureError;
use crate::fluid::water;
use crate::quantity::si::{Ratio, ThermodynamicTemperature as Temperature};
use crate::quantity::{AbsolutePressure, Kind, Measured, Range, ZERO_CELSIUS, celsius, in_celsius};
use crate::scribe::{Scribe, Silent, Step};
use crate::source::DEFINITION;
use crate::source::crankcase::moisture::MAGNUS;

/// Ice, water and vapour are in balance here.
const TRIPLE: f64 = 273.16;
/// The vapour pressure there, Pa (IAPWS).
const TRIPLE_PRESSURE: f64 = 611.657;
/// Vapour pressure of the forms of Magnus at 0 °C, Pa.
const MAGNUS_PRESSURE: f64 = 611.2;
const ICE: Magnus = Magnus { factor: 22.46, shift: 272.62 };
const SUPERCOOLED: Magnus = Magnus { factor: 17.62, shift: 243.12 };
/// The form for ice ends here, °C.
const COLDEST: f64 = -65.0;

/// Temperatures of walls on which water may settle.
pub static WALL: Range = Range::new(
    "the temperature of the wall",
    Kind::Temperature,
    ZERO_CELSIUS + COLDEST,
    ZERO_CELSIUS + 150.0,
    "check the temperature and its unit",
);
/// Pressures in a crankcase.
pub static CRANKCASE_PRESSURE: Range = Range::new(
    "the pressure in the crankcase",
    Kind::AbsolutePressure,
    20e3,
    200e3,
    "absolute: the ambient plus what a gauge shows",
);
/// Shares of water vapour in a gas.
pub static VAPOUR: Range =
    Range::new("the share of water vapour", Kind::Share, 0.0, 1.0, "a share of all molecules, 0 to 100 %");

/// The form of Magnus: 611.2 Pa·exp(a·t/(b + t)).
struct Magnus {
    factor: f64,
    shift: f64,
}

impl Magnus {
    /// °C to Pa.
    fn pressure(&self, t: f64) -> f64 {
        MAGNUS_PRESSURE * (self.factor * t / (self.shift + t)).exp()
    }

    /// Pa to °C.
    fn temperature(&self, pressure: f64) -> f64 {
        let ln = (pressure / MAGNUS_PRESSURE).ln();
        self.shift * ln / (self.factor - ln)
    }
}

/// Where water begins to leave a gas.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum DewPoint {
    /// Dew forms below this temperature.
    Water(Temperature),
    /// Frost forms below this temperature.
    Frost(Temperature),
    /// The gas is so dry that no frost forms above −65 °C, where the sources end.
    Dry,
}

impl DewPoint {
    /// The temperature, or none when the gas is drier than the sources reach.
    #[must_use]
    pub const fn temperature(self) -> Option<Temperature> {
        match self {
            Self::Water(temperature) | Self::Frost(temperature) => Some(temperature),
            Self::Dry => None,
        }
    }

    /// Whether a wall of this temperature becomes wet or white.
    #[must_use]
    pub fn wets(self, wall: Temperature) -> bool {
        self.temperature().is_some_and(|dew_point| wall.base() < dew_point.base())
    }
}

/// Vapour pressure over a wall: over water from 0.01 °C up (IAPWS), over ice below it (Magnus); −65 to 150 °C.
///
/// # Errors
/// A temperature outside the range.
pub fn wall_saturation(wall: Temperature, scribe: &mut impl Scribe) -> Result<AbsolutePressure, MoistureError> {
    let t = WALL.check(wall)?;
    if t.base() >= TRIPLE {
        return Ok(water::saturation_pressure(t, scribe)?);
    }
    let pressure = AbsolutePressure::from_base(ICE.pressure(in_celsius(t)));
    scribe.step(|| {
        Step::new("vapour pressure over ice", "pᵢ", "pᵢ = 611.2 Pa·exp(22.46·t/(272.62 °C + t))", &MAGNUS)
            .with("t", wall)
            .gives(pressure)
    });
    Ok(pressure)
}

/// Vapour pressure over water, which relative humidity is counted by, also below freezing; the caller checks −45 to 60 °C.
pub(super) fn over_water(
    temperature: Temperature,
    scribe: &mut impl Scribe,
) -> Result<AbsolutePressure, MoistureError> {
    if temperature.base() >= TRIPLE {
        return Ok(water::saturation_pressure(temperature, scribe)?);
    }
    let pressure = AbsolutePressure::from_base(SUPERCOOLED.pressure(in_celsius(temperature)));
    scribe.step(|| {
        let equation = "pₛ = 611.2 Pa·exp(17.62·t/(243.12 °C + t))";
        Step::new("vapour pressure over water below freezing", "pₛ", equation, &MAGNUS)
            .with("t", temperature)
            .gives(pressure)
    });
    Ok(pressure)
}

/// The dew point of a gas, from `pₛ(T) = x p`: over water from 0.01 °C up, over ice below it.
///
/// # Errors
/// A share outside 0 to 1, or a pressure outside 20 to 200 kPa.
pub fn dew_point(
    vapour: Ratio,
    pressure: AbsolutePressure,
    scribe: &mut impl Scribe,
) -> Result<DewPoint, MoistureError> {
    let partial = VAPOUR.check(vapour)?.base() * CRANKCASE_PRESSURE.check(pressure)?.base();
    let dew_point = if partial >= TRIPLE_PRESSURE {
        DewPoint::Water(water::saturation_temperature(AbsolutePressure::from_base(partial), &mut Silent)?)
    } else if partial >= ICE.pressure(COLDEST) {
        DewPoint::Frost(celsius(ICE.temperature(partial)))
    } else {
        DewPoint::Dry
    };
    if let Some(temperature) = dew_point.temperature() {
        scribe.step(|| {
            let source = match dew_point {
                DewPoint::Water(_) => &crate::source::fluid::WATER_SATURATION,
                DewPoint::Frost(_) => &MAGNUS,
                DewPoint::Dry => &DEFINITION,
            };
            Step::new("dew point, or frost point below 0 °C", "T_d", "pₛ(T_d) = x·p", source)
                .with_amount("x", crate::quantity::Amount::of_kind(vapour, Kind::Share))
                .with("p", pressure)
                .gives(temperature)
        });
    }
    Ok(dew_point)
}
