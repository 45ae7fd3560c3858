//! From the road to the manifold: the power a road asks for, the air it takes, and the manifold pressure that gives it.

use super::{BlowByError, Geometry, defaults};
use crate::crankcase::flow_function::GAS_CONSTANT;
use crate::note::{Note, Weight};
use crate::quantity::si::{
    Angle, AngularVelocity, Area, Mass, MassDensity, MassRate, Power, Ratio, ThermodynamicTemperature as Temperature,
    Velocity,
};
use crate::quantity::{AbsolutePressure, Amount, FuelPerWork, Kind, Measured, Range};
use crate::scribe::{Scribe, Step};
use crate::source::DEFINITION;
use crate::source::crankcase::blow_by as source;
use std::f64::consts::PI;

/// Standard acceleration of free fall, m/s².
const FREE_FALL: f64 = 9.806_65;

static MASS: Range = Range::new("mass of the car", Kind::Mass, 100.0, 10_000.0, "the car with its load");
static ROAD_SPEED: Range = Range::new("road speed", Kind::RoadSpeed, 0.0, 120.0, "up to 430 km/h");
static SLOPE: Range = Range::new("slope angle", Kind::Angle, -0.5, 0.5, "6 % is 3.43°");
static DRAG_AREA: Range = Range::new("drag area", Kind::Area, 0.05, 10.0, "drag coefficient times frontal area");
static AIR_DENSITY: Range = Range::new("air density", Kind::Density, 0.3, 2.0, "1.2 kg/m³ near sea level");
static POWER: Range = Range::new("brake power", Kind::Power, 0.0, 2e6, "the power at the crank");
static FUEL: Range = Range::new(
    "specific fuel consumption",
    Kind::FuelPerWork,
    180.0 / 3.6e9,
    900.0 / 3.6e9,
    "280 to 400 g/kWh is usual for a petrol engine under load",
);
static AIR: Range = Range::new("air flow", Kind::GasFlow, 0.0, 5.0, "air drawn by the engine");

/// What a road asks of a car.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct RoadLoad {
    /// Mass of the car with its load.
    pub mass: Mass,
    /// Speed on the road.
    pub speed: Velocity,
    /// Slope of the road against the level, uphill positive; the arc tangent of the grade.
    pub slope: Angle,
    /// Rolling resistance over weight; default [`defaults::ROLLING`].
    pub rolling: Ratio,
    /// Drag coefficient times frontal area.
    pub drag_area: Area,
    /// Density of the air outside.
    pub air_density: MassDensity,
    /// Share of the power that reaches the road; default [`defaults::DRIVELINE`].
    pub driveline: Ratio,
}

/// Brake power on the road, `P = v [m g (C_rr cos α + sin α) + ½ ρ C_dA v²]/η_d`. Zero downhill where the car pushes.
///
/// # Errors
/// A value outside its range.
pub fn road_power(load: &RoadLoad, scribe: &mut impl Scribe) -> Result<Power, BlowByError> {
    MASS.check(load.mass)?;
    ROAD_SPEED.check(load.speed)?;
    SLOPE.check(load.slope)?;
    DRAG_AREA.check(load.drag_area)?;
    AIR_DENSITY.check(load.air_density)?;
    defaults::ROLLING.check(load.rolling)?;
    defaults::DRIVELINE.check(load.driveline)?;
    let speed = load.speed.base();
    let (sine, cosine) = load.slope.base().sin_cos();
    let weight = load.mass.base() * FREE_FALL * (load.rolling.base() * cosine + sine);
    let drag = 0.5 * load.air_density.base() * load.drag_area.base() * speed * speed;
    let power = Power::from_base((speed * (weight + drag)).max(0.0) / load.driveline.base());
    scribe.step(|| {
        Step::new(
            "brake power on the road",
            "P",
            "P = v [m g (C_rr cos α + sin α) + ½ ρ C_dA v²]/η_d, not below zero",
            &source::ROAD_LOAD,
        )
        .with("v", load.speed)
        .with("m", load.mass)
        .with("C_rr", load.rolling)
        .with("α", load.slope)
        .with("ρ", load.air_density)
        .with_amount("C_dA", Amount::of_kind(load.drag_area, Kind::Area))
        .with_amount("η_d", Amount::of_kind(load.driveline, Kind::Share))
        .gives(power)
    });
    Ok(power)
}

