//! Where the valve's hose joins the intake.

use crate::crankcase::mixture::PortPlace;
use crate::quantity::Kind;
use crate::quantity::si::Length;
use crate::study::{Field, Label, Visitor};

crate::choice!(PortPlace {
    Plenum: "plenum", "Plenum behind the throttle";
    OneRunner: "one-runner", "One runner";
    CarburettorBase: "carburettor-base", "Base of the carburettor, below its throttle";
    BoosterTee: "booster-tee", "Tee in the brake booster's hose";
    BeforeThrottle: "before-throttle", "Before the throttle and any blower, behind the air cleaner";
});

/// The port.
#[derive(Clone, Debug, PartialEq)]
pub struct PortInputs {
    /// Where it is.
    pub place: PortPlace,
    /// Its bore, if it may be narrower than the valve.
    pub bore: Option<Length>,
}

static PLACE: Label = Label::new("port", "Valve's hose joins the intake at", "Where the gas of the valve goes in.");
static BORE: Field = Field::new(
    "port_bore",
    "Bore of the port",
    Kind::SmallLength,
    (0.001, 0.05),
    "The narrowest hole behind the valve.",
    "",
);

impl Default for PortInputs {
    fn default() -> Self {
        Self { place: PortPlace::Plenum, bore: None }
    }
}

impl PortInputs {
    pub(super) fn visit(&mut self, visitor: &mut impl Visitor) {
        visitor.choice_or(&PLACE, &mut self.place, PortPlace::Plenum);
        visitor.optional(&BORE, &mut self.bore, "no narrower than the valve");
    }
}
