//! Verdicts with the worst of the day beside the steady answer: the worse of the two rules, and the verdict says which.

mod coolant;
mod held;
mod rule;
mod tank;

use crate::day::{Drive, Sample};
use crate::quantity::Measured;
use crate::say;
use crate::study::compose::context::Context;
use crate::study::{Answers, DayAnswers, Sentence, State, Verdict, clock};
use rule::{Ends, Ruled, rule};

/// What the day says on one question.
struct Found {
    state: State,
    /// "0.55 L to spare".
    margin: Sentence,
    /// The same at the unfavourable end.
    pushed: Sentence,
    /// Both as numbers, to weigh against the steady answer's.
    ends: Ends,
    /// "1:32, Hot stop after Climb".
    when: Sentence,
    mend: Option<Sentence>,
}

/// What a question is asked of.
struct Asked<'a> {
    context: &'a Context<'a>,
    answers: &'a Answers,
    day: &'a DayAnswers,
}

/// Every verdict of the answers, those the day speaks to joined with it.
pub(super) fn all(context: &Context<'_>, answers: &Answers, day: &DayAnswers) -> Vec<Verdict> {
    let asked = Asked { context, answers, day };
    let join = |steady: &Verdict| {
        let found = match steady.key {
            "tank_volume" => asked.volume(),
            "dip_tube" => asked.dip_tube(),
            "return" => asked.comes_back(),
            "tank_vent" => asked.vent(),
            "air_cushion" => asked.cushion(),
            "boiling" => asked.boiling(),
            "hot_stop" => asked.hot_stop(),
            "cooling" => asked.cooling(),
            _ => return steady.clone(),
        };
        joined(steady, held::ends(steady.key, answers), found, asked.cut_short())
    };
    answers.verdicts.iter().map(join).collect()
}

/// How bad a state is; not to know is worse than to hold.
const fn weight(state: State) -> u8 {
    match state {
        State::Holds => 0,
        State::NotKnown => 1,
        State::Thin => 2,
        State::DoesNotHold => 3,
    }
}

/// The worse of both, with what the other says and with the day's unfavourable figure.
fn joined(steady: &Verdict, held: Ends, found: Option<Found>, cut_short: Option<Sentence>) -> Verdict {
    let mut verdict = steady.clone();
    if let Some(found) = found {
        let rule = rule(weight(found.state), found.ends, weight(steady.state), held);
        let also = rule.also();
        let pushed = say!["at the day's unfavourable end ", found.pushed];
        if rule.ruled == Ruled::Steady {
            verdict.reason = say![
                verdict.reason,
                "; the steady answer ruled, by the day: ",
                found.margin,
                ", ",
                found.when,
                "; ",
                pushed,
                also
            ];
        } else {
            let ruled = if rule.ruled == Ruled::Both { "both fail, the day at " } else { "the day ruled: " };
            verdict.state = found.state;
            verdict.margin = say![found.margin, ", ", found.when.clone()];
            verdict.reason = say![
                ruled,
                found.when,
                "; ",
                pushed,
                also,
                "; held for long: ",
                steady.margin.clone(),
                ", as ",
                steady.reason.clone()
            ];
            verdict.mend = match (found.mend, steady.mend.clone()) {
                (Some(day), Some(held)) if day == held => Some(day),
                (Some(day), Some(held)) => Some(say![day, "; by the steady answer ", held]),
                (day, held) => day.or(held),
            };
        }
    }
    if let Some(why) = cut_short {
        if verdict.state == State::Holds {
            verdict.state = State::Thin;
        }
        verdict.reason = say![verdict.reason, "; ", why];
    }
    verdict
}

/// Holds at both ends, at the likely values alone, or not.
const fn state(likely_holds: bool, unfavourable_holds: bool) -> State {
    match (likely_holds, unfavourable_holds) {
        (true, true) => State::Holds,
        (true, false) => State::Thin,
        (false, _) => State::DoesNotHold,
    }
}

/// The sample of a drive where a figure is least, among those asked about.
fn least(drive: &Drive, about: impl Fn(&Sample) -> bool, of: impl Fn(&Sample) -> f64) -> Option<(&Sample, f64)> {
    let all = drive.samples.iter().filter(|sample| about(sample)).map(|sample| (sample, of(sample)));
    all.min_by(|a, b| a.1.total_cmp(&b.1))
}

impl Asked<'_> {
    /// What is to be said where a drive was not followed to its end.
    fn cut_short(&self) -> Option<Sentence> {
        let told = |drive: &Drive, which: &str| {
            drive.cut_short.as_ref()?;
            let until = drive.samples.last().map_or_else(String::new, |last| clock(last.time));
            // Why, the notes say once.
            Some(say!["the day could be followed only to ", until, which])
        };
        let likely = told(&self.day.drive, "");
        likely.or_else(|| told(&self.day.unfavourable, " at the unfavourable end"))
    }
}

/// Whether the engine turns.
fn turns(sample: &Sample) -> bool {
    sample.engine_speed.base() > 0.0
}
