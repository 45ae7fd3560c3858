//! A lasting state of the day is the steady answer.

use crate::car::{drives, heats, of, v8};
use crate::follow::{closes, follow};
use coldmark::day::Lumps;
use coldmark::heat::{Balance, Outcome};
use coldmark::quantity::{Measured, celsius};
use coldmark::scribe::Silent;

/// The steady answer with the losses of the bodies: block, oil and hoses in a row with what joins them to the coolant.
fn steady(lumps: &Lumps, air: f64, road: f64, rpm: f64, heat: f64) -> f64 {
    let forced = (rpm / 3000.0_f64).powf(0.8);
    let to_block = lumps.block_still.base() + (lumps.block_running.base() - lumps.block_still.base()) * forced;
    let on_road = (road / 30.0_f64).powf(0.8);
    let in_a_row = |a: f64, b: f64| if a + b > 0.0 { a * b / (a + b) } else { 0.0 };
    let oil_air = lumps.oil_to_air.base() + lumps.oil_to_air_on_road.base() * on_road;
    let block_air = lumps.block_to_air.base() + lumps.block_to_air_on_road.base() * on_road;
    let loss = in_a_row(to_block, block_air + in_a_row(lumps.oil_to_block.base(), oil_air));
    let mut airflow = lumps.airflow;
    airflow.road_speed = of(road);
    let balance = Balance {
        radiator: lumps.radiator,
        thermostat: lumps.thermostat,
        pump: lumps.pump,
        engine_speed: of(rpm * crate::car::RPM),
        airflow,
        mix: lumps.system.mix,
        ambient_pressure: lumps.system.ambient,
        ambient_temperature: celsius(air),
        heat: of(heat),
        engine_loss: of(loss),
        ceiling: celsius(130.0),
    };
    match balance.solve(&mut Silent).unwrap() {
        Outcome::Steady(state) => state.outlet_temperature.base() - 273.15,
        Outcome::None(none) => panic!("{none:?}"),
    }
}

fn without_hoses() -> Lumps {
    let mut lumps = v8();
    lumps.hoses_to_air = of(0.0);
    lumps.closing_lag = of(0.0);
    lumps
}

#[test]
fn a_lasting_state_is_the_steady_answer() {
    let lumps = without_hoses();
    // Air °C, road speed m/s, rpm, W: thermostat ruling, radiator ruling, losses alone, idling in traffic.
    let duties = [
        (20.0, 25.0, 2500.0, 25e3),
        (35.0, 30.0, 3500.0, 67e3),
        (40.0, 12.0, 3000.0, 45e3),
        (30.0, 0.0, 800.0, 8e3),
        (-10.0, 20.0, 1500.0, 3e3),
        (45.0, 3.0, 2000.0, 20e3),
    ];
    for (air, road, rpm, heat) in duties {
        let expected = steady(&lumps, air, road, rpm, heat);
        let drive = follow(&lumps, &[(drives(30_000.0, air, road, rpm), heats(heat, 0.0))], air.max(0.0));
        let last = drive.samples.last().unwrap();
        let found = last.coolant.base() - 273.15;
        assert!((found - expected).abs() < 0.05, "{air} {road} {rpm} {heat}: {found}, steady {expected}");
        assert!((last.time.base() - 30_000.0).abs() < 1e-9);
        closes(&drive);
    }
}

/// At the radiator too: outlet and heat of the steady state.
#[test]
fn the_radiator_carries_what_is_given() {
    let mut lumps = without_hoses();
    (lumps.block_to_air, lumps.block_to_air_on_road) = (of(0.0), of(0.0));
    (lumps.oil_to_air, lumps.oil_to_air_on_road) = (of(0.0), of(0.0));
    let drive = follow(&lumps, &[(drives(20_000.0, 30.0, 30.0, 3500.0), heats(60e3, 0.0))], 30.0);
    let last = drive.samples.last().unwrap();
    assert!((last.radiator_heat.base() / 60e3 - 1.0).abs() < 1e-4, "{last:?}");
    let flow = 0.6e-3 * 3.5 * last.opening.base();
    let mix = lumps.system.mix;
    let rate = mix.density(last.coolant, &mut Silent).unwrap().base()
        * mix.specific_heat(last.coolant, &mut Silent).unwrap().base()
        * flow;
    let drop = last.coolant.base() - last.radiator_outlet.base();
    assert!((drop - 60e3 / rate).abs() < 0.02, "{drop} {}", 60e3 / rate);
    closes(&drive);
}

/// The wax follows late and the thermostat shuts along another line: it swings, but about the steady answer.
#[test]
fn a_thermostat_that_lags_ends_within_its_lag_of_the_steady_answer() {
    let mut lumps = without_hoses();
    lumps.closing_lag = of(3.0);
    let expected = steady(&lumps, 20.0, 25.0, 2500.0, 25e3);
    let drive = follow(&lumps, &[(drives(7200.0, 20.0, 25.0, 2500.0), heats(25e3, 0.0))], 20.0);
    let found = drive.samples.last().unwrap().coolant.base() - 273.15;
    assert!(found < expected + 0.1 && found > expected - 3.1, "{found} {expected}");
}

/// An oil cooler's thermostat: shut it is no cooler, wide open it is part of the sump's way, in between it holds the oil within
/// a few kelvin of where it opens.
#[test]
fn an_oil_coolers_thermostat_rules_the_oil_of_a_day() {
    let oil = |change: fn(&mut Lumps)| {
        let mut lumps = v8();
        change(&mut lumps);
        let drive = follow(&lumps, &[(drives(20_000.0, 20.0, 30.0, 2500.0), heats(25e3, 3e3))], 20.0);
        closes(&drive);
        drive.samples.last().unwrap().oil.base() - 273.15
    };
    let bare = oil(|_| ());
    let wide = oil(|lumps| lumps.oil_cooler_on_road = of(60.0));
    let sump = oil(|lumps| lumps.oil_to_air_on_road = of(80.0));
    assert!((wide - sump).abs() < 1e-3, "{wide} {sump}");
    assert!(bare - wide > 20.0, "{bare} {wide}");
    let held = oil(|lumps| {
        lumps.oil_cooler_on_road = of(60.0);
        lumps.oil_cooler_opens = Some(celsius(80.0));
    });
    assert!(wide < 80.0 && bare > 84.0 && (80.0..84.0).contains(&held), "{wide} {held} {bare}");
    let shut = oil(|lumps| {
        lumps.oil_cooler_on_road = of(60.0);
        lumps.oil_cooler_opens = Some(celsius(145.0));
    });
    assert!((shut - bare).abs() < 1e-6, "{shut} {bare}");
}
