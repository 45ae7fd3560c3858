//! One warm-up, one cool-down and the next warm-up of an arrangement.

use super::cooling::{Cold, cold_balance};
use super::suction::{self, Suction};
use super::{Arrangement, CapSits, Lid};
use crate::coolant::balance::{Balance, Charge, Twist};
use crate::coolant::{Cap, CoolantError, FilledSystem, SealedPressure, SystemState};
use crate::note::{Note, Weight};
use crate::quantity::si::{Ratio, ThermodynamicTemperature, Volume};
use crate::quantity::{AbsolutePressure, Estimate, GaugePressure, Measured};
use crate::scribe::{Scribe, Silent, Step};
use crate::source::coolant::MASS_BALANCE;

/// How a cycle ends.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Outcome {
    /// The cap stayed shut; nothing left the system.
    Shut,
    /// What left came back.
    Returns,
    /// Part of what left came back, the rest of its room is air.
    PartReturns,
    /// Air came back in place of coolant.
    AirReturns,
    /// Nothing came back: the system cannot draw hard enough.
    NothingReturns,
    /// What left is lost for good.
    Lost,
    /// Only air left; it came back or not, the coolant stayed.
    AirLost,
}

/// One point of the warm-up.
#[derive(Clone, Debug, PartialEq)]
pub struct CyclePoint {
    /// From filled (0) to hot (1).
    pub share: Ratio,
    /// Temperature of the first part, the engine.
    pub engine: ThermodynamicTemperature,
    /// The system there.
    pub state: SystemState,
    /// Gauge pressure in the tank.
    pub tank: GaugePressure,
}

/// A warm-up, a cool-down and the next warm-up.
#[derive(Clone, Debug, PartialEq)]
pub struct Cycle {
    /// Pressure and expelled coolant from filled to hot.
    pub warm_up: Vec<CyclePoint>,
    /// The hot system with the cap at its rating.
    pub hot: SystemState,
    /// The hot pressure with the cap at the ends of its tolerance.
    pub hot_pressure: Estimate<AbsolutePressure>,
    /// Gauge pressure in the tank when hot.
    pub tank_pressure: GaugePressure,
    /// The sealed tank, if it is one.
    pub sealed: Option<SealedPressure>,
    /// Coolant in the tank, at the tank's temperature.
    pub expelled: Volume,
    /// The same at the fill temperature.
    pub expelled_cold: Volume,
    /// Coolant that came back, at the fill temperature.
    pub returned_cold: Volume,
    /// Coolant that did not, at the fill temperature.
    pub lost_cold: Volume,
    /// Gas in the system after cooling.
    pub gas_cold: Volume,
    /// Pressure in the cold system.
    pub cold_pressure: AbsolutePressure,
    /// What the return needs; for a recovery tank.
    pub suction: Option<Suction>,
    /// The next hot state.
    pub second: SystemState,
    /// What the next warm-up expels, at the fill temperature.
    pub second_expelled_cold: Volume,
    /// How the cycle ends.
    pub outcome: Outcome,
    /// Whether this may be called a recovery system: what leaves comes back.
    pub recovers: bool,
    /// What to know beside the numbers.
    pub notes: Vec<Note>,
}

/// The same tank with and without a vent.
#[derive(Clone, Debug, PartialEq)]
pub struct BothLids {
    /// With a vent large enough.
    pub vented: Cycle,
    /// Without.
    pub sealed: Cycle,
}

/// A settled system with what stands behind the cap.
pub(super) struct Hot {
    pub state: SystemState,
    /// What is left inside.
    pub charge: Charge,
    pub tank: GaugePressure,
    pub sealed: Option<SealedPressure>,
}

