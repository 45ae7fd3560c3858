//! Lines, elements and cans as a project tells them.

use crate::build::{answered, known, millimetres};
use crate::random::chance;
use coldmark::crankcase::oil::CanInside;
use coldmark::file::demo;
use coldmark::quantity::si::{Length, Pressure, Ratio, VolumeRate};
use coldmark::quantity::{Estimate, Measured, UnitSystem};
use coldmark::study::{
    self, Answers, CanPlace, Duty, ElementKnowledge, GasSource, InlineKind, Project, State, Value,
    VentilationArrangement as Arrangement,
};
use proptest::prelude::*;

fn with(arrangement: Arrangement) -> Project {
    let mut project = demo();
    project.ventilation.arrangement = arrangement;
    project
}

fn litres(value: f64) -> VolumeRate {
    VolumeRate::from_base(value * 1e-3 / 60.0)
}

/// Likely and unfavourable gauge pressures of every duty.
fn gauges(answers: &Answers) -> Vec<f64> {
    answers.duties.iter().flat_map(|duty| [duty.likely().gauge.base(), duty.unfavourable.gauge.base()]).collect()
}

fn same(one: &Answers, other: &Answers) {
    for (a, b) in gauges(one).into_iter().zip(gauges(other)) {
        assert!((a - b).abs() < 1e-6 * a.abs() + 1e-4, "{a} {b}");
    }
}

fn has(answers: &Answers, key: &str) -> bool {
    answers.notes.iter().any(|note| note.key == key)
}

fn mend(answers: &Answers, key: &str) -> String {
    answers.verdict(key).unwrap().mend.as_ref().unwrap().show(UnitSystem::Si)
}

/// One law, told three ways.
#[test]
fn figures_and_measured_points_of_one_law_agree() {
    let mut figures = with(Arrangement::BreatherOnly);
    figures.ventilation.element.linear = known(2e5);
    figures.ventilation.element.quadratic = known(3e8);
    let mut point = figures.clone();
    point.ventilation.element.knowledge = ElementKnowledge::OnePoint;
    point.ventilation.element.flow = litres(60.0);
    point.ventilation.element.pressure = Pressure::from_base(500.0);
    point.ventilation.element.linear_share = known(0.4);
    let mut points = figures.clone();
    points.ventilation.element.knowledge = ElementKnowledge::Points;
    points.ventilation.element.points = [30.0, 60.0, 120.0]
        .map(|q| (litres(q), Pressure::from_base(2e5 * q / 6e4 + 3e8 * (q / 6e4) * (q / 6e4))))
        .to_vec();
    let [figures, point, points] = [figures, point, points].map(|project| answered(&project));
    same(&figures, &point);
    same(&figures, &points);
    let element = points.lines.element.unwrap();
    assert!((element.pressure.base() - 500.0).abs() < 1e-6 && (element.unfavourable.base() - 2500.0).abs() < 1e-6);
}

/// What is not measured of one point is at its unfavourable end on either side of it.
#[test]
fn the_share_of_one_point_is_judged_either_way() {
    let mut project = with(Arrangement::BreatherOnly);
    let element = &mut project.ventilation.element;
    element.knowledge = ElementKnowledge::OnePoint;
    element.loading = known(1.0);
    for flow in [6.0, 60.0, 400.0_f64] {
        let mut project = project.clone();
        project.ventilation.element.flow = litres(flow);
        let answers = answered(&project);
        let mut ends: Vec<f64> = Vec::new();
        for share in [0.1, 0.9] {
            let mut exact = project.clone();
            exact.ventilation.element.linear_share = known(share);
            exact.ventilation.baffle_area = Some(Estimate::exact(exact.ventilation.baffle().low));
            exact.ventilation.second_baffle_area = exact.ventilation.baffle_area;
            ends.push(answered(&exact).duties[Duty::FullThrottle.index()].likely().gauge.base());
        }
        let worst = answers.duties[Duty::FullThrottle.index()].unfavourable.gauge.base();
        let expected = ends.iter().copied().fold(f64::NEG_INFINITY, f64::max);
        assert!((worst / expected - 1.0).abs() < 1e-6, "{flow}: {worst} {ends:?}");
    }
}

