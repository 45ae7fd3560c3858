//! What the day says of boiling, of the radiator and of hot stops.

use super::rule::Ends;
use super::{Asked, Found, least, state, turns};
use crate::day::{Drive, EventKind, ExtremeOf, Sample, Soak};
use crate::quantity::si::Time;
use crate::quantity::{Amount, Kind, Measured};
use crate::say;
use crate::study::answers::day::worst;
use crate::study::answers::tell::day::litres;
use crate::study::{Sentence, defaults};

/// Vapour below this, kg, is none: a tenth of a gram.
const BOILS: f64 = 1e-4;

/// When the coolant as a whole first boils with the engine turning.
fn boils_running(drive: &Drive) -> Option<(Time, usize)> {
    let turning = |time: Time| {
        let at = drive.samples.partition_point(|sample| sample.time <= time).saturating_sub(1);
        drive.samples.get(at).is_some_and(turns)
    };
    drive.events.iter().find_map(|event| match event.kind {
        EventKind::CoolantBoils { vapour, .. } if vapour.base() > BOILS && turning(event.time) => {
            Some((event.time, event.leg))
        }
        _ => None,
    })
}

/// The stop that makes most vapour, of those without the hottest.
fn worst_stop(drive: &Drive) -> Option<&Soak> {
    let worse = |a: &&Soak, b: &&Soak| {
        a.vapour.base().total_cmp(&b.vapour.base()).then(a.peak.base().total_cmp(&b.peak.base()))
    };
    drive.soaks.iter().max_by(worse)
}

fn boils_stopped(soak: &Soak) -> bool {
    soak.vapour.base() > BOILS
}

/// The least margin of the hottest passage while the engine stands.
fn standing_margin(drive: &Drive) -> f64 {
    least(drive, |sample| !turns(sample), |sample| sample.margin.base()).map_or(f64::INFINITY, |(_, margin)| margin)
}

fn below_boiling(margin: f64) -> Sentence {
    if margin > 0.0 {
        say![Amount::new(margin, Kind::TemperatureDifference), " below boiling"]
    } else {
        say!["the hottest passage boils"]
    }
}

/// A stop in words.
fn stop_words(drive: &Drive, stop: &Soak) -> Sentence {
    if boils_stopped(stop) {
        let vapour = Amount::of_kind(stop.vapour, Kind::SmallMass);
        say!["boils: ", vapour, " of vapour, the tank rises by ", litres(stop.surge)]
    } else if standing_margin(drive) <= 0.0 {
        say!["rises to ", Amount::of(stop.peak), ", the hottest passage boils"]
    } else {
        say!["rises to ", Amount::of(stop.peak), " without boiling"]
    }
}

impl Asked<'_> {
    /// The smallest margin of the hottest passage, the engine turning.
    pub(super) fn boiling(&self) -> Option<Found> {
        let margin = |sample: &Sample| sample.margin.base();
        let (at, likely) = least(&self.day.drive, turns, margin)?;
        let (_, low) = least(&self.day.unfavourable, turns, margin)?;
        let allowance = defaults::boiling_allowance().likely.base();
        let end = |margin: f64| if margin > 0.0 { margin } else { f64::NEG_INFINITY };
        Some(Found {
            state: state(likely > 0.0, likely >= allowance && low > 0.0),
            margin: below_boiling(likely),
            pushed: below_boiling(low),
            ends: Ends::of(end(likely), end(low)),
            when: self.day.moment(at),
            mend: (likely <= 0.0).then(|| say!["more radiator or more air through it there, or a gentler pace"]),
        })
    }

    /// Whether the coolant as a whole stays liquid, the engine turning.
    pub(super) fn cooling(&self) -> Option<Found> {
        let hottest = |drive: &Drive| {
            let found = least(drive, turns, |sample| -sample.coolant.base()).map(|(at, _)| *at);
            found.or_else(|| worst(drive, ExtremeOf::Coolant).copied())
        };
        let (at, pushed) = (hottest(&self.day.drive)?, hottest(&self.day.unfavourable)?);
        let end = |drive: &Drive, at: &Sample| {
            if boils_running(drive).is_some() { f64::NEG_INFINITY } else { -at.coolant.base() }
        };
        let words = |drive: &Drive, at: &Sample| match boils_running(drive) {
            Some(_) => say!["boils over"],
            None => say!["hottest ", Amount::of(at.coolant)],
        };
        let boils = boils_running(&self.day.drive);
        Some(Found {
            state: state(boils.is_none(), boils_running(&self.day.unfavourable).is_none()),
            margin: words(&self.day.drive, &at),
            pushed: words(&self.day.unfavourable, &pushed),
            ends: Ends::of(end(&self.day.drive, &at), end(&self.day.unfavourable, &pushed)),
            when: boils.map_or_else(|| self.day.moment(&at), |(time, leg)| self.day.moment_of(time, leg, true)),
            mend: boils.map(|_| say!["more radiator or more air through it, or a gentler pace there"]),
        })
    }

    pub(super) fn hot_stop(&self) -> Option<Found> {
        let stop = worst_stop(&self.day.drive)?;
        let pushed = worst_stop(&self.day.unfavourable);
        let holds = |drive: &Drive, stop: &Soak| !boils_stopped(stop) && standing_margin(drive) > 0.0;
        let end = |drive: &Drive, stop: &Soak| if holds(drive, stop) { -stop.peak.base() } else { f64::NEG_INFINITY };
        let likely = holds(&self.day.drive, stop);
        // Without a stop of its own it was cut short before.
        let unfavourable = pushed.is_some_and(|pushed| holds(&self.day.unfavourable, pushed));
        Some(Found {
            // A passage that boils for a while is the worst of a stop that drives nothing out.
            state: state(!boils_stopped(stop), likely && unfavourable),
            margin: stop_words(&self.day.drive, stop),
            pushed: pushed.map_or_else(
                || say!["the day ends before this stop"],
                |pushed| stop_words(&self.day.unfavourable, pushed),
            ),
            ends: Ends {
                likely: Some(end(&self.day.drive, stop)),
                unfavourable: pushed.map(|pushed| end(&self.day.unfavourable, pushed)),
            },
            when: self.day.moment_of(stop.stopped, stop.leg, false),
            mend: (!likely || !unfavourable)
                .then(|| say!["let it idle or roll a minute before stopping, with the fan on; never open it to look"]),
        })
    }
}
