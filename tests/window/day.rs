//! A day in the window: scrubbed by key and by hand, events that lead to their time, the drawing that follows.

use crate::sample_day::sample_day;
use crate::support::{Moves as _, Window, demo};
use coldmark::day::{EventKind, ExtremeOf};
use coldmark::quantity::si::Time;
use coldmark::quantity::{Amount, Kind, Measured, UnitSystem};
use coldmark::study::{Answers, DayAnswers, Part, Project, State, answer, clock};
use coldmark::window;
use coldmark::window::day::{self, DaySubject, DayView};
use egui::Key;
use egui::accesskit::{Action, ActionData, ActionRequest, Role, TreeId};
use egui_kittest::Harness;
use egui_kittest::kittest::{NodeT as _, Queryable as _};

/// The view by itself, with a day made by hand.
struct Shown {
    project: Project,
    answers: Answers,
    day: DayAnswers,
    view: DayView,
    chosen: Option<Part>,
    system: UnitSystem,
}

impl Shown {
    fn draw(&mut self, ui: &mut egui::Ui) {
        let subject = DaySubject {
            project: &self.project,
            answers: &self.answers,
            day: &self.day,
            come: 1,
            verdicts: &self.answers.verdicts,
            system: self.system,
        };
        let (view, chosen) = (&mut self.view, &mut self.chosen);
        egui::Panel::top("steps").show(ui, |ui| view.steps(ui, &subject, None));
        egui::Panel::right("panel").default_size(340.0).show(ui, |ui| {
            egui::ScrollArea::vertical().show(ui, |ui| day::panel(ui, subject, view));
        });
        egui::CentralPanel::default().show(ui, |ui| day::show(ui, subject, view, chosen));
    }
}

type View = Harness<'static, Shown>;

fn shown() -> View {
    let project = coldmark::file::demo();
    let answers = answer(&project).unwrap();
    let day = sample_day(&project, &answers);
    let view = DayView::default();
    let state = Shown { project, answers, day, view, chosen: None, system: UnitSystem::Si };
    let mut view = Harness::builder()
        .with_size(egui::vec2(1280.0, 800.0))
        .with_max_steps(40)
        .with_context_setup(window::dress)
        .build_ui_state(|ui, state: &mut Shown| state.draw(ui), state);
    view.run();
    view
}

fn slider<'a>(view: &'a View) -> egui_kittest::Node<'a> {
    view.get_by_role_and_label(Role::Slider, "Time of the day")
}

fn now(view: &View) -> f64 {
    view.state().view.now().base()
}

fn press(view: &mut View, key: Key) {
    view.key_press(key);
    view.run();
}

/// What the drawing says of the tank.
fn tank(view: &View) -> String {
    let parts = view.query_all_by_role(Role::Button);
    let named = parts.filter_map(|node| node.accesskit_node().label());
    named.into_iter().find(|name| name.starts_with(Part::Tank.name())).unwrap()
}

#[test]
fn the_time_is_moved_by_keys_and_the_drawing_follows() {
    let mut view = shown();
    slider(&view).focus();
    view.run();
    let cold = tank(&view);
    for _ in 0..3 {
        press(&mut view, Key::ArrowRight);
    }
    assert_eq!(now(&view), 180.0);
    press(&mut view, Key::ArrowLeft);
    assert_eq!(now(&view), 120.0);
    view.key_press_modifiers(egui::Modifiers::SHIFT, Key::ArrowRight);
    view.run();
    assert_eq!(now(&view), 720.0);
    // Up to the climb: the level told is that of the sample there.
    let climb = view.state().day.legs[3].begins.base() + 600.0;
    while now(&view) < climb {
        view.key_press_modifiers(egui::Modifiers::SHIFT, Key::ArrowRight);
        view.run();
    }
    let level = view.state().day.at(Time::from_base(now(&view))).unwrap().level.unwrap();
    let told = Amount::of(level).show(UnitSystem::Si);
    let words = tank(&view);
    assert_ne!(words, cold);
    assert!(words.contains(&format!("level {told}")), "{words}, {told}");
    assert!(view.query_all_by_label(&told).next().is_some(), "{told} is not told beside the drawing");
    let reads = slider(&view).value().unwrap();
    assert_eq!(
        reads,
        format!("{}, leg 4: {}", clock(view.state().view.now()), view.state().day.legs[3].name.show(UnitSystem::Si))
    );
    press(&mut view, Key::End);
    assert_eq!(now(&view), view.state().day.legs.last().unwrap().ends.base());
    press(&mut view, Key::Home);
    assert_eq!(now(&view), 0.0);
}

