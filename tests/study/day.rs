//! A day of a project through time: books, order, the tank, and what no ordinary car has.

use crate::day_told::well_told;
use crate::random::{Paths, chance};
use coldmark::day::{CapState, EventKind, ExtremeOf, Sample};
use coldmark::file::demo;
use coldmark::quantity::si::{Length, Ratio, Velocity, Volume};
use coldmark::quantity::{Amount, Estimate, Kind, Measured, UnitSystem, celsius};
use coldmark::study::{
    self, DayAnswers, LegInputs, LegKind, Project, ShapeKind, State, TankArrangement, VentKind, Verdict,
};
use proptest::prelude::*;

pub fn day(project: &Project) -> DayAnswers {
    study::day(project).unwrap_or_else(|problems| panic!("{problems}"))
}

pub fn verdict<'d>(day: &'d DayAnswers, key: &str) -> &'d Verdict {
    day.verdicts.iter().find(|verdict| verdict.key == key).unwrap_or_else(|| panic!("no verdict {key}"))
}

pub fn told(verdict: &Verdict) -> String {
    format!("{} | {}", verdict.margin.show(UnitSystem::Si), verdict.reason.show(UnitSystem::Si))
}

pub fn minutes(minutes: f64) -> coldmark::quantity::si::Time {
    Measured::from_base(60.0 * minutes)
}

/// A hot day with a hard pull and a hot stop, cooled down at the end.
pub fn hard(project: &mut Project) {
    let hottest = project.surroundings.hottest;
    let leg = |kind| LegInputs { kind, air: hottest, falls_to: hottest, ..LegInputs::default() };
    let speed = project.duty.of(study::Duty::FullThrottle).road_speed;
    project.day.legs = vec![
        LegInputs { lasts: minutes(20.0), ..leg(LegKind::Steady) },
        LegInputs { speed, lasts: minutes(10.0), ..leg(LegKind::FullThrottle) },
        LegInputs { lasts: minutes(30.0), ..leg(LegKind::HotStop) },
        LegInputs { lasts: minutes(600.0), ..leg(LegKind::Park) },
    ];
}

/// The books close, the samples are in order, and every event has its trace in them.
pub fn sound(day: &DayAnswers) -> Result<(), TestCaseError> {
    for drive in [&day.drive, &day.unfavourable] {
        let closures = &drive.closures;
        prop_assert!(closures.energy.base().abs() < 1e-3, "energy {}", closures.energy.base());
        prop_assert!(closures.coolant.base().abs() < 1e-3, "coolant {}", closures.coolant.base());
        prop_assert!(drive.samples.is_sorted_by(|a, b| a.time <= b.time));
        prop_assert!(drive.events.is_sorted_by(|a, b| a.time <= b.time));
        let last = drive.samples.last().map_or(0.0, |last| last.time.base());
        well_told(drive)?;
        for event in &drive.events {
            prop_assert!(event.time.base() <= last + 1e-6 && event.leg < day.legs.len());
            if let Some(until) = event.kind.until() {
                prop_assert!(until >= event.time && until.base() <= last + 1e-6, "{event:?} {last}");
            }
        }
        for pair in drive.samples.windows(2) {
            // Lost is lost.
            prop_assert!(pair[1].lost.base() >= pair[0].lost.base() - 1e-9);
            prop_assert!(pair[1].leg >= pair[0].leg);
        }
        for sample in &drive.samples {
            for figure in figures(sample) {
                prop_assert!(figure.is_finite(), "{sample:?}");
            }
        }
        for of in &drive.extremes {
            let most = &drive.samples[of.sample];
            let figure = |sample: &Sample| of.of.amount(sample).base;
            for sample in &drive.samples {
                let (worst, here) = (figure(most), figure(sample));
                let beyond = match of.of {
                    ExtremeOf::Depression | ExtremeOf::EmptyTank | ExtremeOf::Margin => here < worst - 1e-9,
                    _ => here > worst + 1e-9,
                };
                prop_assert!(!beyond, "{:?}: {here} beyond {worst}", of.of);
            }
        }
    }
    prop_assert_eq!(day.crankcase.len(), day.drive.samples.len());
    let mut before = (0.0, 0.0);
    for crankcase in &day.crankcase {
        let now = (crankcase.oil_out.base(), crankcase.oil_caught.base());
        prop_assert!(now.0 >= before.0 && now.1 >= before.1 && now.1 <= now.0, "{now:?}");
        prop_assert!(crankcase.gauge.is_none_or(|gauge| gauge.base().is_finite()));
        before = now;
    }
    Ok(())
}

