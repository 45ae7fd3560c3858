//! What must hold of the answers of any project: directions, balances, and verdicts that agree with their margins.

use crate::random::chance;
use coldmark::file::demo;
use coldmark::fluid::{Base, Mix};
use coldmark::heat::FanState;
use coldmark::quantity::si::{Length, Power, ThermodynamicTemperature};
use coldmark::quantity::{Measured, UnitSystem};
use coldmark::study::{
    self, Answers, DutyAnswers, FanControl, FlowPath, Project, RadiatorKnowledge, ShapeKind, State, TankArrangement,
    Thermal, VentKind, VentilationArrangement,
};
use proptest::prelude::*;

/// Two projects, the second of one step beyond the first; nothing if either gets no answer.
fn pair(project: &Project, step: impl FnOnce(&mut Project)) -> Option<(Answers, Answers)> {
    let before = study::answer(project).ok()?;
    let mut changed = project.clone();
    step(&mut changed);
    let after = study::answer(&changed).ok()?;
    Some((before, after))
}

/// Rounding of a search that stops.
fn no_less(after: f64, before: f64, by: f64) -> bool {
    after >= before - by
}

/// The gauge pressure at the likely blow-by.
fn gauge(duty: &DutyAnswers) -> f64 {
    duty.likely().gauge.above_ambient().value
}

fn config(cases: u32) -> ProptestConfig {
    ProptestConfig { cases, max_shrink_iters: 100, max_global_rejects: 20_000, ..ProptestConfig::default() }
}

