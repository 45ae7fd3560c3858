//! Through a day, step by step.

use super::body::{Body, Wet};
use super::books::{Opening, extremes};
use super::charge::{Happenings, Reading};
use super::flow::{N, Setting, at, radiated, slopes, wet};
use super::options::Options;
use super::record::{Drive, Event, EventKind, Sample, Soak};
use super::settle::Now;
use super::soak::{Boiling, Standing};
use super::watch::{Mark, Watch};
use super::{DayError, Heats, Lumps, Start, Stretch, check, working};
use crate::fluid::FluidError;
use crate::numeric::Stepper;
use crate::quantity::si::{AngularVelocity, Power, Ratio, TemperatureInterval, ThermodynamicTemperature, Time, Volume};
use crate::quantity::{Amount, Kind, Measured, UnitSystem};
use crate::scribe::Scribe;

/// The first step of a day and after the engine starts or stops, the shortest and the longest, s.
const FIRST: f64 = 0.5;
const SHORTEST: f64 = 1e-7;
const LONGEST: f64 = 120.0;
/// Vapour (kg) that counts like a kelvin in the control of the step: some grams change no answer.
const VAPOUR_FOR_KELVIN: f64 = 0.05;
/// Gaps of the cap's play that do not part two events, s; and less than this (m³) moved, which nobody sees in a tank, is
/// no event.
const GAP: f64 = 180.0;
const LEAST_EVENT: f64 = 5e-6;

/// Follows a day: what the car does in `stretches`, each with the heat of its engine, from everything at one temperature.
///
/// The bodies' temperatures follow their heat balances, a set of ordinary differential equations taken in steps whose error
/// is controlled; after each step the charge moves coolant, gas and steam. Where a mark is passed (the thermostat begins to
/// open, the fan is switched, boiling begins or ends) the step ends there. In a lasting state of the car the temperature is
/// that of [`crate::heat::Balance::solve`], where the thermostat does not lag.
///
/// Valid for liquid coolant from its freezing point to 130 °C; above it, or when much of the engine's coolant is lost, the
/// day is cut short with the reason. These bodies are a likeness; take soaks and surges as an indication only.
///
/// # Errors
/// A figure out of range with its stretch and leg, coolant that freezes on the way, a sealed tank that fills solid, a day
/// given up by [`Options::cancel`].
pub fn run(
    lumps: &Lumps,
    stretches: &[Stretch],
    heats: &[Heats],
    start: &Start,
    options: &Options<'_>,
    scribe: &mut impl Scribe,
) -> Result<Drive, DayError> {
    check::day(stretches, heats, start, options)?;
    let body = Body::new(lumps)?;
    let mut day = Day::begin(&body, start, options)?;
    for (stretch, heats) in stretches.iter().zip(heats) {
        day.follow(stretch, heats)?;
        if day.cut_short.is_some() {
            break;
        }
    }
    day.end(scribe)
}

/// A day on its way.
struct Day<'a> {
    body: &'a Body<'a>,
    options: &'a Options<'a>,
    now: Now,
    opening: Opening,
    stepper: Stepper<N>,
    watch: Watch,
    happenings: Happenings,
    boiling: Boiling,
    standing: Option<Standing>,
    /// Whether the engine turned before; `None` at the beginning.
    turned: Option<bool>,
    fan: bool,
    leg: usize,
    next_sample: f64,
    samples: Vec<Sample>,
    events: Vec<Event>,
    soaks: Vec<Soak>,
    cut_short: Option<String>,
    /// Where the margin was least, the engine turning and standing: between two samples it may fall and rise again.
    tightest: [Option<Sample>; 2],
    /// The sample with the hottest coolant of a turning engine.
    hottest: Option<(Sample, Setting)>,
    /// What the car did last.
    last: Option<(Stretch, Setting)>,
}

