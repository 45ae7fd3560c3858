//! The thermostat: how far it is open at a temperature, and the settings it is sold in.

use super::HeatError;
use crate::quantity::si::{Ratio, TemperatureInterval, ThermodynamicTemperature};
use crate::quantity::{Amount, Kind, Measured, Range};
use crate::scribe::{Scribe, Step};
use crate::source::{Source, heat as source};

/// The settings a thermostat may have.
pub const SET_POINT: Range = Range::new(
    "thermostat setting",
    Kind::Temperature,
    313.15,
    393.15,
    "give the temperature at which it starts to open, stamped on most thermostats",
);
/// The spans a thermostat may have.
pub const SPAN: Range = Range::new(
    "thermostat span",
    Kind::TemperatureDifference,
    1.0,
    40.0,
    "give the rise from start to fully open; 8 to 15 K is usual",
);

/// How much lower a thermostat may close than it opens.
pub const CLOSING_LAG: Range =
    Range::new("lag of the closing thermostat", Kind::TemperatureDifference, 0.0, 15.0, "2 to 4 K is usual");
/// Shares of the loop's resistance a wide open thermostat may make up.
pub const RESISTANCE_SHARE: Range = Range::new(
    "thermostat's share of the loop's resistance",
    Kind::Share,
    0.02,
    1.0,
    "10 to 60 % is usual; 100 % lets through what the thermostat is open",
);

/// A wax thermostat that throttles the flow through the radiator.
///
/// The opening rises linearly from shut at the setting to wide open one span above it. Its resistance goes with one over
/// the opening squared, in series with the rest of the loop: [`Thermostat::passed`].
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Thermostat {
    /// Temperature at which it starts to open; 40 to 120 °C.
    pub set_point: ThermodynamicTemperature,
    /// Rise from start to fully open; 1 to 40 K.
    pub span: TemperatureInterval,
    /// Share β of the loop's resistance that the wide open thermostat makes up: how much a half open one lets through.
    /// 1 lets through what it is open.
    pub resistance_share: Ratio,
}

/// A setting of the trade.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Setting {
    /// What the trade calls it.
    pub name: &'static str,
    /// The name in whole degrees Fahrenheit.
    pub fahrenheit: u16,
    /// The name in whole degrees Celsius.
    pub celsius: u16,
}

impl Setting {
    /// The temperature of the whole-degree Celsius name, at which the physics reckons.
    #[must_use]
    pub fn temperature(&self) -> ThermodynamicTemperature {
        crate::quantity::celsius(f64::from(self.celsius))
    }

    /// The temperature of the whole-degree Fahrenheit name; within 0.5 K of the other.
    #[must_use]
    pub fn exact_fahrenheit(&self) -> ThermodynamicTemperature {
        ThermodynamicTemperature::from_base((f64::from(self.fahrenheit) + 459.67) * 5.0 / 9.0)
    }
}

/// Where the settings come from.
pub static SETTINGS_SOURCE: &Source = &source::THERMOSTAT_SETTINGS;

/// The settings commonly sold (common practice, no source).
pub static SETTINGS: [Setting; 5] = [
    Setting { name: "160 °F (71 °C)", fahrenheit: 160, celsius: 71 },
    Setting { name: "170 °F (77 °C)", fahrenheit: 170, celsius: 77 },
    Setting { name: "180 °F (82 °C)", fahrenheit: 180, celsius: 82 },
    Setting { name: "190 °F (88 °C)", fahrenheit: 190, celsius: 88 },
    Setting { name: "195 °F (91 °C)", fahrenheit: 195, celsius: 91 },
];

impl Thermostat {
    /// Passes the thermostat through if setting and span lie in range.
    ///
    /// # Errors
    /// A setting outside 40 to 120 °C, a span outside 1 to 40 K, a share outside 2 to 100 %.
    pub fn check(&self) -> Result<&Self, HeatError> {
        SET_POINT.check(self.set_point)?;
        SPAN.check(self.span)?;
        RESISTANCE_SHARE.check(self.resistance_share)?;
        Ok(self)
    }

    /// The temperature at which it is wide open: setting plus span.
    #[must_use]
    pub fn full_open(&self) -> ThermodynamicTemperature {
        ThermodynamicTemperature::from_base(self.set_point.base() + self.span.base())
    }

