//! `coldmark answer`, in text and JSON, SI and US, with and without working.

use crate::{Scratch, told};
use coldmark::file::{PresetPart, demo, presets, write_project};
use coldmark::quantity::UnitSystem;
use coldmark::study::{self, Project};
use serde_json::{Map, Value};
use std::collections::BTreeMap;

/// The invented example, and it with every preset arrangement and every preset tank.
fn projects() -> Vec<(String, Project)> {
    let mut all = vec![("demo".to_owned(), demo())];
    for part in [PresetPart::Arrangement, PresetPart::Tank] {
        for preset in presets().of(part) {
            let mut project = demo();
            preset.apply(&mut project);
            all.push((preset.key.clone(), project));
        }
    }
    all
}

fn answer(scratch: &Scratch, project: &Project, written_in: UnitSystem, words: &[&str]) -> String {
    let path = scratch.file("project.toml", &write_project(project, written_in));
    let all: Vec<&str> = ["answer", path.to_str().unwrap()].iter().chain(words).copied().collect();
    told(&all)
}

fn json(text: &str) -> Map<String, Value> {
    serde_json::from_str(text).unwrap()
}

/// Every number by its path, with its unit. Fails on a number without a unit and on a null without a reason.
fn numbers(value: &Value, path: &str, found: &mut BTreeMap<String, (f64, String)>) {
    match value {
        Value::Object(fields) => {
            let unit = fields.get("unit").and_then(Value::as_str);
            for (key, value) in fields {
                let path = format!("{path}/{key}");
                match value {
                    Value::Number(number) => {
                        let unit = unit.unwrap_or_else(|| panic!("{path} has no unit"));
                        let number = number.as_f64().unwrap();
                        assert!(number.is_finite(), "{path}");
                        found.insert(path, (number, unit.to_owned()));
                    }
                    Value::Null => {
                        let reason = fields.get("reason").and_then(Value::as_str).unwrap_or_default();
                        assert!(reason.len() > 10, "{path} is null without a reason");
                    }
                    other => numbers(other, &path, found),
                }
            }
        }
        Value::Array(items) => {
            for (i, item) in items.iter().enumerate() {
                assert!(!item.is_number() && !item.is_null(), "{path}[{i}] stands without a unit");
                numbers(item, &format!("{path}[{i}]"), found);
            }
        }
        Value::Number(_) | Value::Null => panic!("{path} stands alone"),
        Value::String(_) | Value::Bool(_) => {}
    }
}

fn numbers_of(whole: &Map<String, Value>) -> BTreeMap<String, (f64, String)> {
    let mut found = BTreeMap::new();
    numbers(&Value::Object(whole.clone()), "", &mut found);
    found
}

/// US to SI by the factors of NIST SP 811 (2008), appendix B, written out here anew.
fn to_si(number: f64, us: &str, si: &str) -> f64 {
    match (us, si) {
        (one, other) if one == other => number,
        ("°F", "°C") => (number - 32.0) / 1.8,
        ("°F", "K") => number / 1.8,
        ("in", "mm") => number * 25.4,
        ("ft", "m") => number * 0.3048,
        ("in²", "mm²") => number * 645.16,
        ("ft²", "m²") => number * 0.092_903_04,
        ("qt", "L") => number * 0.946_352_946,
        ("fl oz", "mL") => number * 29.573_529_56,
        ("lbf", "N") => number * 4.448_221_615,
        ("lbf·in", "N·m") => number * 0.112_984_829,
        ("lbf/in", "N/mm") => number * 0.175_126_835,
        ("psi", "MPa") => number * 0.006_894_757_293,
        ("in³", "L") => number * 0.016_387_064,
        ("lb", "kg") => number * 0.453_592_37,
        ("oz", "g") => number * 28.349_523_125,
        ("psi", "kPa") => number * 6.894_757_293,
        ("inH2O", "kPa") => number * 0.249_088_91,
        ("inH2O", "Pa") => number * 249.088_91,
        ("hp", "kW") => number * 0.745_699_871_6,
        ("mph", "km/h") => number * 1.609_344,
        ("ft/s", "m/s") => number * 0.3048,
        ("gpm", "L/min") => number * 3.785_411_784,
        ("cfm", "L/min") => number * 28.316_846_592,
        ("lb/ft³", "kg/m³") => number * 16.018_463_37,
        ("Btu/(lb·°F)", "J/(kg·K)") => number * 4186.8,
        ("Btu/lb", "kJ/kg") => number * 2.326,
        ("Btu/(h·ft·°F)", "W/(m·K)") => number * 1.730_734_666,
        ("%/psi", "%/bar") => number / 0.068_947_572_93,
        ("lb/(hp·h)", "g/(kW·h)") => number * 608.277_388,
        other => panic!("no factor for {other:?}"),
    }
}

