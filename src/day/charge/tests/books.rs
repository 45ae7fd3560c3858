//! Random days: nothing is lost from the books, the limits hold, and no figure brings it down.

use super::systems::{CATCH, GAS, LIQUID, OPEN, any_system, behind};
use crate::day::charge::{Change, Charge, Moved, Parts, Vessel};
use crate::day::exchange::{Temperatures, Vapour};
use crate::day::{BehindCap, Joined};
use crate::quantity::Measured;
use crate::quantity::si::ThermalConductance;
use proptest::prelude::*;

const SEALED: Joined = Joined::Recovery { sealed: true };
const SEALED_CATCH: Joined = Joined::CatchOnly { sealed: true };

fn any_kind() -> impl Strategy<Value = Joined> {
    prop_oneof![Just(OPEN), Just(CATCH), Just(GAS), Just(LIQUID), Just(SEALED), Just(SEALED_CATCH)]
}

/// A hop of a day: temperatures of the parts, of the neck and of the air in °C, seconds, vapour in L and g.
type Hop = ([f64; 3], f64, f64, f64, f64, f64);

fn any_hop() -> impl Strategy<Value = Hop> {
    let parts = [5.0..118.0f64, 5.0..105.0f64, 5.0..110.0f64];
    let vapour = prop_oneof![4 => Just(0.0), 1 => 0.0..0.5f64];
    let blown = prop_oneof![4 => Just(0.0), 1 => 0.0..50.0f64];
    (parts, 5.0..115.0f64, -5.0..60.0f64, 0.0..600.0f64, vapour, blown)
}

fn change(hop: &Hop) -> Change {
    let (celsius, neck, air, lasts, litres, grams) = *hop;
    let [engine, radiator, hoses] = celsius.map(|t| t + 273.15);
    Change {
        parts: Parts::Bodies(Temperatures { engine, radiator, hoses, air: air + 273.15 }),
        neck: neck + 273.15,
        air: air + 273.15,
        lasts,
        vapour: Vapour {
            mass: litres * 1e-3,
            volume: litres * 1e-3,
            blown: grams * 1e-3,
            latent: 2.2e6,
            temperature: 380.0,
            most: None,
        },
    }
}

