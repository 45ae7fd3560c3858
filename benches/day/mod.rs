//! An invented car and three hours of it.

use crate::car::{drives, heats, stands, v8};
use coldmark::day::{Heats, Lumps, Stretch, Trace};
use coldmark::quantity::{Measured, celsius};
use coldmark::study::{DayInputs, LegInputs, LegKind};

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

/// Three hours of a project: idling, city, highway, a climb of 12 %, stop and go, and the worldwide trace.
pub fn driven() -> DayInputs {
    let leg = |kind, degrees| LegInputs { kind, air: celsius(degrees), ..LegInputs::default() };
    let minutes = |minutes: f64| Measured::from_base(60.0 * minutes);
    let legs = vec![
        LegInputs { lasts: minutes(10.0), ..leg(LegKind::Idle, 5.0) },
        LegInputs { trace: Trace::Urban, ..leg(LegKind::Trace, 10.0) },
        LegInputs { trace: Trace::Highway, ..leg(LegKind::Trace, 20.0) },
        LegInputs {
            climb_grade: Measured::from_base(0.12),
            speed: Measured::from_base(60.0 / 3.6),
            height: Measured::from_base(700.0),
            ..leg(LegKind::Climb, 35.0)
        },
        LegInputs { traffic_lasts: minutes(95.0), ..leg(LegKind::Traffic, 35.0) },
        LegInputs { trace: Trace::Worldwide, ..leg(LegKind::Trace, 30.0) },
    ];
    DayInputs { time_step: Measured::from_base(5.0), legs }
}
