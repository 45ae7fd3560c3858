//! A fan that the coolant's temperature turns on and off, and a thermostat on its way down.

use super::super::airflow::FAN_VELOCITY;
use super::super::thermostat::{CLOSING_LAG, Thermostat};
use super::super::{Airflow, Balance, HeatError, Outcome};
use crate::numeric::bracketed_root;
use crate::quantity::si::{TemperatureInterval, ThermodynamicTemperature, Velocity};
use crate::quantity::{Amount, Kind, Measured, Range};
use crate::scribe::{Scribe, Silent, Step};
use crate::source::heat as source;

/// Temperatures at which a fan may be switched.
pub const SWITCHES_AT: Range = Range::new(
    "temperature at which the fan is switched",
    Kind::Temperature,
    293.15,
    413.15,
    "read it on the switch; about 10 K above the thermostat's setting is usual",
);

/// A switch in the coolant at the engine's outlet or the radiator's inlet.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct FanSwitch {
    /// The fan comes on when the coolant has warmed to this.
    pub on: ThermodynamicTemperature,
    /// And goes off when it has cooled to this.
    pub off: ThermodynamicTemperature,
}

/// What a switched fan does in the long run.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum FanState {
    /// It is not switched: it runs as it is driven, or there is none.
    NotSwitched,
    /// The coolant settles without it, below where it comes on.
    Off {
        /// Where it would settle with the fan left on by hotter running before, if that is above where it goes off.
        or_on_at: Option<ThermodynamicTemperature>,
    },
    /// It boils before the coolant is hot enough to turn it on.
    TooLate,
    /// It runs on.
    On,
    /// It goes on and off: without it the coolant grows too hot, with it too cool. The temperature given is the hot end.
    Cycles {
        /// Where it would settle with the fan on.
        on_at: Option<ThermodynamicTemperature>,
    },
}

impl FanState {
    /// Whether it goes on and off in turn, so that its switch sets the temperature.
    #[must_use]
    pub const fn cycles(&self) -> bool {
        matches!(self, Self::Cycles { .. })
    }
}

impl FanSwitch {
    /// Passes the switch through if both temperatures lie in range and it goes off below where it comes on.
    ///
    /// # Errors
    /// A temperature out of range, or off not below on.
    pub fn check(&self) -> Result<&Self, HeatError> {
        SWITCHES_AT.check(self.on)?;
        SWITCHES_AT.check(self.off)?;
        if self.off >= self.on {
            return Err(HeatError::NotWarmer {
                what: "the temperature at which the fan comes on",
                than: "that at which it goes off",
                value: Amount::of(self.on),
                other: Amount::of(self.off),
            });
        }
        Ok(self)
    }
}

