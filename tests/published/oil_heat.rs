//! Published checks: heat to the oil, its viscosity by grade, metal, and the warm-up of engine and oil.
//!
//! References: SAE J300 (January 2015) as three public pages print it alike; F. P. Incropera and D. P. DeWitt,
//! Fundamentals of Heat and Mass Transfer, example 5.1 (lumped capacity), answer 5.2 s, as a public companion works it
//! out; a march by Runge and Kutta in steps of 10 ms in Python, independent of the closed solution.

use crate::accuracy::{Row, Tally};
use coldmark::heat::*;
use coldmark::quantity::si::*;
use coldmark::quantity::{Estimate, Measured, celsius, in_celsius};
use coldmark::scribe::Silent;

/// The rows this part adds to the accuracy table.
pub fn accuracy() -> Vec<Row> {
    vec![grades(), lumped(), marched(), metal()]
}

fn of<Q: Measured>(base: f64) -> Q {
    Q::from_base(base)
}

/// Least and highest viscosity at 100 °C, mm²/s, and least at high shear, mPa·s, by the number of the grade.
const J300: [(u32, f64, f64, f64); 5] =
    [(20, 6.9, 9.3, 2.6), (30, 9.3, 12.5, 2.9), (40, 12.5, 16.3, 3.5), (50, 16.3, 21.9, 3.7), (60, 21.9, 26.1, 3.7)];

fn grades() -> Row {
    let mut tally =
        Tally::new("oil grades: limits at 100 °C and at high shear", "SAE J300 (2015), public copies", "%", 1e-9);
    for grade in OilGrade::ALL {
        let class = grade.hot_class();
        let (_, least, below, shear) = J300.into_iter().find(|row| row.0 == class.number).unwrap();
        tally.relative(class.least.base() * 1e6, least);
        tally.relative(class.below.base() * 1e6, below);
        // Grade 40 has 3.5 for 0W, 5W and 10W, 3.7 for the others.
        let cold = matches!(grade, OilGrade::W0S40 | OilGrade::W5S40 | OilGrade::W10S40);
        tally.relative(class.high_shear.base() * 1e3, if class.number == 40 && !cold { 3.7 } else { shear });
        // What is usual of a grade lies within its class, and its viscosity rises as it cools as D341 asks.
        let usual = grade.at_100().estimate;
        assert!(class.least <= usual.likely && usual.likely < class.below, "{grade:?}");
        let at_40 = usual.map(|at_100| of::<KinematicViscosity>(at_100.base() * grade.ratio().likely().base()));
        let oil = OilRange::new(&at_40, &usual).unwrap();
        let hot = oil.viscosity(&Estimate::exact(celsius(150.0)), &mut Silent).unwrap();
        // In a bearing at 150 °C: kinematic viscosity times about 780 kg/m³ lies above the high-shear least, for polymers
        // in the oil give way to shear, and below twice that.
        let dynamic = hot.likely.base() * 780.0;
        assert!((1.0..2.0).contains(&(dynamic / class.high_shear.base())), "{grade:?} {}", dynamic * 1e3);
    }
    tally.row()
}

/// A thermocouple of one second's time constant from 25 to 199 °C in gas of 200 °C: 5.2 s. Here a lump of engine a
/// thousand times as slow, whose heat and loss settle at 200 °C; beside it hardly any oil.
fn lumped() -> Row {
    let mut tally = Tally::new("warm-up of one lump", "Incropera, example 5.1, two digits printed", "s", 0.05);
    let loss = 50.0;
    let stretch = Stretch { engine: of(loss * 175.0), oil: of(0.0), sump: of(0.0), cooler: of(0.0) };
    let warm_up = WarmUpWithOil {
        lumps: Lumps {
            engine: of(50e3),
            oil: of(10.0),
            between: of(0.0),
            engine_loss: of(loss),
            ambient: celsius(25.0),
        },
        idle: stretch,
        idle_for: of(0.0),
        drive: stretch,
        start: celsius(25.0),
        cooler_opens: None,
    };
    let ends = warm_up.with_thermostat(celsius(199.0), celsius(80.0), &mut Silent).unwrap();
    let WarmUpEnd::Reached { after } = ends.opens else { panic!("{ends:?}") };
    tally.difference(after.base() / 1000.0, 5.16);
    // And the one-lump solution itself.
    let one = WarmUp {
        heat: of(loss * 175.0),
        heat_capacity: of(50e3),
        loss: of(loss),
        ambient: celsius(25.0),
        start: celsius(25.0),
    };
    let WarmUpEnd::Reached { after: alone } = one.time_to(celsius(199.0), &mut Silent).unwrap() else { panic!() };
    tally.difference(alone.base() / 1000.0, 5.16);
    assert!((after.base() / alone.base() - 1.0).abs() < 1e-9);
    tally.row()
}

