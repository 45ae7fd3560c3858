//! The accuracy table as the README shows it.

use crate::accuracy::Row;
use std::fmt::Write as _;
use std::path::PathBuf;

const BEGIN: &str = "<!-- accuracy:begin -->";
const END: &str = "<!-- accuracy:end -->";
const HEADINGS: &str = "| quantity | checked against | points | largest deviation | allowed |";

/// Rows ready to be written.
pub struct Table {
    lines: Vec<String>,
}

/// One significant digit: what rounding and compilers change stays out of the README. Two where one would read as
/// more than what is allowed.
fn rounded(value: f64, allowed: f64) -> String {
    let to = |digits: usize| format!("{value:.*e}", digits - 1).parse::<f64>().unwrap();
    plain(if to(1) > allowed { to(2) } else { to(1) })
}

fn plain(value: f64) -> String {
    if value == 0.0 || (1e-3..1e4).contains(&value) { format!("{value}") } else { format!("{value:e}") }
}

impl Table {
    pub fn of(rows: impl Iterator<Item = Row>) -> Self {
        let lines = rows
            .map(|row| {
                let Row { quantity, reference, points, largest, unit, allowed } = row;
                let (largest, allowed) = (rounded(largest, allowed), plain(allowed));
                for text in [quantity, reference, unit] {
                    assert!(!text.contains('|') && !text.contains('\n'), "{quantity}: {text} breaks the table");
                }
                format!("| {quantity} | {reference} | {points} | {largest} {unit} | {allowed} {unit} |")
            })
            .collect();
        Self { lines }
    }

    pub fn text(&self) -> String {
        let mut text = format!("{HEADINGS}\n| --- | --- | ---: | ---: | ---: |\n");
        for line in &self.lines {
            writeln!(text, "{line}").unwrap();
        }
        text
    }

    fn path() -> PathBuf {
        PathBuf::from(env!("CARGO_MANIFEST_DIR")).join("README.md")
    }

    /// The README in three: before the block, the block, and what follows.
    fn readme() -> (String, String, String) {
        let text = std::fs::read_to_string(Self::path()).expect("README.md");
        let (before, rest) = text.split_once(BEGIN).unwrap_or_else(|| panic!("README.md has no {BEGIN}"));
        let (block, after) = rest.split_once(END).unwrap_or_else(|| panic!("README.md has no {END}"));
        (before.to_owned(), block.to_owned(), after.to_owned())
    }

    pub fn write(&self) {
        let (before, _, after) = Self::readme();
        std::fs::write(Self::path(), format!("{before}{BEGIN}\n{}{END}{after}", self.text())).unwrap();
    }

    pub fn compare(&self) {
        let (_, block, _) = Self::readme();
        let shown: Vec<&str> = block.lines().filter(|line| line.starts_with("| ")).skip(2).collect();
        let hint = "run this test with COLDMARK_WRITE_README=1 and read the difference before committing it";
        // Everything but the deviation itself, whose last digit may differ from machine to machine.
        let lasting = |line: &str| {
            let cells: Vec<String> = line.split('|').map(|cell| cell.trim().to_owned()).collect();
            assert_eq!(cells.len(), 7, "{line}");
            [cells[1].clone(), cells[2].clone(), cells[3].clone(), cells[5].clone()]
        };
        let shown: Vec<_> = shown.into_iter().map(lasting).collect();
        let found: Vec<_> = self.lines.iter().map(|line| lasting(line)).collect();
        for row in &found {
            assert!(shown.contains(row), "README.md lacks the row {row:?}; {hint}");
        }
        for row in &shown {
            assert!(found.contains(row), "README.md has the row {row:?}, which no check makes any more; {hint}");
        }
        assert!(shown == found, "README.md has the rows in another order; {hint}");
    }
}
