//! Oil and metal beside the coolant, the ways out of it beside the radiator, and the warm-up of both.

use super::context::Context;
use super::engine_heat::EngineHeat;
use super::fan::switch;
use super::{Fail, thermal};
use crate::fluid;
use crate::heat::fan::solve_with_fan;
use crate::heat::{
    self, Balance, Beside, Heater, Lumps, Metal, OilBalance, OilCooler, OilRange, Outcome, Stretch, SumpToAir,
    WarmUpWithOil, WarmedUp,
};
use crate::note::{Note, Weight};
use crate::quantity::si::{HeatCapacity, KinematicViscosity, ThermalConductance, ThermodynamicTemperature, Velocity};
use crate::quantity::{Amount, Estimate, Measured, UnitSystem};
use crate::scribe::{Scribe, Silent};
use crate::study::{Duty, DutyAnswers, DutyOil, HeaterAnswer, OilAnswer, OilCooling, OilFilm, Problems, defaults};

fn told<T>(result: Result<T, impl std::fmt::Display>) -> Result<T, String> {
    result.map_err(|error| error.to_string())
}

/// The oil's balance at a road speed in this air, with this heat.
pub(super) fn oil_balance(
    context: &Context<'_>,
    heat: &EngineHeat,
    road_speed: Velocity,
    ambient: ThermodynamicTemperature,
) -> Result<OilBalance, Problems> {
    let (oil, engine) = (&context.project.oil, &context.project.engine);
    let air = fluid::air::density(context.ambient, ambient, &mut Silent).fail("surroundings.altitude")?;
    let sump = SumpToAir {
        still: oil.sump_still.unwrap_or_else(|| defaults::sump_still(engine)),
        driving: oil.sump_driving.unwrap_or_else(|| defaults::sump_driving(engine)),
    };
    let cooler = match oil.cooling {
        OilCooling::None => OilCooler::None,
        OilCooling::ToCoolant => {
            OilCooler::ToCoolant { conductance: oil.cooler_to_coolant.unwrap_or_else(defaults::oil_cooler_to_coolant) }
        }
        OilCooling::ToAir => {
            let stated = oil.cooler_to_air.unwrap_or_else(defaults::oil_cooler_to_air);
            // It stands in the wind as the radiator does, without its fan.
            let ram = context.project.radiator.ram_share.unwrap_or_else(defaults::ram_share).likely;
            let face = Velocity::from_base(ram.base() * road_speed.base());
            OilCooler::in_air(&stated, face, air, oil.cooler_opens).fail("oil.cooler_to_air")?
        }
    };
    Ok(OilBalance {
        heat: heat.oil,
        block: oil.block.unwrap_or_else(|| defaults::oil_to_block(engine)),
        sump: sump.at(road_speed, air).fail("oil.sump_driving")?,
        cooler,
        ambient,
    })
}

/// A balance of the coolant with what an oil cooler and, if it is on, the heater bring into it.
pub(super) fn with_beside(
    context: &Context<'_>,
    duty: Duty,
    balance: Balance,
    heater: bool,
    scribe: &mut impl Scribe,
) -> Result<Balance, Problems> {
    let balance = if heater { with_heater(context, &balance, scribe)? } else { balance };
    if context.project.oil.cooling == OilCooling::None {
        return Ok(balance);
    }
    let heat = EngineHeat::of(context, duty, &mut Silent)?;
    with_oil_cooler(context, &heat, context.project.duty.of(duty).road_speed, &balance)
}

/// A balance of the coolant with what this project has beside the radiator, at any heat and road speed.
pub(super) fn with_beside_at(
    context: &Context<'_>,
    heat: &EngineHeat,
    road_speed: Velocity,
    balance: Balance,
) -> Result<Balance, Problems> {
    let heater = context.project.heater.on;
    let balance = if heater { with_heater(context, &balance, &mut Silent)? } else { balance };
    if context.project.oil.cooling == OilCooling::None {
        return Ok(balance);
    }
    with_oil_cooler(context, heat, road_speed, &balance)
}

