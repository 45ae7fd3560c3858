//! `coldmark check`: all faults at once, on standard error.

use crate::{Scratch, refused, told};
use coldmark::file::{demo, write_project};
use coldmark::quantity::UnitSystem;

#[test]
fn a_sound_file_passes() {
    let scratch = Scratch::new();
    let path = scratch.file("car.toml", &write_project(&demo(), UnitSystem::Us));
    let text = told(&["check", path.to_str().unwrap()]);
    assert!(text.contains("no faults") && text.contains(&demo().title), "{text}");
}

/// Five faults of five sorts: each named with its line, none hides another.
#[test]
fn every_fault_is_told() {
    let scratch = Scratch::new();
    let mut text = write_project(&demo(), UnitSystem::Si);
    for (from, to) in [
        ("hottest = \"36 °C\"", "hottest = \"95 °C\""),
        ("bore = \"100 mm\"", "bore = \"100 kPa\""),
        ("cylinders = 8", "cylinders = \"eight\""),
        ("vent = \"hole\"", "vent = \"chimney\""),
        ("[cap]", "[cap]\ncolour = \"red\""),
    ] {
        assert_eq!(text.matches(from).count(), 1, "{from}");
        text = text.replace(from, to);
    }
    let path = scratch.file("faulty.toml", &text);
    let path = path.to_str().unwrap();
    let said = refused(&["check", path], 3);
    let line = |part: &str| text.lines().position(|line| line.contains(part)).unwrap() + 1;
    for (place, path, says) in [
        ("= \"95 °C", "surroundings.hottest", "95 °C, outside 0.0 °C to 55.0 °C"),
        ("100 kPa", "engine.bore", "kPa"),
        ("\"eight\"", "engine.cylinders", "whole number from 1 to 16"),
        ("chimney", "tank.vent", "chimney"),
        ("colour = ", "cap.colour", "colour"),
    ] {
        let number = format!("line {}:", line(place));
        let found = said.lines().find(|line| line.contains(&number));
        let found = found.unwrap_or_else(|| panic!("no fault of {number} in\n{said}"));
        assert!(found.contains(path) && found.contains(says), "{found}");
    }
    // The same faults stop an answer, with the same code.
    assert_eq!(refused(&["answer", path, "--json"], 3), said);
}

/// What no single range can tell is found as well.
#[test]
fn faults_between_inputs() {
    let scratch = Scratch::new();
    let text = write_project(&demo(), UnitSystem::Si).replace("coldest = \"-15 °C\"", "coldest = \"25 °C\"");
    let path = scratch.file("faulty.toml", &text);
    let said = refused(&["check", path.to_str().unwrap()], 3);
    assert!(said.contains("surroundings.coldest") && said.contains("coldest start"), "{said}");
}

#[test]
fn no_project_at_all() {
    let scratch = Scratch::new();
    let folder = scratch.folder.path().to_str().unwrap().to_owned();
    let missing = format!("{folder}/none.toml");
    for command in ["check", "answer"] {
        let said = refused(&[command, &missing], 1);
        assert!(said.contains("none.toml"), "{said}");
        refused(&[command, &folder], 1);
        let broken = scratch.file("broken.toml", "this is = = no project");
        assert!(refused(&[command, broken.to_str().unwrap()], 3).contains("line 1"));
        let empty = scratch.file("empty.toml", "");
        refused(&[command, empty.to_str().unwrap()], 3);
        refused(&[command], 2);
    }
}
