//! What every part of the answers starts from, worked out once.

use super::{Fail, breathing};
use crate::fluid::{self, Base, Mix};
use crate::note::Note;
use crate::quantity::si::{MassRate, Power, Pressure, Ratio};
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
    /// The most power the air breathed at full throttle can burn.
    pub burnable: Power,
    /// What is to be said of the powers entered.
    pub notes: Vec<Note>,
}

impl<'p> Context<'p> {
    pub fn new(project: &'p Project, scribe: &mut impl Scribe) -> Result<Self, Problems> {
        scribe.chapter("ambient", "Pressure of the air at the altitude");
        let ambient =
            fluid::air::standard_pressure(project.surroundings.altitude, scribe).fail("surroundings.altitude")?;
        let coolant = &project.coolant;
        // Plain water is plain water, whatever share the builder had before.
        let share = if coolant.base == Base::Water { Ratio::from_base(0.0) } else { coolant.glycol_share };
        let mix = Mix::new(coolant.base, share, coolant.basis).fail("coolant.glycol_share")?;
        let powers = project.duty.points.iter().map(|duty| duty.power.base());
        let rated = Power::from_base(powers.fold(500.0, f64::max));
        let mut context =
            Self { project, ambient, mix, rated, manifold: [(ambient, true); 5], burnable: rated, notes: Vec::new() };
        breathing::check_powers(&context, scribe)?;
        for duty in Duty::ALL {
            context.manifold[duty.index()] = context.manifold_at(duty, scribe)?;
        }
        context.burnable = breathing::burnable(&context, context.manifold[Duty::FullThrottle.index()].0)?;
        let above = breathing::above_air(&context);
        context.notes.extend(above);
        Ok(context)
    }

    /// As entered, or estimated: from power on the road, from usual figures at idle, overrun and full throttle.
    fn manifold_at(&mut self, duty: Duty, scribe: &mut impl Scribe) -> Result<(AbsolutePressure, bool), Problems> {
        use crate::heat::defaults;
        let inputs = self.project.duty.of(duty);
        if let Some(entered) = inputs.manifold {
            if entered.base() > self.ambient.base() {
                let message = format!(
                    "the manifold pressure is above the air's {:.1} kPa at this altitude; this program knows engines \
                     without a blower: enter the absolute pressure, or leave it out",
                    self.ambient.base() / 1e3
                );
                return Err(super::problem(format!("duty.{}.manifold_pressure", duty.word()), message));
            }
            return Ok((entered, false));
        }
        let absolute = |base: f64| AbsolutePressure::from_base(base.min(self.ambient.base()));
        let pressure = match duty {
            Duty::Idle => absolute(defaults::idle_pressure().likely().base()),
            Duty::Overrun => absolute(defaults::overrun_pressure().likely().base()),
            Duty::FullThrottle => absolute(self.ambient.base() - defaults::full_throttle_loss().likely().base()),
            Duty::Cruise | Duty::Hill => {
                let (pressure, note) = breathing::at_power(self, duty, scribe)?;
                self.notes.extend(note);
                pressure
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
