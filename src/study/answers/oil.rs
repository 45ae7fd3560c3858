//! Answers about the oil's way: back from the cover to the sump, and out with the gas.

use super::FlowPath;
use crate::crankcase::oil::{
    CanFinding, CarryOver, CarryOverReason, Collected, DrainBack, GasSpeed, Passage, defaults as figures,
};
use crate::quantity::si::{MassRate, Time, Velocity};
use crate::quantity::{Amount, Estimate, Kind, Measured};
use crate::say;
use crate::study::{Duty, Sentence, State};

/// The oil's way: back to the sump, and out with the gas.
#[derive(Clone, Debug, PartialEq)]
pub struct OilAnswers {
    /// The drain from the cover, in the order of [`Duty::ALL`]; or why it cannot be said.
    pub drains: [Result<DrainAnswer, String>; 5],
    /// The oil that leaves with the gas by breather and valve, in the order of [`Duty::ALL`].
    pub out: [Vec<OilOut>; 5],
    /// What a catch can of known volume collects: at cruise, and at the duty that sends most gas through it.
    pub can: Vec<CanAnswer>,
    /// Where a can that is fitted goes when it is full.
    pub when_full: Option<CanFinding>,
}

/// Oil that leaves with the gas by one way at one duty.
#[derive(Clone, Debug, PartialEq)]
pub struct OilOut {
    /// Which way.
    pub path: FlowPath,
    /// Gas speed at the baffle and, where its bore is known, at the mouth of the outlet.
    pub speeds: Vec<GasSpeed>,
    /// The oil; or why it cannot be said.
    pub carried: Result<CarryOver, String>,
}

/// The drain from the cover at one duty.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct DrainAnswer {
    /// Which duty.
    pub duty: Duty,
    /// At the high blow-by, with the likely height of the drain.
    pub likely: DrainBack,
    /// With its least height, at the high blow-by or at the likely one with a tight baffle, whichever holds up more.
    pub least: DrainBack,
}

impl DrainAnswer {
    /// Whether the oil returns.
    #[must_use]
    pub fn state(&self) -> State {
        match (self.likely.returns(), self.least.returns()) {
            (true, true) => State::Holds,
            (true, false) => State::Thin,
            (false, _) => State::DoesNotHold,
        }
    }
}

impl OilAnswers {
    /// The duties at which oil cannot return down a likely drain, or else down a low one.
    #[must_use]
    pub fn held_up(&self, state: State) -> Vec<Duty> {
        self.drains.iter().flatten().filter(|drain| drain.state() == state).map(|drain| drain.duty).collect()
    }

    /// The drain with the least head left.
    #[must_use]
    pub fn worst_drain(&self) -> Option<&DrainAnswer> {
        let told = self.drains.iter().filter_map(|drain| drain.as_ref().ok());
        told.min_by(|a, b| a.least.margin.base().total_cmp(&b.least.margin.base()))
    }
}

/// What a can collects while the car is driven at one duty.
#[derive(Clone, Debug, PartialEq)]
pub struct CanAnswer {
    /// Which duty.
    pub duty: Duty,
    /// Gas through the can; its high end is nothing where air is drawn in.
    pub gas: Estimate<MassRate>,
    /// Speed of the car by which distance and hours go together: the mean speed entered for cruise, else that of the duty.
    pub speed: Velocity,
    /// Hours of driving until the can is half full, soonest first; none where nothing collects.
    pub half_full: [Option<Time>; 3],
    /// Oil that reaches the can, and what collects; or why nothing can be said.
    pub filled: Result<(CarryOver, Collected), String>,
}

/// Oil that leaves with the gas, in words: film dragged by fast gas grows without a bound in the equation, not in an
/// engine, so no more is told than anybody ever weighed.
pub(in crate::study) fn oil_words(oil: &Estimate<MassRate>) -> Sentence {
    let most = figures::most_weighed().likely();
    let of = |oil| Amount::of_kind(oil, Kind::CarryOver);
    if oil.likely > most {
        say!["more than ", of(most), ", how much is not known"]
    } else if oil.high > most {
        say![of(oil.likely), " (", of(oil.low), " to more than ", of(most), ")"]
    } else {
        say![(*oil, Kind::CarryOver)]
    }
}

/// What carries that oil, and what helps.
pub(in crate::study) fn why(out: &OilOut, reason: &CarryOverReason) -> Sentence {
    if !out.speeds.iter().any(|speed| matches!(speed.passage, Passage::Neck { .. })) {
        return say!["mist at least; the bore of its mouth is not known, a narrow one drags film along"];
    }
    match reason {
        CarryOverReason::MistOnly => say!["fine mist only, which gravity does not remove; it takes mesh or walls"],
        CarryOverReason::FilmAtHighFlow { passage, over } => say![
            "mist; at the high flow the gas in ",
            passage.words(),
            " is ",
            Amount::of(*over),
            " times as fast as it should be and drags film along"
        ],
        CarryOverReason::FilmDragged { passage, over } => say![
            "film and splash: the gas in ",
            passage.words(),
            " is ",
            Amount::of(*over),
            " times as fast as it should be; a larger bore there helps more than a larger can"
        ],
    }
}
