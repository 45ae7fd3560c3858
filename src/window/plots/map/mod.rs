//! The operating map: the crankcase over engine speed and manifold pressure, as a coloured field with its lines.

mod draw;
mod legend;
mod limit;
mod palette;
mod place;

use super::{ink, plain};
use crate::quantity::UnitSystem;
use crate::study::{
    Map, MapCaseKind, MapComparison, Moment, Problems, Project, Variant, VentilationArrangement, VentilationInputs,
};
use crate::window::app::worker::Maps;
use crate::window::kit::{choice_field, segments};
use crate::window::tokens::Tokens;
use egui::{Id, Label, RichText, Ui};

/// What the field shows when two ventilations are compared.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub(super) enum Layer {
    #[default]
    Present,
    Other,
    Difference,
}

/// What a person looks at on the map.
#[derive(Clone, Debug, Default, PartialEq)]
pub(crate) struct MapView {
    kind: MapCaseKind,
    other: Variant,
    layer: Layer,
}

impl MapView {
    /// The ventilation beside the present one; the present one itself when there is none.
    pub(crate) const fn other(&self) -> &Variant {
        &self.other
    }
}

/// The map and its choosers. `found` is `None` while the maps are being computed.
pub(crate) fn show(
    ui: &mut Ui,
    view: &mut MapView,
    project: &Project,
    found: Option<(u64, &Result<Box<Maps>, Problems>)>,
    moment: Moment,
    system: UnitSystem,
) {
    let mut next = view.clone();
    choosers(ui, view, &mut next, &project.ventilation);
    match found {
        None => super::nothing(ui, "the map is still being computed."),
        Some((_, Err(problems))) => super::nothing(ui, &plain(problems)),
        Some((come, Ok(maps))) => shown(ui, view, come, maps, moment, system),
    }
    *view = next;
}

fn shown(ui: &mut Ui, view: &MapView, come: u64, maps: &Maps, moment: Moment, system: UnitSystem) {
    let other = match &maps.other {
        Some(Ok(other)) => Some(other),
        Some(Err(problems)) => {
            super::nothing(ui, &format!("the other ventilation is not whole: {}", plain(problems)));
            None
        }
        None => None,
    };
    let field = draw::Field {
        present: &maps.present,
        other,
        layer: if other.is_some() { view.layer } else { Layer::Present },
        kind: view.kind,
        moment,
        system,
        come,
    };
    let words = says(&maps.present, other, view.kind, system);
    field.show(ui, &words);
    let tokens = Tokens::here(ui);
    ui.add(Label::new(RichText::new(&words).color(tokens.quiet)).wrap());
}

/// What the map says: of the ventilation as it is, and then of the other.
fn says(present: &Map, other: Option<&Map>, kind: MapCaseKind, system: UnitSystem) -> String {
    let mut words = present.says(kind).show(system);
    if let Some(other) = other {
        let both = MapComparison { present: present.clone(), other: other.clone() };
        words.push(' ');
        words.push_str(&both.says(kind).show(system));
    }
    words
}

const KINDS: [MapCaseKind; 2] = [MapCaseKind::Likely, MapCaseKind::High];
const LAYERS: [Layer; 3] = [Layer::Present, Layer::Other, Layer::Difference];

fn choosers(ui: &mut Ui, view: &MapView, next: &mut MapView, present: &VentilationInputs) {
    let id = Id::unique("operating map");
    let chosen = KINDS.iter().position(|kind| *kind == view.kind).unwrap_or(0);
    if let Some(kind) =
        segments(ui, id.with("blow-by"), "Blow-by of the map", chosen, &["Likely blow-by", "High blow-by"])
            .and_then(|index| KINDS.get(index))
    {
        next.kind = *kind;
    }
    let by = "Hardware is judged on the high blow-by; the drawing shows the likely.";
    ui.add(Label::new(RichText::new(by).color(Tokens::here(ui).quiet)).wrap());
    let mut options = vec![(Variant::Present, "nothing".to_owned())];
    options.extend(Variant::others(present).into_iter().map(|other| {
        let name = other.name();
        (other, name)
    }));
    // An arrangement that has become the present one is no other.
    if options.iter().all(|(option, _)| *option != view.other) {
        next.other = Variant::Present;
    }
    let borrowed: Vec<(Variant, &str)> = options.iter().map(|(value, name)| (value.clone(), name.as_str())).collect();
    if let Some(other) = choice_field(ui, id.with("other"), "Compare with", &view.other, &borrowed).committed {
        next.other = other;
    }
    if view.other == Variant::Present {
        return;
    }
    let chosen = LAYERS.iter().position(|layer| *layer == view.layer).unwrap_or(0);
    let names = ["As it is", "The other", "Difference"];
    if let Some(layer) =
        segments(ui, id.with("layer"), "What the colours show", chosen, &names).and_then(|index| LAYERS.get(index))
    {
        next.layer = *layer;
    }
    let letting_out = VentilationArrangement::BreatherOnly;
    if matches!(view.other, Variant::Arranged(arrangement) if arrangement == letting_out || arrangement == VentilationArrangement::TwoBreathers)
    {
        let unlawful = "Letting crankcase gas out to the air may be unlawful on the road.";
        ui.add(Label::new(RichText::new(unlawful).color(Tokens::here(ui).quiet)).wrap());
    }
}
