//! A day in words: legs, events, the worst of each, stops, and how well the books close.

mod events;
mod json;

pub use json::{COLUMNS, Column};

use crate::day::{Closures, ExtremeOf, Sample, Soak};
use crate::quantity::si::{Ratio, Time, Volume};
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

/// A volume as people pour it: small ones in the small unit.
pub(super) fn litres(volume: Volume) -> Amount {
    Amount::of_kind(volume, if volume.base().abs() < 1e-4 { Kind::SmallVolume } else { Kind::Volume })
}

fn share(ratio: Ratio) -> Amount {
    Amount::of_kind(ratio, Kind::Share)
}

impl DayAnswers {
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
            if of == ExtremeOf::TankPressure && self.arrangement == TankArrangement::HeaderTank {
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
        let mut section = Section::new("day_stops", "Stops of the hot engine");
        for (i, soak) in self.drive.soaks.iter().enumerate() {
            section.words(&format!("stop_{}", i + 1), &clock(soak.stopped), says_soak(soak));
        }
        section
    }

    fn gas_section(&self) -> Section {
        let mut section = Section::new("day_crankcase", "The crankcase through the day");
        let known = || {
            let at = self.drive.samples.iter().zip(&self.crankcase);
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

    /// Whether the tank takes what comes and gives it back, in a sentence.
    #[must_use]
    pub fn says_tank(&self) -> Sentence {
        let (Some(start), Some(end)) = (self.drive.samples.first(), self.drive.samples.last()) else {
            return say!["There is no day to tell of."];
        };
        let Some(full) = self.extreme(ExtremeOf::FullTank) else { return say!["The level in the tank is not known."] };
        let came = Volume::from_base(full.in_tank.base() - start.in_tank.base());
        let room = Volume::from_base(self.capacity.base() - full.in_tank.base());
        let spilled = self.spilled();
        let takes = if spilled.base() > SEEN {
            say!["The tank is too small for this day: ", litres(spilled), " spills, first at ", self.first_spill(), "."]
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
                " to spare."
            ]
        };
        let pushed = events::spilled(&self.unfavourable);
        let takes = if spilled.base() <= SEEN && pushed.base() > SEEN {
            say![takes, " At the unfavourable end it spills ", litres(pushed), "."]
        } else {
            takes
        };
        if self.arrangement == TankArrangement::HeaderTank {
            return takes;
        }
        if self.arrangement == TankArrangement::CatchOnly {
            return say![takes, " Nothing comes back from a catch-only can."];
        }
        let most = self.drive.samples.iter().map(|sample| sample.out.base()).fold(0.0, f64::max);
        if most <= 0.0 {
            return takes;
        }
        let back = Ratio::from_base(((most - end.out.base()) / most).clamp(0.0, 1.0));
        let warm = end.coolant.base() > start.coolant.base() + 5.0;
        let still = if warm { ", the engine being still warm" } else { "" };
        say![takes, " By the end of the day ", share(back), " of what had gone out has come back", still, "."]
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

fn says_soak(soak: &Soak) -> Sentence {
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
        if let Some(back) = soak.came_back {
            words = say![words, ", ", share(back), " of which comes back before the next start"];
        }
    }
    if soak.lost.base() > 1e-3 {
        words = say![words, "; ", Amount::of(soak.lost), " is lost"];
    }
    words
}

fn books(closures: &Closures) -> Section {
    let mut section = Section::new("day_books", "How well the books close").aside();
    section
        .quantity("heat_in", "Heat the engine gave", closures.heat_in)
        .quantity("by_radiator", "By the radiator", closures.by_radiator)
        .quantity("by_heater", "By heater and hoses", closures.by_heater)
        .quantity("by_surfaces", "By surfaces, sump and tank", closures.by_surfaces)
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
