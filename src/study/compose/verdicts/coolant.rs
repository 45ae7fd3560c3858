//! Verdicts on the coolant: boiling, freezing, heat carried away.

use super::{Findings, state};
use crate::heat::FanState;
use crate::quantity::si::{Power, TemperatureInterval, ThermodynamicTemperature};
use crate::quantity::{Amount, Kind, Measured};
use crate::say;
use crate::study::compose::thermal;
use crate::study::{
    Answers, DutyAnswers, Part, Problems, Sentence, SetPointAnswers, State, Thermal, Verdict, defaults,
};

/// The duty that boils with most heat left over.
pub(super) fn boils_worst(answers: &Answers) -> Option<(&DutyAnswers, Power, bool)> {
    answers
        .duties
        .iter()
        .filter_map(|duty| match duty.thermal {
            Thermal::NoSteadyState { excess, thermostat_too_late, .. } => Some((duty, excess, thermostat_too_late)),
            _ => None,
        })
        .max_by(|a, b| a.1.base().total_cmp(&b.1.base()))
}

/// Does the hottest coolant stay below boiling?
pub(super) fn boiling(answers: &Answers, findings: &Findings<'_, '_>) -> Result<Verdict, Problems> {
    let allowance = defaults::boiling_allowance().likely.base();
    let boils = boils_worst(answers);
    let least = |duty: &DutyAnswers| duty.least_margin().likely.base();
    let worst = answers.duties.iter().min_by(|a, b| least(a).total_cmp(&least(b)));
    let Some(worst) = boils.map(|(duty, ..)| duty).or(worst) else {
        return Err(crate::study::compose::problem("duty", "there is no duty point"));
    };
    let margin = worst.least_margin();
    let unfavourable = findings.heats_hold.iter().all(|holds| *holds);
    let state = if boils.is_some() {
        State::DoesNotHold
    } else {
        let low = margin.likely.base() >= allowance && margin.low.base() > 0.0;
        state(margin.likely.base() > 0.0, low && unfavourable)
    };
    let after = worst.held.margin_after.is_some_and(|after| after == margin);
    let when = if after { ", after the hottest duty has driven coolant out" } else { "" };
    let words = match boils {
        Some(_) => {
            let names: Vec<_> =
                answers.duties.iter().filter(|duty| duty.boils()).map(|duty| duty.duty.name()).collect();
            say!["boils: ", names.join(", ")]
        }
        None => say![(margin, Kind::TemperatureDifference), " below boiling, ", worst.duty.name(), when],
    };
    let mend = if state == State::Holds {
        None
    } else if let Some((_, _, true)) = boils {
        Some(lower_set_point(answers, findings))
    } else if boils.is_none() && !unfavourable && margin.low.base() > 0.0 {
        Some(say!["see the radiator: at the unfavourable end it is too small"])
    } else {
        // The set-point helps only where the thermostat rules.
        let rules = matches!(&worst.thermal, Thermal::Steady { radiator_rules: false, .. });
        Some(if rules {
            lower_set_point(answers, findings)
        } else {
            say!["more radiator or more air through it; a stronger cap only hides it"]
        })
    };
    Ok(Verdict {
        key: "boiling",
        part: Part::Cap,
        title: "Boiling",
        state,
        margin: words,
        limit: say![
            "hottest passage at least ",
            Amount::new(allowance, Kind::TemperatureDifference),
            " below boiling at the low end of the cap, and not boiling at the unfavourable end"
        ],
        reason: say![
            "behind this cap the coolant boils at ",
            (answers.coolant.boiling_at_cap, Kind::Temperature),
            ", in the open at ",
            Amount::of(answers.coolant.boiling_open),
            "; a sealed tank's pressure is not counted"
        ],
        mend,
        working: "boiling",
    })
}

/// Does it stay below boiling when it is stopped hot?
pub(super) fn hot_stop(answers: &Answers) -> Verdict {
    let stop = &answers.hot_stop;
    let margin = stop.held.margin;
    let state = state(margin.likely.base() > 0.0, margin.low.base() > 0.0);
    Verdict {
        key: "hot_stop",
        part: Part::Cap,
        title: "Hot stop",
        state,
        margin: match state {
            State::Holds => say![(margin, Kind::TemperatureDifference), " below boiling"],
            State::DoesNotHold => say!["boils: ", Amount::of(answers.tank.surge), " may surge up"],
            _ => say!["may boil: ", (margin, Kind::TemperatureDifference), " below boiling"],
        },
        limit: say!["below boiling once hot metal and coolant are even, behind the weakest cap"],
        reason: say![
            "stopped at once after the hottest duty the coolant in the engine rises to ",
            (stop.spread, Kind::Temperature),
            " if no heat is lost; the temperature of the metal is weakly known"
        ],
        mend: (state != State::Holds)
            .then(|| say!["let it idle or roll a minute before stopping, with the fan on; never open it to look"]),
        working: "hot-stop",
    }
}

