//! Sources of the fluid part.

use super::Source;
use super::Standing::{Assumption, Definition, FromMemory, Published};

/// Every entry of this part.
pub static ALL: &[&Source] = &[
    &WATER_SATURATION,
    &WATER_TABLE,
    &SOLUTIONS,
    &DILUTE_JOIN,
    &STRONG_JOIN,
    &PURE_GLYCOL,
    &GROWTH_ABOVE_100,
    &STRAIGHT_ABOVE_100,
    &GLYCOL_VAPOUR,
    &MIXED_VAPOUR,
    &FREEZING_ALLOWANCE,
    &SECOND_SET,
    &VOLUME_TO_MASS,
    &CONCENTRATE,
    &STANDARD_ATMOSPHERE,
    &WEATHER,
    &AIR,
    &AIR_VISCOSITY,
    &CRANKCASE_GAS,
];

/// Water at saturation.
pub static WATER_SATURATION: Source = Source::new(
    "iapws-sr1-86",
    "IAPWS Supplementary Release SR1-86(1992), Saturation Properties of Ordinary Water Substance; W. Wagner, A. Pruss, \
     J. Phys. Chem. Ref. Data 22 (1993) 783; coefficients and check values read in public transcriptions",
    Published,
);
/// Specific heat, viscosity and conductivity of water.
pub static WATER_TABLE: Source = Source::new(
    "iapws-liquid",
    "IAPWS-IF97 (R7-97), viscosity R12-08 and thermal conductivity R15-11, tabulated with the open library iapws 1.5.5",
    Definition,
);
/// The recommended set for glycol solutions.
pub static SOLUTIONS: Source = Source::new(
    "melinder-2010",
    "Å. Melinder, Properties of Secondary Working Fluids for Indirect Systems, International Institute of \
     Refrigeration, 2010, coefficients as distributed with the open library CoolProp 8.0.0",
    Published,
);
/// The line between water and 5 % glycol.
pub static DILUTE_JOIN: Source = Source::new(
    "dilute-join",
    "Straight line in the mass share between water (IAPWS) and the solution set at 5 % glycol",
    Assumption,
);
/// The line between 60 % and pure glycol.
pub static STRONG_JOIN: Source = Source::new(
    "strong-join",
    "Straight line in the mass share between the solution set at 60 % and the pure glycol",
    Assumption,
);
/// The pure glycols.
pub static PURE_GLYCOL: Source = Source::new(
    "pure-glycol",
    "Polynomials fitted to the DIPPR correlations in Perry's Chemical Engineers' Handbook, 8th edition, and to the \
     curves of the open library thermo 0.6.1",
    Definition,
);
/// Density above 100 °C.
pub static GROWTH_ABOVE_100: Source = Source::new(
    "growth-above-100",
    "Exponent fitted to the density ratio 98.9 to 121.1 °C of inhibited ethylene glycol (ASHRAE Handbook, \
     Fundamentals, physical properties of secondary coolants); for propylene glycol to the slope at 90 to 100 °C",
    Published,
);
/// Other properties above 100 °C.
pub static STRAIGHT_ABOVE_100: Source = Source::new(
    "straight-above-100",
    "Straight continuation of the values at 80 and 100 °C; unchecked, good to 3 % (specific heat), 5 % (conductivity), \
     20 % (viscosity)",
    Assumption,
);
/// Vapour pressure of the pure glycols.
pub static GLYCOL_VAPOUR: Source = Source::new(
    "dippr-101",
    "DIPPR equation 101 with the coefficients of Perry's Chemical Engineers' Handbook, 8th edition, table 2-8, as \
     distributed with the open library chemicals 1.5.2",
    Published,
);
/// Vapour pressure of the mix.
pub static MIXED_VAPOUR: Source = Source::new(
    "margules-fit",
    "Raoult's law with one-constant Margules activity coefficients, fitted to modified UNIFAC (Dortmund) and to \
     handbook boiling points recalled from memory; good to 1 K below 55 % glycol by mass",
    FromMemory,
);
/// What a builder should count on above the computed freezing point.
pub static FREEZING_ALLOWANCE: Source = Source::new(
    "freezing-allowance",
    "Largest difference between the solution set and the set for inhibited ethylene glycol: 3.3 K, taken as 3 K",
    Assumption,
);
/// The second published density set.
pub static SECOND_SET: Source = Source::new(
    "second-density-set",
    "ASHRAE Handbook, Fundamentals, physical properties of secondary coolants: inhibited glycols, as distributed with \
     the open library CoolProp 8.0.0",
    Published,
);
/// Shares by volume and by mass.
pub static VOLUME_TO_MASS: Source = Source::new(
    "volume-to-mass",
    "Mass balance of volumes measured at 20 °C before mixing; densities from Perry's Chemical Engineers' Handbook, \
     8th edition, and IAPWS",
    Definition,
);
/// Bottled concentrate.
pub static CONCENTRATE: Source =
    Source::new("concentrate-strength", "Glycol in bottled concentrate, 90 to 97 % by mass", Assumption);
/// Pressure and altitude.
pub static STANDARD_ATMOSPHERE: Source =
    Source::new("iso-2533", "ISO 2533:1975, Standard Atmosphere, the same as US Standard Atmosphere 1976", FromMemory);
/// Weather.
pub static WEATHER: Source = Source::new("weather", "Weather moves the pressure by about 3 % either way", Assumption);
/// Air as an ideal gas.
pub static AIR: Source = Source::new(
    "dry-air",
    "Dry air as an ideal gas, R = 287.05 J/(kg·K) after ISO 2533:1975; specific heat 1006 J/(kg·K) near 30 °C",
    FromMemory,
);
/// Viscosity of air.
pub static AIR_VISCOSITY: Source = Source::new(
    "sutherland-air",
    "Sutherland's law for air with 1.716e-5 Pa·s at 273.15 K and 110.4 K, F. M. White, Viscous Fluid Flow",
    FromMemory,
);
/// Gas in the crankcase.
pub static CRANKCASE_GAS: Source = Source::new(
    "crankcase-gas",
    "Blow-by taken as air: R = 287.05 J/(kg·K), ratio of specific heats 1.40 for ventilation and 1.35 past the rings, \
     90 °C (60 to 130 °C)",
    Assumption,
);
