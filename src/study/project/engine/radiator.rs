//! The radiator and what is known of it.

use crate::quantity::si::{
    AngularVelocity, Area, Power, Ratio, TemperatureInterval, ThermalConductance, ThermodynamicTemperature, Velocity,
};
use crate::quantity::{Estimate, Kind, Measured, celsius};
use crate::study::{Field, Label, Visitor, defaults};

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
    pub(in crate::study::project) fn visit(&mut self, visitor: &mut impl Visitor) {
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
