//! The heat balance: where the coolant temperature settles, and who sets it.

mod reserve;

pub use reserve::{Capacity, Reserve};

use super::core::{Air, Coolant, Core};
use super::outcome::{Closure, Limit, NoSteadyState, Outcome, Reason, Ruler, SteadyState};
use super::radiator::RadiatorDuty;
use super::warm_up::{HEAT, LOSS};
use super::{Airflow, HeatError, Pump, Radiator, Thermostat};
use crate::fluid::Mix;
use crate::numeric::{Root, RootError, bracketed_root};
use crate::quantity::si::{
    AngularVelocity, Power, Ratio, TemperatureInterval, ThermalConductance, ThermodynamicTemperature, Velocity,
    VolumeRate,
};
use crate::quantity::{AbsolutePressure, Amount, Kind, Measured, Range, ZERO_CELSIUS};
use crate::scribe::{Scribe, Silent, Step};
use crate::source::DEFINITION;

/// Ambient temperatures.
pub const AMBIENT_TEMPERATURE: Range =
    Range::new("ambient temperature", Kind::Temperature, 223.15, 343.15, "give the air temperature, −50 to 70 °C");
/// Ceilings.
pub const CEILING: Range = Range::new(
    "highest coolant temperature allowed",
    Kind::Temperature,
    313.15,
    473.15,
    "give the boiling point at the pressure in the engine less an allowance",
);
/// The hottest coolant its data reach, K.
const DATA_END: f64 = ZERO_CELSIUS + 130.0;
/// The coldest, K.
const DATA_START: f64 = ZERO_CELSIUS - 40.0;
/// Argument tolerance of the solver for the coolant temperature, K.
const TOLERANCE: f64 = 1e-9;
/// And for the hottest ambient, K.
const AMBIENT_TOLERANCE: f64 = 1e-6;

/// Everything that decides the coolant temperature.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Balance {
    /// The radiator.
    pub radiator: Radiator,
    /// The thermostat.
    pub thermostat: Thermostat,
    /// The pump.
    pub pump: Pump,
    /// Engine speed, which drives the pump.
    pub engine_speed: AngularVelocity,
    /// The air through the radiator.
    pub airflow: Airflow,
    /// The coolant.
    pub mix: Mix,
    /// Ambient pressure.
    pub ambient_pressure: AbsolutePressure,
    /// Ambient temperature; recirculation comes on top.
    pub ambient_temperature: ThermodynamicTemperature,
    /// Heat to the coolant.
    pub heat: Power,
    /// Conductance from the engine's surface to the ambient air; 0 to leave it out, which errs to the hot side.
    pub engine_loss: ThermalConductance,
    /// The temperature it must settle below: the boiling point less an allowance. The coolant's data end at 130 °C, so
    /// a higher ceiling acts as that.
    pub ceiling: ThermodynamicTemperature,
}

/// A temperature at which the balance is known.
#[derive(Clone, Copy)]
struct At {
    /// K.
    t: f64,
    coolant: Coolant,
    opening: f64,
    /// Heat carried and lost beyond the heat given, W.
    excess: f64,
    /// The same with the thermostat wide open, W.
    wide_open: f64,
}

/// The balance in plain numbers, checked.
struct Prepared<'a> {
    balance: &'a Balance,
    core: Core,
    air: Air,
    face_velocity: Velocity,
    inlet_air: ThermodynamicTemperature,
    /// Coolant flow with the thermostat wide open, m³/s.
    full_flow: f64,
    /// W.
    heat: f64,
    /// W/K.
    loss: f64,
    /// K.
    ambient: f64,
    limit: At,
    limit_by: Limit,
    /// Where the thermostat is wide open, or the limit if that is cooler.
    hold: At,
    evaluations: u32,
}

impl Balance {
    /// Solves Q = Q_radiator(t, s(t)) + UA_loss·(t − t_a) for the outlet temperature t, where s is the thermostat's
    /// opening, and for the temperature t_full that holds with s = 1.
    ///
    /// The right side rises with t, so there is one answer or none. When even at the limit less than Q is carried
    /// the outcome is [`NoSteadyState`] with the deficit there. When the losses alone hold the engine below the
    /// thermostat's setting it runs cold, [`Ruler::LossesRule`].
    ///
    /// # Errors
    /// An input out of range; a coolant frozen at the temperatures met; a balance that does not close.
    pub fn solve(&self, scribe: &mut impl Scribe) -> Result<Outcome, HeatError> {
        Prepared::new(self, scribe)?.outcome(scribe)
    }

