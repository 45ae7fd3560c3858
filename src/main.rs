//! Picks the window or the command line.
#![forbid(unsafe_code)]

use clap::Parser as _;
use coldmark::command::{self, Words};
use std::process::ExitCode;

fn main() -> ExitCode {
    let words = Words::parse();
    match &words.command {
        Some(command) => command::run(command, &mut std::io::stdout().lock(), &mut std::io::stderr().lock()).into(),
        None => match words.check_look(&mut std::io::stderr().lock()) {
            Ok(()) => open_window(&words),
            Err(wrong) => wrong.into(),
        },
    }
}

#[cfg(feature = "window")]
fn open_window(words: &Words) -> ExitCode {
    use std::io::Write as _;
    let look = &words.look;
    let start = coldmark::window::Start {
        file: words.file.clone(),
        units: look.units.map(Into::into),
        dark: look.dark.then_some(true),
        part: look.part,
        moment: look.moment,
        day: look.day,
        size: look.size,
        picture: look.picture.clone(),
    };
    match coldmark::window::run(start) {
        Ok(()) => ExitCode::SUCCESS,
        Err(error) => {
            // Nobody is left to tell when this fails too.
            drop(writeln!(std::io::stderr(), "{error}"));
            ExitCode::FAILURE
        }
    }
}

#[cfg(not(feature = "window"))]
fn open_window(_words: &Words) -> ExitCode {
    use std::io::Write as _;
    let sentence = "this build has no window; 'coldmark answer FILE' gives the answers in text, --help tells more";
    drop(writeln!(std::io::stderr(), "{sentence}"));
    ExitCode::FAILURE
}
