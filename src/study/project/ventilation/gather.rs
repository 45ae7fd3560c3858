//! Where the gas is taken, and what it passes before it reaches a line: mesh, and a hose between the covers.

use crate::quantity::si::{Area, Length, Ratio};
use crate::quantity::{Estimate, Kind, Measured};
use crate::study::{Count, Field, Label, Visitor, defaults};

/// Where the breather, or the fresh-air line, takes its gas.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum GasSource {
    /// From a valve cover.
    Cover,
    /// From the valley between the banks.
    Valley,
    /// From the side of the block or the sump.
    Sump,
}
crate::choice!(GasSource {
    Cover: "cover", "A valve cover";
    Valley: "valley", "The valley between the banks";
    Sump: "sump", "The side of the block, or the sump above the oil";
});

impl GasSource {
    /// What the passage there is taken to be when it is not known.
    #[must_use]
    pub fn baffle_area(self) -> Estimate<Area> {
        match self {
            Self::Cover => defaults::baffle_area(),
            Self::Valley => defaults::valley_baffle_area(),
            Self::Sump => defaults::sump_baffle_area(),
        }
    }
}

/// Knitted mesh at the mouth of the breather.
#[derive(Clone, Debug, PartialEq)]
pub struct MeshInputs {
    /// Whether there is any.
    pub known: bool,
    /// Area across the gas.
    pub area: Area,
    /// Depth along the gas.
    pub depth: Length,
    /// Pressure over that of the dry mesh.
    pub soaked: Option<Estimate<Ratio>>,
}

/// A hose that joins the two covers.
#[derive(Clone, Debug, PartialEq)]
pub struct CrossoverInputs {
    /// Whether there is one.
    pub known: bool,
    /// Its bore, that of its fittings.
    pub bore: Length,
    /// Its length.
    pub length: Length,
    /// Bends of 90°.
    pub bends: u32,
}

static MESH: Label = Label::new("mesh", "Mesh baffle", "Knitted mesh in the cover, at the mouth of the breather.");
static MESH_KNOWN: Label =
    Label::new("known", "Knitted mesh at the mouth", "It lets the gas pass and holds back droplets.");
static MESH_AREA: Field =
    Field::new("area", "Area of the mesh", Kind::SmallArea, (1e-5, 0.05), "Across the way of the gas.", "3 to 50 cm²");
static MESH_DEPTH: Field = Field::new(
    "depth",
    "Depth of the mesh",
    Kind::SmallLength,
    (1e-3, 0.3),
    "Along the way of the gas.",
    "10 to 100 mm",
);
static SOAKED: Field = Field::new(
    "soaked",
    "Wet over dry",
    Kind::Number,
    (1.0, 20.0),
    "Pressure of the mesh with the oil it holds, over that of dry mesh.",
    "1 dry, 4 when it drips",
);
static CROSSOVER: Label = Label::new(
    "crossover",
    "Cross-over hose",
    "Joins the two covers, so that gas of one side finds the way of the other.",
);
static CROSSOVER_KNOWN: Label = Label::new("known", "Covers joined by a hose", "Common on engines with two banks.");
static BORE: Field =
    Field::new("bore", "Bore of the cross-over", Kind::Length, (0.002, 0.06), "Inside its fittings.", "");
static LENGTH: Field =
    Field::new("length", "Length of the cross-over", Kind::Distance, (0.02, 5.0), "Along the hose.", "");
static BENDS: Count = Count {
    label: Label::new("bends", "Bends of the cross-over", "Of 90°; count two of 45° as one."),
    low: 0,
    high: 20,
};

impl Default for MeshInputs {
    fn default() -> Self {
        Self { known: false, area: Area::from_base(1e-3), depth: Length::from_base(0.03), soaked: None }
    }
}

impl MeshInputs {
    pub(super) fn visit(&mut self, visitor: &mut impl Visitor) {
        visitor.optional_group(&MESH, &MESH_KNOWN, &mut self.known, |v| {
            v.quantity(&MESH_AREA, &mut self.area);
            v.quantity(&MESH_DEPTH, &mut self.depth);
            v.estimate(&SOAKED, &mut self.soaked, defaults::mesh_soaked());
        });
    }
}

impl Default for CrossoverInputs {
    fn default() -> Self {
        Self { known: false, bore: Length::from_base(0.016), length: Length::from_base(0.5), bends: 2 }
    }
}

impl CrossoverInputs {
    pub(super) fn visit(&mut self, visitor: &mut impl Visitor) {
        visitor.optional_group(&CROSSOVER, &CROSSOVER_KNOWN, &mut self.known, |v| {
            v.quantity(&BORE, &mut self.bore);
            v.quantity(&LENGTH, &mut self.length);
            v.count(&BENDS, &mut self.bends);
        });
    }
}