impl<'a> Day<'a> {
    fn begin(body: &'a Body<'a>, start: &Start, options: &'a Options<'a>) -> Result<Self, DayError> {
        let temperature = start.temperature.base();
        if temperature < body.low {
            return Err(freezes(body, 0, "the system"));
        }
        let now = Now::begin(body, temperature)?;
        let kelvin = options.tolerance.base();
        let mut tolerance = [f64::INFINITY; N];
        for slot in tolerance.iter_mut().take(at::VAPOUR) {
            *slot = kelvin;
        }
        tolerance[at::VAPOUR] = kelvin * VAPOUR_FOR_KELVIN;
        Ok(Self {
            body,
            options,
            opening: Opening::new(body, &now)?,
            watch: Watch::begin(body, &now, options.oil_warm.base()),
            now,
            stepper: Stepper::new(tolerance, FIRST, SHORTEST, LONGEST),
            happenings: Happenings::new(Time::from_base(GAP), Volume::from_base(LEAST_EVENT)),
            boiling: Boiling::default(),
            standing: None,
            turned: None,
            fan: false,
            leg: 0,
            next_sample: 0.0,
            samples: Vec::new(),
            events: Vec::new(),
            soaks: Vec::new(),
            cut_short: None,
            tightest: [None; 2],
            hottest: None,
            last: None,
        })
    }

    fn follow(&mut self, stretch: &Stretch, heats: &Heats) -> Result<(), DayError> {
        self.leg = stretch.leg;
        let (from, end) = (self.now.t, self.now.t + stretch.lasts.base());
        let turns = stretch.engine.is_some();
        let changed = self.turned != Some(turns);
        let stopped = self.turned == Some(true) && !turns;
        let started = changed && turns;
        let switched = self.switch_fan(turns);
        let mut setting = Setting::new(self.body, stretch, heats, from, self.fan)?;
        if started {
            let out = self.out()?;
            self.soaks.extend(self.standing.take().map(|standing| standing.end(out)));
            self.event(EventKind::EngineStarts);
        }
        if stopped {
            let reading = self.read()?;
            let (out, in_tank) = (reading.out.base(), reading.in_tank.base());
            self.standing = Some(Standing::begin(&self.now, self.leg, out, in_tank));
            self.event(EventKind::EngineStops);
        }
        if changed {
            self.now.at_stop = (!turns).then_some(self.now.y[at::METAL] - self.now.y[at::ENGINE]);
            self.stepper.restart(FIRST);
        }
        self.turned = Some(turns);
        if changed || switched || self.now.t >= self.next_sample {
            self.sample(stretch, &setting)?;
        }
        while self.now.t < end && self.cut_short.is_none() {
            let target = end.min(self.next_sample);
            let (body, held) = (self.body, self.now.held);
            let slope = |t: f64, y: &[f64; N]| slopes(body, &setting, &held, t, y);
            let taken = self
                .stepper
                .step(slope, self.now.t, &self.now.y, target)
                .map_err(|cause| DayError::NotFollowed { time: Time::from_base(self.now.t), leg: self.leg, cause })?;
            let ended = self.watch.first(body, self.now.hold, &taken)?;
            let (t, y) = match ended {
                Some((moment, _)) => (moment, taken.at(moment)),
                None => (taken.to, taken.after),
            };
            self.settle(t, &y, setting.air(t), turns)?;
            let marks = self.watch.passed(body, &self.now, ended.map(|(_, mark)| mark));
            self.tell(&marks);
            if self.switch_fan(turns) {
                setting = Setting::new(body, stretch, heats, from, self.fan)?;
            }
            self.look_for_the_end(&marks);
            self.keep_tightest(stretch, &setting)?;
            if !marks.is_empty() || self.now.t >= self.next_sample || self.cut_short.is_some() {
                self.sample(stretch, &setting)?;
            }
        }
        self.last = Some((*stretch, setting));
        Ok(())
    }

