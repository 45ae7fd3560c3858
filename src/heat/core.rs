//! The radiator in plain SI numbers, prepared once so that a balance costs two property calls an iteration.

use super::HeatError;
use super::exchanger::crossflow_base;
use super::manifold::AMBIENT_PRESSURE;
use super::matrix::{laminar_nusselt, nusselt_base};
use super::radiator::{FACE_VELOCITY, Radiator};
use crate::fluid::{self, Mix};
use crate::quantity::si::{ThermodynamicTemperature, Velocity};
use crate::quantity::{AbsolutePressure, Measured};
use crate::scribe::{Scribe, Silent};

/// The air that meets the radiator.
pub(crate) struct Air {
    /// K.
    pub temperature: f64,
    /// kg/(m²·s).
    pub mass_flux: f64,
    /// J/(kg·K).
    pub specific_heat: f64,
}

impl Air {
    pub fn new(
        temperature: ThermodynamicTemperature,
        pressure: AbsolutePressure,
        velocity: Velocity,
        scribe: &mut impl Scribe,
    ) -> Result<Self, HeatError> {
        AMBIENT_PRESSURE.check(pressure)?;
        let velocity = FACE_VELOCITY.check(velocity)?.base();
        let density = fluid::air::density(pressure, temperature, scribe)?.base();
        let specific_heat = fluid::air::specific_heat().base();
        Ok(Self { temperature: temperature.base(), mass_flux: density * velocity, specific_heat })
    }
}

/// The coolant at one temperature.
#[derive(Clone, Copy)]
pub(crate) struct Coolant {
    /// K.
    pub temperature: f64,
    /// kg/m³.
    pub density: f64,
    /// J/(kg·K).
    pub specific_heat: f64,
    /// Coolant-side resistance over that of the reference coolant at the same volume flow, both turbulent.
    pub resistance: f64,
    /// What its flow in the tubes follows from; `None` where tubes or reference coolant are not known.
    pub tube: Option<InTube>,
}

/// The coolant's side of a flow in tubes, but for the flow itself.
#[derive(Clone, Copy)]
pub(crate) struct InTube {
    /// Reynolds number over the flow of all tubes, s/m³.
    pub reynolds_per_flow: f64,
    pub prandtl: f64,
    /// W/(m·K).
    pub conductivity: f64,
}

/// The tubes' shape, and Nu·k at the reference point.
struct Ducts {
    flow_area: f64,
    diameter: f64,
    slenderness: f64,
    /// Nusselt number of developed laminar flow.
    end: f64,
    reference: f64,
}

impl Ducts {
    fn in_tube(&self, mix: &Mix, at: ThermodynamicTemperature, density: f64, heat: f64) -> Result<InTube, HeatError> {
        let conductivity = mix.conductivity(at, &mut Silent)?.base();
        let viscosity = mix.viscosity(at, &mut Silent)?.base();
        let reynolds_per_flow = density * self.diameter / (self.flow_area * viscosity);
        Ok(InTube { reynolds_per_flow, prandtl: heat * viscosity / conductivity, conductivity })
    }

    /// Nu·k, to which the heat transfer is proportional, at a flow in m³/s.
    fn transfer(&self, tube: &InTube, flow: f64) -> f64 {
        nusselt_base(tube.reynolds_per_flow * flow, tube.prandtl, self.end, self.slenderness) * tube.conductivity
    }
}

/// What the radiator does, in SI numbers.
pub(crate) struct Carried {
    pub heat: f64,
    pub conductance: f64,
    pub air_rate: f64,
    pub coolant_rate: f64,
    pub air_ratio: f64,
    pub flow_ratio: f64,
    /// Resistance of the coolant's side over that at the reference point.
    pub coolant_side: f64,
    pub transfer_units: f64,
    pub capacity_ratio: f64,
    pub effectiveness: f64,
}

/// The radiator's numbers, checked.
pub(crate) struct Core {
    conductance: f64,
    area: f64,
    share: f64,
    exponent: f64,
    reference_flux: f64,
    reference_flow: f64,
    /// Property group k^0.6·ρ^0.8·cp^0.4·μ^−0.4 of the reference coolant.
    reference_group: Option<f64>,
    ducts: Option<Ducts>,
}

/// The property group of turbulent flow in tubes: k^0.6·ρ^0.8·cp^0.4·μ^−0.4 (Dittus and Boelter).
fn group(mix: &Mix, at: ThermodynamicTemperature, density: f64, specific_heat: f64) -> Result<f64, HeatError> {
    let conductivity = mix.conductivity(at, &mut Silent)?.base();
    let viscosity = mix.viscosity(at, &mut Silent)?.base();
    Ok(conductivity.powf(0.6) * density.powf(0.8) * (specific_heat / viscosity).powf(0.4))
}

