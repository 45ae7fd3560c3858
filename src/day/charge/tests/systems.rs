//! The systems the tests run: the invented cars of the three worked examples, and random ones.

use crate::coolant::{Cap, CapSits, Circuit, FilledSystem, Material, Region, Tank, TankShape, defaults};
use crate::day::charge::{Change, Charge, Moved, Parts, Vessel};
use crate::day::exchange::{Temperatures, Vapour};
use crate::day::{BehindCap, Joined};
use crate::fluid::{Base, Basis, Mix, air};
use crate::quantity::si::{Length, Pressure, Ratio, TemperatureCoefficient, ThermalConductance, Volume};
use crate::quantity::{Estimate, GaugePressure, Measured, Swell, celsius};
use crate::scribe::Silent;
use proptest::prelude::*;

pub fn litres(value: f64) -> Volume {
    Volume::from_base(value * 1e-3)
}

pub fn mix(base: Base, by_volume: f64) -> Mix {
    Mix::new(base, Ratio::from_base(by_volume), Basis::ByVolume).unwrap()
}

fn part(name: &str, volume: f64, material: Material, hot: f64) -> Region {
    Region::new(name, Estimate::exact(litres(volume)), material, celsius(hot))
}

fn filled(mix: Mix, regions: Vec<Region>, fill: f64, altitude: f64, gas: f64, gas_in: &str) -> FilledSystem {
    FilledSystem {
        mix,
        circuit: Circuit::of(regions),
        fill_temperature: celsius(fill),
        ambient: air::standard_pressure(Length::from_base(altitude), &mut Silent).unwrap(),
        trapped_gas: Estimate::exact(litres(gas)),
        gas_in: gas_in.to_owned(),
        swell: defaults::hose_swell().estimate,
    }
}

/// 15 L, ethylene glycol 50 %, recovery tank, 103 kPa cap, 300 m.
pub fn example_1() -> FilledSystem {
    let parts = vec![
        part("engine", 7.5, Material::GreyIron, 95.0),
        part("radiator", 5.0, Material::CastAluminium, 86.0),
        part("heater", 1.0, Material::CastAluminium, 90.0),
        part("hoses", 1.5, Material::Hose, 90.0),
    ];
    filled(mix(Base::EthyleneGlycol, 0.5), parts, 15.0, 300.0, 0.1, "heater")
}

/// Header tank of 2 L, as hot as the hoses, with a cushion in litres, ethylene glycol 40 %, 1800 m.
pub fn example_2(cushion: f64) -> FilledSystem {
    let parts = vec![
        part("engine", 2.6, Material::CastAluminium, 104.0),
        part("radiator", 2.0, Material::CastAluminium, 95.0),
        part("heater and hoses", 1.1, Material::Hose, 100.0),
        part("header tank", 2.0, Material::Hose, 100.0),
    ];
    filled(mix(Base::EthyleneGlycol, 0.4), parts, 20.0, 1800.0, cushion, "header tank")
}

/// 14.5 L, propylene glycol 50 %, open can, 48 kPa cap, sea level.
pub fn example_3() -> FilledSystem {
    let parts = vec![
        part("engine", 7.0, Material::GreyIron, 98.0),
        part("radiator", 5.5, Material::Brass, 92.0),
        part("hoses", 2.0, Material::Hose, 94.0),
    ];
    filled(mix(Base::PropyleneGlycol, 0.5), parts, 20.0, 0.0, 0.0, "hoses")
}

/// An upright box of so many litres and 0.2 m height, filled to so many litres, its tube ending above so many.
pub fn behind(kind: Joined, holds: f64, filled: f64, reach_above: f64, opening: f64, draws: f64) -> BehindCap {
    let height = 0.2;
    let side = (holds * 1e-3 / height).sqrt();
    let shape = TankShape::Box {
        length: Length::from_base(side),
        width: Length::from_base(side),
        height: Length::from_base(height),
    };
    let tank = Tank::new(shape).unwrap();
    let end = tank.height_at(litres(reach_above), &mut Silent).unwrap();
    let opening = GaugePressure::from_base(opening);
    BehindCap {
        tank,
        filled: litres(filled),
        cap: Cap::new(opening),
        opening,
        draws: Pressure::from_base(draws),
        kind,
        tank_to_air: ThermalConductance::from_base(1e4),
        tube_end: end,
    }
}

pub const OPEN: Joined = Joined::Recovery { sealed: false };
pub const CATCH: Joined = Joined::CatchOnly { sealed: false };
pub const GAS: Joined = Joined::Header(CapSits::InGas);
pub const LIQUID: Joined = Joined::Header(CapSits::InLiquid);

/// Takes every part in equal steps from one share of the warm-up to another, the tank in air of so many °C.
pub fn walk(
    vessel: &Vessel,
    charge: &mut Charge,
    system: &FilledSystem,
    shares: (f64, f64),
    steps: usize,
    tank: f64,
) -> Vec<Moved> {
    let mut all = Vec::new();
    for step in 1..=steps {
        let share = shares.0 + (shares.1 - shares.0) * step as f64 / steps as f64;
        let parts = parts_at(system, share);
        all.push(vessel.step(charge, &change(&parts, tank)).unwrap());
    }
    all
}

pub fn parts_at(system: &FilledSystem, share: f64) -> Vec<f64> {
    system.temperatures_at(Ratio::from_base(share)).unwrap().into_iter().map(Measured::base).collect()
}

/// Engine, radiator and all the rest; the neck as hot as the radiator, the tank in air of so many °C, long enough to take that temperature.
pub fn change(parts: &[f64], tank: f64) -> Change {
    let air = tank + 273.15;
    let bodies = Temperatures { engine: parts[0], radiator: parts[1], hoses: parts[2], air };
    Change { parts: Parts::Bodies(bodies), neck: parts[1], air, lasts: 1e5, vapour: Vapour::default() }
}

/// Systems as a builder may have them, without a tank of their own.
pub fn any_system() -> impl Strategy<Value = FilledSystem> {
    let base = prop_oneof![Just(Base::EthyleneGlycol), Just(Base::PropyleneGlycol)];
    let volumes = (1.0..10.0f64, 1.0..8.0f64, 0.2..3.0f64);
    let hot = (60.0..112.0f64, 50.0..105.0f64, 55.0..110.0f64);
    let more = (0.0..25.0f64, 0.0..3000.0f64, prop_oneof![Just(0.0), 0.0..0.5f64], 0usize..3, 0.0..6e-7f64);
    (base, 0.2..0.6f64, volumes, hot, more).prop_map(|(base, share, volumes, hot, more)| {
        let names = ["engine", "radiator", "heater and hoses"];
        let parts = vec![
            part(names[0], volumes.0, Material::GreyIron, hot.0),
            part(names[1], volumes.1, Material::CastAluminium, hot.1),
            part(names[2], volumes.2, Material::Hose, hot.2),
        ];
        let (fill, altitude, gas, gas_in, swell) = more;
        // No more gas than a part could hold when filled.
        let gas = gas.min(0.3 * [volumes.0, volumes.1, volumes.2][gas_in]);
        let mut system = filled(mix(base, share), parts, fill, altitude, gas, names[gas_in]);
        system.swell = Estimate::exact(Swell::from_base(swell));
        system.circuit.regions[1].expansion = Estimate::exact(TemperatureCoefficient::from_base(2e-5));
        system
    })
}
