//! Answers of the PCV valve: what it passes, its port, the mixture at idle, and what if it fails.

use super::{CrankcaseCase, DutyAnswers};
use crate::crankcase::arrangement::defaults;
use crate::crankcase::mixture::{IdleMixture, PortFinding};
use crate::quantity::si::{AngularVelocity, Area, MassRate, Pressure, Ratio, VolumeRate};
use crate::quantity::{Estimate, GaugePressure, Measured};
use crate::study::{Duty, State, ValveKind};

/// What the valve does by itself.
#[derive(Clone, Debug, PartialEq)]
pub struct ValveAnswers {
    /// What it is.
    pub kind: ValveKind,
    /// The depressions at which it begins to close and has closed to its idle opening; none if it does not move so.
    pub moves_between: Option<(Pressure, Pressure)>,
    /// Its widest opening, as an effective area.
    pub widest: Area,
    /// What it passes at each duty with the ambient air at 20 °C right ahead of it, as volume at 20 °C and 101.325 kPa.
    pub passes: [Result<VolumeRate, String>; 5],
    /// What the rows of a bench with a known orifice come to.
    pub bench: Vec<BenchRow>,
    /// What is to be said of its port and its way back.
    pub port: Vec<PortFinding>,
    /// What stays open against a backfire; none where its data sheet does not say.
    pub backfire_area: Option<Estimate<Area>>,
    /// Whether it shuts on backfire; none where nobody knows.
    pub shuts: Option<bool>,
}

impl ValveAnswers {
    /// The chapter of what it passes by itself.
    #[must_use]
    pub const fn working(duty: Duty) -> &'static str {
        match duty {
            Duty::Idle => "valve/idle",
            Duty::Cruise => "valve/cruise",
            Duty::Hill => "valve/hill",
            Duty::FullThrottle => "valve/full_throttle",
            Duty::Overrun => "valve/overrun",
        }
    }
}

/// One row of a bench with a known orifice.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct BenchRow {
    /// Depression across the valve.
    pub depression: Pressure,
    /// Flow through orifice and valve, as volume at 20 °C and 101.325 kPa.
    pub flow: VolumeRate,
    /// Effective area of the valve.
    pub area: Area,
}

/// The mixture at idle with the gas of the valve.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct IdleMixtureAnswers {
    /// Share of the idle gas, fresh air, change of λ.
    pub mixture: IdleMixture,
    /// What comes by the valve: with the throttle quite shut the engine takes no less.
    pub least_air: MassRate,
    /// The speed that keeps up at the same manifold pressure; the idle cannot be set below it.
    pub least_speed: AngularVelocity,
    /// The same of the one cylinder whose runner has the port.
    pub one_cylinder: Option<IdleMixture>,
}

/// What may fail.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Failure {
    /// The valve sticks open.
    StuckOpen,
    /// The valve sticks shut.
    StuckShut,
    /// The breather or the fresh-air line is blocked; of two the first.
    BreatherBlocked,
}

impl Failure {
    /// All of them.
    pub const ALL: [Self; 3] = [Self::StuckOpen, Self::StuckShut, Self::BreatherBlocked];

