//! `coldmark day`: told, as JSON, and as a table.

use crate::{Scratch, coldmark, refused, told};
use coldmark::file::{demo, write_project};
use coldmark::quantity::UnitSystem;
use coldmark::study;

fn example(scratch: &Scratch) -> String {
    let file = scratch.file("demo.toml", &write_project(&demo(), UnitSystem::Si));
    file.to_str().unwrap().to_owned()
}

#[test]
fn a_day_is_told() {
    let scratch = Scratch::new();
    let text = told(&["day", &example(&scratch)]);
    let headings =
        ["The day, leg by leg", "The worst of the day", "What happened", "How well the books close", "What holds"];
    for heading in headings {
        assert!(text.contains(heading), "{heading} in {text}");
    }
    assert!(text.contains("Caution") && text.contains("the thermostat begins to open") && !text.contains("NaN"));
    let us = told(&["day", &example(&scratch), "--units", "us"]);
    // A leg keeps the name it has.
    assert!(us.contains("°F") && us.contains(" qt") && !us.contains(" kPa"));
}

#[test]
fn json_holds_events_series_and_verdicts() {
    let scratch = Scratch::new();
    let json: serde_json::Value = serde_json::from_str(&told(&["day", &example(&scratch), "--json"])).unwrap();
    let day = study::day(&demo()).unwrap();
    assert_eq!(json["events"].as_array().unwrap().len(), day.drive.events.len());
    assert_eq!(json["events"][0]["kind"], "engine_starts");
    assert_eq!(json["series"]["coolant"]["unit"], "°C");
    assert_eq!(json["series"]["coolant"]["values"].as_array().unwrap().len(), day.drive.samples.len());
    assert_eq!(json["series"]["time"]["values"][0], 0.0);
    for key in ["tank_volume", "boiling", "cooling", "hot_stop", "crankcase_pressure"] {
        let state = json["verdicts"][key]["state"].as_str();
        assert!(state.is_some() || key == "crankcase_pressure", "{key}");
    }
    let hottest = &json["extremes"]["hottest_coolant"];
    assert!(hottest["likely"]["is"]["value"].as_f64().unwrap() > 70.0);
    assert!(hottest["unfavourable"]["time"].as_f64().unwrap() > 0.0);
    assert!(json["caution"].as_str().unwrap().contains("cold to the hand"));
}

#[test]
fn the_table_has_every_sample_once() {
    let scratch = Scratch::new();
    let output = coldmark(&["day", &example(&scratch), "--csv"]);
    let said = String::from_utf8(output.stderr).unwrap();
    assert_eq!(output.status.code(), Some(0), "{said}");
    assert!(said.contains("Caution") && said.contains("The tank"), "{said}");
    let mut reader = csv::Reader::from_reader(output.stdout.as_slice());
    let head = reader.headers().unwrap().clone();
    assert_eq!(&head[0], "time (s)");
    assert!(head.iter().any(|name| name == "coolant at the engine (°C)"), "{head:?}");
    let rows: Vec<csv::StringRecord> = reader.records().collect::<Result<_, _>>().unwrap();
    assert_eq!(rows.len(), study::day(&demo()).unwrap().drive.samples.len());
    let mut before = f64::NEG_INFINITY;
    for row in &rows {
        for field in row {
            assert!(field.is_empty() || field.parse::<f64>().is_ok_and(f64::is_finite), "{field}");
        }
        let time: f64 = row[0].parse().unwrap();
        assert!(time >= before);
        before = time;
    }
}

#[test]
fn wrong_words_are_refused() {
    let scratch = Scratch::new();
    let file = example(&scratch);
    refused(&["day", &file, "--csv", "--json"], 2);
    refused(&["day", "no-such-file.toml"], 1);
    let broken = scratch.file("broken.toml", "coldmark = 1\n[engine]\nbore = \"9 m\"\n");
    refused(&["day", broken.to_str().unwrap()], 3);
}

/// A picture of a time that the day does not have is refused before a window opens: what was asked, how long the day is.
#[test]
fn a_picture_after_the_end_of_the_day_is_refused() {
    let scratch = Scratch::new();
    let mut project = demo();
    project.day.legs.truncate(0);
    let end = study::clock(study::day_lasts(&project).unwrap());
    let file = scratch.file("demo.toml", &write_project(&project, UnitSystem::Si));
    let picture = scratch.file("day.png", "");
    let picture = picture.to_str().unwrap();
    let said = refused(&["--picture", picture, "--day", "48:00", file.to_str().unwrap()], 2);
    assert!(said.contains("48:00") && said.contains(&format!("which lasts {end}")), "{said}");
    let said = refused(&["--picture", picture, "--day", "98:59"], 2);
    assert!(said.contains("98:59") && said.contains("end of the day"), "{said}");
    assert_eq!(std::fs::read(picture).unwrap(), b"", "no picture was to be taken");
}
