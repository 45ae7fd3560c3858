//! The valve to the manifold.

mod bench;
mod port;
mod spring;

pub use bench::{Bench, BenchInputs};
pub use port::PortInputs;
pub use spring::SpringInputs;

use crate::quantity::si::{Area, Length, Pressure, Ratio};
use crate::quantity::{Estimate, Kind, Measured, SonicConductance};
use crate::study::{Field, Label, Visitor, defaults};

/// How the valve to the manifold is known.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum ValveKind {
    /// A plunger held by a spring, by its openings.
    Plunger,
    /// The same by the measures of plunger and spring.
    SpringPlunger,
    /// Flow against depression, from a bench.
    Table,
    /// A fixed hole with a check.
    FixedOrifice,
    /// A check valve.
    Check,
    /// By its data sheet after ISO 6358.
    Sonic,
}
crate::choice!(ValveKind {
    Plunger: "plunger", "Spring and plunger, by its openings";
    SpringPlunger: "spring-plunger", "Spring and plunger, by their measures";
    Table: "table", "Measured: flow against depression";
    FixedOrifice: "fixed-orifice", "Fixed orifice with a check";
    Check: "check", "Check valve";
    Sonic: "iso-6358", "Data sheet after ISO 6358: C and b";
});

impl ValveKind {
    /// Whether what stays open against a backfire is asked for: C and b say nothing of the way back.
    #[must_use]
    pub const fn shuts_somehow(self) -> bool {
        !matches!(self, Self::Sonic)
    }
}

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
    /// Spring and plunger by their measures.
    pub spring: SpringInputs,
    /// Bench points.
    pub bench: BenchInputs,
    /// Fixed orifice: diameter.
    pub orifice: Length,
    /// Check valve: effective area when open.
    pub check_area: Area,
    /// Check valve: pressure difference at which it opens.
    pub check_opens_at: Option<Estimate<Pressure>>,
    /// ISO 6358: sonic conductance C.
    pub conductance: SonicConductance,
    /// ISO 6358: critical pressure ratio b.
    pub critical_ratio: Ratio,
    /// What stays open when gas pushes back from the manifold; zero when it seats tight.
    pub backfire_area: Option<Estimate<Area>>,
    /// Where its hose joins the intake.
    pub port: PortInputs,
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
static CHECK_AREA: Field = Field::new(
    "check_area",
    "Open area of the check valve",
    Kind::SmallArea,
    (0.1e-6, 200e-6),
    "Effective area, wide open.",
    "",
);
static CHECK_OPENS: Field = Field::new(
    "check_opens_at",
    "Check valve opens at",
    Kind::SmallPressureDifference,
    (0.0, 20e3),
    "Pressure difference at which it lets gas through.",
    "",
);
static CONDUCTANCE: Field = Field::new(
    "sonic_conductance",
    "Sonic conductance C",
    Kind::SonicConductance,
    (0.02e-8, 50e-8),
    "From the data sheet.",
    "",
);
static CRITICAL: Field =
    Field::new("critical_ratio", "Critical pressure ratio b", Kind::Number, (0.0, 0.9), "From the data sheet.", "");
static BACKFIRE: Field = Field::new(
    "backfire_area",
    "Open against a backfire",
    Kind::SmallArea,
    (0.0, 10e-6),
    "Effective area left when gas pushes back from the manifold; zero when it seats tight. Blow into the manifold end \
     to try it.",
    "",
);

impl Default for ValveInputs {
    fn default() -> Self {
        let kilopascals = |k: f64| Pressure::from_base(k * 1e3);
        Self {
            kind: ValveKind::Plunger,
            open_area: Area::from_base(12e-6),
            idle_area: Area::from_base(4e-6),
            begins: kilopascals(8.0),
            ends: kilopascals(50.0),
            spring: SpringInputs::default(),
            bench: BenchInputs::default(),
            orifice: Length::from_base(0.0025),
            check_area: Area::from_base(12e-6),
            check_opens_at: None,
            conductance: SonicConductance::from_base(1e-8),
            critical_ratio: Ratio::from_base(0.3),
            backfire_area: None,
            port: PortInputs::default(),
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
                ValveKind::SpringPlunger => self.spring.visit(v),
                ValveKind::Table => self.bench.visit(v),
                ValveKind::FixedOrifice => v.quantity(&ORIFICE, &mut self.orifice),
                ValveKind::Check => {
                    v.quantity(&CHECK_AREA, &mut self.check_area);
                    v.estimate(&CHECK_OPENS, &mut self.check_opens_at, defaults::check_opens_at());
                }
                ValveKind::Sonic => {
                    v.quantity(&CONDUCTANCE, &mut self.conductance);
                    v.quantity(&CRITICAL, &mut self.critical_ratio);
                }
            }
            if self.kind.shuts_somehow() {
                v.estimate(&BACKFIRE, &mut self.backfire_area, defaults::backfire_area());
            }
            self.port.visit(v);
        });
    }
}
