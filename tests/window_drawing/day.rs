//! The drawing at a time of a day: it follows the sample, and shows nothing that the sample does not know.

use super::{Letters, SHAPES, TANKS, WAYS, overlaps, project};
use crate::sample_day::sample_day;
use coldmark::day::CapState;
use coldmark::quantity::si::Volume;
use coldmark::quantity::{Amount, Measured, UnitSystem};
use coldmark::study::{Answers, DayAnswers, Part, Project, answer};
use coldmark::window::drawing::{DayPoint, Figure, Scene, Tone, scene_of};

fn point(day: &DayAnswers, index: usize, terse: bool) -> DayPoint<'_> {
    DayPoint { sample: &day.drive.samples[index], crankcase: day.crankcase.get(index), verdicts: &day.verdicts, terse }
}

fn scene(letters: &Letters, project: &Project, answers: &Answers, point: DayPoint<'_>, system: UnitSystem) -> Scene {
    let measure = |words: &str, size: f32, strong: bool| letters.measure(words, size, strong);
    scene_of(project, answers, point, system, &measure, &|_, target| target)
}

/// A sample of each kind: cold, warming, the cap letting out, the engine stopped hot, drawing back.
fn kinds(day: &DayAnswers) -> Vec<usize> {
    let samples = &day.drive.samples;
    let first = |which: &dyn Fn(&coldmark::day::Sample) -> bool| samples.iter().position(which).unwrap();
    vec![
        0,
        first(&|sample| sample.opening.base() > 0.2 && sample.opening.base() < 0.8),
        first(&|sample| sample.cap == CapState::LetsOut),
        first(&|sample| sample.vapour.base() > 1e-5),
        first(&|sample| sample.cap == CapState::LetsIn),
    ]
}

#[test]
fn labels_of_a_day_keep_apart() {
    let letters = Letters::new();
    let mut turn = 0;
    for shape in SHAPES {
        for tank in TANKS {
            let way = WAYS[turn % WAYS.len()];
            let project = project(shape, tank, way, turn);
            let answers = answer(&project).unwrap();
            let day = sample_day(&project, &answers);
            for (index, terse) in kinds(&day).into_iter().flat_map(|index| [(index, false), (index, true)]) {
                let system = if turn % 2 == 0 { UnitSystem::Si } else { UnitSystem::Us };
                let scene = scene(&letters, &project, &answers, point(&day, index, terse), system);
                let found = overlaps(&scene);
                assert!(found.is_empty(), "{shape:?}, {tank:?}, {way:?}, sample {index}, terse {terse}: {found:?}");
            }
            turn += 1;
        }
    }
}

#[test]
fn the_drawing_follows_the_sample_and_invents_no_flow() {
    let letters = Letters::new();
    let project = coldmark::file::demo();
    let answers = answer(&project).unwrap();
    let day = sample_day(&project, &answers);
    let say = |index: usize| {
        let scene = scene(&letters, &project, &answers, point(&day, index, false), UnitSystem::Si);
        assert!(scene.arrows.is_empty(), "a day does not say how the gas parts");
        let lines = scene.labels.iter().flat_map(|label| &label.lines).map(|line| line.text.clone());
        let words = lines.collect::<Vec<_>>().join("; ");
        let tank = scene.parts.iter().find(|area| area.part == Part::Tank).unwrap().name.clone();
        (scene, words, tank)
    };
    let kinds = kinds(&day);
    for index in &kinds {
        let sample = &day.drive.samples[*index];
        let (scene, words, tank) = say(*index);
        let level = Amount::of(sample.level.unwrap()).show(UnitSystem::Si);
        assert!(words.contains(&format!("now {level}")) && tank.contains(&format!("level {level}")), "{words}");
        assert!(words.contains(&Amount::of(sample.coolant).show(UnitSystem::Si)), "{words}");
        // The surface stands where the level is, to scale.
        let drawn = (scene.tank.floor - scene.tank.surface) / scene.tank.scale;
        assert!((f64::from(drawn) - sample.level.unwrap().base()).abs() < 1e-4);
        let cap = match sample.cap {
            CapState::Shut => "shut at ",
            CapState::LetsOut => "lets out at ",
            CapState::LetsIn => "lets in at ",
        };
        assert!(words.contains(cap), "{words}");
        assert_eq!(words.contains("fan turns"), sample.fan, "{words}");
        assert_eq!(words.contains("engine stopped"), sample.engine_speed.base() == 0.0, "{words}");
        assert_eq!(words.contains("vapour "), sample.vapour.base() > 1e-6, "{words}");
    }
}

#[test]
fn more_vapour_is_more_bubbles() {
    let letters = Letters::new();
    let project = coldmark::file::demo();
    let answers = answer(&project).unwrap();
    let mut day = sample_day(&project, &answers);
    let mut bubbles = |litres: f64| {
        day.drive.samples[5].vapour = Volume::from_base(litres * 1e-3);
        let scene = scene(&letters, &project, &answers, point(&day, 5, false), UnitSystem::Si);
        let round =
            |figure: &&Figure| matches!(figure, Figure::Round { fill: Some(Tone::Card), radius, .. } if *radius < 4.01);
        scene.figures.iter().filter(round).count()
    };
    let (none, little, much) = (bubbles(0.0), bubbles(0.01), bubbles(1.0));
    assert!(none < little && little < much, "{none} {little} {much}");
}

#[test]
fn a_small_drawing_says_only_what_changes() {
    let letters = Letters::new();
    let project = coldmark::file::demo();
    let answers = answer(&project).unwrap();
    let day = sample_day(&project, &answers);
    let index = kinds(&day)[2];
    let full = scene(&letters, &project, &answers, point(&day, index, false), UnitSystem::Si);
    let terse = scene(&letters, &project, &answers, point(&day, index, true), UnitSystem::Si);
    assert!(terse.labels.len() < full.labels.len() / 2);
    let smallest = |scene: &Scene| {
        scene.labels.iter().flat_map(|label| &label.lines).map(|line| line.size).fold(f32::INFINITY, f32::min)
    };
    assert!(smallest(&terse) > 1.25 * smallest(&full));
    // The same parts can be chosen, with the same names.
    assert_eq!(terse.parts, full.parts);
}
