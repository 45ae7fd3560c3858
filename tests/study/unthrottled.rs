//! What a diesel, or an engine in boost, is told; and how well a blow-by read at one load is known at another.

use crate::build::{answered, known, metered};
use coldmark::file::{PresetPart, demo, presets};
use coldmark::quantity::si::{Power, Ratio};
use coldmark::quantity::{AbsolutePressure, Measured, UnitSystem, celsius};
use coldmark::study::{
    Answers, CanPlace, Duty, Failure, LASTING, LeakDownFigure, Means, Project, RingCondition, VentilationArrangement,
};

const FULL: usize = Duty::FullThrottle.index();
const DIESELS: [&str; 2] = ["four-2.0-diesel", "four-2.0-turbo-diesel"];

fn engine(key: &str) -> Project {
    let preset = presets().of(PresetPart::Engine).find(|preset| preset.key == key).unwrap();
    let mut project = demo();
    preset.apply(&mut project);
    project.blow_by.condition = RingCondition::RunIn;
    project
}

/// Everything a person reads.
fn told(answers: &Answers) -> String {
    let system = UnitSystem::Si;
    let mut all: Vec<String> = answers.notes.iter().map(|note| note.text.to_string()).collect();
    for section in answers.sections() {
        all.push(section.title.clone());
        all.extend(section.rows.iter().map(|row| format!("{}: {}", row.label, row.value.show(system))));
    }
    for verdict in &answers.verdicts {
        for words in [Some(&verdict.margin), Some(&verdict.limit), Some(&verdict.reason), verdict.mend.as_ref()] {
            all.extend(words.map(|words| words.show(system)));
        }
    }
    all.join("\n")
}

fn has(answers: &Answers, key: &str) -> bool {
    answers.notes.iter().any(|note| note.key == key)
}

#[test]
fn a_diesel_is_told_of_no_petrol_and_no_mixture() {
    for key in DIESELS {
        for arrangement in [
            VentilationArrangement::BreatherOnly,
            VentilationArrangement::LineToAirCleaner,
            VentilationArrangement::BreatherWithValve,
            VentilationArrangement::ClosedWithFreshAirLine,
        ] {
            for place in [CanPlace::None, CanPlace::BreatherLine] {
                let mut project = engine(key);
                project.ventilation.arrangement = arrangement;
                project.ventilation.can.place = place;
                project.surroundings.coldest = celsius(-20.0);
                let answers = answered(&project);
                let all = told(&answers);
                for word in ["petrol", "Petrol", "carburettor", " leaner", "run lean", "runs lean", "plunger home"] {
                    assert_eq!(all.lines().find(|line| line.contains(word)), None, "{key}");
                }
                assert!(
                    has(&answers, "diesel-runs-away") && has(&answers, "diesel-in-oil") && !has(&answers, "flame"),
                    "{key}"
                );
                // No valve is advised where nothing draws.
                let mend = answers.verdict("moisture").unwrap().mend.as_ref().unwrap().show(UnitSystem::Si);
                assert!(
                    mend.contains("no valve brings fresh air in") && !mend.contains("a valve that passes"),
                    "{mend}"
                );
            }
        }
    }
    let petrol = answered(&engine("four-2.0"));
    assert!(!has(&petrol, "diesel-runs-away") && !has(&petrol, "diesel-in-oil") && has(&petrol, "flame"));
    assert!(told(&petrol).contains("water and petrol"));
}

/// A full can before a diesel's intake is fuel to it.
#[test]
fn a_full_can_can_make_a_diesel_run_away() {
    let mut project = engine("four-2.0-turbo-diesel");
    project.ventilation.arrangement = VentilationArrangement::ClosedWithFreshAirLine;
    project.ventilation.can.place = CanPlace::BreatherLine;
    let answers = answered(&project);
    let full = answers.notes.iter().find(|note| note.key == "can-full-to-air-cleaner").unwrap();
    assert!(full.text.contains("runs away"), "{}", full.text);
    assert!(answers.verdict("catch_can").unwrap().reason.show(UnitSystem::Si).contains("run away"));
}

