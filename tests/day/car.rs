//! An invented V8 and what it does.

use coldmark::coolant::{Cap, FilledSystem, HotTemperatures, Material, Shares, SystemVolume, Tank, TankShape};
use coldmark::day::{BehindCap, Heats, Joined, Lumps, Stretch, Turning};
use coldmark::fluid::{Base, Basis, Mix};
use coldmark::heat::{Airflow, Pump, Radiator, Thermostat};
use coldmark::quantity::{AbsolutePressure, Estimate, GaugePressure, Measured, Swell, celsius, pascals};
use coldmark::scribe::Silent;

pub const RPM: f64 = std::f64::consts::PI / 30.0;

pub fn of<Q: Measured>(value: f64) -> Q {
    Q::from_base(value)
}

pub fn ambient(pascal: f64) -> AbsolutePressure {
    AbsolutePressure::new(pascals(pascal))
}

/// 15 L of half ethylene glycol in a 5.7 L V8, recovery tank behind a 103 kPa cap.
pub fn v8() -> Lumps {
    let mix = Mix::new(Base::EthyleneGlycol, of(0.5), Basis::ByVolume).unwrap();
    let hot = HotTemperatures::from_engine(celsius(95.0));
    let volume = SystemVolume::Measured {
        total: Estimate::exact(of(15e-3)),
        shares: Shares::default(),
        engine: Material::GreyIron,
        radiator: Material::Brass,
    };
    let circuit = volume.circuit(&hot, &mut Silent).unwrap();
    let opening = GaugePressure::from_base(103.4e3);
    Lumps {
        system: FilledSystem {
            mix,
            circuit,
            fill_temperature: celsius(20.0),
            ambient: ambient(101_325.0),
            trapped_gas: Estimate::exact(of(1e-4)),
            gas_in: "engine".to_owned(),
            swell: Estimate::exact(Swell::from_base(3e-7)),
        },
        radiator: Radiator {
            ua_reference: of(2000.0),
            reference_face_velocity: of(5.0),
            reference_air_density: of(1.15),
            reference_coolant_flow: of(2e-3),
            frontal_area: of(0.30),
            air_side_resistance_share: of(0.8),
            air_side_exponent: of(0.6),
            reference_coolant: None,
            tubes: None,
        },
        pump: Pump { flow_at_1000_rpm: of(0.6e-3) },
        thermostat: Thermostat { set_point: celsius(82.0), span: of(12.0), resistance_share: of(1.0) },
        closing_lag: of(3.0),
        wax_lag: of(10.0),
        airflow: Airflow {
            road_speed: of(0.0),
            ram_share: of(0.17),
            fan_velocity: of(2.5),
            draught: of(0.15),
            recirculation_rise: of(10.0),
            recirculation_gone_at: of(30.0 / 3.6),
        },
        fan_by_engine: Vec::new(),
        fan_switch: None,
        fan_runs_on: false,
        hot_metal: of(14e3),
        hot_metal_running: of(1140.0),
        hot_metal_still: of(68.0),
        flow_power: of(0.8),
        block: of(62e3),
        block_running: of(270.0),
        block_still: of(54.0),
        block_to_air: of(12.0),
        block_to_air_on_road: of(28.0),
        oil: of(14e3),
        oil_to_block: of(60.0),
        oil_to_air: of(5.0),
        oil_to_air_on_road: of(20.0),
        oil_cooler_on_road: of(0.0),
        oil_cooler_opens: None,
        radiator_metal: of(5e3),
        radiator_still: of(0.1),
        heater_flow: of(0.2),
        hoses_to_air: of(4.0),
        heater: of(0.0),
        behind_cap: BehindCap {
            tank: Tank::new(TankShape::UprightCylinder { diameter: of(0.12), height: of(0.25) }).unwrap(),
            filled: of(0.5e-3),
            cap: Cap::new(opening),
            opening,
            draws: of(5e3),
            kind: Joined::Recovery { sealed: false },
            tank_to_air: of(1.0),
            tube_end: of(0.01),
        },
        local_excess: of(8.0),
        surge: of(0.10),
    }
}

/// At a speed on the road, in air of a temperature in °C.
pub fn drives(lasts: f64, air: f64, road: f64, rpm: f64) -> Stretch {
    let turning = Turning { speed: of(rpm * RPM), power: of(0.0), overrun: false, gear: None, missing: of(0.0) };
    Stretch { engine: Some(turning), ..stands(lasts, air, road) }
}

/// With the engine stopped.
pub fn stands(lasts: f64, air: f64, road: f64) -> Stretch {
    Stretch {
        leg: 0,
        lasts: of(lasts),
        air: celsius(air),
        air_at_end: celsius(air),
        road_speed: of(road),
        engine: None,
    }
}

pub fn heats(coolant: f64, oil: f64) -> Heats {
    Heats { coolant: of(coolant), oil: of(oil) }
}
