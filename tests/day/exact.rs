//! Bodies that follow laws with exact solutions.

use crate::car::{drives, heats, of, stands, v8};
use crate::follow::{closes, follow, follow_with};
use coldmark::day::{Drive, EventKind, Options, Sample};
use coldmark::quantity::{Measured, celsius};

/// Cooling of one body, T = T∞ + (T₀ − T∞)·exp(−t/τ), τ = C/G (F. P. Incropera and D. P. DeWitt, Fundamentals of Heat and
/// Mass Transfer, lumped capacitance method).
#[test]
fn one_body_cools_by_the_exponential() {
    let mut lumps = v8();
    lumps.oil_to_block = of(0.0);
    (lumps.oil_to_air, lumps.oil_to_air_on_road) = (of(20.0), of(0.0));
    let tau = lumps.oil.base() / 20.0;
    let drive = follow(&lumps, &[(stands(6000.0, 20.0, 0.0), heats(0.0, 0.0))], 95.0);
    for sample in &drive.samples {
        let expected = 20.0 + 75.0 * (-sample.time.base() / tau).exp();
        assert!((sample.oil.base() - 273.15 - expected).abs() < 0.02, "{sample:?}");
    }
    closes(&drive);
}

/// The thermocouple of the same book's first example of the method (from memory): from 25 °C in a stream of 200 °C it is at
/// 199 °C after 5.2 of its time constants. Any body is: it has come to 1/175 of its way.
#[test]
fn one_body_is_as_late_as_the_book_says() {
    let mut lumps = v8();
    lumps.oil_to_block = of(0.0);
    (lumps.oil_to_air, lumps.oil_to_air_on_road) = (of(20.0), of(0.0));
    let tau = lumps.oil.base() / 20.0;
    let options = Options { sample_every: of(1.0), ..Options::default() };
    let drive = follow_with(&lumps, &[(stands(6000.0, 20.0, 0.0), heats(0.0, 0.0))], 90.0, &options);
    let near = drive.samples.iter().find(|sample| sample.oil.base() - 293.15 <= 70.0 / 175.0).unwrap();
    assert!((near.time.base() / tau - 5.2).abs() < 0.05, "{}", near.time.base() / tau);
}

/// Two bodies joined, one of them in the air: the sum of two exponentials, by the roots of the quadratic.
#[test]
fn two_bodies_follow_their_two_exponentials() {
    let mut lumps = v8();
    (lumps.block_still, lumps.block_running) = (of(0.0), of(0.0));
    (lumps.oil_to_block, lumps.oil_to_air) = (of(60.0), of(0.0));
    lumps.block_to_air = of(25.0);
    let (c_b, c_o) = (lumps.block.base(), lumps.oil.base());
    // x = T_b − T_air, z = T_o − T_air: x′ = −(60 + 25)/C_b x + 60/C_b z, z′ = 60/C_o (x − z).
    let (a, b, c, d) = (-85.0 / c_b, 60.0 / c_b, 60.0 / c_o, -60.0 / c_o);
    let half = 0.5 * (a + d);
    let root = (half * half - (a * d - b * c)).sqrt();
    let (fast, slow) = (half - root, half + root);
    // Both at 70 K: x′(0) = a·70 + b·70.
    let start = 70.0;
    let slope = (a + b) * start;
    let of_slow = (slope - fast * start) / (slow - fast);
    let of_fast = start - of_slow;
    let drive = follow(&lumps, &[(stands(12_000.0, 20.0, 0.0), heats(0.0, 0.0))], 90.0);
    for sample in &drive.samples {
        let t = sample.time.base();
        let x = of_slow * (slow * t).exp() + of_fast * (fast * t).exp();
        let z = (of_slow * (slow - a) * (slow * t).exp() + of_fast * (fast - a) * (fast * t).exp()) / b;
        assert!((sample.block.base() - 293.15 - x).abs() < 0.02, "{t}: {x} {sample:?}");
        assert!((sample.oil.base() - 293.15 - z).abs() < 0.02, "{t}: {z} {sample:?}");
    }
    closes(&drive);
}

