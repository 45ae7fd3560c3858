//! The operating map: it is what the duties say at their own points, has no steps between, and tells what it cannot solve.

use crate::random::chance;
use coldmark::file::demo;
use coldmark::quantity::si::{AngularVelocity, Length, Pressure};
use coldmark::quantity::{AbsolutePressure, Estimate, GaugePressure, Measured, UnitSystem};
use coldmark::study::{
    self, Answers, CanPlace, Duty, EngineFuel, FlowPath, Induction, Map, MapCase, MapCaseKind, MapCell, MapGrid,
    MapLimit, MapState, Project, Span, State, Unsolved, Variant, VentilationArrangement as Arrangement,
};
use proptest::prelude::*;

const ARRANGEMENTS: [Arrangement; 6] = [
    Arrangement::BreatherOnly,
    Arrangement::LineToAirCleaner,
    Arrangement::BreatherWithValve,
    Arrangement::ClosedWithFreshAirLine,
    Arrangement::TwoBreathers,
    Arrangement::ValveOnly,
];

fn with(arrangement: Arrangement) -> Project {
    let mut project = demo();
    project.ventilation.arrangement = arrangement;
    project.ventilation.can.place = CanPlace::None;
    project
}

fn grid(rpm: (f64, f64, usize), manifold: (f64, f64, usize)) -> MapGrid {
    MapGrid {
        rpm: Span { from: AngularVelocity::from_base(rpm.0), to: AngularVelocity::from_base(rpm.1), points: rpm.2 },
        manifold: Span {
            from: AbsolutePressure::from_base(manifold.0),
            to: AbsolutePressure::from_base(manifold.1),
            points: manifold.2,
        },
    }
}

fn usual(project: &Project) -> Map {
    study::map(project, &study::map_grid(project, 12, 25).unwrap(), &Variant::Present).unwrap()
}

fn state(map: &Map, column: usize, row: usize) -> &MapState {
    map.cell(column, row).unwrap().state().unwrap()
}

/// A map whose first cell lies exactly on a duty.
fn at_duty(project: &Project, answers: &Answers, duty: Duty) -> MapState {
    let rpm = project.duty.of(duty).rpm.base();
    let manifold = answers.duties[duty.index()].manifold.base();
    let map = study::map(project, &grid((rpm, rpm * 1.5, 2), (manifold, manifold + 5e3, 2)), &Variant::Present);
    *state(&map.unwrap(), 0, 0)
}

fn close(a: f64, b: f64, by: f64) -> bool {
    (a - b).abs() <= by
}

#[test]
fn at_every_duty_the_map_is_the_duty() {
    for arrangement in ARRANGEMENTS {
        for altitude in [0.0, 1500.0] {
            let mut project = with(arrangement);
            project.surroundings.altitude = Length::from_base(altitude);
            // A mixture of its own at one duty.
            project.duty.points[Duty::FullThrottle.index()].air_fuel = Some(Measured::from_base(12.8));
            let answers = study::answer(&project).unwrap();
            for duty in Duty::ALL {
                let here = at_duty(&project, &answers, duty);
                let own = &answers.duties[duty.index()];
                let place = format!("{arrangement:?} {duty:?} at {altitude} m");
                // The air drawn is scaled by speed, so the filter's depression differs in the last digits.
                for (map, own) in [(&here.likely, own.likely()), (&here.high, own.high())] {
                    let gauge = own.gauge.base();
                    assert!(close(map.gauge.base(), gauge, 1e-3 + 1e-6 * gauge.abs()), "{place}: {map:?} {gauge}");
                    assert!(close(map.blow_by.base(), own.blow_by.base(), 1e-15), "{place}");
                    let flow = |path| own.flow(path).map(|flow| flow.out.base());
                    let out = [FlowPath::Breather, FlowPath::SecondBreather].into_iter().filter_map(flow).sum::<f64>();
                    assert!(close(map.breather.map_or(0.0, Measured::base), out, 1e-9), "{place}");
                    assert!(close(map.valve.map_or(0.0, Measured::base), flow(FlowPath::Valve).unwrap_or(0.0), 1e-9));
                }
                let deepest = own.deepest.gauge.base();
                assert!(close(here.deepest.base(), deepest, 1e-3 + 1e-6 * deepest.abs()), "{place}");
                assert_eq!(here.pressure_limit, own.limit.likely, "{place}");
                // The duty also tries a tight baffle and a dirty element, which may leave it thin where the map holds.
                let unfavourable = own.unfavourable.gauge > own.limit.likely;
                let expected = own.crankcase_state();
                assert!(here.state == expected || (unfavourable && expected == State::Thin), "{place}");
            }
        }
    }
}

