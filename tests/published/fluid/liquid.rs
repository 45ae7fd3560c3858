//! The liquid mixes: the polynomial set, the joins, and density against a second source.

use super::{by_mass, by_volume, density, fahrenheit, number};
use crate::accuracy::{Row, Tally, table};
use coldmark::quantity::{Measured, celsius, in_celsius};
use coldmark::scribe::Silent;

/// The polynomial set against the library that distributes its coefficients: a port.
pub fn solution_rows() -> Vec<Row> {
    const LIBRARY: &str = "CoolProp 8.0.0 (Melinder 2010), same coefficients, port";
    let mut tallies = [
        // Half a unit of the last printed digit.
        Tally::new("density of solutions", LIBRARY, "%", 6e-5),
        Tally::new("specific heat of solutions", LIBRARY, "%", 2e-4),
        Tally::new("viscosity of solutions", LIBRARY, "%", 2e-3),
        Tally::new("conductivity of solutions", LIBRARY, "%", 2e-3),
    ];
    let mut refused = 0;
    for row in table("glycol_properties.csv") {
        let (w, t) = (number(&row, 1), number(&row, 2));
        if w == 0.0 {
            continue; // Water comes from IAPWS, not from the set.
        }
        let (mix, t) = (by_mass(&row[0], w), celsius(t));
        let computed = [
            mix.density(t, &mut Silent).map(Measured::base),
            mix.specific_heat(t, &mut Silent).map(Measured::base),
            mix.viscosity(t, &mut Silent).map(|mu| 1e3 * mu.base()),
            mix.conductivity(t, &mut Silent).map(Measured::base),
        ];
        match &row[7] {
            "ok" => {
                for (index, (tally, computed)) in tallies.iter_mut().zip(computed).enumerate() {
                    tally.relative(computed.unwrap(), number(&row, 3 + index));
                }
            }
            "below_freezing" => {
                assert!(computed.iter().all(Result::is_err), "{row:?}");
                refused += 1;
            }
            _ => assert!(computed.iter().all(Result::is_ok), "{row:?}"),
        }
    }
    assert!(refused > 10);
    let mut freezing = Tally::new("freezing point", LIBRARY, "K", 6e-4);
    for row in table("freezing_point.csv").iter().filter(|row| number(row, 1) > 0.0) {
        let computed = by_mass(&row[0], number(row, 1)).freezing_point(&mut Silent).unwrap();
        freezing.difference(in_celsius(computed), number(row, 2));
    }
    let mut rows: Vec<Row> = tallies.map(Tally::row).into();
    rows.push(freezing.row());
    rows
}

