//! The coolant side: what is in the system, how much, behind which cap.

use super::engine::EngineInputs;
use crate::fluid::{Base, Basis};
use crate::quantity::si::{
    HeatCapacity, Length, Pressure, Ratio, TemperatureInterval, ThermalConductance, ThermodynamicTemperature, Volume,
};
use crate::quantity::{Estimate, GaugePressure, Kind, Measured, Swell, celsius};
use crate::study::defaults;
use crate::study::{Field, Label, Visitor};

crate::choice!(Base {
    Water: "water", "Plain water";
    EthyleneGlycol: "ethylene-glycol", "Ethylene glycol and water";
    PropyleneGlycol: "propylene-glycol", "Propylene glycol and water";
});
crate::choice!(Basis {
    ByVolume: "volume", "By volume, before mixing";
    ByMass: "mass", "By mass";
});

/// The coolant.
#[derive(Clone, Debug, PartialEq)]
pub struct CoolantInputs {
    /// What it is made of.
    pub base: Base,
    /// Share of glycol; not asked for plain water, and kept while it is chosen.
    pub glycol_share: Ratio,
    /// How the share is counted.
    pub basis: Basis,
}

static COOLANT: Label = Label::new("coolant", "Coolant", "The liquid in the system.");
static BASE: Label = Label::new("base", "Made of", "The label on the jug names the glycol.");
static BASIS: Label =
    Label::new("by", "Share counted", "Jugs are mixed by volume; test strips and refractometers vary.");
static SHARE: Field = Field::new(
    "glycol_share",
    "Glycol share",
    Kind::Share,
    (0.0, 0.7),
    "Share of glycol itself. Concentrate from a jug is about 95 % glycol by mass, so half concentrate and half water is near 48 %.",
    "mix at most 70 % glycol; above that freezing and boiling get worse again",
);

impl Default for CoolantInputs {
    fn default() -> Self {
        Self { base: Base::EthyleneGlycol, glycol_share: Ratio::from_base(0.5), basis: Basis::ByVolume }
    }
}

impl CoolantInputs {
    pub(super) fn visit(&mut self, visitor: &mut impl Visitor) {
        visitor.group(&COOLANT, |v| {
            v.choice(&BASE, &mut self.base);
            // The share is kept for the day the builder goes back to glycol.
            if self.base != Base::Water {
                v.quantity(&SHARE, &mut self.glycol_share);
                v.choice(&BASIS, &mut self.basis);
            }
        });
    }
}

/// How the system's volume is known.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum VolumeKnowledge {
    /// Measured whole: what went in at the first fill.
    Measured,
    /// Added up from its parts.
    BuiltUp,
}
crate::choice!(VolumeKnowledge {
    Measured: "measured", "Measured whole, at a fill";
    BuiltUp: "built-up", "Added up from its parts";
});

/// What the radiator is made of.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum RadiatorMetal {
    /// Aluminium.
    Aluminium,
    /// Copper and brass.
    CopperBrass,
}
crate::choice!(RadiatorMetal {
    Aluminium: "aluminium", "Aluminium";
    CopperBrass: "copper-brass", "Copper and brass";
});

/// One run of coolant hose.
#[derive(Clone, Debug, PartialEq)]
pub struct HoseRunInputs {
    /// Inside diameter.
    pub bore: Length,
    /// Length.
    pub length: Length,
}

