//! Hot shutdowns against the worked example of three bodies in tests/reference/worked_coolant.json, made with Euler steps of
//! 0.25 s by worked_coolant.py; its figures of the bodies are assumptions, so this proves the model's arithmetic.

use crate::car::{drives, heats, of, stands, v8};
use crate::example::{brought_to, engine_volume, expected};
use crate::follow::{closes, follow};
use coldmark::day::EventKind;
use coldmark::quantity::Measured;

#[test]
fn a_sealed_stop_peaks_where_the_example_says() {
    let outlet = 96.2;
    let (_, drive) = brought_to(150.0, outlet, 92.0, 103e3);
    let [soak] = drive.soaks.as_slice() else { panic!("{:?}", drive.soaks) };
    assert!((soak.peak.base() - 273.15 - expected("hot_soak", "peak_coolant_C")).abs() < 0.1, "{soak:?}");
    let after = soak.peak_at.base() - soak.stopped.base();
    assert!((after / expected("hot_soak", "time_of_peak_s") - 1.0).abs() < 0.01, "{after}");
    assert_eq!(soak.vapour.base(), 0.0);
    closes(&drive);
}

#[test]
fn a_stop_after_hard_running_boils_as_the_example_says() {
    let case = "hot_soak_cap_not_sealing_and_hard_run";
    let (lumps, drive) = brought_to(185.0, 100.0, 92.0, 0.0);
    let [soak] = drive.soaks.as_slice() else { panic!("{:?}", drive.soaks) };
    assert!((soak.peak.base() - 273.15 - expected(case, "T_bubble_C")).abs() < 0.1, "{soak:?}");
    let made = soak.vapour.base() * 1e3;
    assert!((made / expected(case, "vapour_made_g") - 1.0).abs() < 0.01, "{made} g");
    let strongest = drive
        .samples
        .iter()
        .filter(|s| s.vapour.base() > 0.0 && s.engine_speed.base() == 0.0)
        .map(|s| 60.0 * (s.metal.base() - s.coolant.base()) - 45.0 * (s.coolant.base() - s.block.base()))
        .fold(0.0, f64::max);
    assert!((strongest / expected(case, "peak_boiling_power_W") - 1.0).abs() < 0.02, "{strongest} W");
    // It also boils while it warms, before the thermostat's wax has followed.
    let Some((begin, vapour, blown)) = drive.events.iter().rev().find_map(|event| match event.kind {
        EventKind::CoolantBoils { vapour, blown_out, .. } => Some((event.time.base(), vapour, blown_out)),
        _ => None,
    }) else {
        panic!("{:?}", drive.events)
    };
    let after = begin - soak.stopped.base();
    assert!((after - expected(case, "time_of_peak_s")).abs() < 2.0, "{after}");
    assert!((vapour.base() - soak.vapour.base()).abs() < 1e-9 && blown <= vapour, "{vapour:?} {blown:?}");
    // It is told as one boiling, though now and then all vapour has left at the end of a step.
    let stops = drive
        .events
        .iter()
        .filter(|event| event.time >= soak.stopped && matches!(event.kind, EventKind::CoolantBoils { .. }));
    assert_eq!(stops.count(), 1);
    // What stays pushes out no more than the surge allows.
    let surge = lumps.surge.base() * engine_volume();
    assert!(drive.samples.iter().all(|sample| sample.vapour.base() <= surge * (1.0 + 1e-9)));
    closes(&drive);
}

/// Stopped on a hot metal the coolant warms; stopped after a long cruise at light load less so; on a cold engine not at all.
#[test]
fn a_harder_run_ends_in_a_hotter_soak() {
    let lumps = v8();
    let peak = |heat: f64| {
        let legs =
            [(drives(3600.0, 20.0, 25.0, 3000.0), heats(heat, 2e3)), (stands(1200.0, 20.0, 0.0), heats(0.0, 0.0))];
        let drive = follow(&lumps, &legs, 20.0);
        closes(&drive);
        drive.soaks[0].peak.base() - drive.soaks[0].at_stop.base()
    };
    let rises = [15e3, 30e3, 60e3].map(peak);
    assert!(rises[0] < rises[1] && rises[1] < rises[2] && rises[2] > 3.0, "{rises:?}");
    let mut lumps = v8();
    lumps.airflow.recirculation_rise = of(0.0);
    let cold = follow(
        &lumps,
        &[(drives(5.0, 20.0, 0.0, 900.0), heats(0.0, 0.0)), (stands(600.0, 20.0, 0.0), heats(0.0, 0.0))],
        20.0,
    );
    assert!((cold.soaks[0].peak.base() - cold.soaks[0].at_stop.base()).abs() < 1e-6);
}

/// After a night in the shade what had gone out has come back.
#[test]
fn what_went_out_comes_back_over_night() {
    let legs = [(drives(2400.0, 20.0, 25.0, 3000.0), heats(45e3, 2e3)), (stands(43_200.0, 20.0, 0.0), heats(0.0, 0.0))];
    let drive = follow(&v8(), &legs, 20.0);
    let came_back = drive.soaks[0].came_back.unwrap().base();
    assert!(came_back > 0.9, "{:?}", drive.soaks);
    assert_eq!(drive.closures.lost.base(), 0.0);
    assert!(drive.events.iter().any(|event| matches!(event.kind, EventKind::VacuumValveOpens { .. })));
    closes(&drive);
}
