//! What a builder may change, in steps, and what such a change costs.

use super::proof::Wanted;
use crate::crankcase::element::{GenericPlunger, PlungerValve};
use crate::quantity::si::{Area, Length, VolumeRate};
use crate::quantity::{Amount, Kind, Measured};
use crate::say;
use crate::study::{
    CanPlace, ElementInputs, ElementKnowledge, GasSource, InlineKind, LineInputs, Sentence, ValveInputs, ValveKind,
    VentilationArrangement, VentilationInputs, defaults,
};

/// Trade sizes of hose, m (common practice, no source).
pub(super) const BORES: [f64; 6] = [0.0127, 0.016, 0.019, 0.022, 0.025, 0.032];
/// Drills for a fixed orifice, m (common practice, no source).
const DRILLS: [f64; 6] = [0.0015, 0.002, 0.0022, 0.0025, 0.003, 0.0035];
/// Of an element's pressure, told a tenth lower than it may be.
const LEFT_FOR_SHARE: f64 = 0.9;
/// The widest baffle an input may have, m².
const WIDEST_BAFFLE: f64 = 2000e-6;

/// What a change costs a builder, the least first.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub(super) enum Cost {
    Fitting,
    HoseBore,
    Element,
    CanFittings,
    Baffle,
    Valve,
    SecondBreather,
}

impl Cost {
    pub(super) const fn rank(self) -> usize {
        self as usize
    }
}

/// Steps of one kind, the smallest first.
pub(super) struct Ladder {
    pub(super) cost: Cost,
    pub(super) steps: Vec<Change>,
    /// A larger step is not always better.
    pub(super) turns_back: bool,
}

/// Which line.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Way {
    First,
    Second,
}

/// One change.
#[derive(Clone, Debug, PartialEq)]
pub(super) enum Change {
    /// No sag that holds oil.
    NoSag(Way),
    /// Fittings as wide as the hose and bent, not sharp.
    ClearFittings(Way),
    /// Nothing else in the line.
    NothingInline(Way),
    /// A wider hose, fittings with it.
    Bore(Way, f64),
    /// A clean element.
    CleanElement,
    /// An element that takes a part of the pressure.
    FreerElement(f64),
    /// Can fittings as wide as the hose.
    CanFittings,
    /// A baffle that opens so many times as much.
    Baffle(f64),
    /// Another valve.
    Valve(Box<ValveInputs>),
    /// A second breather of a bore.
    SecondBreather(f64),
}

fn line(inputs: &VentilationInputs, way: Way) -> &LineInputs {
    if way == Way::First { &inputs.breather } else { &inputs.second }
}

fn line_mut(inputs: &mut VentilationInputs, way: Way) -> &mut LineInputs {
    if way == Way::First { &mut inputs.breather } else { &mut inputs.second }
}

fn ends_in_can(inputs: &VentilationInputs, way: Way) -> bool {
    inputs.can.place == CanPlace::BreatherLine && (way == Way::First || inputs.can.in_both)
}

/// The same element with a part of its pressure.
pub(super) fn freer(element: &mut ElementInputs, factor: f64) {
    match element.knowledge {
        ElementKnowledge::Figures => {
            let linear = element.linear.unwrap_or_else(defaults::element_linear);
            let quadratic = element.quadratic.unwrap_or_else(defaults::element_quadratic);
            element.linear = Some(linear.map(|one| Measured::from_base(one.base() * factor)));
            element.quadratic = Some(quadratic.map(|one| Measured::from_base(one.base() * factor)));
        }
        ElementKnowledge::OnePoint => element.pressure *= factor,
        ElementKnowledge::Points => {
            for (_, pressure) in &mut element.points {
                *pressure *= factor;
            }
        }
    }
}

/// Wider baffles, both alike; the second follows the first where it was not given.
pub(super) fn wider_baffles(inputs: &mut VentilationInputs, factor: f64) {
    let wider = |area: Area| Area::from_base(area.base() * factor);
    inputs.second_baffle_area = inputs.second_baffle_area.map(|area| area.map(wider));
    inputs.baffle_area = Some(inputs.baffle().map(wider));
}

