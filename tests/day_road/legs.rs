//! Legs: what each kind makes, what is refused and how, and that nothing drawn at random falls over.

use crate::support::{any_car, car, of, sea_level};
use coldmark::day::{DayError, Doing, Leg, LegFault, LegInput, Stretch, Trace, Until, stretches};
use coldmark::quantity::{Measured, celsius};
use coldmark::scribe::Silent;
use proptest::prelude::*;

fn one(does: Doing) -> Result<Vec<Stretch>, DayError> {
    stretches(&[Leg { air: celsius(20.0), does }], &car(), sea_level(), of(5.0), &mut Silent)
}

/// Which figure of the leg is refused, and in which words.
fn refused(does: Doing) -> (LegInput, String) {
    match one(does) {
        Err(DayError::Leg { leg: 0, input, fault }) => (input, fault.to_string()),
        other => panic!("{other:?}"),
    }
}

#[test]
fn legs_that_stand_are_one_stretch() {
    let legs = [
        (Doing::Park { lasts: of(3600.0) }, false),
        (Doing::Idle { lasts: of(120.0) }, true),
        (Doing::HotStop { lasts: of(600.0) }, false),
        (Doing::Overnight { lasts: of(36_000.0), falls_to: celsius(-5.0) }, false),
    ];
    for (does, turns) in legs {
        let pieces = one(does).unwrap();
        assert_eq!(pieces.len(), 1);
        let piece = pieces[0];
        assert_eq!((piece.engine.is_some(), piece.road_speed.base(), piece.air), (turns, 0.0, celsius(20.0)));
        let night = matches!(does, Doing::Overnight { .. });
        assert_eq!(piece.air_at_end, if night { celsius(-5.0) } else { celsius(20.0) });
        if let Some(engine) = piece.engine {
            let idle = (engine.speed, engine.power.base(), engine.gear, engine.overrun);
            assert_eq!(idle, (car().idle_speed, 0.0, None, false));
        }
    }
}

/// 300 m at 8 % and 60 km/h: 300/sin(atan 0.08) = 3762 m of road, 226 s.
#[test]
fn a_climb_lasts_until_its_top() {
    let climb = one(Doing::Climb { speed: of(60.0 / 3.6), grade: of(0.08), gear: None, height: of(300.0) }).unwrap();
    assert_eq!(climb.len(), 1);
    assert!((climb[0].lasts.base() - 225.7).abs() < 0.05, "{:?}", climb[0].lasts);
    let level = Doing::Steady { speed: of(60.0 / 3.6), grade: of(0.0), gear: None, until: Until::Time(of(60.0)) };
    let (up, along) = (climb[0].engine.unwrap(), one(level).unwrap()[0].engine.unwrap());
    // 1300 kg·g·sin α·v/η = 19.2 kW more.
    assert!((up.power.base() - along.power.base() - 19.2e3).abs() < 200.0, "{up:?} {along:?}");
    let down =
        Doing::Steady { speed: of(60.0 / 3.6), grade: of(-0.08), gear: None, until: Until::Distance(of(5000.0)) };
    let down = one(down).unwrap()[0];
    assert!(down.engine.unwrap().overrun && (down.lasts.base() - 300.0).abs() < 1e-9);
}

#[test]
fn what_the_engine_cannot_hold_is_refused_with_what_to_do() {
    let (input, words) =
        refused(Doing::Climb { speed: of(130.0 / 3.6), grade: of(0.15), gear: None, height: of(300.0) });
    assert_eq!(input, LegInput::Speed);
    for part in ["130 km/h", "kW", "in the best gear", "choose a lower speed or grade"] {
        assert!(words.contains(part), "{part}: {words}");
    }
    let (input, words) =
        refused(Doing::Steady { speed: of(62.0), grade: of(0.0), gear: None, until: Until::Time(of(60.0)) });
    assert_eq!(input, LegInput::Speed);
    assert!(words.contains("even in top gear"), "{words}");
    let traffic =
        |lasts: f64| Doing::Traffic { mean_speed: of(5.0), standing: of(0.5), acceleration: of(1.0), lasts: of(lasts) };
    let (input, words) = refused(traffic(60.0));
    assert_eq!(input, LegInput::Lasts);
    assert!(words.contains("1.5 min"), "{words}");
    assert!(one(traffic(91.0)).is_ok());
    // The air, the time and the repeats have limits of their own.
    assert_eq!(refused(Doing::Park { lasts: of(0.0) }).0, LegInput::Lasts);
    assert_eq!(refused(Doing::Trace { trace: Trace::Urban, repeats: 0 }).0, LegInput::Repeats);
    assert_eq!(refused(Doing::Trace { trace: Trace::Urban, repeats: 21 }).0, LegInput::Repeats);
    assert_eq!(refused(Doing::Overnight { lasts: of(9e3), falls_to: celsius(-60.0) }).0, LegInput::FallsTo);
    assert_eq!(stretches(&[], &car(), sea_level(), of(5.0), &mut Silent), Err(DayError::NoLeg));
    let leg = Leg { air: celsius(20.0), does: Doing::Idle { lasts: of(60.0) } };
    let step = stretches(&[leg], &car(), sea_level(), of(0.1), &mut Silent).unwrap_err().to_string();
    assert!(step.contains("time step"), "{step}");
    // A day too long to follow second by second.
    let long = Leg { air: celsius(20.0), does: Doing::Trace { trace: Trace::Worldwide, repeats: 20 } };
    let error = stretches(&[long; 6], &car(), sea_level(), of(1.0), &mut Silent).unwrap_err();
    assert!(matches!(error, DayError::Leg { leg: 5, fault: LegFault::TooManyPieces { .. }, .. }), "{error}");
}

