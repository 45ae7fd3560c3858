//! The PCV valve, whole: what it passes, its port, the mixture at idle, and what if it fails.

use crate::build::{answered, known, millimetres};
use coldmark::crankcase::element::{Element, End, Gas, Orifice};
use coldmark::crankcase::mixture::{FuelSystem, PortFinding, too_lean};
use coldmark::file::demo;
use coldmark::note::Weight;
use coldmark::quantity::si::{Area, Length, Pressure, VolumeRate};
use coldmark::quantity::{AbsolutePressure, Amount, Kind, Measured, SonicConductance, UnitSystem, celsius};
use coldmark::scribe::Silent;
use coldmark::study::{
    self, Answers, Bench, CanPlace, Duty, EngineFuel, Failure, FailureAnswers, FlowPath, FreshAirTaken, Induction,
    PortPlace, Project, RingCondition, Stands, State, ValveKind, VentilationArrangement as Arrangement,
};

/// The example with healthy rings, a breather and a valve.
fn healthy() -> Project {
    let mut project = demo();
    project.blow_by.leak_down.clear();
    project.blow_by.condition = RingCondition::RunIn;
    project.ventilation.arrangement = Arrangement::BreatherWithValve;
    project.ventilation.can.place = CanPlace::None;
    project
}

fn of_kind(kind: ValveKind) -> Project {
    let mut project = healthy();
    project.ventilation.valve.kind = kind;
    project
}

fn failure(answers: &Answers, wanted: Failure) -> &FailureAnswers {
    answers.failures.iter().find(|one| one.failure == wanted).unwrap()
}

fn gauge(of: &FailureAnswers, duty: Duty) -> f64 {
    of.duties[duty.index()].case().unwrap().gauge.base()
}

fn valve_flow(answers: &Answers, duty: Duty) -> f64 {
    answers.duties[duty.index()].likely().flow(FlowPath::Valve).unwrap().standard.base()
}

fn has(answers: &Answers, key: &str) -> bool {
    answers.notes.iter().any(|note| note.key == key)
}

fn words(sentence: &study::Sentence) -> String {
    sentence.show(UnitSystem::Si)
}

const KINDS: [ValveKind; 6] = [
    ValveKind::Plunger,
    ValveKind::SpringPlunger,
    ValveKind::Table,
    ValveKind::FixedOrifice,
    ValveKind::Check,
    ValveKind::Sonic,
];

/// Every kind answers, with its flow at idle and cruise, and its sections name chapters that are there.
#[test]
fn every_kind_of_valve_answers() {
    for kind in KINDS {
        let mut project = of_kind(kind);
        // Up to the depression of the overrun.
        project.ventilation.valve.bench.table.push((Pressure::from_base(90e3), VolumeRate::from_base(0.75e-3)));
        let answers = study::answer_with_working(&project).unwrap_or_else(|problems| panic!("{kind:?}: {problems}"));
        let valve = answers.valve.as_ref().unwrap();
        for duty in [Duty::Idle, Duty::Cruise] {
            let passes = valve.passes[duty.index()].as_ref().unwrap().base() * 6e4;
            assert!((20.0..200.0).contains(&passes), "{kind:?} {duty:?}: {passes} L/min");
        }
        assert_eq!(valve.shuts, if kind == ValveKind::Sonic { None } else { Some(true) }, "{kind:?}");
        let moves = matches!(kind, ValveKind::Plunger | ValveKind::SpringPlunger);
        assert_eq!(valve.moves_between.is_some(), moves, "{kind:?}");
        let sections = answers.sections();
        for key in ["pcv_valve", "idle_mixture", "failure_stuck_open", "failure_stuck_shut", "failure_breather_blocked"]
        {
            let section =
                sections.iter().find(|section| section.key == key).unwrap_or_else(|| panic!("{kind:?} {key}"));
            for row in section.rows.iter().filter(|row| !matches!(row.value, study::Value::Absent(_))) {
                let chapter = row.working.as_deref();
                let there = chapter.is_none_or(|key| answers.working.iter().any(|chapter| chapter.key == key));
                assert!(there, "{kind:?}: {} names {chapter:?}", row.key);
            }
        }
    }
}

