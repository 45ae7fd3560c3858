//! What DEVELOPERS.md promises of the source text: who may use whom, how long a file may be, what is cited.
#![allow(clippy::unwrap_used)]

use std::collections::{BTreeMap, BTreeSet};
use std::path::{Path, PathBuf};

/// The modules from left to right; those of one rank do not know each other unless they share the first rank.
const ORDER: [&[&str]; 9] = [
    &["quantity", "source", "note", "scribe"],
    &["numeric"],
    &["fluid"],
    &["coolant", "heat", "crankcase"],
    &["day"],
    &["study"],
    &["file"],
    &["window"],
    &["command"],
];
/// Lines of code a file may have.
const LONGEST: usize = 400;

fn root() -> PathBuf {
    PathBuf::from(env!("CARGO_MANIFEST_DIR"))
}

/// Every file below a folder, by its path from the root.
fn files_in(folder: &str, ends: &[&str]) -> Vec<(String, String)> {
    fn walk(folder: &Path, ends: &[&str], found: &mut Vec<(String, String)>) {
        for entry in std::fs::read_dir(folder).unwrap() {
            let path = entry.unwrap().path();
            let name = path.file_name().unwrap().to_string_lossy().into_owned();
            if path.is_dir() {
                if !matches!(name.as_str(), "target" | ".git" | "proptest-regressions") {
                    walk(&path, ends, found);
                }
            } else if ends.is_empty() || ends.iter().any(|end| name.ends_with(end)) {
                let shown = path.strip_prefix(root()).unwrap().to_string_lossy().replace('\\', "/");
                if let Ok(text) = std::fs::read_to_string(&path) {
                    found.push((shown, text));
                }
            }
        }
    }
    let mut found = Vec::new();
    walk(&root().join(folder), ends, &mut found);
    found.sort();
    assert!(!found.is_empty(), "no files in {folder}");
    found
}

/// The text without comments; what stands in quotes stays.
fn code(text: &str) -> String {
    text.lines().map(|line| line.split_once("//").map_or(line, |(code, _)| code)).collect::<Vec<_>>().join("\n")
}

/// Every word of a text: letters, digits and underscores.
fn words(text: &str) -> impl Iterator<Item = &str> {
    text.split(|c: char| !(c.is_alphanumeric() || c == '_')).filter(|word| !word.is_empty())
}

fn rank(module: &str) -> Option<usize> {
    ORDER.iter().position(|rank| rank.contains(&module))
}

/// The modules named after `crate::`, those in braces included.
fn used(code: &str) -> BTreeSet<String> {
    let mut found = BTreeSet::new();
    for (at, _) in code.match_indices("crate::") {
        let rest = &code[at + "crate::".len()..];
        let first = |text: &str| words(text).next().unwrap_or_default().to_owned();
        if !rest.starts_with('{') {
            found.insert(first(rest));
            continue;
        }
        let (mut depth, mut begins) = (0, true);
        for (i, c) in rest.char_indices() {
            match c {
                '{' => depth += 1,
                '}' => depth -= 1,
                ',' if depth == 1 => begins = true,
                c if depth == 1 && begins && c.is_alphabetic() => {
                    found.insert(first(&rest[i..]));
                    begins = false;
                }
                _ => {}
            }
            if depth == 0 {
                break;
            }
        }
    }
    found
}

#[test]
fn a_module_uses_only_modules_to_its_left() {
    let mut uses = 0;
    for (path, text) in files_in("src", &[".rs"]) {
        let own = path.trim_start_matches("src/").split(['/', '.']).next().unwrap().to_owned();
        if matches!(own.as_str(), "lib" | "main") {
            continue;
        }
        let rank_of_own = rank(&own).unwrap_or_else(|| panic!("{path}: {own} has no place in the order"));
        for module in used(&code(&text)) {
            // What is no module is a macro of the crate.
            let Some(other) = rank(&module) else { continue };
            let inside = module == own || (rank_of_own == 0 && other == 0);
            assert!(inside || other < rank_of_own, "{path} uses {module}, which stands to its right or beside it");
            uses += 1;
        }
    }
    assert!(uses > 300, "{uses}");
}

