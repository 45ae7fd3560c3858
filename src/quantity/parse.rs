//! Reading a quantity the way people write it: "1.5 qt", "160 °F", "3/8 in", "0.1 L (0 L to 0.5 L)".

use super::{Estimate, Kind, Measured, Unit, units};

/// Why a text is no quantity of the kind asked for. Each says what to write instead.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
#[allow(missing_docs)]
pub enum ParseError {
    #[error("nothing is written here; write {expected}")]
    Empty { expected: String },
    #[error("'{text}' does not begin with a number; write {expected}")]
    NoNumber { text: String, expected: String },
    #[error("'{text}' has a comma; write the decimal point as a point, such as {suggestion}")]
    Comma { text: String, suggestion: String },
    #[error("'{text}' has no unit; write {expected}")]
    NoUnit { text: String, expected: String },
    #[error("'{unit}' is not a unit of {kind}; use one of: {accepted}")]
    WrongUnit { unit: String, kind: &'static str, accepted: String },
    #[error("'{text}' is too large or too small to count with")]
    NotFinite { text: String },
    #[error("'{text}' is a gauge pressure, but an absolute pressure is asked for; add the ambient air's pressure")]
    GaugeForAbsolute { text: String },
    #[error("'{text}' is an absolute pressure, but a gauge pressure is asked for; take the ambient air's pressure off")]
    AbsoluteForGauge { text: String },
    #[error("'{text}' is no range; write it as likely (low to high), such as {example}")]
    BadRange { text: String, example: String },
    #[error("'{text}' is a range, but one value is asked for here; write the likely one alone")]
    RangeForOne { text: String },
    #[error("the range in '{text}' is not in order: low, likely and high must rise")]
    Disorder { text: String },
}

/// Reads one quantity into its coherent SI unit. A bare number takes `bare`, if given; a plain number needs no unit.
///
/// # Errors
/// When there is no number, no unit, or a unit of another kind.
pub fn parse_amount(text: &str, kind: Kind, bare: Option<&Unit>) -> Result<f64, ParseError> {
    let cleaned = text.trim().replace('\u{2212}', "-").replace(['\u{a0}', '\u{202f}', '\u{2009}'], " ");
    if cleaned.is_empty() {
        return Err(ParseError::Empty { expected: expected(kind) });
    }
    let (number, rest) = leading_number(&cleaned, text, kind)?;
    if !number.is_finite() {
        return Err(ParseError::NotFinite { text: text.trim().to_owned() });
    }
    let rest = pressure_reference(rest, text, kind)?;
    let unit = if rest.is_empty() {
        match (kind, bare) {
            (Kind::Number, _) => &units(kind)[0],
            (_, Some(unit)) => unit,
            _ => {
                return Err(ParseError::NoUnit { text: text.trim().to_owned(), expected: expected(kind) });
            }
        }
    } else {
        find_unit(&rest, kind).ok_or_else(|| {
            if bracketed_end(&cleaned).is_some_and(|(_, range)| range.contains(" to ")) {
                return ParseError::RangeForOne { text: text.trim().to_owned() };
            }
            ParseError::WrongUnit { unit: rest.clone(), kind: kind.name(), accepted: accepted(kind) }
        })?
    };
    let base = unit.to_base(number);
    if base.is_finite() { Ok(base) } else { Err(ParseError::NotFinite { text: text.trim().to_owned() }) }
}

/// Reads a value with what is known of its spread: "0.1 L", or "0.1 L (0 L to 0.5 L)".
///
/// # Errors
/// As [`parse_amount`]; also when the range is not written as above or is out of order.
pub fn parse_estimate<Q: Measured>(text: &str, kind: Kind, bare: Option<&Unit>) -> Result<Estimate<Q>, ParseError> {
    let bad = || ParseError::BadRange { text: text.trim().to_owned(), example: range_example(kind) };
    if !text.contains(" to ") {
        return Ok(Estimate::exact(Q::from_base(parse_amount(text, kind, bare)?)));
    }
    let (likely, inner) = bracketed_end(text.trim()).ok_or_else(bad)?;
    let (low, high) = inner.split_once(" to ").ok_or_else(bad)?;
    let high_value = parse_amount(high, kind, bare)?;
    // "0 to 0.5 L": the low end takes the unit of the high end.
    let high_unit = trailing_unit(high, kind);
    let low_value = parse_amount(low, kind, high_unit.or(bare))?;
    let likely_value = parse_amount(likely, kind, high_unit.or(bare))?;
    Estimate::new(Q::from_base(low_value), Q::from_base(likely_value), Q::from_base(high_value))
        .ok_or_else(|| ParseError::Disorder { text: text.trim().to_owned() })
}

/// A text that ends in brackets, taken apart at the bracket that the last one closes: units have brackets too.
fn bracketed_end(text: &str) -> Option<(&str, &str)> {
    let inside = text.strip_suffix(')')?;
    let mut depth = 1;
    for (at, character) in inside.char_indices().rev() {
        match character {
            ')' => depth += 1,
            '(' => depth -= 1,
            _ => {}
        }
        if depth == 0 {
            return Some((&text[..at], &inside[at + 1..]));
        }
    }
    None
}

fn leading_number<'a>(cleaned: &'a str, text: &str, kind: Kind) -> Result<(f64, &'a str), ParseError> {
    let no_number = || ParseError::NoNumber { text: text.trim().to_owned(), expected: expected(kind) };
    let (sign, unsigned) = match cleaned.strip_prefix('-') {
        Some(rest) => (-1.0, rest.trim_start()),
        None => (1.0, cleaned.strip_prefix('+').unwrap_or(cleaned)),
    };
    let end = decimal_end(unsigned);
    let (digits, mut rest) = unsigned.split_at(end);
    if rest.starts_with(',') && !digits.is_empty() {
        let suggestion = cleaned.replacen(',', ".", 1);
        return Err(ParseError::Comma { text: text.trim().to_owned(), suggestion });
    }
    let mut value = if digits.is_empty() { 0.0 } else { digits.parse::<f64>().map_err(|_| no_number())? };
    let mut found = !digits.is_empty();
    // "3/8 in" and "1 1/2 in", and the single characters ½ ¼ ¾ ⅛ ⅜ ⅝ ⅞.
    if let Some(after) = rest.strip_prefix('/') {
        let end = after.find(|c: char| !c.is_ascii_digit()).unwrap_or(after.len());
        if found && end > 0 {
            let divisor: f64 = after[..end].parse().map_err(|_| no_number())?;
            value /= divisor;
            rest = &after[end..];
        }
    } else if let Some((fraction, after)) = mixed_fraction(rest) {
        value += fraction;
        found = true;
        rest = after;
    }
    if found { Ok((sign * value, rest.trim())) } else { Err(no_number()) }
}

