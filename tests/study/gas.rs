//! Boosted engines and diesels, every level of knowledge of the blow-by, and what would narrow it.

use crate::build::{answered, known, metered};
use coldmark::file::{Preset, PresetPart, demo, presets};
use coldmark::quantity::si::{Length, Power, Ratio};
use coldmark::quantity::{AbsolutePressure, Estimate, Measured, UnitSystem};
use coldmark::study::{
    self, Answers, Choice, Duty, EngineFuel, Induction, Knowledge, LeakDownFigure, Means, Project, RingCondition,
    State, VentilationArrangement,
};

const FULL: usize = Duty::FullThrottle.index();

fn engine(key: &str) -> Project {
    let preset: &Preset = presets().of(PresetPart::Engine).find(|preset| preset.key == key).unwrap();
    let mut project = demo();
    preset.apply(&mut project);
    project.blow_by.condition = RingCondition::RunIn;
    project.ventilation.arrangement = VentilationArrangement::BreatherWithValve;
    project
}

fn has(answers: &Answers, key: &str) -> bool {
    answers.notes.iter().any(|note| note.key == key)
}

fn level(answers: &Answers, duty: usize, knowledge: Knowledge) -> Estimate<coldmark::quantity::si::MassRate> {
    let levels = &answers.duties[duty].blow_by.levels;
    levels.iter().find(|level| level.knowledge == knowledge).unwrap().forward
}

fn refused(project: &Project) -> String {
    study::answer(project).unwrap_err().to_string()
}

#[test]
fn every_engine_preset_is_answered() {
    for preset in presets().of(PresetPart::Engine) {
        let answers = answered(&engine(&preset.key));
        for duty in &answers.duties {
            let forward = duty.blow_by.forward;
            assert!(forward.low.base() > 0.0 && forward.high.base() < 0.05, "{}: {:?}", preset.key, duty.duty);
            // The trade's marks of a healthy engine at full load: 0.3 to 1 % of the intake flow, the turbocharger's on top.
            if duty.duty == Duty::FullThrottle {
                let share = duty.blow_by.share_of_air.base();
                assert!((0.003..0.012).contains(&share), "{}: {share}", preset.key);
            }
        }
    }
}

#[test]
fn more_boost_presses_more_gas_past_the_rings() {
    let mut last = [0.0; 2];
    for boost in [20e3, 60e3, 100e3, 150e3] {
        let mut project = engine("four-1.8-turbo");
        project.engine.boost = known(boost);
        let cylinders = project.engine.cylinders as usize;
        project.blow_by.leak_down = vec![Ratio::from_base(0.05); cylinders];
        project.duty.points[FULL].power = Power::from_base(90e3);
        let answers = answered(&project);
        let full = &answers.duties[FULL];
        assert!((full.manifold.base() - answers.ambient.base() - boost).abs() < 1e-6);
        let now = [level(&answers, FULL, Knowledge::LeakDown).likely.base(), full.air.base()];
        assert!(now[0] > last[0] && now[1] > last[1], "{boost}");
        last = now;
    }
}

/// The manifold above the air shuts the valve: all gas leaves by the breather, and the answers say so.
#[test]
fn boost_shuts_the_valve() {
    let answers = answered(&engine("four-1.8-turbo"));
    let full = &answers.duties[FULL];
    let valve = full.high().flow(study::FlowPath::Valve).unwrap();
    assert!(valve.out.base() <= 0.0 && valve.out.base().abs() < 1e-3 * full.blow_by.forward.likely.base());
    assert!(full.high().breathes_out());
    assert!(has(&answers, "boosted-manifold"));
    assert!(has(&answers, "turbo-leak-assumed"));
    let blower = answered(&engine("four-2.3-blower"));
    assert!(has(&blower, "boosted-manifold") && !has(&blower, "turbo-leak-assumed"));
    // At idle the throttle is shut and the valve works as ever.
    let idle = answers.duties[Duty::Idle.index()].likely().flow(study::FlowPath::Valve).unwrap();
    assert!(idle.out.base() > 0.0);
}

/// A cruise held in boost has a shut valve too, and the verdict does not ask for another valve.
#[test]
fn a_cruise_in_boost_has_no_use_for_a_valve() {
    let mut project = engine("four-1.8-turbo");
    project.duty.points[Duty::Cruise.index()].manifold = Some(AbsolutePressure::from_base(130e3));
    let verdict = answered(&project).verdict("pcv_capacity").unwrap().clone();
    assert_eq!(verdict.state, State::DoesNotHold);
    assert!(verdict.reason.show(UnitSystem::Si).contains("above the air"));
    let mend = verdict.mend.unwrap().show(UnitSystem::Si);
    assert!(mend.contains("air cleaner") && !mend.contains("a valve that passes"), "{mend}");
}