    fn settle(&mut self, t: f64, y: &[f64; N], air: f64, turns: bool) -> Result<(), DayError> {
        for (wet, temperature) in Wet::ALL.into_iter().zip(wet(y)) {
            if temperature < self.body.low {
                return Err(freezes(self.body, self.leg, wet.words()));
            }
        }
        let before = self.now.t;
        self.now.settle(self.body, t, y, air, turns).map_err(|error| match error {
            DayError::Fluid(FluidError::Frozen { .. }) => freezes(self.body, self.leg, "the tank"),
            error => error,
        })?;
        self.happenings.take(before, t, self.leg, &self.now.charge.last);
        self.boiling.step(&self.now, self.leg);
        if self.standing.is_some() {
            let reading = self.read()?;
            if let Some(standing) = &mut self.standing {
                standing.step(&self.now, reading.out.base(), reading.in_tank.base());
            }
        }
        Ok(())
    }

    /// Sets the fan by its switch and the engine; says whether that changed anything.
    fn switch_fan(&mut self, turns: bool) -> bool {
        let lumps = self.body.lumps;
        let fan = match lumps.fan_switch {
            None => turns,
            Some(_) => self.watch.seen.fan && (turns || lumps.fan_runs_on),
        };
        let changed = fan != self.fan;
        self.fan = fan;
        // A fan that the engine drives needs no telling.
        if changed && lumps.fan_switch.is_some() {
            self.event(if fan { EventKind::FanOn } else { EventKind::FanOff });
        }
        changed
    }

    fn tell(&mut self, marks: &[Mark]) {
        for mark in marks {
            match mark {
                Mark::Opens => self.event(EventKind::ThermostatOpens),
                Mark::Shuts => self.event(EventKind::ThermostatShuts),
                Mark::OilWarm => self.event(EventKind::OilWarm),
                // The fan is told where it is set, boiling where it ends.
                Mark::FanOn | Mark::FanOff | Mark::Boils | Mark::BoilsNoMore | Mark::EndOfData => {}
            }
        }
    }

    fn look_for_the_end(&mut self, marks: &[Mark]) {
        let (lost, gone) = (self.now.charge.lost, self.options.gone.base());
        let show = |base: f64, kind: Kind| Amount::new(base, kind).show(UnitSystem::Si);
        let why = if marks.contains(&Mark::EndOfData) {
            let end = show(self.body.high, Kind::Temperature);
            format!("the coolant reaches {end}, where its data end: what comes after is hotter and not known")
        } else if lost > gone * self.body.engine_mass {
            let share = show(gone, Kind::Share);
            format!(
                "{share} of what the engine holds is lost: the heads stand dry, and no temperature found from here on \
                 would hold"
            )
        } else {
            return;
        };
        let when = show(self.now.t, Kind::Duration);
        self.cut_short = Some(format!("in leg {}, {when} after the start, {why}", self.leg + 1));
    }

    fn event(&mut self, kind: EventKind) {
        self.events.push(Event { time: Time::from_base(self.now.t), leg: self.leg, kind });
    }

    fn read(&self) -> Result<Reading, DayError> {
        self.body.vessel.read(&self.now.charge)
    }

    fn out(&self) -> Result<f64, DayError> {
        Ok(self.read()?.out.base())
    }

    fn sample(&mut self, stretch: &Stretch, setting: &Setting) -> Result<(), DayError> {
        let every = self.options.sample_every.base();
        while self.next_sample <= self.now.t {
            // From the count, so that a long day does not drift.
            self.next_sample = ((self.next_sample / every).round() + 1.0) * every;
        }
        if self.options.cancel.is_some_and(|cancel| cancel()) {
            return Err(DayError::Cancelled);
        }
        let sample = self.reads(stretch, setting)?;
        if stretch.engine.is_some() && self.hottest.is_none_or(|(found, _)| sample.coolant > found.coolant) {
            self.hottest = Some((sample, *setting));
        }
        self.samples.push(sample);
        Ok(())
    }

