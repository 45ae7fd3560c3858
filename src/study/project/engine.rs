//! The engine, the radiator and the duty points they are judged at.

use super::mixture::{self, FreshAirTaken, MixturePreparation};
use crate::quantity::si::{
    AngularVelocity, Area, Length, Power, Pressure, Ratio, TemperatureInterval, ThermalConductance,
    ThermodynamicTemperature, Velocity, VolumeRate,
};
use crate::quantity::{AbsolutePressure, Estimate, Kind, Measured, celsius};
use crate::study::{Count, Duty, Field, Label, Visitor, defaults};

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
    /// How the mixture is made.
    pub mixture: MixturePreparation,
    /// Air meter: where the fresh air of a closed crankcase is taken.
    pub fresh_air: FreshAirTaken,
}

static ENGINE: Label = Label::new("engine", "Engine", "A petrol engine that breathes on its own.");
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
    (5.0, 16.0),
    "Of the engine as built.",
    "petrol engines run 7 to 13",
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
            cylinders: 8,
            bore: millimetres(100.0),
            stroke: millimetres(79.6),
            rod: millimetres(150.0),
            compression_ratio: Ratio::from_base(9.0),
            block_metal: EngineMetal::Iron,
            head_metal: EngineMetal::Iron,
            pump_flow: None,
            mixture: MixturePreparation::Carburettor,
            fresh_air: FreshAirTaken::BehindMeter,
        }
    }
}

impl EngineInputs {
    pub(super) fn visit(&mut self, visitor: &mut impl Visitor) {
        visitor.group(&ENGINE, |v| {
            v.count(&CYLINDERS, &mut self.cylinders);
            v.quantity(&BORE, &mut self.bore);
            v.quantity(&STROKE, &mut self.stroke);
            v.quantity(&ROD, &mut self.rod);
            v.quantity(&RATIO, &mut self.compression_ratio);
            v.choice(&BLOCK_METAL, &mut self.block_metal);
            v.choice(&HEAD_METAL, &mut self.head_metal);
            let default = defaults::pump_flow(self);
            v.estimate(&PUMP, &mut self.pump_flow, default);
            mixture::visit(&mut self.mixture, &mut self.fresh_air, v);
        });
    }

    /// Swept volume of all cylinders, m³.
    pub(crate) fn swept(&self) -> f64 {
        let bore = self.bore.base();
        std::f64::consts::FRAC_PI_4 * bore * bore * self.stroke.base() * f64::from(self.cylinders)
    }
}

/// How the radiator is known.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum RadiatorKnowledge {
    /// From its size, by estimate.
    Estimated,
    /// From one steady temperature measured in the car.
    MeasuredPoint,
}
crate::choice!(RadiatorKnowledge {
    Estimated: "estimated", "Estimated from figures";
    MeasuredPoint: "measured-point", "One steady temperature measured in the car";
});

/// The radiator and the air through it.
#[derive(Clone, Debug, PartialEq)]
pub struct RadiatorInputs {
    /// How it is known.
    pub knowledge: RadiatorKnowledge,
    /// Frontal area of the core.
    pub frontal_area: Area,
    /// Heat conductance at 5 m/s of air at the face.
    pub conductance: Option<Estimate<ThermalConductance>>,
    /// Measured: the coolant's steady temperature.
    pub measured_coolant: ThermodynamicTemperature,
    /// Measured: the air's temperature.
    pub measured_air: ThermodynamicTemperature,
    /// Measured: the road speed.
    pub measured_speed: Velocity,
    /// Measured: the engine's power, from speed and gradient.
    pub measured_power: Power,
    /// Measured: the engine's speed.
    pub measured_rpm: AngularVelocity,
    /// Air speed at the face over road speed.
    pub ram_share: Option<Estimate<Ratio>>,
    /// Air speed at the face from the fan alone.
    pub fan_speed: Option<Estimate<Velocity>>,
    /// Warming of the air by its own recirculation at a standstill.
    pub recirculation: Option<Estimate<TemperatureInterval>>,
}

