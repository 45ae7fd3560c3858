//! The fan, when its curve is known.

use crate::heat::{FanCurve, FanPoint, HeatError};
use crate::quantity::si::{AngularVelocity, Length, Pressure, Ratio, ThermodynamicTemperature, VolumeRate};
use crate::quantity::{Estimate, Kind, Measured, RPM};
use crate::study::{Count, Field, Label, Visitor, defaults};

/// What drives the fan.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum FanDrive {
    /// A motor of its own.
    Electric,
    /// A belt from the engine.
    Belt,
}
crate::choice!(FanDrive {
    Electric: "electric", "Electric";
    Belt: "belt", "Belt from the engine";
});

/// When an electric fan runs.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum FanControl {
    /// A switch in the coolant decides.
    Switched,
    /// Whenever the engine runs.
    Always,
}
crate::choice!(FanControl {
    Switched: "thermostatic", "By a switch in the coolant";
    Always: "always", "Whenever the engine runs";
});

/// What leads the air from the core to the fan.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Shroud {
    /// A box over the whole core.
    Full,
    /// None: the fan draws through what it covers and a little more.
    None,
}
crate::choice!(Shroud {
    Full: "full", "Over the whole core";
    None: "none", "None, or a narrow ring";
});

/// A fan known by its curve.
#[derive(Clone, Debug, PartialEq)]
pub struct FanInputs {
    /// Whether it is.
    pub known: bool,
    /// What drives it.
    pub drive: FanDrive,
    /// How many of them.
    pub count: u32,
    /// Flow and pressure of one.
    pub curve: Vec<(VolumeRate, Pressure)>,
    /// Electric: when it runs.
    pub control: FanControl,
    /// Switched: where it comes on.
    pub switch_on: Option<Estimate<ThermodynamicTemperature>>,
    /// Switched: where it goes off.
    pub switch_off: Option<Estimate<ThermodynamicTemperature>>,
    /// Belt: fan speed over engine speed.
    pub ratio: Ratio,
    /// Belt: fan speed of the curve.
    pub curve_speed: AngularVelocity,
    /// Belt: the most a slipping clutch lets it turn.
    pub clutch_limit: Option<AngularVelocity>,
    /// What leads the air.
    pub shroud: Shroud,
    /// Without a shroud: diameter of one fan.
    pub diameter: Length,
    /// Without a shroud: area drawn through over area swept.
    pub drawn_over_swept: Option<Estimate<Ratio>>,
    /// Pressure the core takes at 5 m/s.
    pub core_pressure: Option<Estimate<Pressure>>,
    /// Its exponent.
    pub core_exponent: Option<Estimate<Ratio>>,
}

static FAN: Label = Label::new(
    "fan",
    "Fan",
    "By its curve against the core: it then depends on altitude, on shroud and core, and on engine speed with a belt.",
);
static KNOWN: Label =
    Label::new("known", "Fan known by its curve", "Without it the face air speed from the fan is taken as stated.");
static DRIVE: Label = Label::new(
    "drive",
    "Driven by",
    "Keep hands, hair and leads clear: an electric fan may start with the engine off, a belt fan throws what it catches.",
);
static COUNT: Count = Count { label: Label::new("count", "Fans", "Alike, side by side on the core."), low: 1, high: 4 };
static CURVE: Label = Label::new(
    "curve",
    "Fan curve",
    "One fan's air flow and static pressure, from blocked or nearly to free air, at 1.2 kg/m³.",
);
static FLOW: Field = Field::new("flow", "air flow", Kind::FanFlow, (0.0, 5.0), "Of one fan.", "");
static PRESSURE: Field =
    Field::new("pressure", "pressure", Kind::SmallPressureDifference, (0.0, 2000.0), "Static, at that flow.", "");
