//! What stands in the lines, in the physics' words: the element as it is, narrow fittings, liquid in a sag, check valves; and
//! what is to be said of them.

use super::Fail;
use super::context::Context;
use crate::crankcase::arrangement::{BreatherLine, Inline};
use crate::crankcase::element::{
    BreatherElement, CheckValve, Fittings, Hose, Orifice, SonicPort, barb_discharge, bore_in_a_row, seat_leak,
};
use crate::crankcase::oil::{SagBlockage, Standing, defaults as oil, drain_back, sag_blockage};
use crate::note::{Note, Weight};
use crate::quantity::si::{Length, Ratio};
use crate::quantity::{Amount, GaugePressure, Kind, Measured, UnitSystem};
use crate::scribe::{Scribe, Silent, Step};
use crate::source::crankcase::ventilation::FILTER_LOADING;
use crate::study::{
    CanDrainAnswer, CanPlace, Duty, DutyAnswers, ElementAnswer, ElementInputs, ElementKnowledge, GasSource, InlineKind,
    LineAnswers, LineInputs, Problems, SagAnswer, VentilationArrangement, VentilationInputs, defaults,
};

/// A breather element as it is, and at its unfavourable ends; none is an open pipe.
pub(super) struct Elements {
    pub likely: Option<BreatherElement>,
    /// Never empty. Of two, either may cost more: that hangs on the flow.
    pub unfavourable: Vec<Option<BreatherElement>>,
}

/// The element by what is known of it, loaded as in use.
///
/// The unfavourable end of figures is the greater of their own high end and the likely figures with the high loading: both stand
/// for the dirty element, which is not counted twice.
pub(super) fn element(inputs: &VentilationInputs, scribe: &mut impl Scribe) -> Result<Elements, Problems> {
    const PATH: &str = "ventilation.element";
    if !inputs.has_element() {
        return Ok(Elements { likely: None, unfavourable: vec![None] });
    }
    let known = &inputs.element;
    let loading = known.loading.unwrap_or_else(defaults::filter_loading);
    let mut loaded = |clean: BreatherElement, times: Ratio, told: bool| {
        let element = clean.loaded(times).fail("ventilation.element.loading")?;
        if told {
            write_loading(&clean, &element, times, scribe);
        }
        // An open pipe has no element.
        let open = element.viscous.base() == 0.0 && element.inertial.base() == 0.0;
        Ok::<_, Problems>((!open).then_some(element))
    };
    match known.knowledge {
        ElementKnowledge::Figures => {
            let linear = known.linear.unwrap_or_else(defaults::element_linear);
            let quadratic = known.quadratic.unwrap_or_else(defaults::element_quadratic);
            let clean = BreatherElement { viscous: linear.likely, inertial: quadratic.likely };
            let dirty = loaded(clean, loading.high, false)?.unwrap_or(clean);
            let unfavourable = BreatherElement {
                viscous: Measured::from_base(linear.high.base().max(dirty.viscous.base())),
                inertial: Measured::from_base(quadratic.high.base().max(dirty.inertial.base())),
            };
            Ok(Elements {
                likely: loaded(clean, loading.likely, true)?,
                unfavourable: vec![loaded(unfavourable, Ratio::from_base(1.0), false)?],
            })
        }
        ElementKnowledge::OnePoint => {
            let share = known.linear_share.unwrap_or_else(defaults::linear_share);
            let at = |share, scribe: &mut _| BreatherElement::from_point(known.flow, known.pressure, share, scribe);
            let [low, high] = [share.low, share.high].map(|share| at(share, &mut Silent));
            let unfavourable = [low, high].map(|clean| loaded(clean.fail(PATH)?, loading.high, false));
            let [low, high] = unfavourable;
            let unfavourable = vec![low?, high?];
            let clean = BreatherElement::from_point(known.flow, known.pressure, share.likely, scribe).fail(PATH)?;
            let element = clean.loaded(loading.likely).fail("ventilation.element.loading")?;
            write_loading(&clean, &element, loading.likely, scribe);
            Ok(Elements { likely: Some(element), unfavourable })
        }
        ElementKnowledge::Points => {
            let clean = BreatherElement::from_rows(&known.points, scribe).fail("ventilation.element.points")?;
            let element = clean.loaded(loading.likely).fail("ventilation.element.loading")?;
            write_loading(&clean, &element, loading.likely, scribe);
            let dirty = clean.loaded(loading.high).fail("ventilation.element.loading")?;
            Ok(Elements { likely: Some(element), unfavourable: vec![Some(dirty)] })
        }
    }
}

