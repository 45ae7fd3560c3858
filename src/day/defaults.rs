//! Assumed figures of the bodies of a day: each an editable default with its spread, range and source.

use super::check::{CONDUCTANCE, HEATER_FLOW, STILL, WAX};
use crate::quantity::si::{HeatCapacity, Ratio, ThermalConductance, Time};
use crate::quantity::{Kind, Range};
use crate::source::{assumed, day as source};

const FOR_EACH_AREA: Range = Range::new(
    "heat capacity of a radiator's metal for each square metre of face",
    Kind::HeatCapacity,
    1e3,
    60e3,
    "10 to 25 kJ/K for each square metre",
);
const LEAST_BLOCK: Range =
    Range::new("least share of an engine's heat capacity in its block", Kind::Share, 0.05, 0.9, "a third is usual");
const TIMES: Range = Range::new("wind over standing", Kind::Number, 0.0, 10.0, "1 to 3 is usual");

assumed! {
    /// Time constant of the thermostat's wax: 8 s (4 to 20).
    wax_lag: Time = [4.0, 8.0, 20.0], WAX, source::WAX_LAG;
    /// From the coolant to the rest of block and heads at the pump's flow at 3000 rpm, for each litre of displacement.
    block_for_each_litre: ThermalConductance = [120.0, 250.0, 500.0], CONDUCTANCE, source::BLOCK_EXCHANGE;
    /// The same with the pump at rest.
    block_still_for_each_litre: ThermalConductance = [10.0, 25.0, 50.0], CONDUCTANCE, source::BLOCK_EXCHANGE;
    /// Least share of the engine's effective heat capacity that is block, whatever metal and coolant are counted apart.
    least_block: Ratio = [0.2, 0.3, 0.4], LEAST_BLOCK, source::BLOCK_EXCHANGE;
    /// What 30 m/s of wind add to the block's standing conductance to the air, over that: 1.5 (0.5 to 3).
    wind_over_standing: Ratio = [0.5, 1.5, 3.0], TIMES, source::SURFACES;
    /// Metal of the radiator for each square metre of its face: 15 kJ/K (10 to 25).
    radiator_metal_for_each_area: HeatCapacity = [10e3, 15e3, 25e3], FOR_EACH_AREA, source::RADIATOR_STANDING;
    /// Share of the radiator's conductance left when its coolant stands: 5 % (2 to 10).
    radiator_still: Ratio = [0.02, 0.05, 0.10], STILL, source::RADIATOR_STANDING;
    /// Flow through heater and hoses over the pump's through the radiator: 15 % (5 to 30).
    heater_flow: Ratio = [0.05, 0.15, 0.30], HEATER_FLOW, source::HEATER_BRANCH;
    /// From hoses and heater pipes to the air: 3 W/K (1.5 to 6).
    hoses_to_air: ThermalConductance = [1.5, 3.0, 6.0], CONDUCTANCE, source::SURFACES;
    /// From a tank of a litre or two to the air around it: 2 W/K (1 to 5).
    tank_to_air: ThermalConductance = [1.0, 2.0, 5.0], CONDUCTANCE, source::SURFACES;
}

#[cfg(test)]
mod tests {
    #[test]
    fn every_figure_is_in_order_and_in_its_range() {
        let all = super::soundness();
        assert!(all.len() > 8);
        for (name, sound) in all {
            assert!(sound, "{name}");
        }
    }
}
