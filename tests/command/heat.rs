//! `coldmark heat`: a table that a spreadsheet reads.

use crate::{Scratch, coldmark, for_a_spreadsheet, refused, table};
use coldmark::file::{demo, write_project};
use coldmark::quantity::{UnitSystem, in_celsius};
use coldmark::study::{self, Duty};

#[test]
fn the_table_has_every_duty_and_set_point() {
    let scratch = Scratch::new();
    let file = scratch.file("demo.toml", &write_project(&demo(), UnitSystem::Si));
    let file = file.to_str().unwrap();
    let (head, rows, said) = table(&["heat", file]);
    assert_eq!((&head[1], &head[5]), ("road speed (km/h)", "coolant (°C)"));
    let curves = study::heat_curves(&demo()).unwrap();
    let points = curves.duties.iter().flat_map(|duty| &duty.set_points).map(|curve| curve.points.len());
    assert_eq!(rows.len(), points.sum::<usize>());
    for row in &rows {
        assert_eq!(row.len(), head.len());
        for_a_spreadsheet(row);
        // Where it boils, and nowhere else, there is no temperature.
        assert_eq!(row[5].is_empty(), &row[6] == "boils", "{row:?}");
    }
    // The air the fitted one holds is a row of its own.
    let fitted = curves.of(Duty::FullThrottle).unwrap().fitted().unwrap();
    let held = format!("{:.5}", in_celsius(fitted.holds_to.unwrap()));
    let kink = rows.iter().find(|row| &row[0] == "full throttle" && &row[3] == "yes" && row[4] == held).unwrap();
    assert_eq!(&kink[6], "thermostat");
    for words in ["Caution", "On the level", "Climbing", "of full throttle in reserve", "hottest day"] {
        assert!(said.contains(words), "{words}: {said}");
    }
}

#[test]
fn one_duty_in_the_other_units() {
    let scratch = Scratch::new();
    let file = scratch.file("demo.toml", &write_project(&demo(), UnitSystem::Si));
    let file = file.to_str().unwrap();
    let (_, si, _) = table(&["heat", file, "--duty", "hill"]);
    let (head, us, said) = table(&["heat", file, "--duty", "hill", "--units", "us"]);
    assert_eq!((&head[1], &head[5]), ("road speed (mph)", "coolant (°F)"));
    assert_eq!(si.len(), us.len());
    for (si, us) in si.iter().zip(&us) {
        assert_eq!((&si[0], &us[0]), ("hill", "hill"));
        let (celsius, fahrenheit) = (si[4].parse::<f64>().unwrap(), us[4].parse::<f64>().unwrap());
        assert!((celsius * 1.8 + 32.0 - fahrenheit).abs() < 1e-4);
    }
    assert!(said.contains("On a hill (") && said.contains("mph") && !said.contains("At idle"), "{said}");
}

#[test]
fn wrong_words_are_refused() {
    let scratch = Scratch::new();
    let file = scratch.file("demo.toml", &write_project(&demo(), UnitSystem::Si));
    let file = file.to_str().unwrap();
    assert!(refused(&["heat", file, "--duty", "racing"], 2).contains("full_throttle"));
    refused(&["heat", file, "--units", "metres"], 2);
    refused(&["heat", "no-such-file.toml"], 1);
    let broken = scratch.file("broken.toml", "coldmark = 1\n[engine]\nbore = \"9 m\"\n");
    refused(&["heat", broken.to_str().unwrap()], 3);
}

/// The answers as JSON have the set-points' new columns.
#[test]
fn the_answers_tell_what_every_set_point_holds() {
    let scratch = Scratch::new();
    let file = scratch.file("demo.toml", &write_project(&demo(), UnitSystem::Si));
    let output = coldmark(&["answer", file.to_str().unwrap(), "--json"]);
    let text = String::from_utf8(output.stdout).unwrap();
    let fitted = study::answer(&demo()).unwrap();
    assert!(fitted.set_points.iter().any(|row| row.fitted));
    for key in ["full_throttle_holds_to", "hill_boils_above", "idle_spare", "cold_mark", "cooler_costs", "warmer_costs"]
    {
        assert!(text.contains(&format!("\"{key}\"")), "{key}");
    }
}
