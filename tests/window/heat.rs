//! The heat balance in the window: its plots in words for whoever cannot see them, and the set-points' reserve.

use crate::support::{Moves as _, Window, demo};
use coldmark::quantity::UnitSystem;
use coldmark::study::{self, Duty, HeatRoad, Moment, Part};
use egui::accesskit::Role;
use egui_kittest::kittest::{NodeT as _, Queryable as _};

const AIR: &str =
    "Coolant against the air, full throttle: Coolant at the engine outlet, °C against Air temperature, °C";
const MAP: &str = "Who sets the coolant temperature: Air temperature, °C against Road speed, km/h";
const BARS: &str = "Heat and radiator on the hottest day: Power, kW against duty";

fn described(window: &Window, label: &str) -> String {
    window.get_by_label(label).accesskit_node().data().description().unwrap().to_owned()
}

fn press(window: &mut Window, segment: &str) {
    window.get_by_role_and_label(Role::RadioButton, segment).click_accesskit();
    window.run();
}

#[test]
fn the_coolant_against_the_air_says_what_its_curves_do() {
    let mut window = demo();
    window.state_mut().show_moment(Moment::Driving(Duty::FullThrottle));
    for part in [Part::Thermostat, Part::Radiator] {
        window.part(part);
        let words = described(&window, AIR);
        let curves = study::heat_curves(window.project()).unwrap();
        assert_eq!(words, curves.of(Duty::FullThrottle).unwrap().says().show(UnitSystem::Si));
        assert!(words.contains("all set-points give the same temperature"), "{words}");
        // Who sees it reads the same; each curve is in the key.
        assert!(window.query_all_by_label(&words).next().is_some(), "{part:?}");
        assert!(window.shows("thermostat 82.0 °C (fitted)") && window.shows("boiling limit"));
    }
    // It follows the moment; at rest it shows full throttle.
    window.state_mut().show_moment(Moment::Driving(Duty::Hill));
    window.run();
    assert!(window.query_by_label(AIR).is_none());
    window.state_mut().show_moment(Moment::HotStop);
    window.run();
    assert!(window.query_by_label(AIR).is_some());
}

#[test]
fn the_map_says_where_the_borders_run() {
    let mut window = demo();
    window.part(Part::Thermostat);
    let curves = study::heat_curves(window.project()).unwrap();
    let of = |road| curves.map(road).as_ref().unwrap();
    assert_eq!(described(&window, MAP), of(HeatRoad::Level).says().show(UnitSystem::Si));
    press(&mut window, "Climbing");
    let words = described(&window, MAP);
    assert_eq!(words, of(HeatRoad::Climbing).says().show(UnitSystem::Si));
    assert!(window.query_all_by_label(&words).next().is_some());
    for name in ["thermostat rules", "radiator rules", "thermostat fully open", "boiling begins", "duty point"] {
        assert!(window.shows(name), "{name}");
    }
    assert!(window.shows("of full throttle in reserve"));
    // A stronger fan does nothing at speed; a larger radiator moves the borders.
    window.part(Part::Radiator);
    let before = described(&window, MAP);
    window.enter("Frontal area of the core", "0.4 m²");
    assert_ne!(described(&window, MAP), before);
}

#[test]
fn the_radiator_is_told_against_the_heat() {
    let mut window = demo();
    window.part(Part::Radiator);
    assert!(!window.shows("Nothing to plot"));
    let words = described(&window, BARS);
    let curves = study::heat_curves(window.project()).unwrap();
    assert!(words.starts_with(&curves.says_capacity().show(UnitSystem::Si)), "{words}");
    for duty in &curves.duties {
        assert!(words.contains(&duty.says_capacity().show(UnitSystem::Si)), "{words}");
    }
    // In the other units the bars are in horsepower.
    window.state_mut().read_in(UnitSystem::Us, true);
    window.run();
    assert!(window.query_by_label(BARS).is_none());
    assert!(window.shows("mph"));
}

/// What is asked of the plots of every other part too.
#[test]
fn the_radiators_plots_are_named_and_told_like_all_others() {
    let mut window = demo();
    window.state_mut().show_moment(Moment::Driving(Duty::FullThrottle));
    for (system, units) in [(UnitSystem::Si, ["°C", "kW", "km/h"]), (UnitSystem::Us, ["°F", "hp", "mph"])] {
        window.state_mut().read_in(system, true);
        for part in [Part::Radiator, Part::Thermostat] {
            window.part(part);
            let mut titles = Vec::new();
            for plot in window.query_all_by_role(Role::Image) {
                let node = plot.accesskit_node();
                let name = node.label().unwrap();
                assert!(name.contains(" against ") && name.contains(", "), "{name}");
                assert!(units.iter().any(|unit| name.contains(unit)), "{name}");
                let sentence = node.data().description().unwrap().to_owned();
                assert!(sentence.ends_with('.') && sentence.len() > 40, "{name}: {sentence}");
                assert!(units.iter().any(|unit| sentence.contains(unit)), "{name}: {sentence}");
                titles.push(name.split(':').next().unwrap_or_default().to_owned());
            }
            let bars = titles.iter().any(|title| title == "Heat and radiator on the hottest day");
            assert_eq!(bars, part == Part::Radiator, "{part:?}: {titles:?}");
            for title in ["Coolant against the air, full throttle", "Who sets the coolant temperature"] {
                assert!(titles.iter().any(|found| found == title), "{part:?}: {titles:?}");
            }
        }
    }
}

#[test]
fn the_set_points_tell_what_they_hold() {
    let mut window = demo();
    window.part(Part::Thermostat);
    for row in ["Holds to, hill, °C", "Holds to, full throttle, °C", "Least radiator spare, kW", "Cold level, mm"] {
        assert!(window.shows(row), "{row}");
    }
    let answers = study::answer(window.project()).unwrap();
    for row in answers.set_point_comparison().rows {
        assert!(window.shows(&row.value.show(UnitSystem::Si)), "{}", row.label);
    }
}