/// Solves a balance whose fan may be switched; the airflow's fan velocity is that of the running fan. Without a switch it is
/// [`Balance::solve`].
///
/// Coming from cold the fan is off, and stays off if the coolant settles below `on`. Else it comes on: the coolant
/// settles with it at or above `off`, or it goes on and off in turn. Then the answer is the hot end of the turn, `on`, with
/// the fan's mean velocity that holds it there. What is in hand at the thermostat wide open and at the limit is
/// [`Balance::reserve`]'s: reckoned with the fan where those are hot enough to have it on.
///
/// # Errors
/// As [`Balance::solve`]; a switch out of range.
pub fn solve_with_fan(
    balance: &Balance,
    switch: Option<&FanSwitch>,
    scribe: &mut impl Scribe,
) -> Result<(Outcome, FanState), HeatError> {
    let Some(switch) = switch else { return Ok((balance.solve(scribe)?, FanState::NotSwitched)) };
    switch.check()?;
    let running = FAN_VELOCITY.check(balance.airflow.fan_velocity)?.base();
    let at = |velocity: f64| Balance {
        airflow: Airflow { fan_velocity: Velocity::from_base(velocity), ..balance.airflow },
        ..*balance
    };
    let (on, off) = (switch.on, switch.off);
    let without = at(0.0);
    let settles = without.outlet_temperature()?;
    scribe.step(|| {
        Step::new(
            "Coolant temperature with the fan off (the limit if it does not settle)",
            "t_off",
            "Q = Q_rad(t_off, s(t_off))",
            &source::FAN_SWITCH,
        )
        .with("t_on", on)
        .gives(settles.unwrap_or(balance.ceiling))
    });
    if let Some(settled) = settles.filter(|t| *t < on) {
        let outcome = without.solve(scribe)?;
        let with_fan = balance.outlet_temperature()?;
        let or_on_at = with_fan.filter(|t| *t >= off && *t < settled);
        return Ok((in_hand(outcome, balance, switch)?, FanState::Off { or_on_at }));
    }
    if settles.is_none() {
        let outcome = without.solve(&mut Silent)?;
        if let Outcome::None(none) = &outcome
            && none.limit <= on
        {
            return Ok((without.solve(scribe)?, FanState::TooLate));
        }
    }
    let with_fan = balance.outlet_temperature()?;
    if with_fan.is_none_or(|t| t >= off) {
        return Ok((in_hand(balance.solve(scribe)?, balance, switch)?, FanState::On));
    }
    // Hotter than `on` without the fan, cooler than `off` with it: some mean velocity between holds it at `on`.
    let above = |velocity: f64| {
        let found = at(velocity).outlet_temperature();
        // Where it does not settle it is hotter than the limit, which lies above `on`.
        found.map_or(f64::NAN, |t| t.map_or(1.0 + balance.ceiling.base().max(on.base()), Measured::base) - on.base())
    };
    let mean = bracketed_root(above, 0.0, running, 1e-12)?.at;
    scribe.step(|| {
        Step::new(
            "Fan velocity, mean over its turns, that holds the hot end",
            "v_fan",
            "Q = Q_rad(t_on, s(t_on), v_fan)",
            &source::FAN_SWITCH,
        )
        .with("t_on", on)
        .with("t_off", off)
        .gives_amount(Amount::new(mean, Kind::GasSpeed))
    });
    let outcome = at(mean).solve(scribe)?;
    Ok((in_hand(outcome, balance, switch)?, FanState::Cycles { on_at: with_fan }))
}

/// The outcome with what is in hand reckoned with the fan running where it would run, and without it else.
fn in_hand(outcome: Outcome, balance: &Balance, switch: &FanSwitch) -> Result<Outcome, HeatError> {
    let Outcome::Steady(mut state) = outcome else { return Ok(outcome) };
    let reserve = balance.reserve(Some(switch))?;
    state.radiator_spare = reserve.spare;
    state.hottest_ambient_thermostat_rules = reserve.holds_to;
    state.spare_to_limit = reserve.spare_to_limit;
    state.hottest_ambient = reserve.settles_to;
    Ok(Outcome::Steady(state))
}

/// The same balance with the thermostat on its way down: it closes `lag` below where it opens.
///
/// After hotter running the coolant settles there; from cold it settles at the balance's own temperature. In between it
/// may stand anywhere, the thermostat not moving.
///
/// # Errors
/// A lag out of range.
pub fn cooling_branch(
    balance: &Balance,
    lag: TemperatureInterval,
    scribe: &mut impl Scribe,
) -> Result<Balance, HeatError> {
    let lag = CLOSING_LAG.check(lag)?;
    let set_point = ThermodynamicTemperature::from_base(balance.thermostat.set_point.base() - lag.base());
    scribe.step(|| {
        Step::new("Setting on the way down", "t_set", "t_set = t_open − Δt_lag", &source::THERMOSTAT_SPAN)
            .with("t_open", balance.thermostat.set_point)
            .with("Δt_lag", lag)
            .gives(set_point)
    });
    Ok(Balance { thermostat: Thermostat { set_point, ..balance.thermostat }, ..*balance })
}
