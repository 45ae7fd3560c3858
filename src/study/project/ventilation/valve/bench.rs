//! The valve by what a bench has shown: flow against depression, read off a meter or a known orifice.

use crate::quantity::si::{Length, Pressure, Ratio, VolumeRate};
use crate::quantity::{Estimate, Kind, Measured};
use crate::study::{Field, Label, Visitor, defaults};

/// What the bench reads beside the depression.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Bench {
    /// The flow.
    Flow,
    /// The pressure drop across a known orifice ahead of the valve.
    Orifice,
}
crate::choice!(Bench {
    Flow: "flow", "A flow meter";
    Orifice: "orifice", "The pressure drop of a known orifice ahead of the valve";
});

/// Points of a bench.
#[derive(Clone, Debug, PartialEq)]
pub struct BenchInputs {
    /// What is read.
    pub read: Bench,
    /// Flow meter: depression and flow at 20 °C and 1 atm.
    pub table: Vec<(Pressure, VolumeRate)>,
    /// Orifice: its diameter.
    pub orifice: Length,
    /// Orifice: its discharge coefficient.
    pub discharge: Option<Estimate<Ratio>>,
    /// Orifice: depression across the valve and pressure drop across the orifice.
    pub drops: Vec<(Pressure, Pressure)>,
}

static BENCH: Label = Label::new("bench", "The bench reads", "What was read beside the depression across the valve.");
static TABLE: Label = Label::new("table", "Bench points", "Depression across the valve and the flow it passed.");
static DEPRESSION: Field =
    Field::new("depression", "depression", Kind::PressureDifference, (0.0, 100e3), "Across the valve.", "");
static FLOW: Field =
    Field::new("flow", "flow", Kind::GasVolumeFlow, (0.0, 0.02), "Of air at 20 °C and 101.325 kPa.", "");
static ORIFICE: Field = Field::new(
    "known_orifice",
    "Known orifice diameter",
    Kind::SmallLength,
    (0.0005, 0.05),
    "Open to the room, ahead of the valve; the pump behind the valve.",
    "",
);
static DISCHARGE: Field = Field::new(
    "known_discharge",
    "Discharge coefficient of the known orifice",
    Kind::Number,
    (0.3, 1.0),
    "As calibrated; 0.62 for a sharp edge.",
    "",
);
static DROPS: Label =
    Label::new("drops", "Bench points", "Depression across the valve and pressure drop across the known orifice.");
static DROP: Field =
    Field::new("drop", "orifice drop", Kind::PressureDifference, (0.0, 60e3), "Across the known orifice.", "");

impl Default for BenchInputs {
    fn default() -> Self {
        let litres_per_minute = |l: f64| VolumeRate::from_base(l * 1e-3 / 60.0);
        let kilopascals = |k: f64| Pressure::from_base(k * 1e3);
        Self {
            read: Bench::Flow,
            table: vec![
                (kilopascals(0.0), litres_per_minute(0.0)),
                (kilopascals(5.0), litres_per_minute(60.0)),
                (kilopascals(20.0), litres_per_minute(90.0)),
                (kilopascals(50.0), litres_per_minute(45.0)),
                (kilopascals(80.0), litres_per_minute(45.0)),
            ],
            orifice: Length::from_base(0.006),
            discharge: None,
            drops: vec![
                (kilopascals(5.0), kilopascals(1.9)),
                (kilopascals(20.0), kilopascals(4.4)),
                (kilopascals(50.0), kilopascals(1.1)),
                (kilopascals(80.0), kilopascals(1.1)),
            ],
        }
    }
}

impl BenchInputs {
    /// The key of the table in use, its number of rows, and whether its depressions rise.
    pub(in crate::study::project) fn shape(&self) -> (&'static str, usize, bool) {
        match self.read {
            Bench::Flow => ("table", self.table.len(), self.table.is_sorted_by(|a, b| a.0.base() < b.0.base())),
            Bench::Orifice => ("drops", self.drops.len(), self.drops.is_sorted_by(|a, b| a.0.base() < b.0.base())),
        }
    }

    pub(super) fn visit(&mut self, visitor: &mut impl Visitor) {
        visitor.choice_or(&BENCH, &mut self.read, Bench::Flow);
        match self.read {
            Bench::Flow => visitor.pairs(&TABLE, (&DEPRESSION, &FLOW), &mut self.table),
            Bench::Orifice => {
                visitor.quantity(&ORIFICE, &mut self.orifice);
                visitor.estimate(&DISCHARGE, &mut self.discharge, defaults::known_discharge());
                visitor.pairs(&DROPS, (&DEPRESSION, &DROP), &mut self.drops);
            }
        }
    }
}
