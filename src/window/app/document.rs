//! The open project: its edits, its file, and whether it is saved.

use super::history::History;
use crate::file::{self, FileError};
use crate::quantity::UnitSystem;
use crate::study::Project;
use std::path::{Path, PathBuf};

/// The open project.
pub(crate) struct Document {
    history: History,
    /// Where it was opened from or saved to.
    path: Option<PathBuf>,
    /// What the file holds; `None` for work that no file has.
    saved: Option<Project>,
    /// Counts the projects opened, so that text half typed in one never shows up in another.
    generation: u64,
    /// Counts the changes of the project, so that answers can be told from older ones.
    version: u64,
}

impl Document {
    /// A project as it came: from a file, from the demo, or new.
    pub(crate) fn new(project: Project, path: Option<PathBuf>) -> Self {
        Self { saved: Some(project.clone()), history: History::new(project), path, generation: 1, version: 1 }
    }

    pub(crate) const fn project(&self) -> &Project {
        self.history.now()
    }

    pub(crate) fn path(&self) -> Option<&Path> {
        self.path.as_deref()
    }

    pub(crate) const fn generation(&self) -> u64 {
        self.generation
    }

    pub(crate) const fn version(&self) -> u64 {
        self.version
    }

    pub(crate) const fn history(&self) -> &History {
        &self.history
    }

    /// Whether there is work that no file has.
    pub(crate) fn is_unsaved(&self) -> bool {
        self.saved.as_ref() != Some(self.project())
    }

    /// The words of the top bar.
    pub(crate) fn name(&self) -> &str {
        if self.project().title.is_empty() { "Unnamed car" } else { &self.project().title }
    }

    pub(crate) fn edit(&mut self, edited: Project) {
        if self.history.edit(edited) {
            self.version += 1;
        }
    }

    pub(crate) fn undo(&mut self) {
        if self.history.undo() {
            self.version += 1;
        }
    }

    pub(crate) fn redo(&mut self) {
        if self.history.redo() {
            self.version += 1;
        }
    }

    /// Another project takes the place of this one.
    pub(crate) fn replace(&mut self, project: Project, path: Option<PathBuf>) {
        self.saved = Some(project.clone());
        self.take_over(project, path);
    }

    /// Work found after a crash: no file has it.
    pub(crate) fn recover(&mut self, project: Project) {
        self.saved = None;
        self.take_over(project, None);
    }

    fn take_over(&mut self, project: Project, path: Option<PathBuf>) {
        self.history = History::new(project);
        self.path = path;
        self.generation += 1;
        self.version += 1;
    }

    pub(crate) fn save(&mut self, path: &Path, units: UnitSystem) -> Result<(), FileError> {
        file::save(self.project(), path, units)?;
        self.saved = Some(self.project().clone());
        self.path = Some(path.to_owned());
        Ok(())
    }
}