/// The end of "12", "0.5", "1e-3"; an exponent counts only when digits follow it.
fn decimal_end(text: &str) -> usize {
    let bytes = text.as_bytes();
    let mut end = 0;
    while end < bytes.len() && (bytes[end].is_ascii_digit() || bytes[end] == b'.') {
        end += 1;
    }
    if end > 0 && end < bytes.len() && matches!(bytes[end], b'e' | b'E') {
        let mut after = end + 1;
        if after < bytes.len() && matches!(bytes[after], b'+' | b'-') {
            after += 1;
        }
        let digits = bytes[after.min(bytes.len())..].iter().take_while(|b| b.is_ascii_digit()).count();
        if digits > 0 {
            end = after + digits;
        }
    }
    end
}

fn mixed_fraction(rest: &str) -> Option<(f64, &str)> {
    let trimmed = rest.trim_start();
    const SINGLE: [(char, f64); 9] = [
        ('½', 0.5),
        ('¼', 0.25),
        ('¾', 0.75),
        ('⅛', 0.125),
        ('⅜', 0.375),
        ('⅝', 0.625),
        ('⅞', 0.875),
        ('⅓', 1.0 / 3.0),
        ('⅔', 2.0 / 3.0),
    ];
    for (character, value) in SINGLE {
        if let Some(after) = trimmed.strip_prefix(character) {
            return Some((value, after));
        }
    }
    let (numerator, after) = trimmed.split_once('/')?;
    let end = after.find(|c: char| !c.is_ascii_digit()).unwrap_or(after.len());
    let divisor: f64 = after[..end].parse().ok()?;
    let numerator: f64 = numerator.parse::<u32>().ok()?.into();
    Some((numerator / divisor, &after[end..]))
}

