//! How far a balance is from its borders: the air at which one ruler gives way to the next, and the heat to spare.

use super::{AMBIENT_TEMPERATURE, Balance, DATA_END, Prepared, kelvin};
use crate::heat::fan::FanSwitch;
use crate::heat::{Airflow, HeatError, Ruler};
use crate::quantity::Measured;
use crate::quantity::si::{Power, ThermodynamicTemperature, Velocity};
use crate::scribe::Silent;

/// Temperatures closer than this are one, K: an ambient is found to a millionth.
const TOLERANCE: f64 = 1e-4;

/// Where, in warmer and warmer air, one ruler of the temperature gives way to the next, whatever the air is now.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Reserve {
    /// The air at which the thermostat begins to open, t_a = t_set − Q/UA_loss; in colder air losses alone rule. `None`
    /// without losses, or when it opens even at −50 °C.
    pub opens_at: Option<ThermodynamicTemperature>,
    /// The hottest air in which the thermostat still rules: it is just wide open there. `None` when not even at −50 °C.
    pub holds_to: Option<ThermodynamicTemperature>,
    /// The hottest air in which the temperature still settles below the limit. `None` when not even at −50 °C.
    pub settles_to: Option<ThermodynamicTemperature>,
    /// The temperature at which the thermostat gives way: wide open, or the limit if that is cooler.
    pub gives_way_at: ThermodynamicTemperature,
    /// The limit: the ceiling, or the end of the coolant's data.
    pub limit: ThermodynamicTemperature,
    /// Heat that could still be added before the thermostat gives way, in the air as it is; negative when it has.
    pub spare: Power,
    /// The same before the limit is reached.
    pub spare_to_limit: Power,
}

/// What leaves the engine through the wide open radiator and its own surface.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Capacity {
    /// With the coolant just hot enough to have the thermostat wide open; `None` when the limit is cooler than that.
    pub full_open: Option<Power>,
    /// With the coolant at the limit, the thermostat held wide open.
    pub limit: Power,
}

impl Balance {
    /// The borders between the rulers and the heat to spare, whether or not it settles in the air as it is. The airflow's
    /// fan velocity is that of the running fan; a switched one runs where the border is hot enough to have it on.
    ///
    /// # Errors
    /// As [`Balance::solve`]; a switch out of range.
    pub fn reserve(&self, fan: Option<&FanSwitch>) -> Result<Reserve, HeatError> {
        let running = self.reserve_as_it_is()?;
        let Some(switch) = fan else { return Ok(running) };
        switch.check()?;
        let without = self.without_fan().reserve_as_it_is()?;
        let limit = if running.limit >= switch.on { &running } else { &without };
        let (holds, spare) = if running.gives_way_at >= switch.on {
            (&running, &running)
        } else if running.gives_way_at >= switch.off {
            // Wide open between the switch's two temperatures: the fan runs there once hotter coolant has turned it on.
            let stays_on = |air| Self { ambient_temperature: air, ..*self }.keeps_fan_on(switch);
            let holds = match running.holds_to {
                Some(air) if AMBIENT_TEMPERATURE.check(air).is_ok() && stays_on(air)? => &running,
                _ => &without,
            };
            (holds, if self.keeps_fan_on(switch)? { &running } else { &without })
        } else {
            (&without, &without)
        };
        Ok(Reserve {
            opens_at: without.opens_at,
            holds_to: holds.holds_to,
            spare: spare.spare,
            settles_to: limit.settles_to,
            spare_to_limit: limit.spare_to_limit,
            ..running
        })
    }

    /// Whether the coolant, coming from cold, turns the fan on and then settles where it keeps it on, or not at all.
    fn keeps_fan_on(&self, switch: &FanSwitch) -> Result<bool, HeatError> {
        let without = self.without_fan().outlet_temperature()?;
        let comes_on = without.map_or(self.ceiling.base().min(DATA_END) > switch.on.base(), |t| t >= switch.on);
        Ok(comes_on && self.outlet_temperature()?.is_none_or(|t| t.base() >= switch.off.base() - TOLERANCE))
    }

