//! The system's file chooser, in a thread of its own: a chooser that hangs must not hang the window.

use std::path::PathBuf;
use std::sync::mpsc::{Receiver, TryRecvError, channel};

/// What became of the chooser.
pub(crate) enum Browsed {
    /// A file was chosen.
    Chosen(PathBuf),
    /// None was, or the system has no chooser: the two look the same from here.
    Nothing,
}

/// The chooser, open or not.
#[derive(Default)]
pub(crate) struct Browser(Option<Receiver<Option<PathBuf>>>);

impl Browser {
    pub(crate) const fn is_open(&self) -> bool {
        self.0.is_some()
    }

    /// Opens the chooser, to open a file or to save one.
    pub(crate) fn open(&mut self, saving: Option<String>, ctx: &egui::Context) {
        let (sender, receiver) = channel();
        let ctx = ctx.clone();
        let begun = std::thread::Builder::new().name("file chooser".to_owned()).spawn(move || {
            let chooser = rfd::FileDialog::new().add_filter("Coldmark project", &["toml"]);
            let chosen = match saving {
                None => chooser.set_title("Open a project").pick_file(),
                Some(name) => chooser.set_title("Save the project").set_file_name(name).save_file(),
            };
            drop(sender.send(chosen));
            ctx.request_repaint();
        });
        // Without a thread there is no chooser; the path can still be typed.
        self.0 = begun.is_ok().then_some(receiver);
    }

    /// What a person chose, once they did.
    pub(crate) fn poll(&mut self) -> Option<Browsed> {
        let found = match self.0.as_ref()?.try_recv() {
            Err(TryRecvError::Empty) => return None,
            Ok(Some(path)) => Browsed::Chosen(path),
            Ok(None) | Err(TryRecvError::Disconnected) => Browsed::Nothing,
        };
        self.0 = None;
        Some(found)
    }

    /// Nobody waits for it any more.
    pub(crate) fn leave(&mut self) {
        self.0 = None;
    }
}
