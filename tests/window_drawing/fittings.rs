//! What stands in the gas lines: cans, drains, sags, checks, the cross-over, and where the gas is taken.

use super::{Letters, SYSTEMS, WAYS, overlaps};
use coldmark::quantity::si::Length;
use coldmark::quantity::{Measured, UnitSystem};
use coldmark::study::{
    Answers, CanPlace, Duty, EngineFuel, FlowPath, GasSource, InlineKind, Moment, PortPlace, Project,
    VentilationArrangement, answer,
};
use coldmark::window::drawing::{FlowArrow, Scene, Stream};

const SOURCES: [GasSource; 3] = [GasSource::Cover, GasSource::Valley, GasSource::Sump];

/// Everything that can stand in the lines of an arrangement.
fn full(way: VentilationArrangement, source: GasSource, can: CanPlace) -> Project {
    let mut project = coldmark::file::demo();
    let ventilation = &mut project.ventilation;
    ventilation.arrangement = way;
    ventilation.source = source;
    ventilation.can.place = can;
    ventilation.can.in_both = true;
    ventilation.can.drain.known = true;
    ventilation.crossover.known = true;
    ventilation.valve.port.place = PortPlace::CarburettorBase;
    let lines = [&mut ventilation.breather, &mut ventilation.second, &mut ventilation.valve_line];
    let kinds = [InlineKind::CheckOutwards, InlineKind::Component, InlineKind::CheckOutwards];
    for (line, kind) in lines.into_iter().zip(kinds) {
        line.sag = Some(Length::from_base(0.012));
        line.inline = kind;
    }
    project
}

fn scene(letters: &Letters, project: &Project, answers: &Answers, duty: Duty) -> Scene {
    letters.scene(project, answers, Moment::Driving(duty), UnitSystem::Si)
}

fn says(scene: &Scene, words: &str) -> bool {
    scene.labels.iter().flat_map(|label| &label.lines).any(|line| line.text.contains(words))
}

fn of(scene: &Scene, stream: Stream) -> Vec<&FlowArrow> {
    scene.arrows.iter().filter(|arrow| arrow.stream == stream).collect()
}

#[test]
fn labels_keep_apart_with_everything_fitted() {
    let letters = Letters::new();
    let mut drawn = 0;
    let mut faults = Vec::new();
    for way in WAYS {
        for source in SOURCES {
            for can in [CanPlace::None, CanPlace::BreatherLine, CanPlace::ValveLine] {
                let project = full(way, source, can);
                // Some do not go together, such as a can in a line that is not there.
                let Ok(answers) = answer(&project) else { continue };
                for moment in Moment::ALL {
                    for system in SYSTEMS {
                        drawn += 1;
                        for fault in overlaps(&letters.scene(&project, &answers, moment, system)) {
                            faults.push(format!("{way:?} {source:?} {can:?} {moment:?} {system:?}: {fault}"));
                        }
                    }
                }
            }
        }
    }
    assert!(drawn > 300, "{drawn}");
    assert!(faults.is_empty(), "{} faults:\n{}", faults.len(), faults[..faults.len().min(30)].join("\n"));
}

#[test]
fn what_stands_in_the_lines_is_named() {
    let letters = Letters::new();
    let project = full(VentilationArrangement::TwoBreathers, GasSource::Cover, CanPlace::BreatherLine);
    let answers = answer(&project).unwrap();
    let shown = scene(&letters, &project, &answers, Duty::FullThrottle);
    for words in ["12 mm oil", "check, lets out", "component", "catch can", "second can", "can's drain", "cross-over"] {
        assert!(says(&shown, words), "{words}");
    }
    let bare = coldmark::file::demo();
    let answers = answer(&bare).unwrap();
    let shown = scene(&letters, &bare, &answers, Duty::FullThrottle);
    for words in [" oil", "check, ", "component", "second can", "drain", "cross-over"] {
        assert!(!says(&shown, words), "{words}");
    }
}

