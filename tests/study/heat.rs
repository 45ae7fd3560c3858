//! Set-points compared and the heat curves: alike where the radiator is the limit, whole between, and one with the answers.

use crate::build::{answered, with_heat};
use crate::worked::{first, third};
use coldmark::file::demo;
use coldmark::quantity::si::{ThermodynamicTemperature, Velocity};
use coldmark::quantity::{Measured, UnitSystem, celsius};
use coldmark::study::{
    self, Answers, Duty, FanControl, FanDrive, HeatCurves, HeatMap, HeatRoad, HeatRule, OilCooling, Project,
    SetPointCurve, Thermal,
};

pub fn curves(project: &Project) -> HeatCurves {
    study::heat_curves(project).unwrap_or_else(|problems| panic!("{problems}"))
}

pub fn map(curves: &HeatCurves, road: HeatRoad) -> &HeatMap {
    curves.map(road).as_ref().unwrap()
}

pub fn close(a: f64, b: f64, by: f64) -> bool {
    (a - b).abs() <= by
}

/// What the answers say of who rules at a duty.
pub fn rule(answers: &Answers, duty: Duty) -> HeatRule {
    match answers.duties[duty.index()].thermal {
        Thermal::Steady { radiator_rules: true, .. } => HeatRule::Radiator,
        Thermal::Steady { .. } => HeatRule::Thermostat,
        Thermal::StaysShut => HeatRule::Losses,
        Thermal::NoSteadyState { .. } => HeatRule::Boils,
    }
}

pub fn with_air(project: &Project, air: ThermodynamicTemperature) -> Project {
    let mut project = project.clone();
    project.surroundings.hottest = air;
    project
}

/// The straight line between the points on either side.
fn along(curve: &SetPointCurve, air: f64) -> f64 {
    let next = curve.points.iter().position(|point| point.ambient.base() >= air).unwrap().max(1);
    let (a, b) = (curve.points[next - 1], curve.points[next]);
    let share = (air - a.ambient.base()) / (b.ambient.base() - a.ambient.base());
    a.outlet.unwrap().base() + share * (b.outlet.unwrap().base() - a.outlet.unwrap().base())
}

/// The third worked example with this heat, its pump turning this fast and this much air at the radiator's face.
fn example(heat: f64, rpm: f64, face: f64) -> Project {
    let mut project = third();
    let point = &mut project.duty.points[Duty::FullThrottle.index()];
    point.rpm = Measured::from_base(rpm * std::f64::consts::PI / 30.0);
    point.road_speed = Velocity::from_base(face / 0.2);
    // Every set-point below boiling is what the example reckons with.
    project.cap.opening = Measured::from_base(110e3);
    with_heat(&project, Duty::FullThrottle, heat)
}

/// The worked example of the third system: at 50 kW every thermostat from 71 to 91 °C gives 103.1 °C, at 25 kW in cooler air
/// and more of it they give 72.9 to 92.1 °C (independent Python, tests/reference/worked_coolant.py).
#[test]
fn where_the_radiator_is_the_limit_every_set_point_is_the_same() {
    let full = Duty::FullThrottle.index();
    let project = example(50e3, 2700.0, 3.0);
    let answers = answered(&project);
    for row in &answers.set_points {
        let at = &row.duties[full];
        assert!(close(at.outlet.unwrap().base() - 273.15, 103.09, 0.15), "{:?}", at.outlet);
        assert!(at.radiator_rules && at.spare.base() < 0.0, "{:?}", row.set_point);
    }
    let words = answers.set_point_comparison();
    let matters = words.rows.iter().find(|row| row.key == "matters").unwrap().value.show(UnitSystem::Si);
    assert!(matters.starts_with("All set-points give the same temperature"), "{matters}");
    assert!(matters.contains("at full throttle") && matters.contains("103."), "{matters}");
    // On the curve they are one line from where the warmest gives way.
    let curves = curves(&project);
    let duty = curves.of(Duty::FullThrottle).unwrap();
    let hottest = project.surroundings.hottest.base();
    for curve in &duty.set_points {
        assert!(close(along(curve, hottest) - 273.15, 103.09, 0.15));
        assert!(curve.holds_to.unwrap().base() < hottest);
    }
    assert!(duty.says().show(UnitSystem::Si).contains("all set-points give the same temperature"));
}

