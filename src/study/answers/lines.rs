//! Answers on what stands in the lines, and on the can's drain.

use crate::crankcase::oil::DrainBack;
use crate::quantity::si::{Length, Pressure, VolumeRate};
use crate::quantity::{Estimate, LinearResistance, QuadraticResistance};
use crate::study::{Duty, State};

/// What stands in the lines.
#[derive(Clone, Debug, PartialEq)]
pub struct LineAnswers {
    /// The breather element as it is; none where there is none.
    pub element: Option<ElementAnswer>,
    /// Hoses that hold oil.
    pub sags: Vec<SagAnswer>,
    /// The can's drain at every duty; empty without one.
    pub can_drain: Vec<CanDrainAnswer>,
}

/// A breather element in use.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct ElementAnswer {
    /// Its linear part.
    pub linear: LinearResistance,
    /// Its quadratic part.
    pub quadratic: QuadraticResistance,
    /// A flow to compare elements at.
    pub flow: VolumeRate,
    /// What it takes at that flow.
    pub pressure: Pressure,
    /// The same at the unfavourable end.
    pub unfavourable: Pressure,
}

/// A hose that holds oil.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct SagAnswer {
    /// Which line.
    pub line: &'static str,
    /// Height of the oil.
    pub height: Length,
    /// Pressure difference that pushes gas through.
    pub opens_at: Pressure,
}

/// The drain of a catch can at one duty, at the high blow-by.
#[derive(Clone, Debug, PartialEq)]
pub struct CanDrainAnswer {
    /// Which duty.
    pub duty: Duty,
    /// What the check at its end takes.
    pub check_opening: Estimate<Pressure>,
    /// As likely, and with light oil and a stiff check; or why it cannot be said.
    pub drains: Result<(DrainBack, DrainBack), String>,
}

impl CanDrainAnswer {
    /// Whether it drains.
    #[must_use]
    pub fn state(&self) -> State {
        match &self.drains {
            Ok((likely, least)) => match (likely.returns(), least.returns()) {
                (true, true) => State::Holds,
                (true, false) => State::Thin,
                (false, _) => State::DoesNotHold,
            },
            Err(_) => State::NotKnown,
        }
    }
}

impl LineAnswers {
    /// The duty at which the can's drain has the least head left.
    #[must_use]
    pub fn worst_can_drain(&self) -> Option<(&CanDrainAnswer, &DrainBack, &DrainBack)> {
        let told = self
            .can_drain
            .iter()
            .filter_map(|one| one.drains.as_ref().ok().map(|(likely, least)| (one, likely, least)));
        told.min_by(|a, b| a.2.margin.value.total_cmp(&b.2.margin.value))
    }
}
