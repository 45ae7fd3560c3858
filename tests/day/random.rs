//! Days drawn at random: their books close, their samples make sense, and nothing panics.

use crate::car::{ambient, drives, heats, of, stands, v8};
use crate::follow::{adds_up, closes};
use coldmark::coolant::{CapSits, Material, Region};
use coldmark::day::{DayError, Drive, Heats, Joined, Lumps, Options, Start, Stretch, run};
use coldmark::fluid::{Base, Basis, Mix};
use coldmark::quantity::{Estimate, GaugePressure, Measured, celsius};
use coldmark::scribe::Silent;
use proptest::prelude::*;

/// Some legs of a day: driving, or standing with the engine stopped.
fn leg() -> impl Strategy<Value = (Stretch, Heats)> {
    let driving = (2.0..1500.0, -15.0..45.0, -15.0..45.0, 0.0..45.0, 600.0..7000.0, 1e3..90e3, 0.0..8e3);
    prop_oneof![
        3 => driving.prop_map(|(lasts, air, later, road, rpm, heat, oil)| {
            let mut stretch = drives(lasts, air, road, rpm);
            stretch.air_at_end = celsius(later);
            (stretch, heats(heat, oil))
        }),
        1 => (2.0..8000.0, -15.0..45.0).prop_map(|(lasts, air)| (stands(lasts, air, 0.0), heats(0.0, 0.0))),
    ]
}

fn day() -> impl Strategy<Value = Vec<(Stretch, Heats)>> {
    proptest::collection::vec(leg(), 1..7).prop_map(|mut legs| {
        for (number, (stretch, _)) in legs.iter_mut().enumerate() {
            stretch.leg = number;
        }
        legs
    })
}

/// A car with figures anywhere in their usual ranges.
fn car() -> impl Strategy<Value = Lumps> {
    let bodies = (3e3..30e3, 200.0..2500.0, 20.0..120.0, 15e3..90e3, 20.0..600.0, 5.0..80.0);
    let around = (500.0..4000.0, 0.01..0.3, 0.0..0.3, 0.1..0.4, 0.0..200.0, 40e3..160e3, 71.0..95.0);
    let switches = (any::<bool>(), any::<bool>(), 0_usize..6, 2.0..20.0, 0.0..4.0, 0.0..3e-4, 60e3..105e3, 0.25..0.6);
    (bodies, around, switches).prop_map(|(bodies, around, switches)| {
        let mut lumps = v8();
        lumps.hot_metal = of(bodies.0);
        (lumps.hot_metal_running, lumps.hot_metal_still) = (of(bodies.1), of(bodies.2));
        lumps.block = of(bodies.3);
        (lumps.block_running, lumps.block_still) = (of(bodies.4), of(bodies.5));
        lumps.radiator.ua_reference = of(around.0);
        (lumps.radiator_still, lumps.airflow.draught) = (of(around.1), of(around.2));
        (lumps.heater_flow, lumps.heater) = (of(around.3), of(around.4));
        lumps.behind_cap.opening = GaugePressure::from_base(around.5);
        lumps.thermostat.set_point = celsius(around.6);
        lumps.fan_switch = switches.0.then(|| (celsius(97.0), celsius(92.0)));
        lumps.fan_runs_on = switches.1;
        lumps.wax_lag = of(switches.3);
        lumps.closing_lag = of(switches.4);
        lumps.system.trapped_gas = Estimate::exact(of(switches.5));
        lumps.system.ambient = ambient(switches.6);
        let base = if switches.2 % 2 == 0 { Base::EthyleneGlycol } else { Base::PropyleneGlycol };
        lumps.system.mix = Mix::new(base, of(switches.7), Basis::ByVolume).unwrap();
        lumps.behind_cap.kind = match switches.2 {
            0..=2 => Joined::Recovery { sealed: false },
            3 => Joined::CatchOnly { sealed: false },
            kind => {
                let cap = if kind == 4 { CapSits::InGas } else { CapSits::InLiquid };
                let tank = Region::new("header tank", Estimate::exact(of(2.8e-3)), Material::Hose, celsius(90.0));
                lumps.system.circuit = lumps.system.circuit.clone().and(tank);
                lumps.system.trapped_gas = Estimate::exact(of(1.4e-3));
                lumps.system.gas_in = "header tank".to_owned();
                Joined::Header(cap)
            }
        };
        lumps
    })
}

fn asked(lumps: &Lumps, legs: &[(Stretch, Heats)], start: f64) -> Result<Drive, DayError> {
    let (stretches, heats): (Vec<_>, Vec<_>) = legs.iter().copied().unzip();
    run(lumps, &stretches, &heats, &Start { temperature: celsius(start) }, &Options::default(), &mut Silent)
}

