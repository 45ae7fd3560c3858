//! Published checks: oil and the mixture at idle.
//!
//! References: closed forms worked out independently; terminal speeds of water drops in air, R. Gunn and G. D. Kinzer, J.
//! Meteorology 6 (1949) 243, quoted from memory.

use crate::accuracy::{Row, Tally, table};
use coldmark::crankcase::mixture::{FreshAirFrom, FuelSystem, IdleGas, idle_mixture};
use coldmark::crankcase::moisture::{Burning, WetGas, burnt_water_share};
use coldmark::crankcase::oil::{Mist, condensate, cut_size_in_upflow, drain_back, fall, impaction_cut, souders_brown};
use coldmark::quantity::si::{Length, MassDensity, MassRate, Ratio, Velocity};
use coldmark::quantity::{AbsolutePressure, GaugePressure, Measured, celsius};
use coldmark::scribe::Silent;

fn of<Q: Measured>(base: f64) -> Q {
    Q::from_base(base)
}

fn sea_level() -> AbsolutePressure {
    of(101_325.0)
}

/// The rows of the table of single figures with this name: inputs and value.
fn checks(quantity: &str) -> Vec<(String, f64)> {
    let rows = table("crank_checks.csv");
    let found: Vec<_> =
        rows.iter().filter(|row| &row[0] == quantity).map(|row| (row[1].to_owned(), row[2].parse().unwrap())).collect();
    assert!(!found.is_empty(), "{quantity}");
    found
}

/// The number after `key=` in a row's inputs.
fn number(inputs: &str, key: &str) -> f64 {
    let rest = &inputs[inputs.find(key).unwrap() + key.len()..];
    rest.split_whitespace().next().unwrap().parse().unwrap()
}

fn droplets() -> [Row; 4] {
    let mist = Mist::usual(sea_level());
    let mut stokes = Tally::new("settling after Stokes", "closed form", "%", 1e-4);
    for (inputs, expected) in checks("stokes settling") {
        let diameter: Length = of(number(&inputs, "d=") * 1e-6);
        stokes.relative(fall(diameter, &mist, &mut Silent).unwrap().stokes.base(), expected);
    }
    let mut cut = Tally::new("cut size in upflow after Stokes", "closed form", "%", 1e-4);
    for (inputs, expected) in checks("stokes cut size upflow") {
        let speed: Velocity = of(number(&inputs, "v="));
        cut.relative(cut_size_in_upflow(speed, &mist, &mut Silent).unwrap().stokes.base() * 1e6, expected);
    }
    let mut flood = Tally::new("Souders-Brown speed", "closed form", "%", 1e-4);
    for (inputs, expected) in checks("souders-brown velocity") {
        let factor: Velocity = of(number(&inputs, "K="));
        flood.relative(souders_brown(factor, &mist, &mut Silent).unwrap().base(), expected);
    }
    let mut strike = Tally::new("impaction cut", "closed form", "%", 1e-4);
    for (inputs, expected) in checks("impaction cut") {
        let (speed, width) = (of(number(&inputs, "U=")), of(number(&inputs, "W=") * 1e-3));
        let cut = impaction_cut(speed, width, of(number(&inputs, "Stk50=")), &mist, &mut Silent).unwrap();
        strike.relative(cut.base() * 1e6, expected);
    }
    [stokes.row(), cut.row(), flood.row(), strike.row()]
}

fn drops_in_air() -> Row {
    let air = Mist { temperature: celsius(20.0), pressure: sea_level(), oil: of(998.2) };
    // The drag law is good to 5 %, the smallest drop is printed with two digits and hardest to measure.
    let mut tally = Tally::new("fall of drops in air", "R. Gunn and G. D. Kinzer, 1949", "%", 10.0);
    for (millimetres, expected) in
        [(0.1, 0.27), (0.2, 0.72), (0.3, 1.17), (0.4, 1.62), (0.5, 2.06), (0.6, 2.47), (0.8, 3.27), (1.0, 4.03)]
    {
        tally.relative(fall(of(millimetres * 1e-3), &air, &mut Silent).unwrap().speed.base(), expected);
    }
    tally.row()
}

