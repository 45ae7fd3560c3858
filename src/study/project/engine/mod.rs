//! The engine, the radiator and the duty points they are judged at.

mod core;
mod duty;
mod fan;
mod radiator;

pub use self::core::{CoreInputs, FinKind, TubesRun};
pub use duty::{DutyInputs, DutyPoints};
pub use fan::{FanControl, FanDrive, FanInputs, Shroud};
pub use radiator::{RadiatorInputs, RadiatorKnowledge};

use super::super::check::Checker;
use super::mixture::{self, FreshAirTaken};
use crate::crankcase::mixture::FuelSystem;
use crate::quantity::si::{Length, Ratio, VolumeRate};
use crate::quantity::{Estimate, GaugePressure, Kind, Measured};
use crate::study::{Count, Field, Label, Visitor, defaults};

/// What the engine burns.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum EngineFuel {
    /// Petrol, lit by spark plugs, throttled.
    Petrol,
    /// Diesel fuel, injected into air that is not throttled.
    Diesel,
}
crate::choice!(EngineFuel {
    Petrol: "petrol", "Petrol, spark plugs";
    Diesel: "diesel", "Diesel";
});

/// How the air comes in.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Induction {
    /// The engine breathes on its own.
    Natural,
    /// A turbocharger.
    Turbocharger,
    /// A blower driven by the crank.
    Supercharger,
}
crate::choice!(Induction {
    Natural: "natural", "Breathes on its own";
    Turbocharger: "turbocharger", "Turbocharger";
    Supercharger: "supercharger", "Blower driven by the crank";
});
crate::choice!(FuelSystem {
    Carburettor: "carburettor", "Carburettor, or mechanical injection with an air plate";
    SpeedDensity: "speed-density", "Injection by manifold pressure and speed";
    MassFlow: "air-meter", "Injection by an air meter";
});

/// The least compression ratio that lights diesel fuel, glow plugs included (from memory: 14 and more).
const LEAST_DIESEL: f64 = 12.0;
/// The most that petrol stands without knocking at any load (from memory: 13 or 14).
const MOST_PETROL: f64 = 16.0;

/// What the engine's water jackets are made of.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum EngineMetal {
    /// Cast iron.
    Iron,
    /// Cast aluminium.
    Aluminium,
}
crate::choice!(EngineMetal {
    Iron: "iron", "Cast iron";
    Aluminium: "aluminium", "Cast aluminium";
});

/// The engine.
#[derive(Clone, Debug, PartialEq)]
pub struct EngineInputs {
    /// What it burns.
    pub fuel: EngineFuel,
    /// How the fuel of a petrol engine is metered.
    pub mixture: FuelSystem,
    /// Air meter: where the fresh air of a closed crankcase is taken.
    pub fresh_air: FreshAirTaken,
    /// How the air comes in.
    pub induction: Induction,
    /// Boost at full throttle, above the ambient.
    pub boost: Option<Estimate<GaugePressure>>,
    /// Whether a cooler sits behind the blower.
    pub charge_cooler: bool,
    /// Share of the way down to the outside air that it takes.
    pub cooler: Option<Estimate<Ratio>>,
    /// Number of cylinders.
    pub cylinders: u32,
    /// Cylinder bore.
    pub bore: Length,
    /// Stroke.
    pub stroke: Length,
    /// Connecting rod between centres.
    pub rod: Length,
    /// Compression ratio.
    pub compression_ratio: Ratio,
    /// What the block is made of.
    pub block_metal: EngineMetal,
    /// What the heads are made of.
    pub head_metal: EngineMetal,
    /// Pump flow for each 1000 rpm.
    pub pump_flow: Option<Estimate<VolumeRate>>,
}

static ENGINE: Label = Label::new("engine", "Engine", "A four-stroke: petrol or diesel, with a blower or without.");
static FUEL: Label = Label::new("fuel", "Fuel", "A diesel has no throttle: its manifold draws next to nothing.");
static MIXTURE: Label = Label::new(
    "mixture",
    "Mixture",
    "How the fuel is metered: what the valve passes upsets the idle of each in its own way.",
);
static INDUCTION: Label =
    Label::new("induction", "Air", "A blower presses more gas past the rings, and shuts the valve to the manifold.");
static BOOST: Field = Field::new(
    "boost",
    "Boost at full throttle",
    Kind::GaugePressure,
    (5e3, 240e3),
    "Above the ambient, as a boost gauge shows it; a manifold pressure entered at a duty goes before it.",
    "a boost gauge counts from the ambient air",
);
static CHARGE_COOLER: Label =
    Label::new("charge_cooler", "Charge cooler", "A cooler between blower and manifold: cooler charge is denser.");
static COOLER: Field = Field::new(
    "cooler",
    "Effectiveness of the charge cooler",
    Kind::Share,
    (0.05, 0.98),
    "Share of the way from the blower's outlet down to the outside air.",
    "",
);
static CYLINDERS: Count =
    Count { label: Label::new("cylinders", "Cylinders", "Number of cylinders."), low: 1, high: 16 };