#[test]
fn where_the_thermostat_rules_they_differ_by_their_settings() {
    // The pump of the light load gives 1.5 L/s.
    let project = with_air(&example(25e3, 2250.0, 4.5), celsius(20.0));
    let answers = answered(&project);
    let full = Duty::FullThrottle.index();
    let outlets: Vec<f64> = answers.set_points.iter().map(|row| row.duties[full].outlet.unwrap().base()).collect();
    for (setting, expected) in [(71.0, 72.918), (82.0, 83.399), (88.0, 89.217), (91.0, 92.142)] {
        let row = answers.set_points.iter().position(|row| close(row.set_point.base() - 273.15, setting, 0.3)).unwrap();
        assert!(close(outlets[row] - 273.15, expected, 0.1), "{setting}: {}", outlets[row] - 273.15);
        assert!(answers.set_points[row].duties[full].spare.base() > 0.0);
    }
    let spread = outlets.last().unwrap() - outlets[0];
    let words = answers.set_point_comparison();
    let matters = words.rows.iter().find(|row| row.key == "matters").unwrap().value.show(UnitSystem::Si);
    assert!(matters.contains("at full throttle") && matters.contains(&format!("by {spread:.1} K")), "{matters}");
    assert!(!matters.contains("All set-points give the same"), "{matters}");
}

/// The reserve: in air of `holds_to` the thermostat is just wide open, a little hotter and the radiator rules; at
/// `boils_above` the coolant is at its limit, a little hotter and it boils.
#[test]
fn the_air_a_set_point_holds_is_where_the_answers_change() {
    let project = demo();
    let answers = answered(&project);
    for duty in [Duty::Hill, Duty::FullThrottle] {
        for (i, row) in answers.set_points.iter().enumerate() {
            let at = &row.duties[duty.index()];
            for (air, colder, hotter) in [
                (at.holds_to.unwrap(), HeatRule::Thermostat, HeatRule::Radiator),
                (at.boils_above.unwrap(), HeatRule::Radiator, HeatRule::Boils),
            ] {
                // A project knows no day hotter than 55 °C.
                // Nor one cooler than the garage it was filled in.
                if air > celsius(54.9) || air < celsius(18.1) {
                    continue;
                }
                for (by, expected) in [(-0.01, colder), (0.01, hotter)] {
                    let there = answered(&with_air(&project, Measured::from_base(air.base() + by)));
                    let found = &there.set_points[i].duties[duty.index()];
                    let rule = match (found.outlet, found.radiator_rules) {
                        (None, _) => HeatRule::Boils,
                        (_, true) => HeatRule::Radiator,
                        _ => HeatRule::Thermostat,
                    };
                    assert_eq!(rule, expected, "{duty:?} {:?} in {air:?}", row.set_point);
                }
            }
        }
    }
}

/// The same border by every way it is told: the set-point's row, the duty's answer, the curve, and a point of it.
#[test]
fn the_border_is_one_and_a_kink_of_the_curve() {
    for project in [demo(), with_heat(&first(), Duty::FullThrottle, 66e3)] {
        let (answers, curves) = (answered(&project), curves(&project));
        for duty in Duty::ALL {
            let told = curves.of(duty).unwrap();
            assert_eq!(told.heat, answers.duties[duty.index()].heat);
            for (row, curve) in answers.set_points.iter().zip(&told.set_points) {
                assert_eq!((row.set_point, row.fitted), (curve.set_point, curve.fitted));
                let at = &row.duties[duty.index()];
                for (answer, curve) in [(at.holds_to, curve.holds_to), (at.boils_above, curve.boils_above)] {
                    assert!(close(answer.unwrap().base(), curve.unwrap().base(), 1e-5), "{duty:?}");
                }
                if let Thermal::Steady { holds_to, boils_above, spare, .. } = answers.duties[duty.index()].thermal
                    && row.fitted
                {
                    assert!(close(holds_to.unwrap().base(), curve.holds_to.unwrap().base(), 1e-5));
                    assert!(close(boils_above.unwrap().base(), curve.boils_above.unwrap().base(), 1e-5));
                    assert!(close(spare.base(), at.spare.base(), 1e-3));
                }
                let kink = curve.points.iter().find(|point| Some(point.ambient) == curve.holds_to);
                if let Some(kink) = kink {
                    assert_eq!(kink.rule, HeatRule::Thermostat);
                    let ruled = if row.fitted { curves.full_open } else { kink.outlet.unwrap() };
                    assert_eq!(kink.outlet, Some(ruled));
                }
            }
        }
    }
}

