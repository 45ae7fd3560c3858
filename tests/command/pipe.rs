//! A reader who goes away, a disk that is full: no panic, and a failure is told.

use crate::{Scratch, coldmark};
use coldmark::file::{demo, write_project};
use coldmark::quantity::UnitSystem;
use std::process::{Command, Stdio};

#[test]
fn a_closed_pipe_is_no_panic() {
    let scratch = Scratch::new();
    let project = scratch.file("demo.toml", &write_project(&demo(), UnitSystem::Si));
    let project = project.to_str().unwrap();
    for words in [
        &["answer", project, "--json", "--working"][..],
        &["answer", project, "--working"],
        &["fluid", "--base", "water", "--at", "20 °C", "--json"],
        &["check", project],
        &["--help"],
        &["answer", "--help"],
        &["--version"],
    ] {
        let mut child = Command::new(env!("CARGO_BIN_EXE_coldmark"))
            .args(words)
            .stdout(Stdio::piped())
            .stderr(Stdio::piped())
            .spawn()
            .unwrap();
        drop(child.stdout.take());
        let output = child.wait_with_output().unwrap();
        let said = String::from_utf8_lossy(&output.stderr);
        assert!(!said.contains("panicked"), "{words:?}: {said}");
        // 101 is a panic; no code at all is a signal.
        assert!(matches!(output.status.code(), Some(0 | 1)), "{words:?}: {:?}", output.status);
    }
}

#[cfg(target_os = "linux")]
#[test]
fn a_full_disk_is_told() {
    let full = || std::fs::OpenOptions::new().write(true).open("/dev/full").unwrap();
    let mut command = Command::new(env!("CARGO_BIN_EXE_coldmark"));
    command.args(["fluid", "--base", "water", "--at", "20 °C"]);
    let output = command.stdout(full()).stderr(Stdio::piped()).output().unwrap();
    assert_eq!(output.status.code(), Some(1));
    assert!(String::from_utf8_lossy(&output.stderr).contains("cannot write the answer"));
}

#[test]
fn help_tells_the_caution_and_the_exit_codes() {
    let output = coldmark(&["--help"]);
    assert_eq!(output.status.code(), Some(0));
    let text = String::from_utf8(output.stdout).unwrap();
    for part in ["Exit codes", "CAUTION", "answer", "fluid", "check"] {
        assert!(text.contains(part), "{part} in {text}");
    }
}