    /// How far it is open at a coolant temperature: s = (t − t_set)/span, never below 0 or above 1.
    ///
    /// # Errors
    /// A thermostat out of range.
    pub fn opening(&self, at: ThermodynamicTemperature, scribe: &mut impl Scribe) -> Result<Ratio, HeatError> {
        self.check()?;
        let opening = Ratio::from_base(self.opening_base(at.base()));
        scribe.step(|| {
            Step::new(
                "Opening of the thermostat",
                "s",
                "s = (t − t_set)/Δt_span, within 0 to 1",
                &source::THERMOSTAT_SPAN,
            )
            .with("t", at)
            .with("t_set", self.set_point)
            .with("Δt_span", self.span)
            .gives(opening)
        });
        Ok(opening)
    }

    /// Share of the wide-open flow that passes at an opening: φ = 1/√(1 + β·(1/s² − 1)), for a pump whose pressure does not
    /// change and resistances that go with the square of the flow; the bypass and the heater are left out.
    ///
    /// # Errors
    /// A thermostat or an opening out of range.
    pub fn passed(&self, opening: Ratio, scribe: &mut impl Scribe) -> Result<Ratio, HeatError> {
        self.check()?;
        super::pump::OPENING.check(opening)?;
        let passed = Ratio::from_base(self.passed_base(opening.base()));
        scribe.step(|| {
            Step::new(
                "Share of the flow the thermostat lets pass",
                "φ",
                "φ = 1/√(1 + β·(1/s² − 1))",
                &source::THERMOSTAT_FLOW,
            )
            .with_amount("s", Amount::of_kind(opening, Kind::Share))
            .with_amount("β", Amount::of_kind(self.resistance_share, Kind::Share))
            .gives_amount(Amount::of_kind(passed, Kind::Share))
        });
        Ok(passed)
    }

    /// The same in plain numbers, for the solver; exact at shut, at wide open and for β = 1.
    pub(crate) fn passed_base(&self, opening: f64) -> f64 {
        let share = self.resistance_share.base();
        if share >= 1.0 || opening >= 1.0 {
            return opening;
        }
        opening / (opening * opening * (1.0 - share) + share).sqrt()
    }

    /// The opening at a temperature in kelvin, for the solver.
    pub(crate) fn opening_base(&self, kelvin: f64) -> f64 {
        // Compared first, so that rounding cannot leave it short of wide open at its own full-open temperature.
        if kelvin >= self.full_open().base() {
            return 1.0;
        }
        ((kelvin - self.set_point.base()) / self.span.base()).clamp(0.0, 1.0)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::celsius;
    use crate::scribe::Silent;

    #[test]
    fn opens_over_its_span() {
        let thermostat = Thermostat {
            set_point: celsius(82.0),
            span: TemperatureInterval::from_base(12.0),
            resistance_share: Ratio::from_base(0.3),
        };
        let opening = |t| thermostat.opening(celsius(t), &mut Silent).unwrap().base();
        assert_eq!(opening(60.0), 0.0);
        assert!((opening(88.0) - 0.5).abs() < 1e-12);
        assert_eq!(opening(94.0 + 1e-9), 1.0);
        assert_eq!(opening(120.0), 1.0);
    }

    #[test]
    fn both_names_of_a_setting_are_the_same_temperature() {
        for setting in &SETTINGS {
            let apart = setting.temperature().base() - setting.exact_fahrenheit().base();
            assert!(apart.abs() <= 0.5, "{}: {apart}", setting.name);
        }
    }

    #[test]
    fn refuses_what_no_thermostat_is() {
        let thermostat = Thermostat {
            set_point: celsius(82.0),
            span: TemperatureInterval::from_base(0.0),
            resistance_share: Ratio::from_base(0.3),
        };
        assert!(matches!(thermostat.opening(celsius(90.0), &mut Silent), Err(HeatError::OutOfRange(_))));
        let thermostat = Thermostat {
            set_point: celsius(f64::NAN),
            span: TemperatureInterval::from_base(12.0),
            resistance_share: Ratio::from_base(0.3),
        };
        assert!(thermostat.check().is_err());
    }
}
