//! `coldmark answer`: all answers for a project file.

use super::{Outcome, UnitsWord};
use std::io::Write;
use std::path::PathBuf;

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
}

pub(super) fn run(words: &AnswerWords, _out: &mut impl Write, err: &mut impl Write) -> std::io::Result<Outcome> {
    match crate::file::open(&words.file) {
        Ok(_) => Ok(Outcome::Failed),
        Err(error) => super::report(&error, err),
    }
}
