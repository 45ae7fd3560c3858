//! Worked values.

use super::{base, boiling, by_mass, by_volume, density};
use crate::accuracy::{Row, Tally};
use coldmark::fluid::{air, mass_share_from_volume};
use coldmark::quantity::si::{Length, Ratio};
use coldmark::quantity::{Measured, celsius, in_celsius};
use coldmark::scribe::Silent;

/// Worked values, computed with a second implementation: half by volume, and the fluid values of three examples.
pub fn worked_rows() -> Vec<Row> {
    const SCRIPT: &str = "tests/reference/worked_coolant.py, second implementation, port";
    let mut share = Tally::new("share by mass", SCRIPT, "", 6e-6);
    let mut rho = Tally::new("density, half by volume", SCRIPT, "kg/m³", 0.006);
    let mut cp = Tally::new("specific heat, half by volume", SCRIPT, "J/(kg·K)", 0.06);
    let mut mu = Tally::new("viscosity, half by volume", SCRIPT, "mPa·s", 6e-4);
    let mut k = Tally::new("conductivity, half by volume", SCRIPT, "W/(m·K)", 6e-5);
    let mut tf = Tally::new("freezing point, half by volume", SCRIPT, "K", 0.06);
    let mut tb = Tally::new("boiling point, half by volume", SCRIPT, "K", 0.06);
    let halves = [
        (
            "EG",
            0.52734,
            [1068.34, 1021.84, 1005.91, 992.71],
            [(3254.8, 3.981, 0.3799), (3573.0, 0.868, 0.4196)],
            -39.9,
            [97.5, 101.2, 108.0, 119.9, 130.0, 135.6],
        ),
        (
            "PG",
            0.50937,
            [1039.57, 987.28, 969.83, 954.67],
            [(3512.7, 6.618, 0.3558), (3785.0, 0.920, 0.3921)],
            -33.6,
            [95.1, 98.7, 105.4, 117.0, 127.0, 132.5],
        ),
    ];
    for (glycol, w, densities, others, freezing, boilings) in halves {
        let mix = by_volume(glycol, 0.50);
        share.difference(mix.mass_share().base(), w);
        for (t, expected) in [20.0, 90.0, 110.0, 125.0].into_iter().zip(densities) {
            rho.difference(density(&mix, t), expected);
        }
        for (t, (c, m, l)) in [20.0, 90.0].map(celsius).into_iter().zip(others) {
            cp.difference(mix.specific_heat(t, &mut Silent).unwrap().base(), c);
            mu.difference(1e3 * mix.viscosity(t, &mut Silent).unwrap().base(), m);
            k.difference(mix.conductivity(t, &mut Silent).unwrap().base(), l);
        }
        tf.difference(in_celsius(mix.freezing_point(&mut Silent).unwrap()), freezing);
        for (p, expected) in [70.0, 80.0, 101.325, 149.6, 204.7, 241.3].into_iter().zip(boilings) {
            tb.difference(boiling(&mix, p), expected);
        }
    }
    // A 103.4 kPa cap at 0, 1000, 2000 and 3000 m.
    let mix = by_volume("EG", 0.50);
    for (z, expected) in [(0.0, 130.0), (1000.0, 128.1), (2000.0, 126.3), (3000.0, 124.6)] {
        let p = air::standard_pressure(Length::from_base(z), &mut Silent).unwrap().base();
        tb.difference(boiling(&mix, p / 1e3 + 103.4), expected);
    }
    // Growth from 20 to 95 °C, per cent.
    let mut growth = Tally::new("growth 20 to 95 °C", SCRIPT, "%", 0.006);
    for (glycol, w, expected) in [("EG", 0.3, 4.51), ("EG", 0.5, 4.89), ("EG", 0.6, 5.12), ("PG", 0.3, 4.79)]
        .into_iter()
        .chain([("PG", 0.5, 5.69), ("PG", 0.6, 5.92)])
    {
        let mix = by_mass(glycol, w);
        growth.difference(100.0 * (density(&mix, 20.0) / density(&mix, 95.0) - 1.0), expected);
    }
    let mut rows: Vec<Row> = [share, rho, cp, mu, k, tf, tb, growth].map(Tally::row).into();
    rows.extend(example_rows(SCRIPT));
    rows
}

/// The fluid values of `worked_coolant.json`, printed to five digits.
fn example_rows(script: &'static str) -> [Row; 4] {
    let path = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/reference/worked_coolant.json");
    let json: serde_json::Value = serde_json::from_str(&std::fs::read_to_string(path).unwrap()).unwrap();
    let mut share = Tally::new("share by mass, worked examples", script, "%", 0.001);
    let mut freezing = Tally::new("freezing point, worked examples", script, "K", 6e-4);
    let mut pressure = Tally::new("pressure at altitude, worked examples", script, "%", 0.001);
    let mut boils = Tally::new("boiling point, worked examples", script, "K", 0.006);
    for (example, glycol, phi, z) in
        [("example1", "EG", 0.50, 300.0), ("example2", "EG", 0.40, 1800.0), ("example3", "PG", 0.50, 0.0)]
    {
        let value = |name: &str| json[example][name].as_f64();
        let mix = by_volume(glycol, phi);
        share.relative(
            mass_share_from_volume(base(glycol), Ratio::from_base(phi), &mut Silent).unwrap().base(),
            value("mass_fraction").unwrap(),
        );
        freezing.difference(in_celsius(mix.freezing_point(&mut Silent).unwrap()), value("freezing_C").unwrap());
        let p = air::standard_pressure(Length::from_base(z), &mut Silent).unwrap().base() / 1e3;
        if let Some(expected) = value("p_atm_kPa") {
            pressure.relative(p, expected);
        }
        boils.difference(boiling(&mix, p), value("T_bubble_open_C").unwrap());
        let system = json[example]["system"]["p_abs_kPa"].as_f64();
        let hot = [value("T_bubble_at_cap_C"), value("T_bubble_at_hot_pressure_C")].into_iter().flatten().next();
        let at = system.or_else(|| json[example]["warm_up"].as_array()?.last()?["p_abs_kPa"].as_f64());
        boils.difference(boiling(&mix, at.unwrap()), hot.unwrap());
    }
    [share, freezing, pressure, boils].map(Tally::row)
}
