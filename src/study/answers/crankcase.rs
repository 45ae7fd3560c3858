//! Answers of the crankcase side.

use super::DutyAnswers;
use crate::crankcase::arrangement::defaults;
use crate::quantity::si::{MassRate, Pressure, Ratio, VolumeRate};
use crate::quantity::{GaugePressure, Measured};
use crate::study::{Duty, State};

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
    /// Under the cover of the lowest pressure, that of the valve or the second breather included: oil comes back worst from it.
    pub lowest_cover: GaugePressure,
    /// In the catch can, if there is one.
    pub can_gauge: Option<GaugePressure>,
    /// Through the cross-over hose from the second cover to the first, if there is one.
    pub crossover: Option<MassRate>,
    /// Every flow.
    pub flows: Vec<Flow>,
    /// Other pressures at which the same arrangement could stand; empty unless a valve works with no fresh air. Looked for
    /// at the likely and the high blow-by and in the deepest depression; empty in the other cases.
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

    /// Whether gas goes out by a breather or the fresh-air line.
    #[must_use]
    pub fn breathes_out(&self) -> bool {
        self.blown_out().base() > NOTHING
    }

    /// Gas that goes out by both breathers or the fresh-air line, as volume at 20 °C and 101.325 kPa.
    #[must_use]
    pub fn blown_out(&self) -> VolumeRate {
        let ways = [FlowPath::Breather, FlowPath::SecondBreather];
        let out = ways.into_iter().filter_map(|path| self.flow(path)).map(|flow| flow.standard.base().max(0.0));
        VolumeRate::from_base(out.sum())
    }
}

/// What a shut valve's seat leaks and no builder would see, m³/s: 0.05 L/min.
const NOTHING: f64 = 0.05e-3 / 60.0;

impl DutyAnswers {
    /// Whether the pressure stays within its limit. It does not hold when the high blow-by passes the limit's likely
    /// value; it is thin when little is left then, or when a tight baffle and a dirty element pass it at the likely blow-by.
    #[must_use]
    pub fn pressure_state(&self) -> State {
        let limit = self.limit.likely.base();
        let high = self.high().gauge.base();
        if high > limit {
            State::DoesNotHold
        } else if self.unfavourable.gauge.base() > limit
            || high > defaults::little_left().likely().base() * limit.max(1.0)
        {
            State::Thin
        } else {
            State::Holds
        }
    }

    /// Whether the depression stays within its limit, at the deeper of the low and the likely blow-by on balance. It is
    /// thin beyond the limit's low end, except at full throttle, where that much is good.
    #[must_use]
    pub fn depression_state(&self) -> State {
        self.depth_state(self.deepest.deepness())
    }

    /// The state of so many pascals below the air.
    pub(super) fn depth_state(&self, deep: f64) -> State {
        if deep > self.depression.likely.base() {
            State::DoesNotHold
        } else if deep > self.depression.low.base() && self.duty != Duty::FullThrottle {
            State::Thin
        } else {
            State::Holds
        }
    }

    /// The worse of both.
    #[must_use]
    pub fn crankcase_state(&self) -> State {
        self.pressure_state().max(self.depression_state())
    }

    /// Whether the high blow-by passes the pressure at which the engine is to be stopped.
    #[must_use]
    pub fn stops(&self) -> bool {
        self.high().gauge > self.stop
    }
}

impl CrankcaseCase {
    /// How far below the air, Pa; negative above it.
    fn deepness(&self) -> f64 {
        -self.gauge.base()
    }

    /// Whether the pressure is far beyond what seals hold: what the equations give, not what a crankcase will stand at.
    #[must_use]
    pub fn beyond_seals(&self) -> bool {
        self.gauge.base().abs() > defaults::far_beyond_seals().likely().base()
    }
}
