//! A day in words: legs, events, the worst of each, stops, and how well the books close.

mod events;
mod json;

pub use json::{COLUMNS, Column};

use crate::day::{Closures, Drive, EventKind, ExtremeOf, Sample, Soak};
use crate::quantity::si::{Mass, Ratio, Time, Volume};
use crate::quantity::{Amount, Kind, Measured};
use crate::say;
use crate::study::answers::day::worst;
use crate::study::{DayAnswers, Section, Sentence, TankArrangement};

/// Volumes below this, m³, nobody sees in a tank: 5 mL.
pub(in crate::study) const SEEN: f64 = 5e-6;

/// A time of the day: hours and minutes since it began, "1:32".
#[must_use]
pub fn clock(time: Time) -> String {
    let minutes = (time.base().max(0.0) / 60.0).floor();
    let hours = (minutes / 60.0).floor();
    format!("{hours:.0}:{:02.0}", minutes - 60.0 * hours)
}

/// How long something lasts: seconds below a minute and a half, else minutes.
pub(super) fn lasting(from: Time, until: Time) -> Amount {
    let seconds = (until.base() - from.base()).max(0.0);
    Amount::new(seconds, if seconds < 90.0 { Kind::Time } else { Kind::Duration })
}

/// Volumes below this, m³, are told in the small unit.
const SMALL: f64 = 0.1e-3;

/// A volume of coolant or air that moves: small ones in millilitres.
pub(in crate::study) fn litres(volume: Volume) -> Amount {
    Amount::of_kind(volume, if volume.base().abs() < SMALL { Kind::SmallVolume } else { Kind::Volume })
}

/// A mass of coolant, small ones in grams.
pub(in crate::study) fn mass(mass: Mass) -> Amount {
    Amount::of_kind(mass, if mass.base() < 0.1 { Kind::SmallMass } else { Kind::Mass })
}

fn share(ratio: Ratio) -> Amount {
    Amount::of_kind(ratio, Kind::Share)
}

/// The share that came back of what was out (kg) at most. The whole is told only where what is missing nobody would see;
/// otherwise rounding does not make it whole.
pub(in crate::study) fn back(most: f64, out: f64) -> Amount {
    if most <= 0.0 || out <= UNSEEN {
        return Amount::new(1.0, Kind::Share);
    }
    Amount::new((((most - out) / most).clamp(0.0, 1.0) * 100.0).floor() / 100.0, Kind::Share)
}

/// An engine is warm while its coolant is hotter than the air by more than this, K.
const STILL_WARM: f64 = 15.0;
/// Coolant warmer at the end than at the beginning by more than this (K) fills the system the more.
const WARMER: f64 = 5.0;
/// Coolant, kg, that nobody misses in a system or sees in a tank.
const UNSEEN: f64 = 5e-3;
/// Coolant lost, kg, from which a day says so.
pub(in crate::study) const LOST: f64 = 5e-3;

impl DayAnswers {
    /// Coolant lost as a day tells it; nothing where so little is gone that nobody misses it.
    #[must_use]
    pub fn told_lost(lost: Mass) -> Option<Amount> {
        (lost.base() > LOST).then(|| mass(lost))
    }

    /// When and where in the day: "1:32, Hot stop after Climb".
    #[must_use]
    pub fn moment(&self, sample: &Sample) -> Sentence {
        self.moment_of(sample.time, sample.leg, sample.engine_speed.base() > 0.0)
    }

    /// The same of a time in a leg; a stop is told with the leg before it.
    pub(in crate::study) fn moment_of(&self, time: Time, leg: usize, turning: bool) -> Sentence {
        let name = |leg: usize| self.legs.get(leg).map(|leg| leg.name.clone());
        let before = leg.checked_sub(1).and_then(name).filter(|_| !turning);
        match (name(leg), before) {
            (Some(own), Some(before)) => say![clock(time), ", ", own, " after ", before],
            (Some(own), None) => say![clock(time), ", ", own],
            (None, _) => say![clock(time)],
        }
    }

    /// Everything of the day for people: legs, worst, events, stops, crankcase, books.
    #[must_use]
    pub fn sections(&self) -> Vec<Section> {
        let mut sections = vec![self.legs_section(), self.worst_section(), self.events_section()];
        if !self.drive.soaks.is_empty() {
            sections.push(self.stops_section());
        }
        sections.push(self.gas_section());
        sections.push(books(&self.drive.closures));
        sections
    }

    fn legs_section(&self) -> Section {
        let mut section = Section::new("day_legs", "The day, leg by leg");
        for (i, leg) in self.legs.iter().enumerate() {
            let mut words = say![leg.name.clone(), "; ", clock(leg.begins), " to ", clock(leg.ends)];
            if leg.distance.base() > 1.0 {
                words = say![words, ", ", Amount::of_kind(leg.distance, Kind::RoadDistance)];
            }
            let last = self.drive.samples.iter().rev().find(|sample| sample.leg == i);
            words = match last {
                Some(last) => {
                    say![words, "; at its end coolant ", Amount::of(last.coolant), ", oil ", Amount::of(last.oil)]
                }
                None => say![words, "; not reached"],
            };
            section.words(&format!("leg_{}", i + 1), &format!("Leg {}", i + 1), words);
        }
        if let Some(why) = &self.drive.cut_short {
            section.words("cut_short", "The day could not be followed to its end", say![why.clone()]);
        }
        section
    }