/// Boost, its heat, the exhaust before a turbine and the gas past its shaft belong to the manifold pressure.
#[test]
fn a_blower_is_on_the_map() {
    for induction in [Induction::Turbocharger, Induction::Supercharger] {
        for arrangement in [Arrangement::BreatherOnly, Arrangement::ClosedWithFreshAirLine] {
            let mut project = with(arrangement);
            project.engine.induction = induction;
            let answers = study::answer(&project).unwrap();
            let full = &answers.duties[Duty::FullThrottle.index()];
            assert!(full.manifold > answers.ambient);
            let map = usual(&project);
            assert_eq!(map.grid.manifold.to, full.manifold);
            for duty in Duty::ALL {
                let own = answers.duties[duty.index()].high().gauge.base();
                let here = at_duty(&project, &answers, duty).high.gauge.base();
                assert!(close(here, own, 1e-3 + 1e-6 * own.abs()), "{induction:?} {arrangement:?} {duty:?}");
            }
        }
    }
}

#[test]
fn a_diesel_has_no_map_and_is_told_why() {
    let mut project = demo();
    project.engine.fuel = EngineFuel::Diesel;
    project.engine.compression_ratio = Measured::from_base(18.0);
    let told = study::map_grid(&project, 4, 4).unwrap_err();
    assert_eq!(told.0[0].path, "engine.fuel");
    assert!(told.0[0].message.contains("no throttle"), "{told}");
}

#[test]
fn marks_are_the_duties_and_lie_on_the_map() {
    for arrangement in ARRANGEMENTS {
        let project = with(arrangement);
        let answers = study::answer(&project).unwrap();
        let map = usual(&project);
        assert_eq!(map.marks.len(), 5);
        for mark in &map.marks {
            let own = &answers.duties[mark.duty.index()];
            assert_eq!(mark.cell.state().unwrap().likely.gauge, own.likely().gauge);
            assert_eq!(mark.cell.state().unwrap().high.gauge, own.high().gauge);
            assert_eq!((mark.manifold, mark.on_map), (own.manifold, true));
            let (x, y) = (map.grid.rpm.place(mark.rpm), map.grid.manifold.place(mark.manifold));
            assert!((0.0..=11.0).contains(&x) && (0.0..=24.0).contains(&y), "{:?} {x} {y}", mark.duty);
        }
    }
}

/// Everything moves a little from row to row of a fine map: no step where one duty's figures give way to another's, where
/// burning ends, or where the ram sets in.
#[test]
fn the_map_has_no_steps() {
    let mut open = with(Arrangement::BreatherOnly);
    // A hill and a cruise near wide open and far from it: the ram sets in between them.
    open.duty.points[Duty::Hill.index()].manifold = Some(AbsolutePressure::from_base(86e3));
    open.duty.points[Duty::Cruise.index()].manifold = Some(AbsolutePressure::from_base(46e3));
    for project in [with(Arrangement::ClosedWithFreshAirLine), open] {
        let mut fine = study::map_grid(&project, 2, 400).unwrap();
        // Below overrun and above full throttle too.
        fine.manifold.from = AbsolutePressure::from_base(15e3);
        fine.manifold.to = AbsolutePressure::from_base(100.5e3);
        let map = study::map(&project, &fine, &Variant::Present).unwrap();
        let flows: Vec<f64> = (0..400).map(|row| state(&map, 1, row).likely.blow_by.base()).collect();
        let span = flows.iter().fold(0.0_f64, |most, flow| most.max(*flow));
        for pair in flows.windows(2) {
            // A 400th of the span each on the mean; from overrun to idle the burning comes in over a few rows.
            assert!((pair[1] - pair[0]).abs() < span / 40.0, "{pair:?} of {span}");
        }
        // The leak grows with the pressure above the piston, from where everything burns.
        let idle = study::answer(&project).unwrap().duties[0].manifold;
        let from = fine.manifold.place(idle).ceil() as usize;
        assert!(flows[from..].windows(2).all(|pair| pair[1] > pair[0]));
    }
}