#[test]
fn a_diesel_draws_next_to_nothing_by_a_valve() {
    for key in ["four-2.0-diesel", "four-2.0-turbo-diesel"] {
        let answers = answered(&engine(key));
        for duty in [Duty::Idle, Duty::Overrun] {
            let below = answers.ambient.base() - answers.duties[duty.index()].manifold.base();
            assert!((0.0..3.5e3).contains(&below), "{key} {duty:?}: {below}");
        }
        let verdict = answers.verdict("pcv_capacity").unwrap();
        assert_ne!(verdict.state, State::Holds, "{key}");
        let reason = verdict.reason.show(UnitSystem::Si);
        assert!(reason.contains("next to nothing to draw with") || reason.contains("above the air"), "{key}: {reason}");
        assert!(!verdict.mend.as_ref().unwrap().show(UnitSystem::Si).contains("a valve that passes"));
    }
}

/// A diesel's air over fuel: 18 to 30 at full load, far leaner at idle (from memory); the heat goes to coolant with it.
#[test]
fn a_diesel_burns_by_its_power() {
    for key in ["four-2.0-diesel", "four-2.0-turbo-diesel"] {
        let answers = answered(&engine(key));
        let ratio = |duty: Duty| answers.duties[duty.index()].air_fuel.base();
        assert!((17.0..32.0).contains(&ratio(Duty::FullThrottle)), "{key}: {}", ratio(Duty::FullThrottle));
        assert!(ratio(Duty::Cruise) > ratio(Duty::Hill) && ratio(Duty::Idle) > 60.0, "{key}");
        assert!(!has(&answers, "diesel-smoke-limit"), "{key}");
    }
    let diesel = answered(&engine("four-2.0-diesel"));
    let petrol = answered(&engine("four-2.0"));
    let idle = Duty::Idle.index();
    assert!(diesel.duties[idle].heat.likely < 0.7 * petrol.duties[idle].heat.likely);
    // Per unit of power at full load the coolant of either takes about as much.
    let share = |answers: &Answers, power: f64| answers.duties[FULL].heat.likely.base() / power;
    let (d, p) = (share(&diesel, 44e3), share(&petrol, 95e3));
    assert!((0.5..1.1).contains(&d) && (0.5..1.1).contains(&p), "{d} {p}");
}

#[test]
fn a_diesel_beyond_its_air_is_told() {
    let mut project = engine("four-2.0-diesel");
    project.duty.points[FULL].power = Power::from_base(56e3);
    let answers = answered(&project);
    assert!(has(&answers, "diesel-smoke-limit"));
    project.duty.points[FULL].power = Power::from_base(85e3);
    let told = refused(&project);
    assert!(told.contains("a diesel without a blower makes at most about"), "{told}");
}

#[test]
fn contradictions_are_refused_in_words() {
    let mut project = engine("four-2.0");
    project.engine.compression_ratio = Ratio::from_base(20.0);
    assert!(refused(&project).contains("choose diesel"));
    project.engine.fuel = EngineFuel::Diesel;
    project.duty.points[FULL].power = Power::from_base(50e3);
    project.duty.points[Duty::Hill.index()].power = Power::from_base(30e3);
    answered(&project);
    project.engine.compression_ratio = Ratio::from_base(9.0);
    assert!(refused(&project).contains("choose petrol"));
    let mut project = engine("four-2.0");
    project.duty.points[FULL].manifold = Some(AbsolutePressure::from_base(150e3));
    assert!(refused(&project).contains("choose a blower"));
    project.engine.induction = Induction::Turbocharger;
    answered(&project);
    project.surroundings.altitude = Length::from_base(3000.0);
    project.duty.points[FULL].manifold = Some(AbsolutePressure::from_base(340e3));
    assert!(refused(&project).contains("no one blower"));
    // A power that only boost makes.
    let mut project = engine("four-1.8-turbo");
    answered(&project);
    project.engine.induction = Induction::Natural;
    assert!(refused(&project).contains("an engine without a blower makes at most"));
}

/// Every fuel with every way of breathing, at the blank project's size.
#[test]
fn every_fuel_breathes_every_way() {
    for &fuel in EngineFuel::ALL {
        for &induction in Induction::ALL {
            for cooler in [false, true] {
                let mut project = Project::blank();
                (project.engine.fuel, project.engine.induction) = (fuel, induction);
                project.engine.charge_cooler = cooler;
                if fuel == EngineFuel::Diesel {
                    project.engine.compression_ratio = Ratio::from_base(18.0);
                    project.duty.points[FULL].power = Power::from_base(120e3);
                }
                let answers = answered(&project);
                assert!(answers.duties.iter().all(|duty| duty.blow_by.forward.likely.base() > 0.0));
                study::curves(&project).unwrap();
                for &arrangement in VentilationArrangement::ALL {
                    project.ventilation.arrangement = arrangement;
                    let answers = answered(&project);
                    let full = &answers.duties[FULL];
                    // With nothing but a valve, and that shut by boost, no way out is left.
                    if arrangement == VentilationArrangement::ValveOnly && project.engine.is_boosted() {
                        assert_eq!(full.pressure_state(), State::DoesNotHold, "{fuel:?} {induction:?}");
                        assert!(has(&answers, "boosted-manifold") && has(&answers, "never-plug"));
                    }
                }
            }
        }
    }
}