    /// The outlet temperature alone, for sampling: a few microseconds. `None` when there is no steady state.
    ///
    /// # Errors
    /// As [`Balance::solve`].
    pub fn outlet_temperature(&self) -> Result<Option<ThermodynamicTemperature>, HeatError> {
        Ok(Prepared::new(self, &mut Silent)?.settle()?.map(|(t, _)| kelvin(t)))
    }
}

fn kelvin(base: f64) -> ThermodynamicTemperature {
    ThermodynamicTemperature::from_base(base)
}

impl<'a> Prepared<'a> {
    fn new(balance: &'a Balance, scribe: &mut impl Scribe) -> Result<Self, HeatError> {
        balance.thermostat.check()?;
        let ambient = AMBIENT_TEMPERATURE.check(balance.ambient_temperature)?.base();
        let heat = HEAT.check(balance.heat)?.base();
        let loss = LOSS.check(balance.engine_loss)?.base();
        let ceiling = CEILING.check(balance.ceiling)?.base();
        let face_velocity = balance.airflow.face_velocity(scribe)?;
        let inlet_air = balance.airflow.inlet_temperature(balance.ambient_temperature, scribe)?;
        let air = Air::new(inlet_air, balance.ambient_pressure, face_velocity, scribe)?;
        let full_flow = balance.pump.flow(balance.engine_speed, Ratio::from_base(1.0), &mut Silent)?.base();
        let (limit, limit_by) =
            if ceiling <= DATA_END { (ceiling, Limit::Ceiling) } else { (DATA_END, Limit::FluidData) };
        let core = Core::new(&balance.radiator)?;
        let at = |t: f64| -> Result<At, HeatError> {
            let coolant = core.coolant(&balance.mix, kelvin(t), &mut Silent)?;
            let opening = balance.thermostat.opening_base(t);
            let excess = |s: f64| {
                core.carried(&coolant, full_flow * balance.thermostat.passed_base(s), &air).heat + loss * (t - ambient)
                    - heat
            };
            Ok(At { t, coolant, opening, excess: excess(opening), wide_open: excess(1.0) })
        };
        let full_open = balance.thermostat.full_open().base();
        let limit = at(limit)?;
        let hold = if full_open < limit.t { at(full_open)? } else { limit };
        Ok(Self {
            balance,
            core,
            air,
            face_velocity,
            inlet_air,
            full_flow,
            heat,
            loss,
            ambient,
            limit,
            limit_by,
            hold,
            evaluations: 0,
        })
    }

    /// Heat carried and lost beyond the heat given, W; its root is the steady state.
    fn excess(&self, t: f64, opening: f64) -> Result<f64, HeatError> {
        let coolant = self.core.coolant(&self.balance.mix, kelvin(t), &mut Silent)?;
        let carried =
            self.core.carried(&coolant, self.full_flow * self.balance.thermostat.passed_base(opening), &self.air).heat;
        Ok(carried + self.loss * (t - self.ambient) - self.heat)
    }

    fn opening(&self, t: f64) -> f64 {
        self.balance.thermostat.opening_base(t)
    }

    /// A root between two points whose values are known, so that no property is asked for twice.
    fn root(
        &mut self,
        function: impl Fn(&Self, f64) -> Result<f64, HeatError>,
        low: (f64, f64),
        high: (f64, f64),
        tolerance: f64,
    ) -> Result<f64, HeatError> {
        let mut failed = None;
        let root = bracketed_root(
            |t| match t {
                t if t == low.0 => low.1,
                t if t == high.0 => high.1,
                t => function(self, t).unwrap_or_else(|error| {
                    failed = Some(error);
                    f64::NAN
                }),
            },
            low.0,
            high.0,
            tolerance,
        );
        match (root, failed) {
            (_, Some(error)) => Err(error),
            (Ok(Root { at, evaluations, .. }), None) => {
                self.evaluations += evaluations;
                Ok(at)
            }
            (Err(error), None) => Err(error.into()),
        }
    }