#[test]
fn speed_is_felt_through_the_air_filter_alone() {
    for arrangement in ARRANGEMENTS {
        let closed = arrangement == Arrangement::ClosedWithFreshAirLine;
        let filtered = closed || arrangement == Arrangement::LineToAirCleaner;
        let mut project = with(arrangement);
        assert_eq!(usual(&project).feels_speed(), filtered, "{arrangement:?}");
        if closed {
            let map = usual(&project);
            // More air, more depression behind the filter, deeper crankcase.
            assert!(state(&map, 11, 24).likely.gauge < state(&map, 0, 24).likely.gauge);
            project.duty.filter_depression = Some(Estimate::exact(Pressure::from_base(0.0)));
            assert!(!usual(&project).feels_speed());
        }
    }
}

/// The line of no flow has flow of either sign on its two sides, and lies where the duty's own turning blow-by says.
#[test]
fn the_breather_turns_round_on_its_line() {
    let project = with(Arrangement::BreatherWithValve);
    let mut fine = study::map_grid(&project, 3, 200).unwrap();
    fine.rpm.from = project.duty.of(Duty::Cruise).rpm;
    let map = study::map(&project, &fine, &Variant::Present).unwrap();
    let kind = MapCaseKind::High;
    assert!(!map.turns(kind).is_empty());
    for line in map.turns(kind) {
        for (rpm, manifold) in &line.0 {
            let at = grid((rpm.base(), rpm.base() * 1.1, 2), (manifold.base(), manifold.base() + 1e3, 2));
            let here = study::map(&project, &at, &Variant::Present).unwrap();
            let out = state(&here, 0, 0).high.breather.unwrap().base();
            assert!(out.abs() < 0.01 * state(&here, 0, 0).high.blow_by.base(), "{out} kg/s at {manifold:?}");
        }
    }
    let words = map.says_turns(kind).show(UnitSystem::Si);
    assert!(words.contains("turns round above") && words.contains("kPa"), "{words}");
    assert_eq!(words.contains("rpm"), map.feels_speed(), "{words}");
    assert!(usual(&with(Arrangement::BreatherOnly)).turns(kind).is_empty());
    let always = usual(&with(Arrangement::BreatherOnly)).says_turns(kind).show(UnitSystem::Si);
    assert!(always.contains("lets gas out everywhere"), "{always}");
}

#[test]
fn the_limit_is_passed_on_its_line() {
    let mut project = with(Arrangement::BreatherOnly);
    project.ventilation.breather.bore = Length::from_base(0.01);
    project.ventilation.breather.barb = None;
    let map = study::map(&project, &study::map_grid(&project, 3, 300).unwrap(), &Variant::Present).unwrap();
    let load = map.load_from.base();
    let mut seen = 0;
    for (_, manifold) in map.limits(MapCaseKind::High).iter().flat_map(|line| &line.0) {
        let near = map.nearest(map.grid.rpm.from, *manifold).unwrap().state().unwrap();
        let step = 300.0;
        if (manifold.base() - load).abs() > step {
            let excess = near.high.gauge.base() - near.pressure_limit.base();
            assert!(excess.abs() < 0.03 * near.pressure_limit.base(), "{excess} at {manifold:?}");
        }
        seen += 1;
    }
    assert!(seen > 0);
    // State, limit and lines say one thing.
    for cell in &map.cells {
        let here = cell.state().unwrap();
        let over = here.high.gauge > here.pressure_limit;
        assert_eq!(over, here.state == State::DoesNotHold && here.limit != MapLimit::Depression);
    }
    let words = map.says_limits(MapCaseKind::High).show(UnitSystem::Si);
    assert!(words.contains("passes its pressure limit: at light load "), "{words}");
    assert!(words.contains("; under load, from ") && words.contains(" kPa allowed)"), "{words}");
    // The speed is named where it makes a difference, and nowhere else.
    assert_eq!(words.contains("rpm"), map.feels_speed(), "{words}");
}

