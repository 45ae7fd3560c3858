//! The systems of the three worked examples: invented cars.

use coldmark::coolant::*;
use coldmark::fluid::{Base, Basis, Mix, air};
use coldmark::quantity::si::*;
use coldmark::quantity::{AbsolutePressure, Estimate, GaugePressure, Measured, Swell, celsius, pascals};
use coldmark::scribe::Silent;

pub fn litres(value: f64) -> Volume {
    Volume::from_base(value * 1e-3)
}

pub fn metres(value: f64) -> Length {
    Length::from_base(value)
}

pub fn gauge(value: f64) -> GaugePressure {
    GaugePressure::new(pascals(value))
}

pub fn standard_air(metres_up: f64) -> AbsolutePressure {
    air::standard_pressure(metres(metres_up), &mut Silent).unwrap()
}

pub fn mix(base: Base, by_volume: f64) -> Mix {
    Mix::new(base, Ratio::from_base(by_volume), Basis::ByVolume).unwrap()
}

/// The handbook values the examples use: one for each metal, none spread.
pub fn part(name: &str, volume: f64, material: Material, hot: f64) -> Region {
    Region::new(name, Estimate::exact(litres(volume)), material, celsius(hot))
}

pub fn swell() -> Estimate<Swell> {
    defaults::hose_swell().estimate
}

/// 15 L, ethylene glycol 50 %, recovery tank, 103 kPa cap, 300 m.
pub fn example_1() -> FilledSystem {
    FilledSystem {
        mix: mix(Base::EthyleneGlycol, 0.5),
        circuit: Circuit::of(vec![
            part("engine", 7.5, Material::GreyIron, 95.0),
            part("radiator", 5.0, Material::CastAluminium, 86.0),
            part("heater", 1.0, Material::CastAluminium, 90.0),
            part("hoses", 1.5, Material::Hose, 90.0),
        ]),
        fill_temperature: celsius(15.0),
        ambient: standard_air(300.0),
        trapped_gas: Estimate::new(litres(0.0), litres(0.1), litres(0.3)).unwrap(),
        gas_in: "heater".to_owned(),
        swell: swell(),
    }
}

pub fn example_2(header: f64, cushion: f64) -> FilledSystem {
    FilledSystem {
        mix: mix(Base::EthyleneGlycol, 0.4),
        circuit: Circuit::of(vec![
            part("engine", 2.6, Material::CastAluminium, 104.0),
            part("radiator", 2.0, Material::CastAluminium, 95.0),
            part("heater and hoses", 1.1, Material::Hose, 100.0),
            part("header tank", header, Material::Hose, 98.0),
        ]),
        fill_temperature: celsius(20.0),
        ambient: standard_air(1800.0),
        trapped_gas: Estimate::exact(litres(cushion)),
        gas_in: "header tank".to_owned(),
        swell: swell(),
    }
}

/// 14.5 L, propylene glycol 50 %, open can, 48 kPa cap, sea level.
pub fn example_3() -> FilledSystem {
    FilledSystem {
        mix: mix(Base::PropyleneGlycol, 0.5),
        circuit: Circuit::of(vec![
            part("engine", 7.0, Material::GreyIron, 98.0),
            part("radiator", 5.5, Material::Brass, 92.0),
            part("hoses", 2.0, Material::Hose, 94.0),
        ]),
        fill_temperature: celsius(20.0),
        ambient: standard_air(0.0),
        trapped_gas: Estimate::exact(litres(0.0)),
        gas_in: "hoses".to_owned(),
        swell: swell(),
    }
}

pub fn limit(system: &FilledSystem, opening: f64) -> AbsolutePressure {
    gauge(opening).to_absolute(system.ambient)
}
