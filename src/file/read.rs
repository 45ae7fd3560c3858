//! A project file read whole: every fault found at once, each with its line.

use super::FileFault;
use crate::quantity::{Estimate, Kind, Measured, parse_amount, parse_estimate};
use crate::study::{Choice, Count, Field, Label, Project, Visitor};
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
    let (document, syntax) = DeTable::parse_recoverable(text);
    let lines = Lines::new(text);
    if !syntax.is_empty() {
        return Err(syntax
            .iter()
            .map(|error| FileFault {
                line: error.span().map(|span| lines.line(span.start)),
                path: String::new(),
                message: format!("this is not well-formed TOML: {}", error.message().replace('\n', " ")),
            })
            .collect());
    }
    let mut reader = Reader {
        lines,
        faults: Vec::new(),
        path: Vec::new(),
        tables: vec![Some(document.get_ref())],
        seen: Vec::new(),
    };
    if !reader.format_is_ours(document.get_ref()) {
        return Err(reader.faults);
    }
    let mut project = Project::blank();
    reader.seen.push(vec![FORMAT_KEY]);
    project.visit(&mut reader);
    reader.leave(None);
    let Reader { mut faults, .. } = reader;
    if faults.is_empty()
        && let Err(problems) = project.check()
    {
        let finder = super::Locator::new(document.get_ref(), text);
        for problem in problems.0 {
            faults.push(FileFault { line: finder.line(&problem.path), path: problem.path, message: problem.message });
        }
    }
    if faults.is_empty() {
        return Ok(project);
    }
    faults.sort_by_key(|fault| fault.line.unwrap_or(usize::MAX));
    Err(faults)
}

/// Byte offsets to line numbers, counted from one.
pub(super) struct Lines(Vec<usize>);

impl Lines {
    pub(super) fn new(text: &str) -> Self {
        Self(text.bytes().enumerate().filter(|&(_, byte)| byte == b'\n').map(|(at, _)| at).collect())
    }

    pub(super) fn line(&self, offset: usize) -> usize {
        self.0.partition_point(|&newline| newline < offset) + 1
    }
}

struct Reader<'t> {
    lines: Lines,
    faults: Vec<FileFault>,
    path: Vec<String>,
    /// The table of each open group; `None` where the file lacks it.
    tables: Vec<Option<&'t DeTable<'t>>>,
    /// The keys each open group knows.
    seen: Vec<Vec<&'static str>>,
}

type Found<'t> = (&'t Spanned<DeString<'t>>, &'t Spanned<DeValue<'t>>);

impl<'t> Reader<'t> {
    fn format_is_ours(&mut self, document: &'t DeTable<'t>) -> bool {
        let Some((key, value)) = document.iter().find(|(key, _)| key.get_ref().as_ref() == FORMAT_KEY) else {
            let message = format!("this is no Coldmark project: its first line must be {FORMAT_KEY} = {FORMAT}");
            self.faults.push(FileFault { line: None, path: FORMAT_KEY.to_owned(), message });
            return false;
        };
        let line = self.lines.line(key.span().start);
        let number = value.get_ref().as_integer().and_then(|integer| integer.as_str().parse::<i64>().ok());
        let message = match number {
            Some(FORMAT) => return true,
            Some(newer) if newer > FORMAT => format!(
                "this file has format {newer}; this version of the program reads format {FORMAT}. Open it with a newer version; nothing was changed"
            ),
            _ => format!("{FORMAT_KEY} must be {FORMAT}"),
        };
        self.faults.push(FileFault { line: Some(line), path: FORMAT_KEY.to_owned(), message });
        false
    }

    fn fault(&mut self, key: &str, offset: Option<usize>, message: impl Into<String>) {
        let path = self.path.iter().map(String::as_str).chain([key]).filter(|part| !part.is_empty());
        let path = path.collect::<Vec<_>>().join(".");
        let line = offset.map(|offset| self.lines.line(offset));
        self.faults.push(FileFault { line, path, message: message.into() });
    }

