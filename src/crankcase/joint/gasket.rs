//! Layers under the screws: stiffness, seating, travel, faces that can leak.

use super::JointError;
use super::error::in_order;
use super::figures::{CREEP, CRUSH, FACTOR, FORCE, GASKET_AREA, MODULUS, SEATING, THICKNESS};
use crate::note::{Note, Weight};
use crate::quantity::si::{Area, Force, Length, Pressure, Ratio};
use crate::quantity::{Amount, Estimate, Kind, Measured, Range, Stiffness};
use crate::scribe::{Scribe, Step};
use crate::source::Assumed;
use crate::source::crankcase::joint as source;

/// Most layers of a stack.
const MOST_LAYERS: usize = 9;
/// Compression of a soft gasket up to which a constant modulus tells the travel.
const LINEAR_TO: f64 = 0.25;

/// What a cover gasket is made of.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum GasketMaterial {
    /// Cork bound with rubber.
    CorkRubber,
    /// Moulded or sheet rubber.
    Rubber,
    /// Fibre sheet with a binder, also on a metal core.
    Composite,
}

impl GasketMaterial {
    /// Every material known.
    pub const ALL: [Self; 3] = [Self::CorkRubber, Self::Rubber, Self::Composite];

    /// Elastic modulus in compression.
    #[must_use]
    pub fn modulus(self) -> Assumed<Pressure> {
        self.stress([3e6, 6e6, 10e6], [2e6, 4e6, 8e6], [60e6, 150e6, 400e6], MODULUS)
    }

    /// Least contact stress that seats the gasket on its faces.
    #[must_use]
    pub fn seating(self) -> Assumed<Pressure> {
        self.stress([1.4e6, 2.0e6, 4.0e6], [0.7e6, 1.2e6, 2.0e6], [3e6, 6e6, 12e6], SEATING)
    }

    /// Stress that crushes or squeezes the gasket out.
    #[must_use]
    pub fn crush(self) -> Assumed<Pressure> {
        self.stress([5e6, 7e6, 10e6], [4e6, 7e6, 12e6], [40e6, 70e6, 120e6], CRUSH)
    }

    /// Share of its thickness that the gasket loses as it settles under heat and oil.
    #[must_use]
    pub fn creep(self) -> Assumed<Ratio> {
        self.number([0.03, 0.05, 0.10], [0.01, 0.02, 0.05], [0.01, 0.03, 0.06], CREEP, &source::GASKET_FIGURES)
    }

    /// Contact stress over the pressure it holds.
    #[must_use]
    pub fn factor(self) -> Assumed<Ratio> {
        self.number([0.5, 1.0, 1.75], [0.5, 0.75, 1.0], [1.0, 1.75, 2.75], FACTOR, &source::GASKET_FACTOR)
    }

    /// All of its figures.
    #[must_use]
    pub fn figures(self) -> GasketFigures {
        GasketFigures {
            seating: self.seating().estimate,
            crush: self.crush().estimate,
            creep: self.creep().estimate,
            factor: self.factor().estimate,
        }
    }

    fn of<T>(self, cork: T, rubber: T, composite: T) -> T {
        match self {
            Self::CorkRubber => cork,
            Self::Rubber => rubber,
            Self::Composite => composite,
        }
    }

    fn stress(self, cork: [f64; 3], rubber: [f64; 3], composite: [f64; 3], range: Range) -> Assumed<Pressure> {
        let [low, likely, high] = self.of(cork, rubber, composite);
        Assumed::new([low, likely, high], range, &source::GASKET_FIGURES)
    }

    fn number(
        self,
        cork: [f64; 3],
        rubber: [f64; 3],
        composite: [f64; 3],
        range: Range,
        source: &'static crate::source::Source,
    ) -> Assumed<Ratio> {
        let [low, likely, high] = self.of(cork, rubber, composite);
        Assumed::new([low, likely, high], range, source)
    }
}

/// What a spacer between gaskets is made of.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum SpacerMaterial {
    /// Aluminium.
    Aluminium,
    /// Steel.
    Steel,
}

impl SpacerMaterial {
    /// Elastic modulus.
    #[must_use]
    pub fn modulus(self) -> Assumed<Pressure> {
        let [low, likely, high] = match self {
            Self::Aluminium => [68e9, 70e9, 73e9],
            Self::Steel => [200e9, 205e9, 210e9],
        };
        Assumed::new([low, likely, high], MODULUS, &source::ELASTIC_CONSTANTS)
    }
}

/// What makes a layer a gasket.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct GasketFigures {
    /// Least contact stress that seats it.
    pub seating: Estimate<Pressure>,
    /// Stress that crushes it.
    pub crush: Estimate<Pressure>,
    /// Share of its thickness it loses as it settles.
    pub creep: Estimate<Ratio>,
    /// Contact stress over the pressure it holds.
    pub factor: Estimate<Ratio>,
}

