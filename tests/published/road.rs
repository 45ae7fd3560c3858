//! Published checks: standard speed traces and what they ask of an engine.
//!
//! References: totals of the traces as their regulations print them (US 40 CFR parts 86 and 600; UN GTR No. 15; UN Regulation
//! No. 83), quoted from memory; `make_road.py`, a second implementation of road load, gears and clutch; the closed form of a
//! coast-down with constant and square resistance.

use crate::accuracy::{Row, Tally, table};
use coldmark::day::{Car, Doing, FullLoad, Leg, Stretch, Trace, stretches};
use coldmark::heat::RoadLoad;
use coldmark::quantity::{AbsolutePressure, Measured, celsius};
use coldmark::scribe::Silent;

fn of<Q: Measured>(base: f64) -> Q {
    Q::from_base(base)
}

/// The rows this part adds to the accuracy table.
pub fn accuracy() -> Vec<Row> {
    let mut rows = totals();
    rows.extend(driven());
    rows.push(coast_down());
    rows
}

fn distance(speeds: &[coldmark::quantity::si::Velocity]) -> f64 {
    speeds.windows(2).map(|pair| (pair[0].base() + pair[1].base()) / 2.0).sum()
}

const MILE: f64 = 1609.344;

fn totals() -> Vec<Row> {
    // Duration in s, distance in m, greatest speed in km/h, mean speed in km/h.
    let published = [
        (Trace::Urban, 1369.0, 7.45 * MILE, 56.7 * MILE / 1000.0, 31.5),
        (Trace::Highway, 765.0, 10.26 * MILE, 59.9 * MILE / 1000.0, 77.7),
        (Trace::Worldwide, 1800.0, 23_266.0, 131.3, 46.5),
        (Trace::European, 1180.0, 4.0 * 1013.0 + 6955.0, 120.0, 33.6),
    ];
    let mut lasts = Tally::new("duration of speed traces", "their regulations, from memory", "s", 0.0);
    let mut long = Tally::new("distance of speed traces", "their regulations, from memory", "%", 0.1);
    let mut fastest = Tally::new("greatest speed of speed traces", "their regulations, from memory", "km/h", 0.06);
    let mut mean = Tally::new("mean speed of speed traces", "their regulations, from memory", "km/h", 0.06);
    for (trace, seconds, metres, top, average) in published {
        let speeds = trace.speeds();
        assert_eq!(speeds.len() as f64, seconds + 1.0);
        lasts.difference(trace.lasts().base(), seconds);
        long.relative(distance(speeds), metres);
        fastest.difference(trace.fastest().base() * 3.6, top);
        mean.difference(distance(speeds) / seconds * 3.6, average);
        // Each begins and ends at a standstill and never leaps: no digit was lost on the way.
        assert!(speeds[0].base() == 0.0 && speeds[speeds.len() - 1].base() == 0.0);
        assert!(speeds.windows(2).all(|pair| (pair[1].base() - pair[0].base()).abs() < 2.0), "{trace:?}");
    }
    // Phases of the worldwide cycle: low, medium, high, extra high.
    let speeds = Trace::Worldwide.speeds();
    let mut phases = Tally::new("phases of the worldwide cycle", "UN GTR No. 15, from memory", "%", 0.1);
    for (from, to, metres) in [(0, 589, 3095.0), (589, 1022, 4756.0), (1022, 1477, 7162.0), (1477, 1800, 8254.0)] {
        phases.relative(distance(&speeds[from..=to]), metres);
    }
    // The parts of the European one.
    let mut parts = Tally::new("parts of the older European cycle", "UN Regulation No. 83, from memory", "%", 0.2);
    let speeds = Trace::European.speeds();
    for urban in 0..4 {
        parts.relative(distance(&speeds[urban * 195..=(urban + 1) * 195]), 1013.0);
    }
    parts.relative(distance(&speeds[780..]), 6955.0);
    vec![lasts.row(), long.row(), fastest.row(), mean.row(), phases.row(), parts.row()]
}

const RPM: f64 = std::f64::consts::PI / 30.0;

/// The two cars of `make_road.py`.
fn car(key: &str) -> Car {
    let sea_level: AbsolutePressure = of(101_325.0);
    let make = |figures: [f64; 5], gears: &[f64], speeds: [f64; 4], full: [f64; 3]| Car {
        mass: of(figures[0]),
        drag_area: of(figures[1]),
        rolling_resistance: of(figures[2]),
        drivetrain_efficiency: of(figures[3]),
        rotating: of(figures[4]),
        gears: gears.iter().map(|gear| of(*gear)).collect(),
        idle_speed: of(speeds[0] * RPM),
        lugging_speed: of(speeds[1] * RPM),
        reserve: of(0.25),
        highest_speed: of(speeds[2] * RPM),
        full_load: FullLoad {
            speed: of(speeds[3] * RPM),
            power: of(full[0]),
            air: sea_level,
            flat_from: of(full[1]),
            low_torque: of(full[2]),
        },
    };
    match key {
        "strong" => make(
            [1400.0, 0.75, 0.012, 0.88, 1.05],
            &[3.0, 5.0, 8.0, 11.0],
            [800.0, 1300.0, 6500.0, 5000.0],
            [140e3, 0.4, 0.65],
        ),
        "weak" => make(
            [1500.0, 0.9, 0.013, 0.85, 1.06],
            &[2.2, 4.0, 6.0, 8.5],
            [900.0, 1500.0, 6000.0, 5000.0],
            [40e3, 0.5, 0.6],
        ),
        other => panic!("no car {other}"),
    }
}