fn tank_books(before: &Charge, after: &Charge, moved: &Moved) -> f64 {
    let gained = after.tank_energy - before.tank_energy;
    moved.out_energy + moved.blown_energy - moved.back_energy - moved.lost_energy - moved.tank_heat - gained
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(400))]

    #[test]
    fn a_random_day_keeps_coolant_air_heat_and_limits(
        system in any_system(),
        kind in any_kind(),
        tank in (0.3..4.0f64, 0.0..1.0f64, 0.0..1.0f64),
        cap in (0.0..150e3f64, 0.0..25e3f64),
        to_air in 0.0..20.0f64,
        hops in proptest::collection::vec(any_hop(), 1..40),
    ) {
        let (holds, filled, end) = tank;
        let behind = BehindCap {
            tank_to_air: ThermalConductance::from_base(to_air),
            ..behind(kind, holds, holds * filled, holds * end * 0.5, cap.0, cap.1)
        };
        let vessel = Vessel::new(&system, &behind).unwrap();
        let mut charge = vessel.fill().unwrap();
        let coolant = |charge: &Charge| charge.mass + charge.tank_mass + charge.lost;
        let air = |charge: &Charge| charge.gas + charge.tank_gas - charge.air_from_outside;
        let begun = charge;
        prop_assert!((begun.gas_volume - system.trapped_gas.likely.base()).abs() < 1e-12);
        let is_header = matches!(kind, Joined::Header(_));
        let ambient = vessel.ambient();
        for hop in &hops {
            let before = charge;
            let change = change(hop);
            let Ok(moved) = vessel.step(&mut charge, &change) else {
                prop_assert_eq!(charge, before);
                continue;
            };
            prop_assert!((coolant(&charge) - coolant(&begun)).abs() < 1e-11, "{moved:?}");
            prop_assert!((air(&charge) - air(&begun)).abs() < 1e-11, "{moved:?}");
            let off = if is_header {
                moved.out_energy + moved.blown_energy - moved.lost_energy
            } else {
                tank_books(&before, &charge, &moved)
            };
            prop_assert!(off.abs() < 1e-6, "{off} J {moved:?}");
            prop_assert!(before.mass - moved.out + moved.back - moved.blown - charge.mass < 1e-12);
            for amount in [moved.out, moved.back, moved.air_in, moved.air_out, moved.blown, moved.condensed,
                moved.spilled, moved.boiled_off, moved.lost, charge.mass, charge.gas, charge.tank_mass, charge.gas_volume]
            {
                prop_assert!(amount >= -1e-15, "{moved:?} {charge:?}");
            }

            let base = ambient + charge.tank_gauge;
            prop_assert!(charge.pressure <= base + cap.0 + 1e-6, "{charge:?}");
            let least = base - cap.1.max(if is_header { 0.0 } else { 5e3 });
            let spent = charge.tank_gas < 1e-9 && matches!(kind, SEALED | SEALED_CATCH);
            prop_assert!(charge.pressure > least - 1.0 || moved.blocked || spent, "{charge:?}");

            // What is inside fills the system at the pressure found.
            let hollow = vessel.hollow(&change.parts, &change.vapour).unwrap();
            let liquid = charge.mass - change.vapour.mass;
            let dry = charge.gas * charge.gas_temperature / charge.pressure;
            if liquid > 0.1 && !moved.void && !moved.gas_boils && charge.gas_volume < 0.999 * charge.gas_place.max(3.0 * dry) {
                let fits = hollow.fits(charge.gas, charge.pressure);
                prop_assert!((fits - liquid).abs() < 1e-8 * liquid, "{fits} {liquid} {charge:?}");
            }
            prop_assert!(vessel.read(&charge).is_ok());
            if !matches!(kind, SEALED | SEALED_CATCH) && charge.tank_mass > 0.0 && !is_header {
                let volume = charge.tank_mass / vessel.curves().density(charge.tank_temperature).unwrap();
                prop_assert!(volume <= holds * 1e-3 * (1.0 + 1e-9));
            }
        }
    }

    /// Whatever is put in, there is an answer or an error, and an error leaves the charge alone.
    #[test]
    fn no_figure_brings_it_down(
        kind in any_kind(),
        wild in proptest::collection::vec(
            prop_oneof![any::<f64>(), Just(f64::NAN), Just(0.0), 200.0..500.0f64, -1.0..1.0f64], 11),
    ) {
        let system = super::systems::example_3();
        let vessel = Vessel::new(&system, &behind(kind, 1.0, 0.5, 0.1, 48e3, 5e3)).unwrap();
        let mut charge = vessel.fill().unwrap();
        let vapour =
            Vapour { mass: wild[5], volume: wild[6], blown: wild[7], latent: wild[8], temperature: wild[9], most: None };
        let change = Change {
            parts: Parts::Bodies(Temperatures { engine: wild[0], radiator: wild[1], hoses: wild[2], air: wild[4] }),
            neck: wild[3],
            air: wild[4],
            lasts: wild[10],
            vapour,
        };
        let before = charge;
        match vessel.step(&mut charge, &change) {
            Ok(_) => prop_assert!(charge.mass.is_finite() && charge.pressure.is_finite() && charge.gas.is_finite()),
            Err(error) => {
                prop_assert_eq!(charge, before);
                prop_assert!(!error.to_string().is_empty());
            }
        }
        let _ = vessel.begin(wild[0]);
    }
}

/// What coolant leaves is counted at the density where the gas sits; next to empty that is more than the hollow holds, and
/// coolant and air must still fill it together.
#[test]
fn air_fills_a_system_next_to_empty() {
    let hollow = crate::day::charge::Hollow {
        brim: 17.4,
        room: 17.08e-3,
        ambient: 101_325.0,
        gas_place: 0.2e-3,
        gas_temperature: 348.0,
        gas_density: 985.0,
        gas_bubble: 30e3,
        ..Default::default()
    };
    let at = 96_325.0;
    let air = hollow.gas_beside(0.3, at);
    assert!((hollow.fits(air, at) - 0.3).abs() < 1e-9, "{}", hollow.fits(air, at));
    let stands = hollow.stands(0.3, air, at);
    assert!((stands.pressure - at).abs() < 1e-3 && !stands.void, "{stands:?}");
}
