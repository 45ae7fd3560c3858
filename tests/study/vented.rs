//! What is said of valve, breather and can holds when it is followed, and nothing said contradicts the rest.

use crate::build::{answered, known, millimetres};
use coldmark::crankcase::mixture::PortFinding;
use coldmark::file::demo;
use coldmark::quantity::si::{Area, Length, Pressure, Ratio, VolumeRate};
use coldmark::quantity::{Estimate, Measured, SonicConductance, UnitSystem};
use coldmark::study::{
    Answers, CanPlace, Duty, ElementKnowledge, EngineFuel, Failure, Induction, InlineKind, PortPlace, Project,
    RingCondition, Stands, State, ValveKind, VentilationArrangement as Arrangement,
};

fn healthy(arrangement: Arrangement) -> Project {
    let mut project = demo();
    project.blow_by.leak_down.clear();
    project.blow_by.condition = RingCondition::RunIn;
    project.ventilation.arrangement = arrangement;
    project.ventilation.can.place = CanPlace::None;
    project
}

fn boosted() -> Project {
    let mut project = healthy(Arrangement::BreatherWithValve);
    project.engine.induction = Induction::Turbocharger;
    project
}

fn diesel() -> Project {
    let mut project = healthy(Arrangement::BreatherWithValve);
    project.engine.fuel = EngineFuel::Diesel;
    project.engine.compression_ratio = Measured::from_base(19.0);
    project.duty.points[Duty::FullThrottle.index()].power = Measured::from_base(90e3);
    project.duty.points[Duty::Hill.index()].power = Measured::from_base(40e3);
    for point in &mut project.duty.points {
        point.manifold = None;
    }
    project
}

fn mend(answers: &Answers, key: &str) -> String {
    let mend = answers.verdict(key).unwrap().mend.as_ref();
    mend.map_or_else(String::new, |mend| mend.show(UnitSystem::Si))
}

fn margin(answers: &Answers, key: &str) -> String {
    answers.verdict(key).unwrap().margin.show(UnitSystem::Si)
}

fn state(answers: &Answers, key: &str) -> State {
    answers.verdict(key).unwrap().state
}

fn port(answers: &Answers) -> &[PortFinding] {
    &answers.valve.as_ref().unwrap().port
}

/// The words of a row.
fn row(answers: &Answers, section: &str, key: &str) -> String {
    let section = answers.sections().into_iter().find(|one| one.key == section).unwrap();
    let row = section.rows.into_iter().find(|row| row.key == key).unwrap();
    row.value.show(UnitSystem::Si)
}

fn stands(answers: &Answers, failure: Failure, duty: Duty) -> &Stands {
    let one = answers.failures.iter().find(|one| one.failure == failure).unwrap();
    &one.duties[duty.index()].stands
}

#[test]
fn boost_wants_a_check_valve() {
    let mut project = boosted();
    let seat = answered(&project);
    assert_eq!(port(&seat), [PortFinding::BoostOnSeat]);
    assert_eq!(state(&seat, "pcv_port"), State::Thin);
    assert!(mend(&seat, "pcv_port").contains("check valve"));
    // Stuck open is told for what it is: boost in the crankcase, not a wider breather.
    assert!(mend(&seat, "valve_sticks").contains("tight check valve"));
    assert!(row(&seat, "failure_stuck_open", "means").contains("Boost blows"));
    assert!(row(&seat, "pcv_valve", "passes_full_throttle").contains("shut"));
    project.ventilation.valve.kind = ValveKind::Check;
    let checked = answered(&project);
    assert_eq!(port(&checked), [PortFinding::Suits]);
    assert_eq!(state(&checked, "pcv_port"), State::Holds);
    // What it leaves open is not told as shut.
    let told =
        |answers: &Answers| answers.notes.iter().find(|note| note.key == "boosted-manifold").unwrap().text.clone();
    assert!(told(&seat).contains("reckoned shut") && told(&checked).contains("is shut"));
    project.ventilation.valve.kind = ValveKind::Plunger;
    project.ventilation.valve.backfire_area = known(1e-6);
    let leaky = answered(&project);
    assert!(told(&leaky).contains("leaves open lets boost"), "{}", told(&leaky));
    project.ventilation.valve.backfire_area = None;
    // C and b are reckoned open both ways.
    project.ventilation.valve.kind = ValveKind::Sonic;
    project.ventilation.valve.conductance = SonicConductance::from_base(1e-8);
    let open = answered(&project);
    assert!(port(&open).contains(&PortFinding::BoostEnters));
    assert_eq!(state(&open, "pcv_port"), State::DoesNotHold);
}

