//! Quasi-static warming ends where the steady answer stands, in one step or in many.

use super::systems::{CATCH, OPEN, any_system, behind, change, example_1, example_3, parts_at, walk};
use crate::coolant::{FilledSystem, SystemState};
use crate::day::charge::{Charge, Vessel};
use crate::quantity::{AbsolutePressure, Measured};
use crate::scribe::Silent;
use proptest::prelude::*;

/// The largest relative difference of mass, and of pressure in Pa, that counts as the same.
pub const MASS: f64 = 1e-6;
pub const PRESSURE: f64 = 10.0;

/// Whether so much vapour follows the gas of a steady state that the charge may hold it back.
pub fn wet(steady: &SystemState, charge: &Charge) -> bool {
    let dry = charge.gas * charge.gas_temperature / steady.pressure.base();
    steady.pressure.base() > 60e3 && steady.gas_volume.base() > 2.9 * dry
}

fn limit(system: &FilledSystem, opening: f64) -> AbsolutePressure {
    AbsolutePressure::from_base(system.ambient.base() + opening)
}

/// A charge against the steady state at a share of the warm-up.
fn agree(charge: &Charge, system: &FilledSystem, share: f64, opening: f64) -> Result<(), TestCaseError> {
    let temperatures = system.temperatures_at(crate::quantity::si::Ratio::from_base(share)).unwrap();
    let steady = system.settle(&temperatures, limit(system, opening), &mut Silent).unwrap();
    prop_assume!(!wet(&steady, charge));
    let mass = steady.cold_mass.base();
    prop_assert!((charge.mass - steady.held.base()).abs() < MASS * mass, "{} {}", charge.mass, steady.held.base());
    let off = (charge.pressure - steady.pressure.base()).abs();
    prop_assert!(off < PRESSURE, "{} {}", charge.pressure, steady.pressure.base());
    prop_assert!((charge.gas_volume - steady.gas_volume.base()).abs() < 1e-8);
    Ok(())
}

#[test]
fn the_worked_examples_warm_up_as_the_steady_answer_says() {
    for (system, kind, opening) in [(example_1(), OPEN, 103e3), (example_3(), CATCH, 48e3)] {
        let vessel = Vessel::new(&system, &behind(kind, 3.0, 1.0, 0.1, opening, 5e3)).unwrap();
        let mut charge = vessel.fill().unwrap();
        for step in 1..=200 {
            let share = f64::from(step) / 200.0;
            vessel.step(&mut charge, &change(&parts_at(&system, share), 50.0)).unwrap();
            agree(&charge, &system, share, opening).unwrap();
        }
        assert!(system.settle_hot(limit(&system, opening), &mut Silent).unwrap().expelled.base() > 0.4);
    }
}

/// Block and heads have the engine's temperature, heater and hoses the hoses'.
#[test]
fn a_system_built_part_by_part_follows_the_bodies() {
    let mut system = example_1();
    let [engine, radiator, heater, hoses] = system.circuit.regions.clone().try_into().unwrap();
    let named =
        |name: &str, of: &crate::coolant::Region| crate::coolant::Region { name: name.to_owned(), ..of.clone() };
    system.circuit.regions = vec![named("block", &engine), named("heads", &engine), radiator, heater, hoses];
    let vessel = Vessel::new(&system, &behind(OPEN, 3.0, 1.0, 0.1, 103e3, 5e3)).unwrap();
    let mut charge = vessel.fill().unwrap();
    let hot = [95.0, 86.0, 90.0].map(|celsius| celsius + 273.15);
    vessel.step(&mut charge, &change(&hot, 50.0)).unwrap();
    agree(&charge, &system, 1.0, 103e3).unwrap();
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(400))]

    #[test]
    fn a_warm_up_ends_at_the_steady_state(system in any_system(), opening in 0.0..150e3, steps in 1usize..60) {
        prop_assume!(system.settle_hot(limit(&system, opening), &mut Silent).is_ok());
        let vessel = Vessel::new(&system, &behind(OPEN, 20.0, 1.0, 0.1, opening, 5e3)).unwrap();
        let mut charge = vessel.fill().unwrap();
        walk(&vessel, &mut charge, &system, (0.0, 1.0), steps, 50.0);
        agree(&charge, &system, 1.0, opening)?;
    }

    /// The steps' number does not matter while the temperatures go one way: up, and down again.
    #[test]
    fn steps_of_any_size_end_alike(
        system in any_system(),
        opening in 0.0..150e3,
        draws in 0.0..20e3,
        reach in 0.0..2.0,
        few in 1usize..4,
    ) {
        let vessel = Vessel::new(&system, &behind(OPEN, 20.0, 1.0, reach, opening, draws)).unwrap();
        let run = |up: usize, down: usize| {
            let mut charge = vessel.fill().unwrap();
            walk(&vessel, &mut charge, &system, (0.0, 1.0), up, 20.0);
            let hot = charge;
            walk(&vessel, &mut charge, &system, (1.0, 0.1), down, 20.0);
            [hot, charge]
        };
        for (one, other) in run(1, few).into_iter().zip(run(37, 113)) {
            prop_assume!(!one.last.gas_boils);
            prop_assert!((one.mass - other.mass).abs() < 1e-9 * one.mass, "{one:?} {other:?}");
            prop_assert!((one.pressure - other.pressure).abs() < 0.01, "{one:?} {other:?}");
            prop_assert!((one.gas - other.gas).abs() < 1e-7);
            prop_assert!((one.tank_mass - other.tank_mass).abs() < 1e-9);
        }
    }
}