    /// Its words on screen.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::StuckOpen => "PCV valve stuck open",
            Self::StuckShut => "PCV valve stuck shut",
            Self::BreatherBlocked => "breather blocked",
        }
    }

    /// Its word in JSON.
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            Self::StuckOpen => "stuck_open",
            Self::StuckShut => "stuck_shut",
            Self::BreatherBlocked => "breather_blocked",
        }
    }

    /// The chapter of the working at a duty.
    #[must_use]
    pub const fn working(self, duty: Duty) -> &'static str {
        const OPEN: [&str; 5] = [
            "failure/stuck_open/idle",
            "failure/stuck_open/cruise",
            "failure/stuck_open/hill",
            "failure/stuck_open/full_throttle",
            "failure/stuck_open/overrun",
        ];
        const SHUT: [&str; 5] = [
            "failure/stuck_shut/idle",
            "failure/stuck_shut/cruise",
            "failure/stuck_shut/hill",
            "failure/stuck_shut/full_throttle",
            "failure/stuck_shut/overrun",
        ];
        const BLOCKED: [&str; 5] = [
            "failure/breather_blocked/idle",
            "failure/breather_blocked/cruise",
            "failure/breather_blocked/hill",
            "failure/breather_blocked/full_throttle",
            "failure/breather_blocked/overrun",
        ];
        let of = match self {
            Self::StuckOpen => &OPEN,
            Self::StuckShut => &SHUT,
            Self::BreatherBlocked => &BLOCKED,
        };
        of[duty.index()]
    }
}

/// Where the crankcase stands with a failure.
#[derive(Clone, Debug, PartialEq)]
pub enum Stands {
    /// It has a steady pressure: the one the failure is feared for. That is the deepest, at the low blow-by on balance,
    /// where too much is drawn; the one at the high blow-by where too little gets out or boost blows in; of both what is judged worse.
    At(Box<CrankcaseCase>),
    /// Nothing leads out any more, or so little that the pressure rises until a seal gives.
    NoWayOut,
    /// More is drawn out than comes in at any depression: it grows until a seal leaks.
    NoWayIn,
    /// No answer, and why.
    NotKnown(String),
}

/// A failure at one duty.
#[derive(Clone, Debug, PartialEq)]
pub struct FailureDuty {
    /// Which duty.
    pub duty: Duty,
    /// Whether what lies behind the valve stands above the air, so that boost blows in where nothing shuts.
    pub boosted: bool,
    /// Where the crankcase stands.
    pub stands: Stands,
    /// That judged by the limits of the duty.
    pub state: State,
}

impl FailureDuty {
    /// The crankcase, if it has a steady pressure.
    #[must_use]
    pub fn case(&self) -> Option<&CrankcaseCase> {
        if let Stands::At(case) = &self.stands { Some(case) } else { None }
    }
}

/// What if a part fails.
#[derive(Clone, Debug, PartialEq)]
pub struct FailureAnswers {
    /// Which.
    pub failure: Failure,
    /// At each duty.
    pub duties: [FailureDuty; 5],
    /// Stuck open: share of the idling engine's gas that the valve then passes.
    pub idle_share: Option<Ratio>,
}

impl FailureAnswers {
    /// The duty at which it is worst: by what does not hold, then by what is not known, then by how far from the air.
    #[must_use]
    pub fn worst(&self) -> &FailureDuty {
        let far = |duty: &FailureDuty| match &duty.stands {
            Stands::NoWayOut | Stands::NoWayIn => f64::INFINITY,
            Stands::At(case) => case.gauge.base().abs(),
            Stands::NotKnown(_) => 0.0,
        };
        let order = |duty: &FailureDuty| match duty.state {
            State::Holds => 0,
            State::Thin => 1,
            State::NotKnown => 2,
            State::DoesNotHold => 3,
        };
        let [first, rest @ ..] = &self.duties;
        rest.iter().fold(first, |worst, duty| {
            let worse = order(duty).cmp(&order(worst)).then(far(duty).total_cmp(&far(worst)));
            if worse.is_gt() { duty } else { worst }
        })
    }
}

impl DutyAnswers {
    /// Any pressure of the crankcase judged by the limits of this duty, be it above or below the air.
    #[must_use]
    pub fn judged(&self, gauge: GaugePressure) -> State {
        let (limit, gauge) = (self.limit.likely.base(), gauge.base());
        let over = if gauge > limit {
            State::DoesNotHold
        } else if gauge > defaults::little_left().likely().base() * limit.max(1.0) {
            State::Thin
        } else {
            State::Holds
        };
        over.max(self.depth_state(-gauge))
    }
}
