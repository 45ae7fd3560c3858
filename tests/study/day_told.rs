//! What is told of a day: no event too small or twice, nothing lost in silence, the unfavourable end beside each verdict.

use crate::day::{day, hard, minutes, sound, told, verdict};
use coldmark::day::{CapState, Drive, EventKind, ExtremeOf};
use coldmark::file::demo;
use coldmark::quantity::si::{Length, Volume};
use coldmark::quantity::{Estimate, Measured, UnitSystem, celsius};
use coldmark::study::{self, DayAnswers, LegInputs, LegKind, Project, ShapeKind, State, TankArrangement, VentKind};
use proptest::prelude::*;

/// Events are neither trifles nor pieces of one another, and agree with the samples.
pub fn well_told(drive: &Drive) -> Result<(), TestCaseError> {
    let mut ends = [f64::NEG_INFINITY; 4];
    let mut passed = drive.trifles.out_mass.base() - drive.trifles.back_mass.base();
    for event in &drive.events {
        passed += match event.kind {
            EventKind::CapOpens { mass, .. } => mass.base(),
            EventKind::VacuumValveOpens { mass, .. } => -mass.base(),
            EventKind::CoolantBoils { blown_out, .. } => blown_out.base(),
            _ => 0.0,
        };
        let (which, moved) = match event.kind {
            EventKind::CapOpens { coolant, air, .. } => (0, coolant + air),
            EventKind::VacuumValveOpens { coolant, air, .. } => (1, coolant + air),
            EventKind::CoolantBoils { .. } => (2, Volume::from_base(1.0)),
            EventKind::PassageBoils { .. } => (3, Volume::from_base(1.0)),
            _ => continue,
        };
        prop_assert!(moved.base() >= 5e-6, "{event:?}");
        prop_assert!(event.time.base() > ends[which] + 180.0, "{event:?} after {}", ends[which]);
        ends[which] = event.kind.until().unwrap().base();
    }
    // What passed the cap adds up to what is out, to a millilitre.
    if let (Some(first), Some(last)) = (drive.samples.first(), drive.samples.last()) {
        let out = last.out.base() - first.out.base();
        prop_assert!((passed - out).abs() < 1e-3, "{passed} passed the cap, {out} is out: {:?}", drive.events);
    }
    // Where a passage boils a sample shows it, however short, and the other way round.
    let least = drive.samples.iter().map(|sample| sample.margin.base()).fold(f64::INFINITY, f64::min);
    prop_assert_eq!(ends[3] > f64::NEG_INFINITY, least <= 0.0, "{} K", least);
    for soak in &drive.soaks {
        prop_assert!(soak.came_back.is_none_or(|share| (0.0..=1.0).contains(&share.base())), "{soak:?}");
    }
    Ok(())
}

fn tank(day: &DayAnswers) -> String {
    day.says_tank().show(UnitSystem::Si)
}

/// Every verdict that the day speaks to has the day's unfavourable figure; a vented tank's pressure it does not follow.
#[test]
fn each_verdict_has_the_unfavourable_figure_of_the_day() {
    let mut sealed = demo();
    sealed.tank.vent = VentKind::Sealed;
    let mut header = demo();
    header.tank.arrangement = TankArrangement::HeaderTank;
    header.tank.cold_level = None;
    header.tank.cushion = Volume::from_base(0.9e-3);
    let always = ["boiling", "hot_stop", "cooling"];
    for (project, more) in [
        (demo(), ["tank_volume", "dip_tube", "return"].as_slice()),
        (sealed, &["tank_volume", "dip_tube", "return", "tank_vent"]),
        (header, &["air_cushion"]),
    ] {
        let day = day(&project);
        for key in always.iter().chain(more) {
            let said = told(verdict(&day, key));
            assert!(said.contains("at the day's unfavourable end "), "{key}: {said}");
        }
    }
    let vented = day(&demo());
    assert_eq!(
        vented.verdicts.iter().find(|one| one.key == "tank_vent"),
        study::answer(&demo()).unwrap().verdict("tank_vent")
    );
    let words = |section: study::Section| section.rows.iter().map(|row| row.label.clone()).collect::<Vec<_>>();
    let worst = vented.sections().into_iter().find(|section| section.key == "day_worst").map(words).unwrap();
    assert!(!worst.iter().any(|label| label.contains(ExtremeOf::TankPressure.name())), "{worst:?}");
}

/// The example's day has more margin than its duties held for long, and less at its unfavourable end: the verdict says both.
#[test]
fn a_day_worse_at_its_unfavourable_end_is_told() {
    let mut project = demo();
    hard(&mut project);
    let day = day(&project);
    let boiled = day.unfavourable.samples.last().unwrap().lost.base();
    let likely = day.drive.samples.last().unwrap().lost.base();
    assert!(boiled > 0.1 && likely < 1e-3, "{boiled} {likely}");
    let said = told(verdict(&day, "tank_volume"));
    assert!(said.contains("is lost as steam, where the day is the worse"), "{said}");
    assert!(tank(&day).contains("At the unfavourable end") && tank(&day).contains("is lost"), "{}", tank(&day));
}

