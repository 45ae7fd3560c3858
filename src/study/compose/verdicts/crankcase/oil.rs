//! Verdicts on the oil's way back, and on the catch can.

use super::Findings;
use crate::crankcase::oil::{CanFinding, Collected};
use crate::quantity::{Amount, Kind, Measured};
use crate::say;
use crate::study::{Answers, CanAnswer, CanPlace, DrainAnswer, Duty, Lacking, Part, Sentence, State, Verdict};

/// Does the oil come back from the cover against the gas? Judged at the high blow-by and the low drain.
pub(in crate::study::compose) fn oil_return(answers: &Answers) -> Verdict {
    let pascals = |pressure| Amount::of_kind(pressure, Kind::SmallPressureDifference);
    let unknown = answers.oil.drains.iter().find_map(|drain| drain.as_ref().err());
    let told = |state, margin, reason, mend, working| Verdict {
        key: "oil_return",
        part: Part::Crankcase,
        title: "Oil's way back",
        state,
        margin,
        limit: say!["the oil in the drain outweighs crankcase above cover, at the high blow-by or with a tight baffle"],
        reason,
        mend,
        working,
    };
    let (Some(drain), None) = (answers.oil.worst_drain(), unknown) else {
        let why = unknown.map_or("no duty could be reckoned", String::as_str);
        return told(State::NotKnown, say!["not told"], say![why], None, drain_working(Duty::FullThrottle));
    };
    let left = drain.least.margin;
    let margin = if drain.least.returns() {
        say![pascals(left), " of head left, ", drain.duty.name()]
    } else {
        say![Lacking(pascals(-left)), " of head short, ", drain.duty.name()]
    };
    let named = |state| {
        let duties = answers.oil.held_up(state);
        (!duties.is_empty()).then(|| duties.iter().map(|duty| duty.name()).collect::<Vec<_>>().join(", "))
    };
    let fails = match (named(State::DoesNotHold), named(State::Thin)) {
        (Some(never), low) => {
            let low = low.map_or_else(String::new, |low| format!(", nor down a low one at: {low}"));
            say![
                "oil cannot return through the drain at: ",
                never,
                low,
                "; the cover fills and the gas carries the oil out; "
            ]
        }
        (None, Some(low)) => say!["oil cannot return through a low drain at: ", low, "; "],
        (None, None) => Sentence::default(),
    };
    let reason = say![
        fails,
        "the crankcase stands ",
        pascals(drain.likely.holds_up),
        " above the lowest cover",
        with_tight_baffle(drain),
        ", a low drain has a head of ",
        pascals(drain.least.head),
        ", a likely one ",
        pascals(drain.likely.head)
    ];
    let mend = (drain.state() != State::Holds).then(|| {
        say![
            "open a way for the gas beside the drain: larger baffle openings, or a hose from block to cover; or a drain taller than ",
            Amount::of(if drain.least.stands > drain.likely.stands { drain.least.stands } else { drain.likely.stands })
        ]
    });
    told(drain.state(), margin, reason, mend, drain_working(drain.duty))
}

/// What a tight baffle adds, where it holds up more than the high blow-by does.
fn with_tight_baffle(drain: &DrainAnswer) -> Sentence {
    if drain.least.holds_up <= drain.likely.holds_up {
        return Sentence::default();
    }
    say![
        " (",
        Amount::of_kind(drain.least.holds_up, Kind::SmallPressureDifference),
        " at the likely blow-by with a tight baffle)"
    ]
}

const fn drain_working(duty: Duty) -> &'static str {
    match duty {
        Duty::Idle => "oil-return/idle",
        Duty::Cruise => "oil-return/cruise",
        Duty::Hill => "oil-return/hill",
        Duty::FullThrottle => "oil-return/full_throttle",
        Duty::Overrun => "oil-return/overrun",
    }
}