/// The limit at light load holds up to the lightest duty under load, and for every light duty whatever the pressures are.
#[test]
fn between_the_duties_the_limit_at_light_load_applies() {
    let project = demo();
    let answers = study::answer(&project).unwrap();
    let map = usual(&project);
    assert_eq!(map.load_from, answers.duties[Duty::Hill.index()].manifold);
    let load = answers.duties[Duty::Hill.index()].limit.likely;
    let light = answers.duties[Duty::Cruise.index()].limit.likely;
    for row in 0..25 {
        let manifold = map.grid.manifold.at(row as f64);
        let expected = if manifold >= map.load_from { load } else { light };
        assert_eq!(state(&map, 0, row).pressure_limit, expected);
    }
    // A cruise at more manifold pressure than the hill is still judged as a cruise.
    let mut odd = project;
    odd.duty.points[Duty::Hill.index()].manifold = Some(AbsolutePressure::from_base(70e3));
    odd.duty.points[Duty::Cruise.index()].manifold = Some(AbsolutePressure::from_base(80e3));
    let answers = study::answer(&odd).unwrap();
    assert_eq!(at_duty(&odd, &answers, Duty::Cruise).pressure_limit, light);
    assert_eq!(at_duty(&odd, &answers, Duty::FullThrottle).pressure_limit, load);
}

#[test]
fn what_cannot_be_solved_is_told() {
    let project = with(Arrangement::BreatherOnly);
    let at = study::map_grid(&project, 3, 4).unwrap();
    let map = study::map(&project, &at, &Variant::BreatherBlocked).unwrap();
    assert_eq!(map.cells.len(), 12);
    assert!(map.cells.iter().all(|cell| matches!(cell, MapCell::Unsolved(Unsolved::NoWayOut(_)))));
    let words = map.says(MapCaseKind::High).show(UnitSystem::Si);
    assert!(words.starts_with("No place has an answer") && words.contains("never run an engine"), "{words}");
    // Far above the speed of full throttle the filter's depression leaves what is known.
    let mut closed = with(Arrangement::ClosedWithFreshAirLine);
    closed.duty.filter_depression = Some(Estimate::exact(Pressure::from_base(4e3)));
    let mut far = study::map_grid(&closed, 10, 4).unwrap();
    far.rpm.to = AngularVelocity::from_base(1500.0);
    let map = study::map(&closed, &far, &Variant::Present).unwrap();
    let gaps = map.cells.iter().filter(|cell| matches!(cell, MapCell::Unsolved(Unsolved::OutOfRange(_)))).count();
    assert!(gaps > 0 && gaps < map.cells.len(), "{gaps}");
    assert!(map.says(MapCaseKind::High).show(UnitSystem::Si).contains(&format!("{gaps} of 40 places have no answer")));
}

#[test]
fn a_grid_that_makes_no_sense_is_refused() {
    let project = demo();
    let good = study::map_grid(&project, 4, 4).unwrap();
    let fault = |change: &dyn Fn(&mut MapGrid)| {
        let mut at = good;
        change(&mut at);
        study::map(&project, &at, &Variant::Present).unwrap_err().0[0].path.clone()
    };
    assert_eq!(fault(&|at| at.rpm.points = 1), "map.rpm");
    assert_eq!(fault(&|at| at.manifold.points = 401), "map.manifold");
    assert_eq!(fault(&|at| at.rpm.to = at.rpm.from), "map.rpm");
    assert_eq!(fault(&|at| at.manifold.from = AbsolutePressure::from_base(f64::NAN)), "map.manifold");
    assert_eq!(fault(&|at| at.manifold.to = AbsolutePressure::from_base(9e5)), "map.manifold");
    assert_eq!(fault(&|at| at.rpm.from = AngularVelocity::from_base(-1.0)), "map.rpm");
}

#[test]
fn arrangements_are_compared_over_one_grid() {
    let project = with(Arrangement::BreatherWithValve);
    let at = study::map_grid(&project, 5, 15).unwrap();
    let kind = MapCaseKind::Likely;
    let stuck = study::compare_maps(&project, &at, &Variant::ValveStuckShut).unwrap();
    for row in 0..15 {
        // Without its valve the crankcase stands higher.
        assert!(stuck.difference(0, row, kind).unwrap().base() > 0.0);
    }
    assert!(stuck.other.turns(kind).is_empty() && !stuck.present.turns(kind).is_empty());
    assert!(stuck.says(kind).show(UnitSystem::Us).contains("The valve stuck shut: the crankcase stands"));
    assert_eq!(stuck.difference(5, 0, kind), None);
    // The same arrangement, written out, is the same map.
    let same = study::compare_maps(&project, &at, &Variant::Other(Box::new(project.ventilation.clone()))).unwrap();
    assert_eq!(same.present.cells, same.other.cells);
    let others = Variant::others(&project.ventilation);
    assert_eq!(others.len(), 7);
    for other in others {
        study::compare_maps(&project, &at, &other).unwrap();
    }
    // A can in the valve's line goes with the valve.
    let mut canned = project;
    canned.ventilation.can.place = CanPlace::ValveLine;
    study::compare_maps(&canned, &at, &Variant::Arranged(Arrangement::BreatherOnly)).unwrap();
}

