//! All faults of a file, each with its line.

use super::{Wish, focused_button, heading};
use crate::file::FileFault;
use crate::window::tokens::{Tokens, space};
use egui::{Label, RichText, ScrollArea, Ui};

pub(super) fn show(ui: &mut Ui, path: &str, faults: &[FileFault]) -> Wish {
    let tokens = Tokens::here(ui);
    heading(ui, "The file was not opened");
    let count = faults.len();
    let words = format!("{path} has {count} {}:", if count == 1 { "fault" } else { "faults" });
    ui.add(Label::new(words).wrap().selectable(true));
    ScrollArea::vertical().id_salt("faults").max_height(320.0).show(ui, |ui| {
        ui.set_width(ui.available_width());
        for fault in faults {
            ui.add(Label::new(RichText::new(fault.to_string()).color(tokens.fault)).wrap().selectable(true));
        }
    });
    let words = "Mend these lines in a text editor and open the file again. Nothing was changed, and the project that \
                 was open still is.";
    ui.add(Label::new(RichText::new(words).color(tokens.quiet)).wrap());
    ui.add_space(space::ROW);
    if focused_button(ui, "Close") { Wish::Close } else { Wish::Stay }
}