/// A cooler makes the charge denser: more air at one boost.
#[test]
fn a_charge_cooler_lets_more_air_in() {
    let mut project = engine("four-1.8-turbo");
    let with = answered(&project).duties[FULL].air;
    project.engine.charge_cooler = false;
    assert!(answered(&project).duties[FULL].air.base() < 0.95 * with.base());
}

fn with_rings(mut project: Project) -> Project {
    project.blow_by.rings.known = true;
    project
}

/// The ring gaps are one level beside the others, below the condition, and never the one that is worked with.
#[test]
fn ring_gaps_stand_beside_the_other_levels() {
    let mut project = with_rings(engine("four-2.0"));
    let answers = answered(&project);
    for duty in &answers.duties {
        let known: Vec<_> = duty.blow_by.levels.iter().map(|level| level.knowledge).collect();
        assert_eq!(known, [Knowledge::RingGap, Knowledge::Condition]);
        assert_eq!(duty.blow_by.knowledge, Knowledge::Condition);
    }
    let floor = level(&answers, FULL, Knowledge::RingGap);
    let condition = level(&answers, FULL, Knowledge::Condition);
    // A third to two thirds of the other levels.
    let share = floor.likely.base() / condition.likely.base();
    assert!((0.2..0.9).contains(&share), "{share}");
    assert!(floor.low < floor.likely && floor.likely < floor.high);
    // The gas stored between the rings takes 7 to 34 % off.
    project.blow_by.rings.land_height = Some(Length::from_base(4e-3));
    let stored = level(&answered(&project), FULL, Knowledge::RingGap).likely.base() / floor.likely.base();
    assert!((0.6..0.97).contains(&stored), "{stored}");
}

#[test]
fn a_wider_gap_leaks_more() {
    let mut last = 0.0;
    for gap in [0.2e-3, 0.35e-3, 0.6e-3, 1.2e-3] {
        let mut project = with_rings(engine("four-2.0"));
        (project.blow_by.rings.top_gap, project.blow_by.rings.second_gap) = (known(gap), known(gap));
        let now = level(&answered(&project), FULL, Knowledge::RingGap).likely.base();
        assert!(now > last, "{gap}");
        last = now;
    }
}

/// Rings so open that they alone pass more than the condition says contradict it, and hardware is judged by the more.
#[test]
fn a_floor_above_the_estimate_is_told_and_judged_by() {
    let mut project = with_rings(engine("four-2.0"));
    let before = answered(&project).duties[FULL].blow_by.forward;
    (project.blow_by.rings.top_gap, project.blow_by.rings.second_gap) = (known(1.5e-3), known(1.5e-3));
    let answers = answered(&project);
    let (floor, after) = (level(&answers, FULL, Knowledge::RingGap), answers.duties[FULL].blow_by.forward);
    assert!(floor.likely > before.likely);
    assert!(has(&answers, "blow-by-below-floor") || has(&answers, "blow-by-levels-differ"));
    assert_eq!(after.likely, before.likely);
    assert_eq!(after.high, if floor.high > before.high { floor.high } else { before.high });
    // Closed up they would break: said as what it is.
    (project.blow_by.rings.top_gap, project.blow_by.rings.second_gap) = (known(0.05e-3), known(0.05e-3));
    assert!(has(&answered(&project), "ring-ends-touch"));
}

/// What a meter reads at one point is what the answers give at that point.
#[test]
fn a_meter_may_be_read_at_any_point() {
    for (key, duty) in [
        ("four-2.0", Duty::Hill),
        ("four-1.8-turbo", Duty::FullThrottle),
        ("four-2.0-turbo-diesel", Duty::FullThrottle),
    ] {
        let mut project = engine(key);
        let answers = answered(&project);
        let there = &answers.duties[duty.index()];
        let gas = study::defaults::gas_temperature().likely;
        let net = there.blow_by.net.likely.base() * 1.3;
        let flow = net * 287.05 * gas.base() / answers.ambient.base();
        metered(&mut project, flow * 60e3);
        project.blow_by.metered.rpm = project.duty.of(duty).rpm;
        project.blow_by.metered.manifold = Some(there.manifold);
        let after = answered(&project);
        let read = &after.duties[duty.index()].blow_by;
        assert_eq!(read.knowledge, Knowledge::Measured);
        assert!((read.net.likely.base() / net - 1.0).abs() < 1e-6, "{key}: {} {net}", read.net.likely.base());
        assert!(read.forward.high.base() / read.forward.low.base() < 1.35);
    }
}

