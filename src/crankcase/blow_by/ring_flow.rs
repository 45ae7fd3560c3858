//! Level 3, the flow: two gaps in series, with or without the volume between them.

use super::ring_pack::{HotGaps, RingPack, RingPackFigures, hot_gaps};
use super::{BlowBy, BlowByError, defaults};
use crate::crankcase::cylinder::{LeakPath, Trace};
use crate::crankcase::flow_function::{FlowFunction, GAS_CONSTANT};
use crate::note::Note;
use crate::numeric::{RootError, bracketed_root};
use crate::quantity::si::{Area, Length, MassRate, Volume};
use crate::quantity::{Amount, DEGREE, Kind, Measured, Range};
use crate::scribe::{Scribe, Silent, Step};
use crate::source::DEFINITION;
use crate::source::crankcase::blow_by as source;
use std::f64::consts::PI;

/// Volumes between the rings.
static BETWEEN: Range = Range::new(
    "volume between the rings",
    Kind::SmallVolume,
    0.02e-6,
    10e-6,
    "0.3 to 0.6 cm³ is usual: check land height, clearance and groove",
);

/// Fillings of the volume in a degree beyond which it follows the pressure at once.
const MOST_TURNOVER: f64 = 5.0;

/// The volume between the rings, which smooths the pressure there and takes 7 to 34 % off the forward leak.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct InterRing {
    /// Height of the land between the rings; default [`defaults::land_height`].
    pub land_height: Length,
    /// Volume behind the second ring.
    pub groove: Volume,
}

impl InterRing {
    /// What is assumed of an engine of this bore.
    #[must_use]
    pub fn of(bore: Length) -> Self {
        let area: Area = defaults::groove_over_bore().likely();
        Self { land_height: defaults::land_height().likely(), groove: area * bore }
    }

    /// `V_m = πB c h_land + V_groove` with the hot clearance below the top ring.
    ///
    /// # Errors
    /// A height out of range, or a volume outside 0.02 to 10 cm³.
    pub fn volume(&self, bore: Length, clearance: Length) -> Result<Volume, BlowByError> {
        defaults::land_height().check(self.land_height)?;
        Ok(BETWEEN.check(PI * bore * clearance * self.land_height + self.groove)?)
    }
}

/// Two gaps of one cylinder, SI.
struct Series {
    flow: FlowFunction,
    top: f64,
    second: f64,
    crankcase: f64,
    /// `√(R T)`.
    root: f64,
    /// Cylinder over inter-ring pressure while the second gap is choked towards the crankcase: it does not depend on
    /// the pressures then.
    while_choked: f64,
}

impl Series {
    fn new(gaps: &HotGaps, path: &LeakPath) -> Result<Self, RootError> {
        let flow = FlowFunction::new(path.gamma.base());
        let (top, second) = (gaps.top.area.base(), gaps.second.area.base());
        // A₁ y Ψ(1/y) = A₂ Ψ*: the left side rises from 0 at y = 1, and by A₁ Ψ* for each unit once choked.
        let while_choked = if top > 0.0 && second > 0.0 {
            let most = 1.0 / flow.critical() + second / top;
            bracketed_root(|y| top * y * flow.at(1.0 / y) - second * flow.choked(), 1.0, most, 1e-14)?.at
        } else {
            1.0
        };
        let root = (GAS_CONSTANT * path.crevice_temperature.base()).sqrt();
        Ok(Self { flow, top, second, crankcase: path.crankcase.base(), root, while_choked })
    }

    /// Quasi-steady flow from cylinder to crankcase, kg/s: `C_dA₁ p Ψ(p_m/p) = C_dA₂ p_m Ψ(p_cc/p_m)`.
    fn quasi(&self, cylinder: f64) -> Result<f64, RootError> {
        if self.top <= 0.0 || self.second <= 0.0 || cylinder == self.crankcase {
            return Ok(0.0);
        }
        let outward = cylinder > self.crankcase;
        let choked = cylinder / self.while_choked;
        if outward && self.crankcase <= choked * self.flow.critical() {
            return Ok(self.second * choked * self.flow.choked() / self.root);
        }
        let (up, down, first, last, sign) = if outward {
            (cylinder, self.crankcase, self.top, self.second, 1.0)
        } else {
            (self.crankcase, cylinder, self.second, self.top, -1.0)
        };
        // Monotone in the middle pressure: the first flow falls, the second rises.
        let excess = |p: f64| first * up * self.flow.at(p / up) - last * p * self.flow.at(down / p);
        let middle = bracketed_root(excess, down, up, 1e-7 * (up - down))?.at;
        Ok(sign * last * middle * self.flow.at(down / middle) / self.root)
    }

