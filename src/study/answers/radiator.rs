//! What the radiator is by itself, before any duty.

use crate::heat::MatrixHeat;
use crate::quantity::Estimate;
use crate::quantity::si::{Area, Ratio, ThermalConductance, Velocity, VolumeRate};
use crate::study::RadiatorKnowledge;

/// The radiator by itself.
#[derive(Clone, Debug, PartialEq)]
pub struct RadiatorAnswers {
    /// What it is known from.
    pub known_from: RadiatorKnowledge,
    /// Conductance at the air velocity below.
    pub conductance: Estimate<ThermalConductance>,
    /// Face velocity of the air there.
    pub at: Velocity,
    /// Coolant flow through it there.
    pub flow: VolumeRate,
    /// Face of the core.
    pub face: Area,
    /// Share of the thermal resistance on the air side.
    pub air_share: Ratio,
    /// What its sizes say, if it is known from its core.
    pub core: Option<MatrixHeat>,
}
