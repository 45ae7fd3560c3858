//! The ventilation a project describes, in the physics' words.

use super::crankcase::{Parts, arrangement_of};
use super::valve::valve;
use crate::crankcase::arrangement::{BreatherLine, CanPlace as Place, CatchCan, Ventilation, Venting};
use crate::crankcase::element::{BreatherElement, Gas};
use crate::quantity::{Estimate, Measured};
use crate::study::{
    CanPlace, ElementInputs, LineInputs, Problems, VentilationArrangement, VentilationInputs, defaults,
};

/// The ventilation of a project.
pub(super) fn ventilation(inputs: &VentilationInputs) -> Result<Ventilation, Problems> {
    let arrangement = inputs.arrangement;
    let closed = arrangement == VentilationArrangement::ClosedWithFreshAirLine;
    // A closed system's air comes through the engine's own air cleaner.
    let element = if closed { None } else { element(&inputs.element) };
    let breather =
        inputs.has_breather().then(|| line(&inputs.breather, element, can_bore(inputs, CanPlace::BreatherLine)));
    let second = (arrangement == VentilationArrangement::TwoBreathers).then(|| line(&inputs.second, element, None));
    let in_valve_line = inputs.can.place == CanPlace::ValveLine;
    Ok(Ventilation {
        arrangement: arrangement_of(arrangement),
        breather,
        second_breather: second,
        valve: if inputs.has_valve() { Some(valve(&inputs.valve)?) } else { None },
        valve_stuck: None,
        valve_line: in_valve_line.then(|| line(&inputs.valve_line, None, Some(inputs.can.bore))),
        port_bore: inputs.valve.port.bore,
        catch_can: can(inputs, closed, element.is_some()),
        baffle_area: inputs.baffle_area.unwrap_or_else(defaults::baffle_area).likely,
        second_baffle_area: None,
        gas: Gas::default(),
    })
}

/// The ventilation as likely, and with a tight baffle and a dirty element: both at their unfavourable ends.
pub(super) fn parts(inputs: &VentilationInputs) -> Result<Parts, Problems> {
    let mut unfavourable = inputs.clone();
    let baffle = inputs.baffle_area.unwrap_or_else(defaults::baffle_area);
    let linear = inputs.element.linear.unwrap_or_else(defaults::element_linear);
    let quadratic = inputs.element.quadratic.unwrap_or_else(defaults::element_quadratic);
    unfavourable.baffle_area = Some(Estimate::exact(baffle.low));
    unfavourable.element.linear = Some(Estimate::exact(linear.high));
    unfavourable.element.quadratic = Some(Estimate::exact(quadratic.high));
    Ok(Parts { likely: ventilation(inputs)?, unfavourable: ventilation(&unfavourable)? })
}

/// The bore of the can's fittings where the can sits in this line.
fn can_bore(inputs: &VentilationInputs, place: CanPlace) -> Option<crate::quantity::si::Length> {
    (inputs.can.place == place).then_some(inputs.can.bore)
}

fn element(inputs: &ElementInputs) -> Option<BreatherElement> {
    let viscous = inputs.linear.unwrap_or_else(defaults::element_linear).likely;
    let inertial = inputs.quadratic.unwrap_or_else(defaults::element_quadratic).likely;
    // An open pipe has no element.
    (viscous.base() > 0.0 || inertial.base() > 0.0).then_some(BreatherElement { viscous, inertial })
}

fn line(
    inputs: &LineInputs,
    element: Option<BreatherElement>,
    fitting: Option<crate::quantity::si::Length>,
) -> BreatherLine {
    let mut line = BreatherLine::of_hose(inputs.bore, inputs.length, inputs.bends);
    // The narrower of barb and can fitting counts, if it is narrower than the hose.
    let narrowest = [inputs.barb, fitting].into_iter().flatten().min_by(|a, b| a.base().total_cmp(&b.base()));
    if let Some(bore) = narrowest.filter(|bore| bore.base() < inputs.bore.base()) {
        line = line.with_barb(bore);
    }
    line.element = element;
    line
}

fn can(inputs: &VentilationInputs, closed: bool, filtered: bool) -> Option<CatchCan> {
    match inputs.can.place {
        CanPlace::None => None,
        CanPlace::ValveLine => Some(CatchCan::new(Place::ValveLine, Venting::Sealed { outlet: None })),
        CanPlace::BreatherLine if closed => Some(CatchCan::new(Place::BreatherLine, Venting::Sealed { outlet: None })),
        CanPlace::BreatherLine => {
            // The filter sits on the can; without one the can's own outlet is the opening.
            let opening_bore = (!filtered).then_some(inputs.can.bore);
            let venting = Venting::Vented { opening_bore, element: None, outlet: None };
            Some(CatchCan::new(Place::BreatherLine, venting))
        }
    }
}
