//! The presets compiled in, and those of a folder.

use super::{Preset, PresetPart};
use crate::file::{FileError, read_project, text_of};
use crate::study::{Choice, Project};
use std::path::{Path, PathBuf};
use std::sync::LazyLock;

/// Presets, and what was wrong with the files that are none.
#[derive(Debug, Default)]
pub struct Presets {
    /// Part by part, in the order of their files' names.
    pub presets: Vec<Preset>,
    /// Files with faults; nothing of them is used.
    pub faults: Vec<FileError>,
}

impl Presets {
    /// Those of one part.
    pub fn of(&self, part: PresetPart) -> impl Iterator<Item = &Preset> {
        self.presets.iter().filter(move |preset| preset.part == part)
    }

    fn add(&mut self, path: &Path, part: PresetPart, text: &str) {
        let key = path.file_stem().map(|stem| stem.to_string_lossy().into_owned()).unwrap_or_default();
        let shown = path.display().to_string();
        match Preset::read(&key, text) {
            Ok(preset) if preset.part == part => self.presets.push(preset),
            Ok(preset) => {
                let message = format!(
                    "the file lies in the folder {} and says it is of part {}; move it or mend it",
                    part.word(),
                    preset.part.word()
                );
                let fault = crate::file::FileFault { line: None, path: "part".to_owned(), message };
                self.faults.push(FileError::Faults { path: shown, faults: vec![fault] });
            }
            Err(faults) => self.faults.push(FileError::Faults { path: shown, faults }),
        }
    }
}

/// The presets that come with the program.
pub fn presets() -> &'static Presets {
    static OURS: LazyLock<Presets> = LazyLock::new(|| {
        let mut ours = Presets::default();
        for &(part, path, text) in SHIPPED {
            ours.add(Path::new(path), part, text);
        }
        ours
    });
    &OURS
}

/// The presets in a folder with one folder inside for each part: `engine`, `radiator`, `fan`, `cap`, `thermostat`, `tank`,
/// `valve`, `breather`, `hose`, `arrangement`, `day`. Only files that end in `.toml` are read; faulty ones are told, not used.
#[must_use]
pub fn presets_in(folder: &Path) -> Presets {
    let mut found = Presets::default();
    if let Err(cause) = std::fs::read_dir(folder) {
        found.faults.push(FileError::System { act: "read", path: folder.display().to_string(), cause });
        return found;
    }
    for &part in PresetPart::ALL {
        let folder = folder.join(part.word());
        if !folder.exists() {
            continue;
        }
        match toml_files(&folder) {
            Ok(files) => {
                for path in files {
                    match text_of(&path) {
                        Ok(text) => found.add(&path, part, &text),
                        Err(fault) => found.faults.push(fault),
                    }
                }
            }
            Err(cause) => {
                found.faults.push(FileError::System { act: "read", path: folder.display().to_string(), cause });
            }
        }
    }
    found
}

fn toml_files(folder: &Path) -> std::io::Result<Vec<PathBuf>> {
    let mut files = Vec::new();
    for entry in std::fs::read_dir(folder)? {
        let path = entry?.path();
        if path.extension().is_some_and(|ending| ending == "toml") {
            files.push(path);
        }
    }
    files.sort_by(|a, b| a.file_stem().cmp(&b.file_stem()));
    Ok(files)
}

/// The invented example that the program opens with.
#[must_use]
pub fn demo() -> Project {
    // It is compiled in and a test reads it, so the blank project is never seen.
    read_project(DEMO).unwrap_or_else(|_| Project::blank())
}

/// The text of the example.
const DEMO: &str = include_str!("../../../presets/demo.toml");

macro_rules! shipped {
    ($($part:ident $folder:literal: $($name:literal),+;)*) => {
        /// Part, path and text of every preset compiled in; a test compares it with the folder.
        const SHIPPED: &[(PresetPart, &str, &str)] = &[$($(
            (
                PresetPart::$part,
                concat!("presets/", $folder, "/", $name, ".toml"),
                include_str!(concat!("../../../presets/", $folder, "/", $name, ".toml")),
            ),
        )+)*];
    };
}

shipped! {
    Engine "engine":
        "four-1.3", "four-1.8", "four-1.8-turbo", "four-2.0", "four-2.0-diesel", "four-2.0-turbo-diesel", "four-2.3-blower",
        "six-3.0", "twin-650", "v8-5.0", "v8-5.7";
    Radiator "radiator":
        "aluminium-large", "aluminium-medium", "aluminium-small", "copper-brass-large", "copper-brass-medium",
        "core-aluminium-two-row", "core-copper-brass-four-row";
    Fan "fan":
        "belt-430-clutch", "electric-pair-280", "electric-single-350";
    Cap "cap":
        "kpa-048", "kpa-090", "kpa-103", "kpa-110", "kpa-140";
    Thermostat "thermostat":
        "celsius-71", "celsius-77", "celsius-82", "celsius-88", "celsius-91";
    Tank "tank":
        "box-bottle", "catch-only-can", "header-1.8-litre", "lying-cylinder", "sealed-can", "tapered-bottle",
        "upright-1-litre", "upright-1.5-litre", "upright-2-litre";
    Valve "valve":
        "check", "fixed-orifice", "medium-four", "small-four", "spring-plunger-v8", "v8";
    Breather "breather":
        "barbed-12", "filter-16", "filter-19", "filter-25-large";
    Hose "hose":
        "dash-06", "dash-08", "dash-10", "dash-12", "dash-16", "dash-20", "inch-0375-barbed", "inch-0500-barbed",
        "inch-0625-barbed", "inch-0750-barbed", "inch-0875-barbed", "inch-1000-barbed", "inch-1250-barbed",
        "metric-08-barbed", "metric-10-barbed", "metric-12-barbed", "metric-13-barbed", "metric-16-barbed",
        "metric-16-full", "metric-19-barbed", "metric-19-full", "metric-22-barbed", "metric-25-barbed",
        "metric-25-full", "metric-32-barbed";
    Arrangement "arrangement":
        "breather-only", "breather-only-can", "breather-valve", "breather-valve-can-breather",
        "breather-valve-can-valve", "closed", "closed-can-fresh-air-line", "closed-can-valve", "line-to-air-cleaner", "two-breathers",
        "two-breathers-can";
    Day "day":
        "commute-in-winter", "mountain-pass-in-summer", "track-session";
}
