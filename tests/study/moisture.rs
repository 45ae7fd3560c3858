//! Water in the crankcase, the oil's way back, and what a can collects: facts of the trade, told by whole projects.

use crate::build::{answered, known, litres, metered};
use coldmark::crankcase::moisture::MoistureFinding;
use coldmark::crankcase::oil::CanInside;
use coldmark::file::demo;
use coldmark::quantity::si::{Area, Length, Velocity};
use coldmark::quantity::{Measured, UnitSystem, celsius};
use coldmark::study::{Answers, CanPlace, Duty, Part, Project, State, VentilationArrangement as Arrangement, Verdict};

/// A healthy engine of little blow-by with a valve that draws far more.
fn fresh() -> Project {
    let mut project = demo();
    metered(&mut project, 20.0);
    project
}

fn verdict<'a>(answers: &'a Answers, key: &str) -> &'a Verdict {
    answers.verdict(key).unwrap()
}

fn words(answers: &Answers, key: &str) -> String {
    verdict(answers, key).reason.show(UnitSystem::Si)
}

/// A cover as cold as the air gets wet, and fresh air is what dries it.
#[test]
fn a_cold_cover_needs_fresh_air() {
    let mut project = fresh();
    project.ventilation.wall_share = known(0.35);
    project.ventilation.arrangement = Arrangement::BreatherOnly;
    let stale = answered(&project);
    assert_eq!(verdict(&stale, "moisture").state, State::DoesNotHold, "{}", words(&stale, "moisture"));
    assert!(words(&stale, "moisture").contains("no fresh air"));
    let mend = verdict(&stale, "moisture").mend.as_ref().unwrap().show(UnitSystem::Si);
    assert!(mend.contains("of fresh air"), "{mend}");
    project.ventilation.arrangement = Arrangement::BreatherWithValve;
    let vented = answered(&project);
    let trip = vented.moisture.worst_trip().unwrap();
    assert!(trip.dilution.low.base() > 1.0, "{:?}", trip.dilution);
    assert!(verdict(&vented, "moisture").state < State::DoesNotHold, "{}", words(&vented, "moisture"));
    assert!(vented.moisture.worst_trip().unwrap().least_margin() > stale.moisture.worst_trip().unwrap().least_margin());
}

/// Insulation does what a warm day does.
#[test]
fn a_warm_wall_stays_dry() {
    let mut project = demo();
    project.ventilation.arrangement = Arrangement::BreatherOnly;
    project.ventilation.wall_share = known(0.2);
    let states = |project: &Project| verdict(&answered(project), "moisture").state;
    assert_eq!(states(&project), State::DoesNotHold);
    project.ventilation.wall_share = known(1.0);
    assert_eq!(states(&project), State::Holds);
    project.ventilation.wall_share = known(0.2);
    // A wall as cold as frost is wet whatever air is drawn.
    project.surroundings.coldest = celsius(-40.0);
    project.ventilation.wall_share = known(0.0);
    let answers = answered(&project);
    assert_eq!(answers.moisture.worst_trip().unwrap().at.finding, MoistureFinding::WetWhatever);
    assert!(answers.notes.iter().any(|note| note.key == "crankcase-ice"));
    assert!(!verdict(&answers, "moisture").mend.as_ref().unwrap().show(UnitSystem::Si).contains("at least"));
}

/// A warmer thermostat leaves more above the dew point, by the share of the way that the wall takes.
#[test]
fn a_warmer_thermostat_leaves_more_margin() {
    let mut project = demo();
    project.ventilation.wall_share = known(0.5);
    let answers = answered(&project);
    let margins: Vec<(f64, f64)> =
        answers.set_points.iter().map(|row| (row.set_point.value, row.dew_margin.as_ref().unwrap().base())).collect();
    assert!(margins.len() >= 5);
    for pair in margins.windows(2) {
        let (warmer, more) = (pair[1].0 - pair[0].0, pair[1].1 - pair[0].1);
        assert!((more - 0.5 * warmer).abs() < 1e-6, "{warmer} K warmer, {more} K more");
    }
    let fitted = answers.set_points.iter().find(|row| row.fitted).unwrap();
    let trip = answers.moisture.worst_trip().unwrap();
    assert_eq!(fitted.dew_margin.as_ref().unwrap(), &trip.least_margin().unwrap());
}

