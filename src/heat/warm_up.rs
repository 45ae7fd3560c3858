//! How long the engine takes to warm up.

use super::HeatError;
use crate::quantity::si::{HeatCapacity, Power, ThermalConductance, ThermodynamicTemperature, Time};
use crate::quantity::{Amount, Kind, Measured, Range};
use crate::scribe::{Scribe, Step};
use crate::source::heat as source;

/// Effective heat capacities.
pub const HEAT_CAPACITY: Range =
    Range::new("effective heat capacity", Kind::HeatCapacity, 1e3, 1e7, "about 50 kJ/K for a four, 100 kJ/K for a V8");
/// Losses to the surrounding air.
pub const LOSS: Range =
    Range::new("conductance to the surrounding air", Kind::HeatConductance, 0.0, 1e4, "8 to 40 W/K is usual");
/// Heats.
pub const HEAT: Range =
    Range::new("heat to the coolant", Kind::Power, 1.0, 1e6, "a running engine gives 2 kW and more");
const TEMPERATURE: Range = Range::new("temperature", Kind::Temperature, 203.15, 473.15, "");

/// An engine warming as one lump of metal and coolant with the thermostat shut.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct WarmUp {
    /// Heat to the coolant and metal.
    pub heat: Power,
    /// Effective heat capacity of metal and coolant, (mc).
    pub heat_capacity: HeatCapacity,
    /// Conductance to the surrounding air; 0 when unknown and to be left out.
    pub loss: ThermalConductance,
    /// Surrounding air.
    pub ambient: ThermodynamicTemperature,
    /// Temperature at the start.
    pub start: ThermodynamicTemperature,
}

/// How a warm-up ends.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum WarmUpEnd {
    /// The temperature is reached.
    Reached {
        /// After this time.
        after: Time,
    },
    /// The losses hold the engine below it.
    NeverReached {
        /// The temperature it approaches.
        settles_at: ThermodynamicTemperature,
    },
}

impl WarmUp {
    /// Time to reach a temperature: the exact solution of (mc)·dt/dτ = Q − UA·(t − t_a),
    /// τ = −(mc/UA)·ln(1 − UA·(t − t₀)/(Q − UA·(t₀ − t_a))), which is (mc)(t − t₀)/Q without losses.
    ///
    /// # Errors
    /// An input out of range, or a target that is not warmer than the start.
    pub fn time_to(&self, target: ThermodynamicTemperature, scribe: &mut impl Scribe) -> Result<WarmUpEnd, HeatError> {
        let heat = HEAT.check(self.heat)?.base();
        let capacity = HEAT_CAPACITY.check(self.heat_capacity)?.base();
        let loss = LOSS.check(self.loss)?.base();
        let ambient = TEMPERATURE.check(self.ambient)?.base();
        let start = TEMPERATURE.check(self.start)?.base();
        let end = TEMPERATURE.check(target)?.base();
        if end <= start {
            return Err(HeatError::NotWarmer {
                what: "the temperature to reach",
                than: "the start",
                value: Amount::of(target),
                other: Amount::of(self.start),
            });
        }
        let at_start = heat - loss * (start - ambient);
        let gone = loss * (end - start);
        if gone >= at_start {
            return Ok(WarmUpEnd::NeverReached {
                settles_at: ThermodynamicTemperature::from_base(ambient + heat / loss),
            });
        }
        // ln(1 − x)/x runs into −1 at x = 0 through ln_1p without losing digits.
        let x = gone / at_start;
        let longer = if x > 0.0 { -(-x).ln_1p() / x } else { 1.0 };
        let after = Time::from_base(capacity * (end - start) / at_start * longer);
        scribe.step(|| {
            Step::new("Time to warm up", "τ", "τ = −(mc/UA)·ln(1 − UA·(t − t₀)/(Q − UA·(t₀ − t_a)))", &source::WARM_UP)
                .with("mc", self.heat_capacity)
                .with("UA", self.loss)
                .with("Q", self.heat)
                .with("t", target)
                .with("t₀", self.start)
                .with("t_a", self.ambient)
                .gives_amount(Amount::of_kind(after, Kind::Duration))
        });
        Ok(WarmUpEnd::Reached { after })
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::celsius;
    use crate::scribe::Silent;

    fn warm_up(loss: f64) -> WarmUp {
        WarmUp {
            heat: Power::from_base(15e3),
            heat_capacity: HeatCapacity::from_base(100e3),
            loss: ThermalConductance::from_base(loss),
            ambient: celsius(15.0),
            start: celsius(15.0),
        }
    }

    #[test]
    fn without_losses_it_is_heat_over_capacity() {
        let WarmUpEnd::Reached { after } = warm_up(0.0).time_to(celsius(90.0), &mut Silent).unwrap() else { panic!() };
        assert!((after.base() - 500.0).abs() < 1e-9);
        let WarmUpEnd::Reached { after } = warm_up(1e-9).time_to(celsius(90.0), &mut Silent).unwrap() else { panic!() };
        assert!((after.base() - 500.0).abs() < 1e-6);
    }

    #[test]
    fn heavy_losses_hold_it_cold() {
        let end = warm_up(300.0).time_to(celsius(90.0), &mut Silent).unwrap();
        let WarmUpEnd::NeverReached { settles_at } = end else { panic!() };
        assert!((settles_at.base() - celsius(65.0).base()).abs() < 1e-9);
    }
}
