//! The gear rule, full load and the slipping clutch.

use crate::support::{RPM, any_car, car, of, sea_level};
use coldmark::day::{CarFault, CarInput, Movement, NoGear, Turning};
use coldmark::heat::RoadLoad;
use coldmark::quantity::Measured;
use coldmark::scribe::{Silent, Writing};
use proptest::prelude::*;

fn moves(speed: f64, acceleration: f64, grade: f64) -> Movement {
    Movement {
        road_speed: of(speed),
        acceleration: of(acceleration),
        grade: of(grade),
        air_density: of(1.2),
        air: sea_level(),
    }
}

/// Power the movement asks at the crankshaft without slip, by the road load alone.
fn asked(car: &coldmark::day::Car, movement: &Movement) -> f64 {
    let load = RoadLoad {
        mass: car.mass,
        drag_area: car.drag_area,
        rolling_resistance: car.rolling_resistance,
        grade: movement.grade,
        speed: movement.road_speed,
        accelerating: of(car.mass.base() * car.rotating.base() * movement.acceleration.base()),
        air_density: movement.air_density,
        drivetrain_efficiency: car.drivetrain_efficiency,
    };
    load.power(&mut Silent).unwrap().engine.base()
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(2000))]

    #[test]
    fn the_highest_gear_that_pulls_with_a_reserve_is_taken(
        car in any_car(),
        share in 0.0..1.0_f64,
        acceleration in -4.0..4.0_f64,
        grade in -0.15..0.15_f64,
    ) {
        car.check().unwrap();
        let movement = moves(car.fastest().base().min(100.0) * share, acceleration, grade);
        let turning = car.turning(&movement, &mut Silent).unwrap();
        let asked = asked(&car, &movement);
        let most = |speed| car.full_load.most(speed, car.idle_speed, sea_level(), &mut Silent).base();
        let speed = |gear| car.engine_speed(gear, movement.road_speed).unwrap();
        let (lugging, highest) = (car.lugging_speed.base(), car.highest_speed.base() * (1.0 + 1e-9));
        prop_assert!(turning.speed.base() >= car.idle_speed.base() && turning.speed.base() <= highest);
        prop_assert!(turning.power.base() >= 0.0 && turning.missing.base() >= 0.0);
        prop_assert!(turning.power.base() <= most(turning.speed) * (1.0 + 1e-12));
        let usable: Vec<_> = (1..=car.gears.len())
            .filter(|gear| (lugging..=highest).contains(&speed(*gear).base()))
            .collect();
        if asked < 0.0 {
            prop_assert!(turning.power.base() == 0.0 && turning.missing.base() == 0.0);
            prop_assert_eq!(turning.gear, usable.last().copied());
            prop_assert_eq!(turning.overrun, !usable.is_empty());
        } else if movement.road_speed.base() > 0.0 {
            prop_assert!(!turning.overrun);
            let gear = turning.gear.unwrap();
            let needed = turning.power.base() + turning.missing.base();
            if usable.is_empty() {
                // The clutch passes torque: power goes with engine speed.
                let slip = (turning.speed.base() / speed(gear).base()).max(1.0);
                prop_assert!((needed - asked * slip).abs() <= 1e-9 * needed.max(1.0));
            } else {
                prop_assert!((needed - asked).abs() <= 1e-9 * needed.max(1.0));
                prop_assert!(usable.contains(&gear) && turning.speed == speed(gear));
                let leaves = |gear: usize| asked <= (1.0 - car.reserve.base()) * most(speed(gear));
                if leaves(gear) {
                    prop_assert!(turning.missing.base() == 0.0);
                    prop_assert!(usable.iter().all(|other| *other <= gear || !leaves(*other)));
                } else {
                    prop_assert!(usable.iter().all(|other| most(speed(*other)) <= most(speed(gear)) * (1.0 + 1e-12)));
                    prop_assert!(usable.iter().all(|other| !leaves(*other)));
                }
                // A gear that somebody chose is that gear, with what it then has.
                let chosen = car.in_gear(gear, &movement, &mut Silent).unwrap();
                prop_assert_eq!(chosen, turning);
            }
        }
    }

    /// More reserve never means a higher gear, and none at all holds each gear as long as it has the power. What the road
    /// takes stays the same.
    #[test]
    fn more_reserve_is_a_lower_gear(
        car in any_car(),
        share in 0.05..1.0_f64,
        grade in 0.0..0.12_f64,
        reserves in (0.0..0.8_f64, 0.0..0.8_f64),
    ) {
        let movement = moves(car.fastest().base().min(100.0) * share, 0.0, grade);
        let with = |reserve: f64| {
            let car = coldmark::day::Car { reserve: of(reserve), ..car.clone() };
            car.turning(&movement, &mut Silent).unwrap()
        };
        let (less, more) = (with(reserves.0.min(reserves.1)), with(reserves.0.max(reserves.1)));
        prop_assert!(more.gear <= less.gear && more.speed >= less.speed * (1.0 - 1e-12), "{:?} {:?}", less, more);
        if less.missing.base() == 0.0 && car.engine_speed(1, movement.road_speed).unwrap() >= car.lugging_speed {
            prop_assert!((more.power.base() - less.power.base()).abs() <= 1e-9 * less.power.base());
        }
        let (none, most) = (with(0.0), |turning: &Turning| car.full_load.most(turning.speed, car.idle_speed, sea_level(), &mut Silent));
        if let Some(next) = none.gear.filter(|gear| *gear < car.gears.len()) {
            let higher = car.in_gear(next + 1, &movement, &mut Silent);
            prop_assert!(higher.is_err() || higher.unwrap().missing.base() > 0.0 || most(&none) < none.power + none.missing);
        }
    }

    /// More road speed in one gear, more power asked: what the engine makes never falls with its speed.
    #[test]
    fn full_load_rises_with_engine_speed_and_goes_with_the_air(car in any_car(), a in 0.0..1.0_f64, b in 0.0..1.0_f64) {
        let between = |share: f64| {
            of(car.idle_speed.base() + share * (car.highest_speed.base() - car.idle_speed.base()))
        };
        let most = |share: f64, air: f64| car.full_load.most(between(share), car.idle_speed, of(air), &mut Silent).base();
        let (low, high) = (a.min(b), a.max(b));
        prop_assert!(most(low, 101_325.0) <= most(high, 101_325.0) * (1.0 + 1e-12));
        prop_assert!((most(a, 80e3) / most(a, 101_325.0) - 80e3 / 101_325.0).abs() < 1e-12);
        let point = car.full_load.most(car.full_load.speed, car.idle_speed, sea_level(), &mut Silent);
        prop_assert!((point.base() / car.full_load.power.base() - 1.0).abs() < 1e-12);
        prop_assert!(most(high, 101_325.0) <= car.full_load.power.base() * (1.0 + 1e-12));
    }

    /// Whatever stands in the figures, they are refused or the answer is a number.
    #[test]
    fn no_figure_makes_a_car_fall_over(index in 0..15_usize, odd in prop_oneof![
        Just(f64::NAN), Just(f64::INFINITY), Just(-1.0), Just(0.0), Just(1e-300), Just(1e300), 0.0..1e4
    ], speed in 0.0..60.0_f64) {
        let mut car = car();
        match index {
            0 => car.mass = of(odd),
            1 => car.drag_area = of(odd),
            2 => car.rolling_resistance = of(odd),
            3 => car.drivetrain_efficiency = of(odd),
            4 => car.rotating = of(odd),
            5 => car.gears = vec![of(odd)],
            6 => car.gears.push(of(odd)),
            7 => car.idle_speed = of(odd),
            14 => car.reserve = of(odd),
            8 => car.lugging_speed = of(odd),
            9 => car.highest_speed = of(odd),
            10 => car.full_load.speed = of(odd),
            11 => car.full_load.power = of(odd),
            12 => car.full_load.flat_from = of(odd),
            _ => car.full_load.low_torque = of(odd),
        }
        match car.check() {
            Err(fault) => prop_assert!(!fault.to_string().is_empty()),
            Ok(()) => match car.turning(&moves(speed, 0.3, 0.02), &mut Silent) {
                Ok(turning) => prop_assert!(turning.power.base().is_finite() && turning.missing.base().is_finite()),
                Err(fault) => prop_assert!(!fault.to_string().is_empty()),
            },
        }
    }
}

