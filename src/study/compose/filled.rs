//! From a project to the physics' own words for the filled system, the cap and the tank.

use super::context::Context;
use super::{Fail, problem};
use crate::coolant::{
    Cap, Circuit, FilledSystem, HoseRun, HotTemperatures, Material, Part, Region, Shares, SystemVolume, Tank, TankShape,
};
use crate::quantity::si::{Ratio, TemperatureInterval, ThermodynamicTemperature, Volume};
use crate::quantity::{Estimate, Measured};
use crate::scribe::{Scribe, Silent};
use crate::study::{
    CapCondition, EngineMetal, Problems, Project, RadiatorMetal, ShapeKind, TankArrangement, VolumeKnowledge, defaults,
};

/// The name of the header tank among the parts.
const HEADER_TANK: &str = "header tank";

/// The cap with its tolerance.
pub(super) fn cap(project: &Project) -> Cap {
    let inputs = &project.cap;
    let cap = match inputs.condition {
        CapCondition::New => Cap::new(inputs.opening),
        CapCondition::Worn => Cap::worn(inputs.opening),
    };
    Cap { vacuum_opening: inputs.vacuum_opening.unwrap_or_else(defaults::vacuum_opening), ..cap }
}

/// The tank.
pub(super) fn tank(project: &Project) -> Result<Tank, Problems> {
    let inputs = &project.tank;
    let shape = match inputs.shape {
        ShapeKind::UprightCylinder => TankShape::UprightCylinder { diameter: inputs.diameter, height: inputs.height },
        ShapeKind::LyingCylinder => TankShape::LyingCylinder { diameter: inputs.diameter, length: inputs.length },
        ShapeKind::Box => TankShape::Box { length: inputs.length, width: inputs.width, height: inputs.height },
        ShapeKind::TaperedBox => TankShape::TaperedBox {
            bottom_length: inputs.length,
            bottom_width: inputs.width,
            top_length: inputs.top_length,
            top_width: inputs.top_width,
            height: inputs.height,
        },
        ShapeKind::DipTable => TankShape::DipTable(inputs.dips.clone()),
    };
    Tank::new(shape).fail("tank.shape")
}

/// Temperatures of the parts for coolant that leaves the engine and comes back from the radiator.
pub(super) fn parts_at(outlet: ThermodynamicTemperature, back: ThermodynamicTemperature) -> HotTemperatures {
    let usual = HotTemperatures::from_engine(outlet);
    let mean = ThermodynamicTemperature::from_base(0.5 * (outlet.base() + back.base()));
    HotTemperatures { radiator: mean, ..usual }
}

/// All parts at one temperature.
pub(super) const fn parts_all(temperature: ThermodynamicTemperature) -> HotTemperatures {
    HotTemperatures { engine: temperature, radiator: temperature, heater: temperature, hoses: temperature }
}

fn metal(metal: EngineMetal) -> Material {
    match metal {
        EngineMetal::Iron => Material::GreyIron,
        EngineMetal::Aluminium => Material::CastAluminium,
    }
}

fn system_volume(project: &Project) -> SystemVolume {
    let circuit = &project.circuit;
    let radiator = match circuit.radiator_metal {
        RadiatorMetal::Aluminium => Material::CastAluminium,
        RadiatorMetal::CopperBrass => Material::Brass,
    };
    if circuit.knowledge == VolumeKnowledge::Measured {
        let engine = circuit.engine_share.unwrap_or_else(defaults::engine_share);
        let radiator_share = circuit.radiator_share.unwrap_or_else(defaults::radiator_share);
        let rest = Ratio::from_base(1.0 - engine.likely.base() - radiator_share.likely.base());
        // An engine half iron, half aluminium grows as its larger part, the block.
        return SystemVolume::Measured {
            total: Estimate::exact(circuit.total),
            shares: Shares { engine, radiator: radiator_share, heater_and_hoses: Estimate::exact(rest) },
            engine: metal(project.engine.block_metal),
            radiator,
        };
    }
    let part = |volume: Volume, material| Part { volume: Estimate::exact(volume), material };
    SystemVolume::Built {
        block: part(circuit.block, metal(project.engine.block_metal)),
        heads: part(circuit.heads, metal(project.engine.head_metal)),
        radiator: part(circuit.radiator, radiator),
        heater: part(circuit.heater, Material::CastAluminium),
        hoses: circuit.hoses.iter().map(|hose| HoseRun { bore: hose.bore, length: hose.length }).collect(),
    }
}

/// The parts of the system at given temperatures, the header tank among them if there is one.
pub(super) fn circuit(
    context: &Context<'_>,
    tank: &Tank,
    hot: &HotTemperatures,
    scribe: &mut impl Scribe,
) -> Result<Circuit, Problems> {
    let circuit = system_volume(context.project).circuit(hot, scribe).fail("circuit")?;
    if context.project.tank.arrangement != TankArrangement::HeaderTank {
        return Ok(circuit);
    }
    let below = crate::coolant::defaults::header_tank_below_engine().likely().base();
    // Cold parts are all at one temperature; only a hot engine stands above its header tank.
    let apart: TemperatureInterval = Measured::from_base(if hot.engine == hot.hoses { 0.0 } else { below });
    let temperature = ThermodynamicTemperature::from_base(hot.engine.base() - apart.base());
    Ok(circuit.and(Region::new(HEADER_TANK, Estimate::exact(tank.capacity()), Material::Hose, temperature)))
}

/// The system as it was filled, its parts hot at the given temperatures.
pub(super) fn filled(
    context: &Context<'_>,
    tank: &Tank,
    hot: &HotTemperatures,
    scribe: &mut impl Scribe,
) -> Result<FilledSystem, Problems> {
    let project = context.project;
    let air = project.circuit.trapped_air.unwrap_or_else(defaults::trapped_air);
    let circuit = circuit(context, tank, hot, scribe)?;
    let (trapped_gas, gas_in) = if project.tank.arrangement == TankArrangement::HeaderTank {
        let cushion = project.tank.cushion.base();
        if cushion >= tank.capacity().base() {
            let message = format!(
                "the air cushion of {:.2} L fills the tank of {:.2} L; leave room for coolant",
                cushion * 1e3,
                tank.capacity().base() * 1e3
            );
            return Err(problem("tank.cushion", message));
        }
        // Air bled badly ends up in the header tank on the first drive.
        (air.map(|air| Volume::from_base(air.base() + cushion)), HEADER_TANK.to_owned())
    } else {
        let first = circuit.regions.first().map(|region| region.name.clone());
        (air, first.unwrap_or_default())
    };
    Ok(FilledSystem {
        mix: context.mix,
        circuit,
        fill_temperature: project.surroundings.filled_at,
        ambient: context.ambient,
        trapped_gas,
        gas_in,
        swell: project.circuit.hose_swell.unwrap_or_else(defaults::hose_swell),
    })
}

/// Heat capacity of the coolant in the engine, J/K.
pub(super) fn engine_coolant_capacity(
    context: &Context<'_>,
    circuit: &Circuit,
    at: ThermodynamicTemperature,
) -> Result<f64, Problems> {
    let density = context.mix.density(at, &mut Silent).fail("coolant")?.base();
    let heat = context.mix.specific_heat(at, &mut Silent).fail("coolant")?.base();
    let volume: f64 = circuit
        .regions
        .iter()
        .filter(|region| matches!(region.name.as_str(), "engine" | "block" | "heads"))
        .map(|region| region.volume.likely.base())
        .sum();
    Ok(volume * density * heat)
}
