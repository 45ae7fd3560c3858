//! Picks the window or the command line.
#![forbid(unsafe_code)]

use clap::Parser as _;
use coldmark::command::{self, Words};
use std::process::ExitCode;

fn main() -> ExitCode {
    let words = Words::parse();
    match &words.command {
        Some(command) => command::run(command, &mut std::io::stdout().lock(), &mut std::io::stderr().lock()).into(),
        None => open_window(&words),
    }
}

fn open_window(_words: &Words) -> ExitCode {
    ExitCode::FAILURE
}
