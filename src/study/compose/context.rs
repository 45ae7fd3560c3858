//! What every part of the answers starts from, worked out once.

use super::Fail;
use crate::fluid::{self, Mix};
use crate::quantity::si::{MassRate, Power, Pressure};
use crate::quantity::{AbsolutePressure, Estimate, Measured};
use crate::scribe::Scribe;
use crate::study::{Duty, Problems, Project};

/// What every part of the answers starts from.
pub(super) struct Context<'p> {
    pub project: &'p Project,
    /// Pressure of the air at the altitude.
    pub ambient: AbsolutePressure,
    pub mix: Mix,
    /// The greatest power of all duty points.
    pub rated: Power,
    /// Manifold pressure of each duty and whether it was estimated.
    pub manifold: [(AbsolutePressure, bool); 5],
}

impl<'p> Context<'p> {
    pub fn new(project: &'p Project, scribe: &mut impl Scribe) -> Result<Self, Problems> {
        scribe.chapter("ambient", "Pressure of the air at the altitude");
        let ambient =
            fluid::air::standard_pressure(project.surroundings.altitude, scribe).fail("surroundings.altitude")?;
        let coolant = &project.coolant;
        let mix = Mix::new(coolant.base, coolant.glycol_share, coolant.basis).fail("coolant.glycol_share")?;
        let powers = project.duty.points.iter().map(|duty| duty.power.base());
        let rated = Power::from_base(powers.fold(500.0, f64::max));
        let mut context = Self { project, ambient, mix, rated, manifold: [(ambient, true); 5] };
        for duty in Duty::ALL {
            context.manifold[duty.index()] = context.manifold_at(duty, scribe)?;
        }
        Ok(context)
    }

    /// As entered, or estimated: from power on the road, from usual figures at idle, overrun and full throttle.
    fn manifold_at(&self, duty: Duty, scribe: &mut impl Scribe) -> Result<(AbsolutePressure, bool), Problems> {
        use crate::heat::{Breathing, defaults};
        let inputs = self.project.duty.of(duty);
        let path = |key: &str| format!("duty.{}.{key}", duty.word());
        if let Some(entered) = inputs.manifold {
            if entered.base() > self.ambient.base() {
                let message = format!(
                    "the manifold pressure is above the air's {:.1} kPa at this altitude; this program knows engines \
                     without a blower: enter the absolute pressure, or leave it out",
                    self.ambient.base() / 1e3
                );
                return Err(super::problem(path("manifold_pressure"), message));
            }
            return Ok((entered, false));
        }
        let absolute = |base: f64| AbsolutePressure::from_base(base.min(self.ambient.base()));
        let pressure = match duty {
            Duty::Idle => absolute(defaults::idle_pressure().likely().base()),
            Duty::Overrun => absolute(defaults::overrun_pressure().likely().base()),
            Duty::FullThrottle => {
                let loss = defaults::full_throttle_loss().likely().base();
                absolute(self.ambient.base() - loss)
            }
            Duty::Cruise | Duty::Hill => {
                let consumption = match duty {
                    Duty::Cruise => defaults::consumption_cruise(),
                    _ => defaults::consumption_hill(),
                };
                scribe.chapter(&format!("manifold/{}", duty.word()), &format!("Manifold pressure: {}", duty.name()));
                let breathing = Breathing {
                    displacement: crate::quantity::si::Volume::from_base(self.project.engine.swept()),
                    speed: inputs.rpm,
                    brake_power: inputs.power,
                    consumption: consumption.likely(),
                    air_fuel_ratio: defaults::air_fuel_ratio().likely(),
                    volumetric_efficiency: defaults::volumetric_efficiency().likely(),
                    intake_temperature: defaults::intake_temperature().likely(),
                    ambient_pressure: self.ambient,
                    least_pressure: AbsolutePressure::from_base(defaults::overrun_pressure().estimate.low.base()),
                };
                let manifold = breathing.manifold(scribe).fail(path("power"))?;
                // No throttle is wider open than wide open.
                let wide_open = self.ambient.base() - defaults::full_throttle_loss().estimate.low.base();
                absolute(manifold.pressure.base().min(wide_open))
            }
        };
        Ok((pressure, true))
    }

    /// Depression behind the air filter: with the square of the air the engine breathes.
    pub fn filter_depression(&self, air: MassRate, air_at_full: MassRate) -> Estimate<Pressure> {
        let full = self.project.duty.filter_depression.unwrap_or_else(crate::study::defaults::filter_depression);
        let share = if air_at_full.base() > 0.0 { air.base() / air_at_full.base() } else { 0.0 };
        full.map(|pressure| Pressure::from_base(pressure.base() * share * share))
    }
}
