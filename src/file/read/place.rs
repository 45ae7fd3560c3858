//! Where in a text something stands.

use toml::de::{DeTable, DeValue};

/// Byte offsets to line numbers, counted from one.
pub(in crate::file) struct Lines(Vec<usize>);

impl Lines {
    pub(in crate::file) fn new(text: &str) -> Self {
        Self(text.bytes().enumerate().filter(|&(_, byte)| byte == b'\n').map(|(at, _)| at).collect())
    }

    pub(in crate::file) fn line(&self, offset: usize) -> usize {
        self.0.partition_point(|&newline| newline < offset) + 1
    }
}

/// Finds the line of an input by its path.
pub(in crate::file) struct Locator<'t> {
    table: &'t DeTable<'t>,
    lines: Lines,
}

impl<'t> Locator<'t> {
    pub(in crate::file) fn new(table: &'t DeTable<'t>, text: &str) -> Self {
        Self { table, lines: Lines::new(text) }
    }

    /// The line of the deepest part of the path that the file has.
    pub(in crate::file) fn line(&self, path: &str) -> Option<usize> {
        let mut table = self.table;
        let mut line = None;
        for part in path.split('.') {
            let (key, row) = match part.split_once('[') {
                Some((key, row)) => (key, row.trim_end_matches(']').parse::<usize>().ok()),
                None => (part, None),
            };
            let Some((found, value)) = table.iter().find(|(found, _)| found.get_ref().as_ref() == key) else { break };
            line = Some(self.lines.line(found.span().start));
            match (value.get_ref(), row) {
                (DeValue::Table(inner), _) => table = inner,
                (DeValue::Array(items), Some(row)) => {
                    let Some(item) = items.get(row.saturating_sub(1)) else { break };
                    line = Some(self.lines.line(item.span().start));
                    let DeValue::Table(inner) = item.get_ref() else { break };
                    table = inner;
                }
                _ => break,
            }
        }
        line
    }
}
