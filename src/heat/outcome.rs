//! What a heat balance can end in.

use super::RadiatorHeat;
use crate::note::Note;
use crate::quantity::si::{Power, Ratio, TemperatureInterval, ThermodynamicTemperature, Velocity, VolumeRate};

/// The end of a heat balance.
#[derive(Clone, Debug, PartialEq)]
#[allow(clippy::large_enum_variant)] // Nearly every outcome is the large one, and it is built thousands of times.
pub enum Outcome {
    /// The temperature settles.
    Steady(SteadyState),
    /// It does not settle below the limit: there is no temperature to give.
    None(NoSteadyState),
}

impl Outcome {
    /// The steady state, if there is one.
    #[must_use]
    pub const fn steady(&self) -> Option<&SteadyState> {
        match self {
            Self::Steady(state) => Some(state),
            Self::None(_) => None,
        }
    }
}

/// Who sets the temperature.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Ruler {
    /// The thermostat stays shut: losses alone carry the heat and the engine runs colder than the setting.
    LossesRule,
    /// The thermostat is partly open: another setting gives another temperature.
    ThermostatRules,
    /// The thermostat is wide open: the radiator sets the temperature and a lower setting changes nothing.
    RadiatorRules,
}

/// Where the temperature settles, and with what in hand.
#[derive(Clone, Debug, PartialEq)]
pub struct SteadyState {
    /// Coolant temperature at the engine's outlet.
    pub outlet_temperature: ThermodynamicTemperature,
    /// Opening of the thermostat there.
    pub opening: Ratio,
    /// Who sets the temperature.
    pub ruler: Ruler,
    /// Whether the radiator sets the temperature.
    pub radiator_limited: bool,
    /// Where the temperature would settle with the thermostat always wide open. `None` when the open radiator would
    /// cool to below the coolant's freezing point or −40 °C, or when inlet air warmer than the coolant would heat it.
    pub fully_open_temperature: Option<ThermodynamicTemperature>,
    /// Heat that could still be added before the thermostat is wide open (or, if that is cooler, the limit is
    /// reached); negative when the radiator rules.
    pub radiator_spare: Power,
    /// Heat that could still be added before the limit is reached.
    pub spare_to_limit: Power,
    /// The hottest ambient at which the thermostat still rules; `None` when it does not even at −50 °C.
    pub hottest_ambient_thermostat_rules: Option<ThermodynamicTemperature>,
    /// The hottest ambient at which the temperature still settles below the limit.
    pub hottest_ambient: Option<ThermodynamicTemperature>,
    /// The limit the balance was held to: the ceiling, or the end of the coolant's data.
    pub limit: ThermodynamicTemperature,
    /// What set the limit.
    pub limit_by: Limit,
    /// Margin to the limit.
    pub margin: TemperatureInterval,
    /// Air velocity at the radiator's face.
    pub face_velocity: Velocity,
    /// Air temperature at the radiator's inlet.
    pub inlet_air: ThermodynamicTemperature,
    /// Coolant flow through the radiator.
    pub coolant_flow: VolumeRate,
    /// What the radiator does there.
    pub radiator: RadiatorHeat,
    /// Heat lost from the engine's surface.
    pub loss: Power,
    /// How well the balance closes.
    pub closure: Closure,
    /// What weakens the answer.
    pub notes: Vec<Note>,
}

/// How well a balance closes.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Closure {
    /// Heat in less heat carried and lost.
    pub residual: Power,
    /// The most allowed; a larger residual is an error, never a result.
    pub allowed: Power,
    /// Evaluations of the radiator it took.
    pub evaluations: u32,
}

/// What a balance was held to.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Limit {
    /// The ceiling given: usually the boiling point less an allowance.
    Ceiling,
    /// The hottest coolant its data reach, 130 °C.
    FluidData,
}

/// Why there is no steady state.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Reason {
    /// Even wide open the radiator does not carry the heat at the limit.
    RadiatorTooSmall,
    /// Wide open it would, but the thermostat opens too late to settle below the limit.
    ThermostatTooLate,
}

/// No temperature below the limit carries the heat.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct NoSteadyState {
    /// The temperature it would have to settle below.
    pub limit: ThermodynamicTemperature,
    /// What set it.
    pub limit_by: Limit,
    /// Why.
    pub reason: Reason,
    /// Heat carried and lost at the limit.
    pub carried: Power,
    /// Heat that remains at the limit; it boils the coolant or warms it further.
    pub deficit: Power,
    /// Heat that remains at the limit with the thermostat wide open; negative when that would do.
    pub deficit_wide_open: Power,
}

impl std::fmt::Display for NoSteadyState {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        use crate::quantity::{Amount, UnitSystem::Si};
        let (limit, deficit) = (Amount::of(self.limit).show(Si), Amount::of(self.deficit).show(Si));
        match (self.reason, self.limit_by) {
            (Reason::ThermostatTooLate, _) => write!(
                f,
                "the thermostat opens too late: at {limit} it still holds {deficit} back; fit a lower setting"
            ),
            (Reason::RadiatorTooSmall, Limit::Ceiling) => {
                write!(f, "boils before the radiator can carry the heat: at {limit} it falls short by {deficit}")
            }
            (Reason::RadiatorTooSmall, Limit::FluidData) => write!(
                f,
                "the radiator cannot carry the heat: at {limit}, where the coolant's data end, it falls short by {deficit}"
            ),
        }
    }
}
