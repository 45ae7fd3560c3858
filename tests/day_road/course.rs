//! The day of a project.

use crate::support::of;
use coldmark::file::{PresetPart, demo, presets};
use coldmark::quantity::{Estimate, Measured, UnitSystem};
use coldmark::study::{self, Duty, LegInputs, LegKind, Project};

fn hours(seconds: f64) -> f64 {
    seconds / 3600.0
}

/// The example drives about three hours and stands a night.
#[test]
fn the_example_has_a_day() {
    let project = demo();
    let (legs, pieces) = study::course(&project).unwrap();
    assert_eq!(legs.len(), project.day.legs.len());
    let turning: f64 = pieces.iter().filter(|piece| piece.engine.is_some()).map(|piece| piece.lasts.base()).sum();
    assert!((2.5..3.5).contains(&hours(turning)), "{}", hours(turning));
    assert!(legs.last().unwrap().name.show(UnitSystem::Si).starts_with("Overnight, 10 h"), "{:?}", legs.last());
    // Legs follow one another, and are what their stretches are.
    let mut at = 0.0;
    for (index, leg) in legs.iter().enumerate() {
        assert!((leg.begins.base() - at).abs() < 1e-6, "{leg:?}");
        let own = || pieces.iter().filter(|piece| piece.leg == index);
        at += own().map(|piece| piece.lasts.base()).sum::<f64>();
        assert!((leg.ends.base() - at).abs() < 1e-6);
        let distance: f64 = own().map(|piece| piece.lasts.base() * piece.road_speed.base()).sum();
        assert!((leg.distance.base() - distance).abs() < 1e-6);
    }
    // The engine of the example holds what it is asked for at a steady speed.
    assert!(legs.iter().any(|leg| leg.name.show(UnitSystem::Si) == "Climb, 700 m at 8 %, 60 km/h"), "{legs:?}");
}

/// A project that tells of no day has the usual one, whatever its engine.
#[test]
fn every_engine_has_a_usual_day() {
    let kinds =
        |project: &Project| -> Vec<_> { study::usual_day(project).unwrap().iter().map(|leg| leg.kind).collect() };
    let mut projects = vec![Project::blank()];
    projects.extend(presets().of(PresetPart::Engine).map(|preset| {
        let mut project = Project::blank();
        preset.apply(&mut project);
        project
    }));
    for project in projects {
        let kinds = kinds(&project);
        for kind in [LegKind::Idle, LegKind::Trace, LegKind::Traffic, LegKind::HotStop, LegKind::Overnight] {
            assert!(kinds.contains(&kind), "{kind:?} of {:?}", project.engine);
        }
        assert!(kinds.contains(&LegKind::Climb) && kinds.contains(&LegKind::FullThrottle), "{:?}", project.engine);
        let (legs, pieces) = study::course(&project).unwrap();
        assert_eq!(legs.len(), kinds.len());
        assert_eq!(pieces[0].air, project.surroundings.coldest);
        assert_eq!(pieces.last().unwrap().air_at_end, project.surroundings.coldest);
        // Filled in by hand it is the same day.
        let mut filled = project.clone();
        filled.day.legs = study::usual_day(&project).unwrap();
        assert_eq!(study::course(&filled).unwrap(), (legs, pieces));
    }
}

/// Days of the shelf suit every engine of the shelf but one of 650 cm³, or are refused with words.
#[test]
fn preset_days_can_be_driven() {
    for engine in presets().of(PresetPart::Engine) {
        for day in presets().of(PresetPart::Day) {
            let mut project = Project::blank();
            engine.apply(&mut project);
            day.apply(&mut project);
            let course = study::course(&project);
            assert!(course.is_ok(), "{} by {}: {}", day.key, engine.key, course.unwrap_err());
        }
    }
}

fn told(change: impl Fn(&mut Project)) -> (String, String) {
    let mut project = demo();
    change(&mut project);
    let problems = study::course(&project).unwrap_err();
    assert_eq!(problems.0.len(), 1, "{problems}");
    (problems.0[0].path.clone(), problems.0[0].message.clone())
}