/// The joins against a second implementation in another language, and the pure glycols against DIPPR.
pub fn join_rows() -> Vec<Row> {
    const SCRIPT: &str = "tests/reference/worked_coolant.py, second implementation, port";
    // Glycol, share by mass, °C, kg/m³.
    const DENSITY: [(&str, f64, f64, f64); 24] = [
        ("EG", 0.02, 0.0, 1002.380545),
        ("EG", 0.02, 40.0, 994.590908),
        ("EG", 0.02, 100.0, 960.682029),
        ("EG", 0.02, 130.0, 937.140946),
        ("EG", 0.05, 101.0, 963.481887),
        ("EG", 0.3, 115.0, 977.577446),
        ("EG", 0.6, 130.0, 993.978381),
        ("EG", 0.65, 40.0, 1068.856993),
        ("EG", 0.65, 115.0, 1011.541763),
        ("EG", 0.7, 0.0, 1097.525039),
        ("EG", 0.7, 101.0, 1028.130690),
        ("EG", 0.72, 130.0, 1002.590632),
        ("PG", 0.02, 0.0, 1001.677056),
        ("PG", 0.02, 40.0, 993.699268),
        ("PG", 0.02, 100.0, 960.054458),
        ("PG", 0.02, 130.0, 936.280656),
        ("PG", 0.05, 101.0, 961.885049),
        ("PG", 0.3, 115.0, 960.202127),
        ("PG", 0.6, 130.0, 949.617837),
        ("PG", 0.65, 40.0, 1027.508443),
        ("PG", 0.65, 115.0, 964.129234),
        ("PG", 0.7, 0.0, 1054.767820),
        ("PG", 0.7, 101.0, 977.464503),
        ("PG", 0.705, 130.0, 945.914247),
    ];
    // Glycol, share by mass, °C, J/(kg·K), Pa·s, W/(m·K).
    const OTHERS: [(&str, f64, f64, f64, f64, f64); 14] = [
        ("EG", 0.05, 20.0, 4114.45727, 1.124660984e-03, 0.57601324),
        ("EG", 0.05, 130.0, 4203.38884, 2.222449558e-04, 0.67243055),
        ("EG", 0.3, 115.0, 3954.43651, 4.196905185e-04, 0.54217505),
        ("EG", 0.6, 130.0, 3575.65162, 4.943936741e-04, 0.40620341),
        ("EG", 0.65, 20.0, 3009.53424, 5.810801010e-03, 0.34369783),
        ("EG", 0.65, 115.0, 3438.86615, 7.096193096e-04, 0.38205447),
        ("EG", 0.7, 130.0, 3405.23726, 6.211893660e-04, 0.36884181),
        ("PG", 0.05, 20.0, 4127.23635, 1.207878915e-03, 0.57103115),
        ("PG", 0.05, 130.0, 4241.96833, 2.205402748e-04, 0.66820604),
        ("PG", 0.3, 115.0, 4094.96482, 4.179313278e-04, 0.51817895),
        ("PG", 0.6, 130.0, 3829.50837, 5.154333024e-04, 0.36710533),
        ("PG", 0.65, 20.0, 3231.90619, 1.165824135e-02, 0.30681758),
        ("PG", 0.65, 115.0, 3669.91398, 7.697822927e-04, 0.33972573),
        ("PG", 0.7, 130.0, 3644.69721, 6.648057034e-04, 0.32411975),
    ];
    let mut rho = Tally::new("density across the joins", SCRIPT, "%", 1e-6);
    for (glycol, w, t, expected) in DENSITY {
        rho.relative(density(&by_mass(glycol, w), t), expected);
    }
    let mut others = [
        Tally::new("specific heat across the joins", SCRIPT, "%", 1e-5),
        Tally::new("viscosity across the joins", SCRIPT, "%", 1e-5),
        Tally::new("conductivity across the joins", SCRIPT, "%", 1e-5),
    ];
    for (glycol, w, t, cp, mu, k) in OTHERS {
        let (mix, t) = (by_mass(glycol, w), celsius(t));
        let computed = [
            mix.specific_heat(t, &mut Silent).unwrap().base(),
            mix.viscosity(t, &mut Silent).unwrap().base(),
            mix.conductivity(t, &mut Silent).unwrap().base(),
        ];
        for (tally, (computed, expected)) in others.iter_mut().zip(computed.into_iter().zip([cp, mu, k])) {
            tally.relative(computed, expected);
        }
    }
    // The strong join is a line in specific volume from 60 % to the pure glycol; continued to 100 % it must meet it.
    let mut pure =
        Tally::new("pure glycol at the end of the strong join", "DIPPR, Perry 8e (library thermo), fit", "%", 0.05);
    for row in table("pure_glycol.csv").iter().filter(|row| number(row, 1) <= 100.0) {
        let t = number(row, 1);
        let [at_60, at_70] = [0.60, 0.70].map(|w| 1.0 / density(&by_mass(&row[0], w), t));
        pure.relative(1.0 / (at_60 + (at_70 - at_60) / 0.25), number(row, 2));
    }
    let mut rows = vec![rho.row(), pure.row()];
    rows.extend(others.map(Tally::row));
    rows
}

