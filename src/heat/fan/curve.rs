//! A fan by its table of flow and pressure, and a belt that drives it.

use super::super::HeatError;
use super::super::pump::ENGINE_SPEED;
use crate::numeric::MonotoneCubic;
use crate::quantity::si::{AngularVelocity, Pressure, Ratio, VolumeRate};
use crate::quantity::{Kind, Measured, Range};
use crate::scribe::{Scribe, Step};
use crate::source::heat as source;

/// Flows of a fan.
pub const FAN_FLOW: Range =
    Range::new("air flow of the fan", Kind::FanFlow, 0.0, 20.0, "500 to 3500 m³/h is usual of one fan");
/// Pressures of a fan.
pub const FAN_PRESSURE: Range =
    Range::new("pressure of the fan", Kind::SmallPressureDifference, 0.0, 5000.0, "0 to 400 Pa is usual");
/// Drive ratios.
pub const DRIVE_RATIO: Range = Range::new("fan speed over engine speed", Kind::Number, 0.1, 5.0, "0.9 to 1.4 is usual");
/// Fan speeds.
pub const FAN_SPEED: Range =
    Range::new("fan speed", Kind::RotationalSpeed, 1.0, 2000.0, "give a speed from 10 to 19 000 rpm");

/// One point of a fan's table, in air of 1.2 kg/m³.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct FanPoint {
    /// Air moved.
    pub flow: VolumeRate,
    /// Static pressure gained then.
    pub pressure: Pressure,
}

/// A fan, or several alike side by side, by a table from low flow and high pressure to high flow and low pressure.
#[derive(Clone, Debug)]
pub struct FanCurve {
    table: MonotoneCubic,
    count: u32,
}

impl FanCurve {
    /// From two points or more of one fan, and how many of them stand side by side. Between the points the pressure
    /// follows a monotone cubic; two points make a straight line.
    ///
    /// # Errors
    /// Fewer than two points, flows that do not rise or pressures that do not fall from each to the next, a figure out
    /// of range, no fan or more than eight.
    pub fn new(points: &[FanPoint], count: u32) -> Result<Self, HeatError> {
        for point in points {
            FAN_FLOW.check(point.flow)?;
            FAN_PRESSURE.check(point.pressure)?;
        }
        let falls = points.windows(2).all(|pair| match pair {
            [first, second] => first.flow < second.flow && first.pressure > second.pressure,
            _ => true,
        });
        if points.len() < 2 || !falls {
            return Err(HeatError::FanTable {
                why: "give two points or more, each with more flow and less pressure than the one before",
            });
        }
        if !(1..=8).contains(&count) {
            return Err(HeatError::FanTable { why: "give 1 to 8 fans side by side" });
        }
        let pairs: Vec<_> = points.iter().map(|point| (point.flow.base(), point.pressure.base())).collect();
        let table = MonotoneCubic::new(&pairs).map_err(|_| HeatError::FanTable { why: "check its points" })?;
        Ok(Self { table, count })
    }

    /// How many stand side by side.
    #[must_use]
    pub const fn count(&self) -> u32 {
        self.count
    }

    /// Least and greatest flow of one fan's table, m³/s.
    pub(super) fn ends(&self) -> (f64, f64) {
        self.table.ends()
    }

    /// Pressure at a flow within the table, Pa; `None` outside.
    pub(super) fn pressure(&self, flow: f64) -> Option<f64> {
        self.table.at(flow).ok()
    }
}

/// What drives a fan from the engine.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct BeltDrive {
    /// Fan speed over engine speed while nothing slips.
    pub ratio: Ratio,
    /// Fan speed at which the table was measured.
    pub table_speed: AngularVelocity,
    /// The most the clutch lets the fan turn; `None` without a slipping clutch.
    pub most: Option<AngularVelocity>,
}

impl BeltDrive {
    /// Fan speed over that of the table at an engine speed: n/n₀ with n = i·N, or the clutch's limit if that is less.
    ///
    /// # Errors
    /// An engine speed, drive ratio or fan speed out of range.
    pub fn speed_ratio(&self, engine: AngularVelocity, scribe: &mut impl Scribe) -> Result<Ratio, HeatError> {
        let engine_speed = ENGINE_SPEED.check(engine)?.base();
        let ratio = DRIVE_RATIO.check(self.ratio)?.base();
        let table = FAN_SPEED.check(self.table_speed)?.base();
        let unslipped = ratio * engine_speed;
        let speed = match self.most {
            Some(most) => unslipped.min(FAN_SPEED.check(most)?.base()),
            None => unslipped,
        };
        scribe.step(|| {
            let (equation, symbol) = if speed < unslipped {
                ("n = limit of the clutch, which slips: less than i·N", "n")
            } else {
                ("n = i·N", "n")
            };
            Step::new("Speed of the fan", symbol, equation, &source::FAN_LAWS)
                .with("N", engine)
                .with_number("i", ratio)
                .gives(AngularVelocity::from_base(speed))
        });
        Ok(Ratio::from_base(speed / table))
    }
}
