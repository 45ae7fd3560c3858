//! `coldmark map`: a table that a spreadsheet reads.

use crate::{Scratch, for_a_spreadsheet, refused, table};
use coldmark::file::{demo, write_project};
use coldmark::quantity::UnitSystem;
use coldmark::study::{self, CanPlace, Duty, VentilationArrangement};

fn number(record: &csv::StringRecord, column: usize) -> f64 {
    record[column].parse().unwrap()
}

#[test]
fn the_table_has_every_place_once() {
    let scratch = Scratch::new();
    let file = scratch.file("demo.toml", &write_project(&demo(), UnitSystem::Si));
    let file = file.to_str().unwrap();
    let (head, rows, said) = table(&["map", file, "--rpm-steps", "5", "--pressure-steps", "7"]);
    assert_eq!(rows.len(), 35);
    assert_eq!(&head[0], "engine speed (rpm)");
    let answers = study::answer(&demo()).unwrap();
    let overrun = &answers.duties[Duty::Overrun.index()];
    assert!((number(&rows[0], 1) - overrun.manifold.above_vacuum().value / 1e3).abs() < 1e-4);
    assert!((number(&rows[0], 4) - overrun.likely().gauge.above_ambient().value / 1e3).abs() < 1e-4);
    for row in &rows {
        assert_eq!(row.len(), head.len());
        for_a_spreadsheet(row);
    }
    assert!(said.contains("turns round") && said.contains("Caution"), "{said}");
    let (head, us, _) = table(&["map", file, "--rpm-steps", "5", "--pressure-steps", "7", "--units", "us"]);
    assert!(head.iter().any(|name| name.contains("inH2O")), "{head:?}");
    assert!((number(&us[0], 4) / number(&rows[0], 4) - 4.0147).abs() < 1e-2);
}

#[test]
fn places_without_an_answer_have_no_numbers() {
    let scratch = Scratch::new();
    let mut project = demo();
    project.ventilation.arrangement = VentilationArrangement::ValveOnly;
    project.ventilation.can.place = CanPlace::None;
    let file = scratch.file("sealed.toml", &write_project(&project, UnitSystem::Si));
    let (_, rows, _) = table(&["map", file.to_str().unwrap(), "--rpm-steps", "3", "--pressure-steps", "20"]);
    for row in &rows {
        let told = ["out of range", "no way out", "not found"].contains(&&row[12]);
        assert_eq!(row[4].is_empty(), told, "{row:?}");
        // No breather, no flow through it.
        assert_eq!(&row[7], "");
    }
}

#[test]
fn wrong_words_are_refused() {
    let scratch = Scratch::new();
    let file = scratch.file("demo.toml", &write_project(&demo(), UnitSystem::Si));
    let file = file.to_str().unwrap();
    assert!(refused(&["map", file, "--rpm-steps", "1"], 2).contains("2 to 400"));
    assert!(refused(&["map", file, "--pressure-steps", "many"], 2).contains("2 to 400"));
    refused(&["map", "no-such-file.toml"], 1);
    let broken = scratch.file("broken.toml", "coldmark = 1\n[engine]\nbore = \"9 m\"\n");
    refused(&["map", broken.to_str().unwrap()], 3);
}
