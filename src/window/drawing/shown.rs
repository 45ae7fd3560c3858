//! Which state the drawing shows: a moment the answers tell of, or a time of a day that was followed.

use crate::day::Sample;
use crate::quantity::{Estimate, Measured};
use crate::study::{CrankcaseSample, Held, Moment, Verdict};

/// What the drawing shows.
#[derive(Clone, Copy, Debug)]
pub enum Shown<'a> {
    /// A moment of the answers.
    Moment(Moment),
    /// A time of a day.
    Day(DayPoint<'a>),
}

impl From<Moment> for Shown<'_> {
    fn from(moment: Moment) -> Self {
        Self::Moment(moment)
    }
}

/// One time of a day.
#[derive(Clone, Copy, Debug)]
pub struct DayPoint<'a> {
    /// The state then.
    pub sample: &'a Sample,
    /// The crankcase then.
    pub crankcase: Option<&'a CrankcaseSample>,
    /// Verdicts of the day; where there are none those of the answers are shown.
    pub verdicts: &'a [Verdict],
    /// Only what changes is written, in larger letters: for a small drawing with the rest told beside it.
    pub terse: bool,
}

impl<'a> From<DayPoint<'a>> for Shown<'a> {
    fn from(point: DayPoint<'a>) -> Self {
        Self::Day(point)
    }
}

impl DayPoint<'_> {
    /// Whether the engine turns.
    pub(super) fn running(&self) -> bool {
        self.sample.engine_speed.base() > 0.0
    }

    /// Tank and system in the words of the answers.
    pub(super) fn held(&self) -> Held {
        let sample = self.sample;
        Held {
            gauge: sample.gauge,
            cap_open: sample.cap == crate::day::CapState::LetsOut,
            expelled: sample.out,
            in_tank: sample.in_tank,
            level: sample.level,
            tank_gauge: sample.tank_gauge,
            margin: Estimate::exact(sample.margin),
            margin_after: None,
        }
    }
}
