//! What happened in a day, a sentence each.

use super::{SEEN, clock, lasting, litres};
use crate::day::{Drive, Event, EventKind};
use crate::quantity::si::{Time, Volume};
use crate::quantity::{Amount, Kind, Measured};
use crate::say;
use crate::study::{DayAnswers, Section, Sentence, TankArrangement};

impl EventKind {
    /// Its key for programs.
    #[must_use]
    pub const fn key(self) -> &'static str {
        match self {
            Self::EngineStarts => "engine_starts",
            Self::EngineStops => "engine_stops",
            Self::ThermostatOpens => "thermostat_opens",
            Self::ThermostatShuts => "thermostat_shuts",
            Self::FanOn => "fan_on",
            Self::FanOff => "fan_off",
            Self::CapOpens { .. } => "cap_opens",
            Self::VacuumValveOpens { .. } => "vacuum_valve_opens",
            Self::TubeUncovered => "tube_uncovered",
            Self::TankSpills { .. } => "tank_spills",
            Self::PassageBoils { .. } => "passage_boils",
            Self::CoolantBoils { .. } => "coolant_boils",
            Self::OilWarm => "oil_warm",
        }
    }

    /// When it ends, if it lasts.
    #[must_use]
    pub const fn until(self) -> Option<Time> {
        match self {
            Self::CapOpens { until, .. }
            | Self::VacuumValveOpens { until, .. }
            | Self::TankSpills { until, .. }
            | Self::PassageBoils { until }
            | Self::CoolantBoils { until, .. } => Some(until),
            _ => None,
        }
    }

    /// Whether coolant or its hold on the heat is lost by it, or air comes in where coolant should.
    #[must_use]
    pub const fn is_grave(self) -> bool {
        matches!(
            self,
            Self::TubeUncovered | Self::TankSpills { .. } | Self::PassageBoils { .. } | Self::CoolantBoils { .. }
        )
    }

    /// Whether it is the ordinary working of a part, or so little passes a valve that nobody need know.
    #[must_use]
    pub fn is_slight(self) -> bool {
        match self {
            Self::ThermostatOpens | Self::ThermostatShuts | Self::FanOn | Self::FanOff | Self::OilWarm => true,
            Self::CapOpens { coolant, air, .. } | Self::VacuumValveOpens { coolant, air, .. } => {
                coolant.base() < SLIGHT && air.base() < SLIGHT
            }
            _ => false,
        }
    }
}

/// What passes a valve at one opening and is not worth a second look, m³: 20 mL, a spoonful.
const SLIGHT: f64 = 2e-5;

/// Coolant that the tank of a drive spilled.
pub(super) fn spilled(drive: &Drive) -> Volume {
    let all = drive.events.iter().filter_map(|event| match event.kind {
        EventKind::TankSpills { coolant, .. } => Some(coolant.base()),
        _ => None,
    });
    Volume::from_base(all.sum())
}

/// Air that the vacuum valve let in.
pub(super) fn air_drawn(drive: &Drive) -> Volume {
    let all = drive.events.iter().filter_map(|event| match event.kind {
        EventKind::VacuumValveOpens { air, .. } => Some(air.base()),
        _ => None,
    });
    Volume::from_base(all.sum())
}

pub(super) fn first_spill(drive: &Drive) -> Option<&Event> {
    drive.events.iter().find(|event| matches!(event.kind, EventKind::TankSpills { .. }))
}

impl DayAnswers {
    pub(super) fn events_section(&self) -> Section {
        let mut section = Section::new("day_events", "What happened");
        for (i, event) in self.drive.events.iter().enumerate() {
            section.words(&format!("event_{}", i + 1), &clock(event.time), self.event_words(event));
        }
        if let Some(words) = self.trifles_words() {
            section.words("trifles", "Besides", words);
        }
        section
    }

    /// Openings of the cap too small to be listed, all together.
    #[must_use]
    pub fn trifles_words(&self) -> Option<Sentence> {
        let trifles = &self.drive.trifles;
        if (trifles.out + trifles.back).base() <= SEEN {
            return None;
        }
        let told = |times: u32, what: &str, volume: Volume| {
            let often = if times == 1 { " once".to_owned() } else { format!(" {times} times") };
            (times > 0).then(|| say![what, often, ", ", litres(volume), " in all"])
        };
        let outward = told(trifles.outward, "the cap opens a little", trifles.out);
        let inward = told(trifles.inward, "the vacuum valve opens a little", trifles.back);
        match (outward, inward) {
            (Some(outward), Some(inward)) => Some(say![outward, "; ", inward]),
            (one, other) => one.or(other),
        }
    }

    /// An event with its time: "0:41: the cap lets 0.3 L of coolant to the tank over 13 min".
    #[must_use]
    pub fn event_says(&self, event: &Event) -> Sentence {
        say![clock(event.time), ": ", self.event_words(event)]
    }

    /// An event without its time.
    #[must_use]
    pub fn event_words(&self, event: &Event) -> Sentence {
        let begun = event.time;
        match event.kind {
            EventKind::EngineStarts => say!["the engine starts"],
            EventKind::EngineStops => say!["the engine stops"],
            EventKind::ThermostatOpens => say!["the thermostat begins to open"],
            EventKind::ThermostatShuts => say!["the thermostat is shut again"],
            EventKind::FanOn => say!["the fan is switched on"],
            EventKind::FanOff => say!["the fan is switched off"],
            EventKind::CapOpens { until, coolant, air, .. } => {
                let to = match self.arrangement {
                    TankArrangement::RecoveryTank => " to the tank",
                    TankArrangement::CatchOnly => " to the can",
                    TankArrangement::HeaderTank => " out of the overflow",
                };
                say!["the cap lets ", passed(coolant, air), to, " over ", lasting(begun, until)]
            }
            EventKind::VacuumValveOpens { until, coolant, air, .. } => {
                let from = if self.arrangement == TankArrangement::RecoveryTank { " from the tank" } else { "" };
                say!["the vacuum valve lets ", passed(coolant, air), " in", from, " over ", lasting(begun, until)]
            }
            EventKind::TubeUncovered => say!["the end of the dip tube comes out of the coolant: air is drawn in"],
            EventKind::TankSpills { until, coolant } => {
                say!["the tank is full and spills ", litres(coolant), " in ", lasting(begun, until)]
            }
            EventKind::PassageBoils { until } => {
                say!["the hottest passage boils for ", lasting(begun, until)]
            }
            EventKind::CoolantBoils { until, vapour, blown_out } => say![
                "the coolant boils for ",
                lasting(begun, until),
                ": ",
                Amount::of_kind(vapour, Kind::SmallMass),
                " of vapour, ",
                Amount::of_kind(blown_out, Kind::SmallMass),
                " of it blown out"
            ],
            EventKind::OilWarm => say!["the oil is warm"],
        }
    }
}

/// What passed a valve; what nobody would see is not told.
fn passed(coolant: Volume, air: Volume) -> Sentence {
    let told = |volume: Volume| volume.base() > SEEN;
    match (told(coolant), told(air)) {
        (true, true) => say![litres(coolant), " of coolant and ", litres(air), " of air"],
        (true, false) => say![litres(coolant), " of coolant"],
        (false, true) => say![litres(air), " of air"],
        (false, false) => say!["a little coolant and air"],
    }
}