/// With the valve shut every duty stands at least where it stood; with the valve open none stands higher, and of the duties
/// under the throttle the idle is deepest: least blow-by against the deepest manifold.
#[test]
fn stuck_valves_stand_where_they_are_feared() {
    for kind in KINDS {
        let mut project = of_kind(kind);
        project.duty.points[Duty::Idle.index()].manifold = Some(AbsolutePressure::from_base(30e3));
        project.ventilation.valve.bench.table.push((Pressure::from_base(90e3), VolumeRate::from_base(0.75e-3)));
        let answers = answered(&project);
        let (open, shut) = (failure(&answers, Failure::StuckOpen), failure(&answers, Failure::StuckShut));
        for duty in &answers.duties {
            assert!(gauge(shut, duty.duty) >= duty.high().gauge.base() - 1e-3, "{kind:?} {:?}", duty.duty);
            assert!(gauge(open, duty.duty) <= duty.deepest.gauge.base() + 1e-3, "{kind:?} {:?}", duty.duty);
        }
        for duty in [Duty::Cruise, Duty::Hill, Duty::FullThrottle] {
            assert!(gauge(open, Duty::Idle) <= gauge(open, duty) + 1.0, "{kind:?} {duty:?}");
        }
    }
}

/// Stuck shut is a breather alone.
#[test]
fn stuck_shut_is_a_breather_alone() {
    let project = healthy();
    let mut alone = project.clone();
    alone.ventilation.arrangement = Arrangement::BreatherOnly;
    let (answers, alone) = (answered(&project), answered(&alone));
    for duty in Duty::ALL {
        let shut = gauge(failure(&answers, Failure::StuckShut), duty);
        let breather = alone.duties[duty.index()].high().gauge.base();
        assert!((shut - breather).abs() < 0.02 * breather.abs() + 0.5, "{duty:?}: {shut} {breather}");
    }
}

/// A failure is not the normal state: it never reads worse than thin, whatever it does.
#[test]
fn a_failure_is_never_worse_than_thin() {
    let worn = answered(&demo());
    let verdict = worn.verdict("valve_sticks").unwrap();
    assert_eq!(verdict.state, State::Thin);
    assert!(words(verdict.mend.as_ref().unwrap()).contains("carries all the blow-by"));
    // What would happen is told as such, and not as if the failure were harmless.
    let margin = words(&verdict.margin);
    assert!(margin.starts_with("would not hold: ") && margin.ends_with(" kPa stuck shut, Full throttle"), "{margin}");
    assert!(words(&verdict.limit).starts_with("it has not failed: a warning"), "{}", words(&verdict.limit));
    let mut roomy = healthy();
    roomy.ventilation.breather.bore = millimetres(32.0);
    roomy.ventilation.breather.barb = None;
    roomy.ventilation.baffle_area = known(600e-6);
    roomy.ventilation.element.linear = known(1e4);
    roomy.ventilation.element.quadratic = known(1e7);
    let roomy = answered(&roomy);
    assert_eq!(roomy.verdict("valve_sticks").unwrap().state, State::Holds);
    assert!(roomy.verdict("valve_sticks").unwrap().mend.is_none());
    assert!(words(&roomy.verdict("valve_sticks").unwrap().margin).starts_with("would hold: "));
}

#[test]
fn nothing_leads_out_of_a_blocked_breather() {
    let mut project = healthy();
    project.ventilation.arrangement = Arrangement::BreatherOnly;
    let answers = study::answer_with_working(&project).unwrap();
    assert!(answers.valve.is_none() && answers.idle_mixture.is_none() && answers.verdict("valve_sticks").is_none());
    let [blocked] = answers.failures.as_slice() else { panic!("{} failures", answers.failures.len()) };
    assert_eq!(blocked.failure, Failure::BreatherBlocked);
    assert!(blocked.duties.iter().all(|duty| duty.stands == Stands::NoWayOut && duty.state == State::DoesNotHold));
    assert!(answers.working.iter().any(|chapter| chapter.key == blocked.failure.working(Duty::Idle)));
    // Of two breathers the other carries on.
    project.ventilation.arrangement = Arrangement::TwoBreathers;
    let two = answered(&project);
    let blocked = failure(&two, Failure::BreatherBlocked);
    for duty in &two.duties {
        assert!(gauge(blocked, duty.duty) >= duty.high().gauge.base());
    }
    // Without a breather a valve that sticks shut is the end.
    project.ventilation.arrangement = Arrangement::ValveOnly;
    let shut = answered(&project);
    assert_eq!(failure(&shut, Failure::StuckShut).worst().stands, Stands::NoWayOut);
    assert_eq!(shut.verdict("valve_sticks").unwrap().state, State::Thin);
}

