//! `coldmark fluid`, against the reference table and against wrong words.

use crate::{refused, told};
use serde_json::Value;

const KEYS: [(&str, &str); 6] = [
    ("density", "kg/m³"),
    ("specific_heat", "J/(kg·K)"),
    ("viscosity", "Pa·s"),
    ("conductivity", "W/(m·K)"),
    ("freezing_point", "°C"),
    ("boiling_point", "°C"),
];

fn json(words: &[&str]) -> Value {
    let all: Vec<&str> = ["fluid"].iter().chain(words).chain(&["--json"]).copied().collect();
    serde_json::from_str(&told(&all)).unwrap()
}

fn number(answer: &Value, key: &str) -> f64 {
    answer[key]["value"].as_f64().unwrap_or_else(|| panic!("{key}: {}", answer[key]))
}

#[test]
fn six_properties_with_their_units() {
    let words =
        ["--base", "ethylene-glycol", "--glycol", "43%", "--by", "volume", "--at", "71.3 °C", "--pressure", "1.5 bar"];
    let answer = json(&words);
    for (key, unit) in KEYS {
        assert_eq!(answer[key]["unit"], unit, "{key}");
        assert!(number(&answer, key).is_finite());
    }
    // Handbook sizes: rough bounds that a slip of unit or basis would break.
    for (key, low, high) in [
        ("density", 1020.0, 1050.0),
        ("specific_heat", 3400.0, 3800.0),
        ("viscosity", 0.7e-3, 1.3e-3),
        ("conductivity", 0.40, 0.48),
        ("freezing_point", -33.0, -26.0),
        ("boiling_point", 115.0, 121.0),
    ] {
        assert!((low..high).contains(&number(&answer, key)), "{key}: {}", number(&answer, key));
    }
    // The same by mass is another mix, the same in other units is the same.
    let by_mass = json(&["--base", "ethylene-glycol", "--glycol", "43%", "--by", "mass", "--at", "71.3 °C"]);
    assert!(number(&by_mass, "density") < number(&answer, "density"));
    let other = ["--base", "ethylene-glycol", "--glycol", "43 percent", "--at", "160.34 °F", "--pressure", "150 kPa"];
    for (key, _) in KEYS {
        let (one, other) = (number(&answer, key), number(&json(&other), key));
        assert!((one - other).abs() <= 1e-9 * one.abs(), "{key}: {one} {other}");
    }
}

/// Rows of the reference table, computed independently from the published polynomials.
#[test]
fn the_reference_table() {
    let path = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/reference/glycol_properties.csv");
    let mut reader = csv::Reader::from_path(path).unwrap();
    let mut checked = 0;
    // Every seventh row: each starts the program anew.
    for record in reader.records().map(Result::unwrap).step_by(7) {
        let base = if &record[0] == "EG" { "ethylene-glycol" } else { "propylene-glycol" };
        let words = [
            "--base",
            base,
            "--glycol",
            &format!("{} %", 100.0 * record[1].parse::<f64>().unwrap()),
            "--by",
            "mass",
            "--at",
            &format!("{} °C", &record[2]),
        ];
        let share: f64 = record[1].parse().unwrap();
        if &record[7] == "below_freezing" {
            let answer = json(&words);
            for key in ["density", "specific_heat", "viscosity", "conductivity"] {
                assert!(answer[key]["value"].is_null(), "{words:?} {key}");
                let reason = answer[key]["reason"].as_str().unwrap();
                assert!(reason.contains("freez") || reason.contains("solid") || reason.contains("slush"), "{reason}");
            }
            assert!(number(&answer, "freezing_point") > record[2].parse::<f64>().unwrap() - 0.2);
            assert!(number(&answer, "boiling_point") > 99.0);
            checked += 1;
            continue;
        }
        // Above the melting curve's end and above the tables' temperatures the table has extended values.
        let answer = json(&words);
        for (key, column, scale, allowed) in [
            ("density", 3, 1.0, 2e-4),
            ("specific_heat", 4, 1.0, 2e-3),
            ("viscosity", 5, 1e-3, 1e-2),
            ("conductivity", 6, 1.0, 5e-3),
        ] {
            let Ok(expected) = record[column].parse::<f64>() else { continue };
            let (expected, found) = (expected * scale, number(&answer, key));
            // Pure water has formulations of its own, which the polynomials of the solutions only approach.
            let allowed = if share == 0.0 { 10.0 * allowed } else { allowed };
            assert!((found / expected - 1.0).abs() < allowed, "{words:?} {key}: {found}, expected {expected}");
            checked += 1;
        }
    }
    assert!(checked > 60, "{checked}");
}

