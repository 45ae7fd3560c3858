//! Answers of a day through time.

use super::super::{Sentence, TankArrangement, Verdict};
use crate::day::{Drive, ExtremeOf, Sample};
use crate::note::Note;
use crate::quantity::si::{Length, Mass, Ratio, Time, Volume};
use crate::quantity::{Amount, GaugePressure, Kind};
use crate::scribe::Chapter;

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
    /// How the tank is joined, which tells where what leaves the cap goes.
    pub arrangement: TankArrangement,
    /// What the tank holds up to its lid.
    pub capacity: Volume,
    /// Growth at the high end of its doubt over the likely one, which the tank is judged with.
    pub growth_doubt: Ratio,
    /// Verdicts of tank, vent, cooling and hot stop with the worst of the day beside the steady answer; each says which
    /// of the two ruled. The others are as in the answers.
    pub verdicts: Vec<Verdict>,
    /// Remarks, each once.
    pub notes: Vec<Note>,
    /// The working of the likely run and of the road, when it was asked for.
    pub working: Vec<Chapter>,
}

/// One leg of the day as it was driven.
#[derive(Clone, Debug, PartialEq)]
pub struct LegAnswer {
    /// Its words: "Climb, 12 % at 60 km/h".
    pub name: Sentence,
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

    /// The worst of something at the likely values.
    #[must_use]
    pub fn extreme(&self, of: ExtremeOf) -> Option<&Sample> {
        worst(&self.drive, of)
    }

    /// The sample at a time or the last one before it; `None` of an empty day.
    #[must_use]
    pub fn at(&self, time: Time) -> Option<&Sample> {
        self.drive.samples.get(self.sample_at(time))
    }
}

/// The sample of a drive at which something is worst.
pub(in crate::study) fn worst(drive: &Drive, of: ExtremeOf) -> Option<&Sample> {
    drive.extremes.iter().find(|extreme| extreme.of == of).and_then(|extreme| drive.samples.get(extreme.sample))
}

impl ExtremeOf {
    /// All of them, in the order they are told.
    pub(in crate::study) const ALL: [Self; 9] = [
        Self::Coolant,
        Self::Metal,
        Self::Oil,
        Self::Margin,
        Self::Pressure,
        Self::Depression,
        Self::FullTank,
        Self::EmptyTank,
        Self::TankPressure,
    ];

    /// Its key in JSON.
    #[must_use]
    pub const fn key(self) -> &'static str {
        match self {
            Self::Coolant => "hottest_coolant",
            Self::Metal => "hottest_metal",
            Self::Oil => "hottest_oil",
            Self::Margin => "smallest_margin",
            Self::Pressure => "highest_pressure",
            Self::Depression => "lowest_pressure",
            Self::FullTank => "fullest_tank",
            Self::EmptyTank => "emptiest_tank",
            Self::TankPressure => "highest_tank_pressure",
        }
    }

    /// Its words on screen.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Coolant => "Hottest coolant",
            Self::Metal => "Hottest metal around the coolant",
            Self::Oil => "Hottest oil",
            Self::Margin => "Smallest boiling margin",
            Self::Pressure => "Highest system pressure",
            Self::Depression => "Lowest system pressure",
            Self::FullTank => "Fullest tank",
            Self::EmptyTank => "Emptiest tank",
            Self::TankPressure => "Highest pressure in the tank",
        }
    }

    /// Its figure of a sample.
    #[must_use]
    pub fn amount(self, sample: &Sample) -> Amount {
        match self {
            Self::Coolant => Amount::of(sample.coolant),
            Self::Metal => Amount::of(sample.metal),
            Self::Oil => Amount::of(sample.oil),
            Self::Margin => Amount::of(sample.margin),
            Self::Pressure | Self::Depression => Amount::of(sample.gauge),
            Self::FullTank | Self::EmptyTank => Amount::of_kind(sample.in_tank, Kind::Volume),
            Self::TankPressure => Amount::of(sample.tank_gauge),
        }
    }
}
