//! Water and fuel in the crankcase: how wet the gas is, which walls stay dry, and what an oil temperature drives off.
//!
//! Burnt gas holds much water ([`burnt_water_share`]); blow-by is partly burnt, and fresh air thins it ([`WetGas`]). Below
//! the mix's [`dew_point`] water settles. The coldest wall stands between oil and outside air ([`wall_temperature`]), and
//! [`least_dilution`] says how much fresh air keeps it dry. [`condensation`] and [`by_set_point`] put it together for the
//! duties of a car. Petrol comes down with the unburnt part ([`mixed_fuel_share`]) and settles below [`fuel_dew_point`];
//! [`fuel_boil_off`] says how readily warm oil gives it off again.

mod burnt;
pub mod defaults;
mod error;
mod fuel;
mod mix;
mod petrol;
mod saturation;
mod set_point;
mod trip;
mod wall;

pub use burnt::{Burning, Fuel, burnt_water_share};
pub use error::MoistureError;
pub use fuel::{FuelBoilOff, OIL, PetrolCut, fuel_boil_off};
pub use mix::{AIR_TEMPERATURE, OutsideAir, WetGas};
pub use petrol::{FuelDew, Petrol, charge_fuel_share, fuel_dew_point, mixed_fuel_share};
pub use saturation::{CRANKCASE_PRESSURE, DewPoint, VAPOUR, WALL, dew_point, wall_saturation};
pub use set_point::{SetPointAnswer, SetPointOil, by_set_point};
pub use trip::{Condensation, DutyGas, MoistureFinding, OilWarmth, Surroundings, WallState, condensation, dilution};
pub use wall::{BLOW_BY, LeastDilution, OIL_TEMPERATURE, least_dilution, wall_temperature};