#[test]
fn every_number_has_a_unit_and_every_null_a_reason() {
    let scratch = Scratch::new();
    for (name, project) in projects() {
        let whole = json(&answer(&scratch, &project, UnitSystem::Si, &["--json", "--working"]));
        let found = numbers_of(&whole);
        assert!(found.len() > 500, "{name}: {}", found.len());
        for key in
            ["project", "remark", "program", "caution", "verdicts", "answers", "estimates_taken", "notes", "working"]
        {
            assert!(whole.contains_key(key), "{name}: {key}");
        }
        assert!(whole["verdicts"].as_object().unwrap().len() >= 6, "{name}");
        for (key, verdict) in whole["verdicts"].as_object().unwrap() {
            for field in ["state", "margin", "limit", "reason"] {
                assert!(verdict[field].as_str().is_some_and(|words| !words.is_empty()), "{name}: {key}.{field}");
            }
            let mends = matches!(verdict["state"].as_str(), Some("does_not_hold"));
            assert!(!mends || verdict.get("mend").is_some() || key == "tank_volume", "{name}: {key} has no mend");
        }
    }
}

#[test]
fn us_and_si_answers_are_the_same() {
    let scratch = Scratch::new();
    for (name, project) in projects() {
        let read = |units| {
            numbers_of(&json(&answer(&scratch, &project, UnitSystem::Si, &["--json", "--working", "--units", units])))
        };
        let (si, us) = (read("si"), read("us"));
        assert_eq!(si.keys().collect::<Vec<_>>(), us.keys().collect::<Vec<_>>(), "{name}");
        let mut converted = 0;
        for ((path, (expected, unit)), (number, us)) in si.iter().zip(us.values()) {
            let found = to_si(*number, us, unit);
            // A temperature near nought loses digits to its shift of 273.15.
            let allowed = 2e-9 * expected.abs().max(if unit == "°C" { 100.0 } else { 0.0 });
            assert!((found - expected).abs() <= allowed, "{name} {path}: {found} {unit}, expected {expected} {unit}");
            converted += usize::from(us != unit);
        }
        assert!(converted > 200, "{name}: {converted}");
    }
}

/// The same project saved in either unit system answers the same, byte for byte.
#[test]
fn files_in_us_and_si_answer_the_same() {
    let scratch = Scratch::new();
    for (name, project) in projects() {
        for words in [&["--json", "--working"][..], &["--units", "us"]] {
            let si = answer(&scratch, &project, UnitSystem::Si, words);
            let us = answer(&scratch, &project, UnitSystem::Us, words);
            assert!(si == us, "{name} {words:?}");
        }
    }
}

/// Asking for the working adds it and changes nothing else.
#[test]
fn the_working_changes_no_answer() {
    let scratch = Scratch::new();
    for (name, project) in projects() {
        let plain = json(&answer(&scratch, &project, UnitSystem::Si, &["--json"]));
        let mut worked = json(&answer(&scratch, &project, UnitSystem::Si, &["--json", "--working"]));
        let chapters = worked.remove("working").unwrap();
        let mut named = 0;
        let mut strip = |fields: &mut Value, path: &str| {
            let Some(fields) = fields.as_object_mut() else { return };
            if let Some(chapter) = fields.remove("working") {
                let chapter = chapter.as_str().unwrap();
                assert!(
                    chapters.get(chapter).is_some(),
                    "{name}: {path} names the chapter {chapter}, which is not there"
                );
                named += 1;
            }
        };
        for (section, rows) in worked["answers"].as_object_mut().unwrap() {
            for (key, value) in rows.as_object_mut().unwrap() {
                strip(value, &format!("{section}.{key}"));
            }
        }
        for (key, verdict) in worked["verdicts"].as_object_mut().unwrap() {
            strip(verdict, key);
        }
        assert!(named > 30, "{name}: {named} answers name their chapter");
        assert!(plain == worked, "{name}");
        let text = answer(&scratch, &project, UnitSystem::Si, &[]);
        let long = answer(&scratch, &project, UnitSystem::Si, &["--working"]);
        assert!(long.starts_with(&text) && long.len() > 2 * text.len(), "{name}");
    }
}

