//! When neither one change nor two are enough: ease whatever takes most of the pressure, again and again.

use super::change::{BORES, baffle_words, element_words, freer, inline_words, wider_baffles};
use super::proof::Proof;
use crate::quantity::Amount;
use crate::quantity::Measured;
use crate::quantity::si::Length;
use crate::say;
use crate::study::{CanPlace, InlineKind, Sentence, VentilationInputs};

/// Eases the tightest piece step by step until it holds; `None` when it never does.
pub(super) fn ease_step_by_step(proof: &Proof<'_, '_, '_>, present: &VentilationInputs) -> Option<Sentence> {
    const STEPS: usize = 16;
    let mut changed = present.clone();
    for _ in 0..STEPS {
        let Some(piece) = proof.tightest(&changed) else { break };
        if !ease(&mut changed, &piece) {
            break;
        }
        if proof.holds(&changed) {
            return Some(differences(proof, present, &changed));
        }
    }
    None
}

/// Makes a piece one size freer; `false` when it cannot be.
fn ease(inputs: &mut VentilationInputs, piece: &str) -> bool {
    let next = BORES.into_iter().find(|bore| *bore > inputs.breather.bore.base() + 1e-4);
    let line = &mut inputs.breather;
    match piece {
        "baffle" => wider_baffles(inputs, 1.5),
        "breather element" => freer(&mut inputs.element, 0.5),
        "mesh" => inputs.mesh.known = false,
        "oil in the sag" => line.sag = None,
        "check valve" | "component in the line" => line.inline = InlineKind::None,
        "fitting" if line.barb.is_some() || inputs.can.bore < line.bore => {
            line.barb = None;
            inputs.can.bore = inputs.can.bore.max(inputs.breather.bore);
        }
        _ => {
            let Some(next) = next else { return false };
            line.bore = Length::from_base(next);
            line.barb = None;
            inputs.can.bore = inputs.can.bore.max(inputs.breather.bore);
        }
    }
    true
}

/// What was changed, in words.
fn differences(proof: &Proof<'_, '_, '_>, before: &VentilationInputs, after: &VentilationInputs) -> Sentence {
    let mut parts: Vec<Sentence> = Vec::new();
    let line = after.first_line();
    if before.breather.sag != after.breather.sag {
        parts.push(say!["a ", line, " without a sag that holds oil"]);
    }
    if before.breather.inline != after.breather.inline {
        parts.push(inline_words(line, before.breather.inline));
    }
    if before.breather.bore != after.breather.bore {
        parts.push(say!["a ", line, " of ", Amount::of(after.breather.bore), " bore throughout"]);
    } else if before.breather.barb != after.breather.barb || before.can.bore != after.can.bore {
        let led = after.can.place == CanPlace::BreatherLine && before.can.bore != after.can.bore;
        let can = if !led { "" } else { ", those of the can too" };
        parts.push(say!["fittings as wide as the hose, ", Amount::of(after.breather.bore), can]);
    }
    if before.has_element() && before.element != after.element {
        parts.push(element_words(after, proof.through(after)));
    }
    if before.mesh.known != after.mesh.known {
        parts.push(say!["no mesh at the mouth"]);
    }
    if before.baffle().likely != after.baffle().likely {
        parts.push(baffle_words(after));
    }
    let mut sentence = Sentence::default();
    let last = parts.len().saturating_sub(1);
    for (i, part) in parts.into_iter().enumerate() {
        let joint = match i {
            0 => "",
            i if i == last => ", and ",
            _ => ", ",
        };
        sentence = say![sentence, joint, part];
    }
    sentence
}
