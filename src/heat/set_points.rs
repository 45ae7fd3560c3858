//! Thermostats compared at one duty.

use super::fan::{FanSwitch, solve_with_fan};
use super::thermostat::SET_POINT;
use super::{Balance, HeatError, Outcome, Thermostat};
use crate::quantity::si::ThermodynamicTemperature;
use crate::scribe::{Scribe, Silent};

/// What one setting leads to.
#[derive(Clone, Debug, PartialEq)]
pub struct SetPointRow {
    /// The setting.
    pub set_point: ThermodynamicTemperature,
    /// Where the temperature settles with it, and who sets it.
    pub outcome: Outcome,
}

/// Solves a balance for each setting, all else alike, the fan's switch too, in the order given.
///
/// The working of the balance's own setting is written; the others are solved in silence.
///
/// # Errors
/// As [`Balance::solve`]; a setting out of range.
pub fn compare_set_points(
    balance: &Balance,
    fan: Option<&FanSwitch>,
    set_points: &[ThermodynamicTemperature],
    scribe: &mut impl Scribe,
) -> Result<Vec<SetPointRow>, HeatError> {
    set_points
        .iter()
        .map(|&set_point| {
            SET_POINT.check(set_point)?;
            let with = Balance { thermostat: Thermostat { set_point, ..balance.thermostat }, ..*balance };
            let own = set_point == balance.thermostat.set_point;
            let solved =
                if own { solve_with_fan(&with, fan, scribe)? } else { solve_with_fan(&with, fan, &mut Silent)? };
            let (outcome, _) = solved;
            Ok(SetPointRow { set_point, outcome })
        })
        .collect()
}