    fn find(&mut self, key: &'static str) -> Option<Found<'t>> {
        if let Some(seen) = self.seen.last_mut() {
            seen.push(key);
        }
        let table = (*self.tables.last()?)?;
        table.iter().find(|(found, _)| found.get_ref().as_ref() == key)
    }

    /// Reports what the finished group did not know, and missing groups once.
    fn leave(&mut self, name: Option<&str>) {
        let _ = name;
        let Some(seen) = self.seen.pop() else { return };
        let Some(Some(table)) = self.tables.pop() else { return };
        for (key, _) in table {
            let word = key.get_ref().as_ref();
            if !seen.contains(&word) {
                let nearest = nearest(word, &seen);
                let known = match nearest {
                    Some(near) => format!("; did you mean '{near}'?"),
                    None => format!("; known here: {}", seen.join(", ")),
                };
                self.fault(word, Some(key.span().start), format!("'{word}' is not an input of this place{known}"));
            }
        }
    }

    fn text_of(&mut self, key: &'static str, found: Found<'t>, example: Kind) -> Option<&'t str> {
        match found.1.get_ref() {
            DeValue::String(text) => Some(text.as_ref()),
            DeValue::Integer(_) | DeValue::Float(_) => {
                let message = match parse_amount("", example, None) {
                    Err(error) => format!("a bare number has no unit; {}", after_semicolon(&error.to_string())),
                    Ok(_) => String::new(),
                };
                self.fault(key, Some(found.1.span().start), message);
                None
            }
            other => {
                let message = format!("a quantity is written as text with its unit, not as {}", kind_of(other));
                self.fault(key, Some(found.1.span().start), message);
                None
            }
        }
    }

    fn amount<Q: Measured>(&mut self, field: &'static Field, value: &'t Spanned<DeValue<'t>>) -> Option<Q> {
        let offset = value.span().start;
        // A plain number may stand bare.
        if field.range.kind == Kind::Number
            && let Some(bare) = bare_number(value.get_ref())
        {
            return self.in_range(field, Q::from_base(bare), offset);
        }
        let key_value: &Spanned<DeValue<'t>> = value;
        let text = match key_value.get_ref() {
            DeValue::String(text) => text.as_ref(),
            _ => {
                let message = match parse_amount("", field.range.kind, None) {
                    Err(error) => format!("a bare number has no unit; {}", after_semicolon(&error.to_string())),
                    Ok(_) => String::new(),
                };
                self.fault(field.key, Some(offset), message);
                return None;
            }
        };
        match parse_amount(text, field.range.kind, None) {
            Ok(base) => self.in_range(field, Q::from_base(base), offset),
            Err(error) => {
                self.fault(field.key, Some(offset), error.to_string());
                None
            }
        }
    }

    fn in_range<Q: Measured>(&mut self, field: &'static Field, value: Q, offset: usize) -> Option<Q> {
        match field.range.check(value) {
            Ok(value) => Some(value),
            Err(outside) => {
                self.fault(field.key, Some(offset), outside.to_string());
                None
            }
        }
    }

    fn missing(&mut self, key: &'static str, label: &str) {
        // Say a whole missing group once, at the group.
        if self.tables.last().is_some_and(Option::is_some) {
            self.fault(key, None, format!("{label} is missing; add it"));
        }
    }

    fn array(&mut self, key: &'static str, found: Found<'t>) -> Option<Vec<&'t Spanned<DeValue<'t>>>> {
        match found.1.get_ref() {
            DeValue::Array(array) => Some(array.iter().collect()),
            other => {
                let message = format!("a list in square brackets is expected here, not {}", kind_of(other));
                self.fault(key, Some(found.1.span().start), message);
                None
            }
        }
    }
}

fn bare_number(value: &DeValue<'_>) -> Option<f64> {
    match value {
        DeValue::Integer(integer) => integer.as_str().replace('_', "").parse::<i64>().ok().map(|n| n as f64),
        DeValue::Float(float) => float.as_str().replace('_', "").parse::<f64>().ok(),
        _ => None,
    }
}