fn sound(lumps: &Lumps, drive: &Drive, legs: &[(Stretch, Heats)], start: f64) {
    closes(drive);
    adds_up(drive);
    assert!(drive.samples.windows(2).all(|pair| pair[0].time <= pair[1].time));
    assert!(drive.events.windows(2).all(|pair| pair[0].time <= pair[1].time));
    let last = drive.samples.last().unwrap();
    let lasts: f64 = legs.iter().map(|(stretch, _)| stretch.lasts.base()).sum();
    if drive.cut_short.is_none() {
        assert!((last.time.base() - lasts).abs() < 1e-6 * lasts, "{last:?}");
    }
    // Nothing grows colder than the coldest air but the day's start.
    let coldest = legs
        .iter()
        .flat_map(|(stretch, _)| [stretch.air.base(), stretch.air_at_end.base()])
        .fold(start + 273.15, f64::min);
    // Metal is hotter than the coolant by no more than what passes the heat on, and coolant no hotter than its data.
    let over = |(stretch, heats): &(Stretch, Heats)| {
        let turns = stretch.engine.map_or(0.0, |engine| engine.speed.base() / (3000.0 * std::f64::consts::PI / 30.0));
        let (still, running) = (lumps.hot_metal_still.base(), lumps.hot_metal_running.base());
        heats.coolant.base() / (still + (running - still) * turns.powf(lumps.flow_power.base()))
    };
    let hottest_metal = 403.15 + legs.iter().map(over).fold(0.0, f64::max);
    for sample in &drive.samples {
        let all = [sample.coolant, sample.block, sample.oil, sample.radiator_outlet, sample.hoses];
        for body in all {
            assert!(body.base() >= coldest - 0.2 && body.base() < 900.0, "{sample:?}");
        }
        assert!((coldest - 0.2..hottest_metal + 0.2).contains(&sample.metal.base()), "{sample:?}");
        assert!(sample.coolant.base() <= 403.15 + 1e-3, "{sample:?}");
        assert!((0.0..=1.0).contains(&sample.opening.base()), "{sample:?}");
        assert!(sample.in_tank.base() >= 0.0 && sample.vapour.base() >= 0.0 && sample.lost.base() >= 0.0, "{sample:?}");
        assert!(sample.gauge.base().is_finite() && sample.margin.base().is_finite(), "{sample:?}");
    }
    assert_eq!(drive.extremes.len(), 9);
    let stops = legs.windows(2).filter(|pair| pair[0].0.engine.is_some() && pair[1].0.engine.is_none()).count();
    assert!(drive.soaks.len() <= stops && (drive.cut_short.is_some() || drive.soaks.len() == stops));
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 150, ..ProptestConfig::default() })]

    #[test]
    fn the_books_of_any_day_close(lumps in car(), legs in day(), start in -10.0..35.0) {
        match asked(&lumps, &legs, start) {
            Ok(drive) => sound(&lumps, &drive, &legs, start),
            // A weak mix may freeze.
            Err(error) => prop_assert!(matches!(error, DayError::Freezes { .. }), "{error}"),
        }
    }

    /// The same question has the same answer.
    #[test]
    fn a_day_is_the_same_each_time(lumps in car(), legs in day()) {
        prop_assert_eq!(asked(&lumps, &legs, 20.0), asked(&lumps, &legs, 20.0));
    }

    /// Figures that are no figures are refused, never followed.
    #[test]
    fn no_figure_makes_it_panic(
        lumps in car(),
        legs in day(),
        which in 0_usize..12,
        value in prop_oneof![Just(f64::NAN), Just(f64::INFINITY), Just(-1.0), Just(0.0), Just(1e300), -1e4..1e4],
    ) {
        let (mut lumps, mut legs) = (lumps, legs);
        match which {
            0 => lumps.hot_metal = of(value),
            1 => lumps.block_running = of(value),
            2 => lumps.radiator_still = of(value),
            3 => lumps.wax_lag = of(value),
            4 => lumps.heater_flow = of(value),
            5 => lumps.surge = of(value),
            6 => legs[0].0.lasts = of(value),
            7 => legs[0].0.air = of(value),
            8 => legs[0].0.road_speed = of(value),
            9 => legs[0].1 = heats(value, 0.0),
            10 => lumps.behind_cap.opening = GaugePressure::from_base(value),
            _ => lumps.behind_cap.tank_to_air = of(value),
        }
        if let Ok(drive) = asked(&lumps, &legs, 20.0) {
            closes(&drive);
        }
    }
}
