//! A window without a display, and the few moves the tests make in it.

use coldmark::study::{Part, Project, State};
use coldmark::window::{self, App, Beginning, Pace};
use egui::accesskit::Role;
use egui_kittest::Harness;
use egui_kittest::kittest::Queryable as _;
use std::path::{Path, PathBuf};

pub type Window = Harness<'static, App>;

/// The program with the demo, answers at once, nothing kept.
pub fn demo() -> Window {
    opened(None, None)
}

pub fn opened(file: Option<PathBuf>, folder: Option<PathBuf>) -> Window {
    let app = App::new(Beginning { file, pace: Pace::AtOnce, folder });
    let mut window = Harness::builder()
        .with_size(egui::vec2(1280.0, 800.0))
        .with_theme(egui::Theme::Light)
        .with_max_steps(40)
        .with_context_setup(window::dress)
        .build_ui_state(|ui, app: &mut App| app.show(ui), app);
    window.run();
    window
}

pub trait Moves {
    fn part(&mut self, part: Part);
    fn click(&mut self, button: &str);
    fn enter(&mut self, input: &str, text: &str);
    fn project(&self) -> &Project;
    fn shows(&self, words: &str) -> bool;
    fn save_as(&mut self, path: &Path);
    fn open(&mut self, path: &Path);
    fn state_of(&self, verdict: &str) -> State;
}

impl Moves for Window {
    fn part(&mut self, part: Part) {
        self.state_mut().choose(Some(part));
        self.run();
    }

    fn click(&mut self, button: &str) {
        self.get_by_role_and_label(Role::Button, button).scroll_to_me();
        self.run();
        self.get_by_role_and_label(Role::Button, button).click();
        self.run();
    }

    /// Types into an input and commits with Enter.
    fn enter(&mut self, input: &str, text: &str) {
        let node = self.get_by_role_and_label(Role::TextInput, input);
        node.focus();
        self.run();
        self.key_combination_modifiers(egui::Modifiers::COMMAND, &[egui::Key::A]);
        self.get_by_role_and_label(Role::TextInput, input).type_text(text);
        self.run();
        self.key_press(egui::Key::Enter);
        self.run();
    }

    fn project(&self) -> &Project {
        self.state().project()
    }

    fn shows(&self, words: &str) -> bool {
        self.query_all_by_label_contains(words).next().is_some()
    }

    fn save_as(&mut self, path: &Path) {
        self.click("Save as…");
        self.enter("Path of the file", path.to_str().unwrap());
    }

    fn open(&mut self, path: &Path) {
        self.click("Open…");
        self.enter("Path of the file", path.to_str().unwrap());
    }

    fn state_of(&self, verdict: &str) -> State {
        self.state().answers().unwrap().verdict(verdict).unwrap().state
    }
}