/// The curves rise without a step; they stop where it boils and nowhere else; between kinks nothing bends sharply.
#[test]
fn the_curves_are_whole() {
    for project in
        [demo(), with_heat(&first(), Duty::FullThrottle, 66e3), with_heat(&third(), Duty::FullThrottle, 50e3)]
    {
        let curves = curves(&project);
        for duty in &curves.duties {
            for curve in &duty.set_points {
                assert!(curve.points.len() > 25);
                assert!(close(curve.points.last().unwrap().ambient.base(), 328.15, 1e-9));
                for pair in curve.points.windows(2) {
                    let [a, b] = pair else { panic!() };
                    let step = b.ambient.base() - a.ambient.base();
                    assert!(step > 0.0 && a.rule <= b.rule, "{a:?} {b:?}");
                    match (a.outlet, b.outlet) {
                        // Where the radiator rules the coolant follows the air about degree for degree.
                        (Some(low), Some(high)) => {
                            assert!((-1e-6..=1.5 * step + 1e-6).contains(&(high.base() - low.base())), "{a:?} {b:?}");
                        }
                        // Right at the border it is at the limit.
                        (Some(last), None) => {
                            assert!(close(last.base(), curves.limit.base(), 1e-9), "{a:?}");
                            assert_eq!(Some(a.ambient), curve.boils_above);
                        }
                        (None, Some(_)) => panic!("cold air boils and hot air does not: {a:?} {b:?}"),
                        (None, None) => {}
                    }
                }
                for point in &curve.points {
                    assert_eq!(point.outlet.is_none(), point.rule == HeatRule::Boils);
                }
            }
        }
    }
}

/// What the radiator carries at either end brackets what it must, and says the same as who rules.
#[test]
fn capacities_tell_who_rules() {
    for project in
        [demo(), with_heat(&first(), Duty::FullThrottle, 66e3), with_heat(&third(), Duty::FullThrottle, 50e3)]
    {
        let (answers, curves) = (answered(&project), curves(&project));
        for duty in &curves.duties {
            let open = duty.at_full_open.unwrap().likely;
            assert!(duty.at_limit.likely > open);
            let expected = if open >= duty.heat.likely {
                HeatRule::Thermostat
            } else if duty.at_limit.likely >= duty.heat.likely {
                HeatRule::Radiator
            } else {
                HeatRule::Boils
            };
            assert_eq!(rule(&answers, duty.duty), expected, "{:?}", duty.duty);
            if let Thermal::Steady { spare, .. } = answers.duties[duty.duty.index()].thermal {
                assert!(close(open.base() - duty.heat.likely.base(), spare.base(), 1e-3));
            }
        }
    }
}

/// A cooler thermostat never lets the wide open radiator carry more: all settings boil in the same air.
#[test]
fn no_set_point_moves_the_boiling() {
    let answers = answered(&demo());
    for duty in Duty::ALL {
        let all: Vec<f64> =
            answers.set_points.iter().map(|row| row.duties[duty.index()].boils_above.unwrap().base()).collect();
        assert!(all.iter().all(|air| close(*air, all[0], 1e-4)), "{duty:?} {all:?}");
        let holds: Vec<f64> =
            answers.set_points.iter().map(|row| row.duties[duty.index()].holds_to.unwrap().base()).collect();
        assert!(holds.windows(2).all(|pair| pair[1] > pair[0]), "{duty:?} {holds:?}");
    }
}

