//! Whether energy and coolant close at the end of a day.

use super::DayError;
use super::body::Body;
use super::flow::at;
use super::record::{Closures, Extreme, ExtremeOf, Sample};
use super::settle::Now;
use crate::quantity::si::{Energy, Mass, Ratio};
use crate::quantity::{Amount, Kind, Measured};
use crate::scribe::{Scribe, Step};
use crate::source::DEFINITION;

/// Turning over less heat than this (J) the day is too quiet for a share to mean anything.
const QUIET: f64 = 1e3;

/// The state a day begins with, as the books keep it.
pub(super) struct Opening {
    energy: f64,
    coolant: f64,
    /// Enthalpy of the coolant at the beginning, from which what is lost counts, J/kg.
    enthalpy: f64,
    lost: f64,
    lost_energy: f64,
    tank_heat: f64,
}

impl Opening {
    pub fn new(body: &Body<'_>, now: &Now) -> Result<Self, DayError> {
        Ok(Self {
            energy: now.energy(body),
            coolant: now.coolant(body)?,
            enthalpy: body.enthalpy(now.y[at::ENGINE]),
            lost: now.charge.lost,
            lost_energy: now.charge.lost_energy,
            tank_heat: now.charge.tank_heat,
        })
    }

    /// In − out − stored over what was turned over; and start − end − lost over start.
    pub fn close(
        &self,
        body: &Body<'_>,
        now: &Now,
        steps: u32,
        rejected: u32,
        scribe: &mut impl Scribe,
    ) -> Result<Closures, DayError> {
        let lost = now.charge.lost - self.lost;
        // Coolant that is gone took its enthalpy above that of the beginning; what it had then is neither heat nor loss.
        let by_losses = now.charge.lost_energy - self.lost_energy - lost * self.enthalpy;
        let stored = now.energy(body) - self.energy + lost * self.enthalpy;
        let heat_in = now.y[at::GIVEN];
        let (by_radiator, by_heater) = (now.y[at::BY_RADIATOR], now.y[at::BY_HEATER]);
        let by_surfaces = now.y[at::BY_SURFACES] + now.charge.tank_heat - self.tank_heat;
        let out = by_radiator + by_heater + by_surfaces + by_losses;
        let turned_over = heat_in.max(by_radiator.abs() + by_heater.abs() + by_surfaces.abs()).max(QUIET);
        let energy = (heat_in - out - stored) / turned_over;
        let coolant_at_end = now.coolant(body)?;
        let coolant = (self.coolant - coolant_at_end - lost) / self.coolant;
        let joules = |value: f64| Amount::new(value, Kind::Energy);
        scribe.step(|| {
            let equation = "ε = (Q_in − Q_radiator − Q_heater − Q_surfaces − Q_lost − ΔE)/Q_in";
            Step::new("how well the day's energy closes", "ε", equation, &DEFINITION)
                .with_amount("Q_in", joules(heat_in))
                .with_amount("Q_radiator", joules(by_radiator))
                .with_amount("Q_heater", joules(by_heater))
                .with_amount("Q_surfaces", joules(by_surfaces))
                .with_amount("Q_lost", joules(by_losses))
                .with_amount("ΔE", joules(stored))
                .gives(Ratio::from_base(energy))
        });
        scribe.step(|| {
            let equation = "δ = (m_start − m_end − m_lost)/m_start";
            Step::new("how well the day's coolant closes", "δ", equation, &DEFINITION)
                .with("m_start", Mass::from_base(self.coolant))
                .with("m_end", Mass::from_base(coolant_at_end))
                .with("m_lost", Mass::from_base(lost))
                .gives(Ratio::from_base(coolant))
        });
        Ok(Closures {
            heat_in: Energy::from_base(heat_in),
            by_radiator: Energy::from_base(by_radiator),
            by_heater: Energy::from_base(by_heater),
            by_surfaces: Energy::from_base(by_surfaces),
            by_losses: Energy::from_base(by_losses),
            stored: Energy::from_base(stored),
            energy: Ratio::from_base(energy),
            coolant_at_start: Mass::from_base(self.coolant),
            coolant_at_end: Mass::from_base(coolant_at_end),
            lost: Mass::from_base(lost),
            coolant: Ratio::from_base(coolant),
            steps,
            rejected,
        })
    }
}

/// The worst of each among the samples, the first of equals.
pub(super) fn extremes(samples: &[Sample]) -> Vec<Extreme> {
    let of = |of: ExtremeOf, value: fn(&Sample) -> f64| {
        let mut best: Option<(usize, f64)> = None;
        for (number, sample) in samples.iter().enumerate() {
            let value = value(sample);
            if best.is_none_or(|(_, found)| value > found) {
                best = Some((number, value));
            }
        }
        best.map(|(sample, _)| Extreme { of, sample })
    };
    [
        of(ExtremeOf::Coolant, |s| s.coolant.base()),
        of(ExtremeOf::Metal, |s| s.metal.base()),
        of(ExtremeOf::Oil, |s| s.oil.base()),
        of(ExtremeOf::Pressure, |s| s.gauge.base()),
        of(ExtremeOf::Depression, |s| -s.gauge.base()),
        of(ExtremeOf::FullTank, |s| s.in_tank.base()),
        of(ExtremeOf::EmptyTank, |s| -s.in_tank.base()),
        of(ExtremeOf::Margin, |s| -s.margin.base()),
        of(ExtremeOf::TankPressure, |s| s.tank_gauge.base()),
    ]
    .into_iter()
    .flatten()
    .collect()
}