impl Change {
    /// Makes it.
    pub(super) fn apply(&self, inputs: &mut VentilationInputs) {
        match self {
            Self::NoSag(way) => line_mut(inputs, *way).sag = None,
            Self::NothingInline(way) => line_mut(inputs, *way).inline = InlineKind::None,
            Self::ClearFittings(way) => {
                let line = line_mut(inputs, *way);
                line.barb = None;
                line.bends += line.elbows;
                line.elbows = 0;
            }
            Self::Bore(way, bore) => {
                let line = line_mut(inputs, *way);
                line.bore = Length::from_base(*bore);
                line.barb = None;
                if ends_in_can(inputs, *way) {
                    inputs.can.bore = inputs.can.bore.max(Length::from_base(*bore));
                }
            }
            Self::CleanElement => {
                inputs.element.loading = Some(crate::quantity::Estimate::exact(Measured::from_base(1.0)))
            }
            Self::FreerElement(factor) => freer(&mut inputs.element, *factor),
            Self::CanFittings => {
                let second = if inputs.can.in_both { inputs.second.bore } else { inputs.breather.bore };
                inputs.can.bore = inputs.can.bore.max(inputs.breather.bore).max(second);
            }
            Self::Baffle(factor) => wider_baffles(inputs, *factor),
            Self::Valve(valve) => inputs.valve = (**valve).clone(),
            Self::SecondBreather(bore) => {
                inputs.arrangement = VentilationArrangement::TwoBreathers;
                inputs.second = LineInputs {
                    bore: Length::from_base(*bore),
                    barb: None,
                    sag: None,
                    inline: InlineKind::None,
                    ..inputs.breather.clone()
                };
            }
        }
    }

    /// In words; `after` has every change made, `through` gives the flow by the breather then.
    pub(super) fn words(
        &self,
        present: &VentilationInputs,
        after: &VentilationInputs,
        through: impl FnOnce(&VentilationInputs) -> VolumeRate,
    ) -> Sentence {
        let name = |way: Way| match way {
            Way::First => present.first_line(),
            Way::Second => "second breather line",
        };
        match self {
            Self::NoSag(way) => say!["the hose of the ", name(*way), " without a sag that holds oil"],
            Self::NothingInline(way) => inline_words(name(*way), line(present, *way).inline),
            Self::ClearFittings(way) => {
                let bore = Amount::of(line(after, *way).bore);
                let bent = if line(present, *way).elbows > 0 { ", bends in place of the sharp elbows" } else { "" };
                let of = if *way == Way::Second { " in the second breather line" } else { "" };
                say!["fittings as wide as the hose", of, ", ", bore, bent]
            }
            Self::Bore(way, bore) => {
                say!["a ", name(*way), " of ", Amount::of(Length::from_base(*bore)), " bore throughout"]
            }
            Self::CleanElement => say!["a clean breather element"],
            Self::FreerElement(_) => element_words(after, through(after)),
            Self::CanFittings => say!["fittings of the catch can as wide as the hose, ", Amount::of(after.can.bore)],
            Self::Baffle(_) => baffle_words(after),
            Self::Valve(valve) => valve_words(valve),
            Self::SecondBreather(bore) => {
                say!["a second breather of ", Amount::of(Length::from_base(*bore)), " bore on the other cover"]
            }
        }
    }
}

/// Nothing in a line. What stands there may be there for safety.
pub(super) fn inline_words(line: &'static str, inline: InlineKind) -> Sentence {
    match inline {
        InlineKind::CheckInwards | InlineKind::CheckOutwards => say!["a ", line, " without its check valve"],
        _ => say!["a ", line, " without its component, or with a far wider one if it is a flame screen"],
    }
}

/// A figure that can be asked of a supplier: pressure at the breather's own flow of air.
pub(super) fn element_words(inputs: &VentilationInputs, through: VolumeRate) -> Sentence {
    let (element, two) = (&inputs.element, inputs.arrangement == VentilationArrangement::TwoBreathers);
    let through = through.base().abs();
    let clean = crate::study::compose::lines::clean(element);
    let drop = clean.map_or(0.0, |clean| clean.drop_at(VolumeRate::from_base(through)).base());
    // One point does not tell what of it is linear, and the gas is warmer than the air it is measured with.
    let drop = LEFT_FOR_SHARE * drop;
    let each = if two {
        "breather elements that each take no more than "
    } else {
        "a breather element that takes no more than "
    };
    say![
        each,
        Amount::new(drop, Kind::CrankcasePressure),
        " at ",
        Amount::of(VolumeRate::from_base(through)),
        " when clean"
    ]
}

/// Each baffle that is made wider.
pub(super) fn baffle_words(after: &VentilationInputs) -> Sentence {
    let (first, second) = (Amount::of(after.baffle().likely), after.second_baffle().likely);
    let follows = after.second_baffle_area.is_none() && after.gas_source() == GasSource::Cover;
    let two = after.has_second_cover() || after.crossover.known;
    match (two, follows, after.second_baffle_area.is_some()) {
        (true, true, _) => say!["baffles of ", first, " effective area in both covers"],
        (true, _, true) => {
            say!["baffles of ", first, " and, in the other cover, ", Amount::of(second), " effective area"]
        }
        _ => say!["a baffle of ", first, " effective area"],
    }
}

