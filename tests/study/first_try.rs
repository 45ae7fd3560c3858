//! What a first try at one's own car met: each once told wrongly, or not at all.

use crate::build::{answered, known, millimetres};
use coldmark::file::{PresetPart, demo, presets};
use coldmark::quantity::UnitSystem::Si;
use coldmark::quantity::celsius;
use coldmark::study::{self, Answers, Duty, Project, Section, State, Value, Verdict};

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
    let (strong, cold) = (idle(&project, -5.0), idle(&project, -15.0));
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

/// A full throttle that boils for good.
fn boils() -> Project {
    let mut project = demo();
    project.radiator.conductance = known(700.0);
    project
}

fn row<'a>(section: &'a Section, key: &str) -> Option<&'a Value> {
    section.rows.iter().find(|row| row.key == key).map(|row| &row.value)
}

fn verdict<'a>(answers: &'a Answers, key: &str) -> &'a Verdict {
    answers.verdict(key).unwrap()
}

/// One duty with oil hotter than moisture is known for says so itself, and what to do; the trips and the other duties stay.
#[test]
fn one_hot_duty_does_not_silence_the_moisture() {
    let mut project = demo();
    project.oil.sump_driving = known(1.0);
    project.oil.sump_still = known(1.0);
    let mut hot = None;
    // The block takes less and less of the oil's heat.
    for step in 0..60 {
        let mut tried = project.clone();
        tried.oil.block = known(600.0 * 0.94_f64.powi(step));
        let answers = answered(&tried);
        let unknown: Vec<_> =
            Duty::ALL.into_iter().filter(|duty| answers.moisture.warm[duty.index()].is_err()).collect();
        if unknown == [Duty::FullThrottle] {
            hot = Some(answers);
            break;
        }
    }
    let answers = hot.expect("no conductance makes full throttle alone too hot");
    let why = answers.moisture.warm[Duty::FullThrottle.index()].as_ref().unwrap_err();
    assert!(why.starts_with("Full throttle: ") && why.contains("150.0 °C") && why.contains("oil cooler"), "{why}");
    assert!(answers.moisture.trips.iter().all(Result::is_ok));
    let verdict = verdict(&answers, "moisture");
    assert_ne!(verdict.state, State::NotKnown, "{}", verdict.margin.show(Si));
    // Nor does it silence the comparison of thermostats.
    let fitted = answers.set_points.iter().find(|row| row.fitted).unwrap();
    assert!(fitted.moisture.warm_margin().is_some() && fitted.moisture.trip_margin.is_ok());
}

/// Where it boils, the volume wanted is no figure anywhere.
#[test]
fn the_volume_wanted_is_told_alike() {
    for (project, boiling) in [(demo(), false), (boils(), true)] {
        let answers = answered(&project);
        assert_eq!(answers.boils(), boiling);
        let limit = verdict(&answers, "tank_volume").limit.show(Si);
        let section = answers.sections_of(study::Part::Tank).into_iter().find(|one| one.key == "tank").unwrap();
        let told = row(&section, "wanted").unwrap().show(Si);
        assert!(limit.contains(&told), "{limit} | {told}");
        assert_eq!(told.contains("not given"), boiling, "{told}");
    }
}

/// No hole makes up for an engine that boils for good, and none is drilled that the lid has no room for.
#[test]
fn no_hole_is_asked_for_that_mends_nothing() {
    let mend = |project: &Project| verdict(&answered(project), "tank_vent").mend.clone().unwrap().show(Si);
    let boiling = mend(&boils());
    assert!(boiling.starts_with("stop the boiling first (") && boiling.contains("see the radiator"), "{boiling}");
    let mut sealed = boils();
    sealed.tank.vent = study::VentKind::Sealed;
    let sealed = mend(&sealed);
    assert!(sealed.starts_with("stop the boiling first") && sealed.contains("drill a vent of 3 mm"), "{sealed}");
    // It does not boil, but steam of a hot stop asks for more than a quarter of a narrow lid.
    let mut narrow = demo();
    narrow.tank.shape = study::ShapeKind::Box;
    (narrow.tank.length, narrow.tank.width) = (millimetres(400.0), millimetres(30.0));
    narrow.tank.vent_diameter = millimetres(3.0);
    narrow.tank.hose_bore = millimetres(11.0);
    let told = mend(&narrow);
    assert!(!answered(&narrow).boils() && told.contains("no hole for this lid"), "{told}");
    narrow.tank.width = millimetres(120.0);
    let told = mend(&narrow);
    assert!(told.starts_with("a vent of "), "{told}");
}

/// Thermostats are weighed against the fitted one: the next and the farthest to either side, those there are.
#[test]
fn thermostats_are_compared_with_the_fitted_one() {
    let told = |at: f64| {
        let mut project = demo();
        project.thermostat.set_point = celsius(at);
        // Oil that a cool thermostat never gets quite warm.
        project.oil.warm = known(80.0 + 273.15);
        let section = answered(&project).set_point_comparison();
        let words = |key: &str| row(&section, key).map(|value| value.show(Si));
        (words("cooler_costs"), words("warmer_costs"))
    };
    let (cooler, warmer) = told(88.0);
    let (cooler, warmer) = (cooler.unwrap(), warmer.unwrap());
    assert!(cooler.starts_with("Beside the fitted 88.0 °C, 82"), "{cooler}");
    assert!(cooler.contains(" 71") && cooler.matches("from the dew point").count() == 2, "{cooler}");
    assert!(warmer.starts_with("Beside the fitted 88.0 °C, 91"), "{warmer}");
    let (coolest, warmest) = (told(71.0), told(91.0));
    assert!(coolest.0.is_none() && coolest.1.is_some());
    assert!(warmest.0.is_some() && warmest.1.is_none());
}

/// Oil that does not get warm is told by where it stays, with the line it is held against.
#[test]
fn oil_that_never_gets_warm_is_told_by_where_it_stays() {
    let mut project = demo();
    project.oil.warm = known(105.0 + 273.15);
    let section = answered(&project).set_point_comparison();
    let cooler = row(&section, "cooler_costs").unwrap().show(Si);
    let line = row(&section, "warm_oil_line").unwrap().show(Si);
    assert!(cooler.contains("never quite gets there: it stays at ") && !cooler.contains("for ever"), "{cooler}");
    assert!(line.contains("105") && line.contains("may be set"), "{line}");
}