/// Facts of driving: top gear on the level, a lower one uphill, first when pulling away, overrun downhill, idle at a stop.
#[test]
fn a_car_changes_gear_as_a_driver_would() {
    let car = car();
    let at = |speed: f64, acceleration: f64, grade: f64| -> Turning {
        car.turning(&moves(speed / 3.6, acceleration, grade), &mut Silent).unwrap()
    };
    assert_eq!(at(90.0, 0.0, 0.0).gear, Some(5));
    assert_eq!(at(40.0, 0.0, 0.0).gear, Some(4));
    let climb = at(60.0, 0.0, 0.12);
    assert!(climb.gear.unwrap() <= 4 && climb.missing.base() == 0.0 && climb.power.base() > 30e3, "{climb:?}");
    // Pulling away: 3 km/h, 1.5 m/s², the clutch slips at the lugging speed.
    let away = at(3.0, 1.5, 0.0);
    assert_eq!((away.gear, away.speed), (Some(1), car.lugging_speed));
    // 1300 kg·1.05·1.5 m/s² + 153 N at 3 km/h is 1.8 kW at the wheel; the engine turns 3.6 times as fast as the gearbox.
    assert!((away.power.base() - 7.53e3).abs() < 100.0, "{away:?}");
    // 8 % at 60 km/h takes 24 kW. Fourth at 2222 rpm makes 35.7 kW at the most and so leaves a third; top at 1765 rpm would
    // make 25.3 kW and leave next to nothing.
    let climb = at(60.0, 0.0, 0.08);
    assert_eq!(climb.gear, Some(4), "{climb:?}");
    let top = car.in_gear(5, &moves(60.0 / 3.6, 0.0, 0.08), &mut Silent).unwrap();
    assert!(top.missing.base() == 0.0 && top.power == climb.power && top.speed < climb.speed, "{top:?}");
    let down = at(80.0, 0.0, -0.08);
    assert!(down.overrun && down.power.base() == 0.0 && down.gear == Some(5), "{down:?}");
    let stop = at(0.0, 0.0, 0.0);
    assert_eq!((stop.gear, stop.speed, stop.overrun), (None, car.idle_speed, false));
    // Too slow for any gear and braking: the clutch is open.
    let halting = at(6.0, -2.0, 0.0);
    assert_eq!((halting.gear, halting.speed, halting.overrun), (None, car.idle_speed, false));
    // Asked for more than there is: it falls behind, and by how much is told.
    let hard = at(155.0, 2.0, 0.0);
    assert!((hard.power.base() - 90e3).abs() < 1e-6 && hard.missing.base() > 50e3, "{hard:?}");
    assert!(matches!(car.turning(&moves(60.0, 0.0, 0.0), &mut Silent), Err(NoGear::TooFast { .. })));
}

