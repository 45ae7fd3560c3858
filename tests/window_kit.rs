//! The widget kit as a person or a screen reader meets it: by labels, with the keyboard.
#![allow(clippy::unwrap_used)]

use coldmark::quantity::{Amount, Estimate, Kind, Measured, Range, UnitSystem, si::Volume};
use coldmark::scribe::{Scribe, Step, Writing};
use coldmark::source::{DEFINITION, Source, Standing};
use coldmark::window::{fonts, kit, tokens};
use egui::accesskit::{Invalid, Role, Toggled};
use egui::{Id, Key, Modifiers};
use egui_kittest::{Harness, kittest::NodeT, kittest::Queryable};

const TANK: Range = Range::new("the tank volume", Kind::Volume, 0.0005, 0.01, "take a tank that exists");

static RECALLED: Source = Source::new("test-handbook", "A handbook", Standing::FromMemory);

fn litres(litres: f64) -> Volume {
    Volume::from_base(litres * 1e-3)
}

struct Form {
    system: UnitSystem,
    volume: f64,
    commits: usize,
    air: Option<Estimate<Volume>>,
    cylinders: u32,
    shape: &'static str,
    vented: bool,
    duty: usize,
    opened: Option<&'static str>,
    writing: Writing,
}

impl Default for Form {
    fn default() -> Self {
        let mut writing = Writing::default();
        writing.chapter("expansion", "expansion");
        writing.step(|| {
            Step::new("mass of coolant", "m", "m = ρ·V", &RECALLED)
                .with("V", litres(15.0))
                .gives_amount(Amount::number(2.0))
        });
        writing.step(|| {
            Step::new("coolant that leaves", "ΔV", "V·(ρ₁/ρ₂ − 1)", &DEFINITION)
                .with("V", litres(15.0))
                .gives(litres(0.601))
        });
        Self {
            system: UnitSystem::Si,
            volume: 0.001,
            commits: 0,
            air: None,
            cylinders: 8,
            shape: "box",
            vented: true,
            duty: 0,
            opened: None,
            writing,
        }
    }
}

const DUTIES: [&str; 3] = ["Idle", "Cruise", "Full throttle"];

fn show(ui: &mut egui::Ui, form: &mut Form) {
    if let Some(duty) = kit::segments(ui, Id::unique("duty"), "Moment of the day", form.duty, &DUTIES) {
        form.duty = duty;
    }
    let volume = kit::QuantityField::new(Id::unique("volume"), "Tank volume", Kind::Volume, form.system)
        .value(Some(form.volume))
        .range(&TANK)
        .show(ui);
    if let Some(base) = volume.committed {
        form.volume = base;
        form.commits += 1;
    }
    let default = Estimate::new(litres(0.0), litres(0.1), litres(0.5)).unwrap();
    let air = kit::EstimateField::new(Id::unique("air"), "Air left", Kind::Volume, form.system, default)
        .value(form.air)
        .show(ui);
    if air.cleared {
        form.air = None;
    } else if air.committed.is_some() {
        form.air = air.committed;
    }
    let cylinders = kit::count_field(ui, Id::unique("cylinders"), "Cylinders", form.cylinders, 1..=16, "");
    form.cylinders = cylinders.committed.unwrap_or(form.cylinders);
    let shapes = [("box", "box"), ("upright", "upright cylinder")];
    let shape = kit::choice_field(ui, Id::unique("shape"), "Shape", &form.shape, &shapes);
    form.shape = shape.committed.unwrap_or(form.shape);
    let vented = kit::switch(ui, Id::unique("vented"), "Vented", form.vented);
    form.vented = vented.committed.unwrap_or(form.vented);
    for (verdict, title) in [
        (kit::Verdict::Holds, "Tank"),
        (kit::Verdict::Thin, "Dip tube"),
        (kit::Verdict::DoesNotHold, "Crankcase"),
        (kit::Verdict::NotKnown, "Radiator"),
    ] {
        let chip = kit::VerdictChip::new(Id::unique(title), verdict, title, "its margin").mend("what mends it");
        if chip.show(ui).clicked() {
            form.opened = Some(title);
        }
    }
    kit::part_card(ui, "Overflow tank", None, |ui| {
        kit::caution_box(ui, "Hot coolant scalds.");
        for chapter in &form.writing.chapters {
            kit::working_view(ui, Id::unique(&chapter.key), chapter, form.system);
        }
    });
    let x = kit::PlotAxis::new("Coolant temperature", Kind::Temperature, form.system);
    let y = kit::PlotAxis::new("Level", Kind::Length, form.system);
    kit::PlotFrame::new(Id::unique("plot"), "Level", x, y).summary("It rises.").height(120.0).show(ui, move |plot| {
        let ends = vec![[x.at(293.15), y.at(0.03)], [x.at(393.15), y.at(0.09)]];
        plot.line(egui_plot::Line::new("likely", ends));
    });
}