/// What is spilled does not come back, though the tank's reserve fills the system again.
#[test]
fn spilled_coolant_is_not_told_as_back() {
    let mut project = demo();
    project.tank.height = Length::from_base(0.09);
    let day = day(&project);
    sound(&day).unwrap();
    let lost = day.drive.samples.last().unwrap().lost.base();
    assert!(lost > 0.05, "{lost}");
    assert!(tank(&day).contains("is lost for good"), "{}", tank(&day));
    let back = verdict(&day, "return");
    assert_eq!(back.state, State::DoesNotHold);
    assert!(told(back).contains("is lost for good"), "{}", told(back));
}

/// Without air to cushion it the pressure falls within seconds, and the hottest passage boils between two samples.
#[test]
fn a_short_boil_is_in_the_worst_of_the_day() {
    let mut project = demo();
    project.circuit.trapped_air = Some(Estimate::exact(Volume::from_base(0.0)));
    let day = day(&project);
    sound(&day).unwrap();
    let short = |event: &&coldmark::day::Event| matches!(event.kind, EventKind::PassageBoils { until } if until.base() - event.time.base() < 10.0);
    assert!(day.drive.events.iter().any(|event| short(&event)), "{:?}", day.drive.events);
    assert!(day.extreme(ExtremeOf::Margin).unwrap().margin.base() <= 0.0);
    assert_eq!(verdict(&day, "boiling").state, State::DoesNotHold);
}

/// A header tank that overflows is not said to take what comes.
#[test]
fn a_header_tank_that_overflows_says_what_is_lost() {
    let mut project = demo();
    project.tank.arrangement = TankArrangement::HeaderTank;
    project.tank.shape = ShapeKind::UprightCylinder;
    project.tank.diameter = Length::from_base(0.12);
    project.tank.height = Length::from_base(0.16);
    project.tank.cold_level = None;
    project.tank.cushion = Volume::from_base(0.2e-3);
    let day = day(&project);
    sound(&day).unwrap();
    let said = tank(&day);
    assert!(said.contains("does not keep its coolant") && !said.contains("to spare"), "{said}");
    assert_eq!(verdict(&day, "air_cushion").state, State::DoesNotHold);
}

/// A day that boils dry: cut short, and the headline says both.
#[test]
fn a_day_cut_short_says_so_first() {
    let mut project = boils();
    project.day.legs.truncate(1);
    let day = day(&project);
    sound(&day).unwrap();
    assert!(day.drive.cut_short.is_some());
    let said = tank(&day);
    assert!(said.starts_with("The day could be followed only to ") && said.contains("is lost as steam"), "{said}");
    assert!(told(verdict(&day, "tank_volume")).contains("is lost as steam"));
    assert_eq!(verdict(&day, "tank_volume").state, State::DoesNotHold);
}

fn boils() -> Project {
    let mut project = demo();
    hard(&mut project);
    project.surroundings.hottest = coldmark::quantity::celsius(45.0);
    project.day.legs = vec![LegInputs {
        kind: LegKind::FullThrottle,
        air: project.surroundings.hottest,
        speed: Measured::from_base(60.0 / 3.6),
        lasts: minutes(30.0),
        ..LegInputs::default()
    }];
    project
}

/// The share of a stop that comes back is of all that was out, and is told so; small volumes are in millilitres.
#[test]
fn a_stop_says_of_what_its_share_is() {
    let day = day(&demo());
    let section = day.sections().into_iter().find(|section| section.key == "day_stops").unwrap();
    let words: Vec<_> = section.rows.iter().map(|row| row.value.show(UnitSystem::Si)).collect();
    let stop = words.iter().find(|words| words.contains("comes back")).unwrap_or_else(|| panic!("{words:?}"));
    assert!(stop.contains("of all the coolant then out of the system") && stop.contains(" mL;"), "{stop}");
    let events = day.sections().into_iter().find(|section| section.key == "day_events").unwrap();
    let valve = |words: &str| words.contains("the cap lets") || words.contains("the vacuum valve lets");
    let told: Vec<_> =
        events.rows.iter().map(|row| row.value.show(UnitSystem::Si)).filter(|words| valve(words)).collect();
    assert!(told.len() < 12 && told.iter().any(|words| words.contains(" mL of coolant")), "{told:?}");
    assert!(!told.iter().any(|words| words.contains(" 0.0")), "{told:?}");
}

