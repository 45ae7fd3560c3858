//! Cases at the edge, and what is refused.

use crate::car::{ambient, drives, heats, of, stands, v8};
use crate::follow::{closes, follow, follow_with};
use coldmark::day::{DayError, EventKind, Options, Start, run};
use coldmark::quantity::{Measured, celsius};
use coldmark::scribe::{Silent, Writing};

fn opens(drive: &coldmark::day::Drive) -> Option<f64> {
    drive.events.iter().find(|event| event.kind == EventKind::ThermostatOpens).map(|event| event.time.base())
}

/// A thermostat that opens at once is as good as none: the engine warms with the radiator and stays cooler.
#[test]
fn without_a_thermostat_it_runs_cold() {
    let mut none = v8();
    (none.thermostat.set_point, none.thermostat.span) = (celsius(40.0), of(1.0));
    let legs = [(drives(3600.0, 5.0, 25.0, 2500.0), heats(20e3, 1e3))];
    let (with, without) = (follow(&v8(), &legs, 5.0), follow(&none, &legs, 5.0));
    let end = |drive: &coldmark::day::Drive| drive.samples.last().unwrap().coolant.base() - 273.15;
    assert!(end(&with) > 81.0 && end(&without) < 50.0, "{} {}", end(&with), end(&without));
    assert!(opens(&without).unwrap() < opens(&with).unwrap());
    closes(&without);
}

/// No air through the radiator: nothing carries the heat away, and the day ends where the data do.
#[test]
fn without_air_it_is_cut_short() {
    let mut lumps = v8();
    (lumps.airflow.fan_velocity, lumps.airflow.draught) = (of(0.0), of(0.0));
    lumps.airflow.recirculation_rise = of(0.0);
    lumps.behind_cap.opening = coldmark::quantity::GaugePressure::from_base(200e3);
    let drive = follow(&lumps, &[(drives(7200.0, 20.0, 0.0, 2000.0), heats(20e3, 1e3))], 20.0);
    let reason = drive.cut_short.as_deref().unwrap();
    assert!(reason.contains("130") && reason.contains("data end"), "{reason}");
    let last = drive.samples.last().unwrap();
    assert!((last.coolant.base() - 403.15).abs() < 1e-3, "{last:?}");
    // Not even what warm coolant the expansion pushes into the standing radiator.
    let share = drive.closures.by_radiator.base() / drive.closures.heat_in.base();
    assert!((0.0..1e-3).contains(&share), "{share}");
    closes(&drive);
}

/// The same behind a usual cap boils first, blows steam, and ends when much of the coolant is gone.
#[test]
fn without_air_behind_a_usual_cap_it_boils_dry() {
    let mut lumps = v8();
    lumps.airflow.fan_velocity = of(0.0);
    lumps.behind_cap.opening = coldmark::quantity::GaugePressure::from_base(50e3);
    let drive = follow(&lumps, &[(drives(7200.0, 20.0, 0.0, 2000.0), heats(20e3, 1e3))], 20.0);
    let reason = drive.cut_short.as_deref().unwrap();
    assert!(reason.contains("heads stand dry"), "{reason}");
    let blown = drive.events.iter().find_map(|event| match event.kind {
        EventKind::CoolantBoils { blown_out, .. } => Some(blown_out.base()),
        _ => None,
    });
    assert!(blown.unwrap() > 0.1, "{:?}", drive.events);
    assert!(drive.closures.lost.base() > 0.2 * 7.0, "{:?}", drive.closures);
    closes(&drive);
}

/// Thin air carries less, and the cap's pressure stands on less: hotter, and nearer to boiling.
#[test]
fn at_3000_m_it_runs_hotter_and_boils_earlier() {
    let mut high = v8();
    high.system.ambient = ambient(70_108.0);
    let legs = [(drives(3600.0, 25.0, 12.0, 3500.0), heats(60e3, 2e3))];
    let (low, high) = (follow(&v8(), &legs, 20.0), follow(&high, &legs, 20.0));
    let last = |drive: &coldmark::day::Drive| *drive.samples.last().unwrap();
    let hotter = last(&high).coolant.base() - last(&low).coolant.base();
    assert!(hotter > 2.0, "{hotter}");
    let nearer = last(&low).margin.base() - last(&high).margin.base();
    // The boiling point at the cap's pressure falls by 5.4 K on the way up (tests/reference/bubble_points.csv).
    assert!((nearer - hotter - 5.4).abs() < 1.0, "{nearer} {hotter}");
    closes(&high);
}