#[test]
fn keys_and_buttons_lead_from_event_to_event() {
    let mut view = shown();
    let mut times: Vec<f64> = view.state().day.drive.events.iter().map(|event| event.time.base()).collect();
    times.dedup();
    assert!(times.len() > 5);
    slider(&view).focus();
    view.run();
    // The day begins with an event.
    assert_eq!(times[0], 0.0);
    for time in &times[1..] {
        press(&mut view, Key::PageDown);
        assert_eq!(now(&view), *time);
    }
    for time in times[..times.len() - 1].iter().rev() {
        press(&mut view, Key::PageUp);
        assert_eq!(now(&view), *time);
    }
    view.get_by_role_and_label(Role::Button, "Next event").click();
    view.run();
    assert_eq!(now(&view), times[1]);
    view.get_by_role_and_label(Role::Button, "Previous event").click();
    view.run();
    assert_eq!(now(&view), 0.0);
}

#[test]
fn a_screen_reader_sets_the_time() {
    let mut view = shown();
    let ask = |view: &mut View, action, data| {
        let target_node = egui::Id::unique("time of the day").accesskit_id();
        let request = ActionRequest { action, target_tree: TreeId::ROOT, target_node, data };
        view.input_mut().events.push(egui::Event::AccessKitActionRequest(request));
        view.run();
    };
    ask(&mut view, Action::SetValue, Some(ActionData::NumericValue(3000.0)));
    assert_eq!(now(&view), 3000.0);
    ask(&mut view, Action::Increment, None);
    assert_eq!(now(&view), 3060.0);
    ask(&mut view, Action::Decrement, None);
    assert_eq!(now(&view), 3000.0);
    ask(&mut view, Action::SetValue, Some(ActionData::NumericValue(1e9)));
    assert_eq!(now(&view), view.state().day.legs.last().unwrap().ends.base());
    ask(&mut view, Action::SetValue, Some(ActionData::NumericValue(f64::NAN)));
    assert_eq!(now(&view), view.state().day.legs.last().unwrap().ends.base());
}

#[test]
fn an_event_leads_to_its_time() {
    let mut view = shown();
    let stop =
        view.state().day.drive.events.iter().find(|event| event.kind == EventKind::EngineStops).copied().unwrap();
    let words = format!("{}  The engine stops", clock(stop.time));
    view.get_by_role_and_label(Role::Button, &words).click();
    view.run();
    assert_eq!(now(&view), stop.time.base());
    // The drawing stands still with the engine.
    assert!(view.query_all_by_label_contains("engine at rest").next().is_some());
    // And a hot stop is no time to open anything.
    assert!(view.query_all_by_label_contains("Never open the cap").next().is_some());
}

#[test]
fn the_cursor_is_dragged_along_slider_and_plots() {
    let mut view = shown();
    let span = view.state().day.legs.last().unwrap().ends.base();
    let place = slider(&view).rect();
    view.drag_at(place.center());
    view.run();
    view.drop_at(place.center());
    view.run();
    assert!((now(&view) / span - 0.5).abs() < 0.02, "{}", now(&view));
    let plots: Vec<_> = view.query_all_by_role(Role::Image).map(|node| node.rect()).collect();
    let plot = plots.first().unwrap();
    let hand = plot.left_center() + egui::vec2(plot.width() * 0.8, 0.0);
    view.drag_at(hand);
    view.run();
    view.drop_at(hand);
    view.run();
    assert!(now(&view) > 0.6 * span, "{}", now(&view));
}

#[test]
fn plots_are_told_in_sentences_and_in_both_units() {
    let mut view = shown();
    for (system, unit) in [(UnitSystem::Si, "°C"), (UnitSystem::Us, "°F")] {
        view.state_mut().system = system;
        view.run();
        let label = format!("Temperatures: Temperature, {unit} against time of the day");
        let node = view.get_by_role_and_label(Role::Image, &label);
        let words = node.accesskit_node().data().description().unwrap().to_owned();
        assert!(words.starts_with("Hottest coolant ") && words.contains(unit), "{words}");
    }
    for title in ["Level in the tank", "System pressure", "Coolant lost", "Crankcase pressure", "Oil with the gas"] {
        let images = view.query_all_by_role(Role::Image);
        let names: Vec<_> = images.filter_map(|node| node.accesskit_node().label()).collect();
        let found = names.iter().any(|name| name.starts_with(&format!("{title}: ")));
        assert!(
            found || title == "Oil with the gas" && names.iter().any(|name| name.starts_with("Oil caught: ")),
            "{title}: {names:?}"
        );
    }
}