proptest! {
    #![proptest_config(config(60))]

    /// A hotter day makes a hotter engine, and that more coolant in the tank.
    #[test]
    fn expansion_rises_with_the_hottest_day(chance in chance(), kelvin in 0.5..15.0_f64) {
        let project = chance.change(&demo());
        let Some((before, after)) = pair(&project, |project| {
            let hottest = &mut project.surroundings.hottest;
            *hottest = ThermodynamicTemperature::from_base((hottest.value + kelvin).min(328.15));
        }) else { return Err(TestCaseError::reject("no answer")) };
        prop_assert!(no_less(after.growth.hottest.value, before.growth.hottest.value, 2e-3));
        // The radiator may come back cooler when the thermostat opens less far; the engine decides.
        let (more, less) = (after.growth.in_tank.likely.value, before.growth.in_tank.likely.value);
        prop_assert!(no_less(more, less, 1e-3 * less.abs() + 1e-8), "{more} {less}");
    }

    /// More power makes more heat and a hotter engine.
    #[test]
    fn the_engine_is_hotter_with_more_power(chance in chance(), factor in 1.02..1.5_f64) {
        let more_power = |project: &mut Project| {
            for point in &mut project.duty.points {
                point.power = Power::from_base((point.power.value * factor).min(1000e3));
            }
        };
        let project = chance.change(&demo());
        let Some((before, after)) = pair(&project, more_power) else { return Err(TestCaseError::reject("no answer")) };
        for (more, less) in after.duties.iter().zip(&before.duties) {
            prop_assert!(no_less(more.heat.likely.value, less.heat.likely.value, 1e-6 * less.heat.likely.value));
            // A fan that goes on and off is told at its hot end; with more heat it may stay on, and then it is hotter than it
            // would be with the fan on before.
            if let (RadiatorKnowledge::Estimated, Thermal::Steady { fan: FanState::Cycles { on_at: Some(on) }, .. }) =
                (project.radiator.knowledge, &less.thermal)
            {
                prop_assert!(no_less(more.outlet.value, on.value, 2e-3), "{:?}", less.duty);
            }
        }
        // A radiator known by a measured point is worked out with the rated power, which has changed as well.
        if project.radiator.knowledge != RadiatorKnowledge::Estimated {
            return Ok(());
        }
        let mut runs_on = project;
        runs_on.radiator.fan.control = FanControl::Always;
        let Some((before, after)) = pair(&runs_on, more_power) else { return Err(TestCaseError::reject("no answer")) };
        for (more, less) in after.duties.iter().zip(&before.duties) {
            prop_assert!(no_less(more.outlet.value, less.outlet.value, 2e-3), "{:?}", less.duty);
        }
    }

    /// Cold volume and what comes make the hot volume, but for the change of density from fill to hot tank.
    #[test]
    fn levels_conserve_volume(chance in chance()) {
        let project = chance.change(&demo());
        prop_assume!(project.tank.arrangement != TankArrangement::HeaderTank);
        let Ok(answers) = study::answer(&project) else { return Err(TestCaseError::reject("no answer")) };
        let inputs = &project.coolant;
        let share = if inputs.base == Base::Water { Measured::from_base(0.0) } else { inputs.glycol_share };
        let mix = Mix::new(inputs.base, share, inputs.basis).unwrap();
        let density = |at| mix.density(at, &mut coldmark::scribe::Silent).unwrap().value;
        let hot_tank = project.tank.tank_temperature.unwrap_or_else(study::defaults::tank_temperature).likely;
        let filled = density(project.surroundings.filled_at);
        for duty in &answers.duties {
            let held = &duty.held;
            if duty.outlet < project.surroundings.filled_at { continue }
            let mass = held.in_tank.value * density(hot_tank);
            let balance = answers.tank.cold_volume.value * filled + held.expelled.value;
            prop_assert!((mass - balance).abs() <= 1e-9 * balance.max(1e-3), "{mass} {balance}");
            prop_assert_eq!(held.cap_open || held.tank_gauge.above_ambient().value > 0.0 || held.expelled.value == 0.0, true);
        }
        let sum = answers.tank.cold_volume.value * filled / density(hot_tank) + answers.growth.in_tank.likely.value;
        if let (Some(mark), ShapeKind::UprightCylinder) = (answers.tank.hot_mark, project.tank.shape) {
            let area = std::f64::consts::FRAC_PI_4 * project.tank.diameter.value.powi(2);
            prop_assert!((mark.value * area - sum).abs() < 1e-9, "{} {sum}", mark.value * area);
        }
        let spare = answers.tank.capacity.value - sum - answers.tank.surge.value;
        prop_assert!((spare - answers.tank.headroom.likely.value).abs() < 1e-9);
    }

    #[test]
    fn balances_close(chance in chance()) {
        let project = chance.change(&demo());
        let Ok(answers) = study::answer(&project) else { return Err(TestCaseError::reject("no answer")) };
        prop_assert!(answers.growth.closure.value.abs() < 1e-6, "{}", answers.growth.closure.value);
        for duty in &answers.duties {
            if let Thermal::Steady { closure, .. } = duty.thermal {
                prop_assert!(closure.value.abs() < 1e-4, "{:?}: {}", duty.duty, closure.value);
            }
            for case in &duty.crankcase {
                prop_assert!(case.closure.value.abs() < 1e-6, "{:?}: {}", duty.duty, case.closure.value);
                let out: f64 = case.flows.iter().map(|flow| flow.out.value).sum();
                let most = case.flows.iter().map(|flow| flow.out.value.abs()).fold(case.blow_by.value, f64::max);
                prop_assert!((out - case.blow_by.value).abs() < 2e-6 * most + 1e-8, "{out} {}", case.blow_by.value);
            }
        }
    }

    /// A lower tank asks for more suction.
    #[test]
    fn a_taller_lift_needs_more_suction(chance in chance(), more in 0.01..0.8_f64) {
        let mut project = chance.change(&demo());
        project.tank.arrangement = TankArrangement::RecoveryTank;
        let Some((before, after)) = pair(&project, |project| {
            project.tank.neck_height = Length::from_base((project.tank.neck_height.value + more).min(2.0));
        }) else { return Err(TestCaseError::reject("no answer")) };
        let (taller, lower) = (after.tank.suction, before.tank.suction);
        prop_assert!(no_less(taller.likely.value, lower.likely.value, 1e-9));
        prop_assert!(no_less(taller.high.value, lower.high.value, 1e-9) && no_less(taller.low.value, lower.low.value, 1e-9));
    }

    /// A bigger vent never has more pressure under the lid.
    #[test]
    fn a_bigger_vent_never_raises_the_pressure(chance in chance(), factor in 1.01..4.0_f64) {
        let project = chance.change(&demo());
        prop_assume!(project.tank.arrangement != TankArrangement::HeaderTank && project.tank.vent != VentKind::Sealed);
        let Some((before, after)) = pair(&project, |project| {
            project.tank.vent_diameter = Length::from_base((project.tank.vent_diameter.value * factor).min(0.05));
        }) else { return Err(TestCaseError::reject("no answer")) };
        let (small, big) = (before.tank.vent.unwrap(), after.tank.vent.unwrap());
        for (small, big) in [(small.warm_up, big.warm_up), (small.cap_lift, big.cap_lift), (small.steam, big.steam)] {
            let (small, big) = (small.unwrap(), big.unwrap());
            for (small, big) in [(small.low, big.low), (small.likely, big.likely), (small.high, big.high)] {
                let (small, big) = (small.above_ambient().value, big.above_ambient().value);
                prop_assert!(no_less(small, big, 1e-6 * big.abs() + 1e-6), "{small} {big}");
            }
        }
    }

    /// A wider breather never has the crankcase farther from the air it leads to: no more pressure, no deeper depression.
    #[test]
    fn a_wider_breather_never_raises_the_pressure(chance in chance(), factor in 1.01..2.0_f64) {
        let mut project = chance.change(&demo());
        let ventilation = &mut project.ventilation;
        ventilation.breather.barb = None;
        if ventilation.leads_to_air_cleaner() || ventilation.arrangement == VentilationArrangement::ValveOnly {
            ventilation.arrangement = VentilationArrangement::BreatherWithValve;
        }
        // The fittings of a can count as narrow places of the hose, whose loss hangs on the ratio of the two.
        ventilation.can.place = study::CanPlace::None;
        // By a cross-over hose fresh air goes straight to the valve, and then more of it leaves the crankcase less room there.
        project.ventilation.crossover.known = false;
        let Some((before, after)) = pair(&project, |project| {
            let bore = &mut project.ventilation.breather.bore;
            *bore = Length::from_base((bore.value * factor).min(0.06));
        }) else { return Err(TestCaseError::reject("no answer")) };
        for (narrow, wide) in before.duties.iter().zip(&after.duties) {
            // Where a valve has several pressures to stand at, the two may stand at different ones.
            if !narrow.likely().others.is_empty() || !wide.likely().others.is_empty() { continue }
            let (narrow, wide) = (gauge(narrow), gauge(wide));
            if narrow >= 0.0 {
                prop_assert!(no_less(narrow, wide, 1e-3 * narrow.abs() + 0.05), "{narrow} {wide}");
            } else {
                prop_assert!(no_less(wide, narrow, 1e-3 * narrow.abs() + 0.05), "{narrow} {wide}");
            }
        }
    }

    /// More blow-by, more pressure: low, likely and high stand in order.
    #[test]
    fn pressure_rises_with_blow_by(chance in chance()) {
        let project = chance.change(&demo());
        let Ok(answers) = study::answer(&project) else { return Err(TestCaseError::reject("no answer")) };
        for duty in &answers.duties {
            if duty.crankcase.iter().any(|case| !case.others.is_empty()) { continue }
            let [low, likely, high] = [0, 1, 2].map(|i: usize| duty.crankcase[i].gauge.above_ambient().value);
            prop_assert!(no_less(likely, low, 0.05) && no_less(high, likely, 0.05), "{low} {likely} {high}");
        }
    }

    /// A verdict says what its numbers say.
    #[test]
    fn verdicts_agree_with_their_margins(chance in chance()) {
        let project = chance.change(&demo());
        let Ok(answers) = study::answer(&project) else { return Err(TestCaseError::reject("no answer")) };
        let header = project.tank.arrangement == TankArrangement::HeaderTank;
        let boils = answers.duties.iter().any(|duty| matches!(duty.thermal, Thermal::NoSteadyState { .. }));
        let state = |key: &str| answers.verdict(key).map(|verdict| verdict.state);
        if !header {
            let spare = answers.tank.headroom;
            let verdict = state("tank_volume").unwrap();
            // What boils over is lost, whatever room the tank has. The margin where boiling begins is 0 K but for rounding.
            prop_assert_eq!(verdict == State::DoesNotHold, spare.likely.value < 0.0 || boils);
            prop_assert!(verdict != State::Holds || spare.low.value >= 0.0);
        }
        let least = answers.duties.iter().map(|duty| duty.least_margin().likely.value).fold(f64::INFINITY, f64::min);
        prop_assert_eq!(state("boiling").unwrap() == State::DoesNotHold, boils || least <= 0.0);
        if boils {
            prop_assert_eq!(state("cooling").unwrap(), State::DoesNotHold);
        }
        let over = answers.duties.iter().any(|duty| duty.high().gauge > duty.limit.likely);
        let pressure = state("crankcase_pressure").unwrap();
        prop_assert!(!over || pressure == State::DoesNotHold);
        for duty in &answers.duties {
            prop_assert!(pressure >= duty.pressure_state() && pressure >= duty.depression_state(), "{:?}", duty.duty);
        }
        if let Ok(freezing) = &answers.coolant.freezing {
            let liquid = project.surroundings.coldest > *freezing;
            prop_assert_eq!(state("freezing").unwrap() == State::DoesNotHold, !liquid);
        } else {
            prop_assert_eq!(state("freezing").unwrap(), State::NotKnown);
        }
        let vent = answers.tank.vent.as_ref();
        prop_assert_eq!(vent.is_none(), header);
        if vent.is_some_and(|vent| vent.sealed) {
            prop_assert_eq!(state("tank_vent").unwrap(), State::DoesNotHold);
        }
        if project.tank.arrangement == TankArrangement::RecoveryTank && state("return").unwrap() == State::Holds {
            prop_assert!(answers.tank.comes_back);
        }
        for verdict in &answers.verdicts {
            let words = |sentence: &study::Sentence| !sentence.show(coldmark::quantity::UnitSystem::Si).is_empty();
            prop_assert!(words(&verdict.margin) && words(&verdict.limit) && words(&verdict.reason), "{}", verdict.key);
            prop_assert!(verdict.mend.is_none() || verdict.state != State::Holds, "{} mends what holds", verdict.key);
        }
        // Flows by name exist where the arrangement has them.
        for duty in &answers.duties {
            prop_assert_eq!(duty.likely().flow(FlowPath::Valve).is_some(), project.ventilation.has_valve());
            prop_assert_eq!(duty.likely().flow(FlowPath::Breather).is_some(), project.ventilation.has_breather());
        }
    }

    /// Every chapter an answer names is in the working, unless the answer itself is not given.
    #[test]
    fn named_chapters_exist(chance in chance()) {
        let project = chance.change(&demo());
        let Ok(answers) = study::answer_with_working(&project) else { return Err(TestCaseError::reject("no answer")) };
        let has = |key: &str| answers.working.iter().any(|chapter| chapter.key == key);
        for row in answers.sections().iter().flat_map(|section| &section.rows) {
            if let (Some(chapter), false) = (&row.working, matches!(row.value, study::Value::Absent(_))) {
                prop_assert!(has(chapter), "{} names the chapter {chapter}, which is not there", row.key);
            }
        }
        for verdict in &answers.verdicts {
            let known = verdict.state != State::NotKnown;
            prop_assert!(!known || has(verdict.working), "{} names the chapter {}", verdict.key, verdict.working);
        }
        let mut keys = std::collections::BTreeSet::new();
        for chapter in &answers.working {
            prop_assert!(keys.insert(&chapter.key), "two chapters are called {}", chapter.key);
        }
    }
}

