//! What happens on cooling: coolant comes back, or air does, or nothing.

use super::cycle::{Hot, Outcome};
use super::suction::Suction;
use super::{Arrangement, TubeReach};
use crate::coolant::balance::{Balance, Charge, Twist};
use crate::coolant::{Cap, CoolantError, FilledSystem, defaults};
use crate::quantity::Measured;
use crate::scribe::Silent;

/// Above anything a cold system reaches, Pa.
const COLD_LIMIT: f64 = 1e6;

/// The system after cooling.
pub(super) struct Cold {
    pub charge: Charge,
    /// Pa.
    pub pressure: f64,
    /// Coolant that came back, kg.
    pub returned: f64,
    pub outcome: Outcome,
}

impl Arrangement {
    /// Back to the fill temperature, the tank at the ambient again.
    pub(super) fn cool(
        &self,
        system: &FilledSystem,
        cap: &Cap,
        hot: &Hot,
        suction: Option<&Suction>,
    ) -> Result<Cold, CoolantError> {
        let balance = cold_balance(system)?;
        let ambient = system.ambient.base();
        let valve = ambient - cap.vacuum_opening.likely.base();
        let alone = settle_cold(&balance, hot.charge)?;
        let expelled = hot.state.expelled.base();
        let gas_left = hot.charge.gas < balance.filled.gas * (1.0 - 1e-9);
        let shut = |outcome| Cold { charge: hot.charge, pressure: alone, returned: 0.0, outcome };
        if expelled <= 0.0 && !gas_left {
            return Ok(shut(Outcome::Shut));
        }
        match (self, suction) {
            (Self::RecoveryTank { line, .. }, Some(suction)) => {
                let pull = suction.required.likely.base();
                let held_back = match line.reach {
                    TubeReach::Covered => 0.0,
                    TubeReach::Short(volume) => volume.base() * balance.cold_density(),
                    TubeReach::Uncovered => expelled,
                };
                let at = ambient - pull;
                if held_back >= expelled {
                    return fill_with_air(&balance, hot, 0.0, valve, Outcome::AirReturns);
                }
                // Hoses collapse, or the coolant boils, before it is lifted.
                let collapses = pull > defaults::suction_failure().likely().base();
                if collapses || at <= balance.gas_bubble() || at <= alone {
                    return Ok(shut(Outcome::NothingReturns));
                }
                let wanted = (balance.fits(hot.charge.gas, at) - hot.charge.mass).max(0.0);
                if wanted > expelled - held_back {
                    let back = expelled - held_back;
                    return fill_with_air(&balance, hot, back, valve, Outcome::PartReturns);
                }
                let charge = Charge { mass: hot.charge.mass + wanted, gas: hot.charge.gas };
                Ok(Cold { charge, pressure: at, returned: wanted, outcome: Outcome::Returns })
            }
            (Self::PressurisedHeaderTank { .. }, _) => {
                let outcome = if expelled > 0.0 { Outcome::Lost } else { Outcome::AirLost };
                fill_with_air(&balance, hot, 0.0, valve, outcome)
            }
            _ => fill_with_air(&balance, hot, 0.0, valve, Outcome::Lost),
        }
    }
}

/// The system with every part at the fill temperature.
pub(super) fn cold_balance(system: &FilledSystem) -> Result<Balance, CoolantError> {
    let cold = vec![system.fill_temperature; system.circuit.regions.len()];
    Balance::new(system, &cold, &Twist::none(system), &mut Silent)
}

/// What is missing after `returned` (kg) came back is made up with air once the vacuum valve opens.
fn fill_with_air(
    balance: &Balance,
    hot: &Hot,
    returned: f64,
    valve: f64,
    outcome: Outcome,
) -> Result<Cold, CoolantError> {
    let charge = Charge { mass: hot.charge.mass + returned, gas: hot.charge.gas };
    let alone = settle_cold(balance, charge)?;
    // The gas that stayed may hold the pressure above the valve's opening; then no air comes in.
    if alone >= valve {
        return Ok(Cold { charge, pressure: alone, returned, outcome });
    }
    let room = balance.cold_volume() - charge.mass / balance.cold_density();
    let gas = balance.gas_filling(room, valve).max(charge.gas);
    Ok(Cold { charge: Charge { gas, ..charge }, pressure: valve, returned, outcome })
}

/// The pressure (Pa) of a cold system that nothing enters.
fn settle_cold(balance: &Balance, charge: Charge) -> Result<f64, CoolantError> {
    Ok(balance.settle(Some(charge), COLD_LIMIT, &mut Silent)?.pressure.base())
}