/// Takes "abs", "gauge" and the like off a pressure's unit and refuses the wrong one.
fn pressure_reference(rest: &str, text: &str, kind: Kind) -> Result<String, ParseError> {
    let absolute_asked = kind == Kind::AbsolutePressure;
    let gauge_asked = matches!(kind, Kind::GaugePressure | Kind::CrankcasePressure);
    if !absolute_asked && !gauge_asked {
        return Ok(rest.to_owned());
    }
    let lower = rest.to_lowercase();
    let strip = |endings: &[&str]| {
        endings.iter().find_map(|ending| {
            lower.strip_suffix(ending).map(|head| rest[..head.len().min(rest.len())].trim_end().to_owned())
        })
    };
    if let Some(unit) =
        strip(&[" absolute", " abs", "(a)", "(abs)"]).or_else(|| (lower == "psia").then(|| "psi".into()))
    {
        return if gauge_asked { Err(ParseError::AbsoluteForGauge { text: text.trim().to_owned() }) } else { Ok(unit) };
    }
    if let Some(unit) = strip(&[" gauge", " g", "(g)", "(gauge)"]).or_else(|| (lower == "psig").then(|| "psi".into())) {
        return if absolute_asked {
            Err(ParseError::GaugeForAbsolute { text: text.trim().to_owned() })
        } else {
            Ok(unit)
        };
    }
    Ok(rest.to_owned())
}

fn find_unit(symbol: &str, kind: Kind) -> Option<&'static Unit> {
    let all = units(kind);
    let exact = all.iter().find(|unit| unit.symbol == symbol || unit.also.contains(&symbol));
    exact.or_else(|| {
        // Without regard to case where that is not ambiguous: "KPA", "Psi", "MM" but never mL for ML.
        let lower = symbol.to_lowercase();
        let mut found = all.iter().filter(|unit| {
            unit.symbol.to_lowercase() == lower || unit.also.iter().any(|also| also.to_lowercase() == lower)
        });
        let first = found.next()?;
        found.next().is_none().then_some(first)
    })
}

fn trailing_unit(text: &str, kind: Kind) -> Option<&'static Unit> {
    let (_, rest) = leading_number(text.trim(), text, kind).ok()?;
    find_unit(rest, kind)
}

fn accepted(kind: Kind) -> String {
    let symbols: Vec<_> = units(kind).iter().map(|unit| unit.symbol).filter(|symbol| !symbol.is_empty()).collect();
    symbols.join(", ")
}

fn expected(kind: Kind) -> String {
    if kind == Kind::Number {
        return "a number such as 0.8".to_owned();
    }
    format!("{} with its unit, such as {}", kind.name(), example(kind))
}

/// Something of this kind a person might write.
fn example(kind: Kind) -> &'static str {
    match kind {
        Kind::Length => "12 mm or 3/8 in",
        Kind::SmallLength => "0.4 mm or 0.016 in",
        Kind::DropletSize => "10 µm",
        Kind::Distance => "300 m or 1000 ft",
        Kind::RoadDistance => "5000 km or 3000 mi",
        Kind::Area => "0.3 m²",
        Kind::SmallArea => "60 mm²",
        Kind::Volume => "15 L or 16 qt",
        Kind::SmallVolume => "600 mL or 20 fl oz",
        Kind::Displacement => "5.0 L or 302 in³",
        Kind::Mass => "1400 kg",
        Kind::SmallMass => "50 g",
        Kind::GasFlow => "0.5 g/s",
        Kind::CarryOver => "3 g/h",
        Kind::CoolantFlow => "120 L/min or 30 gpm",
        Kind::GasVolumeFlow => "60 L/min or 2 cfm",
        Kind::FanFlow => "2000 m³/h or 1200 cfm",
        Kind::SmallVolumeFlow => "2 mL/s",
        Kind::Density => "1060 kg/m³",
        Kind::SpecificHeat => "3500 J/(kg·K)",
        Kind::SpecificEnergy => "44000 kJ/kg",
        Kind::Energy => "0.1 MJ or 100 kJ",
        Kind::Viscosity => "0.9 mPa·s",
        Kind::Conductivity => "0.4 W/(m·K)",
        Kind::Power => "150 kW or 200 hp",
        Kind::RoadSpeed => "90 km/h or 55 mph",
        Kind::GasSpeed => "2.5 m/s",
        Kind::Acceleration => "0.8 g",
        Kind::RotationalSpeed => "3000 rpm",
        Kind::Time => "90 s",
        Kind::Duration => "12 min",
        Kind::Angle => "10°",
        Kind::Number => "0.8",
        Kind::Share => "50 %",
        Kind::Temperature => "82 °C or 180 °F",
        Kind::TemperatureDifference => "12 K or 22 °F",
        Kind::AbsolutePressure => "98 kPa",
        Kind::GaugePressure => "0.9 bar or 13 psi",
        Kind::CrankcasePressure => "1.5 kPa or 6 inH2O",
        Kind::PressureDifference => "5 kPa",
        Kind::SmallPressureDifference => "500 Pa or 2 inH2O",
        Kind::HeatConductance => "2000 W/K",
        Kind::HeatTransfer => "150 W/(m²·K)",
        Kind::HeatCapacity => "100 kJ/K",
        Kind::ThermalExpansion => "22 µm/(m·K)",
        Kind::Swell => "3 %/bar",
        Kind::SonicConductance => "3.4 L/(s·bar)",
        Kind::MassFlux => "300 kg/(m²·s)",
        Kind::Torque => "8 N·m",
        Kind::Force => "4000 N",
        Kind::LinearResistance => "3.3 Pa/(L/min)",
        Kind::QuadraticResistance => "0.08 Pa/(L/min)²",
        Kind::FuelPerWork => "300 g/(kW·h)",
        Kind::KinematicViscosity => "12 mm²/s",
        Kind::Stress => "110 MPa or 16000 psi",
        Kind::Stiffness => "3600 N/mm",
        Kind::LeakFlow => "4 mL/h",
    }
}