/// Duties that the map cannot show at one place are marked with their own values and said to be off the map.
#[test]
fn duties_of_one_manifold_pressure_are_told_apart() {
    let mut project = with(Arrangement::BreatherOnly);
    project.duty.points[Duty::Overrun.index()].manifold = Some(AbsolutePressure::from_base(45e3));
    project.duty.points[Duty::Idle.index()].manifold = Some(AbsolutePressure::from_base(35e3));
    project.duty.points[Duty::Cruise.index()].manifold = Some(AbsolutePressure::from_base(80e3));
    project.duty.points[Duty::Hill.index()].manifold = Some(AbsolutePressure::from_base(80e3));
    let answers = study::answer(&project).unwrap();
    let map = usual(&project);
    let on: Vec<bool> = map.marks.iter().map(|mark| mark.on_map).collect();
    assert_eq!(on, [true, false, true, true, false]);
    for mark in &map.marks {
        let own = answers.duties[mark.duty.index()].likely().gauge;
        assert_eq!(mark.cell.state().unwrap().likely.gauge, own);
        let here = at_duty(&project, &answers, mark.duty).likely.gauge;
        assert_eq!(close(here.base(), own.base(), 1e-3), mark.on_map, "{:?}", mark.duty);
    }
}

#[test]
fn cells_speak_plainly() {
    let map = usual(&with(Arrangement::BreatherWithValve));
    let stop = GaugePressure::from_base(2.5e3);
    let low = state(&map, 5, 8).lines(MapCaseKind::Likely, stop);
    let words: Vec<String> = low.iter().map(|line| line.show(UnitSystem::Si)).collect();
    assert!(
        words[0].starts_with("crankcase ") && words[0].contains("kPa") && words[0].contains("blow-by"),
        "{words:?}"
    );
    assert!(words[1].contains("the breather draws in") && words[1].contains("the valve takes"), "{words:?}");
    assert!(words[2].contains("holds") || words[2].contains("little left"), "{words:?}");
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(48))]

    /// Any project with answers has a map: finite numbers, lines within the grid, the duties' own values at the marks.
    #[test]
    fn any_project_with_answers_has_a_map(chance in chance()) {
        let project = chance.change(&demo());
        let Ok(answers) = study::answer(&project) else { return Ok(()) };
        if project.engine.fuel == EngineFuel::Diesel {
            return Ok(());
        }
        let at = study::map_grid(&project, 5, 9).unwrap();
        let map = study::map(&project, &at, &Variant::Present).unwrap();
        for state in map.cells.iter().filter_map(MapCell::state) {
            let case = |case: &MapCase| [case.blow_by.base(), case.gauge.base()];
            let numbers = [case(&state.likely), case(&state.high), [state.deepest.base(), state.pressure_limit.base()]];
            prop_assert!(numbers.iter().flatten().all(|number| number.is_finite()), "{state:?}");
        }
        let lines = map.turns.iter().chain(&map.limits).flatten().chain(&map.depths);
        for (rpm, manifold) in lines.flat_map(|line| &line.0) {
            let (x, y) = (at.rpm.place(*rpm), at.manifold.place(*manifold));
            prop_assert!((-1e-9..=4.0 + 1e-9).contains(&x) && (-1e-9..=8.0 + 1e-9).contains(&y), "{x} {y}");
        }
        for mark in &map.marks {
            let own = answers.duties[mark.duty.index()].likely().gauge;
            prop_assert_eq!(mark.cell.state().map(|state| state.likely.gauge), Some(own));
        }
        for kind in [MapCaseKind::Likely, MapCaseKind::High] {
            let words = map.says(kind).show(UnitSystem::Us);
            prop_assert!(!words.contains("NaN") && !words.contains("inf "), "{}", words);
        }
    }
}