fn form() -> Harness<'static, Form> {
    let mut harness = Harness::builder()
        .with_size(egui::vec2(700.0, 1000.0))
        .with_context_setup(|ctx| {
            fonts::install(ctx);
            tokens::apply(ctx);
        })
        .build_ui_state(show, Form::default());
    harness.run();
    harness
}

fn type_into(harness: &mut Harness<'_, Form>, label: &str, text: &str) {
    harness.get_by_role_and_label(Role::TextInput, label).focus();
    harness.run();
    harness.key_press_modifiers(Modifiers::COMMAND, Key::A);
    harness.get_by_role_and_label(Role::TextInput, label).type_text(text);
    harness.run();
}

fn enter(harness: &mut Harness<'_, Form>, label: &str, text: &str) {
    type_into(harness, label, text);
    harness.key_press(Key::Enter);
    harness.run();
}

fn text_of(harness: &Harness<'_, Form>, label: &str) -> String {
    harness.get_by_role_and_label(Role::TextInput, label).value().unwrap_or_default()
}

#[test]
fn quarts_typed_are_litres_shown() {
    let mut harness = form();
    assert_eq!(text_of(&harness, "Tank volume"), "1 L");
    enter(&mut harness, "Tank volume", "1.5 qt");
    assert!((harness.state().volume - 1.419_529_4e-3).abs() < 1e-10);
    assert_eq!(text_of(&harness, "Tank volume"), "1.4195 L");
    // The keyboard stays in the box, and leaving it afterwards commits nothing twice.
    assert!(harness.get_by_role_and_label(Role::TextInput, "Tank volume").is_focused());
    harness.key_press(Key::Tab);
    harness.run();
    assert_eq!(harness.state().commits, 1);
}

#[test]
fn a_bare_number_takes_the_unit_shown_and_leaving_commits() {
    let mut harness = form();
    harness.state_mut().system = UnitSystem::Us;
    type_into(&mut harness, "Tank volume", "2");
    assert_eq!(harness.state().commits, 0, "nothing is committed while typing");
    harness.key_press(Key::Tab);
    harness.run();
    assert!((harness.state().volume - 2.0 * 9.463_529_46e-4).abs() < 1e-12);
    assert_eq!(text_of(&harness, "Tank volume"), "2 qt");
}

#[test]
fn a_wrong_text_stays_and_changes_nothing() {
    let mut harness = form();
    enter(&mut harness, "Tank volume", "15 mm");
    assert_eq!(harness.state().volume, 0.001);
    assert_eq!(text_of(&harness, "Tank volume"), "15 mm");
    harness.get_by_label_contains("'mm' is not a unit of a volume");
    let field = harness.get_by_role_and_label(Role::TextInput, "Tank volume");
    assert_eq!(field.accesskit_node().data().invalid(), Some(Invalid::True));
    assert!(field.accesskit_node().data().description().unwrap().contains("is not a unit"));
    // Going elsewhere keeps both; mending it clears the sentence.
    harness.key_press(Key::Tab);
    harness.run();
    assert_eq!(text_of(&harness, "Tank volume"), "15 mm");
    enter(&mut harness, "Tank volume", "1.5 L");
    assert!(harness.query_by_label_contains("is not a unit").is_none());
    assert_eq!(harness.state().volume, 0.0015);
}

#[test]
fn a_value_out_of_range_says_so_in_the_units_read() {
    let mut harness = form();
    harness.state_mut().system = UnitSystem::Us;
    harness.run();
    enter(&mut harness, "Tank volume", "40 qt");
    assert_eq!(harness.state().volume, 0.001);
    harness.get_by_label("the tank volume is 40 qt, outside 0.528 qt to 10.6 qt; take a tank that exists");
}