/// The command line and the window are two ways to the same answers; neither needs the other.
#[test]
fn window_and_command_do_not_know_each_other() {
    for (path, text) in files_in("src/command", &[".rs"]) {
        assert!(!used(&code(&text)).contains("window"), "{path}");
    }
}

#[test]
fn only_the_window_knows_egui() {
    for (path, text) in files_in("src", &[".rs"]) {
        if path.starts_with("src/window") || path == "src/main.rs" {
            continue;
        }
        for word in words(&code(&text)) {
            let foreign = ["egui", "eframe", "egui_plot", "egui_extras", "rfd"].contains(&word);
            assert!(!foreign, "{path} knows {word}");
        }
    }
}

/// The study is pure: no clock, no files, no threads of its own making, no output.
#[test]
fn the_study_and_the_physics_are_pure() {
    for folder in ["study", "day", "coolant", "heat", "crankcase", "fluid", "numeric", "quantity", "scribe"] {
        for (path, text) in files_in(&format!("src/{folder}"), &[".rs"]) {
            let code = code(&text);
            for part in ["std::fs", "std::time", "std::env", "std::process", "std::thread", "std::net", "println!"] {
                assert!(!code.contains(part), "{path} has {part}");
            }
        }
    }
}

/// Lines of code: neither blank nor comment, unit tests left out.
#[test]
fn no_file_is_long() {
    for folder in ["src", "benches"] {
        for (path, text) in files_in(folder, &[".rs"]) {
            let text = text.split("#[cfg(test)]\nmod tests").next().unwrap();
            let lines = code(text).lines().filter(|line| !line.trim().is_empty()).count();
            assert!(lines <= LONGEST, "{path} has {lines} lines of code, more than {LONGEST}; give each idea a file");
        }
    }
}

/// The names of the ledger's entries in the source, by key.
fn ledger() -> BTreeMap<String, String> {
    let mut names = BTreeMap::new();
    for (path, text) in files_in("src/source", &[".rs"]) {
        // Whole lines of comment only: a title may hold two slashes.
        let code: String =
            text.lines().filter(|line| !line.trim_start().starts_with("//")).map(|line| format!("{line}\n")).collect();
        let mut last: Vec<&str> = Vec::new();
        let mut rest = code.as_str();
        // A key is the first quoted text after `NAME = ` or `NAME: Source = Source::new(`.
        while let Some(open) = rest.find('"') {
            let before = &rest[..open];
            let Some(close) = rest[open + 1..].find('"') else { break };
            let quoted = &rest[open + 1..open + 1 + close];
            last.clear();
            last.extend(words(before));
            let name =
                last.iter().rev().find(|word| word.chars().all(|c| c.is_uppercase() || c.is_numeric() || c == '_'));
            let opens = before.trim_end().ends_with('=') || before.trim_end().ends_with("Source::new(");
            if let (Some(name), true) = (name, opens) {
                let twice = names.insert(quoted.to_owned(), (*name).to_owned());
                assert!(twice.is_none(), "{path}: the key {quoted} stands for two sources");
            }
            rest = &rest[open + 2 + close..];
        }
    }
    names
}

#[test]
fn every_source_has_its_own_key_and_is_cited() {
    let names = ledger();
    let mut keys = BTreeSet::new();
    let mut titles = BTreeMap::new();
    for source in coldmark::source::all() {
        assert!(keys.insert(source.key), "two sources have the key {}", source.key);
        assert!(source.title.len() > 15 || source.key == "definition", "{}: {}", source.key, source.title);
        if let Some(other) = titles.insert(source.title, source.key) {
            panic!("{} and {other} have one title", source.key);
        }
        assert!(names.contains_key(source.key), "{} is not found in the ledger's text", source.key);
    }
    for (key, name) in &names {
        assert!(keys.contains(key.as_str()), "{name} ({key}) is missing from source::all()");
    }
    let mut cited = BTreeSet::new();
    for (path, text) in files_in("src", &[".rs"]) {
        if !path.starts_with("src/source") {
            cited.extend(words(&code(&text)).map(str::to_owned));
        }
    }
    let idle: Vec<_> = names.values().filter(|name| !cited.contains(*name)).collect();
    assert!(idle.is_empty(), "nothing cites {idle:?}");
}