/// The example with a fifth either way: "15 L (12 to 18 L)".
fn range_example(kind: Kind) -> String {
    let one = example(kind).split(" or ").next().unwrap_or_default();
    let Ok((likely, unit)) = leading_number(one, one, kind) else { return one.to_owned() };
    let end = |share: f64| (likely * share * 1e3).round() / 1e3;
    format!("{one} ({} to {} {unit})", end(0.8), end(1.2)).replace(" )", ")")
}

#[cfg(test)]
mod tests {
    use super::*;

    fn read(text: &str, kind: Kind) -> f64 {
        parse_amount(text, kind, None).unwrap()
    }

    #[test]
    fn reads_what_people_write() {
        assert!((read("1.5 qt", Kind::Volume) - 1.419_529_419e-3).abs() < 1e-17);
        assert!((read("160 °F", Kind::Temperature) - 344.261_111).abs() < 1e-6);
        assert_eq!(read("0.9 bar", Kind::GaugePressure), 90_000.0);
        assert!((read("13 psi", Kind::GaugePressure) - 89_631.845).abs() < 0.01);
        assert_eq!(read("3/8 in", Kind::Length), 0.375 * 0.0254);
        assert_eq!(read("1 1/2 in", Kind::Length), 1.5 * 0.0254);
        assert_eq!(read("½ in", Kind::Length), 0.5 * 0.0254);
        assert_eq!(read("0.040 in", Kind::Length), 0.040 * 0.0254);
        assert!((read("12 cfm", Kind::GasVolumeFlow) - 12.0 * 0.028_316_846_592 / 60.0).abs() < 1e-15);
        assert_eq!(read("−10 °C", Kind::Temperature), 263.15);
        assert_eq!(read("43%", Kind::Share), 0.43);
        assert_eq!(read("1e-3 m", Kind::Length), 0.001);
        assert_eq!(read("5 psig", Kind::GaugePressure), read("5 psi gauge", Kind::GaugePressure));
        assert_eq!(read("2 BAR", Kind::AbsolutePressure), 200_000.0);
        assert_eq!(read("4 inH2O", Kind::CrankcasePressure), 4.0 * 249.088_91);
    }

    #[test]
    fn refuses_and_says_what_to_write() {
        let message = |text: &str, kind| parse_amount(text, kind, None).unwrap_err().to_string();
        assert_eq!(
            message("15", Kind::Volume),
            "'15' has no unit; write a volume with its unit, such as 15 L or 16 qt"
        );
        assert_eq!(
            message("15 mm", Kind::Volume),
            "'mm' is not a unit of a volume; use one of: m³, L, mL, qt, pt, gal, imp gal, fl oz, in³"
        );
        assert!(message("1,5 L", Kind::Volume).ends_with("such as 1.5 L"));
        assert!(message("", Kind::Volume).starts_with("nothing is written"));
        assert!(message("about 3 L", Kind::Volume).contains("does not begin with a number"));
        assert!(message("1 psia", Kind::GaugePressure).contains("absolute"));
        assert!(message("1 bar gauge", Kind::AbsolutePressure).contains("gauge pressure, but"));
        assert!(message("1/0 in", Kind::Length).contains("too large"));
        assert!(message("1e400 m", Kind::Length).contains("too large"));
        assert!(message("NaN L", Kind::Volume).contains("does not begin"));
    }

