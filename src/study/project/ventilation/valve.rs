//! The valve to the manifold.

use crate::quantity::si::{Area, Length, Pressure, VolumeRate};
use crate::quantity::{Kind, Measured};
use crate::study::{Field, Label, Visitor};

/// How the valve to the manifold is known.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum ValveKind {
    /// A plunger held by a spring.
    Plunger,
    /// Flow against depression, from a bench.
    Table,
    /// A fixed hole with a check.
    FixedOrifice,
}
crate::choice!(ValveKind {
    Plunger: "plunger", "Spring and plunger";
    Table: "table", "Measured: flow against depression";
    FixedOrifice: "fixed-orifice", "Fixed orifice with a check";
});

/// The valve to the manifold.
#[derive(Clone, Debug, PartialEq)]
pub struct ValveInputs {
    /// How it is known.
    pub kind: ValveKind,
    /// Plunger: open area at small depression.
    pub open_area: Area,
    /// Plunger: open area at idle depression.
    pub idle_area: Area,
    /// Plunger: depression at which it begins to close.
    pub begins: Pressure,
    /// Plunger: depression at which it has closed to its idle area.
    pub ends: Pressure,
    /// Fixed orifice: diameter.
    pub orifice: Length,
    /// Table: depression and flow at 20 °C and 1 atm.
    pub table: Vec<(Pressure, VolumeRate)>,
}

static VALVE: Label = Label::new("valve", "PCV valve", "Lets crankcase gas into the manifold.");
static KIND: Label = Label::new("kind", "Valve known as", "A bench table beats the presets.");
static OPEN_AREA: Field = Field::new(
    "open_area",
    "Open area at small depression",
    Kind::SmallArea,
    (0.1e-6, 200e-6),
    "Effective area with the spring fully extended: cruise to full throttle.",
    "",
);
static IDLE_AREA: Field = Field::new(
    "idle_area",
    "Open area at idle depression",
    Kind::SmallArea,
    (0.1e-6, 200e-6),
    "Effective area with the plunger drawn home.",
    "",
);
static BEGINS: Field = Field::new(
    "begins",
    "Begins to close at",
    Kind::PressureDifference,
    (0.5e3, 60e3),
    "Depression across the valve.",
    "",
);
static ENDS: Field = Field::new(
    "ends",
    "Closed to idle area at",
    Kind::PressureDifference,
    (1e3, 95e3),
    "Depression across the valve.",
    "it must be deeper than where it begins",
);
static ORIFICE: Field =
    Field::new("orifice", "Orifice diameter", Kind::SmallLength, (0.0005, 0.01), "Of the fixed hole.", "");
static TABLE: Label = Label::new("table", "Bench points", "Depression across the valve and the flow it passed.");
static TABLE_DEPRESSION: Field =
    Field::new("depression", "depression", Kind::PressureDifference, (0.0, 100e3), "Across the valve.", "");
static TABLE_FLOW: Field =
    Field::new("flow", "flow", Kind::GasVolumeFlow, (0.0, 0.02), "Of air at 20 °C and 101.325 kPa.", "");

impl Default for ValveInputs {
    fn default() -> Self {
        let litres_per_minute = |l: f64| VolumeRate::from_base(l * 1e-3 / 60.0);
        let kilopascals = |k: f64| Pressure::from_base(k * 1e3);
        Self {
            kind: ValveKind::Plunger,
            open_area: Area::from_base(12e-6),
            idle_area: Area::from_base(4e-6),
            begins: kilopascals(8.0),
            ends: kilopascals(50.0),
            orifice: Length::from_base(0.0025),
            table: vec![
                (kilopascals(0.0), litres_per_minute(0.0)),
                (kilopascals(5.0), litres_per_minute(60.0)),
                (kilopascals(20.0), litres_per_minute(90.0)),
                (kilopascals(50.0), litres_per_minute(45.0)),
                (kilopascals(80.0), litres_per_minute(45.0)),
            ],
        }
    }
}

impl ValveInputs {
    pub(super) fn visit(&mut self, visitor: &mut impl Visitor) {
        visitor.group(&VALVE, |v| {
            v.choice(&KIND, &mut self.kind);
            match self.kind {
                ValveKind::Plunger => {
                    v.quantity(&OPEN_AREA, &mut self.open_area);
                    v.quantity(&IDLE_AREA, &mut self.idle_area);
                    v.quantity(&BEGINS, &mut self.begins);
                    v.quantity(&ENDS, &mut self.ends);
                }
                ValveKind::Table => v.pairs(&TABLE, (&TABLE_DEPRESSION, &TABLE_FLOW), &mut self.table),
                ValveKind::FixedOrifice => v.quantity(&ORIFICE, &mut self.orifice),
            }
        });
    }
}