fn named(view: &View, beginning: &str) -> String {
    let buttons = view.query_all_by_role(Role::Button);
    let mut names = buttons.filter_map(|node| node.accesskit_node().label());
    names.find(|name| name.starts_with(beginning)).unwrap_or_else(|| panic!("no {beginning}"))
}

#[test]
fn four_figures_say_whether_the_day_holds_and_lead_to_their_time() {
    let mut view = shown();
    let day = view.state().day.clone();
    let worst = |of| {
        let found = day.drive.extremes.iter().find(|extreme| extreme.of == of).unwrap();
        day.drive.samples[found.sample]
    };
    let hottest = worst(ExtremeOf::Coolant);
    let name = named(&view, "Hottest coolant: ");
    let told = Amount::of(hottest.coolant).show(UnitSystem::Si);
    assert!(name.starts_with(&format!("Hottest coolant: {told}, at {}", clock(hottest.time))), "{name}");
    let cooling = view.state().answers.verdict("cooling").unwrap().state;
    assert!(name.ends_with(cooling.word()), "{name}");
    view.get_by_role_and_label(Role::Button, &name).click();
    view.run();
    assert_eq!(now(&view), hottest.time.base());
    // The level is held against the lid, and is the highest of the likely day.
    let full = worst(ExtremeOf::FullTank);
    let level = Amount::of(full.level.unwrap()).show(UnitSystem::Si);
    let name = named(&view, "Highest level: ");
    assert!(name.contains(&level) && name.contains("lid 220 mm"), "{name}, {level}");
    view.get_by_role_and_label(Role::Button, &name).click_accesskit();
    view.run();
    assert_eq!(now(&view), full.time.base());
    let margin = Amount::of(worst(ExtremeOf::Margin).margin).show(UnitSystem::Si);
    assert!(named(&view, "Least below boiling: ").contains(&margin));
    // What is lost is told in the mass of the last sample, at both ends.
    let name = named(&view, "Coolant lost: ");
    for drive in [&day.drive, &day.unfavourable] {
        let lost = drive.samples.last().unwrap().lost;
        let kind = if lost.base() < 0.1 { Kind::SmallMass } else { Kind::Mass };
        let told = Amount::of_kind(lost, kind).show(UnitSystem::Si);
        let told = if lost.base() > 5e-3 { told } else { "none".to_owned() };
        assert!(name.contains(&told), "{name}, {told}");
    }
}

#[test]
fn the_drawing_of_a_day_is_still_the_menu() {
    let mut view = shown();
    for part in [Part::Tank, Part::Cap, Part::Crankcase] {
        let name = {
            let parts = view.query_all_by_role(Role::Button);
            let mut names = parts.filter_map(|node| node.accesskit_node().label());
            names.find(|name| name.starts_with(&format!("{},", part.name()))).unwrap()
        };
        view.get_by_role_and_label(Role::Button, &name).click_accesskit();
        view.run();
        assert_eq!(view.state().chosen, Some(part));
    }
}

/// The demo with its day followed and shown.
fn through_the_day() -> Window {
    let mut window = demo();
    assert!(window.state().day().is_none(), "nobody has looked at the day yet");
    window.get_by_role_and_label(Role::RadioButton, "A day").click();
    window.run();
    window
}

fn tab(window: &mut Window, name: &str) {
    window.get_by_role_and_label(Role::RadioButton, name).click();
    window.run();
}

#[test]
fn the_day_is_followed_when_somebody_looks() {
    let mut window = through_the_day();
    assert!(window.state().is_complete());
    assert_eq!(window.state().time_of_day(), Some(Time::from_base(0.0)));
    let day = window.state().day().unwrap().clone();
    assert!(window.shows(&day.says_tank().show(UnitSystem::Si)));
    let event = day.drive.events.iter().find(|event| event.time.base() > 0.0).unwrap();
    let button = {
        let buttons = window.query_all_by_role(Role::Button);
        let mut names = buttons.filter_map(|node| node.accesskit_node().label());
        names.find(|name| name.starts_with(&format!("{}  ", clock(event.time)))).unwrap()
    };
    window.get_by_role_and_label(Role::Button, &button).click_accesskit();
    window.run();
    assert_eq!(window.state().time_of_day(), Some(event.time));
    // Its working opens like any other.
    window.get_by_label("Show the working of the day").click_accesskit();
    window.run();
    let first = window.state().day().map(|_| coldmark::study::day_with_working(window.project()).unwrap().working);
    let title = first.unwrap().first().unwrap().title.clone();
    assert!(window.shows(&title), "{title}");
    // Back to the moments: the day is kept.
    window.get_by_role_and_label(Role::RadioButton, "Moments").click();
    window.run();
    assert_eq!(window.state().time_of_day(), None);
    assert!(window.query_by_role_and_label(Role::Slider, "Time of the day").is_none());
    assert!(window.state().day().is_some());
}