static CONTROL: Label = Label::new("control", "Runs", "A switch in the radiator's cold side is not reckoned.");
static ON: Field = Field::new(
    "switch_on",
    "Fan comes on at",
    Kind::Temperature,
    (323.15, 398.15),
    "Coolant at the engine's outlet; stamped on many switches.",
    "about 10 K above the thermostat's set-point is usual",
);
static OFF: Field = Field::new(
    "switch_off",
    "Fan goes off at",
    Kind::Temperature,
    (313.15, 393.15),
    "Coolant at the engine's outlet.",
    "about 5 K below where it comes on is usual",
);
static RATIO: Field = Field::new(
    "drive_ratio",
    "Fan over engine speed",
    Kind::Number,
    (0.3, 3.0),
    "Crank pulley over fan pulley by diameter.",
    "0.9 to 1.4 is usual",
);
static CURVE_SPEED: Field = Field::new(
    "curve_speed",
    "Fan speed of the curve",
    Kind::RotationalSpeed,
    (80.0, 630.0),
    "At which the curve was measured.",
    "800 to 6000 rpm",
);
static LIMIT: Field = Field::new(
    "clutch_limit",
    "Clutch slips at",
    Kind::RotationalSpeed,
    (80.0, 630.0),
    "The most the fan turns behind a viscous clutch; 2500 to 3500 rpm is usual.",
    "",
);
static SHROUD: Label = Label::new("shroud", "Shroud", "What leads the air from the core to the fan.");
static DIAMETER: Field = Field::new(
    "diameter",
    "Diameter of a fan",
    Kind::Length,
    (0.1, 0.8),
    "Over the tips of the blades.",
    "250 to 450 mm is usual",
);
static DRAWN: Field = Field::new(
    "drawn_over_swept",
    "Area drawn through over swept",
    Kind::Number,
    (0.5, 4.0),
    "Without a shroud air comes through the core beside the blades too.",
    "1 to 1.7 is usual",
);
static CORE_PRESSURE: Field = Field::new(
    "core_pressure",
    "Air pressure of the core at 5 m/s",
    Kind::SmallPressureDifference,
    (10.0, 2000.0),
    "With grille, condenser and what stands behind.",
    "",
);
static EXPONENT: Field = Field::new(
    "core_exponent",
    "Exponent of that pressure",
    Kind::Number,
    (1.0, 2.0),
    "With the face velocity: 1 is laminar, 2 turbulent.",
    "",
);

impl Default for FanInputs {
    fn default() -> Self {
        let point = |hourly: f64, pascals: f64| (VolumeRate::from_base(hourly / 3600.0), Pressure::from_base(pascals));
        Self {
            known: false,
            drive: FanDrive::Electric,
            count: 1,
            curve: vec![
                point(0.0, 220.0),
                point(720.0, 170.0),
                point(1440.0, 105.0),
                point(2160.0, 40.0),
                point(2520.0, 0.0),
            ],
            control: FanControl::Switched,
            switch_on: None,
            switch_off: None,
            ratio: Ratio::from_base(1.2),
            curve_speed: AngularVelocity::from_base(2000.0 * RPM),
            clutch_limit: None,
            shroud: Shroud::Full,
            diameter: Length::from_base(0.35),
            drawn_over_swept: None,
            core_pressure: None,
            core_exponent: None,
        }
    }
}

impl FanInputs {
    /// Whether a switch in the coolant turns it on and off.
    #[must_use]
    pub fn is_switched(&self) -> bool {
        self.known && self.drive == FanDrive::Electric && self.control == FanControl::Switched
    }

    /// Where it comes on and goes off, unless told by the thermostat's setting.
    #[must_use]
    pub fn switches(
        &self,
        set_point: ThermodynamicTemperature,
    ) -> (Estimate<ThermodynamicTemperature>, Estimate<ThermodynamicTemperature>) {
        let on = self.switch_on.unwrap_or_else(|| defaults::fan_switch_on(set_point));
        (on, self.switch_off.unwrap_or_else(|| defaults::fan_switch_off(on.likely)))
    }

    /// The curve in the words of the physics.
    ///
    /// # Errors
    /// A table that is none.
    pub fn physics(&self) -> Result<FanCurve, HeatError> {
        let points: Vec<_> = self.curve.iter().map(|&(flow, pressure)| FanPoint { flow, pressure }).collect();
        FanCurve::new(&points, self.count)
    }

    /// `depth` is that of the core, if known.
    pub(super) fn visit(
        &mut self,
        set_point: ThermodynamicTemperature,
        depth: Option<Length>,
        visitor: &mut impl Visitor,
    ) {
        let mut known = self.known;
        visitor.optional_group(&FAN, &KNOWN, &mut known, |v| {
            v.choice(&DRIVE, &mut self.drive);
            v.count(&COUNT, &mut self.count);
            v.pairs(&CURVE, (&FLOW, &PRESSURE), &mut self.curve);
            match self.drive {
                FanDrive::Electric => {
                    v.choice(&CONTROL, &mut self.control);
                    if self.control == FanControl::Switched {
                        v.estimate(&ON, &mut self.switch_on, defaults::fan_switch_on(set_point));
                        let on = self.switches(set_point).0.likely;
                        v.estimate(&OFF, &mut self.switch_off, defaults::fan_switch_off(on));
                    }
                }
                FanDrive::Belt => {
                    v.quantity(&RATIO, &mut self.ratio);
                    v.quantity(&CURVE_SPEED, &mut self.curve_speed);
                    v.optional(&LIMIT, &mut self.clutch_limit, "it does not slip");
                }
            }
            v.choice(&SHROUD, &mut self.shroud);
            if self.shroud == Shroud::None {
                v.quantity(&DIAMETER, &mut self.diameter);
                v.estimate(&DRAWN, &mut self.drawn_over_swept, defaults::drawn_over_swept());
            }
            v.estimate(&CORE_PRESSURE, &mut self.core_pressure, defaults::core_pressure(depth));
            v.estimate(&EXPONENT, &mut self.core_exponent, defaults::core_exponent());
        });
        self.known = known;
    }
}