/// What a valve passes as it is, and what a known orifice ahead of it would have read, are one valve.
#[test]
fn a_bench_with_a_known_orifice_equals_a_flow_table() {
    const ROOM: f64 = 101_325.0;
    let mut by_flow = of_kind(ValveKind::Table);
    let bench = &mut by_flow.ventilation.valve.bench;
    bench.table = [(5.0, 60.0), (20.0, 90.0), (50.0, 45.0), (78.0, 45.0)]
        .map(|(depression, litres)| (Pressure::from_base(depression * 1e3), VolumeRate::from_base(litres / 6e4)))
        .to_vec();
    let air = |pressure: f64| End { pressure: AbsolutePressure::from_base(pressure), temperature: celsius(20.0) };
    let flow = |area: Area, from: f64, to: f64| {
        let hole: Element = Orifice { effective_area: area }.into();
        hole.flow(air(from), air(to), Gas::default(), &mut Silent).unwrap().base()
    };
    let orifice = Area::from_base(0.62 * std::f64::consts::FRAC_PI_4 * 36e-6);
    let drops: Vec<(Pressure, Pressure)> = bench
        .table
        .iter()
        .map(|(depression, litres)| {
            let d = depression.base();
            // 1.2041 kg/m³ is the standard air of the table.
            let opening = litres.base() * 1.204_1 / flow(Area::from_base(1e-6), ROOM, ROOM - d) * 1e-6;
            let (mut low, mut high) = (0.0, ROOM - d - 2.0);
            for _ in 0..100 {
                let drop = 0.5 * (low + high);
                let ahead = ROOM - drop;
                if flow(orifice, ROOM, ahead) < flow(Area::from_base(opening), ahead, ahead - d) {
                    low = drop;
                } else {
                    high = drop;
                }
            }
            (*depression, Pressure::from_base(low))
        })
        .collect();
    let mut by_orifice = by_flow.clone();
    let bench = &mut by_orifice.ventilation.valve.bench;
    bench.read = Bench::Orifice;
    bench.orifice = millimetres(6.0);
    bench.discharge = known(0.62);
    bench.drops = drops;
    let (one, other) = (answered(&by_flow), answered(&by_orifice));
    for (one, other) in one.duties.iter().zip(&other.duties) {
        let (one, other) = (one.likely(), other.likely());
        assert!((one.gauge.base() - other.gauge.base()).abs() < 0.1, "{:?} {:?}", one.gauge, other.gauge);
        let flow = |case: &study::CrankcaseCase| case.flow(FlowPath::Valve).unwrap().out.base();
        assert!((flow(one) / flow(other) - 1.0).abs() < 1e-4);
    }
    // The flows of the bench are told, less than those with the full pressure ahead of the valve.
    let rows = &other.valve.as_ref().unwrap().bench;
    assert_eq!(rows.len(), 4);
    for (row, (depression, litres)) in rows.iter().zip(&by_flow.ventilation.valve.bench.table) {
        assert_eq!(row.depression, *depression);
        assert!(row.flow < *litres && row.flow.base() > 0.9 * litres.base(), "{:?} {litres:?}", row.flow);
    }
    let shown: Vec<String> = other
        .sections()
        .iter()
        .flat_map(|section| section.rows.clone())
        .filter(|row| row.key.starts_with("bench_"))
        .map(|row| row.value.show(UnitSystem::Si))
        .collect();
    assert!(shown.len() == 4 && shown[0].ends_with("L/min at 5 kPa across the valve"), "{shown:?}");
}