static RADIATOR: Label =
    Label::new("radiator", "Radiator", "Carries the heat away; when it is too small no thermostat helps.");
static KNOWLEDGE: Label =
    Label::new("known_from", "Known from", "One steady measured temperature beats every estimate.");
static AREA: Field = Field::new(
    "frontal_area",
    "Frontal area of the core",
    Kind::Area,
    (0.01, 2.0),
    "Width times height of the finned core.",
    "measure the core",
);
static CONDUCTANCE: Field = Field::new(
    "conductance",
    "Heat conductance at 5 m/s",
    Kind::HeatConductance,
    (50.0, 10_000.0),
    "Heat carried for each kelvin between coolant and air, at 5 m/s of air at the face.",
    "",
);
static MEASURED_COOLANT: Field = Field::new(
    "measured_coolant",
    "Steady coolant temperature",
    Kind::Temperature,
    (323.15, 398.15),
    "Where it settled, thermostat fully open.",
    "it must be well above the thermostat's set-point, else the thermostat ruled and not the radiator",
);
static MEASURED_AIR: Field =
    Field::new("measured_air", "Air temperature then", Kind::Temperature, (253.15, 328.15), "In the shade.", "");
static MEASURED_SPEED: Field =
    Field::new("measured_speed", "Road speed then", Kind::RoadSpeed, (0.0, 83.4), "Steady.", "");
static MEASURED_POWER: Field = Field::new(
    "measured_power",
    "Engine power then",
    Kind::Power,
    (0.0, 500e3),
    "Estimated from speed and gradient.",
    "",
);
static MEASURED_RPM: Field =
    Field::new("measured_rpm", "Engine speed then", Kind::RotationalSpeed, (40.0, 1300.0), "Steady.", "");
static RAM: Field = Field::new(
    "ram_share",
    "Face air speed over road speed",
    Kind::Share,
    (0.0, 0.5),
    "How much of the road speed arrives at the core.",
    "open grilles reach 25 %, closed noses 8 %",
);
static FAN: Field = Field::new(
    "fan_speed",
    "Face air speed from the fan",
    Kind::GasSpeed,
    (0.0, 10.0),
    "Fan alone, standing car; zero without a fan.",
    "",
);
static RECIRCULATION: Field = Field::new(
    "recirculation",
    "Air warmed at standstill",
    Kind::TemperatureDifference,
    (0.0, 40.0),
    "Hot air that comes round again to the face when the car stands.",
    "",
);

impl Default for RadiatorInputs {
    fn default() -> Self {
        Self {
            knowledge: RadiatorKnowledge::Estimated,
            frontal_area: Area::from_base(0.30),
            conductance: None,
            measured_coolant: celsius(95.0),
            measured_air: celsius(25.0),
            measured_speed: Velocity::from_base(22.0),
            measured_power: Power::from_base(40e3),
            measured_rpm: AngularVelocity::from_base(314.159_265_358_979_3),
            ram_share: None,
            fan_speed: None,
            recirculation: None,
        }
    }
}

impl RadiatorInputs {
    pub(super) fn visit(&mut self, visitor: &mut impl Visitor) {
        visitor.group(&RADIATOR, |v| {
            v.choice(&KNOWLEDGE, &mut self.knowledge);
            v.quantity(&AREA, &mut self.frontal_area);
            if self.knowledge == RadiatorKnowledge::Estimated {
                let default = defaults::radiator_conductance(self.frontal_area);
                v.estimate(&CONDUCTANCE, &mut self.conductance, default);
            } else {
                v.quantity(&MEASURED_COOLANT, &mut self.measured_coolant);
                v.quantity(&MEASURED_AIR, &mut self.measured_air);
                v.quantity(&MEASURED_SPEED, &mut self.measured_speed);
                v.quantity(&MEASURED_POWER, &mut self.measured_power);
                v.quantity(&MEASURED_RPM, &mut self.measured_rpm);
            }
            v.estimate(&RAM, &mut self.ram_share, defaults::ram_share());
            v.estimate(&FAN, &mut self.fan_speed, defaults::fan_speed());
            v.estimate(&RECIRCULATION, &mut self.recirculation, defaults::recirculation());
        });
    }
}

