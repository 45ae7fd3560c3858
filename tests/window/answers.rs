//! Answers as they are seen: blow-by by levels, the valve's curve, what fails, the set-points, the torque window.

use crate::support::{Moves as _, Window, demo, opened};
use coldmark::crankcase::blow_by::standard_volume_flow;
use coldmark::file::{PresetLine, PresetPart};
use coldmark::quantity::{Amount, UnitSystem};
use coldmark::study::{
    CanPlace, Choice as _, Duty, EngineFuel, Failure, Moment, Part, Project, VentilationArrangement,
};
use egui::accesskit::Role;
use egui_kittest::kittest::{NodeT as _, Queryable as _};

fn described(window: &Window, label: &str) -> String {
    let node = window.query_all_by_role(Role::Image);
    let found = node.filter(|node| node.accesskit_node().label().is_some_and(|name| name.starts_with(label)));
    let one = found.map(|node| node.accesskit_node().data().description().unwrap().to_owned()).next();
    one.unwrap_or_else(|| panic!("no picture named {label}"))
}

#[test]
fn blow_by_is_shown_by_every_level_of_knowledge() {
    let mut window = demo();
    window.part(Part::Crankcase);
    for duty in [Duty::Idle, Duty::FullThrottle] {
        window.state_mut().show_moment(Moment::Driving(duty));
        window.run();
        let answers = window.state().answers().unwrap().clone();
        let blow_by = &answers.duties[duty.index()].blow_by;
        assert!(blow_by.levels.len() > 1);
        let name = format!("Blow-by as it is known, {}", duty.name().to_lowercase());
        let words = described(&window, &name);
        for level in &blow_by.levels {
            let likely = Amount::of(standard_volume_flow(level.forward.likely)).show(UnitSystem::Si);
            assert!(words.contains(&format!("{} {likely}", level.knowledge.name())), "{words}");
        }
        assert!(words.contains(&format!("Used: {}.", blow_by.knowledge.name())), "{words}");
        // Who sees it reads the same, and what to measure.
        assert!(window.shows(&words));
        assert!(window.shows(&answers.narrow.advice().show(UnitSystem::Si)));
    }
    // With the engine at rest, full throttle.
    window.state_mut().show_moment(Moment::HotStop);
    window.run();
    described(&window, "Blow-by as it is known, full throttle: Gas flow, L/min against what it is known from");
    window.part(Part::Tank);
    assert!(!window.shows("What to measure: "));
}

#[test]
fn the_valve_has_its_curve_with_the_duties_on_it() {
    let mut window = demo();
    window.part(Part::Valve);
    let words = described(&window, "What the valve passes: Flow by itself, L/min against Depression");
    let valve = window.state().answers().unwrap().valve.clone().unwrap();
    for (duty, passes) in Duty::ALL.into_iter().zip(&valve.passes) {
        let flow = Amount::of(*passes.as_ref().unwrap()).show(UnitSystem::Si);
        assert!(words.contains(&format!("{} {flow} at ", duty.name().to_lowercase())), "{words}");
    }
    assert!(!words.contains("bench"));
    assert!(window.shows("Mixture at idle with the PCV valve"));
}

#[test]
fn what_fails_stands_side_by_side() {
    let mut window = demo();
    window.part(Part::Valve);
    let failures = window.state().answers().unwrap().failures.clone();
    assert_eq!(failures.len(), Failure::ALL.len());
    for failure in &failures {
        for at in &failure.duties {
            let cell = format!("{}, {}: {}, ", failure.failure.name(), at.duty.name(), at.state.word());
            assert!(window.shows(&cell), "{cell}");
        }
        let worst = failure.worst();
        assert!(window.shows(&format!("Worst: {}, {}, ", worst.duty.name(), worst.state.word())));
    }
    // A breather can only be blocked.
    window.part(Part::Breather);
    assert!(window.shows("breather blocked, Idle: ") && !window.shows("PCV valve stuck open, Idle: "));
    window.part(Part::Tank);
    assert!(!window.shows("What if it fails"));
}

