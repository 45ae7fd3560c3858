//! What a first try at one's own car met: each once told wrongly, or not at all.

use crate::build::{answered, known};
use coldmark::file::{PresetPart, demo, presets};
use coldmark::quantity::celsius;
use coldmark::study::{self, Answers, Duty, Project};

/// A demo car with an electric fan on a switch.
fn switched(on: f64, off: f64) -> Project {
    let mut project = demo();
    presets().of(PresetPart::Fan).find(|preset| preset.key == "electric-single-350").unwrap().apply(&mut project);
    project.radiator.fan.switch_on = known(on + 273.15);
    project.radiator.fan.switch_off = known(off + 273.15);
    project
}

fn said<'a>(answers: &'a Answers, key: &str) -> Option<&'a str> {
    answers.notes.iter().find(|note| note.key == key).map(|note| note.text.as_str())
}

/// With the fan off and the car standing the radiator draws its own air: colder air makes a cooler coolant, and no idle hangs
/// at the fan's switch in all air alike.
#[test]
fn a_standing_car_with_its_fan_off_cools_by_its_own_draught() {
    let mut project = switched(96.0, 90.0);
    project.thermostat.set_point = celsius(71.0);
    let idle = |project: &Project, air: f64| {
        let curves = study::heat_curves(project).unwrap();
        let curve = curves.of(Duty::Idle).unwrap();
        let fitted = curve.set_points.iter().find(|one| one.fitted).unwrap();
        let point = fitted.points.iter().min_by(|a, b| {
            let off = |point: &study::HeatPoint| (point.ambient.value - 273.15 - air).abs();
            off(a).total_cmp(&off(b))
        });
        point.unwrap().outlet.unwrap().value - 273.15
    };
    project.radiator.draught = known(0.3);
    let (strong, cold) = (idle(&project, 5.0), idle(&project, -5.0));
    assert!(cold < strong - 5.0 && strong < 93.0, "{cold} {strong}");
    // Left out, it hangs at the switch in any air.
    project.radiator.draught = known(0.0);
    let without = idle(&project, -20.0);
    assert!((without - 96.0).abs() < 0.01, "{without}");
    // Where the fan runs on, the draught is next to nothing.
    let outlets = |draught: f64| {
        let mut project = demo();
        project.radiator.draught = known(draught);
        answered(&project).duties.map(|duty| duty.outlet.value)
    };
    for (with, without) in outlets(0.15).into_iter().zip(outlets(0.0)) {
        assert!((with - without).abs() < 0.2 && with <= without + 1e-9, "{with} {without}");
    }
    // And it is told as what it is: an estimate in the working.
    let told = study::answer_with_working(&project).unwrap();
    assert!(told.working.iter().flat_map(|chapter| &chapter.steps).any(|step| step.equation.contains("v_draught")));
}

/// Set just above the thermostat it goes off; at it, it does not, and both temperatures are named.
#[test]
fn a_fan_that_hardly_goes_off_is_told() {
    let mut project = switched(92.0, 87.0);
    project.thermostat.set_point = celsius(88.0);
    let answers = answered(&project);
    let note = said(&answers, "fan-hardly-goes-off").unwrap();
    assert!(note.contains("87.0 °C") && note.contains("88.0 °C") && note.contains("hardly ever goes off"), "{note}");
    project.thermostat.set_point = celsius(82.0);
    assert_eq!(said(&answered(&project), "fan-hardly-goes-off"), None);
    // A fan that is not switched has nothing to go off at.
    assert_eq!(said(&answered(&demo()), "fan-hardly-goes-off"), None);
}
