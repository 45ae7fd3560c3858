//! Every figure the oil's way assumes, with its spread, its range and its source. Coherent SI units.

use super::OilError;
use crate::quantity::si::{Length, MassDensity, MassRate, Ratio, Velocity, Volume};
use crate::quantity::{Estimate, Kind, Measured, Range};
use crate::source::crankcase::moisture::{
    CAN_FIGURES, CAN_WALL, CARRY_OVER, DRAIN_HEIGHT, GAS_SPEEDS, IMPACTION, OIL_DENSITY, SOUDERS_BROWN,
};
use crate::source::{Assumed, assumed};

assumed! {
    /// Density of warm engine oil.
    density: MassDensity = [800.0, 850.0, 880.0],
        Range::new("density of the oil", Kind::Density, 700.0, 1000.0, "850 kg/m³ when warm"),
        OIL_DENSITY;
    /// Density of the water that collects; it holds a little fuel and acid.
    water_density: MassDensity = [980.0, 1000.0, 1020.0],
        Range::new("density of the water in the can", Kind::Density, 900.0, 1100.0, "1000 kg/m³"),
        CAN_FIGURES;
    /// Oil carried for each mass of gas that leaves: 0.5, 2 and 5 g/h from a car engine that breathes out 0.5 g/s.
    loading: Ratio = [0.5 / 1800.0, 2.0 / 1800.0, 5.0 / 1800.0],
        Range::new("oil carried for each mass of gas", Kind::Number, 0.0, 0.1, "0.0003 to 0.003 on the road"),
        CARRY_OVER;
    /// How the oil carried grows with gas speed above the limit: the power of speed over limit.
    speed_exponent: Ratio = [0.0, 1.0, 2.0],
        Range::new("growth of the oil carried with speed", Kind::Number, 0.0, 4.0, "the power of speed over limit, about 1"),
        CARRY_OVER;
    /// Times as much oil for each mass of gas, of an engine that is worn or driven on a track. Such engines carry 5 to 10 times as
    /// much oil in all; most of it comes with their larger flow and its speed, which count by themselves.
    worn_or_track: Ratio = [1.0, 1.5, 2.5],
        Range::new("oil for each mass of gas, over that of a healthy engine on the road", Kind::Number, 0.1, 30.0, "1 to 2.5 worn or on a track"),
        CARRY_OVER;
    /// The most oil that anything published speaks of, ten times 15 g/h: the growth with speed is followed no further.
    most_weighed: MassRate = [0.15 / 3600.0, 0.15 / 3600.0, 0.15 / 3600.0],
        Range::new("most oil that was ever weighed", Kind::CarryOver, 1e-6, 1e-3, "about 150 g/h"),
        CARRY_OVER;
    /// Gas speed below which oil settles, or runs down against rising gas.
    settling_speed: Velocity = [0.5, 1.0, 1.5],
        Range::new("gas speed where oil is to settle", Kind::GasSpeed, 0.05, 20.0, "about 1 m/s"),
        GAS_SPEEDS;
    /// Gas speed at the mouth of the outlet above which film is dragged along.
    mouth_speed: Velocity = [2.0, 3.0, 4.0],
        Range::new("gas speed at the mouth of the outlet", Kind::GasSpeed, 0.1, 50.0, "about 3 m/s"),
        GAS_SPEEDS;
    /// Stokes number at which half the droplets of a round jet strike the wall.
    impaction_number: Ratio = [0.20, 0.24, 0.59],
        Range::new("Stokes number of half impaction", Kind::Number, 0.05, 2.0, "0.24 for a round jet, 0.59 for a slot"),
        IMPACTION;
    /// The least volume a catch can should hold.
    least_can: Volume = [0.3e-3, 0.5e-3, 1.0e-3],
        Range::new("least volume of a catch can", Kind::SmallVolume, 0.0, 0.05, "0.5 L"),
        CAN_FIGURES;
    /// Height of the oil's way back: from the floor of the cover down to the oil that closes the drain.
    drain_height: Length = [0.10, 0.20, 0.35],
        Range::new("height of the drain", Kind::Length, 0.0, 2.0, "from the cover's floor down to the oil that closes the drain"),
        DRAIN_HEIGHT;
    /// How far a can's wall stands from the air towards the oil: 0 at the air, 1 at the oil.
    can_wall_share: Ratio = [0.1, 0.3, 0.6],
        Range::new("place of the can's wall between air and oil", Kind::Number, 0.0, 1.0, "0.1 in the wind, 0.6 close to the engine"),
        CAN_WALL;
    /// Times what collects between services that a can should hold.
    can_reserve: Ratio = [1.5, 2.0, 3.0],
        Range::new("volume of the can over what collects", Kind::Number, 1.0, 20.0, "2"),
        CAN_FIGURES;
    /// Part of the can's volume at which to drain it.
    alarm: Ratio = [0.4, 0.5, 0.6],
        Range::new("filling at which to drain", Kind::Share, 0.05, 1.0, "50 %; a full can catches nothing"),
        CAN_FIGURES;
}

/// What is inside a catch can.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum CanInside {
    /// Nothing.
    Open,
    /// Walls that turn the gas.
    Baffled,
    /// A pack of knitted mesh.
    Mesh,
}

impl CanInside {
    /// Every kind.
    pub const ALL: [Self; 3] = [Self::Open, Self::Baffled, Self::Mesh];

    /// The factor of Souders and Brown, m/s.
    #[must_use]
    pub fn souders_brown(self) -> Assumed<Velocity> {
        const RANGE: Range = Range::new(
            "factor of Souders and Brown",
            Kind::GasSpeed,
            0.005,
            0.5,
            "0.03 open, 0.06 baffled, 0.107 m/s mesh",
        );
        match self {
            Self::Open => Assumed::new([0.02, 0.03, 0.04], RANGE, &CAN_FIGURES),
            Self::Baffled => Assumed::new([0.04, 0.06, 0.08], RANGE, &CAN_FIGURES),
            Self::Mesh => Assumed::new([0.08, 0.107, 0.108], RANGE, &SOUDERS_BROWN),
        }
    }

    /// Share of the oil that it catches below its limit of speed.
    #[must_use]
    pub fn caught(self) -> Assumed<Ratio> {
        const RANGE: Range = Range::new("share of the oil that the can catches", Kind::Share, 0.0, 1.0, "30 to 90 %");
        match self {
            Self::Open => Assumed::new([0.1, 0.3, 0.5], RANGE, &CAN_FIGURES),
            Self::Baffled => Assumed::new([0.3, 0.5, 0.75], RANGE, &CAN_FIGURES),
            Self::Mesh => Assumed::new([0.6, 0.8, 0.95], RANGE, &CAN_FIGURES),
        }
    }
}

/// The three values an input may take, in order and in range.
pub(super) fn in_order<Q: Measured>(estimate: &Estimate<Q>, range: &Range) -> Result<(), OilError> {
    range.check_estimate(estimate)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn every_default_is_in_order_and_allowed() {
        assert!(soundness().into_iter().all(|(name, sound)| sound || panic!("{name}")));
        assert!(CanInside::ALL.iter().all(|inside| inside.souders_brown().is_sound() && inside.caught().is_sound()));
    }
}