    fn worst_section(&self) -> Section {
        let mut section = Section::new("day_worst", "The worst of the day");
        for of in ExtremeOf::ALL {
            // A header tank has the system's pressure, and of an open one the day knows none: its vent is not followed.
            if of == ExtremeOf::TankPressure && !self.sealed() {
                continue;
            }
            let Some(likely) = worst(&self.drive, of) else { continue };
            let mut words = say![of.amount(likely), " at ", self.moment(likely)];
            if let Some(pushed) = worst(&self.unfavourable, of) {
                words = say![words, "; unfavourable end ", of.amount(pushed), " at ", clock(pushed.time)];
            }
            section.words(of.key(), of.name(), words);
        }
        section.words("tank_in_words", "The tank", self.says_tank());
        section
    }

    fn stops_section(&self) -> Section {
        let mut section = Section::new("day_stops", "Stops of the engine");
        for (i, soak) in self.drive.soaks.iter().enumerate() {
            let started = self
                .drive
                .events
                .iter()
                .any(|event| matches!(event.kind, EventKind::EngineStarts) && event.time > soak.stopped);
            section.words(&format!("stop_{}", i + 1), &clock(soak.stopped), self.says_soak(soak, started));
        }
        section
    }

    fn gas_section(&self) -> Section {
        let mut section = Section::new("day_crankcase", "The crankcase through the day");
        let known = || {
            // A stopped engine makes no gas: its zero is no peak.
            let at = self.drive.samples.iter().zip(&self.crankcase);
            let at = at.filter(|(sample, _)| sample.engine_speed.base() > 0.0);
            at.filter_map(|(sample, crankcase)| crankcase.gauge.map(|gauge| (sample, gauge)))
        };
        let ends = [
            (
                "crankcase_highest",
                "Highest crankcase pressure",
                known().max_by(|a, b| a.1.base().total_cmp(&b.1.base())),
            ),
            ("crankcase_lowest", "Lowest crankcase pressure", known().min_by(|a, b| a.1.base().total_cmp(&b.1.base()))),
        ];
        for (key, label, end) in ends {
            match end {
                Some((sample, gauge)) => {
                    let words = say![Amount::of_kind(gauge, Kind::CrankcasePressure), " at ", self.moment(sample)];
                    section.words(key, label, words);
                }
                None => {
                    section.absent(key, label, "it could not be solved anywhere in the day");
                }
            }
        }
        if let Some(last) = self.crankcase.last() {
            section.amount("oil_out", "Oil that left with the gas", Amount::of_kind(last.oil_out, Kind::SmallMass));
            section.amount("oil_caught", "Oil the can caught", Amount::of_kind(last.oil_caught, Kind::SmallMass));
        }
        section
    }

    /// Whether the tank takes what comes and gives it back, in a few sentences: what was lost, and what the unfavourable end
    /// loses, among them.
    #[must_use]
    pub fn says_tank(&self) -> Sentence {
        let (Some(start), Some(end)) = (self.drive.samples.first(), self.drive.samples.last()) else {
            return say!["There is no day to tell of."];
        };
        let Some(full) = self.extreme(ExtremeOf::FullTank) else { return say!["The level in the tank is not known."] };
        let mut words = say![];
        if self.drive.cut_short.is_some() {
            words = say!["The day could be followed only to ", clock(end.time), ", not to its end. "];
        }
        words = say![words, self.takes(start, full, end)];
        words = say![words, self.gives_back(start, end)];
        if let Some(worse) = self.loses_at_the_unfavourable_end(end) {
            words = say![words, worse];
        }
        words
    }

    fn takes(&self, start: &Sample, full: &Sample, end: &Sample) -> Sentence {
        let came = Volume::from_base(full.in_tank.base() - start.in_tank.base());
        let room = Volume::from_base((self.capacity.base() - full.in_tank.base()).max(0.0));
        let (spilled, lost) = (self.spilled(), end.lost);
        let header = self.arrangement == TankArrangement::HeaderTank;
        if spilled.base() > SEEN {
            say!["The tank is too small for this day: ", litres(spilled), " spills, first at ", self.first_spill(), "."]
        } else if header && lost.base() > LOST {
            say![
                "The header tank does not keep its coolant: ",
                mass(lost),
                " leaves by the overflow and is lost; the tank is fullest at ",
                self.moment(full),
                "."
            ]
        } else if lost.base() > LOST {
            say![
                "Coolant boils away: ",
                mass(lost),
                " is lost as steam by the vent; at most ",
                litres(came),
                " comes into the tank, at ",
                self.moment(full),
                "."
            ]
        } else if came.base() <= SEEN {
            say!["Hardly anything comes into the tank."]
        } else {
            say![
                "The tank takes the ",
                litres(came),
                " that comes, most at ",
                self.moment(full),
                ", with ",
                litres(room),
                if header { " of air left in it." } else { " to spare." }
            ]
        }
    }

