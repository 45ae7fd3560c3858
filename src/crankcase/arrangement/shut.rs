//! Lines that something shuts at the state solved: liquid in a sag, a check valve.

use super::outcome::Loss;
use super::parts::{BreatherLine, Inline, Line, Piece, Ventilation};
use crate::note::{Note, Weight};
use crate::quantity::{Amount, Kind, Measured, UnitSystem};

/// The line as its builder described it.
const fn line_of(ventilation: &Ventilation, line: Line) -> Option<&BreatherLine> {
    match line {
        Line::Breather | Line::FreshAir => ventilation.breather.as_ref(),
        Line::SecondBreather => ventilation.second_breather.as_ref(),
        Line::Valve => ventilation.valve_line.as_ref(),
        Line::CanVent | Line::CrossOver => None,
    }
}

/// What is to be said of lines that are shut.
pub(super) fn remarks(ventilation: &Ventilation, losses: &[Loss]) -> Vec<Note> {
    let mut notes = Vec::new();
    for loss in losses {
        let Some(line) = line_of(ventilation, loss.line) else { continue };
        let small = |base: f64| Amount::new(base, Kind::CrankcasePressure).show(UnitSystem::Si);
        let (name, across) = (loss.line.name(), loss.drop.base());
        match (loss.piece, line.sag, line.inline) {
            (Piece::Sag, Some(head), _) if across.abs() <= head.base() => {
                let text = format!(
                    "Liquid in the sag shuts the {name}: {} stand across it, it opens at {} either way. All the rest of the gas \
                     must find another way. Run the hose without a sag.",
                    small(across.abs()),
                    small(head.base())
                );
                notes.push(Note::new("sag-shut", Weight::Danger, text));
            }
            (Piece::Check, _, Some(Inline::CheckOutwards(_))) if across <= 0.0 => {
                let text = format!("The check valve shuts the {name}: no fresh air comes in by it.");
                notes.push(Note::new("check-shut", Weight::Remark, text));
            }
            (Piece::Check, _, Some(Inline::CheckInwards(_))) if across >= 0.0 => {
                let text = format!(
                    "The check valve shuts the {name}: no gas leaves by it, and nothing holds the crankcase near the air when the \
                     rest of the ways out is too small."
                );
                notes.push(Note::new("check-shut", Weight::Danger, text));
            }
            _ => {}
        }
    }
    notes
}
