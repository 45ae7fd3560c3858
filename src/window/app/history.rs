//! Undo and redo: whole projects, one for each edit.

use crate::study::Project;

/// More steps than anybody goes back, and still only a few megabytes.
const DEPTH: usize = 200;

/// The project as it stands, what it was before each edit, and what was undone.
pub(crate) struct History {
    now: Project,
    before: Vec<Project>,
    undone: Vec<Project>,
}

impl History {
    pub(crate) fn new(project: Project) -> Self {
        Self { now: project, before: Vec::new(), undone: Vec::new() }
    }

    pub(crate) const fn now(&self) -> &Project {
        &self.now
    }

    /// Takes over an edited project; an edit that changes nothing is no step.
    pub(crate) fn edit(&mut self, edited: Project) -> bool {
        if edited == self.now {
            return false;
        }
        self.undone.clear();
        self.before.push(std::mem::replace(&mut self.now, edited));
        if self.before.len() > DEPTH {
            self.before.remove(0);
        }
        true
    }

    pub(crate) fn undo(&mut self) -> bool {
        let Some(before) = self.before.pop() else { return false };
        self.undone.push(std::mem::replace(&mut self.now, before));
        true
    }

    pub(crate) fn redo(&mut self) -> bool {
        let Some(undone) = self.undone.pop() else { return false };
        self.before.push(std::mem::replace(&mut self.now, undone));
        true
    }

    pub(crate) fn can_undo(&self) -> bool {
        !self.before.is_empty()
    }

    pub(crate) fn can_redo(&self) -> bool {
        !self.undone.is_empty()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn named(title: &str) -> Project {
        Project { title: title.to_owned(), ..Project::blank() }
    }

    #[test]
    fn steps_go_back_and_forth() {
        let mut history = History::new(named("a"));
        assert!(!history.edit(named("a")));
        assert!(history.edit(named("b")) && history.edit(named("c")));
        assert!(history.undo() && history.undo() && !history.undo());
        assert_eq!(history.now().title, "a");
        assert!(history.redo());
        assert_eq!(history.now().title, "b");
        // A new edit drops what was undone.
        assert!(history.edit(named("d")));
        assert!(!history.can_redo() && history.can_undo());
    }

    #[test]
    fn the_oldest_steps_are_let_go() {
        let mut history = History::new(named("0"));
        for step in 1..=DEPTH + 5 {
            history.edit(named(&step.to_string()));
        }
        while history.undo() {}
        assert_eq!(history.now().title, "5");
    }
}
