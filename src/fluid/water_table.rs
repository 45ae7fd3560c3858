//! Specific heat, viscosity and conductivity of saturated liquid water, interpolated.

use crate::numeric::{MonotoneCubic, TableError};
use std::sync::LazyLock;

/// A column of the table as a curve over degrees Celsius.
pub(super) type Curve = LazyLock<Result<MonotoneCubic, TableError>>;

/// Specific heat, J/(kg·K).
pub(super) static SPECIFIC_HEAT: Curve = LazyLock::new(|| column(|row| row.1));
/// Viscosity, Pa·s.
pub(super) static VISCOSITY: Curve = LazyLock::new(|| column(|row| row.2 * 1e-6));
/// Conductivity, W/(m·K).
pub(super) static CONDUCTIVITY: Curve = LazyLock::new(|| column(|row| row.3));

fn column(pick: impl Fn(&Row) -> f64) -> Result<MonotoneCubic, TableError> {
    let points: Vec<(f64, f64)> = TABLE.iter().map(|row| (row.0, pick(row))).collect();
    MonotoneCubic::new(&points)
}

/// Temperature in °C, specific heat in J/(kg·K), viscosity in µPa·s, conductivity in W/(m·K).
type Row = (f64, f64, f64, f64);

/// Saturated liquid: specific heat by IAPWS-IF97, viscosity by IAPWS R12-08, conductivity by IAPWS R15-11.
const TABLE: [Row; 27] = [
    (0.0, 4219.90, 1791.352, 0.55560),
    (5.0, 4205.38, 1518.316, 0.56772),
    (10.0, 4195.83, 1305.992, 0.57871),
    (15.0, 4189.43, 1137.624, 0.58874),
    (20.0, 4185.10, 1001.627, 0.59795),
    (25.0, 4182.18, 890.036, 0.60646),
    (30.0, 4180.28, 797.224, 0.61434),
    (35.0, 4179.19, 719.120, 0.62166),
    (40.0, 4178.78, 652.719, 0.62845),
    (45.0, 4178.99, 595.758, 0.63475),
    (50.0, 4179.76, 546.504, 0.64059),
    (55.0, 4181.08, 503.613, 0.64599),
    (60.0, 4182.95, 466.024, 0.65098),
    (65.0, 4185.34, 432.893, 0.65555),
    (70.0, 4188.25, 403.539, 0.65974),
    (75.0, 4191.68, 377.407, 0.66354),
    (80.0, 4195.63, 354.044, 0.66698),
    (85.0, 4200.10, 333.070, 0.67006),
    (90.0, 4205.09, 314.172, 0.67278),
    (95.0, 4210.60, 297.085, 0.67517),
    (100.0, 4216.65, 281.585, 0.67722),
    (105.0, 4223.23, 267.482, 0.67894),
    (110.0, 4230.36, 254.612, 0.68035),
    (115.0, 4238.07, 242.836, 0.68145),
    (120.0, 4246.37, 232.033, 0.68224),
    (125.0, 4255.29, 222.098, 0.68274),
    (130.0, 4264.85, 212.940, 0.68295),
];