    #[test]
    fn reads_ranges() {
        use crate::quantity::si::Volume;
        let read = |text| parse_estimate::<Volume>(text, Kind::Volume, None);
        let wide = read("0.1 L (0 to 0.5 L)").unwrap();
        assert_eq!((wide.low.value, wide.likely.value, wide.high.value), (0.0, 1e-4, 5e-4));
        assert_eq!(read("0.1 L").unwrap().high.value, 1e-4);
        assert!(matches!(read("0.6 L (0 L to 0.5 L)"), Err(ParseError::Disorder { .. })));
        assert!(matches!(read("0.1 L (0 L to 0.5 L"), Err(ParseError::BadRange { .. })));
        assert!(matches!(read("0 L to 0.5 L"), Err(ParseError::BadRange { .. })));
        assert!(matches!(read("(0.1 L) to 0.5 L)"), Err(ParseError::BadRange { .. })));
        // A unit with brackets of its own.
        use crate::quantity::QuadraticResistance;
        let text = "0.1 Pa/(L/min)² (0.05 to 0.5 Pa/(L/min)²)";
        let wide = parse_estimate::<QuadraticResistance>(text, Kind::QuadraticResistance, None).unwrap();
        assert_eq!([wide.low.value, wide.likely.value, wide.high.value].map(f64::round), [1.8e8, 3.6e8, 1.8e9]);
    }

    #[test]
    fn every_kind_shows_in_a_unit_it_reads() {
        use crate::quantity::UnitSystem;
        for kind in ALL {
            for system in [UnitSystem::Si, UnitSystem::Us] {
                let shown = kind.unit(system);
                let text = format!("1 {}", shown.symbol);
                assert_eq!(parse_amount(&text, kind, None).unwrap(), shown.to_base(1.0), "{kind:?} {text}");
            }
            assert!(parse_amount(example(kind).split(" or ").next().unwrap(), kind, None).is_ok(), "{kind:?}");
            let range = range_example(kind);
            let wide = parse_estimate::<crate::quantity::si::Ratio>(&range, kind, None);
            assert!(wide.is_ok_and(|wide| !wide.is_exact()), "{kind:?} {range}");
        }
    }

    /// Energies are shown as the trade reads them, and read in every unit as before.
    #[test]
    fn energies_are_read_in_all_units_and_shown_in_large_ones() {
        use crate::quantity::{Amount, UnitSystem};
        let read = |text: &str| parse_amount(text, Kind::Energy, None).unwrap();
        for text in ["166 MJ", "166000 kJ", "166000000 J"] {
            assert!((read(text) / 166e6 - 1.0).abs() < 1e-12, "{text}");
        }
        // 1 Btu (international table) is 1055.05585262 J.
        assert!((read("1 Btu") - 1_055.055_852_62).abs() < 1e-8);
        assert!((read("1 kBtu") / read("1000 Btu") - 1.0).abs() < 1e-12);
        let heat = Amount::new(166e6, Kind::Energy);
        assert_eq!((heat.show(UnitSystem::Si), heat.show(UnitSystem::Us)), ("166 MJ".into(), "157 kBtu".into()));
    }

    const ALL: [Kind; 57] = [
        Kind::Length,
        Kind::SmallLength,
        Kind::DropletSize,
        Kind::Distance,
        Kind::RoadDistance,
        Kind::Area,
        Kind::SmallArea,
        Kind::Volume,
        Kind::SmallVolume,
        Kind::Displacement,
        Kind::Mass,
        Kind::SmallMass,
        Kind::GasFlow,
        Kind::CarryOver,
        Kind::CoolantFlow,
        Kind::GasVolumeFlow,
        Kind::FanFlow,
        Kind::SmallVolumeFlow,
        Kind::Density,
        Kind::SpecificHeat,
        Kind::SpecificEnergy,
        Kind::Energy,
        Kind::Viscosity,
        Kind::Conductivity,
        Kind::Power,
        Kind::RoadSpeed,
        Kind::GasSpeed,
        Kind::Acceleration,
        Kind::RotationalSpeed,
        Kind::Time,
        Kind::Duration,
        Kind::Angle,
        Kind::Number,
        Kind::Share,
        Kind::Temperature,
        Kind::TemperatureDifference,
        Kind::AbsolutePressure,
        Kind::GaugePressure,
        Kind::CrankcasePressure,
        Kind::PressureDifference,
        Kind::SmallPressureDifference,
        Kind::HeatConductance,
        Kind::HeatTransfer,
        Kind::HeatCapacity,
        Kind::ThermalExpansion,
        Kind::Swell,
        Kind::SonicConductance,
        Kind::MassFlux,
        Kind::Torque,
        Kind::Force,
        Kind::LinearResistance,
        Kind::QuadraticResistance,
        Kind::FuelPerWork,
        Kind::KinematicViscosity,
        Kind::Stress,
        Kind::Stiffness,
        Kind::LeakFlow,
    ];
}