fn with_heater(context: &Context<'_>, balance: &Balance, scribe: &mut impl Scribe) -> Result<Balance, Problems> {
    let inputs = &context.project.heater;
    let heater = Heater {
        conductance: inputs.conductance.unwrap_or_else(defaults::heater).likely,
        air: inputs.air.unwrap_or(balance.ambient_temperature),
    };
    Ok(heater.beside(balance.ambient_temperature, scribe).fail("heater.air")?.in_balance(balance))
}

fn with_oil_cooler(
    context: &Context<'_>,
    heat: &EngineHeat,
    road_speed: Velocity,
    balance: &Balance,
) -> Result<Balance, Problems> {
    let oil = oil_balance(context, heat, road_speed, balance.ambient_temperature)?;
    let fan = switch(context);
    let solve = |balance: &Balance| Ok(solve_with_fan(balance, fan.as_ref(), &mut Silent)?.0);
    let (beside, _) = oil.joint(balance, solve).fail("oil")?;
    Ok(beside.in_balance(balance))
}

/// What an oil cooler brought into the coolant at a temperature measured in the car.
pub(super) fn cooler_at_measurement(context: &Context<'_>, heat: &EngineHeat) -> Result<Beside, Problems> {
    let inputs = &context.project.radiator;
    if context.project.oil.cooling == OilCooling::None {
        return Ok(Beside::nothing());
    }
    let oil = oil_balance(context, heat, inputs.measured_speed, inputs.measured_air)?;
    oil.beside_at(inputs.measured_coolant).fail("radiator.measured_coolant")
}

/// The oil, its heat at every duty, and the metal.
pub(super) struct Warmth<'c, 'p> {
    context: &'c Context<'p>,
    range: OilRange,
    metal: Metal,
    heats: [EngineHeat; 5],
}

impl<'c, 'p> Warmth<'c, 'p> {
    pub fn new(context: &'c Context<'p>, heats: [EngineHeat; 5]) -> Result<Self, Problems> {
        let (oil, engine) = (&context.project.oil, &context.project.engine);
        let range = OilRange::new(&oil.at_40(), &oil.at_100()).fail("oil.viscosity_40")?;
        let metal = Metal {
            conductance: context
                .project
                .circuit
                .metal_conductance
                .unwrap_or_else(|| defaults::metal_conductance(engine)),
            natural: defaults::metal_without_flow(engine),
            exponent: heat::oil_defaults::metal_flow_power().estimate,
        };
        Ok(Self { context, range, metal, heats })
    }

    const fn heat(&self, duty: Duty) -> &EngineHeat {
        &self.heats[duty.index()]
    }

    /// Temperature of the oil with the coolant at a temperature, in this air.
    fn state(
        &self,
        duty: Duty,
        coolant: ThermodynamicTemperature,
        ambient: ThermodynamicTemperature,
        scribe: &mut impl Scribe,
    ) -> Result<heat::OilState, Problems> {
        let speed = self.context.project.duty.of(duty).road_speed;
        let balance = oil_balance(self.context, self.heat(duty), speed, ambient)?;
        balance.at(coolant, scribe).fail(format!("duty.{}", duty.word()))
    }

    /// Viscosity with its spread; where just an end of the spread leaves what the equation holds for, the likely one is named.
    fn viscosity(
        &self,
        at: &Estimate<ThermodynamicTemperature>,
        scribe: &mut impl Scribe,
    ) -> Result<Estimate<KinematicViscosity>, String> {
        self.range.viscosity(at, scribe).map_err(|error| match self.range.likely(at.likely, scribe) {
            Ok(likely) => format!(
                "about {}; at the unfavourable end of {} the oil is beyond its equation, thinner than all of it",
                Amount::of(likely).show(UnitSystem::Si),
                Amount::of(at.high).show(UnitSystem::Si)
            ),
            Err(_) => error.to_string(),
        })
    }

