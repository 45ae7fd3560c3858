//! Engine and oil warming up together: two lumps that exchange heat, solved exactly.

use super::warm_up::{HEAT_CAPACITY, LOSS, WarmUpEnd};
use super::{HeatError, oil_defaults};
use crate::numeric::bracketed_root;
use crate::quantity::si::{HeatCapacity, Power, ThermalConductance, ThermodynamicTemperature, Time};
use crate::quantity::{Amount, Kind, Measured, Range};
use crate::scribe::{Scribe, Step};
use crate::source::engine_oil as source;

const TEMPERATURE: Range = Range::new("temperature", Kind::Temperature, 203.15, 473.15, "");
/// The oil of a small engine is a smaller lump than any engine.
const LUMP: Range = Range { low: 10.0, ..HEAT_CAPACITY };
/// Longer than any drive: what takes longer is never reached, s.
const NEVER: f64 = 3e5;
/// Argument tolerance of a time, s.
const TOLERANCE: f64 = 1e-9;

/// The two lumps and what is around them.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Lumps {
    /// Heat capacity of engine metal and coolant.
    pub engine: HeatCapacity,
    /// Heat capacity of the oil and the metal it wets.
    pub oil: HeatCapacity,
    /// Conductance between them.
    pub between: ThermalConductance,
    /// Conductance from engine to air.
    pub engine_loss: ThermalConductance,
    /// The air.
    pub ambient: ThermodynamicTemperature,
}

/// A stretch of steady heat.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Stretch {
    /// Heat to metal and coolant, without what the oil gives them.
    pub engine: Power,
    /// Heat to the oil.
    pub oil: Power,
    /// Conductance from the sump to the air at its road speed.
    pub sump: ThermalConductance,
}

/// A warm-up: idle first, then driving on, with one thermostat.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct WarmUpWithOil {
    /// The lumps.
    pub lumps: Lumps,
    /// Idle.
    pub idle: Stretch,
    /// How long it lasts.
    pub idle_for: Time,
    /// What follows.
    pub drive: Stretch,
    /// Temperature of both lumps at the start.
    pub start: ThermodynamicTemperature,
}

/// How a warm-up ends with a thermostat.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct WarmedUp {
    /// When the thermostat begins to open.
    pub opens: WarmUpEnd,
    /// When the oil is warm.
    pub oil_warm: WarmUpEnd,
}

/// The system in plain numbers: x' = A·x + b about its start, as x(τ) = x₀ + φ(A, τ)·x'₀.
struct System {
    a: [[f64; 2]; 2],
    x0: [f64; 2],
    /// x' at the start, K/s.
    speed: [f64; 2],
    /// The eigenvalues, the slower first, 1/s: never above zero.
    slow: f64,
    fast: f64,
}

impl System {
    fn new(lumps: &Lumps, stretch: &Stretch, x0: [f64; 2]) -> Self {
        let (engine, oil, between) = (lumps.engine.base(), lumps.oil.base(), lumps.between.base());
        let (loss, sump, air) = (lumps.engine_loss.base(), stretch.sump.base(), lumps.ambient.base());
        let a = [[-(between + loss) / engine, between / engine], [between / oil, -(between + sump) / oil]];
        let [e, o] = x0;
        let speed = [
            (stretch.engine.base() - between * (e - o) - loss * (e - air)) / engine,
            (stretch.oil.base() + between * (e - o) - sump * (o - air)) / oil,
        ];
        let (middle, half) = (0.5 * (a[0][0] + a[1][1]), 0.5 * (a[0][0] - a[1][1]));
        let fast = middle - half.hypot((a[0][1] * a[1][0]).sqrt());
        // The product of the two is the determinant, which keeps its digits where their sum does not.
        let determinant = (between * (loss + sump) + loss * sump) / (engine * oil);
        let slow = if fast < 0.0 { determinant / fast } else { 0.0 };
        Self { a, x0, speed, slow, fast }
    }

    fn times(&self, v: [f64; 2]) -> [f64; 2] {
        let [first, second] = self.a;
        [first[0] * v[0] + first[1] * v[1], second[0] * v[0] + second[1] * v[1]]
    }

