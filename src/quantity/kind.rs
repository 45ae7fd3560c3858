//! What a number is: the kinds of quantity the program speaks of, and the unit each is shown in.

use super::unit::{Unit, units};

/// The unit system a person reads in. Anything typed may still use any unit.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, serde::Serialize, serde::Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum UnitSystem {
    /// Millimetres, litres, kilopascals, degrees Celsius.
    #[default]
    Si,
    /// Inches, US quarts, psi, degrees Fahrenheit.
    Us,
}

/// The kinds of quantity. Kinds of one dimension differ where people read them in different units:
/// a bore in millimetres, an altitude in metres.
#[derive(Clone, Copy, Debug, PartialEq, Eq, Hash)]
#[allow(missing_docs)] // The words are the documentation; `name` spells them out for a person.
pub enum Kind {
    Length,
    SmallLength,
    DropletSize,
    Distance,
    RoadDistance,
    Area,
    SmallArea,
    Volume,
    SmallVolume,
    Displacement,
    Mass,
    SmallMass,
    GasFlow,
    CarryOver,
    CoolantFlow,
    GasVolumeFlow,
    FanFlow,
    SmallVolumeFlow,
    Density,
    SpecificHeat,
    SpecificEnergy,
    Energy,
    Viscosity,
    Conductivity,
    Power,
    RoadSpeed,
    GasSpeed,
    Acceleration,
    RotationalSpeed,
    Time,
    Duration,
    Angle,
    Number,
    Share,
    Temperature,
    TemperatureDifference,
    AbsolutePressure,
    GaugePressure,
    CrankcasePressure,
    PressureDifference,
    SmallPressureDifference,
    HeatConductance,
    HeatTransfer,
    HeatCapacity,
    ThermalExpansion,
    Swell,
    SonicConductance,
    MassFlux,
    Torque,
    Force,
    LinearResistance,
    QuadraticResistance,
    FuelPerWork,
    KinematicViscosity,
    Stress,
    Stiffness,
    LeakFlow,
}

impl Kind {
    /// The symbols of the units shown for this kind: in SI, and in US practice.
    #[must_use]
    const fn shown(self) -> (&'static str, &'static str) {
        match self {
            Self::Length => ("mm", "in"),
            Self::SmallLength => ("mm", "in"),
            Self::DropletSize => ("µm", "µm"),
            Self::Distance => ("m", "ft"),
            Self::RoadDistance => ("km", "mi"),
            Self::Area => ("m²", "ft²"),
            Self::SmallArea => ("mm²", "in²"),
            Self::Volume => ("L", "qt"),
            Self::SmallVolume => ("mL", "fl oz"),
            Self::Displacement => ("L", "in³"),
            Self::Mass => ("kg", "lb"),
            Self::SmallMass => ("g", "oz"),
            Self::GasFlow => ("g/s", "g/s"),
            Self::CarryOver => ("g/h", "g/h"),
            Self::CoolantFlow => ("L/min", "gpm"),
            Self::GasVolumeFlow => ("L/min", "cfm"),
            Self::FanFlow => ("m³/h", "cfm"),
            Self::SmallVolumeFlow => ("mL/s", "mL/s"),
            Self::Density => ("kg/m³", "lb/ft³"),
            Self::SpecificHeat => ("J/(kg·K)", "Btu/(lb·°F)"),
            Self::SpecificEnergy => ("kJ/kg", "Btu/lb"),
            Self::Energy => ("MJ", "kBtu"),
            Self::Viscosity => ("mPa·s", "mPa·s"),
            Self::Conductivity => ("W/(m·K)", "Btu/(h·ft·°F)"),
            Self::Power => ("kW", "hp"),
            Self::RoadSpeed => ("km/h", "mph"),
            Self::GasSpeed => ("m/s", "ft/s"),
            Self::Acceleration => ("g", "g"),
            Self::RotationalSpeed => ("rpm", "rpm"),
            Self::Time => ("s", "s"),
            Self::Duration => ("min", "min"),
            Self::Angle => ("°", "°"),
            Self::Number => ("", ""),
            Self::Share => ("%", "%"),
            Self::Temperature => ("°C", "°F"),
            Self::TemperatureDifference => ("K", "°F"),
            Self::AbsolutePressure | Self::GaugePressure => ("kPa", "psi"),
            Self::CrankcasePressure => ("kPa", "inH2O"),
            Self::PressureDifference => ("kPa", "psi"),
            Self::SmallPressureDifference => ("Pa", "inH2O"),
            Self::HeatConductance => ("W/K", "W/K"),
            Self::HeatTransfer => ("W/(m²·K)", "Btu/(h·ft²·°F)"),
            Self::HeatCapacity => ("kJ/K", "kJ/K"),
            Self::ThermalExpansion => ("µm/(m·K)", "µm/(m·K)"),
            Self::Swell => ("%/bar", "%/psi"),
            Self::SonicConductance => ("L/(s·bar)", "L/(s·bar)"),
            Self::MassFlux => ("kg/(m²·s)", "kg/(m²·s)"),
            Self::Torque => ("N·m", "lbf·in"),
            Self::Force => ("N", "lbf"),
            Self::LinearResistance => ("Pa/(L/min)", "Pa/(L/min)"),
            Self::QuadraticResistance => ("Pa/(L/min)²", "Pa/(L/min)²"),
            Self::FuelPerWork => ("g/(kW·h)", "lb/(hp·h)"),
            Self::KinematicViscosity => ("mm²/s", "mm²/s"),
            Self::Stress => ("MPa", "psi"),
            Self::Stiffness => ("N/mm", "lbf/in"),
            Self::LeakFlow => ("mL/h", "mL/h"),
        }
    }