/// The fan's switch keeps the coolant between its marks in traffic.
#[test]
fn a_switched_fan_holds_its_marks() {
    let mut lumps = v8();
    lumps.thermostat.set_point = celsius(71.0);
    lumps.fan_switch = Some((celsius(97.0), celsius(92.0)));
    let drive = follow(&lumps, &[(drives(3600.0, 30.0, 0.0, 900.0), heats(9e3, 5e2))], 90.0);
    let on = drive.events.iter().filter(|event| event.kind == EventKind::FanOn).count();
    let off = drive.events.iter().filter(|event| event.kind == EventKind::FanOff).count();
    assert!(on >= 3 && on - off <= 1, "{on} {off}");
    let late = drive.samples.iter().filter(|sample| sample.time.base() > 1200.0);
    for sample in late {
        let coolant = sample.coolant.base() - 273.15;
        assert!((86.0..98.0).contains(&coolant), "{sample:?}");
    }
    // Each is told at its mark.
    for event in &drive.events {
        let mark = match event.kind {
            EventKind::FanOn => 97.0,
            EventKind::FanOff => 92.0,
            _ => continue,
        };
        let sample = drive.samples.iter().find(|sample| sample.time == event.time).unwrap();
        assert!((sample.coolant.base() - 273.15 - mark).abs() < 1e-3, "{event:?} {sample:?}");
    }
    closes(&drive);
}

/// Stretches of some seconds are the same day as one long stretch.
#[test]
fn many_short_stretches_are_one_long_one() {
    let lumps = v8();
    let long = [(drives(1800.0, 20.0, 25.0, 2500.0), heats(35e3, 2e3))];
    let short = vec![(drives(3.0, 20.0, 25.0, 2500.0), heats(35e3, 2e3)); 600];
    let (long, short) = (follow(&lumps, &long, 20.0), follow(&lumps, &short, 20.0));
    let (a, b) = (long.samples.last().unwrap(), short.samples.last().unwrap());
    assert!((a.coolant.base() - b.coolant.base()).abs() < 0.02, "{a:?} {b:?}");
    assert!((a.in_tank.base() - b.in_tank.base()).abs() < 2e-6, "{a:?} {b:?}");
}

#[test]
fn a_day_that_cannot_be_is_refused_with_its_place() {
    let lumps = v8();
    let start = Start { temperature: celsius(20.0) };
    let options = Options::default();
    let ask = |stretches: &[_], heat: &[_], start: &Start| {
        run(&lumps, stretches, heat, start, &options, &mut Silent).unwrap_err()
    };
    assert_eq!(ask(&[], &[], &start), DayError::NoStretches);
    let error = ask(&[stands(10.0, 20.0, 0.0)], &[], &start);
    assert_eq!(error, DayError::HeatsCount { stretches: 1, heats: 0 });
    let mut bad = drives(10.0, 20.0, 0.0, 900.0);
    (bad.leg, bad.lasts) = (2, of(0.0));
    let error = ask(&[stands(10.0, 20.0, 0.0), bad], &[heats(0.0, 0.0); 2], &start).to_string();
    assert!(error.contains("stretch 2") && error.contains("leg 3") && error.contains("length"), "{error}");
    // Half ethylene glycol freezes near −37 °C.
    let mut winter = stands(90_000.0, -49.0, 0.0);
    winter.leg = 1;
    let error = ask(&[stands(1.0, -30.0, 0.0), winter], &[heats(0.0, 0.0); 2], &Start { temperature: celsius(-30.0) });
    assert!(matches!(error, DayError::Freezes { leg: 1, .. }), "{error}");
    assert!(error.to_string().contains("leg 2") && error.to_string().contains("stronger mix"), "{error}");
    let error = ask(&[stands(1.0, -30.0, 0.0)], &[heats(0.0, 0.0)], &Start { temperature: celsius(-45.0) });
    assert!(matches!(error, DayError::Freezes { leg: 0, .. }), "{error}");
}

