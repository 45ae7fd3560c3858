//! `coldmark heat`: the coolant against the air for every thermostat, as a table for a spreadsheet.

use super::{Outcome, UnitsWord};
use crate::quantity::si::ThermodynamicTemperature;
use crate::quantity::{Amount, Kind, UnitSystem};
use crate::study::{self, Duty, DutyHeatCurves, HeatCurves};
use std::io::Write;
use std::path::PathBuf;

/// Said with every table.
const CAUTION: &str = "Caution: these are estimates. Hot coolant is under pressure: never open a hot system; what boils can burn and \
                       scald.";

/// The words of the command.
#[derive(Debug, clap::Args)]
pub struct HeatWords {
    /// The project file.
    file: PathBuf,
    /// One duty alone: idle, cruise, hill, full_throttle or overrun; without it all of them.
    #[arg(long, value_name = "WORD", value_parser = duty)]
    duty: Option<Duty>,
    /// Units of the table.
    #[arg(long, value_enum, default_value_t)]
    units: UnitsWord,
}

fn duty(text: &str) -> Result<Duty, String> {
    let words = || Duty::ALL.map(Duty::word).join(", ");
    Duty::ALL
        .into_iter()
        .find(|duty| duty.word() == text)
        .ok_or_else(|| format!("'{text}' is no duty; give one of {}", words()))
}

pub(super) fn run(words: &HeatWords, out: &mut impl Write, err: &mut impl Write) -> std::io::Result<Outcome> {
    let project = match crate::file::open(&words.file) {
        Ok(project) => project,
        Err(error) => return super::report(&error, err),
    };
    let curves = match study::heat_curves(&project) {
        Ok(curves) => curves,
        Err(problems) => {
            writeln!(err, "{}: no heat curves:\n{problems}", words.file.display())?;
            return Ok(Outcome::Failed);
        }
    };
    let system = words.units.into();
    let wanted = |curves: &&DutyHeatCurves| words.duty.is_none_or(|duty| duty == curves.duty);
    table(curves.duties.iter().filter(wanted), system, out)?;
    for duty in curves.duties.iter().filter(wanted) {
        writeln!(err, "{} {}", duty.says().show(system), duty.says_capacity().show(system))?;
    }
    if words.duty.is_none() {
        roads(&curves, system, err)?;
    }
    for note in &curves.notes {
        writeln!(err, "{}", note.show(system))?;
    }
    writeln!(err, "{CAUTION}")?;
    Ok(Outcome::Done)
}

/// Who rules over road speed and air, in words.
fn roads(curves: &HeatCurves, system: UnitSystem, err: &mut impl Write) -> std::io::Result<()> {
    writeln!(err, "{}", curves.says_capacity().show(system))?;
    for map in &curves.maps {
        match map {
            Ok(map) => writeln!(err, "{} {}", map.says().show(system), map.says_basis().show(system))?,
            Err(why) => writeln!(err, "No map over road speed and air: {why}.")?,
        }
    }
    Ok(())
}

/// Plain numbers and fixed words alone, so that nothing in it is taken for a formula. Where it boils there is no coolant
/// temperature.
fn table<'a>(
    duties: impl Iterator<Item = &'a DutyHeatCurves>,
    system: UnitSystem,
    out: &mut impl Write,
) -> std::io::Result<()> {
    let unit = |kind: Kind| kind.unit(system).symbol;
    let (speed, degrees) = (unit(Kind::RoadSpeed), unit(Kind::Temperature));
    writeln!(
        out,
        "duty,road speed ({speed}),thermostat ({degrees}),fitted,air ({degrees}),coolant ({degrees}),set by"
    )?;
    let number = |amount: Amount| super::map::number(amount, system);
    let temperature = |at: ThermodynamicTemperature| number(Amount::of(at));
    for duty in duties {
        let name = duty.duty.name().to_lowercase();
        let road = number(Amount::of(duty.road_speed));
        for curve in &duty.set_points {
            let fitted = if curve.fitted { "yes" } else { "no" };
            let set_point = temperature(curve.set_point);
            for point in &curve.points {
                let outlet = point.outlet.map_or_else(String::new, temperature);
                let air = temperature(point.ambient);
                writeln!(out, "{name},{road},{set_point},{fitted},{air},{outlet},{}", point.rule.word())?;
            }
        }
    }
    Ok(())
}