fn figures(sample: &Sample) -> [f64; 12] {
    [
        sample.metal.base(),
        sample.block.base(),
        sample.coolant.base(),
        sample.radiator_outlet.base(),
        sample.hoses.base(),
        sample.oil.base(),
        sample.tank.base(),
        sample.gauge.base(),
        sample.in_tank.base(),
        sample.air_in_system.base(),
        sample.margin.base(),
        sample.out.base(),
    ]
}

#[test]
fn the_example_goes_through_its_day() {
    let project = demo();
    let day = day(&project);
    sound(&day).unwrap();
    assert!(day.drive.cut_short.is_none() && day.legs.len() > 5);
    let kinds: Vec<_> = day.drive.events.iter().map(|event| event.kind.key()).collect();
    for kind in ["engine_starts", "thermostat_opens", "cap_opens", "vacuum_valve_opens", "oil_warm", "engine_stops"] {
        assert!(kinds.contains(&kind), "{kind} in {kinds:?}");
    }
    // What the tank of the example takes it gives back.
    assert!(day.spilled_litres() < 1e-6);
    let end = day.drive.samples.last().unwrap();
    let most = day.drive.samples.iter().map(|sample| sample.out.base()).fold(0.0, f64::max);
    assert!(most > 0.3 && end.out.base() < 0.2 * most, "{most} {}", end.out.base());
    let said = day.says_tank().show(UnitSystem::Si);
    assert!(said.contains("takes the") && said.contains("has come back"), "{said}");
    assert_eq!(day.verdicts.len(), study::answer(&project).unwrap().verdicts.len());
}

trait Spilled {
    fn spilled_litres(&self) -> f64;
}

impl Spilled for DayAnswers {
    fn spilled_litres(&self) -> f64 {
        let of = |event: &coldmark::day::Event| match event.kind {
            EventKind::TankSpills { coolant, .. } => coolant.base() * 1e3,
            _ => 0.0,
        };
        self.drive.events.iter().map(of).sum()
    }
}

/// What an event says moved is what the samples show moved.
#[test]
fn events_are_what_the_samples_show() {
    // Steam goes out by the cap too and is no coolant of an event: a day that does not boil.
    let day = day(&demo());
    sound(&day).unwrap();
    let density = 1050.0;
    let mut checked = 0;
    for event in &day.drive.events {
        let (until, coolant, sign) = match event.kind {
            EventKind::CapOpens { until, coolant, .. } => (until, coolant, 1.0),
            EventKind::VacuumValveOpens { until, coolant, .. } => (until, coolant, -1.0),
            _ => continue,
        };
        let at = |time| day.at(time).unwrap().out.base();
        let moved = sign * (at(until) - at(event.time)) / density;
        if coolant.base() > 0.05e-3 {
            assert!((moved / coolant.base() - 1.0).abs() < 0.15, "{event:?} moved {moved}");
            let during = day.drive.samples.iter().filter(|sample| sample.time >= event.time && sample.time <= until);
            let cap = if sign > 0.0 { CapState::LetsOut } else { CapState::LetsIn };
            assert!(during.clone().any(|sample| sample.cap == cap), "{event:?}");
            checked += 1;
        }
    }
    assert!(checked >= 2, "{checked}");
}

/// A duty held for long ends within what surfaces take off its steady answer: below it, and not by much.
#[test]
fn a_duty_held_for_long_ends_at_its_steady_answer() {
    let mut project = demo();
    let hottest = project.surroundings.hottest;
    let speed = project.duty.of(study::Duty::FullThrottle).road_speed;
    project.day.legs = vec![LegInputs {
        kind: LegKind::FullThrottle,
        air: hottest,
        speed,
        lasts: minutes(120.0),
        ..LegInputs::default()
    }];
    let answers = study::answer(&project).unwrap();
    let day = study::day_with(&project, &answers, &|| false).unwrap().unwrap();
    let end = day.drive.samples.last().unwrap();
    let duty = &answers.duties[study::Duty::FullThrottle.index()];
    // At its own speed and power in the day; gears may turn the engine at another speed.
    let same = (end.engine_speed.base() / project.duty.of(study::Duty::FullThrottle).rpm.base() - 1.0).abs();
    println!("day {} steady {} speed {same}", end.coolant.base(), duty.outlet.base());
    assert!(end.coolant.base() < duty.outlet.base() + 0.3 + 20.0 * same);
    assert!(end.coolant.base() > duty.outlet.base() - 4.0 - 20.0 * same);
}