    /// The oil of the warm engine in the coldest air, the coolant at the thermostat's setting.
    pub fn in_the_cold(
        &self,
        duty: Duty,
        set_point: ThermodynamicTemperature,
        scribe: &mut impl Scribe,
    ) -> Result<Estimate<ThermodynamicTemperature>, String> {
        Ok(told(self.state(duty, set_point, self.context.project.surroundings.coldest, scribe))?.temperature)
    }

    /// Oil and metal of a duty on the hottest day.
    pub fn of(
        &self,
        duty: Duty,
        coolant: ThermodynamicTemperature,
        scribe: &mut impl Scribe,
    ) -> Result<DutyOil, Problems> {
        let state = self.state(duty, coolant, self.context.project.surroundings.hottest, scribe)?;
        let viscosity = self.viscosity(&state.temperature, scribe);
        let likely = match &viscosity {
            Ok(viscosity) => Some(viscosity.likely),
            Err(_) => self.range.likely(state.temperature.likely, &mut Silent).ok(),
        };
        let thin = self.context.project.oil.thin_below.unwrap_or_else(defaults::thin_oil);
        let rpm = self.context.project.duty.of(duty).rpm;
        let above =
            self.metal.above_coolant(&self.heat(duty).coolant, rpm, scribe).fail("circuit.metal_conductance")?;
        Ok(DutyOil {
            heat: self.heat(duty).oil,
            state,
            film: OilFilm::of(&viscosity, likely, &thin),
            viscosity,
            metal: above.map(|above| ThermodynamicTemperature::from_base(coolant.base() + above.base())),
        })
    }

    /// From the coldest start, idle and then cruise, until the thermostat opens and the oil is warm.
    pub fn warm_up(&self, set_point: ThermodynamicTemperature, scribe: &mut impl Scribe) -> Result<WarmedUp, String> {
        let (project, context) = (self.context.project, self.context);
        let (oil, engine, air) = (&project.oil, &project.engine, project.surroundings.coldest);
        let litres = oil.volume.unwrap_or_else(|| defaults::oil_volume(engine)).likely.base() * 1e3;
        let capacity =
            heat::oil_defaults::oil_capacity().likely().base() * litres + defaults::oil_metal(engine).likely.base();
        let warm = oil.warm.unwrap_or_else(defaults::warm_oil).likely;
        let mut between = oil.block.unwrap_or_else(|| defaults::oil_to_block(engine)).likely;
        if let OilCooling::ToCoolant = oil.cooling {
            between += oil.cooler_to_coolant.unwrap_or_else(defaults::oil_cooler_to_coolant).likely;
        }
        let stretch = |duty: Duty| -> Result<Stretch, String> {
            let speed = project.duty.of(duty).road_speed;
            let balance = told(oil_balance(context, self.heat(duty), speed, air))?;
            // What the oil gives to the block is in the coolant's heat already; here the oil has its own lump.
            let alone = told(OilBalance { cooler: OilCooler::None, ..balance }.at(set_point, &mut Silent))?;
            let cooler = match &balance.cooler {
                OilCooler::ToAir { conductance, .. } => conductance.likely,
                _ => ThermalConductance::from_base(0.0),
            };
            let heat = self.heat(duty);
            let direct = heat.coolant.likely - alone.to_block;
            Ok(Stretch { engine: direct, oil: heat.oil.likely, sump: balance.sump.likely, cooler })
        };
        let warm_up = WarmUpWithOil {
            lumps: Lumps {
                engine: defaults::engine_capacity(engine).likely,
                oil: HeatCapacity::from_base(capacity),
                between,
                engine_loss: defaults::warm_up_loss(engine).likely,
                ambient: air,
            },
            idle: stretch(Duty::Idle)?,
            idle_for: oil.idle_first.unwrap_or_else(defaults::idle_first).likely,
            drive: stretch(Duty::Cruise)?,
            start: air,
            cooler_opens: if oil.cooling == OilCooling::ToAir { oil.cooler_opens } else { None },
        };
        told(warm_up.with_thermostat(set_point, warm, scribe))
    }

