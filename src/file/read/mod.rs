//! A project file or a preset read whole: every fault found at once, each with its line.

mod place;
mod spelling;
mod visit;

pub(super) use place::{Lines, Locator};

use super::FileFault;
use super::inputs;
use crate::quantity::{Kind, Measured, Range, parse_amount};
use crate::study::{Field, Project};
use spelling::{nearest, shortened};
use std::collections::BTreeSet;
use toml::Spanned;
use toml::de::{DeString, DeTable, DeValue};

/// The format this program writes; it reads this one only, and says so of a newer one.
pub const FORMAT: i64 = 1;
/// The key of the format number.
pub const FORMAT_KEY: &str = "coldmark_format";

/// Reads a project from the text of a file.
///
/// # Errors
/// Every fault found: syntax, unknown keys, missing inputs, wrong units, values out of range, a newer format.
pub fn read_project(text: &str) -> Result<Project, Vec<FileFault>> {
    let document = parse(text)?;
    let table = document.get_ref();
    format_is(FORMAT_KEY, FORMAT, "project", table, text).map_err(|fault| vec![fault])?;
    let mut project = Project::blank();
    let (mut faults, _) = read_into(&mut project, table, text, Extent::Whole, &[FORMAT_KEY]);
    if faults.is_empty()
        && let Err(problems) = project.check()
    {
        let finder = Locator::new(table, text);
        for problem in problems.0 {
            faults.push(FileFault { line: finder.line(&problem.path), path: problem.path, message: problem.message });
        }
    }
    if faults.is_empty() { Ok(project) } else { Err(in_order(faults)) }
}

/// The top table of a text, or every fault of its syntax.
pub(super) fn parse(text: &str) -> Result<Spanned<DeTable<'_>>, Vec<FileFault>> {
    let (document, syntax) = DeTable::parse_recoverable(text);
    if syntax.is_empty() {
        return Ok(document);
    }
    let lines = Lines::new(text);
    let mut faults: Vec<FileFault> = Vec::new();
    for error in &syntax {
        let line = error.span().map(|span| lines.line(span.start));
        // The first fault of a line is the one to mend; what follows it is mostly its echo.
        if faults.last().is_none_or(|last| last.line != line) {
            faults.push(FileFault { line, path: String::new(), message: spelling::syntax(error.message()) });
        }
    }
    Err(in_order(faults))
}

pub(super) fn in_order(mut faults: Vec<FileFault>) -> Vec<FileFault> {
    faults.sort_by_key(|fault| fault.line.unwrap_or(usize::MAX));
    faults
}

/// Whether the first line names a format this program reads.
pub(super) fn format_is(
    key: &'static str,
    ours: i64,
    what: &str,
    document: &DeTable<'_>,
    text: &str,
) -> Result<(), FileFault> {
    let fault = |line, message| Err(FileFault { line, path: key.to_owned(), message });
    let Some((found, value)) = document.iter().find(|(found, _)| found.get_ref().as_ref() == key) else {
        return fault(None, format!("this is no Coldmark {what}: its first line must be {key} = {ours}"));
    };
    let line = Some(Lines::new(text).line(found.span().start));
    let number = value.get_ref().as_integer().and_then(|integer| integer.as_str().parse::<i64>().ok());
    match number {
        Some(number) if number == ours => Ok(()),
        Some(newer) if newer > ours => fault(
            line,
            format!(
                "this file has format {newer}; this version of the program reads format {ours}. Open it with a newer version; nothing was changed"
            ),
        ),
        _ => fault(line, format!("the format must be the number {ours}, without quotes")),
    }
}

/// How much a text must give.
#[derive(Clone, Copy, PartialEq, Eq)]
pub(super) enum Extent {
    /// A project file: every input.
    Whole,
    /// A preset: any inputs; the others stay as they are, and "none" makes one unknown again.
    Some,
}

