//! Does the can's drain bring back what it caught?

use crate::quantity::{Amount, Kind, Measured};
use crate::say;
use crate::study::{Answers, CanPlace, Duty, Lacking, Part, State, Verdict};

/// The tallest drain worth naming, m.
const TALLEST: f64 = 1.5;

const fn working(duty: Duty) -> &'static str {
    match duty {
        Duty::Idle => "can-drain/idle",
        Duty::Cruise => "can-drain/cruise",
        Duty::Hill => "can-drain/hill",
        Duty::FullThrottle => "can-drain/full_throttle",
        Duty::Overrun => "can-drain/overrun",
    }
}

/// Judged at the high blow-by of the worst duty: as likely, and with light oil and a stiff check.
pub(in super::super) fn can_drain(answers: &Answers, place: CanPlace) -> Option<Verdict> {
    let (worst, likely, least) = answers.lines.worst_can_drain()?;
    let state = worst.state();
    let small = |base: f64| Amount::new(base, Kind::SmallPressureDifference);
    let margin = least.margin.base();
    let margin = if margin > 0.0 {
        say![small(margin), " of head left, ", worst.duty.name()]
    } else {
        say![Lacking(small(-margin)), " of head short, ", worst.duty.name()]
    };
    // A tenth above what only just balances.
    let needed = least.stands.base() * 1.1;
    let mend = match state {
        State::Holds | State::NotKnown => None,
        _ if needed > TALLEST && place == CanPlace::ValveLine => Some(say![
            "under the manifold's depression no height does it while the engine runs: a wider line to the can, a check that lets the \
             oil down with the engine off, or empty it by hand, engine off"
        ]),
        _ if needed > TALLEST => {
            Some(say!["no height of the can does it: lower the crankcase pressure, or empty the can by hand instead"])
        }
        _ => Some(say![
            "raise the can until its floor stands ",
            Amount::new(needed, Kind::Length),
            " above the oil, or empty it by hand; a drain that does not run fills the can"
        ]),
    };
    Some(Verdict {
        key: "can_drain",
        part: Part::CatchCan,
        title: "Catch can's drain",
        state,
        margin,
        limit: say!["head of the oil above what the sump's pressure over the can's, and the check, hold up"],
        reason: say![
            "the sump stands ",
            small(likely.holds_up.base() - worst.check_opening.likely.base()),
            " above the can, and its check opens at ",
            (worst.check_opening, Kind::SmallPressureDifference),
            "; the oil stands ",
            Amount::of_kind(likely.stands, Kind::Length),
            " high in the drain"
        ],
        mend,
        working: working(worst.duty),
    })
}