#[test]
fn a_diesel_is_sent_to_the_air_cleaner_and_not_back() {
    let mut project = diesel();
    let plenum = answered(&project);
    assert_eq!(port(&plenum), [PortFinding::NoThrottle]);
    assert!(mend(&plenum, "pcv_port").contains("clean side"));
    project.ventilation.valve.port.place = PortPlace::BeforeThrottle;
    let clean = answered(&project);
    assert_eq!(port(&clean), [PortFinding::CleanSide]);
    assert_eq!(state(&clean, "pcv_port"), State::Holds);
    for key in ["pcv_port", "pcv_capacity"] {
        let told = mend(&clean, key);
        assert!(!told.contains("port behind the throttle") && !told.contains("clean side"), "{key}: {told}");
    }
    assert!(clean.notes.iter().any(|note| note.key == "diesel-runs-away"));
}

#[test]
fn every_fault_of_a_port_has_its_mend() {
    let mut project = healthy(Arrangement::BreatherWithValve);
    project.ventilation.valve.port.place = PortPlace::BoosterTee;
    project.ventilation.valve.port.bore = Some(millimetres(2.0));
    project.ventilation.valve.backfire_area = known(2e-6);
    let told = mend(&answered(&project), "pcv_port");
    for wanted in ["port of its own", "a valve that seats", "as wide as the valve"] {
        assert!(told.contains(wanted), "{told}");
    }
    assert!(told.find("seats") < told.find("as wide"), "the dangerous first: {told}");
}

/// A check that lets only air in leaves nothing but the valve.
#[test]
fn a_breather_that_lets_nothing_out_is_no_way_out() {
    let mut project = healthy(Arrangement::BreatherWithValve);
    project.blow_by.condition = RingCondition::Worn;
    project.ventilation.breather.inline = InlineKind::CheckInwards;
    let answers = answered(&project);
    for duty in Duty::ALL {
        assert_eq!(stands(&answers, Failure::StuckShut, duty), &Stands::NoWayOut, "{duty:?}");
    }
    assert!(!row(&answers, "failure_stuck_shut", "means").contains("carries all the gas"));
    assert!(answers.duties.iter().any(|duty| duty.high().gauge.base() > 0.0));
    assert_eq!(margin(&answers, "breather"), "lets no gas out");
}

/// With the only way in blocked, rings that draw up deepen the depression without end.
#[test]
fn a_blocked_way_in_is_told() {
    let mut project = healthy(Arrangement::TwoBreathers);
    project.ventilation.breather.inline = InlineKind::CheckInwards;
    project.ventilation.second.inline = InlineKind::CheckOutwards;
    let answers = answered(&project);
    assert!(answers.duties[Duty::Overrun.index()].blow_by.net.low.base() < 0.0);
    assert_eq!(stands(&answers, Failure::BreatherBlocked, Duty::Overrun), &Stands::NoWayIn);
    assert!(row(&answers, "failure_breather_blocked", "overrun").contains("until a seal leaks"));
}

#[test]
fn a_valve_stuck_open_is_told_by_what_it_does() {
    let mut project = healthy(Arrangement::BreatherWithValve);
    project.ventilation.breather.barb = None;
    project.ventilation.breather.bore = millimetres(32.0);
    project.ventilation.baffle_area = Some(Estimate::exact(Area::from_base(1000e-6)));
    project.ventilation.element.knowledge = ElementKnowledge::OnePoint;
    project.ventilation.element.pressure = Pressure::from_base(10.0);
    let wide = answered(&project);
    assert!(row(&wide, "failure_stuck_open", "means").starts_with("the crankcase bears"));
    project.ventilation.breather.barb = Some(millimetres(6.0));
    let narrow = answered(&project);
    assert!(row(&narrow, "failure_stuck_open", "means").starts_with("under depression seals are drawn in"));
}

