//! Faulty project files and the exact words a person reads.
//!
//! `faults/sound.toml` is a sound project. Each `faults/*.fault` says what is wrong, which lines of the sound file it
//! replaces by which, and what must be told:
//!
//! ```text
//! what is wrong, in words
//! --- replace
//! vent_diameter = "2.5 mm"
//! --- by
//! vent_diameter = "2.5 L"
//! --- told
//! line 48: tank.vent_diameter: 'L' is not a unit of a length; …
//! ```

use coldmark::file::{FileError, open, read_project};
use std::fs;
use std::path::PathBuf;

fn folder() -> PathBuf {
    PathBuf::from(env!("CARGO_MANIFEST_DIR")).join("tests/files/faults")
}

struct Case {
    name: String,
    text: String,
    told: String,
}

/// Takes a `.fault` file apart and edits the sound project by it.
fn case(name: String, content: &str, sound: &str) -> Case {
    let mut text = sound.to_owned();
    let mut told = String::new();
    let mut replace = String::new();
    for section in content.split("\n--- ").skip(1) {
        let (heading, body) = section.split_once('\n').unwrap_or((section, ""));
        match heading.trim() {
            "replace" => replace = format!("{body}\n"),
            "by" => {
                assert_eq!(text.matches(&replace).count(), 1, "{name}: '{replace}' must stand once in the text");
                let by = if body.is_empty() { String::new() } else { format!("{body}\n") };
                text = text.replacen(&replace, &by, 1);
            }
            "told" => told = body.trim_end().to_owned(),
            other => panic!("{name}: '{other}' is no section"),
        }
    }
    Case { name, text, told }
}

fn cases() -> Vec<Case> {
    let sound = fs::read_to_string(folder().join("sound.toml")).unwrap();
    let mut paths: Vec<_> = fs::read_dir(folder()).unwrap().map(|entry| entry.unwrap().path()).collect();
    paths.sort();
    paths.retain(|path| path.extension().is_some_and(|ending| ending == "fault"));
    let name = |path: &PathBuf| path.file_stem().unwrap().to_string_lossy().into_owned();
    paths.iter().map(|path| case(name(path), &fs::read_to_string(path).unwrap(), &sound)).collect()
}

#[test]
fn the_sound_file_has_no_fault() {
    open(&folder().join("sound.toml")).unwrap_or_else(|error| panic!("{error}"));
}

#[test]
fn every_faulty_file_is_told_in_these_words() {
    let cases = cases();
    assert!(cases.len() >= 50, "{}", cases.len());
    let mut wrong = 0;
    for Case { name, text, told } in cases {
        let faults = match read_project(&text) {
            Ok(_) => "no fault".to_owned(),
            Err(faults) => faults.iter().map(ToString::to_string).collect::<Vec<_>>().join("\n"),
        };
        if faults != told {
            println!("== {name}\n-- told:\n{faults}\n-- expected:\n{told}");
            wrong += 1;
        }
    }
    assert_eq!(wrong, 0, "files told in other words");
}

/// From disk the same faults come with the name of the file and their number.
#[test]
fn opening_a_faulty_file_names_it_and_counts_its_faults() {
    let case = cases().into_iter().find(|case| case.name == "many-faults").unwrap();
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("car.toml");
    fs::write(&path, &case.text).unwrap();
    let error = open(&path).unwrap_err();
    assert!(matches!(&error, FileError::Faults { faults, .. } if faults.len() == case.told.lines().count()));
    let told: String = case.told.lines().map(|line| format!("\n  {line}")).collect();
    assert_eq!(error.to_string(), format!("{} has {} faults:{told}", path.display(), case.told.lines().count()));
}

/// A word of a choice is read as people write it: oil grades have a capital W.
#[test]
fn a_choice_is_read_in_capitals_too() {
    let sound = fs::read_to_string(folder().join("sound.toml")).unwrap();
    let with = |base: &str, grade: &str| {
        let text = sound.replace("\"ethylene-glycol\"", base);
        read_project(&format!("{text}\n[oil]\ngrade = \"{grade}\"\nvolume = \"4 L\"\ncooler = \"none\"\n"))
    };
    let loud = with("\"Ethylene-Glycol\"", "10W-40").unwrap();
    assert_eq!(loud, with("\"ethylene-glycol\"", "10w-40").unwrap());
    assert!(with("\"ethylene-glycol\"", "10W-41").is_err());
}
