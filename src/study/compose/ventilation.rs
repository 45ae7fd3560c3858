//! The ventilation a project describes, in the physics' words.

use super::Fail;
use super::crankcase::arrangement_of;
use super::lines::{self, Elements};
use super::valve::valve;
use crate::crankcase::arrangement::{CanPlace as Place, CatchCan, GasSource as Source, Ventilation, Venting};
use crate::crankcase::element::{BreatherElement, Gas, Hose, KnittedMesh};
use crate::crankcase::oil::CanInside;
use crate::quantity::{Estimate, Measured};
use crate::scribe::{Scribe, Silent};
use crate::study::{
    CanInputs, CanPlace, GasSource, LineInputs, Problems, VentilationArrangement, VentilationInputs, defaults,
};

/// The ventilation with its parts at their likely values and at their unfavourable ends.
pub(super) struct Parts {
    pub likely: Ventilation,
    /// Tight baffles, a dirty element, and whatever else costs pressure; several where it hangs on the flow which end of a figure
    /// costs more. Never empty.
    pub unfavourable: Vec<Ventilation>,
}

/// The ventilation of a project.
pub(super) fn ventilation(inputs: &VentilationInputs) -> Result<Ventilation, Problems> {
    let element = lines::element(inputs, &mut Silent)?.likely;
    with_element(inputs, element, &mut Silent)
}

/// The ventilation as likely, and with everything that costs pressure at its unfavourable end. Writes what the parts are made
/// of into chapters of their own.
pub(super) fn parts(inputs: &VentilationInputs, scribe: &mut impl Scribe) -> Result<Parts, Problems> {
    scribe.chapter("element", "Breather element as it is");
    let Elements { likely, unfavourable } = lines::element(inputs, scribe)?;
    scribe.chapter("lines", "What stands in the lines");
    let likely = with_element(inputs, likely, scribe)?;
    let pushed = unfavourable_end(inputs);
    let unfavourable: Result<Vec<_>, _> =
        unfavourable.into_iter().map(|element| with_element(&pushed, element, &mut Silent)).collect();
    Ok(Parts { likely, unfavourable: unfavourable? })
}

/// The inputs, the element left out, with every figure that costs pressure at its unfavourable end.
fn unfavourable_end(inputs: &VentilationInputs) -> VentilationInputs {
    fn high<Q: Measured>(value: &mut Option<Estimate<Q>>, default: Estimate<Q>) {
        *value = Some(Estimate::exact(value.unwrap_or(default).high));
    }
    let mut pushed = inputs.clone();
    pushed.baffle_area = Some(Estimate::exact(inputs.baffle().low));
    pushed.second_baffle_area = Some(Estimate::exact(inputs.second_baffle().low));
    high(&mut pushed.mesh.soaked, defaults::mesh_soaked());
    high(&mut pushed.can.inlet_loss, defaults::can_inlet_loss());
    high(&mut pushed.can.outlet_loss, defaults::can_outlet_loss());
    for line in [&mut pushed.breather, &mut pushed.second, &mut pushed.valve_line] {
        high(&mut line.check_opening, defaults::check_opening());
    }
    pushed
}

fn with_element(
    inputs: &VentilationInputs,
    element: Option<BreatherElement>,
    scribe: &mut impl Scribe,
) -> Result<Ventilation, Problems> {
    use VentilationArrangement as A;
    let arrangement = inputs.arrangement;
    let closed = inputs.leads_to_air_cleaner();
    let in_place = |place| inputs.can.place == place;
    let fitting = |here: bool| here.then_some(inputs.can.bore);
    let mut line = |path, line: &LineInputs, element, here| lines::line(path, line, element, fitting(here), scribe);
    let two = arrangement == A::TwoBreathers;
    let both = two && inputs.can.in_both && in_place(CanPlace::BreatherLine);
    let breather = if inputs.has_breather() {
        Some(line("ventilation.breather", &inputs.breather, element, in_place(CanPlace::BreatherLine))?)
    } else {
        None
    };
    let second_breather =
        if two { Some(line("ventilation.second_breather", &inputs.second, element, both)?) } else { None };
    let valve_line = if in_place(CanPlace::ValveLine) {
        Some(line("ventilation.valve_line", &inputs.valve_line, None, true)?)
    } else {
        None
    };
    let catch_can = can(inputs, closed, element.is_some(), scribe)?;
    let second = inputs.has_second_cover() || inputs.gas_source() != GasSource::Cover;
    Ok(Ventilation {
        arrangement: arrangement_of(arrangement),
        breather,
        second_breather,
        valve: if inputs.has_valve() { Some(valve(&inputs.valve)?) } else { None },
        valve_stuck: None,
        valve_line,
        port_bore: inputs.valve.port.bore,
        second_can: catch_can.filter(|_| both),
        catch_can,
        source: match inputs.gas_source() {
            GasSource::Cover => Source::Cover,
            GasSource::Valley => Source::Valley,
            GasSource::Sump => Source::Sump,
        },
        baffle_area: inputs.baffle().likely,
        second_baffle_area: second.then(|| inputs.second_baffle().likely),
        mesh: if inputs.mesh.known && inputs.has_breather() { Some(mouth_mesh(inputs, scribe)?) } else { None },
        crossover: inputs.crossover.known.then(|| {
            let crossover = &inputs.crossover;
            Hose::with_bends(crossover.bore, crossover.length, crossover.bends)
        }),
        gas: Gas::default(),
    })
}

fn mouth_mesh(inputs: &VentilationInputs, scribe: &mut impl Scribe) -> Result<BreatherElement, Problems> {
    let mesh = &inputs.mesh;
    let soaked = mesh.soaked.unwrap_or_else(defaults::mesh_soaked).likely;
    KnittedMesh { soaked, ..KnittedMesh::new(mesh.area, mesh.depth) }.element(scribe).fail("ventilation.mesh")
}

/// The mesh of a can whose inside is known.
fn can_mesh(inputs: &CanInputs, scribe: &mut impl Scribe) -> Result<Option<BreatherElement>, Problems> {
    match (inputs.volume, inputs.inside, inputs.mesh_depth) {
        (Some(_), CanInside::Mesh, Some(depth)) => {
            KnittedMesh::new(inputs.area, depth).element(scribe).fail("ventilation.catch_can.mesh_depth").map(Some)
        }
        _ => Ok(None),
    }
}

fn can(
    inputs: &VentilationInputs,
    closed: bool,
    filtered: bool,
    scribe: &mut impl Scribe,
) -> Result<Option<CatchCan>, Problems> {
    let sealed = Venting::Sealed { outlet: None };
    let (place, venting) = match inputs.can.place {
        CanPlace::None => return Ok(None),
        CanPlace::ValveLine => (Place::ValveLine, sealed),
        CanPlace::BreatherLine if closed => (Place::BreatherLine, sealed),
        CanPlace::BreatherLine => {
            // The filter sits on the can; without one the can's own outlet is the opening.
            let opening_bore = (!filtered).then_some(inputs.can.bore);
            (Place::BreatherLine, Venting::Vented { opening_bore, element: None, outlet: None })
        }
    };
    Ok(Some(CatchCan {
        inlet_loss: inputs.can.inlet_loss.unwrap_or_else(defaults::can_inlet_loss).likely,
        outlet_loss: inputs.can.outlet_loss.unwrap_or_else(defaults::can_outlet_loss).likely,
        mesh: can_mesh(&inputs.can, scribe)?,
        ..CatchCan::new(place, venting)
    }))
}