#[test]
fn set_points_tell_of_moisture_and_boil_off() {
    let mut window = demo();
    window.part(Part::Thermostat);
    for words in
        ["Dew margin, cold trip, K", "Dew margin, warm, K", "Petrol leaves, middling, %", "Petrol leaves, heavy, %"]
    {
        assert!(window.query_by_label(words).is_some(), "{words}");
    }
    let answers = window.state().answers().unwrap().clone();
    for setting in &answers.set_points {
        let margin = setting.moisture.warm_margin().unwrap();
        assert!(window.shows(&Amount::of(margin).show_number(UnitSystem::Si)));
    }
    // Diesel fuel does not boil off: the rows go.
    let diesel = coldmark::file::presets().of(PresetPart::Engine).find(|one| one.name.contains("diesel"));
    let name = diesel.unwrap().name.clone();
    window.part(Part::Engine);
    window.click("Start from: Engine with its duty points ▾");
    window.click(&name);
    window.part(Part::Thermostat);
    assert!(window.shows("Dew margin, warm, K") && !window.shows("Petrol leaves, middling"));
}

#[test]
fn the_joint_has_its_window_of_torque() {
    let mut window = demo();
    window.part(Part::CoverJoint);
    let joint = window.state().answers().unwrap().cover_joint.clone().unwrap();
    let words = described(&window, "Torque that may be used: Torque of a screw, N·m against how sure the figures are");
    let told = |torque| Amount::of(torque).show(UnitSystem::Si);
    let (least, most) = (joint.window.least.unwrap(), joint.window.most);
    assert!(words.contains(&format!("{} to {}", told(least.likely), told(most.likely))), "{words}");
    assert!(words.contains(&format!("used {}", told(joint.torque.unwrap()))), "{words}");
    assert!(words.contains(&format!("aim at {}", told(joint.window.aim.unwrap()))), "{words}");
    assert!(window.shows(&format!("used {}", told(joint.torque.unwrap()))));
    assert!(!window.shows("Nothing to plot"));
}

#[test]
fn boosted_and_diesel_engines_come_from_the_shelf() {
    for preset in coldmark::file::presets().of(PresetPart::Engine) {
        let mut window = demo();
        window.part(Part::Engine);
        window.click("Start from: Engine with its duty points ▾");
        window.click(&preset.name);
        assert!(window.state().answers().is_some(), "{}", preset.name);
        let (boosted, fuel) = (window.project().engine.is_boosted(), window.project().engine.fuel);
        let asked = window.query_by_role_and_label(Role::TextInput, "Boost at full throttle").is_some();
        assert_eq!(asked, boosted, "{}", preset.name);
        for part in [Part::Crankcase, Part::Valve, Part::CatchCan] {
            window.part(part);
            assert!(window.query_all_by_role_and_label(Role::Heading, part.name()).next().is_some());
        }
        window.part(Part::Valve);
        let mixture = window.shows("Mixture at idle with the PCV valve");
        assert_eq!(mixture, fuel == EngineFuel::Petrol, "{}", preset.name);
    }
}

#[test]
fn hoses_of_every_line_come_from_the_shelf() {
    let folder = tempfile::tempdir().unwrap();
    let hose = coldmark::file::presets().of(PresetPart::Hose).last().unwrap();
    let two = |project: &mut Project| project.ventilation.arrangement = VentilationArrangement::TwoBreathers;
    let can = |project: &mut Project| project.ventilation.can.place = CanPlace::ValveLine;
    type Change = fn(&mut Project);
    let lines: [(Part, PresetLine, Change); 3] = [
        (Part::Breather, PresetLine::Breather, |_| {}),
        (Part::Breather, PresetLine::Second, two),
        (Part::CatchCan, PresetLine::Valve, can),
    ];
    for (part, line, change) in lines {
        let mut project = coldmark::file::demo();
        change(&mut project);
        let path = folder.path().join(format!("{line:?}.toml"));
        coldmark::file::save(&project, &path, UnitSystem::Si).unwrap();
        let mut window = opened(Some(path), None);
        window.part(part);
        window.click(&format!("Start from: {}: hose ▾", line.name()));
        window.click(&hose.name);
        hose.apply_to(line, &mut project);
        assert_eq!(window.project(), &project, "{line:?}");
    }
}