    /// Where the temperature settles, in K, and who sets it; `None` when it does not below the limit.
    fn settle(&mut self) -> Result<Option<(f64, Ruler)>, HeatError> {
        let (hold, limit) = (self.hold, self.limit);
        let set = self.balance.thermostat.set_point.base();
        // Losses alone at the setting, or at a limit below it; the radiator has no flow there.
        let shut = |t: f64| self.loss * (t - self.ambient) - self.heat;
        let at_set = shut(set);
        if shut(set.min(limit.t)) >= 0.0 {
            return Ok(Some((self.ambient + self.heat / self.loss, Ruler::LossesRule)));
        }
        if limit.excess < 0.0 {
            return Ok(None);
        }
        if hold.excess < 0.0 {
            let (low, high) = ((hold.t, hold.excess), (limit.t, limit.excess));
            let t = self.root(|p, t| p.excess(t, 1.0), low, high, TOLERANCE)?;
            return Ok(Some((t, Ruler::RadiatorRules)));
        }
        // Between the setting, where nothing is carried, and wide open, where too much is.
        let high = (hold.t, hold.excess);
        let t = self.root(|p, t| p.excess(t, p.opening(t)), (set, at_set), high, TOLERANCE)?;
        Ok(Some((t, Ruler::ThermostatRules)))
    }

    fn outcome(&mut self, scribe: &mut impl Scribe) -> Result<Outcome, HeatError> {
        let Some((t, ruler)) = self.settle()? else { return Ok(Outcome::None(self.none(scribe))) };
        let full = if ruler == Ruler::RadiatorRules { Some(t) } else { self.fully_open()? };
        self.steady(t, full, ruler, scribe).map(Outcome::Steady)
    }

    /// Where the temperature settles with the thermostat always open, in K; `None` below the coolant's liquid range,
    /// and in the odd case that inlet air warmer than the limit heats the open radiator.
    fn fully_open(&mut self) -> Result<Option<f64>, HeatError> {
        let high = if self.hold.wide_open >= 0.0 { &self.hold } else { &self.limit };
        let high = (high.t, high.wide_open);
        // A strong mix has no known freezing point; its data then begin at −40 °C.
        let freezing = self.balance.mix.freezing_point(&mut Silent).map_or(DATA_START, Measured::base);
        // A hundredth of a kelvin above freezing keeps clear of the triple point of water.
        let low = self.ambient.max(freezing + 0.02).max(DATA_START);
        if low >= high.0 || high.1 < 0.0 {
            return Ok(None);
        }
        let at_low = self.excess(low, 1.0)?;
        if at_low >= 0.0 {
            return Ok(None);
        }
        self.root(|p, t| p.excess(t, 1.0), (low, at_low), high, TOLERANCE).map(Some)
    }

    /// The hottest ambient at which the heat is still carried at a coolant temperature.
    fn hottest_ambient(&mut self, at: At) -> Result<Option<f64>, HeatError> {
        let rise = self.inlet_air.base() - self.ambient;
        let excess = |p: &Self, ambient: f64| {
            let air = Air::new(kelvin(ambient + rise), p.balance.ambient_pressure, p.face_velocity, &mut Silent)?;
            let carried =
                p.core.carried(&at.coolant, p.full_flow * p.balance.thermostat.passed_base(at.opening), &air).heat;
            Ok(carried + p.loss * (at.t - ambient) - p.heat)
        };
        // One of the ends is the ambient itself, where the excess is known.
        let known = (self.ambient, at.excess);
        let (low, high) = if at.excess >= 0.0 {
            (known, (at.t, excess(self, at.t)?))
        } else {
            let coldest = AMBIENT_TEMPERATURE.low;
            ((coldest, excess(self, coldest)?), known)
        };
        if low.1 < 0.0 {
            return Ok(None);
        }
        self.root(excess, low, high, AMBIENT_TOLERANCE).map(Some)
    }

