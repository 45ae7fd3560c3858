//! Is the valve's port a good one, does the valve shut on backfire, and what does its gas do to the idle?

use crate::crankcase::mixture::{IdleFinding, IdleMixture, PortFinding, idle_share, too_lean};
use crate::note::Weight;
use crate::quantity::{Amount, Kind, Measured, UnitSystem};
use crate::say;
use crate::study::{Answers, Part, PortPlace, Sentence, State, Verdict};

/// Is the port a good one, and does the valve shut on backfire?
pub(in super::super) fn port(answers: &Answers, place: PortPlace) -> Option<Verdict> {
    let valve = answers.valve.as_ref()?;
    let weight = |finding: &PortFinding| finding.note().weight;
    let worst = valve.port.iter().max_by_key(|finding| weight(finding)).copied()?;
    let misses = valve.port.contains(&PortFinding::OneCylinder)
        && answers.idle_mixture.iter().flatten().filter_map(|idle| idle.one_cylinder.as_ref()).any(misses);
    let state = match weight(&worst) {
        _ if misses => State::DoesNotHold,
        Weight::Danger => State::DoesNotHold,
        Weight::Weak => State::Thin,
        Weight::Remark => State::Holds,
    };
    // A dangerous port is not made unknown by a seat nobody has tried.
    let unknown = valve.shuts.is_none() && state != State::DoesNotHold;
    let mut reason = Sentence::default();
    for finding in &valve.port {
        let joint = if reason.is_empty() { "" } else { " " };
        reason = say![reason, joint, finding.note().text];
    }
    if misses {
        reason = say![reason, " That cylinder does not fire at idle; see the idle mixture."];
    }
    if let (Some(area), Some(false)) = (valve.backfire_area, valve.shuts) {
        reason = say![reason, " Open against a backfire: ", (area, Kind::SmallArea), "."];
    }
    if unknown {
        reason = say![reason, " C and b say nothing of the way back."];
    }
    // The weightiest first; each is wanted, not one of them.
    let mut mends: Vec<&str> = Vec::new();
    if unknown {
        mends.push("blow into the valve's manifold end: if anything comes through, put a check valve in the line");
    }
    let mut sorted = valve.port.clone();
    sorted.sort_by_key(|finding| std::cmp::Reverse(weight(finding)));
    // What holds boost back holds a flame back too.
    let boost = sorted.contains(&PortFinding::BoostEnters);
    mends.extend(sorted.iter().filter(|one| !(boost && **one == PortFinding::BackfireEnters)).filter_map(mend_of));
    let mend = (!mends.is_empty()).then(|| say![mends.join("; and ")]);
    Some(Verdict {
        key: "pcv_port",
        part: Part::Valve,
        title: "Port and backfire",
        state: if unknown { State::NotKnown } else { state },
        margin: match (worst, valve.shuts) {
            (_, Some(false)) => say!["does not shut on backfire; ", in_words(place)],
            (PortFinding::BoostOnSeat, _) => say!["boost stands on the plunger's seat; ", in_words(place)],
            (_, None) if state == State::DoesNotHold => say![in_words(place)],
            (_, None) => say!["not known whether it shuts on backfire"],
            (PortFinding::Suits, _) => say!["shuts on backfire; ", in_words(place)],
            _ => say![in_words(place)],
        },
        limit: say!["full manifold depression for all cylinders alike, and shut when gas pushes back"],
        reason,
        mend,
        working: "valve/port",
    })
}

/// What mends a finding.
const fn mend_of(finding: &PortFinding) -> Option<&'static str> {
    match finding {
        PortFinding::Suits | PortFinding::CleanSide => None,
        PortFinding::NarrowerThanValve => Some("a port as wide as the valve"),
        PortFinding::OneCylinder => Some("a port on the plenum, or a spacer below the carburettor"),
        PortFinding::SharesBrakes => Some("a port of its own on the plenum"),
        PortFinding::NoDepression => Some("a port behind the throttle"),
        PortFinding::NoThrottle => Some("lead the gas to the clean side of the air cleaner, through a separator"),
        PortFinding::BoostOnSeat => Some("a tight check valve between valve and port"),
        PortFinding::BoostEnters => Some("a tight check valve between valve and port, which shuts on a backfire too"),
        PortFinding::BackfireEnters => Some("a valve that seats, or a check valve or flame screen beside it"),
    }
}

/// Whether a cylinder with this mixture does not fire: too lean, or given more gas by the valve than it takes.
fn misses(own: &IdleMixture) -> bool {
    own.change.is_none_or(|change| change > too_lean().likely())
}

const fn in_words(place: PortPlace) -> &'static str {
    match place {
        PortPlace::Plenum => "port on the plenum",
        PortPlace::OneRunner => "port on one runner",
        PortPlace::CarburettorBase => "port at the carburettor's base",
        PortPlace::BoosterTee => "tee in the brake booster's hose",
        PortPlace::BeforeThrottle => "port behind the air cleaner",
    }
}

/// What does the valve's gas do to the idle?
pub(in super::super) fn idle_mixture(answers: &Answers) -> Option<Verdict> {
    let idle = answers.idle_mixture.as_ref()?.as_ref().ok()?;
    let mixture = &idle.mixture;
    let state = |mixture: &IdleMixture| match mixture.finding {
        IdleFinding::Small | IdleFinding::Usual => State::Holds,
        IdleFinding::Large => State::Thin,
        IdleFinding::MoreThanIdle => State::DoesNotHold,
    };
    let mut reason = Sentence::default();
    for note in mixture.notes(UnitSystem::Si) {
        let joint = if reason.is_empty() { "" } else { " " };
        reason = say![reason, joint, note.text];
    }
    if mixture.finding == IdleFinding::MoreThanIdle {
        reason = say![reason, " The idle cannot be set below ", Amount::of(idle.least_speed), "."];
    }
    let mut all = state(mixture);
    if let Some(own) = &idle.one_cylinder {
        let share = Amount::of_kind(own.share, Kind::Share);
        reason = say![reason, " The cylinder whose runner has the port gets ", share, " of its gas by the valve"];
        reason = match own.change {
            Some(_) if misses(own) => say![reason, ": far too lean to fire."],
            Some(change) if change.base() > 0.0 => {
                say![reason, " and runs ", Amount::of_kind(change, Kind::Share), " leaner."]
            }
            Some(_) => say![reason, "."],
            None => say![reason, ": more than it takes."],
        };
        // A cylinder that fires, however unevenly, shakes the engine and no more; one that never does sends its charge out
        // unburnt.
        all = all.max(if misses(own) { State::DoesNotHold } else { state(own).min(State::Thin) });
    }
    let most = idle_share().estimate;
    Some(Verdict {
        key: "idle_mixture",
        part: Part::Valve,
        title: "Idle mixture",
        state: all,
        margin: say![
            Amount::of_kind(mixture.share, Kind::Share),
            " of the idle gas comes by the valve",
            if idle.one_cylinder.as_ref().is_some_and(misses) {
                ", all to one cylinder, which does not fire"
            } else {
                ""
            }
        ],
        limit: say![
            Amount::of_kind(most.low, Kind::Share),
            " to ",
            Amount::of_kind(most.high, Kind::Share),
            " are usual"
        ],
        reason,
        mend: match (all, &idle.one_cylinder) {
            (State::Holds, _) => None,
            (_, Some(_)) if state(mixture) == State::Holds => Some(say!["a port on the plenum instead of one runner"]),
            _ => Some(say!["a valve that passes less at idle, or set idle air and mixture with it fitted"]),
        },
        working: "idle-mixture",
    })
}
