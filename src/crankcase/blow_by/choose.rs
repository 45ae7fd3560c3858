//! Which of several estimates to work with.

use super::{BlowBy, BlowByError};
use crate::note::{Note, Weight};
use crate::quantity::Measured;

/// How an estimate was come by, least informed first.
///
/// Ring gaps stand low although they are geometry of this very engine: two gaps in series leave out bore distortion,
/// ring flutter and wear that nobody measured, and come out at a third to two thirds of the other levels. They are a
/// floor, and a ventilation sized on a floor is too small.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Level {
    /// Leak-down losses assumed from the condition, no test made.
    AssumedLoss,
    /// Ring gaps and clearances: a floor (level 3).
    RingPack,
    /// Rules of thumb for the condition (level 1).
    Condition,
    /// A leak-down test of this engine (level 2).
    LeakDown,
    /// A flow measured on this engine (level 0).
    Measured,
}

impl Level {
    /// What a person reads beside the figure.
    #[must_use]
    pub const fn words(self) -> &'static str {
        match self {
            Self::AssumedLoss => "leak-down losses assumed from the condition",
            Self::RingPack => "ring gaps and clearances, a floor",
            Self::Condition => "rules of thumb for the condition",
            Self::LeakDown => "leak-down test",
            Self::Measured => "measured flow",
        }
    }
}

/// One estimate at an operating point.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Candidate {
    /// How it was come by.
    pub level: Level,
    /// The flow.
    pub blow_by: BlowBy,
}

/// The estimate to work with, and how the others stand to it.
#[derive(Clone, Debug, PartialEq)]
pub struct Choice {
    /// The best-informed estimate; size hardware on its high.
    pub headline: Candidate,
    /// The flow to judge hardware by: the headline's, its high raised to the highest of all levels when another level's
    /// likely value is more than three times the headline's, or the floor of the ring gaps lies above it. A measured flow
    /// stands by itself.
    pub judged: BlowBy,
    /// "blow-by-levels-differ" when two likely values differ by more than three times, else "blow-by-below-floor" when the
    /// ring gaps alone pass more than the headline.
    pub notes: Vec<Note>,
}

/// Ratio of two likely values beyond which they contradict each other.
const FAR_APART: f64 = 3.0;

/// The best-informed of several estimates at one operating point, with a warning when they contradict each other.
///
/// # Errors
/// When there is none.
pub fn choose(candidates: &[Candidate]) -> Result<Choice, BlowByError> {
    let headline = *candidates.iter().max_by_key(|c| c.level).ok_or(BlowByError::NoEstimate)?;
    let likely = |c: &Candidate| c.blow_by.forward.likely.base();
    let least = candidates.iter().min_by(|a, b| likely(a).total_cmp(&likely(b)));
    let most = candidates.iter().max_by(|a, b| likely(a).total_cmp(&likely(b)));
    let mut notes = Vec::new();
    let mut judged = headline.blow_by;
    let (Some(least), Some(most)) = (least, most) else { return Err(BlowByError::NoEstimate) };
    // A floor that lies far below the others contradicts nothing that is sized on them.
    let contradicted = likely(most) > FAR_APART * likely(&headline);
    let floor = candidates.iter().find(|c| c.level == Level::RingPack && likely(c) > likely(&headline));
    let high = candidates.iter().map(|c| c.blow_by.forward.high.base()).fold(0.0, f64::max);
    let raised =
        headline.level != Level::Measured && (contradicted || floor.is_some()) && high > judged.forward.high.base();
    if raised {
        // Gas drawn back stays what it was: the net flow rises by as much as the forward one.
        let more = high - judged.forward.high.base();
        judged.forward.high = Measured::from_base(high);
        judged.net.high = Measured::from_base(judged.net.high.base() + more);
    }
    let until = if raised { " Until then hardware is judged by the highest of the highs." } else { "" };
    if likely(most) > FAR_APART * likely(least) {
        let why = match (least.level == Level::RingPack, headline.level == Level::Measured) {
            (true, true) => "Ring gaps are a floor; so much above it means that faces, grooves or bores leak.",
            (true, false) => {
                "Ring gaps are a floor; so much above it means that faces, grooves or bores leak, or that an input is wrong: \
                 measure the flow at the breather."
            }
            (false, true) => {
                "The reading counts; but see that the valve's line was plugged, nothing else open, and speed and manifold \
                 pressure those of the reading: gas that went another way makes it too small, air drawn in too large."
            }
            (false, false) => {
                "One of the inputs is wrong, or the engine is unlike others; measure the flow at the breather."
            }
        };
        let text = format!(
            "Two estimates differ by more than three times: {:.2} g/s ({}) and {:.2} g/s ({}). {why}{until}",
            1e3 * likely(least),
            least.level.words(),
            1e3 * likely(most),
            most.level.words(),
        );
        notes.push(Note::new("blow-by-levels-differ", Weight::Weak, text));
    } else if let Some(floor) = floor {
        let text = format!(
            "The ring gaps alone pass {:.2} g/s, more than the {:.2} g/s of the {}: a floor cannot lie above the truth, so a \
             gap or that figure is wrong.{until}",
            1e3 * likely(floor),
            1e3 * likely(&headline),
            headline.level.words(),
        );
        notes.push(Note::new("blow-by-below-floor", Weight::Weak, text));
    }
    Ok(Choice { headline, judged, notes })
}
