//! What happens after a stop, and what goes on for a while: boiling of the whole and of a passage.

use super::flow::at;
use super::record::{Event, EventKind, Soak};
use super::settle::Now;
use crate::quantity::Measured;
use crate::quantity::si::{Mass, Ratio, ThermodynamicTemperature, Time, Volume};

/// Less than this (kg) let out is too little to tell what share came back.
const WORTH_TELLING: f64 = 1e-3;

/// A stop while it lasts.
#[derive(Clone, Copy, Debug)]
pub(super) struct Standing {
    soak: Soak,
    tank_at_stop: f64,
    lost_at_stop: f64,
    made_at_stop: f64,
    most_out: f64,
}

impl Standing {
    /// `out` is the coolant that is out of the system (kg), `in_tank` the liquid in the tank (m³).
    pub fn begin(now: &Now, leg: usize, out: f64, in_tank: f64) -> Self {
        let coolant = ThermodynamicTemperature::from_base(now.y[at::ENGINE]);
        let time = Time::from_base(now.t);
        let soak = Soak {
            stopped: time,
            leg,
            at_stop: coolant,
            peak: coolant,
            peak_at: time,
            vapour: Mass::from_base(0.0),
            surge: Volume::from_base(0.0),
            lost: Mass::from_base(0.0),
            came_back: None,
        };
        Self { soak, tank_at_stop: in_tank, lost_at_stop: now.charge.lost, made_at_stop: now.made, most_out: out }
    }

    pub fn step(&mut self, now: &Now, out: f64, in_tank: f64) {
        let coolant = ThermodynamicTemperature::from_base(now.y[at::ENGINE]);
        if coolant > self.soak.peak {
            self.soak.peak = coolant;
            self.soak.peak_at = Time::from_base(now.t);
        }
        self.soak.surge = Volume::from_base(self.soak.surge.base().max(in_tank - self.tank_at_stop));
        self.soak.vapour = Mass::from_base(now.made - self.made_at_stop);
        self.soak.lost = Mass::from_base(now.charge.lost - self.lost_at_stop);
        self.most_out = self.most_out.max(out);
    }

    pub fn end(mut self, out: f64) -> Soak {
        // A system colder than it was filled draws more than ever went out: all of it is back then.
        if self.most_out > WORTH_TELLING {
            self.soak.came_back = Some(Ratio::from_base(((self.most_out - out) / self.most_out).clamp(0.0, 1.0)));
        }
        self.soak
    }
}

/// Boiling while it goes on.
#[derive(Clone, Copy, Debug)]
struct Going {
    since: f64,
    leg: usize,
    made: f64,
    blown: f64,
}

/// What boils: the coolant as a whole, and its hottest passage.
#[derive(Clone, Debug, Default)]
pub(super) struct Boiling {
    whole: Option<Going>,
    passage: Option<Going>,
    /// Time and margin before the last step.
    before: Option<(f64, f64)>,
    /// What has ended.
    events: Vec<Event>,
}

impl Boiling {
    /// Takes note of the state after a step.
    pub fn step(&mut self, now: &Now, leg: usize) {
        let going = |since: f64| Going { since, leg, made: now.made, blown: now.blown };
        if now.held.boils && self.whole.is_none() {
            // What the last step made and blew out already counts.
            let blown = now.blown - now.charge.last.blown;
            self.whole = Some(Going { made: now.made - now.y[at::VAPOUR], blown, ..going(now.t) });
        } else if !now.held.boils {
            self.end_whole(now);
        }
        // The margin is known at the ends of steps; it is taken to go straight between.
        let passed = |before: Option<(f64, f64)>| match before {
            Some((t, margin)) if (margin > 0.0) != (now.margin > 0.0) => {
                t + (now.t - t) * margin / (margin - now.margin)
            }
            _ => now.t,
        };
        let boils = now.margin <= 0.0;
        if boils && self.passage.is_none() {
            self.passage = Some(going(passed(self.before)));
        } else if !boils && let Some(passage) = self.passage.take() {
            self.events.push(told_passage(passage, passed(self.before)));
        }
        self.before = Some((now.t, now.margin));
    }

    fn end_whole(&mut self, now: &Now) {
        let Some(whole) = self.whole.take() else { return };
        let kind = EventKind::CoolantBoils {
            until: Time::from_base(now.t),
            vapour: Mass::from_base(now.made - whole.made),
            blown_out: Mass::from_base(now.blown - whole.blown),
        };
        self.events.push(Event { time: Time::from_base(whole.since), leg: whole.leg, kind });
    }

    /// What still goes on at the end of the day ends with it. Of each kind what is parted by no more than `gap` (s) is one.
    pub fn end(mut self, now: &Now, gap: f64) -> Vec<Event> {
        self.end_whole(now);
        if let Some(passage) = self.passage {
            self.events.push(told_passage(passage, now.t));
        }
        let (whole, passage): (Vec<_>, Vec<_>) =
            self.events.into_iter().partition(|event| matches!(event.kind, EventKind::CoolantBoils { .. }));
        let mut events = joined(whole, gap);
        events.extend(joined(passage, gap));
        events
    }
}

fn told_passage(passage: Going, until: f64) -> Event {
    let kind = EventKind::PassageBoils { until: Time::from_base(until) };
    Event { time: Time::from_base(passage.since), leg: passage.leg, kind }
}

/// Boiling of one kind in order of time: a short pause does not make it two.
fn joined(events: Vec<Event>, gap: f64) -> Vec<Event> {
    let mut all: Vec<Event> = Vec::with_capacity(events.len());
    for event in events {
        match all.last_mut().and_then(|last| Some((last.kind.joined(event.time, event.kind, gap)?, last))) {
            Some((kind, last)) => last.kind = kind,
            None => all.push(event),
        }
    }
    all
}

impl EventKind {
    /// This with a later one of its kind, if that begins soon enough after it.
    fn joined(self, begins: Time, later: Self, gap: f64) -> Option<Self> {
        match (self, later) {
            (Self::PassageBoils { until: first }, Self::PassageBoils { until })
                if begins.base() - first.base() <= gap =>
            {
                Some(Self::PassageBoils { until })
            }
            (
                Self::CoolantBoils { until: first, vapour: made, blown_out: blown },
                Self::CoolantBoils { until, vapour, blown_out },
            ) if begins.base() - first.base() <= gap => {
                Some(Self::CoolantBoils { until, vapour: made + vapour, blown_out: blown + blown_out })
            }
            _ => None,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn boils(from: f64, until: f64, grams: f64) -> Event {
        let mass = Mass::from_base(grams * 1e-3);
        let kind = EventKind::CoolantBoils { until: Time::from_base(until), vapour: mass, blown_out: mass };
        Event { time: Time::from_base(from), leg: 1, kind }
    }

    /// A boil that pauses for seconds is one, with the vapour of both.
    #[test]
    fn a_pause_does_not_make_two_boils() {
        let told = joined(vec![boils(0.0, 7.0, 0.8), boils(20.0, 620.0, 21.7), boils(900.0, 910.0, 1.0)], 180.0);
        let [first, second] = told.try_into().unwrap();
        let EventKind::CoolantBoils { until, vapour, .. } = first.kind else { panic!("{first:?}") };
        assert!(first.time.base() == 0.0 && until.base() == 620.0 && (vapour.base() - 22.5e-3).abs() < 1e-12);
        assert_eq!(second, boils(900.0, 910.0, 1.0));
    }
}
