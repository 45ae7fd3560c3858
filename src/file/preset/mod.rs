//! Presets: generic parts to start from. Each sets some inputs of a project and says where every one comes from.
//!
//! A preset is a TOML file in `presets/<part>/`, with the groups and keys of a project file:
//!
//! ```toml
//! coldmark_preset = 1
//! part = "cap"
//! name = "90 kPa (13 psi) class"
//! remark = "What is stamped on many radiator caps."
//!
//! [cap]
//! opening = "90 kPa"
//!
//! [source]
//! cap.opening = "definition: what this preset stands for"
//! ```
//!
//! `"none"` makes an input unknown again that may be unknown.

mod shelf;

pub use shelf::{Presets, demo, presets, presets_in};

use super::FileFault;
use super::inputs;
use super::read::{Extent, Locator, format_is, in_order, parse, read_into};
use crate::source::Standing;
use crate::study::{Choice, Project, VentilationArrangement};
use toml::de::{DeTable, DeValue};

const FORMAT: i64 = 1;
const FORMAT_KEY: &str = "coldmark_preset";

/// What a preset is a preset of; also its folder.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
#[allow(missing_docs)] // The words on screen are the documentation.
pub enum PresetPart {
    Engine,
    Radiator,
    Fan,
    Cap,
    Thermostat,
    Tank,
    Valve,
    Breather,
    Hose,
    Arrangement,
    Day,
}
crate::choice!(PresetPart {
    Engine: "engine", "Engine with its duty points";
    Radiator: "radiator", "Radiator";
    Fan: "fan", "Fan";
    Cap: "cap", "Pressure cap";
    Thermostat: "thermostat", "Thermostat";
    Tank: "tank", "Overflow tank";
    Valve: "valve", "PCV valve";
    Breather: "breather", "Breather with its hose";
    Hose: "hose", "Hose with its fittings";
    Arrangement: "arrangement", "Crankcase ventilation arrangement";
    Day: "day", "Day of driving";
});

impl PresetPart {
    /// The parts of a project, or single inputs, that such a preset may set: choosing a cap must not change the engine.
    const fn may_set(self) -> &'static [&'static str] {
        match self {
            // What was measured on another engine, and what it holds, goes with the engine.
            Self::Engine => &[
                "engine",
                "oil",
                "duty",
                "circuit",
                "blow_by",
                "car.highest_speed",
                "car.lugging_speed",
                "car.torque_flat_from",
                "car.torque_at_idle",
            ],
            Self::Radiator => &["radiator", "circuit.radiator_metal"],
            Self::Fan => &["radiator.fan"],
            Self::Cap => &["cap"],
            Self::Thermostat => &["thermostat"],
            Self::Tank => &["tank"],
            Self::Valve => &["ventilation.valve"],
            Self::Breather => &["ventilation.breather", "ventilation.element"],
            // Written for the breather line; [`Preset::apply_to`] puts it elsewhere.
            Self::Hose => &["ventilation.breather.bore", "ventilation.breather.barb", "ventilation.breather.barbs"],
            Self::Arrangement => &["ventilation.arrangement", "ventilation.catch_can"],
            Self::Day => &["day"],
        }
    }
}

/// The line a hose is put into.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum PresetLine {
    /// The breather's, or the fresh-air line.
    Breather,
    /// The second breather's.
    Second,
    /// From the cover to the can in the valve's line.
    Valve,
}
crate::choice!(PresetLine {
    Breather: "breather", "Breather line";
    Second: "second_breather", "Second breather line";
    Valve: "valve_line", "Line to the catch can";
});

/// Where one value of a preset comes from.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct PresetSource {
    /// The path of the input: `cap.opening`.
    pub path: String,
    /// How much the source can carry.
    pub standing: Standing,
    /// Its words; empty where the standing says it all.
    pub words: String,
}

/// A generic part to start from.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Preset {
    /// What it is a preset of.
    pub part: PresetPart,
    /// The name of its file, without folder and ending: stable, for command line and tests.
    pub key: String,
    /// Its name on screen.
    pub name: String,
    /// What else is worth saying.
    pub remark: String,
    /// Where each value comes from, in the order of the paths.
    pub sources: Vec<PresetSource>,
    /// The text it was read from, free of faults whatever a project has chosen.
    text: String,
}

