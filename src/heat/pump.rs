//! The coolant pump: flow through the radiator.

use super::HeatError;
use crate::quantity::si::{AngularVelocity, Ratio, VolumeRate};
use crate::quantity::{Amount, Kind, Measured, RPM, Range};
use crate::scribe::{Scribe, Step};
use crate::source::heat as source;

/// 1000 rpm in rad/s.
pub(super) const THOUSAND_RPM: f64 = 1000.0 * RPM;

/// Engine speeds.
pub const ENGINE_SPEED: Range =
    Range::new("engine speed", Kind::RotationalSpeed, 1.047, 2094.4, "give a speed from 10 to 20 000 rpm");
/// Pump flows at 1000 rpm.
pub const PUMP_FLOW: Range =
    Range::new("pump flow at 1000 rpm", Kind::CoolantFlow, 1e-6, 1e-2, "0.2 to 0.8 L/s is usual for car engines");
/// Openings of the thermostat, and shares of the wide-open flow it lets pass.
pub const OPENING: Range = Range::new("opening of the thermostat", Kind::Share, 0.0, 1.0, "");

/// A pump driven by the engine whose flow is proportional to speed.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Pump {
    /// Flow through the radiator at 1000 rpm with the thermostat wide open.
    pub flow_at_1000_rpm: VolumeRate,
}

impl Pump {
    /// Flow through the radiator: V̇ = V̇₁₀₀₀·(N/1000 rpm)·φ, with φ the share the thermostat lets pass. Cavitation and the heater's branch are not reckoned.
    ///
    /// # Errors
    /// A pump flow, speed or opening out of range.
    pub fn flow(
        &self,
        speed: AngularVelocity,
        passed: Ratio,
        scribe: &mut impl Scribe,
    ) -> Result<VolumeRate, HeatError> {
        let per_thousand = PUMP_FLOW.check(self.flow_at_1000_rpm)?.base();
        let thousands = ENGINE_SPEED.check(speed)?.base() / THOUSAND_RPM;
        let share = OPENING.check(passed)?.base();
        let flow = VolumeRate::from_base(per_thousand * thousands * share);
        scribe.step(|| {
            Step::new("Coolant flow through the radiator", "V̇", "V̇ = V̇₁₀₀₀·(N/1000 rpm)·φ", &source::RADIATOR_CLASS)
                .with_amount("V̇₁₀₀₀", Amount::of_kind(self.flow_at_1000_rpm, Kind::CoolantFlow))
                .with("N", speed)
                .with_amount("φ", Amount::of_kind(passed, Kind::Share))
                .gives_amount(Amount::of_kind(flow, Kind::CoolantFlow))
        });
        Ok(flow)
    }
}
