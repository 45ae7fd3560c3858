//! `coldmark map`: the crankcase over engine speed and manifold pressure, as a table for a spreadsheet.

use super::{Outcome, UnitsWord};
use crate::crankcase::blow_by::standard_volume_flow;
use crate::quantity::si::MassRate;
use crate::quantity::{Amount, GaugePressure, Kind, UnitSystem};
use crate::study::{self, Map, MapCaseKind, MapCell, MapLimit, Unsolved, Variant};
use std::io::Write;
use std::path::PathBuf;

/// Said with every table.
const CAUTION: &str = "Caution: these are estimates. A running engine burns, catches and poisons; never plug every outlet of the \
                       crankcase to make a reading agree.";

/// The words of the command.
#[derive(Debug, clap::Args)]
pub struct MapWords {
    /// The project file.
    file: PathBuf,
    /// How many engine speeds, from the slowest duty to a tenth above full throttle.
    #[arg(long, value_name = "N", default_value_t = 12, value_parser = steps)]
    rpm_steps: usize,
    /// How many manifold pressures, from the least of any duty to the greatest.
    #[arg(long, value_name = "N", default_value_t = 16, value_parser = steps)]
    pressure_steps: usize,
    /// Units of the table.
    #[arg(long, value_enum, default_value_t)]
    units: UnitsWord,
}

fn steps(text: &str) -> Result<usize, String> {
    let number = text.parse().ok().filter(|number| (2..=400).contains(number));
    number.ok_or_else(|| format!("'{text}' is no number of steps from 2 to 400"))
}

pub(super) fn run(words: &MapWords, out: &mut impl Write, err: &mut impl Write) -> std::io::Result<Outcome> {
    let project = match crate::file::open(&words.file) {
        Ok(project) => project,
        Err(error) => return super::report(&error, err),
    };
    let grid = study::map_grid(&project, words.rpm_steps, words.pressure_steps);
    let map = match grid.and_then(|grid| study::map(&project, &grid, &Variant::Present)) {
        Ok(map) => map,
        Err(problems) => {
            writeln!(err, "{}: no map:\n{problems}", words.file.display())?;
            return Ok(Outcome::Failed);
        }
    };
    let system = words.units.into();
    table(&map, system, out)?;
    writeln!(err, "{}\n{CAUTION}", map.says(MapCaseKind::High).show(system))?;
    Ok(Outcome::Done)
}

/// Plain numbers and fixed words alone, so that nothing in it is taken for a formula.
fn table(map: &Map, system: UnitSystem, out: &mut impl Write) -> std::io::Result<()> {
    let unit = |kind: Kind| kind.unit(system).symbol;
    let (speed, absolute) = (unit(Kind::RotationalSpeed), unit(Kind::AbsolutePressure));
    let (gauge, flow) = (unit(Kind::CrankcasePressure), unit(Kind::GasVolumeFlow));
    writeln!(
        out,
        "engine speed ({speed}),manifold pressure absolute ({absolute}),blow-by likely ({flow}),blow-by high ({flow}),\
         crankcase gauge likely ({gauge}),crankcase gauge high ({gauge}),crankcase gauge deepest ({gauge}),\
         breather out likely ({flow}),breather out high ({flow}),valve likely ({flow}),valve high ({flow}),\
         pressure limit ({gauge}),state,decided by"
    )?;
    let columns = map.grid.rpm.points;
    for (i, cell) in map.cells.iter().enumerate() {
        let (rpm, manifold) = (map.grid.rpm.at((i % columns) as f64), map.grid.manifold.at((i / columns) as f64));
        write!(out, "{},{},", number(Amount::of(rpm), system), number(Amount::of(manifold), system))?;
        let state = match cell {
            MapCell::Solved(state) => state,
            MapCell::Unsolved(why) => {
                writeln!(out, ",,,,,,,,,,{},", unsolved(why))?;
                continue;
            }
        };
        let volume = |mass: MassRate| number(Amount::of(standard_volume_flow(mass)), system);
        let perhaps = |mass: Option<MassRate>| mass.map_or_else(String::new, volume);
        let pressure = |gauge: GaugePressure| number(Amount::of_kind(gauge, Kind::CrankcasePressure), system);
        let (likely, high) = (&state.likely, &state.high);
        let numbers = [
            volume(likely.blow_by),
            volume(high.blow_by),
            pressure(likely.gauge),
            pressure(high.gauge),
            pressure(state.deepest),
            perhaps(likely.breather),
            perhaps(high.breather),
            perhaps(likely.valve),
            perhaps(high.valve),
            pressure(state.pressure_limit),
        ];
        writeln!(out, "{},{},{}", numbers.join(","), state.state.word(), limit(state.limit))?;
    }
    Ok(())
}

/// A plain number.
pub(super) fn number(amount: Amount, system: UnitSystem) -> String {
    let text = format!("{:.5}", amount.value_in(system));
    // What is nothing but for rounding has no sign.
    if text.trim_start_matches(['-', '0', '.']).is_empty() { "0.00000".to_owned() } else { text }
}

const fn limit(limit: MapLimit) -> &'static str {
    match limit {
        MapLimit::LightLoad => "light load",
        MapLimit::UnderLoad => "under load",
        MapLimit::Depression => "depression",
    }
}

const fn unsolved(why: &Unsolved) -> &'static str {
    match why {
        Unsolved::OutOfRange(_) => "out of range",
        Unsolved::NoWayOut(_) => "no way out",
        Unsolved::NotFound(_) => "not found",
    }
}