/// One layer of the stack.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Layer {
    /// Free thickness.
    pub thickness: Length,
    /// Elastic modulus in compression.
    pub modulus: Estimate<Pressure>,
    /// Its figures if it is a gasket; `None` for a spacer.
    pub gasket: Option<GasketFigures>,
}

impl Layer {
    /// A gasket with the usual figures of its material.
    #[must_use]
    pub fn gasket(material: GasketMaterial, thickness: Length) -> Self {
        Self { thickness, modulus: material.modulus().estimate, gasket: Some(material.figures()) }
    }

    /// A spacer.
    #[must_use]
    pub fn spacer(material: SpacerMaterial, thickness: Length) -> Self {
        Self { thickness, modulus: material.modulus().estimate, gasket: None }
    }

    fn check(&self) -> Result<(), JointError> {
        THICKNESS.check(self.thickness)?;
        in_order(&self.modulus, &MODULUS)?;
        if let Some(figures) = &self.gasket {
            in_order(&figures.seating, &SEATING)?;
            in_order(&figures.crush, &CRUSH)?;
            in_order(&figures.creep, &CREEP)?;
            in_order(&figures.factor, &FACTOR)?;
        }
        Ok(())
    }
}

/// The layers between head and cover.
#[derive(Clone, Debug, PartialEq)]
pub struct Stack {
    /// The layers, from the head to the cover.
    pub layers: Vec<Layer>,
    /// Gasket area that one screw presses.
    pub area: Area,
}

/// How far a stack is pressed together.
#[derive(Clone, Debug, PartialEq)]
pub struct Travel {
    /// Compression of the whole stack.
    pub travel: Estimate<Length>,
    /// Contact stress.
    pub stress: Estimate<Pressure>,
    /// "gasket-beyond-linear" when a gasket is pressed by more than a quarter of its thickness.
    pub notes: Vec<Note>,
}

impl Stack {
    /// One gasket.
    #[must_use]
    pub fn one(material: GasketMaterial, thickness: Length, area: Area) -> Self {
        Self { layers: vec![Layer::gasket(material, thickness)], area }
    }

    /// A gasket on either side of a spacer.
    #[must_use]
    pub fn two_and_a_spacer(
        material: GasketMaterial,
        thickness: Length,
        spacer: SpacerMaterial,
        spacer_thickness: Length,
        area: Area,
    ) -> Self {
        let gasket = Layer::gasket(material, thickness);
        Self { layers: vec![gasket, Layer::spacer(spacer, spacer_thickness), gasket], area }
    }

    pub(super) fn check(&self) -> Result<(), JointError> {
        let (layers, gaskets) = (self.layers.len(), self.gaskets());
        if gaskets == 0 || layers > MOST_LAYERS {
            return Err(JointError::Layers { layers, gaskets, most: MOST_LAYERS });
        }
        GASKET_AREA.check(self.area)?;
        self.layers.iter().try_for_each(Layer::check)
    }

    /// How many gaskets there are.
    #[must_use]
    pub fn gaskets(&self) -> usize {
        self.layers.iter().filter(|layer| layer.gasket.is_some()).count()
    }

    /// Faces along which oil can find a way: one more than layers; two with one gasket, four with two and a spacer.
    #[must_use]
    pub fn leak_faces(&self) -> usize {
        self.layers.len() + 1
    }

    /// Thickness of all layers before they are pressed.
    #[must_use]
    pub fn free_thickness(&self) -> Length {
        Length::from_base(self.layers.iter().map(|layer| layer.thickness.base()).sum())
    }

    /// Thickness of the gaskets alone before they are pressed.
    #[must_use]
    pub fn gasket_thickness(&self) -> Length {
        let gaskets = self.layers.iter().filter(|layer| layer.gasket.is_some());
        Length::from_base(gaskets.map(|layer| layer.thickness.base()).sum())
    }

    /// `Σ t/E` at the soft, likely and stiff ends, m/Pa.
    pub(super) fn compliance(&self) -> [f64; 3] {
        let sum = |modulus: fn(&Layer) -> Pressure| {
            self.layers.iter().map(|layer| layer.thickness.base() / modulus(layer).base()).sum::<f64>()
        };
        [sum(|layer| layer.modulus.low), sum(|layer| layer.modulus.likely), sum(|layer| layer.modulus.high)]
    }