/// The closed part of the coolant system: engine, radiator, heater and hoses, without the tank.
#[derive(Clone, Debug, PartialEq)]
pub struct CircuitInputs {
    /// How the volume is known.
    pub knowledge: VolumeKnowledge,
    /// What went in, when measured whole.
    pub total: Volume,
    /// Share of it in the engine.
    pub engine_share: Option<Estimate<Ratio>>,
    /// Share of it in the radiator; the rest is heater and hoses.
    pub radiator_share: Option<Estimate<Ratio>>,
    /// Water jacket of the block, when built up.
    pub block: Volume,
    /// Water jackets of the heads.
    pub heads: Volume,
    /// Radiator with its tanks.
    pub radiator: Volume,
    /// Heater core.
    pub heater: Volume,
    /// What the radiator is made of.
    pub radiator_metal: RadiatorMetal,
    /// Air left after filling and bleeding.
    pub trapped_air: Option<Estimate<Volume>>,
    /// Growth of the hoses under pressure.
    pub hose_swell: Option<Estimate<Swell>>,
    /// How much hotter than the outlet the hottest passage is.
    pub local_excess: Option<Estimate<TemperatureInterval>>,
    /// Temperature of the metal around the coolant when the engine stops.
    pub hot_metal_temperature: Option<Estimate<ThermodynamicTemperature>>,
    /// Heat capacity of that metal.
    pub hot_metal_capacity: Option<Estimate<HeatCapacity>>,
    /// Conductance from that metal to the coolant, at the pump's flow at 3000 rpm.
    pub metal_conductance: Option<Estimate<ThermalConductance>>,
    /// Hose runs, when built up.
    pub hoses: Vec<HoseRunInputs>,
}

static CIRCUIT: Label =
    Label::new("circuit", "Cooling system", "Engine, radiator, heater and hoses, without the tank.");
static KNOWLEDGE: Label =
    Label::new("volume_known", "Volume known", "Measuring what goes in at a fill beats adding up.");
static TOTAL: Field = Field::new(
    "total",
    "Volume of the system",
    Kind::Volume,
    (0.5e-3, 60e-3),
    "What went in when the dry system was filled and bled, without the tank.",
    "measure it: fill from a marked jug",
);
static ENGINE_SHARE: Field = Field::new(
    "engine_share",
    "Share in the engine",
    Kind::Share,
    (0.1, 0.8),
    "The engine's water jackets as a share of the whole.",
    "engine and radiator together cannot hold more than all of it",
);
static RADIATOR_SHARE: Field = Field::new(
    "radiator_share",
    "Share in the radiator",
    Kind::Share,
    (0.05, 0.8),
    "The radiator as a share of the whole; the rest is heater and hoses.",
    "engine and radiator together cannot hold more than all of it",
);
static BLOCK: Field =
    Field::new("block", "Block", Kind::Volume, (0.05e-3, 30e-3), "Water jacket of the block.", "measure it with a jug");
static HEADS: Field =
    Field::new("heads", "Heads", Kind::Volume, (0.0, 15e-3), "Water jackets of all heads.", "measure it with a jug");
static RADIATOR: Field = Field::new(
    "radiator",
    "Radiator",
    Kind::Volume,
    (0.1e-3, 20e-3),
    "Radiator with its end tanks.",
    "measure it with a jug",
);
static HEATER: Field = Field::new("heater", "Heater core", Kind::Volume, (0.0, 5e-3), "Zero without a heater.", "");
static HOSES: Label = Label::new("hoses", "Hose run", "Each coolant hose by bore and length.");
static HOSE_BORE: Field =
    Field::new("bore", "Hose bore", Kind::Length, (0.003, 0.08), "Inside diameter.", "measure the inside of the hose");
static HOSE_LENGTH: Field =
    Field::new("length", "Hose length", Kind::Distance, (0.01, 20.0), "Along the hose.", "measure along the hose");
static METAL: Label = Label::new("radiator_metal", "Radiator made of", "It grows a little as it warms.");
static TRAPPED_AIR: Field = Field::new(
    "trapped_air",
    "Trapped air",
    Kind::Volume,
    (0.0, 5e-3),
    "Air left in the system after filling and bleeding.",
    "bleed again if more than a litre is left",
);
static SWELL: Field = Field::new(
    "hose_swell",
    "Hose swell",
    Kind::Swell,
    (0.0, 2e-6),
    "By how much the hoses grow in volume under pressure.",
    "soft hoses swell up to 6 % per bar",
);
static METAL_TEMPERATURE: Field = Field::new(
    "hot_metal_temperature",
    "Hot metal at a hot stop",
    Kind::Temperature,
    (353.15, 523.15),
    "Temperature of the metal around the coolant when the engine stops: about 150 °C, 185 °C after hard running.",
    "",
);
static METAL_CAPACITY: Field = Field::new(
    "hot_metal_capacity",
    "Heat capacity of that metal",
    Kind::HeatCapacity,
    (0.1e3, 100e3),
    "Ports, chambers and liners that are hotter than the coolant: about 2.5 kJ/K for each litre of displacement.",
    "",
);
static METAL_CONDUCTANCE: Field = Field::new(
    "metal_conductance",
    "Conductance from metal to coolant",
    Kind::HeatConductance,
    (2.0, 10e3),
    "Chambers and ports to coolant at the pump's flow at 3000 rpm: about 200 W/K for each litre of displacement.",
    "",
);
static LOCAL_EXCESS: Field = Field::new(
    "local_excess",
    "Hottest passage above outlet",
    Kind::TemperatureDifference,
    (0.0, 40.0),
    "Coolant beside the exhaust ports is hotter than where it leaves the engine.",
    "",
);

