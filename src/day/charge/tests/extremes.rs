//! Where a day goes beyond the steady answers: empty tanks, spilling, steam, height above the sea.

use super::systems::{CATCH, GAS, OPEN, behind, change, example_1, example_2, example_3, parts_at, walk};
use crate::coolant::{FilledSystem, Tank, TankShape};
use crate::day::charge::{Change, Charge, Vessel};
use crate::day::exchange::Vapour;
use crate::day::{BehindCap, CapState, Joined};
use crate::fluid::air;
use crate::quantity::si::{Length, ThermalConductance, ThermodynamicTemperature, Volume};
use crate::quantity::{Estimate, Measured};
use crate::scribe::Silent;

fn boiling(blown: f64, volume: f64) -> Vapour {
    Vapour { mass: volume, volume, blown, latent: 2.2e6, temperature: 380.0, most: None }
}

#[test]
fn an_empty_tank_gives_air_and_says_so() {
    let system = example_1();
    // The tube's end stands above all that ever comes in.
    let vessel = Vessel::new(&system, &behind(OPEN, 3.0, 0.0, 2.9, 103e3, 6e3)).unwrap();
    let mut charge = vessel.fill().unwrap();
    walk(&vessel, &mut charge, &system, (0.0, 1.0), 50, 40.0);
    let hot = charge;
    let moved = walk(&vessel, &mut charge, &system, (1.0, 0.0), 50, 15.0);
    assert!(moved.iter().all(|moved| moved.back == 0.0) && moved.iter().any(|moved| moved.uncovered));
    assert!(hot.tank_mass > 0.4 && charge.tank_mass == hot.tank_mass && charge.gas > 4.0 * hot.gas, "{charge:?}");
    // Air comes up an open tube at the valve's own opening: there is nothing to lift.
    assert!((charge.pressure - (vessel.ambient() - 5e3)).abs() < 1e-6);
}

#[test]
fn a_tank_without_liquid_does_not_mind_frost_nor_being_dry() {
    let system = example_1();
    let vessel = Vessel::new(&system, &behind(OPEN, 3.0, 0.0, 0.0, 103e3, 6e3)).unwrap();
    let mut charge = vessel.fill().unwrap();
    let parts = parts_at(&system, 0.0);
    let moved = vessel.step(&mut charge, &change(&parts, -39.0)).unwrap();
    assert_eq!((moved.out, moved.back, charge.tank_mass), (0.0, 0.0, 0.0));
    let reading = vessel.read(&charge).unwrap();
    assert_eq!((reading.in_tank.base(), reading.cap), (0.0, CapState::Shut));
    assert!((reading.tank.base() - 234.15).abs() < 1e-9 && reading.level.is_some());
    // In a warm-up it fills, on cooling it is drawn dry to the last drop and then gives air.
    walk(&vessel, &mut charge, &system, (0.0, 1.0), 50, 30.0);
    assert!(charge.tank_mass > 0.4);
    let more = walk(&vessel, &mut charge, &system, (1.0, 0.0), 50, 15.0);
    assert!(charge.tank_mass.abs() < 0.2);
    assert!(more.iter().map(|moved| moved.back).sum::<f64>() > 0.4);
}

#[test]
fn a_cold_morning_draws_the_tank_dry() {
    let system = example_1();
    let vessel = Vessel::new(&system, &behind(OPEN, 3.0, 0.02, 0.0, 103e3, 6e3)).unwrap();
    let mut charge = vessel.begin(273.15 - 25.0).unwrap();
    assert!(charge.tank_mass < 1e-12 && charge.last.back > 0.02 && charge.last.uncovered, "{charge:?}");
    assert!(vessel.read(&charge).unwrap().out.base() < 0.0, "more in the system than was filled");
    let parts = parts_at(&system, 1.0);
    vessel.step(&mut charge, &change(&parts, 20.0)).unwrap();
    assert!(charge.tank_mass > 0.3);
}

#[test]
fn a_full_tank_spills_and_the_loss_is_missed_on_cooling() {
    let system = example_1();
    let vessel = Vessel::new(&system, &behind(OPEN, 1.0, 0.9, 0.0, 103e3, 6e3)).unwrap();
    let mut charge = vessel.fill().unwrap();
    let moved = walk(&vessel, &mut charge, &system, (0.0, 1.0), 50, 50.0);
    let spilled: f64 = moved.iter().map(|moved| moved.spilled_volume).sum();
    assert!((0.45..0.6).contains(&(spilled * 1e3)), "{spilled}");
    assert!((charge.lost - moved.iter().map(|moved| moved.spilled).sum::<f64>()).abs() < 1e-12);
    let reading = vessel.read(&charge).unwrap();
    assert!((reading.in_tank.base() - 1e-3).abs() < 1e-9 && (reading.level.unwrap().base() - 0.2).abs() < 1e-6);
}