impl Arrangement {
    /// Runs a warm-up from the fill, a cool-down to the fill temperature and the next warm-up.
    ///
    /// `points` is the number of points of the warm-up curve, 2 to 2000.
    ///
    /// # Errors
    /// As [`FilledSystem::settle`]; a sealed tank that fills solid.
    pub fn cycle(
        &self,
        system: &FilledSystem,
        cap: &Cap,
        points: usize,
        scribe: &mut impl Scribe,
    ) -> Result<Cycle, CoolantError> {
        let openings = cap.opening_range(scribe)?;
        let one = Ratio::from_base(1.0);
        let mut notes = Vec::new();
        let warm_up = self.warm_up(system, openings.likely, points)?;
        let hot = self.rise(system, None, one, openings.likely, scribe)?;
        let hot_at = |opening| match self.rise(system, None, one, opening, &mut Silent) {
            Ok(hot) => Ok(hot.state.pressure),
            // Boiling pushes the pressure up to what the cap allows, and there it stays.
            Err(CoolantError::Boils { allowed, .. }) => Ok(AbsolutePressure::from_base(allowed)),
            Err(error) => Err(error),
        };
        let hot_pressure = Estimate::sorted(hot_at(openings.low)?, hot.state.pressure, hot_at(openings.high)?);
        let suction = match self {
            Self::RecoveryTank { line, .. } => {
                Some(suction::required(system, cap.vacuum_opening, line, &mut notes, scribe)?)
            }
            _ => None,
        };
        let cold = self.cool(system, cap, &hot, suction.as_ref())?;
        let second = self.rise(system, Some(cold.charge), one, openings.likely, &mut Silent)?;

        let density = system.mix.density(system.fill_temperature, &mut Silent)?.base();
        let as_cold = |mass: f64| Volume::from_base(mass / density);
        let expelled = match self {
            Self::RecoveryTank { tank_temperature, .. } | Self::CatchOnly { tank_temperature, .. } => {
                system.in_tank(hot.state.expelled, *tank_temperature, scribe)?
            }
            Self::PressurisedHeaderTank { .. } => as_cold(hot.state.expelled.base()),
        };
        let balance = cold_balance(system)?;
        let gas_cold = Volume::from_base(balance.cold_volume() - cold.charge.mass / balance.cold_density());
        scribe.step(|| {
            let equation = "V_gas = Σ Vᵢ − m/ρ(t₀)";
            Step::new("gas in the system after cooling", "V_gas", equation, &MASS_BALANCE)
                .with("m", crate::quantity::si::Mass::from_base(cold.charge.mass))
                .gives(gas_cold)
        });
        let recovers =
            matches!(self, Self::RecoveryTank { .. }) && matches!(cold.outcome, Outcome::Shut | Outcome::Returns);
        self.remark(&hot, &cold, &mut notes);
        notes.extend(hot.state.notes.iter().cloned());
        let lost = hot.state.expelled.base() - cold.returned;
        Ok(Cycle {
            warm_up,
            hot_pressure,
            tank_pressure: hot.tank,
            sealed: hot.sealed,
            expelled,
            expelled_cold: as_cold(hot.state.expelled.base()),
            returned_cold: as_cold(cold.returned),
            lost_cold: as_cold(lost),
            gas_cold,
            cold_pressure: AbsolutePressure::from_base(cold.pressure),
            suction,
            second_expelled_cold: as_cold(second.state.expelled.base()),
            second: second.state,
            outcome: cold.outcome,
            recovers,
            notes,
            hot: hot.state,
        })
    }

    /// The same tank with a vent large enough, and with the lid sealed. `None` for a header tank, which has no vent.
    ///
    /// # Errors
    /// As [`Arrangement::cycle`].
    pub fn both_lids(
        &self,
        system: &FilledSystem,
        cap: &Cap,
        sealed: &super::super::SealedTank,
        points: usize,
        scribe: &mut impl Scribe,
    ) -> Result<Option<BothLids>, CoolantError> {
        let with = |new: Lid| match *self {
            Self::RecoveryTank { tank_temperature, line, .. } => {
                Some(Self::RecoveryTank { lid: new, tank_temperature, line })
            }
            Self::CatchOnly { tank_temperature, .. } => Some(Self::CatchOnly { lid: new, tank_temperature }),
            Self::PressurisedHeaderTank { .. } => None,
        };
        let open = with(Lid::Vented(GaugePressure::from_base(0.0)));
        let (Some(open), Some(shut)) = (open, with(Lid::Sealed(*sealed))) else { return Ok(None) };
        let vented = open.cycle(system, cap, points, scribe)?;
        let sealed = shut.cycle(system, cap, points, scribe)?;
        Ok(Some(BothLids { vented, sealed }))
    }

    fn warm_up(
        &self,
        system: &FilledSystem,
        opening: GaugePressure,
        points: usize,
    ) -> Result<Vec<CyclePoint>, CoolantError> {
        if !(2..=2000).contains(&points) {
            return Err(CoolantError::Points { points, most: 2000 });
        }
        let mut curve = Vec::with_capacity(points);
        for i in 0..points {
            let share = Ratio::from_base(i as f64 / (points - 1) as f64);
            let engine = system.temperatures_at(share)?.first().copied().ok_or(CoolantError::NoRegions)?;
            let Hot { state, tank, .. } = self.rise(system, None, share, opening, &mut Silent)?;
            curve.push(CyclePoint { share, engine, state, tank });
        }
        Ok(curve)
    }

