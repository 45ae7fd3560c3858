//! How a day is followed.

use super::defaults;
use crate::quantity::si::{Ratio, TemperatureInterval, ThermodynamicTemperature, Time};
use crate::quantity::{Kind, Measured, Range};

/// Times between samples.
pub const SAMPLE_EVERY: Range =
    Range::new("time between samples of the day", Kind::Time, 0.1, 600.0, "10 s shows what a gauge would show");
/// Errors of one step.
pub const TOLERANCE: Range = Range::new(
    "tolerance of one step of the day",
    Kind::TemperatureDifference,
    1e-9,
    0.5,
    "0.01 K is far below any doubt of the inputs",
);
/// Temperatures at which oil counts as warm.
pub const OIL_WARM: Range =
    Range::new("temperature at which the oil counts as warm", Kind::Temperature, 273.15, 423.15, "80 °C is usual");
/// Shares of the engine's coolant that may be gone.
pub const GONE: Range = Range::new(
    "share of the engine's coolant that may be lost",
    Kind::Share,
    0.01,
    0.5,
    "a fifth: with less the heads stand dry and no temperature found here holds",
);

/// How a day is followed: what it is sampled at, how closely, and when it is given up.
#[derive(Clone, Copy)]
pub struct Options<'a> {
    /// Time between samples; 0.1 to 600 s.
    pub sample_every: Time,
    /// Greatest estimated error of a temperature over one step; up to 0.5 K.
    pub tolerance: TemperatureInterval,
    /// Temperature at which the oil counts as warm.
    pub oil_warm: ThermodynamicTemperature,
    /// The day is cut short when more than this share of the engine's coolant is lost.
    pub gone: Ratio,
    /// Asked at every sample; true gives the day up.
    pub cancel: Option<&'a (dyn Fn() -> bool + Sync)>,
}

impl Default for Options<'_> {
    /// A sample every 10 s, 0.01 K a step, oil warm at 80 °C, a fifth of the engine's coolant.
    fn default() -> Self {
        Self {
            sample_every: Time::from_base(10.0),
            tolerance: TemperatureInterval::from_base(0.01),
            oil_warm: defaults::oil_warm().likely(),
            gone: defaults::gone().likely(),
            cancel: None,
        }
    }
}

impl std::fmt::Debug for Options<'_> {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.debug_struct("Options")
            .field("sample_every", &self.sample_every)
            .field("tolerance", &self.tolerance)
            .field("oil_warm", &self.oil_warm)
            .field("gone", &self.gone)
            .field("cancel", &self.cancel.is_some())
            .finish()
    }
}
