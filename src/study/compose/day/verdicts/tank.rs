//! What the day says of tank, dip tube, return, vent and cushion.

use super::rule::Ends;
use super::{Asked, Found, least, state};
use crate::coolant::defaults as usual;
use crate::day::{Drive, Event, EventKind, ExtremeOf, Sample};
use crate::quantity::si::{Length, Mass, Ratio, Volume};
use crate::quantity::{Amount, Kind, Measured};
use crate::say;
use crate::study::answers::day::worst;
use crate::study::answers::tell::day::{LOST, SEEN, back, litres as small_litres, mass};
use crate::study::{Sentence, State, TankArrangement};

fn litres(value: f64) -> Amount {
    small_litres(Volume::from_base(value))
}

/// Coolant a drive lost for good, kg.
fn lost(drive: &Drive) -> f64 {
    drive.samples.last().map_or(0.0, |end| end.lost.base())
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

/// When the tube's end first comes out of the liquid.
fn uncovered(drive: &Drive) -> Option<Event> {
    drive.events.iter().find(|event| matches!(event.kind, EventKind::TubeUncovered)).copied()
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
        let boiled = |drive: &Drive| spilled(drive).is_none() && lost(drive) > LOST;
        let (boils, pushed_boils) = (boiled(&self.day.drive), boiled(&self.day.unfavourable));
        let words = |room: f64, drive: &Drive| {
            if boiled(drive) {
                say!["boils over: ", mass(Mass::from_base(lost(drive))), " is lost as steam"]
            } else if room >= 0.0 {
                say![litres(room), " to spare"]
            } else {
                say![litres(-room), " too small"]
            }
        };
        let unfavourable_room = if over > 0.0 { -over } else { capacity - high };
        let (pushed, low) = (
            words(unfavourable_room, &self.day.unfavourable),
            if pushed_boils { f64::NEG_INFINITY } else { unfavourable_room },
        );
        if let Some((lost, event)) = spilled(&self.day.drive) {
            return Some(Found {
                state: State::DoesNotHold,
                margin: say!["spills ", litres(lost)],
                pushed,
                ends: Ends::of(-lost, low),
                when: self.event_at(event),
                mend: Some(say!["a tank of ", litres(capacity + lost.max(over)), " or more, by this day"]),
            });
        }
        Some(Found {
            state: state(!boils, over <= SEEN && !pushed_boils),
            margin: words(capacity - likely, &self.day.drive),
            pushed,
            ends: Ends::of(if boils { f64::NEG_INFINITY } else { capacity - likely }, low),
            when: self.day.moment(full),
            mend: if boils || pushed_boils {
                Some(say!["stop the boiling first: see the radiator"])
            } else {
                (over > SEEN).then(|| say!["a tank of ", litres(capacity + over), " or more, by this day"])
            },
        })
    }

    pub(super) fn dip_tube(&self) -> Option<Found> {
        let end = self.context.project.tank.tube_end.base();
        let cover = |drive: &Drive| {
            worst(drive, ExtremeOf::EmptyTank).and_then(|empty| Some((*empty, empty.level?.base() - end)))
        };
        let mend = || Some(say!["more coolant in the tank when cold, or a tube that ends lower"]);
        let words = |drive: &Drive| match (uncovered(drive), cover(drive)) {
            (Some(_), _) => say!["draws air at rest"],
            (None, Some((_, cover))) => {
                say![Amount::of_kind(Length::from_base(cover), Kind::Length), " of cover at rest"]
            }
            (None, None) => say!["cover not known"],
        };
        let figure = |drive: &Drive| match uncovered(drive) {
            Some(_) => Some(f64::NEG_INFINITY),
            None => cover(drive).map(|(_, cover)| cover),
        };
        let ends = Ends { likely: figure(&self.day.drive), unfavourable: figure(&self.day.unfavourable) };
        let (margin, pushed) = (words(&self.day.drive), words(&self.day.unfavourable));
        if let Some(event) = uncovered(&self.day.drive) {
            let when = self.event_at(&event);
            return Some(Found { state: State::DoesNotHold, margin, pushed, ends, when, mend: mend() });
        }
        let (empty, likely) = cover(&self.day.drive)?;
        let enough = likely >= usual::least_cover().likely().base() && uncovered(&self.day.unfavourable).is_none();
        Some(Found {
            state: state(likely > 0.0, enough),
            margin,
            pushed,
            ends,
            when: self.day.moment(&empty),
            mend: if enough { None } else { mend() },
        })
    }

    pub(super) fn comes_back(&self) -> Option<Found> {
        let most_out = |drive: &Drive| least(drive, |_| true, |sample| -sample.out.base()).map(|(at, out)| (*at, -out));
        let (most, far_out) = most_out(&self.day.drive)?;
        if self.day.arrangement != TankArrangement::RecoveryTank {
            let gone = |drive: &Drive| {
                let first = drive.samples.first().map_or(0.0, |first| first.in_tank.base());
                let most = worst(drive, ExtremeOf::FullTank).map_or(first, |full| full.in_tank.base());
                say!["loses ", litres((most - first).max(0.0))]
            };
            return Some(Found {
                state: if far_out > 0.0 { State::DoesNotHold } else { State::Holds },
                margin: gone(&self.day.drive),
                pushed: gone(&self.day.unfavourable),
                ends: Ends::default(),
                when: self.day.moment(&most),
                mend: None,
            });
        }
        let pushed = returned(&self.day.unfavourable, &most_out(&self.day.unfavourable)?);
        let margin = returned(&self.day.drive, &(most, far_out));
        if let Some((_, event)) = drawn(&self.day.drive) {
            return Some(Found {
                state: State::DoesNotHold,
                margin,
                pushed,
                ends: Ends::default(),
                when: self.event_at(event),
                mend: Some(say!["keep the end of the dip tube under coolant: raise the cold level"]),
            });
        }
        let end = self.day.drive.samples.last()?;
        let loses = |drive: &Drive| lost(drive) > LOST;
        let holds = drawn(&self.day.unfavourable).is_none() && !loses(&self.day.unfavourable);
        let mend = if loses(&self.day.drive) {
            Some(say!["keep in the tank what comes into it: see tank volume and boiling"])
        } else {
            None
        };
        Some(Found {
            state: state(!loses(&self.day.drive), holds),
            margin,
            pushed,
            ends: Ends::default(),
            when: self.day.moment(end),
            mend,
        })
    }

    /// Pressure in a sealed tank; of a vented one the day knows none, for it does not follow the flow through the vent.
    pub(super) fn vent(&self) -> Option<Found> {
        let vent = self.answers.tank.vent.as_ref().filter(|vent| vent.sealed)?;
        let allowed = vent.allowed.likely.base();
        let likely = worst(&self.day.drive, ExtremeOf::TankPressure)?;
        let high = worst(&self.day.unfavourable, ExtremeOf::TankPressure)?;
        Some(Found {
            state: state(likely.tank_gauge.base() <= allowed, high.tank_gauge.base() <= allowed),
            margin: say![Amount::of(likely.tank_gauge), " in the tank"],
            pushed: say![Amount::of(high.tank_gauge), " in the tank"],
            ends: Ends::of(-likely.tank_gauge.base(), -high.tank_gauge.base()),
            when: self.day.moment(likely),
            mend: None,
        })
    }

    /// A header tank's cap should stay shut.
    pub(super) fn cushion(&self) -> Option<Found> {
        let event =
            |drive: &Drive| drive.events.iter().find(|event| matches!(event.kind, EventKind::CapOpens { .. })).copied();
        let opens = |drive: &Drive| event(drive).is_some() || drive.trifles.outward > 0;
        let words = |drive: &Drive, high: &Sample| {
            let gauge = Amount::of(high.gauge);
            if opens(drive) {
                say!["the cap opens at ", gauge]
            } else {
                say!["at most ", gauge, ", the cap stays shut"]
            }
        };
        let high = worst(&self.day.drive, ExtremeOf::Pressure)?;
        let pushed = worst(&self.day.unfavourable, ExtremeOf::Pressure)?;
        let opening = self.answers.coolant.cap_opening;
        Some(Found {
            state: state(!opens(&self.day.drive), !opens(&self.day.unfavourable)),
            margin: words(&self.day.drive, high),
            pushed: words(&self.day.unfavourable, pushed),
            ends: Ends::of(opening.likely.base() - high.gauge.base(), opening.low.base() - pushed.gauge.base()),
            when: event(&self.day.drive).map_or_else(|| self.day.moment(high), |event| self.event_at(&event)),
            mend: None,
        })
    }
}

/// What came back in a drive, from where most was out (kg).
fn returned(drive: &Drive, (_, far_out): &(Sample, f64)) -> Sentence {
    if let Some((air, _)) = drawn(drive) {
        return say!["draws ", litres(air), " of air instead of coolant"];
    }
    let Some(end) = drive.samples.last() else { return say!["not known"] };
    let words = say![back(*far_out, end.out.base()), " of what went out is back, coolant at ", Amount::of(end.coolant)];
    if lost(drive) > LOST {
        say![words, ", but ", mass(Mass::from_base(lost(drive))), " is lost for good"]
    } else {
        words
    }
}