/// Reads a table into a project. Gives the faults, and the paths of the inputs that were given.
pub(super) fn read_into(
    project: &mut Project,
    table: &DeTable<'_>,
    text: &str,
    extent: Extent,
    own: &[&'static str],
) -> (Vec<FileFault>, Vec<String>) {
    let top = Group { table: Some(table), line: None, seen: own.to_vec(), chosen: Vec::new(), unsure: false };
    let mut reader = Reader {
        lines: Lines::new(text),
        faults: Vec::new(),
        path: Vec::new(),
        groups: vec![top],
        extent,
        later: false,
        given: Vec::new(),
    };
    project.visit(&mut reader);
    reader.leave();
    (reader.faults, reader.given)
}

struct Reader<'t> {
    lines: Lines,
    faults: Vec<FileFault>,
    path: Vec<String>,
    groups: Vec<Group<'t>>,
    extent: Extent,
    /// Files from before the inputs now walked over may lack them.
    later: bool,
    /// The paths of the inputs read.
    given: Vec<String>,
}

/// A part of the file being read.
struct Group<'t> {
    /// `None` where the file lacks it.
    table: Option<&'t DeTable<'t>>,
    /// The line of its heading.
    line: Option<usize>,
    /// The keys it knows.
    seen: Vec<&'static str>,
    /// What was chosen in it: which other inputs it has hangs on that.
    chosen: Vec<(&'static str, &'static str)>,
    /// A choice could not be read, so nobody knows which inputs belong here.
    unsure: bool,
}

type Value<'t> = Spanned<DeValue<'t>>;
type Found<'t> = (&'t Spanned<DeString<'t>>, &'t Value<'t>);

/// A quantity as the file has it.
enum Written<'t> {
    Text(&'t str),
    Bare(f64),
}

impl<'t> Reader<'t> {
    fn path_of(&self, key: &str) -> String {
        let path = self.path.iter().map(String::as_str).chain([key]).filter(|part| !part.is_empty());
        path.collect::<Vec<_>>().join(".")
    }

    fn fault(&mut self, key: &str, offset: usize, message: impl Into<String>) {
        let (line, path) = (Some(self.lines.line(offset)), self.path_of(key));
        self.faults.push(FileFault { line, path, message: message.into() });
    }