fn heads() -> Row {
    let mut tally = Tally::new("head of oil in a drain", "closed form", "%", 1e-6);
    for (_, expected) in checks("drain head") {
        let level: GaugePressure = of(0.0);
        let density: MassDensity = of(850.0);
        tally.relative(drain_back(of(0.15), density, level, level, &mut Silent).unwrap().head.base(), expected);
    }
    tally.row()
}

fn water() -> [Row; 2] {
    let burnt_water = burnt_water_share(&Burning::petrol(of(0.0)), &mut Silent).unwrap();
    let per_hour = |share: f64, wall: f64, air_water: f64| {
        let gas = WetGas { burnt_share: of(share), burnt_water, air_water: of(air_water) };
        let vapour = gas.mixed(of(0.0), &mut Silent).unwrap();
        let flow: MassRate = of(0.25e-3);
        condensate(flow, vapour, celsius(wall), sea_level(), &mut Silent).unwrap().base() * 3.6e6
    };
    // All water of the burnt part, on a wall so cold that it keeps none of it.
    let mut all = Tally::new("water in blow-by", "independent balance", "%", 0.5);
    for (_, expected) in checks("water rate in blow-by") {
        all.relative(per_hour(0.3, -60.0, 0.0), expected);
    }
    // Air of −10 °C and 80 % humidity over ice, printed with two digits.
    let mut cold = Tally::new("water in a can of 5 °C", "independent balance, IAPWS-95", "%", 1.5);
    cold.relative(per_hour(0.3, 5.0, 0.002_052_8), 17.0);
    cold.relative(per_hour(1.0, 5.0, 0.002_052_8), 66.0);
    assert_eq!(per_hour(0.3, 35.0, 0.002_052_8), 0.0);
    [all.row(), cold.row()]
}

fn idle() -> Row {
    let mut tally = Tally::new("idle mixture with the valve's gas", "worked by hand", "%", 1.5);
    let mixture = |into: f64, valve: f64, blow_by: f64, burnt: f64, system, from| {
        let gas = IdleGas {
            into_cylinders: of(into * 1e-3),
            valve: of(valve * 1e-3),
            blow_by: of(blow_by * 1e-3),
            burnt_share: of(burnt),
        };
        idle_mixture(&gas, system, from, &mut Silent).unwrap()
    };
    let change = |mixture: coldmark::crankcase::mixture::IdleMixture| mixture.change.unwrap().base();
    let (carburettor, air) = (FuelSystem::Carburettor, FreshAirFrom::OpenAir);
    tally.relative(mixture(3.23, 0.472, 0.12, 0.0, carburettor, air).share.base(), 0.146);
    tally.relative(mixture(8.78, 0.858, 0.30, 0.0, carburettor, air).share.base(), 0.098);
    tally.relative(change(mixture(3.23, 0.4721, 0.12, 0.0, carburettor, air)), 0.3521 / (3.23 - 0.3521));
    // With b = 0.036 and u = 0.084 g/s: fuel for 2.8419 g/s of air comes with 3.194 g/s of it.
    tally.relative(change(mixture(3.23, 0.4721, 0.12, 0.3, carburettor, air)), 3.194 / 2.8419 - 1.0);
    // Speed-density: fuel for 3.23 + 0.084, air 3.194.
    let counted = mixture(3.23, 0.4721, 0.12, 0.3, FuelSystem::SpeedDensity, air);
    tally.relative(change(counted), 3.194 / 3.314 - 1.0);
    assert_eq!(change(mixture(3.23, 0.4721, 0.12, 0.3, FuelSystem::MassFlow, FreshAirFrom::AfterMeter)), 0.0);
    let uncounted = mixture(3.23, 0.4721, 0.12, 0.3, FuelSystem::MassFlow, FreshAirFrom::BeforeMeter);
    tally.relative(change(uncounted), 3.194 / 2.8419 - 1.0);
    let _: Ratio = uncounted.share;
    tally.row()
}

pub fn accuracy() -> Vec<Row> {
    let mut rows = Vec::from(droplets());
    rows.extend([drops_in_air(), heads()]);
    rows.extend(water());
    rows.push(idle());
    rows
}

#[test]
fn oil_meets_its_references() {
    assert_eq!(accuracy().len(), 9);
}