/// The head of a column of oil against the pressure it must come down against: ρ g h of 850 kg/m³.
#[test]
fn oil_comes_back_only_down_a_drain_tall_enough() {
    let mut project = demo();
    let full = |project: &Project| {
        let answers = answered(project);
        let drain = answers.oil.drains[Duty::FullThrottle.index()].clone().unwrap();
        let case = answers.duties[Duty::FullThrottle.index()].high().clone();
        (answers, drain, case)
    };
    project.ventilation.drain_height = known(0.5);
    let (answers, drain, case) = full(&project);
    let holds_up = case.gauge.base() - case.cover_gauge.base();
    assert!(holds_up > 100.0 && (drain.likely.holds_up.base() - holds_up).abs() < 1e-9);
    assert!((drain.likely.head.base() - 850.0 * 9.80665 * 0.5).abs() < 1e-6);
    assert_eq!(verdict(&answers, "oil_return").state, State::Holds);
    // A drain of just the height that the pressure holds up is the least.
    let least = holds_up / (850.0 * 9.80665);
    project.ventilation.drain_height = known(least * 1.01);
    assert!(full(&project).1.likely.returns());
    project.ventilation.drain_height = known(least * 0.99);
    let (answers, drain, _) = full(&project);
    assert!(!drain.likely.returns());
    assert_eq!(verdict(&answers, "oil_return").state, State::DoesNotHold);
    // The mend: a wider way for the gas.
    project.ventilation.baffle_area = known(600e-6);
    assert_eq!(verdict(&answered(&project), "oil_return").state, State::Holds);
}

fn with_can() -> Project {
    let mut project = demo();
    project.ventilation.arrangement = Arrangement::BreatherOnly;
    project.ventilation.can.place = CanPlace::BreatherLine;
    project.ventilation.can.volume = Some(litres(1.0));
    project.ventilation.can.inside = CanInside::Baffled;
    project.ventilation.can.area = Area::from_base(50e-4);
    project.ventilation.can.service = Length::from_base(1e6);
    project
}

#[test]
fn a_can_of_known_volume_says_what_it_collects() {
    let project = with_can();
    let answers = answered(&project);
    let cruise = answers.oil.can.iter().find(|can| can.duty == Duty::Cruise).unwrap();
    let (carried, collected) = cruise.filled.as_ref().unwrap();
    // No more oil than reaches it.
    assert!(collected.oil.likely.base() <= carried.oil.likely.base());
    // At half the mean speed a thousand kilometres take twice the hours.
    let mut slow = project.clone();
    slow.ventilation.can.mean_speed = Velocity::from_base(project.ventilation.can.mean_speed.base() / 2.0);
    let per = |project: &Project| {
        let answers = answered(project);
        let can = answers.oil.can.iter().find(|can| can.duty == Duty::Cruise).unwrap().filled.clone().unwrap();
        (can.1.volume_per_thousand.likely.base(), can.1.drain_after[1].unwrap().base())
    };
    let (one, two) = (per(&project), per(&slow));
    assert!((two.0 / one.0 - 2.0).abs() < 1e-9 && (one.1 / two.1 - 2.0).abs() < 1e-9);
    // Half of the litre over what collects in a thousand kilometres.
    assert!((one.1 - 0.5e-3 / one.0 * 1e6).abs() < 1.0);
    assert!(answers.notes.iter().any(|note| note.key == "can-full-to-air"));
    assert!(answers.sections_of(Part::CatchCan).iter().any(|section| section.key == "can_cruise"));
}

/// Without its volume, or without a can, nothing is said.
#[test]
fn a_can_of_unknown_volume_says_nothing() {
    let mut project = with_can();
    project.ventilation.can.volume = None;
    assert!(answered(&project).oil.can.is_empty());
    project.ventilation.can.volume = Some(litres(1.0));
    project.ventilation.can.place = CanPlace::None;
    assert!(answered(&project).oil.can.is_empty());
}

/// With a valve that draws air in by the breather nothing reaches the can at cruise.
#[test]
fn a_can_where_air_is_drawn_in_stays_empty() {
    let mut project = fresh();
    project.ventilation.arrangement = Arrangement::BreatherWithValve;
    project.ventilation.can.place = CanPlace::BreatherLine;
    project.ventilation.can.volume = Some(litres(1.0));
    let answers = answered(&project);
    let cruise = answers.oil.can.iter().find(|can| can.duty == Duty::Cruise).unwrap();
    assert!(cruise.filled.as_ref().unwrap_err().contains("nothing collects"));
}
