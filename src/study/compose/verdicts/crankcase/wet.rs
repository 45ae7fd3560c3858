//! Verdict on water in the crankcase.

use super::{Findings, flow};
use crate::crankcase::moisture::MoistureFinding;
use crate::quantity::si::MassRate;
use crate::quantity::{Amount, Kind, Measured};
use crate::say;
use crate::study::answers::moisture::{LASTING, above_dew_point};
use crate::study::compose::notes::small_first;
use crate::study::{
    Answers, Duty, DutyMoisture, Lacking, Part, PortPlace, Sentence, State, VentilationArrangement, VentilationInputs,
    Verdict,
};

/// Do the coldest walls stay above the dew point? Judged at the wetter of idle and cruise on short cold trips, and at the
/// wettest lasting duty of the warm engine: what settles on a trip must at least leave again.
pub(in crate::study::compose) fn moisture(answers: &Answers, findings: &Findings<'_, '_>) -> Verdict {
    let moisture = &answers.moisture;
    let inputs = &findings.context.project.ventilation;
    // What is not judged may be unknown: it tells so itself.
    let lasting = moisture.warm.iter().zip(Duty::ALL).filter(|(_, duty)| LASTING.contains(duty)).map(|(damp, _)| damp);
    let unknown = moisture.trips.iter().chain(lasting).find_map(|damp| damp.as_ref().err());
    let told = |state, margin, limit, reason, mend, working| Verdict {
        key: "moisture",
        part: Part::Crankcase,
        title: "Moisture",
        state,
        margin,
        limit,
        reason,
        mend,
        working,
    };
    let dry = "the coldest wall of the cover stays above the dew point and no hose freezes, ";
    let (Some(trip), Some(warm), None) = (moisture.worst_trip(), moisture.worst_warm(), unknown) else {
        let why = unknown.map_or("no short trip could be reckoned", String::as_str);
        let limit = say![dry, "short trips at ", Amount::of(moisture.air)];
        return told(State::NotKnown, say!["not told"], limit, say![why], None, working(Duty::Idle, true));
    };
    let trip_judged = trip.state() >= warm.state();
    let worse = if trip_judged { trip } else { warm };
    let kind = Kind::Temperature;
    let limit = if trip_judged {
        say![dry, "short trips at ", Amount::of(moisture.air), ", oil at ", (trip.oil(), kind), " as they end"]
    } else {
        say![dry, "engine warm at ", Amount::of(moisture.air), ", oil at ", (warm.oil(), kind)]
    };
    let freezes = moisture.trips.iter().flatten().any(|trip| trip.hose.likely.is_icy());
    let state = trip.state().max(warm.state()).max(if freezes { State::Thin } else { State::Holds });
    let ice = if freezes { "; a hose freezes at the likely figures" } else { "" };
    let reason = say![reason(trip, warm), ice];
    // A valve that passes more than its share of the idle air spoils the idle.
    let most = answers.most_by_valve();
    let at = &answers.duties[worse.duty.index()];
    let mend = (state != State::Holds).then(|| {
        let stays = warm.at.likely.is_wet();
        let at_cleaner =
            inputs.has_valve() && inputs.valve.port.place == PortPlace::BeforeThrottle || inputs.leads_to_air_cleaner();
        if super::valve::draws(answers, at) {
            mend(worse, inputs, most, stays, |flow| super::valve::on_bench(answers, findings, at, flow))
        } else {
            undrawn(worse, stays, at_cleaner)
        }
    });
    told(state, margin(worse), limit, reason, mend, working(worse.duty, trip_judged))
}

const fn working(duty: Duty, trip: bool) -> &'static str {
    match (duty, trip) {
        (Duty::Cruise, true) => "moisture/short-trip/cruise",
        (_, true) => "moisture/short-trip/idle",
        (Duty::Idle, false) => "moisture/idle",
        (Duty::Cruise, false) => "moisture/cruise",
        (Duty::Hill, false) => "moisture/hill",
        (Duty::FullThrottle, false) => "moisture/full_throttle",
        (Duty::Overrun, false) => "moisture/overrun",
    }
}

/// Judged at the unfavourable end, with the likely figure beside it: the two lie far apart.
fn margin(damp: &DutyMoisture) -> Sentence {
    let amount = |base: f64| Amount::new(base.abs(), Kind::TemperatureDifference);
    let Some(least) = damp.least_margin().map(|margin| margin.base()) else {
        return say!["too dry for a dew point"];
    };
    let end = if least >= 0.0 {
        say![amount(least), " above the dew point"]
    } else {
        say![Lacking(amount(least)), " below the dew point"]
    };
    let likely = above_dew_point(&damp.at.likely).map_or_else(Sentence::default, |likely| {
        say![", likely ", amount(likely.base()), if likely.base() >= 0.0 { " above" } else { " below" }]
    });
    say![end, " at the unfavourable end", likely, ", ", damp.duty.name()]
}