    fn find(&mut self, key: &'static str) -> Option<Found<'t>> {
        let group = self.groups.last_mut()?;
        group.seen.push(key);
        group.table?.iter().find(|(found, _)| found.get_ref().as_ref() == key)
    }

    /// Whether the present part has a key.
    fn has(&self, key: &str) -> bool {
        let table = self.groups.last().and_then(|group| group.table);
        table.is_some_and(|table| table.iter().any(|(found, _)| found.get_ref().as_ref() == key))
    }

    /// As `find`, and notes that the file gives this input.
    fn take(&mut self, key: &'static str) -> Option<Found<'t>> {
        let found = self.find(key)?;
        let path = self.path_of(key);
        self.given.push(path);
        Some(found)
    }

    fn enter(&mut self, name: String, table: Option<&'t DeTable<'t>>, line: Option<usize>) {
        self.path.push(name);
        self.groups.push(Group { table, line, seen: Vec::new(), chosen: Vec::new(), unsure: false });
    }

    /// Closes a group and reports what it did not know.
    fn leave(&mut self) {
        let Some(group) = self.groups.pop() else { return };
        if let Some(table) = group.table
            && !group.unsure
        {
            // Only a key that is not yet there can be meant by one that is unknown.
            let there: BTreeSet<&str> = table.iter().map(|(key, _)| key.get_ref().as_ref()).collect();
            let absent: Vec<&str> = group.seen.iter().copied().filter(|known| !there.contains(known)).collect();
            for (key, _) in table {
                let word = key.get_ref().as_ref();
                if !group.seen.contains(&word) {
                    let message = self.unknown(word, &absent, &group);
                    self.fault(&shortened(word), key.span().start, message);
                }
            }
        }
        self.path.pop();
    }

    /// What to say of a key that has no place here.
    fn unknown(&self, word: &str, absent: &[&str], group: &Group<'_>) -> String {
        let shown = shortened(word);
        if inputs::exists(&self.path_of(word)) {
            if self.extent == Extent::Some {
                return format!("'{shown}' is asked for with some choices only; make the choice in this file too");
            }
            let chosen: Vec<_> = group.chosen.iter().map(|(key, word)| format!("{key} = \"{word}\"")).collect();
            return format!(
                "'{shown}' is not asked for with {}; delete it, or choose otherwise",
                if chosen.is_empty() { "what is chosen".to_owned() } else { chosen.join(" and ") }
            );
        }
        let meant = match (nearest(word, absent), inputs::only_place_of(word)) {
            (Some(near), _) => format!("did you mean '{near}'?"),
            (None, Some(place)) => format!("it belongs under [{place}]"),
            (None, None) => format!("known here: {}", group.seen.join(", ")),
        };
        format!("'{shown}' is not an input of this place; {meant}")
    }

    fn missing(&mut self, key: &'static str, label: &str, what: &str) {
        // A missing part is said once, at the part; and without a choice nobody knows what belongs here.
        let Some(group) = self.groups.last() else { return };
        if self.extent == Extent::Whole && group.table.is_some() && !group.unsure && !self.later {
            let (line, path) = (group.line, self.path_of(key));
            self.faults.push(FileFault { line, path, message: format!("{label} is missing; add {what}") });
        }
    }

    fn unsure(&mut self) {
        if let Some(group) = self.groups.last_mut() {
            group.unsure = true;
        }
    }

    fn written(&mut self, field: &'static Field, value: &'t Value<'t>) -> Option<Written<'t>> {
        let bare = match value.get_ref() {
            DeValue::String(text) => return Some(Written::Text(text.as_ref())),
            DeValue::Integer(integer) if integer.radix() == 10 => integer.as_str().parse().ok(),
            DeValue::Float(float) => float.as_str().parse::<f64>().ok(),
            DeValue::Integer(_) => None,
            other => {
                let message = format!("a quantity is written as text with its unit, not as {}", kind_of(other));
                self.fault(field.key, value.span().start, message);
                return None;
            }
        };
        let expected = expected(field.range.kind);
        let message = match bare.filter(|number| number.is_finite()) {
            Some(number) if field.range.kind == Kind::Number => return Some(Written::Bare(number)),
            Some(_) => format!("a bare number has no unit; write {expected}"),
            None => format!("this is no number to count with; write {expected}"),
        };
        self.fault(field.key, value.span().start, message);
        None
    }

    /// One quantity; `row` says which of several it is.
    fn amount<Q: Measured>(&mut self, field: &'static Field, value: &'t Value<'t>, row: &str) -> Option<Q> {
        let read = match self.written(field, value)? {
            Written::Bare(bare) => Ok(bare),
            Written::Text(text) => parse_amount(text, field.range.kind, None).map_err(|error| error.to_string()),
        };
        let checked = read.and_then(|base| in_range(&field.range, Q::from_base(base)));
        checked.map_err(|message| self.fault(field.key, value.span().start, format!("{row}{message}"))).ok()
    }

    fn array(&mut self, key: &'static str, found: Found<'t>) -> Option<Vec<&'t Value<'t>>> {
        match found.1.get_ref() {
            DeValue::Array(array) => Some(array.iter().collect()),
            other => {
                let message = format!("a list in square brackets is expected here, not {}", kind_of(other));
                self.fault(key, found.1.span().start, message);
                None
            }
        }
    }
}

fn in_range<Q: Measured>(range: &Range, value: Q) -> Result<Q, String> {
    range.check(value).map_err(|outside| outside.to_string())
}

/// What to write for a kind: "a length with its unit, such as 12 mm or 3/8 in".
fn expected(kind: Kind) -> String {
    // The parser says it of an empty text.
    match parse_amount("", kind, None) {
        Err(error) => error.to_string().split_once("write ").map(|(_, rest)| rest.to_owned()).unwrap_or_default(),
        Ok(_) => String::new(),
    }
}

fn kind_of(value: &DeValue<'_>) -> &'static str {
    match value {
        DeValue::String(_) => "text",
        DeValue::Integer(_) | DeValue::Float(_) => "a number",
        DeValue::Boolean(_) => "true or false",
        DeValue::Datetime(_) => "a date",
        DeValue::Array(_) => "a list",
        DeValue::Table(_) => "a table",
    }
}