/// The line of a set-point and the lines of the duties tell one story: each duty of a diesel burns with its own air.
#[test]
fn a_set_point_and_its_duties_agree() {
    for key in DIESELS {
        let project = engine(key);
        let answers = answered(&project);
        let of_duties =
            LASTING.map(|duty| answers.moisture.warm[duty.index()].as_ref().unwrap().least_margin().unwrap());
        let least = of_duties.iter().map(|margin| margin.base()).fold(f64::INFINITY, f64::min);
        let fitted = answers.set_points.iter().find(|row| row.fitted).unwrap();
        let there = fitted.moisture.warm_margin().unwrap().base();
        assert!((there - least).abs() < 1e-9, "{key}: {there} {least}");
    }
}

/// What leaks past a seat is not fresh air.
#[test]
fn a_trickle_past_a_shut_valve_is_no_fresh_air() {
    let answers = answered(&engine("four-2.0-turbo-diesel"));
    let cruise = answers.moisture.warm[Duty::Cruise.index()].as_ref().unwrap();
    assert!(cruise.fresh.high.base() == 0.0 && cruise.dilution.high.base() == 0.0);
}

/// A diesel read at part load without a gauge had part of the boost: the leak is larger than with all of it.
#[test]
fn a_diesel_read_at_part_load_had_part_of_the_boost() {
    let mut project = engine("four-2.0-turbo-diesel");
    metered(&mut project, 40.0);
    project.blow_by.metered.rpm = project.duty.of(Duty::FullThrottle).rpm * 0.75;
    project.blow_by.metered.power = Some(Power::from_base(30e3));
    let part = answered(&project).duties[FULL].blow_by.forward.likely;
    project.blow_by.metered.manifold = Some(answered(&project).duties[FULL].manifold);
    let whole = answered(&project).duties[FULL].blow_by.forward.likely;
    assert!(part.base() > 1.2 * whole.base(), "{} {}", part.base(), whole.base());
    // At full load the two are one.
    project.blow_by.metered.power = None;
    let full = answered(&project).duties[FULL].blow_by.forward.likely;
    project.blow_by.metered.manifold = None;
    assert!((answered(&project).duties[FULL].blow_by.forward.likely.base() / full.base() - 1.0).abs() < 1e-9);
}

/// The farther the load from that of the reading, the less is known; at the reading nothing is added.
#[test]
fn a_reading_is_worth_less_at_another_load() {
    let mut project = engine("four-2.0");
    metered(&mut project, 5.0);
    let idle = answered(&project).duties[Duty::Idle.index()].manifold;
    project.blow_by.metered.rpm = project.duty.of(Duty::Idle).rpm;
    let band = |answers: &Answers, duty: Duty| {
        let forward = answers.duties[duty.index()].blow_by.forward;
        forward.high.base() / forward.low.base()
    };
    project.blow_by.metered.manifold = Some(idle);
    let answers = answered(&project);
    let bands = [Duty::Idle, Duty::Cruise, Duty::Hill, Duty::FullThrottle].map(|duty| band(&answers, duty));
    assert!(bands.is_sorted() && bands[0] < 1.33 && bands[3] > 1.5 && bands[3] < 1.8, "{bands:?}");
    // What it means is said: the same meter at full load would know it as well as here.
    let best = answers.narrow.best().unwrap();
    assert_eq!(best.by, Means::FullLoad);
    assert!((best.factor.unwrap().base() - bands[0]).abs() < 1e-9);
    assert!(!has(&answers, "meter-taken-full-load"));
    project.blow_by.metered.manifold = None;
    let answers = answered(&project);
    assert!(has(&answers, "meter-taken-full-load"));
    assert!(answers.narrow.ways.iter().all(|way| way.by != Means::FullLoad));
}