/// Air an engine takes for a brake power, `ṁ_air = P · BSFC · AFR`.
///
/// # Errors
/// A value outside its range.
pub fn air_for_power(
    power: Power,
    fuel_consumption: FuelPerWork,
    air_fuel: Ratio,
    scribe: &mut impl Scribe,
) -> Result<MassRate, BlowByError> {
    POWER.check(power)?;
    FUEL.check(fuel_consumption)?;
    defaults::AIR_FUEL.check(air_fuel)?;
    let air = MassRate::from_base(power.base() * fuel_consumption.base() * air_fuel.base());
    scribe.step(|| {
        Step::new("air drawn by the engine", "ṁ_air", "ṁ_air = P · BSFC · AFR", &DEFINITION)
            .with("P", power)
            .with("BSFC", fuel_consumption)
            .with("AFR", air_fuel)
            .gives(air)
    });
    Ok(air)
}

/// A manifold pressure and what is to be said of it.
#[derive(Clone, Debug, PartialEq)]
pub struct Manifold {
    /// The pressure.
    pub pressure: AbsolutePressure,
    /// "manifold-at-least" when the throttle cannot close that far.
    pub notes: Vec<Note>,
}

/// The manifold pressure that gives an air flow, `MAP = 2 ṁ_air R T_int/(η_v V_d N)` with N in revolutions a second.
///
/// Below [`defaults::LEAST_MANIFOLD`] that least pressure is given, with a note.
///
/// # Errors
/// A value outside its range, or a pressure above the ambient: the engine cannot make that power without a blower.
pub fn manifold_for_air(
    geometry: &Geometry,
    speed: AngularVelocity,
    air: MassRate,
    volumetric: Ratio,
    inlet: Temperature,
    ambient: AbsolutePressure,
    scribe: &mut impl Scribe,
) -> Result<Manifold, BlowByError> {
    geometry.check()?;
    defaults::SPEED.check(speed)?;
    AIR.check(air)?;
    defaults::VOLUMETRIC.check(volumetric)?;
    defaults::INLET_TEMPERATURE.check(inlet)?;
    defaults::AMBIENT.check(ambient)?;
    let swept = geometry.displacement().base() * speed.base() / (2.0 * PI);
    let needed = 2.0 * air.base() * GAS_CONSTANT * inlet.base() / (volumetric.base() * swept);
    if needed > ambient.base() {
        let (needed_kpa, ambient_kpa) = (needed / 1e3, ambient.base() / 1e3);
        return Err(BlowByError::PowerOutOfReach { needed_kpa, ambient_kpa });
    }
    scribe.step(|| {
        Step::new("manifold pressure for this air flow", "MAP", "MAP = 2 ṁ_air R T_int/(η_v V_d N)", &DEFINITION)
            .with("ṁ_air", air)
            .with("T_int", inlet)
            .with_amount("η_v", Amount::of_kind(volumetric, Kind::Share))
            .with_amount("V_d", Amount::of_kind(geometry.displacement(), Kind::Displacement))
            .with("N", speed)
            .gives(AbsolutePressure::from_base(needed))
    });
    let least = defaults::LEAST_MANIFOLD.likely();
    if needed < least.base() {
        let text = format!(
            "This air flow would need {:.0} kPa in the manifold; a closed throttle gives about {:.0} kPa, which is used.",
            needed / 1e3,
            least.base() / 1e3
        );
        return Ok(Manifold { pressure: least, notes: vec![Note::new("manifold-at-least", Weight::Remark, text)] });
    }
    Ok(Manifold { pressure: AbsolutePressure::from_base(needed), notes: Vec::new() })
}
