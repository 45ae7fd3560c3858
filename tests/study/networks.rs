//! The worked gas networks (`tests/reference/crank_network_nodes.csv`, solved with scipy) told to the program as projects.
//!
//! The network of two breathers behind unequal baffles cannot be said in a project, which has one baffle area. The others
//! can; temperatures, gas, elements and valves are the same. Pressures agree within 3 %: the blow-by is brought about by a
//! flow-meter reading, and the bends' loss coefficients are the program's own.

use crate::build::{answered, known, millimetres, with_blow_by};
use coldmark::quantity::si::{Area, Length, Power, Pressure};
use coldmark::quantity::{AbsolutePressure, Measured, celsius, pascals};
use coldmark::study::{
    CanPlace, CrankcaseCase, Duty, DutyAnswers, ElementInputs, FlowPath, LineInputs, Project, State, ValveKind,
    VentilationArrangement,
};

/// Gauge pressure of the crankcase in a worked network, Pa.
fn expected(network: &str) -> f64 {
    let path = std::path::Path::new(env!("CARGO_MANIFEST_DIR")).join("tests/reference/crank_network_nodes.csv");
    let mut reader = csv::Reader::from_path(path).unwrap();
    let row = reader.records().map(Result::unwrap).find(|row| &row[0] == network && &row[2] == "cc");
    row.unwrap_or_else(|| panic!("no network {network}"))[7].parse().unwrap()
}

fn line(bore: f64, length: f64, bends: u32) -> LineInputs {
    LineInputs { bore: millimetres(bore), length: Length::from_base(length), bends, ..LineInputs::default() }
}

/// Sea level, 25 °C outside, 90 °C in the crankcase, a baffle of 60 mm², a small filter.
fn base(arrangement: VentilationArrangement) -> Project {
    let mut project = Project::blank();
    project.surroundings.altitude = Length::from_base(0.0);
    project.surroundings.hottest = celsius(25.0);
    project.blow_by.gas_temperature = known(363.15);
    project.duty.filter_depression = known(0.0);
    for point in &mut project.duty.points {
        point.power = Power::from_base(point.power.value.min(60e3));
    }
    let ventilation = &mut project.ventilation;
    ventilation.arrangement = arrangement;
    ventilation.baffle_area = known(60e-6);
    ventilation.element = ElementInputs { linear: known(2e5), quadratic: known(3e8), ..ElementInputs::default() };
    ventilation.breather = line(16.0, 0.6, 2);
    project
}

/// The generic valve of a 2.0 L four, or of a 5.0 L V8.
fn valve(project: &mut Project, open: f64, idle: f64) {
    let ventilation = &mut project.ventilation;
    ventilation.valve.kind = ValveKind::Plunger;
    ventilation.valve.open_area = Area::from_base(open * 1e-6);
    ventilation.valve.idle_area = Area::from_base(idle * 1e-6);
    ventilation.valve.begins = Pressure::from_base(8e3);
    ventilation.valve.ends = Pressure::from_base(50e3);
}

fn at(project: &Project, duty: Duty, manifold: f64, grams: f64) -> DutyAnswers {
    let mut project = project.clone();
    project.duty.points[duty.index()].manifold = Some(AbsolutePressure::new(pascals(manifold)));
    let project = with_blow_by(&project, duty, grams);
    answered(&project).duties[duty.index()].clone()
}

fn gauge(case: &CrankcaseCase) -> f64 {
    case.gauge.above_ambient().value
}

fn out(case: &CrankcaseCase, path: FlowPath) -> f64 {
    case.flow(path).unwrap().out.value * 1e3
}

fn agrees(found: f64, expected: f64) {
    assert!((found / expected - 1.0).abs() < 0.03, "{found} Pa, expected {expected} Pa");
}

#[test]
fn one_open_breather() {
    let answer = at(&base(VentilationArrangement::BreatherOnly), Duty::FullThrottle, 98e3, 0.55);
    agrees(gauge(answer.likely()), expected("N1_breather_only_I4_wot"));
    assert!((out(answer.likely(), FlowPath::Breather) - 0.55).abs() < 1e-3);
}

#[test]
fn breather_and_valve_at_idle_draw_fresh_air() {
    let mut project = base(VentilationArrangement::BreatherWithValve);
    project.ventilation.breather = line(16.0, 0.4, 2);
    valve(&mut project, 8.0, 2.2);
    let answer = at(&project, Duty::Idle, 35e3, 0.12);
    agrees(gauge(answer.likely()), expected("N2a_breather_pcv_idle"));
    assert!((out(answer.likely(), FlowPath::Valve) - 0.4721).abs() < 0.005);
    assert!((out(answer.likely(), FlowPath::Breather) + 0.3521).abs() < 0.005);
}

#[test]
fn breather_and_valve_at_full_throttle_both_carry() {
    let mut project = base(VentilationArrangement::BreatherWithValve);
    project.ventilation.breather = line(16.0, 0.4, 2);
    valve(&mut project, 8.0, 2.2);
    let answer = at(&project, Duty::FullThrottle, 98e3, 1.6);
    agrees(gauge(answer.likely()), expected("N2b_breather_pcv_wot_worn"));
    assert!((out(answer.likely(), FlowPath::Valve) - 0.680).abs() < 0.01);
    assert!((out(answer.likely(), FlowPath::Breather) - 0.920).abs() < 0.01);
}