/// The cushion of a header tank is cooler than the engine: after a boil the pressure follows the engine's coolant down, and
/// no air comes in while that would still boil. A gauge that read nothing there would have a cap opened on hot coolant.
#[test]
fn the_pressure_does_not_fall_below_what_the_hottest_coolant_makes() {
    let mut project = demo();
    hard(&mut project);
    project.tank.arrangement = TankArrangement::HeaderTank;
    project.tank.shape = ShapeKind::UprightCylinder;
    project.tank.diameter = Length::from_base(0.12);
    project.tank.height = Length::from_base(0.16);
    project.tank.cold_level = None;
    project.tank.cushion = Volume::from_base(0.9e-3);
    let day = day(&project);
    sound(&day).unwrap();
    let boils = |event: &coldmark::day::Event| matches!(event.kind, EventKind::CoolantBoils { .. });
    assert!(day.drive.events.iter().any(boils), "{:?}", day.drive.events);
    let open = study::answer(&project).unwrap().coolant.boiling_open;
    let excess = study::defaults::local_excess().likely.base();
    let mut above = 0;
    for drive in [&day.drive, &day.unfavourable] {
        for sample in &drive.samples {
            // The passage's excess apart, no coolant stands hotter than it boils.
            assert!(sample.margin.base() > -excess - 0.05, "{sample:?}");
            if sample.coolant.base() > open.base() + 0.1 && sample.engine_speed.base() == 0.0 {
                assert!(sample.gauge.base() > 0.0, "{sample:?}");
                above += 1;
            }
        }
    }
    assert!(above > 100, "{above}");
}

/// 700 m above 600 m the standard atmosphere has 7.9 kPa less than 94.3 kPa. Behind 90 kPa and at 399 K that takes
/// T²·R·Δp/(h·p) = 399²·461.5·7.9/(2.19e6·184.3) K = 1.4 K by Clausius and Clapeyron.
#[test]
fn a_climb_says_what_its_thinner_air_takes() {
    let mut project = demo();
    let noted = |project: &Project| {
        let notes = day(project).notes;
        notes.into_iter().find(|note| note.key == "day-climb").map(|note| note.text)
    };
    let said = noted(&project).unwrap();
    assert!(said.contains("700 m higher the coolant boils 1.4 K sooner"), "{said}");
    project.day.legs.retain(|leg| leg.kind != LegKind::Climb);
    assert_eq!(noted(&project), None);
}

/// Air that came in where coolant was wanted is told with the share that came back.
#[test]
fn air_in_the_place_of_coolant_is_told() {
    let mut project = demo();
    project.tank.tube_end = Length::from_base(0.06);
    let said = tank(&day(&project));
    assert!(said.contains("has come back; ") && said.contains(" of air came in where coolant was wanted"), "{said}");
}

/// An engine is said to be still warm only while it is warmer than the air; after a night that ends warmer than the day
/// began what is told is the coolant's temperature.
#[test]
fn a_cold_engine_is_not_said_to_be_warm() {
    let mut project = demo();
    let leg = LegInputs { kind: LegKind::Steady, air: celsius(2.0), lasts: minutes(40.0), ..LegInputs::default() };
    let park = LegInputs { kind: LegKind::Park, air: celsius(18.0), falls_to: celsius(17.0), ..LegInputs::default() };
    project.day.legs = vec![leg, LegInputs { lasts: minutes(1500.0), ..park.clone() }];
    let cold = day(&project);
    let end = cold.drive.samples.last().unwrap();
    assert!(end.coolant.base() - end.air.base() < 5.0, "{end:?}");
    assert!(!tank(&cold).contains("warm") && tank(&cold).contains("where the day began at 2.0 °C"), "{}", tank(&cold));
    project.day.legs[1].lasts = minutes(60.0);
    assert!(tank(&day(&project)).contains("the engine being still warm"), "{}", tank(&day(&project)));
}

/// Through a night the valve lets in so slowly that a step moves a hundredth of a millilitre: while coolant comes back the
/// cap is not said to be shut, and the events hold all of it.
#[test]
fn a_slow_night_is_in_the_events() {
    let day = day(&demo());
    let night = day.legs.len() - 1;
    let (mut falls, mut shut) = (0, 0);
    for pair in day.drive.samples.windows(2).filter(|pair| pair[0].leg == night) {
        if pair[1].out.base() < pair[0].out.base() - 1e-6 {
            falls += 1;
            shut += usize::from(pair[1].cap == CapState::Shut);
        }
    }
    // Only in the last step before a sample may the valve just have shut.
    assert!(falls > 500 && shut < 10, "{shut} of {falls}");
}

/// A stopped engine makes no gas: its zero is not told as the highest crankcase pressure of a day that draws throughout.
#[test]
fn the_highest_crankcase_pressure_is_of_a_turning_engine() {
    let mut project = demo();
    let leg = |kind| LegInputs { kind, air: celsius(20.0), falls_to: celsius(20.0), ..LegInputs::default() };
    project.day.legs = vec![
        LegInputs { lasts: minutes(10.0), ..leg(LegKind::Idle) },
        LegInputs { lasts: minutes(60.0), ..leg(LegKind::Park) },
    ];
    let day = day(&project);
    let draws = |(sample, crankcase): (&coldmark::day::Sample, &study::CrankcaseSample)| {
        sample.engine_speed.base() == 0.0 || crankcase.gauge.unwrap().base() < 0.0
    };
    assert!(day.drive.samples.iter().zip(&day.crankcase).all(draws), "the example draws at idle");
    let sections = day.sections();
    let section = sections.iter().find(|section| section.key == "day_crankcase").unwrap();
    let row = section.rows.iter().find(|row| row.key == "crankcase_highest").unwrap();
    let words = format!("{:?}", row.value);
    assert!(!words.contains("Park"), "{words}");
}