fn after_semicolon(message: &str) -> &str {
    message.split_once("; ").map_or(message, |(_, rest)| rest)
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

/// The known word with the fewest edits, when few enough to be a slip of the finger.
fn nearest<'w>(word: &str, known: &[&'w str]) -> Option<&'w str> {
    known
        .iter()
        .map(|&candidate| (edits(word, candidate), candidate))
        .filter(|&(distance, candidate)| distance <= candidate.len().max(3) / 3)
        .min()
        .map(|(_, candidate)| candidate)
}

/// Levenshtein distance.
fn edits(a: &str, b: &str) -> usize {
    let b: Vec<char> = b.chars().collect();
    let mut row: Vec<usize> = (0..=b.len()).collect();
    for (i, ca) in a.chars().enumerate() {
        let mut diagonal = row[0];
        row[0] = i + 1;
        for (j, cb) in b.iter().enumerate() {
            let change = diagonal + usize::from(ca != *cb);
            diagonal = row[j + 1];
            row[j + 1] = change.min(row[j] + 1).min(diagonal + 1);
        }
    }
    row[b.len()]
}

impl Visitor for Reader<'_> {
    fn group(&mut self, label: &'static Label, body: impl FnOnce(&mut Self)) {
        let table = match self.find(label.key) {
            Some((_, value)) => match value.get_ref() {
                DeValue::Table(table) => Some(table),
                other => {
                    let message = format!("[{}] must be a table, not {}", label.key, kind_of(other));
                    self.fault(label.key, Some(value.span().start), message);
                    None
                }
            },
            None => {
                if self.tables.last().is_some_and(Option::is_some) {
                    self.fault(
                        label.key,
                        None,
                        format!("the part [{}] ({}) is missing; add it", label.key, label.label),
                    );
                }
                None
            }
        };
        self.path.push(label.key.to_owned());
        self.tables.push(table);
        self.seen.push(Vec::new());
        body(self);
        self.leave(Some(label.key));
        self.path.pop();
    }

    fn quantity<Q: Measured>(&mut self, field: &'static Field, value: &mut Q) {
        match self.find(field.key) {
            Some((_, found)) => {
                if let Some(read) = self.amount(field, found) {
                    *value = read;
                }
            }
            None => self.missing(field.key, field.label),
        }
    }

    fn optional<Q: Measured>(&mut self, field: &'static Field, value: &mut Option<Q>, _absent: &'static str) {
        *value = None;
        if let Some((_, found)) = self.find(field.key) {
            *value = self.amount(field, found);
        }
    }

    fn estimate<Q: Measured>(&mut self, field: &'static Field, value: &mut Option<Estimate<Q>>, _default: Estimate<Q>) {
        *value = None;
        let Some(found) = self.find(field.key) else { return };
        let offset = found.1.span().start;
        if field.range.kind == Kind::Number
            && let Some(bare) = bare_number(found.1.get_ref())
        {
            *value = self.in_range(field, Q::from_base(bare), offset).map(Estimate::exact);
            return;
        }
        let Some(text) = self.text_of(field.key, found, field.range.kind) else { return };
        match parse_estimate::<Q>(text, field.range.kind, None) {
            Ok(read) => {
                let outside = [read.low, read.likely, read.high].into_iter().find_map(|v| field.range.check(v).err());
                match outside {
                    Some(outside) => self.fault(field.key, Some(offset), outside.to_string()),
                    None => *value = Some(read),
                }
            }
            Err(error) => self.fault(field.key, Some(offset), error.to_string()),
        }
    }

    fn choice<C: Choice>(&mut self, label: &'static Label, value: &mut C) {
        let Some(found) = self.find(label.key) else {
            self.missing(label.key, label.label);
            return;
        };
        let word = found.1.get_ref().as_str();
        match word.and_then(|word| C::ALL.iter().find(|choice| choice.word() == word)) {
            Some(choice) => *value = *choice,
            None => {
                let words = C::ALL.iter().map(|choice| choice.word()).collect::<Vec<_>>().join(", ");
                let message = format!("{} must be one of: {words}", label.label);
                self.fault(label.key, Some(found.1.span().start), message);
            }
        }
    }

    fn text(&mut self, label: &'static Label, value: &mut String) {
        let Some(found) = self.find(label.key) else {
            self.missing(label.key, label.label);
            return;
        };
        match found.1.get_ref().as_str() {
            Some(text) => *value = text.to_owned(),
            None => {
                self.fault(label.key, Some(found.1.span().start), format!("{} must be text in quotes", label.label))
            }
        }
    }

    fn count(&mut self, count: &'static Count, value: &mut u32) {
        let Some(found) = self.find(count.label.key) else {
            self.missing(count.label.key, count.label.label);
            return;
        };
        let number = match found.1.get_ref() {
            DeValue::Integer(integer) => integer.as_str().parse::<u32>().ok(),
            _ => None,
        };
        match number.filter(|number| (count.low..=count.high).contains(number)) {
            Some(number) => *value = number,
            None => {
                let (label, low, high) = (count.label.label, count.low, count.high);
                let message = format!("{label} must be a whole number from {low} to {high}, without quotes");
                self.fault(count.label.key, Some(found.1.span().start), message);
            }
        }
    }

    fn switch(&mut self, label: &'static Label, value: &mut bool) {
        let Some(found) = self.find(label.key) else {
            self.missing(label.key, label.label);
            return;
        };
        match found.1.get_ref().as_bool() {
            Some(read) => *value = read,
            None => {
                let message = format!("{} must be true or false, without quotes", label.label);
                self.fault(label.key, Some(found.1.span().start), message);
            }
        }
    }

    fn readings<Q: Measured>(&mut self, field: &'static Field, value: &mut Vec<Q>) {
        value.clear();
        let Some(found) = self.find(field.key) else { return };
        let Some(items) = self.array(field.key, found) else { return };
        for item in items {
            if let Some(read) = self.amount(field, item) {
                value.push(read);
            }
        }
    }

    fn pairs<A: Measured, B: Measured>(
        &mut self,
        label: &'static Label,
        columns: (&'static Field, &'static Field),
        value: &mut Vec<(A, B)>,
    ) {
        value.clear();
        let Some(found) = self.find(label.key) else {
            self.missing(label.key, label.label);
            return;
        };
        let Some(rows) = self.array(label.key, found) else { return };
        for row in rows {
            match row.get_ref() {
                DeValue::Array(cells) if cells.len() == 2 => {
                    let mut cells = cells.iter();
                    let (Some(a), Some(b)) = (cells.next(), cells.next()) else { continue };
                    let (a, b) = (self.amount(columns.0, a), self.amount(columns.1, b));
                    if let (Some(a), Some(b)) = (a, b) {
                        value.push((a, b));
                    }
                }
                _ => {
                    let message = format!(
                        "each row of {} is a pair in square brackets: [\"{}\", \"{}\"]",
                        label.label, columns.0.label, columns.1.label
                    );
                    self.fault(label.key, Some(row.span().start), message);
                }
            }
        }
    }

    fn list<T: Default>(&mut self, label: &'static Label, value: &mut Vec<T>, item: impl Fn(&mut T, &mut Self)) {
        value.clear();
        let Some(found) = self.find(label.key) else { return };
        let Some(items) = self.array(label.key, found) else { return };
        for (row, one) in items.into_iter().enumerate() {
            let DeValue::Table(table) = one.get_ref() else {
                let message = format!("each of {} is a table [[{}]]", label.label, label.key);
                self.fault(label.key, Some(one.span().start), message);
                continue;
            };
            self.path.push(format!("{}[{}]", label.key, row + 1));
            self.tables.push(Some(table));
            self.seen.push(Vec::new());
            let mut read = T::default();
            item(&mut read, self);
            self.leave(None);
            self.path.pop();
            value.push(read);
        }
    }
}
