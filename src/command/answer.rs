//! `coldmark answer`: all answers for a project file.

use super::{Outcome, UnitsWord};
use crate::quantity::UnitSystem;
use crate::scribe::{Chapter, Step};
use crate::study::{self, Answers, Project, chapter_json, taken_json, verdict_json};
use serde_json::{Map, Value, json};
use std::io::Write;
use std::path::PathBuf;

/// Said with every answer.
const CAUTION: &str = "Caution: these are estimates. Leave every cap shut until the engine is cold to the hand: hot coolant \
                       sprays and flashes to steam. Oil mist on a hot exhaust burns. Local codes and the makers' limits come first.";

/// The words of the command.
#[derive(Debug, clap::Args)]
pub struct AnswerWords {
    /// The project file.
    file: PathBuf,
    /// Answer as JSON, every number with its unit.
    #[arg(long)]
    json: bool,
    /// Units of the answers.
    #[arg(long, value_enum, default_value_t)]
    units: UnitsWord,
    /// Add the working: equations, numbers put in, sources.
    #[arg(long)]
    working: bool,
    /// Only what holds, what to change and what to mind, without every figure.
    #[arg(long, conflicts_with_all = ["json", "working"])]
    short: bool,
}

pub(super) fn run(words: &AnswerWords, out: &mut impl Write, err: &mut impl Write) -> std::io::Result<Outcome> {
    let project = match crate::file::open(&words.file) {
        Ok(project) => project,
        Err(error) => return super::report(&error, err),
    };
    let answered = if words.working { study::answer_with_working(&project) } else { study::answer(&project) };
    let answers = match answered {
        Ok(answers) => answers,
        Err(problems) => {
            writeln!(err, "{}: no answer:\n{problems}", words.file.display())?;
            return Ok(Outcome::Failed);
        }
    };
    let system = words.units.into();
    if words.json {
        writeln!(out, "{:#}", to_json(&project, &answers, system, words.working))?;
    } else {
        to_text(&project, &answers, system, words.short, out)?;
    }
    Ok(Outcome::Done)
}

fn to_json(project: &Project, answers: &Answers, system: UnitSystem, working: bool) -> Value {
    let mut whole = Map::new();
    whole.insert("project".to_owned(), json!(project.title));
    whole.insert("remark".to_owned(), json!(project.remark));
    whole.insert("program".to_owned(), json!(concat!("coldmark ", env!("CARGO_PKG_VERSION"))));
    whole.insert("caution".to_owned(), json!(CAUTION));
    let verdicts: Map<String, Value> =
        answers.verdicts.iter().map(|one| (one.key.to_owned(), verdict_json(one, system, &answers.working))).collect();
    whole.insert("verdicts".to_owned(), verdicts.into());
    whole.insert("answers".to_owned(), study::to_json(&answers.sections(), system, &answers.working).into());
    let taken: Map<String, Value> =
        answers.taken.iter().map(|one| (one.path.clone(), taken_json(one, system))).collect();
    whole.insert("estimates_taken".to_owned(), taken.into());
    whole.insert("notes".to_owned(), answers.notes.iter().map(|note| note.text.as_str()).collect());
    if working {
        let chapters: Map<String, Value> =
            answers.working.iter().map(|one| (one.key.clone(), chapter_json(one, system))).collect();
        whole.insert("working".to_owned(), chapters.into());
    }
    whole.into()
}

fn to_text(
    project: &Project,
    answers: &Answers,
    system: UnitSystem,
    short: bool,
    out: &mut impl Write,
) -> std::io::Result<()> {
    writeln!(out, "{}", project.title)?;
    if !project.remark.is_empty() {
        writeln!(out, "{}", project.remark)?;
    }
    writeln!(
        out,
        "\n{CAUTION}\n\nWhat holds (judged on the high blow-by; \"thin\" means little is left, or it fails at the unfavourable end)"
    )?;
    for verdict in &answers.verdicts {
        writeln!(out, "  {:<18}{:<15}{}", verdict.title, verdict.state.word(), verdict.margin.show(system))?;
        writeln!(out, "  {:<33}limit: {}", "", verdict.limit.show(system))?;
        writeln!(out, "  {:<33}why: {}", "", verdict.reason.show(system))?;
        if let Some(mend) = &verdict.mend {
            writeln!(out, "  {:<33}mend: {}", "", mend.show(system))?;
        }
    }
    let sections = if short { Vec::new() } else { answers.sections() };
    for section in sections {
        writeln!(out, "\n{}", section.title)?;
        for row in &section.rows {
            writeln!(out, "  {:<66}  {}", row.label, row.value.show(system))?;
        }
    }
    if !answers.taken.is_empty() {
        writeln!(out, "\nTaken as estimates, because the file leaves them open")?;
        for taken in &answers.taken {
            let unit = taken.kind.unit(system);
            let show = |base| crate::quantity::Amount::new(base, taken.kind).show_number(system);
            let [low, likely, high] = taken.spread.map(show);
            let range = if low == high { String::new() } else { format!(" ({low} to {high})") };
            writeln!(out, "  {:<70}  {likely} {}{range}", format!("{} [{}]", taken.label, taken.path), unit.symbol)?;
        }
    }
    if !answers.notes.is_empty() {
        writeln!(out, "\nNotes")?;
        for note in &answers.notes {
            writeln!(out, "  - {}", note.text)?;
        }
    }
    for chapter in &answers.working {
        write_chapter(chapter, system, out)?;
    }
    Ok(())
}

pub(super) fn write_chapter(chapter: &Chapter, system: UnitSystem, out: &mut impl Write) -> std::io::Result<()> {
    writeln!(out, "\nWorking: {}", chapter.title)?;
    for Step { meaning, symbol, equation, numbers, result, source } in &chapter.steps {
        writeln!(out, "  {meaning}: {symbol} = {}", result.show_input(system))?;
        writeln!(out, "    {equation}")?;
        let list: Vec<_> =
            numbers.iter().map(|(name, amount)| format!("{name} = {}", amount.show_input(system))).collect();
        if !list.is_empty() {
            writeln!(out, "    with {}", list.join(", "))?;
        }
        writeln!(out, "    source: {} ({})", source.title, source.standing.words())?;
    }
    Ok(())
}
