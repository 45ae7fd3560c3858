//! Every figure the moisture assumes, with its spread, its range and its source. Coherent SI units.

use crate::quantity::si::{Ratio, ThermodynamicTemperature as Temperature};
use crate::quantity::{Kind, Measured, Range};
use crate::source::assumed;
use crate::source::crankcase::moisture::{
    BURNT_SHARE, CRANKCASE_WARMTH, DIESEL, HOSE_WALL, PETROL, PETROL_HEAVY, TRIP_WARMTH, WATER_GAS, WINTER_AIR,
};

assumed! {
    /// Hydrogen for each carbon atom in diesel fuel.
    hydrogen_of_diesel: Ratio = [1.75, 1.85, 1.95],
        Range::new("hydrogen for each carbon atom of the fuel", Kind::Number, 0.5, 4.0, "1.85 for diesel fuel"),
        DIESEL;
    /// Air for each mass of diesel fuel, just enough to burn it.
    air_of_diesel: Ratio = [14.4, 14.5, 14.6],
        Range::new("air that diesel fuel needs", Kind::Number, 10.0, 20.0, "14.5"),
        DIESEL;
    /// Hydrogen atoms for each carbon atom of the fuel.
    hydrogen: Ratio = [1.7, 1.87, 2.1],
        Range::new("hydrogen for each carbon atom of the fuel", Kind::Number, 0.5, 4.0, "1.87 for petrol, 3 for ethanol"),
        PETROL;
    /// Oxygen atoms for each carbon atom of the fuel.
    oxygen: Ratio = [0.0, 0.0, 0.03],
        Range::new("oxygen for each carbon atom of the fuel", Kind::Number, 0.0, 1.0, "0 for petrol, 0.5 for ethanol"),
        PETROL;
    /// Air over the air the fuel needs, of the gas that blows by.
    lambda: Ratio = [0.85, 1.0, 1.05],
        Range::new("air over the air the fuel needs (λ)", Kind::Number, 0.7, 200.0, "1 is just enough air; petrol engines run 0.8 to 1.1, diesels 1.2 to 8"),
        PETROL;
    /// `CO·H₂O/(CO₂·H₂)` of rich burnt gas.
    water_gas_constant: Ratio = [3.0, 3.5, 4.0],
        Range::new("water-gas constant of rich burnt gas", Kind::Number, 2.0, 6.0, "3.5 is usual"),
        WATER_GAS;
    /// Share of the blow-by that has burnt. All burnt is the worst case, and allowed.
    burnt: Ratio = [0.2, 0.3, 0.5],
        Range::new("burnt share of the blow-by", Kind::Share, 0.0, 1.0, "20 to 50 %; 100 % is the worst case"),
        BURNT_SHARE;
    /// How far a cover's or can's wall stands from the air towards the oil: 0 at the air, 1 at the oil.
    wall_share: Ratio = [0.5, 0.65, 0.85],
        Range::new("place of the wall between air and oil", Kind::Number, 0.0, 1.0, "0.5 in the wind, 0.85 sheltered; 0 is as cold as the air"),
        CRANKCASE_WARMTH;
    /// How far a hose's wall stands from the air towards the oil: 0 at the air, 1 at the oil.
    hose_share: Ratio = [0.25, 0.45, 0.7],
        Range::new("place of the hose's wall between air and oil", Kind::Number, 0.0, 1.0, "0.25 in the wind, 0.7 lying on the engine"),
        HOSE_WALL;
    /// Relative humidity of the air on a cold morning.
    humidity: Ratio = [0.6, 0.8, 1.0],
        Range::new("relative humidity", Kind::Share, 0.0, 1.0, "0 to 100 %, as a weather report gives it"),
        WINTER_AIR;
    /// How far the oil has come from the outside air towards that of the warm engine when a short cold trip ends.
    trip_warmth: Ratio = [0.3, 0.5, 0.75],
        Range::new("warmth of the oil on a short trip", Kind::Share, 0.05, 1.0, "30 to 75 % of the way from the air to warm oil after a few kilometres"),
        TRIP_WARMTH;
    /// Carbon atoms in a molecule of petrol, on average.
    carbon: Ratio = [6.8, 7.4, 8.0],
        Range::new("carbon atoms in a molecule of petrol", Kind::Number, 4.0, 12.0, "about 7.4; 100 to 110 g/mol"),
        PETROL_HEAVY;
    /// Heavy cuts of the petrol over those of [`super::Petrol`]: light winter petrol to stale petrol.
    heaviness: Ratio = [0.6, 1.0, 1.6],
        Range::new("heavy cuts over those of usual petrol", Kind::Number, 0.1, 5.0, "0.6 for fresh winter petrol, 1.6 for stale"),
        PETROL_HEAVY;
    /// Oil warm enough to drive water and fuel off in a while.
    drying_oil: Temperature = [358.15, 363.15, 368.15],
        Range::new("oil temperature that dries", Kind::Temperature, 333.15, 403.15, "about 90 °C"),
        CRANKCASE_WARMTH;
}

/// Share of vapour in outside air; what a person gives is temperature and humidity.
pub static AIR_VAPOUR: Range =
    Range::new("water vapour in the air", Kind::Share, 0.0, 0.2, "1.2 % at 20 °C and 50 % humidity");
/// Fresh air over blow-by; the network of the crankcase gives it. At its upper end the gas is outside air to nine digits.
pub static DILUTION: Range = Range::new(
    "fresh air over blow-by",
    Kind::Number,
    0.0,
    1e9,
    "zero when the breather blows out, 1 to 3 at idle and cruise",
);
/// Fresh air over blow-by beyond which a wall is as good as wetted by the outside air itself.
pub(super) const ASKED_IN_VAIN: f64 = 1000.0;

/// The three values an input may take, in order and in range.
pub(super) fn in_order<Q: Measured>(
    estimate: &crate::quantity::Estimate<Q>,
    range: &Range,
) -> Result<(), super::MoistureError> {
    range.check_estimate(estimate)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_default_is_in_order_and_allowed() {
        assert!(soundness().into_iter().all(|(name, sound)| sound || panic!("{name}")));
    }
}
