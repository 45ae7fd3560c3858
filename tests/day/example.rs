//! The worked example of three bodies in tests/reference/worked_coolant.json.

use crate::car::{ambient, drives, heats, of, stands, v8};
use crate::follow::follow;
use coldmark::coolant::{Circuit, HotTemperatures, Material, Shares, SystemVolume};
use coldmark::day::{Drive, Lumps};
use coldmark::quantity::{Estimate, GaugePressure, Measured, celsius};
use coldmark::scribe::Silent;

/// Volume of the engine, m³: what holds the example's 28 kJ/K of coolant at 103 °C, half-way through its stops.
pub fn engine_volume() -> f64 {
    let (mix, at) = (v8().system.mix, celsius(103.0));
    28e3 / (mix.density(at, &mut Silent).unwrap().base() * mix.specific_heat(at, &mut Silent).unwrap().base())
}

/// A circuit with such an engine.
fn circuit() -> Circuit {
    let shares = Shares::default();
    let total = engine_volume() / shares.engine.likely.base();
    let volume = SystemVolume::Measured {
        total: Estimate::exact(of(total)),
        shares,
        engine: Material::GreyIron,
        radiator: Material::Brass,
    };
    volume.circuit(&HotTemperatures::from_engine(celsius(95.0)), &mut Silent).unwrap()
}

/// A figure of the example.
pub fn expected(case: &str, key: &str) -> f64 {
    let text = include_str!("../reference/worked_coolant.json");
    let json: serde_json::Value = serde_json::from_str(text).unwrap();
    json["example1"][case][key].as_f64().unwrap()
}

/// The three bodies of the example, all else cut off once the engine stands, and a first leg that brings them to its
/// temperatures: metal, coolant and block in °C.
pub fn brought_to(metal: f64, coolant: f64, block: f64, seal: f64) -> (Lumps, Drive) {
    let mut lumps = v8();
    lumps.system.ambient = ambient(97_773.0);
    // Air that is left swells near boiling and takes the place of coolant that the example counts.
    lumps.system.trapped_gas = Estimate::exact(of(0.0));
    lumps.system.circuit = circuit();
    (lumps.hot_metal, lumps.block) = (of(13e3), of(55e3));
    (lumps.hot_metal_still, lumps.block_still) = (of(60.0), of(45.0));
    (lumps.block_to_air, lumps.block_to_air_on_road) = (of(12.0), of(0.0));
    lumps.oil_to_block = of(0.0);
    lumps.behind_cap.opening = GaugePressure::from_base(seal);
    lumps.closing_lag = of(0.0);
    let (rpm, heat) = (3000.0, 66e3);
    lumps.hot_metal_running = of(heat / (metal - coolant));
    lumps.block_running = of(12.0 * (block - 35.0) / (coolant - block));
    lumps.radiator.ua_reference = of(4000.0);
    let legs = [(drives(10_000.0, 35.0, 30.0, rpm), heats(heat, 0.0)), (stands(1800.0, 35.0, 0.0), heats(0.0, 0.0))];
    lumps.thermostat.set_point = celsius(coolant - 6.0);
    for _ in 0..3 {
        let warm = follow(&lumps, &legs[..1], 40.0).samples.last().unwrap().coolant.base() - 273.15;
        lumps.thermostat.set_point = of(lumps.thermostat.set_point.base() + coolant - warm);
    }
    let drive = follow(&lumps, &legs, 40.0);
    let stop = drive.samples.iter().rfind(|sample| sample.engine_speed.base() > 0.0).unwrap();
    for (body, wanted) in [(stop.metal, metal), (stop.coolant, coolant), (stop.block, block)] {
        assert!((body.base() - 273.15 - wanted).abs() < 0.1, "{stop:?}");
    }
    (lumps, drive)
}