#[test]
fn faults_of_a_bench_name_their_row() {
    let mut project = of_kind(ValveKind::Table);
    let bench = &mut project.ventilation.valve.bench;
    bench.read = Bench::Orifice;
    bench.drops[1].1 = Pressure::from_base(0.0);
    let problems = study::answer(&project).unwrap_err();
    assert_eq!(problems.0[0].path, "ventilation.valve.drops");
    assert!(problems.0[0].message.starts_with("row 2: 20 kPa across the valve"), "{problems}");
    project.ventilation.valve.bench.drops.truncate(2);
    assert!(study::answer(&project).unwrap_err().to_string().contains("needs three rows or more"));
}

#[test]
fn a_plunger_that_does_not_fit_and_a_leak_too_wide_are_told() {
    let mut project = of_kind(ValveKind::SpringPlunger);
    project.ventilation.valve.spring.thick = millimetres(9.0);
    let problems = study::answer(&project).unwrap_err();
    assert_eq!(problems.0[0].path, "ventilation.valve.plunger_thick");
    assert!(problems.0[0].message.contains("narrower than the seat of 8 mm"), "{problems}");
    let mut project = of_kind(ValveKind::FixedOrifice);
    project.ventilation.valve.backfire_area = known(9e-6);
    assert_eq!(study::answer(&project).unwrap_err().0[0].path, "ventilation.valve.backfire_area");
}

/// Common practice, no source: before the throttle there is nothing to draw with at idle.
#[test]
fn a_port_before_the_throttle_draws_nothing_at_idle() {
    let mut project = healthy();
    let plenum = answered(&project);
    assert_eq!(plenum.valve.as_ref().unwrap().port, [PortFinding::Suits]);
    assert_eq!(plenum.verdict("pcv_port").unwrap().state, State::Holds);
    project.ventilation.valve.port.place = PortPlace::BeforeThrottle;
    let before = answered(&project);
    let (with, without) = (valve_flow(&plenum, Duty::Idle), valve_flow(&before, Duty::Idle));
    assert!(without < 0.2 * with, "{without} {with}");
    assert_eq!(before.verdict("pcv_port").unwrap().state, State::Thin);
    assert!(has(&before, "port-before-throttle"));
    let capacity = before.verdict("pcv_capacity").unwrap();
    assert_eq!(capacity.state, State::DoesNotHold);
    assert!(words(capacity.mend.as_ref().unwrap()).contains("behind the throttle"));
    // The carburettor's base lies behind the throttle.
    project.ventilation.valve.port.place = PortPlace::CarburettorBase;
    let base = answered(&project);
    assert!((valve_flow(&base, Duty::Idle) - with).abs() < 1e-12);
    assert_eq!(base.verdict("pcv_port").unwrap().state, State::Holds);
    project.ventilation.valve.port.place = PortPlace::BoosterTee;
    assert_eq!(answered(&project).verdict("pcv_port").unwrap().state, State::DoesNotHold);
}

#[test]
fn a_narrow_port_decides_the_flow() {
    let mut project = healthy();
    let wide = answered(&project);
    project.ventilation.valve.port.bore = Some(millimetres(1.5));
    let narrow = answered(&project);
    assert!(valve_flow(&narrow, Duty::Cruise) < 0.7 * valve_flow(&wide, Duty::Cruise));
    assert!(narrow.valve.as_ref().unwrap().port.contains(&PortFinding::NarrowerThanValve));
    assert_eq!(narrow.verdict("pcv_port").unwrap().state, State::Thin);
    project.ventilation.valve.port.bore = Some(millimetres(12.0));
    let enough = answered(&project);
    assert!((valve_flow(&enough, Duty::Cruise) / valve_flow(&wide, Duty::Cruise) - 1.0).abs() < 0.01);
    assert_eq!(enough.verdict("pcv_port").unwrap().state, State::Holds);
}

