//! Few events with their sums, from many small moves.

use super::systems::{OPEN, behind, example_1, walk};
use crate::day::charge::{Happenings, Moved, Vessel};
use crate::day::{CapState, Event, EventKind, Trifles};
use crate::quantity::Measured;
use crate::quantity::si::{Time, Volume};

fn gather(steps: &[(f64, f64, Moved)]) -> Vec<Event> {
    all(steps).0
}

fn all(steps: &[(f64, f64, Moved)]) -> (Vec<Event>, Trifles) {
    let mut happenings = Happenings::new(Time::from_base(60.0), Volume::from_base(1e-6));
    for (begin, until, moved) in steps {
        happenings.take(*begin, *until, 3, moved);
    }
    happenings.finish()
}

fn out(millilitres: f64) -> Moved {
    Moved { out: millilitres * 1e-3, out_volume: millilitres * 1e-6, ..Moved::default() }
}

#[test]
fn short_gaps_are_joined_and_long_ones_are_not() {
    let rest = Moved::default();
    let steps = [
        (0.0, 10.0, out(20.0)),
        (10.0, 50.0, rest),
        (50.0, 60.0, out(30.0)),
        (60.0, 100.0, rest),
        (100.0, 140.0, rest),
        (140.0, 150.0, out(5.0)),
    ];
    let events = gather(&steps);
    let told: Vec<_> = events
        .iter()
        .map(|event| match event.kind {
            EventKind::CapOpens { until, coolant, air, .. } => {
                (event.time.base(), until.base(), (coolant.base() * 1e6).round(), air.base())
            }
            other => panic!("{other:?}"),
        })
        .collect();
    assert_eq!(told, [(0.0, 60.0, 50.0, 0.0), (140.0, 150.0, 5.0, 0.0)]);
    assert!(events.iter().all(|event| event.leg == 3));
}

#[test]
fn dust_is_not_told() {
    assert!(gather(&[(0.0, 1.0, out(0.0005))]).is_empty());
}

/// What is too little for an event is not lost: it is counted and summed.
#[test]
fn trifles_are_counted_with_their_sums() {
    let back = Moved { back: 1e-3, back_volume: 0.4e-6, ..Moved::default() };
    let steps = [(0.0, 1.0, out(0.6)), (100.0, 101.0, out(0.3)), (101.0, 102.0, back), (300.0, 301.0, out(2.0))];
    let (events, trifles) = all(&steps);
    assert_eq!(events.len(), 1);
    assert_eq!((trifles.outward, trifles.inward), (2, 1));
    assert!((trifles.out.base() - 0.9e-6).abs() < 1e-15 && (trifles.back.base() - 0.4e-6).abs() < 1e-15);
}

/// A spill is told from a millilitre on, whatever else is too little for an event.
#[test]
fn a_small_spill_is_told() {
    let mut happenings = Happenings::new(Time::from_base(180.0), Volume::from_base(5e-6));
    let spill = Moved { spilled: 2e-3, spilled_volume: 2e-6, ..Moved::default() };
    happenings.take(0.0, 1.0, 0, &spill);
    let (events, _) = happenings.finish();
    assert!(matches!(events.as_slice(), [Event { kind: EventKind::TankSpills { .. }, .. }]), "{events:?}");
}

#[test]
fn the_tube_is_told_uncovered_once_until_coolant_comes_back() {
    let air = Moved { air_in: 0.01, air_in_volume: 1e-5, uncovered: true, ..Moved::default() };
    let back = Moved { back: 0.1, back_volume: 1e-4, ..Moved::default() };
    let steps = [(0.0, 1.0, air), (1.0, 2.0, air), (2.0, 300.0, Moved::default()), (300.0, 301.0, air)];
    let count = |events: Vec<Event>| events.iter().filter(|event| event.kind == EventKind::TubeUncovered).count();
    assert_eq!(count(gather(&steps)), 1);
    let steps = [(0.0, 1.0, air), (1.0, 2.0, back), (2.0, 3.0, air)];
    assert_eq!(count(gather(&steps)), 2);
}

#[test]
fn a_cycle_is_two_events_whose_sums_are_what_moved() {
    let system = example_1();
    let vessel = Vessel::new(&system, &behind(OPEN, 1.5, 0.5, 0.1, 103e3, 6e3)).unwrap();
    let mut charge = vessel.fill().unwrap();
    let mut moved = walk(&vessel, &mut charge, &system, (0.0, 1.0), 60, 50.0);
    moved.extend(walk(&vessel, &mut charge, &system, (1.0, 0.0), 60, 15.0));
    let steps: Vec<_> =
        moved.iter().enumerate().map(|(i, moved)| (i as f64 * 30.0, (i + 1) as f64 * 30.0, *moved)).collect();
    let sum = |of: fn(&Moved) -> f64| moved.iter().map(of).sum::<f64>();
    let [first, second] = gather(&steps).try_into().unwrap();
    let Event { kind: EventKind::CapOpens { until, coolant, .. }, time, .. } = first else { panic!("{first:?}") };
    assert!((coolant.base() - sum(|moved| moved.out_volume)).abs() < 1e-12 && coolant.base() > 0.5e-3);
    assert!(time.base() > 0.0 && until.base() == 1800.0);
    let Event { kind: EventKind::VacuumValveOpens { coolant, air, .. }, time, .. } = second else {
        panic!("{second:?}")
    };
    assert!((coolant.base() - sum(|moved| moved.back_volume)).abs() < 1e-12 && coolant.base() > 0.5e-3);
    assert!(air.base() == 0.0 && time.base() > 1800.0);
}

/// A night's trickle, a drop a minute and slower than anybody would see, is an event like any other.
#[test]
fn a_trickle_is_told_with_all_it_moves() {
    let drop = Moved { back: 0.05e-3, back_volume: 0.05e-6, ..Moved::default() };
    let steps: Vec<_> = (0..480).map(|i| (f64::from(i) * 60.0, f64::from(i + 1) * 60.0, drop)).collect();
    let (events, trifles) = all(&steps);
    let [Event { kind: EventKind::VacuumValveOpens { until, coolant, mass, .. }, time, .. }] = events.as_slice() else {
        panic!("{events:?}")
    };
    assert!((time.base(), until.base()) == (0.0, 28_800.0) && trifles == Trifles::default());
    assert!((coolant.base() - 24e-6).abs() < 1e-15 && (mass.base() - 24e-3).abs() < 1e-12);
    assert_eq!(drop.cap(), CapState::LetsIn);
    assert_eq!(Moved::default().cap(), CapState::Shut);
}

/// What goes out and comes back within one step counts both ways.
#[test]
fn a_step_that_does_both_is_in_both_sums() {
    let both = Moved { back: 2e-3, back_volume: 2e-6, ..out(3.0) };
    let sums: Vec<_> = gather(&[(0.0, 10.0, both)])
        .iter()
        .map(|event| match event.kind {
            EventKind::CapOpens { mass, .. } => mass.base(),
            EventKind::VacuumValveOpens { mass, .. } => -mass.base(),
            other => panic!("{other:?}"),
        })
        .collect();
    assert_eq!(sums, [3e-3, -2e-3]);
}