/// A clean element at its likely figures.
pub(super) fn clean(known: &ElementInputs) -> Option<BreatherElement> {
    match known.knowledge {
        ElementKnowledge::Figures => Some(BreatherElement {
            viscous: known.linear.unwrap_or_else(defaults::element_linear).likely,
            inertial: known.quadratic.unwrap_or_else(defaults::element_quadratic).likely,
        }),
        ElementKnowledge::OnePoint => {
            let share = known.linear_share.unwrap_or_else(defaults::linear_share).likely;
            BreatherElement::from_point(known.flow, known.pressure, share, &mut Silent).ok()
        }
        ElementKnowledge::Points => BreatherElement::from_rows(&known.points, &mut Silent).ok(),
    }
}

fn write_loading(clean: &BreatherElement, loaded: &BreatherElement, times: Ratio, scribe: &mut impl Scribe) {
    scribe.step(|| {
        Step::new("linear part of the element in use", "a'", "a' = λ a", &FILTER_LOADING)
            .with_number("λ", times.base())
            .with("a", clean.viscous)
            .gives(loaded.viscous)
    });
    scribe.step(|| {
        Step::new("quadratic part of the element in use", "b'", "b' = λ b", &FILTER_LOADING)
            .with_number("λ", times.base())
            .with("b", clean.inertial)
            .gives(loaded.inertial)
    });
}

/// A line with what stands in it; `fitting` is the bore of a can's fittings where it ends in one.
pub(super) fn line(
    path: &str,
    inputs: &LineInputs,
    element: Option<BreatherElement>,
    fitting: Option<Length>,
    scribe: &mut impl Scribe,
) -> Result<BreatherLine, Problems> {
    let hose = Hose::with_bends(inputs.bore, inputs.length, inputs.bends);
    let fittings = Fittings::of_run(inputs.bends, inputs.half_bends, inputs.elbows);
    let mut line = BreatherLine {
        hose: Hose { fittings, ..hose },
        element,
        ..BreatherLine::of_hose(inputs.bore, inputs.length, 0)
    };
    // Only what is narrower than the hose counts as a narrow place.
    let narrow = |bore: &(Length, u32)| bore.0.base() < inputs.bore.base();
    let holes: Vec<_> = inputs
        .barb
        .map(|bore| (bore, inputs.barbs))
        .into_iter()
        .chain(fitting.map(|bore| (bore, 1)))
        .filter(narrow)
        .collect();
    line.barb_bore = bore_in_a_row(&holes, scribe).fail(format!("{path}.barb"))?;
    line.sag = standing(path, inputs, scribe)?.map(|blockage| blockage.pressure);
    let check = || {
        let hole = Orifice::of_bore(inputs.check_bore, barb_discharge().likely()).fail(format!("{path}.check_bore"))?;
        let opening_pressure = inputs.check_opening.unwrap_or_else(defaults::check_opening).likely;
        let valve =
            CheckValve { effective_area: hole.effective_area, opening_pressure, seat_leak: seat_leak().likely() };
        Ok::<_, Problems>(valve)
    };
    line.inline = match inputs.inline {
        InlineKind::None => None,
        InlineKind::Component => Some(Inline::Component(SonicPort {
            conductance: inputs.conductance,
            critical_ratio: inputs.critical_ratio,
        })),
        InlineKind::CheckOutwards => Some(Inline::CheckOutwards(check()?)),
        InlineKind::CheckInwards => Some(Inline::CheckInwards(check()?)),
    };
    Ok(line)
}

/// What stands in the sag of a line.
fn standing(path: &str, inputs: &LineInputs, scribe: &mut impl Scribe) -> Result<Option<SagBlockage>, Problems> {
    let Some(height) = inputs.sag.filter(|height| height.base() > 0.0) else { return Ok(None) };
    sag_blockage(Standing::Oil, height, oil::density().likely(), scribe).fail(format!("{path}.sag")).map(Some)
}

/// The lines of a project that gas may pass, with their paths and names.
fn in_use(inputs: &VentilationInputs) -> impl Iterator<Item = (&'static str, &'static str, &LineInputs)> {
    let name = if inputs.leads_to_air_cleaner() { inputs.first_line() } else { "breather" };
    let breather = inputs.has_breather().then_some(("ventilation.breather", name, &inputs.breather));
    let two = inputs.arrangement == VentilationArrangement::TwoBreathers;
    let second = two.then_some(("ventilation.second_breather", "second breather", &inputs.second));
    let to_can = inputs.has_valve() && inputs.can.place == CanPlace::ValveLine;
    let valve = to_can.then_some(("ventilation.valve_line", "PCV valve line", &inputs.valve_line));
    [breather, second, valve].into_iter().flatten()
}