    fn reserve_as_it_is(&self) -> Result<Reserve, HeatError> {
        let mut prepared = Prepared::new(self, &mut Silent)?;
        let (hold, limit, set) = (prepared.hold, prepared.limit, self.thermostat.set_point.base());
        let holds_to = prepared.hottest_ambient(hold)?;
        let settles_to = if limit.t > hold.t { prepared.hottest_ambient(limit)? } else { holds_to };
        let opens_at = set - prepared.heat / prepared.loss;
        let known = prepared.loss > 0.0 && set < limit.t && opens_at >= AMBIENT_TEMPERATURE.low;
        Ok(Reserve {
            opens_at: known.then(|| kelvin(opens_at)),
            holds_to: holds_to.map(kelvin),
            settles_to: settles_to.map(kelvin),
            gives_way_at: kelvin(hold.t),
            limit: kelvin(limit.t),
            spare: Power::from_base(hold.excess),
            spare_to_limit: Power::from_base(limit.excess),
        })
    }

    /// The same with a fan that stands still.
    #[must_use]
    pub fn without_fan(&self) -> Self {
        Self { airflow: Airflow { fan_velocity: Velocity::from_base(0.0), ..self.airflow }, ..*self }
    }

    /// The air in which the coolant settles at a temperature, the fan running; `None` when not even at −50 °C, or where the
    /// temperature lies outside the thermostat's setting and the limit.
    ///
    /// # Errors
    /// As [`Balance::solve`].
    pub fn air_for(&self, coolant: ThermodynamicTemperature) -> Result<Option<ThermodynamicTemperature>, HeatError> {
        let mut prepared = Prepared::new(self, &mut Silent)?;
        let t = coolant.base();
        if t <= self.thermostat.set_point.base() || t > prepared.limit.t {
            return Ok(None);
        }
        let opening = prepared.opening(t);
        let excess = prepared.excess(t, opening)?;
        let wide_open = prepared.excess(t, 1.0)?;
        let properties = prepared.core.coolant(&self.mix, coolant, &mut Silent)?;
        let at = super::At { t, coolant: properties, opening, excess, wide_open };
        Ok(prepared.hottest_ambient(at)?.map(kelvin))
    }

    /// What the wide open radiator and the engine's surface carry in the air as it is, the fan running.
    ///
    /// # Errors
    /// As [`Balance::solve`].
    pub fn capacity(&self) -> Result<Capacity, HeatError> {
        let prepared = Prepared::new(self, &mut Silent)?;
        let (hold, limit) = (prepared.hold, prepared.limit);
        let carried = |excess: f64| Power::from_base(excess + prepared.heat);
        Ok(Capacity { full_open: (hold.t < limit.t).then(|| carried(hold.wide_open)), limit: carried(limit.wide_open) })
    }

    /// Where the temperature settles and who sets it, for sampling: a few microseconds. `None` when it does not settle. A
    /// switched fan does what [`crate::heat::fan::solve_with_fan`] says of it.
    ///
    /// # Errors
    /// As [`Balance::solve`].
    pub fn settles(&self, fan: Option<&FanSwitch>) -> Result<Option<(ThermodynamicTemperature, Ruler)>, HeatError> {
        let settled = |balance: &Self| -> Result<_, HeatError> {
            Ok(Prepared::new(balance, &mut Silent)?.settle()?.map(|(t, ruler)| (kelvin(t), ruler)))
        };
        let Some(FanSwitch { on, off }) = fan else { return settled(self) };
        let without = settled(&self.without_fan())?;
        match without {
            Some((t, _)) if t < *on => return Ok(without),
            // It boils before the fan comes on.
            None if self.ceiling.base().min(DATA_END) <= on.base() => return Ok(None),
            _ => {}
        }
        let running = settled(self)?;
        if running.is_none_or(|(t, _)| t >= *off) {
            return Ok(running);
        }
        // On and off in turn: the hot end.
        let open = self.thermostat.full_open() <= *on;
        Ok(Some((*on, if open { Ruler::RadiatorRules } else { Ruler::ThermostatRules })))
    }
}