proptest! {
    #![proptest_config(config(40))]

    /// Whatever has answers has heat curves that agree with them on the hottest day, and words without numbers that are none.
    #[test]
    fn heat_curves_are_whole_for_any_project(chance in chance()) {
        let project = chance.change(&demo());
        let Ok(answers) = study::answer(&project) else { return Err(TestCaseError::reject("no answer")) };
        let curves = study::heat_curves(&project);
        prop_assert!(curves.is_ok(), "{curves:?}");
        let curves = curves.unwrap();
        prop_assert!(!curves.says_capacity().is_empty());
        for (own, duty) in answers.duties.iter().zip(&curves.duties) {
            let words = duty.says().show(UnitSystem::Si);
            prop_assert!(!words.is_empty() && !words.contains("NaN") && !words.contains("inf"), "{words}");
            for curve in &duty.set_points {
                for point in &curve.points {
                    prop_assert!(point.outlet.is_none_or(|outlet| outlet.value.is_finite() && outlet.value <= curves.limit.value + 1e-6));
                }
                prop_assert!(curve.points.windows(2).all(|pair| pair[0].ambient <= pair[1].ambient));
            }
            let Some(map) = curves.maps.iter().flatten().find(|map| map.marks.iter().any(|m| m.duty == own.duty)) else {
                continue;
            };
            let mark = map.marks.iter().find(|mark| mark.duty == own.duty).unwrap();
            prop_assert_eq!(mark.point.outlet.is_none(), own.boils());
            if let Some(outlet) = mark.point.outlet {
                prop_assert!((outlet.value - own.outlet.value).abs() < 1e-5, "{:?} {outlet:?} {:?}", own.duty, own.outlet);
            }
            let told = map.says().show(UnitSystem::Us);
            prop_assert!(!told.contains("NaN") && !told.contains("inf"), "{told}");
        }
        for row in answers.set_point_comparison().rows {
            let told = row.value.show(UnitSystem::Si);
            prop_assert!(!told.is_empty() && !told.contains("NaN") && !told.contains(" inf"), "{told}");
        }
    }
}