    /// Both temperatures after a time, K: φ(A) = φ(λ₁)·1 + (φ(λ₂) − φ(λ₁))/(λ₂ − λ₁)·(A − λ₁·1), φ(λ) = (e^λτ − 1)/λ.
    fn at(&self, time: f64) -> [f64; 2] {
        let phi = |rate: f64| if rate == 0.0 { time } else { (rate * time).exp_m1() / rate };
        let (first, apart) = (phi(self.slow), self.fast - self.slow);
        let slope = if apart.abs() * time > 1e-6 {
            (phi(self.fast) - first) / apart
        } else {
            // Both eigenvalues are one: the derivative of φ.
            let x = self.slow * time;
            if x.abs() < 1e-4 { 0.5 * time * time } else { (x.exp() * time - first) / self.slow }
        };
        let moved = self.times(self.speed);
        let one = |i: usize| self.x0[i] + first * self.speed[i] + slope * (moved[i] - self.slow * self.speed[i]);
        [one(0), one(1)]
    }

    /// Where a lump ends, K; endless when nothing is lost.
    fn end(&self, lump: usize) -> f64 {
        let determinant = self.slow * self.fast;
        let [[a, b], [c, d]] = self.a;
        let [u, v] = self.speed;
        let gained = if lump == 0 { b * v - d * u } else { c * u - a * v };
        if determinant > 0.0 {
            self.x0[lump] + gained / determinant
        } else if gained > 0.0 {
            f64::INFINITY
        } else {
            self.x0[lump]
        }
    }

    /// When a lump passes a temperature it lies below, s; none when it does not within a time.
    fn reaches(&self, lump: usize, target: f64, within: f64) -> Result<Option<f64>, HeatError> {
        if self.at(within)[lump] < target {
            return Ok(None);
        }
        // From below the target to above it in a time: a sum of two exponentials that rises passes it once.
        let mut high = within;
        while high > 1e-3 && self.at(0.5 * high)[lump] >= target {
            high *= 0.5;
        }
        let root = bracketed_root(|time| self.at(time)[lump] - target, 0.0, high, TOLERANCE)?;
        Ok(Some(root.at))
    }
}

impl WarmUpWithOil {
    fn check(&self) -> Result<(), HeatError> {
        let Lumps { engine, oil, between, engine_loss, ambient } = self.lumps;
        LUMP.check(engine)?;
        LUMP.check(oil)?;
        Range { low: 0.0, ..oil_defaults::BLOCK }.check(between)?;
        LOSS.check(engine_loss)?;
        TEMPERATURE.check(ambient)?;
        TEMPERATURE.check(self.start)?;
        oil_defaults::idle_first().check(self.idle_for)?;
        for stretch in [&self.idle, &self.drive] {
            oil_defaults::HEAT.check(stretch.engine)?;
            oil_defaults::HEAT.check(stretch.oil)?;
            oil_defaults::SUMP_AT_SPEED.check(stretch.sump)?;
        }
        Ok(())
    }