impl Preset {
    /// Reads a preset from the text of its file. `key` is the name of that file without its ending.
    ///
    /// # Errors
    /// Every fault found: as for a project file, though nothing need be there; values outside the preset's part; values
    /// that hang on a choice the preset leaves open; values without a source, and sources without a value.
    pub fn read(key: &str, text: &str) -> Result<Self, Vec<FileFault>> {
        let document = parse(text)?;
        let table = document.get_ref();
        format_is(FORMAT_KEY, FORMAT, "preset", table, text).map_err(|fault| vec![fault])?;
        let mut head = Head { table, finder: Locator::new(table, text), faults: Vec::new() };
        let part = head.part();
        let name = head.words("name", 1);
        let remark = head.words("remark", 0);
        let sources = head.sources();
        let mut faults = head.faults;
        let Some(part) = part else { return Err(in_order(faults)) };
        let finder = Locator::new(table, text);
        let mut fault = |path: &str, message: String| {
            faults.push(FileFault { line: finder.line(path), path: path.to_owned(), message });
        };

        let (mut read, given) = read_part(part, &mut Project::blank(), table, text);
        for path in &given {
            let allowed = part.may_set();
            if !allowed
                .iter()
                .any(|own| path == own || path.strip_prefix(own).is_some_and(|rest| rest.starts_with('.')))
            {
                fault(
                    path,
                    format!("a preset of part \"{}\" may set inputs of {} only", part.word(), allowed.join(", ")),
                );
            }
            if !sources.iter().any(|source| source.path == *path) {
                fault(path, format!("this value has no source; add {path} = \"…\" under [source]"));
            }
        }
        for source in &sources {
            if !given.contains(&source.path) {
                let message = "this source belongs to no value of the preset; delete it, or set the value".to_owned();
                fault(&format!("source.{}", source.path), message);
            }
        }
        if given.is_empty() {
            fault("", "the preset sets nothing; give it at least one value".to_owned());
        }
        if read.is_empty() && faults.is_empty() {
            // An input behind a choice that the preset does not make is hidden in one of these projects.
            let hidden = inputs::every_choice().map(|mut project| read_part(part, &mut project, table, text).0);
            read = hidden.into_iter().find(|faults| !faults.is_empty()).unwrap_or_default();
        }
        faults.append(&mut read);
        if !faults.is_empty() {
            return Err(in_order(faults));
        }
        Ok(Self { part, key: key.to_owned(), name, remark, sources, text: text.to_owned() })
    }

    /// As [`Preset::apply`], with what the preset says of the breather's line put into another line: for a hose.
    pub fn apply_to(&self, line: PresetLine, project: &mut Project) {
        let swap = |project: &mut Project| {
            let ventilation = &mut project.ventilation;
            match line {
                PresetLine::Breather => {}
                PresetLine::Second => std::mem::swap(&mut ventilation.breather, &mut ventilation.second),
                PresetLine::Valve => std::mem::swap(&mut ventilation.breather, &mut ventilation.valve_line),
            }
        };
        swap(project);
        self.apply(project);
        swap(project);
    }

    /// Sets the preset's values in a project. All else stays as it is, what a choice hides included.
    ///
    /// Check the project afterwards: a new engine may not fit what else was entered.
    pub fn apply(&self, project: &mut Project) {
        // The text was read without fault for every choice a project can make, so it is now.
        if let Ok(document) = parse(&self.text) {
            let _ = read_part(self.part, project, document.get_ref(), &self.text);
        }
    }
}

/// Reads the values of a preset into a project: the faults, and the paths of the values.
fn read_part(
    part: PresetPart,
    project: &mut Project,
    table: &DeTable<'_>,
    text: &str,
) -> (Vec<FileFault>, Vec<String>) {
    let own = [FORMAT_KEY, "part", "name", "remark", "source"];
    let arrangement = project.ventilation.arrangement;
    let hides_itself = matches!(part, PresetPart::Valve | PresetPart::Breather | PresetPart::Hose);
    if hides_itself {
        // A valve may be chosen while the arrangement has none: it waits there until one is asked for.
        project.ventilation.arrangement = VentilationArrangement::BreatherWithValve;
    }
    let read = read_into(project, table, text, Extent::Some, &own);
    if hides_itself {
        project.ventilation.arrangement = arrangement;
    }
    read
}