/// What is to be told of the lines, of the can's drain and of where the gas is taken.
pub(super) fn answers(
    context: &Context<'_>,
    duties: &[DutyAnswers; 5],
    scribe: &mut impl Scribe,
) -> Result<(LineAnswers, Vec<Note>), Problems> {
    let inputs = &context.project.ventilation;
    let mut sags = Vec::new();
    for (path, name, line) in in_use(inputs) {
        if let (Some(height), Some(blockage)) = (line.sag, standing(path, line, &mut Silent)?) {
            sags.push(SagAnswer { line: name, height, opens_at: blockage.pressure });
        }
    }
    let notes = sags.iter().map(sagging).chain(taken_from(inputs)).collect();
    let answers = LineAnswers { element: shown_element(inputs)?, sags, can_drain: can_drain(inputs, duties, scribe) };
    Ok((answers, notes))
}

/// A sentence on a hose that holds oil.
fn sagging(sag: &SagAnswer) -> Note {
    let text = format!(
        "A sagging hose holds oil: {} shut the {} until {} stand across it, either way. Run the hose without a sag, falling all the \
         way to the can or back to the engine; what stands there may also be water, which freezes and shuts it for good.",
        Amount::of_kind(sag.height, Kind::Length).show(UnitSystem::Si),
        sag.line,
        Amount::of_kind(sag.opens_at, Kind::SmallPressureDifference).show(UnitSystem::Si)
    );
    Note::new("sag-holds-oil", Weight::Weak, text)
}

/// What the place the gas is taken from brings with it.
fn taken_from(inputs: &VentilationInputs) -> Option<Note> {
    let text = match inputs.gas_source() {
        GasSource::Cover => return None,
        GasSource::Valley => {
            "The breather takes its gas from the valley, where the cam and the lifters throw oil: a baffle that turns the gas twice is \
             wanted below the outlet (common practice, no source)."
        }
        GasSource::Sump => {
            "The breather takes its gas from the block's side or the sump: keep the outlet above the oil when the car brakes, corners \
             and climbs, and shield it from the crank's spray, or it throws oil out (common practice, no source)."
        }
    };
    Some(Note::new("taken-from", Weight::Weak, text))
}

fn shown_element(inputs: &VentilationInputs) -> Result<Option<ElementAnswer>, Problems> {
    let Elements { likely, unfavourable } = element(inputs, &mut Silent)?;
    let Some(likely) = likely else { return Ok(None) };
    // A figure that can be asked of a supplier.
    let flow = Measured::from_base(60e-3 / 60.0);
    let worst = unfavourable.iter().flatten().map(|one| one.drop_at(flow).base());
    let worst = worst.fold(likely.drop_at(flow).base(), f64::max);
    Ok(Some(ElementAnswer {
        linear: likely.viscous,
        quadratic: likely.inertial,
        flow,
        pressure: likely.drop_at(flow),
        unfavourable: Measured::from_base(worst),
    }))
}

/// The can's drain at every duty, at the high blow-by.
fn can_drain(inputs: &VentilationInputs, duties: &[DutyAnswers; 5], scribe: &mut impl Scribe) -> Vec<CanDrainAnswer> {
    let drain = &inputs.can.drain;
    if inputs.can.place == CanPlace::None || !drain.known {
        return Vec::new();
    }
    let opening = drain.check_opening.unwrap_or_else(defaults::check_opening);
    let density = oil::density().estimate;
    Duty::ALL
        .into_iter()
        .filter_map(|duty| {
            let case = duties[duty.index()].high();
            let can = case.can_gauge?;
            scribe.chapter(
                &format!("can-drain/{}", duty.word()),
                &format!("The can's drain against sump and check: {}", duty.name()),
            );
            // The check stands against the oil as the sump's pressure does.
            let against = |opening: f64| GaugePressure::from_base(case.gauge.base() + opening);
            let likely = drain_back(drain.height, density.likely, against(opening.likely.base()), can, scribe);
            let least = drain_back(drain.height, density.low, against(opening.high.base()), can, &mut Silent);
            let told = likely.and_then(|likely| least.map(|least| (likely, least))).map_err(|error| error.to_string());
            Some(CanDrainAnswer { duty, check_opening: opening, drains: told })
        })
        .collect()
}
