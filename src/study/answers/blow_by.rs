//! Gas past the rings: by every level of knowledge, and what to measure to know it better.

use crate::quantity::Estimate;
use crate::quantity::si::{MassRate, Ratio, VolumeRate};

/// What is known of the blow-by, best last.
///
/// Ring gaps stand below the condition although they are this engine's own: what two gaps pass leaves out faces, grooves and
/// bores that leak, so it is a floor, and lines sized on a floor are too small. A leak-down test sees all of these, on the
/// standing engine; a meter sees them running.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Knowledge {
    /// Gaps and clearances of the rings: a floor.
    RingGap,
    /// Condition of the engine and its power.
    Condition,
    /// A leak-down test.
    LeakDown,
    /// Measured by a flow meter.
    Measured,
}

impl Knowledge {
    /// Its words on screen.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::RingGap => "from the ring gaps, a floor",
            Self::Condition => "from condition and power",
            Self::LeakDown => "from the leak-down readings",
            Self::Measured => "from the flow meter",
        }
    }

    /// Its word in JSON.
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            Self::RingGap => "ring_gap",
            Self::Condition => "condition",
            Self::LeakDown => "leak_down",
            Self::Measured => "measured",
        }
    }
}

/// Blow-by by one level of knowledge.
#[derive(Clone, Debug, PartialEq)]
pub struct LevelAnswer {
    /// Which.
    pub knowledge: Knowledge,
    /// Gas into the crankcase.
    pub forward: Estimate<MassRate>,
}

/// Blow-by at one duty.
#[derive(Clone, Debug, PartialEq)]
pub struct BlowByAnswers {
    /// The level used: the best there is.
    pub knowledge: Knowledge,
    /// Gas into the crankcase.
    pub forward: Estimate<MassRate>,
    /// The same as volume at 20 °C and 101.325 kPa.
    pub standard: Estimate<VolumeRate>,
    /// Gas drawn back up past the rings, likely.
    pub reverse: MassRate,
    /// Forward less reverse: what the ventilation carries on balance; negative where the rings draw gas up.
    pub net: Estimate<MassRate>,
    /// Share of the air the engine breathes, likely.
    pub share_of_air: Ratio,
    /// Every level there is input for, worst known first.
    pub levels: Vec<LevelAnswer>,
}

/// How the blow-by could be known better.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Means {
    /// A leak-down test of every cylinder.
    LeakDown,
    /// A flow meter on the breather.
    Meter,
    /// A meter that was calibrated.
    CalibratedMeter,
    /// A thermometer beside the meter.
    GasTemperature,
    /// The meter read again at full load.
    FullLoad,
}

impl Means {
    /// Its words in a sentence.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::LeakDown => "a leak-down test of every cylinder",
            Self::Meter => "a flow meter on the breather, the valve's line plugged,",
            Self::CalibratedMeter => "a calibrated meter",
            Self::GasTemperature => "a thermometer in the gas at the meter",
            Self::FullLoad => "the meter read at full load, on a chassis dynamometer,",
        }
    }

    /// Its word in JSON.
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            Self::LeakDown => "leak_down",
            Self::Meter => "meter",
            Self::CalibratedMeter => "calibrated_meter",
            Self::GasTemperature => "gas_temperature",
            Self::FullLoad => "full_load",
        }
    }
}

/// A figure that a leak-down test rests on.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum LeakDownFigure {
    /// Running over standing leak.
    RunningShare,
    /// Share past the rings.
    RingShare,
    /// Bore and discharge of the tester's restrictor.
    Restrictor,
    /// The gauges, at readings below 3 %.
    Gauges,
    /// What a turbocharger adds, which no leak-down test sees.
    Turbocharger,
}

impl LeakDownFigure {
    /// Its words in a sentence.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::RunningShare => "the running over the standing leak",
            Self::RingShare => "the share past the rings",
            Self::Restrictor => "the tester's restrictor",
            Self::Gauges => "the gauges at so small a loss",
            Self::Turbocharger => "the turbocharger's share, which the test does not see",
        }
    }

    /// Its word in JSON.
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            Self::RunningShare => "running_share",
            Self::RingShare => "ring_share",
            Self::Restrictor => "restrictor",
            Self::Gauges => "gauges",
            Self::Turbocharger => "turbocharger",
        }
    }

    /// What would settle it.
    #[must_use]
    pub const fn settled_by(self) -> &'static str {
        match self {
            Self::RunningShare => "only a flow meter on the running engine settles it",
            Self::RingShare => "listen at filler, exhaust and intake, or measure what comes out of the filler",
            Self::Restrictor => "gauge its bore with drill shanks, or check the tester against a hole of known size",
            Self::Gauges => "a tester with finer gauges, or a higher supply pressure",
            Self::Turbocharger => {
                "a flow meter, read with the turbocharger's oil drain led away and again with it fitted"
            }
        }
    }
}

/// A band after something was measured or known: high over low. None where the low end is nothing.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Band<T> {
    /// What was done, or what was swung between its ends alone.
    pub by: T,
    /// High over low.
    pub factor: Option<Ratio>,
}

/// What to measure to know the blow-by at full throttle better.
#[derive(Clone, Debug, PartialEq)]
pub struct Narrow {
    /// High over low as it is known now; none where the low end is nothing.
    pub now: Option<Ratio>,
    /// The level it is known by.
    pub knowledge: Knowledge,
    /// High over low after each thing that could be measured, the narrowest first.
    pub ways: Vec<Band<Means>>,
    /// High over low of the leak-down test with each of its figures swung between its ends alone, the widest first; empty
    /// without a test, and once a meter was read.
    pub figures: Vec<Band<LeakDownFigure>>,
}

impl Narrow {
    /// What narrows the band most; none when nothing does.
    #[must_use]
    pub fn best(&self) -> Option<&Band<Means>> {
        // A band within a hundredth of the present one is none the better.
        let now = self.now.map_or(f64::INFINITY, |now| now.value);
        self.ways.first().filter(|way| way.factor.is_some_and(|factor| factor.value < 0.99 * now))
    }
}