#[test]
fn escape_brings_the_value_back() {
    let mut harness = form();
    type_into(&mut harness, "Tank volume", "3 L");
    harness.key_press(Key::Escape);
    harness.run();
    assert_eq!(text_of(&harness, "Tank volume"), "1 L");
    assert_eq!(harness.state().commits, 0);
    enter(&mut harness, "Tank volume", "nonsense");
    harness.get_by_label_contains("does not begin with a number");
    harness.key_press(Key::Escape);
    harness.run();
    assert_eq!(text_of(&harness, "Tank volume"), "1 L");
    assert!(harness.query_by_label_contains("does not begin with a number").is_none());
    assert!(harness.get_by_role_and_label(Role::TextInput, "Tank volume").is_focused());
}

#[test]
fn a_draft_at_rest_gives_way_to_a_value_changed_elsewhere() {
    let mut harness = form();
    enter(&mut harness, "Tank volume", "nonsense");
    harness.key_press(Key::Tab);
    harness.run();
    harness.state_mut().volume = 0.002;
    harness.run();
    assert_eq!(text_of(&harness, "Tank volume"), "2 L");
    assert!(harness.query_by_label_contains("does not begin with a number").is_none());
}

#[test]
fn looking_at_a_value_does_not_round_it() {
    let mut harness = form();
    harness.state_mut().volume = 0.001_234_567_89;
    harness.run();
    harness.get_by_role_and_label(Role::TextInput, "Tank volume").focus();
    harness.run();
    harness.key_press(Key::Enter);
    harness.run();
    assert_eq!(harness.state().volume, 0.001_234_567_89);
}

#[test]
fn an_unknown_estimate_says_the_default_and_can_be_unknown_again() {
    let mut harness = form();
    let field = harness.get_by_role_and_label(Role::TextInput, "Air left");
    assert_eq!(field.accesskit_node().data().placeholder(), Some("estimate 0.1 L (0 to 0.5 L)"));
    assert_eq!(text_of(&harness, "Air left"), "");
    let forget = "Forget Air left and use the program's estimate";
    assert!(harness.query_by_label(forget).is_none());

    enter(&mut harness, "Air left", "0.2 L (0.1 to 0.4 L)");
    let known = harness.state().air.unwrap();
    assert_eq!([known.low, known.likely, known.high].map(|v| (v.base() * 1e6).round()), [100.0, 200.0, 400.0]);
    assert_eq!(text_of(&harness, "Air left"), "0.2 L (0.1 to 0.4 L)");

    enter(&mut harness, "Air left", "0.2 L (0.3 to 0.4 L)");
    harness.get_by_label_contains("low, likely and high must rise");
    assert_eq!(harness.state().air, Some(known));

    harness.get_by_label(forget).click();
    harness.run();
    assert_eq!(harness.state().air, None);
    assert_eq!(text_of(&harness, "Air left"), "");

    enter(&mut harness, "Air left", "0.3 L");
    assert!(harness.state().air.unwrap().is_exact());
    type_into(&mut harness, "Air left", " ");
    harness.key_press(Key::Enter);
    harness.run();
    assert_eq!(harness.state().air, None, "an emptied box is an unknown");
}

#[test]
fn a_count_is_whole_and_in_range() {
    let mut harness = form();
    enter(&mut harness, "Cylinders", "6");
    assert_eq!(harness.state().cylinders, 6);
    enter(&mut harness, "Cylinders", "17");
    harness.get_by_label("Cylinders is 17, outside 1 to 16");
    enter(&mut harness, "Cylinders", "4.5");
    harness.get_by_label("'4.5' is no whole number; write 1 to 16");
    assert_eq!(harness.state().cylinders, 6);
}

#[test]
fn a_choice_and_a_switch_work_from_the_keyboard() {
    let mut harness = form();
    let list = harness.get_by_role_and_label(Role::ComboBox, "Shape");
    assert_eq!(list.value().as_deref(), Some("box"));
    list.focus();
    harness.run();
    harness.key_press(Key::Enter);
    harness.run();
    harness.get_by_label("upright cylinder").focus();
    harness.run();
    harness.key_press(Key::Enter);
    harness.run();
    assert_eq!(harness.state().shape, "upright");

    let switch = harness.get_by_role_and_label(Role::Switch, "Vented");
    assert_eq!(switch.accesskit_node().toggled(), Some(Toggled::True));
    switch.focus();
    harness.run();
    harness.key_press(Key::Space);
    harness.run();
    assert!(!harness.state().vented);
    harness.get_by_label("no");
}