#[test]
fn a_gear_that_does_not_suit_is_refused_in_words() {
    let car = car();
    let refused = |gear: usize, speed: f64| {
        car.in_gear(gear, &moves(speed / 3.6, 0.0, 0.0), &mut Silent).unwrap_err().to_string()
    };
    for (gear, speed, parts) in [
        (6, 90.0, ["no gear 6", "has 5"]),
        (0, 90.0, ["no gear 0", "has 5"]),
        (1, 90.0, ["above its highest speed of 6200 rpm", "higher gear"]),
        (5, 40.0, ["1350 rpm at which it lugs", "lower gear"]),
    ] {
        let words = refused(gear, speed);
        assert!(parts.iter().all(|part| words.contains(part)), "{words}");
    }
    // Downhill it holds the car back in the gear chosen.
    let down = car.in_gear(3, &moves(60.0 / 3.6, 0.0, -0.10), &mut Silent).unwrap();
    assert!(down.overrun && down.gear == Some(3), "{down:?}");
    assert!((down.speed.base() / RPM - 3000.0).abs() < 1e-6);
}

/// The gear that gives the most, nearest to the engine's own point.
#[test]
fn wide_open_takes_the_gear_that_gives_most() {
    let car = car();
    // 130 km/h: third at 6500 rpm is too fast, fourth turns 4815, fifth 3824 rpm.
    let open = car.wide_open(of(130.0 / 3.6), sea_level(), &mut Silent).unwrap();
    assert_eq!(open.gear, Some(4));
    assert!((open.speed.base() / RPM - 130.0 / 27.0 * 1000.0).abs() < 1e-6);
    assert!((open.power.base() - 90e3 * (130.0 / 27.0) / 5.6).abs() < 1e-3);
    // Above the point power is flat: 155 km/h is 5741 rpm in fourth, which gives all there is.
    let open = car.wide_open(of(155.0 / 3.6), sea_level(), &mut Silent).unwrap();
    assert_eq!((open.gear, open.power), (Some(4), car.full_load.power));
    assert!(car.wide_open(of(60.0), sea_level(), &mut Silent).is_err());
}