    /// Stiffness under one screw, `1/k = Σ t/(E A)`: springs in series, linear up to about a quarter of the gasket's
    /// thickness.
    ///
    /// # Errors
    /// No gasket, too many layers, or a figure outside its range or not in order.
    pub fn stiffness(&self, scribe: &mut impl Scribe) -> Result<Estimate<Stiffness>, JointError> {
        self.check()?;
        let [soft, likely, stiff] = self.compliance().map(|compliance| self.area.base() / compliance);
        let stiffness = Estimate {
            low: Stiffness::from_base(soft),
            likely: Stiffness::from_base(likely),
            high: Stiffness::from_base(stiff),
        };
        scribe.step(|| {
            let step =
                Step::new("stiffness of the layers under one screw", "k_g", "1/k_g = Σ t/(E A)", &source::SPRINGS);
            let step = self.layers.iter().fold(step.with("A", self.area), |step, layer| {
                step.with_amount("t", Amount::of_kind(layer.thickness, Kind::SmallLength))
                    .with_amount("E", Amount::of_kind(layer.modulus.likely, Kind::Stress))
            });
            step.gives(stiffness.likely)
        });
        Ok(stiffness)
    }

    /// The stress every gasket needs to seat, and the one that crushes the weakest of them.
    ///
    /// # Errors
    /// As [`Stack::stiffness`].
    pub fn limits(&self) -> Result<(Estimate<Pressure>, Estimate<Pressure>), JointError> {
        self.check()?;
        let figures: Vec<&GasketFigures> = self.layers.iter().filter_map(|layer| layer.gasket.as_ref()).collect();
        let most = |of: fn(&GasketFigures) -> Pressure| {
            Pressure::from_base(figures.iter().map(|f| of(f).base()).fold(0.0, f64::max))
        };
        let least = |of: fn(&GasketFigures) -> Pressure| {
            Pressure::from_base(figures.iter().map(|f| of(f).base()).fold(f64::MAX, f64::min))
        };
        let seating = Estimate {
            low: most(|f| f.seating.low),
            likely: most(|f| f.seating.likely),
            high: most(|f| f.seating.high),
        };
        let crush =
            Estimate { low: least(|f| f.crush.low), likely: least(|f| f.crush.likely), high: least(|f| f.crush.high) };
        Ok((seating, crush))
    }

    /// The greatest gasket factor `m` of the stack.
    pub(super) fn factor(&self) -> Estimate<Ratio> {
        let most = |of: fn(&GasketFigures) -> Ratio| {
            let factors = self.layers.iter().filter_map(|layer| layer.gasket.as_ref());
            Ratio::from_base(factors.map(|f| of(f).base()).fold(0.0, f64::max))
        };
        Estimate { low: most(|f| f.factor.low), likely: most(|f| f.factor.likely), high: most(|f| f.factor.high) }
    }

    /// How far a clamp load presses the stack together, `s = F/k_g`, and the contact stress `σ = F/A`. Soft gaskets
    /// stiffen: beyond a quarter of the thickness the real travel is less, and a note says so.
    ///
    /// # Errors
    /// A load outside its range or not in order; as [`Stack::stiffness`].
    pub fn travel(&self, clamp: &Estimate<Force>, scribe: &mut impl Scribe) -> Result<Travel, JointError> {
        in_order(clamp, &FORCE)?;
        let stiffness = self.stiffness(scribe)?;
        let at = |force: Force, k: Stiffness| Length::from_base(force.base() / k.base());
        let travel = Estimate {
            low: at(clamp.low, stiffness.high),
            likely: at(clamp.likely, stiffness.likely),
            high: at(clamp.high, stiffness.low),
        };
        let stress = clamp.map(|force: Force| Pressure::from_base(force.base() / self.area.base()));
        scribe.step(|| {
            Step::new("travel of the stack", "s", "s = F/k_g", &source::SPRINGS)
                .with("F", clamp.likely)
                .with("k_g", stiffness.likely)
                .gives_amount(Amount::of_kind(travel.likely, Kind::SmallLength))
        });
        scribe.step(|| {
            Step::new("contact stress", "σ", "σ = F/A", &crate::source::DEFINITION)
                .with("F", clamp.likely)
                .with("A", self.area)
                .gives_amount(Amount::of_kind(stress.likely, Kind::Stress))
        });
        let strained = self
            .layers
            .iter()
            .any(|layer| layer.gasket.is_some() && stress.likely.base() / layer.modulus.likely.base() > LINEAR_TO);
        let notes = if strained {
            let text = "A gasket is pressed by more than a quarter of its thickness. Soft gaskets stiffen there, so the real \
                        travel is less than the figure and the edge bulges.";
            vec![Note::new("gasket-beyond-linear", Weight::Weak, text)]
        } else {
            Vec::new()
        };
        Ok(Travel { travel, stress, notes })
    }
}