#[test]
fn frozen_is_null_with_a_reason() {
    let answer = json(&["--base", "water", "--at", "-5 °C"]);
    for key in ["density", "specific_heat", "viscosity", "conductivity"] {
        assert!(answer[key]["value"].is_null() && answer[key]["reason"].as_str().unwrap().len() > 20, "{key}");
    }
    assert!(number(&answer, "freezing_point").abs() < 0.01);
    assert!((number(&answer, "boiling_point") - 100.0).abs() < 0.1);
    let text = told(&["fluid", "--base", "water", "--at", "-5 °C"]);
    assert_eq!(text.matches("not given: ").count(), 4, "{text}");
}

#[test]
fn words_for_reading() {
    let text =
        told(&["fluid", "--base", "propylene-glycol", "--glycol", "50 %", "--at", "190 °F", "--pressure", "15 psi"]);
    for line in ["Density", "Specific heat", "Viscosity", "Thermal conductivity", "Freezing point", "Boiling point"] {
        assert!(text.lines().any(|found| found.trim_start().starts_with(line)), "{line} in {text}");
    }
}

/// Exit code 2, and standard error names the field, the value, the range and what to do.
#[test]
fn wrong_words() {
    let base = ["fluid", "--base", "ethylene-glycol"];
    for (words, says) in [
        (&["--glycol", "143%", "--at", "20 °C"][..], &["--glycol", "143", "0 % to", "%"][..]),
        (&["--glycol", "-3%", "--at", "20 °C"], &["--glycol", "-3", "0 % to"]),
        (&["--glycol", "half", "--at", "20 °C"], &["--glycol", "half"]),
        (&["--glycol", "nan", "--at", "20 °C"], &["--glycol", "nan"]),
        (&["--at", "500 °C"], &["--at", "500", "-40.0 °C to 130.0 °C", ";"]),
        (&["--at", "-80 °C"], &["--at", "-80", "-40.0 °C to 130.0 °C", ";"]),
        (&["--at", "20 kPa"], &["--at", "kPa", "°C"]),
        (&["--at", "20"], &["--at", "20", "°C"]),
        (&["--at", ""], &["--at"]),
        (&["--at", "20 °C", "--pressure", "0 bar"], &["--pressure", "0 ", " to ", ";"]),
        (&["--at", "20 °C", "--pressure", "-1 bar"], &["--pressure", "-", " to ", ";"]),
        (&["--at", "20 °C", "--pressure", "900 bar"], &["--pressure", "90000 kPa", " to ", ";"]),
        (&["--at", "20 °C", "--pressure", "inf bar"], &["--pressure", "inf"]),
        (&["--at", "20 °C", "--by", "weight"], &["--by", "weight", "mass", "volume"]),
        (&["--at", "20 °C", "--oil"], &["--oil"]),
        (&[], &["--at"]),
    ] {
        let all: Vec<&str> = base.iter().chain(words).copied().collect();
        let said = refused(&all, 2);
        for part in says {
            assert!(said.contains(part), "{words:?} does not say {part:?}: {said}");
        }
        let json: Vec<&str> = all.iter().chain(&["--json"]).copied().collect();
        let with_json = refused(&json, 2);
        // A complaint of the words themselves quotes them, --json among them.
        assert!(said.starts_with("error: ") || with_json == said, "{with_json}");
    }
    assert!(refused(&["fluid", "--at", "20 °C"], 2).contains("--base"));
    assert!(refused(&["fluid", "--base", "oil", "--at", "20 °C"], 2).contains("ethylene-glycol"));
}
