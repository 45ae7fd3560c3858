//! Flow elements, networks and arrangements: what must hold for every one of them.

mod element;
mod limits;
mod topology;
mod ventilation;

use coldmark::crankcase::arrangement::{BreatherLine, CanPlace, CatchCan, Valve, Ventilation, Venting};
use coldmark::crankcase::element::{
    BreatherElement, CheckValve, Element, End, Fittings, FixedOrificeValve, Gas, GenericPlunger, Hose, Orifice,
    PlungerValve, Sag, SonicPort,
};
use coldmark::quantity::si::{Area, Length, Ratio, ThermodynamicTemperature};
use coldmark::quantity::{
    AbsolutePressure, LinearResistance, Measured, QuadraticResistance, SonicConductance, pascals,
};
use coldmark::scribe::Silent;
use proptest::prelude::*;

const AMBIENT: f64 = 101_325.0;

fn absolute(pressure: f64) -> AbsolutePressure {
    AbsolutePressure::new(pascals(pressure))
}

fn end(pressure: f64, temperature: f64) -> End {
    End { pressure: absolute(pressure), temperature: ThermodynamicTemperature::from_base(temperature) }
}

fn flow(element: &Element, first: f64, second: f64, warm: (f64, f64)) -> f64 {
    element.flow(end(first, warm.0), end(second, warm.1), Gas::default(), &mut Silent).unwrap().base()
}

fn symmetric() -> impl Strategy<Value = Element> {
    let orifice = (0.1..200.0).prop_map(|area| Orifice { effective_area: Area::from_base(area * 1e-6) }.into());
    let port = (0.5..50.0, 0.1..0.6).prop_map(|(conductance, critical)| {
        SonicPort {
            conductance: SonicConductance::from_base(conductance * 1e-8),
            critical_ratio: Ratio::from_base(critical),
        }
        .into()
    });
    let hose = (3.0..30.0, prop_oneof![Just(0.0), 0.05..3.0], 0.5..10.0, 0.0..100e-6).prop_map(
        |(bore, length, losses, roughness)| {
            Hose {
                bore: Length::from_base(bore * 1e-3),
                length: Length::from_base(length),
                fittings: Fittings::of_sum(Ratio::from_base(losses)),
                roughness: Length::from_base(roughness),
            }
            .into()
        },
    );
    let breather = (prop_oneof![Just(0.0), 1e4..1e7], 1e7..1e10).prop_map(|(viscous, inertial)| {
        BreatherElement {
            viscous: LinearResistance::from_base(viscous),
            inertial: QuadraticResistance::from_base(inertial),
        }
        .into()
    });
    let sag = (0.0..3e3, 5.0..30.0)
        .prop_map(|(head, bore)| Sag::in_hose(pascals(head), Length::from_base(bore * 1e-3)).into());
    prop_oneof![6 => orifice, 6 => port, 6 => hose, 6 => breather, 1 => sag]
}

fn compliant() -> impl Strategy<Value = Element> {
    let check = (1.0..50.0, 0.0..1e3).prop_map(|(area, opening)| {
        let valve = CheckValve::of_area(Area::from_base(area * 1e-6));
        CheckValve { opening_pressure: pascals(opening), ..valve }.into()
    });
    let fixed = (1.0..4.0)
        .prop_map(|bore| FixedOrificeValve { bore: Length::from_base(bore * 1e-3), ..Default::default() }.into());
    let inwards = (1.0..50.0).prop_map(|area| Element::CheckInwards(CheckValve::of_area(Area::from_base(area * 1e-6))));
    prop_oneof![16 => symmetric(), 4 => check, 4 => fixed, 1 => inwards]
}

/// The four arrangements, some with a can.
fn shaped(line: BreatherLine, valve: Valve, shape: usize) -> Ventilation {
    let sealed = Venting::Sealed { outlet: Some(line.hose) };
    let vented = Venting::Vented { opening_bore: None, element: None, outlet: None };
    let with_can = |mut ventilation: Ventilation, place, venting| {
        ventilation.valve_line = (place == CanPlace::ValveLine).then_some(line);
        ventilation.catch_can = Some(CatchCan::new(place, venting));
        ventilation
    };
    match shape {
        0 => Ventilation::breather_only(line),
        1 => Ventilation::breather_with_valve(line, valve),
        2 => Ventilation::closed(line, valve),
        3 => Ventilation::two_breathers(line, line),
        4 => with_can(Ventilation::breather_with_valve(line, valve), CanPlace::BreatherLine, vented),
        5 => with_can(Ventilation::breather_with_valve(line, valve), CanPlace::BreatherLine, sealed),
        6 => with_can(Ventilation::closed(line, valve), CanPlace::ValveLine, sealed),
        _ => with_can(Ventilation::closed(line, valve), CanPlace::ValveLine, vented),
    }
}

fn usual_line() -> BreatherLine {
    BreatherLine::of_hose(Length::from_base(0.016), Length::from_base(0.4), 2).with_element(BreatherElement::default())
}

fn usual_valve() -> Valve {
    Valve::Plunger(PlungerValve::generic(GenericPlunger::Medium))
}
