//! The map over road speed and air: what the road takes, the duty points beside it, and its words.

use crate::build::answered;
use crate::heat::{close, curves, map, rule, with_air};
use coldmark::file::demo;
use coldmark::quantity::si::Velocity;
use coldmark::quantity::{Amount, Estimate, Measured, UnitSystem, celsius};
use coldmark::study::{Duty, HeatCurves, HeatMap, HeatRoad, HeatRule};

/// The duty points stand beside the map with their own answers, whatever the road takes.
#[test]
fn the_duty_points_are_marked_with_their_answers() {
    for hottest in [20.0, 36.0, 43.0, 50.0] {
        let project = with_air(&demo(), celsius(hottest));
        let (answers, curves) = (answered(&project), curves(&project));
        for road in HeatRoad::ALL {
            let map = map(&curves, road);
            assert_eq!(map.marks.iter().map(|mark| mark.duty).collect::<Vec<_>>(), road.duties());
            for mark in &map.marks {
                let (own, entered) = (&answers.duties[mark.duty.index()], project.duty.of(mark.duty));
                assert_eq!(mark.point.rule, rule(&answers, mark.duty), "{:?} at {hottest}", mark.duty);
                assert_eq!((mark.entered.power, mark.entered.rpm), (entered.power, entered.rpm));
                if let Some(outlet) = mark.point.outlet {
                    assert!(close(outlet.base(), own.outlet.base(), 1e-6));
                }
            }
            // Standing, the engine idles: there the map is the answer too.
            let (standing, idle) = (map.columns[0].unwrap(), &answers.duties[Duty::Idle.index()]);
            assert_eq!(standing.driven.rpm, project.duty.of(Duty::Idle).rpm);
            assert!(close(standing.heat.base(), idle.heat.likely.base(), 1e-6));
            assert_eq!(map.stretches[0].rule, Some(map.marks[0].point.rule));
        }
    }
}

/// A duty point entered with what the road takes at its speed lies on the map: as a column, as a stretch, and in the grade.
#[test]
fn a_duty_point_of_the_road_load_lies_on_the_map() {
    const OF: [(Duty, HeatRoad); 2] = [(Duty::Cruise, HeatRoad::Level), (Duty::Hill, HeatRoad::Climbing)];
    let mut project = demo();
    let marked = |curves: &HeatCurves, (duty, road): (Duty, HeatRoad)| {
        *map(curves, road).marks.iter().find(|mark| mark.duty == duty).unwrap()
    };
    for of in OF {
        let driven = marked(&curves(&project), of).driven.unwrap();
        let point = &mut project.duty.points[of.0.index()];
        (point.power, point.rpm) = (driven.power, driven.rpm);
    }
    let (answers, curves) = (answered(&project), curves(&project));
    for (duty, road) in OF {
        let (map, mark) = (map(&curves, road), marked(&curves, (duty, road)));
        let driven = mark.driven.unwrap();
        assert!(close(driven.power.base(), mark.entered.power.base(), 1e-3), "{mark:?}");
        assert!(close(driven.rpm.base(), mark.entered.rpm.base(), 1e-9), "{mark:?}");
        let on = map.stretches.iter().find(|one| one.from <= mark.speed && mark.speed <= one.to).unwrap();
        assert_eq!(on.rule, Some(mark.point.rule), "{duty:?}");
        let place = map.speed.place(mark.speed);
        let ends = [place.floor(), place.ceil()].map(|at| map.columns[at as usize].unwrap().heat.base());
        let own = answers.duties[duty.index()].heat.likely.base();
        assert!((ends[0].min(ends[1])..=ends[0].max(ends[1])).contains(&own), "{duty:?} {own} {ends:?}");
        // Nothing is left to be told of it.
        assert!(!map.says_basis().show(UnitSystem::Si).contains(if duty == Duty::Hill {
            "On a hill"
        } else {
            "At cruise"
        }));
    }
    let climbing = map(&curves, HeatRoad::Climbing);
    assert!(climbing.grade_of_hill && (0.10..0.13).contains(&climbing.grade.base()), "{:?}", climbing.grade);
}