    /// The system on its way from the fill temperature (0) to hot (1), from the fill or another content.
    fn rise(
        &self,
        system: &FilledSystem,
        charge: Option<Charge>,
        share: Ratio,
        opening: GaugePressure,
        scribe: &mut impl Scribe,
    ) -> Result<Hot, CoolantError> {
        let temperatures = system.temperatures_at(share)?;
        let balance = Balance::new(system, &temperatures, &Twist::none(system), scribe)?;
        let start = charge.unwrap_or(balance.filled);
        let (lid, cap) = match self {
            Self::RecoveryTank { lid, .. } | Self::CatchOnly { lid, .. } => (*lid, CapSits::InLiquid),
            Self::PressurisedHeaderTank { cap } => (Lid::Vented(GaugePressure::from_base(0.0)), *cap),
        };
        let back = match lid {
            Lid::Sealed(tank) => {
                let settled = system.settle_sealed_from(charge, share, opening, &tank, scribe)?;
                let after = Charge { mass: settled.system.held.base(), gas: start.gas };
                return Ok(Hot {
                    state: settled.system,
                    charge: after,
                    tank: settled.tank.with_vapour,
                    sealed: Some(settled.tank),
                });
            }
            // The vent's pressure is that of coolant coming in; nothing comes in while the cap is shut.
            Lid::Vented(pressure) => pressure,
        };
        let limit = system.ambient.base() + opening.base() + back.base();
        if cap == CapSits::InGas && balance.fits(start.gas, limit) < start.mass {
            balance.refuse_boiling(limit)?;
            // Gas leaves until what is left stands at the limit, and coolant only when there is no gas left.
            let room = ((balance.brim(limit) - start.mass) / balance.gas_density()).max(0.0);
            let kept = Charge { mass: start.mass, gas: balance.gas_filling(room, limit) };
            let mut state = balance.settle(Some(kept), limit, scribe)?;
            state.cap_open = true;
            let after = Charge { mass: state.held.base(), gas: kept.gas };
            return Ok(Hot { state, charge: after, tank: back, sealed: None });
        }
        let state = balance.settle(Some(start), limit, scribe)?;
        let tank = if state.cap_open { back } else { GaugePressure::from_base(0.0) };
        let after = Charge { mass: state.held.base(), gas: start.gas };
        Ok(Hot { state, charge: after, tank, sealed: None })
    }

    fn remark(&self, hot: &Hot, cold: &Cold, notes: &mut Vec<Note>) {
        let mut say = |key, weight, text: &str| notes.push(Note::new(key, weight, text));
        if hot.sealed.is_some() {
            say(
                "sealed-tank",
                Weight::Danger,
                "the tank has no vent: its pressure adds to the cap's, and radiator, hoses and heater see the sum. The \
                 higher boiling point is no gain; drill a vent in the lid",
            );
            say(
                "sealed-tank-second",
                Weight::Remark,
                "the next warm-up is counted from a tank opened and closed again when cold",
            );
        }
        match self {
            Self::CatchOnly { .. } => say(
                "catch-only",
                Weight::Weak,
                "this is a catch can, not a recovery system: what leaves stays out, and air takes its place on cooling",
            ),
            Self::PressurisedHeaderTank { .. } if matches!(cold.outcome, Outcome::Lost | Outcome::AirLost) => say(
                "header-tank-loses",
                Weight::Weak,
                "the cap lifts in a normal warm-up: what leaves a header tank does not come back, and the next hot \
                 pressure is lower; give it a larger air cushion",
            ),
            _ => {}
        }
        match cold.outcome {
            Outcome::AirReturns | Outcome::PartReturns => say(
                "tube-uncovered",
                Weight::Weak,
                "the tube draws air on cooling: the system starts the next cycle with that air in it; put the tube's \
                 end lower or keep more coolant in the tank",
            ),
            Outcome::NothingReturns => say(
                "no-return",
                Weight::Danger,
                "nothing comes back: the cold system stays below the ambient and soft hoses are sucked flat; raise the \
                 tank, clear the line or fit a cap with a working vacuum valve",
            ),
            _ => {}
        }
    }
}
