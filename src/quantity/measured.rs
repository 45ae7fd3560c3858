//! The typed quantities of the public functions, and the bridge between a type and its kind.

use super::Kind;
use uom::si::f64 as q;

/// A pressure counted from vacuum.
#[derive(Clone, Copy, Debug, PartialEq, PartialOrd)]
pub struct AbsolutePressure(q::Pressure);

/// A pressure counted from the ambient air; negative below it.
#[derive(Clone, Copy, Debug, PartialEq, PartialOrd)]
pub struct GaugePressure(q::Pressure);

impl AbsolutePressure {
    /// From a pressure known to be absolute.
    #[must_use]
    pub const fn new(pressure: q::Pressure) -> Self {
        Self(pressure)
    }

    /// The pressure above vacuum.
    #[must_use]
    pub const fn above_vacuum(self) -> q::Pressure {
        self.0
    }

    /// The same pressure counted from the ambient air.
    #[must_use]
    pub fn to_gauge(self, ambient: Self) -> GaugePressure {
        GaugePressure(self.0 - ambient.0)
    }
}

impl GaugePressure {
    /// From a pressure known to be counted from the ambient air.
    #[must_use]
    pub const fn new(pressure: q::Pressure) -> Self {
        Self(pressure)
    }

    /// The pressure above the ambient air.
    #[must_use]
    pub const fn above_ambient(self) -> q::Pressure {
        self.0
    }

    /// The same pressure counted from vacuum; the ambient must be named.
    ///
    /// ```compile_fail
    /// use coldmark::quantity::{AbsolutePressure, GaugePressure, pascals};
    /// let wrong: AbsolutePressure = GaugePressure::new(pascals(1.0));
    /// ```
    #[must_use]
    pub fn to_absolute(self, ambient: AbsolutePressure) -> AbsolutePressure {
        AbsolutePressure(self.0 + ambient.0)
    }
}

/// A quantity type that has a kind and can be read from and written to the coherent SI unit.
///
/// Only this bridge, parsing, showing and the insides of the physics see bare numbers.
pub trait Measured: Copy + PartialEq + std::fmt::Debug + Send + Sync + 'static {
    /// What the type is, and the unit it is shown in unless a field says otherwise.
    const KIND: Kind;
    /// The number in the coherent SI unit.
    fn base(self) -> f64;
    /// From the number in the coherent SI unit.
    fn from_base(base: f64) -> Self;
}

macro_rules! measured {
    ($($type:ty => $kind:ident),* $(,)?) => {$(
        impl Measured for $type {
            const KIND: Kind = Kind::$kind;
            fn base(self) -> f64 { self.value }
            fn from_base(base: f64) -> Self {
                Self { dimension: std::marker::PhantomData, units: std::marker::PhantomData, value: base }
            }
        }
    )*};
}

measured! {
    q::Length => Length,
    q::Area => SmallArea,
    q::Volume => Volume,
    q::Mass => Mass,
    q::MassRate => GasFlow,
    q::VolumeRate => GasVolumeFlow,
    q::MassDensity => Density,
    q::SpecificHeatCapacity => SpecificHeat,
    q::AvailableEnergy => SpecificEnergy,
    q::Energy => Energy,
    q::DynamicViscosity => Viscosity,
    q::ThermalConductivity => Conductivity,
    q::Power => Power,
    q::Velocity => RoadSpeed,
    q::Acceleration => Acceleration,
    q::AngularVelocity => RotationalSpeed,
    q::Time => Time,
    q::Angle => Angle,
    q::Ratio => Number,
    q::ThermodynamicTemperature => Temperature,
    q::TemperatureInterval => TemperatureDifference,
    q::Pressure => PressureDifference,
    q::ThermalConductance => HeatConductance,
    q::HeatCapacity => HeatCapacity,
    q::TemperatureCoefficient => ThermalExpansion,
    q::MassFlux => MassFlux,
    q::Torque => Torque,
    q::Force => Force,
    SonicConductance => SonicConductance,
    LinearResistance => LinearResistance,
    QuadraticResistance => QuadraticResistance,
    Swell => Swell,
    FuelPerWork => FuelPerWork,
    q::KinematicViscosity => KinematicViscosity,
    Stiffness => Stiffness,
}

impl Measured for AbsolutePressure {
    const KIND: Kind = Kind::AbsolutePressure;
    fn base(self) -> f64 {
        self.0.value
    }
    fn from_base(base: f64) -> Self {
        Self(pascals(base))
    }
}

impl Measured for GaugePressure {
    const KIND: Kind = Kind::GaugePressure;
    fn base(self) -> f64 {
        self.0.value
    }
    fn from_base(base: f64) -> Self {
        Self(pascals(base))
    }
}

use uom::si::{ISQ, Quantity, SI};
use uom::typenum::{N1, N2, N4, N7, P1, P2, P4, Z0};

/// Sonic conductance of ISO 6358: volume flow at the reference state per upstream pressure, m³/(s·Pa).
pub type SonicConductance = Quantity<ISQ<P4, N1, P1, Z0, Z0, Z0, Z0>, SI<f64>, f64>;
/// Pressure difference per volume flow, Pa·s/m³.
pub type LinearResistance = Quantity<ISQ<N4, P1, N1, Z0, Z0, Z0, Z0>, SI<f64>, f64>;
/// Pressure difference per volume flow squared, Pa·s²/m⁶.
pub type QuadraticResistance = Quantity<ISQ<N7, P1, Z0, Z0, Z0, Z0, Z0>, SI<f64>, f64>;
/// Share by which a hose grows in volume per gauge pressure, 1/Pa.
pub type Swell = Quantity<ISQ<P1, N1, P2, Z0, Z0, Z0, Z0>, SI<f64>, f64>;

/// Force per travel of a spring, N/m.
pub type Stiffness = Quantity<ISQ<Z0, P1, N2, Z0, Z0, Z0, Z0>, SI<f64>, f64>;

/// Mass of fuel burnt per work delivered (specific fuel consumption), kg/J.
pub type FuelPerWork = Quantity<ISQ<N2, Z0, P2, Z0, Z0, Z0, Z0>, SI<f64>, f64>;

/// Shorthand for a pressure in pascals.
#[must_use]
pub fn pascals(value: f64) -> q::Pressure {
    q::Pressure::from_base(value)
}

/// Shorthand for a temperature in degrees Celsius.
#[must_use]
pub fn celsius(value: f64) -> q::ThermodynamicTemperature {
    q::ThermodynamicTemperature::from_base(value + super::ZERO_CELSIUS)
}

/// The number of degrees Celsius in a temperature; the physics' polynomials count in them.
#[must_use]
pub fn in_celsius(temperature: q::ThermodynamicTemperature) -> f64 {
    temperature.value - super::ZERO_CELSIUS
}