#[test]
fn figures_that_disagree_are_told_where() {
    let told = |change: &dyn Fn(&mut coldmark::day::Car)| -> CarFault {
        let mut one = car();
        change(&mut one);
        one.check().unwrap_err()
    };
    assert_eq!(told(&|car| car.gears.clear()).input(), CarInput::Gears);
    assert_eq!(told(&|car| car.gears = vec![of(5.0); 2]), CarFault::GearsDoNotRise);
    assert_eq!(told(&|car| car.gears = (1..14).map(|gear| of(f64::from(gear))).collect()).input(), CarInput::Gears);
    assert_eq!(told(&|car| car.lugging_speed = of(700.0 * RPM)).input(), CarInput::LuggingSpeed);
    assert_eq!(told(&|car| car.highest_speed = of(5500.0 * RPM)).input(), CarInput::HighestSpeed);
    assert_eq!(told(&|car| car.full_load.speed = of(800.0 * RPM)).input(), CarInput::FullLoadSpeed);
    let words = told(&|car| car.mass = of(10.0)).to_string();
    assert!(words.contains("mass of the car is 10 kg") && words.contains("trailer"), "{words}");
}

/// What is explained is what was computed, and silence changes nothing.
#[test]
fn the_working_is_that_of_the_answer() {
    let (car, mut writing) = (car(), Writing::default());
    for movement in [moves(25.0, 0.5, 0.03), moves(1.0, 1.0, 0.0), moves(43.0, 3.0, 0.0), moves(20.0, -1.0, 0.0)] {
        writing.chapters.clear();
        let told = car.turning(&movement, &mut writing).unwrap();
        assert_eq!(told, car.turning(&movement, &mut Silent).unwrap());
        let steps = &writing.chapters[0].steps;
        assert!(steps.iter().any(|step| step.symbol == "F_a"));
        if !told.overrun {
            let [.., full, spare] = steps.as_slice() else { panic!("{steps:?}") };
            let most = car.full_load.most(told.speed, car.idle_speed, sea_level(), &mut Silent);
            assert!((full.result.base - most.base()).abs() < 1e-9, "{full:?}");
            assert!((spare.result.base - (1.0 - told.power.base() / most.base())).abs() < 1e-12, "{spare:?}");
        }
    }
}
