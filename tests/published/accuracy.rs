//! One row of the accuracy table, and how reference tables are read.

use std::path::PathBuf;

/// What the README's accuracy table shows: the largest deviation found over all points of one reference.
pub struct Row {
    pub quantity: &'static str,
    pub reference: &'static str,
    pub points: usize,
    /// Largest deviation, in the unit of `unit` ("%" for relative).
    pub largest: f64,
    pub unit: &'static str,
    /// The most that passes, from the printed digits or the stated uncertainty of the reference.
    pub allowed: f64,
}

/// Gathers deviations of one quantity against one reference.
pub struct Tally {
    row: Row,
}

impl Tally {
    pub fn new(quantity: &'static str, reference: &'static str, unit: &'static str, allowed: f64) -> Self {
        Self { row: Row { quantity, reference, points: 0, largest: 0.0, unit, allowed } }
    }

    /// Takes one point by relative deviation in per cent.
    pub fn relative(&mut self, computed: f64, expected: f64) {
        self.deviation(100.0 * (computed / expected - 1.0));
    }

    /// Takes one point by difference.
    pub fn difference(&mut self, computed: f64, expected: f64) {
        self.deviation(computed - expected);
    }

    fn deviation(&mut self, deviation: f64) {
        assert!(deviation.is_finite(), "{}: not a number", self.row.quantity);
        self.row.points += 1;
        self.row.largest = self.row.largest.max(deviation.abs());
    }

    /// The finished row; fails when there were no points or one deviates more than allowed.
    pub fn row(self) -> Row {
        let Row { quantity, reference, points, largest, unit, allowed } = &self.row;
        assert!(*points > 0, "{quantity} against {reference}: no points");
        assert!(largest <= allowed, "{quantity} against {reference}: {largest} {unit} is more than {allowed}");
        self.row
    }
}

/// The rows of a table in `tests/reference`.
pub fn table(name: &str) -> Vec<csv::StringRecord> {
    let path = PathBuf::from(env!("CARGO_MANIFEST_DIR")).join("tests/reference").join(name);
    let mut reader = csv::Reader::from_path(&path).unwrap_or_else(|error| panic!("{}: {error}", path.display()));
    reader.records().map(|record| record.unwrap()).collect()
}

/// A column by its heading, as a reader of numbers; an empty cell is `None`.
pub fn column(name: &str, heading: &str) -> Vec<Option<f64>> {
    let path = PathBuf::from(env!("CARGO_MANIFEST_DIR")).join("tests/reference").join(name);
    let mut reader = csv::Reader::from_path(&path).unwrap_or_else(|error| panic!("{}: {error}", path.display()));
    let index = reader.headers().unwrap().iter().position(|h| h == heading);
    let index = index.unwrap_or_else(|| panic!("{name} has no column {heading}"));
    reader.records().map(|record| record.unwrap()[index].parse().ok()).collect()
}