/// Density against the second published set: a real second source, of inhibited coolants, which weigh more.
pub fn density_rows() -> Vec<Row> {
    const SET: &str = "ASHRAE set for inhibited glycol (CoolProp 8.0.0), independent, another product";
    const HANDBOOK: &str =
        "ASHRAE Handbook Fundamentals, printed table of inhibited glycol, independent, another product";
    let rows = table("density_second_opinion.csv");
    let mut out = Vec::new();
    for (glycol, name, worst) in
        [("EG", "density of ethylene glycol mixes", 1.2), ("PG", "density of propylene glycol mixes", 1.0)]
    {
        let mut tally = Tally::new(name, SET, "%", worst);
        for row in rows.iter().filter(|row| &row[0] == glycol) {
            let (mix, t) = (by_mass(glycol, number(row, 1)), number(row, 3));
            if let Ok(rho) = mix.density(celsius(t), &mut Silent) {
                tally.relative(rho.base(), number(row, 4));
            }
        }
        out.push(tally.row());
    }
    // The factor between the growths of the two sets, 20 to 95 °C, at 30 to 60 % by mass.
    let find = |glycol: &str, w: f64, t: f64| {
        let row = rows.iter().find(|row| &row[0] == glycol && number(row, 1) == w && number(row, 3) == t);
        number(row.unwrap(), 4)
    };
    for (glycol, name, worst) in [
        ("EG", "low case of the growth of ethylene glycol mixes", 2.0),
        ("PG", "low case of the growth of propylene glycol mixes", 4.5),
    ] {
        let mut tally = Tally::new(name, SET, "%", worst);
        for w in [0.3, 0.4, 0.5, 0.6] {
            let mix = by_mass(glycol, w);
            let growth = density(&mix, 20.0) / density(&mix, 95.0) - 1.0;
            let second = find(glycol, w, 20.0) / find(glycol, w, 95.0) - 1.0;
            let low = growth * mix.expansion_second_set().base();
            assert!(low < second, "{glycol} {w}: a low case lies below the second set");
            tally.relative(low, second);
        }
        out.push(tally.row());
    }
    out.extend(handbook_rows(HANDBOOK));
    out
}

fn handbook_rows(source: &'static str) -> Vec<Row> {
    const POUNDS_PER_CUBIC_FOOT: f64 = 16.018_463_37;
    let rows = table("ethylene_glycol_density_handbook.csv");
    let printed = |phi: f64, f: f64| {
        let row = rows.iter().find(|row| number(row, 0) == f && number(row, 1) == phi);
        number(row.unwrap(), 2)
    };
    let at = |phi: f64, f: f64| {
        by_volume("EG", phi / 100.0).density(fahrenheit(f), &mut Silent).unwrap().base() / POUNDS_PER_CUBIC_FOOT
    };
    let mut water =
        Tally::new("density of water", "ASHRAE Handbook Fundamentals, printed table, independent", "%", 0.06);
    let mut mixes = Tally::new("density of ethylene glycol mixes", source, "%", 1.5);
    for row in &rows {
        let (f, phi) = (number(row, 0), number(row, 1));
        // The program ends at 70 % and 130 °C; near freezing the two disagree about what is still liquid.
        if phi > 70.0 || f > 266.0 {
            continue;
        }
        let Ok(rho) = by_volume("EG", phi / 100.0).density(fahrenheit(f), &mut Silent) else { continue };
        let tally = if phi == 0.0 { &mut water } else { &mut mixes };
        tally.relative(rho.base() / POUNDS_PER_CUBIC_FOOT, number(row, 2));
    }
    // Two printed numbers of four digits differ by 4 %, so the growth is known to about 0.3 % of itself.
    let mut growth = Tally::new("low case of the growth of ethylene glycol mixes, 70 to 200 °F", source, "%", 3.0);
    for phi in [30.0, 40.0, 50.0, 60.0] {
        let ours = at(phi, 70.0) / at(phi, 200.0) - 1.0;
        growth.relative(0.90 * ours, printed(phi, 70.0) / printed(phi, 200.0) - 1.0);
    }
    let mut ratio = Tally::new("density ratio 250 to 210 °F of ethylene glycol mixes", source, "", 0.000_25);
    for phi in [20.0, 30.0, 40.0, 50.0, 60.0, 70.0] {
        ratio.difference(at(phi, 250.0) / at(phi, 210.0), printed(phi, 250.0) / printed(phi, 210.0));
    }
    vec![water.row(), mixes.row(), growth.row(), ratio.row()]
}
