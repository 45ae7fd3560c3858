//! A number with its kind, for showing: what the working, the screen and the files print.

use super::{Kind, Measured, Unit, UnitSystem};

/// A number in the coherent SI unit together with what it is.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Amount {
    /// The number in the coherent SI unit.
    pub base: f64,
    /// What it is.
    pub kind: Kind,
}

impl Amount {
    /// The amount of a typed quantity, shown in its usual unit.
    #[must_use]
    pub fn of<Q: Measured>(value: Q) -> Self {
        Self { base: value.base(), kind: Q::KIND }
    }

    /// The amount of a typed quantity, shown as another kind of the same dimension (a bore, an altitude).
    #[must_use]
    pub fn of_kind<Q: Measured>(value: Q, kind: Kind) -> Self {
        Self { base: value.base(), kind }
    }

    /// A plain number.
    #[must_use]
    pub const fn number(value: f64) -> Self {
        Self { base: value, kind: Kind::Number }
    }

    /// A number in the coherent SI unit of a kind.
    #[must_use]
    pub const fn new(base: f64, kind: Kind) -> Self {
        Self { base, kind }
    }

    /// The number in the unit shown in this system.
    #[must_use]
    pub fn value_in(&self, system: UnitSystem) -> f64 {
        self.kind.unit(system).from_base(self.base)
    }

    /// For reading: as many digits as mean something, and the unit ("0.601 L", "92.3 °C").
    #[must_use]
    pub fn show(&self, system: UnitSystem) -> String {
        let unit = self.kind.unit(system);
        with_unit(&rounded(unit.from_base(self.floored()), self.kind), unit)
    }

    /// The number alone, as `show` writes it.
    #[must_use]
    pub fn show_number(&self, system: UnitSystem) -> String {
        rounded(self.kind.unit(system).from_base(self.floored()), self.kind)
    }

    /// The number for reading: a pressure against the air below 1 Pa is none, no gauge shows it.
    fn floored(&self) -> f64 {
        let against_air = matches!(self.kind, Kind::GaugePressure | Kind::CrankcasePressure | Kind::PressureDifference);
        if against_air && self.base.abs() < 1.0 { 0.0 } else { self.base }
    }

    /// For an input box: five significant digits at most, in the unit of the system.
    #[must_use]
    pub fn show_input(&self, system: UnitSystem) -> String {
        let unit = self.kind.unit(system);
        with_unit(&significant(unit.from_base(self.base), 5), unit)
    }

    /// For a file: the shortest text that reads back as exactly this number, in the unit of the system if one
    /// of at most 17 digits exists there, else in the coherent SI unit.
    #[must_use]
    pub fn exact_text(&self, system: UnitSystem) -> String {
        let unit = self.kind.unit(system);
        for unit in [unit, self.kind.base_unit()] {
            let value = unit.from_base(self.base);
            for digits in 1..=17 {
                let text = significant(value, digits);
                if text.parse::<f64>().is_ok_and(|read| unit.to_base(read) == self.base) {
                    return with_unit(&text, unit);
                }
            }
        }
        with_unit(&format!("{:?}", self.base), self.kind.base_unit())
    }
}

fn with_unit(number: &str, unit: &Unit) -> String {
    match unit.symbol {
        "" => number.to_owned(),
        "°" => format!("{number}°"),
        symbol => format!("{number} {symbol}"),
    }
}

/// Digits that mean something: one decimal for temperatures and lengths, three significant digits else.
fn rounded(value: f64, kind: Kind) -> String {
    if !value.is_finite() {
        // Never shown: results are checked to be finite. Kept readable all the same.
        return "not a number".to_owned();
    }
    match kind {
        Kind::Temperature | Kind::TemperatureDifference => plain(format!("{value:.1}")),
        Kind::RotationalSpeed => plain(format!("{value:.0}")),
        Kind::Density => plain(format!("{value:.1}")),
        Kind::SpecificHeat if value.abs() >= 100.0 => plain(format!("{value:.0}")),
        _ => significant(value, 3),
    }
}

/// At most `digits` significant digits, without an exponent where a person would not write one.
fn significant(value: f64, digits: usize) -> String {
    if !value.is_finite() {
        // A message about a wrong input may have to show it.
        return if value.is_nan() { "not a number" } else { "infinitely large" }.to_owned();
    }
    if value == 0.0 {
        return "0".to_owned();
    }
    // The exponent after rounding, so that 9.9996 to three digits is 10.0 and not 10.00.
    let scientific = format!("{:.*e}", digits - 1, value);
    let exponent: i32 = scientific.split_once('e').and_then(|(_, e)| e.parse().ok()).unwrap_or(0);
    if !(-6..=9).contains(&exponent) {
        return scientific;
    }
    let decimals = usize::try_from(digits as i32 - 1 - exponent).unwrap_or(0);
    if decimals == 0 && exponent >= digits as i32 {
        // Round to the significant digit, then write the zeros.
        let rounded: f64 = scientific.parse().unwrap_or(value);
        return plain(format!("{rounded:.0}"));
    }
    let text = format!("{value:.decimals$}");
    if text.contains('.') { plain(text.trim_end_matches('0').trim_end_matches('.').to_owned()) } else { plain(text) }
}

/// A minus sign that stands before nothing but zeros says nothing.
fn plain(text: String) -> String {
    if text.starts_with('-') && text.chars().all(|c| matches!(c, '-' | '0' | '.')) {
        text.trim_start_matches('-').to_owned()
    } else {
        text
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn digits_mean_something() {
        let litres = |l: f64| Amount::new(l * 1e-3, Kind::Volume).show(UnitSystem::Si);
        assert_eq!(litres(0.601_26), "0.601 L");
        assert_eq!(litres(15.0), "15 L");
        assert_eq!(litres(0.0), "0 L");
        assert_eq!(Amount::new(366.15, Kind::Temperature).show(UnitSystem::Us), "199.4 °F");
        assert_eq!(Amount::new(101_325.0, Kind::AbsolutePressure).show(UnitSystem::Si), "101 kPa");
        assert_eq!(Amount::new(2.0e7, Kind::LinearResistance).show(UnitSystem::Si), "333 Pa/(L/min)");
        let crankcase = |pascals| Amount::new(pascals, Kind::CrankcasePressure).show(UnitSystem::Si);
        assert_eq!(crankcase(0.0751), "0 kPa");
        assert_eq!(crankcase(-0.9), "0 kPa");
        assert_eq!(crankcase(1.5), "0.0015 kPa");
        assert_eq!(Amount::new(0.0751, Kind::CrankcasePressure).show_input(UnitSystem::Si), "0.0000751 kPa");
        assert_eq!(significant(1234567.0, 3), "1230000");
        assert_eq!(significant(9.9996, 3), "10");
        assert_eq!(significant(-0.0004, 3), "-0.0004");
    }

    #[test]
    fn a_file_reads_back_the_same_bits() {
        for base in [0.015, 1.0 / 3.0, 1.419_529_41e-3, 6.5e-3, 344.261_111_111_111_1, -1.0e-9, 7.0] {
            for kind in [Kind::Volume, Kind::Length, Kind::Temperature, Kind::GaugePressure, Kind::Share] {
                for system in [UnitSystem::Si, UnitSystem::Us] {
                    let text = Amount::new(base, kind).exact_text(system);
                    let read = super::super::parse_amount(&text, kind, None).unwrap();
                    assert_eq!(read.to_bits(), base.to_bits(), "{text}");
                }
            }
        }
    }
}
