//! Assumed figures of the bodies: each an editable default with its spread, its range and its source.
//!
//! Figures for each litre are of displacement, but for [`hoses_for_each_litre`], which is of the fill. They agree with a 5 L
//! V8 of 55 kJ/K of block and heads that passes 45 W/K from standing coolant and 12 W/K to standing air. Hot metal, oil and
//! heater core are in [`crate::heat`].

use super::check::{CAPACITY, CONDUCTANCE, FLOW_POWER, HEATER_FLOW, LAG, SMALL_CAPACITY, STILL, WAX};
use super::options::{GONE, OIL_WARM};
use crate::quantity::ZERO_CELSIUS;
use crate::quantity::si::{
    HeatCapacity, Ratio, TemperatureInterval, ThermalConductance, ThermodynamicTemperature, Time,
};
use crate::source::{assumed, bodies as source};

assumed! {
    /// Time constant of the thermostat's wax: 10 s (5 to 20).
    wax_lag: Time = [5.0, 10.0, 20.0], WAX, source::WAX;
    /// How much lower the thermostat shuts than it opens: 3 K (2 to 4).
    closing_lag: TemperatureInterval = [2.0, 3.0, 4.0], LAG, source::WAX;
    /// Power of the pump's speed with which what the coolant takes and gives grows: 0.65 (0.5 to 0.8).
    flow_power: Ratio = [0.5, 0.65, 0.8], FLOW_POWER, source::FORCED_CONVECTION;

    /// Heat capacity of block and heads but for the hot metal: 11 kJ/K (8 to 14) for each litre.
    block_for_each_litre: HeatCapacity = [8e3, 11e3, 14e3], CAPACITY, source::BODIES;
    /// From running coolant to the block: 45 W/K (25 to 80) for each litre.
    block_running_for_each_litre: ThermalConductance = [25.0, 45.0, 80.0], CONDUCTANCE, source::BODIES;
    /// From standing coolant to the block: 9 W/K (6 to 14) for each litre.
    block_still_for_each_litre: ThermalConductance = [6.0, 9.0, 14.0], CONDUCTANCE, source::BODIES;
    /// From the block to standing air: 2.4 W/K (1.2 to 4) for each litre.
    block_to_air_for_each_litre: ThermalConductance = [1.2, 2.4, 4.0], CONDUCTANCE, source::TANK_AND_HOSES;
    /// What a road speed of 30 m/s adds to it: 5.6 W/K (2 to 10) for each litre.
    block_on_road_for_each_litre: ThermalConductance = [2.0, 5.6, 10.0], CONDUCTANCE, source::FORCED_CONVECTION;

    /// Metal of a radiator: 5 kJ/K (2.5 to 8), some kilograms of copper and brass or aluminium.
    radiator_metal: HeatCapacity = [2.5e3, 5e3, 8e3], SMALL_CAPACITY, source::BODIES;
    /// Share of a radiator's conductance left when the coolant in it stands: 0.1 (0.03 to 0.3).
    radiator_still: Ratio = [0.03, 0.1, 0.3], STILL, source::STANDING_RADIATOR;

    /// Flow through heater and hoses as a share of the pump's: 0.2 (0.1 to 0.3).
    heater_flow: Ratio = [0.1, 0.2, 0.3], HEATER_FLOW, source::BODIES;
    /// From the hoses to the air: 0.3 W/K (0.15 to 0.6) for each litre of the fill.
    hoses_for_each_litre: ThermalConductance = [0.15, 0.3, 0.6], CONDUCTANCE, source::TANK_AND_HOSES;
    /// From the tank to the air: 1 W/K (0.5 to 2), 0.1 m² in still air.
    tank_to_air: ThermalConductance = [0.5, 1.0, 2.0], CONDUCTANCE, source::TANK_AND_HOSES;

    /// Share of the engine's coolant that may be lost before a day is cut short: a fifth (a tenth to 0.3).
    gone: Ratio = [0.1, 0.2, 0.3], GONE, source::DRY_HEADS;
    /// Temperature at which the oil counts as warm: 80 °C (60 to 90).
    oil_warm: ThermodynamicTemperature = [ZERO_CELSIUS + 60.0, ZERO_CELSIUS + 80.0, ZERO_CELSIUS + 90.0],
        OIL_WARM, source::OIL_WARM;
}

#[cfg(test)]
mod tests {
    #[test]
    fn every_figure_is_in_order_and_allowed() {
        for (name, sound) in super::soundness() {
            assert!(sound, "{name}");
        }
    }

    /// The V8 the figures for a litre are taken from.
    #[test]
    fn five_litres_are_the_v8() {
        use crate::quantity::Measured;
        assert!((5.0 * super::block_for_each_litre().likely().base() - 55e3).abs() < 1.0);
        assert!((5.0 * super::block_still_for_each_litre().likely().base() - 45.0).abs() < 1e-9);
        assert!((5.0 * super::block_to_air_for_each_litre().likely().base() - 12.0).abs() < 1e-9);
    }
}
