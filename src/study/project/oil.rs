//! The engine's oil: what it is, how much, and how it is cooled; and the heater of the cabin.

use super::engine::EngineInputs;
use crate::heat::OilGrade;
use crate::quantity::si::{KinematicViscosity, ThermalConductance, ThermodynamicTemperature, Time, Volume};
use crate::quantity::{Amount, Estimate, Kind, Measured, UnitSystem};
use crate::study::check::Checker;
use crate::study::{Field, Label, Visitor, defaults};

crate::choice!(OilGrade {
    W0S20: "0w-20", "0W-20";
    W5S20: "5w-20", "5W-20";
    W0S30: "0w-30", "0W-30";
    W5S30: "5w-30", "5W-30";
    W10S30: "10w-30", "10W-30";
    W0S40: "0w-40", "0W-40";
    W5S40: "5w-40", "5W-40";
    W10S40: "10w-40", "10W-40";
    W15S40: "15w-40", "15W-40";
    W5S50: "5w-50", "5W-50";
    W10S50: "10w-50", "10W-50";
    W15S50: "15w-50", "15W-50";
    W20S50: "20w-50", "20W-50";
    W10S60: "10w-60", "10W-60";
    W20S60: "20w-60", "20W-60";
    S30: "30", "30, one grade";
    S40: "40", "40, one grade";
    S50: "50", "50, one grade";
});

/// How the oil is cooled.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum OilCooling {
    /// By sump and block alone.
    None,
    /// A cooler in the air.
    ToAir,
    /// A cooler in the coolant.
    ToCoolant,
}
crate::choice!(OilCooling {
    None: "none", "No oil cooler";
    ToAir: "to-air", "Oil cooler in the air";
    ToCoolant: "to-coolant", "Oil cooler in the coolant";
});

/// The oil.
#[derive(Clone, Debug, PartialEq)]
pub struct OilInputs {
    /// Its grade.
    pub grade: OilGrade,
    /// Viscosity at 100 °C.
    pub viscosity_100: Option<Estimate<KinematicViscosity>>,
    /// Viscosity at 40 °C.
    pub viscosity_40: Option<Estimate<KinematicViscosity>>,
    /// Oil in sump, filter and cooler.
    pub volume: Option<Estimate<Volume>>,
    /// Whether jets of oil cool the pistons.
    pub piston_jets: bool,
    /// Conductance between oil and block.
    pub block: Option<Estimate<ThermalConductance>>,
    /// Conductance of the sump to still air.
    pub sump_still: Option<Estimate<ThermalConductance>>,
    /// What the wind adds to it at 90 km/h.
    pub sump_driving: Option<Estimate<ThermalConductance>>,
    /// The cooler.
    pub cooling: OilCooling,
    /// Conductance of a cooler in the air, at 5 m/s at its face.
    pub cooler_to_air: Option<Estimate<ThermalConductance>>,
    /// Its thermostat.
    pub cooler_opens: Option<ThermodynamicTemperature>,
    /// Conductance of a cooler in the coolant.
    pub cooler_to_coolant: Option<Estimate<ThermalConductance>>,
    /// Oil counted as warm.
    pub warm: Option<Estimate<ThermodynamicTemperature>>,
    /// Idle before driving off cold.
    pub idle_first: Option<Estimate<Time>>,
    /// Viscosity below which it is counted as thin.
    pub thin_below: Option<Estimate<KinematicViscosity>>,
}

static OIL: Label = Label::new("oil", "Engine oil", "Its grade, its cooling, and how it warms up.");
static GRADE: Label = Label::new("grade", "Oil grade", "By SAE J300, on the can.");
static VISCOSITY_100: Field = Field::new(
    "viscosity_100",
    "Viscosity at 100 °C",
    Kind::KinematicViscosity,
    (2.5e-6, 40e-6),
    "From the oil's data sheet; the grade says between what and what it lies.",
    "engine oils have 7 to 26 mm²/s",
);
static VISCOSITY_40: Field = Field::new(
    "viscosity_40",
    "Viscosity at 40 °C",
    Kind::KinematicViscosity,
    (10e-6, 400e-6),
    "From the oil's data sheet.",
    "engine oils have 40 to 300 mm²/s",
);
static VOLUME: Field =
    Field::new("volume", "Oil in the engine", Kind::Volume, (0.3e-3, 40e-3), "Sump, filter and cooler together.", "");
