//! Windows keep what the steps in them have.

use crate::support::{any_car, car, of, sea_level};
use coldmark::day::{Doing, Leg, Stretch, Trace, stretches};
use coldmark::quantity::{Measured, celsius};
use coldmark::scribe::Silent;
use proptest::prelude::*;

fn drive(car: &coldmark::day::Car, does: Doing, resolution: f64) -> Vec<Stretch> {
    stretches(&[Leg { air: celsius(15.0), does }], car, sea_level(), of(resolution), &mut Silent).unwrap()
}

/// Time, distance, revolutions, work and missing work.
fn sums(pieces: &[Stretch]) -> [f64; 5] {
    pieces.iter().fold([0.0; 5], |sum, piece| {
        let (time, engine) = (piece.lasts.base(), piece.engine.unwrap());
        let of = [1.0, piece.road_speed.base(), engine.speed.base(), engine.power.base(), engine.missing.base()];
        std::array::from_fn(|index| sum[index] + time * of[index])
    })
}

fn same(a: [f64; 5], b: [f64; 5]) -> bool {
    a.iter().zip(b).all(|(a, b)| (a - b).abs() <= 1e-9 * a.abs().max(1.0))
}

/// Every window has the means of the seconds it holds.
#[test]
fn windows_of_a_trace_have_the_means_of_its_seconds() {
    let car = car();
    for trace in Trace::ALL {
        let seconds = drive(&car, Doing::Trace { trace, repeats: 2 }, 1.0);
        assert_eq!(seconds.len() as f64, 2.0 * trace.lasts().base());
        for resolution in [5_usize, 7, 60] {
            let windows = drive(&car, Doing::Trace { trace, repeats: 2 }, resolution as f64);
            assert_eq!(windows.len(), seconds.len().div_ceil(resolution));
            for (window, held) in windows.iter().zip(seconds.chunks(resolution)) {
                assert!(same(sums(&[*window]), sums(held)), "{trace:?} {window:?}");
                let idles = held.iter().all(|second| second.road_speed.base() == 0.0);
                let engine = window.engine.unwrap();
                if idles {
                    assert_eq!((engine.gear, engine.power.base(), engine.overrun), (None, 0.0, false));
                    assert!((engine.speed.base() / car.idle_speed.base() - 1.0).abs() < 1e-12);
                }
                if engine.overrun {
                    assert!(held.iter().all(|second| second.engine.unwrap().power.base() == 0.0));
                }
            }
        }
    }
}

/// Each trace has what it is for: stops, overrun, and driving in every gear.
#[test]
fn a_trace_has_stops_and_overrun() {
    let pieces = drive(&car(), Doing::Trace { trace: Trace::Worldwide, repeats: 1 }, 5.0);
    assert!(pieces.iter().any(|piece| piece.road_speed.base() == 0.0));
    assert!(pieces.iter().any(|piece| piece.engine.unwrap().overrun));
    for gear in 1..=5 {
        assert!(pieces.iter().any(|piece| piece.engine.unwrap().gear == Some(gear)), "{gear}");
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(60))]

    /// Stop and go has the mean speed, the share standing and the time asked for, whatever the time step.
    #[test]
    fn traffic_has_the_means_asked_for(
        car in any_car(),
        mean in 1.0..6.0_f64,
        standing in 0.0..0.8_f64,
        acceleration in 0.4..3.0_f64,
        lasts in 600.0..3000.0_f64,
        resolution in 1.0..30.0_f64,
    ) {
        let top = 1.5 * mean / (1.0 - standing);
        prop_assume!(top < car.fastest().base() && 3.0 * top / acceleration / (1.0 - standing) < lasts);
        let traffic = Doing::Traffic {
            mean_speed: of(mean),
            standing: of(standing),
            acceleration: of(acceleration),
            lasts: of(lasts),
        };
        let pieces = drive(&car, traffic, resolution);
        let [time, distance, ..] = sums(&pieces);
        prop_assert!((time - lasts).abs() < 1e-6 * lasts, "{time} {lasts}");
        prop_assert!((distance - mean * lasts).abs() < 1e-6 * distance, "{distance} {}", mean * lasts);
        prop_assert!(pieces.iter().all(|piece| piece.road_speed.base() <= top * (1.0 + 1e-9)));
        prop_assert!(pieces.iter().rev().skip(1).all(|piece| (piece.lasts.base() - resolution).abs() < 1e-5));
        // As many seconds in neutral at a standstill as asked for, seen at a step of a second.
        let fine = drive(&car, traffic, 1.0);
        let stands: f64 = fine.iter().filter(|piece| piece.road_speed.base() == 0.0).map(|piece| piece.lasts.base()).sum();
        let stops = (lasts / (3.0 * top / acceleration / (1.0 - standing))).round();
        prop_assert!((stands - standing * lasts).abs() <= 2.0 * stops + 1.0, "{stands} {}", standing * lasts);
        prop_assert!(same(sums(&fine), sums(&pieces)));
    }
}
