//! What outlives the window: a person's preferences, and work that was not saved when it ended.

use crate::file;
use crate::quantity::UnitSystem;
use crate::study::Project;
use serde::{Deserialize, Serialize};
use std::path::{Path, PathBuf};
use std::sync::mpsc::{Sender, channel};

/// Units and theme, as a person left them.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, Serialize, Deserialize)]
#[serde(default)]
pub(crate) struct Preferences {
    pub(crate) units: UnitSystem,
    pub(crate) dark: bool,
}

const PREFERENCES: &str = "preferences.toml";
const UNSAVED: &str = "unsaved-";
const TOML: &str = ".toml";

/// A folder of this person's own; without one nothing is kept.
pub(crate) struct Home {
    folder: Option<PathBuf>,
    writer: Option<Sender<Write>>,
}

enum Write {
    Keep(Box<Project>, UnitSystem),
    Forget,
    /// Told when everything before it is done.
    Done(Sender<()>),
}

/// `$XDG_STATE_HOME/coldmark`, or `~/.local/state/coldmark`; on Windows below the local application data.
pub(crate) fn usual_folder() -> Option<PathBuf> {
    let absolute = |name: &str| std::env::var_os(name).map(PathBuf::from).filter(|path| path.is_absolute());
    let base = absolute("XDG_STATE_HOME")
        .or_else(|| absolute("LOCALAPPDATA"))
        .or_else(|| absolute("HOME").map(|home| home.join(".local").join("state")))?;
    Some(base.join("coldmark"))
}

impl Home {
    pub(crate) const fn new(folder: Option<PathBuf>) -> Self {
        Self { folder, writer: None }
    }

    pub(crate) fn preferences(&self) -> Preferences {
        let read = |folder: &PathBuf| std::fs::read_to_string(folder.join(PREFERENCES)).ok();
        // A preference file that cannot be read costs two clicks; nobody wants a dialog for that.
        self.folder.as_ref().and_then(read).and_then(|text| toml::from_str(&text).ok()).unwrap_or_default()
    }

    pub(crate) fn keep_preferences(&self, preferences: Preferences) {
        let (Some(folder), Ok(text)) = (&self.folder, toml::to_string(&preferences)) else { return };
        if std::fs::create_dir_all(folder).is_ok() {
            // Silent for the reason above.
            drop(std::fs::write(folder.join(PREFERENCES), text));
        }
    }

    fn own_file(&self) -> Option<PathBuf> {
        let name = format!("{UNSAVED}{}{TOML}", std::process::id());
        self.folder.as_ref().map(|folder| folder.join(name))
    }

    /// Keeps unsaved work against a crash. A thread writes it, so that a slow disk stops no frame.
    pub(crate) fn keep_unsaved(&mut self, project: &Project, units: UnitSystem) {
        self.send(Write::Keep(Box::new(project.clone()), units));
    }

    /// The work is saved, or given up.
    pub(crate) fn forget_unsaved(&mut self) {
        if self.writer.is_some() {
            self.send(Write::Forget);
        }
    }

    /// Waits until everything is on disk; for the end of the program.
    pub(crate) fn settle(&mut self) {
        let Some(writer) = &self.writer else { return };
        let (sender, done) = channel();
        if writer.send(Write::Done(sender)).is_ok() {
            // A disk that is slower than this keeps its work, and the window still closes.
            let _late = done.recv_timeout(std::time::Duration::from_secs(5));
        }
    }

    fn send(&mut self, write: Write) {
        let Some(file) = self.own_file() else { return };
        let writer = self.writer.get_or_insert_with(|| {
            let (sender, writes) = channel::<Write>();
            // Without a thread there is no safety net; the person's own saving still works.
            drop(std::thread::Builder::new().name("unsaved work".to_owned()).spawn(move || {
                while let Ok(mut write) = writes.recv() {
                    // Only the newest of what has piled up is worth the disk.
                    while matches!(write, Write::Keep(..) | Write::Forget)
                        && let Ok(newer) = writes.try_recv()
                    {
                        if let Write::Done(_) = newer {
                            carry_out(&write, &file);
                        }
                        write = newer;
                    }
                    carry_out(&write, &file);
                }
            }));
            sender
        });
        drop(writer.send(write));
    }

    /// Work that an earlier window left unsaved when it crashed, newest first.
    pub(crate) fn left_behind(&self) -> Vec<PathBuf> {
        let Some(Ok(entries)) = self.folder.as_ref().map(std::fs::read_dir) else { return Vec::new() };
        let mut found: Vec<_> = entries
            .flatten()
            .filter(|entry| is_left_behind(&entry.path()))
            .map(|entry| (entry.metadata().and_then(|meta| meta.modified()).ok(), entry.path()))
            .collect();
        found.sort();
        found.into_iter().rev().map(|(_, path)| path).collect()
    }
}

fn carry_out(write: &Write, file: &Path) {
    match write {
        Write::Keep(project, units) => {
            if let Some(folder) = file.parent()
                && std::fs::create_dir_all(folder).is_ok()
            {
                drop(file::save(project, file, *units));
            }
        }
        Write::Forget => drop(std::fs::remove_file(file)),
        Write::Done(told) => drop(told.send(())),
    }
}

/// Whether a file holds unsaved work of a window that is gone.
fn is_left_behind(path: &Path) -> bool {
    let name = path.file_name().and_then(|name| name.to_str());
    let number = name.and_then(|name| name.strip_prefix(UNSAVED)?.strip_suffix(TOML)?.parse::<u32>().ok());
    number.is_some_and(|number| number != std::process::id() && !is_running(number))
}

/// Where the system shows its processes, one that still runs keeps its own work.
fn is_running(process: u32) -> bool {
    // "1234 (coldmark) S …": a killed process that nobody has waited for yet (Z) runs no more.
    let Ok(told) = std::fs::read_to_string(format!("/proc/{process}/stat")) else { return false };
    let state = told.rsplit_once(") ").and_then(|(_, rest)| rest.chars().next());
    told.contains("(coldmark)") && !matches!(state, Some('Z' | 'X'))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn preferences_come_back_and_broken_ones_do_no_harm() {
        let folder = tempfile::tempdir().unwrap();
        let home = Home::new(Some(folder.path().join("new")));
        assert_eq!(home.preferences(), Preferences::default());
        let wanted = Preferences { units: UnitSystem::Us, dark: true };
        home.keep_preferences(wanted);
        assert_eq!(home.preferences(), wanted);
        std::fs::write(folder.path().join("new").join(PREFERENCES), "units = 7").unwrap();
        assert_eq!(home.preferences(), Preferences::default());
        Home::new(None).keep_preferences(wanted);
    }

    #[test]
    fn unsaved_work_is_found_by_the_next_window_only() {
        let folder = tempfile::tempdir().unwrap();
        let mut home = Home::new(Some(folder.path().to_owned()));
        let project = Project { title: "left".to_owned(), ..Project::blank() };
        home.keep_unsaved(&project, UnitSystem::Si);
        home.settle();
        let own = home.own_file().unwrap();
        assert!(own.exists());
        // This very process still runs, so its work is not left behind.
        assert!(home.left_behind().is_empty());
        // The number of a process that cannot exist.
        let gone = folder.path().join("unsaved-4294967295.toml");
        std::fs::copy(&own, &gone).unwrap();
        assert_eq!(home.left_behind(), std::slice::from_ref(&gone));
        assert_eq!(file::open(&gone).unwrap().title, "left");
        home.forget_unsaved();
        home.settle();
        assert!(!own.exists());
    }
}