#[test]
fn faults_are_told_at_the_input_to_mend() {
    let leg = |kind| LegInputs { kind, ..LegInputs::default() };
    let (path, words) = told(|project| {
        project.day.legs[2] = LegInputs { speed: of(55.0), grade: of(0.1), ..leg(LegKind::Steady) };
    });
    assert_eq!(path, "day.leg[3].speed");
    assert!(words.contains("kW") && words.contains("lower speed or grade"), "{words}");
    let (path, _) = told(|project| {
        project.day.legs[0] = LegInputs { traffic_lasts: of(10.0), ..leg(LegKind::Traffic) };
    });
    assert_eq!(path, "day.leg[1].lasts");
    // Too low a top gear for the trace.
    let (path, words) = told(|project| {
        project.car.gears = vec![of(2.0), of(4.0)];
        project.day.legs.truncate(2);
    });
    assert_eq!(path, "day.leg[2].trace");
    assert!(words.contains("top gear"), "{words}");
    // Out of range is told before anything is driven.
    let (path, words) = told(|project| project.day.legs[0].air = of(100.0));
    assert_eq!(path, "day.leg[1].air");
    assert!(words.contains("-40 °C"), "{words}");
    let (path, _) = told(|project| project.car.gears = vec![of(5.0), of(4.0)]);
    assert_eq!(path, "car.gears");
    let (path, _) = told(|project| project.car.lugging_speed = Some(Estimate::exact(of(60.0))));
    assert_eq!(path, "car.lugging_speed");
    let (path, _) = told(|project| project.car.highest_speed = Some(Estimate::exact(of(400.0))));
    assert_eq!(path, "car.highest_speed");
    let (path, words) = told(|project| {
        project.car.gears.clear();
        project.duty.points[Duty::Cruise.index()].road_speed = of(0.0);
    });
    assert_eq!(path, "car.gears");
    assert!(words.contains("cruise duty"), "{words}");
    let (path, _) = told(|project| project.day.legs = vec![LegInputs::default(); 101]);
    assert_eq!(path, "day.leg");
}

/// A day too fast for the gears, usual all the same, leaves out what they cannot do.
#[test]
fn the_usual_day_leaves_out_what_the_gears_cannot_do() {
    let mut project = demo();
    project.day.legs.clear();
    project.car.gears = vec![of(1.5), of(2.5), of(4.0)];
    let legs = study::usual_day(&project).unwrap();
    assert!(legs.iter().all(|leg| leg.kind != LegKind::Trace));
    study::course(&project).unwrap();
    // Nor does it climb what the hill duty has no power for.
    project.duty.points[Duty::Hill.index()].power = of(1e3);
    let legs = study::usual_day(&project).unwrap();
    assert!(legs.iter().all(|leg| leg.kind != LegKind::Climb));
    study::course(&project).unwrap();
}

/// Heavier, steeper, higher: more power asked; the gears of the duty point give its engine speed.
#[test]
fn inputs_act_as_they_should() {
    let work = |change: &dyn Fn(&mut Project)| {
        let mut project = demo();
        project.day.legs.truncate(3);
        change(&mut project);
        let (_, pieces) = study::course(&project).unwrap();
        let engine = |piece: &coldmark::day::Stretch| piece.engine.map_or(0.0, |engine| engine.power.base());
        pieces.iter().map(|piece| piece.lasts.base() * engine(piece)).sum::<f64>()
    };
    let usual = work(&|_| ());
    let exact = |base| Some(Estimate::exact(of(base)));
    assert!(work(&|project| project.car.mass = exact(1800.0)) > 1.05 * usual);
    assert!(work(&|project| project.car.drag_area = Some(Estimate::exact(of(1.0)))) > 1.1 * usual);
    assert!(work(&|project| project.car.drivetrain_efficiency = Some(Estimate::exact(of(0.8)))) > 1.05 * usual);
    assert!(work(&|project| project.surroundings.altitude = of(2000.0)) < 0.97 * usual);
    // Without gears entered, cruising is as the cruise duty has it.
    let mut project = demo();
    project.car.gears.clear();
    let cruise = project.duty.of(Duty::Cruise).clone();
    project.day.legs = vec![LegInputs { kind: LegKind::Steady, speed: cruise.road_speed, ..LegInputs::default() }];
    let (_, pieces) = study::course(&project).unwrap();
    let engine = pieces[0].engine.unwrap();
    assert_eq!(engine.gear, Some(5));
    assert!((engine.speed.base() / cruise.rpm.base() - 1.0).abs() < 1e-9);
}

/// The climb of the demo is driven as its hill duty is: about as many turns for each metre, and power in reserve. In top gear
/// it would turn 1460 rpm with three quarters of full throttle.
#[test]
fn the_climb_of_the_demo_turns_as_its_hill_duty_does() {
    let project = demo();
    let (legs, stretches) = study::course(&project).unwrap();
    let leg = legs.iter().position(|leg| leg.name.show(UnitSystem::Si).starts_with("Climb")).unwrap();
    let climb = stretches.iter().find(|stretch| stretch.leg == leg).unwrap();
    let engine = climb.engine.unwrap();
    let hill = project.duty.of(Duty::Hill);
    let turns = engine.speed.base() / climb.road_speed.base() / (hill.rpm.base() / hill.road_speed.base());
    assert!((0.8..1.2).contains(&turns), "{turns} {engine:?}");
    assert_eq!(engine.gear, Some(3));
    // Files from before the reserve and the gear of a leg read as a driver would choose.
    assert!(project.day.legs.iter().all(|leg| leg.gear == 0));
}