#[test]
fn the_tank_cools_by_the_exponential_in_steps_of_any_size() {
    let system = example_1();
    let behind =
        BehindCap { tank_to_air: ThermalConductance::from_base(3.0), ..behind(OPEN, 3.0, 1.0, 0.1, 103e3, 6e3) };
    let vessel = Vessel::new(&system, &behind).unwrap();
    let parts = parts_at(&system, 0.0);
    let run = |steps: u32| {
        let mut charge = vessel.fill().unwrap();
        charge.tank_temperature = 353.15;
        charge.tank_energy = charge.tank_mass * vessel.curves().enthalpy(353.15).unwrap();
        let step = Change { lasts: 1800.0 / f64::from(steps), ..change(&parts, 20.0) };
        for _ in 0..steps {
            vessel.step(&mut charge, &step).unwrap();
        }
        charge
    };
    let (one, many) = (run(1), run(600));
    // The time it should have taken, ∫ m cp dT/(UA (T − T_air)), with the mix's own specific heat.
    let taken: f64 = (0..2000)
        .map(|i| {
            let step = (353.15 - many.tank_temperature) / 2000.0;
            let at = ThermodynamicTemperature::from_base(many.tank_temperature + (f64::from(i) + 0.5) * step);
            let heat = system.mix.specific_heat(at, &mut Silent).unwrap().base();
            many.tank_mass * heat * step / (3.0 * (at.base() - 293.15))
        })
        .sum();
    assert!((taken - 1800.0).abs() < 1.0, "{taken}");
    assert!((one.tank_temperature - many.tank_temperature).abs() < 0.2, "{one:?}");
    assert!((one.tank_heat + one.tank_energy - many.tank_heat - many.tank_energy).abs() < 1e-6);
}

#[test]
fn steam_condenses_in_the_tank_until_that_boils_too() {
    let system = example_3();
    let behind = |filled| BehindCap {
        tank_to_air: ThermalConductance::from_base(0.0),
        ..behind(CATCH, 4.0, filled, 0.1, 48e3, 5e3)
    };
    let parts = parts_at(&system, 1.0);
    let blow = |vessel: &Vessel, charge: &mut Charge, kilograms: f64| {
        let change = Change { vapour: boiling(kilograms, 0.3e-3), ..change(&parts, 20.0) };
        vessel.step(charge, &change).unwrap()
    };
    let vessel = Vessel::new(&system, &behind(1.0)).unwrap();
    let mut charge = vessel.fill().unwrap();
    vessel.step(&mut charge, &change(&parts, 20.0)).unwrap();
    let before = charge;
    let moved = blow(&vessel, &mut charge, 0.02);
    assert_eq!((moved.blown, moved.condensed, moved.lost), (0.02, 0.02, 0.0));
    // 20 g of steam give some 48 kJ to what was in the tank.
    let warmer = charge.tank_temperature - before.tank_temperature;
    assert!(warmer > 5.0 && charge.mass < before.mass - 0.02, "{warmer}");
    // The tank boils at last; what it cannot condense is lost.
    let mut lost = 0.0;
    for _ in 0..20 {
        lost += blow(&vessel, &mut charge, 0.02).lost;
    }
    let boils = vessel.curves().boils_at(vessel.ambient()).unwrap();
    assert!((charge.tank_temperature - boils).abs() < 1e-6 && lost > 0.1, "{charge:?} {lost}");
    // A dry can condenses nothing.
    let dry = Vessel::new(&example_3(), &behind(0.0)).unwrap();
    let mut charge = dry.fill().unwrap();
    let cold = parts_at(&system, 0.0);
    let change = Change { vapour: boiling(0.01, 0.0), ..change(&cold, 20.0) };
    let moved = dry.step(&mut charge, &change).unwrap();
    assert_eq!((moved.condensed, moved.lost), (0.0, 0.01));
}

#[test]
fn vapour_pushes_coolant_out_and_its_collapse_draws_it_back() {
    let system = example_1();
    let vessel = Vessel::new(&system, &behind(OPEN, 5.0, 1.0, 0.1, 103e3, 6e3)).unwrap();
    let mut charge = vessel.fill().unwrap();
    walk(&vessel, &mut charge, &system, (0.0, 1.0), 50, 40.0);
    let parts = parts_at(&system, 1.0);
    let before = charge;
    let change = change(&parts, 40.0);
    let moved = vessel.step(&mut charge, &Change { vapour: boiling(0.0, 0.5e-3), ..change }).unwrap();
    // Half a litre of hot coolant, and its 0.5 g of vapour stays inside.
    let density = vessel.curves().density(380.0).unwrap();
    assert!((moved.out - (0.5e-3 * density - 0.5e-3)).abs() < 1e-9, "{moved:?}");
    let moved = vessel.step(&mut charge, &change).unwrap();
    assert!(moved.back > 0.15 && charge.pressure < vessel.ambient(), "{moved:?}");
    assert!(charge.mass < before.mass, "the hoses no longer swell and the gas has grown");
}

