//! Air the engine swallows, and the manifold pressure that follows.

use super::HeatError;
use super::engine_heat::{BRAKE_POWER, DISPLACEMENT};
use super::pump::ENGINE_SPEED;
use crate::fluid;
use crate::note::{Note, Weight};
use crate::quantity::si::{AngularVelocity, MassRate, Power, Ratio, ThermodynamicTemperature, Volume};
use crate::quantity::{AbsolutePressure, Amount, FuelPerWork, Kind, Measured, Range, pascals};
use crate::scribe::{Scribe, Step};
use crate::source::heat as source;

/// Fuel consumptions.
pub const CONSUMPTION: Range = Range::new(
    "specific fuel consumption",
    Kind::FuelPerWork,
    100.0e-3 / 3.6e6,
    2000.0e-3 / 3.6e6,
    "280 to 400 g/(kW·h) is usual for petrol engines",
);
/// Air to fuel ratios by mass.
pub const AIR_FUEL: Range =
    Range::new("air to fuel ratio", Kind::Number, 5.0, 100.0, "14.7 for petrol, 12.5 rich at full throttle");
/// Volumetric efficiencies on manifold density.
pub const VOLUMETRIC: Range =
    Range::new("volumetric efficiency", Kind::Share, 0.3, 1.3, "0.75 to 0.90 on manifold density");
/// Intake temperatures.
pub const INTAKE_TEMPERATURE: Range =
    Range::new("air temperature in the manifold", Kind::Temperature, 230.0, 700.0, "305 to 325 K is usual");
/// Ambient pressures.
pub const AMBIENT_PRESSURE: Range = Range::new(
    "ambient pressure",
    Kind::AbsolutePressure,
    4e4,
    5.0e5,
    "101 kPa at sea level, 54 kPa at 5000 m; for an engine with a blower give the most pressure before the intake valve",
);

/// An engine breathing at a steady duty.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Breathing {
    /// Swept volume of all cylinders; four-stroke.
    pub displacement: Volume,
    /// Crankshaft speed.
    pub speed: AngularVelocity,
    /// Power at the crankshaft; above 0.
    pub brake_power: Power,
    /// Mass of fuel per work at the crankshaft.
    pub consumption: FuelPerWork,
    /// Mass of air per mass of fuel.
    pub air_fuel_ratio: Ratio,
    /// Volumetric efficiency on manifold density.
    pub volumetric_efficiency: Ratio,
    /// Air temperature in the manifold.
    pub intake_temperature: ThermodynamicTemperature,
    /// Pressure of the air the engine breathes.
    pub ambient_pressure: AbsolutePressure,
    /// The least manifold pressure of the running engine; a lower estimate is raised to it, with a note.
    pub least_pressure: AbsolutePressure,
}

/// Air flow and manifold pressure.
#[derive(Clone, Debug, PartialEq)]
pub struct Manifold {
    /// Air the engine swallows.
    pub air_flow: MassRate,
    /// Absolute pressure in the manifold.
    pub pressure: AbsolutePressure,
    /// The pressure of the equation, before it was raised to the least one.
    pub by_equation: AbsolutePressure,
    /// What weakens the estimate.
    pub notes: Vec<Note>,
}

impl Breathing {
    /// ṁ = P·b·AFR and MAP = 2·ṁ·R·T/(η_v·V_d·n), with n in revolutions per second.
    ///
    /// # Errors
    /// An input out of range, or more power than the engine can make with ambient pressure in the manifold.
    pub fn manifold(&self, scribe: &mut impl Scribe) -> Result<Manifold, HeatError> {
        let power = BRAKE_POWER.check(self.brake_power)?.base();
        let per_work = CONSUMPTION.check(self.consumption)?.base() * AIR_FUEL.check(self.air_fuel_ratio)?.base();
        let revolutions = ENGINE_SPEED.check(self.speed)?.base() / (2.0 * std::f64::consts::PI);
        let swallowed = VOLUMETRIC.check(self.volumetric_efficiency)?.base()
            * DISPLACEMENT.check(self.displacement)?.base()
            * revolutions
            / 2.0;
        let per_pascal =
            swallowed / (fluid::air::gas_constant().base() * INTAKE_TEMPERATURE.check(self.intake_temperature)?.base());
        let ambient = AMBIENT_PRESSURE.check(self.ambient_pressure)?.base();
        let floor = Range {
            what: "least manifold pressure",
            low: 0.0,
            high: ambient,
            hint: "18 kPa is usual; it cannot exceed ambient",
            ..AMBIENT_PRESSURE
        };
        let least = floor.check(self.least_pressure)?.base();

        let air = power * per_work;
        scribe.step(|| {
            Step::new("Air the engine swallows", "ṁ_air", "ṁ_air = P·b·AFR", &source::FUEL_CONSUMPTION)
                .with("P", self.brake_power)
                .with("b", self.consumption)
                .with("AFR", self.air_fuel_ratio)
                .gives_amount(Amount::new(air, Kind::GasFlow))
        });
        let pressure = air / per_pascal;
        scribe.step(|| {
            Step::new("Manifold pressure", "MAP", "MAP = 2·ṁ_air·R·T/(η_v·V_d·n)", &source::MANIFOLD)
                .with_amount("ṁ_air", Amount::new(air, Kind::GasFlow))
                .with("T", self.intake_temperature)
                .with_amount("η_v", Amount::of_kind(self.volumetric_efficiency, Kind::Share))
                .with_amount("V_d", Amount::of_kind(self.displacement, Kind::Displacement))
                .with("n", self.speed)
                .gives_amount(Amount::new(pressure, Kind::AbsolutePressure))
        });
        if pressure > ambient {
            let most = Power::from_base(ambient * per_pascal / per_work);
            return Err(HeatError::EngineCannotMake { needed: self.brake_power, most });
        }
        let absolute = |base: f64| AbsolutePressure::new(pascals(base));
        let mut notes = Vec::new();
        if pressure < least {
            notes.push(Note::new(
                "manifold-below-least",
                Weight::Remark,
                "The power is so small that the equation gives less manifold pressure than a running engine holds; \
                 the least pressure given is used instead.",
            ));
        }
        Ok(Manifold {
            air_flow: MassRate::from_base(air),
            pressure: absolute(pressure.max(least)),
            by_equation: absolute(pressure),
            notes,
        })
    }
}
