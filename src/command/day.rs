//! `coldmark day`: a day through time, told, as JSON or as a table.

use super::{Outcome, UnitsWord};
use crate::quantity::{Amount, Kind, UnitSystem};
use crate::study::{self, DAY_COLUMNS, DayAnswers, Project, chapter_json};
use serde_json::{Map, Value, json};
use std::io::Write;
use std::path::PathBuf;

/// Said with every day.
const CAUTION: &str = "Caution: these are estimates. Leave every cap shut until the engine is cold to the hand: hot coolant \
                       sprays and flashes to steam, also long after the engine was stopped. Boiling coolant that leaves the \
                       tank scalds; glycol is poisonous and burns on a hot exhaust.";

/// The words of the command.
#[derive(Debug, clap::Args)]
pub struct DayWords {
    /// The project file.
    file: PathBuf,
    /// Units of the answers.
    #[arg(long, value_enum, default_value_t)]
    units: UnitsWord,
    /// Answer as JSON: verdicts, events, the worst of each, and the series.
    #[arg(long)]
    json: bool,
    /// The series as comma-separated values, the units in the heads.
    #[arg(long, conflicts_with = "json")]
    csv: bool,
    /// Add the working: equations, numbers put in, sources.
    #[arg(long, conflicts_with = "csv")]
    working: bool,
}

pub(super) fn run(words: &DayWords, out: &mut impl Write, err: &mut impl Write) -> std::io::Result<Outcome> {
    let project = match crate::file::open(&words.file) {
        Ok(project) => project,
        Err(error) => return super::report(&error, err),
    };
    let found = if words.working { study::day_with_working(&project) } else { study::day(&project) };
    let day = match found {
        Ok(day) => day,
        Err(problems) => {
            writeln!(err, "{}: no day:\n{problems}", words.file.display())?;
            return Ok(Outcome::Failed);
        }
    };
    let system = words.units.into();
    if words.json {
        writeln!(out, "{:#}", to_json(&project, &day, system))?;
    } else if words.csv {
        table(&day, system, out)?;
        writeln!(err, "{}\n{CAUTION}", day.says_tank().show(system))?;
    } else {
        to_text(&project, &day, system, out)?;
    }
    Ok(Outcome::Done)
}

fn to_json(project: &Project, day: &DayAnswers, system: UnitSystem) -> Value {
    let mut whole = Map::new();
    whole.insert("project".to_owned(), json!(project.title));
    whole.insert("remark".to_owned(), json!(project.remark));
    whole.insert("program".to_owned(), json!(concat!("coldmark ", env!("CARGO_PKG_VERSION"))));
    whole.insert("caution".to_owned(), json!(CAUTION));
    whole.extend(day.to_json(system));
    if !day.working.is_empty() {
        let chapters: Map<String, Value> =
            day.working.iter().map(|one| (one.key.clone(), chapter_json(one, system))).collect();
        whole.insert("working".to_owned(), chapters.into());
    }
    whole.into()
}

fn to_text(project: &Project, day: &DayAnswers, system: UnitSystem, out: &mut impl Write) -> std::io::Result<()> {
    writeln!(out, "{}", project.title)?;
    if !project.remark.is_empty() {
        writeln!(out, "{}", project.remark)?;
    }
    writeln!(out, "\n{CAUTION}\n\n{}", day.says_tank().show(system))?;
    for section in day.sections() {
        writeln!(out, "\n{}", section.title)?;
        for row in &section.rows {
            writeln!(out, "  {:<44}  {}", row.label, row.value.show(system))?;
        }
    }
    writeln!(out, "\nWhat holds, by this day and held for long")?;
    for verdict in &day.verdicts {
        writeln!(out, "  {:<18}{:<15}{}", verdict.title, verdict.state.word(), verdict.margin.show(system))?;
        writeln!(out, "  {:<33}limit: {}", "", verdict.limit.show(system))?;
        writeln!(out, "  {:<33}why: {}", "", verdict.reason.show(system))?;
        if let Some(mend) = &verdict.mend {
            writeln!(out, "  {:<33}mend: {}", "", mend.show(system))?;
        }
    }
    if !day.notes.is_empty() {
        writeln!(out, "\nNotes")?;
        for note in &day.notes {
            writeln!(out, "  - {}", note.text)?;
        }
    }
    for chapter in &day.working {
        super::answer::write_chapter(chapter, system, out)?;
    }
    Ok(())
}

/// Plain numbers alone, so that nothing in it is taken for a formula.
fn table(day: &DayAnswers, system: UnitSystem, out: &mut impl Write) -> std::io::Result<()> {
    let head: Vec<String> = DAY_COLUMNS
        .iter()
        .map(|column| match column.kind {
            Kind::Number => column.name.to_owned(),
            kind => format!("{} ({})", column.name, kind.unit(system).symbol),
        })
        .collect();
    writeln!(out, "{}", head.join(","))?;
    for (sample, crankcase) in day.drive.samples.iter().zip(&day.crankcase) {
        let figures = DAY_COLUMNS.iter().map(|column| {
            let figure = (column.of)(sample, crankcase);
            figure.map_or_else(String::new, |base| number(Amount::new(base, column.kind), system))
        });
        writeln!(out, "{}", figures.collect::<Vec<_>>().join(","))?;
    }
    Ok(())
}

fn number(amount: Amount, system: UnitSystem) -> String {
    let text = format!("{:.5}", amount.value_in(system));
    let short = text.trim_end_matches('0').trim_end_matches('.');
    // What is nothing but for rounding has no sign.
    if short.trim_start_matches(['-', '0', '.']).is_empty() { "0".to_owned() } else { short.to_owned() }
}