/// One runner takes all: that cylinder's share is the whole engine's times its cylinders.
#[test]
fn one_runner_makes_one_cylinder_lean() {
    let mut project = healthy();
    project.ventilation.valve.port.place = PortPlace::OneRunner;
    let answers = answered(&project);
    let idle = answers.idle_mixture.as_ref().unwrap().as_ref().unwrap();
    let own = idle.one_cylinder.as_ref().unwrap();
    let cylinders = f64::from(project.engine.cylinders);
    assert!((own.share.base() / (cylinders * idle.mixture.share.base()) - 1.0).abs() < 1e-12);
    let verdict = answers.verdict("idle_mixture").unwrap();
    assert!(words(verdict.mend.as_ref().unwrap()).contains("plenum"));
    // Too lean to fire: a cylinder that misses does not hold, by mixture and by port alike.
    assert!(own.change.unwrap() > too_lean().likely(), "{:?}", own.change);
    assert!(words(&verdict.reason).contains("far too lean to fire"), "{}", words(&verdict.reason));
    assert_eq!(verdict.state, State::DoesNotHold);
    let port = answers.verdict("pcv_port").unwrap();
    assert_eq!(port.state, State::DoesNotHold);
    assert!(words(&port.reason).contains("does not fire at idle"), "{}", words(&port.reason));
    // Fuel metered by the pressure in the manifold follows what comes by the valve: the cylinder fires.
    project.engine.mixture = FuelSystem::SpeedDensity;
    let answers = answered(&project);
    assert_eq!(answers.verdict("pcv_port").unwrap().state, State::Thin);
    assert_eq!(answers.verdict("idle_mixture").unwrap().state, State::Thin);
}

#[test]
fn what_does_not_shut_lets_a_flame_in() {
    let mut project = healthy();
    project.ventilation.valve.backfire_area = known(1e-6);
    let answers = answered(&project);
    assert_eq!(answers.valve.as_ref().unwrap().shuts, Some(false));
    assert!(has(&answers, "port-backfire"));
    let verdict = answers.verdict("pcv_port").unwrap();
    assert_eq!(verdict.state, State::DoesNotHold);
    assert!(words(&verdict.reason).contains("can burn"), "{}", words(&verdict.reason));
    let sonic = answered(&of_kind(ValveKind::Sonic));
    let verdict = sonic.verdict("pcv_port").unwrap();
    assert_eq!(verdict.state, State::NotKnown);
    assert!(words(verdict.mend.as_ref().unwrap()).contains("blow into"));
}

/// A hole that passes as much when choked and the component after ISO 6358 draw alike at idle.
#[test]
fn a_data_sheet_and_a_hole_agree_when_choked() {
    let mut sonic = of_kind(ValveKind::Sonic);
    sonic.ventilation.valve.conductance = SonicConductance::from_base(0.8e-8);
    sonic.ventilation.valve.critical_ratio = Measured::from_base(0.5);
    let mut check = of_kind(ValveKind::Check);
    check.ventilation.valve.check_area = Area::from_base(0.8e-8 / 0.1992e-2);
    check.ventilation.valve.check_opens_at = known(0.0);
    let (sonic, check) = (valve_flow(&answered(&sonic), Duty::Idle), valve_flow(&answered(&check), Duty::Idle));
    assert!((sonic / check - 1.0).abs() < 0.01, "{sonic} {check}");
}

/// Fresh air that nothing has counted leans a carburettor; a meter behind which it is taken has counted it; manifold
/// pressure counts all gas, burnt gas with it.
#[test]
fn the_mixture_hangs_on_what_counts_the_air() {
    let mut project = healthy();
    project.ventilation.arrangement = Arrangement::ClosedWithFreshAirLine;
    let change = |project: &Project| {
        let answers = answered(project);
        answers.idle_mixture.unwrap().unwrap().mixture.change.unwrap().base()
    };
    assert!(change(&project) > 0.01, "{}", change(&project));
    project.engine.mixture = FuelSystem::SpeedDensity;
    assert!((-0.05..0.0).contains(&change(&project)), "{}", change(&project));
    project.engine.mixture = FuelSystem::MassFlow;
    assert!(change(&project).abs() < 1e-12);
    project.engine.fresh_air = FreshAirTaken::BeforeMeter;
    assert!(change(&project) > 0.01);
    // A breather of its own is never counted.
    project.engine.fresh_air = FreshAirTaken::BehindMeter;
    project.ventilation.arrangement = Arrangement::BreatherWithValve;
    assert!(change(&project) > 0.01);
}