#[test]
fn legs_are_changed_moved_and_taken_away() {
    let mut window = through_the_day();
    tab(&mut window, "Change the day");
    let before = window.project().day.legs.clone();
    let ends = |window: &Window| window.state().day().unwrap().legs.last().unwrap().ends.base();
    let whole = ends(&window);
    // The parked hours of the example.
    let parked = before.iter().position(|leg| leg.lasts.base() == 10_800.0).unwrap();
    window.click(&format!("Leg {}", parked + 1));
    window.enter("Lasts", "2 h");
    assert_eq!(window.project().day.legs[parked].lasts.base(), 7200.0);
    assert!((whole - ends(&window) - 3600.0).abs() < 1.0);
    window.click(&format!("Move Leg {} up", parked + 1));
    assert_eq!(window.project().day.legs[parked - 1].lasts.base(), 7200.0);
    // What was open has moved with it.
    let open = |window: &Window, leg: usize| {
        let name = format!("Leg {leg}");
        let node = window.get_by_role_and_label(Role::Button, &name);
        node.accesskit_node().data().is_expanded()
    };
    assert_eq!([open(&window, parked), open(&window, parked + 1)], [Some(true), Some(false)]);
    window.click("Undo");
    window.click("Undo");
    assert_eq!(window.project().day.legs, before);
    window.click("Remove Leg 1");
    assert_eq!(window.project().day.legs, before[1..]);
    assert!(window.state().day().unwrap().legs.len() == before.len() - 1);
}

/// A project without legs is driven through a usual day; its legs can be had to change them, and the day stays the same.
#[test]
fn the_usual_legs_can_be_put_in_to_change_them() {
    let mut window = through_the_day();
    tab(&mut window, "Change the day");
    while let Some(last) = window.project().day.legs.len().checked_sub(1) {
        window.click(&format!("Remove Leg {}", last + 1));
    }
    let usual = window.state().day().unwrap().legs.clone();
    let says = format!("a usual day of {} legs is driven", usual.len());
    assert!(window.shows(&says), "{says}");
    window.click("Put in the usual legs");
    assert_eq!(window.project().day.legs.len(), usual.len());
    assert_eq!(window.state().day().unwrap().legs, usual);
    assert!(!window.shows(&says));
}

#[test]
fn a_tank_too_small_for_the_day_is_named() {
    let mut window = through_the_day();
    window.part(Part::Tank);
    window.enter("Inside height", "95 mm");
    let day = window.state().day().unwrap();
    let verdict = day.verdicts.iter().find(|verdict| verdict.key == "tank_volume").unwrap().clone();
    assert_eq!(verdict.state, State::DoesNotHold);
    let chip = {
        let chips = window.query_all_by_role(Role::Button);
        let mut names = chips.filter_map(|node| node.accesskit_node().label());
        names.find(|name| name.starts_with("Tank volume: does not hold")).unwrap()
    };
    assert!(chip.contains(&verdict.margin.show(UnitSystem::Si)), "{chip}");
    // What happened says so too.
    window.state_mut().choose(None);
    window.run();
    assert!(window.shows("The tank is too small for this day: "));
    assert!(window.shows("The tank is full and spills "));
}

#[test]
fn a_day_that_cannot_be_driven_leads_to_its_leg() {
    let mut window = through_the_day();
    tab(&mut window, "Change the day");
    let legs = window.project().day.legs.clone();
    let fast = legs.iter().position(|leg| leg.speed.base() > 40.0).unwrap();
    window.click(&format!("Leg {}", fast + 1));
    window.enter("Road speed", "350 km/h");
    assert!(window.shows("The day cannot be followed like this"));
    // The steady answers stand, and the day is that from before.
    assert!(window.state().problems().is_none() && window.state().day().is_some());
    tab(&mut window, "What happened");
    let fault = {
        let buttons = window.query_all_by_role(Role::Button);
        let mut names = buttons.filter_map(|node| node.accesskit_node().label());
        names.find(|name| name.starts_with("A day: ")).unwrap()
    };
    window.click(&fault);
    window.run();
    let input = window.get_by_role_and_label(Role::TextInput, "Road speed");
    assert!(input.is_focused());
    window.click("Undo");
    assert!(!window.shows("The day cannot be followed like this"));
}