/// Ahead of the throttle the gas is metered with the air.
#[test]
fn a_port_ahead_of_the_throttle_does_not_upset_the_mixture() {
    let mut project = healthy(Arrangement::BreatherWithValve);
    assert!(answered(&project).idle_mixture.is_some());
    project.ventilation.valve.port.place = PortPlace::BeforeThrottle;
    assert!(answered(&project).idle_mixture.is_none());
}

/// A sealed crankcase draws no fresh air, not some rounding of it.
#[test]
fn no_fresh_air_is_none() {
    let project = healthy(Arrangement::ValveOnly);
    let answers = answered(&project);
    let mixture = answers.idle_mixture.as_ref().unwrap().as_ref().unwrap().mixture;
    assert_eq!(mixture.fresh_air.base(), 0.0);
    assert!(row(&answers, "idle_mixture", "means").contains("draws no fresh air"));
}

#[test]
fn a_can_whose_drain_is_held_up_does_not_drain_by_itself() {
    let mut project = healthy(Arrangement::BreatherOnly);
    project.ventilation.can.place = CanPlace::BreatherLine;
    project.ventilation.can.volume = Some(Measured::from_base(1e-3));
    project.ventilation.can.drain.known = true;
    project.ventilation.can.drain.height = Length::from_base(1.4);
    let runs = answered(&project);
    assert_eq!(state(&runs, "can_drain"), State::Holds);
    assert!(margin(&runs, "catch_can").contains("by itself"), "{}", margin(&runs, "catch_can"));
    project.ventilation.can.drain.height = Length::from_base(0.02);
    let held = answered(&project);
    assert_eq!(state(&held, "can_drain"), State::DoesNotHold);
    assert!(!margin(&held, "catch_can").contains("by itself"));
    assert!(mend(&held, "catch_can").contains("make its drain run"));
}

#[test]
fn a_can_under_depression_is_emptied_with_the_engine_off() {
    let mut project = healthy(Arrangement::BreatherWithValve);
    project.ventilation.can.place = CanPlace::ValveLine;
    project.ventilation.valve_line.barb = Some(millimetres(2.0));
    project.ventilation.can.drain.known = true;
    let answers = answered(&project);
    assert_eq!(state(&answers, "can_drain"), State::DoesNotHold);
    let told = mend(&answers, "can_drain");
    assert!(told.contains("engine off") && !told.contains("lower the crankcase pressure"), "{told}");
}

/// The figure behind some words.
fn behind(told: &str, words: &str) -> Option<f64> {
    told.split(words).nth(1)?.split_whitespace().next()?.trim_end_matches([',', ';']).parse().ok()
}

/// Pressure and depression both fail: what is told first, done as it is told, mends both.
#[test]
fn what_mends_both_limits_holds_when_done() {
    let mut tried = 0;
    for second in [None, Some(50e-6)] {
        let mut project = healthy(Arrangement::BreatherWithValve);
        project.blow_by.condition = RingCondition::Worn;
        project.ventilation.breather.inline = InlineKind::CheckOutwards;
        project.ventilation.second_baffle_area = second.map(|area| Estimate::exact(Area::from_base(area)));
        let before = answered(&project);
        assert_eq!(state(&before, "crankcase_pressure"), State::DoesNotHold);
        assert!(before.duties.iter().any(|duty| duty.depression_state() == State::DoesNotHold));
        let told = mend(&before, "crankcase_pressure");
        let told = told.split("; or ").next().unwrap();
        assert!(told.contains("breather line without its check valve"), "{told}");
        let ventilation = &mut project.ventilation;
        ventilation.breather.inline = InlineKind::None;
        if let Some(bore) = behind(told, "a breather line of ") {
            ventilation.breather.bore = millimetres(bore);
        }
        if told.contains("fittings as wide as the hose") || told.contains("bore throughout") {
            ventilation.breather.barb = None;
        }
        if let (Some(drop), Some(flow)) = (behind(told, "no more than "), behind(told, "kPa at ")) {
            ventilation.element.knowledge = ElementKnowledge::OnePoint;
            ventilation.element.flow = VolumeRate::from_base(flow * 1e-3 / 60.0);
            ventilation.element.pressure = Pressure::from_base(drop * 1e3);
        }
        let now = ventilation.baffle().likely;
        if let Some(area) = behind(told, "baffles of ").or_else(|| behind(told, "baffle of ")) {
            let times = Ratio::from_base(area * 1e-6 / now.base());
            ventilation.baffle_area = Some(ventilation.baffle().map(|one| one * times));
            tried += 1;
        }
        if let Some(area) = behind(told, "in the other cover, ") {
            assert!(second.is_some());
            ventilation.second_baffle_area = Some(Estimate::exact(Area::from_base(area * 1e-6)));
        } else {
            assert!(second.is_none() || !told.contains("baffle"), "the second baffle is widened unsaid: {told}");
        }
        let after = answered(&project);
        assert_ne!(
            state(&after, "crankcase_pressure"),
            State::DoesNotHold,
            "{told}: {}",
            margin(&after, "crankcase_pressure")
        );
    }
    assert!(tried > 0, "no baffle was asked for");
}