/// A tank smaller than what comes spills, and the verdict names litres and moment.
#[test]
fn a_tank_too_small_is_named() {
    let mut project = demo();
    hard(&mut project);
    project.tank.shape = ShapeKind::UprightCylinder;
    project.tank.diameter = Length::from_base(0.09);
    project.tank.height = Length::from_base(0.12);
    project.tank.cold_level = Some(Length::from_base(0.08));
    project.tank.tube_ahead = Length::from_base(0.0);
    project.tank.tube_right = Length::from_base(0.0);
    let day = day(&project);
    sound(&day).unwrap();
    let lost = day.spilled_litres();
    assert!(lost > 0.05, "{lost}");
    let volume = verdict(&day, "tank_volume");
    assert_eq!(volume.state, State::DoesNotHold);
    let shown = Amount::new(lost * 1e-3, Kind::Volume).show(UnitSystem::Si);
    let (margin, said) = (volume.margin.show(UnitSystem::Si), told(volume));
    assert!(margin.contains(&shown) && said.contains("both fail, the day at 0:"), "{said}");
    assert!(volume.mend.as_ref().unwrap().show(UnitSystem::Si).contains("a tank of "));
    let first = day.drive.events.iter().find(|event| matches!(event.kind, EventKind::TankSpills { .. })).unwrap();
    assert!(margin.contains(&study::clock(first.time)), "{margin}");
    assert!(day.says_tank().show(UnitSystem::Si).contains("too small for this day"));
    // A larger one of the same kind takes it.
    project.tank.height = Length::from_base(0.6);
    let larger = study::day(&project).unwrap();
    assert!(larger.spilled_litres() < 1e-6);
}

#[test]
fn a_sealed_tank_builds_pressure() {
    let mut project = demo();
    hard(&mut project);
    project.tank.vent = VentKind::Sealed;
    let day = day(&project);
    sound(&day).unwrap();
    let most = day.extreme(ExtremeOf::TankPressure).unwrap().tank_gauge.base();
    assert!(most > 1e3, "{most}");
    assert_eq!(verdict(&day, "tank_vent").state, State::DoesNotHold);
}

#[test]
fn an_empty_tank_gives_back_only_what_came() {
    let mut project = demo();
    hard(&mut project);
    // The night is colder than the garage: more is wanted back than came.
    for leg in project.day.legs.iter_mut().filter(|leg| leg.kind == LegKind::Park) {
        leg.air = celsius(-12.0);
        leg.lasts = minutes(48.0 * 60.0);
    }
    project.tank.cold_level = Some(Length::from_base(1e-3));
    project.tank.tube_end = Length::from_base(2e-3);
    let day = day(&project);
    sound(&day).unwrap();
    let air = day
        .drive
        .events
        .iter()
        .any(|event| matches!(event.kind, EventKind::VacuumValveOpens { air, .. } if air.base() > 1e-6));
    assert!(air, "{:?}", day.drive.events);
    let back = verdict(&day, "return");
    assert_eq!(back.state, State::DoesNotHold);
    assert!(told(back).contains("of air instead of coolant"), "{}", told(back));
}

#[test]
fn nothing_comes_back_from_a_catch_can() {
    let mut project = demo();
    hard(&mut project);
    project.tank.arrangement = TankArrangement::CatchOnly;
    project.tank.cold_level = None;
    let day = day(&project);
    sound(&day).unwrap();
    assert_eq!(verdict(&day, "return").state, State::DoesNotHold);
    assert!(day.says_tank().show(UnitSystem::Si).contains("Nothing comes back"));
    for pair in day.drive.samples.windows(2) {
        assert!(pair[1].out.base() >= pair[0].out.base() - 1e-9);
    }
}

#[test]
fn a_header_tank_keeps_its_coolant_while_its_cushion_is_large_enough() {
    let mut project = demo();
    hard(&mut project);
    project.tank.arrangement = TankArrangement::HeaderTank;
    project.tank.cold_level = None;
    project.tank.cushion = Volume::from_base(1.2e-3);
    let day = day(&project);
    sound(&day).unwrap();
    let cushion = verdict(&day, "air_cushion");
    let opened = day.drive.events.iter().any(|event| matches!(event.kind, EventKind::CapOpens { .. }));
    assert_eq!(opened, told(cushion).contains("the cap opens"), "{}", told(cushion));
    assert!(day.verdicts.iter().all(|verdict| verdict.key != "tank_volume"));
}