    fn none(&self, scribe: &mut impl Scribe) -> NoSteadyState {
        let power = Power::from_base;
        let (at_limit, wide_open) = (self.limit.excess, self.limit.wide_open);
        let none = NoSteadyState {
            limit: kelvin(self.limit.t),
            limit_by: self.limit_by,
            reason: if wide_open < 0.0 { Reason::RadiatorTooSmall } else { Reason::ThermostatTooLate },
            carried: power(self.heat + at_limit),
            deficit: power(-at_limit),
            deficit_wide_open: power(-wide_open),
        };
        scribe.step(|| {
            Step::new("Heat left over at the limit: no steady state", "Q − Q_rad", "Q − Q_rad(t_limit)", &DEFINITION)
                .with("Q", self.balance.heat)
                .with("t_limit", none.limit)
                .with("Q_rad", none.carried)
                .gives(none.deficit)
        });
        none
    }

    fn steady(
        &mut self,
        t: f64,
        full: Option<f64>,
        ruler: Ruler,
        scribe: &mut impl Scribe,
    ) -> Result<SteadyState, HeatError> {
        let power = Power::from_base;
        let (hold, limit) = (self.hold, self.limit);
        let hottest_ruled = self.hottest_ambient(hold)?;
        let hottest = if limit.t > hold.t { self.hottest_ambient(limit)? } else { hottest_ruled };

        let opening = match ruler {
            Ruler::LossesRule => Ratio::from_base(0.0),
            _ => self.balance.thermostat.opening(kelvin(t), scribe)?,
        };
        let passed = self.balance.thermostat.passed(opening, scribe)?;
        let flow = self.balance.pump.flow(self.balance.engine_speed, passed, scribe)?;
        let duty = self.duty(t, flow);
        let radiator = self.balance.radiator.heat(&duty, scribe)?;
        let loss = self.loss * (t - self.ambient);
        let residual = self.heat - radiator.heat.base() - loss;
        let allowed = 1e-6 * self.heat + 1e-2;
        scribe.step(|| {
            Step::new("What the balance leaves over", "ΔQ", "ΔQ = Q − Q_rad − UA_loss·(t − t_a)", &DEFINITION)
                .with("Q", self.balance.heat)
                .with("Q_rad", radiator.heat)
                .with("UA_loss", self.balance.engine_loss)
                .with("t_a", self.balance.ambient_temperature)
                .gives_amount(Amount::new(residual, Kind::Power))
        });
        scribe.step(|| {
            Step::new(
                "Coolant temperature at the engine's outlet",
                "t",
                "Q = Q_rad(t, s(t)) + UA_loss·(t − t_a)",
                &DEFINITION,
            )
            .with("Q", self.balance.heat)
            .with_amount("s", Amount::of_kind(opening, Kind::Share))
            .gives(kelvin(t))
        });
        if residual.is_nan() || residual.abs() > allowed {
            return Err(RootError::NotConverged { at: t, residual, evaluations: self.evaluations }.into());
        }
        let notes = radiator.notes.clone();
        Ok(SteadyState {
            outlet_temperature: kelvin(t),
            opening,
            ruler,
            radiator_limited: ruler == Ruler::RadiatorRules,
            fully_open_temperature: full.map(kelvin),
            radiator_spare: power(hold.excess),
            spare_to_limit: power(limit.excess),
            hottest_ambient_thermostat_rules: hottest_ruled.map(kelvin),
            hottest_ambient: hottest.map(kelvin),
            limit: kelvin(limit.t),
            limit_by: self.limit_by,
            margin: TemperatureInterval::from_base(limit.t - t),
            face_velocity: self.face_velocity,
            inlet_air: self.inlet_air,
            coolant_flow: flow,
            radiator,
            loss: power(loss),
            closure: Closure { residual: power(residual), allowed: power(allowed), evaluations: self.evaluations },
            notes,
        })
    }

    fn duty(&self, t: f64, flow: VolumeRate) -> RadiatorDuty {
        RadiatorDuty {
            mix: self.balance.mix,
            coolant_temperature: kelvin(t),
            coolant_flow: flow,
            air_temperature: self.inlet_air,
            air_pressure: self.balance.ambient_pressure,
            face_velocity: self.face_velocity,
        }
    }
}

#[cfg(test)]
#[path = "balance_tests.rs"]
mod tests;