/// Every step of the working shows an equation, what was put in and what came out, and its source.
#[test]
fn steps_show_equation_numbers_result_and_source() {
    let scratch = Scratch::new();
    let whole = json(&answer(&scratch, &demo(), UnitSystem::Si, &["--json", "--working"]));
    let text = answer(&scratch, &demo(), UnitSystem::Si, &["--working"]);
    let mut steps = 0;
    for (key, chapter) in whole["working"].as_object().unwrap() {
        assert!(text.contains(chapter["title"].as_str().unwrap()), "{key}");
        for step in chapter["steps"].as_array().unwrap() {
            for field in ["meaning", "symbol", "equation", "source", "standing"] {
                assert!(
                    step[field].as_str().is_some_and(|words| !words.is_empty()),
                    "{key}: {field} of {}",
                    step["meaning"]
                );
            }
            assert!(
                step["result"]["value"].is_number() && step["result"]["unit"].is_string(),
                "{key}: {}",
                step["meaning"]
            );
            assert!(step["numbers"].as_array().unwrap().iter().all(|one| one["is"]["value"].is_number()), "{key}");
            assert!(text.contains(step["equation"].as_str().unwrap()), "{key}: {}", step["equation"]);
            steps += 1;
        }
    }
    assert!(steps > 100, "{steps}");
}

/// The text says every answer, in the units asked for and no others.
#[test]
fn the_text_says_every_answer() {
    let scratch = Scratch::new();
    let project = demo();
    let answers = study::answer(&project).unwrap();
    for (units, word) in [(UnitSystem::Si, "si"), (UnitSystem::Us, "us")] {
        let text = answer(&scratch, &project, UnitSystem::Si, &["--units", word]);
        for section in answers.sections() {
            let start = text.find(&format!("\n{}\n", section.title)).unwrap_or_else(|| panic!("no {}", section.title));
            for row in &section.rows {
                let line = text[start..].lines().find(|line| line.trim_start().starts_with(&row.label));
                let line = line.unwrap_or_else(|| panic!("no line for {}", row.label));
                let shown = line.trim_start().strip_prefix(&row.label).unwrap().trim();
                assert_eq!(shown, row.value.show(units), "{}", row.label);
                let foreign: &[&str] = if word == "si" {
                    &["psi", "°F", " qt", " in", "cfm"]
                } else {
                    &["kPa", "°C", " L", " mm", "km/h", " kW"]
                };
                for unit in foreign {
                    assert!(!shown.ends_with(unit) || shown.ends_with("L/min"), "{}: {shown}", row.label);
                }
            }
        }
        for verdict in &answers.verdicts {
            for sentence in [Some(&verdict.margin), Some(&verdict.limit), Some(&verdict.reason), verdict.mend.as_ref()]
            {
                assert!(sentence.is_none_or(|sentence| text.contains(&sentence.show(units))), "{}", verdict.key);
            }
        }
        assert!(text.contains("Caution: these are estimates."));
    }
}

/// Every verdict with its mend and every note, and none of the rows.
#[test]
fn the_short_text_leaves_out_the_figures_alone() {
    let scratch = Scratch::new();
    let project = demo();
    let (whole, short) =
        (answer(&scratch, &project, UnitSystem::Si, &[]), answer(&scratch, &project, UnitSystem::Si, &["--short"]));
    let answers = study::answer(&project).unwrap();
    for verdict in &answers.verdicts {
        assert!(short.contains(&verdict.reason.show(UnitSystem::Si)), "{}", verdict.key);
        let mend = verdict.mend.as_ref().map(|mend| mend.show(UnitSystem::Si));
        assert!(mend.is_none_or(|mend| short.contains(&mend)), "{}", verdict.key);
    }
    assert!(answers.notes.iter().all(|note| short.contains(&note.text)));
    assert!(whole.contains("Smallest hole for a warm-up") && !short.contains("Smallest hole for a warm-up"));
    assert!(short.lines().all(|line| whole.contains(line)));
}
