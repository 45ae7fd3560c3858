//! Files: saved, opened, faulty, lost and found.

use crate::support::{Moves as _, Window, demo, opened};
use coldmark::file;
use coldmark::quantity::{Measured as _, UnitSystem};
use coldmark::study::{Part, Project};
use egui::{Key, Modifiers};

fn height(window: &Window) -> f64 {
    window.project().tank.height.base()
}

#[test]
fn saved_by_a_typed_path_and_opened_again() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("car.toml");
    let mut window = demo();
    window.part(Part::Tank);
    window.enter("Inside height", "211 mm");
    window.save_as(&path);
    assert!(!window.state().is_unsaved());
    assert_eq!(window.state().path(), Some(path.as_path()));
    assert_eq!(file::open(&path).unwrap(), *window.project());
    window.enter("Inside height", "222 mm");
    window.key_combination_modifiers(Modifiers::COMMAND, &[Key::S]);
    window.run();
    assert_eq!(file::open(&path).unwrap().tank.height.base(), height(&window));

    let mut other = demo();
    other.open(&path);
    assert_eq!(other.project(), window.project());
}

#[test]
fn what_is_still_being_typed_is_saved_too() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("car.toml");
    let mut window = demo();
    window.save_as(&path);
    window.part(Part::Tank);
    use egui_kittest::kittest::Queryable as _;
    let input = |window: &Window| {
        let node = window.get_by_role_and_label(egui::accesskit::Role::TextInput, "Inside height");
        node.focus();
    };
    input(&window);
    window.run();
    window.key_combination_modifiers(Modifiers::COMMAND, &[Key::A]);
    window.get_by_role_and_label(egui::accesskit::Role::TextInput, "Inside height").type_text("333 mm");
    window.run();
    window.key_combination_modifiers(Modifiers::COMMAND, &[Key::S]);
    window.run();
    assert_eq!(file::open(&path).unwrap().tank.height.base(), 0.333);
}

#[test]
fn an_existing_file_is_replaced_only_when_pressed_again() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("other.toml");
    std::fs::write(&path, "keep me").unwrap();
    let mut window = demo();
    window.save_as(&path);
    assert_eq!(std::fs::read_to_string(&path).unwrap(), "keep me");
    assert!(window.shows("exists"));
    window.click("Replace the file");
    assert_eq!(file::open(&path).unwrap(), *window.project());
}

#[test]
fn faults_of_a_file_are_told_with_their_lines_and_nothing_is_lost() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("faulty.toml");
    file::save(&Project::blank(), &path, UnitSystem::Si).unwrap();
    let text = std::fs::read_to_string(&path).unwrap();
    let line = text.lines().position(|line| line.starts_with("altitude")).unwrap() + 1;
    let faulty: Vec<_> =
        text.lines().map(|line| if line.starts_with("altitude") { "altitude = \"9 km\"" } else { line }).collect();
    std::fs::write(&path, faulty.join("\n")).unwrap();

    let mut window = demo();
    window.part(Part::Tank);
    window.enter("Inside height", "211 mm");
    let before = window.project().clone();
    window.open(&path);
    assert!(window.shows("The file was not opened"));
    assert!(window.shows(&format!("line {line}: surroundings.altitude")));
    window.click("Close");
    assert_eq!(*window.project(), before);
    assert!(window.state().is_unsaved());
}

#[test]
fn unsaved_work_is_asked_about_before_it_is_lost() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("other.toml");
    let other = Project { title: "other".to_owned(), ..Project::blank() };
    file::save(&other, &path, UnitSystem::Si).unwrap();
    let mut window = demo();
    window.part(Part::Tank);
    window.enter("Inside height", "211 mm");
    let edited = window.project().clone();

    window.key_combination_modifiers(Modifiers::COMMAND, &[Key::N]);
    window.run();
    assert!(window.shows("Save the changes first?"));
    window.click("Cancel");
    assert_eq!(*window.project(), edited);

    window.open(&path);
    assert!(window.shows("Save the changes first?"));
    window.click("Lose the changes");
    assert_eq!(*window.project(), other);
    assert!(!window.state().is_unsaved());
    window.click("New");
    assert_eq!(*window.project(), Project::blank());
}

