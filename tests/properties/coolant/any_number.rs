//! Any number at all, in any place: an answer of numbers, or an error.

use super::{absolute, exact, gauge, metres, number, system};
use coldmark::coolant::boiling::{HottestPassage, boiling_margin, pump_inlet_margin};
use coldmark::coolant::tilt::{Cover, DipTube, LengthLies, Tilt, cover, volume_for_cover};
use coldmark::coolant::vent::{LiftedLiquid, Vent, VentGas, VentLoad, smallest_hole, smallest_tube};
use coldmark::coolant::*;
use coldmark::quantity::{Estimate, Measured};
use coldmark::scribe::Silent;
use proptest::prelude::*;

proptest! {
    /// Any 64 bits as a number, in every place at once.
    #[test]
    fn nothing_panics_and_nothing_is_no_number(raw in prop::collection::vec(prop::num::f64::ANY, 24), pick in any::<u32>(), sane in system()) {
        // Each bit spoils one figure of an otherwise sensible call.
        let spoilt = |which: usize, sensible: f64| {
            if pick >> which & 1 == 1 { raw.get(which).copied().unwrap_or(f64::NAN) } else { sensible }
        };
        let mut system = sane;
        system.fill_temperature = number(spoilt(0, system.fill_temperature.base()));
        system.ambient = number(spoilt(1, system.ambient.base()));
        system.trapped_gas = exact(spoilt(2, 1e-4));
        system.swell = exact(spoilt(3, 3e-7));
        system.circuit.scale = exact(spoilt(4, 1.0));
        if let Some(region) = system.circuit.regions.first_mut() {
            region.hot = number(spoilt(5, region.hot.base()));
            region.volume = exact(spoilt(6, region.volume.likely.base()));
            region.expansion = exact(spoilt(7, 1e-5));
        }
        let opening = spoilt(8, 1e5);
        let cap = Cap { vacuum_opening: exact(spoilt(9, 5e3)), ..Cap::new(gauge(opening)) };
        let to = absolute(system.ambient.base() + opening);
        let finite = |state: &SystemState| {
            [state.pressure.base(), state.expelled.base(), state.held.base(), state.gas_volume.base()]
                .iter()
                .all(|value| value.is_finite())
        };
        if let Ok(state) = system.settle_hot(to, &mut Silent) {
            prop_assert!(finite(&state));
        }
        if let Ok(growth) = system.growth(&Estimate::exact(to), &Doubt::usual(&system.mix), &mut Silent) {
            prop_assert!(growth.volume.low.base().is_finite() && growth.volume.high.base().is_finite());
        }
        let hot_tank = number(spoilt(10, 323.15));
        let tank = SealedTank { air: number(spoilt(11, 1e-3)), filled_at: system.fill_temperature, hot: hot_tank };
        let line = ReturnLine { reach: TubeReach::Short(number(spoilt(12, 1e-4))), ..ReturnLine::covered(number(spoilt(13, 0.1))) };
        for arrangement in [
            Arrangement::RecoveryTank { lid: Lid::Sealed(tank), tank_temperature: hot_tank, line },
            Arrangement::RecoveryTank { lid: Lid::Vented(gauge(spoilt(14, 0.0))), tank_temperature: hot_tank, line },
            Arrangement::CatchOnly { lid: Lid::Sealed(tank), tank_temperature: hot_tank },
            Arrangement::PressurisedHeaderTank { cap: CapSits::InGas },
        ] {
            if let Ok(cycle) = arrangement.cycle(&system, &cap, 3, &mut Silent) {
                prop_assert!(finite(&cycle.hot) && finite(&cycle.second));
                prop_assert!(cycle.cold_pressure.base().is_finite() && cycle.gas_cold.base().is_finite());
            }
        }
        if let Ok(cushion) = system.smallest_cushion(gauge(opening), number(spoilt(15, 0.85)), &mut Silent) {
            prop_assert!(cushion.base().is_finite());
        }
        let passage = HottestPassage { excess: exact(spoilt(16, 8.0)), ..HottestPassage::usual(number(spoilt(5, 368.15))) };
        if let Ok(margin) = boiling_margin(&system.mix, &Estimate::exact(to), &passage, &mut Silent) {
            prop_assert!(margin.margin.low.base().is_finite() && margin.margin.high.base().is_finite());
        }
        let _ = pump_inlet_margin(&system.mix, to, &exact(spoilt(17, 2e4)), number(spoilt(5, 350.0)), &mut Silent);
        let shapes = [
            TankShape::TaperedBox {
                bottom_length: number(spoilt(18, 0.2)),
                bottom_width: metres(0.1),
                top_length: metres(0.3),
                top_width: number(spoilt(19, 0.1)),
                height: number(spoilt(20, 0.2)),
            },
            TankShape::DipTable((1..6).map(|i| (number(f64::from(i) * spoilt(18, 0.01)), number(f64::from(i) * spoilt(19, 1e-4)))).collect()),
        ];
        for shape in shapes {
            let Ok(tank) = Tank::new(shape) else { continue };
            let tube = DipTube { along: number(spoilt(21, 0.0)), across: metres(0.0), end: number(spoilt(22, 0.01)), length_lies: LengthLies::Along };
            let tilt = Tilt { forward: number(spoilt(23, 4.0)), right: number(spoilt(16, 4.0)), grade: number(spoilt(17, 0.0)) };
            if let Ok(Cover::Known(depth)) = cover(&tank, number(spoilt(11, 5e-4)), &tube, &tilt, &mut Silent) {
                prop_assert!(depth.base().is_finite());
            }
            if let Ok(volume) = volume_for_cover(&tank, &tube, &[tilt], number(spoilt(22, 0.005)), &mut Silent) {
                prop_assert!(volume.base().is_finite());
            }
            let need = HeadroomNeed::usual(number(spoilt(6, 0.015)), exact(spoilt(10, 6e-4)), Some(number(spoilt(11, 3e-4))));
            if let Ok(room) = headroom(&tank, &need, &mut Silent) {
                prop_assert!(room.required.high.base().is_finite() && room.left.low.base().is_finite());
            }
        }
        let load = VentLoad { gas: VentGas::Air(number(spoilt(0, 300.0))), flow: exact(spoilt(1, 1e-3)) };
        for vent in [Vent::hole(number(spoilt(2, 5e-3))), Vent::Tube { bore: number(spoilt(2, 5e-3)), length: number(spoilt(3, 0.5)) }] {
            if let Ok(found) = vent.pressure(&load, number(spoilt(4, 1e5)), &mut Silent) {
                prop_assert!(found.gauge.low.base().is_finite() && found.gauge.high.base().is_finite());
            }
        }
        let _ = smallest_hole(&load, gauge(spoilt(5, 2e3)), &exact(spoilt(6, 0.6)), absolute(1e5), &mut Silent);
        let _ = smallest_tube(&load, number(spoilt(3, 0.5)), gauge(spoilt(5, 2e3)), absolute(1e5), &mut Silent);
        let heat = exact(spoilt(7, 3e3));
        let _ = VentLoad::boil_over(&heat, number(spoilt(4, 1e5)), &mut Silent);
        let _ = VentLoad::hose_ceiling(number(spoilt(2, 8e-3)), number(spoilt(4, 2e5)), &exact(spoilt(6, 0.8)), &mut Silent);
        if let Ok(lifted) = LiftedLiquid::by_boiling(&heat, number(spoilt(4, 2e5)), number(spoilt(0, 380.0)), number(spoilt(1, 320.0)), &mut Silent) {
            let _ = VentLoad::cap_lift(&system.mix, &lifted, absolute(1e5), &mut Silent);
        }
        let _ = VentLoad::warm_up(&exact(spoilt(10, 6e-4)), number(spoilt(8, 480.0)), number(spoilt(1, 320.0)), absolute(1e5), &mut Silent);
        let volume = SystemVolume::Built {
            block: Part { volume: exact(spoilt(6, 4e-3)), material: Material::GreyIron },
            heads: Part { volume: exact(2e-3), material: Material::GreyIron },
            radiator: Part { volume: exact(4e-3), material: Material::Brass },
            heater: Part { volume: exact(1e-3), material: Material::Copper },
            hoses: vec![HoseRun { bore: number(spoilt(2, 0.038)), length: number(spoilt(3, 1.0)) }],
        };
        if let Ok(circuit) = volume.circuit(&HotTemperatures::from_engine(number(spoilt(5, 368.15))), &mut Silent) {
            prop_assert!(circuit.total().base().is_finite());
        }
    }
}