impl Default for HoseRunInputs {
    fn default() -> Self {
        Self { bore: Length::from_base(0.038), length: Length::from_base(0.5) }
    }
}

impl Default for CircuitInputs {
    fn default() -> Self {
        let litres = |l: f64| Volume::from_base(l * 1e-3);
        Self {
            knowledge: VolumeKnowledge::Measured,
            total: litres(15.0),
            engine_share: None,
            radiator_share: None,
            block: litres(5.0),
            heads: litres(2.5),
            radiator: litres(5.0),
            heater: litres(1.0),
            radiator_metal: RadiatorMetal::Aluminium,
            trapped_air: None,
            hose_swell: None,
            local_excess: None,
            hot_metal_temperature: None,
            hot_metal_capacity: None,
            metal_conductance: None,
            hoses: vec![HoseRunInputs::default()],
        }
    }
}

impl CircuitInputs {
    /// The metal's defaults follow from the engine.
    pub(super) fn visit(&mut self, engine: &EngineInputs, visitor: &mut impl Visitor) {
        visitor.group(&CIRCUIT, |v| {
            v.choice(&KNOWLEDGE, &mut self.knowledge);
            if self.knowledge == VolumeKnowledge::Measured {
                v.quantity(&TOTAL, &mut self.total);
                v.estimate(&ENGINE_SHARE, &mut self.engine_share, defaults::engine_share());
                v.estimate(&RADIATOR_SHARE, &mut self.radiator_share, defaults::radiator_share());
            } else {
                v.quantity(&BLOCK, &mut self.block);
                v.quantity(&HEADS, &mut self.heads);
                v.quantity(&RADIATOR, &mut self.radiator);
                v.quantity(&HEATER, &mut self.heater);
            }
            v.choice(&METAL, &mut self.radiator_metal);
            v.estimate(&TRAPPED_AIR, &mut self.trapped_air, defaults::trapped_air());
            v.estimate(&SWELL, &mut self.hose_swell, defaults::hose_swell());
            v.estimate(&LOCAL_EXCESS, &mut self.local_excess, defaults::local_excess());
            v.estimate(&METAL_TEMPERATURE, &mut self.hot_metal_temperature, defaults::hot_metal_temperature());
            v.estimate(&METAL_CAPACITY, &mut self.hot_metal_capacity, defaults::hot_metal_capacity(engine));
            v.estimate(&METAL_CONDUCTANCE, &mut self.metal_conductance, defaults::metal_conductance(engine));
            if self.knowledge == VolumeKnowledge::BuiltUp {
                v.list(&HOSES, &mut self.hoses, |hose, v| {
                    v.quantity(&HOSE_BORE, &mut hose.bore);
                    v.quantity(&HOSE_LENGTH, &mut hose.length);
                });
            }
        });
    }
}

/// How well the cap still seals.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum CapCondition {
    /// New, or proved on a tester.
    New,
    /// In use for years, never tested.
    Worn,
}
crate::choice!(CapCondition {
    New: "new", "New, or proved on a tester";
    Worn: "worn", "In use for years, never tested";
});