/// The usual filter's dirty end is five times the clean one, by figures as by loading, and not twenty-five times.
#[test]
fn dirt_is_counted_once() {
    let project = with(Arrangement::BreatherOnly);
    let mut exact = project.clone();
    exact.ventilation.element.linear = known(2e5);
    exact.ventilation.element.quadratic = known(3e8);
    let (usual, loaded) = (answered(&project), answered(&exact));
    same(&usual, &loaded);
    // A clean element that stays clean has nothing unfavourable but the baffle.
    exact.ventilation.element.loading = known(1.0);
    let clean = answered(&exact).lines.element.unwrap();
    assert_eq!(clean.pressure, clean.unfavourable);
}

#[test]
fn a_sag_of_nothing_is_no_sag_and_one_of_something_is_told() {
    let mut project = with(Arrangement::BreatherOnly);
    let without = answered(&project);
    project.ventilation.breather.sag = Some(Length::from_base(0.0));
    let nothing = answered(&project);
    same(&without, &nothing);
    assert!(!has(&nothing, "sag-holds-oil") && nothing.verdicts == without.verdicts);
    project.ventilation.breather.sag = Some(millimetres(60.0));
    let sagging = study::answer_with_working(&project).unwrap();
    let head = 850.0 * 9.806_65 * 0.06;
    assert!((sagging.lines.sags[0].opens_at.base() - head).abs() < 1e-6);
    for (wet, dry) in gauges(&sagging).into_iter().zip(gauges(&without)) {
        assert!((wet - dry - head).abs() < 0.05 * head, "{wet} {dry}");
    }
    let note = sagging.notes.iter().find(|note| note.key == "sag-holds-oil").unwrap();
    assert!(note.text.contains("60 mm shut the breather until 500 Pa"), "{}", note.text);
    assert!(sagging.working.iter().any(|chapter| chapter.key == "lines"));
}

#[test]
fn a_cross_over_lowers_the_pressure_of_a_lone_breather() {
    let mut project = with(Arrangement::BreatherOnly);
    let apart = answered(&project);
    project.ventilation.crossover.known = true;
    let joined = answered(&project);
    for (joined, apart) in joined.duties.iter().zip(&apart.duties) {
        assert!(joined.likely().gauge < apart.likely().gauge && joined.likely().crossover.is_some());
    }
    let section = joined.sections().into_iter().find(|section| section.key == "lines").unwrap();
    assert!(section.rows.iter().any(|row| row.key == "crossover_idle" && matches!(row.value, Value::Amount(_))));
}

#[test]
fn the_place_the_gas_is_taken_from_brings_its_own_passage() {
    let cover = answered(&with(Arrangement::BreatherOnly));
    let mut project = with(Arrangement::BreatherOnly);
    project.ventilation.baffle_area = None;
    project.ventilation.source = GasSource::Sump;
    let sump = answered(&project);
    assert!(has(&sump, "taken-from") && !has(&cover, "taken-from"));
    let full = Duty::FullThrottle.index();
    assert!(sump.duties[full].likely().gauge < cover.duties[full].likely().gauge);
    // No gas passes the cover, so that nothing holds the oil up there.
    assert_eq!(sump.duties[full].likely().cover_gauge, sump.duties[full].likely().gauge);
}

/// A can's losses, its mesh, and a can in either line cost pressure.
#[test]
fn what_a_can_costs() {
    let mut project = with(Arrangement::TwoBreathers);
    project.ventilation.can.place = CanPlace::BreatherLine;
    let full = |project: &Project| answered(project).duties[Duty::FullThrottle.index()].likely().gauge.base();
    let one = full(&project);
    let mut both = project.clone();
    both.ventilation.can.in_both = true;
    let answers = answered(&both);
    assert!(full(&both) > one);
    assert_eq!(answers.verdict("breather").unwrap().state, State::Holds);
    let mut rough = project.clone();
    rough.ventilation.can.inlet_loss = known(8.0);
    assert!(full(&rough) > one);
    let mut mesh = project.clone();
    mesh.ventilation.can.volume = Some(Measured::from_base(1e-3));
    mesh.ventilation.can.inside = CanInside::Mesh;
    let without = full(&mesh);
    mesh.ventilation.can.mesh_depth = Some(millimetres(60.0));
    mesh.ventilation.can.area = Measured::from_base(3e-4);
    assert!(full(&mesh) > without);
    let mut mouth = project;
    mouth.ventilation.mesh.known = true;
    assert!(full(&mouth) > one);
}