    /// Mean quasi-steady flow of a cycle towards the crankcase and back, kg/s.
    fn quasi_mean(&self, trace: &Trace) -> Result<(f64, f64), RootError> {
        let (mut forward, mut reverse) = (0.0, 0.0);
        for segment in trace.segments() {
            let last = segment.pressures.len().saturating_sub(1);
            for (i, &pressure) in segment.pressures.iter().enumerate().step_by(2) {
                let weight = 2.0 * segment.step * if i == 0 || i == last { 0.5 } else { 1.0 };
                let flow = self.quasi(pressure)?;
                forward += weight * flow.max(0.0);
                reverse += weight * (-flow).max(0.0);
            }
        }
        Ok((forward / 720.0, reverse / 720.0))
    }

    /// Flow through a gap from the first to the second pressure, kg/s; the gas is at the land temperature either way.
    #[inline]
    fn through(&self, area: f64, first: f64, second: f64) -> f64 {
        if first >= second {
            area * first * self.flow.at(second / first) / self.root
        } else {
            -area * second * self.flow.at(first / second) / self.root
        }
    }

    /// Goes through one cycle from a pressure between the rings: `dp_m/dt = (R T/V_m)(ṁ₁ − ṁ₂)`, isothermal.
    fn cycle(&self, trace: &Trace, volume: f64, start: f64) -> Stored {
        let seconds_per_degree = DEGREE / trace.speed().base();
        let stiffness = self.root * self.root / volume * seconds_per_degree;
        let mut state = Stored { pressure: start, forward: 0.0, reverse: 0.0 };
        for segment in trace.segments() {
            let width = 2.0 * segment.step;
            // Enough steps that a step changes the pressure by a twentieth of its own at most; the caller has seen to it
            // that a hundred for each degree suffice.
            let parts = (20.0 * self.turnover(trace, volume) * width).ceil().max(1.0);
            for window in segment.pressures.windows(3).step_by(2) {
                let &[before, middle, after] = window else { continue };
                // A parabola through the three known pressures.
                let (slope, bend) = (after - before, 2.0 * (before + after) - 4.0 * middle);
                let cylinder = |x: f64| before + x * (slope + (x - 1.0) * bend);
                let mut x = 0.0;
                let part = 1.0 / parts;
                for _ in 0..parts as u32 {
                    state = self.stored_step(
                        state,
                        stiffness * width * part,
                        width * part,
                        [cylinder(x), cylinder(x + 0.5 * part), cylinder(x + part)],
                    );
                    x += part;
                }
            }
        }
        state
    }

    /// One Runge–Kutta step of the pressure between the rings, and the flows through the second gap by Simpson's rule.
    fn stored_step(&self, state: Stored, gain: f64, width: f64, cylinder: [f64; 3]) -> Stored {
        let start = state.pressure;
        let rate = |p: f64, above: f64| {
            let out = self.through(self.second, p, self.crankcase);
            (gain * (self.through(self.top, above, p) - out), out)
        };
        let [before, middle, after] = cylinder;
        // The pressure stays between those on both sides; a trial step that leaves them is drawn back to them.
        let low = before.min(middle).min(after).min(self.crankcase).min(start);
        let high = before.max(middle).max(after).max(self.crankcase).max(start);
        let (k1, out1) = rate(start, before);
        let (k2, out2) = rate((start + 0.5 * k1).clamp(low, high), middle);
        let (k3, out3) = rate((start + 0.5 * k2).clamp(low, high), middle);
        let (k4, out4) = rate((start + k3).clamp(low, high), after);
        let ahead = |m: f64| m.max(0.0);
        let mean = |pick: &dyn Fn(f64) -> f64| (pick(out1) + 2.0 * (pick(out2) + pick(out3)) + pick(out4)) / 6.0;
        Stored {
            pressure: (start + (k1 + 2.0 * (k2 + k3) + k4) / 6.0).clamp(low, high),
            forward: state.forward + width * mean(&ahead),
            reverse: state.reverse + width * mean(&|m| ahead(-m)),
        }
    }

    /// How many times a degree the choked gaps would fill or empty the volume.
    fn turnover(&self, trace: &Trace, volume: f64) -> f64 {
        let seconds_per_degree = DEGREE / trace.speed().base();
        (self.top + self.second) * self.flow.choked() * self.root / volume * seconds_per_degree
    }