#[test]
fn a_car_that_cannot_be_is_refused() {
    let legs = ([stands(10.0, 20.0, 0.0)], [heats(0.0, 0.0)]);
    let ask = |lumps: &coldmark::day::Lumps| {
        let start = Start { temperature: celsius(20.0) };
        run(lumps, &legs.0, &legs.1, &start, &Options::default(), &mut Silent).unwrap_err().to_string()
    };
    let mut lumps = v8();
    lumps.fan_switch = Some((celsius(92.0), celsius(97.0)));
    assert!(ask(&lumps).contains("cooler than it comes on"), "{}", ask(&lumps));
    let mut lumps = v8();
    lumps.block = of(f64::NAN);
    assert!(ask(&lumps).contains("heat capacity"), "{}", ask(&lumps));
    let mut lumps = v8();
    lumps.system.circuit.regions.retain(|region| region.name != "radiator");
    assert!(ask(&lumps).contains("the radiator"), "{}", ask(&lumps));
}

#[test]
fn a_day_can_be_given_up() {
    let asked = std::sync::atomic::AtomicU32::new(0);
    let cancel = || asked.fetch_add(1, std::sync::atomic::Ordering::Relaxed) >= 5;
    let options = Options { cancel: Some(&cancel), ..Options::default() };
    let start = Start { temperature: celsius(20.0) };
    let stretches = [drives(36_000.0, 20.0, 20.0, 2000.0)];
    let error = run(&v8(), &stretches, &[heats(20e3, 1e3)], &start, &options, &mut Silent).unwrap_err();
    assert_eq!(error, DayError::Cancelled);
    assert_eq!(asked.into_inner(), 6);
}

/// The working's numbers are the sample's: flow by what the thermostat lets pass, not by how far it is open, and the heat of
/// the radiator with that flow.
#[test]
fn the_working_is_that_of_the_hottest_sample() {
    for (share, heat) in [(0.25, 30e3), (0.5, 20e3), (1.0, 30e3)] {
        let mut lumps = v8();
        lumps.thermostat.resistance_share = of(share);
        let start = Start { temperature: celsius(80.0) };
        let mut writing = Writing::default();
        let (stretches, heats) = ([drives(1800.0, 20.0, 20.0, 2000.0)], [heats(heat, 1e3)]);
        let drive = run(&lumps, &stretches, &heats, &start, &Options::default(), &mut writing).unwrap();
        let hottest = drive.samples.iter().filter(|sample| sample.engine_speed.base() > 0.0);
        let hottest = hottest.max_by(|a, b| a.coolant.base().total_cmp(&b.coolant.base())).unwrap();
        let steps: Vec<_> = writing.chapters.iter().flat_map(|chapter| &chapter.steps).collect();
        let told = |symbol: &str| steps.iter().rfind(|step| step.symbol == symbol).unwrap().result.base;
        let opening = hottest.opening.base();
        assert!(opening > 0.05 && opening < 0.95, "{opening}");
        assert!((told("s") - opening).abs() < 1e-12);
        let passed = 1.0 / (1.0 + share * (1.0 / opening.powi(2) - 1.0)).sqrt();
        assert!((told("V̇") - 2.0 * 0.6e-3 * passed).abs() < 1e-9, "{share}: {} at {opening}", told("V̇"));
        let given = hottest.radiator_heat.base();
        assert!(given > 5e3 && (told("Q_r") / given - 1.0).abs() < 1e-9, "{share}: {} {given}", told("Q_r"));
        let metal = hottest.metal.base() - hottest.coolant.base();
        assert!((told("Q_m") / (told("G_m") * metal) - 1.0).abs() < 1e-12);
    }
}

#[test]
fn the_working_changes_nothing() {
    let start = Start { temperature: celsius(20.0) };
    let day = ([drives(900.0, 20.0, 20.0, 2000.0), stands(300.0, 20.0, 0.0)], [heats(40e3, 1e3), heats(0.0, 0.0)]);
    let mut writing = Writing::default();
    let written = run(&v8(), &day.0, &day.1, &start, &Options::default(), &mut writing).unwrap();
    let silent = run(&v8(), &day.0, &day.1, &start, &Options::default(), &mut Silent).unwrap();
    assert_eq!(written, silent);
    let steps: Vec<_> = writing.chapters.iter().flat_map(|chapter| &chapter.steps).collect();
    assert!(steps.len() >= 6, "{steps:?}");
    assert!(follow_with(&v8(), &[(day.0[0], day.1[0])], 20.0, &Options::default()).samples.len() > 80);
}