/// The warmest cooler thermostat that keeps the margin.
fn lower_set_point(answers: &Answers, findings: &Findings<'_, '_>) -> Sentence {
    let allowance = defaults::boiling_allowance().likely.base();
    let fitted = findings.context.project.thermostat.set_point;
    let settles = |row: &&SetPointAnswers| row.duties.iter().all(|duty| duty.outlet.is_some());
    let cooler = answers.set_points.iter().filter(|row| row.set_point < fitted).filter(settles);
    // The warmest that keeps the margin; if none does, the warmest that comes within half a kelvin of the best.
    let best = cooler.clone().map(|row| row.least_margin.base()).fold(f64::NEG_INFINITY, f64::max);
    let wanted = allowance.min(best - 0.5);
    match cooler.rev().find(|row| row.least_margin.base() >= wanted) {
        Some(row) if best >= allowance => say!["a thermostat of ", Amount::of(row.set_point)],
        Some(row) => say!["a thermostat of ", Amount::of(row.set_point), ", and then see the radiator"],
        None => say!["more radiator or more air through it; a stronger cap only hides it"],
    }
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
            let water = findings.context.mix.mass_share().base() == 0.0;
            let mend = match state {
                State::Holds => None,
                _ if water => Some(say![
                    "glycol with inhibitor, or drain engine, radiator and heater before the frost: ice bursts the block"
                ]),
                _ => Some(say!["a stronger mix, proved with a tester"]),
            };
            verdict(state, words, reason, mend)
        }
        (Err(why), _) | (_, Err(why)) => verdict(State::NotKnown, say!["not known"], say![why.clone()], None),
    }
}

/// Does the radiator carry the heat on the hottest day?
pub(super) fn cooling(answers: &Answers, findings: &Findings<'_, '_>) -> Result<Verdict, Problems> {
    let fails = boils_worst(answers);
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
    if let Some((duty, excess, too_late)) = fails {
        let margin = say![Amount::of(excess), " finds no way out, ", duty.duty.name()];
        if matches!(duty.thermal, Thermal::NoSteadyState { fan: FanState::TooLate, .. }) {
            let switches =
                findings.context.project.radiator.fan.switches(findings.context.project.thermostat.set_point);
            let on = Amount::of(switches.0.likely);
            let reason =
                say!["the fan comes on at ", on, ", too late: without it the coolant boils at ", duty.duty.name()];
            let ceiling = Amount::of(findings.ceiling);
            let mend = say!["a switch that turns the fan on well below ", ceiling, ", and then see the radiator"];
            return Ok(verdict(State::DoesNotHold, margin, reason, Some(mend)));
        }
        if too_late {
            let reason = say![
                "the radiator could carry the heat of ",
                duty.duty.name(),
                " with the thermostat wide open, but it opens too late"
            ];
            let mend = lower_set_point(answers, findings);
            return Ok(verdict(State::DoesNotHold, margin, reason, Some(mend)));
        }
        let needed = thermal::radiator_needed(
            findings.context,
            findings.radiators,
            duty.duty,
            duty.heat.likely,
            findings.ceiling,
        )?;
        let mend = match needed {
            // The next twentieth: the estimate knows no better.
            Some(by) => say![
                "a radiator about ",
                Amount::new(((by - 1.0) * 20.0).ceil() / 20.0, Kind::Share),
                " larger, in area and conductance, or more air through it"
            ],
            None => say!["more air through it: not even a radiator three times as large carries this heat"],
        };
        let reason =
            say!["the coolant boils before the radiator carries the heat of ", duty.duty.name(), " held for long"];
        return Ok(verdict(State::DoesNotHold, margin, reason, Some(mend)));
    }
    let named = |which: fn(&Thermal) -> bool| -> Vec<&str> {
        answers.duties.iter().filter(|duty| which(&duty.thermal)).map(|duty| duty.duty.name()).collect()
    };
    let names = named(|one| matches!(one, Thermal::Steady { radiator_rules: true, fan, .. } if !fan.cycles()));
    let switched = named(|one| matches!(one, Thermal::Steady { fan, .. } if fan.cycles()));
    let shut = named(|one| matches!(one, Thermal::StaysShut));
    let hottest_air = answers
        .duties
        .iter()
        .filter_map(|duty| match &duty.thermal {
            Thermal::Steady { boils_above, .. } => *boils_above,
            _ => None,
        })
        .min_by(|a: &ThermodynamicTemperature, b| a.base().total_cmp(&b.base()));
    let reason = if names.is_empty() {
        let others =
            [("losses hold it below the thermostat's setting at: ", shut), ("the fan's switch rules at: ", switched)];
        let told: Vec<_> = others
            .into_iter()
            .filter(|(_, names)| !names.is_empty())
            .map(|(words, names)| format!("{words}{}", names.join(", ")))
            .collect();
        let (thermostat, sign) = match told.len() {
            0 => ("the thermostat rules at every duty", ": "),
            _ => ("the thermostat rules elsewhere; ", "; "),
        };
        let reason = say![thermostat, told.join("; ")];
        if weak.is_empty() { say![reason, sign, "the radiator has capacity to spare"] } else { reason }
    } else {
        say!["the thermostat is wide open and the radiator sets the temperature at: ", names.join(", ")]
    };
    let margin = match hottest_air {
        Some(air) => say!["holds up to ", Amount::of(air), " of air"],
        None => say!["carries the heat"],
    };
    if weak.is_empty() {
        return Ok(verdict(State::Holds, margin, reason, None));
    }
    let names: Vec<_> = weak.iter().map(|duty| duty.duty.name()).collect();
    let reason = say![reason, "; at the unfavourable end of heat or radiator it boils at: ", names.join(", ")];
    let mend = say!["measure one steady temperature on the road: it tells what the radiator can do"];
    Ok(verdict(State::Thin, margin, reason, Some(mend)))
}