/// The idle cannot be set below what the valve passes, and a valve too wide for the engine is told.
#[test]
fn a_valve_too_wide_rules_the_idle() {
    let project = healthy();
    let answers = answered(&project);
    let idle = answers.idle_mixture.as_ref().unwrap().as_ref().unwrap();
    let rpm = project.duty.of(Duty::Idle).rpm.base();
    assert!((idle.least_speed.base() / (rpm * idle.mixture.share.base()) - 1.0).abs() < 1e-12);
    assert_eq!(answers.verdict("idle_mixture").unwrap().state, State::Holds);
    let mut wide = of_kind(ValveKind::Check);
    wide.ventilation.valve.check_area = Area::from_base(14e-6);
    let answers = answered(&wide);
    let share = answers.idle_mixture.as_ref().unwrap().as_ref().unwrap().mixture.share.base();
    assert!((0.2..1.0).contains(&share), "{share}");
    assert_eq!(answers.verdict("idle_mixture").unwrap().state, State::Thin);
    let shown = words(&answers.verdict("idle_mixture").unwrap().margin);
    assert!(shown.starts_with(&Amount::new(share_of(&answers), Kind::Share).show(UnitSystem::Si)), "{shown}");
}

fn share_of(answers: &Answers) -> f64 {
    answers.idle_mixture.as_ref().unwrap().as_ref().unwrap().mixture.share.base()
}

/// The spring's own depressions are told.
#[test]
fn a_spring_tells_where_it_moves() {
    let mut project = of_kind(ValveKind::SpringPlunger);
    let moves = |project: &Project| answered(project).valve.unwrap().moves_between.unwrap();
    let (begins, ends) = moves(&project);
    assert!((begins.base() / 8e3 - 1.0).abs() < 0.02 && (ends.base() / 50e3 - 1.0).abs() < 0.02);
    project.ventilation.valve.spring.rate = Measured::from_base(460.0);
    let (same, later) = moves(&project);
    assert_eq!(same, begins);
    assert!(later.base() > 1.7 * ends.base());
    assert!(has(&answered(&project), "plunger-not-home"));
    assert!(!has(&answered(&of_kind(ValveKind::SpringPlunger)), "plunger-not-home"));
    // A thinner plunger leaves more open at idle.
    let before = valve_flow(&answered(&of_kind(ValveKind::SpringPlunger)), Duty::Idle);
    let mut thin = of_kind(ValveKind::SpringPlunger);
    thin.ventilation.valve.spring.thick = Length::from_base(7.3e-3);
    assert!(valve_flow(&answered(&thin), Duty::Idle) > 1.2 * before);
}

/// Boost blows in through a valve that does not shut, and through one that is stuck open.
#[test]
fn boost_enters_by_a_valve_that_does_not_shut() {
    let mut project = healthy();
    project.engine.induction = Induction::Turbocharger;
    let full = Duty::FullThrottle;
    let tight = answered(&project);
    let open = failure(&tight, Failure::StuckOpen);
    let works = tight.duties[full.index()].high().gauge.base();
    assert!(gauge(open, full) > works + 100.0, "{} {works}", gauge(open, full));
    let weight = |answers: &Answers| answers.notes.iter().find(|note| note.key == "port-boost").unwrap().weight;
    // A plunger on its seat holds it off, and is no check valve.
    assert_eq!(tight.verdict("pcv_port").unwrap().state, State::Thin);
    project.ventilation.valve.backfire_area = known(1e-6);
    let leaky = answered(&project);
    assert_eq!(weight(&leaky), Weight::Danger);
    assert!(leaky.duties[full.index()].high().gauge.base() > works + 10.0);
    assert_eq!(leaky.verdict("pcv_port").unwrap().state, State::DoesNotHold);
}

/// More air through a diesel makes no difference to its mixture.
#[test]
fn a_diesel_has_no_mixture_to_upset() {
    let mut project = healthy();
    project.engine.fuel = EngineFuel::Diesel;
    project.engine.compression_ratio = Measured::from_base(19.0);
    project.duty.points[Duty::FullThrottle.index()].power = Measured::from_base(90e3);
    project.duty.points[Duty::Hill.index()].power = Measured::from_base(40e3);
    for point in &mut project.duty.points {
        point.manifold = None;
    }
    let answers = answered(&project);
    assert!(answers.idle_mixture.is_none() && answers.verdict("idle_mixture").is_none());
    assert!(answers.valve.is_some() && answers.failures.len() == 3);
}
