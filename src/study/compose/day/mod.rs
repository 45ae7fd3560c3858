//! A day through time: the physics of the day with the parts of the steady answers, and what comes of it.
//!
//! `lumps` and `heats` put the project into the day's words, `crankcase` looks up what the gas does at each sample,
//! `verdicts` weighs the day against the steady answers.

mod crankcase;
mod heats;
mod heights;
mod lumps;
mod verdicts;

use super::context::Context;
use super::coolant::Side;
use super::notes::each_once;
use super::radiators::Radiators;
use super::{course, problem, ventilation};
use crate::day::{self, DayError, Drive, Options, Start};
use crate::note::{Note, Weight};
use crate::quantity::Measured;
use crate::quantity::si::Ratio;
use crate::scribe::{Scribe, Silent};
use crate::study::{Answers, DayAnswers, OilCooling, Problems, Project, defaults};
use heats::End;
pub(super) use heats::of_engine;

/// The day of a checked project; `None` when it was given up.
pub(in crate::study) fn day(
    project: &Project,
    answers: &Answers,
    cancel: &(dyn Fn() -> bool + Sync),
    scribe: &mut (impl Scribe + Send),
) -> Result<Option<DayAnswers>, Problems> {
    let context = Context::new(project, &mut Silent)?;
    let mut side = Side::new(&context, &mut Silent)?;
    side.cold_volume = answers.tank.cold_volume;
    let radiators = Radiators::of(&context, &mut Silent)?;
    let (legs, stretches) = course::course(&context, scribe)?;
    let likely = lumps::likely_lumps(&context, &side, &radiators)?;
    let (pushed, end) = lumps::unfavourable(&context, &side, &radiators, answers, &likely)?;
    // The car has stood where the day begins.
    let Some(first) = stretches.first() else { return Err(problem("day", "the day has no leg")) };
    let start = Start { temperature: first.air };
    let oil_warm = project.oil.warm.unwrap_or_else(defaults::warm_oil).likely;
    let options = Options { cancel: Some(cancel), oil_warm, ..Options::default() };
    let stretches = &stretches;
    let heats =
        [heats::of_day(&context, answers, stretches, End::Likely)?, heats::of_day(&context, answers, stretches, end)?];
    let [usual, worse] = &heats;
    scribe.chapter("day", "The day: bodies and their heat, likely");
    let (drive, unfavourable) = rayon::join(
        || day::run(&likely, stretches, usual, &start, &options, scribe),
        || day::run(&pushed, stretches, worse, &start, &options, &mut Silent),
    );
    let (Some(drive), Some(unfavourable)) = (wanted(drive)?, wanted(unfavourable)?) else { return Ok(None) };
    let parts = ventilation::parts(&project.ventilation, &mut Silent)?;
    let grid = crankcase::Grid::of(&context, answers, &parts, stretches);
    let (crankcase, remarks) = grid.along(&drive.samples, stretches);
    let growth = answers.growth.in_tank;
    let doubt = if growth.likely.base() > 0.0 { growth.high.base() / growth.likely.base() } else { 1.0 };
    let mut found = DayAnswers {
        legs,
        crankcase,
        arrangement: project.tank.arrangement,
        capacity: side.tank.capacity(),
        growth_doubt: Ratio::from_base(doubt),
        verdicts: Vec::new(),
        working: Vec::new(),
        notes: each_once(
            remarks
                .into_iter()
                .chain(notes(&context, &drive, &unfavourable))
                .chain(heights::climbs(&context, &side))
                .collect(),
        ),
        drive,
        unfavourable,
    };
    found.verdicts = verdicts::all(&context, answers, &found);
    Ok(Some(found))
}

/// A drive, or nothing when it was given up.
fn wanted(found: Result<Drive, DayError>) -> Result<Option<Drive>, Problems> {
    match found {
        Ok(drive) => Ok(Some(drive)),
        Err(DayError::Cancelled) => Ok(None),
        Err(error) => Err(problem("day", error.to_string())),
    }
}

/// What is to be said of a day.
fn notes(context: &Context<'_>, drive: &Drive, unfavourable: &Drive) -> Vec<Note> {
    let mut notes = Vec::new();
    if let Some(why) = &drive.cut_short {
        let text = format!("The day could not be followed to its end: {why}. Everything told of it ends there.");
        notes.push(Note::new("day-cut-short", Weight::Weak, text));
    }
    if let Some(why) = unfavourable.cut_short.as_ref().filter(|_| drive.cut_short.is_none()) {
        let text = format!(
            "At the unfavourable end the day could not be followed to its end: {why}. Its unfavourable figures end there, and \
             worse may follow."
        );
        notes.push(Note::new("day-cut-short-unfavourable", Weight::Weak, text));
    }
    if !drive.soaks.is_empty() {
        notes.push(Note::new(
            "day-soak",
            Weight::Danger,
            "A hot engine goes on heating its coolant after it is stopped: the pressure rises when nobody expects it. The cap \
             stays shut until the engine is cold to the hand. How far coolant and tank rise after a stop is an indication \
             only: the heat in the metal is weakly known, and what rises by itself in standing coolant is left out.",
        ));
    }
    if context.project.oil.cooling == OilCooling::ToAir && context.project.oil.cooler_opens.is_some() {
        notes.push(Note::new(
            "day-oil-cooler-open",
            Weight::Weak,
            "The oil cooler's own thermostat is left out of the day: the oil warms up later than it will.",
        ));
    }
    notes
}
