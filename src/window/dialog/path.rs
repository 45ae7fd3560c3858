//! A path, typed or chosen: always usable, whatever file chooser the system has.

use super::{Wish, heading};
use crate::window::app::{App, Browsed, Command, Next};
use crate::window::tokens::{Tokens, space};
use egui::{Button, Id, Key, Label, RichText, TextEdit, Ui};
use std::path::{Path, PathBuf};

/// A path asked for.
pub(crate) struct Asked {
    text: String,
    purpose: Purpose,
    /// What is wrong with the path, or was with the chooser.
    remark: Option<String>,
    /// The existing file a person has been warned of.
    warned: Option<PathBuf>,
    fresh: bool,
}

enum Purpose {
    Open,
    Save(Option<Next>),
}

impl Asked {
    pub(super) const fn open() -> Self {
        Self { text: String::new(), purpose: Purpose::Open, remark: None, warned: None, fresh: true }
    }

    pub(super) fn save(app: &App, next: Option<Next>) -> Self {
        let text = app.path().map_or_else(|| file_name(app.document.name()), |path| path.display().to_string());
        Self { text, purpose: Purpose::Save(next), remark: None, warned: None, fresh: true }
    }
}

/// A file name made of a car's name: letters and digits stay, the rest becomes dashes.
fn file_name(name: &str) -> String {
    let mut stem = String::new();
    for letter in name.chars() {
        if letter.is_alphanumeric() {
            stem.extend(letter.to_lowercase());
        } else if !stem.ends_with('-') && !stem.is_empty() {
            stem.push('-');
        }
    }
    let stem: String = stem.trim_end_matches('-').chars().take(60).collect();
    format!("{}.toml", if stem.is_empty() { "car" } else { &stem })
}

/// The path meant by a text: quotes of a copied path are dropped, a leading ~ is the home folder.
fn read(text: &str) -> Option<PathBuf> {
    let text = text.trim().trim_matches(['"', '\'']);
    if text.is_empty() {
        return None;
    }
    if let Some(rest) = text.strip_prefix("~/")
        && let Some(home) = std::env::var_os("HOME")
    {
        return Some(PathBuf::from(home).join(rest));
    }
    Some(PathBuf::from(text))
}

pub(super) fn show(ui: &mut Ui, app: &mut App, asked: &mut Asked) -> Wish {
    let tokens = Tokens::here(ui);
    let saving = matches!(asked.purpose, Purpose::Save(_));
    heading(ui, if saving { "Save the project" } else { "Open a project" });
    let label = ui.label(RichText::new("Path of the file").color(tokens.quiet));
    let id = Id::unique("path of the file");
    let edit = TextEdit::singleline(&mut asked.text).id(id).desired_width(f32::INFINITY).margin(egui::vec2(8.0, 5.0));
    let response = ui.add(edit).labelled_by(label.id);
    if std::mem::take(&mut asked.fresh) {
        response.request_focus();
    }
    if response.changed() {
        asked.remark = None;
    }
    let here = std::env::current_dir().map(|folder| folder.display().to_string()).unwrap_or_default();
    let words =
        format!("A path that does not begin with / starts at {here}. A file can also be dropped on the window.");
    ui.add(Label::new(RichText::new(words).small().color(tokens.quiet)).wrap());
    if let Some(remark) = &asked.remark {
        let label = ui.add(Label::new(RichText::new(remark).color(tokens.fault)).wrap());
        ui.ctx().accesskit_node_builder(label.id, |node| node.set_live(egui::accesskit::Live::Polite));
    }
    ui.add_space(space::ROW);

    let by_enter = response.lost_focus() && ui.input(|input| input.key_pressed(Key::Enter));
    let mut go = by_enter.then(|| asked.text.clone());
    let mut cancel = false;
    ui.horizontal(|ui| {
        let replacing = saving && asked.warned.is_some() && asked.warned == read(&asked.text);
        let words = match (saving, replacing) {
            (true, true) => "Replace the file",
            (true, false) => "Save to this path",
            _ => "Open this path",
        };
        if ui.button(words).clicked() {
            go = Some(asked.text.clone());
        }
        let browse = ui.add_enabled(!app.browser.is_open(), Button::new("Browse…"));
        if browse.on_hover_text("The system's own file chooser, if it has one").clicked() {
            let name = saving.then(|| file_name(app.document.name()));
            app.browser.open(name, ui.ctx());
        }
        cancel = ui.button("Cancel").clicked();
        if app.browser.is_open() {
            ui.label(RichText::new("The file chooser is open.").color(tokens.quiet));
        }
    });
    match app.browser.poll() {
        Some(Browsed::Chosen(path)) => {
            asked.text = path.display().to_string();
            // The chooser itself has asked about replacing.
            asked.warned = Some(path.clone());
            return settle(app, asked, path);
        }
        Some(Browsed::Nothing) => {
            let words = "No file was chosen, or this system has no file chooser. Type the path instead.";
            asked.remark = Some(words.to_owned());
        }
        None => {}
    }
    if cancel {
        return Wish::Close;
    }
    match go {
        None => Wish::Stay,
        Some(text) => match read(&text) {
            Some(path) => settle(app, asked, path),
            None => {
                asked.remark = Some("Type the path of a file first, such as /home/me/car.toml.".to_owned());
                response.request_focus();
                Wish::Stay
            }
        },
    }
}

/// Opens or saves, unless an existing file would be replaced unasked.
fn settle(app: &mut App, asked: &mut Asked, path: PathBuf) -> Wish {
    match &asked.purpose {
        Purpose::Open => app.command(Command::Open(path)),
        Purpose::Save(next) => {
            let own = app.path() == Some(Path::new(&path));
            if path.is_dir() {
                asked.remark = Some(format!("{} is a folder; add the name of a file.", path.display()));
                return Wish::Stay;
            }
            if !own && path.exists() && asked.warned.as_ref() != Some(&path) {
                asked.remark =
                    Some(format!("{} exists. Press again to replace it, or type another name.", path.display()));
                asked.warned = Some(path);
                return Wish::Stay;
            }
            app.command(Command::SaveTo(path, next.clone()));
        }
    }
    Wish::Close
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn names_become_file_names() {
        assert_eq!(file_name("Grey coupé, invented example"), "grey-coupé-invented-example.toml");
        assert_eq!(file_name("../../etc"), "etc.toml");
        assert_eq!(file_name(" ?! "), "car.toml");
    }

    #[test]
    fn paths_are_read_as_people_paste_them() {
        assert_eq!(read("  "), None);
        assert_eq!(read(" \"/a b/c.toml\" "), Some(PathBuf::from("/a b/c.toml")));
        assert_eq!(read("car.toml"), Some(PathBuf::from("car.toml")));
    }
}