fn driven() -> Vec<Row> {
    let reference = "second implementation, road_traces.csv";
    let mut work = Tally::new("engine work over speed traces", reference, "%", 1e-3);
    let mut missing = Tally::new("work missing over speed traces", reference, "J", 10.0);
    let mut turns = Tally::new("engine revolutions over speed traces", reference, "%", 1e-3);
    for row in table("road_traces.csv") {
        let trace = match &row[0] {
            "urban" => Trace::Urban,
            "highway" => Trace::Highway,
            "worldwide" => Trace::Worldwide,
            _ => Trace::European,
        };
        // Air of 1.2 kg/m³ at sea level: T = p/(R·ρ).
        let leg = Leg { air: of(101_325.0 / (287.05 * 1.2)), does: Doing::Trace { trace, repeats: 1 } };
        let driven = stretches(&[leg], &car(&row[1]), of(101_325.0), of(5.0), &mut Silent).unwrap();
        let sum = |of: &dyn Fn(&Stretch) -> f64| driven.iter().map(|piece| piece.lasts.base() * of(piece)).sum::<f64>();
        let number = |column: usize| row[column].parse::<f64>().unwrap();
        work.relative(sum(&|piece| piece.engine.unwrap().power.base()), number(6));
        missing.difference(sum(&|piece| piece.engine.unwrap().missing.base()), number(7));
        turns.relative(sum(&|piece| piece.engine.unwrap().speed.base()) / (2.0 * std::f64::consts::PI), number(8));
    }
    vec![work.row(), missing.row(), turns.row()]
}

/// The time to coast from one speed to another: dv/dt = −(a + b·v²)/m, t = m/√(a·b)·(atan(v₁·√(b/a)) − atan(v₂·√(b/a))).
fn coast_down() -> Row {
    let mut tally = Tally::new("time to coast down", "closed form of constant and square resistance", "%", 1e-3);
    for (from, to, mass) in [(35.0, 5.0, 1200.0), (25.0, 10.0, 1800.0)] {
        let load = |speed: f64, force: f64| RoadLoad {
            mass: of(mass),
            drag_area: of(0.7),
            rolling_resistance: of(0.012),
            grade: of(0.0),
            speed: of(speed),
            accelerating: of(force),
            air_density: of(1.2),
            drivetrain_efficiency: of(0.9),
        };
        // The force at which the engine has nothing to do, found from its power alone, carries the car down.
        let (mut speed, mut time, drop) = (from, 0.0, (from - to) / 400.0);
        while speed > to + drop / 2.0 {
            let mean = speed - drop / 2.0;
            let (mut low, mut high) = (-5000.0, 0.0);
            for _ in 0..60 {
                let middle = (low + high) / 2.0;
                let power = load(mean, middle).power(&mut Silent).unwrap().engine.base();
                if power > 0.0 { high = middle } else { low = middle }
            }
            time += drop * mass * 1.05 / -high;
            speed -= drop;
        }
        let (a, b): (f64, f64) = (mass * 9.806_65 * 0.012, 0.5 * 1.2 * 0.7);
        let angle = |v: f64| (v * (b / a).sqrt()).atan();
        tally.relative(time, mass * 1.05 / (a * b).sqrt() * (angle(from) - angle(to)));
    }
    tally.row()
}

/// A day at a steady speed is what the road load says, checked by hand: 1400 kg, 0.75 m², 0.012, 100 km/h, 20 °C.
#[test]
fn a_steady_leg_has_the_power_of_the_road() {
    use coldmark::day::Until;
    let steady = Doing::Steady { speed: of(100.0 / 3.6), grade: of(0.0), gear: None, until: Until::Distance(of(10e3)) };
    let leg = Leg { air: celsius(20.0), does: steady };
    let driven = stretches(&[leg], &car("strong"), of(101_325.0), of(5.0), &mut Silent).unwrap();
    assert_eq!(driven.len(), 1);
    // (164.75 N + 0.5·1.2041·0.75·27.78² N)·27.78 m/s/0.88 = 16.2 kW.
    let engine = driven[0].engine.unwrap();
    assert!((engine.power.base() - 16.2e3).abs() < 30.0, "{engine:?}");
    assert!((driven[0].lasts.base() - 360.0).abs() < 1e-9);
    assert_eq!(engine.gear, Some(4));
}
