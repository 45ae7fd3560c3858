//! What a car does second by second in the tests of public regulations.
//!
//! Tables are compiled in; their sources and licences are in the README of this folder.

mod european;

use crate::quantity::Measured;
use crate::quantity::si::{Time, Velocity};
use crate::source::{Source, day as source};
use std::sync::LazyLock;

/// A standard speed trace.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Trace {
    /// City driving of the United States: 1369 s, 12.0 km, up to 91 km/h, stops included.
    Urban,
    /// Country roads and motorway of the United States: 765 s, 16.5 km, up to 96 km/h.
    Highway,
    /// The worldwide harmonised cycle of class 3b: 1800 s, 23.3 km, up to 131 km/h.
    Worldwide,
    /// The older European cycle, urban and extra-urban: 1180 s, 11.0 km, up to 120 km/h.
    European,
}

impl Trace {
    /// All of them.
    pub const ALL: [Self; 4] = [Self::Urban, Self::Highway, Self::Worldwide, Self::European];

    /// Road speed at 0 s, 1 s, 2 s and so on.
    #[must_use]
    pub fn speeds(self) -> &'static [Velocity] {
        static URBAN: LazyLock<Vec<Velocity>> = LazyLock::new(|| table(include_str!("urban.csv")));
        static HIGHWAY: LazyLock<Vec<Velocity>> = LazyLock::new(|| table(include_str!("highway.csv")));
        static WORLDWIDE: LazyLock<Vec<Velocity>> = LazyLock::new(|| table(include_str!("worldwide.csv")));
        static EUROPEAN: LazyLock<Vec<Velocity>> = LazyLock::new(european::speeds);
        match self {
            Self::Urban => &URBAN,
            Self::Highway => &HIGHWAY,
            Self::Worldwide => &WORLDWIDE,
            Self::European => &EUROPEAN,
        }
    }

    /// How long it lasts once.
    #[must_use]
    pub fn lasts(self) -> Time {
        Time::from_base(self.speeds().len().saturating_sub(1) as f64)
    }

    /// Its greatest speed.
    #[must_use]
    pub fn fastest(self) -> Velocity {
        Velocity::from_base(self.speeds().iter().map(|speed| speed.base()).fold(0.0, f64::max))
    }

    /// The regulation it comes from.
    #[must_use]
    pub fn source(self) -> &'static Source {
        match self {
            Self::Urban => &source::URBAN_SCHEDULE,
            Self::Highway => &source::HIGHWAY_SCHEDULE,
            Self::Worldwide => &source::WORLDWIDE_CYCLE,
            Self::European => &source::EUROPEAN_CYCLE,
        }
    }
}

/// Tenths of a km/h between commas; lines that begin with # are words. A test counts the numbers.
fn table(text: &str) -> Vec<Velocity> {
    let lines = text.lines().filter(|line| !line.starts_with('#'));
    let numbers = lines.flat_map(|line| line.split(',')).filter_map(|number| number.trim().parse::<f64>().ok());
    numbers.map(|tenths| Velocity::from_base(tenths / 36.0)).collect()
}