#[test]
fn coolant_let_out_above_its_boiling_point_boils_in_the_tank() {
    let system = example_1();
    let behind =
        BehindCap { tank_to_air: ThermalConductance::from_base(0.0), ..behind(OPEN, 5.0, 0.0, 0.0, 103e3, 6e3) };
    let vessel = Vessel::new(&system, &behind).unwrap();
    let mut charge = vessel.fill().unwrap();
    let parts = parts_at(&system, 1.0);
    let moved = vessel.step(&mut charge, &Change { neck: 273.15 + 120.0, ..change(&parts, 20.0) }).unwrap();
    let boils = vessel.curves().boils_at(vessel.ambient()).unwrap();
    assert!((charge.tank_temperature - boils).abs() < 1e-9);
    // cp·ΔT/h_fg: some 13 K of 3.6 kJ/(kg·K) over 2.2 MJ/kg, 2 %.
    let share = moved.boiled_off / moved.out;
    assert!((0.01..0.04).contains(&share), "{share}");
}

#[test]
fn at_3000_m_the_cap_opens_at_its_gauge_pressure_and_the_thinner_gas_gives_way_more() {
    let high = FilledSystem {
        ambient: air::standard_pressure(Length::from_base(3000.0), &mut Silent).unwrap(),
        ..example_1()
    };
    let run = |system: &FilledSystem| {
        let vessel = Vessel::new(system, &behind(OPEN, 3.0, 1.0, 0.1, 103e3, 6e3)).unwrap();
        let mut charge = vessel.fill().unwrap();
        walk(&vessel, &mut charge, system, (0.0, 1.0), 50, 40.0);
        (charge, vessel.read(&charge).unwrap())
    };
    let ((low, read_low), (high, read_high)) = (run(&example_1()), run(&high));
    assert!((read_high.gauge.base() - 103e3).abs() < 1e-6 && (read_low.gauge.base() - 103e3).abs() < 1e-6);
    assert!(high.pressure < low.pressure - 27e3 && (high.pressure - 103e3 - 70_108.0).abs() < 100.0, "{high:?}");
    assert!(read_high.out < read_low.out);
}

#[test]
fn a_header_tank_reads_its_own_liquid_and_the_system_s_pressure() {
    let system = example_2(1.0);
    let vessel = Vessel::new(&system, &behind(GAS, 2.0, 0.0, 0.0, 200e3, 5e3)).unwrap();
    let mut charge = vessel.fill().unwrap();
    let cold = vessel.read(&charge).unwrap();
    assert!((cold.in_tank.base() - 1e-3).abs() < 1e-9 && (cold.level.unwrap().base() - 0.1).abs() < 1e-6);
    walk(&vessel, &mut charge, &system, (0.0, 1.0), 20, 40.0);
    let hot = vessel.read(&charge).unwrap();
    assert!(hot.in_tank.base() > 1.25e-3 && hot.tank_gauge == hot.gauge && hot.gauge.base() > 100e3);
    assert!(hot.lost.base() == 0.0 && (hot.tank.base() - 373.15).abs() < 1e-9);
}

#[test]
fn steam_under_a_sealed_lid_stays_where_nothing_condenses_it() {
    let system = example_3();
    let vessel = Vessel::new(&system, &behind(Joined::CatchOnly { sealed: true }, 4.0, 0.0, 0.0, 48e3, 5e3)).unwrap();
    let mut charge = vessel.fill().unwrap();
    let cold = parts_at(&system, 0.0);
    let before = charge.mass;
    let moved = vessel.step(&mut charge, &Change { vapour: boiling(0.01, 0.0), ..change(&cold, 20.0) }).unwrap();
    assert_eq!((moved.blown, moved.lost, charge.mass), (0.0, 0.0, before));
}

#[test]
fn wrong_figures_of_the_tank_are_named() {
    let good = behind(OPEN, 3.0, 1.0, 0.1, 103e3, 6e3);
    let told = |behind: &BehindCap| Vessel::new(&example_1(), behind).unwrap_err().to_string();
    let full = BehindCap { filled: Volume::from_base(4e-3), ..good.clone() };
    assert!(told(&full).contains("coolant in the tank when filled"), "{}", told(&full));
    let long = BehindCap { tube_end: Length::from_base(0.5), ..good.clone() };
    assert!(told(&long).contains("liquid height in the tank"), "{}", told(&long));
    let hot = BehindCap { tank_to_air: ThermalConductance::from_base(-1.0), ..good.clone() };
    assert!(told(&hot).contains("heat from the tank"), "{}", told(&hot));
    // Below the first row of a dip table nothing is known, and that row counts as the end of the tube's reach.
    let rows = [(0.02, 0.3), (0.06, 0.9), (0.1, 1.6), (0.15, 2.4)];
    let rows = rows.map(|(h, v)| (Length::from_base(h), Volume::from_base(v * 1e-3)));
    let tank = Tank::new(TankShape::DipTable(rows.to_vec())).unwrap();
    let table = BehindCap { tank, tube_end: Length::from_base(0.01), filled: Volume::from_base(0.4e-3), ..good };
    let mut system = example_1();
    system.trapped_gas = Estimate::exact(Volume::from_base(0.0));
    let vessel = Vessel::new(&system, &table).unwrap();
    let charge = vessel.begin(273.15 - 20.0).unwrap();
    let density = vessel.curves().density(253.15).unwrap();
    assert!(charge.last.uncovered && (charge.tank_mass / density - 0.3e-3).abs() < 1e-9, "{charge:?}");
}