static BORE: Field = Field::new(
    "bore",
    "Cylinder bore",
    Kind::Length,
    (0.03, 0.2),
    "Bore of the cylinders.",
    "look it up or measure it",
);
static STROKE: Field =
    Field::new("stroke", "Stroke", Kind::Length, (0.03, 0.25), "Stroke of the crank.", "look it up or measure it");
static ROD: Field = Field::new(
    "rod",
    "Connecting rod",
    Kind::Length,
    (0.05, 0.5),
    "Length between centres.",
    "it is longer than the stroke; about 1.7 strokes if not known",
);
static RATIO: Field = Field::new(
    "compression_ratio",
    "Compression ratio",
    Kind::Number,
    (5.0, 24.0),
    "Of the engine as built.",
    "petrol engines run 7 to 13, diesels 15 to 22",
);
static BLOCK_METAL: Label = Label::new("block_metal", "Block", "What the block is cast in.");
static HEAD_METAL: Label = Label::new("head_metal", "Heads", "What the heads are cast in.");
static PUMP: Field = Field::new(
    "pump_flow",
    "Pump flow per 1000 rpm",
    Kind::CoolantFlow,
    (0.02e-3, 3e-3),
    "Flow of the coolant pump with the thermostat open, for each 1000 rpm of the engine.",
    "",
);

impl Default for EngineInputs {
    fn default() -> Self {
        let millimetres = |mm: f64| Length::from_base(mm * 1e-3);
        Self {
            fuel: EngineFuel::Petrol,
            mixture: FuelSystem::Carburettor,
            fresh_air: FreshAirTaken::BehindMeter,
            induction: Induction::Natural,
            boost: None,
            charge_cooler: false,
            cooler: None,
            cylinders: 8,
            bore: millimetres(100.0),
            stroke: millimetres(79.6),
            rod: millimetres(150.0),
            compression_ratio: Ratio::from_base(9.0),
            block_metal: EngineMetal::Iron,
            head_metal: EngineMetal::Iron,
            pump_flow: None,
        }
    }
}

impl EngineInputs {
    pub(super) fn visit(&mut self, visitor: &mut impl Visitor) {
        visitor.group(&ENGINE, |v| {
            v.choice_or(&FUEL, &mut self.fuel, EngineFuel::Petrol);
            if !self.is_diesel() {
                v.choice_or(&MIXTURE, &mut self.mixture, FuelSystem::Carburettor);
                if self.mixture == FuelSystem::MassFlow {
                    mixture::visit(&mut self.fresh_air, v);
                }
            }
            v.choice_or(&INDUCTION, &mut self.induction, Induction::Natural);
            if self.is_boosted() {
                let boost = defaults::boost(self);
                v.estimate(&BOOST, &mut self.boost, boost);
                v.switch(&CHARGE_COOLER, &mut self.charge_cooler);
                if self.charge_cooler {
                    v.estimate(&COOLER, &mut self.cooler, defaults::cooler_effectiveness());
                }
            }
            v.count(&CYLINDERS, &mut self.cylinders);
            v.quantity(&BORE, &mut self.bore);
            v.quantity(&STROKE, &mut self.stroke);
            v.quantity(&ROD, &mut self.rod);
            v.quantity(&RATIO, &mut self.compression_ratio);
            v.choice(&BLOCK_METAL, &mut self.block_metal);
            v.choice(&HEAD_METAL, &mut self.head_metal);
            let default = defaults::pump_flow(self);
            v.estimate(&PUMP, &mut self.pump_flow, default);
        });
    }

    /// Whether it burns diesel fuel.
    #[must_use]
    pub const fn is_diesel(&self) -> bool {
        matches!(self.fuel, EngineFuel::Diesel)
    }

    /// Whether a blower of either kind fills it.
    #[must_use]
    pub const fn is_boosted(&self) -> bool {
        !matches!(self.induction, Induction::Natural)
    }

    /// What no single range can tell.
    pub(super) fn check(&self, checker: &mut Checker) {
        let ratio = self.compression_ratio.base();
        if self.is_diesel() && ratio < LEAST_DIESEL {
            let message = format!(
                "a compression ratio of {ratio} does not light diesel fuel, which takes {LEAST_DIESEL} or more: check the \
                 ratio, or choose petrol"
            );
            checker.fault("engine.compression_ratio", message);
        } else if !self.is_diesel() && ratio > MOST_PETROL {
            let message = format!(
                "a compression ratio of {ratio} is above the {MOST_PETROL} that petrol stands: check the ratio, or choose \
                 diesel"
            );
            checker.fault("engine.compression_ratio", message);
        }
    }

    /// Swept volume of all cylinders, m³.
    pub(crate) fn swept(&self) -> f64 {
        let bore = self.bore.base();
        std::f64::consts::FRAC_PI_4 * bore * bore * self.stroke.base() * f64::from(self.cylinders)
    }
}
