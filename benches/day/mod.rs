//! An invented car and three hours of it.

use crate::car::{drives, heats, stands, v8};
use coldmark::day::{Heats, Lumps, Stretch};
use coldmark::quantity::celsius;

pub fn car() -> Lumps {
    let mut lumps = v8();
    lumps.fan_switch = Some((celsius(97.0), celsius(92.0)));
    lumps
}

pub fn legs() -> (Vec<Stretch>, Vec<Heats>) {
    let mut legs = vec![(drives(300.0, 10.0, 0.0, 900.0), heats(9e3, 5e2))];
    for i in 0..1200 {
        let wave = (f64::from(i) * 0.37).sin();
        let (road, rpm) = (15.0 + 10.0 * wave, 2200.0 + 900.0 * wave);
        legs.push((drives(3.0, 15.0, road, rpm), heats(25e3 + 18e3 * wave, 2e3)));
    }
    legs.push((drives(2700.0, 20.0, 33.0, 3000.0), heats(45e3, 4e3)));
    legs.push((drives(900.0, 25.0, 14.0, 3800.0), heats(60e3, 5e3)));
    legs.push((stands(2400.0, 25.0, 0.0), heats(0.0, 0.0)));
    legs.push((drives(900.0, 30.0, 0.0, 800.0), heats(8e3, 5e2)));
    legs.into_iter().unzip()
}