/// Read off boost, the turbocharger's gas at full boost is known within its own band only; read in boost it is in the reading.
#[test]
fn a_turbocharger_read_off_boost_stays_open() {
    let mut project = engine("four-1.8-turbo");
    metered(&mut project, 8.0);
    let ends = |project: &Project| {
        let forward = answered(project).duties[FULL].blow_by.forward;
        forward.high.base() / forward.low.base()
    };
    project.blow_by.metered.manifold = Some(AbsolutePressure::from_base(40e3));
    let without = {
        let mut project = project.clone();
        project.blow_by.turbo_leak = known(0.15);
        ends(&project)
    };
    // 5 to 40 % of the rings' gas.
    assert!((ends(&project) / without - 1.40 / 1.05).abs() < 1e-9);
    project.blow_by.metered.manifold = None;
    assert!(ends(&project) < 1.33);
    // A leak-down test never sees it.
    project.blow_by.metered.known = false;
    project.blow_by.leak_down = vec![Ratio::from_base(0.06); project.engine.cylinders as usize];
    let figures = answered(&project).narrow.figures;
    let turbo = figures.iter().find(|figure| figure.by == LeakDownFigure::Turbocharger).unwrap();
    assert!((turbo.factor.unwrap().base() - 1.40 / 1.05).abs() < 1e-9);
}

#[test]
fn one_cylinder_that_leaks_is_a_fault_not_wear() {
    let mut project = engine("four-2.0");
    let readings = |losses: [f64; 4]| losses.map(Ratio::from_base).to_vec();
    project.blow_by.leak_down = readings([0.04, 0.05, 0.6, 0.06]);
    let answers = answered(&project);
    let note = answers.notes.iter().find(|note| note.key == "leak-down-one-cylinder").unwrap();
    // By hand: 0.258, 0.290, 1.363 and 0.318 mm², of it 61 %.
    assert!(note.text.contains("Cylinder 3 alone makes 61 %"), "{}", note.text);
    for even in [[0.25, 0.28, 0.3, 0.26], [0.02, 0.03, 0.12, 0.02]] {
        project.blow_by.leak_down = readings(even);
        assert!(!has(&answered(&project), "leak-down-one-cylinder"));
    }
}

/// With boost a valve that sticks open is told as what it is.
#[test]
fn boost_past_a_stuck_valve_is_not_mended_by_fresh_air() {
    let all = told(&answered(&engine("four-1.8-turbo")));
    assert!(all.contains("with the valve open boost blows in: a tight check valve"), "{all}");
    let natural = told(&answered(&engine("four-2.0")));
    assert!(!natural.contains("boost blows in"));
}

/// Stuck open is told by what applies: a diesel in boost at every duty is told of no depression, and of no backfire.
#[test]
fn a_valve_of_a_diesel_is_told_by_what_applies() {
    let row = |answers: &Answers, section: &str, key: &str| {
        let sections = answers.sections();
        let section = sections.iter().find(|one| one.key == section).unwrap();
        section.rows.iter().find(|row| row.key == key).map(|row| row.value.show(UnitSystem::Si))
    };
    let mut project = engine("four-2.0-turbo-diesel");
    project.ventilation.arrangement = VentilationArrangement::BreatherWithValve;
    let diesel = answered(&project);
    let open = diesel.failures.iter().find(|one| one.failure == Failure::StuckOpen).unwrap();
    assert!(open.duties.iter().any(|one| one.boosted));
    let means = row(&diesel, "failure_stuck_open", "means").unwrap();
    assert!(means.starts_with("Boost blows through it into the crankcase at "), "{means}");
    assert!(!means.contains("depression") && !means.contains("idle is high"), "{means}");
    assert_eq!(row(&diesel, "pcv_valve", "shuts"), None);
    assert_eq!(row(&diesel, "pcv_valve", "backfire_area"), None);
    assert_eq!(row(&diesel, "full_throttle", "valve").unwrap(), "shut");
    // A petrol engine keeps its row, and flows that are there keep their figures.
    let petrol = answered(&demo());
    assert!(row(&petrol, "pcv_valve", "shuts").unwrap().starts_with("yes"));
    assert!(row(&petrol, "idle", "valve").unwrap().contains("L/min"));
    assert!(row(&petrol, "failure_stuck_open", "means").unwrap().contains("pinch the hose"));
}