    /// When the thermostat begins to open and when the oil is warm: C_e·t' = Q − G·(t − T) − G_e·(t − t_a),
    /// C_o·T' = Q_oil + G·(t − T) − G_s·(T − t_a), exactly, stretch by stretch. Once the thermostat is open the coolant is
    /// held at its setting, and the oil goes on by itself.
    ///
    /// # Errors
    /// A figure or a temperature out of range.
    pub fn with_thermostat(
        &self,
        set_point: ThermodynamicTemperature,
        warm: ThermodynamicTemperature,
        scribe: &mut impl Scribe,
    ) -> Result<WarmedUp, HeatError> {
        self.check()?;
        let set = TEMPERATURE.check(set_point)?.base();
        let warm_at = oil_defaults::warm_oil().check(warm)?.base();
        let start = self.start.base();
        let reached = |time: f64| WarmUpEnd::Reached { after: Time::from_base(time) };
        let idle_for = self.idle_for.base();
        let idle = System::new(&self.lumps, &self.idle, [start, start]);
        let mut opens = if start >= set { Some(0.0) } else { idle.reaches(0, set, idle_for)? };
        let shut_until = opens.unwrap_or(idle_for);
        let mut oil = if start >= warm_at { Some(0.0) } else { idle.reaches(1, warm_at, shut_until)? };
        let mut state = if opens == Some(0.0) { [start, start] } else { idle.at(shut_until) };
        let mut since = shut_until;
        let mut settles = (f64::INFINITY, f64::INFINITY);
        if opens.is_none() {
            let drive = System::new(&self.lumps, &self.drive, state);
            let takes = drive.reaches(0, set, NEVER)?;
            settles = (drive.end(0), drive.end(1));
            if oil.is_none() {
                oil = drive.reaches(1, warm_at, takes.unwrap_or(NEVER))?.map(|time| since + time);
            }
            if let Some(takes) = takes {
                opens = Some(since + takes);
                state = drive.at(takes);
                since += takes;
            }
        }
        if opens.is_some() && oil.is_none() {
            // The coolant stays at the setting: one lump, still idling for what is left of the idle.
            let mut left = idle_for - since;
            for stretch in [&self.idle, &self.drive] {
                let last = std::ptr::eq(stretch, &self.drive);
                if !last && left <= 0.0 {
                    continue;
                }
                let (end, after) = self.held(stretch, set, state[1], warm_at);
                settles.1 = end;
                if let Some(after) = after.filter(|after| last || *after <= left) {
                    oil = Some(since + after);
                    break;
                }
                if !last {
                    let rate = (self.lumps.between.base() + stretch.sump.base()) / self.lumps.oil.base();
                    state[1] = end + (state[1] - end) * (-rate * left).exp();
                    since += left;
                    left = 0.0;
                }
            }
        }
        let end = |time: Option<f64>, settles: f64| {
            let settles_at = ThermodynamicTemperature::from_base(settles);
            time.map_or(WarmUpEnd::NeverReached { settles_at }, reached)
        };
        let warmed = WarmedUp { opens: end(opens, settles.0), oil_warm: end(oil, settles.1) };
        self.tell(&warmed, set_point, warm, scribe);
        Ok(warmed)
    }

    /// The oil beside coolant held at a temperature: where it ends, K, and when it passes a temperature, s.
    fn held(&self, stretch: &Stretch, coolant: f64, from: f64, target: f64) -> (f64, Option<f64>) {
        let (between, sump) = (self.lumps.between.base(), stretch.sump.base());
        let (all, capacity) = (between + sump, self.lumps.oil.base());
        let heat = stretch.oil.base();
        if all <= 0.0 {
            let after = (heat > 0.0).then(|| capacity * (target - from) / heat);
            return (if heat > 0.0 { f64::INFINITY } else { from }, after);
        }
        let end = (heat + between * coolant + sump * self.lumps.ambient.base()) / all;
        let after = (end > target).then(|| (capacity / all * ((end - from) / (end - target)).ln()).max(0.0));
        (end, after.filter(|after| *after <= NEVER))
    }

    fn tell(
        &self,
        warmed: &WarmedUp,
        set_point: ThermodynamicTemperature,
        warm: ThermodynamicTemperature,
        scribe: &mut impl Scribe,
    ) {
        let lumps = &self.lumps;
        if let WarmUpEnd::Reached { after } = warmed.opens {
            scribe.step(|| {
                let equation = "C_e·t' = Q − G·(t − T) − G_e·(t − t_a), C_o·T' = Q_oil + G·(t − T) − G_s·(T − t_a)";
                Step::new("Time until the thermostat begins to open", "τ", equation, &source::OIL_WARM_UP)
                    .with("C_e", lumps.engine)
                    .with("C_o", lumps.oil)
                    .with("Q", self.drive.engine)
                    .with("Q_oil", self.drive.oil)
                    .with("G", lumps.between)
                    .with("G_e", lumps.engine_loss)
                    .with("G_s", self.drive.sump)
                    .with("t", set_point)
                    .with("t_a", lumps.ambient)
                    .gives_amount(Amount::of_kind(after, Kind::Duration))
            });
        }
        if let WarmUpEnd::Reached { after } = warmed.oil_warm {
            scribe.step(|| {
                let equation = "C_o·T' = Q_oil + G·(t_set − T) − G_s·(T − t_a) from then on";
                Step::new("Time until the oil is warm", "τ", equation, &source::OIL_WARM_UP)
                    .with("T", warm)
                    .with("t_set", set_point)
                    .gives_amount(Amount::of_kind(after, Kind::Duration))
            });
        }
    }
}
