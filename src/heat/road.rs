//! Power the car needs on the road.

use super::HeatError;
use super::airflow::ROAD_SPEED;
use crate::quantity::si::{Area, Force, Mass, MassDensity, Power, Ratio, Velocity};
use crate::quantity::{Amount, GRAVITY, Kind, Measured, Range};
use crate::scribe::{Scribe, Step};
use crate::source::heat as source;

/// Masses.
pub const MASS: Range = Range::new("mass of the car", Kind::Mass, 100.0, 40_000.0, "include people, load and trailer");
/// Drag areas.
pub const DRAG_AREA: Range =
    Range::new("drag area", Kind::Area, 0.05, 15.0, "drag coefficient times frontal area, 0.6 to 0.95 m² is usual");
/// Rolling resistances.
pub const ROLLING: Range =
    Range::new("rolling resistance coefficient", Kind::Number, 0.0, 0.3, "0.010 to 0.015 on tarmac");
/// Grades, as rise over run.
pub const GRADE: Range = Range::new("grade", Kind::Share, -0.6, 0.6, "rise divided by horizontal distance");
/// Air densities.
pub const AIR_DENSITY: Range =
    Range::new("air density", Kind::Density, 0.3, 2.0, "1.2 kg/m³ at sea level and 20 °C, less with height");
/// Forces that speed a car up or slow it down.
pub const ACCELERATING: Range = Range::new(
    "force that accelerates the car",
    Kind::Force,
    -2e6,
    2e6,
    "mass times acceleration, rotating parts counted in; 0 at steady speed",
);
/// Drivetrain efficiencies.
pub const DRIVETRAIN: Range = Range::new("drivetrain efficiency", Kind::Share, 0.3, 1.0, "0.82 to 0.93 is usual");

/// A car on the road.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct RoadLoad {
    /// Mass with everything in it.
    pub mass: Mass,
    /// Drag coefficient times frontal area of the car.
    pub drag_area: Area,
    /// Rolling resistance coefficient.
    pub rolling_resistance: Ratio,
    /// Rise over run; negative downhill.
    pub grade: Ratio,
    /// Road speed.
    pub speed: Velocity,
    /// What speeds it up: mass times acceleration, rotating parts counted in; 0 at steady speed, negative when it slows.
    pub accelerating: Force,
    /// Density of the air driven through.
    pub air_density: MassDensity,
    /// Share of the crankshaft's power that reaches the road.
    pub drivetrain_efficiency: Ratio,
}

/// What the road asks for.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct RoadPower {
    /// Rolling resistance.
    pub rolling: Force,
    /// The slope's pull; negative downhill.
    pub climbing: Force,
    /// Air drag.
    pub drag: Force,
    /// Power at the crankshaft; negative when the car drives the engine.
    pub engine: Power,
    /// Whether the car drives the engine.
    pub overrun: bool,
}

impl RoadLoad {
    /// P = v·[m·g·(C_rr·cos α + sin α) + ½·ρ·C_dA·v² + F_a]/η, with tan α the grade and F_a what accelerates the car; at
    /// overrun times η instead of over η.
    ///
    /// # Errors
    /// An input out of range.
    pub fn power(&self, scribe: &mut impl Scribe) -> Result<RoadPower, HeatError> {
        let weight = MASS.check(self.mass)?.base() * GRAVITY;
        let speed = ROAD_SPEED.check(self.speed)?.base();
        let slope = GRADE.check(self.grade)?.base().atan();
        let rolling = weight * ROLLING.check(self.rolling_resistance)?.base() * slope.cos();
        let climbing = weight * slope.sin();
        let density = AIR_DENSITY.check(self.air_density)?.base();
        let drag = 0.5 * density * DRAG_AREA.check(self.drag_area)?.base() * speed * speed;
        let efficiency = DRIVETRAIN.check(self.drivetrain_efficiency)?.base();
        let accelerating = ACCELERATING.check(self.accelerating)?.base();
        let wheel = (rolling + climbing + drag + accelerating) * speed;
        let overrun = wheel < 0.0;
        let engine = Power::from_base(if overrun { wheel * efficiency } else { wheel / efficiency });
        scribe.step(|| {
            Step::new(
                "Power the road asks of the engine",
                "P",
                "P = v·[m·g·(C_rr·cos α + sin α) + ½·ρ·C_dA·v² + F_a]/η",
                &source::ROAD_LOAD,
            )
            .with("v", self.speed)
            .with("m", self.mass)
            .with_number("C_rr", self.rolling_resistance.base())
            .with_amount("tan α", Amount::of_kind(self.grade, Kind::Share))
            .with("ρ", self.air_density)
            .with_amount("C_dA", Amount::of_kind(self.drag_area, Kind::Area))
            .with("F_a", self.accelerating)
            .with_amount("η", Amount::of_kind(self.drivetrain_efficiency, Kind::Share))
            .gives(engine)
        });
        let force = Force::from_base;
        Ok(RoadPower { rolling: force(rolling), climbing: force(climbing), drag: force(drag), engine, overrun })
    }
}
