//! The built program as a person or a script meets it: words in, answers and exit codes out.
#![allow(clippy::unwrap_used, clippy::print_stdout)]

mod answer;
mod check;
mod day;
mod fluid;
mod heat;
mod map;
mod pipe;

use std::io::Write as _;
use std::path::PathBuf;
use std::process::{Command, Output};

/// Runs the program with these words.
fn coldmark(words: &[&str]) -> Output {
    Command::new(env!("CARGO_BIN_EXE_coldmark")).args(words).output().unwrap()
}

/// Standard output of a run that must succeed.
fn told(words: &[&str]) -> String {
    let output = coldmark(words);
    assert_eq!(output.status.code(), Some(0), "{words:?}: {}", String::from_utf8_lossy(&output.stderr));
    assert!(output.stderr.is_empty(), "{words:?}: {}", String::from_utf8_lossy(&output.stderr));
    String::from_utf8(output.stdout).unwrap()
}

/// Standard error of a run that must end with this code and answer nothing.
fn refused(words: &[&str], code: i32) -> String {
    let output = coldmark(words);
    let said = String::from_utf8(output.stderr).unwrap();
    assert_eq!(output.status.code(), Some(code), "{words:?}: {said}");
    assert!(output.stdout.is_empty(), "{words:?} answered all the same");
    assert!(!said.contains("panicked"), "{words:?}: {said}");
    said
}

/// A file of this text, in a folder of its own that lasts as long as the test.
struct Scratch {
    folder: tempfile::TempDir,
}

impl Scratch {
    fn new() -> Self {
        Self { folder: tempfile::tempdir().unwrap() }
    }

    fn file(&self, name: &str, text: &str) -> PathBuf {
        let path = self.folder.path().join(name);
        std::fs::File::create(&path).unwrap().write_all(text.as_bytes()).unwrap();
        path
    }
}

/// Head, rows and what was said beside a table of comma-separated values.
fn table(words: &[&str]) -> (csv::StringRecord, Vec<csv::StringRecord>, String) {
    let output = coldmark(words);
    let said = String::from_utf8(output.stderr).unwrap();
    assert_eq!(output.status.code(), Some(0), "{said}");
    let mut reader = csv::Reader::from_reader(output.stdout.as_slice());
    let head = reader.headers().unwrap().clone();
    (head, reader.records().collect::<Result<_, _>>().unwrap(), said)
}

/// Numbers, or words that no spreadsheet takes for a formula.
fn for_a_spreadsheet(row: &csv::StringRecord) {
    for field in row {
        let safe = field.is_empty()
            || field.parse::<f64>().is_ok_and(f64::is_finite)
            || field.chars().all(|c| c.is_ascii_lowercase() || c == ' ');
        assert!(safe, "{field}");
    }
}