    /// The oil itself, and the warm-up with the thermostat fitted.
    pub fn answer(&self, scribe: &mut impl Scribe) -> OilAnswer {
        let oil = &self.context.project.oil;
        scribe.chapter("warm-up", "Warm-up from the coldest start");
        let warm_up = self.warm_up(self.context.project.thermostat.set_point, scribe);
        OilAnswer {
            grade: oil.grade,
            class: oil.grade.hot_class(),
            at_40: oil.at_40(),
            at_100: oil.at_100(),
            warm: oil.warm.unwrap_or_else(defaults::warm_oil).likely,
            start: self.context.project.surroundings.coldest,
            warm_up,
        }
    }
}

/// What the heater is worth as a last resort, at the duty with the hottest coolant.
pub(super) fn heater(
    context: &Context<'_>,
    radiators: &super::radiators::Radiators,
    duty: Duty,
    heat: &EngineHeat,
    ceiling: ThermodynamicTemperature,
) -> Result<HeaterAnswer, Problems> {
    let set_point = context.project.thermostat.set_point;
    let at = |on: bool| -> Result<Option<ThermodynamicTemperature>, Problems> {
        let heat = heat.coolant.likely;
        let bare = thermal::bare(context, radiators.likely(), set_point, duty, heat, ceiling, &mut Silent)?;
        let balance = with_beside(context, duty, bare, on, &mut Silent)?;
        match solve_with_fan(&balance, switch(context).as_ref(), &mut Silent).fail("heater")?.0 {
            Outcome::Steady(state) => Ok(Some(state.outlet_temperature)),
            Outcome::None(_) => Ok(None),
        }
    };
    Ok(HeaterAnswer { on: context.project.heater.on, duty, without: at(false)?, with: at(true)? })
}

/// What is to be said of oil that runs thin or hot.
pub(super) fn notes(duties: &[DutyAnswers; 5]) -> Vec<Note> {
    let thin: Vec<_> =
        duties.iter().filter(|duty| duty.oil.film == OilFilm::Thin).map(|duty| duty.duty.name()).collect();
    let mut notes = Vec::new();
    if !thin.is_empty() {
        let hottest = duties.iter().map(|duty| duty.oil.state.temperature.likely.base()).fold(0.0, f64::max);
        let until = if duties.iter().any(|duty| duty.oil.film == OilFilm::Thin && duty.boils()) {
            "with the coolant just boiling"
        } else {
            "held until temperatures settle"
        };
        let text = format!(
            "{}: {until}, the oil reaches about {} and is thinner than plain bearings want under load. \
             Cool it, choose a thicker grade if the maker allows it, or do not hold that duty so long.",
            thin.join(", "),
            Amount::of(ThermodynamicTemperature::from_base(hottest)).show(UnitSystem::Si)
        );
        notes.push(Note::new("oil-thin", Weight::Weak, text));
    }
    if duties.iter().any(|duty| duty.oil.state.temperature.likely.base() > SCALDS) {
        notes.push(Note::new(
            "oil-hot",
            Weight::Danger,
            "Oil at running temperature burns skin at once and can catch fire on an exhaust: let the engine cool before a filter, \
             a drain plug or a cooler's hose is opened.",
        ));
    }
    let hot: Vec<_> =
        duties.iter().filter(|duty| duty.oil.metal.likely.base() > BUBBLES).map(|duty| duty.duty.name()).collect();
    if !hot.is_empty() {
        let text = format!(
            "{}: metal above 200 °C is a figure on the hot side. Coolant boils in bubbles on metal that hot and carries more than \
             is reckoned; how much more is not computed. Take it as a sign that the heads are near what they bear.",
            hot.join(", ")
        );
        notes.push(Note::new("metal-hot", Weight::Weak, text));
    }
    notes
}

/// Oil above this scalds a hand that gets it: 60 °C, K.
const SCALDS: f64 = 273.15 + 60.0;
/// Metal above this boils the coolant on its surface, which the conductance leaves out: 200 °C, K.
const BUBBLES: f64 = 273.15 + 200.0;
