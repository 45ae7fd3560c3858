//! Parts and inputs that a file may lack.

use coldmark::file::{demo, read_project, write_project};
use coldmark::quantity::{Measured, UnitSystem};
use coldmark::study::{CanPlace, CoverLayers, LeakTrial};

fn sound() -> String {
    let path = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/files/faults/sound.toml");
    std::fs::read_to_string(path).unwrap()
}

/// A file from before the part was known.
#[test]
fn a_file_without_the_part_is_read_and_written_without_it() {
    let text = sound();
    assert!(!text.contains("cover_joint"));
    let project = read_project(&text).unwrap();
    assert!(!project.cover_joint.known);
    assert!(!write_project(&project, UnitSystem::Si).contains("cover_joint"));
}

#[test]
fn the_part_is_written_and_read_back_the_same() {
    let mut project = demo();
    project.cover_joint.known = true;
    project.cover_joint.layers = CoverLayers::TwoGaskets;
    project.cover_joint.trial = LeakTrial::Stopped;
    for units in [UnitSystem::Si, UnitSystem::Us] {
        let text = write_project(&project, units);
        assert!(text.contains("\n[cover_joint]\n") && text.contains("\n[cover_joint.trial]\n"), "{text}");
        assert!(!text.contains("\nknown ="));
        assert_eq!(read_project(&text).unwrap().cover_joint, project.cover_joint);
    }
}

/// The part is there or not; half of it is a fault with its line.
#[test]
fn half_the_part_is_told() {
    let whole = write_project(&demo(), UnitSystem::Si);
    let length = whole.lines().find(|line| line.starts_with("screw_length = ")).unwrap();
    let text = whole.replace(&format!("{length}\n"), "").replace("[cover_joint]\n", "[cover_joint]\nknown = true\n");
    let faults = read_project(&text).unwrap_err();
    assert_eq!(faults.len(), 2, "{faults:?}");
    let line = text.lines().position(|line| line == "[cover_joint]").unwrap() + 1;
    let known = faults.iter().find(|fault| fault.path == "cover_joint.known").unwrap();
    assert_eq!(known.line, Some(line + 1));
    assert!(known.message.contains("not an input of this place"), "{known}");
    let length = faults.iter().find(|fault| fault.path == "cover_joint.screw_length").unwrap();
    assert_eq!(length.line, Some(line));
    assert!(length.message.contains("Screw length is missing"), "{length}");
    // A word near the right one is understood.
    let near = read_project(&format!("{}\n[cover_joints]\n", sound())).unwrap_err();
    assert!(near[0].message.contains("did you mean 'cover_joint'?"), "{}", near[0]);
}

/// A can from before its volume was asked for is read; one whose volume is known asks for the rest.
#[test]
fn a_can_may_lack_its_volume() {
    let mut project = demo();
    project.ventilation.can.place = CanPlace::BreatherLine;
    let text = write_project(&project, UnitSystem::Si);
    assert!(!text.contains("mean_speed"));
    assert_eq!(read_project(&text).unwrap().ventilation.can.volume, None);
    project.ventilation.can.volume = Some(Measured::from_base(0.8e-3));
    project.ventilation.can.drains = true;
    project.ventilation.can.service = Measured::from_base(5000.0 * 1609.344);
    for units in [UnitSystem::Si, UnitSystem::Us] {
        let text = write_project(&project, units);
        assert_eq!(read_project(&text).unwrap().ventilation, project.ventilation);
        let without = text.lines().filter(|line| !line.starts_with("mean_speed = ")).collect::<Vec<_>>().join("\n");
        let faults = read_project(&without).unwrap_err();
        assert!(faults[0].path == "ventilation.catch_can.mean_speed" && faults.len() == 1, "{faults:?}");
    }
}

/// A file from before port, bench and mixture were asked for is read with the usual ones.
#[test]
fn a_file_may_lack_later_choices() {
    use coldmark::study::{Bench, EngineFuel, Induction, PortPlace, ValveKind};
    let mut project = demo();
    project.ventilation.valve.kind = ValveKind::Table;
    let text = write_project(&project, UnitSystem::Si);
    let later = ["port = ", "bench = ", "mixture = ", "fuel = ", "induction = "];
    assert!(later.iter().all(|key| text.lines().any(|line| line.starts_with(key))), "{text}");
    let keeps = |line: &&str| !later.iter().any(|key| line.starts_with(key));
    let before = text.lines().filter(keeps).collect::<Vec<_>>().join("\n");
    let read = read_project(&before).unwrap();
    assert_eq!(read, project);
    assert_eq!(read.ventilation.valve.port.place, PortPlace::Plenum);
    assert_eq!(read.ventilation.valve.bench.read, Bench::Flow);
    assert_eq!(read.engine.mixture, coldmark::crankcase::mixture::FuelSystem::Carburettor);
    assert_eq!((read.engine.fuel, read.engine.induction), (EngineFuel::Petrol, Induction::Natural));
    // A wrong word is a fault all the same.
    let faults = read_project(&text.replace("port = \"plenum\"", "port = \"plenem\"")).unwrap_err();
    assert!(faults[0].path == "ventilation.valve.port" && faults[0].message.contains("no choice"), "{faults:?}");
}

/// A file from before elbows, loads and sources were asked for: they are what a blank project has. What hangs on a choice is
/// asked for once it is made.
#[test]
fn lines_may_lack_what_came_later() {
    let text = sound();
    assert!(!text.contains("elbows") && !text.contains("known_from = \"figures\""));
    let project = read_project(&text).unwrap();
    let blank = coldmark::study::Project::blank().ventilation;
    assert_eq!((project.ventilation.breather.elbows, project.ventilation.source), (0, blank.source));
    assert_eq!(project.ventilation.element, blank.element);
    assert!(!project.ventilation.crossover.known && !project.ventilation.mesh.known);
    let component = text.replace("barb = \"13 mm\"", "barb = \"13 mm\"\ninline = \"component\"\ncritical_ratio = 0.3");
    let faults = read_project(&component).unwrap_err();
    assert!(faults.len() == 1 && faults[0].path == "ventilation.breather.conductance", "{faults:?}");
}

