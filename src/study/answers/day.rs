//! Answers of a day through time.

use super::super::Verdict;
use crate::day::{Drive, Sample};
use crate::note::Note;
use crate::quantity::GaugePressure;
use crate::quantity::si::{Length, Mass, Time};

/// A day: what the car did, and what came of it.
#[derive(Clone, Debug, PartialEq)]
pub struct DayAnswers {
    /// The legs in their order.
    pub legs: Vec<LegAnswer>,
    /// Samples, events, closures, soaks: at likely values, the cap as stamped.
    pub drive: Drive,
    /// The same at the unfavourable end: more heat, weaker radiator, cap at the low end of its tolerance.
    pub unfavourable: Drive,
    /// The crankcase at each sample of `drive`.
    pub crankcase: Vec<CrankcaseSample>,
    /// Verdicts of tank, vent, cooling and hot stop with the worst of the day beside the steady answer; each says which
    /// of the two ruled. The others are as in the answers.
    pub verdicts: Vec<Verdict>,
    /// Remarks, each once.
    pub notes: Vec<Note>,
}

/// One leg of the day as it was driven.
#[derive(Clone, Debug, PartialEq)]
pub struct LegAnswer {
    /// Its words: "Climb, 12 % at 60 km/h".
    pub name: String,
    /// When it begins.
    pub begins: Time,
    /// When it ends.
    pub ends: Time,
    /// How far the car went in it.
    pub distance: Length,
}

/// The crankcase at one sample.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct CrankcaseSample {
    /// Its pressure at the likely blow-by; `None` where it is not known.
    pub gauge: Option<GaugePressure>,
    /// Oil that has left with the gas so far.
    pub oil_out: Mass,
    /// Oil that the can has caught so far; 0 without one.
    pub oil_caught: Mass,
}

impl DayAnswers {
    /// Index of the sample at a time or the last one before it.
    #[must_use]
    pub fn sample_at(&self, time: Time) -> usize {
        self.drive.samples.partition_point(|sample| sample.time <= time).saturating_sub(1)
    }

    /// The sample at a time or the last one before it; `None` of an empty day.
    #[must_use]
    pub fn at(&self, time: Time) -> Option<&Sample> {
        self.drive.samples.get(self.sample_at(time))
    }
}
