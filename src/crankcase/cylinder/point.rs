//! What the engine is doing, and the figures of the cycle around it.

use super::{BlowByError, Duty, Injection, defaults};
use crate::quantity::si::{
    Angle, AngularVelocity, AvailableEnergy, Pressure, Ratio, ThermodynamicTemperature as Temperature,
};
use crate::quantity::{AbsolutePressure, DEGREE, Estimate, Measured};

/// The state of the engine for one evaluation of the cylinder pressure.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct OperatingPoint {
    /// Speed of the crank.
    pub speed: AngularVelocity,
    /// Pressure in the inlet manifold.
    pub manifold: AbsolutePressure,
    /// Crank angle after dead centre by which half the charge is burnt.
    pub half_burnt: Angle,
    /// Crank angle of the Wiebe burn, which reaches 99.3 % of the heat.
    pub burn_duration: Angle,
    /// Share of the trapped gas left over from the cycle before.
    pub residual: Ratio,
    /// Mean gas temperature when the inlet closes.
    pub charge_temperature: Temperature,
    /// Share of the heat set free that goes to the walls.
    pub wall_heat: Ratio,
    /// Whether the charge burns; not on overrun with fuel cut.
    pub fired: bool,
}

impl OperatingPoint {
    /// Whether every value lies in its range.
    ///
    /// # Errors
    /// The first value that does not.
    pub fn check(&self) -> Result<(), BlowByError> {
        defaults::SPEED.check(self.speed)?;
        defaults::MANIFOLD.check(self.manifold)?;
        defaults::HALF_BURNT.check(self.half_burnt)?;
        defaults::BURN_DURATION.check(self.burn_duration)?;
        defaults::RESIDUAL.check(self.residual)?;
        defaults::CHARGE_TEMPERATURE.check(self.charge_temperature)?;
        defaults::WALL_HEAT.check(self.wall_heat)?;
        Ok(())
    }
}

/// What is assumed of a duty until a person knows better; source `cycle-figures`.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Figures {
    /// See [`OperatingPoint::speed`].
    pub speed: Estimate<AngularVelocity>,
    /// See [`OperatingPoint::manifold`].
    pub manifold: Estimate<AbsolutePressure>,
    /// See [`OperatingPoint::half_burnt`].
    pub half_burnt: Estimate<Angle>,
    /// See [`OperatingPoint::burn_duration`].
    pub burn_duration: Estimate<Angle>,
    /// See [`OperatingPoint::residual`].
    pub residual: Estimate<Ratio>,
    /// See [`OperatingPoint::charge_temperature`].
    pub charge_temperature: Estimate<Temperature>,
    /// See [`OperatingPoint::wall_heat`].
    pub wall_heat: Estimate<Ratio>,
    /// See [`OperatingPoint::fired`].
    pub fired: bool,
}

impl Figures {
    /// The point to expect.
    #[must_use]
    pub const fn likely(&self) -> OperatingPoint {
        OperatingPoint {
            speed: self.speed.likely,
            manifold: self.manifold.likely,
            half_burnt: self.half_burnt.likely,
            burn_duration: self.burn_duration.likely,
            residual: self.residual.likely,
            charge_temperature: self.charge_temperature.likely,
            wall_heat: self.wall_heat.likely,
            fired: self.fired,
        }
    }
}

type Three = [f64; 3];

pub(super) fn three<Q: Measured>(values: Three, factor: f64) -> Estimate<Q> {
    let [low, likely, high] = values.map(|value| Q::from_base(value * factor));
    Estimate { low, likely, high }
}

