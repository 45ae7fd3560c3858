//! Heat of the engine at a duty: to the coolant and to the oil.

use super::Fail;
use super::context::Context;
use crate::heat::{self, EngineDuty, OilHeatModel};
use crate::quantity::si::{AngularVelocity, Power, Volume};
use crate::quantity::{Amount, Estimate, Kind, Measured};
use crate::scribe::{Scribe, Step};
use crate::source::heat as source;
use crate::study::{Duty, Problems, defaults};

/// Share of the rated power below which an idling engine counts as unloaded.
pub(super) const IDLE_LOAD: f64 = 0.02;

/// Heat of one duty.
#[derive(Clone, Copy, Debug)]
pub(super) struct EngineHeat {
    pub coolant: Estimate<Power>,
    pub oil: Estimate<Power>,
}

impl EngineHeat {
    /// At a duty: idle by displacement, overrun with the fuel cut by friction alone.
    pub fn of(context: &Context<'_>, duty: Duty, scribe: &mut impl Scribe) -> Result<Self, Problems> {
        let inputs = context.project.duty.of(duty);
        let path = format!("duty.{}.power", duty.word());
        let of_power = Self::at(context, Some(duty), inputs.rpm, inputs.power, scribe).fail(path.as_str())?;
        if duty == Duty::Overrun {
            return of_power.without_fuel(context, scribe).fail(path);
        }
        if duty != Duty::Idle || inputs.power.base() >= IDLE_LOAD * context.rated.base() {
            return of_power.to_oil(context, scribe).fail(path);
        }
        of_power.idling(context, scribe).fail(path)
    }

    /// At a speed and a power, the mixture that of a duty, or just enough air.
    pub fn at(
        context: &Context<'_>,
        duty: Option<Duty>,
        speed: AngularVelocity,
        power: Power,
        scribe: &mut impl Scribe,
    ) -> Result<Friction, String> {
        let engine = EngineDuty {
            displacement: Volume::from_base(context.project.engine.swept()),
            speed,
            brake_power: power,
            // A day may ask for more than any duty does.
            rated_power: if power > context.rated { power } else { context.rated },
        };
        let model = context.heat_model_at(duty);
        let heat = heat::heat_to_coolant(&engine, &model, scribe).map_err(|error| error.to_string())?;
        Ok(Friction { coolant: heat.heat, friction: heat.friction_power })
    }
}

/// Heat to the coolant and the friction power.
#[derive(Clone, Copy, Debug)]
pub(super) struct Friction {
    pub coolant: Estimate<Power>,
    friction: Estimate<Power>,
}

impl Friction {
    pub fn to_oil(self, context: &Context<'_>, scribe: &mut impl Scribe) -> Result<EngineHeat, String> {
        let model = OilHeatModel::usual(context.project.oil.piston_jets);
        let oil = model.heat(&self.friction, &self.coolant, scribe).map_err(|error| error.to_string())?;
        Ok(EngineHeat { coolant: self.coolant, oil })
    }

    /// The friction model says too little of an idling engine; usual figures by displacement say more.
    pub fn idling(self, context: &Context<'_>, scribe: &mut impl Scribe) -> Result<EngineHeat, String> {
        let coolant = defaults::idle_heat(&context.project.engine);
        scribe.step(|| {
            Step::new("Heat into the coolant at idle", "Q", "by displacement", &source::IDLE_HEAT)
                .with_amount("V_d", Amount::new(context.project.engine.swept(), Kind::Displacement))
                .gives(coolant.likely)
        });
        Self { coolant, ..self }.to_oil(context, scribe)
    }

    /// Without fuel the friction power is what warms the engine: fuel power times the indicated efficiency.
    pub fn without_fuel(self, context: &Context<'_>, scribe: &mut impl Scribe) -> Result<EngineHeat, String> {
        let efficiency = context.heat_model().indicated_efficiency.likely;
        let coolant = self.coolant.map(|heat| Power::from_base(heat.base() * efficiency.base()));
        scribe.step(|| {
            Step::new(
                "Heat of friction alone, fuel cut",
                "Q",
                "Q = f_c·P_friction = f_c·P_fuel·η_i",
                &source::COOLANT_SHARE,
            )
            .with("f_c·P_fuel", self.coolant.likely)
            .with("η_i", efficiency)
            .gives(coolant.likely)
        });
        Self { coolant, ..self }.to_oil(context, scribe)
    }
}
