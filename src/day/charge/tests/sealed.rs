//! A lid without a vent: as the steady answer, up to where the tank fills solid.

use super::steady::{MASS, wet};
use super::systems::{any_system, behind, change, example_1, example_3, parts_at, walk};
use crate::coolant::{CoolantError, FilledSystem, SealedTank};
use crate::day::charge::{Charge, Vessel};
use crate::day::{DayError, Joined};
use crate::quantity::si::Volume;
use crate::quantity::{GaugePressure, Measured, celsius};
use crate::scribe::Silent;
use proptest::prelude::*;

const SEALED: Joined = Joined::Recovery { sealed: true };
const SEALED_CATCH: Joined = Joined::CatchOnly { sealed: true };

/// An empty tank of so many litres, warmed with the system; `Err` with the fault when it fills solid.
fn run(system: &FilledSystem, holds: f64, opening: f64, tank_hot: f64) -> Result<Charge, DayError> {
    let vessel = Vessel::new(system, &behind(SEALED, holds, 0.0, 0.0, opening, 5e3)).unwrap();
    let mut charge = vessel.fill().unwrap();
    let cold = system.fill_temperature.base() - 273.15;
    for step in 1..=300 {
        let share = f64::from(step) / 300.0;
        vessel.step(&mut charge, &change(&parts_at(system, share), cold + share * (tank_hot - cold)))?;
    }
    // Until what came in has the tank's temperature.
    let parts = parts_at(system, 1.0);
    let mut rest = 2000;
    while vessel.step(&mut charge, &change(&parts, tank_hot))?.out > 0.0 && rest > 0 {
        rest -= 1;
    }
    Ok(charge)
}

fn steady(
    system: &FilledSystem,
    holds: f64,
    opening: f64,
    hot: f64,
) -> Result<crate::coolant::SealedState, CoolantError> {
    let tank =
        SealedTank { air: Volume::from_base(holds * 1e-3), filled_at: system.fill_temperature, hot: celsius(hot) };
    system.settle_sealed(GaugePressure::from_base(opening), &tank, &mut Silent)
}

fn agree(system: &FilledSystem, holds: f64, opening: f64, hot: f64) -> Result<(), TestCaseError> {
    let steady = steady(system, holds, opening, hot).unwrap();
    let charge = run(system, holds, opening, hot).unwrap();
    let mass = steady.system.cold_mass.base();
    prop_assume!(!wet(&steady.system, &charge));
    prop_assert!((charge.mass - steady.system.held.base()).abs() < MASS * mass, "{charge:?} {steady:?}");
    prop_assert!((charge.pressure - steady.system.pressure.base()).abs() < 10.0, "{charge:?} {steady:?}");
    prop_assert!((charge.tank_gauge - steady.tank.with_vapour.base()).abs() < 10.0, "{charge:?} {steady:?}");
    Ok(())
}

#[test]
fn the_worked_examples_squeeze_a_sealed_tank_as_the_steady_answer_says() {
    for (system, holds, opening, hot) in [(example_1(), 1.5, 103e3, 50.0), (example_3(), 1.5, 48e3, 45.0)] {
        assert!(steady(&system, holds, opening, hot).unwrap().tank.with_vapour.base() > 30e3);
        agree(&system, holds, opening, hot).unwrap();
    }
}

#[test]
fn a_tank_that_fills_solid_is_told_in_words() {
    // Rigid metal and no gas: the pressure has nothing to stop it.
    let mut system = example_3();
    system.swell = crate::quantity::Estimate::exact(crate::quantity::Swell::from_base(0.0));
    let error = run(&system, 0.4, 48e3, 45.0).unwrap_err();
    assert!(matches!(error, DayError::Coolant(CoolantError::SealedTankOverfull { .. })), "{error:?}");
    assert!(error.to_string().contains("fills solid"), "{error}");
    assert!(matches!(steady(&system, 0.4, 48e3, 45.0), Err(CoolantError::SealedTankOverfull { .. })));
}

#[test]
fn a_sealed_lid_gives_its_gas_to_the_system_and_keeps_the_sum() {
    let system = example_1();
    for kind in [SEALED, SEALED_CATCH] {
        let vessel = Vessel::new(&system, &behind(kind, 3.0, 0.3, 0.3, 103e3, 5e3)).unwrap();
        let mut charge = vessel.fill().unwrap();
        let gas = charge.gas + charge.tank_gas;
        walk(&vessel, &mut charge, &system, (0.0, 1.0), 50, 40.0);
        let hot = charge;
        assert!(hot.tank_gauge > 20e3 && hot.pressure > vessel.ambient() + 103e3 + 20e3);
        walk(&vessel, &mut charge, &system, (1.0, 0.0), 50, 15.0);
        assert!((charge.gas + charge.tank_gas - gas).abs() < 1e-12 * gas);
        if kind == SEALED {
            assert!(charge.mass > hot.mass + 0.3, "{charge:?}");
        } else {
            assert!(charge.mass == hot.mass && charge.gas > 3.0 * hot.gas, "{charge:?}");
            let draws = vessel.ambient() + charge.tank_gauge - 5e3;
            assert!((charge.pressure - draws).abs() < 1.0, "{charge:?}");
        }
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(60))]

    #[test]
    fn random_systems_squeeze_as_the_steady_answer_says(
        system in any_system(),
        holds in 0.3..4.0f64,
        opening in 0.0..150e3,
        hot in 25.0..70.0f64,
    ) {
        // Without gas or soft hoses any pressure below the cap's would do once the tank has cooled a little.
        prop_assume!(system.trapped_gas.likely.base() > 0.0 || system.swell.likely.base() > 1e-8);
        // What comes in is no colder than the tank, so that the tank's pressure falls, not rises, once all is at rest.
        prop_assume!(system.circuit.regions[1].hot > celsius(hot));
        let answer = steady(&system, holds, opening, hot);
        prop_assume!(!matches!(answer, Err(CoolantError::Boils { .. } | CoolantError::Fluid(_))));
        match answer {
            // Near the brim the tank is warmer for a while than at the end, and it may fill solid on the way.
            Ok(state) if state.tank.air_left.base() > 0.02 * holds * 1e-3 => agree(&system, holds, opening, hot)?,
            _ => {}
        }
    }
}