/// A straight rise: heat into a body that gives none away.
#[test]
fn heat_without_a_way_out_raises_in_a_straight_line() {
    let mut lumps = v8();
    (lumps.oil_to_block, lumps.oil_to_air, lumps.oil_to_air_on_road) = (of(0.0), of(0.0), of(0.0));
    let drive = follow(&lumps, &[(drives(300.0, 20.0, 0.0, 900.0), heats(5e3, 2e3))], 20.0);
    for sample in &drive.samples {
        let expected = 20.0 + 2e3 * sample.time.base() / lumps.oil.base();
        assert!((sample.oil.base() - 273.15 - expected).abs() < 1e-6, "{sample:?}");
    }
}

fn day(tolerance: f64) -> Drive {
    let mut lumps = v8();
    lumps.fan_switch = Some((celsius(97.0), celsius(92.0)));
    let legs = [
        (drives(600.0, 15.0, 20.0, 2200.0), heats(30e3, 2e3)),
        (drives(900.0, 30.0, 30.0, 3500.0), heats(70e3, 4e3)),
        (stands(900.0, 30.0, 0.0), heats(0.0, 0.0)),
        (drives(300.0, 30.0, 0.0, 800.0), heats(9e3, 5e2)),
    ];
    follow_with(&lumps, &legs, 15.0, &Options { tolerance: of(tolerance), ..Options::default() })
}

fn at(drive: &Drive, time: f64) -> Sample {
    *drive.samples.iter().find(|sample| (sample.time.base() - time).abs() < 1e-9).unwrap()
}

/// With a tighter tolerance the answer comes nearer to that of the tightest; what is left at last is the play of thermostat
/// and charge, which move at the ends of steps.
#[test]
fn the_answer_converges_with_the_tolerance() {
    let best = day(1e-6);
    let mut last = f64::INFINITY;
    for (tolerance, allowed) in [(0.1, 1.0), (0.01, 0.2), (1e-3, 0.05), (1e-4, 0.03)] {
        let drive = day(tolerance);
        let worst = [200.0, 400.0, 700.0, 1400.0, 1700.0, 2300.0]
            .map(|time| {
                let (a, b) = (at(&drive, time), at(&best, time));
                let off = |x: f64, y: f64| (x - y).abs();
                off(a.coolant.base(), b.coolant.base())
                    .max(off(a.metal.base(), b.metal.base()))
                    .max(off(a.radiator_outlet.base(), b.radiator_outlet.base()))
            })
            .into_iter()
            .fold(0.0, f64::max);
        assert!(worst < allowed, "{tolerance}: {worst}");
        assert!(worst <= last * 1.2, "{tolerance}: {worst} after {last}");
        last = worst;
        closes(&drive);
    }
}

/// What is asked of a day does not change it: moments and peaks are those of a day sampled more closely.
#[test]
fn how_often_it_is_sampled_does_not_matter() {
    let legs = [(drives(900.0, 15.0, 20.0, 2500.0), heats(50e3, 2e3)), (stands(900.0, 25.0, 0.0), heats(0.0, 0.0))];
    let asked =
        |every: f64| follow_with(&v8(), &legs, 15.0, &Options { sample_every: of(every), ..Options::default() });
    let (seldom, often) = (asked(60.0), asked(1.0));
    assert!(often.samples.len() > 20 * seldom.samples.len());
    let opens = |drive: &Drive| {
        let event = drive.events.iter().find(|event| event.kind == EventKind::ThermostatOpens).unwrap();
        // The state is kept at every event, and the wax stands at its mark there.
        assert!(drive.samples.iter().any(|sample| sample.time == event.time), "{event:?}");
        event.time.base()
    };
    assert!((opens(&seldom) - opens(&often)).abs() < 0.5, "{} {}", opens(&seldom), opens(&often));
    let (a, b) = (seldom.soaks[0], often.soaks[0]);
    assert!((a.peak.base() - b.peak.base()).abs() < 0.2, "{a:?} {b:?}");
    assert!((a.surge.base() - b.surge.base()).abs() < 5e-6, "{a:?} {b:?}");
}
