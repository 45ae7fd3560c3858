//! The heat balance: the coolant against the air, the radiator against the heat, who rules over road speed and air.

mod ambient;
mod capacity;
mod field;
mod map;

use super::ink;
use crate::quantity::UnitSystem;
use crate::study::{Duty, HeatCurves, HeatRoad, Moment, Part, Problems};
use crate::window::kit::segments;
use crate::window::tokens::Tokens;
use egui::{Id, Label, RichText, Ui};

/// What a person looks at on the heat plots.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub(crate) struct HeatView {
    road: HeatRoad,
}

/// What the plots are made from.
#[derive(Clone, Copy)]
struct Heat<'a> {
    curves: &'a HeatCurves,
    /// Changes with the curves, so that a picture of them is made once.
    come: u64,
    moment: Moment,
    system: UnitSystem,
    tokens: &'static Tokens,
}

impl Heat<'_> {
    /// The duty of the moment chosen; with the engine at rest, full throttle.
    const fn duty(&self) -> Duty {
        match self.moment {
            Moment::Driving(duty) => duty,
            Moment::ColdMorning | Moment::HotStop => Duty::FullThrottle,
        }
    }
}

/// The plots of a part. `found` is `None` while the curves are being computed.
pub(crate) fn show(
    ui: &mut Ui,
    part: Part,
    view: &mut HeatView,
    found: Option<(u64, &Result<Box<HeatCurves>, Problems>)>,
    moment: Moment,
    system: UnitSystem,
) {
    let (come, curves) = match found {
        None => return super::nothing(ui, "the heat curves are still being computed."),
        Some((_, Err(problems))) => return super::nothing(ui, &super::plain(problems)),
        Some((come, Ok(curves))) => (come, curves),
    };
    let heat = Heat { curves, come, moment, system, tokens: Tokens::here(ui) };
    if part == Part::Radiator {
        capacity::show(ui, heat);
        roads(ui, view, heat);
        ambient::show(ui, heat);
    } else {
        ambient::show(ui, heat);
        roads(ui, view, heat);
    }
    for note in &curves.notes {
        said(ui, &note.show(system));
    }
}

/// The map over road speed and air, and the chooser of its road.
fn roads(ui: &mut Ui, view: &mut HeatView, heat: Heat<'_>) {
    let chosen = HeatRoad::ALL.iter().position(|road| *road == view.road).unwrap_or(0);
    let names = HeatRoad::ALL.map(HeatRoad::name);
    let road = view.road;
    if let Some(next) = segments(ui, Id::unique("heat road"), "Road of the map", chosen, &names)
        .and_then(|index| HeatRoad::ALL.get(index))
    {
        view.road = *next;
    }
    match heat.curves.map(road) {
        Err(why) => super::nothing(ui, &format!("{why}.")),
        Ok(map) => {
            map::show(ui, heat, map);
            said(ui, &map.says().show(heat.system));
            said(ui, &map.says_basis().show(heat.system));
        }
    }
}

/// What a plot says, for whoever would rather read.
fn said(ui: &mut Ui, words: &str) {
    let quiet = Tokens::here(ui).quiet;
    ui.add(Label::new(RichText::new(words).color(quiet)).wrap().selectable(true));
}
