//! Gas flow as a volume, always with the state it is counted in: the same leak differs by 24 % between 20 °C and 90 °C.

use super::BlowByError;
use crate::crankcase::flow_function::GAS_CONSTANT;
use crate::fluid::crankcase_gas;
use crate::quantity::si::{MassRate, ThermodynamicTemperature as Temperature, VolumeRate};
use crate::quantity::{AbsolutePressure, Kind, Measured, Range};

static TEMPERATURE: Range =
    Range::new("gas temperature", Kind::Temperature, 200.0, 800.0, "as read where the gas flows");
static PRESSURE: Range =
    Range::new("gas pressure", Kind::AbsolutePressure, 1e3, 1e6, "absolute: the ambient plus what a gauge shows");

/// Standard volume flow: the volume the gas would take at 101.325 kPa and 20 °C (1.2041 kg/m³).
#[must_use]
pub fn standard_volume_flow(flow: MassRate) -> VolumeRate {
    VolumeRate::from_base(flow.base() / standard_density())
}

/// Volume flow at a temperature and pressure, `V̇ = ṁ R T/p` with R = 287.05 J/(kg·K).
///
/// # Errors
/// A temperature outside 200 to 800 K, or a pressure outside 1 kPa to 1 MPa.
pub fn volume_flow(
    flow: MassRate,
    temperature: Temperature,
    pressure: AbsolutePressure,
) -> Result<VolumeRate, BlowByError> {
    let (t, p) = (TEMPERATURE.check(temperature)?.base(), PRESSURE.check(pressure)?.base());
    Ok(VolumeRate::from_base(flow.base() * GAS_CONSTANT * t / p))
}

/// The mass flow behind a volume flow read at a temperature and pressure: how a meter reading is put in.
///
/// # Errors
/// A temperature outside 200 to 800 K, or a pressure outside 1 kPa to 1 MPa.
pub fn mass_flow(
    flow: VolumeRate,
    temperature: Temperature,
    pressure: AbsolutePressure,
) -> Result<MassRate, BlowByError> {
    let (t, p) = (TEMPERATURE.check(temperature)?.base(), PRESSURE.check(pressure)?.base());
    Ok(MassRate::from_base(flow.base() * p / (GAS_CONSTANT * t)))
}

/// The mass flow of a standard volume flow.
pub(super) fn from_standard(flow: VolumeRate) -> MassRate {
    MassRate::from_base(flow.base() * standard_density())
}

/// kg/m³.
fn standard_density() -> f64 {
    crankcase_gas::standard_pressure().base() / (GAS_CONSTANT * crankcase_gas::standard_temperature().base())
}