/// Every column by the formula of the road load in plain numbers: the demo's 1450 kg, 0.72 m², 0.013, 88 %, and air of 36 °C
/// at its altitude, 1.0629 kg/m³.
#[test]
fn a_column_is_what_the_road_takes() {
    let curves = curves(&demo());
    for road in HeatRoad::ALL {
        let map = map(&curves, road);
        let slope = map.grade.base().atan();
        // From where the clutch slips no more.
        for column in map.columns.iter().flatten().filter(|column| column.speed.base() > 18.0 / 3.6) {
            let v = column.speed.base();
            let force = 1450.0 * 9.806_65 * (0.013 * slope.cos() + slope.sin()) + 0.5 * 1.0629 * 0.72 * v * v;
            let driven = column.driven;
            assert!(close(driven.power.base() / (force * v / 0.88), 1.0, 1e-4), "{column:?}");
            let per_thousand = [14.0, 21.5, 30.5, 41.0][driven.gear.unwrap() - 1] / 3.6;
            let rpm = driven.rpm.base() * 30.0 / std::f64::consts::PI;
            assert!(close(rpm, v / per_thousand * 1000.0, 1e-6), "{column:?}");
        }
    }
    // By hand at 100 km/h: (184.9 N + 295.3 N)·27.78 m/s/0.88 = 15.16 kW, in top gear.
    let level = map(&curves, HeatRoad::Level);
    let after = level.columns.iter().flatten().find(|column| column.speed.base() >= 100.0 / 3.6).unwrap();
    let before = level.columns.iter().flatten().rfind(|column| column.speed.base() < 100.0 / 3.6).unwrap();
    assert!(before.driven.power.base() < 15.16e3 && after.driven.power.base() > 15.16e3, "{before:?} {after:?}");
    assert!(after.driven.power.base() - before.driven.power.base() < 2.5e3 && after.driven.gear == Some(4));
}

/// A weak engine: no cell where it cannot hold the speed, and the words say so.
#[test]
fn what_the_engine_cannot_hold_has_no_cell() {
    let mut project = demo();
    for (duty, power) in [(Duty::FullThrottle, 30e3), (Duty::Hill, 25e3)] {
        project.duty.points[duty.index()].power = Measured::from_base(power);
    }
    let curves = curves(&project);
    let map = map(&curves, HeatRoad::Level);
    let last = map.stretches.last().unwrap();
    // 30 kW hold about 135 km/h, not the 160 km/h of the duty.
    assert!(last.rule.is_none() && (120.0..145.0).contains(&(last.from.base() * 3.6)), "{last:?}");
    for column in 0..map.speed.points {
        let speed = map.speed.at(column as f64);
        let held = speed < last.from;
        assert_eq!(map.columns[column].is_some(), held, "{speed:?}");
        for row in 0..map.ambient.points {
            assert_eq!(map.cell(column, row).is_some(), held);
            let words = map.line_at(speed, map.ambient.at(row as f64)).unwrap().show(UnitSystem::Si);
            assert_eq!(words.contains("cannot hold"), !held, "{words}");
        }
    }
    let words = map.says().show(UnitSystem::Si);
    let from = Amount::of(last.from).show(UnitSystem::Si);
    assert!(words.contains(&format!("the engine cannot hold the speed above {from}")), "{words}");
    let basis = map.says_basis().show(UnitSystem::Si);
    assert!(basis.contains("the engine cannot hold the speed on this road"), "{basis}");
}

/// What the reserve is for: uphill a lower gear turns engine and pump faster for the same power.
#[test]
fn more_reserve_turns_the_pump_faster_uphill() {
    let with = |reserve: f64| {
        let mut project = demo();
        project.car.gear_reserve = Some(Estimate::exact(Measured::from_base(reserve)));
        let curves = curves(&project);
        let climbing = map(&curves, HeatRoad::Climbing);
        let place = climbing.speed.place(Velocity::from_base(70.0 / 3.6)).round() as usize;
        climbing.columns[place].unwrap()
    };
    let (none, some) = (with(0.0), with(0.4));
    assert!(some.driven.gear < none.driven.gear && some.driven.power == none.driven.power, "{none:?} {some:?}");
    assert!(some.driven.rpm > none.driven.rpm * 1.2, "{none:?} {some:?}");
}

