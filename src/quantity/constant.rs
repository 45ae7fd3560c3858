//! Constants of nature and of standards, in the coherent SI unit, one of each.

/// Standard acceleration of free fall, m/s².
pub(crate) const GRAVITY: f64 = 9.806_65;
/// 0 °C, K.
pub(crate) const ZERO_CELSIUS: f64 = 273.15;
/// The standard atmosphere, Pa: sea level, and the pressure of a standard litre.
pub(crate) const ATMOSPHERE: f64 = 101_325.0;
/// One degree of angle, rad.
pub(crate) const DEGREE: f64 = std::f64::consts::PI / 180.0;
/// One revolution a minute, rad/s.
pub(crate) const RPM: f64 = std::f64::consts::PI / 30.0;