/// A valve that passes on the bench what is asked for draws the whole high blow-by when it is fitted.
#[test]
fn the_valve_asked_for_is_enough_when_fitted() {
    let mut project = healthy(Arrangement::BreatherWithValve);
    project.blow_by.condition = RingCondition::Worn;
    let before = answered(&project);
    assert_ne!(state(&before, "pcv_capacity"), State::Holds);
    let told = mend(&before, "pcv_capacity");
    let flow = behind(&told, "a valve that passes ").unwrap_or_else(|| panic!("{told}"));
    assert!(told.contains("of air at 20 °C"), "{told}");
    let kilopascals = |value: f64| Pressure::from_base(value * 1e3);
    let litres = |value: f64| VolumeRate::from_base(value * 1e-3 / 60.0);
    let valve = &mut project.ventilation.valve;
    valve.kind = ValveKind::Table;
    // As much at idle and cruise alike, choked.
    valve.bench.table = vec![
        (kilopascals(0.0), litres(0.0)),
        (kilopascals(5.0), litres(0.6 * flow)),
        (kilopascals(40.0), litres(flow)),
        (kilopascals(95.0), litres(flow)),
    ];
    let after = answered(&project);
    assert_eq!(state(&after, "pcv_capacity"), State::Holds, "{told}: {}", margin(&after, "pcv_capacity"));
}

/// A diesel's usual way: one line to the clean side of the air cleaner. Nothing asks for a valve, and no gas goes into the open.
#[test]
fn a_line_to_the_air_cleaner_needs_no_valve() {
    let mut project = diesel();
    project.ventilation.arrangement = Arrangement::LineToAirCleaner;
    project.ventilation.breather.bore = millimetres(25.0);
    project.ventilation.can.place = CanPlace::None;
    let answers = answered(&project);
    for key in ["pcv_valve", "pcv_capacity", "pcv_port", "valve_sticks", "idle_mixture"] {
        assert!(answers.verdict(key).is_none(), "{key}");
    }
    let words = |key: &str| {
        let verdict = answers.verdict(key).unwrap();
        [Some(&verdict.margin), Some(&verdict.limit), Some(&verdict.reason), verdict.mend.as_ref()]
            .into_iter()
            .flatten()
            .map(|words| words.show(UnitSystem::Si))
            .collect::<Vec<_>>()
            .join("; ")
    };
    assert!(words("breather").contains("into the air cleaner"), "{}", words("breather"));
    // The filter's depression draws: the crankcase stands lower than with the same line into the open.
    let full = |project: &Project| answered(project).duties[Duty::FullThrottle.index()].likely().gauge.base();
    let mut open = project.clone();
    open.ventilation.arrangement = Arrangement::BreatherOnly;
    open.ventilation.element.linear = Some(Estimate::exact(Measured::from_base(0.0)));
    open.ventilation.element.quadratic = Some(Estimate::exact(Measured::from_base(0.0)));
    assert!(full(&project) < full(&open) - 100.0, "{} {}", full(&project), full(&open));
    project.ventilation.breather.bore = millimetres(8.0);
    project.ventilation.breather.barb = None;
    let narrow = answered(&project);
    let mend = narrow.verdict("crankcase_pressure").unwrap().mend.as_ref().unwrap().show(UnitSystem::Si);
    assert!(mend.contains("line to the air cleaner") && !mend.contains("valve"), "{mend}");
}