/// Every cell lies on the side of the borders its class says, and the coolest lines lie in the coolest air.
#[test]
fn classes_borders_and_levels_of_the_map_agree() {
    let project = demo();
    let curves = curves(&project);
    for road in HeatRoad::ALL {
        let map = map(&curves, road);
        let (columns, rows) = (map.speed.points, map.ambient.points);
        assert_eq!((map.cells.len(), map.columns.len()), (columns * rows, columns));
        for row in 0..rows {
            for column in 0..columns {
                let (Some(cell), Some(border)) = (map.cell(column, row), map.columns[column]) else {
                    assert!(map.cell(column, row).is_none() && map.columns[column].is_none());
                    continue;
                };
                let expected = HeatRule::ALL.into_iter().rev().find(|rule| match rule {
                    HeatRule::Losses => true,
                    HeatRule::Thermostat => border.opens_at.is_none_or(|air| cell.ambient > air),
                    HeatRule::Radiator => border.holds_to.is_none_or(|air| cell.ambient > air),
                    HeatRule::Boils => border.boils_above.is_none_or(|air| cell.ambient > air),
                });
                assert_eq!(Some(cell.rule), expected, "{road:?} {border:?} {cell:?}");
            }
        }
        assert!(!map.levels.is_empty() && !map.border(HeatRule::Thermostat).is_empty());
        for level in &map.levels {
            assert!(((level.outlet.base() - 273.15) / HeatMap::LEVEL_STEP).fract().abs() < 1e-9);
            for (speed, air) in level.lines.iter().flat_map(|line| &line.0) {
                // Between the cells around it, however much a change of gear sets them apart.
                let (x, y) = (map.speed.place(*speed), map.ambient.place(*air));
                let corners =
                    [(x.floor(), y.floor()), (x.ceil(), y.floor()), (x.floor(), y.ceil()), (x.ceil(), y.ceil())];
                let around = corners.into_iter().filter_map(|(x, y)| map.cell(x as usize, y as usize)?.outlet);
                let ends = around.fold((f64::MAX, f64::MIN), |(low, high), t| (low.min(t.base()), high.max(t.base())));
                let at = level.outlet.base();
                assert!(ends.0 - 1e-6 <= at && at <= ends.1 + 1e-6, "{ends:?} {at}");
            }
        }
        // Stretches join and cover every speed.
        assert_eq!(map.stretches.first().unwrap().from, map.speed.from);
        assert_eq!(map.stretches.last().unwrap().to, map.speed.to);
        assert!(map.stretches.windows(2).all(|pair| pair[0].to == pair[1].from && pair[0].rule != pair[1].rule));
    }
}

/// The words name the road speeds at which the ruler changes.
#[test]
fn the_words_of_the_map_name_where_the_ruler_changes() {
    let curves = curves(&demo());
    for road in HeatRoad::ALL {
        let map = map(&curves, road);
        let words = map.says().show(UnitSystem::Si);
        assert!(map.stretches.len() > 1, "{words}");
        for pair in map.stretches.windows(2) {
            let at = Amount::of(pair[1].from).show(UnitSystem::Si);
            assert!(words.contains(&at), "{at}: {words}");
        }
        assert!(words.contains("in air of 36"), "{words}");
        let us = map.says().show(UnitSystem::Us);
        assert!(us.contains("mph") && !us.contains("km/h"), "{us}");
    }
    let basis = map(&curves, HeatRoad::Level).says_basis().show(UnitSystem::Si);
    for part in ["on the level", "30 % of full throttle in reserve", "At cruise (90", "18 kW at 2200 rpm was entered"] {
        assert!(basis.contains(part), "{part}: {basis}");
    }
    let basis = map(&curves, HeatRoad::Climbing).says_basis().show(UnitSystem::Si);
    assert!(basis.contains("the grade that the hill duty climbs"), "{basis}");
}

#[test]
fn a_car_that_cannot_be_told_has_no_map_and_says_why() {
    let mut project = demo();
    for point in &mut project.duty.points {
        point.road_speed = Velocity::from_base(0.0);
    }
    // The gears are entered: the car can be driven all the same, and a hill that tells no grade has a usual one.
    let told = curves(&project);
    let climbing = map(&told, HeatRoad::Climbing);
    assert!(!climbing.grade_of_hill && close(climbing.grade.base(), 0.06, 1e-12));
    assert!(climbing.says_basis().show(UnitSystem::Si).contains("a usual grade"));
    // Without them nothing tells a top gear.
    project.car.gears.clear();
    let told = curves(&project);
    for road in HeatRoad::ALL {
        assert!(told.map(road).as_ref().unwrap_err().contains("top gear"));
    }
    // The curves are there all the same.
    assert_eq!(told.duties.len(), 5);
    // A duty point faster than the car goes is on the map all the same.
    let mut project = demo();
    project.duty.points[Duty::Hill.index()].road_speed = Velocity::from_base(70.0);
    let told = curves(&project);
    let climbing = map(&told, HeatRoad::Climbing);
    assert!(close(climbing.speed.to.base(), 70.0, 0.0) && climbing.stretches.last().unwrap().rule.is_none());
}