#[test]
fn saving_first_and_then_going_on() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("mine.toml");
    let mut window = demo();
    window.part(Part::Tank);
    window.enter("Inside height", "211 mm");
    let edited = window.project().clone();
    window.click("New");
    // The question's own button, not the one in the bar behind it.
    window.key_press(Key::Enter);
    window.run();
    window.enter("Path of the file", path.to_str().unwrap());
    assert_eq!(file::open(&path).unwrap(), edited);
    assert_eq!(*window.project(), Project::blank());
}

#[test]
fn a_file_that_cannot_be_written_says_so_and_keeps_the_work() {
    let mut window = demo();
    window.part(Part::Tank);
    window.enter("Inside height", "211 mm");
    window.save_as(std::path::Path::new("/proc/nowhere/car.toml"));
    assert!(window.shows("The project was not saved"));
    assert!(window.state().is_unsaved());
    window.click("Close");
}

#[test]
fn work_left_behind_is_offered_and_taken_up() {
    let home = tempfile::tempdir().unwrap();
    let left = Project { title: "left behind".to_owned(), ..Project::blank() };
    let path = home.path().join("unsaved-4294967295.toml");
    file::save(&left, &path, UnitSystem::Si).unwrap();
    let folder = Some(home.path().to_owned());
    let mut window = opened(None, folder.clone());
    assert!(window.shows("Unsaved work was found"));
    window.click("Take it up again");
    assert_eq!(*window.project(), left);
    assert!(window.state().is_unsaved());
    assert!(!path.exists());
}

#[test]
fn a_file_named_at_the_start_is_opened_or_its_faults_are_told() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("car.toml");
    std::fs::write(&path, "nonsense").unwrap();
    let window = opened(Some(path.clone()), None);
    assert!(window.shows("The file was not opened"));
    let car = Project { title: "named".to_owned(), ..Project::blank() };
    file::save(&car, &path, UnitSystem::Us).unwrap();
    assert_eq!(opened(Some(path), None).project().title, "named");
}

#[test]
fn closing_the_window_asks_first_when_work_would_be_lost() {
    let close = |window: &mut Window| {
        let root = window.input_mut().viewports.get_mut(&egui::ViewportId::ROOT).unwrap();
        root.events.push(egui::ViewportEvent::Close);
        window.step();
        let root = &window.output().viewport_output[&egui::ViewportId::ROOT];
        root.commands.contains(&egui::ViewportCommand::CancelClose)
    };
    let mut window = demo();
    assert!(!close(&mut window), "nothing to lose, nothing to ask");
    window.part(Part::Tank);
    window.enter("Inside height", "211 mm");
    assert!(close(&mut window));
    window.run();
    assert!(window.shows("They are lost if the program ends now"));
    window.click("Cancel");
    assert_eq!(height(&window), 0.211);
}

#[test]
fn unsaved_work_is_kept_until_it_is_saved() {
    let home = tempfile::tempdir().unwrap();
    let kept = home.path().join(format!("unsaved-{}.toml", std::process::id()));
    let mut window = opened(None, Some(home.path().to_owned()));
    window.part(Part::Tank);
    window.enter("Inside height", "211 mm");
    let soon = |there: bool| {
        let begun = std::time::Instant::now();
        while kept.exists() != there && begun.elapsed().as_secs() < 30 {
            std::thread::sleep(std::time::Duration::from_millis(5));
        }
        kept.exists() == there
    };
    assert!(soon(true));
    assert_eq!(file::open(&kept).unwrap(), *window.project());
    window.save_as(&home.path().join("car.toml"));
    assert!(soon(false));
}
