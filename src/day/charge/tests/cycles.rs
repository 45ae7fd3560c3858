//! Warm-up, cool-down and the next warm-up against the steady cycle of every arrangement.

use super::steady::{MASS, PRESSURE, wet};
use super::systems::{CATCH, GAS, LIQUID, OPEN, any_system, behind, example_1, example_2, example_3, litres, walk};
use crate::coolant::{Arrangement, Cap, FilledSystem, Lid, Outcome, ReturnLine, TubeReach};
use crate::day::charge::{Charge, Vessel};
use crate::day::{BehindCap, Joined};
use crate::quantity::si::{Length, Pressure};
use crate::quantity::{Estimate, GaugePressure, Measured, celsius};
use crate::scribe::Silent;
use proptest::prelude::*;

/// What the tank holds to begin with, L.
const FILLED: f64 = 1.0;

fn arrangement(kind: Joined, line: ReturnLine) -> Arrangement {
    let lid = Lid::Vented(GaugePressure::from_base(0.0));
    match kind {
        Joined::Recovery { .. } => Arrangement::RecoveryTank { lid, tank_temperature: celsius(50.0), line },
        Joined::CatchOnly { .. } => Arrangement::CatchOnly { lid, tank_temperature: celsius(50.0) },
        Joined::Header(cap) => Arrangement::PressurisedHeaderTank { cap },
    }
}

/// Runs both and compares; the outcome, or none where the steady cycle has no answer.
fn compare(system: &FilledSystem, kind: Joined, cap: &Cap, line: ReturnLine) -> Result<Option<Outcome>, TestCaseError> {
    let Ok(cycle) = arrangement(kind, line).cycle(system, cap, 2, &mut Silent) else { return Ok(None) };
    let end = match line.reach {
        TubeReach::Covered => 0.0,
        TubeReach::Short(volume) => FILLED + volume.base() * 1e3,
        TubeReach::Uncovered => 20.0,
    };
    let opening = cap.opening_range(&mut Silent).unwrap().likely.base();
    let draws = cycle.suction.map_or(cap.vacuum_opening.likely, |suction| suction.required.likely).base();
    let behind = BehindCap { cap: *cap, ..behind(kind, 20.0, FILLED, end, opening, draws) };
    let vessel = Vessel::new(system, &behind).unwrap();
    let cold = system.fill_temperature.base() - 273.15;
    let mut charge = vessel.fill().unwrap();
    let filled = charge.mass;
    let mass = |left: f64, right: f64| (left - right).abs() < MASS * filled;
    let pressure = |charge: &Charge, right: f64| (charge.pressure - right).abs() < PRESSURE;

    walk(&vessel, &mut charge, system, (0.0, 1.0), 80, cold);
    let hot = charge;
    prop_assume!(!wet(&cycle.hot, &hot));
    prop_assert!(mass(hot.mass, cycle.hot.held.base()), "hot {} {}", hot.mass, cycle.hot.held.base());
    prop_assert!(pressure(&hot, cycle.hot.pressure.base()), "hot {} {}", hot.pressure, cycle.hot.pressure.base());

    walk(&vessel, &mut charge, system, (1.0, 0.0), 80, cold);
    let density = system.mix.density(system.fill_temperature, &mut Silent).unwrap().base();
    let returned = cycle.returned_cold.base() * density;
    prop_assert!(mass(charge.mass - hot.mass, returned), "back {} {returned}", charge.mass - hot.mass);
    let at = cycle.cold_pressure.base();
    // Full to the brim without gas, any pressure down to what draws would do; the steady answer's last digit decides.
    let brimful = system.trapped_gas.likely.base() == 0.0 && matches!(line.reach, TubeReach::Covered);
    prop_assert!(brimful || pressure(&charge, at), "cold {} {at} {:?}", charge.pressure, cycle.outcome);
    let gas = cycle.gas_cold.base();
    prop_assert!((charge.gas_volume - gas).abs() < 1e-8, "gas {} {gas}", charge.gas_volume);

    let before = charge.mass;
    walk(&vessel, &mut charge, system, (0.0, 1.0), 80, cold);
    let second = cycle.second_expelled_cold.base() * density;
    prop_assume!(!wet(&cycle.second, &charge));
    prop_assert!(mass(before - charge.mass, second), "second {} {second}", before - charge.mass);
    prop_assert!(pressure(&charge, cycle.second.pressure.base()), "{} {:?}", charge.pressure, cycle.second.pressure);
    Ok(Some(cycle.outcome))
}

#[test]
fn the_worked_examples_go_through_their_cycles() {
    let cap = |kilopascals: f64| Cap::new(GaugePressure::from_base(kilopascals * 1e3));
    let covered = ReturnLine::covered(Length::from_base(0.3));
    let short = ReturnLine { reach: TubeReach::Short(litres(0.2)), ..covered };
    let uncovered = ReturnLine { reach: TubeReach::Uncovered, ..covered };
    // A tank this far below the filler neck needs more suction than hoses bear.
    let low = ReturnLine::covered(Length::from_base(2.0));
    let stiff = Cap { vacuum_opening: Estimate::exact(Pressure::from_base(15e3)), ..cap(103.0) };
    let rows = [
        (example_1(), OPEN, cap(103.0), covered, Outcome::Returns),
        (example_1(), OPEN, cap(103.0), short, Outcome::PartReturns),
        (example_1(), OPEN, cap(103.0), uncovered, Outcome::AirReturns),
        (example_1(), OPEN, stiff, low, Outcome::NothingReturns),
        (example_2(1.0), GAS, cap(200.0), covered, Outcome::Shut),
        (example_2(0.35), GAS, cap(90.0), covered, Outcome::AirLost),
        (example_2(0.35), LIQUID, cap(90.0), covered, Outcome::Lost),
        (example_2(0.02), GAS, cap(90.0), covered, Outcome::Lost),
        (example_3(), CATCH, cap(48.0), covered, Outcome::Lost),
    ];
    for (number, (system, kind, cap, line, outcome)) in rows.into_iter().enumerate() {
        assert_eq!(compare(&system, kind, &cap, line).unwrap(), Some(outcome), "row {number}");
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(400))]

    #[test]
    fn random_systems_go_through_the_steady_cycle(
        system in any_system(),
        which in 0usize..4,
        opening in 0.0..150e3f64,
        vacuum in 0.0..12e3f64,
        lift in -0.5..1.5f64,
        reach in prop_oneof![Just(None), (0.0..0.8f64).prop_map(Some)],
    ) {
        let kind = [OPEN, CATCH, GAS, LIQUID][which];
        let cap = Cap {
            vacuum_opening: Estimate::exact(Pressure::from_base(vacuum)),
            ..Cap::new(GaugePressure::from_base(opening))
        };
        let reach = reach.map_or(TubeReach::Covered, |short| TubeReach::Short(litres(short)));
        let line = ReturnLine { reach, ..ReturnLine::covered(Length::from_base(lift)) };
        compare(&system, kind, &cap, line)?;
    }
}