#[test]
fn verdicts_say_their_word_and_lead_to_the_part() {
    let mut harness = form();
    for name in ["Tank: holds: ", "Dip tube: thin: ", "Crankcase: does not hold: ", "Radiator: not known: "] {
        harness.get_by_label(&format!("{name}its margin. what mends it"));
    }
    harness.get_by_label_contains("Crankcase: does not hold").click();
    harness.run();
    assert_eq!(harness.state().opened, Some("Crankcase"));
    harness.get_by_label_contains("Dip tube: thin").focus();
    harness.run();
    harness.key_press(Key::Enter);
    harness.run();
    assert_eq!(harness.state().opened, Some("Dip tube"));
}

#[test]
fn the_selector_has_the_habits_of_radio_buttons() {
    let mut harness = form();
    harness.get_by_role_and_label(Role::RadioGroup, "Moment of the day");
    // The first Tab reaches the chosen segment, the next one leaves the group.
    harness.key_press(Key::Tab);
    harness.run();
    assert!(harness.get_by_role_and_label(Role::RadioButton, "Idle").is_focused());
    for (key, expected) in
        [(Key::ArrowRight, 1), (Key::ArrowDown, 2), (Key::ArrowRight, 0), (Key::ArrowLeft, 2), (Key::Home, 0)]
    {
        harness.key_press(key);
        harness.run();
        assert_eq!(harness.state().duty, expected, "{key:?}");
        let chosen = harness.get_by_role_and_label(Role::RadioButton, DUTIES[expected]);
        assert!(chosen.is_focused());
        assert_eq!(chosen.accesskit_node().toggled(), Some(Toggled::True));
    }
    harness.key_press(Key::Tab);
    harness.run();
    assert!(harness.get_by_role_and_label(Role::TextInput, "Tank volume").is_focused());
    harness.get_by_role_and_label(Role::RadioButton, "Cruise").click();
    harness.run();
    assert_eq!(harness.state().duty, 1);
}

#[test]
fn working_opens_and_shows_equation_numbers_result_and_source() {
    let mut harness = form();
    assert!(harness.query_by_label("ΔV = 0.601 L").is_none());
    harness.get_by_label("Working: expansion").click();
    harness.run();
    for text in [
        "1. mass of coolant",
        "m = ρ·V",
        "Source: A handbook (published, quoted from memory)",
        "2. coolant that leaves",
        "ΔV = V·(ρ₁/ρ₂ − 1)",
        "ΔV = 0.601 L",
        "Source: definition or balance",
    ] {
        harness.get_by_label(text);
    }
    assert_eq!(harness.query_all_by_label("with V = 15 L").count(), 2);
}

#[test]
fn a_caution_and_a_plot_can_be_read_aloud() {
    let harness = form();
    harness.get_by_label("Caution: Hot coolant scalds.");
    harness.get_by_role_and_label(Role::Heading, "Overflow tank");
    let plot = harness.get_by_label("Level: Level, mm against Coolant temperature, °C");
    assert_eq!(plot.accesskit_node().data().description(), Some("It rises."));
}

#[test]
fn the_letters_have_every_character_the_sources_hold() {
    use egui::epaint::text::{Fonts, TextOptions};
    let mut letters = Fonts::new(TextOptions::default(), fonts::bundled());
    let mut seen = std::collections::BTreeSet::new();
    let mut folders = vec![std::path::PathBuf::from(env!("CARGO_MANIFEST_DIR")).join("src")];
    while let Some(folder) = folders.pop() {
        for entry in std::fs::read_dir(folder).unwrap() {
            let path = entry.unwrap().path();
            if path.is_dir() {
                folders.push(path);
            } else if path.extension().is_some_and(|ending| ending == "rs") {
                seen.extend(std::fs::read_to_string(&path).unwrap().chars().filter(|c| !c.is_ascii()));
            }
        }
    }
    assert!(seen.len() > 40, "the sources hold symbols");
    // A unit test uses it to prove that a missing glyph is noticed.
    seen.remove(&'漢');
    let mut view = letters.with_pixels_per_point(1.0);
    for family in [egui::FontFamily::Proportional, fonts::strong_family()] {
        let font = egui::FontId::new(14.0, family);
        let missing: Vec<char> = seen.iter().copied().filter(|c| !view.has_glyph(&font, *c)).collect();
        assert!(missing.is_empty(), "{font:?} lacks {missing:?}");
    }
}