/// Reads what a preset says of itself.
struct Head<'t> {
    table: &'t DeTable<'t>,
    finder: Locator<'t>,
    faults: Vec<FileFault>,
}

impl<'t> Head<'t> {
    fn fault(&mut self, path: &str, message: impl Into<String>) {
        self.faults.push(FileFault { line: self.finder.line(path), path: path.to_owned(), message: message.into() });
    }

    fn value(&self, key: &str) -> Option<&'t DeValue<'t>> {
        let found = self.table.iter().find(|(found, _)| found.get_ref().as_ref() == key);
        found.map(|(_, value)| value.get_ref())
    }

    fn part(&mut self) -> Option<PresetPart> {
        let word = self.value("part").and_then(DeValue::as_str);
        let part = PresetPart::ALL.iter().find(|part| word == Some(part.word())).copied();
        if part.is_none() {
            let words = PresetPart::ALL.iter().map(|part| part.word()).collect::<Vec<_>>().join(", ");
            self.fault("part", format!("the part must be one of: {words}"));
        }
        part
    }

    fn words(&mut self, key: &str, least: usize) -> String {
        const MOST: usize = 400;
        let text = self.value(key).and_then(DeValue::as_str).unwrap_or_default();
        let given = self.value(key).is_some_and(DeValue::is_str);
        let length = text.trim().chars().count();
        if !given || length < least || length > MOST {
            self.fault(key, format!("the {key} must be text in quotes, of {least} to {MOST} characters"));
        }
        text.trim().to_owned()
    }

    fn sources(&mut self) -> Vec<PresetSource> {
        let mut found = Vec::new();
        match self.value("source") {
            Some(DeValue::Table(table)) => flatten(table, "", &mut found),
            Some(_) => self.fault("source", "[source] must be a part with one line for each value"),
            None => self.fault("source", "the part [source] is missing; say there where each value comes from"),
        }
        let mut sources: Vec<PresetSource> = Vec::new();
        for (path, value) in found {
            let place = format!("source.{path}");
            if sources.iter().any(|source| source.path == path) {
                self.fault(&place, "this value has two sources; join them in one line");
            }
            match value.as_str().and_then(standing) {
                Some((standing, words)) => sources.push(PresetSource { path, standing, words }),
                None => {
                    let words = STANDINGS.iter().map(|(word, _)| format!("\"{word}: …\"")).collect::<Vec<_>>();
                    self.fault(&place, format!("a source is text that begins with one of {}", words.join(", ")));
                }
            }
        }
        sources.sort_by(|a, b| a.path.cmp(&b.path));
        sources
    }
}

/// The first words of a source, and what they are worth.
const STANDINGS: [(&str, Standing); 5] = [
    ("published", Standing::Published),
    ("from memory", Standing::FromMemory),
    ("common practice, no source", Standing::CommonPractice),
    ("estimate", Standing::Assumption),
    ("definition", Standing::Definition),
];

/// "estimate: round figure" taken apart. Only common practice may stand without words of its own.
fn standing(text: &str) -> Option<(Standing, String)> {
    STANDINGS.iter().find_map(|&(word, standing)| {
        let rest = text.trim().strip_prefix(word)?;
        let words = if rest.is_empty() { "" } else { rest.strip_prefix(':')?.trim() };
        let enough = !words.is_empty() || (rest.is_empty() && standing == Standing::CommonPractice);
        enough.then(|| (standing, words.to_owned()))
    })
}

/// The entries of a table and of the tables in it, by dotted path; `"cap.opening" = …` and `cap.opening = …` are one.
fn flatten<'t>(table: &'t DeTable<'t>, path: &str, found: &mut Vec<(String, &'t DeValue<'t>)>) {
    for (key, value) in table {
        let key = key.get_ref().as_ref();
        let path = if path.is_empty() { key.to_owned() } else { format!("{path}.{key}") };
        match value.get_ref() {
            DeValue::Table(inner) => flatten(inner, &path, found),
            value => found.push((path, value)),
        }
    }
}
