//! Air through the radiator: how fast and how warm.

use super::HeatError;
use crate::quantity::si::{Ratio, TemperatureInterval, ThermodynamicTemperature, Velocity};
use crate::quantity::{Amount, Kind, Measured, Range};
use crate::scribe::{Scribe, Step};
use crate::source::heat as source;

/// Road speeds.
pub const ROAD_SPEED: Range = Range::new("road speed", Kind::RoadSpeed, 0.0, 140.0, "give a speed up to 500 km/h");
/// Ram shares.
pub const RAM_SHARE: Range =
    Range::new("ram share of road speed", Kind::Share, 0.0, 1.0, "0.08 to 0.25 is usual behind a grille");
/// Fan velocities.
pub const FAN_VELOCITY: Range =
    Range::new("face velocity from the fan", Kind::GasSpeed, 0.0, 30.0, "0 without a fan, else 1.5 to 4 m/s");
/// Draughts.
pub const DRAUGHT: Range =
    Range::new("air velocity at a hot radiator from its own heat", Kind::GasSpeed, 0.0, 2.0, "0.05 to 0.3 m/s");
/// Recirculation rises.
pub const RECIRCULATION: Range = Range::new(
    "rise of the radiator's inlet air at standstill",
    Kind::TemperatureDifference,
    0.0,
    60.0,
    "5 to 15 K is usual without a shroud and seals",
);
/// Road speeds at which recirculation has gone.
pub const GONE_AT: Range = Range::new(
    "road speed without recirculation",
    Kind::RoadSpeed,
    0.1,
    140.0,
    "15 to 50 km/h; use the lower end with a well sealed radiator",
);

/// What drives air through the radiator.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Airflow {
    /// Road speed; 0 at standstill.
    pub road_speed: Velocity,
    /// Face velocity from ram alone, as a share of road speed.
    pub ram_share: Ratio,
    /// Face velocity from the fan alone; 0 without a fan.
    pub fan_velocity: Velocity,
    /// Face velocity from the radiator's own heat alone, as air rises through and from it; 0 to leave it out, which errs to
    /// the hot side.
    pub draught: Velocity,
    /// Radiator inlet air above ambient at standstill, from hot air drawn in again.
    pub recirculation_rise: TemperatureInterval,
    /// Road speed at which that rise has faded out, in a straight line from standstill.
    pub recirculation_gone_at: Velocity,
}

impl Airflow {
    /// Air that meets the radiator at a known face velocity, without recirculation: a test stand or a measured point.
    #[must_use]
    pub fn known_face_velocity(velocity: Velocity) -> Self {
        Self {
            road_speed: Velocity::from_base(0.0),
            ram_share: Ratio::from_base(0.0),
            fan_velocity: velocity,
            draught: Velocity::from_base(0.0),
            recirculation_rise: TemperatureInterval::from_base(0.0),
            recirculation_gone_at: Velocity::from_base(1.0),
        }
    }

    /// Face velocity: v = √(v_ram² + v_fan² + v_draught²) with v_ram = ram share × road speed.
    ///
    /// # Errors
    /// An input out of range.
    pub fn face_velocity(&self, scribe: &mut impl Scribe) -> Result<Velocity, HeatError> {
        let ram = RAM_SHARE.check(self.ram_share)?.base() * ROAD_SPEED.check(self.road_speed)?.base();
        let fan = FAN_VELOCITY.check(self.fan_velocity)?.base();
        let draught = DRAUGHT.check(self.draught)?.base();
        let velocity = Velocity::from_base(ram.hypot(fan).hypot(draught));
        scribe.step(|| {
            Step::new(
                "Air velocity at the radiator's face",
                "v",
                "v = √((c_ram·v_road)² + v_fan² + v_draught²)",
                &source::FACE_VELOCITY,
            )
            .with_amount("c_ram", Amount::of_kind(self.ram_share, Kind::Share))
            .with("v_road", self.road_speed)
            .with_amount("v_fan", Amount::of_kind(self.fan_velocity, Kind::GasSpeed))
            .with_amount("v_draught", Amount::of_kind(self.draught, Kind::GasSpeed))
            .gives_amount(Amount::of_kind(velocity, Kind::GasSpeed))
        });
        Ok(velocity)
    }

    /// Rise of the inlet air above ambient: Δt = Δt₀·(1 − v_road/v_gone), 0 at and above v_gone.
    ///
    /// # Errors
    /// An input out of range.
    pub fn inlet_rise(&self, scribe: &mut impl Scribe) -> Result<TemperatureInterval, HeatError> {
        let standstill = RECIRCULATION.check(self.recirculation_rise)?.base();
        let gone = GONE_AT.check(self.recirculation_gone_at)?.base();
        let speed = ROAD_SPEED.check(self.road_speed)?.base();
        let rise = TemperatureInterval::from_base(standstill * (1.0 - speed / gone).max(0.0));
        scribe.step(|| {
            Step::new(
                "Inlet air above ambient, from recirculation",
                "Δt_in",
                "Δt_in = Δt₀·(1 − v_road/v_gone), at least 0",
                &source::RECIRCULATION,
            )
            .with("Δt₀", self.recirculation_rise)
            .with("v_road", self.road_speed)
            .with("v_gone", self.recirculation_gone_at)
            .gives(rise)
        });
        Ok(rise)
    }

    /// Temperature of the air at the radiator's inlet.
    ///
    /// # Errors
    /// An input out of range.
    pub fn inlet_temperature(
        &self,
        ambient: ThermodynamicTemperature,
        scribe: &mut impl Scribe,
    ) -> Result<ThermodynamicTemperature, HeatError> {
        let ambient = super::balance::AMBIENT_TEMPERATURE.check(ambient)?.base();
        Ok(ThermodynamicTemperature::from_base(ambient + self.inlet_rise(scribe)?.base()))
    }
}