/// One state of driving.
#[derive(Clone, Debug, PartialEq)]
pub struct DutyInputs {
    /// Engine speed.
    pub rpm: AngularVelocity,
    /// Brake power.
    pub power: Power,
    /// Road speed.
    pub road_speed: Velocity,
    /// Manifold pressure, if a gauge has shown it.
    pub manifold: Option<AbsolutePressure>,
}

/// The five duty points.
#[derive(Clone, Debug, PartialEq)]
pub struct DutyPoints {
    /// In the order of [`Duty::ALL`](crate::study::Duty).
    pub points: [DutyInputs; 5],
    /// Depression behind the air filter at full throttle.
    pub filter_depression: Option<Estimate<Pressure>>,
}

static DUTIES: Label = Label::new("duty", "Duty points", "The five states of driving everything is judged at.");
static DUTY_LABELS: [Label; 5] = [
    Label::new("idle", "Idle", "Standing in traffic, fan running."),
    Label::new("cruise", "Cruise", "Steady on the level."),
    Label::new("hill", "Hill", "A long climb."),
    Label::new("full_throttle", "Full throttle", "Held until the temperatures settle, the hardest case."),
    Label::new("overrun", "Overrun", "Throttle shut, car pushing the engine."),
];
static RPM: Field =
    Field::new("rpm", "Engine speed", Kind::RotationalSpeed, (30.0, 1300.0), "At this duty.", "enter 300 to 12000 rpm");
static POWER: Field =
    Field::new("power", "Brake power", Kind::Power, (0.0, 800e3), "At the flywheel; zero at idle and overrun.", "");
static SPEED: Field = Field::new("road_speed", "Road speed", Kind::RoadSpeed, (0.0, 100.0), "At this duty.", "");
static MANIFOLD: Field = Field::new(
    "manifold_pressure",
    "Manifold pressure, absolute",
    Kind::AbsolutePressure,
    (10e3, 105e3),
    "From a gauge: ambient pressure less the reading of a vacuum gauge.",
    "a vacuum gauge reading must be taken off the ambient pressure first",
);
static FILTER: Field = Field::new(
    "filter_depression",
    "Air filter depression at full throttle",
    Kind::SmallPressureDifference,
    (0.0, 8e3),
    "Below ambient, in the clean side of the air filter.",
    "",
);

impl Default for DutyPoints {
    fn default() -> Self {
        let duty = |rpm: f64, kilowatts: f64, kmh: f64| DutyInputs {
            // Multiplied as the unit is, so that a file shows the round number.
            rpm: AngularVelocity::from_base(rpm * (std::f64::consts::PI / 30.0)),
            power: Power::from_base(kilowatts * 1e3),
            road_speed: Velocity::from_base(kmh / 3.6),
            manifold: None,
        };
        Self {
            points: [
                duty(800.0, 0.0, 0.0),
                duty(2200.0, 18.0, 90.0),
                duty(3000.0, 50.0, 80.0),
                duty(5000.0, 160.0, 160.0),
                duty(3000.0, 0.0, 80.0),
            ],
            filter_depression: None,
        }
    }
}

impl DutyPoints {
    /// The inputs of one duty.
    #[must_use]
    pub fn of(&self, duty: Duty) -> &DutyInputs {
        &self.points[duty.index()]
    }

    pub(super) fn visit(&mut self, visitor: &mut impl Visitor) {
        visitor.group(&DUTIES, |v| {
            v.estimate(&FILTER, &mut self.filter_depression, defaults::filter_depression());
            for (label, point) in DUTY_LABELS.iter().zip(&mut self.points) {
                v.group(label, |v| {
                    v.quantity(&RPM, &mut point.rpm);
                    v.quantity(&POWER, &mut point.power);
                    v.quantity(&SPEED, &mut point.road_speed);
                    v.optional(&MANIFOLD, &mut point.manifold, "estimated from power");
                });
            }
        });
    }
}
