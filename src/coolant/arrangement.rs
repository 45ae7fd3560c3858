//! Where the coolant goes and what comes back: recovery tank, pressurised header tank, open catch can.

mod cooling;
pub(super) mod cushion;
mod cycle;
pub(super) mod suction;

pub use cycle::{BothLids, Cycle, CyclePoint, Outcome};
pub use suction::{ReturnLine, Suction, TubeReach};

use super::SealedTank;
use crate::quantity::GaugePressure;
use crate::quantity::si::ThermodynamicTemperature;

/// How the overflow is arranged.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Arrangement {
    /// A tank behind a cap with two valves: the coolant comes back on cooling through a tube under the liquid.
    RecoveryTank {
        /// The tank's lid.
        lid: Lid,
        /// Coolant in the tank when the engine is hot.
        tank_temperature: ThermodynamicTemperature,
        /// The way back.
        line: ReturnLine,
    },
    /// A tank inside the pressure, with an air cushion; it is a part of the system's circuit and holds its gas.
    PressurisedHeaderTank {
        /// What the cap lets out.
        cap: CapSits,
    },
    /// An open can without return: what leaves stays out.
    CatchOnly {
        /// The can's lid.
        lid: Lid,
        /// Coolant in the can when the engine is hot.
        tank_temperature: ThermodynamicTemperature,
    },
}

/// The lid of a tank outside the pressure.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum Lid {
    /// With a vent that keeps the tank at this gauge pressure while coolant comes in; 0 for a vent that is large enough.
    Vented(GaugePressure),
    /// Without a vent.
    Sealed(SealedTank),
}

/// What stands under a header tank's cap.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum CapSits {
    /// Liquid: a lifting cap loses coolant.
    InLiquid,
    /// Gas: a lifting cap loses air first.
    InGas,
}