/// Who has made no leak-down test has no tester to describe; who has is asked for it.
#[test]
fn the_tester_is_asked_for_with_its_readings() {
    let text = write_project(&demo(), UnitSystem::Si);
    let keeps = |line: &&str| !["restrictor = ", "supply = "].iter().any(|key| line.starts_with(key));
    let without = text.lines().filter(keeps).collect::<Vec<_>>().join("\n");
    let faults = read_project(&without).unwrap_err();
    assert_eq!(faults.len(), 2, "{faults:?}");
    let untested: String = without.lines().filter(|line| !line.starts_with("leak_down")).collect::<Vec<_>>().join("\n");
    assert!(read_project(&untested).unwrap().blow_by.leak_down.is_empty());
}

/// "none" says in a project what it says in a preset: not there, or not known.
#[test]
fn none_is_as_good_as_leaving_a_line_out() {
    let text = write_project(&demo(), UnitSystem::Si);
    // How many there are is not asked without one.
    let text = text.lines().filter(|line| !line.starts_with("barbs = ")).collect::<Vec<_>>().join("\n");
    let of = |line: &str| ["barb = ", "ring_share = "].into_iter().find(|key| line.starts_with(key));
    assert_eq!(text.lines().filter(|line| of(line).is_some()).count(), 2);
    let without = text.lines().filter(|line| of(line).is_none()).collect::<Vec<_>>().join("\n");
    let none = |line| of(line).map_or_else(|| String::from(line), |key| format!("{key}\"none\""));
    let none = text.lines().map(none).collect::<Vec<_>>().join("\n");
    assert_eq!(read_project(&none).unwrap(), read_project(&without).unwrap());
    // What must be known cannot be none.
    let bore = text.replacen("bore = \"16 mm\"", "bore = \"none\"", 1);
    assert!(read_project(&bore).is_err());
}

/// A file from before the day through time has the usual car and the usual day, and says no more when it is written again.
#[test]
fn a_file_may_lack_car_and_day() {
    use coldmark::study::{Project, course, usual_day};
    let text = sound();
    assert!(!text.contains("[car]") && !text.contains("[day]"));
    let project = read_project(&text).unwrap();
    assert_eq!((&project.car, &project.day), (&Project::blank().car, &Project::blank().day));
    assert_eq!(course(&project).unwrap().0.len(), usual_day(&project).unwrap().len());
    let again = write_project(&project, UnitSystem::Si);
    assert!(again.contains("\n[car]\n") && again.contains("\n[day]\ntime_step = \"5 s\"\n"), "{again}");
    assert_eq!(read_project(&again).unwrap(), project);
}

/// A leg that is there is there whole, though its part may be lacking.
#[test]
fn half_a_leg_is_told() {
    let whole = write_project(&demo(), UnitSystem::Si);
    let text = whole.replacen("height = \"700 m\"\n", "", 1);
    assert_ne!(text, whole);
    let faults = read_project(&text).unwrap_err();
    assert_eq!(faults.len(), 1, "{faults:?}");
    assert_eq!(faults[0].path, "day.leg[6].height");
    assert!(faults[0].message.contains("Height climbed is missing; add a length or height"), "{}", faults[0]);
    let odd = whole.replacen("repeats = 2", "repeats = 2\nlasts = \"5 min\"", 1);
    let faults = read_project(&odd).unwrap_err();
    assert!(faults[0].message.contains("not asked for with kind = \"trace\""), "{}", faults[0]);
}

/// A file from before oil and heater were asked for is read with the usual ones, and written with them.
#[test]
fn a_file_may_lack_oil_and_heater() {
    use coldmark::study::{HeaterInputs, OilCooling, OilInputs};
    let text = sound();
    assert!(!text.contains("[oil]") && !text.contains("[heater]"));
    let mut project = read_project(&text).unwrap();
    assert_eq!((&project.oil, &project.heater), (&OilInputs::default(), &HeaterInputs::default()));
    project.oil.cooling = OilCooling::ToAir;
    project.oil.grade = coldmark::heat::OilGrade::W20S50;
    project.heater.on = true;
    for units in [UnitSystem::Si, UnitSystem::Us] {
        let text = write_project(&project, units);
        assert!(text.contains("\n[oil]\ngrade = \"20w-50\"\n") && text.contains("\n[heater]\non = true\n"), "{text}");
        assert_eq!(read_project(&text).unwrap(), project);
    }
}

/// A file from before fans had curves and thermostats a lag is read, and says no more when written again.
#[test]
fn a_file_without_a_fan_curve_is_read_and_written_without_it() {
    let text = sound();
    assert!(!text.contains("radiator.fan]") && !text.contains("closing_lag"));
    let mut project = read_project(&text).unwrap();
    assert!(!project.radiator.fan.known && project.thermostat.closing_lag.is_none());
    let written = write_project(&project, UnitSystem::Si);
    assert!(!written.contains("radiator.fan]") && !written.contains("closing_lag ="), "{written}");
    project.radiator.fan.known = true;
    let written = write_project(&project, UnitSystem::Us);
    assert!(written.contains("\n[radiator.fan]\n") && written.contains("cfm"), "{written}");
    assert_eq!(read_project(&written).unwrap().radiator.fan, project.radiator.fan);
}
