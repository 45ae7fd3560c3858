//! What is to be said of a joint whatever the torque.

use super::{Bedding, Joint};
use crate::note::{Note, Weight};

/// Remarks on flange, thread and stack, and the caution of every joint.
pub(super) fn notes(joint: &Joint, bedding: Option<&Bedding>, screw_breaks_first: bool) -> Vec<Note> {
    let mut notes = bedding.map_or_else(Vec::new, |bedding| bedding.notes.clone());
    if !screw_breaks_first {
        let text = "Over-tightened, this thread may strip before the screw breaks: the tapped metal fails first. Never go above \
                    the most torque; a screw that turns without getting tighter has already pulled its thread: take it out \
                    and mend the hole.";
        notes.push(Note::new("thread-strips-first", Weight::Weak, text));
    }
    if joint.stack.gaskets() > 1 {
        let text = format!(
            "{} gaskets make {} faces that can leak, travel further for the same load and feel soft under the key, which \
             invites over-tightening; the load lost by settling is the same.",
            joint.stack.gaskets(),
            joint.stack.leak_faces()
        );
        notes.push(Note::new("gaskets-stacked", Weight::Remark, text));
    }
    notes.push(Note::new(
        "tighten-cold",
        Weight::Danger,
        "Tighten with the engine cold and standing, in small steps from the middle outwards. Oil from a loose cover on a \
         hot exhaust burns.",
    ));
    notes
}