    fn gives_back(&self, start: &Sample, end: &Sample) -> Sentence {
        match self.arrangement {
            TankArrangement::HeaderTank => return say![],
            TankArrangement::CatchOnly => return say![" Nothing comes back from a catch-only can."],
            TankArrangement::RecoveryTank => {}
        }
        let most = self.drive.samples.iter().map(|sample| sample.out.base()).fold(0.0, f64::max);
        if most <= 0.0 {
            return say![];
        }
        let by = if self.drive.cut_short.is_some() { " By then " } else { " By the end of the day " };
        let still = if end.coolant.base() > end.air.base() + STILL_WARM {
            say![", the engine being still warm"]
        } else if end.coolant.base() > start.coolant.base() + WARMER {
            say![
                ", the coolant standing at ",
                Amount::of(end.coolant),
                " where the day began at ",
                Amount::of(start.coolant)
            ]
        } else {
            say![]
        };
        let words = say![by, back(most, end.out.base()), " of what had gone out has come back", still];
        let air = events::air_drawn(&self.drive);
        let words = if air.base() > SEEN {
            say![words, "; ", litres(air), " of air came in where coolant was wanted"]
        } else {
            words
        };
        if end.lost.base() > LOST {
            say![words, "; ", mass(end.lost), " is lost for good, and the tank or the system is short of it."]
        } else {
            say![words, "."]
        }
    }

    /// What only the unfavourable end loses.
    fn loses_at_the_unfavourable_end(&self, likely: &Sample) -> Option<Sentence> {
        let end = self.unfavourable.samples.last()?;
        let cut_short = match (&self.unfavourable.cut_short, &self.drive.cut_short) {
            (Some(_), None) => say![", and the day could be followed only to ", clock(end.time)],
            _ => say![],
        };
        let more = end.lost.base() > LOST && likely.lost.base() <= LOST;
        more.then(|| say![" At the unfavourable end ", mass(end.lost), " is lost", cut_short, "."])
    }

    /// Whether the tank has a lid without a vent.
    fn sealed(&self) -> bool {
        let pressed = |drive: &Drive| drive.samples.iter().any(|sample| sample.tank_gauge.base() != 0.0);
        self.arrangement != TankArrangement::HeaderTank && (pressed(&self.drive) || pressed(&self.unfavourable))
    }

    fn says_soak(&self, soak: &Soak, started: bool) -> Sentence {
        let mut words = say![
            "stopped with the coolant at ",
            Amount::of(soak.at_stop),
            ", it rises to ",
            Amount::of(soak.peak),
            " after ",
            lasting(soak.stopped, soak.peak_at)
        ];
        if soak.vapour.base() > 1e-6 {
            words = say![words, "; ", Amount::of_kind(soak.vapour, Kind::SmallMass), " of it boils"];
        }
        if soak.surge.base() > SEEN {
            words = say![words, "; the tank rises by ", litres(soak.surge)];
            if let Some(share) = soak.came_back.filter(|_| self.arrangement == TankArrangement::RecoveryTank) {
                let until = if started { "before the next start" } else { "by the end of the day" };
                // Of everything that was out, not of this rise alone.
                words = say![
                    words,
                    "; of all the coolant then out of the system ",
                    back(1.0, 1.0 - share.base()),
                    " comes back ",
                    until
                ];
            }
        }
        if soak.lost.base() > 1e-3 {
            words = say![words, "; ", mass(soak.lost), " is lost"];
        }
        words
    }

    /// What the tank spilled over the day, at the likely values.
    pub(in crate::study) fn spilled(&self) -> Volume {
        events::spilled(&self.drive)
    }

    fn first_spill(&self) -> Sentence {
        events::first_spill(&self.drive)
            .map_or_else(Sentence::default, |event| self.moment_of(event.time, event.leg, true))
    }
}

fn books(closures: &Closures) -> Section {
    let mut section = Section::new("day_books", "How well the books close").aside();
    section
        .quantity("heat_in", "Heat the engine gave", closures.heat_in)
        .quantity("by_radiator", "By the radiator", closures.by_radiator)
        .quantity("by_heater", "By the heater", closures.by_heater)
        .quantity("by_surfaces", "By surfaces, hoses, sump and tank", closures.by_surfaces)
        .quantity("by_losses", "With what was lost", closures.by_losses)
        .quantity("stored", "Held more at the end than at the beginning", closures.stored)
        .amount("energy_left_over", "Left over, of the heat turned over", share(closures.energy))
        .quantity("coolant_at_start", "Coolant at the beginning", closures.coolant_at_start)
        .quantity("coolant_at_end", "Coolant at the end", closures.coolant_at_end)
        .quantity("coolant_lost", "Coolant lost", closures.lost)
        .amount("coolant_left_over", "Left over, of the coolant", share(closures.coolant))
        .amount("steps", "Steps taken", Amount::number(f64::from(closures.steps)));
    section
}
