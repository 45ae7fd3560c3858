//! The element of a breather.

use crate::crankcase::element::{BreatherElement, FlowError};
use crate::quantity::si::{Pressure, Ratio, VolumeRate};
use crate::quantity::{Estimate, Kind, LinearResistance, Measured, QuadraticResistance};
use crate::scribe::Silent;
use crate::study::{Field, Label, Visitor, defaults};

/// How a breather element is known.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum ElementKnowledge {
    /// By the two parts of its resistance.
    Figures,
    /// By its pressure at one flow.
    OnePoint,
    /// By its pressure at two flows or more.
    Points,
}
crate::choice!(ElementKnowledge {
    Figures: "figures", "Its linear and quadratic resistance";
    OnePoint: "one-point", "Measured: its pressure at one flow";
    Points: "points", "Measured: its pressure at two flows or more";
});

/// A breather element.
#[derive(Clone, Debug, PartialEq)]
pub struct ElementInputs {
    /// How it is known.
    pub knowledge: ElementKnowledge,
    /// Pressure per flow.
    pub linear: Option<Estimate<LinearResistance>>,
    /// Pressure per flow squared.
    pub quadratic: Option<Estimate<QuadraticResistance>>,
    /// One point: flow of air at 20 °C and sea level.
    pub flow: VolumeRate,
    /// One point: pressure over the element at that flow.
    pub pressure: Pressure,
    /// One point: share of that pressure that goes with the flow itself.
    pub linear_share: Option<Estimate<Ratio>>,
    /// Points: flow and pressure.
    pub points: Vec<(VolumeRate, Pressure)>,
    /// Pressure in use over that when clean.
    pub loading: Option<Estimate<Ratio>>,
}

static ELEMENT: Label =
    Label::new("element", "Breather element", "Its resistance: pressure = linear · flow + quadratic · flow².");
static KNOWLEDGE: Label =
    Label::new("known_from", "Element known from", "A measured point beats the usual figures; two beat one.");
static LINEAR: Field =
    Field::new("linear", "Linear resistance", Kind::LinearResistance, (0.0, 1e8), "Zero for an open pipe.", "");
static QUADRATIC: Field = Field::new(
    "quadratic",
    "Quadratic resistance",
    Kind::QuadraticResistance,
    (0.0, 1e12),
    "Zero for an open pipe.",
    "",
);
static FLOW: Field = Field::new(
    "flow",
    "Flow measured",
    Kind::GasVolumeFlow,
    (1e-4, 0.1),
    "Air at 20 °C and sea level through the clean element.",
    "10 to 200 L/min are usual",
);
static PRESSURE: Field = Field::new(
    "pressure",
    "Pressure at that flow",
    Kind::CrankcasePressure,
    (0.1, 1e4),
    "Before the element, above the open air.",
    "some tens to hundreds of pascals",
);
static SHARE: Field = Field::new(
    "linear_share",
    "Linear share of that pressure",
    Kind::Share,
    (0.0, 1.0),
    "What goes with the flow itself, the rest with its square: much in fine paper or felt, little in coarse mesh.",
    "",
);
static POINTS: Label =
    Label::new("points", "Measured points", "Air at 20 °C and sea level, rising flows, element clean.");
static LOADING: Field = Field::new(
    "loading",
    "Loading in use",
    Kind::Number,
    (1.0, 20.0),
    "Pressure of the element as it is over that when clean, at the same flow: 1 clean, up to 5 dirty or oiled. Its high end is \
     the dirty filter of the unfavourable case.",
    "1 is a clean element",
);

impl Default for ElementInputs {
    fn default() -> Self {
        let litres = |litres: f64| VolumeRate::from_base(litres * 1e-3 / 60.0);
        Self {
            knowledge: ElementKnowledge::Figures,
            linear: None,
            quadratic: None,
            flow: litres(60.0),
            pressure: Pressure::from_base(500.0),
            linear_share: None,
            points: vec![(litres(30.0), Pressure::from_base(175.0)), (litres(60.0), Pressure::from_base(500.0))],
            loading: None,
        }
    }
}

impl ElementInputs {
    pub(super) fn visit(&mut self, visitor: &mut impl Visitor) {
        visitor.group(&ELEMENT, |v| {
            v.later(|v| v.choice(&KNOWLEDGE, &mut self.knowledge));
            match self.knowledge {
                ElementKnowledge::Figures => {
                    v.estimate(&LINEAR, &mut self.linear, defaults::element_linear());
                    v.estimate(&QUADRATIC, &mut self.quadratic, defaults::element_quadratic());
                }
                ElementKnowledge::OnePoint => {
                    v.quantity(&FLOW, &mut self.flow);
                    v.quantity(&PRESSURE, &mut self.pressure);
                    v.estimate(&SHARE, &mut self.linear_share, defaults::linear_share());
                }
                ElementKnowledge::Points => v.pairs(&POINTS, (&FLOW, &PRESSURE), &mut self.points),
            }
            v.estimate(&LOADING, &mut self.loading, defaults::filter_loading());
        });
    }

    /// Why the measured points cannot be used.
    pub(super) fn fault(&self) -> Option<FlowError> {
        let fit = || BreatherElement::from_rows(&self.points, &mut Silent);
        if self.knowledge == ElementKnowledge::Points { fit().err() } else { None }
    }
}
