//! All properties of a coolant at once.

use super::liquid::TEMPERATURE;
use super::{FluidError, Mix};
use crate::quantity::AbsolutePressure;
use crate::quantity::si::{
    DynamicViscosity, MassDensity, SpecificHeatCapacity, ThermalConductivity, ThermodynamicTemperature,
};
use crate::scribe::Silent;

/// All properties of a coolant at one temperature and pressure. A property that cannot be given says why.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Properties {
    /// Density of the liquid.
    pub density: Result<MassDensity, FluidError>,
    /// Specific heat of the liquid at constant pressure.
    pub specific_heat: Result<SpecificHeatCapacity, FluidError>,
    /// Dynamic viscosity of the liquid.
    pub viscosity: Result<DynamicViscosity, FluidError>,
    /// Thermal conductivity of the liquid.
    pub conductivity: Result<ThermalConductivity, FluidError>,
    /// Freezing point by the recommended set.
    pub freezing_point: Result<ThermodynamicTemperature, FluidError>,
    /// Freezing point to count on.
    pub freezing_point_safe: Result<ThermodynamicTemperature, FluidError>,
    /// Boiling point at the pressure.
    pub boiling_point: Result<ThermodynamicTemperature, FluidError>,
}

impl Mix {
    /// All properties at a temperature and an absolute pressure. Where the coolant is frozen or boils, the properties
    /// of the liquid say so; freezing and boiling points are given all the same.
    #[must_use]
    pub fn properties(&self, temperature: ThermodynamicTemperature, pressure: AbsolutePressure) -> Properties {
        let boiling_point = self.boiling_point(pressure, &mut Silent);
        let liquid = TEMPERATURE.check(temperature).map_err(FluidError::from).and_then(|_| {
            let boiling = boiling_point?;
            let boils = FluidError::Boils { mix: *self, temperature, pressure, boiling };
            if temperature > boiling { Err(boils) } else { Ok(()) }
        });
        Properties {
            density: liquid.and_then(|()| self.density(temperature, &mut Silent)),
            specific_heat: liquid.and_then(|()| self.specific_heat(temperature, &mut Silent)),
            viscosity: liquid.and_then(|()| self.viscosity(temperature, &mut Silent)),
            conductivity: liquid.and_then(|()| self.conductivity(temperature, &mut Silent)),
            freezing_point: self.freezing_point(&mut Silent),
            freezing_point_safe: self.freezing_point_safe(&mut Silent),
            boiling_point,
        }
    }
}
