//! The radiator and what is known of it.

use super::{CoreInputs, FanInputs};
use crate::heat::FanSwitch;
use crate::quantity::si::{
    AngularVelocity, Area, Length, Power, Ratio, TemperatureInterval, ThermalConductance, ThermodynamicTemperature,
    Velocity,
};
use crate::quantity::{Estimate, Kind, Measured, celsius};
use crate::study::check::Checker;
use crate::study::project::RadiatorMetal;
use crate::study::{Field, Label, Visitor, defaults};

/// How the radiator is known.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum RadiatorKnowledge {
    /// From its size, by estimate.
    Estimated,
    /// From one steady temperature measured in the car.
    MeasuredPoint,
    /// From the sizes of its core.
    Core,
}
crate::choice!(RadiatorKnowledge {
    Estimated: "estimated", "Estimated from figures";
    MeasuredPoint: "measured-point", "One steady temperature measured in the car";
    Core: "core", "The core's tubes and fins";
});

/// The radiator and the air through it.
#[derive(Clone, Debug, PartialEq)]
pub struct RadiatorInputs {
    /// How it is known.
    pub knowledge: RadiatorKnowledge,
    /// Frontal area of the core, unless its sizes are known: see [`RadiatorInputs::face`].
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
    /// The core's sizes.
    pub core: CoreInputs,
    /// The fan, when its curve is known.
    pub fan: FanInputs,
    /// Air speed at the face from the radiator's own heat.
    pub draught: Option<Estimate<Velocity>>,
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
    "Heat carried for each kelvin between coolant and air, at 5 m/s of air at the face and the pump's flow at 3000 rpm.",
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
static DRAUGHT: Field = Field::new(
    "draught",
    "Face air speed from its own heat",
    Kind::GasSpeed,
    (0.0, 2.0),
    "What a hot radiator draws through itself, the car standing and the fan off.",
    "0.05 to 0.3 m/s; 0 leaves it out, which errs to the hot side",
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
            core: CoreInputs::default(),
            fan: FanInputs::default(),
            draught: None,
            recirculation: None,
        }
    }
}

impl RadiatorInputs {
    /// Frontal area of the core.
    #[must_use]
    pub fn face(&self) -> Area {
        match self.knowledge {
            RadiatorKnowledge::Core => self.core.face(),
            RadiatorKnowledge::Estimated | RadiatorKnowledge::MeasuredPoint => self.frontal_area,
        }
    }

    /// Depth of the core, if known.
    #[must_use]
    pub fn depth(&self) -> Option<Length> {
        (self.knowledge == RadiatorKnowledge::Core).then_some(self.core.depth)
    }

    /// What no single range can tell.
    pub(in crate::study::project) fn check(
        &self,
        metal: RadiatorMetal,
        set_point: ThermodynamicTemperature,
        checker: &mut Checker,
    ) {
        if self.knowledge == RadiatorKnowledge::Core
            && let Err(error) = self.core.matrix(metal).check()
        {
            checker.fault("radiator.core", error.to_string());
        }
        if !self.fan.known {
            return;
        }
        if let Err(error) = self.fan.physics() {
            checker.fault("radiator.fan.curve", error.to_string());
        }
        if self.fan.is_switched() {
            let (on, off) = self.fan.switches(set_point);
            if let Err(error) = (FanSwitch { on: on.likely, off: off.likely }).check() {
                checker.fault("radiator.fan.switch_off", error.to_string());
            }
        }
    }

    /// `set_point` is the thermostat's, near which a fan is switched.
    pub(in crate::study::project) fn visit(&mut self, set_point: ThermodynamicTemperature, visitor: &mut impl Visitor) {
        visitor.group(&RADIATOR, |v| {
            v.choice(&KNOWLEDGE, &mut self.knowledge);
            if self.knowledge != RadiatorKnowledge::Core {
                v.quantity(&AREA, &mut self.frontal_area);
            }
            match self.knowledge {
                RadiatorKnowledge::Core => {}
                RadiatorKnowledge::Estimated => {
                    let default = defaults::radiator_conductance(self.frontal_area);
                    v.estimate(&CONDUCTANCE, &mut self.conductance, default);
                }
                RadiatorKnowledge::MeasuredPoint => {
                    v.quantity(&MEASURED_COOLANT, &mut self.measured_coolant);
                    v.quantity(&MEASURED_AIR, &mut self.measured_air);
                    v.quantity(&MEASURED_SPEED, &mut self.measured_speed);
                    v.quantity(&MEASURED_POWER, &mut self.measured_power);
                    v.quantity(&MEASURED_RPM, &mut self.measured_rpm);
                }
            }
            v.estimate(&RAM, &mut self.ram_share, defaults::ram_share());
            if !self.fan.known {
                v.estimate(&FAN, &mut self.fan_speed, defaults::fan_speed());
            }
            v.estimate(&DRAUGHT, &mut self.draught, defaults::draught());
            v.estimate(&RECIRCULATION, &mut self.recirculation, defaults::recirculation());
            // Last, so that their tables in a file do not swallow the other keys.
            if self.knowledge == RadiatorKnowledge::Core {
                self.core.visit(v);
            }
            self.fan.visit(set_point, self.depth(), v);
        });
    }
}
