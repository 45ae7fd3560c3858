//! Published checks: fluid.
//!
//! Three kinds of evidence, named in each row. "Port": the reference shares our coefficients, so agreement proves the
//! typing and nothing about nature. "Independent": another equation, library or printed table. "Fit": the reference
//! is what a constant was fitted to.

mod liquid;
mod pure;
mod worked;

use crate::accuracy::{Row, Tally, table};
use coldmark::fluid::{Base, Basis, Mix, air, crankcase_gas, volume_share_from_mass, water};
use coldmark::quantity::si::{Length, Ratio, ThermodynamicTemperature};
use coldmark::quantity::{AbsolutePressure, Measured, celsius, in_celsius, pascals};
use coldmark::scribe::Silent;

/// The rows this part adds to the accuracy table.
pub fn accuracy() -> Vec<Row> {
    let parts = [
        pure::water_rows(),
        liquid::solution_rows(),
        liquid::join_rows(),
        liquid::density_rows(),
        phase_rows(),
        air_rows(),
        worked::worked_rows(),
    ];
    parts.into_iter().flatten().collect()
}

#[test]
fn every_row_passes() {
    assert!(accuracy().len() > 40);
}

fn base(word: &str) -> Base {
    if word == "EG" { Base::EthyleneGlycol } else { Base::PropyleneGlycol }
}

fn by_mass(word: &str, w: f64) -> Mix {
    // Counted by volume the range reaches a little further.
    let share = volume_share_from_mass(base(word), Ratio::from_base(w), &mut Silent).unwrap();
    Mix::new(base(word), Ratio::from_base(w), Basis::ByMass)
        .or_else(|_| Mix::new(base(word), share, Basis::ByVolume))
        .unwrap()
}

fn by_volume(word: &str, phi: f64) -> Mix {
    Mix::new(base(word), Ratio::from_base(phi), Basis::ByVolume).unwrap()
}

fn fahrenheit(t: f64) -> ThermodynamicTemperature {
    ThermodynamicTemperature::from_base((t + 459.67) / 1.8)
}

fn kilopascals(p: f64) -> AbsolutePressure {
    AbsolutePressure::new(pascals(p * 1e3))
}

fn density(mix: &Mix, t: f64) -> f64 {
    mix.density(celsius(t), &mut Silent).unwrap().base()
}

fn boiling(mix: &Mix, kpa: f64) -> f64 {
    in_celsius(mix.boiling_point(kilopascals(kpa), &mut Silent).unwrap())
}

fn number(row: &csv::StringRecord, index: usize) -> f64 {
    row[index].parse().unwrap_or_else(|_| panic!("{row:?} has no number in column {index}"))
}

fn phase_rows() -> Vec<Row> {
    let mut port = Tally::new("boiling point", "the same equations with IAPWS-IF97 (Python), port", "K", 0.004);
    let mut weak = Tally::new("boiling point to 55 % by mass", "modified UNIFAC (Dortmund), fit", "K", 1.0);
    let mut strong = Tally::new("boiling point above 55 % by mass", "modified UNIFAC (Dortmund), fit", "K", 2.0);
    let mut other_weak = Tally::new("boiling point to 55 % by mass", "original UNIFAC, another model", "K", 1.0);
    let mut other_strong = Tally::new("boiling point above 55 % by mass", "original UNIFAC, another model", "K", 2.0);
    for row in table("bubble_points.csv") {
        let mix = by_mass(&row[0], number(&row, 1));
        let computed = boiling(&mix, 100.0 * number(&row, 2));
        port.difference(computed, number(&row, 6));
        if number(&row, 1) == 0.0 {
            continue;
        }
        let claimed = mix.boiling_uncertainty().base();
        let (fit, other) = if claimed == 1.0 { (&mut weak, &mut other_weak) } else { (&mut strong, &mut other_strong) };
        fit.difference(computed, number(&row, 3));
        other.difference(computed, number(&row, 4));
    }
    // Ethylene glycol half by volume: 226 °F open; 262 to 265 °F under a 15 psi cap. Such texts scatter by 2
    // to 4 K among themselves.
    let mut service = Tally::new("boiling point of the 50 % mix", "public service texts, independent", "K", 3.0);
    let mix = by_volume("EG", 0.50);
    for (f, kpa) in [(226.0, 101.325), (262.0, 101.325 + 103.421), (265.0, 101.325 + 103.421)] {
        service.difference(boiling(&mix, kpa), in_celsius(fahrenheit(f)));
    }
    [port, weak, strong, other_weak, other_strong, service].map(Tally::row).into()
}

fn air_rows() -> Vec<Row> {
    const LIBRARY: &str = "US Standard Atmosphere 1976 (library fluids), independent";
    let mut pressure = Tally::new("pressure of the standard atmosphere", LIBRARY, "%", 1e-5);
    let mut rho = Tally::new("density of air", LIBRARY, "%", 0.002);
    let mut boiling =
        Tally::new("boiling point of water at altitude", "IAPWS-IF97 (library iapws), independent", "K", 0.004);
    for row in table("standard_atmosphere.csv") {
        let p = air::standard_pressure(Length::from_base(number(&row, 0)), &mut Silent).unwrap();
        pressure.relative(p.base(), number(&row, 2));
        rho.relative(air::density(p, celsius(number(&row, 3)), &mut Silent).unwrap().base(), number(&row, 4));
        boiling.difference(in_celsius(water::saturation_temperature(p, &mut Silent).unwrap()), number(&row, 5));
    }
    let mut viscosity =
        Tally::new("viscosity of air", "Incropera and DeWitt, table A.4, quoted from memory, independent", "%", 2.0);
    for (kelvin, expected) in
        [(250.0, 159.6e-7), (300.0, 184.6e-7), (350.0, 208.2e-7), (400.0, 230.1e-7), (500.0, 270.1e-7)]
    {
        let t = ThermodynamicTemperature::from_base(kelvin);
        viscosity.relative(air::viscosity(t, &mut Silent).unwrap().base(), expected);
    }
    let mut gas = Tally::new("density of crankcase gas", "ideal gas by hand, 1.2041 and 0.9720 kg/m³", "%", 0.005);
    let (p, t) = (crankcase_gas::standard_pressure(), crankcase_gas::standard_temperature());
    gas.relative(crankcase_gas::density(p, t, &mut Silent).unwrap().base(), 1.2041);
    let hot = crankcase_gas::temperature().likely();
    gas.relative(crankcase_gas::density(p, hot, &mut Silent).unwrap().base(), 0.9720);
    [pressure, rho, boiling, viscosity, gas].map(Tally::row).into()
}
