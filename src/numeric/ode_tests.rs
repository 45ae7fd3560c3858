use super::*;

/// y′ = −y²·cos t, y(0) = 1: y = 1/(1 + sin t); not linear, known exactly.
fn slope(t: f64, y: &[f64; 1]) -> [f64; 1] {
    [-y[0] * y[0] * t.cos()]
}

fn exact(t: f64) -> f64 {
    1.0 / (1.0 + t.sin())
}

fn fixed(steps: u32) -> f64 {
    let h = 1.5 / f64::from(steps);
    let mut stepper = Stepper::new([f64::INFINITY], h, 1e-9, h);
    let (mut y, mut last) = ([1.0], 0.0);
    for i in 1..=steps {
        let end = f64::from(i) * h;
        y = stepper.step(slope, last, &y, end).unwrap().after;
        last = end;
    }
    assert_eq!(stepper.steps, steps);
    (y[0] - exact(last)).abs()
}

#[test]
fn is_of_third_order() {
    for steps in [40, 80, 160] {
        let order = (fixed(steps) / fixed(2 * steps)).log2();
        assert!((order - 3.0).abs() < 0.12, "{steps}: {order}");
    }
}

/// The same between the ends of a step.
#[test]
fn is_of_third_order_between_the_ends() {
    let off = |h: f64| {
        let from = 0.3;
        let taken = Stepper::new([f64::INFINITY], h, 1e-9, h).step(slope, from, &[exact(from)], from + h).unwrap();
        (taken.at(from + 0.4 * h)[0] - exact(from + 0.4 * h)).abs()
    };
    // One step alone: an error that goes with the fourth power.
    let order = (off(0.1) / off(0.05)).log2();
    assert!((3.7..4.4).contains(&order), "{order}");
}

fn controlled(tolerance: f64) -> (f64, u32) {
    let mut stepper = Stepper::new([tolerance], 1e-3, 1e-12, 10.0);
    let (mut t, mut y, mut worst) = (0.0, [1.0], 0.0_f64);
    while t < 4.0 {
        let taken = stepper.step(slope, t, &y, 4.0).unwrap();
        (t, y) = (taken.to, taken.after);
        worst = worst.max((y[0] - exact(t)).abs());
    }
    (worst, stepper.steps)
}

#[test]
fn the_error_follows_the_tolerance() {
    let mut last = controlled(1e-3);
    for tolerance in [1e-4, 1e-5, 1e-6, 1e-7] {
        let now = controlled(tolerance);
        assert!(now.0 < last.0 / 3.0, "{tolerance}: {now:?} after {last:?}");
        assert!(now.1 > last.1);
        // The answer grows to 4 near 3π/2 and its errors with the square of it; a few steps add up.
        assert!(now.0 < 60.0 * tolerance, "{tolerance}: {now:?}");
        last = now;
    }
}

#[test]
fn a_stiff_value_costs_steps_and_not_the_answer() {
    // Time constants of 0.2 and 50: the step is held at the edge of stability without many tries in vain.
    let slope = |_: f64, y: &[f64; 2]| [-5.0 * (y[0] - y[1]), -0.02 * y[1]];
    let mut stepper = Stepper::new([1e-3, 1e-3], 0.01, 1e-9, 10.0);
    let (mut t, mut y) = (0.0, [0.0, 1.0]);
    while t < 100.0 {
        let taken = stepper.step(slope, t, &y, 100.0).unwrap();
        (t, y) = (taken.to, taken.after);
    }
    assert!((y[1] - (-2.0_f64).exp()).abs() < 2e-3, "{y:?}");
    assert!((y[0] - y[1]).abs() < 5e-3, "{y:?}");
    assert!(stepper.rejected * 5 < stepper.steps, "{stepper:?}");
}

#[test]
fn what_happens_inside_a_step_is_found() {
    // y = 1/(1 + sin t) falls through 0.6 at t = asin(2/3).
    let mut stepper = Stepper::new([1e-9], 1e-3, 1e-12, 1.0);
    let (mut t, mut y) = (0.0, [1.0]);
    let found = loop {
        let taken = stepper.step(slope, t, &y, 1.5).unwrap();
        if let Some(at) = taken.rises_through_zero(|_, y| 0.6 - y[0], 1e-9).unwrap() {
            break at;
        }
        (t, y) = (taken.to, taken.after);
    };
    assert!((found - (2.0_f64 / 3.0).asin()).abs() < 1e-6, "{found}");
}

#[test]
fn a_slope_that_is_no_number_ends_in_an_error() {
    let mut stepper = Stepper::new([1e-3], 1.0, 1e-6, 10.0);
    let wall = |t: f64, _: &[f64; 1]| [if t > 1.0 { f64::NAN } else { 1.0 }];
    let (mut t, mut y) = (0.0, [0.0]);
    let error = loop {
        match stepper.step(wall, t, &y, 5.0) {
            Ok(taken) => (t, y) = (taken.to, taken.after),
            Err(error) => break error,
        }
    };
    let StepError::TooShort { at, .. } = error;
    assert!(at <= 1.0 && at > 0.9, "{error}");
    assert!((y[0] - t).abs() < 1e-12);
}

#[test]
fn an_end_is_met_exactly_and_without_a_sliver() {
    let mut stepper = Stepper::new([1e-6], 0.3, 1e-9, 0.3);
    let (mut t, mut y, mut shortest) = (0.0, [0.0], 1.0_f64);
    while t < 1.0 {
        let taken = stepper.step(|_, _| [1.0], t, &y, 1.0).unwrap();
        shortest = shortest.min(taken.to - taken.from);
        (t, y) = (taken.to, taken.after);
    }
    assert_eq!(t, 1.0);
    assert!((y[0] - 1.0).abs() < 1e-12 && shortest > 0.1, "{y:?} {shortest}");
}
