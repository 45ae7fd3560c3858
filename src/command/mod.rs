//! The command line: the same answers without a window.
//!
//! `answer` gives all answers of a project file, as text or JSON and with the working if asked; `check` the faults of a
//! file with their lines; `day` a day through time; `fluid` the properties of one coolant at one state; `map` the crankcase
//! over engine speed and manifold pressure as a table; `heat` the coolant against the air for every thermostat as a table.
//!
//! Exit codes: 0 done; 1 an answer could not be given or a file could not be read or written; 2 wrong words on the
//! command line, or a wrong value among them; 3 a project file has faults. Answers go to standard output, everything
//! else to standard error.

mod answer;
mod day;
mod fluid;
mod heat;
mod look;
mod map;
mod units;

use clap::{Parser, Subcommand};
pub use look::LookWords;
use std::io::Write;
use std::path::PathBuf;
use std::process::ExitCode;
pub use units::UnitsWord;

/// What a command came to.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Outcome {
    /// Done.
    Done,
    /// An answer could not be given, or a file could not be read or written.
    Failed,
    /// Wrong words on the command line, or a wrong value among them.
    WrongWords,
    /// A project file has faults.
    Faults,
}

impl From<Outcome> for ExitCode {
    fn from(outcome: Outcome) -> Self {
        Self::from(match outcome {
            Outcome::Done => 0,
            Outcome::Failed => 1,
            Outcome::WrongWords => 2,
            Outcome::Faults => 3,
        })
    }
}

/// Coolant overflow, thermostat set-point and crankcase ventilation of a home-built car.
///
/// Without a command the window opens. Exit codes: 0 done, 1 no answer or a file not readable or writable, 2 wrong
/// words or values, 3 faults in a project file.
///
/// CAUTION: results are estimates. Never open a hot cooling system; local codes and the makers' limits come first.
#[derive(Debug, Parser)]
#[command(name = "coldmark", version, args_conflicts_with_subcommands = true)]
pub struct Words {
    /// What to do; nothing opens the window.
    #[command(subcommand)]
    pub command: Option<Command>,
    /// A project file to open in the window.
    pub file: Option<PathBuf>,
    /// How the window looks when it opens.
    #[command(flatten)]
    pub look: LookWords,
}

/// The commands.
#[derive(Debug, Subcommand)]
pub enum Command {
    /// All answers for a project file.
    Answer(answer::AnswerWords),
    /// A day through time: what the car does, and what cap, tank and temperatures make of it.
    Day(day::DayWords),
    /// The properties of one coolant at one state.
    Fluid(fluid::FluidWords),
    /// The coolant against the air for every thermostat, as comma-separated values.
    Heat(heat::HeatWords),
    /// The crankcase over engine speed and manifold pressure, as comma-separated values.
    Map(map::MapWords),
    /// All faults of a project file, each with its line.
    Check {
        /// The project file.
        file: PathBuf,
    },
}

impl Words {
    /// What the window is asked to show and cannot.
    ///
    /// # Errors
    /// Says on standard error what is wrong, and what it comes to.
    pub fn check_look(&self, err: &mut impl Write) -> Result<(), Outcome> {
        self.look.check(self.file.as_deref()).map_err(|wrong| {
            // Nobody is left to tell when this fails too.
            drop(writeln!(err, "error: {wrong}"));
            Outcome::WrongWords
        })
    }
}

/// Carries out a command.
pub fn run(command: &Command, out: &mut impl Write, err: &mut impl Write) -> Outcome {
    let result = match command {
        Command::Answer(words) => answer::run(words, out, err),
        Command::Day(words) => day::run(words, out, err),
        Command::Fluid(words) => fluid::run(words, out, err),
        Command::Heat(words) => heat::run(words, out, err),
        Command::Map(words) => map::run(words, out, err),
        Command::Check { file } => check(file, out, err),
    };
    // What a buffer still holds counts as said only once it has gone out.
    match result.and_then(|outcome| out.flush().map(|()| outcome)) {
        Ok(outcome) => outcome,
        Err(error) => {
            // A closed pipe is the reader's choice; there is nobody left to tell. A full disk is a failure to be told.
            if error.kind() != std::io::ErrorKind::BrokenPipe {
                let _ = writeln!(err, "cannot write the answer: {error}");
            }
            Outcome::Failed
        }
    }
}

fn check(file: &std::path::Path, out: &mut impl Write, err: &mut impl Write) -> std::io::Result<Outcome> {
    match crate::file::open(file) {
        Ok(project) => {
            writeln!(out, "{}: no faults ({})", file.display(), project.title)?;
            Ok(Outcome::Done)
        }
        Err(error) => report(&error, err),
    }
}

/// Says what is wrong with a file, and which exit code that is.
fn report(error: &crate::file::FileError, err: &mut impl Write) -> std::io::Result<Outcome> {
    writeln!(err, "{error}")?;
    Ok(match error {
        crate::file::FileError::Faults { .. } => Outcome::Faults,
        _ => Outcome::Failed,
    })
}
