//! The plots that belong to each part of the drawing.
//!
//! Curves differ by dash and mark as well as by colour, and each plot has a sentence for whoever cannot see it.

mod beside;
mod day;
mod heat;
mod ink;
mod levels;
mod map;
mod swell;
mod torque;
mod valve;
mod ventilation;

pub(crate) use day::{DayPlots, DayShown, LEAST as LEAST_OF_DAY};
pub(crate) use heat::{HeatView, show as show_heat};
pub(crate) use levels::show as show_levels;
pub(crate) use map::{MapView, show as show_map};

use crate::quantity::UnitSystem;
use crate::study::{Answers, Curves, Moment, Part, Problems, Project};
use crate::window::tokens::Tokens;
use egui::{Label, RichText, Ui};

/// What a plot is made from.
#[derive(Clone, Copy)]
struct Subject<'a> {
    project: &'a Project,
    answers: &'a Answers,
    curves: &'a Curves,
    moment: Moment,
    system: UnitSystem,
    tokens: &'static Tokens,
}

/// Shows the plots of a part, or says why there is nothing to plot. `curves` is `None` while they are being computed.
pub fn show_for(
    ui: &mut Ui,
    part: Part,
    project: &Project,
    answers: &Answers,
    curves: Option<&Curves>,
    moment: Moment,
    system: UnitSystem,
) {
    if let (Part::CoverJoint, Some(joint)) = (part, &answers.cover_joint) {
        torque::window(ui, joint, system);
        return;
    }
    if let Some(why) = never(part) {
        nothing(ui, why);
        return;
    }
    // All of a radiator's curves are those of the heat balance.
    if part == Part::Radiator {
        return;
    }
    let Some(curves) = curves else {
        nothing(ui, "the curves are still being computed.");
        return;
    };
    let subject = Subject { project, answers, curves, moment, system, tokens: Tokens::here(ui) };
    let swells = matches!(part, Part::Tank | Part::Cap | Part::Thermostat | Part::Engine | Part::Coolant);
    if swells && curves.growth.len() < 2 {
        nothing(ui, "the swelling of the coolant could not be followed over a span of temperatures.");
        return;
    }
    match part {
        Part::Tank => {
            swell::level(ui, subject);
            swell::volume(ui, subject);
        }
        Part::Thermostat | Part::Engine | Part::Coolant => swell::volume(ui, subject),
        Part::Cap => swell::pressure(ui, subject),
        Part::Crankcase | Part::Breather => {
            ventilation::pressure(ui, subject);
            ventilation::blow_by(ui, subject);
        }
        Part::Valve => {
            valve::flow(ui, subject);
            ventilation::pressure(ui, subject);
        }
        Part::Surroundings | Part::Radiator | Part::CatchCan | Part::CoverJoint => {}
    }
}

/// Parts without a curve, and why.
const fn never(part: Part) -> Option<&'static str> {
    match part {
        Part::Surroundings => Some("the surroundings are the same at every moment; they shift every other curve."),
        Part::CatchCan => Some("a can has no curve of its own; its bore counts in the line it sits in."),
        Part::CoverJoint => Some("with the joint measured, the torques that may be used stand here."),
        _ => None,
    }
}

/// What is wrong, without the names of inputs in a file.
fn plain(problems: &Problems) -> String {
    problems.0.iter().map(|problem| problem.message.as_str()).collect::<Vec<_>>().join("; ")
}

fn nothing(ui: &mut Ui, why: &str) {
    let words = RichText::new(format!("Nothing to plot: {why}")).color(Tokens::here(ui).quiet);
    ui.add(Label::new(words).wrap());
}