#[test]
fn a_closed_system_at_idle_and_at_full_throttle() {
    let mut project = base(VentilationArrangement::ClosedWithFreshAirLine);
    project.ventilation.breather = line(16.0, 0.5, 2);
    valve(&mut project, 12.0, 4.0);
    let idle = at(&project, Duty::Idle, 40e3, 0.3);
    // The network's air cleaner lies 20 Pa below the air at idle, the project's at nought.
    agrees(gauge(idle.likely()), expected("N3a_closed_idle") + 20.0);
    assert!(out(idle.likely(), FlowPath::Breather) < -0.5);
    project.duty.filter_depression = known(1500.0);
    let full = at(&project, Duty::FullThrottle, 97e3, 1.1);
    agrees(gauge(full.likely()), expected("N3b_closed_wot"));
    assert!((out(full.likely(), FlowPath::Breather) - 0.245).abs() < 0.02, "gas goes to the air cleaner");
}

#[test]
fn a_vented_can_costs_pressure() {
    let project = base(VentilationArrangement::BreatherOnly);
    let without = at(&project, Duty::FullThrottle, 98e3, 1.1);
    let mut with_can = project;
    with_can.ventilation.breather = line(16.0, 1.2, 2);
    with_can.ventilation.can.place = CanPlace::BreatherLine;
    with_can.ventilation.can.bore = millimetres(16.0);
    let answer = at(&with_can, Duty::FullThrottle, 98e3, 1.1);
    agrees(gauge(answer.likely()), expected("N5_vented_can"));
    assert!(gauge(answer.likely()) > gauge(without.likely()));
}

#[test]
fn an_undersized_hose_raises_it_sevenfold() {
    let mut project = base(VentilationArrangement::BreatherOnly);
    project.ventilation.breather = line(6.0, 1.0, 2);
    let answer = at(&project, Duty::FullThrottle, 98e3, 0.55);
    agrees(gauge(answer.likely()), expected("N6_undersized_hose"));
    assert!(gauge(answer.likely()) > 7.0 * expected("N1_breather_only_I4_wot"));
    let (tightest, drop) = answer.likely().flow(FlowPath::Breather).unwrap().tightest.clone().unwrap();
    assert_eq!(tightest, "hose");
    assert!(drop.value > 0.8 * gauge(answer.likely()));
}

#[test]
fn a_sealed_can_before_the_valve_changes_little() {
    let mut project = base(VentilationArrangement::ClosedWithFreshAirLine);
    project.ventilation.breather = line(16.0, 0.5, 2);
    valve(&mut project, 8.0, 2.2);
    let without = at(&project, Duty::Cruise, 50e3, 0.25);
    project.ventilation.can.place = CanPlace::ValveLine;
    project.ventilation.can.bore = millimetres(9.5);
    project.ventilation.valve_line = line(9.5, 0.8, 2);
    let answer = at(&project, Duty::Cruise, 50e3, 0.25);
    // The network's air cleaner lies 100 Pa below the air. The difference left is a few pascals.
    let deeper = expected("N7_closed_can_pcv_cruise") + 100.0;
    assert!((gauge(answer.likely()) - deeper).abs() < 1.0, "{} {deeper}", gauge(answer.likely()));
    assert!(out(answer.likely(), FlowPath::Breather) < -0.2, "fresh air still comes in");
    let lost = out(without.likely(), FlowPath::Valve) - out(answer.likely(), FlowPath::Valve);
    assert!((0.0..0.02).contains(&lost), "{lost}");
}

#[test]
fn a_fixed_orifice_at_cruise() {
    let mut project = base(VentilationArrangement::ClosedWithFreshAirLine);
    project.ventilation.breather = line(16.0, 0.5, 2);
    project.ventilation.valve.kind = ValveKind::FixedOrifice;
    // Effective area 3.5 mm² behind the program's discharge coefficient.
    let discharge = coldmark::crankcase::element::FixedOrificeValve::default().discharge.value;
    let bore = (4.0 * 3.5 / discharge / std::f64::consts::PI).sqrt();
    project.ventilation.valve.orifice = millimetres(bore);
    let answer = at(&project, Duty::Cruise, 50e3, 0.25);
    let deeper = expected("N8_fixed_orifice_pcv_cruise") + 100.0;
    agrees(gauge(answer.likely()), deeper);
    assert!((out(answer.likely(), FlowPath::Valve) - 0.7505).abs() < 0.01);
}

#[test]
fn a_valve_and_no_other_way_pulls_until_a_seal_gives() {
    let mut project = base(VentilationArrangement::ValveOnly);
    valve(&mut project, 8.0, 2.2);
    project.duty.points[Duty::Idle.index()].manifold = Some(AbsolutePressure::new(pascals(35e3)));
    let project = with_blow_by(&project, Duty::Idle, 0.12);
    let answers = answered(&project);
    let idle = answers.duties[Duty::Idle.index()].likely();
    let deep = expected("N9_pcv_no_fresh_air_idle");
    let all = std::iter::once(gauge(idle)).chain(idle.others.iter().map(|gauge| gauge.above_ambient().value));
    assert!(
        all.clone().any(|found| (found / deep - 1.0).abs() < 0.01),
        "{:?}, expected {deep}",
        all.collect::<Vec<_>>()
    );
    assert_eq!(answers.verdict("crankcase_pressure").unwrap().state, State::DoesNotHold);
}