/// A diesel's load is not in its manifold: the same reading at less power means a larger hole.
#[test]
fn a_diesel_read_at_less_power_has_the_larger_hole() {
    let mut project = engine("four-2.0-diesel");
    metered(&mut project, 25.0);
    let full = answered(&project).duties[FULL].blow_by.forward.likely;
    project.blow_by.metered.power = Some(Power::from_base(20e3));
    assert!(answered(&project).duties[FULL].blow_by.forward.likely.base() > 1.1 * full.base());
}

#[test]
fn what_to_measure_is_worked_out() {
    // By condition alone: a meter narrows most.
    let mut project = engine("four-2.0");
    (project.blow_by.ring_share, project.blow_by.running_share) = (None, None);
    let narrow = answered(&project).narrow;
    let full = answered(&project).duties[FULL].blow_by.forward;
    assert!((narrow.now.unwrap().base() - full.high.base() / full.low.base()).abs() < 1e-12);
    assert_eq!(narrow.best().unwrap().by, Means::Meter);
    assert!(narrow.ways.iter().any(|way| way.by == Means::LeakDown) && narrow.figures.is_empty());
    assert!(narrow.ways.is_sorted_by(|a, b| a.factor.unwrap().base() <= b.factor.unwrap().base()));
    // With a leak-down test: what it rests on, the widest first. 0.3 to 1 and 0.6 to 1 are the ends of two of them.
    let cylinders = project.engine.cylinders as usize;
    project.blow_by.leak_down = vec![Ratio::from_base(0.06); cylinders];
    let narrow = answered(&project).narrow;
    let factor = |wanted| narrow.figures.iter().find(|figure| figure.by == wanted).unwrap().factor.unwrap().base();
    assert!((factor(LeakDownFigure::RunningShare) - 1.0 / 0.3).abs() < 1e-9);
    assert!((factor(LeakDownFigure::RingShare) - 1.0 / 0.6).abs() < 1e-9);
    // Discharge 0.70 to 0.92 and a bore of 1.016 mm known to 0.02 mm.
    let restrictor = 0.92 / 0.70 * (1.036_f64 / 0.996).powi(2);
    assert!((factor(LeakDownFigure::Restrictor) - restrictor).abs() < 1e-9);
    assert!((factor(LeakDownFigure::Gauges) - 1.0).abs() < 1e-9);
    assert_eq!(narrow.figures[0].by, LeakDownFigure::RunningShare);
    let told = narrow.advice().show(UnitSystem::Si);
    assert!(told.contains("flow meter") && told.contains("running over the standing leak leaves most open"), "{told}");
    // The running share known, the share past the rings rules; small readings bring in the gauges.
    project.blow_by.running_share = known(0.6);
    assert_eq!(answered(&project).narrow.figures[0].by, LeakDownFigure::RingShare);
    project.blow_by.leak_down = vec![Ratio::from_base(0.012); cylinders];
    assert_eq!(answered(&project).narrow.figures[0].by, LeakDownFigure::Gauges);
    project.blow_by.leak_down = vec![Ratio::from_base(0.0); cylinders];
    assert_eq!(answered(&project).narrow.now, None);
    // With a meter only meter and thermometer are left.
    metered(&mut project, 30.0);
    let narrow = answered(&project).narrow;
    assert!(narrow.figures.is_empty() && narrow.now.unwrap().base() < 1.4);
    assert!(narrow.ways.iter().all(|way| matches!(way.by, Means::CalibratedMeter | Means::GasTemperature)));
    assert!(narrow.best().is_some());
}

/// The turbocharger's share comes on top of a leak-down test's rings, and goes with the boost.
#[test]
fn the_turbochargers_share_is_an_input() {
    let mut project = engine("four-1.8-turbo");
    let cylinders = project.engine.cylinders as usize;
    project.blow_by.leak_down = vec![Ratio::from_base(0.06); cylinders];
    project.blow_by.turbo_leak = known(0.0);
    let none = answered(&project);
    project.blow_by.turbo_leak = known(0.3);
    let some = answered(&project);
    let ratio =
        |duty: usize| level(&some, duty, Knowledge::LeakDown).likely / level(&none, duty, Knowledge::LeakDown).likely;
    assert!((ratio(FULL).base() - 1.3).abs() < 1e-9);
    assert!((ratio(Duty::Idle.index()).base() - 1.0).abs() < 1e-12);
    // The rules of thumb count what comes out of a whole engine.
    let condition = |answers: &Answers| level(answers, FULL, Knowledge::Condition).likely.base();
    assert!((condition(&some) / condition(&none) - 1.0).abs() < 1e-9);
}