static JETS: Label = Label::new("piston_jets", "Oil jets under the pistons", "They cool the crowns and warm the oil.");
static BLOCK: Field = Field::new(
    "block",
    "Conductance between oil and block",
    Kind::HeatConductance,
    (5.0, 10e3),
    "Heat that passes for each kelvin between oil and coolant, through the block.",
    "about 100 W/K for each litre of displacement",
);
static SUMP_STILL: Field = Field::new(
    "sump_still",
    "Conductance of the sump to still air",
    Kind::HeatConductance,
    (0.0, 500.0),
    "Car standing.",
    "",
);
static SUMP_DRIVING: Field = Field::new(
    "sump_driving",
    "Added by the wind at 90 km/h",
    Kind::HeatConductance,
    (0.0, 500.0),
    "A finned or low sump has more, one behind an undertray less.",
    "",
);
static COOLING: Label = Label::new("cooler", "Oil cooler", "One in the coolant gives the radiator more to carry.");
static TO_AIR: Field = Field::new(
    "cooler_to_air",
    "Conductance of the oil cooler at 5 m/s",
    Kind::HeatConductance,
    (0.0, 2e3),
    "Heat carried for each kelvin between oil and air, at 5 m/s of air at its face.",
    "40 to 150 W/K is usual",
);
static OPENS: Field = Field::new(
    "cooler_opens",
    "Thermostat of the oil cooler",
    Kind::Temperature,
    (323.15, 423.15),
    "Where the bypass of the cooler shuts: below it no oil goes through.",
    "80 to 95 °C is usual",
);
static TO_COOLANT: Field = Field::new(
    "cooler_to_coolant",
    "Conductance of the oil cooler in the coolant",
    Kind::HeatConductance,
    (0.0, 5e3),
    "Heat carried for each kelvin between oil and coolant.",
    "100 to 400 W/K is usual",
);
static WARM: Field = Field::new(
    "warm",
    "Oil counted as warm",
    Kind::Temperature,
    (303.15, 403.15),
    "Before this an engine is not to be driven hard.",
    "",
);
static IDLE_FIRST: Field = Field::new(
    "idle_first",
    "Idle before driving off",
    Kind::Duration,
    (0.0, 3600.0),
    "After the coldest start; then it cruises.",
    "",
);
static THIN: Field = Field::new(
    "thin_below",
    "Oil counted as thin below",
    Kind::KinematicViscosity,
    (2.5e-6, 30e-6),
    "Viscosity in the sump below which plain bearings have little left under load.",
    "5 to 6 mm²/s is usual",
);

impl Default for OilInputs {
    fn default() -> Self {
        Self {
            grade: OilGrade::W10S40,
            viscosity_100: None,
            viscosity_40: None,
            volume: None,
            piston_jets: false,
            block: None,
            sump_still: None,
            sump_driving: None,
            cooling: OilCooling::None,
            cooler_to_air: None,
            cooler_opens: None,
            cooler_to_coolant: None,
            warm: None,
            idle_first: None,
            thin_below: None,
        }
    }
}

impl OilInputs {
    /// Viscosity at 100 °C: as entered, or usual of the grade.
    #[must_use]
    pub fn at_100(&self) -> Estimate<KinematicViscosity> {
        self.viscosity_100.unwrap_or_else(|| self.grade.at_100().estimate)
    }

    /// Viscosity at 40 °C: as entered, or from that at 100 °C by what is usual of the grade.
    #[must_use]
    pub fn at_40(&self) -> Estimate<KinematicViscosity> {
        self.viscosity_40.unwrap_or_else(|| {
            let (hot, ratio) = (self.at_100(), self.grade.ratio().estimate);
            let times = |hot: KinematicViscosity, ratio: crate::quantity::si::Ratio| {
                KinematicViscosity::from_base(hot.base() * ratio.base())
            };
            Estimate {
                low: times(hot.low, ratio.low),
                likely: times(hot.likely, ratio.likely),
                high: times(hot.high, ratio.high),
            }
        })
    }

