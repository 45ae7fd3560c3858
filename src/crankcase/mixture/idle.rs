//! What the gas from the valve does to the mixture at idle.

use crate::crankcase::moisture::defaults::burnt;
use crate::note::{Note, Weight};
use crate::quantity::si::{MassRate, Ratio};
use crate::quantity::{Amount, Kind, Measured, OutOfRange, Range, UnitSystem};
use crate::scribe::{Scribe, Step};
use crate::source::assumed;
use crate::source::crankcase::moisture::{IDLE_SHARE, MIXTURE, TOO_LEAN};

assumed! {
    /// Share of the idle air that the valve passes: 5 to 20 % is usual.
    idle_share: Ratio = [0.05, 0.12, 0.20],
        Range::new("share of the idle air that the valve passes", Kind::Share, 0.0, 1.0, "5 to 20 %"),
        IDLE_SHARE;
    /// Leaner than this by so much a cylinder that idles does not fire.
    too_lean: Ratio = [0.2, 0.3, 0.5],
        Range::new("how much leaner a cylinder still fires at idle", Kind::Share, 0.0, 2.0, "20 to 50 %"),
        TOO_LEAN;
}

/// Gas into the cylinders at idle.
pub static IDLE_AIR: Range =
    Range::new("gas into the cylinders at idle", Kind::GasFlow, 1e-5, 0.1, "1 to 10 g/s; above zero");
/// Flow through the valve, and blow-by.
pub static VALVE_FLOW: Range =
    Range::new("flow through the valve, or blow-by, at idle", Kind::GasFlow, 0.0, 0.1, "0.1 to 2 g/s; not negative");

/// How the fuel is metered.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum FuelSystem {
    /// By the air that passes the carburettor, or the plate of a mechanical injection.
    Carburettor,
    /// By manifold pressure, speed and temperature.
    SpeedDensity,
    /// By a meter of the air flow.
    MassFlow,
}

/// Where the crankcase draws its fresh air.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum FreshAirFrom {
    /// From the duct between the air meter and the throttle: it has been counted.
    AfterMeter,
    /// From the air cleaner or the duct before the meter: it has not been counted.
    BeforeMeter,
    /// From a breather of its own.
    OpenAir,
}

/// The gas at idle.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct IdleGas {
    /// All gas into the cylinders, that of the valve with it.
    pub into_cylinders: MassRate,
    /// What the valve passes.
    pub valve: MassRate,
    /// Blow-by; the valve draws fresh air for the rest of its flow.
    pub blow_by: MassRate,
    /// Burnt share of the blow-by; default [`burnt`].
    pub burnt_share: Ratio,
}

/// What is to be said of the valve's share.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum IdleFinding {
    /// Below the usual share: the crankcase gets little fresh air.
    Small,
    /// Usual.
    Usual,
    /// Above the usual share.
    Large,
    /// The valve passes more than the engine asks for: it cannot idle so slowly.
    MoreThanIdle,
}

/// The mixture at idle.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct IdleMixture {
    /// How the fuel is metered.
    pub system: FuelSystem,
    /// Share of the idle gas that comes by the valve.
    pub share: Ratio,
    /// Fresh air drawn through the crankcase.
    pub fresh_air: MassRate,
    /// Change of λ against the same setting with the valve shut off, above zero leaner; none when the valve passes more than the
    /// engine takes.
    pub change: Option<Ratio>,
    /// What is to be said of the share.
    pub finding: IdleFinding,
}

