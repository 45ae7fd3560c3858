//! `coldmark fluid`: the properties of one coolant at one temperature and pressure.

use super::Outcome;
use crate::fluid::{Base, Basis, FluidError, Mix};
use crate::quantity::si::{Ratio, ThermodynamicTemperature};
use crate::quantity::{AbsolutePressure, Amount, Kind, Measured, UnitSystem, parse_amount};
use serde_json::json;
use std::io::Write;

#[derive(Clone, Copy, Debug, clap::ValueEnum)]
enum BaseWord {
    Water,
    EthyleneGlycol,
    PropyleneGlycol,
}

#[derive(Clone, Copy, Debug, Default, clap::ValueEnum)]
enum BasisWord {
    Mass,
    #[default]
    Volume,
}

/// The words of the command.
#[derive(Debug, clap::Args)]
pub struct FluidWords {
    /// What the coolant is made of.
    #[arg(long, value_enum)]
    base: BaseWord,
    /// Share of glycol, such as 43%.
    #[arg(long, default_value = "0%", allow_hyphen_values = true)]
    glycol: String,
    /// How the share is counted.
    #[arg(long, value_enum, default_value_t)]
    by: BasisWord,
    /// Temperature, such as "71.3 °C" or "160 °F".
    #[arg(long, allow_hyphen_values = true)]
    at: String,
    /// Absolute pressure, such as "1.5 bar" or "101.325 kPa".
    #[arg(long, default_value = "101.325 kPa", allow_hyphen_values = true)]
    pressure: String,
    /// Answer as JSON: every property `{"value": number, "unit": text}` in SI units, or null with a reason.
    #[arg(long)]
    json: bool,
}

/// One property: key, words, unit in JSON, the value in that unit and for reading.
struct Property {
    key: &'static str,
    label: &'static str,
    unit: &'static str,
    value: Result<(f64, Amount), FluidError>,
}

impl Property {
    fn new<Q: Measured>(
        key: &'static str,
        label: &'static str,
        unit: &'static str,
        value: Result<Q, FluidError>,
        in_unit: impl Fn(f64) -> f64,
    ) -> Self {
        Self { key, label, unit, value: value.map(|q| (in_unit(q.base()), Amount::of(q))) }
    }
}

pub(super) fn run(words: &FluidWords, out: &mut impl Write, err: &mut impl Write) -> std::io::Result<Outcome> {
    let (mix, temperature, pressure) = match read(words) {
        Ok(read) => read,
        Err(message) => {
            writeln!(err, "{message}")?;
            return Ok(Outcome::WrongWords);
        }
    };
    let properties = mix.properties(temperature, pressure);
    // A temperature or pressure outside every correlation is a wrong input, not a property that is missing.
    for error in [properties.density.err(), properties.boiling_point.err()].into_iter().flatten() {
        let FluidError::OutOfRange(outside) = &error else { continue };
        let word = if outside.range.kind == Kind::AbsolutePressure { "--pressure" } else { "--at" };
        writeln!(err, "{word}: {error}")?;
        return Ok(Outcome::WrongWords);
    }
    let same = |base: f64| base;
    let celsius = |kelvin: f64| kelvin - crate::quantity::ZERO_CELSIUS;
    let rows = [
        Property::new("density", "Density", "kg/m³", properties.density, same),
        Property::new("specific_heat", "Specific heat", "J/(kg·K)", properties.specific_heat, same),
        Property::new("viscosity", "Viscosity", "Pa·s", properties.viscosity, same),
        Property::new("conductivity", "Thermal conductivity", "W/(m·K)", properties.conductivity, same),
        Property::new("freezing_point", "Freezing point", "°C", properties.freezing_point, celsius),
        Property::new("boiling_point", "Boiling point at this pressure", "°C", properties.boiling_point, celsius),
    ];
    let notes = mix.notes(temperature, pressure);
    if words.json {
        let mut object = serde_json::Map::new();
        for row in &rows {
            let value = match &row.value {
                Ok((value, _)) => json!({ "value": value, "unit": row.unit }),
                Err(reason) => json!({ "value": null, "unit": row.unit, "reason": reason.to_string() }),
            };
            object.insert(row.key.to_owned(), value);
        }
        object.insert("notes".to_owned(), notes.iter().map(|note| note.text.as_str()).collect());
        writeln!(out, "{:#}", serde_json::Value::Object(object))?;
    } else {
        let (t, p) =
            (Amount::of(temperature).show_input(UnitSystem::Si), Amount::of(pressure).show_input(UnitSystem::Si));
        writeln!(out, "{mix} at {t}, {p} absolute")?;
        for row in &rows {
            match &row.value {
                Ok((_, amount)) => writeln!(out, "  {:<32}{}", row.label, amount.show_input(UnitSystem::Si))?,
                Err(reason) => writeln!(out, "  {:<32}not given: {reason}", row.label)?,
            }
        }
        for note in &notes {
            writeln!(out, "  Note: {}", note.text)?;
        }
    }
    Ok(Outcome::Done)
}

fn read(words: &FluidWords) -> Result<(Mix, ThermodynamicTemperature, AbsolutePressure), String> {
    let share = parse_amount(&words.glycol, Kind::Share, None).map_err(|error| format!("--glycol: {error}"))?;
    let at = parse_amount(&words.at, Kind::Temperature, None).map_err(|error| format!("--at: {error}"))?;
    let pressure =
        parse_amount(&words.pressure, Kind::AbsolutePressure, None).map_err(|error| format!("--pressure: {error}"))?;
    let base = match words.base {
        BaseWord::Water => Base::Water,
        BaseWord::EthyleneGlycol => Base::EthyleneGlycol,
        BaseWord::PropyleneGlycol => Base::PropyleneGlycol,
    };
    let basis = match words.by {
        BasisWord::Mass => Basis::ByMass,
        BasisWord::Volume => Basis::ByVolume,
    };
    let mix = Mix::new(base, Ratio::from_base(share), basis).map_err(|error| format!("--glycol: {error}"))?;
    Ok((mix, ThermodynamicTemperature::from_base(at), AbsolutePressure::from_base(pressure)))
}