    /// Mean flow of the periodic cycle with storage, towards the crankcase and back, kg/s. A volume that fills and
    /// empties several times in a degree stores nothing worth reckoning: that is the quasi-steady flow.
    fn stored_mean(&self, trace: &Trace, volume: f64) -> Result<(f64, f64), RootError> {
        if self.second <= 0.0 {
            return Ok((0.0, 0.0));
        }
        if self.turnover(trace, volume) > MOST_TURNOVER {
            return self.quasi_mean(trace);
        }
        let pressures = || trace.segments().iter().flat_map(|s| s.pressures.iter().copied()).chain([self.crankcase]);
        let low = pressures().fold(f64::INFINITY, f64::min);
        let high = pressures().fold(f64::NEG_INFINITY, f64::max);
        // The pressure after a cycle rises with the pressure before it, but by less, so the difference has one root;
        // and it stays inside the extremes of its neighbours, which bracket it.
        let gain = |start: f64| self.cycle(trace, volume, start).pressure - start;
        let start = bracketed_root(gain, low - 1.0, high + 1.0, 0.5)?.at;
        let state = self.cycle(trace, volume, start);
        Ok((state.forward / 720.0, state.reverse / 720.0))
    }

    fn mean(&self, trace: &Trace, volume: Option<f64>) -> Result<(f64, f64), RootError> {
        match volume {
            None => self.quasi_mean(trace),
            Some(volume) => self.stored_mean(trace, volume),
        }
    }
}

/// Pressure between the rings and what has passed the second gap, kg/s times degrees.
#[derive(Clone, Copy)]
struct Stored {
    pressure: f64,
    forward: f64,
    reverse: f64,
}

/// Blow-by of the whole engine through the gaps of its rings, at the operating point of the trace.
///
/// Quasi-steady (`between` absent): at each crank angle the pressure between the rings is that at which both gaps pass
/// the same flow. With `between`, that volume stores gas, and the cycle is repeated until it closes on itself. Low and
/// high come from the tight and the loose pack of [`RingPackFigures::ends`]. The result is a floor: see
/// [`super::Level`]. The notes are those of the likely pack.
///
/// # Errors
/// A value outside its range or out of order; a pressure between the rings that is not found.
pub fn from_ring_pack(
    figures: &RingPackFigures,
    trace: &Trace,
    path: &LeakPath,
    between: Option<&InterRing>,
    scribe: &mut impl Scribe,
) -> Result<(BlowBy, Vec<Note>), BlowByError> {
    figures.check()?;
    path.check()?;
    let geometry = trace.geometry();
    let count = geometry.count();
    let flows = |gaps: &HotGaps| -> Result<(f64, f64), BlowByError> {
        let volume = between.map(|b| b.volume(geometry.bore, gaps.top.clearance)).transpose()?;
        let (forward, reverse) = Series::new(gaps, path)?.mean(trace, volume.map(Measured::base))?;
        Ok((count * forward, count * reverse))
    };
    let (tight, loose) = figures.ends();
    let likely = hot_gaps(&figures.likely(), geometry, scribe)?;
    let expected = flows(&likely)?;
    // A pack without spread, as in a sampled engine, is solved once.
    let end = |pack: &RingPack| {
        if *pack == figures.likely() { Ok(expected) } else { flows(&hot_gaps(pack, geometry, &mut Silent)?) }
    };
    let (low, high) = (end(&tight)?, end(&loose)?);
    let blow_by = BlowBy::from_pairs(low, expected, high);
    if let Some(between) = between {
        let volume = between.volume(geometry.bore, likely.top.clearance)?;
        scribe.step(|| {
            Step::new("volume between the rings", "V_m", "V_m = πB c h + V_groove", &DEFINITION)
                .with_amount("h", Amount::of_kind(between.land_height, Kind::SmallLength))
                .with_amount("V_groove", Amount::of_kind(between.groove, Kind::SmallVolume))
                .gives_amount(Amount::of_kind(volume, Kind::SmallVolume))
        });
    }
    scribe.step(|| {
        let equation = if between.is_some() {
            "dp_m/dt = (R T/V_m)(ṁ₁ − ṁ₂) over a cycle that closes on itself; ṁ_bb = n mean of ṁ₂ > 0"
        } else {
            "C_dA₁ p Ψ(p_m/p) = C_dA₂ p_m Ψ(p_cc/p_m) at each angle; ṁ_bb = n mean of ṁ > 0"
        };
        Step::new("blow-by through two gaps in series", "ṁ_bb", equation, &source::ISENTROPIC_HOLE)
            .with("C_dA₁", likely.top.area)
            .with("C_dA₂", likely.second.area)
            .with("T", path.crevice_temperature)
            .with("p_cc", path.crankcase)
            .with_number("n", count)
            .gives(MassRate::from_base(expected.0))
    });
    Ok((blow_by, likely.notes))
}
