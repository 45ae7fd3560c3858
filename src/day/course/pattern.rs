//! How the speed goes in a trace and in stop and go: straight pieces, whose means are exact.

use crate::day::Trace;
use crate::quantity::si::{Acceleration, Ratio, Time, Velocity};
use crate::quantity::{Amount, Kind, Measured};
use crate::scribe::{Scribe, Step};
use crate::source::day as source;

/// A time over which the speed goes in a straight line; SI.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct Ramp {
    pub lasts: f64,
    pub from: f64,
    pub to: f64,
}

impl Ramp {
    /// Its mean speed.
    pub fn mean(&self) -> f64 {
        (self.from + self.to) / 2.0
    }

    pub fn acceleration(&self) -> f64 {
        (self.to - self.from) / self.lasts
    }

    /// The same in equal steps of at most a second.
    pub fn steps(self) -> impl Iterator<Item = Self> {
        // Drag goes with the square of the speed: over a second of a ramp its mean is that at the mean speed to 1 %.
        let count = (self.lasts - 1e-9).ceil().max(1.0);
        let at = move |part: f64| self.from + (self.to - self.from) * part / count;
        (0..count as u64).map(move |step| {
            let step = step as f64;
            Self { lasts: self.lasts / count, from: at(step), to: at(step + 1.0) }
        })
    }
}

/// A standard trace, so many times in a row.
pub(super) fn trace(trace: Trace, repeats: u32) -> impl Iterator<Item = Ramp> {
    let once = trace.speeds();
    (0..repeats).flat_map(move |_| {
        once.iter().zip(once.iter().skip(1)).map(|(from, to)| Ramp { lasts: 1.0, from: from.base(), to: to.base() })
    })
}

/// Equal stops in a row.
pub(super) struct StopAndGo {
    stop: [Ramp; 4],
    stops: u64,
}

impl StopAndGo {
    pub fn ramps(self) -> impl Iterator<Item = Ramp> {
        (0..self.stops).flat_map(move |_| self.stop).filter(|ramp| ramp.lasts > 0.0)
    }
}

/// Stop and go of a mean speed: equal stops, each standing, speeding up to v, holding v as long, slowing down as long.
///
/// v = 1.5·v̄/(1 − s) and t = v/a for each of the three. As many whole stops as fit best: their times are then stretched or
/// shortened together until they fill the time, by a third at most and by little where there are many, so mean speed and
/// share are kept and the acceleration is met nearly.
///
/// Gives the time of one stop if that is longer than there is.
pub(super) fn traffic(
    mean: f64,
    standing: f64,
    acceleration: f64,
    lasts: f64,
    scribe: &mut impl Scribe,
) -> Result<StopAndGo, Time> {
    let speed = 1.5 * mean / (1.0 - standing);
    let usual = 3.0 * speed / acceleration / (1.0 - standing);
    if usual > lasts {
        return Err(Time::from_base(usual));
    }
    let stops = (lasts / usual).round();
    let period = lasts / stops;
    let third = period * (1.0 - standing) / 3.0;
    scribe.step(|| {
        Step::new("Speed between the stops", "v", "v = 1.5·v̄/(1 − s)", &source::STOP_AND_GO)
            .with("v̄", Velocity::from_base(mean))
            .with_amount("s", Amount::of_kind(Ratio::from_base(standing), Kind::Share))
            .gives(Velocity::from_base(speed))
    });
    scribe.step(|| {
        Step::new("Acceleration that makes the stops fit", "a", "a = 3·v·N/(t·(1 − s))", &source::STOP_AND_GO)
            .with("v", Velocity::from_base(speed))
            .with_number("N", stops)
            .with_amount("t", Amount::new(lasts, Kind::Duration))
            .gives(Acceleration::from_base(speed / third))
    });
    let ramp = |lasts, from, to| Ramp { lasts, from, to };
    let stop = [
        ramp(period * standing, 0.0, 0.0),
        ramp(third, 0.0, speed),
        ramp(third, speed, speed),
        ramp(third, speed, 0.0),
    ];
    Ok(StopAndGo { stop, stops: stops as u64 })
}