/// The drain needs the head of what the sump stands above the can, and of the check.
#[test]
fn a_can_drains_by_its_height() {
    let mut project = with(Arrangement::BreatherOnly);
    project.ventilation.can.place = CanPlace::BreatherLine;
    project.ventilation.can.drain.known = true;
    project.ventilation.can.drain.height = millimetres(20.0);
    let low = study::answer_with_working(&project).unwrap();
    let verdict = low.verdict("can_drain").unwrap();
    assert_eq!(verdict.state, State::DoesNotHold);
    assert!(low.working.iter().any(|chapter| chapter.key == verdict.working));
    let worst = low.lines.worst_can_drain().unwrap();
    let case = low.duties[worst.0.duty.index()].high();
    let against = case.gauge.base() - case.can_gauge.unwrap().base() + 200.0;
    assert!((worst.1.stands.base() - against / (850.0 * 9.806_65)).abs() < 1e-6);
    // Raised as told, it drains.
    let told = verdict.mend.as_ref().unwrap().amount();
    if let Some(height) = told {
        project.ventilation.can.drain.height = Length::from_base(height.base);
        assert_eq!(answered(&project).verdict("can_drain").unwrap().state, State::Holds);
    }
    project.ventilation.can.drain.height = Length::from_base(1.5);
    project.ventilation.can.drain.check_opening = known(0.0);
    assert_eq!(answered(&project).verdict("can_drain").unwrap().state, State::Holds);
}

/// A check valve that lets no air in takes the fresh air away: taking it out is the first mend told.
#[test]
fn a_check_against_the_fresh_air_is_taken_out_first() {
    let mut project = with(Arrangement::BreatherWithValve);
    project.ventilation.breather.inline = InlineKind::CheckOutwards;
    let answers = answered(&project);
    assert_eq!(answers.verdict("crankcase_pressure").unwrap().state, State::DoesNotHold);
    let told = mend(&answers, "crankcase_pressure");
    assert!(told.contains("breather line without its check valve"), "{told}");
}

/// The smallest of the changes told, made in the project, mends it.
#[test]
fn the_first_mend_told_holds() {
    let mut project = with(Arrangement::BreatherOnly);
    project.blow_by.leak_down.clear();
    project.blow_by.condition = study::RingCondition::RunIn;
    project.ventilation.breather.barb = Some(millimetres(5.0));
    project.ventilation.limits.load = known(3e3);
    project.ventilation.limits.light = known(2e3);
    let answers = answered(&project);
    assert_eq!(answers.verdict("crankcase_pressure").unwrap().state, State::DoesNotHold);
    let told = mend(&answers, "crankcase_pressure");
    assert!(told.starts_with("fittings as wide as the hose"), "{told}");
    project.ventilation.breather.barb = None;
    assert_ne!(answered(&project).verdict("crankcase_pressure").unwrap().state, State::DoesNotHold);
}

/// A breather too narrow for the valve: a wider way, told with its bore, mends the depression.
#[test]
fn a_deep_depression_is_mended_with_numbers() {
    let mut project = with(Arrangement::BreatherWithValve);
    project.blow_by.leak_down.clear();
    project.blow_by.condition = study::RingCondition::RunIn;
    project.ventilation.breather.barb = Some(millimetres(3.0));
    let answers = answered(&project);
    assert_eq!(answers.verdict("crankcase_pressure").unwrap().state, State::DoesNotHold);
    let told = mend(&answers, "crankcase_pressure");
    assert!(told.starts_with("fittings as wide as the hose, 16 mm"), "{told}");
    project.ventilation.breather.barb = None;
    let mended = answered(&project);
    assert!(mended.duties.iter().all(|duty| duty.depression_state() != State::DoesNotHold));
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 40, max_shrink_iters: 60, max_global_rejects: 20_000, ..ProptestConfig::default() })]

    /// A loaded element never lowers a pressure that stands above the air.
    #[test]
    fn loading_never_lowers_the_pressure(chance in chance(), more in 1.05..4.0_f64) {
        let mut project = chance.change(&demo());
        project.ventilation.arrangement = Arrangement::BreatherOnly;
        let loading = project.ventilation.element.loading.unwrap_or_else(study::defaults::filter_loading);
        project.ventilation.element.loading = Some(loading);
        let mut loaded = project.clone();
        loaded.ventilation.element.loading =
            Some(loading.map(|one| Ratio::from_base((one.base() * more).min(20.0))));
        let (Ok(clean), Ok(loaded)) = (study::answer(&project), study::answer(&loaded)) else {
            return Err(TestCaseError::reject("no answer"));
        };
        for (dirty, clean) in gauges(&loaded).into_iter().zip(gauges(&clean)) {
            prop_assert!(dirty >= clean - 1e-4 * clean.abs() - 0.01, "{dirty} {clean}");
        }
    }
}
