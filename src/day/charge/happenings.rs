//! From what single steps move to what a person would tell of the day: few events, each with its end and its sums.

use super::Moved;
use crate::day::{Event, EventKind, Trifles};
use crate::quantity::Measured;
use crate::quantity::si::{Mass, Time, Volume};

/// A spill above this (m³) is told, however short: hot coolant on the floor is no trifle.
const LEAST_SPILL: f64 = 1e-6;

/// Something that goes on, with short gaps.
#[derive(Clone, Copy, Debug, PartialEq)]
struct Going {
    begin: f64,
    until: f64,
    leg: usize,
    coolant: f64,
    /// kg.
    mass: f64,
    air: f64,
}

impl Going {
    fn add(&mut self, more: &Self) {
        self.coolant += more.coolant;
        self.mass += more.mass;
        self.air += more.air;
    }
}

/// The events of cap and tank, gathered step by step.
#[derive(Clone, Debug)]
pub(crate) struct Happenings {
    /// Gaps shorter than this (s) do not end an event.
    gap: f64,
    /// An opening that moves less than this (m³) is no event of its own; it counts among the trifles.
    least: f64,
    trifles: Trifles,
    out: Option<Going>,
    back: Option<Going>,
    spill: Option<Going>,
    /// Whether the tube has been told to be uncovered, and no coolant has come back since.
    uncovered: bool,
    events: Vec<Event>,
}

impl Happenings {
    /// Joins what is parted by less than `gap`, and puts what moves less than `least` among the trifles.
    pub fn new(gap: Time, least: Volume) -> Self {
        let (gap, least) = (gap.base(), least.base());
        Self {
            gap,
            least,
            trifles: Trifles::default(),
            out: None,
            back: None,
            spill: None,
            uncovered: false,
            events: Vec::new(),
        }
    }

    /// Takes what a step from `begin` to `until` (s) moved.
    pub fn take(&mut self, begin: f64, until: f64, leg: usize, moved: &Moved) {
        let gap = self.gap;
        let going = |coolant, mass, air| Going { begin, until, leg, coolant, mass, air };
        // However slow: a trickle through a night is as much as a rush.
        let out = moved.lets_out().then(|| going(moved.out_volume, moved.out, moved.air_out_volume));
        let back = moved.lets_in().then(|| going(moved.back_volume, moved.back, moved.air_in_volume));
        let spill = (moved.spilled > 0.0).then(|| going(moved.spilled_volume, moved.spilled, 0.0));
        let ended = [
            go_on(&mut self.out, out, begin, gap),
            go_on(&mut self.back, back, begin, gap),
            go_on(&mut self.spill, spill, begin, gap),
        ];
        for (which, ended) in ended.into_iter().enumerate() {
            self.end(which, ended);
        }
        if moved.uncovered && !self.uncovered {
            self.events.push(Event { time: Time::from_base(begin), leg, kind: EventKind::TubeUncovered });
        }
        self.uncovered = moved.uncovered || (self.uncovered && moved.back <= 0.0);
    }

    /// What goes on in the last step ends with it. The events in order of their beginning, and what was too small for one.
    pub fn finish(mut self) -> (Vec<Event>, Trifles) {
        for (which, ended) in [self.out.take(), self.back.take(), self.spill.take()].into_iter().enumerate() {
            self.end(which, ended);
        }
        self.events.sort_by(|a, b| a.time.base().total_cmp(&b.time.base()));
        (self.events, self.trifles)
    }

    fn end(&mut self, which: usize, ended: Option<Going>) {
        let Some(going) = ended else { return };
        let moved = going.coolant + going.air;
        match which {
            0 if moved < self.least => return self.trifles.went_out(moved, going.mass),
            1 if moved < self.least => return self.trifles.came_in(moved, going.mass),
            2 if moved < LEAST_SPILL => return,
            _ => {}
        }
        let until = Time::from_base(going.until);
        let (coolant, air) = (Volume::from_base(going.coolant), Volume::from_base(going.air));
        let mass = Mass::from_base(going.mass);
        let kind = match which {
            0 => EventKind::CapOpens { until, coolant, mass, air },
            1 => EventKind::VacuumValveOpens { until, coolant, mass, air },
            _ => EventKind::TankSpills { until, coolant },
        };
        self.events.push(Event { time: Time::from_base(going.begin), leg: going.leg, kind });
    }
}

/// Joins what a step brings to what goes on; what is past the gap ends and is handed back.
fn go_on(going: &mut Option<Going>, new: Option<Going>, now: f64, gap: f64) -> Option<Going> {
    match (going.as_mut(), new) {
        (Some(old), Some(new)) if now - old.until <= gap => {
            old.until = new.until;
            old.add(&new);
            None
        }
        (Some(old), None) if now - old.until <= gap => None,
        _ => std::mem::replace(going, new),
    }
}