    /// The unit this kind is shown in.
    #[must_use]
    pub fn unit(self, system: UnitSystem) -> &'static Unit {
        let (si, us) = self.shown();
        let symbol = if system == UnitSystem::Si { si } else { us };
        let all = units(self);
        // A test proves that every shown symbol exists, so the fallback is never taken.
        all.iter().find(|unit| unit.symbol == symbol).unwrap_or(&all[0])
    }

    /// The coherent SI unit, in which the physics counts.
    #[must_use]
    pub fn base_unit(self) -> &'static Unit {
        &units(self)[0]
    }

    /// The kind in words, for a message: "a gauge pressure".
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Length | Self::SmallLength | Self::DropletSize => "a length",
            Self::Distance => "a length or height",
            Self::RoadDistance => "a distance",
            Self::Area | Self::SmallArea => "an area",
            Self::Volume | Self::SmallVolume | Self::Displacement => "a volume",
            Self::Mass | Self::SmallMass => "a mass",
            Self::GasFlow | Self::CarryOver => "a mass flow",
            Self::CoolantFlow | Self::GasVolumeFlow | Self::FanFlow | Self::SmallVolumeFlow => "a volume flow",
            Self::Density => "a density",
            Self::SpecificHeat => "a specific heat",
            Self::SpecificEnergy => "an energy per mass",
            Self::Energy => "an energy",
            Self::Viscosity => "a viscosity",
            Self::Conductivity => "a thermal conductivity",
            Self::Power => "a power",
            Self::RoadSpeed | Self::GasSpeed => "a speed",
            Self::Acceleration => "an acceleration",
            Self::RotationalSpeed => "a rotational speed",
            Self::Time | Self::Duration => "a time",
            Self::Angle => "an angle",
            Self::Number => "a plain number",
            Self::Share => "a share",
            Self::Temperature => "a temperature",
            Self::TemperatureDifference => "a temperature difference",
            Self::AbsolutePressure => "an absolute pressure",
            Self::GaugePressure | Self::CrankcasePressure => "a gauge pressure",
            Self::PressureDifference | Self::SmallPressureDifference => "a pressure difference",
            Self::HeatConductance => "a heat conductance",
            Self::HeatTransfer => "a heat transfer coefficient",
            Self::HeatCapacity => "a heat capacity",
            Self::ThermalExpansion => "a thermal expansion coefficient",
            Self::Swell => "a swell per pressure",
            Self::SonicConductance => "a sonic conductance",
            Self::MassFlux => "a mass flux",
            Self::Torque => "a torque",
            Self::Force => "a force",
            Self::LinearResistance => "a linear flow resistance",
            Self::QuadraticResistance => "a quadratic flow resistance",
            Self::FuelPerWork => "a fuel mass per work",
            Self::KinematicViscosity => "a kinematic viscosity",
            Self::Stress => "a stress",
            Self::Stiffness => "a stiffness",
            Self::LeakFlow => "a volume flow",
        }
    }
}
