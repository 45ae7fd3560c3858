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
    /// Conductance of an oil cooler to the air at that speed, wide open.
    pub cooler: ThermalConductance,
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
    /// Where the oil cooler's thermostat opens; none that is always open.
    pub cooler_opens: Option<ThermodynamicTemperature>,
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
        let (loss, air) = (lumps.engine_loss.base(), lumps.ambient.base());
        let sump = stretch.sump.base() + stretch.cooler.base();
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
        // One of them held, the other ends by itself.
        let alone = if lump == 0 { (c == 0.0 && d == 0.0).then_some(a) } else { (a == 0.0 && b == 0.0).then_some(d) };
        if let Some(rate) = alone.filter(|rate| *rate < 0.0) {
            return self.x0[lump] - self.speed[lump] / rate;
        }
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
            oil_defaults::COOLER.check(stretch.cooler)?;
        }
        Ok(())
    }

    /// When the thermostat begins to open and when the oil is warm: C_e·t' = Q − G·(t − T) − G_e·(t − t_a),
    /// C_o·T' = Q_oil + G·(t − T) − G_s·(T − t_a), exactly, stretch by stretch. Once the thermostat is open the coolant is
    /// held at its setting, and the oil goes on by itself.
    ///
    /// A cooler in the air adds its conductance G_k to G_s from where its thermostat opens; as long as it could cool the oil
    /// below that, its thermostat holds the oil there exactly.
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
        let cooler_at = match self.cooler_opens {
            Some(opens) => oil_defaults::oil_thermostat().check(opens)?.base(),
            None => f64::NEG_INFINITY,
        };
        let start = self.start.base();
        let idle_for = self.idle_for.base();
        let (mut now, mut state) = (0.0, [start, start]);
        let mut opens = (start >= set).then_some(0.0);
        let mut oil = (start >= warm_at).then_some(0.0);
        let mut cooled = start >= cooler_at;
        // Whether the coolant has come to where the cooler, wide open, no longer holds the oil down.
        let mut wide = false;
        let mut settles = [f64::INFINITY; 2];
        // Each round ends with the idle or with a mark passed, so there are at most seven.
        while opens.is_none() || oil.is_none() {
            if opens.is_some() {
                state[0] = set;
            }
            let idles = now < idle_for;
            let (stretch, within) = if idles { (&self.idle, idle_for - now) } else { (&self.drive, NEVER) };
            let holds = if cooled && !wide { self.held_until(stretch, state, cooler_at) } else { None };
            if holds.is_some() {
                state[1] = cooler_at;
            }
            let system = self.system(stretch, state, [opens.is_some(), holds.is_some()], cooled);
            settles = [system.end(0), system.end(1)];
            let lets_go = holds.unwrap_or(f64::INFINITY);
            let asked = [
                (0, set, opens.is_none()),
                (1, warm_at, oil.is_none()),
                (1, cooler_at, !cooled),
                (0, lets_go, lets_go.is_finite() && opens.is_none()),
            ];
            // What comes after a mark found already is looked for in the next round.
            let (mut marks, mut first) = ([None; 4], f64::INFINITY);
            for (mark, (lump, target, asked)) in marks.iter_mut().zip(asked) {
                if asked {
                    *mark = system.reaches(lump, target, within.min(first))?;
                    first = mark.unwrap_or(first).min(first);
                }
            }
            if first.is_infinite() && !idles {
                break;
            }
            let lasts = first.min(within);
            state = system.at(lasts);
            now = if first.is_infinite() { idle_for } else { now + lasts };
            let [at_set, at_warm, at_cooler, at_wide] = marks.map(|mark| mark.is_some_and(|mark| mark <= lasts));
            if at_set {
                opens = Some(now);
            }
            if at_warm {
                oil = Some(now);
            }
            cooled |= at_cooler;
            wide = at_wide || (wide && now != idle_for);
        }
        let end = |time: Option<f64>, settles: f64| {
            let settles_at = ThermodynamicTemperature::from_base(settles);
            time.map_or(WarmUpEnd::NeverReached { settles_at }, |time| WarmUpEnd::Reached {
                after: Time::from_base(time),
            })
        };
        let warmed = WarmedUp { opens: end(opens, settles[0]), oil_warm: end(oil, settles[1]) };
        self.tell(&warmed, set_point, warm, scribe);
        Ok(warmed)
    }

    /// The lumps through a stretch, the cooler shut or open. What a thermostat holds, coolant or oil, no heat moves.
    fn system(&self, stretch: &Stretch, state: [f64; 2], [coolant, oil]: [bool; 2], cooled: bool) -> System {
        let held = HeatCapacity::from_base(f64::INFINITY);
        let mut lumps = self.lumps;
        if coolant {
            lumps.engine = held;
        }
        if oil {
            lumps.oil = held;
        }
        let shut = Stretch { cooler: ThermalConductance::from_base(0.0), ..*stretch };
        System::new(&lumps, if cooled { stretch } else { &shut }, state)
    }

    /// Where a cooler wide open would cool the oil below where its thermostat opens, that holds the oil there: the coolant
    /// temperature up to which it does, K, T + ((G_s + G_k)·(T − t_a) − Q_oil)/G. None where it lets the oil go on.
    fn held_until(&self, stretch: &Stretch, [coolant, oil]: [f64; 2], opens: f64) -> Option<f64> {
        if !opens.is_finite() {
            return None;
        }
        let (above, between) = (opens - self.lumps.ambient.base(), self.lumps.between.base());
        let gains = stretch.oil.base() + between * (coolant - opens) - stretch.sump.base() * above;
        let over = stretch.cooler.base() * above - gains;
        // Oil above it that must fall to it is taken there at once.
        let falls = over > 0.0 && (gains >= 0.0 || oil > opens);
        falls.then(|| if between > 0.0 { coolant + over / between } else { f64::INFINITY })
    }

    fn tell(
        &self,
        warmed: &WarmedUp,
        set_point: ThermodynamicTemperature,
        warm: ThermodynamicTemperature,
        scribe: &mut impl Scribe,
    ) {
        let lumps = &self.lumps;
        let cooled = self.drive.cooler.base() > 0.0;
        let with_cooler = |step: Step| if cooled { step.with("G_k", self.drive.cooler) } else { step };
        if let WarmUpEnd::Reached { after } = warmed.opens {
            scribe.step(|| {
                let equation = if cooled {
                    "C_e·t' = Q − G·(t − T) − G_e·(t − t_a), C_o·T' = Q_oil + G·(t − T) − (G_s + G_k)·(T − t_a), G_k of the \
                     cooler from where its thermostat opens"
                } else {
                    "C_e·t' = Q − G·(t − T) − G_e·(t − t_a), C_o·T' = Q_oil + G·(t − T) − G_s·(T − t_a)"
                };
                let step = Step::new("Time until the thermostat begins to open", "τ", equation, &source::OIL_WARM_UP);
                with_cooler(step)
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
                let equation = if cooled {
                    "C_o·T' = Q_oil + G·(t_set − T) − (G_s + G_k)·(T − t_a) from then on"
                } else {
                    "C_o·T' = Q_oil + G·(t_set − T) − G_s·(T − t_a) from then on"
                };
                with_cooler(Step::new("Time until the oil is warm", "τ", equation, &source::OIL_WARM_UP))
                    .with("T", warm)
                    .with("t_set", set_point)
                    .gives_amount(Amount::of_kind(after, Kind::Duration))
            });
        }
    }
}