/// A thermostat that opens cold keeps the engine cold; hardly any part of the day has a margin below that of the example.
#[test]
fn a_thermostat_that_opens_cold_leaves_margin() {
    let (mut cold, usual) = (demo(), day(&demo()));
    cold.thermostat.set_point = celsius(50.0);
    let cold = day(&cold);
    sound(&cold).unwrap();
    let mean = |day: &DayAnswers| {
        let running = || day.drive.samples.iter().filter(|sample| sample.engine_speed.base() > 0.0);
        running().map(|sample| sample.coolant.base()).sum::<f64>() / running().count() as f64
    };
    assert!(mean(&cold) < mean(&usual) - 10.0, "{} {}", mean(&cold), mean(&usual));
}

/// No air through the radiator: it boils, and the verdicts say when.
#[test]
fn without_air_through_the_radiator_it_boils() {
    let mut project = demo();
    hard(&mut project);
    project.radiator.fan_speed = Some(Estimate::exact(Velocity::from_base(0.0)));
    project.radiator.fan.known = false;
    project.radiator.ram_share = Some(Estimate::exact(Ratio::from_base(0.0)));
    let found = study::day(&project);
    // Without any air there may be no steady answer to begin with.
    let Ok(day) = found else {
        assert!(found.is_err_and(|problems| problems.0.iter().all(|problem| problem.message.len() > 20)));
        return;
    };
    sound(&day).unwrap();
    let boils = |event: &coldmark::day::Event| {
        matches!(event.kind, EventKind::CoolantBoils { .. } | EventKind::PassageBoils { .. })
    };
    assert!(day.drive.events.iter().any(boils) || day.drive.cut_short.is_some());
    for key in ["boiling", "cooling"] {
        assert_eq!(verdict(&day, key).state, State::DoesNotHold, "{}", told(verdict(&day, key)));
    }
    assert!(told(verdict(&day, "boiling")).contains("both fail, the day at "));
}

#[test]
fn thin_air_takes_margin() {
    let least = |altitude: f64| {
        let mut project = demo();
        project.surroundings.altitude = Measured::from_base(altitude);
        // What the engine makes up there is its own matter: the same power at all heights.
        for duty in &mut project.duty.points {
            duty.power = Measured::from_base(0.6 * duty.power.base());
            duty.manifold = None;
        }
        let hottest = project.surroundings.hottest;
        let leg = |kind| LegInputs { kind, air: hottest, ..LegInputs::default() };
        project.day.legs = vec![
            LegInputs { lasts: minutes(30.0), ..leg(LegKind::Steady) },
            LegInputs { lasts: minutes(20.0), ..leg(LegKind::HotStop) },
        ];
        day(&project).extreme(ExtremeOf::Margin).unwrap().margin.base()
    };
    let (low, high) = (least(0.0), least(3000.0));
    assert!(high < low - 3.0, "{low} K at sea level, {high} K at 3000 m");
}

/// Given up, it is no answer and no fault.
#[test]
fn a_day_can_be_given_up() {
    let project = demo();
    let answers = study::answer(&project).unwrap();
    assert_eq!(study::day_with(&project, &answers, &|| true).unwrap(), None);
}

/// Warmer or weaker, the unfavourable run is nowhere the better one.
#[test]
fn the_unfavourable_end_is_the_worse() {
    let day = day(&demo());
    let hottest =
        |drive: &coldmark::day::Drive| drive.samples.iter().map(|sample| sample.coolant.base()).fold(0.0, f64::max);
    let least = |drive: &coldmark::day::Drive| {
        drive.samples.iter().map(|sample| sample.margin.base()).fold(f64::INFINITY, f64::min)
    };
    assert!(hottest(&day.unfavourable) > hottest(&day.drive));
    assert!(least(&day.unfavourable) < least(&day.drive));
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 40, max_shrink_iters: 60, ..ProptestConfig::default() })]

    /// Any project: a day whose books close, or a fault that names an input.
    #[test]
    fn any_project_has_a_day_or_a_fault(chance in chance()) {
        let project = chance.change(&demo());
        match study::day(&project) {
            Ok(day) => {
                sound(&day)?;
                for section in day.sections() {
                    for row in section.rows {
                        prop_assert!(!row.value.show(UnitSystem::Us).contains("NaN"));
                    }
                }
            }
            Err(problems) => {
                for problem in &problems.0 {
                    prop_assert!(Paths::has(&project, &problem.path), "{:?} ({})", problem.path, problem.message);
                    prop_assert!(problem.message.len() > 10);
                }
            }
        }
    }
}
