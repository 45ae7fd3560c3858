//! A car to drive, and cars at random.

use coldmark::day::{Car, FullLoad};
use coldmark::quantity::{AbsolutePressure, Measured};
use proptest::prelude::*;

pub const RPM: f64 = std::f64::consts::PI / 30.0;

pub fn of<Q: Measured>(base: f64) -> Q {
    Q::from_base(base)
}

pub fn sea_level() -> AbsolutePressure {
    of(101_325.0)
}

/// An invented car of 1300 kg with 90 kW.
pub fn car() -> Car {
    Car {
        mass: of(1300.0),
        drag_area: of(0.7),
        rolling_resistance: of(0.012),
        drivetrain_efficiency: of(0.88),
        rotating: of(1.05),
        gears: [8.0, 14.0, 20.0, 27.0, 34.0].map(|kmh| of(kmh / 3.6)).to_vec(),
        idle_speed: of(850.0 * RPM),
        lugging_speed: of(1350.0 * RPM),
        reserve: of(0.25),
        highest_speed: of(6200.0 * RPM),
        full_load: FullLoad {
            speed: of(5600.0 * RPM),
            power: of(90e3),
            air: sea_level(),
            flat_from: of(0.4),
            low_torque: of(0.65),
        },
    }
}

/// Cars of any gears and power whose figures agree.
pub fn any_car() -> impl Strategy<Value = Car> {
    let body = (500.0..4000.0, 0.4..3.0, 0.006..0.03, 0.6..1.0, 1.0..1.4);
    let engine = (600.0..1100.0, 1.0..2.0, 1.2..4.0, 1.0..1.5, 5e3..400e3, (0.1..1.0, 0.2..1.0), 0.0..0.6);
    let gears = (1.0..4.0, prop::collection::vec(1.05..2.5, 0..6));
    (body, engine, gears).prop_map(|(body, engine, (first, steps))| {
        let (idle, lugging, full, highest, power, (flat, left), reserve) = engine;
        let lugging = idle * lugging;
        let full = lugging * full;
        let mut gears: Vec<f64> = vec![first];
        for step in steps {
            gears.push(f64::min(gears[gears.len() - 1] * step, 39.0));
        }
        gears.dedup();
        Car {
            mass: of(body.0),
            drag_area: of(body.1),
            rolling_resistance: of(body.2),
            drivetrain_efficiency: of(body.3),
            rotating: of(body.4),
            gears: gears.into_iter().map(of).collect(),
            idle_speed: of(idle * RPM),
            lugging_speed: of(lugging * RPM),
            reserve: of(reserve),
            highest_speed: of(full * highest * RPM),
            full_load: FullLoad {
                speed: of(full * RPM),
                power: of(power),
                air: sea_level(),
                flat_from: of(flat),
                low_torque: of(left),
            },
        }
    })
}
