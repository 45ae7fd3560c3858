//! The example of a day in the README is read as it stands there.

use coldmark::file::{demo, read_project, write_project};
use coldmark::quantity::{Measured, UnitSystem, celsius};
use coldmark::study::{self, Choice as _, LegKind, Project};

fn snippet() -> String {
    let path = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("README.md");
    let text = std::fs::read_to_string(path).unwrap();
    let (_, rest) = text.split_once("<!-- day:begin -->").expect("the beginning of the example");
    let (block, _) = rest.split_once("<!-- day:end -->").expect("the end of the example");
    block.trim().strip_prefix("```toml\n").and_then(|text| text.strip_suffix("```")).expect("a block").to_owned()
}

/// The README's parts in a file that has the others.
fn whole() -> String {
    let mut project = demo();
    project.day.legs.clear();
    let without = ["[car]", "[oil]", "[heater]", "[radiator.fan]", "[day]"];
    let mut keeps = true;
    let mut text = String::new();
    for line in write_project(&project, UnitSystem::Si).lines() {
        if line.starts_with('[') {
            keeps = !without.contains(&line);
        }
        if keeps {
            text.push_str(line);
            text.push('\n');
        }
    }
    text + &snippet()
}

fn read() -> Project {
    read_project(&whole()).unwrap_or_else(|faults| {
        let all: Vec<_> = faults.iter().map(ToString::to_string).collect();
        panic!("{}", all.join("\n"))
    })
}

/// Every kind of leg is there, and every key the program writes for it.
#[test]
fn the_example_shows_every_kind_of_leg_with_its_keys() {
    let project = read();
    for kind in LegKind::ALL {
        assert!(project.day.legs.iter().any(|leg| leg.kind == *kind), "no leg '{}'", kind.word());
    }
    let shown = snippet();
    let keys = |text: &str| -> Vec<Vec<String>> {
        let legs = text.split("[[day.leg]]").skip(1);
        let key = |line: &str| line.split_once(" = ").map(|(key, _)| key.to_owned());
        legs.map(|leg| leg.lines().take_while(|line| !line.starts_with('[')).filter_map(key).collect()).collect()
    };
    let (shown, written) = (keys(&shown), keys(&write_project(&project, UnitSystem::Si)));
    assert_eq!(shown.len(), written.len());
    for (shown, written) in shown.iter().zip(&written) {
        // The gear may be left out.
        for key in written.iter().filter(|key| *key != "gear") {
            assert!(shown.contains(key), "'{key}' lacks in {shown:?}");
        }
    }
}

#[test]
fn the_example_is_a_day_that_can_be_driven() {
    let project = read();
    let fan = &project.radiator.fan;
    assert_eq!(fan.switch_on.unwrap().likely, celsius(97.0));
    assert_eq!(fan.switch_off.unwrap().likely, celsius(92.0));
    assert_eq!(project.heater.conductance.unwrap().likely.base(), 120.0);
    let day = study::day(&project).unwrap();
    assert_eq!(day.legs.len(), project.day.legs.len());
    assert!(day.drive.cut_short.is_none(), "{:?}", day.drive.cut_short);
}