/// What happens on a trip, and whether a long run takes it away again.
fn reason(trip: &DutyMoisture, warm: &DutyMoisture) -> Sentence {
    let is_wet = |damp: &DutyMoisture| damp.at.likely.is_wet();
    let finding = match trip.at.finding {
        MoistureFinding::Dry => "no water settles, even at the unfavourable end",
        MoistureFinding::ProbablyDry => "probably dry; at the unfavourable end water settles on the coldest walls",
        MoistureFinding::Wet | MoistureFinding::WetWhatever => "water settles on the coldest walls",
    };
    let into_oil = if trip.at.likely.oil_is_wet() { " and gets into the oil itself" } else { "" };
    let petrol = match trip.at.likely.fuel_dew.wets(trip.at.likely.wall) {
        Some(true) if is_wet(trip) => ", petrol with it",
        Some(true) => "; petrol settles there",
        _ => "",
    };
    let whatever = trip.at.finding == MoistureFinding::WetWhatever;
    let alone = if whatever { "; the air alone would wet walls so cold" } else { "" };
    let after = match (is_wet(trip), is_wet(warm)) {
        (true, false) => "; a long warm run dries it again, without one expect a milky film and sludge",
        (_, true) => "; even the warm engine does not dry it: expect a milky film and sludge",
        (false, false) => "",
    };
    let base =
        say![finding, into_oil, petrol, alone, after, "; fresh air over blow-by ", (trip.dilution, Kind::Number)];
    match (trip.dilution.likely.base() > 0.0, trip.dilution.high.base() > 0.0) {
        (true, _) => base,
        (false, true) => say![base, ", as none is drawn in at the likely blow-by"],
        (false, false) => say![base, ", as no fresh air is drawn in"],
    }
}

/// Fresh air for the unfavourable end if a valve may pass so much, else for the likely figures if they are wet, else none.
fn mend(
    damp: &DutyMoisture,
    inputs: &VentilationInputs,
    most: MassRate,
    stays: bool,
    on_bench: impl Fn(MassRate) -> Amount,
) -> Sentence {
    let insulate = "insulate cover and hoses or keep them out of the wind";
    let ends = [(&damp.at.unfavourable, damp.blow_by.high, ""), (&damp.at.likely, damp.blow_by.likely, LIKELY_ONLY)];
    let asked = ends.into_iter().filter(|(state, ..)| state.is_wet()).find_map(|(state, blow_by, only)| {
        let fresh = state.fresh_air?;
        (fresh.base() + blow_by.base() <= most.base()).then_some((fresh, blow_by, only))
    });
    let Some((fresh, blow_by, only)) = asked else {
        let warm = if stays { "" } else { ", drive it warm for half an hour now and then" };
        return say![
            insulate,
            warm,
            ", and drain what collects; fresh air alone does not do it: more than ",
            flow(most),
            " through a valve spoils the idle"
        ];
    };
    let passes = on_bench(MassRate::from_base(fresh.base() + blow_by.base()));
    let how = if !inputs.has_valve() {
        say![
            "; without a PCV valve none is drawn in: fit one that passes ",
            passes,
            " of air at 20 °C and sea level there"
        ]
    } else if inputs.arrangement == VentilationArrangement::ValveOnly {
        say!["; open a fresh-air line and fit a valve that passes ", passes, " of air at 20 °C and sea level there"]
    } else {
        say![": a valve that passes ", passes, " of air at 20 °C and sea level there"]
    };
    let duty = damp.duty.name();
    say!["draw at least ", flow(fresh), " of fresh air through the crankcase, ", duty, only, how, "; or ", insulate]
}

/// Where the manifold does not draw, no valve brings fresh air in: a diesel, or boost.
fn undrawn(damp: &DutyMoisture, stays: bool, at_cleaner: bool) -> Sentence {
    let warm = if stays { "" } else { ", drive it warm for half an hour now and then" };
    say![
        "insulate cover and hoses or keep them out of the wind",
        warm,
        ", and drain what collects; at ",
        &*small_first(damp.duty.name()),
        " the manifold does not draw, so no valve brings fresh air in: ",
        // Whose gas goes there already is not sent there again.
        if at_cleaner {
            "the hose to the air cleaner takes the gas away, and only a second one from there to the other cover lets some air \
             through"
        } else {
            "a hose to the clean side of the air cleaner takes the gas away, and only a second one from there to the other \
             cover lets some air through"
        }
    ]
}

const LIKELY_ONLY: &str = " (at the likely figures; the unfavourable end asks for more than a valve may pass at idle)";
