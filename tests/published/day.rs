//! Published checks: a day through time.
//!
//! References: the hot stops of the worked example of three bodies in `worked_coolant.json`, a second implementation in Euler
//! steps of 0.25 s with coolant of a fixed heat capacity; the thermocouple of F. P. Incropera and D. P. DeWitt, Fundamentals
//! of Heat and Mass Transfer, chapter on transient conduction, first example of the lumped capacitance method, quoted from
//! memory; a nonlinear equation with an exact solution.

use crate::accuracy::{Row, Tally};
use crate::car::{heats, of, stands, v8};
use crate::example::{brought_to, expected};
use crate::follow::follow;
use coldmark::day::Soak;
use coldmark::numeric::Stepper;
use coldmark::quantity::Measured;

/// The rows this part adds to the accuracy table.
pub fn accuracy() -> Vec<Row> {
    let mut rows = hot_stops();
    rows.push(one_body());
    rows.push(order());
    rows
}

/// A stop after usual running behind a cap that seals, and one after hard running behind a cap that does not: the second boils.
fn hot_stops() -> Vec<Row> {
    let reference = "second implementation, worked_coolant.json";
    let mut peak = Tally::new("hottest coolant after a hot stop", reference, "K", 0.1);
    let mut moment = Tally::new("moment of the hottest coolant after a hot stop", reference, "%", 1.0);
    let mut vapour = Tally::new("vapour made after a hot stop", reference, "%", 1.0);
    let soak = |metal: f64, coolant: f64, seal: f64| -> Soak {
        let (_, drive) = brought_to(metal, coolant, 92.0, seal);
        let [soak] = drive.soaks.as_slice() else { panic!("{:?}", drive.soaks) };
        *soak
    };
    let sealed = soak(150.0, 96.2, 103e3);
    peak.difference(sealed.peak.base() - 273.15, expected("hot_soak", "peak_coolant_C"));
    moment.relative(sealed.peak_at.base() - sealed.stopped.base(), expected("hot_soak", "time_of_peak_s"));
    assert_eq!(sealed.vapour.base(), expected("hot_soak", "vapour_made_g"));
    let case = "hot_soak_cap_not_sealing_and_hard_run";
    let boils = soak(185.0, 100.0, 0.0);
    peak.difference(boils.peak.base() - 273.15, expected(case, "peak_coolant_C"));
    vapour.relative(boils.vapour.base() * 1e3, expected(case, "vapour_made_g"));
    vec![peak.row(), moment.row(), vapour.row()]
}

/// A body cools or warms by T = T∞ + (T₀ − T∞)·exp(−t/τ). The book's thermocouple, from 25 °C in a stream of 200 °C, has come
/// to 199 °C, 1/175 of its way being left, after 5.2 s with a time constant of 1 s; any body has after as many of its own.
fn one_body() -> Row {
    let mut tally = Tally::new(
        "a body that cools by the exponential",
        "lumped capacitance method, Incropera and DeWitt, from memory",
        "% of its way",
        1e-3,
    );
    let mut lumps = v8();
    lumps.oil_to_block = of(0.0);
    (lumps.oil_to_air, lumps.oil_to_air_on_road) = (of(20.0), of(0.0));
    let tau = lumps.oil.base() / 20.0;
    let drive = follow(&lumps, &[(stands(6000.0, 20.0, 0.0), heats(0.0, 0.0))], 90.0);
    let left = |oil: f64| (oil - 293.15) / 70.0;
    for sample in &drive.samples {
        tally.difference(100.0 * left(sample.oil.base()), 100.0 * (-sample.time.base() / tau).exp());
    }
    // The printed digits of the book: 5.2.
    let after = drive.samples.iter().rfind(|sample| sample.time.base() <= 5.2 * tau).unwrap();
    assert!((left(after.oil.base()) * 175.0 - 1.0).abs() < 0.06, "{after:?}");
    tally.row()
}

/// y′ = −y²·cos t from y(0) = 1 is y = 1/(1 + sin t). Halving the step must divide the error at t = 1.5 by 2³.
fn order() -> Row {
    let mut tally = Tally::new("order of the integration, 3", "exact solution 1/(1 + sin t), steps halved", "", 0.1);
    let off = |steps: u32| {
        let h = 1.5 / f64::from(steps);
        let mut stepper = Stepper::new([f64::INFINITY], h, 1e-9, h);
        let (mut y, mut last) = ([1.0], 0.0);
        for i in 1..=steps {
            let end = f64::from(i) * h;
            let slope = |t: f64, y: &[f64; 1]| [-y[0] * y[0] * t.cos()];
            y = stepper.step(slope, last, &y, end).unwrap().after;
            last = end;
        }
        assert_eq!(stepper.steps, steps);
        (y[0] - 1.0 / (1.0 + last.sin())).abs()
    };
    for steps in [80, 160, 320] {
        tally.difference((off(steps) / off(2 * steps)).log2(), 3.0);
    }
    tally.row()
}
