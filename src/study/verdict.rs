//! Verdicts: does it hold, by how much, why, and the smallest change that would mend it.

use super::Sentence;

/// The four states a verdict can have.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum State {
    /// It holds at the unfavourable end of what is known.
    Holds,
    /// It holds at the likely values but not at the unfavourable end, or with little left.
    Thin,
    /// It does not hold.
    DoesNotHold,
    /// Too little is known, or the question does not arise.
    NotKnown,
}

impl State {
    /// The word a person reads.
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            Self::Holds => "holds",
            Self::Thin => "thin",
            Self::DoesNotHold => "does not hold",
            Self::NotKnown => "not known",
        }
    }

    /// The word in JSON.
    #[must_use]
    pub const fn key(self) -> &'static str {
        match self {
            Self::Holds => "holds",
            Self::Thin => "thin",
            Self::DoesNotHold => "does_not_hold",
            Self::NotKnown => "not_known",
        }
    }
}

/// The parts of the drawing a verdict can belong to.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash, PartialOrd, Ord)]
pub enum Part {
    /// Altitude, temperatures.
    Surroundings,
    /// The liquid.
    Coolant,
    /// Engine and its water jackets, hoses.
    Engine,
    /// The pressure cap.
    Cap,
    /// The thermostat.
    Thermostat,
    /// The radiator.
    Radiator,
    /// The tank with its vent and dip tube.
    Tank,
    /// Crankcase and rings.
    Crankcase,
    /// Breather and its line.
    Breather,
    /// The valve to the manifold.
    Valve,
    /// The catch can.
    CatchCan,
    /// The joint between valve cover and head.
    CoverJoint,
}

impl Part {
    /// All of them, in the order shown.
    pub const ALL: [Self; 12] = [
        Self::Tank,
        Self::Cap,
        Self::Thermostat,
        Self::Radiator,
        Self::Engine,
        Self::Coolant,
        Self::Surroundings,
        Self::Crankcase,
        Self::Breather,
        Self::Valve,
        Self::CatchCan,
        Self::CoverJoint,
    ];

    /// Its words on screen.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Surroundings => "Surroundings",
            Self::Coolant => "Coolant",
            Self::Engine => "Engine and hoses",
            Self::Cap => "Pressure cap",
            Self::Thermostat => "Thermostat",
            Self::Radiator => "Radiator",
            Self::Tank => "Overflow tank",
            Self::Crankcase => "Crankcase",
            Self::Breather => "Breather line",
            Self::Valve => "PCV valve",
            Self::CatchCan => "Catch can",
            Self::CoverJoint => "Valve-cover joint",
        }
    }
}

/// One verdict.
#[derive(Clone, Debug, PartialEq)]
pub struct Verdict {
    /// Key in JSON: `tank_volume`.
    pub key: &'static str,
    /// The part it belongs to.
    pub part: Part,
    /// What is judged: "Tank volume".
    pub title: &'static str,
    /// Does it hold.
    pub state: State,
    /// The margin in a few words: "0.55 L to spare".
    pub margin: Sentence,
    /// The limit it is judged by.
    pub limit: Sentence,
    /// Why.
    pub reason: Sentence,
    /// The smallest change found that would mend it.
    pub mend: Option<Sentence>,
    /// The chapter of the working that explains it.
    pub working: &'static str,
}