    pub(super) fn visit(&mut self, engine: &EngineInputs, visitor: &mut impl Visitor) {
        visitor.later(|visitor| {
            visitor.group(&OIL, |v| {
                v.choice_or(&GRADE, &mut self.grade, OilGrade::W10S40);
                let usual = self.grade.at_100().estimate;
                v.estimate(&VISCOSITY_100, &mut self.viscosity_100, usual);
                let usual = Self { viscosity_40: None, ..self.clone() }.at_40();
                v.estimate(&VISCOSITY_40, &mut self.viscosity_40, usual);
                v.estimate(&VOLUME, &mut self.volume, defaults::oil_volume(engine));
                v.switch(&JETS, &mut self.piston_jets);
                v.estimate(&BLOCK, &mut self.block, defaults::oil_to_block(engine));
                v.estimate(&SUMP_STILL, &mut self.sump_still, defaults::sump_still(engine));
                v.estimate(&SUMP_DRIVING, &mut self.sump_driving, defaults::sump_driving(engine));
                v.choice_or(&COOLING, &mut self.cooling, OilCooling::None);
                match self.cooling {
                    OilCooling::None => {}
                    OilCooling::ToAir => {
                        v.estimate(&TO_AIR, &mut self.cooler_to_air, defaults::oil_cooler_to_air());
                        v.optional(&OPENS, &mut self.cooler_opens, "none: oil always goes through");
                    }
                    OilCooling::ToCoolant => {
                        v.estimate(&TO_COOLANT, &mut self.cooler_to_coolant, defaults::oil_cooler_to_coolant());
                    }
                }
                v.estimate(&WARM, &mut self.warm, defaults::warm_oil());
                v.estimate(&IDLE_FIRST, &mut self.idle_first, defaults::idle_first());
                v.estimate(&THIN, &mut self.thin_below, defaults::thin_oil());
            });
        });
    }

    /// What no single range can tell: oil gets thinner as it warms.
    pub(super) fn check(&self, checker: &mut Checker) {
        let (cool, hot) = (self.at_40(), self.at_100());
        for (cool, hot) in [(cool.low, hot.low), (cool.likely, hot.likely), (cool.high, hot.high)] {
            if cool.base() < 1.5 * hot.base() {
                let message = format!(
                    "{} at 40 °C beside {} at 100 °C: oil has several times the viscosity at 40 °C; check the two",
                    Amount::of(cool).show(UnitSystem::Si),
                    Amount::of(hot).show(UnitSystem::Si)
                );
                checker.fault("oil.viscosity_40", message);
                return;
            }
        }
    }
}

/// The heater of the cabin.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct HeaterInputs {
    /// Whether it is reckoned on, valve open and fan running.
    pub on: bool,
    /// Heat for each kelvin between coolant and the air it draws.
    pub conductance: Option<Estimate<ThermalConductance>>,
    /// The air it draws.
    pub air: Option<ThermodynamicTemperature>,
}

static HEATER: Label = Label::new("heater", "Heater", "A way out for heat beside the radiator, if somebody bears it.");
static ON: Label = Label::new(
    "on",
    "Heater on, reckoned with",
    "Off for the usual judgement: on the hottest day nobody drives with it, unless the engine boils.",
);
static CONDUCTANCE: Field = Field::new(
    "conductance",
    "Conductance of the heater",
    Kind::HeatConductance,
    (0.0, 600.0),
    "Heat for each kelvin between coolant and the air it draws, valve open, fan on.",
    "90 to 200 W/K is usual",
);
static AIR: Field = Field::new(
    "air",
    "Air into the heater",
    Kind::Temperature,
    (253.15, 343.15),
    "The cabin's, if it draws from there.",
    "",
);

impl HeaterInputs {
    pub(super) fn visit(&mut self, visitor: &mut impl Visitor) {
        visitor.later(|visitor| {
            visitor.group(&HEATER, |v| {
                v.switch(&ON, &mut self.on);
                v.estimate(&CONDUCTANCE, &mut self.conductance, defaults::heater());
                v.optional(&AIR, &mut self.air, "the air outside");
            });
        });
    }
}
