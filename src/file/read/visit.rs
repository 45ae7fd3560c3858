//! The walk over all inputs that reads each from its table.

use super::spelling::shortened;
use super::{Extent, Reader, Written, expected, in_range, kind_of};
use crate::quantity::{Estimate, Measured, parse_estimate};
use crate::study::{Choice, Count, Field, Label, Visitor};
use toml::de::DeValue;

/// What a preset writes to make an input unknown again.
const NONE: &str = "none";

impl Reader<'_> {
    /// Whether a file says that an input which may be left out is not known: a preset forgets it, a project lacks it.
    fn forgets(value: &DeValue<'_>) -> bool {
        value.as_str() == Some(NONE)
    }
}

impl Visitor for Reader<'_> {
    fn group(&mut self, label: &'static Label, body: impl FnOnce(&mut Self)) {
        let path = self.path_of(label.key);
        let (table, line) = match self.find(label.key) {
            Some((key, value)) => {
                let line = Some(self.lines.line(key.span().start));
                match value.get_ref() {
                    DeValue::Table(table) => (Some(table), line),
                    other => {
                        let message = format!(
                            "[{path}] must be a part with a heading in single square brackets, not {}",
                            kind_of(other)
                        );
                        self.fault(label.key, value.span().start, message);
                        (None, line)
                    }
                }
            }
            None => {
                let what = format!("the part [{path}] with its inputs");
                self.missing(label.key, label.label, &what);
                (None, None)
            }
        };
        self.enter(label.key.to_owned(), table, line);
        body(self);
        self.leave();
    }

    fn optional_group(
        &mut self,
        label: &'static Label,
        _known: &'static Label,
        value: &mut bool,
        body: impl FnOnce(&mut Self),
    ) {
        if self.has(label.key) {
            if self.find(label.key).is_some_and(|(_, found)| Self::forgets(found.get_ref())) {
                let _ = self.take(label.key);
                *value = false;
                return;
            }
            *value = true;
            self.group(label, body);
            return;
        }
        // Marks the key as one that may stand here.
        let _ = self.find(label.key);
        if self.extent == Extent::Whole {
            *value = false;
        }
    }

    fn later(&mut self, body: impl FnOnce(&mut Self)) {
        let outer = std::mem::replace(&mut self.later, true);
        body(self);
        self.later = outer;
    }

    fn quantity<Q: Measured>(&mut self, field: &'static Field, value: &mut Q) {
        match self.take(field.key) {
            Some((_, found)) => {
                if let Some(read) = self.amount(field, found, "") {
                    *value = read;
                }
            }
            None => self.missing(field.key, field.label, &expected(field.range.kind)),
        }
    }

    fn optional<Q: Measured>(&mut self, field: &'static Field, value: &mut Option<Q>, _absent: &'static str) {
        let found = self.take(field.key);
        if found.is_some() || self.extent == Extent::Whole {
            *value = None;
        }
        if let Some((_, found)) = found
            && !Self::forgets(found.get_ref())
        {
            *value = self.amount(field, found, "");
        }
    }

    fn estimate<Q: Measured>(&mut self, field: &'static Field, value: &mut Option<Estimate<Q>>, _default: Estimate<Q>) {
        let found = self.take(field.key);
        if found.is_some() || self.extent == Extent::Whole {
            *value = None;
        }
        let Some((_, found)) = found.filter(|(_, found)| !Self::forgets(found.get_ref())) else { return };
        let Some(written) = self.written(field, found) else { return };
        let read = match written {
            Written::Bare(bare) => Ok(Estimate::exact(Q::from_base(bare))),
            Written::Text(text) => parse_estimate(text, field.range.kind, None).map_err(|error| error.to_string()),
        };
        let checked = read.and_then(|read| {
            for part in [read.low, read.likely, read.high] {
                in_range(&field.range, part)?;
            }
            Ok(read)
        });
        match checked {
            Ok(read) => *value = Some(read),
            Err(message) => self.fault(field.key, found.span().start, message),
        }
    }

    fn choice<C: Choice>(&mut self, label: &'static Label, value: &mut C) {
        let words = || C::ALL.iter().map(|choice| choice.word()).collect::<Vec<_>>().join(", ");
        let found = self.take(label.key);
        // What a file says nothing of hides nothing that a person wrote.
        let told = found.is_some() || !self.later;
        match found {
            Some((_, found)) => {
                let word = found.get_ref().as_str();
                match word.and_then(|word| C::ALL.iter().find(|choice| choice.word().eq_ignore_ascii_case(word))) {
                    Some(choice) => *value = *choice,
                    None => {
                        let message = match word {
                            Some(word) => {
                                let word = shortened(word);
                                format!("'{word}' is no choice for {}; write one of: {}", label.label, words())
                            }
                            None => format!("{} must be one of these words, in quotes: {}", label.label, words()),
                        };
                        self.fault(label.key, found.span().start, message);
                        self.unsure();
                    }
                }
            }
            None => {
                self.missing(label.key, label.label, &format!("one of: {}", words()));
                if self.extent == Extent::Whole && !self.later {
                    self.unsure();
                }
            }
        }
        if let Some(group) = self.groups.last_mut().filter(|_| told) {
            group.chosen.push((label.key, value.word()));
        }
    }

    fn choice_or<C: Choice>(&mut self, label: &'static Label, value: &mut C, usual: C) {
        if self.has(label.key) {
            self.choice(label, value);
            return;
        }
        // Marks the key as one that may stand here.
        let _ = self.find(label.key);
        if self.extent == Extent::Whole {
            *value = usual;
        }
        if let Some(group) = self.groups.last_mut() {
            group.chosen.push((label.key, value.word()));
        }
    }

    fn text(&mut self, label: &'static Label, value: &mut String) {
        // A preset has a name and a remark of its own; a project's stay.
        if self.extent == Extent::Some {
            return;
        }
        let Some((_, found)) = self.take(label.key) else {
            self.missing(label.key, label.label, "text in quotes, which may be empty");
            return;
        };
        match found.get_ref().as_str() {
            Some(text) => *value = text.to_owned(),
            None => self.fault(label.key, found.span().start, format!("{} must be text in quotes", label.label)),
        }
    }

    fn count(&mut self, count: &'static Count, value: &mut u32) {
        let Count { label, low, high } = count;
        let Some((_, found)) = self.take(label.key) else {
            self.missing(label.key, label.label, &format!("a whole number from {low} to {high}"));
            return;
        };
        let number = match found.get_ref() {
            DeValue::Integer(integer) => Some(integer),
            _ => None,
        };
        let read = number.and_then(|number| u32::from_str_radix(number.as_str(), number.radix()).ok());
        match (read.filter(|read| (low..=high).contains(&read)), number) {
            (Some(read), _) => *value = read,
            (None, Some(number)) => {
                let message = format!("{} is {}, outside {low} to {high}", label.label, shortened(&number.to_string()));
                self.fault(label.key, found.span().start, message);
            }
            (None, None) => {
                let message = format!("{} must be a whole number from {low} to {high}, without quotes", label.label);
                self.fault(label.key, found.span().start, message);
            }
        }
    }

    fn switch(&mut self, label: &'static Label, value: &mut bool) {
        let Some((_, found)) = self.take(label.key) else {
            self.missing(label.key, label.label, "true or false");
            return;
        };
        match found.get_ref().as_bool() {
            Some(read) => *value = read,
            None => {
                let message = format!("{} must be true or false, without quotes", label.label);
                self.fault(label.key, found.span().start, message);
            }
        }
    }

    fn readings<Q: Measured>(&mut self, field: &'static Field, value: &mut Vec<Q>) {
        let found = self.take(field.key);
        if found.is_some() || self.extent == Extent::Whole {
            value.clear();
        }
        let Some(items) = found.and_then(|found| self.array(field.key, found)) else { return };
        for (row, item) in items.into_iter().enumerate() {
            if let Some(read) = self.amount(field, item, &format!("number {}: ", row + 1)) {
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
        let pair = format!("[\"{}\", \"{}\"]", columns.0.label, columns.1.label);
        let Some(found) = self.take(label.key) else {
            self.missing(label.key, label.label, &format!("a list of pairs [{pair}, …]"));
            return;
        };
        value.clear();
        let Some(rows) = self.array(label.key, found) else { return };
        for (number, row) in rows.into_iter().enumerate() {
            let cells: Vec<_> = match row.get_ref() {
                DeValue::Array(cells) => cells.iter().collect(),
                _ => Vec::new(),
            };
            let [a, b] = cells.as_slice() else {
                let message =
                    format!("row {} of {} must be a pair in square brackets: {pair}", number + 1, label.label);
                self.fault(label.key, row.span().start, message);
                continue;
            };
            // A cell is named by its table: its column alone would be no input of this part.
            self.path.push(label.key.to_owned());
            let row = format!("row {}: ", number + 1);
            let (a, b) = (self.amount(columns.0, a, &row), self.amount(columns.1, b, &row));
            self.path.pop();
            if let (Some(a), Some(b)) = (a, b) {
                value.push((a, b));
            }
        }
    }

    fn list<T: Default>(&mut self, label: &'static Label, value: &mut Vec<T>, item: impl Fn(&mut T, &mut Self)) {
        let found = self.take(label.key);
        if found.is_some() || self.extent == Extent::Whole {
            value.clear();
        }
        let Some(items) = found.and_then(|found| self.array(label.key, found)) else { return };
        for (row, one) in items.into_iter().enumerate() {
            let DeValue::Table(table) = one.get_ref() else {
                let path = self.path_of(label.key);
                let message = format!("number {} of {} must be a part headed [[{path}]]", row + 1, label.label);
                self.fault(label.key, one.span().start, message);
                continue;
            };
            let line = Some(self.lines.line(one.span().start));
            self.enter(format!("{}[{}]", label.key, row + 1), Some(table), line);
            let mut read = T::default();
            // What stands in a list is there whole, in a preset and in a part that a file may lack too.
            let outer = (std::mem::replace(&mut self.later, false), std::mem::replace(&mut self.extent, Extent::Whole));
            let given = self.given.len();
            item(&mut read, self);
            (self.later, self.extent) = outer;
            // The list is given as one.
            self.given.truncate(given);
            self.leave();
            value.push(read);
        }
    }
}