impl Core {
    pub fn new(radiator: &Radiator) -> Result<Self, HeatError> {
        radiator.check()?;
        let (mut reference_group, mut ducts) = (None, None);
        if let Some(reference) = radiator.reference_coolant {
            let (mix, at) = (&reference.mix, reference.temperature);
            let density = mix.density(at, &mut Silent)?.base();
            let specific_heat = mix.specific_heat(at, &mut Silent)?.base();
            reference_group = Some(group(mix, at, density, specific_heat)?);
            if let Some(tubes) = radiator.tubes {
                let diameter = tubes.hydraulic_diameter.base();
                let mut shape = Ducts {
                    flow_area: tubes.flow_area.base(),
                    diameter,
                    slenderness: tubes.length.base() / diameter,
                    end: laminar_nusselt(tubes.aspect)?.base(),
                    reference: 1.0,
                };
                let tube = shape.in_tube(mix, at, density, specific_heat)?;
                shape.reference = shape.transfer(&tube, radiator.reference_coolant_flow.base());
                ducts = Some(shape);
            }
        }
        Ok(Self {
            conductance: radiator.ua_reference.base(),
            area: radiator.frontal_area.base(),
            exponent: radiator.air_side_exponent.base(),
            share: radiator.air_side_resistance_share.base(),
            reference_flux: radiator.reference_air_density.base() * radiator.reference_face_velocity.base(),
            reference_flow: radiator.reference_coolant_flow.base(),
            reference_group,
            ducts,
        })
    }

    /// The coolant's properties at a temperature; the only fluid property calls of an iteration.
    pub fn coolant(
        &self,
        mix: &Mix,
        at: ThermodynamicTemperature,
        scribe: &mut impl Scribe,
    ) -> Result<Coolant, HeatError> {
        let density = mix.density(at, scribe)?.base();
        let specific_heat = mix.specific_heat(at, scribe)?.base();
        let resistance = match self.reference_group {
            None => 1.0,
            Some(reference) => reference / group(mix, at, density, specific_heat)?,
        };
        let tube = match &self.ducts {
            None => None,
            Some(ducts) => Some(ducts.in_tube(mix, at, density, specific_heat)?),
        };
        Ok(Coolant { temperature: at.base(), density, specific_heat, resistance, tube })
    }

    /// Heat that standing coolant loses for each kelvin it is above this air, W/K: C_air·(1 − exp(−k·UA/C_air)), where UA is
    /// the conductance at the reference flow and k the share of it left without flow. Without air there is none.
    pub fn standing(&self, coolant: &Coolant, air: &Air, share: f64) -> f64 {
        let air_rate = air.mass_flux * self.area * air.specific_heat;
        if air_rate <= 0.0 {
            return 0.0;
        }
        let air_side = self.share / (air.mass_flux / self.reference_flux).powf(self.exponent);
        let conductance = self.conductance / (air_side + (1.0 - self.share) * coolant.resistance);
        -air_rate * (-share * conductance / air_rate).exp_m1()
    }

    /// Heat carried at a coolant flow in m³/s. Without flow or air nothing is carried.
    pub fn carried(&self, coolant: &Coolant, flow: f64, air: &Air) -> Carried {
        let air_rate = air.mass_flux * self.area * air.specific_heat;
        let coolant_rate = coolant.density * flow * coolant.specific_heat;
        let (least, most) = (air_rate.min(coolant_rate), air_rate.max(coolant_rate));
        let (air_ratio, flow_ratio) = (air.mass_flux / self.reference_flux, flow / self.reference_flow);
        let mut carried = Carried {
            heat: 0.0,
            conductance: 0.0,
            air_rate,
            coolant_rate,
            air_ratio,
            flow_ratio,
            coolant_side: f64::INFINITY,
            transfer_units: 0.0,
            capacity_ratio: 0.0,
            effectiveness: 0.0,
        };
        if least > 0.0 {
            let air_side = self.share / air_ratio.powf(self.exponent);
            carried.coolant_side = match (&self.ducts, &coolant.tube) {
                (Some(ducts), Some(tube)) => ducts.reference / ducts.transfer(tube, flow),
                _ => coolant.resistance / flow_ratio.powf(0.8),
            };
            carried.conductance = self.conductance / (air_side + (1.0 - self.share) * carried.coolant_side);
            carried.transfer_units = carried.conductance / least;
            carried.capacity_ratio = least / most;
            carried.effectiveness = crossflow_base(carried.transfer_units, carried.capacity_ratio);
            carried.heat = carried.effectiveness * least * (coolant.temperature - air.temperature);
        }
        carried
    }
}