/// The pressure cap.
#[derive(Clone, Debug, PartialEq)]
pub struct CapInputs {
    /// Stamped opening pressure.
    pub opening: GaugePressure,
    /// How well it still seals.
    pub condition: CapCondition,
    /// Depression at which the vacuum valve opens.
    pub vacuum_opening: Option<Estimate<Pressure>>,
}

static CAP: Label =
    Label::new("cap", "Pressure cap", "Opens above its pressure and, on cooling, lets coolant or air back.");
static OPENING: Field = Field::new(
    "opening",
    "Cap opening pressure",
    Kind::GaugePressure,
    (5e3, 250e3),
    "Stamped on the cap; a figure such as 13 or 0.9 is psi or bar.",
    "read the stamp on the cap",
);
static CONDITION: Label =
    Label::new("condition", "Cap condition", "Old caps open early. The margin is judged at the low end.");
static VACUUM: Field = Field::new(
    "vacuum_opening",
    "Vacuum valve opens at",
    Kind::PressureDifference,
    (0.0, 30e3),
    "Depression at which the small valve in the cap lets coolant back.",
    "usual valves open at 1 to 10 kPa",
);

impl Default for CapInputs {
    fn default() -> Self {
        Self { opening: GaugePressure::from_base(90e3), condition: CapCondition::New, vacuum_opening: None }
    }
}

impl CapInputs {
    pub(super) fn visit(&mut self, visitor: &mut impl Visitor) {
        visitor.group(&CAP, |v| {
            v.quantity(&OPENING, &mut self.opening);
            v.choice(&CONDITION, &mut self.condition);
            v.estimate(&VACUUM, &mut self.vacuum_opening, defaults::vacuum_opening());
        });
    }
}

/// The thermostat.
#[derive(Clone, Debug, PartialEq)]
pub struct ThermostatInputs {
    /// Temperature at which it starts to open.
    pub set_point: ThermodynamicTemperature,
    /// From starting to open to fully open.
    pub span: Option<Estimate<TemperatureInterval>>,
    /// How much lower it closes than it opens.
    pub closing_lag: Option<Estimate<TemperatureInterval>>,
    /// Share of the loop's flow resistance in the wide open thermostat.
    pub resistance_share: Option<Estimate<Ratio>>,
}

static THERMOSTAT: Label = Label::new(
    "thermostat",
    "Thermostat",
    "Holds the engine near its set-point while the radiator has capacity to spare.",
);
static SET_POINT: Field = Field::new(
    "set_point",
    "Thermostat set-point",
    Kind::Temperature,
    (323.15, 383.15),
    "The temperature stamped on it, where it starts to open.",
    "common ones are 71 to 91 °C (160 to 195 °F)",
);
static SPAN: Field = Field::new(
    "span",
    "Span to fully open",
    Kind::TemperatureDifference,
    (1.0, 30.0),
    "From starting to open to fully open.",
    "watch it in a pot of hot water with a thermometer",
);

static CLOSING_LAG: Field = Field::new(
    "closing_lag",
    "Closes lower by",
    Kind::TemperatureDifference,
    (0.0, 8.0),
    "On its way down it follows the opening it had when so much hotter.",
    "2 to 4 K is usual",
);
static RESISTANCE: Field = Field::new(
    "resistance_share",
    "Share of the flow resistance",
    Kind::Share,
    (0.02, 1.0),
    "Of the wide open thermostat in the whole loop: the less, the more flows through a half open one.",
    "10 to 60 % is usual; 100 % lets through what it is open",
);

impl Default for ThermostatInputs {
    fn default() -> Self {
        Self { set_point: celsius(82.0), span: None, closing_lag: None, resistance_share: None }
    }
}

impl ThermostatInputs {
    pub(super) fn visit(&mut self, visitor: &mut impl Visitor) {
        visitor.group(&THERMOSTAT, |v| {
            v.quantity(&SET_POINT, &mut self.set_point);
            v.estimate(&SPAN, &mut self.span, defaults::thermostat_span());
            v.estimate(&CLOSING_LAG, &mut self.closing_lag, defaults::thermostat_closing_lag());
            v.estimate(&RESISTANCE, &mut self.resistance_share, defaults::thermostat_resistance_share());
        });
    }
}