/// Tables that wait for the part of the program they are for. A table that is used must leave this list.
const WAITING: [(&str, &str); 1] =
    [("fit_coefficients.json", "the coefficients themselves, kept beside the tables made with them")];

#[test]
fn every_reference_table_is_used_and_made_by_something() {
    let tests: String = ["tests", "src"]
        .iter()
        .flat_map(|folder| files_in(folder, &[".rs"]))
        .filter(|(path, _)| path != "tests/architecture.rs")
        .map(|(_, text)| text)
        .collect();
    let makers: String = files_in("tests/reference", &[".py"]).into_iter().map(|(_, text)| text).collect();
    let documented = std::fs::read_to_string(root().join("tests/reference/README.md")).ok();
    for (path, _) in files_in("tests/reference", &[".csv", ".json"]) {
        let name = path.rsplit('/').next().unwrap();
        let waits = WAITING.iter().find(|(waiting, _)| *waiting == name);
        match waits {
            Some((_, what)) => assert!(!tests.contains(name), "{name} is used: it waits for {what} no longer"),
            None => assert!(tests.contains(name), "no test uses {name}"),
        }
        let told = documented.as_ref().is_some_and(|text| text.contains(name));
        assert!(makers.contains(name) || told, "neither a script nor a README says where {name} comes from");
        if let Some(text) = &documented {
            assert!(text.contains(name), "tests/reference/README.md does not tell of {name}");
        }
    }
}

/// The project speaks of itself alone.
#[test]
fn no_file_speaks_of_this_machine() {
    // In pieces, so that this file does not speak of them either.
    let places = [concat!("/wo", "rk/"), concat!("/tm", "p/"), concat!("/ro", "ot/")];
    let task = concat!("bri", "ef");
    let ends = [".rs", ".md", ".toml", ".py", ".csv", ".json", ".yml", ".yaml", ".desktop", ".svg", ".txt"];
    for (path, text) in files_in(".", &ends) {
        let lower = text.to_lowercase();
        for place in places {
            assert!(!lower.contains(place), "{path} names {place}");
        }
        if lower.contains(task) {
            assert!(!words(&lower).any(|word| word == task), "{path} speaks of a {task}");
        }
    }
}

/// Functions that take or give a bare number all the same, and why.
const BARE: [(&str, &str, &str); 2] = [
    ("heat/oil.rs", "constants", "the two constants of the viscosity equation, which have no dimension"),
    ("fluid/solution.rs", "at", "the polynomial of a private module, shifted and scaled arguments"),
];
/// Private modules that count in plain SI numbers behind typed functions; their types are not given out.
const INSIDE: [&str; 3] = ["coolant/balance.rs", "heat/core.rs", "crankcase/cylinder/geometry.rs"];

/// A pressure handed over as a bare number is a unit error waiting to happen.
#[test]
fn public_functions_of_the_physics_are_typed() {
    let mut bare: BTreeSet<&str> = BARE.iter().map(|(_, name, _)| *name).collect();
    let mut seen = 0;
    for part in ["fluid", "coolant", "heat", "crankcase"] {
        for (path, text) in files_in(&format!("src/{part}"), &[".rs"]) {
            let short = path.trim_start_matches("src/");
            let code = code(text.split("#[cfg(test)]").next().unwrap());
            for opening in ["pub fn ", "pub const fn "] {
                for (at, _) in code.match_indices(opening) {
                    let signature = code[at + opening.len()..].split(['{', ';']).next().unwrap();
                    let name = words(signature).next().unwrap();
                    seen += 1;
                    if !words(signature).any(|word| word == "f64") || INSIDE.contains(&short) {
                        continue;
                    }
                    let known = BARE.iter().any(|(file, function, _)| *file == short && *function == name);
                    assert!(known, "{path}: {name} has a bare number in its signature");
                    bare.remove(name);
                }
            }
        }
    }
    assert!(seen > 200, "{seen}");
    assert!(bare.is_empty(), "no longer bare: {bare:?}");
}