/// What the valve does to the mixture at idle.
///
/// Unburnt blow-by brings its own fuel, burnt blow-by neither air nor fuel; b is the burnt, u the unburnt part that the valve
/// returns, ṁ all gas into the cylinders, ṁ_f the fresh air.
/// Carburettor, and air meter with fresh air it has not counted: `Δλ = ṁ_f/(ṁ − b − ṁ_f)`.
/// Air meter with fresh air taken after it: 0.
/// Speed-density, which takes all gas for air: `Δλ = −(b + u)/(ṁ + u)`, slightly rich. Fuel trim, where there is one, takes the
/// change back.
///
/// # Errors
/// A flow outside its range, or a burnt share outside 0 to 1.
pub fn idle_mixture(
    gas: &IdleGas,
    system: FuelSystem,
    from: FreshAirFrom,
    scribe: &mut impl Scribe,
) -> Result<IdleMixture, OutOfRange> {
    let all = IDLE_AIR.check(gas.into_cylinders)?.base();
    let valve = VALVE_FLOW.check(gas.valve)?.base();
    let blow_by = VALVE_FLOW.check(gas.blow_by)?.base();
    let burnt_share = burnt().check(gas.burnt_share)?.base();
    let spare = (valve - blow_by).max(0.0);
    // Where the valve passes the blow-by and no more, the difference is rounding.
    let fresh = if spare > 1e-9 * valve { spare } else { 0.0 };
    let returned = valve.min(blow_by);
    let (burnt, unburnt) = (returned * burnt_share, returned * (1.0 - burnt_share));
    let (fresh_air, share) = (MassRate::from_base(fresh), Ratio::from_base(valve / all));
    scribe.step(|| {
        Step::new("share of the idle gas that the valve passes", "s", "s = ṁ_v/ṁ", &MIXTURE)
            .with("ṁ_v", gas.valve)
            .with("ṁ", gas.into_cylinders)
            .gives_amount(Amount::of_kind(share, Kind::Share))
    });
    let (least, most) = (idle_share().estimate.low, idle_share().estimate.high);
    let finding = if share.base() >= 1.0 {
        IdleFinding::MoreThanIdle
    } else if share > most {
        IdleFinding::Large
    } else if share < least {
        IdleFinding::Small
    } else {
        IdleFinding::Usual
    };
    let counted = matches!((system, from), (FuelSystem::MassFlow, FreshAirFrom::AfterMeter));
    let (change, equation) = match system {
        FuelSystem::SpeedDensity => (-returned / (all + unburnt), "Δλ = −(b + u)/(ṁ + u)"),
        _ if counted => (0.0, "Δλ = 0: the fresh air has been counted, unburnt blow-by brings its own fuel"),
        _ => (fresh / (all - burnt - fresh), "Δλ = ṁ_f/(ṁ − b − ṁ_f)"),
    };
    let change = (finding != IdleFinding::MoreThanIdle).then(|| Ratio::from_base(change));
    if let Some(change) = change {
        scribe.step(|| {
            Step::new("change of the mixture at idle", "Δλ", equation, &MIXTURE)
                .with("ṁ", gas.into_cylinders)
                .with("ṁ_f", fresh_air)
                .with("b", MassRate::from_base(burnt))
                .with("u", MassRate::from_base(unburnt))
                .gives_amount(Amount::of_kind(change, Kind::Share))
        });
    }
    Ok(IdleMixture { system, share, fresh_air, change, finding })
}

impl IdleMixture {
    /// What a person reads.
    #[must_use]
    pub fn notes(&self, units: UnitSystem) -> Vec<Note> {
        let percent = |ratio: Ratio| Amount::of_kind(ratio, Kind::Share).show(units);
        let share = percent(self.share);
        let mut notes = vec![match self.finding {
            IdleFinding::Small => Note::new(
                "idle-share",
                Weight::Remark,
                format!(
                    "The valve passes {share} of the idle gas, less than usual: the crankcase gets little fresh air at idle."
                ),
            ),
            IdleFinding::Usual => {
                Note::new("idle-share", Weight::Remark, format!("The valve passes {share} of the idle gas, as usual."))
            }
            IdleFinding::Large => Note::new(
                "idle-share",
                Weight::Weak,
                format!("The valve passes {share} of the idle gas, more than usual: expect a high or uneven idle."),
            ),
            IdleFinding::MoreThanIdle => Note::new(
                "idle-share",
                Weight::Weak,
                "The valve alone passes more gas than the engine takes at this idle: it cannot idle so slowly. Fit a valve with a \
                 smaller idle opening.",
            ),
        }];
        let Some(change) = self.change else { return notes };
        let shift = percent(Ratio::from_base(change.base().abs()));
        let text = match self.system {
            FuelSystem::SpeedDensity => format!(
                "Manifold pressure counts the gas of the valve, so its fresh air does not lean the mixture; blow-by, counted as \
                 air, makes it {shift} richer. The fresh air raises the idle speed until the throttle closes for it."
            ),
            _ if self.fresh_air.base() == 0.0 => {
                "The valve draws no fresh air, and unburnt blow-by brings its own fuel, so the mixture holds."
                    .to_owned()
            }
            FuelSystem::MassFlow if change.base() == 0.0 => {
                "The meter has counted the fresh air, so the mixture holds.".to_owned()
            }
            FuelSystem::MassFlow => format!(
                "The meter has not counted the fresh air: the mixture is {shift} leaner at idle. Take the fresh air behind the \
                 meter, ahead of throttle and any blower."
            ),
            FuelSystem::Carburettor => format!(
                "The fresh air does not pass the carburettor: the mixture is {shift} leaner at idle unless the idle circuit is \
                 set for it. Set the idle with the valve connected."
            ),
        };
        notes.push(Note::new("idle-mixture", Weight::Remark, text));
        notes
    }
}

#[cfg(test)]
mod tests {
    #[test]
    fn the_usual_share_is_in_order_and_allowed() {
        assert!(super::soundness().into_iter().all(|(_, sound)| sound));
    }
}
