//! Verdicts on the coolant: boiling, freezing, heat carried away.

use super::{Findings, state};
use crate::quantity::si::{TemperatureInterval, ThermodynamicTemperature};
use crate::quantity::{Amount, Kind, Measured};
use crate::say;
use crate::study::{Answers, DutyAnswers, Part, Problems, State, Thermal, Verdict, defaults};

/// Does the hottest coolant stay below boiling?
pub(super) fn boiling(answers: &Answers, findings: &Findings<'_, '_>) -> Result<Verdict, Problems> {
    let allowance = defaults::boiling_allowance().likely.base();
    let boils = answers.duties.iter().find(|duty| matches!(duty.thermal, Thermal::NoSteadyState { .. }));
    let worst =
        answers.duties.iter().min_by(|a, b| a.held.margin.likely.base().total_cmp(&b.held.margin.likely.base()));
    let Some(worst) = boils.or(worst) else {
        return Err(crate::study::compose::problem("duty", "there is no duty point"));
    };
    let margin = worst.held.margin;
    let state = if boils.is_some() {
        State::DoesNotHold
    } else {
        state(margin.likely.base() > 0.0, margin.likely.base() >= allowance && margin.low.base() > 0.0)
    };
    let lower = || {
        // The set-point helps only where the thermostat rules.
        let rules = matches!(&worst.thermal, Thermal::Steady { radiator_rules: false, .. });
        let cooler = answers.set_points.iter().rev().find(|row| {
            row.set_point < findings.context.project.thermostat.set_point && row.least_margin.base() >= allowance
        });
        match (rules, cooler) {
            (true, Some(row)) => say!["a thermostat of ", Amount::of(row.set_point)],
            _ => say!["more radiator or more air through it; a stronger cap only hides it"],
        }
    };
    Ok(Verdict {
        key: "boiling",
        part: Part::Cap,
        title: "Boiling",
        state,
        margin: if boils.is_some() {
            say!["boils: ", worst.duty.name()]
        } else {
            say![(margin, Kind::TemperatureDifference), " below boiling, ", worst.duty.name()]
        },
        limit: say![
            "hottest passage at least ",
            Amount::new(allowance, Kind::TemperatureDifference),
            " below boiling at the low end of the cap"
        ],
        reason: say![
            "behind this cap the coolant boils at ",
            (answers.coolant.boiling_at_cap, Kind::Temperature),
            ", in the open at ",
            Amount::of(answers.coolant.boiling_open)
        ],
        mend: (state != State::Holds).then(lower),
        working: "boiling",
    })
}

/// Does it stay liquid on the coldest start?
pub(super) fn freezing(answers: &Answers, findings: &Findings<'_, '_>) -> Verdict {
    let coldest = findings.context.project.surroundings.coldest;
    let verdict = |state, margin, reason, mend| Verdict {
        key: "freezing",
        part: Part::Coolant,
        title: "Freezing",
        state,
        margin,
        limit: say!["liquid at the coldest start of ", Amount::of(coldest)],
        reason,
        mend,
        working: "freezing",
    };
    match (&answers.coolant.freezing, &answers.coolant.freezing_to_count_on) {
        (Ok(freezing), Ok(safe)) => {
            let margin = TemperatureInterval::from_base(coldest.base() - safe.base());
            let state = state(coldest > *freezing, margin.base() >= 3.0);
            let words = if margin.base() >= 0.0 {
                say![Amount::of(margin), " to spare"]
            } else {
                say![Amount::of(TemperatureInterval::from_base(-margin.base())), " short"]
            };
            let reason = say![
                "count on ",
                Amount::of(*safe),
                " with this mix; slush stops the flow before ice bursts the block"
            ];
            verdict(state, words, reason, (state != State::Holds).then(|| say!["a stronger mix, proved with a tester"]))
        }
        (Err(why), _) | (_, Err(why)) => verdict(State::NotKnown, say!["not known"], say![why.clone()], None),
    }
}

/// Does the radiator carry the heat on the hottest day?
pub(super) fn cooling(answers: &Answers, findings: &Findings<'_, '_>) -> Verdict {
    let fails = answers.duties.iter().find(|duty| matches!(duty.thermal, Thermal::NoSteadyState { .. }));
    let weak: Vec<&DutyAnswers> = answers
        .duties
        .iter()
        .filter(|duty| findings.heats_hold.get(duty.duty.index()).is_some_and(|holds| !holds))
        .collect();
    let verdict = |state, margin, reason, mend| Verdict {
        key: "cooling",
        part: Part::Radiator,
        title: "Radiator",
        state,
        margin,
        limit: say![
            "the coolant settles below boiling on a day of ",
            Amount::of(findings.context.project.surroundings.hottest)
        ],
        reason,
        mend,
        working: "balance/full_throttle",
    };
    if let Some(duty) = fails
        && let Thermal::NoSteadyState { excess } = duty.thermal
    {
        let share = excess.base() / duty.heat.likely.base().max(1.0) * 100.0;
        return verdict(
            State::DoesNotHold,
            say![Amount::of(excess), " too small, ", duty.duty.name()],
            say!["the coolant boils before the radiator carries the heat of ", duty.duty.name(), " held for long"],
            Some(say![format!("about {share:.0} % more radiator, or more air through it")]),
        );
    }
    let rules =
        answers.duties.iter().filter(|duty| matches!(&duty.thermal, Thermal::Steady { radiator_rules: true, .. }));
    let names: Vec<_> = rules.map(|duty| duty.duty.name()).collect();
    let hottest_air = answers
        .duties
        .iter()
        .filter_map(|duty| match &duty.thermal {
            Thermal::Steady { boils_above, .. } => *boils_above,
            _ => None,
        })
        .min_by(|a: &ThermodynamicTemperature, b| a.base().total_cmp(&b.base()));
    let reason = if names.is_empty() {
        say!["the thermostat rules at every duty: the radiator has capacity to spare"]
    } else {
        say!["the thermostat is wide open and the radiator sets the temperature at: ", names.join(", ")]
    };
    let margin = match hottest_air {
        Some(air) => say!["holds up to ", Amount::of(air), " of air"],
        None => say!["carries the heat"],
    };
    if weak.is_empty() {
        return verdict(State::Holds, margin, reason, None);
    }
    let names: Vec<_> = weak.iter().map(|duty| duty.duty.name()).collect();
    let reason = say![reason, "; at the unfavourable end of heat or radiator it boils at: ", names.join(", ")];
    let mend = say!["measure one steady temperature on the road: it tells what the radiator can do"];
    verdict(State::Thin, margin, reason, Some(mend))
}
