//! Verdicts on water in the crankcase and on the oil's way back.

use super::flow;
use crate::crankcase::moisture::{LeastDilution, MoistureFinding};
use crate::quantity::{Amount, Kind, Measured};
use crate::say;
use crate::study::{Answers, Duty, DutyMoisture, Lacking, Part, Sentence, State, Verdict};

/// Do the coldest walls stay above the dew point on short cold trips? Judged at the wetter of idle and cruise.
pub(in crate::study::compose) fn moisture(answers: &Answers) -> Verdict {
    let moisture = &answers.moisture;
    let limit = say![
        "the coldest wall of cover and hoses stays above the dew point, short trips at ",
        Amount::of(moisture.air),
        ", oil at ",
        Amount::of(moisture.trip_oil)
    ];
    let unknown = moisture.trips.iter().find_map(|trip| trip.as_ref().err());
    let (state, margin, reason, mend, working) = match (moisture.worst_trip(), unknown) {
        (Some(trip), None) => (trip.state(), margin(trip), reason(trip), mend(trip), working(trip.duty)),
        (_, why) => {
            let why = why.map_or("no short trip could be reckoned", String::as_str);
            (State::NotKnown, say!["not told"], say![why], None, working(Duty::Idle))
        }
    };
    Verdict { key: "moisture", part: Part::Crankcase, title: "Moisture", state, margin, limit, reason, mend, working }
}

const fn working(duty: Duty) -> &'static str {
    if matches!(duty, Duty::Cruise) { "moisture/short-trip/cruise" } else { "moisture/short-trip/idle" }
}

fn margin(trip: &DutyMoisture) -> Sentence {
    match trip.least_margin() {
        None => say!["too dry for a dew point"],
        Some(margin) if margin.base() >= 0.0 => say![Amount::of(margin), " above the dew point, ", trip.duty.name()],
        Some(margin) => {
            say![
                Lacking(Amount::new(-margin.base(), Kind::TemperatureDifference)),
                " below the dew point, ",
                trip.duty.name()
            ]
        }
    }
}

fn reason(trip: &DutyMoisture) -> Sentence {
    let finding = match trip.at.finding {
        MoistureFinding::Dry => "no water settles, even at the unfavourable end",
        MoistureFinding::ProbablyDry => "probably dry; at the unfavourable end water settles on the coldest walls",
        MoistureFinding::Wet => {
            "water settles on the coldest walls; if it stays so for long, expect a milky film and sludge"
        }
        MoistureFinding::WetWhatever => "water settles on the coldest walls, and the air alone would wet them",
    };
    let base = say![finding, "; fresh air over blow-by ", (trip.dilution, Kind::Number)];
    if trip.dilution.likely.base() > 0.0 { base } else { say![base, ", as no fresh air is drawn in"] }
}

fn mend(trip: &DutyMoisture) -> Option<Sentence> {
    let state = &trip.at.unfavourable;
    let insulate = "insulate cover and hoses or keep them out of the wind";
    match (trip.state(), state.least_dilution, state.fresh_air) {
        (State::Holds, ..) => None,
        (_, LeastDilution::NoAmount, _) | (_, _, None) => Some(say![insulate, ", and drain what collects"]),
        (_, _, Some(fresh)) => Some(say![
            "draw at least ",
            flow(fresh),
            " of fresh air through the crankcase, ",
            trip.duty.name(),
            "; or ",
            insulate
        ]),
    }
}

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
        limit: say!["the oil in the drain outweighs crankcase above cover at the high blow-by"],
        reason,
        mend,
        working,
    };
    let (drain, None) = (answers.oil.worst_drain(), unknown) else {
        let why = unknown.map_or("no duty could be reckoned", String::as_str);
        return told(State::NotKnown, say!["not told"], say![why], None, drain_working(Duty::FullThrottle));
    };
    let Some(drain) = drain else {
        let working = drain_working(Duty::FullThrottle);
        return told(State::NotKnown, say!["not told"], say!["there is no duty point"], None, working);
    };
    let left = drain.least.margin;
    let margin = if drain.least.returns() {
        say![pascals(left), " of head left, ", drain.duty.name()]
    } else {
        say![Lacking(pascals(-left)), " of head short, ", drain.duty.name()]
    };
    let reason = say![
        "the crankcase stands ",
        pascals(drain.likely.holds_up),
        " above the cover, a low drain has a head of ",
        pascals(drain.least.head),
        ", a likely one ",
        pascals(drain.likely.head)
    ];
    let mend = (drain.state() != State::Holds).then(|| {
        say!["open a way for the gas beside the drain: larger baffle openings, or a hose from block to cover"]
    });
    told(drain.state(), margin, reason, mend, drain_working(drain.duty))
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