/// A fan that a switch turns on: the coolant warms with it off, stands at the hot end while it goes on and off, and follows
/// the air once it runs on. At every kink and between, the curve is what the answers say in that air.
#[test]
fn a_switched_fan_is_in_the_curves() {
    let mut project = demo();
    let fan = &mut project.radiator.fan;
    fan.known = true;
    fan.drive = FanDrive::Electric;
    fan.control = FanControl::Switched;
    assert!(project.radiator.fan.is_switched());
    let curves = curves(&project);
    assert!(curves.notes.iter().any(|note| note.show(UnitSystem::Si).contains("comes on at")));
    let (on, _) = project.radiator.fan.switches(project.thermostat.set_point);
    for duty in [Duty::Idle, Duty::Hill] {
        let curve = curves.of(duty).unwrap().fitted().unwrap();
        let mut stands = 0;
        for point in curve.points.iter().filter(|point| (293.15..328.0).contains(&point.ambient.base())) {
            let own = &answered(&with_air(&project, point.ambient)).duties[duty.index()];
            let Some(outlet) = point.outlet else { continue };
            stands += usize::from(outlet == on.likely);
            // At the step where the fan begins to run on either side of it is right. The fan's own air is that of the
            // hottest day, which moves the coolant by tenths.
            let steps = curve.points.iter().any(|other| {
                (other.ambient.base() - point.ambient.base()).abs() < 1.0
                    && other.outlet.is_some_and(|o| !close(o.base(), outlet.base(), 2.0))
            });
            assert!(steps || close(own.outlet.base(), outlet.base(), 0.5), "{duty:?} {point:?} {:?}", own.outlet);
        }
        if duty == Duty::Idle {
            assert!(stands > 0, "{:?}", curve.points);
        }
    }
    // The map and the answers agree at the duty points all the same.
    let answers = answered(&project);
    for mark in &map(&curves, HeatRoad::Level).marks {
        assert_eq!(mark.point.rule, rule(&answers, mark.duty), "{:?}", mark.duty);
        assert!(close(mark.point.outlet.unwrap().base(), answers.duties[mark.duty.index()].outlet.base(), 1e-6));
    }
}

/// An oil cooler in the coolant and the heater stand beside the radiator: curves, map and answers still agree.
#[test]
fn what_stands_beside_the_radiator_is_in_the_curves() {
    let mut project = demo();
    project.oil.cooling = OilCooling::ToCoolant;
    project.heater.on = true;
    let (answers, curves) = (answered(&project), curves(&project));
    assert!(curves.notes.iter().any(|note| note.show(UnitSystem::Si).contains("oil cooler")));
    let hottest = project.surroundings.hottest;
    for duty in Duty::ALL {
        let told = curves.of(duty).unwrap();
        for (row, curve) in answers.set_points.iter().zip(&told.set_points) {
            let at = &row.duties[duty.index()];
            if let Some(outlet) = at.outlet {
                assert!(close(along(curve, hottest.base()), outlet.base(), 0.3), "{duty:?} {:?}", row.set_point);
            }
            assert!(close(at.holds_to.unwrap().base(), curve.holds_to.unwrap().base(), 1e-5));
        }
        if let Thermal::Steady { spare, .. } = answers.duties[duty.index()].thermal {
            let open = told.at_full_open.unwrap().likely.base() - told.heat.likely.base();
            assert!(close(open, spare.base(), 1e-3), "{duty:?}");
        }
    }
    for mark in &map(&curves, HeatRoad::Climbing).marks {
        assert!(close(mark.point.outlet.unwrap().base(), answers.duties[mark.duty.index()].outlet.base(), 1e-6));
    }
}

/// Standing without a fan no air is cold enough: the map's words must not begin with the first speed at which some is.
#[test]
fn a_map_that_boils_in_any_air_says_so() {
    let mut project = demo();
    project.radiator.fan_speed = Some(coldmark::quantity::Estimate::exact(Velocity::from_base(0.0)));
    project.radiator.draught = Some(coldmark::quantity::Estimate::exact(Velocity::from_base(0.0)));
    let curves = curves(&project);
    let words = map(&curves, HeatRoad::Level).says().show(UnitSystem::Si);
    assert!(words.contains("It boils in any air at 0 km/h."), "{words}");
    assert!(words.contains("There is no air so cold that the thermostat rules at 0 km/h."), "{words}");
    assert!(!words.contains("boils first"), "{words}");
    let idle = curves.of(Duty::Idle).unwrap().says().show(UnitSystem::Si);
    assert!(idle.contains("rules in no air. It boils in any air."), "{idle}");
}