fn marched() -> Row {
    let mut tally = Tally::new("warm-up of engine and oil", "Runge–Kutta in Python, 10 ms", "s", 0.02);
    let warm_up = WarmUpWithOil {
        lumps: Lumps {
            engine: of(100e3),
            oil: of(57e3),
            between: of(500.0),
            engine_loss: of(12.0),
            ambient: of(258.15),
        },
        idle: Stretch { engine: of(8000.0), oil: of(1200.0), sump: of(6.0), cooler: of(0.0) },
        idle_for: of(60.0),
        drive: Stretch { engine: of(22_000.0), oil: of(4500.0), sump: of(26.0), cooler: of(0.0) },
        start: of(258.15),
        cooler_opens: None,
    };
    for (set, warm, opens, oil) in [
        (71.0, 70.0, 552.038_381, 671.596_209),
        (82.0, 80.0, 625.407_336, 734.143_777),
        (91.0, 80.0, 686.418_797, 694.929_087),
    ] {
        let ends = warm_up.with_thermostat(celsius(set), celsius(warm), &mut Silent).unwrap();
        let WarmedUp { opens: WarmUpEnd::Reached { after: first }, oil_warm: WarmUpEnd::Reached { after: second } } =
            ends
        else {
            panic!("{ends:?}")
        };
        tally.difference(first.base(), opens);
        tally.difference(second.base(), oil);
    }
    // Held at 82 °C the oil ends at (4500 + 500·355.15 + 26·258.15)/526 K = 85.76 °C and never gets to 86 °C.
    let ends = warm_up.with_thermostat(celsius(82.0), celsius(86.0), &mut Silent).unwrap();
    let WarmUpEnd::NeverReached { settles_at } = ends.oil_warm else { panic!("{ends:?}") };
    tally.difference(in_celsius(settles_at), 85.76);
    tally.row()
}

/// 5.0 L, 50 kW at 3000 rpm: 50 K above the coolant; at rest of the pump natural convection, 12 W/K for each litre.
fn metal() -> Row {
    let mut tally = Tally::new("metal above the coolant", "hand calculation of the stated conductance", "K", 1e-9);
    let litres = 5.0;
    let metal = Metal {
        conductance: Estimate::exact(of(200.0 * litres)),
        natural: Estimate::exact(of(12.0 * litres)),
        exponent: Estimate::exact(of(0.65)),
    };
    let rpm = |value: f64| of(value * std::f64::consts::PI / 30.0);
    let at = |heat: f64, speed| metal.above_coolant(&Estimate::exact(of(heat)), rpm(speed), &mut Silent).unwrap();
    tally.difference(at(50e3, 3000.0).likely.base(), 50.0);
    tally.difference(at(600.0, 10.0).likely.base(), 10.0);
    tally.difference(at(50e3, 6000.0).likely.base(), 50.0 / 2_f64.powf(0.65));
    tally.row()
}

/// The default of the hot metal after usual and after hard running, 150 and 185 °C, is what heat and conductance make:
/// a V8 of 5.0 L with 50 kW to the coolant at 95 °C, and with 110 kW at 4500 rpm and 105 °C.
#[test]
fn hot_metal_agrees_with_its_conductance() {
    let litres = 5.0;
    let each = oil_defaults::metal_for_each_litre().estimate.map(|g| of::<ThermalConductance>(g.base() * litres));
    let metal = Metal {
        conductance: each,
        natural: oil_defaults::metal_without_flow().estimate.map(|g| of::<ThermalConductance>(g.base() * litres)),
        exponent: oil_defaults::metal_flow_power().estimate,
    };
    let above = |heat: f64, speed: f64| {
        let heat = Estimate::exact(of(heat));
        metal.above_coolant(&heat, of(speed * std::f64::consts::PI / 30.0), &mut Silent).unwrap().likely.base()
    };
    assert!((95.0 + above(50e3, 3000.0) - 150.0).abs() < 10.0);
    assert!((105.0 + above(110e3, 4500.0) - 185.0).abs() < 15.0);
}

/// Rich mixture: 15 % of the fuel finds no air at 12.5 against 14.7, so P_fuel grows by 14.7/12.5 and the heat hardly.
#[test]
fn a_rich_mixture_burns_more_fuel_for_hardly_another_heat() {
    let duty = EngineDuty { displacement: of(5.7e-3), speed: of(366.5), brake_power: of(60e3), rated_power: of(160e3) };
    let usual = HeatModel::usual(Ignition::Spark);
    let rich = HeatModel { mixture: Mixture { air_fuel: of(12.5), ..Mixture::neutral() }, ..usual };
    let aluminium = HeatModel { heads: oil_defaults::aluminium_heads().estimate, ..usual };
    let of_model = |model: &HeatModel| heat_to_coolant(&duty, model, &mut Silent).unwrap();
    let (plain, wet, alloy) = (of_model(&usual), of_model(&rich), of_model(&aluminium));
    assert!((wet.fuel_power.base() / plain.fuel_power.base() - 14.7 / 12.5).abs() < 1e-12);
    let heat = wet.heat.likely.base() / plain.heat.likely.base();
    assert!((0.93..1.0).contains(&heat), "{heat}");
    assert!((wet.share.likely.base() * wet.fuel_power.base() / wet.heat.likely.base() - 1.0).abs() < 1e-12);
    assert!(
        (alloy.heat.likely.base() / plain.heat.likely.base() - 1.03).abs() < 1e-12 && alloy.heat.high > plain.heat.high
    );
}

/// Heat to the oil is 10 to 25 % of the coolant's under load, and more with jets.
#[test]
fn heat_to_the_oil_is_of_its_usual_size() {
    for (power, speed) in [(50e3, 3000.0), (100e3, 4000.0), (160e3, 5000.0)] {
        let speed = of(speed * std::f64::consts::PI / 30.0);
        let duty = EngineDuty { displacement: of(5.0e-3), speed, brake_power: of(power), rated_power: of(160e3) };
        let heat = heat_to_coolant(&duty, &HeatModel::usual(Ignition::Spark), &mut Silent).unwrap();
        let oil = |jets| heat.oil(&OilHeatModel::usual(jets), &mut Silent).unwrap().likely.base();
        let share = oil(false) / heat.heat.likely.base();
        assert!((0.10..0.25).contains(&share), "{share}");
        assert!(oil(true) > oil(false));
    }
}