fn valve_words(valve: &ValveInputs) -> Sentence {
    let area = |area: Area| Amount::of_kind(area, Kind::SmallArea);
    if valve.kind == ValveKind::FixedOrifice {
        return say!["a fixed orifice of ", Amount::of_kind(valve.orifice, Kind::SmallLength), ", the idle set again"];
    }
    say![
        "a valve of ",
        area(valve.open_area),
        " effective area at cruise and ",
        area(valve.idle_area),
        " at idle, the idle set again"
    ]
}

/// The generic valves wider, or narrower, than the present one, the nearest first. A valve known by its table is left alone:
/// nobody knows which of the generic ones is next to it.
fn valves(present: &ValveInputs, wider: bool) -> Vec<Change> {
    let other = |valve: ValveInputs| Change::Valve(Box::new(valve));
    let beyond = |one: f64, now: f64| if wider { one > now * 1.02 } else { one < now * 0.98 };
    let mut found: Vec<Change> = match present.kind {
        ValveKind::Plunger => [GenericPlunger::Small, GenericPlunger::Medium, GenericPlunger::Large]
            .map(PlungerValve::generic)
            .into_iter()
            .filter(|generic| {
                beyond(generic.open_area.base(), present.open_area.base())
                    && beyond(generic.idle_area.base(), present.idle_area.base())
            })
            .map(|generic| {
                other(ValveInputs { open_area: generic.open_area, idle_area: generic.idle_area, ..present.clone() })
            })
            .collect(),
        ValveKind::FixedOrifice => DRILLS
            .into_iter()
            .filter(|drill| beyond(*drill, present.orifice.base()))
            .map(|drill| other(ValveInputs { orifice: Length::from_base(drill), ..present.clone() }))
            .collect(),
        #[allow(unreachable_patterns)] // Further kinds of valve are left alone as a table is.
        _ => Vec::new(),
    };
    if !wider {
        found.reverse();
    }
    found
}

/// Everything that may be changed, by cost.
pub(super) fn ladders(present: &VentilationInputs, wanted: Wanted) -> Vec<Ladder> {
    let mut ladders: Vec<Ladder> = Vec::new();
    let mut add = |cost, turns_back, steps: Vec<Change>| {
        if !steps.is_empty() {
            ladders.push(Ladder { cost, steps, turns_back });
        }
    };
    let two = present.arrangement == VentilationArrangement::TwoBreathers;
    let ways = [Some(Way::First), two.then_some(Way::Second)];
    for way in ways.into_iter().flatten() {
        let line = line(present, way);
        let narrow = line.barb.is_some_and(|barb| barb < line.bore);
        let if_so = |so: bool, change: Change| if so { vec![change] } else { Vec::new() };
        add(Cost::Fitting, false, if_so(line.sag.is_some_and(|sag| sag.base() > 0.0), Change::NoSag(way)));
        add(Cost::Fitting, false, if_so(line.inline != InlineKind::None, Change::NothingInline(way)));
        add(Cost::Fitting, false, if_so(narrow || line.elbows > 0, Change::ClearFittings(way)));
        let wider = BORES.into_iter().filter(|bore| *bore > line.bore.base() + 1e-4);
        add(Cost::HoseBore, false, wider.map(|bore| Change::Bore(way, bore)).collect());
    }
    if present.has_element() {
        let loaded = present.element.loading.is_some_and(|loading| loading.likely.base() > 1.0);
        let mut steps = if loaded { vec![Change::CleanElement] } else { Vec::new() };
        steps.extend([0.5, 0.25, 0.1].map(Change::FreerElement));
        // A clean element beside a freer one is no step on one ladder.
        add(Cost::Element, loaded, steps);
    }
    if ends_in_can(present, Way::First) {
        let narrow = present.can.bore < present.breather.bore;
        add(Cost::CanFittings, false, if narrow { vec![Change::CanFittings] } else { Vec::new() });
    }
    let baffle = present.baffle().likely.base();
    let factors = [1.5, 2.0, 3.0, 4.0].into_iter().filter(|factor| baffle * factor <= WIDEST_BAFFLE);
    add(Cost::Baffle, false, factors.map(Change::Baffle).collect());
    if present.has_valve() {
        if wanted.pressure {
            add(Cost::Valve, true, valves(&present.valve, true));
        }
        if wanted.depression.is_some() {
            add(Cost::Valve, true, valves(&present.valve, false));
        }
    }
    if present.arrangement == VentilationArrangement::BreatherOnly && wanted.pressure {
        let bores = [0.0127, 0.016, 0.019, 0.025];
        add(Cost::SecondBreather, false, bores.map(Change::SecondBreather).to_vec());
    }
    ladders.sort_by_key(|ladder| ladder.cost);
    ladders
}