/// A low gear held uphill turns the engine faster with the same power; one that does not suit is told at the gear.
#[test]
fn a_leg_may_name_its_gear() {
    let climb =
        |gear, kmh: f64, grade: f64| Doing::Climb { speed: of(kmh / 3.6), grade: of(grade), gear, height: of(300.0) };
    let engine = |gear| one(climb(gear, 60.0, 0.06)).unwrap()[0].engine.unwrap();
    let (open, third) = (engine(None), engine(Some(3)));
    assert_eq!(third.gear, Some(3));
    assert!(third.speed > open.speed && third.power == open.power, "{open:?} {third:?}");
    for (gear, kmh, grade, part) in [
        (1, 60.0, 0.06, "above its highest speed"),
        (5, 30.0, 0.06, "it lugs"),
        (9, 60.0, 0.06, "no gear 9"),
        (5, 60.0, 0.12, "in gear 5 it makes"),
    ] {
        let (input, words) = refused(climb(Some(gear), kmh, grade));
        assert_eq!(input, LegInput::Gear);
        assert!(words.contains(part), "{words}");
    }
}

/// At altitude the engine makes less, and the thinner air takes less.
#[test]
fn the_air_of_the_altitude_counts() {
    let leg = Leg { air: celsius(20.0), does: Doing::FullThrottle { speed: of(130.0 / 3.6), lasts: of(60.0) } };
    let power =
        |air: f64| stretches(&[leg], &car(), of(air), of(5.0), &mut Silent).unwrap()[0].engine.unwrap().power.base();
    assert!((power(80e3) / power(101_325.0) - 80e3 / 101_325.0).abs() < 1e-12);
    let steady = Doing::Steady { speed: of(120.0 / 3.6), grade: of(0.0), gear: None, until: Until::Time(of(60.0)) };
    let leg = Leg { air: celsius(20.0), does: steady };
    let power =
        |air: f64| stretches(&[leg], &car(), of(air), of(5.0), &mut Silent).unwrap()[0].engine.unwrap().power.base();
    assert!(power(80e3) < 0.9 * power(101_325.0));
}

fn any_doing() -> impl Strategy<Value = Doing> {
    let number = || {
        prop_oneof![
            8 => 0.0..100.0_f64,
            2 => -1.0..1.0_f64,
            2 => 0.0..1e5_f64,
            1 => prop_oneof![Just(f64::NAN), Just(f64::INFINITY), Just(f64::NEG_INFINITY), Just(0.0), Just(f64::MAX)]
        ]
    };
    (0..9_usize, number(), number(), number(), number(), 0..25_u32, 0..4_usize).prop_map(
        |(kind, a, b, c, d, repeats, trace)| match kind {
            0 => Doing::Park { lasts: of(a) },
            1 => Doing::Idle { lasts: of(a) },
            2 => Doing::HotStop { lasts: of(a) },
            3 => Doing::Overnight { lasts: of(a), falls_to: of(200.0 + b) },
            4 => Doing::Steady {
                speed: of(a),
                grade: of(b / 100.0),
                gear: (repeats > 12).then(|| repeats as usize - 12),
                until: if repeats % 2 == 0 { Until::Time(of(c)) } else { Until::Distance(of(d)) },
            },
            5 => Doing::Climb { speed: of(a), grade: of(b / 100.0), gear: None, height: of(c) },
            6 => Doing::FullThrottle { speed: of(a), lasts: of(c) },
            7 => Doing::Traffic {
                mean_speed: of(a / 10.0),
                standing: of(b / 100.0),
                acceleration: of(c / 20.0),
                lasts: of(d),
            },
            _ => Doing::Trace { trace: Trace::ALL[trace], repeats: repeats % 4 },
        },
    )
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(400))]

    /// Any legs by any car: refused in words, or stretches in order that a day can be followed by.
    #[test]
    fn legs_drawn_at_random_never_fall_over(
        car in any_car(),
        legs in prop::collection::vec((220.0..340.0_f64, any_doing()), 1..5),
        air in 50e3..110e3_f64,
        resolution in prop_oneof![4 => 1.0..60.0_f64, 1 => Just(f64::NAN), 1 => Just(0.0)],
    ) {
        let legs: Vec<_> = legs.into_iter().map(|(air, does)| Leg { air: of(air), does }).collect();
        match stretches(&legs, &car, of(air), of(resolution), &mut Silent) {
            Err(error) => prop_assert!(error.to_string().len() > 10),
            Ok(pieces) => {
                prop_assert!(pieces.windows(2).all(|pair| pair[0].leg <= pair[1].leg));
                prop_assert_eq!(pieces.last().unwrap().leg, legs.len() - 1);
                for piece in pieces {
                    prop_assert!(piece.lasts.base() > 0.0 && piece.lasts.base().is_finite());
                    prop_assert!(piece.road_speed.base() >= 0.0 && piece.road_speed.base().is_finite());
                    if let Some(engine) = piece.engine {
                        prop_assert!(engine.speed >= car.idle_speed * (1.0 - 1e-9));
                        prop_assert!(engine.speed <= car.highest_speed * (1.0 + 1e-9));
                        prop_assert!(engine.power.base() >= 0.0 && engine.missing.base() >= 0.0);
                        prop_assert!(!(engine.overrun && engine.power.base() > 0.0));
                    } else {
                        prop_assert!(piece.road_speed.base() == 0.0);
                    }
                }
            }
        }
    }
}
