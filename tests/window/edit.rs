//! Inputs: committed, refused, undone.

use crate::support::{Moves as _, demo};
use coldmark::quantity::Measured as _;
use coldmark::study::{Part, ShapeKind, State};
use egui::accesskit::Role;
use egui::{Key, Modifiers};
use egui_kittest::kittest::{NodeT as _, Queryable as _};

#[test]
fn an_input_changes_project_and_verdict() {
    let mut window = demo();
    window.part(Part::Tank);
    window.enter("Inside height", "120 mm");
    assert_eq!(window.project().tank.height.base(), 0.12);
    assert_eq!(window.state_of("tank_volume"), State::DoesNotHold);
    let spilling = chip(&window, "Tank volume");
    window.enter("Inside height", "60 cm");
    window.enter("Inside diameter", "0.2 m");
    assert_ne!(chip(&window, "Tank volume"), spilling);
    assert!(window.state().is_unsaved());
}

fn chip(window: &crate::support::Window, title: &str) -> String {
    let chips = window.query_all_by_role(Role::Button);
    let named = chips.filter_map(|node| node.accesskit_node().label());
    named.into_iter().find(|label| label.starts_with(&format!("{title}: "))).unwrap()
}

#[test]
fn a_wrong_entry_says_why_and_loses_nothing() {
    let mut window = demo();
    window.part(Part::Tank);
    let before = window.project().clone();
    window.enter("Inside height", "9 m");
    assert_eq!(*window.project(), before);
    assert!(window.shows("outside"));
    let input = window.get_by_role_and_label(Role::TextInput, "Inside height");
    assert_eq!(input.value().as_deref(), Some("9 m"));
    // Escape brings the value back.
    window.key_press(Key::Escape);
    window.run();
    assert!(!window.shows("outside"));
    assert!(!window.state().is_unsaved());
}

#[test]
fn undo_and_redo_by_button_and_by_key() {
    let mut window = demo();
    window.part(Part::Cap);
    let before = window.project().clone();
    window.enter("Cap opening pressure", "50 kPa");
    window.enter("Cap opening pressure", "60 kPa");
    let after = window.project().clone();
    window.click("Undo");
    assert_eq!(window.project().cap.opening.base(), 50e3);
    window.key_combination_modifiers(Modifiers::COMMAND, &[Key::Z]);
    window.run();
    assert_eq!(*window.project(), before);
    assert!(!window.state().is_unsaved());
    window.key_combination_modifiers(Modifiers::COMMAND, &[Key::Y]);
    window.run();
    window.key_combination_modifiers(Modifiers::COMMAND | Modifiers::SHIFT, &[Key::Z]);
    window.run();
    assert_eq!(*window.project(), after);
}

#[test]
fn while_somebody_types_the_undo_key_belongs_to_the_box() {
    let mut window = demo();
    window.part(Part::Cap);
    window.enter("Cap opening pressure", "50 kPa");
    let input = window.get_by_role_and_label(Role::TextInput, "Cap opening pressure");
    input.type_text("7");
    window.run();
    window.key_combination_modifiers(Modifiers::COMMAND, &[Key::Z]);
    window.run();
    assert_eq!(window.project().cap.opening.base(), 50e3);
}

#[test]
fn an_unknown_is_entered_and_forgotten_again() {
    let mut window = demo();
    window.part(Part::Engine);
    window.enter("Hose swell", "0.5 %/bar");
    assert!(window.project().circuit.hose_swell.unwrap().is_exact());
    window.click("Forget Hose swell and use the program's estimate");
    assert_eq!(window.project().circuit.hose_swell, None);
    assert!(window.shows("Estimated by the program"));
}

#[test]
fn rows_and_readings_come_and_go() {
    let mut window = demo();
    let mut edited = window.project().clone();
    edited.tank.shape = ShapeKind::DipTable;
    window.part(Part::Tank);
    choose(&mut window, "Inside shape", "Measured dip table");
    assert_eq!(window.project().tank, edited.tank);
    let rows = window.project().tank.dips.clone();
    window.click("Add a row to dip table");
    let longer = window.project().tank.dips.clone();
    assert_eq!(longer.len(), rows.len() + 1);
    // The new row rises on, so that the table stays good.
    assert!(window.state().problems().is_none());
    window.click("Remove Dip table 1");
    assert_eq!(window.project().tank.dips, longer[1..]);
    window.part(Part::Crankcase);
    let readings = window.project().blow_by.leak_down.len();
    window.enter(&format!("Leak-down reading {}", readings + 1), "12 %");
    assert_eq!(window.project().blow_by.leak_down.len(), readings + 1);
}

fn choose(window: &mut crate::support::Window, input: &str, choice: &str) {
    window.get_by_role_and_label(Role::ComboBox, input).scroll_to_me();
    window.run();
    window.get_by_role_and_label(Role::ComboBox, input).click();
    window.run();
    window.get_by_label(choice).click();
    window.run();
}

#[test]
fn inputs_that_do_not_go_together_are_listed_and_lead_to_their_part() {
    let mut window = demo();
    window.part(Part::Tank);
    window.enter("Dip tube above floor", "400 mm");
    assert!(window.state().problems().is_some());
    // The answers of before stay in sight.
    assert!(window.state().answers().is_some());
    window.part(Part::Coolant);
    let button = window.get_by_label_contains("the dip tube ends");
    button.click();
    window.run();
    assert_eq!(window.state().part(), Some(Part::Tank));
    assert!(window.get_by_role_and_label(Role::TextInput, "Dip tube above floor").is_focused());
    window.enter("Dip tube above floor", "10 mm");
    assert!(window.state().problems().is_none());
}

#[test]
fn a_preset_is_one_step_of_undo() {
    let mut window = demo();
    window.part(Part::Cap);
    let before = window.project().clone();
    window.click("Start from: Pressure cap ▾");
    let preset = coldmark::file::presets().of(coldmark::file::PresetPart::Cap).next().unwrap();
    window.get_by_label(&preset.name).click();
    window.run();
    let mut wanted = before.clone();
    preset.apply(&mut wanted);
    assert_eq!(*window.project(), wanted);
    assert_ne!(wanted, before);
    window.click("Undo");
    assert_eq!(*window.project(), before);
}
