//! Answers of the crankcase side.

use crate::quantity::si::{MassRate, Pressure, Ratio, VolumeRate};
use crate::quantity::{Estimate, GaugePressure};

/// What is known of the blow-by, best last.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Knowledge {
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
            Self::Condition => "from condition and power",
            Self::LeakDown => "from the leak-down readings",
            Self::Measured => "from the flow meter",
        }
    }

    /// Its word in JSON.
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
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
    /// Share of the air the engine breathes, likely.
    pub share_of_air: Ratio,
    /// Every level there is input for.
    pub levels: Vec<LevelAnswer>,
}

/// Which way a flow goes.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum FlowPath {
    /// Through the breather, or the fresh-air line of a closed system.
    Breather,
    /// Through the second breather.
    SecondBreather,
    /// Through the valve into the manifold.
    Valve,
}

impl FlowPath {
    /// Its words on screen.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Breather => "breather",
            Self::SecondBreather => "second breather",
            Self::Valve => "valve",
        }
    }
}

/// One flow.
#[derive(Clone, Debug, PartialEq)]
pub struct Flow {
    /// Which way.
    pub path: FlowPath,
    /// Positive out of the crankcase, negative in.
    pub out: MassRate,
    /// The same as volume at 20 °C and 101.325 kPa.
    pub standard: VolumeRate,
    /// The element of this way that takes most of the pressure, and how much it takes.
    pub tightest: Option<(String, Pressure)>,
}

/// The crankcase at one blow-by.
#[derive(Clone, Debug, PartialEq)]
pub struct CrankcaseCase {
    /// Blow-by it was solved for.
    pub blow_by: MassRate,
    /// Crankcase pressure.
    pub gauge: GaugePressure,
    /// Under the cover, where the lines leave.
    pub cover_gauge: GaugePressure,
    /// Every flow.
    pub flows: Vec<Flow>,
    /// Other pressures at which the same arrangement could stand; empty unless a valve works with no fresh air.
    pub others: Vec<GaugePressure>,
    /// Imbalance left by the solver, over the largest flow.
    pub closure: Ratio,
}

impl CrankcaseCase {
    /// The flow along one way; `None` if the arrangement lacks it.
    #[must_use]
    pub fn flow(&self, path: FlowPath) -> Option<&Flow> {
        self.flows.iter().find(|flow| flow.path == path)
    }

    /// Whether the breather blows out.
    #[must_use]
    pub fn breather_blows_out(&self) -> bool {
        self.flow(FlowPath::Breather).is_some_and(|flow| flow.out.value > 0.0)
    }
}