#[test]
fn gas_crosses_over_the_way_the_answers_say() {
    let letters = Letters::new();
    let mut project = coldmark::file::demo();
    project.ventilation.crossover.known = true;
    let mut ways = [0, 0];
    for way in [VentilationArrangement::TwoBreathers, VentilationArrangement::BreatherWithValve] {
        for narrow in [false, true] {
            project.ventilation.arrangement = way;
            project.ventilation.breather.bore = Length::from_base(if narrow { 0.006 } else { 0.03 });
            project.ventilation.breather.barb = None;
            project.ventilation.second.bore = Length::from_base(if narrow { 0.03 } else { 0.006 });
            project.ventilation.second.barb = None;
            let answers = answer(&project).unwrap();
            for duty in Duty::ALL {
                let flow = answers.duties[duty.index()].likely().crossover.unwrap();
                let shown = scene(&letters, &project, &answers, duty);
                let [arrow] = of(&shown, Stream::Crossover)[..] else { continue };
                let (tail, head) = (arrow.points[0], *arrow.points.last().unwrap());
                // From the second cover, at the right, to the first.
                assert_eq!(head.x < tail.x, flow.base() > 0.0, "{way:?} {duty:?}");
                ways[usize::from(flow.base() > 0.0)] += 1;
                // What rises into the covers is what leaves them: nothing is lost on the way.
                let rising: f64 = of(&shown, Stream::Rising).iter().map(|arrow| arrow.standard.base()).sum();
                let out: f64 = answers.duties[duty.index()].likely().flows.iter().map(|f| f.standard.base()).sum();
                let full = answers.duties[duty.index()].blow_by.standard.likely.base();
                assert!((rising - out).abs() < 0.01 * full, "{way:?} {duty:?}: {rising} rises, {out} leaves");
            }
        }
    }
    assert!(ways[0] > 0 && ways[1] > 0, "{ways:?}");
}

#[test]
fn the_line_starts_where_the_gas_is_taken() {
    let letters = Letters::new();
    let mut project = coldmark::file::demo();
    project.ventilation.arrangement = VentilationArrangement::BreatherOnly;
    let mut starts = Vec::new();
    for source in SOURCES {
        project.ventilation.source = source;
        let answers = answer(&project).unwrap();
        let shown = scene(&letters, &project, &answers, Duty::FullThrottle);
        // The longest way is the hose itself.
        let arrows = of(&shown, Stream::Way(FlowPath::Breather));
        let reach = |arrow: &&&FlowArrow| (arrow.points.last().unwrap().x - arrow.points[0].x).abs();
        let hose = arrows.iter().max_by(|a, b| reach(a).total_cmp(&reach(b))).unwrap();
        starts.push(hose.points[0]);
    }
    // On the cover, between the banks below the covers' tops, at the side of the crankcase.
    assert!(starts[0].x < 450.0 && starts[0].y < 80.0, "{starts:?}");
    assert!((starts[1].x - 484.0).abs() < 1.0 && starts[1].y > 100.0, "{starts:?}");
    assert!(starts[2].x > 590.0 && starts[2].y > 302.0, "{starts:?}");
}

#[test]
fn a_shut_check_is_no_flow() {
    let letters = Letters::new();
    let mut project = coldmark::file::demo();
    project.ventilation.arrangement = VentilationArrangement::ClosedWithFreshAirLine;
    project.ventilation.breather.inline = InlineKind::CheckInwards;
    let answers = answer(&project).unwrap();
    let leak = answers.duties[Duty::FullThrottle.index()].likely().flow(FlowPath::Breather).unwrap().standard.base();
    assert!(leak > 0.0, "full throttle pushes against the check, and its seat leaks: {leak}");
    let shown = scene(&letters, &project, &answers, Duty::FullThrottle);
    assert!(says(&shown, "no flow") && says(&shown, "The breather stands still."));
    assert!(of(&shown, Stream::Way(FlowPath::Breather)).is_empty());
    // What no seal would bear is not told as a figure.
    assert!(answers.duties[Duty::FullThrottle.index()].high().beyond_seals());
    assert!(says(&shown, "at worst beyond seals"));
}

#[test]
fn the_engine_says_how_it_breathes() {
    let letters = Letters::new();
    for preset in coldmark::file::presets().of(coldmark::file::PresetPart::Engine) {
        let mut project = coldmark::file::demo();
        preset.apply(&mut project);
        let answers = answer(&project).unwrap();
        let shown = scene(&letters, &project, &answers, Duty::FullThrottle);
        assert_eq!(says(&shown, "diesel"), project.engine.fuel == EngineFuel::Diesel, "{}", preset.name);
        assert_eq!(
            says(&shown, "turbocharged") || says(&shown, "with a blower"),
            project.engine.is_boosted(),
            "{}",
            preset.name
        );
        assert!(overlaps(&shown).is_empty(), "{}: {:?}", preset.name, overlaps(&shown));
    }
}
