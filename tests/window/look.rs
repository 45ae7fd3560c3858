//! Units, theme, moments, and the ways to a part.

use crate::support::{Moves as _, demo, opened};
use coldmark::quantity::UnitSystem;
use coldmark::study::{Duty, Moment, Part};
use egui::Key;
use egui::accesskit::Role;
use egui_kittest::kittest::{NodeT as _, Queryable as _};

#[test]
fn units_switch_everywhere_and_are_remembered() {
    let home = tempfile::tempdir().unwrap();
    let folder = Some(home.path().to_owned());
    let mut window = opened(None, folder.clone());
    window.part(Part::Thermostat);
    let value = |window: &crate::support::Window| {
        window.get_by_role_and_label(Role::TextInput, "Thermostat set-point").value().unwrap()
    };
    assert!(value(&window).ends_with("°C"), "{}", value(&window));
    window.get_by_role_and_label(Role::RadioButton, "US").click();
    window.run();
    assert!(value(&window).ends_with("°F"), "{}", value(&window));
    assert!(!window.state().is_unsaved());
    assert_eq!(opened(None, folder).state().units(), UnitSystem::Us);
}

#[test]
fn the_dark_theme_is_switched_and_remembered() {
    let home = tempfile::tempdir().unwrap();
    let folder = Some(home.path().to_owned());
    let mut window = opened(None, folder.clone());
    assert!(!window.ctx.global_style().visuals.dark_mode);
    window.get_by_role_and_label(Role::RadioButton, "Dark").click();
    window.run();
    assert!(window.ctx.global_style().visuals.dark_mode);
    assert!(opened(None, folder).state().dark());
}

#[test]
fn the_moment_is_chosen_by_keyboard() {
    let mut window = demo();
    assert_eq!(window.state().moment(), Moment::Driving(Duty::Cruise));
    window.get_by_role_and_label(Role::RadioButton, "Cruise").focus();
    window.run();
    window.key_press(Key::ArrowRight);
    window.run();
    assert_eq!(window.state().moment(), Moment::Driving(Duty::Hill));
    window.key_press(Key::End);
    window.run();
    assert_eq!(window.state().moment(), Moment::HotStop);
}

#[test]
fn every_verdict_leads_to_its_part() {
    let mut window = demo();
    let verdicts = window.state().answers().unwrap().verdicts.clone();
    assert!(!verdicts.is_empty());
    for verdict in verdicts {
        let name = {
            let buttons = window.query_all_by_role(Role::Button);
            let labels = buttons.filter_map(|node| node.accesskit_node().label());
            labels.into_iter().find(|label| label.starts_with(&format!("{}: ", verdict.title))).unwrap()
        };
        window.get_by_label(&name).click_accesskit();
        window.run();
        assert_eq!(window.state().part(), Some(verdict.part), "{name}");
        // Who comes from a verdict sees its reason at once.
        assert!(window.shows(&verdict.reason.show(UnitSystem::Si)), "{name}");
    }
}

#[test]
fn every_part_and_every_moment_can_be_shown_in_both_units() {
    let mut window = demo();
    for (index, part) in Part::ALL.into_iter().enumerate() {
        // Seven moments and twelve parts have no common divisor, so the pairs differ from part to part.
        for moment in Moment::ALL.into_iter().cycle().skip(2 * index).take(2) {
            let us = moment == Moment::HotStop;
            window.state_mut().show_moment(moment);
            window.state_mut().read_in(if us { UnitSystem::Us } else { UnitSystem::Si }, us);
            window.part(part);
            let mut headings = window.query_all_by_role_and_label(Role::Heading, part.name());
            assert!(headings.next().is_some(), "{part:?}");
        }
    }
}

#[test]
fn the_working_comes_when_it_is_opened() {
    let mut window = demo();
    window.part(Part::Tank);
    assert!(!window.shows("Working: "));
    window.get_by_label("Show the working").click_accesskit();
    window.run();
    assert!(window.shows("Working: "));
}

#[test]
fn cautions_stand_where_they_matter() {
    let mut window = demo();
    for (part, words) in [
        (Part::Cap, "Leave every cap shut until the engine is cold"),
        (Part::Coolant, "can kill a child or a pet"),
        (Part::Breather, "may be unlawful on the road"),
        (Part::Crankcase, "Never plug every outlet"),
        (Part::CatchCan, "Oil on a hot exhaust burns"),
        (Part::CoverJoint, "Tighten in small steps"),
        (Part::Tank, "Never seal a can that is meant to be open"),
    ] {
        window.part(part);
        assert!(window.shows(words), "{part:?}");
    }
}