    fn keep_tightest(&mut self, stretch: &Stretch, setting: &Setting) -> Result<(), DayError> {
        let standing = usize::from(stretch.engine.is_none());
        let tighter = |found: &Option<Sample>| found.is_none_or(|found| self.now.margin < found.margin.base());
        if self.tightest.get(standing).is_some_and(tighter) {
            let sample = self.reads(stretch, setting)?;
            if let Some(kept) = self.tightest.get_mut(standing) {
                *kept = Some(sample);
            }
        }
        Ok(())
    }

    /// The state as a sample.
    fn reads(&self, stretch: &Stretch, setting: &Setting) -> Result<Sample, DayError> {
        let (now, reading) = (&self.now, self.read()?);
        let kelvin = |value: f64| ThermodynamicTemperature::from_base(value);
        let coolant = self.body.coolant(now.y[at::ENGINE]);
        let heat = radiated(self.body, setting, now.held.opening, now.t, &now.y, &coolant).heat;
        let stopped = AngularVelocity::from_base(0.0);
        let header = self.body.is_header;
        Ok(Sample {
            time: Time::from_base(now.t),
            leg: self.leg,
            air: kelvin(setting.air(now.t)),
            road_speed: stretch.road_speed,
            engine_speed: stretch.engine.map_or(stopped, |engine| engine.speed),
            power: stretch.engine.map_or(Power::from_base(0.0), |engine| engine.power),
            metal: kelvin(now.y[at::METAL]),
            block: kelvin(now.y[at::BLOCK]),
            coolant: kelvin(now.y[at::ENGINE]),
            radiator_outlet: kelvin(now.y[at::RADIATOR]),
            hoses: kelvin(now.y[at::HOSES]),
            oil: kelvin(now.y[at::OIL]),
            tank: if header { kelvin(now.y[at::HOSES]) } else { reading.tank },
            opening: Ratio::from_base(now.held.opening),
            fan: self.fan,
            radiator_heat: Power::from_base(heat),
            gauge: reading.gauge,
            cap: reading.cap,
            tank_gauge: reading.tank_gauge,
            in_tank: reading.in_tank,
            level: reading.level,
            air_in_system: reading.air_in_system,
            vapour: reading.vapour,
            out: reading.out,
            lost: reading.lost,
            margin: TemperatureInterval::from_base(now.margin),
        })
    }

    fn end<S: Scribe>(mut self, scribe: &mut S) -> Result<Drive, DayError> {
        if let Some((stretch, setting)) = self.last
            && self.samples.last().is_none_or(|sample| sample.time.base() < self.now.t)
        {
            self.sample(&stretch, &setting)?;
        }
        for tightest in self.tightest.into_iter().flatten() {
            // Within a leg in the order of time, as if it had been due.
            let place = self.samples.partition_point(|at| (at.leg, at.time) <= (tightest.leg, tightest.time));
            if place.checked_sub(1).and_then(|before| self.samples.get(before)) != Some(&tightest) {
                self.samples.insert(place, tightest);
            }
        }
        let out = self.out()?;
        self.soaks.extend(self.standing.take().map(|standing| standing.end(out)));
        let boiled = self.boiling.end(&self.now, GAP);
        self.events.extend(boiled);
        let (moves, trifles) = self.happenings.finish();
        self.events.extend(moves);
        self.events.sort_by(|a, b| a.time.base().total_cmp(&b.time.base()));
        let (steps, rejected) = (self.stepper.steps, self.stepper.rejected);
        if S::WRITES {
            working::write(self.body, &self.now, self.hottest.as_ref(), scribe)?;
        }
        let closures = self.opening.close(self.body, &self.now, steps, rejected, scribe)?;
        Ok(Drive {
            extremes: extremes(&self.samples),
            samples: self.samples,
            events: self.events,
            trifles,
            closures,
            soaks: self.soaks,
            cut_short: self.cut_short,
        })
    }
}

fn freezes(body: &Body<'_>, leg: usize, part: &'static str) -> DayError {
    DayError::Freezes { leg, part, temperature: ThermodynamicTemperature::from_base(body.low) }
}
