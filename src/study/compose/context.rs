//! What every part of the answers starts from, worked out once.

use super::{Fail, breathing, manifold};
use crate::crankcase::cylinder::{self, Blower};
use crate::fluid::{self, Base, Mix};
use crate::heat::{HeatModel, Ignition, defaults as heat};
use crate::note::Note;
use crate::quantity::si::{AvailableEnergy, MassRate, Power, Pressure, Ratio, TemperatureInterval};
use crate::quantity::{AbsolutePressure, Estimate, Measured};
use crate::scribe::Scribe;
use crate::study::{Duty, Induction, Problems, Project};

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
            let (pressure, estimated, note) = manifold::at(&context, duty, scribe)?;
            context.manifold[duty.index()] = (pressure, estimated);
            context.notes.extend(note);
        }
        context.burnable = breathing::burnable(&context, context.manifold[Duty::FullThrottle.index()].0)?;
        let above = breathing::above_air(&context);
        context.notes.extend(above);
        Ok(context)
    }

    /// How the mixture is lit.
    pub const fn ignition(&self) -> Ignition {
        if self.project.engine.is_diesel() { Ignition::Diesel } else { Ignition::Spark }
    }

    /// How heat is reckoned of this engine.
    pub fn heat_model(&self) -> HeatModel {
        HeatModel::usual(self.ignition())
    }

    /// The same with its own heads, and the mixture measured at a duty.
    pub fn heat_model_at(&self, duty: Option<Duty>) -> HeatModel {
        let engine = &self.project.engine;
        let mut model = self.heat_model();
        model.heads = crate::study::defaults::heads_factor(engine);
        if let Some(measured) = duty.and_then(|duty| self.project.duty.of(duty).air_fuel)
            && !engine.is_diesel()
        {
            model.mixture.air_fuel = measured;
        }
        model
    }

    /// Lower heating value of what it burns.
    pub fn heating_value(&self) -> AvailableEnergy {
        match self.ignition() {
            Ignition::Spark => heat::heating_value().likely(),
            Ignition::Diesel => heat::heating_value_diesel().likely(),
        }
    }

    /// How much warmer the charge comes in than with the ambient pressure in the manifold.
    pub fn charge_rise(
        &self,
        manifold: AbsolutePressure,
        scribe: &mut impl Scribe,
    ) -> Result<TemperatureInterval, Problems> {
        let engine = &self.project.engine;
        if !engine.is_boosted() {
            return Ok(TemperatureInterval::from_base(0.0));
        }
        let cooler = engine.cooler.unwrap_or_else(crate::study::defaults::cooler_effectiveness).likely;
        let blower = Blower {
            efficiency: cylinder::defaults::compressor_efficiency().likely(),
            cooler: if engine.charge_cooler { cooler } else { Ratio::from_base(0.0) },
        };
        blower.rise(manifold, self.ambient, self.project.surroundings.hottest, scribe).fail("engine.boost")
    }

    /// Gas past the shaft of a turbocharger over that past the rings: the figure at full boost, in proportion below it.
    pub fn turbo_leak(&self, manifold: AbsolutePressure) -> Estimate<Ratio> {
        let engine = &self.project.engine;
        let full = manifold::wide_open(self).base() - self.ambient.base();
        let part = (manifold.base() - self.ambient.base()) / full;
        if engine.induction != Induction::Turbocharger || full <= 0.0 || part <= 0.0 {
            return Estimate::exact(Ratio::from_base(0.0));
        }
        let share = self.project.blow_by.turbo_leak.unwrap_or_else(crate::study::defaults::turbo_leak);
        share.map(|share| Ratio::from_base(share.base() * part.min(1.0)))
    }

    /// Depression behind the air filter: with the square of the air the engine breathes.
    pub fn filter_depression(&self, air: MassRate, air_at_full: MassRate) -> Estimate<Pressure> {
        let full = self.project.duty.filter_depression.unwrap_or_else(crate::study::defaults::filter_depression);
        let share = if air_at_full.base() > 0.0 { air.base() / air_at_full.base() } else { 0.0 };
        full.map(|pressure| Pressure::from_base(pressure.base() * share * share))
    }
}
