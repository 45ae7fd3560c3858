//! What the day says of boiling, of the radiator and of hot stops.

use super::{Asked, Found, least, state, turns};
use crate::day::{Drive, EventKind, ExtremeOf, Sample, Soak};
use crate::quantity::si::{Mass, Time};
use crate::quantity::{Amount, Kind, Measured};
use crate::say;
use crate::study::answers::day::worst;
use crate::study::defaults;

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

impl Asked<'_> {
    /// The smallest margin of the hottest passage, the engine turning.
    pub(super) fn boiling(&self) -> Option<Found> {
        let margin = |sample: &Sample| sample.margin.base();
        let (at, likely) = least(&self.day.drive, turns, margin)?;
        let (_, low) = least(&self.day.unfavourable, turns, margin)?;
        let allowance = defaults::boiling_allowance().likely.base();
        let holds = state(likely > 0.0, likely >= allowance && low > 0.0);
        Some(Found {
            state: holds,
            margin: if likely > 0.0 {
                say![Amount::new(likely, Kind::TemperatureDifference), " below boiling"]
            } else {
                say!["the hottest passage boils"]
            },
            least: Some(likely),
            when: self.day.moment(at),
            mend: (likely <= 0.0).then(|| say!["more radiator or more air through it there, or a gentler pace"]),
        })
    }

    /// Whether the coolant as a whole stays liquid, the engine turning.
    pub(super) fn cooling(&self) -> Option<Found> {
        let hottest = worst(&self.day.drive, ExtremeOf::Coolant)?;
        if let Some((time, leg)) = boils_running(&self.day.drive) {
            return Some(Found {
                state: crate::study::State::DoesNotHold,
                margin: say!["boils over"],
                least: None,
                when: self.day.moment_of(time, leg, true),
                mend: Some(say!["more radiator or more air through it, or a gentler pace there"]),
            });
        }
        let (at, _) = least(&self.day.drive, turns, |sample| -sample.coolant.base()).unwrap_or((hottest, 0.0));
        Some(Found {
            state: state(true, boils_running(&self.day.unfavourable).is_none()),
            margin: say!["hottest ", Amount::of(at.coolant)],
            least: None,
            when: self.day.moment(at),
            mend: None,
        })
    }

    pub(super) fn hot_stop(&self) -> Option<Found> {
        let stop = worst_stop(&self.day.drive)?;
        let pushed = worst_stop(&self.day.unfavourable).is_some_and(boils_stopped);
        let boils = boils_stopped(stop);
        let margin = if boils {
            let vapour = Amount::of_kind(Mass::from_base(stop.vapour.base()), Kind::SmallMass);
            say!["boils: ", vapour, " of vapour, the tank rises by ", Amount::of_kind(stop.surge, Kind::Volume)]
        } else {
            say!["rises to ", Amount::of(stop.peak), " without boiling"]
        };
        let when = self.day.moment_of(stop.stopped, stop.leg, false);
        let mend = (boils || pushed)
            .then(|| say!["let it idle or roll a minute before stopping, with the fan on; never open it to look"]);
        Some(Found { state: state(!boils, !pushed), margin, least: None, when, mend })
    }
}