/// The figures of a duty. Idle, cruise and overrun pressures follow the load, the hill a share of the ambient
/// pressure (80 to 85 kPa at sea level), full throttle the ambient less 2 to 5 kPa; no pressure is put above that of
/// full throttle, which matters to a cruise at great height only.
///
/// # Errors
/// When the ambient pressure is out of range.
pub fn figures(duty: Duty, ambient: AbsolutePressure) -> Result<Figures, BlowByError> {
    let ambient = defaults::AMBIENT.check(ambient)?.base() / 1e3;
    let open = [ambient - 5.0, ambient - 3.8, ambient - 2.0];
    // Speed rpm, manifold kPa, half burn °, duration °, residual, charge temperature K, wall heat.
    let (speed, manifold, half, duration, residual, charge, wall): (Three, Three, Three, Three, Three, Three, Three) =
        match duty {
            Duty::Idle => (
                [700.0, 850.0, 1000.0],
                [30.0, 37.0, 45.0],
                [12.0, 20.0, 25.0],
                [70.0, 80.0, 90.0],
                [0.18, 0.25, 0.32],
                [370.0, 385.0, 400.0],
                [0.28, 0.35, 0.42],
            ),
            Duty::Cruise => (
                [2000.0, 2700.0, 3400.0],
                [45.0, 53.0, 62.0],
                [7.0, 10.0, 18.0],
                [50.0, 60.0, 70.0],
                [0.08, 0.12, 0.16],
                [350.0, 365.0, 380.0],
                [0.20, 0.25, 0.30],
            ),
            Duty::Hill => (
                [2800.0, 3500.0, 4200.0],
                [0.75 * ambient, 0.81 * ambient, 0.88 * ambient],
                [7.0, 10.0, 18.0],
                [45.0, 55.0, 65.0],
                [0.05, 0.08, 0.11],
                [340.0, 355.0, 370.0],
                [0.14, 0.18, 0.23],
            ),
            Duty::FullThrottle => (
                [4800.0, 5500.0, 6200.0],
                open,
                [7.0, 10.0, 20.0],
                [40.0, 50.0, 60.0],
                [0.04, 0.06, 0.09],
                [330.0, 342.0, 360.0],
                [0.11, 0.15, 0.20],
            ),
            Duty::Overrun => (
                [2500.0, 3300.0, 4000.0],
                [18.0, 22.0, 28.0],
                [7.0, 10.0, 18.0],
                [50.0, 60.0, 70.0],
                [0.20, 0.30, 0.40],
                [350.0, 370.0, 390.0],
                [0.0, 0.0, 0.0],
            ),
        };
    let [low, likely, high] = [0, 1, 2].map(|i| manifold[i].min(open[i]) * 1e3);
    let pressure = AbsolutePressure::from_base;
    Ok(Figures {
        speed: Estimate {
            low: defaults::rpm(speed[0]),
            likely: defaults::rpm(speed[1]),
            high: defaults::rpm(speed[2]),
        },
        manifold: Estimate { low: pressure(low), likely: pressure(likely), high: pressure(high) },
        half_burnt: three(half, DEGREE),
        burn_duration: three(duration, DEGREE),
        residual: three(residual, 1.0),
        charge_temperature: three(charge, 1.0),
        wall_heat: three(wall, 1.0),
        fired: duty != Duty::Overrun,
    })
}

/// Figures of valves, gas exchange and fuel; those of a petrol engine are alike at every duty.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Cycle {
    /// Default [`defaults::inlet_closing`].
    pub inlet_closing: Angle,
    /// Default [`defaults::exhaust_opening`].
    pub exhaust_opening: Angle,
    /// Default [`defaults::ram`].
    pub ram: Ratio,
    /// Default [`defaults::ram_from`].
    pub ram_from: Ratio,
    /// Default [`defaults::back_pressure`].
    pub back_pressure: Pressure,
    /// Default [`defaults::blow_down`].
    pub blow_down: Angle,
    /// Default [`defaults::inlet_decay`].
    pub inlet_decay: Angle,
    /// Default [`defaults::air_fuel`].
    pub air_fuel: Ratio,
    /// Default [`defaults::heating_value`].
    pub heating_value: AvailableEnergy,
    /// Default [`defaults::combustion`].
    pub combustion: Ratio,
    /// Fuel injected into the trapped air, as a diesel does; without it the charge brings its fuel along.
    pub injection: Option<Injection>,
}

impl Default for Cycle {
    /// The values to expect.
    fn default() -> Self {
        Self {
            inlet_closing: defaults::inlet_closing().likely(),
            exhaust_opening: defaults::exhaust_opening().likely(),
            ram: defaults::ram().likely(),
            ram_from: defaults::ram_from().likely(),
            back_pressure: defaults::back_pressure().likely(),
            blow_down: defaults::blow_down().likely(),
            inlet_decay: defaults::inlet_decay().likely(),
            air_fuel: defaults::air_fuel().likely(),
            heating_value: defaults::heating_value().likely(),
            combustion: defaults::combustion().likely(),
            injection: None,
        }
    }
}

impl Cycle {
    /// Whether every value lies in its range.
    ///
    /// # Errors
    /// The first value that does not.
    pub fn check(&self) -> Result<(), BlowByError> {
        defaults::inlet_closing().check(self.inlet_closing)?;
        defaults::exhaust_opening().check(self.exhaust_opening)?;
        defaults::ram().check(self.ram)?;
        defaults::ram_from().check(self.ram_from)?;
        defaults::back_pressure().check(self.back_pressure)?;
        defaults::blow_down().check(self.blow_down)?;
        defaults::inlet_decay().check(self.inlet_decay)?;
        defaults::air_fuel().check(self.air_fuel)?;
        defaults::heating_value().check(self.heating_value)?;
        defaults::combustion().check(self.combustion)?;
        self.injection.map_or(Ok(()), |injection| injection.check())
    }
}
