//! What the day says of tank, dip tube, return, vent and cushion.

use super::{Asked, Found, least, state};
use crate::coolant::defaults as usual;
use crate::day::{Drive, Event, EventKind, ExtremeOf, Sample};
use crate::quantity::si::{Length, Ratio, Volume};
use crate::quantity::{Amount, Kind, Measured};
use crate::say;
use crate::study::answers::day::worst;
use crate::study::answers::tell::day::SEEN;
use crate::study::{Sentence, State, TankArrangement};

fn litres(value: f64) -> Amount {
    Amount::new(value, Kind::Volume)
}

/// Coolant a tank spilled in a drive, m³, and when it began to.
fn spilled(drive: &Drive) -> Option<(f64, &Event)> {
    let mut spills = drive.events.iter().filter_map(|event| match event.kind {
        EventKind::TankSpills { coolant, .. } => Some((coolant.base(), event)),
        _ => None,
    });
    let first = spills.next()?;
    let all = first.0 + spills.map(|spill| spill.0).sum::<f64>();
    (all > SEEN).then_some((all, first.1))
}

/// Air that came in by the vacuum valve, m³, and when it began to.
fn drawn(drive: &Drive) -> Option<(f64, &Event)> {
    let mut draws = drive.events.iter().filter_map(|event| match event.kind {
        EventKind::VacuumValveOpens { air, .. } if air.base() > SEEN => Some((air.base(), event)),
        _ => None,
    });
    let first = draws.next()?;
    Some((first.0 + draws.map(|one| one.0).sum::<f64>(), first.1))
}

impl Asked<'_> {
    /// When an event was, in words.
    fn event_at(&self, event: &Event) -> Sentence {
        let last = self.day.at(event.time).is_none_or(|sample| sample.engine_speed.base() > 0.0);
        self.day.moment_of(event.time, event.leg, last)
    }

    /// The fullest tank of a drive, m³: what it rose above the start with the doubt of the growth on top.
    fn fullest<'d>(&self, drive: &'d Drive, doubt: Ratio) -> Option<(f64, &'d Sample)> {
        let start = drive.samples.first()?.in_tank.base();
        let full = worst(drive, ExtremeOf::FullTank)?;
        Some((start + (full.in_tank.base() - start).max(0.0) * doubt.base(), full))
    }

    pub(super) fn volume(&self) -> Option<Found> {
        let capacity = self.day.capacity.base();
        let (likely, full) = self.fullest(&self.day.drive, Ratio::from_base(1.0))?;
        let (high, _) = self.fullest(&self.day.unfavourable, self.day.growth_doubt)?;
        let over = spilled(&self.day.unfavourable).map_or(0.0, |spilled| spilled.0) + (high - capacity).max(0.0);
        if let Some((lost, event)) = spilled(&self.day.drive) {
            return Some(Found {
                state: State::DoesNotHold,
                margin: say!["spills ", litres(lost)],
                least: Some(-lost),
                when: self.event_at(event),
                mend: Some(say!["a tank of ", litres(capacity + lost.max(over)), " or more, by this day"]),
            });
        }
        Some(Found {
            state: state(true, over <= SEEN),
            margin: say![litres(capacity - likely), " to spare"],
            least: Some(capacity - likely),
            when: self.day.moment(full),
            mend: (over > SEEN).then(|| say!["a tank of ", litres(capacity + over), " or more, by this day"]),
        })
    }

    pub(super) fn dip_tube(&self) -> Option<Found> {
        let end = self.context.project.tank.tube_end.base();
        let cover =
            |drive| worst(drive, ExtremeOf::EmptyTank).and_then(|empty| Some((empty, empty.level?.base() - end)));
        let uncovered =
            |drive: &Drive| drive.events.iter().find(|event| matches!(event.kind, EventKind::TubeUncovered)).copied();
        let mend = || Some(say!["more coolant in the tank when cold, or a tube that ends lower"]);
        if let Some(event) = uncovered(&self.day.drive) {
            return Some(Found {
                state: State::DoesNotHold,
                margin: say!["draws air at rest"],
                least: None,
                when: self.event_at(&event),
                mend: mend(),
            });
        }
        let (empty, likely) = cover(&self.day.drive)?;
        let enough = likely >= usual::least_cover().likely().base() && uncovered(&self.day.unfavourable).is_none();
        Some(Found {
            state: state(likely > 0.0, enough),
            margin: say![Amount::of_kind(Length::from_base(likely), Kind::Length), " of cover at rest"],
            least: Some(likely),
            when: self.day.moment(empty),
            mend: if enough { None } else { mend() },
        })
    }

    pub(super) fn comes_back(&self) -> Option<Found> {
        let out = |sample: &Sample| sample.out.base();
        let (most, far_out) = least(&self.day.drive, |_| true, |sample| -out(sample)).map(|(at, out)| (at, -out))?;
        if self.day.arrangement != TankArrangement::RecoveryTank {
            let lost =
                Volume::from_base((most.in_tank.base() - self.day.drive.samples.first()?.in_tank.base()).max(0.0));
            return Some(Found {
                state: if far_out > 0.0 { State::DoesNotHold } else { State::Holds },
                margin: say!["loses ", Amount::of_kind(lost, Kind::Volume)],
                least: None,
                when: self.day.moment(most),
                mend: None,
            });
        }
        if let Some((air, event)) = drawn(&self.day.drive) {
            return Some(Found {
                state: State::DoesNotHold,
                margin: say!["draws ", litres(air), " of air instead of coolant"],
                least: None,
                when: self.event_at(event),
                mend: Some(say!["keep the end of the dip tube under coolant: raise the cold level"]),
            });
        }
        let end = self.day.drive.samples.last()?;
        let back = if far_out > 0.0 { ((far_out - out(end)) / far_out).clamp(0.0, 1.0) } else { 1.0 };
        Some(Found {
            state: state(true, drawn(&self.day.unfavourable).is_none()),
            margin: say![
                Amount::new(back, Kind::Share),
                " of what went out is back, coolant at ",
                Amount::of(end.coolant)
            ],
            least: None,
            when: self.day.moment(end),
            mend: None,
        })
    }

    pub(super) fn vent(&self) -> Option<Found> {
        let allowed = self.answers.tank.vent.as_ref()?.allowed.likely.base();
        let likely = worst(&self.day.drive, ExtremeOf::TankPressure)?;
        let high = worst(&self.day.unfavourable, ExtremeOf::TankPressure)?;
        Some(Found {
            state: state(likely.tank_gauge.base() <= allowed, high.tank_gauge.base() <= allowed),
            margin: say![Amount::of(likely.tank_gauge), " in the tank"],
            least: None,
            when: self.day.moment(likely),
            mend: None,
        })
    }

    /// A header tank's cap should stay shut.
    pub(super) fn cushion(&self) -> Option<Found> {
        let opens =
            |drive: &Drive| drive.events.iter().find(|event| matches!(event.kind, EventKind::CapOpens { .. })).copied();
        let high = worst(&self.day.drive, ExtremeOf::Pressure)?;
        let likely = opens(&self.day.drive);
        Some(Found {
            state: state(likely.is_none(), opens(&self.day.unfavourable).is_none()),
            margin: if likely.is_some() {
                say!["the cap opens at ", Amount::of(high.gauge)]
            } else {
                say!["at most ", Amount::of(high.gauge), ", the cap stays shut"]
            },
            least: None,
            when: likely.map_or_else(|| self.day.moment(high), |event| self.event_at(&event)),
            mend: None,
        })
    }
}