/// Does the can hold what collects between two looks at it? Judged in mixed driving, at the high end; what the hardest duty
/// sends is told beside it.
pub(in crate::study::compose) fn catch_can(answers: &Answers, findings: &Findings<'_, '_>) -> Option<Verdict> {
    let inputs = &findings.context.project.ventilation.can;
    if inputs.place == CanPlace::None {
        return None;
    }
    let diesel = findings.context.project.engine.is_diesel();
    let full = answers.oil.when_full.map_or("", |finding| when_full(finding, diesel));
    let limit = say![
        "twice what collects in ",
        Amount::of_kind(inputs.service, Kind::RoadDistance),
        " of mixed driving on the coldest day"
    ];
    let told = |state, margin, limit, reason, mend, working| {
        Some(Verdict {
            key: "catch_can",
            part: Part::CatchCan,
            title: "Catch can",
            state,
            margin,
            limit,
            reason,
            mend,
            working,
        })
    };
    if inputs.volume.is_none() {
        let limit = say!["it holds what collects between two looks at it"];
        let mend = Some(say!["enter its volume up to the outlet; until then look at it every few hundred kilometres"]);
        let reason = say!["full, ", full];
        return told(State::NotKnown, say!["its volume is not known"], limit, reason, mend, "can/cruise");
    }
    let can = |wanted: bool| answers.oil.can.iter().find(|can| (can.duty == Duty::Cruise) == wanted);
    let hard = can(false).map_or_else(Sentence::default, at_the_hardest);
    // What cannot be reckoned though gas passes is never fine.
    let silent = |can: &&CanAnswer| can.filled.is_err() && can.gas.high.base() > 0.0;
    let at_best = if can(false).is_some_and(|can| silent(&can)) { State::Thin } else { State::Holds };
    let collected = match can(true).map(|can| (can.gas.high.base() > 0.0, &can.filled)) {
        Some((_, Ok((_, collected)))) => collected,
        Some((true, Err(why))) => {
            let reason = say!["Cruise: ", why.as_str(), hard, "; full, ", full];
            return told(State::NotKnown, say!["not told"], limit, reason, None, "can/cruise");
        }
        _ => {
            let reason = say!["no gas leaves by the can at cruise", hard, "; full, ", full];
            return told(at_best, say!["nothing collects in mixed driving"], limit, reason, None, "can/cruise");
        }
    };
    // Under depression a can does not drain by itself while the engine runs.
    let led_back = inputs.drains || inputs.drain.known;
    // A drain that a hard duty holds up fills the can.
    let held_up = answers.lines.worst_can_drain().is_some_and(|(worst, ..)| worst.state() == State::DoesNotHold);
    let by_itself = led_back && inputs.place == CanPlace::BreatherLine && !held_up;
    let watery = collected.water.high.base() > 0.0;
    let state = match collected.findings.as_slice() {
        _ if by_itself && watery => State::Thin,
        _ if by_itself => State::Holds,
        findings if findings.contains(&CanFinding::LargeEnough) => State::Holds,
        findings if findings.contains(&CanFinding::TightAtHigh) => State::Thin,
        _ => State::DoesNotHold,
    }
    .max(at_best);
    let told_of = if led_back && held_up { "its drain does not run at every duty, so it must hold this: " } else { "" };
    let reason = say![
        told_of,
        "1000 km bring ",
        (collected.volume_per_thousand, Kind::SmallVolume),
        ", of it water ",
        (collected.water_per_thousand, Kind::SmallMass),
        hard,
        "; full, ",
        full
    ];
    if by_itself {
        let mend = watery.then(|| say!["shut its drain in the cold season: an emulsion does not belong in the sump"]);
        return told(state, say!["drains into the sump by itself"], limit, reason, mend, "can/cruise");
    }
    let mend = (state != State::Holds).then(|| match (led_back && held_up, collected.drain_after[0]) {
        (true, Some(soon)) => {
            let soon = Amount::of_kind(soon, Kind::RoadDistance);
            say!["make its drain run first; until then empty it at least every ", soon]
        }
        _ => mend(collected),
    });
    told(state, drain_by(collected), limit, reason, mend, "can/cruise")
}

/// The interval at the high end.
fn drain_by(collected: &Collected) -> Sentence {
    match collected.drain_after[0] {
        Some(soon) => say!["half full after ", Amount::of_kind(soon, Kind::RoadDistance), " at the high end"],
        None => say!["nothing collects"],
    }
}

fn at_the_hardest(can: &CanAnswer) -> Sentence {
    if let (Err(why), true) = (&can.filled, can.gas.high.base() > 0.0) {
        return say!["; ", can.duty.name(), " cannot be told: ", why.as_str()];
    }
    match can.half_full {
        [Some(soon), likely, _] => {
            let likely = likely.map_or_else(Sentence::default, |likely| {
                say![", ", Amount::of_kind(likely, Kind::Duration), " at the likely figures"]
            });
            let soon = Amount::of_kind(soon, Kind::Duration);
            say!["; ", can.duty.name(), " without a stop makes it half full in ", soon, " at the high end", likely]
        }
        _ => Sentence::default(),
    }
}

fn mend(collected: &Collected) -> Sentence {
    let holds = (collected.needed, Kind::Volume);
    let water = collected.water.high.base() > collected.oil.high.base();
    let warmer = if water { "; most of it is water at the high end: keep the can warmer" } else { "" };
    match collected.drain_after[0] {
        Some(soon) => {
            let soon = Amount::of_kind(soon, Kind::RoadDistance);
            say!["empty it at least every ", soon, ", or a can of ", holds, warmer]
        }
        None => say!["a can of ", holds],
    }
}

/// Where it goes, by the can's place and its outlet.
const fn when_full(finding: CanFinding, diesel: bool) -> &'static str {
    match finding {
        CanFinding::FullToManifold | CanFinding::FullToAirCleaner if diesel => {
            "its oil goes into the intake, where a diesel burns it and may run away with its own fuel cut off"
        }
        CanFinding::FullToManifold => "the valve draws oil and water into the cylinders",
        CanFinding::FullToAirCleaner => "it runs into the air cleaner and from there into the intake",
        CanFinding::FullToAir => {
            "it spits oil, water and fuel out at its vent, onto the exhaust if that lies below or behind it"
        }
        _ => "it catches nothing more",
    }
}
